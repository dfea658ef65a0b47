/* The bridge seen from above, straight or on its curve, in stretches that are turned level. */
#include <math.h>
#include <string.h>

#include "draw.h"

/* ---- the axis ---- */

/* Angle that the axis has turned to the right at a station, and its curvature. */
static double bend_1_per_m(const Draw *d)
{
    const double radius_m = draw_value(d, "deck.plan_radius");
    if (isnan(radius_m)) return 0;
    return (strcmp(draw_said(d, "deck.curve"), "left") == 0 ? -1 : 1) / radius_m;
}

static double heading_rad(const Draw *d, double x_m) { return -bend_1_per_m(d) * x_m; }

/* z to the right looking along. */
static Point axis_point(const Draw *d, double x_m, double z_m)
{
    const double bend = bend_1_per_m(d), turn_rad = heading_rad(d, x_m);
    Point p = {x_m, 0};
    if (bend != 0) p = (Point){sin(-turn_rad) / bend, -(1 - cos(turn_rad)) / bend};
    return (Point){p.x_m + z_m * sin(turn_rad), p.y_m - z_m * cos(turn_rad)};
}

static Point level(const Strip *s, Point p)
{
    const double x_m = p.x_m - s->middle.x_m, y_m = p.y_m - s->middle.y_m;
    const double c = cos(-s->turn_rad), n = sin(-s->turn_rad);
    return (Point){x_m * c - y_m * n, x_m * n + y_m * c};
}

Strip strip_of(const Draw *d, double from_m, double to_m)
{
    const double middle_m = (from_m + to_m) / 2;
    return (Strip){d, from_m, to_m, heading_rad(d, middle_m), axis_point(d, middle_m, 0)};
}

Point strip_point(const Strip *s, double x_m, double z_m)
{
    return level(s, axis_point(s->draw, x_m, z_m));
}

/* A panel is plane: it stands on the tangent in its middle. */
static Point panel_point(const Strip *s, const PanelPiece *piece, double x_m, double z_m)
{
    const double middle_m = (piece->from_m + piece->to_m) / 2;
    const double turn_rad = heading_rad(s->draw, middle_m);
    const double along_m = x_m - (piece->to_m - piece->from_m) / 2;
    Point p = axis_point(s->draw, middle_m, z_m);
    p.x_m += along_m * cos(turn_rad);
    p.y_m += along_m * sin(turn_rad);
    return level(s, p);
}

void strip_corners(const Strip *s, const PanelPiece *piece, Point corner[4])
{
    const PanelShape *p = &piece->shape;
    const double z[2] = {p->from_z_m, p->to_z_m};
    for (int i = 0; i < 2; i++) {
        corner[i] = panel_point(s, piece, p->left_m + z[i] * p->left_slope_1, z[i]);
        corner[3 - i] = panel_point(s, piece, p->right_m + z[i] * p->right_slope_1, z[i]);
    }
}

void strip_box(const Strip *s, Point *least, Point *most)
{
    enum { PARTS = 48 };
    *least = (Point){INFINITY, INFINITY};
    *most = (Point){-INFINITY, -INFINITY};
    const double half_m = s->draw->width_m / 2;
    const double skew_m = half_m * fabs(tan(s->draw->plan->skew_rad));
    for (int i = 0; i <= PARTS; i++)
        for (int side = -1; side <= 1; side += 2) {
            const double x_m = s->from_m + i * (s->to_m - s->from_m) / PARTS;
            const Point p = strip_point(s, x_m, side * half_m);
            *least = (Point){fmin(least->x_m, p.x_m - skew_m), fmin(least->y_m, p.y_m)};
            *most = (Point){fmax(most->x_m, p.x_m + skew_m), fmax(most->y_m, p.y_m)};
        }
}

bool piece_first_across(const PanelPiece *piece)
{
    const size_t length = strlen(piece->mark);
    return piece->mark[length - 1] != 'R';
}

/* ---- what is drawn ---- */

static bool inside(const Strip *s, double from_m, double to_m)
{
    return from_m > s->from_m - 1e-6 && to_m < s->to_m + 1e-6;
}

static void line_along(Draw *d, DrawingView *view, const Strip *s, double z_m, DrawingLayer layer)
{
    enum { PARTS = 24 };
    Point point[PARTS + 1];
    const int parts = bend_1_per_m(d) == 0 ? 1 : PARTS;
    for (int i = 0; i <= parts; i++)
        point[i] = strip_point(s, s->from_m + i * (s->to_m - s->from_m) / parts, z_m);
    pen_lines(pen_of(d, view, layer), point, parts + 1);
}

static void girders_draw(Draw *d, DrawingView *view, const Strip *s)
{
    for (int k = 0; k < d->girders; k++)
        line_along(d, view, s, (k - (d->girders - 1) / 2.0) * d->spacing_m, DRAWING_HIDDEN);
    line_along(d, view, s, 0, DRAWING_CENTRELINE);
}

/* Where words stand clear: the place across that is midway between girders and axis, nearest to the
 * middle of the panel. */
static double clear_z(const Draw *d, const PanelShape *s)
{
    const double middle_m = (s->from_z_m + s->to_z_m) / 2;
    double best_m = middle_m;
    double off_m = INFINITY;
    for (int k = -1; k < d->girders; k++) {
        const double a = k < 0 ? -d->width_m / 2 : (k - (d->girders - 1) / 2.0) * d->spacing_m;
        double b =
            k + 1 < d->girders ? (k + 1 - (d->girders - 1) / 2.0) * d->spacing_m : d->width_m / 2;
        if (a < -1e-9 && b > 1e-9) b = 0; /* the axis lies between */
        const double z_m = (a + b) / 2;
        if (z_m < s->from_z_m || z_m > s->to_z_m || fabs(z_m - middle_m) >= off_m) continue;
        off_m = fabs(z_m - middle_m);
        best_m = z_m;
    }
    return best_m;
}

/* Two lines in a panel, read from below where it is short. */
static void label_draw(Draw *d, DrawingView *view, const Strip *strip, const PanelPiece *piece,
                       const char *const line[2])
{
    const PanelShape *p = &piece->shape;
    const double s = view->scale_1, z_m = clear_z(d, p);
    const double left_m = p->left_m + z_m * p->left_slope_1;
    const double right_m = p->right_m + z_m * p->right_slope_1;
    const Point middle = panel_point(strip, piece, (left_m + right_m) / 2, z_m);
    double long_m = 0;
    for (int i = 0; i < 2; i++)
        if (line[i]) long_m = fmax(long_m, drawing_text_width_1(line[i]) * text_m);
    const bool upright = long_m + 0.002 > (right_m - left_m) / s;
    const double step_m = 1.6 * text_m;
    for (int i = 0; i < 2; i++) {
        if (!line[i]) continue;
        /* baselines about the middle */
        const double down_m = (line[1] ? (i - 0.5) * step_m : 0) + text_m / 2;
        const Point at = upright ? (Point){middle.x_m + down_m * s, middle.y_m}
                                 : (Point){middle.x_m, middle.y_m - down_m * s};
        pen_text(pen_of(d, view, DRAWING_TEXT), at, (Form){text_m, DRAWING_MIDDLE, upright},
                 line[i]);
    }
}

static void panels_draw(Draw *d, DrawingView *view, const Strip *s)
{
    for (int i = 0; i < d->plan->piece_count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        if (!inside(s, p->from_m, p->to_m)) continue;
        Point corner[4];
        strip_corners(s, p, corner);
        pen_area(pen_of(d, view, p->anchor ? DRAWING_ANCHOR : DRAWING_PANEL), corner, 4);
    }
}

static void labels_draw(Draw *d, DrawingView *view, const Strip *s, StripLabel *label)
{
    for (int i = 0; i < d->plan->piece_count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        const char *line[2] = {NULL, NULL};
        if (!inside(s, p->from_m, p->to_m)) continue;
        label(d, i, line);
        if (line[0]) label_draw(d, view, s, p, line);
    }
}

/* The open strip between the panels that the jacks bear on: crossed out. */
static void gap_draw(Draw *d, DrawingView *view, const Strip *s, const PanelRun *run)
{
    if (!inside(s, run->gap_from_m, run->gap_to_m)) return;
    Point left[4], right[4];
    for (int i = run->first; i < run->first + run->count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        const bool first = piece_first_across(p);
        Point corner[4];
        strip_corners(s, p, corner);
        if (strcmp(p->right_joint, "gap") == 0) {
            if (first) left[0] = corner[3];
            left[1] = corner[2];
        }
        if (strcmp(p->left_joint, "gap") == 0) {
            if (first) right[0] = corner[0];
            right[1] = corner[1];
        }
    }
    const Pen pen = pen_of(d, view, DRAWING_GAP);
    pen_area(pen, (Point[]){left[0], left[1], right[1], right[0]}, 4);
    pen_line(pen, left[0], right[1]);
    pen_line(pen, left[1], right[0]);
}

static void supports_draw(Draw *d, DrawingView *view, const Strip *s)
{
    const double over_m = 0.004 * view->scale_1, skew = tan(d->plan->skew_rad);
    for (int k = 0; k <= d->span_count; k++) {
        const double x_m = d->support_m[k], z_m = d->width_m / 2 + over_m;
        if (!inside(s, x_m, x_m)) continue;
        pen_line(pen_of(d, view, DRAWING_SUPPORT), strip_point(s, x_m - z_m * skew, -z_m),
                 strip_point(s, x_m + z_m * skew, z_m));
    }
}

void strip_draw(Draw *d, DrawingView *view, const Strip *strip, StripLabel *label)
{
    panels_draw(d, view, strip);
    girders_draw(d, view, strip);
    for (int r = 0; r < d->plan->run_count; r++) gap_draw(d, view, strip, &d->plan->run[r]);
    supports_draw(d, view, strip);
    if (label) labels_draw(d, view, strip, label); /* on a ground of paper, over all lines */
}
