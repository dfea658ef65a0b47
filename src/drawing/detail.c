/* Parts that several sheets show: girder sections, the joint between two panels, a pocket. */
#include <math.h>
#include <string.h>

#include "draw.h"

/* The bridge file has no key: a third of the depth high, 3/4 in deep (common practice, no source). */
const double key_deep_m = 0.75 * 0.0254;

bool match_cast(const Draw *d)
{
    return strcmp(draw_said(d, "panels.joint"), "match-cast epoxied") == 0;
}

void key_face(const Draw *d, Point low, double out_m, Point face[KEY_POINTS])
{
    const double t_m = d->deck_m, bevel_m = fabs(out_m) / 2;
    const double y[KEY_POINTS] = {0,           t_m / 3, t_m / 3 + bevel_m, 2 * t_m / 3 - bevel_m,
                                  2 * t_m / 3, t_m};
    for (int i = 0; i < KEY_POINTS; i++)
        face[i] = (Point){low.x_m + (i == 2 || i == 3 ? out_m : 0), low.y_m + y[i]};
}

/* ---- girders ---- */

static void profile_draw(Pen pen, const WidthProfile *p, Point top)
{
    Point ring[2 * WIDTH_POINTS];
    for (int i = 0; i < p->count; i++) {
        ring[i] = (Point){top.x_m + p->width_m[i] / 2, top.y_m - p->depth_m[i]};
        ring[2 * p->count - 1 - i] = (Point){top.x_m - p->width_m[i] / 2, ring[i].y_m};
    }
    pen_area(pen, ring, 2 * p->count);
}

/* Webs stand at the edges of the bottom plate, each under the middle of its flange. */
static void tub_draw(Pen pen, const PlateGirder *p, Point top)
{
    const double low_m = top.y_m - p->top_thickness_m - p->web_depth_m;
    const double half_m = p->bottom_width_m / 2 - p->web_thickness_m / 2;
    const double out_m = half_m + p->web_slope_1 * p->web_depth_m;
    for (int side = -1; side <= 1; side += 2) {
        const double at_m = top.x_m + side * out_m, foot_m = top.x_m + side * half_m;
        pen_rect(pen, (Point){at_m - p->top_width_m / 2, top.y_m},
                 (Point){at_m + p->top_width_m / 2, top.y_m - p->top_thickness_m});
        const double w_m = p->web_thickness_m / 2;
        pen_area(pen,
                 (Point[]){{at_m - w_m, top.y_m - p->top_thickness_m},
                           {at_m + w_m, top.y_m - p->top_thickness_m},
                           {foot_m + w_m, low_m},
                           {foot_m - w_m, low_m}},
                 4);
    }
    pen_rect(pen, (Point){top.x_m - p->bottom_width_m / 2, low_m},
             (Point){top.x_m + p->bottom_width_m / 2, low_m - p->bottom_thickness_m});
}

bool girder_draw(Draw *d, DrawingView *view, const BridgeGirder *g, Point top)
{
    const Pen pen = pen_of(d, view, DRAWING_GIRDER);
    if (g->plate.web_count == 2) {
        tub_draw(pen, &g->plate, top);
        return true;
    }
    if (g->section.profile.count > 0) {
        profile_draw(pen, &g->section.profile, top);
        return true;
    }
    const double half_m = g->haunch_m / 2;
    pen_rect(pen_of(d, view, DRAWING_HIDDEN), (Point){top.x_m - half_m, top.y_m},
             (Point){top.x_m + half_m, top.y_m - g->section.depth_m});
    return false;
}

/* Middles of the haunches of a girder: one, or one over each web of a tub. */
int haunches_of(const BridgeGirder *g, double at_m[2], double *width_m)
{
    const PlateGirder *p = &g->plate;
    at_m[0] = 0;
    *width_m = g->haunch_m;
    if (p->web_count != 2) return 1;
    const double out_m =
        p->bottom_width_m / 2 - p->web_thickness_m / 2 + p->web_slope_1 * p->web_depth_m;
    at_m[0] = -out_m;
    at_m[1] = out_m;
    *width_m = p->top_width_m;
    return 2;
}

/* ---- the joint ---- */

static const char *joint_words(const Draw *d)
{
    return match_cast(d)
               ? "cast against each other, glued with epoxy, pressed while it sets; the key stands "
                 "out at the joint nearer to the gap"
               : "narrow joint, cast with grout between two recesses";
}

void detail_joint(Draw *d, DrawingSheet *sheet, Point at)
{
    const double scale = d->us ? 4 : 5, arm_m = 0.28;
    const bool match = match_cast(d);
    const double open_m = match ? 0 : draw_value(d, "panels.joint_width");
    DrawingView *view = view_add(d, sheet, scale, (Point){at.x_m + 0.018, at.y_m + 0.040});
    Point ring[KEY_POINTS + 2], face[KEY_POINTS];
    const Pen cut = pen_of(d, view, DRAWING_CUT);
    for (int side = 0; side < 2; side++) {
        const double x_m = side ? arm_m + open_m : arm_m;
        const double out_m = match ? key_deep_m : side ? key_deep_m : -key_deep_m;
        key_face(d, (Point){x_m, 0}, out_m, face);
        memcpy(ring, face, sizeof face);
        const double end_m = side ? 2 * arm_m + open_m : 0;
        ring[KEY_POINTS] = (Point){end_m, d->deck_m};
        ring[KEY_POINTS + 1] = (Point){end_m, 0};
        pen_area(cut, ring, KEY_POINTS + 2);
    }
    const double thick[] = {0, d->deck_m / 3, 2 * d->deck_m / 3, d->deck_m};
    const Dims high = {view, true, 0, -0.006, 4, thick, true};
    chain_draw(d, &high);
    const double x[] = {arm_m, arm_m + (match ? key_deep_m : open_m)};
    const Dims deep = {view, false, d->deck_m, 0.006, 2, x, false};
    chain_draw(d, &deep);
    const double low_m = -0.010 * scale;
    pen_words(pen_of(d, view, DRAWING_TEXT), (Point){0, low_m + 0.006 * scale},
              (Form){text_m, DRAWING_START, false}, 2 * arm_m / scale, joint_words(d));
    view_title(d, view, (Point){0, low_m - 0.020 * scale}, "Joint, cut along the bridge");
}

/* ---- a pocket over its girder ---- */

static void connectors_cut(Draw *d, DrawingView *view, double top_m)
{
    const int row = draw_count(d, "connectors.per_row");
    const double gauge_m = draw_value(d, "connectors.gauge");
    const double half_m = draw_value(d, "connectors.diameter") / 2;
    const double given_m = draw_value(d, "connectors.height");
    const bool studs = strcmp(draw_said(d, "connectors.kind"), "studs") == 0;
    const Pen pen = pen_of(d, view, isnan(given_m) ? DRAWING_HIDDEN : DRAWING_CONNECTOR);
    const double high_m = isnan(given_m) ? d->haunch_m + d->deck_m / 2 : given_m;
    if (draw_count(d, "connectors.per_cluster") == 0) return;
    for (int i = 0; i < row; i++) {
        const double x_m = (i - (row - 1) / 2.0) * gauge_m;
        pen_rect(pen, (Point){x_m - half_m, top_m}, (Point){x_m + half_m, top_m + high_m});
        if (studs)
            pen_rect(pen, (Point){x_m - 1.6 * half_m, top_m + high_m},
                     (Point){x_m + 1.6 * half_m, top_m + high_m - 0.8 * half_m});
    }
}

static const char *pocket_words(const Draw *d)
{
    const int count = draw_count(d, "connectors.per_cluster");
    if (count == 0)
        return "connectors.per_cluster is not in the bridge file: none is drawn; clench checks "
               "tells how many are needed";
    return arena_printf(
        d->arena, "%d %s of %s a pocket, %d side by side at %s, rows at %s%s; grout %s", count,
        draw_said(d, "connectors.kind"), draw_length(d, draw_value(d, "connectors.diameter")),
        draw_count(d, "connectors.per_row"), draw_length(d, draw_value(d, "connectors.gauge")),
        draw_length(d, draw_value(d, "connectors.pitch")),
        isnan(draw_value(d, "connectors.height")) ? "; connectors.height is not in the file" : "",
        draw_quantity(d, draw_value(d, "connectors.grout"), DIM_STRESS, d->us ? 0 : 1));
}

void detail_pocket(Draw *d, DrawingSheet *sheet, Point at)
{
    const double scale = d->us ? 8 : 10, half_m = 0.62, flange_m = 0.20;
    const double pocket_m = draw_value(d, "handling.pocket") / 2;
    const BridgeGirder *g = &d->piece[0];
    double middle[2], width_m;
    haunches_of(g, middle, &width_m);
    DrawingView *view =
        view_add(d, sheet, scale, (Point){at.x_m + 0.018 + half_m / scale, at.y_m + 0.066});
    for (int side = -1; side <= 1; side += 2)
        pen_rect(pen_of(d, view, DRAWING_CUT), (Point){side * pocket_m, 0},
                 (Point){side * half_m, d->deck_m});
    const double wide_m = fmin(width_m / 2, half_m);
    pen_rect(pen_of(d, view, DRAWING_HAUNCH), (Point){-wide_m, 0}, (Point){wide_m, -d->haunch_m});
    pen_lines(pen_of(d, view, DRAWING_GIRDER),
              (Point[]){{-wide_m, -d->haunch_m - flange_m},
                        {-wide_m, -d->haunch_m},
                        {wide_m, -d->haunch_m},
                        {wide_m, -d->haunch_m - flange_m}},
              4);
    connectors_cut(d, view, -d->haunch_m);
    const double y[] = {-d->haunch_m, 0, d->deck_m};
    const Dims high = {view, true, -half_m, -0.006, 3, y, false};
    chain_draw(d, &high);
    const double x[] = {-pocket_m, pocket_m};
    const Dims wide = {view, false, d->deck_m, 0.006, 2, x, false};
    chain_draw(d, &wide);
    const double low_m = -d->haunch_m - flange_m - 0.004 * scale;
    pen_words(pen_of(d, view, DRAWING_TEXT), (Point){-half_m, low_m},
              (Form){text_m, DRAWING_START, false}, 2 * half_m / scale, pocket_words(d));
    view_title(d, view, (Point){-half_m, low_m - 0.025 * scale}, "Pocket, cut across the bridge");
}
