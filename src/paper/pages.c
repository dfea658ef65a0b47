/* From a row of boxes to pages: what must stay together stays together. */
#include "paper_data.h"

#include <math.h>
#include <string.h>

/* Height of a box and of those that it must not be parted from. */
static double group_height(const Box *box)
{
    double height_pt = box->height_pt;
    for (; box->keep && box->next && !box->next->new_page; box = box->next)
        height_pt += box->next->before_pt + box->next->height_pt;
    return height_pt;
}

void pages_break(Paper *paper)
{
    const double room_pt = paper->bottom_pt - paper->top_pt;
    double y_pt = paper->top_pt;
    int page = 1;
    const Box *before = NULL;
    for (Box *box = paper->first; box; before = box, box = box->next) {
        const double before_pt = y_pt > paper->top_pt ? box->before_pt : 0;
        const bool group_starts = !before || !before->keep;
        double need_pt = group_starts ? group_height(box) : box->height_pt;
        if (need_pt > room_pt) need_pt = box->height_pt; /* cannot be kept whole */
        if (box->new_page ? y_pt > paper->top_pt
                          : y_pt > paper->top_pt && y_pt + before_pt + need_pt > paper->bottom_pt) {
            page++;
            y_pt = paper->top_pt + (box->repeat ? box->repeat->height_pt : 0);
        } else {
            y_pt += before_pt;
        }
        box->page = page;
        box->y_pt = y_pt;
        y_pt += box->height_pt;
    }
    paper->page_count = page;
}

/* ---- head and foot ---- */

static void frame_draw(Paper *paper, int page, const char *chapter)
{
    const double right_pt = paper->left_pt + paper->measure_pt, head_pt = 34;
    const double foot_pt = paper->height_pt - 42;
    const ReportSource *const source = paper->report->source;
    const char *const name = source->name && *source->name ? source->name : source->file;
    char text[64];
    PangoLayout *const left = words_layout(paper, name, FACE_PLAIN, 8.5, 0.6 * paper->measure_pt);
    pango_layout_set_height(left, -1);
    pango_layout_set_ellipsize(left, PANGO_ELLIPSIZE_END);
    words_show(paper, left, paper->left_pt, head_pt, INK_SOFT);
    snprintf(text, sizeof text, "revision %.20s", paper->settings->revision);
    PangoLayout *const revision = words_layout(paper, text, FACE_PLAIN, 8.5, -1);
    words_show(paper, revision, right_pt - words_width_pt(revision), head_pt, INK_SOFT);
    ink_set(paper, INK_LINE);
    line_draw(paper, paper->left_pt, head_pt + 13, right_pt, head_pt + 13, 0.5);
    line_draw(paper, paper->left_pt, foot_pt - 3, right_pt, foot_pt - 3, 0.5);
    PangoLayout *const what = words_layout(paper, chapter, FACE_PLAIN, 8.5, -1);
    words_show(paper, what, paper->left_pt, foot_pt, INK_SOFT);
    snprintf(text, sizeof text, "page %d of %d", page, paper->page_count);
    PangoLayout *const count = words_layout(paper, text, FACE_PLAIN, 8.5, -1);
    words_show(paper, count, right_pt - words_width_pt(count), foot_pt, INK_SOFT);
}

static void outline_add(Paper *paper, const Box *box, int *chapter)
{
    char name[64], link[64];
    snprintf(name, sizeof name, "name='h%s'", box->number);
    snprintf(link, sizeof link, "dest='h%s'", box->number);
    cairo_tag_begin(paper->cr, CAIRO_TAG_DEST, name);
    cairo_tag_end(paper->cr, CAIRO_TAG_DEST);
    const char *const words = arena_printf(paper->arena, "%s  %s", box->number, box->heading);
    const int parent = box->level == 1 ? CAIRO_PDF_OUTLINE_ROOT : *chapter;
    const int id = cairo_pdf_surface_add_outline(paper->surface, parent, words, link,
                                                 box->level == 1 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : 0);
    if (box->level == 1) *chapter = id;
}

static void box_draw(Paper *paper, const Box *box, int *chapter)
{
    if (box->heading) {
        cairo_move_to(paper->cr, paper->left_pt, box->y_pt);
        outline_add(paper, box, chapter);
    }
    const bool first = box->repeat && box->y_pt == paper->top_pt + box->repeat->height_pt;
    if (first) box->repeat->draw(paper, box->repeat, paper->top_pt);
    box->draw(paper, box, box->y_pt);
}

/* The chapter that a page shows in its foot: the one that it ends in. */
static const char *chapter_of(const Box *box, const char *before)
{
    const int page = box->page;
    for (; box && box->page == page; box = box->next)
        if (box->heading && box->level == 1) before = box->heading;
    return before;
}

void pages_draw(Paper *paper)
{
    int outline = CAIRO_PDF_OUTLINE_ROOT, page = 0;
    const char *chapter = paper->report->title;
    for (const Box *box = paper->first; box; box = box->next) {
        if (box->page != page) {
            if (page > 0) cairo_show_page(paper->cr);
            page = box->page;
            chapter = chapter_of(box, chapter);
            frame_draw(paper, page, chapter);
        }
        box_draw(paper, box, &outline);
    }
    cairo_show_page(paper->cr);
}
