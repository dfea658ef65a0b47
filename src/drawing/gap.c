/* The jacking gap: plan, across, along a jack, and its tables. */
#include <math.h>
#include <string.h>

#include "draw.h"

typedef struct GapDraw {
    Draw *draw;
    DrawingSheet *sheet;
    const PanelRun *run;
    double open_m; /* length of the gap */
    int jacks;
    double across_m[JACKS_MAX];
    int set[JACKS_MAX];
    double scale, x_m; /* of plan and section; mid-width on the sheet */
} GapDraw;

/* Edges of the gap at a place across: of the panels that the jacks bear on. */
static double face_m(const GapDraw *g, double z_m, bool right)
{
    const PanelPlan *plan = g->draw->plan;
    for (int i = g->run->first; i < g->run->first + g->run->count; i++) {
        const PanelPiece *p = &plan->piece[i];
        const char *joint = right ? p->left_joint : p->right_joint;
        const PanelShape *s = &p->shape;
        if (strcmp(joint, "gap") != 0 || z_m < s->from_z_m - 1e-9 || z_m > s->to_z_m + 1e-9)
            continue;
        return p->from_m - g->run->gap_from_m +
               (right ? s->left_m + z_m * s->left_slope_1 : s->right_m + z_m * s->right_slope_1);
    }
    return right ? g->open_m : 0; /* over a longitudinal closure */
}

/* ---- plan: x across to the right, y along the stations ---- */

static void jack_plan(const GapDraw *g, DrawingView *view, int i)
{
    const Draw *d = g->draw;
    const double half_m = draw_value(d, "jacks.plate_width") / 2;
    const double long_m = draw_value(d, "jacks.closed_height");
    const double plate_m = draw_value(d, "jacks.packing") / 2;
    const double z_m = g->across_m[i], from_m = face_m(g, z_m, false), to_m = face_m(g, z_m, true);
    const double low_m = (from_m + to_m - long_m) / 2;
    const Pen jack = pen_of(g->draw, view, DRAWING_JACK),
              strut = pen_of(g->draw, view, DRAWING_HIDDEN);
    pen_rect(jack, (Point){z_m - half_m, from_m}, (Point){z_m + half_m, from_m + plate_m});
    pen_rect(jack, (Point){z_m - half_m, to_m - plate_m}, (Point){z_m + half_m, to_m});
    pen_rect(strut, (Point){z_m - half_m / 2, from_m + plate_m}, (Point){z_m + half_m / 2, low_m});
    pen_rect(strut, (Point){z_m - half_m / 2, low_m + long_m},
             (Point){z_m + half_m / 2, to_m - plate_m});
    pen_rect(jack, (Point){z_m - 0.8 * half_m, low_m}, (Point){z_m + 0.8 * half_m, low_m + long_m});
    pen_text(pen_of(g->draw, view, DRAWING_TEXT),
             (Point){z_m, low_m + long_m / 2 - text_m / 2 * view->scale_1},
             (Form){text_m, DRAWING_MIDDLE, false}, arena_printf(d->arena, "%d", i + 1));
}

static void neighbours_draw(const GapDraw *g, DrawingView *view, double arm_m)
{
    const Draw *d = g->draw;
    const double half_m = d->width_m / 2, strip_m = d->plan->strip_m / 2;
    for (int half = 0; half < (strip_m > 0 ? 2 : 1); half++) {
        const double a = half ? strip_m : -half_m;
        const double b = half || strip_m <= 0 ? half_m : -strip_m;
        for (int right = 0; right < 2; right++) {
            const double off_m = right ? arm_m : -arm_m;
            const double fa = face_m(g, a, right), fb = face_m(g, b, right);
            pen_area(pen_of(g->draw, view, DRAWING_PANEL),
                     (Point[]){{a, fa}, {b, fb}, {b, fb + off_m}, {a, fa + off_m}}, 4);
        }
    }
}

static const char *gap_words(const GapDraw *g)
{
    if (g->jacks == 0)
        return "jacks.count is not in the bridge file: no jack is drawn; clench jacking proposes "
               "some for the thrust.";
    return "Jacks with their numbers, from the left; dashed: struts or packing, their size is not "
           "in "
           "the bridge file. Plates as wide as jacks.plate_width.";
}

static double gap_plan(GapDraw *g, double top_m)
{
    Draw *d = g->draw;
    const double half_m = d->width_m / 2, arm_m = 0.014 * g->scale;
    const double skew_m = fmax(fabs(face_m(g, half_m, true) - face_m(g, -half_m, true)),
                               fabs(face_m(g, half_m, false) - face_m(g, -half_m, false))) /
                          2;
    const double high_m = g->open_m + arm_m + skew_m, low_m = -arm_m - skew_m;
    DrawingView *view =
        view_add(d, g->sheet, g->scale, (Point){g->x_m, top_m - 0.020 - high_m / g->scale});
    neighbours_draw(g, view, arm_m);
    for (int k = 0; k < d->girders; k++) {
        const double z_m = (k - (d->girders - 1) / 2.0) * d->spacing_m;
        pen_line(pen_of(d, view, DRAWING_CENTRELINE), (Point){z_m, low_m}, (Point){z_m, high_m});
    }
    for (int i = 0; i < g->jacks; i++) jack_plan(g, view, i);
    double at[JACKS_MAX + 2];
    int count = 0;
    at[count++] = -half_m;
    for (int i = 0; i < g->jacks; i++) at[count++] = g->across_m[i];
    at[count++] = half_m;
    const Dims across = {view, false, high_m, 0.006, count, at, true};
    chain_draw(d, &across);
    const double open[] = {face_m(g, -half_m, false), face_m(g, -half_m, true)};
    const Dims along = {view, true, -half_m, -0.010, 2, open, false};
    chain_draw(d, &along);
    const double down_m = pen_words(
        pen_of(d, view, DRAWING_TEXT), (Point){-half_m, low_m - 0.002 * g->scale},
        (Form){text_m, DRAWING_START, false}, fmax(2 * half_m / g->scale, 0.25), gap_words(g));
    view_title(d, view, (Point){-half_m, low_m - (down_m + 0.010) * g->scale},
               "Plan of the gap, stations upwards");
    return top_m - 0.020 - (high_m - low_m) / g->scale - down_m - 0.010 - 0.018;
}

/* ---- across: looking along the stations ---- */

static double gap_across(GapDraw *g, double top_m)
{
    Draw *d = g->draw;
    const double half_m = d->width_m / 2, above_m = draw_value(d, "jacks.above_mid");
    const double wide_m = draw_value(d, "jacks.plate_width") / 2;
    const double high_m = draw_value(d, "jacks.plate_height") / 2;
    const BridgeGirder *piece = &d->piece[0];
    for (int i = 0; i + 1 < d->piece_count && g->run->gap_from_m > d->piece[i].to_m; i++)
        piece = &d->piece[i + 1];
    DrawingView *view = view_add(d, g->sheet, g->scale, (Point){g->x_m, top_m - 0.010});
    double middle[2], width_m;
    const int haunches = haunches_of(piece, middle, &width_m);
    for (int k = 0; k < d->girders; k++) {
        const double z_m = (k - (d->girders - 1) / 2.0) * d->spacing_m;
        const double under_m = deck_soffit(d, z_m);
        for (int i = 0; i < haunches; i++)
            pen_rect(pen_of(d, view, DRAWING_HAUNCH),
                     (Point){z_m + middle[i] - width_m / 2, under_m},
                     (Point){z_m + middle[i] + width_m / 2, under_m - d->haunch_m});
        girder_draw(d, view, piece, (Point){z_m, under_m - d->haunch_m});
    }
    deck_cut(d, view);
    for (int i = 0; i < g->jacks; i++) {
        const double z_m = g->across_m[i];
        const double y_m = (deck_top(d, z_m) + deck_soffit(d, z_m)) / 2 + above_m;
        pen_rect(pen_of(d, view, DRAWING_JACK), (Point){z_m - wide_m, y_m - high_m},
                 (Point){z_m + wide_m, y_m + high_m});
    }
    const double y[] = {deck_soffit(d, half_m), deck_top(d, half_m)};
    const Dims thick = {view, true, -half_m, -0.007, 2, y, false};
    chain_draw(d, &thick);
    const double low_m = deck_soffit(d, half_m) - d->haunch_m - piece->section.depth_m;
    view_title(d, view, (Point){-half_m, low_m - 0.012 * g->scale},
               "Face of the gap with the plates");
    return top_m - 0.010 + low_m / g->scale - 0.012 - 0.020;
}

/* ---- along a jack ---- */

static void along_jack(const GapDraw *g, DrawingView *view)
{
    Draw *d = g->draw;
    const double long_m = draw_value(d, "jacks.closed_height");
    const double plate_m = draw_value(d, "jacks.packing") / 2;
    const double high_m = draw_value(d, "jacks.plate_height") / 2;
    const double y_m = d->deck_m / 2 + draw_value(d, "jacks.above_mid");
    const double from_m = (g->open_m - long_m) / 2;
    const Pen jack = pen_of(d, view, DRAWING_JACK), strut = pen_of(d, view, DRAWING_HIDDEN);
    pen_rect(jack, (Point){0, y_m - high_m}, (Point){plate_m, y_m + high_m});
    pen_rect(jack, (Point){g->open_m - plate_m, y_m - high_m}, (Point){g->open_m, y_m + high_m});
    pen_rect(jack, (Point){from_m, y_m - 0.8 * high_m},
             (Point){from_m + long_m, y_m + 0.8 * high_m});
    pen_rect(strut, (Point){plate_m, y_m - high_m / 2}, (Point){from_m, y_m + high_m / 2});
    pen_rect(strut, (Point){from_m + long_m, y_m - high_m / 2},
             (Point){g->open_m - plate_m, y_m + high_m / 2});
    pen_line(pen_of(d, view, DRAWING_CENTRELINE), (Point){-0.2, y_m},
             (Point){g->open_m + 0.2, y_m});
    const double x[] = {0, plate_m, from_m, from_m + long_m, g->open_m - plate_m, g->open_m};
    const Dims chain = {view, false, d->deck_m, 0.008, 6, x, true};
    chain_draw(d, &chain);
    const double y[] = {0, y_m, d->deck_m};
    const Dims line = {view, true, g->open_m + 0.30, 0.008, 3, y, true};
    chain_draw(d, &line);
}

static double gap_along(GapDraw *g, Point top, double width_m)
{
    Draw *d = g->draw;
    const double arm_m = 0.30, flange_m = 0.12;
    const double scale = scale_fit(d, g->open_m + 2 * arm_m, width_m - 0.050);
    DrawingView *view =
        view_add(d, g->sheet, scale,
                 (Point){top.x_m + 0.012 + arm_m / scale, top.y_m - 0.034 - d->deck_m / scale});
    for (int side = 0; side < 2; side++) {
        const double x_m = side ? g->open_m : 0, end_m = side ? x_m + arm_m : -arm_m;
        pen_rect(pen_of(d, view, DRAWING_CUT), (Point){x_m, 0}, (Point){end_m, d->deck_m});
    }
    pen_rect(pen_of(d, view, DRAWING_GIRDER), (Point){-arm_m, -d->haunch_m},
             (Point){g->open_m + arm_m, -d->haunch_m - flange_m});
    if (g->jacks > 0) {
        along_jack(g, view);
    } else {
        const double x[] = {0, g->open_m};
        const Dims chain = {view, false, d->deck_m, 0.008, 2, x, false};
        chain_draw(d, &chain);
    }
    const double low_m = -d->haunch_m - flange_m - 0.008 * scale;
    view_title(d, view, (Point){-arm_m, low_m}, g->jacks ? "Along a jack" : "Along the bridge");
    return top.y_m - 0.034 - (d->deck_m - low_m) / scale - 0.016;
}

/* ---- tables ---- */

static double jacks_table(const GapDraw *g, Point top)
{
    const Draw *d = g->draw;
    Table t = table_start(g->draw, g->sheet->first, top, 2, (const double[]){0.075, 0.12});
    table_row(&t, (const char *const[]){"jacks of one gap", ""}, true);
    const bool none = g->jacks == 0;
    table_pair(&t, "number, sets",
               none ? "not chosen"
                    : arena_printf(d->arena, "%d in %d", g->jacks, draw_count(d, "jacks.sets")));
    table_pair(&t, "rated, each", draw_quantity(d, draw_value(d, "jacks.rated"), DIM_FORCE, 0));
    table_pair(&t, "stroke, each", draw_length(d, draw_value(d, "jacks.stroke")));
    table_pair(&t, "closed height", draw_length(d, draw_value(d, "jacks.closed_height")));
    table_pair(&t, "plates and packing, least", draw_length(d, draw_value(d, "jacks.packing")));
    table_pair(&t, "plate, across by high",
               arena_printf(d->arena, "%s x %s", draw_length(d, draw_value(d, "jacks.plate_width")),
                            draw_length(d, draw_value(d, "jacks.plate_height"))));
    const double above_m = draw_value(d, "jacks.above_mid");
    table_pair(&t, above_m < 0 ? "line below mid-depth" : "line above mid-depth",
               draw_length(d, fabs(above_m)));
    table_pair(
        &t, "first closure",
        arena_printf(d->arena, "%.4g %% of the width", 100 * draw_value(d, "closure.fraction")));
    table_pair(
        &t, "closure at release, least",
        draw_quantity(d, draw_value(d, "closure.release_strength"), DIM_STRESS, d->us ? 0 : 1));
    return t.top.y_m;
}

static double runs_table(const GapDraw *g, Point top)
{
    const Draw *d = g->draw;
    Table t =
        table_start(g->draw, g->sheet->first, top, 4, (const double[]){0.020, 0.055, 0.060, 0.060});
    table_row(&t, (const char *const[]){"run", "spans", "gap from", "gap to"}, true);
    for (int r = 0; r < d->plan->run_count; r++) {
        const PanelRun *run = &d->plan->run[r];
        table_row(&t,
                  (const char *const[]){run->name, run->unit, draw_length(d, run->gap_from_m),
                                        draw_length(d, run->gap_to_m)},
                  false);
    }
    return t.top.y_m;
}

/* The gap of the first run; the others are as long, and their faces as skewed. */
Status draw_gap(Draw *d, Error *err)
{
    GapDraw g = {.draw = d, .run = &d->plan->run[0]};
    g.open_m = g.run->gap_to_m - g.run->gap_from_m;
    g.jacks = draw_count(d, "jacks.count");
    if (g.jacks > JACKS_MAX) g.jacks = JACKS_MAX;
    jack_places(d->bridge, g.jacks, g.across_m, g.set);
    TRY(page_add(d, "gap", "Jacking gap and jacks", &g.sheet, err));
    const double side_m = 0.235, room_m = d->right_m - d->left_m - side_m - 0.040;
    const double skew_m = d->width_m * fabs(tan(d->plan->skew_rad));
    const double deep_m = g.open_m + d->deck_m + d->haunch_m + d->piece[0].section.depth_m + skew_m;
    g.scale =
        fmax(scale_fit(d, d->width_m, room_m), scale_fit(d, deep_m, d->high_m - d->low_m - 0.150));
    g.x_m = d->left_m + 0.024 + d->width_m / 2 / g.scale;
    const double top_m = gap_plan(&g, d->high_m);
    gap_across(&g, top_m);
    const Point side = {d->right_m - side_m, d->high_m};
    const double low_m = gap_along(&g, side, side_m);
    const double next_m = jacks_table(&g, (Point){side.x_m + 0.012, low_m - 0.004});
    runs_table(&g, (Point){side.x_m + 0.012, next_m - 0.008});
    return STATUS_OK;
}
