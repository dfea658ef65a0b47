/* The plan of the jacking day. */
#include "cli.h"

static Status plans_make(const Answer *answer, const JackPlan **plan, int count, Error *err)
{
    for (int i = 0; i < count; i++) {
        const JackWish wish = {answer->source.bridge, answer->source.answer, i};
        TRY(jacking_plan(&wish, answer->arena, answer->scratch, &plan[i], err));
    }
    return STATUS_OK;
}

/* Files before the screen: what is printed last is not lost where a file is refused. */
static Status write_files(const Request *request, const Answer *answer, const JackPlan *const *plan,
                          int count, Error *err)
{
    if (!request->given[OPTION_OUT] && !request->given[OPTION_HTML]) return STATUS_OK;
    char date[PAPER_DATE], revision[PAPER_REVISION];
    TRY(output_date(request, date, err));
    paper_revision(answer->bytes, answer->size, revision);
    const Report *report = report_jacking(&answer->source, plan, count, true, answer->arena);
    const PaperSettings settings = {paper_size(answer->source.units), date, revision};
    if (request->given[OPTION_HTML]) TRY(output_page(report, request->value[OPTION_HTML], err));
    if (!request->given[OPTION_OUT]) return STATUS_OK;
    return output_pdf(report, &settings, request->value[OPTION_OUT], err);
}

static Status verdict(const Answer *answer, const JackPlan *const *plan, int count)
{
    Status status = STATUS_OK;
    for (int i = 0; i < count; i++) {
        const CheckState state = checks_verdict(plan[i]->rows);
        if (state == CHECK_FAIL) return STATUS_NOT_MET;
        if (state == CHECK_UNPROVEN) status = STATUS_UNPROVEN;
    }
    return answer->source.answer->met ? status : STATUS_NOT_MET;
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const int count = jacking_units(answer->source.answer);
    const JackPlan **plan = ARENA_NEW(answer->arena, const JackPlan *, count);
    TRY(plans_make(answer, plan, count, err));
    TRY(write_files(request, answer, plan, count, err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_jacking_json(&answer->source, plan, count, &out);
    else
        report_text(report_jacking(&answer->source, plan, count, false, answer->arena), &out);
    TRY(output_print(&out, err));
    return verdict(answer, plan, count);
}

Status cmd_jacking(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
