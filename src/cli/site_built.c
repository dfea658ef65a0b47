/* What was built, by the log; and the record of the jacking day. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "site.h"

typedef struct Built {
    ReportSource report;
    SiteSource source;
    SiteFit fit;
    SiteBuilt built;
    const Node *root;
} Built;

/* The bridge of the log, not the file beside it: that may have been changed since. */
static Status bridge_again(const Request *request, SiteLog *site, Built *b, Error *err)
{
    Node *root;
    const char *const text = site->book.bridge;
    Diagnostics *list = ARENA_NEW(site->arena, Diagnostics, 1);
    if (yaml_read(text, strlen(text), site->arena, &root, list) != STATUS_OK)
        return diagnostics_print(list, request->file, err);
    const Status status = report_find(root, site->book.day.plan->thrust_N, site->arena,
                                      site->scratch, &b->report, list, err);
    if (list->count) return diagnostics_print(list, request->file, err);
    TRY(status);
    b->root = root;
    b->report.file = site->book.file;
    b->report.units = site->book.day.units;
    return STATUS_OK;
}

/* The day on which the last hold was read, of the file's calendar; NAN without one. */
static Status day_of(const Request *request, const SiteFit *fit, double *day, Error *err)
{
    double zero_day;
    char text[32];
    const char *const zero = request->value[OPTION_CALENDAR];
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

static Status life_again(const Request *request, SiteLog *site, Built *b, Error *err)
{
    SiteLifeWish wish = {.root = b->root, .design = b->report.answer, .fit = &b->fit};
    Error why = {0};
    TRY(day_of(request, &b->fit, &wish.jacking_day, err));
    TRY(site_unit(request, &wish.unit, err));
    const Status status = site_life(&wish, site->arena, site->scratch, &b->built, &why);
    if (status == STATUS_OK) {
        b->source.built = &b->built;
        if (isfinite(wish.jacking_day)) b->source.calendar = request->value[OPTION_CALENDAR];
    } else {
        b->source.built_why = arena_text(site->arena, why.text);
    }
    return STATUS_OK;
}

static Status built_make(const Request *request, SiteLog *site, Built *b, Error *err)
{
    StoreChain chain;
    Error why = {0};
    *b = (Built){.root = NULL};
    TRY(store_log_verify(site->log, NULL, &chain, err));
    TRY(bridge_again(request, site, b, err));
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
    return life_again(request, site, b, err);
}

static Status verdict_of(const Built *b)
{
    if (b->source.broken || (b->source.built && !b->built.ever)) return STATUS_NOT_MET;
    if (!b->source.built || !b->built.always) return STATUS_UNPROVEN;
    return b->fit.even_N.told ? STATUS_OK : STATUS_UNPROVEN;
}

static Status fit(const Request *request, SiteLog *site, Error *err)
{
    Built *const b = ARENA_NEW(site->arena, Built, 1);
    TRY(built_make(request, site, b, err));
    Text text = text_start(site->arena);
    if (request->given[OPTION_JSON])
        report_site_fit_json(&b->source, &text);
    else
        report_text(report_site_fit(&b->source, site->arena), &text);
    TRY(output_print(&text, err));
    return verdict_of(b);
}

Status site_fit_command(const Request *request, Error *err)
{
    return site_act(request, true, fit, err);
}

static Status record(const Request *request, SiteLog *site, Error *err)
{
    Built *const b = ARENA_NEW(site->arena, Built, 1);
    char date[PAPER_DATE], revision[PAPER_REVISION];
    TRY(output_date(request, date, err));
    TRY(built_make(request, site, b, err));
    paper_revision(site->book.bridge, strlen(site->book.bridge), revision);
    const Report *const report = report_site_record(&b->source, site->arena);
    const PaperSettings settings = {paper_size(b->report.units), date, revision};
    if (request->given[OPTION_HTML]) TRY(output_page(report, request->value[OPTION_HTML], err));
    if (request->given[OPTION_OUT])
        TRY(output_pdf(report, &settings, request->value[OPTION_OUT], err));
    TRY(site_say(site, err, "%ld records, last hash %s\n", b->source.records, b->source.hash));
    return verdict_of(b);
}

Status site_record(const Request *request, Error *err)
{
    if (!request->given[OPTION_OUT] && !request->given[OPTION_HTML])
        return error_set(err, STATUS_BAD_INPUT,
                         "clench site record needs a file to write: -o OUT or --html OUT");
    return site_act(request, true, record, err);
}
