/* The panels: what the yard casts and the crew sets. No run of the stages is needed. */
#include "cli.h"

/* Files before the screen: what is printed last is not lost where a file is refused. */
static Status write_files(const Request *request, const Answer *answer, const PanelSource *panels,
                          Error *err)
{
    if (!request->given[OPTION_OUT] && !request->given[OPTION_HTML]) return STATUS_OK;
    char date[PAPER_DATE], revision[PAPER_REVISION];
    TRY(output_date(request, date, err));
    paper_revision(answer->bytes, answer->size, revision);
    const Report *report = report_panels(panels, true, answer->arena);
    const PaperSettings settings = {paper_size(answer->source.units), date, revision};
    if (request->given[OPTION_HTML]) TRY(output_page(report, request->value[OPTION_HTML], err));
    if (!request->given[OPTION_OUT]) return STATUS_OK;
    return output_pdf(report, &settings, request->value[OPTION_OUT], err);
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    PanelSource panels;
    TRY(report_panels_find(&answer->source, answer->arena, &panels, err));
    TRY(write_files(request, answer, &panels, err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_panels_json(&panels, &out);
    else
        report_text(report_panels(&panels, false, answer->arena), &out);
    TRY(output_print(&out, err));
    return report_panels_met(&panels) ? STATUS_OK : STATUS_NOT_MET;
}

Status cmd_panels(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_read(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
