/* Girders as beams over their sections' outlines, piece by piece. */
#include <math.h>
#include <string.h>

#include "model.h"

enum { OUTLINE_MOST = 4 * WIDTH_POINTS };

typedef struct Outline {
    int count;
    Point2 point[OUTLINE_MOST]; /* x to the left, y up from the girder's top */
} Outline;

static void add(Outline *o, double x_m, double y_m)
{
    if (o->count && fabs(o->point[o->count - 1].x_m - x_m) < 1e-9 &&
        fabs(o->point[o->count - 1].y_m - y_m) < 1e-9)
        return;
    o->point[o->count++] = (Point2){x_m, y_m};
}

/* The right half from the bottom up was added; its mirror goes on down the left. */
static void mirror(Outline *o)
{
    for (int i = o->count - 1; i >= 0; i--)
        if (fabs(o->point[i].x_m) > 1e-9) add(o, -o->point[i].x_m, o->point[i].y_m);
}

/* Widths over the depth, symmetric. */
static void outline_profile(const WidthProfile *p, Outline *o)
{
    for (int i = p->count - 1; i >= 0; i--) add(o, p->width_m[i] / 2, -p->depth_m[i]);
    mirror(o);
}

/* One outline goes round bottom, webs and both top flanges; a web's outer face stands on the edge of the bottom. */
static void outline_tub(const PlateGirder *g, Outline *o)
{
    const double low = -g->top_thickness_m - g->web_depth_m, top = -g->top_thickness_m;
    const double web = g->web_thickness_m * hypot(1, g->web_slope_1), foot = g->bottom_width_m / 2;
    const double head = foot + g->web_slope_1 * g->web_depth_m, middle = head - web / 2;
    const double half = g->top_width_m / 2;
    add(o, foot, low - g->bottom_thickness_m);
    add(o, foot, low);
    add(o, head, top);
    add(o, middle + half, top);
    add(o, middle + half, 0);
    add(o, middle - half, 0);
    add(o, middle - half, top);
    add(o, head - web, top);
    add(o, foot - web, low);
    mirror(o);
}

/* True of the section; false: a box of the right depth and area. */
static bool outline_of(const BridgeGirder *g, Outline *o)
{
    *o = (Outline){0};
    if (g->plate.web_count == 2) {
        outline_tub(&g->plate, o);
        return true;
    }
    if (g->section.profile.count > 1) {
        outline_profile(&g->section.profile, o);
        return true;
    }
    const double half_m = g->section.area_m2 / g->section.depth_m / 2;
    add(o, half_m, -g->section.depth_m);
    add(o, half_m, 0);
    mirror(o);
    return false;
}

typedef struct Piece {
    const BridgeGirder *of;
    double from_m, to_m;
    int number; /* along the line, from 1 */
} Piece;

static void piece_write(Model *m, const Piece *piece, int line)
{
    Step *s = &m->step;
    const double spacing_m = model_value(m, "girders.spacing");
    const double left_m = -(line - (model_value(m, "girders.count") - 1) / 2) * spacing_m;
    const double level_m = -m->thickness_m - m->haunch_m;
    ModelPlace from = model_place(m, piece->from_m, left_m, level_m);
    const ModelPlace to = model_place(m, piece->to_m, left_m, level_m);
    from.heading_rad = atan2(to.y_m - from.y_m, to.x_m - from.x_m);
    const double length_m = hypot(to.x_m - from.x_m, to.y_m - from.y_m);
    const char *mark = arena_printf(s->arena, "G%d-%02d", line + 1, piece->number);
    Outline o;
    const bool true_outline = outline_of(piece->of, &o);
    const int place = shape_place(m, m->superstructure_place, from);
    const int solid = shape_along(m, shape_outline(m, o.point, o.count, NULL, 0), length_m);
    const int shape = shape_product(m, solid, false);
    const int beam = step_add(
        s, "IFCBEAM(%s,$,%s,%s,%s,#%d,#%d,%s,.GIRDER_SEGMENT.)", step_id(s, "girder", mark),
        step_text(s, mark),
        true_outline ? "$"
                     : "'a box of the right depth and area: its outline is not in the bridge file'",
        step_text(s, model_words(m, "girders.kind")), place, shape, step_text(s, mark));
    members_add(m, &m->girder_material, beam);
    members_add(m, &m->of_superstructure, beam);
    m->summary->girders++;
}

/* Stations where girders end: ends of units, all supports of pretensioned girders and of a curve. */
static bool ends_at_support(const Model *m, double x_m)
{
    if (m->radius_m != 0 || !strcmp(model_words(m, "girders.kind"), "pretensioned")) return true;
    for (int r = 0; r < m->plan->run_count; r++)
        if (fabs(m->plan->run[r].start_m - x_m) < 1e-6) return true;
    return false;
}

/* Half of the gap between girders' ends at a tied pier. */
static double trim_m(const Model *m, int support, double x_m)
{
    const char *pier = arena_printf(m->step.arena, "spans[%d].pier", support);
    if (support == 0 || !ends_at_support(m, x_m) || strcmp(model_words(m, pier), "tied") != 0)
        return 0;
    return model_value(m, "piers.end_gap") / 2;
}

/* The pieces of one stretch between two stations where girders end. */
static void stretch_write(Model *m, const BridgeGirder *girder, int count, double from_m,
                          double to_m, int *number)
{
    const int lines = (int)lround(model_value(m, "girders.count"));
    for (int i = 0; i < count; i++) {
        Piece piece = {&girder[i], fmax(from_m, girder[i].from_m), fmin(to_m, girder[i].to_m),
                       *number};
        if (piece.to_m - piece.from_m < 1e-6) continue;
        piece.number = ++*number;
        for (int k = 0; k < lines; k++) piece_write(m, &piece, k);
    }
}

Status girders_write(Model *m, Error *err)
{
    const BridgeGirder *girder;
    int count, number = 0;
    TRY(bridge_girders(m->bridge, m->step.arena, &girder, &count, err));
    double x_m = 0, from_m = 0;
    for (int k = 1;; k++) {
        const double span_m = model_value(m, arena_printf(m->step.arena, "spans[%d].length", k));
        if (!isfinite(span_m)) break;
        x_m += span_m;
        const bool last =
            !isfinite(model_value(m, arena_printf(m->step.arena, "spans[%d].length", k + 1)));
        if (!last && !ends_at_support(m, x_m)) continue;
        const double half_m = last ? 0 : trim_m(m, k, x_m);
        stretch_write(m, girder, count, from_m, x_m - half_m, &number);
        from_m = x_m + half_m;
    }
    return STATUS_OK;
}
