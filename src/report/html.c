/* A document as one page: no script, nothing from outside, readable from a phone to a wide sheet. */
#include <stdio.h>
#include <string.h>

#include "document.h"

/* Cells below this are not broken into lines. */
enum { SHORT_CELL = 24 };

static void tag(Text *out, const char *name, const char *text)
{
    text_printf(out, "<%s>", name);
    report_escape(out, text);
    text_printf(out, "</%s>\n", name);
}

static void cell_add(Text *out, const FigureTable *t, int column, const char *text)
{
    const bool row_head = column == 0;
    text_add(out, row_head ? "<th scope=\"row\"" : "<td");
    if (t->number[column])
        text_add(out, " class=\"n\"");
    else if (!row_head && strlen(text) < SHORT_CELL)
        text_add(out, " class=\"s\"");
    /* leading blanks mean: a part of the row above */
    if (strspn(text, " ") > 1) text_add(out, " class=\"part\"");
    text_add(out, ">");
    report_escape(out, text + strspn(text, " "));
    text_add(out, row_head ? "</th>" : "</td>");
}

static void table_add(Text *out, const FigureTable *t)
{
    text_add(out, "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"");
    report_escape(out, t->caption);
    text_add(out, "\"><table>\n");
    tag(out, "caption", t->caption);
    text_add(out, "<thead><tr>");
    for (int c = 0; c < t->column_count; c++) {
        text_printf(out, "<th scope=\"col\"%s>", t->number[c] ? " class=\"n\"" : "");
        report_escape(out, t->head[c]);
        text_add(out, "</th>");
    }
    text_add(out, "</tr></thead>\n<tbody>\n");
    for (int row = 0; row < t->row_count; row++) {
        text_add(out, "<tr>");
        for (int c = 0; c < t->column_count; c++)
            cell_add(out, t, c, t->cell[row * t->column_count + c]);
        text_add(out, "</tr>\n");
    }
    text_add(out, "</tbody></table></div>\n");
}

/* `paper`: unfolded where the page is printed. */
static void folded_table(Text *out, const char *summary, const FigureTable *t, bool paper)
{
    text_printf(out, "<details%s><summary>", paper ? " class=\"paper\"" : "");
    report_escape(out, summary);
    text_add(out, "</summary>\n");
    table_add(out, t);
    text_add(out, "</details>\n");
}

static void figure_add(Text *out, const ReportBlock *b, int index)
{
    char prefix[32];
    snprintf(prefix, sizeof prefix, "f%d", index);
    text_printf(out, "<figure id=\"%s-%d\">\n", b->wide->id, index);
    tag(out, "h3", b->wide->title);
    text_add(out, "<div class=\"sheet\">\n");
    report_svg(b->wide, prefix, false, out);
    text_add(out, "</div>\n<div class=\"phone\">\n");
    snprintf(prefix, sizeof prefix, "p%d", index);
    report_svg(b->narrow, prefix, false, out);
    text_add(out, "</div>\n");
    tag(out, "figcaption", b->wide->description);
    if (b->wide->table) folded_table(out, "The numbers of this picture", b->wide->table, false);
    text_add(out, "</figure>\n");
}

/* A path may be broken after its slashes. */
static void path_add(Text *out, const char *path)
{
    while (*path) {
        const size_t bytes = strcspn(path, "/") + (strchr(path, '/') != NULL);
        Text piece = text_start(out->arena);
        text_addn(&piece, path, bytes);
        report_escape(out, piece.bytes);
        if (path[bytes]) text_add(out, "<wbr/>");
        path += bytes;
    }
}

static void title_block(Text *out, const Report *r)
{
    const ReportSource *s = r->source;
    text_add(out, "<header>\n");
    tag(out, "h1", s->name && *s->name ? s->name : "Bridge deck under thrust");
    text_add(out, "<dl class=\"block\">\n<div><dt>Sheet</dt><dd>");
    report_escape(out, r->title);
    text_add(out, "</dd></div>\n<div><dt>Input</dt><dd>");
    path_add(out, s->file);
    text_add(out, "</dd></div>\n<div><dt>Units</dt><dd>");
    text_add(out, s->units == UNITS_US ? "US customary" : "SI");
    text_add(out, "</dd></div>\n<div><dt>Program</dt><dd>clench ");
    report_escape(out, s->version);
    text_add(out, "</dd></div>\n</dl>\n</header>\n");
}

/* Numbers stay with their units: "1600 kip" is not broken. */
static void words_add(Text *out, const char *text)
{
    Text kept = text_start(out->arena);
    for (const char *c = text; *c; c++) {
        const bool after_digit = c > text && c[-1] >= '0' && c[-1] <= '9';
        if (*c == ' ' && after_digit)
            text_add(&kept, "\xC2\xA0");
        else
            text_addn(&kept, c, 1);
    }
    report_escape(out, kept.bytes);
}

static void paragraph_add(Text *out, const char *class_name, const char *text)
{
    text_printf(out, "<p class=\"%s\">", class_name);
    words_add(out, text);
    text_add(out, "</p>\n");
}

static void fact_add(Text *out, const ReportBlock *b)
{
    text_add(out, "<div><dt>");
    report_escape(out, b->label);
    text_add(out, "</dt><dd>");
    words_add(out, b->text);
    text_add(out, "</dd></div>\n");
}

static void block_add(Text *out, const ReportBlock *b, UnitSystem units, int index)
{
    switch (b->kind) {
    case REPORT_HEADING: tag(out, "h2", b->text); break;
    case REPORT_LEAD: paragraph_add(out, "lead", b->text); break;
    case REPORT_CAUTION: paragraph_add(out, "caution", b->text); break;
    case REPORT_FACT: fact_add(out, b); break;
    case REPORT_TEXT: tag(out, "p", b->text); break;
    case REPORT_ITEM: tag(out, "li", b->text); break;
    case REPORT_TABLE:
        if (b->folded)
            folded_table(out, b->table->caption, b->table, true);
        else
            table_add(out, b->table);
        break;
    case REPORT_FIGURE: figure_add(out, b, index); break;
    case REPORT_SECTION: tag(out, "h3", b->text); break;
    case REPORT_SHEET: sheet_html(b->sheet, units, out); break;
    case REPORT_SIGN: tag(out, "p", b->text); break;
    case REPORT_BREAK:
    case REPORT_CONTENTS: break;
    }
}

/* Items stand in a list, facts in a list of descriptions. */
static void list_change(Text *out, ReportKind before, ReportKind now)
{
    if (before == now) return;
    if (before == REPORT_ITEM) text_add(out, "</ul>\n");
    if (before == REPORT_FACT) text_add(out, "</dl>\n");
    if (now == REPORT_ITEM) text_add(out, "<ul>\n");
    if (now == REPORT_FACT) text_add(out, "<dl class=\"facts\">\n");
}

static void body_add(Text *out, const Report *r)
{
    title_block(out, r);
    text_add(out, "<main>\n");
    ReportKind before = REPORT_TEXT;
    int index = 0;
    for (const ReportBlock *b = r->first; b; b = b->next) {
        if (b->place == REPORT_SCREEN) continue;
        list_change(out, before, b->kind);
        before = b->kind;
        block_add(out, b, r->source->units, index++);
    }
    list_change(out, before, REPORT_TEXT);
    text_add(out, "</main>\n");
}

void report_html(const Report *r, Text *out)
{
    const char *name = r->source->name && *r->source->name ? r->source->name : r->source->file;
    text_add(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                  "<meta name=\"color-scheme\" content=\"light dark\">\n<title>");
    report_escape(out, name);
    text_printf(out, ": %s</title>\n<style>\n%s%s</style>\n</head>\n<body>\n", r->title,
                document_style, document_svg_style);
    body_add(out, r);
    text_add(out, "</body>\n</html>\n");
}
