/* A document for a terminal: aligned columns without boxes, at most REPORT_COLUMNS wide. */
#include <string.h>

#include "document.h"

enum { BETWEEN = 2, COLUMNS_MAX = 24, WORD_MOST = 28 };

static int letters(const char *text, size_t bytes)
{
    int count = 0;
    for (size_t i = 0; i < bytes && text[i]; i++) count += (text[i] & 0xC0) != 0x80;
    return count;
}

/* Bytes of the next line of at most `width` letters, cut at a space; a longer word is cut hard. */
static size_t line_bytes(const char *text, int width)
{
    size_t cut = 0, i = strspn(text, " ");
    int count = (int)i;
    for (; text[i]; i++) {
        if (text[i] == ' ') cut = i;
        count += (text[i] & 0xC0) != 0x80;
        if (count > width) return cut ? cut : i ? i : 1;
    }
    return i;
}

static void paragraph(Text *out, const char *first, const char *rest, const char *text)
{
    const char *lead = first;
    do {
        const size_t bytes = line_bytes(text, REPORT_COLUMNS - letters(lead, strlen(lead)));
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

static void measure(const FigureTable *t, int column, int *width, int *least)
{
    *width = letters(t->head[column], strlen(t->head[column]));
    *least = longest_word(t->head[column]);
    for (int row = 0; row < t->row_count; row++) {
        const char *cell = t->cell[row * t->column_count + column];
        const int count = letters(cell, strlen(cell)), word = longest_word(cell);
        if (count > *width) *width = count;
        if (word > *least) *least = word;
    }
}

/* Narrows the widest column that has room until the table fits. */
static void fit(const FigureTable *t, int *width)
{
    int least[COLUMNS_MAX], sum = BETWEEN * (t->column_count - 1);
    for (int c = 0; c < t->column_count; c++) {
        measure(t, c, &width[c], &least[c]);
        sum += width[c];
    }
    while (sum > REPORT_COLUMNS) {
        int widest = -1;
        for (int c = 0; c < t->column_count; c++)
            if (width[c] > least[c] && (widest < 0 || width[c] > width[widest])) widest = c;
        if (widest < 0) return;
        width[widest]--;
        sum--;
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

static void table_add(Text *out, const FigureTable *t)
{
    int width[COLUMNS_MAX];
    if (t->column_count > COLUMNS_MAX) return;
    fit(t, width);
    paragraph(out, "", "", t->caption);
    text_add(out, "\n");
    row_add(out, t, t->head, width);
    rule_add(out, t, width);
    for (int row = 0; row < t->row_count; row++)
        row_add(out, t, t->cell + (size_t)row * (size_t)t->column_count, width);
}

void report_text(const Report *report, Text *out)
{
    const ReportSource *s = report->source;
    text_printf(out, "%s: %s\n", s->name && *s->name ? s->name : s->file, report->title);
    ReportKind before = REPORT_HEADING;
    for (const ReportBlock *b = report->first; b; b = b->next) {
        if (b->place == REPORT_PAGE || b->kind == REPORT_FIGURE) continue;
        if (b->kind != REPORT_ITEM || before != REPORT_ITEM)
            if (!(b->kind == REPORT_ITEM && before == REPORT_HEADING)) text_add(out, "\n");
        switch (b->kind) {
        case REPORT_TABLE: table_add(out, b->table); break;
        case REPORT_ITEM: paragraph(out, "  ", "    ", b->text); break;
        default: paragraph(out, "", "", b->text);
        }
        before = b->kind;
    }
}
