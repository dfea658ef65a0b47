/* What was built, by the log: the bridge of the log, what the readings say of it, its life with that. */
#include <math.h>
#include <string.h>

#include "clench/sitelog.h"
#include "clench/text.h"

/* The bridge of the log, not the file beside it: that may have been changed since. */
static Status bridge_again(SiteLog *site, SiteAsBuilt *b, Diagnostics *list, Error *err)
{
    Node *root;
    const char *const text = site->book.bridge;
    TRY(yaml_read(text, strlen(text), site->arena, &root, list));
    TRY(report_find(root, site->book.day.plan->thrust_N, site->arena, site->scratch, &b->report,
                    list, err));
    b->root = root;
    b->report.file = site->book.file;
    b->report.units = site->book.day.units;
    return STATUS_OK;
}

/* The day on which the last hold was read, of the file's calendar; NAN without one. */
static Status day_of(const char *zero, const SiteFit *fit, double *day, Error *err)
{
    double zero_day;
    char text[32];
    *day = NAN;
    if (!zero) return STATUS_OK;
    snprintf(text, sizeof text, "%.10sT00:00:00Z", zero);
    if (strlen(zero) != 10 || logbook_time(text, NULL, &zero_day, err) != STATUS_OK)
        return error_set(err, STATUS_BAD_INPUT, "--calendar: '%.40s' is no date such as 2031-01-15",
                         zero);
    *day = isfinite(fit->locked_day) ? floor(fit->locked_day - zero_day) : (double)NAN;
    return STATUS_OK;
}

static double value_of(const Bridge *bridge, const char *path)
{
    return bridge_value_at(bridge, path)->value;
}

static Status life_again(SiteLog *site, int unit, const char *calendar, SiteAsBuilt *b, Error *err)
{
    SiteLifeWish wish = {.root = b->root, .design = b->report.answer, .fit = &b->fit, .unit = unit};
    Error why = {0};
    TRY(day_of(calendar, &b->fit, &wish.jacking_day, err));
    const Status status = site_life(&wish, site->arena, site->scratch, &b->built, &why);
    if (status == STATUS_OK) {
        b->source.built = &b->built;
        if (isfinite(wish.jacking_day)) b->source.calendar = calendar;
    } else {
        b->source.built_why = arena_text(site->arena, why.text);
    }
    return STATUS_OK;
}

Status sitelog_built(SiteLog *site, int unit, const char *calendar, SiteAsBuilt *b,
                     Diagnostics *list, Error *err)
{
    StoreChain chain;
    Error why = {0};
    *b = (SiteAsBuilt){.root = NULL};
    TRY(store_log_verify(site->log, NULL, &chain, err));
    TRY(bridge_again(site, b, list, err));
    logbook_source(&site->book, site->arena, &b->source);
    b->source.report = &b->report;
    b->source.records = chain.count;
    b->source.hash = arena_text(site->arena, chain.last);
    if (chain.broken)
        b->source.broken = arena_printf(site->arena, "at record %ld: %s", chain.broken, chain.why);
    const SiteOff off = {value_of(b->report.bridge, "jacking.deck_modulus_off"),
                         value_of(b->report.bridge, "jacking.girder_stiffness_off")};
    if (site_fit(b->source.day, b->source.reading, b->source.count, off, site->arena, &b->fit,
                 &why) != STATUS_OK) {
        b->source.fit_why = arena_text(site->arena, why.text);
        b->source.built_why = "the readings tell nothing of the deck yet";
        return STATUS_OK;
    }
    b->source.fit = &b->fit;
    return life_again(site, unit, calendar, b, err);
}
