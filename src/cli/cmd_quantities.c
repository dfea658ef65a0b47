/* Quantities: on the screen, as JSON, as a spreadsheet. No run of the stages is needed. */
#include <string.h>

#include "clench/workbook.h"
#include "cli.h"

static bool ends_with(const char *path, const char *ending)
{
    const size_t length = strlen(path), tail = strlen(ending);
    return length > tail && !strcmp(path + length - tail, ending);
}

static Status check_name(const char *path, Error *err)
{
    if (!path || ends_with(path, ".xlsx") || ends_with(path, ".csv")) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT,
                     "-o: '%.80s' is neither a spreadsheet, FILE.xlsx, nor a table, FILE.csv",
                     path);
}

/* Files before the screen: what is printed last is not lost where a file is refused. */
static Status write_files(const Request *request, const Answer *answer, const TakeoffSource *source,
                          Error *err)
{
    const char *const path = request->value[OPTION_OUT];
    Text bytes = text_start(answer->arena);
    if (request->given[OPTION_HTML])
        TRY(output_page(report_takeoff(source, answer->arena), request->value[OPTION_HTML], err));
    if (!path) return STATUS_OK;
    if (ends_with(path, ".csv")) {
        report_takeoff_csv(source, &bytes);
    } else {
        char date[PAPER_DATE], revision[PAPER_REVISION];
        TRY(output_date(request, date, err));
        paper_revision(answer->bytes, answer->size, revision);
        const WorkbookSettings settings = {date, revision};
        TRY(workbook_takeoff(source, &settings, &bytes, err));
    }
    return file_write(path, bytes.bytes, bytes.length, err);
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const Takeoff *takeoff;
    TRY(takeoff_find(answer->source.bridge, answer->arena, &takeoff, err));
    const TakeoffSource source = {&answer->source, takeoff};
    TRY(write_files(request, answer, &source, err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_takeoff_json(&source, &out);
    else
        report_text(report_takeoff(&source, answer->arena), &out);
    return output_print(&out, err);
}

Status cmd_quantities(const Request *request, Error *err)
{
    Answer answer;
    TRY(check_name(request->value[OPTION_OUT], err));
    TRY(answer_read(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
