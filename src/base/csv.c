/* Cells of CSV, RFC 4180, that no spreadsheet takes for a formula. */
#include <stdlib.h>
#include <string.h>

#include "clench/base.h"

/* Characters with which spreadsheets start a formula; tab and return are skipped before it. */
static bool starts_formula(char first)
{
    return first == '=' || first == '+' || first == '-' || first == '@' || first == '\t' ||
           first == '\r';
}

/* "-12.5" and "+1e3"; strtod alone would take "-inf" and "-0x1p3" too. */
static bool is_number(const char *words)
{
    char *end;
    if (words[strspn(words, "+-.0123456789eE")]) return false;
    strtod(words, &end);
    return end != words && !*end;
}

static bool must_be_guarded(const char *words)
{
    return starts_formula(*words) && strcmp(words, "-") != 0 && !is_number(words);
}

void csv_cell(Text *text, const char *words)
{
    const bool guarded = must_be_guarded(words);
    if (!strpbrk(words, ",\"\r\n")) {
        text_printf(text, "%s%s", guarded ? "'" : "", words);
        return;
    }
    text_add(text, guarded ? "\"'" : "\"");
    for (const char *at = words; *at; at++)
        text_addn(text, *at == '"' ? "\"\"" : at, *at == '"' ? 2 : 1);
    text_add(text, "\"");
}

const char *csv_words(const char *cell)
{
    return *cell == '\'' && must_be_guarded(cell + 1) ? cell + 1 : cell;
}
