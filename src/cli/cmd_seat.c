/* The seats of the panels: shims, haunches and grout from a survey of the girders. */
#include <math.h>
#include <string.h>

#include "cli.h"

static bool ends_in(const char *path, const char *end)
{
    const size_t length = strlen(path), tail = strlen(end);
    return length > tail && strcmp(path + length - tail, end) == 0;
}

/* -o by what the file is called; files before the screen. */
static Status write_file(const Request *request, const Answer *answer, const SeatPlan *plan,
                         Error *err)
{
    const char *path = request->value[OPTION_OUT];
    if (request->given[OPTION_HTML])
        TRY(output_page(report_seating(&answer->source, plan, true, answer->arena),
                        request->value[OPTION_HTML], err));
    if (!request->given[OPTION_OUT]) return STATUS_OK;
    if (ends_in(path, ".json") || ends_in(path, ".csv")) {
        Text out = text_start(answer->arena);
        if (ends_in(path, ".csv"))
            report_seating_csv(&answer->source, plan, &out);
        else
            report_seating_json(&answer->source, plan, &out);
        return file_write(path, out.bytes, out.length, err);
    }
    char date[PAPER_DATE], revision[PAPER_REVISION];
    TRY(output_date(request, date, err));
    paper_revision(answer->bytes, answer->size, revision);
    const PaperSettings settings = {paper_size(answer->source.units), date, revision};
    return output_pdf(report_seating(&answer->source, plan, true, answer->arena), &settings, path,
                      err);
}

static Status print_plan(const Request *request, const Answer *answer, const SeatPlan *plan,
                         Error *err)
{
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_seating_json(&answer->source, plan, &out);
    else
        report_text(report_seating(&answer->source, plan, false, answer->arena), &out);
    TRY(output_print(&out, err));
    return seating_met(plan) ? STATUS_OK : STATUS_NOT_MET;
}

/* "opening", "end of life", or a day of the file's calendar. */
static Status day_read(const Request *request, const Answer *answer, double *day, Error *err)
{
    const char *word = request->value[OPTION_DAY];
    *day = NAN;
    if (!word || !strcmp(word, "opening")) return STATUS_OK;
    if (!strcmp(word, "end of life")) {
        *day = bridge_value_at(answer->source.bridge, "days.end")->value;
        return STATUS_OK;
    }
    Error why = {0};
    if (quantity_read(word, DIM_TIME, day, &why) == STATUS_OK) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT,
                     "--day is opening, \"end of life\" or a day of the file's calendar such as "
                     "\"400 day\", not '%s'",
                     word);
}

static Status survey_open(const Request *request, const Answer *answer, Survey *survey, Error *err)
{
    const char *path = request->value[OPTION_SURVEY], *bytes;
    size_t size;
    Diagnostics *list = ARENA_NEW(answer->arena, Diagnostics, 1);
    const int girders = (int)lround(bridge_value_at(answer->source.bridge, "girders.count")->value);
    TRY(file_read(path, SURVEY_BYTES_MAX, answer->arena, &bytes, &size, err));
    if (survey_read(bytes, size, girders, answer->arena, survey, list) == STATUS_OK)
        return STATUS_OK;
    diagnostics_sort(list);
    return diagnostics_print(list, path, err);
}

Status answer_seats(const Request *request, const Answer *answer, const SeatPlan **plan, Error *err)
{
    Survey survey;
    double day;
    Diagnostics *list = ARENA_NEW(answer->arena, Diagnostics, 1);
    Grade grade;
    TRY(grade_of(answer->source.bridge, answer->arena, &grade,
                 err)); /* before the survey is read */
    TRY(day_read(request, answer, &day, err));
    TRY(survey_open(request, answer, &survey, err));
    SeatWish wish = {.bridge = answer->source.bridge,
                     .survey = &survey,
                     .answer = answer->source.answer,
                     .day = day};
    if (wish.answer)
        wish.thrust_N = wish.answer->thrust_N;
    else
        TRY(quantity_read(request->value[OPTION_THRUST], DIM_FORCE, &wish.thrust_N, err));
    const Status status = seating_plan(&wish, answer->arena, answer->scratch, plan, list, err);
    if (list->count) {
        diagnostics_sort(list);
        return diagnostics_print(list, request->value[OPTION_SURVEY], err);
    }
    return status;
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const SeatPlan *plan;
    TRY(answer_seats(request, answer, &plan, err));
    TRY(write_file(request, answer, plan, err));
    return print_plan(request, answer, plan, err);
}

static Status check_files(const Request *request, Error *err)
{
    const char *survey = request->value[OPTION_SURVEY], *out = request->value[OPTION_OUT];
    if (!survey)
        return error_set(err, STATUS_BAD_INPUT,
                         "clench seat needs the survey of the girder tops: --survey CSV");
    if (out && !strcmp(out, survey))
        return error_set(err, STATUS_BAD_INPUT, "-o would replace the survey itself");
    return STATUS_OK;
}

/* A thrust that is given is taken as it is: no other one is looked for, which is quicker. */
Status cmd_seat(const Request *request, Error *err)
{
    Answer answer;
    TRY(check_files(request, err));
    if (request->given[OPTION_THRUST])
        TRY(answer_read(request, &answer, err));
    else
        TRY(answer_find(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
