/* Blocks of a report as boxes in a row. */
#include "paper_data.h"

#include <math.h>
#include <string.h>

Box *box_add(Paper *paper, double before_pt, double height_pt,
             void (*draw)(Paper *paper, const Box *box, double y_pt), void *content)
{
    Box *const box = ARENA_NEW(paper->arena, Box, 1);
    box->before_pt = before_pt;
    box->height_pt = height_pt;
    box->draw = draw;
    box->content = content;
    if (paper->last)
        paper->last->next = box;
    else
        paper->first = box;
    paper->last = box;
    return box;
}

/* ---- words ---- */

typedef struct WordsBox {
    PangoLayout *layout, *label;
    double indent_pt;
    Ink ink;
} WordsBox;

static void words_draw(Paper *paper, const Box *box, double y_pt)
{
    const WordsBox *const words = box->content;
    if (words->label) words_show(paper, words->label, paper->left_pt, y_pt, INK_SOFT);
    words_show(paper, words->layout, paper->left_pt + words->indent_pt, y_pt, words->ink);
}

static WordsBox *words_box(Paper *paper, double before_pt, const char *text, Face face,
                           double size_pt, double indent_pt)
{
    WordsBox *const words = ARENA_NEW(paper->arena, WordsBox, 1);
    words->layout = words_layout(paper, text, face, size_pt, paper->measure_pt - indent_pt);
    pango_layout_set_spacing(words->layout, (int)(0.12 * size_pt * PANGO_SCALE));
    words->indent_pt = indent_pt;
    words->ink = INK_TEXT;
    box_add(paper, before_pt, words_height_pt(words->layout), words_draw, words);
    return words;
}

void flow_words(Paper *paper, double before_pt, const char *text, Face face, double size_pt,
                double indent_pt, Ink ink)
{
    words_box(paper, before_pt, text, face, size_pt, indent_pt)->ink = ink;
}

static void fact_add(Paper *paper, const ReportBlock *block)
{
    if (paper->last && paper->last == paper->working) paper->last->keep = true;
    WordsBox *const words = words_box(paper, 4, block->text, FACE_PLAIN, 10.5, 96);
    words->label = words_layout(paper, block->label, FACE_PLAIN, 10.5, 90);
    const double height_pt = words_height_pt(words->label);
    if (height_pt > paper->last->height_pt) paper->last->height_pt = height_pt;
}

/* Words between a heading, or a sheet's first line, and what they lead to stay with both. */
static void words_add(Paper *paper, const ReportBlock *block)
{
    const bool leads = paper->last && paper->last->keep;
    const bool to_sheet = block->next && block->next->kind == REPORT_SHEET;
    flow_words(paper, 7, block->text, FACE_PLAIN, 10.5, 0, INK_TEXT);
    paper->last->keep = leads || to_sheet;
}

static void item_add(Paper *paper, const ReportBlock *block)
{
    WordsBox *const words = words_box(paper, 4, block->text, FACE_PLAIN, 10.5, 14);
    words->label = words_layout(paper, "\xE2\x80\x93", FACE_PLAIN, 10.5, -1);
}

/* ---- words in a frame ---- */

static void nothing_draw(Paper *paper, const Box *box, double y_pt)
{
    (void)paper, (void)box, (void)y_pt;
}

static void lead_draw(Paper *paper, const Box *box, double y_pt)
{
    const WordsBox *const words = box->content;
    ink_set(paper, INK_NEED);
    line_draw(paper, paper->left_pt + 1.5, y_pt, paper->left_pt + 1.5, y_pt + box->height_pt, 3);
    words_draw(paper, box, y_pt + 3);
    (void)words;
}

static void caution_draw(Paper *paper, const Box *box, double y_pt)
{
    ink_set(paper, INK_MOST);
    cairo_set_line_width(paper->cr, 0.8);
    cairo_rectangle(paper->cr, paper->left_pt, y_pt, paper->measure_pt, box->height_pt);
    cairo_stroke(paper->cr);
    words_draw(paper, box, y_pt + 6);
}

static void lead_add(Paper *paper, const ReportBlock *block)
{
    words_box(paper, 12, block->text, FACE_PLAIN, 12.5, 14);
    paper->last->draw = lead_draw;
    paper->last->height_pt += 6;
    box_add(paper, 0, 5, nothing_draw, NULL);
}

static void caution_add(Paper *paper, const ReportBlock *block)
{
    WordsBox *const words = words_box(paper, 12, block->text, FACE_PLAIN, 10.5, 10);
    pango_layout_set_width(words->layout, (int)((paper->measure_pt - 20) * PANGO_SCALE));
    paper->last->height_pt = words_height_pt(words->layout) + 12;
    paper->last->draw = caution_draw;
}

/* ---- headings ---- */

static void heading_add(Paper *paper, const ReportBlock *block)
{
    const bool chapter = block->kind == REPORT_HEADING;
    if (chapter) {
        paper->chapter++;
        paper->section = 0;
    } else {
        paper->section++;
    }
    const char *const number =
        chapter ? arena_printf(paper->arena, "%d", paper->chapter)
                : arena_printf(paper->arena, "%d.%d", paper->chapter, paper->section);
    const double size_pt = chapter ? 17 : block->folded ? 11 : 12.5;
    const double before_pt = chapter ? 26 : block->folded ? 14 : 18;
    const double indent_pt = chapter ? 30 : block->folded ? 38 : 34;
    WordsBox *const words = words_box(paper, before_pt, block->text, FACE_BOLD, size_pt, indent_pt);
    words->label = words_layout(paper, number, FACE_BOLD, size_pt, -1);
    Box *const box = paper->last;
    box->height_pt += chapter ? 5 : 2;
    box->keep = true;
    box->heading = block->text;
    box->number = number;
    box->level = chapter ? 1 : block->folded ? 3 : 2;
}

/* ---- signatures ---- */

static void sign_draw(Paper *paper, const Box *box, double y_pt)
{
    const WordsBox *const words = box->content;
    const double low_pt = y_pt + box->height_pt - 12, left_pt = paper->left_pt;
    static const struct {
        const char *name;
        double from_1, to_1;
    } part[] = {{"name", 0.30, 0.56}, {"signature", 0.59, 0.84}, {"date", 0.87, 1}};
    words_show(paper, words->layout, left_pt, low_pt - words_height_pt(words->layout) + 2,
               INK_TEXT);
    for (int i = 0; i < 3; i++) {
        const double from_pt = left_pt + part[i].from_1 * paper->measure_pt;
        ink_set(paper, INK_TEXT);
        line_draw(paper, from_pt, low_pt, left_pt + part[i].to_1 * paper->measure_pt, low_pt, 0.6);
        words_show(paper, words_layout(paper, part[i].name, FACE_PLAIN, 7.5, -1), from_pt,
                   low_pt + 1.5, INK_SOFT);
    }
}

static void sign_add(Paper *paper, const ReportBlock *block)
{
    WordsBox *const words = words_box(paper, 6, block->text, FACE_PLAIN, 10.5, 0);
    pango_layout_set_width(words->layout, (int)(0.28 * paper->measure_pt * PANGO_SCALE));
    paper->last->height_pt = fmax(words_height_pt(words->layout) + 12, 34);
    paper->last->draw = sign_draw;
}

/* ---- contents: pages are known when it is drawn ---- */

static void entry_draw(Paper *paper, const Box *box, double y_pt)
{
    const Box *const to = box->content;
    const bool chapter = to->level == 1;
    const double size_pt = chapter ? 11 : 10, x_pt = paper->left_pt + (chapter ? 0 : 20);
    const Face face = chapter ? FACE_BOLD : FACE_PLAIN;
    char page[16], link[64];
    snprintf(page, sizeof page, "%d", to->page);
    snprintf(link, sizeof link, "dest='h%s'", to->number);
    const double right_pt = paper->left_pt + paper->measure_pt;
    PangoLayout *const at = words_layout(paper, page, face, size_pt, -1);
    PangoLayout *const words =
        words_layout(paper, to->heading, face, size_pt, right_pt - x_pt - 70);
    pango_layout_set_height(words, -1);
    pango_layout_set_ellipsize(words, PANGO_ELLIPSIZE_END);
    cairo_tag_begin(paper->cr, CAIRO_TAG_LINK, link);
    words_show(paper, words_layout(paper, to->number, face, size_pt, -1), x_pt, y_pt, INK_TEXT);
    words_show(paper, words, x_pt + (chapter ? 20 : 28), y_pt, INK_TEXT);
    words_show(paper, at, right_pt - words_width_pt(at), y_pt, INK_TEXT);
    cairo_tag_end(paper->cr, CAIRO_TAG_LINK);
}

/* A stand-in: its entries are put behind it when all headings are known. */
static void contents_draw(Paper *paper, const Box *box, double y_pt)
{
    nothing_draw(paper, box, y_pt);
}

static void contents_add(Paper *paper)
{
    flow_words(paper, 20, "Contents", FACE_BOLD, 17, 0, INK_TEXT);
    paper->last->height_pt += 6;
    box_add(paper, 0, 0, contents_draw, NULL);
}

void flow_contents(Paper *paper)
{
    for (Box *place = paper->first; place; place = place->next) {
        if (place->draw != contents_draw) continue;
        Box *at = place;
        for (Box *h = place->next; h; h = h->next) {
            if (!h->heading || h->level > 2) continue;
            Box *const entry = ARENA_NEW(paper->arena, Box, 1);
            *entry = (Box){.before_pt = h->level == 1 ? 7 : 1.5,
                           .height_pt = h->level == 1 ? 14 : 13,
                           .draw = entry_draw,
                           .content = h,
                           .keep = h->level == 1,
                           .next = at->next};
            at->next = entry;
            at = entry;
        }
        return;
    }
}

/* ---- the cover ---- */

static void rule_draw(Paper *paper, const Box *box, double y_pt)
{
    (void)box;
    ink_set(paper, INK_TEXT);
    line_draw(paper, paper->left_pt, y_pt, paper->left_pt + paper->measure_pt, y_pt, 1.2);
}

void flow_cover(Paper *paper)
{
    const ReportSource *const source = paper->report->source;
    const char *const name = source->name && *source->name ? source->name : source->file;
    box_add(paper, 0, 14, rule_draw, NULL);
    flow_words(paper, 0, paper->report->title, FACE_PLAIN, 13, 0, INK_SOFT);
    flow_words(paper, 4, name, FACE_BOLD, 24, 0, INK_TEXT);
    paper->last->height_pt += 12;
}

void flow_add(Paper *paper, const ReportBlock *block)
{
    switch (block->kind) {
    case REPORT_HEADING:
    case REPORT_SECTION: heading_add(paper, block); break;
    case REPORT_LEAD: lead_add(paper, block); break;
    case REPORT_FACT: fact_add(paper, block); break;
    case REPORT_CAUTION: caution_add(paper, block); break;
    case REPORT_TEXT: words_add(paper, block); break;
    case REPORT_ITEM: item_add(paper, block); break;
    case REPORT_TABLE: table_add(paper, block->table); break;
    case REPORT_FIGURE: figure_add(paper, block->wide); break;
    case REPORT_SHEET:
        if (block->like)
            values_add(paper, block->sheet, block->like);
        else
            sheet_add(paper, block->sheet);
        break;
    case REPORT_BREAK: break;
    case REPORT_CONTENTS: contents_add(paper); break;
    case REPORT_SIGN: sign_add(paper, block); break;
    }
}
