/* Sheets as PDF pages of their true size. */
#include "paper_data.h"

#include "clench/drawing.h"

#include <math.h>

/* The height of capitals of that face over its size. */
static const double capital_1 = 0.729;

typedef struct Plot {
    Paper paper;
    const DrawingSheet *sheet;
    const DrawingView *view;
} Plot;

static const double pt_per_m = 72 / 0.0254;

static double x_pt(const Plot *p, double x_m)
{
    return pt_per_m * (p->view->origin.x_m + x_m / p->view->scale_1);
}

static double y_pt(const Plot *p, double y_m)
{
    return pt_per_m * (p->sheet->height_m - p->view->origin.y_m - y_m / p->view->scale_1);
}

static void path_set(const Plot *p, const DrawingItem *item)
{
    cairo_t *const cr = p->paper.cr;
    const DrawingPoint *const at = item->point;
    const double radius_pt = pt_per_m * item->radius_m / p->view->scale_1;
    cairo_new_path(cr);
    if (item->kind == DRAWING_CIRCLE) {
        cairo_arc(cr, x_pt(p, at[0].x_m), y_pt(p, at[0].y_m), radius_pt, 0, 8 * atan(1));
    } else if (item->kind == DRAWING_ARC) {
        /* y goes down: from the one to the other end the other way round */
        cairo_arc(cr, x_pt(p, at[0].x_m), y_pt(p, at[0].y_m), radius_pt, -item->to_rad,
                  -item->from_rad);
    } else {
        for (int i = 0; i < item->point_count; i++)
            cairo_line_to(cr, x_pt(p, at[i].x_m), y_pt(p, at[i].y_m));
        if (item->kind == DRAWING_AREA) cairo_close_path(cr);
    }
}

static void shape_draw(const Plot *p, const DrawingItem *item)
{
    cairo_t *const cr = p->paper.cr;
    const DrawingLook *const look = drawing_look(item->layer);
    const double dash_pt[] = {pt_per_m * look->on_m, pt_per_m * look->off_m};
    path_set(p, item);
    if (look->tone_1 >= 0 && (item->kind == DRAWING_AREA || item->kind == DRAWING_CIRCLE)) {
        cairo_set_source_rgb(cr, look->tone_1, look->tone_1, look->tone_1);
        cairo_fill_preserve(cr);
    }
    cairo_set_source_rgb(cr, 0, 0, 0);
    cairo_set_dash(cr, dash_pt, look->on_m > 0 ? 2 : 0, 0);
    cairo_set_line_width(cr, pt_per_m * look->weight_m);
    cairo_stroke(cr);
}

/* On a ground of paper, so that lines behind do not cross it. */
static void words_draw(Plot *p, const DrawingItem *item)
{
    cairo_t *const cr = p->paper.cr;
    const double high_pt = pt_per_m * item->height_m;
    const bool title = item->height_m > 0.0035;
    PangoLayout *const layout = words_layout(
        &p->paper, item->text, title ? FACE_SANS_BOLD : FACE_SANS, high_pt / capital_1, -1);
    double width_pt = words_width_pt(layout);
    /* never wider than what the sheet was laid out for */
    const double most_pt = drawing_text_width_1(item->text) * high_pt;
    const double narrow_1 = width_pt > most_pt ? most_pt / width_pt : 1;
    const double back_1 = item->align == DRAWING_END ? 1 : item->align == DRAWING_MIDDLE ? 0.5 : 0;
    width_pt *= narrow_1;
    cairo_save(cr);
    cairo_translate(cr, x_pt(p, item->point[0].x_m), y_pt(p, item->point[0].y_m));
    if (item->upright) cairo_rotate(cr, -2 * atan(1));
    if (p->view->scale_1 != 1) {
        cairo_set_source_rgb(cr, 1, 1, 1);
        cairo_rectangle(cr, -back_1 * width_pt - 0.5, -high_pt - 0.8, width_pt + 1, high_pt + 1.6);
        cairo_fill(cr);
    }
    cairo_scale(cr, narrow_1, 1);
    words_show(&p->paper, layout, -back_1 * width_pt / narrow_1, -words_baseline_pt(layout),
               INK_TEXT);
    cairo_restore(cr);
}

static void sheet_draw(Plot *p, const DrawingSet *set)
{
    const double print_1 = set->half ? 0.5 : 1;
    cairo_t *const cr = p->paper.cr;
    cairo_pdf_surface_set_size(p->paper.surface, print_1 * pt_per_m * p->sheet->width_m,
                               print_1 * pt_per_m * p->sheet->height_m);
    cairo_save(cr);
    cairo_scale(cr, print_1, print_1);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    for (p->view = p->sheet->first; p->view; p->view = p->view->next)
        for (const DrawingItem *item = p->view->first; item; item = item->next) {
            if (item->kind == DRAWING_WORDS)
                words_draw(p, item);
            else
                shape_draw(p, item);
        }
    cairo_restore(cr);
    char link[64];
    snprintf(link, sizeof link, "page=%d", p->sheet->number);
    cairo_pdf_surface_add_outline(p->paper.surface, CAIRO_PDF_OUTLINE_ROOT, p->sheet->title, link,
                                  0);
    cairo_show_page(cr);
}

Status paper_drawings(const DrawingSet *set, Arena *arena, Text *pdf, Error *err)
{
    Plot p = {.paper = {.arena = arena, .width_pt = 612, .height_pt = 792}};
    const PaperFile file = {.title = set->title,
                            .subject = "Drawings",
                            .revision = set->revision,
                            .date = set->date,
                            .version = set->version};
    paper_open(&p.paper, &file, pdf);
    Status status = paper_fonts(&p.paper, err);
    if (status == STATUS_OK) {
        for (int i = 0; i < set->sheet_count; i++) {
            p.sheet = &set->sheet[i];
            sheet_draw(&p, set);
        }
        status = paper_finish(&p.paper, err);
    }
    paper_shut(&p.paper);
    return status;
}
