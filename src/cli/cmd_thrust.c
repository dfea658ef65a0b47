#include "cli.h"

/* The page before the screen: what is printed last is not lost where a file is refused. */
static Status write_page(const Request *request, const Report *report, Arena *arena, Error *err)
{
    if (!request->given[OPTION_HTML]) return STATUS_OK;
    Text page = text_start(arena);
    report_html(report, &page);
    return file_write(request->value[OPTION_HTML], page.bytes, page.length, err);
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const Report *report =
        report_thrust(&answer->source, request->given[OPTION_HTML], answer->arena);
    TRY(write_page(request, report, answer->arena, err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_thrust_json(&answer->source, &out);
    else
        report_text(report, &out);
    return output_print(&out, err);
}

Status cmd_thrust(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    Status status = show(request, &answer, err);
    if (status == STATUS_OK) status = answer_verdict(&answer);
    answer_free(&answer);
    return status;
}
