/* The four ways to connect the panels. */
#include "clench/compare.h"
#include "cli.h"

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const CompareAnswer *ways;
    TRY(compare_find(answer->source.bridge, answer->source.answer, answer->arena, answer->scratch,
                     &ways, err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_compare_json(&answer->source, ways, &out);
    else
        report_text(report_compare(&answer->source, ways, answer->arena), &out);
    return output_print(&out, err);
}

Status cmd_compare(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
