/* The calculation package as a file. */
#include <stdlib.h>
#include <string.h>

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
Status output_date(const Request *request, char date[PAPER_DATE], Error *err)
{
    const char *const given = request->value[OPTION_DATE];
    if (!given) return paper_date(getenv("SOURCE_DATE_EPOCH"), date, err);
    if (!is_date(given))
        return error_set(err, STATUS_BAD_INPUT, "--date: '%.40s' is no day such as 2031-05-04",
                         given);
    snprintf(date, PAPER_DATE, "%s", given);
    return STATUS_OK;
}

Status output_pdf(const Report *report, const PaperSettings *settings, const char *path, Error *err)
{
    Text pdf = text_start(report->arena);
    const Status drawn = paper_pdf(report, settings, &pdf, err);
    paper_close();
    TRY(drawn);
    return file_write(path, pdf.bytes, pdf.length, err);
}

Status output_page(const Report *report, const char *path, Error *err)
{
    Text page = text_start(report->arena);
    report_html(report, &page);
    return file_write(path, page.bytes, page.length, err);
}

static Status write_package(const Request *request, const Answer *answer, Error *err)
{
    char date[PAPER_DATE];
    PaperPackage package;
    TRY(output_date(request, date, err));
    const PaperInput input = {answer->bytes, answer->size, date};
    TRY(paper_package(&answer->source, &input, answer->arena, answer->scratch, &package, err));
    if (request->given[OPTION_HTML])
        TRY(output_page(package.report, request->value[OPTION_HTML], err));
    if (request->given[OPTION_OUT])
        TRY(output_pdf(package.report, &package.settings, request->value[OPTION_OUT], err));
    const CheckState verdict = checks_verdict(package.checks);
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
