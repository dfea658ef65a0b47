/* From an answer to its calculation package. */
#define _DEFAULT_SOURCE
#include <stdlib.h>
#include <time.h>

#include "clench/paper.h"

/* The second history of the line sigma(P): a tenth more, so that contact stays as it is. */
static const double other_1 = 1.1;

Status paper_date(const char *epoch, char date[PAPER_DATE], Error *err)
{
    char *end = NULL;
    struct tm day;
    const long long fixed = epoch ? strtoll(epoch, &end, 10) : 0;
    const time_t when = epoch && *epoch && *end == 0 && fixed >= 0 ? (time_t)fixed : time(NULL);
    if (!gmtime_r(&when, &day) || strftime(date, PAPER_DATE, "%Y-%m-%d", &day) == 0)
        return error_set(err, STATUS_BAD_INPUT, "SOURCE_DATE_EPOCH is no time");
    return STATUS_OK;
}

Status paper_package(const ReportSource *source, const PaperInput *input, Arena *result,
                     Arena *scratch, PaperPackage *package, Error *err)
{
    const CheckCase with = {.bridge = source->bridge, .answer = source->answer, .arena = result};
    const CheckList *checks;
    char revision[PAPER_REVISION];
    TRY(checks_run(&with, &checks, err));
    paper_revision(input->bytes, input->size, revision);
    PackageSource all = {.report = source,
                         .checks = checks,
                         .revision = arena_text(result, revision),
                         .date = arena_text(result, input->date)};
    TRY(report_other(source, other_1, result, scratch, &all.other, err));
    *package = (PaperPackage){.report = report_package(&all, result),
                              .checks = checks,
                              .settings = {paper_size(source->units), all.date, all.revision}};
    return STATUS_OK;
}
