/* What was built, by the log; and the record of the jacking day. */
#include <string.h>

#include "site.h"

/* Errors of the log's bridge are printed. */
static Status built_make(const Request *request, SiteLog *site, SiteAsBuilt *b, Error *err)
{
    int unit;
    Diagnostics *const list = ARENA_NEW(site->arena, Diagnostics, 1);
    TRY(site_unit(request, &unit, err));
    const Status status = sitelog_built(site, unit, request->value[OPTION_CALENDAR], b, list, err);
    return list->count ? diagnostics_print(list, request->file, err) : status;
}

static Status verdict_of(const SiteAsBuilt *b)
{
    if (b->source.broken || (b->source.built && !b->built.ever)) return STATUS_NOT_MET;
    if (!b->source.built || !b->built.always) return STATUS_UNPROVEN;
    return b->fit.even_N.told ? STATUS_OK : STATUS_UNPROVEN;
}

static Status fit(const Request *request, SiteLog *site, Error *err)
{
    SiteAsBuilt *const b = ARENA_NEW(site->arena, SiteAsBuilt, 1);
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
    SiteAsBuilt *const b = ARENA_NEW(site->arena, SiteAsBuilt, 1);
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
