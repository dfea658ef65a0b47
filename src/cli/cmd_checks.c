#include "cli.h"

static Status verdict_status(const CheckList *list)
{
    const CheckState verdict = checks_verdict(list);
    if (verdict == CHECK_FAIL) return STATUS_NOT_MET;
    return verdict == CHECK_UNPROVEN ? STATUS_UNPROVEN : STATUS_OK;
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const ReportSource *source = &answer->source;
    const CheckCase with = {
        .bridge = source->bridge, .answer = source->answer, .arena = answer->arena};
    const CheckList *list;
    TRY(checks_run(&with, &list, err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_checks_json(source, list, &out);
    else
        report_text(report_checks(source, list, request->given[OPTION_ALL], answer->arena), &out);
    TRY(output_print(&out, err));
    return verdict_status(list);
}

Status cmd_checks(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
