/* The calculation package as a file. */
#define _DEFAULT_SOURCE
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "clench/paper.h"
#include "cli.h"

static bool is_date(const char *text)
{
    static const char form[] = "dddd-dd-dd";
    if (strlen(text) != sizeof form - 1) return false;
    for (int i = 0; form[i]; i++)
        if (form[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != form[i]) return false;
    const int month = atoi(text + 5), day = atoi(text + 8);
    return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

/* --date, else the day of SOURCE_DATE_EPOCH (reproducible-builds.org), else today; in UTC. */
static Status date_find(const Request *request, Arena *arena, const char **date, Error *err)
{
    const char *const given = request->value[OPTION_DATE], *epoch = getenv("SOURCE_DATE_EPOCH");
    if (given && !is_date(given))
        return error_set(err, STATUS_BAD_INPUT, "--date: '%.40s' is no day such as 2031-05-04",
                         given);
    if (given) {
        *date = given;
        return STATUS_OK;
    }
    char *end = NULL;
    const long long fixed = epoch ? strtoll(epoch, &end, 10) : 0;
    const time_t when = epoch && *epoch && *end == 0 && fixed >= 0 ? (time_t)fixed : time(NULL);
    struct tm day;
    char text[32];
    if (!gmtime_r(&when, &day) || strftime(text, sizeof text, "%Y-%m-%d", &day) == 0)
        return error_set(err, STATUS_BAD_INPUT, "SOURCE_DATE_EPOCH is no time");
    *date = arena_text(arena, text);
    return STATUS_OK;
}

/* The second history of the line sigma(P): a tenth more, so that contact stays as it is. */
static const double other_1 = 1.1;

static Status package_make(const Request *request, const Answer *answer, const CheckList *checks,
                           Text *pdf, Error *err)
{
    const ReportSource *const source = &answer->source;
    PackageSource package = {.report = source, .checks = checks};
    char revision[PAPER_REVISION];
    TRY(date_find(request, answer->arena, &package.date, err));
    paper_revision(answer->bytes, answer->size, revision);
    package.revision = revision;
    TRY(report_other(source, other_1, answer->arena, answer->scratch, &package.other, err));
    const PaperSettings settings = {paper_size(source->units), package.date, revision};
    return paper_pdf(report_package(&package, answer->arena), &settings, pdf, err);
}

static Status write_package(const Request *request, const Answer *answer, Error *err)
{
    const CheckCase with = {
        .bridge = answer->source.bridge, .answer = answer->source.answer, .arena = answer->arena};
    const CheckList *checks;
    Text pdf = text_start(answer->arena);
    TRY(checks_run(&with, &checks, err));
    TRY(package_make(request, answer, checks, &pdf, err));
    TRY(file_write(request->value[OPTION_OUT], pdf.bytes, pdf.length, err));
    const CheckState verdict = checks_verdict(checks);
    if (verdict == CHECK_FAIL || !answer->source.answer->met) return STATUS_NOT_MET;
    return verdict == CHECK_UNPROVEN ? STATUS_UNPROVEN : STATUS_OK;
}

Status cmd_report(const Request *request, Error *err)
{
    Answer answer;
    if (!request->given[OPTION_OUT])
        return error_set(err, STATUS_BAD_INPUT, "clench report needs a file to write: -o OUT");
    TRY(answer_find(request, &answer, err));
    const Status status = write_package(request, &answer, err);
    answer_free(&answer);
    return status;
}
