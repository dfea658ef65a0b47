/* A document for a terminal: aligned columns without boxes, as wide as the source asks for. */
#include <stdio.h>
#include <string.h>

#include "document.h"

enum { BETWEEN = 2, COLUMNS_MAX = 24, WORD_MOST = 28, LABEL = 12, HEAD = 7 };

static int letters(const char *text, size_t bytes)
{
    int count = 0;
    for (size_t i = 0; i < bytes && text[i]; i++) count += (text[i] & 0xC0) != 0x80;
    return count;
}

/* Bytes of the next line of at most `width` letters, cut at a space, a number kept with its unit
 * where that is possible; a longer word is cut hard. */
static size_t line_bytes(const char *text, int width)
{
    size_t cut = 0, weak = 0, i = strspn(text, " ");
    int count = (int)i;
    for (; text[i]; i++) {
        if (text[i] == ' ') {
            if (i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9')
                weak = i;
            else
                cut = i;
        }
        count += (text[i] & 0xC0) != 0x80;
        if (count > width) return cut ? cut : weak ? weak : i ? i : 1;
    }
    return i;
}

static void paragraph(Text *out, int columns, const char *first, const char *rest, const char *text)
{
    const char *lead = first;
    do {
        const size_t bytes = line_bytes(text, columns - letters(lead, strlen(lead)));
        text_add(out, lead);
        text_addn(out, text, bytes);
        text_add(out, "\n");
        text += bytes;
        text += strspn(text, " ");
        lead = rest;
    } while (*text);
}

/* ---- tables ---- */

static int longest_word(const char *text)
{
    int most = 0;
    while (*text) {
        const size_t bytes = strcspn(text, " ");
        const int count = letters(text, bytes);
        if (count > most) most = count;
        text += bytes;
        text += strspn(text, " ");
    }
    return most < WORD_MOST ? most : WORD_MOST;
}

static int lines_of(const char *text, int width)
{
    int count = 0;
    do {
        text += line_bytes(text, width);
        text += strspn(text, " ");
        count++;
    } while (*text);
    return count;
}

static const char *cell_at(const FigureTable *t, int row, int column)
{
    return row < 0 ? t->head[column] : t->cell[row * t->column_count + column];
}

static void measure(const FigureTable *t, int column, int *width, int *least)
{
    *width = *least = 0;
    for (int row = -1; row < t->row_count; row++) {
        const char *cell = cell_at(t, row, column);
        const int count = letters(cell, strlen(cell));
        /* a number is not broken */
        const int word = t->number[column] && row >= 0 ? count : longest_word(cell);
        if (count > *width) *width = count;
        if (word > *least) *least = word;
    }
}

/* Lines of the whole table, head included. */
static int height(const FigureTable *t, const int *width)
{
    int sum = 0;
    for (int row = -1; row < t->row_count; row++) {
        int most = 1;
        for (int c = 0; c < t->column_count; c++) {
            const int lines = lines_of(cell_at(t, row, c), width[c]);
            if (lines > most) most = lines;
        }
        sum += most;
    }
    return sum;
}

/* The column whose narrowing by one costs the fewest lines, of equals the widest; -1: none can. */
static int cheapest(const FigureTable *t, int *width, const int *least)
{
    int best = -1, best_height = 0;
    for (int c = 0; c < t->column_count; c++) {
        if (width[c] <= least[c]) continue;
        width[c]--;
        const int now = height(t, width);
        width[c]++;
        if (best >= 0 && (now > best_height || (now == best_height && width[c] <= width[best])))
            continue;
        best = c;
        best_height = now;
    }
    return best;
}

/* Narrows columns until the table fits, first those whose heads alone are wide. */
static void fit(const FigureTable *t, int columns, int *width)
{
    int least[COLUMNS_MAX], sum = BETWEEN * (t->column_count - 1);
    for (int c = 0; c < t->column_count; c++) {
        measure(t, c, &width[c], &least[c]);
        sum += width[c];
    }
    const bool tight = sum > columns;
    for (int c = 0; tight && c < t->column_count; c++) {
        if (!t->number[c]) continue;
        const int to = least[c] > HEAD ? least[c] : HEAD < width[c] ? HEAD : width[c];
        sum -= width[c] - to;
        width[c] = to;
    }
    for (; sum > columns; sum--) {
        const int column = cheapest(t, width, least);
        if (column < 0) return;
        width[column]--;
    }
}

static void pad(Text *out, int count)
{
    while (count-- > 0) text_add(out, " ");
}

static void row_add(Text *out, const FigureTable *t, const char *const *cell, const int *width)
{
    const char *rest[COLUMNS_MAX];
    for (int c = 0; c < t->column_count; c++) rest[c] = cell[c];
    for (bool more = true; more;) {
        int gap = 0; /* blanks owed: none at the end of a line */
        more = false;
        for (int c = 0; c < t->column_count; c++) {
            const size_t bytes = line_bytes(rest[c], width[c]);
            const int count = letters(rest[c], bytes), blanks = width[c] - count;
            if (bytes) {
                pad(out, gap + (t->number[c] ? blanks : 0));
                text_addn(out, rest[c], bytes);
                gap = t->number[c] ? 0 : blanks;
            } else {
                gap += width[c];
            }
            gap += BETWEEN;
            rest[c] += bytes;
            if (bytes) rest[c] += strspn(rest[c], " ");
            more = more || *rest[c];
        }
        text_add(out, "\n");
    }
}

static void rule_add(Text *out, const FigureTable *t, const int *width)
{
    int sum = BETWEEN * (t->column_count - 1);
    for (int c = 0; c < t->column_count; c++) sum += width[c];
    for (int i = 0; i < sum; i++) text_add(out, "-");
    text_add(out, "\n");
}

static void table_add(Text *out, int columns, const FigureTable *t)
{
    int width[COLUMNS_MAX];
    if (t->column_count > COLUMNS_MAX) return;
    fit(t, columns, width);
    paragraph(out, columns, "", "", t->caption);
    text_add(out, "\n");
    row_add(out, t, t->head, width);
    rule_add(out, t, width);
    for (int row = 0; row < t->row_count; row++)
        row_add(out, t, t->cell + (size_t)row * (size_t)t->column_count, width);
}

static void fact_add(Text *out, int columns, const ReportBlock *b)
{
    char lead[LABEL + 4];
    snprintf(lead, sizeof lead, "  %-*s", LABEL, b->label);
    paragraph(out, columns, lead, "              ", b->text);
}

static bool is_close(ReportKind kind, ReportKind before)
{
    const bool item = kind == REPORT_ITEM || kind == REPORT_FACT;
    return item && (kind == before || before == REPORT_HEADING ||
                    (kind == REPORT_ITEM && before == REPORT_TEXT));
}

void report_text(const Report *report, Text *out)
{
    const ReportSource *s = report->source;
    const int columns = s->columns ? s->columns : REPORT_COLUMNS;
    paragraph(out, columns, "", "",
              arena_printf(report->arena, "%s: %s", s->name && *s->name ? s->name : s->file,
                           report->title));
    ReportKind before = REPORT_LEAD;
    for (const ReportBlock *b = report->first; b; b = b->next) {
        if (b->place == REPORT_PAGE || b->kind == REPORT_FIGURE || b->kind == REPORT_BREAK ||
            b->kind == REPORT_CONTENTS)
            continue;
        if (!is_close(b->kind, before)) text_add(out, "\n");
        switch (b->kind) {
        case REPORT_TABLE: table_add(out, columns, b->table); break;
        case REPORT_FACT: fact_add(out, columns, b); break;
        case REPORT_ITEM: paragraph(out, columns, "  ", "    ", b->text); break;
        case REPORT_SHEET: sheet_lines(b->sheet, report->source->units, out); break;
        default: paragraph(out, columns, "", "", b->text);
        }
        before = b->kind;
    }
}
