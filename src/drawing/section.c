/* The typical section of the bridge, its girders, and details. */
#include <math.h>
#include <string.h>

#include "draw.h"

/* Slope of both halves of the deck away from mid-width; the thickened crown has a flat soffit. */
static double planes_1(const Draw *d)
{
    const char *crown = draw_said(d, "panels.crown");
    if (strcmp(crown, "two planes") != 0 && strcmp(crown, "longitudinal closure") != 0) return 0;
    const double slope_1 = draw_value(d, "deck.crossfall");
    return isnan(slope_1) ? 0 : slope_1;
}

double deck_soffit(const Draw *d, double z_m) { return -d->deck_m - fabs(z_m) * planes_1(d); }

double deck_top(const Draw *d, double z_m)
{
    const double rise_1 = d->plan->piece[0].shape.rise_1;
    return rise_1 * (d->width_m / 2 - fabs(z_m)) - fabs(z_m) * planes_1(d);
}

void deck_cut(Draw *d, DrawingView *view)
{
    const double half_m = d->width_m / 2, strip_m = d->plan->strip_m / 2;
    const Pen cut = pen_of(d, view, DRAWING_CUT);
    if (strip_m > 0) {
        for (int side = -1; side <= 1; side += 2) {
            const double a = side * strip_m, b = side * half_m;
            pen_area(cut,
                     (Point[]){{a, deck_top(d, a)},
                               {b, deck_top(d, b)},
                               {b, deck_soffit(d, b)},
                               {a, deck_soffit(d, a)}},
                     4);
        }
        pen_rect(pen_of(d, view, DRAWING_GAP), (Point){-strip_m, deck_top(d, strip_m)},
                 (Point){strip_m, deck_soffit(d, strip_m)});
        return;
    }
    pen_area(cut,
             (Point[]){{-half_m, deck_top(d, half_m)},
                       {0, deck_top(d, 0)},
                       {half_m, deck_top(d, half_m)},
                       {half_m, deck_soffit(d, half_m)},
                       {0, deck_soffit(d, 0)},
                       {-half_m, deck_soffit(d, half_m)}},
             6);
}

static double girder_z(const Draw *d, int k) { return (k - (d->girders - 1) / 2.0) * d->spacing_m; }

static bool girders_draw(Draw *d, DrawingView *view)
{
    double middle[2], width_m;
    bool known = true;
    const int haunches = haunches_of(&d->piece[0], middle, &width_m);
    for (int k = 0; k < d->girders; k++) {
        const double z_m = girder_z(d, k), low_m = deck_soffit(d, z_m);
        for (int i = 0; i < haunches; i++)
            pen_rect(pen_of(d, view, DRAWING_HAUNCH), (Point){z_m + middle[i] - width_m / 2, low_m},
                     (Point){z_m + middle[i] + width_m / 2, low_m - d->haunch_m});
        known = girder_draw(d, view, &d->piece[0], (Point){z_m, low_m - d->haunch_m}) && known;
        pen_line(pen_of(d, view, DRAWING_CENTRELINE), (Point){z_m, 0.003 * view->scale_1},
                 (Point){z_m, low_m - d->haunch_m - d->piece[0].section.depth_m -
                                  0.003 * view->scale_1});
    }
    return known;
}

/* Its width alone is in the file: open above. */
static void barriers_draw(Draw *d, DrawingView *view)
{
    const double width_m = draw_value(d, "loads.barrier_width");
    const double half_m = d->width_m / 2, high_m = 0.012 * view->scale_1;
    if (isnan(width_m) || width_m <= 0) return;
    for (int side = -1; side <= 1; side += 2)
        for (int edge = 0; edge < 2; edge++) {
            const double z_m = side * (half_m - edge * width_m);
            pen_line(pen_of(d, view, DRAWING_HIDDEN), (Point){z_m, deck_top(d, z_m)},
                     (Point){z_m, deck_top(d, z_m) + high_m});
        }
    const double at[] = {half_m - width_m, half_m};
    const Dims chain = {view, false, deck_top(d, half_m) + high_m, 0.004, 2, at, false};
    chain_draw(d, &chain);
    pen_text(pen_of(d, view, DRAWING_TEXT),
             (Point){half_m - width_m - 0.004 * view->scale_1,
                     deck_top(d, half_m) + high_m + 0.005 * view->scale_1},
             (Form){text_m, DRAWING_END, false}, "barrier: its shape is not in the bridge file");
}

static void typical_dimensions(Draw *d, DrawingView *view, double low_m)
{
    double at[64];
    int count = 0;
    at[count++] = -d->width_m / 2;
    for (int k = 0; k < d->girders && count < 62; k++) at[count++] = girder_z(d, k);
    at[count++] = d->width_m / 2;
    const Dims across = {view, false, low_m, -0.012, count, at, true};
    chain_draw(d, &across);
    const double half_m = d->width_m / 2, y0 = deck_soffit(d, half_m);
    const double under_m = deck_soffit(d, girder_z(d, 0)) - d->haunch_m;
    const double high[] = {under_m - d->piece[0].section.depth_m, under_m,
                           deck_soffit(d, girder_z(d, 0)), deck_top(d, half_m)};
    const double flat[] = {y0, deck_top(d, half_m)};
    if (planes_1(d) == 0) {
        const Dims chain = {view, true, -half_m, -0.010, 4, high, true};
        chain_draw(d, &chain);
    } else {
        const Dims edge = {view, true, -half_m, -0.010, 2, flat, false};
        const Dims girder = {view, true, -half_m, -0.022, 3, high, false};
        chain_draw(d, &edge);
        chain_draw(d, &girder);
    }
}

static const char *typical_words(const Draw *d, bool known)
{
    const double fall_1 = draw_value(d, "deck.crossfall");
    Text text = text_start(d->arena);
    text_printf(&text,
                "Looking along the stations. Deck %s as cast, %s of it may be ground or worn "
                "off.",
                draw_length(d, d->deck_m), draw_length(d, draw_value(d, "deck.wearing_allowance")));
    if (!isnan(fall_1) && fall_1 > 0) {
        if (strcmp(draw_said(d, "panels.crown"), "none") == 0)
            text_printf(&text,
                        " Crossfall %.3g %%: drawn level, its direction is not in the bridge "
                        "file.",
                        100 * fall_1);
        else
            text_printf(&text, " Crossfall %.3g %%, %s.", 100 * fall_1,
                        draw_said(d, "panels.crown"));
    }
    if (!known)
        text_add(&text, " Of the girder the file has sizes alone: dashed, its outline is not "
                        "known.");
    return text.bytes;
}

static double typical_draw(Draw *d, DrawingSheet *sheet, double scale)
{
    const double depth_m =
        d->piece[0].section.depth_m + d->haunch_m - deck_soffit(d, d->width_m / 2);
    DrawingView *view = view_add(
        d, sheet, scale, (Point){d->left_m + 0.034 + d->width_m / 2 / scale, d->high_m - 0.028});
    const bool known = girders_draw(d, view);
    deck_cut(d, view);
    barriers_draw(d, view);
    typical_dimensions(d, view, -depth_m);
    const double left_m = -d->width_m / 2;
    pen_words(pen_of(d, view, DRAWING_TEXT), (Point){left_m, -depth_m - 0.036 * scale},
              (Form){text_m, DRAWING_START, false}, fmax(d->width_m / scale, 0.25),
              typical_words(d, known));
    view_title(d, view, (Point){left_m, -depth_m - 0.052 * scale}, "Typical section");
    return d->high_m - 0.028 - depth_m / scale - 0.072;
}

/* ---- girders one by one ---- */

static bool same_plates(const BridgeGirder *a, const BridgeGirder *b)
{
    const PlateGirder *p = &a->plate, *q = &b->plate;
    return p->top_width_m == q->top_width_m && p->top_thickness_m == q->top_thickness_m &&
           p->web_depth_m == q->web_depth_m && p->web_thickness_m == q->web_thickness_m &&
           p->bottom_width_m == q->bottom_width_m && p->bottom_thickness_m == q->bottom_thickness_m;
}

/* Number of the first piece of that section: 0 is "A". */
static int section_of(const Draw *d, int piece, int *letter)
{
    *letter = 0;
    for (int i = 0; i <= piece; i++) {
        int before = 0;
        while (!same_plates(&d->piece[before], &d->piece[i])) before++;
        if (same_plates(&d->piece[i], &d->piece[piece])) return before;
        if (before == i) ++*letter;
    }
    return piece;
}

static const char *plate_words(const Draw *d, double wide_m, double thick_m)
{
    return arena_printf(d->arena, "%s x %s", draw_length(d, wide_m), draw_length(d, thick_m));
}

static void pieces_table(Draw *d, DrawingSheet *sheet, Point top, int most)
{
    const bool steel = d->piece[0].plate.web_count > 0;
    Table t = table_start(d, sheet->first, top, steel ? 6 : 4,
                          (const double[]){0.014, 0.036, 0.036, 0.040, 0.040, 0.040});
    table_row(
        &t,
        steel ? (const char *const[]){"girder", "from", "to", "top flange", "web", "bottom flange"}
              : (const char *const[]){"girder", "from", "to", "shape"},
        true);
    for (int i = 0; i < d->piece_count && i < most; i++) {
        const BridgeGirder *g = &d->piece[i];
        const PlateGirder *p = &g->plate;
        int letter;
        section_of(d, i, &letter);
        const char *name = arena_printf(d->arena, "%c", 'a' + letter % 26);
        const char *from = draw_length(d, g->from_m), *to = draw_length(d, g->to_m);
        table_row(
            &t,
            steel ? (const char *const[]){name, from, to,
                                          plate_words(d, p->top_width_m, p->top_thickness_m),
                                          plate_words(d, p->web_depth_m, p->web_thickness_m),
                                          plate_words(d, p->bottom_width_m, p->bottom_thickness_m)}
                  : (const char *const[]){name, from, to, draw_said(d, "girders.shape")},
            false);
    }
}

static void girder_sections(Draw *d, DrawingSheet *sheet, Point at, double width_m, double high_m)
{
    double wide_m = 0, deep_m = 0, x_m = at.x_m;
    int sections = 0;
    for (int i = 0; i < d->piece_count; i++) {
        const BridgeGirder *g = &d->piece[i];
        double middle[2], flange_m;
        const int webs = haunches_of(g, middle, &flange_m);
        const double half_m = webs == 2 ? middle[1] + flange_m / 2 : flange_m / 2;
        int letter;
        sections += section_of(d, i, &letter) == i;
        wide_m = fmax(wide_m, fmax(2 * half_m, g->plate.bottom_width_m));
        deep_m = fmax(deep_m, g->section.depth_m);
    }
    const double beside_m = sections * 0.080; /* dimensions and titles */
    const double scale = fmax(fmax(scale_fit(d, deep_m, high_m - 0.050), d->us ? 12 : 10),
                              scale_fit(d, sections * wide_m, fmax(width_m - beside_m, 0.05)));
    const double step_m = fmax(wide_m / scale, 0.030) + 0.026;
    for (int i = 0; i < d->piece_count && x_m + step_m < at.x_m + width_m; i++) {
        const BridgeGirder *g = &d->piece[i];
        int letter;
        if (section_of(d, i, &letter) != i) continue;
        DrawingView *view =
            view_add(d, sheet, scale,
                     (Point){x_m + 0.014 + wide_m / 2 / scale, at.y_m + 0.028 + deep_m / scale});
        girder_draw(d, view, g, (Point){0, 0});
        const double y[] = {-g->section.depth_m, 0};
        const Dims deep = {view, true, -wide_m / 2, -0.005, 2, y, false};
        chain_draw(d, &deep);
        const double half_m = g->plate.web_count == 2 ? g->plate.bottom_width_m / 2
                              : g->plate.web_count    ? g->plate.top_width_m / 2
                                                      : g->haunch_m / 2;
        const double x[] = {-half_m, half_m};
        const double low = g->plate.web_count == 2 ? -g->section.depth_m : 0;
        const Dims wide = {view, false, low, low < 0 ? -0.008 : 0.005, 2, x, false};
        chain_draw(d, &wide);
        view_title(d, view, (Point){-wide_m / 2, -deep_m - 0.018 * scale},
                   arena_printf(d->arena, "Girder %c", 'a' + letter % 26));
        x_m += fmax(step_m, 0.092);
    }
}

Status draw_section(Draw *d, Error *err)
{
    DrawingSheet *sheet;
    TRY(page_add(d, "section", "Typical section and details", &sheet, err));
    const double depth_m = d->piece[0].section.depth_m + d->haunch_m + d->deck_m;
    const double room_m = d->right_m - d->left_m;
    const double scale = fmax(scale_fit(d, d->width_m, room_m - 0.060),
                              scale_fit(d, depth_m, 0.5 * (d->high_m - d->low_m) - 0.110));
    const double top = typical_draw(d, sheet, scale);
    detail_joint(d, sheet, (Point){d->right_m - 0.180, d->low_m});
    detail_pocket(d, sheet, (Point){d->right_m - 0.385, d->low_m});
    const double left_m = room_m - 0.400;
    const int rows = (int)fmin(d->piece_count, 12);
    pieces_table(d, sheet, (Point){d->left_m, top - 0.002}, rows);
    girder_sections(d, sheet, (Point){d->left_m, d->low_m}, left_m,
                    top - d->low_m - (rows + 1) * 0.0055 - 0.006);
    return STATUS_OK;
}
