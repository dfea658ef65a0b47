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
                           PackageSource *package, Error *err)
{
    char revision[PAPER_REVISION];
    paper_revision(answer->bytes, answer->size, revision);
    *package = (PackageSource){.report = &answer->source,
                               .checks = checks,
                               .revision = arena_text(answer->arena, revision)};
    TRY(date_find(request, answer->arena, &package->date, err));
    return report_other(&answer->source, other_1, answer->arena, answer->scratch, &package->other,
                        err);
}

static Status write_pdf(const PackageSource *package, const Report *report, const char *path,
                        Error *err)
{
    const PaperSettings settings = {paper_size(package->report->units), package->date,
                                    package->revision};
    Text pdf = text_start(report->arena);
    const Status drawn = paper_pdf(report, &settings, &pdf, err);
    paper_close();
    TRY(drawn);
    return file_write(path, pdf.bytes, pdf.length, err);
}

static Status write_page(const Report *report, const char *path, Error *err)
{
    Text page = text_start(report->arena);
    report_html(report, &page);
    return file_write(path, page.bytes, page.length, err);
}

static Status write_package(const Request *request, const Answer *answer, Error *err)
{
    const CheckCase with = {
        .bridge = answer->source.bridge, .answer = answer->source.answer, .arena = answer->arena};
    const CheckList *checks;
    PackageSource package;
    TRY(checks_run(&with, &checks, err));
    TRY(package_make(request, answer, checks, &package, err));
    const Report *const report = report_package(&package, answer->arena);
    if (request->given[OPTION_HTML]) TRY(write_page(report, request->value[OPTION_HTML], err));
    if (request->given[OPTION_OUT])
        TRY(write_pdf(&package, report, request->value[OPTION_OUT], err));
    const CheckState verdict = checks_verdict(checks);
    if (verdict == CHECK_FAIL || !answer->source.answer->met) return STATUS_NOT_MET;
    return verdict == CHECK_UNPROVEN ? STATUS_UNPROVEN : STATUS_OK;
}

Status cmd_report(const Request *request, Error *err)
{
    Answer answer;
    if (!request->given[OPTION_OUT] && !request->given[OPTION_HTML])
        return error_set(err, STATUS_BAD_INPUT, "clench report needs a file to write: -o OUT");
    TRY(answer_find(request, &answer, err));
    const Status status = write_package(request, &answer, err);
    answer_free(&answer);
    return status;
}
