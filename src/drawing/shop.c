/* One sheet for each kind of panel: what forms, yard and crew need of it. */
#include <math.h>
#include <string.h>

#include "shop.h"

/* Seen from above, looking along the stations: x to the right across the bridge, y along it. */

static double edge_m(const PanelShape *s, double z_m, bool right)
{
    return right ? s->right_m + z_m * s->right_slope_1 : s->left_m + z_m * s->left_slope_1;
}

void shop_corners(const PanelShape *s, Point corner[4])
{
    const double z[2] = {s->from_z_m, s->to_z_m};
    for (int i = 0; i < 2; i++) {
        corner[i] = (Point){z[i], edge_m(s, z[i], false)};
        corner[3 - i] = (Point){z[i], edge_m(s, z[i], true)};
    }
}

static double low_m(const PanelShape *s)
{
    return fmin(edge_m(s, s->from_z_m, false), edge_m(s, s->to_z_m, false));
}

static double high_m(const PanelShape *s)
{
    return fmax(edge_m(s, s->from_z_m, true), edge_m(s, s->to_z_m, true));
}

static void holes_draw(const Shop *p)
{
    const PanelPiece *piece = p->piece;
    for (int i = 0; i < piece->hole_count; i++) {
        const PanelHole *h = &piece->hole[i];
        const Pen pen =
            pen_of(p->draw, p->plan, i < piece->pocket_count ? DRAWING_POCKET : DRAWING_BLOCKOUT);
        pen_rect(pen, (Point){h->z_m - h->across_m / 2, h->x_m - h->along_m / 2},
                 (Point){h->z_m + h->across_m / 2, h->x_m + h->along_m / 2});
    }
}

/* How far the key stands out at a joint, signed: 0 at ends and faces of the gap. */
double shop_key_m(const Shop *p, bool right)
{
    const PanelPiece *piece = p->piece;
    const char *joint = right ? piece->right_joint : piece->left_joint;
    if (joint[0] != 'R') return 0;
    if (!match_cast(p->draw)) return -key_deep_m;
    const PanelRun *run = &p->draw->plan->run[piece->run];
    const bool before_gap = piece->to_m < (run->gap_from_m + run->gap_to_m) / 2;
    return right == before_gap ? key_deep_m : -key_deep_m;
}

static void keys_draw(const Shop *p)
{
    const PanelShape *s = &p->piece->shape;
    for (int side = 0; side < 2; side++) {
        const double out_m = (side ? 1 : -1) * shop_key_m(p, side);
        if (out_m == 0) continue;
        pen_line(pen_of(p->draw, p->plan, DRAWING_KEY),
                 (Point){s->from_z_m, edge_m(s, s->from_z_m, side) + out_m},
                 (Point){s->to_z_m, edge_m(s, s->to_z_m, side) + out_m});
    }
}

static void lifting_draw(const Shop *p)
{
    const double r_m = 0.0016 * p->plan->scale_1;
    const Pen pen = pen_of(p->draw, p->plan, DRAWING_LIFTING);
    for (int i = 0; i < 2 * p->lift_across; i++) {
        const Point at = {p->lift[i].z_m, p->lift[i].x_m};
        pen_circle(pen, at, r_m);
        pen_line(pen, (Point){at.x_m - 1.6 * r_m, at.y_m}, (Point){at.x_m + 1.6 * r_m, at.y_m});
        pen_line(pen, (Point){at.x_m, at.y_m - 1.6 * r_m}, (Point){at.x_m, at.y_m + 1.6 * r_m});
    }
    const Point centre = {p->piece->body.net_z_m, p->piece->body.net_x_m};
    const Pen mark = pen_of(p->draw, p->plan, DRAWING_CENTRE);
    pen_circle(mark, centre, r_m);
    for (int side = -1; side <= 1;
         side += 2) /* a cross at 45 degrees, unlike the lifting points' */
        pen_line(mark, (Point){centre.x_m - 1.6 * r_m, centre.y_m - side * 1.6 * r_m},
                 (Point){centre.x_m + 1.6 * r_m, centre.y_m + side * 1.6 * r_m});
}

/* ---- dimensions in plan ---- */

static int add_sorted(double *at, int count, double value)
{
    for (int i = 0; i < count; i++)
        if (fabs(at[i] - value) < 1e-6) return count;
    int i = count;
    for (; i > 0 && at[i - 1] > value; i--) at[i] = at[i - 1];
    at[i] = value;
    return count + 1;
}

static void across_dimensions(const Shop *p)
{
    const PanelShape *s = &p->piece->shape;
    double *at = ARENA_NEW(p->draw->arena, double, p->piece->pocket_count + 2 * p->lift_across + 4);
    int count = 0;
    count = add_sorted(at, count, s->from_z_m);
    count = add_sorted(at, count, s->to_z_m);
    for (int i = 0; i < p->piece->pocket_count; i++)
        count = add_sorted(at, count, p->piece->hole[i].z_m);
    const Dims pockets = {p->plan, false, low_m(s), -0.009, count, at, true};
    chain_draw(p->draw, &pockets);
    count = 0;
    count = add_sorted(at, count, s->from_z_m);
    count = add_sorted(at, count, s->to_z_m);
    for (int i = 0; i < p->lift_across; i++) count = add_sorted(at, count, p->lift[i].z_m);
    const Dims lifts = {p->plan, false, high_m(s), 0.008, count, at, false};
    chain_draw(p->draw, &lifts);
}

/* Along the first row of pockets at the left, along the last lifting points at the right. */
static void along_dimensions(const Shop *p)
{
    const PanelPiece *piece = p->piece;
    const PanelShape *s = &piece->shape;
    double *at = ARENA_NEW(p->draw->arena, double, piece->pocket_count + 4);
    int count = 0;
    if (piece->pocket_count > 0) {
        const double z_m = piece->hole[0].z_m;
        count = add_sorted(at, count, edge_m(s, z_m, false));
        count = add_sorted(at, count, edge_m(s, z_m, true));
        for (int i = 0; i < piece->pocket_count; i++)
            if (fabs(piece->hole[i].z_m - z_m) < 1e-6)
                count = add_sorted(at, count, piece->hole[i].x_m);
        const Dims pockets = {p->plan, true, s->from_z_m, -0.009, count, at, true};
        chain_draw(p->draw, &pockets);
    }
    const PanelPoint *last = &p->lift[p->lift_across - 1];
    count = 0;
    count = add_sorted(at, count, edge_m(s, last->z_m, false));
    count = add_sorted(at, count, edge_m(s, last->z_m, true));
    count = add_sorted(at, count, last->x_m);
    count = add_sorted(at, count, p->lift[2 * p->lift_across - 1].x_m);
    const Dims lifts = {p->plan, true, s->to_z_m, 0.009, count, at, false};
    chain_draw(p->draw, &lifts);
}

/* Angle of a joint against the square, at its left end. */
static void skew_draw(const Shop *p, bool right)
{
    const PanelShape *s = &p->piece->shape;
    const double angle_rad = atan(right ? s->right_slope_1 : s->left_slope_1);
    const double radius_m = fmin(0.060 * p->plan->scale_1, 0.4 * (s->to_z_m - s->from_z_m));
    const Point at = {s->from_z_m, edge_m(s, s->from_z_m, right)};
    if (fabs(angle_rad) < 1e-6) return;
    const Pen pen = pen_of(p->draw, p->plan, DRAWING_DIMENSION);
    pen_line(pen, at, (Point){at.x_m + 1.1 * radius_m, at.y_m});
    pen_arc(pen, at, radius_m, fmin(0, angle_rad), fmax(0, angle_rad));
    /* inside of the joint's line */
    const double in_m = (right ? -0.0015 - text_m : 0.0015) * p->plan->scale_1;
    const double x_m = at.x_m + radius_m + 0.003 * p->plan->scale_1;
    const double long_m = 0.016 * p->plan->scale_1;
    const double edge0_m = edge_m(s, x_m, right), edge1_m = edge_m(s, x_m + long_m, right);
    pen_text(pen, (Point){x_m, (right ? fmin(edge0_m, edge1_m) : fmax(edge0_m, edge1_m)) + in_m},
             (Form){text_m, DRAWING_START, false},
             arena_printf(p->draw->arena, "%.3f\xC2\xB0", fabs(angle_rad) * 180 / acos(-1)));
}

static void arrow_draw(const Shop *p)
{
    const PanelShape *s = &p->piece->shape;
    const double scale = p->plan->scale_1, x_m = s->to_z_m + 0.031 * scale;
    const double y_m = (low_m(s) + high_m(s)) / 2;
    const Pen pen = pen_of(p->draw, p->plan, DRAWING_TEXT);
    pen_line(pen, (Point){x_m, y_m - 0.010 * scale}, (Point){x_m, y_m + 0.010 * scale});
    pen_lines(pen,
              (Point[]){{x_m - 0.002 * scale, y_m + 0.006 * scale},
                        {x_m, y_m + 0.010 * scale},
                        {x_m + 0.002 * scale, y_m + 0.006 * scale}},
              3);
    pen_text(pen, (Point){x_m + 0.004 * scale, y_m}, (Form){text_m, DRAWING_MIDDLE, true},
             "stations");
}

static void names_draw(const Shop *p)
{
    const PanelShape *s = &p->piece->shape;
    const double scale = p->plan->scale_1;
    const Pen pen = pen_of(p->draw, p->plan, DRAWING_JOINT);
    static const char *const words[] = {"end of the deck", "face of the gap", "joint"};
    /* clear of pockets: between the two girders at the right */
    const double last_m = (p->draw->girders - 1) / 2.0 * p->draw->spacing_m;
    const double between_m = last_m - p->draw->spacing_m / 2;
    const double z_m = between_m > s->from_z_m && between_m < s->to_z_m
                           ? between_m
                           : (s->from_z_m + s->to_z_m) / 2;
    for (int side = 0; side < 2; side++) {
        const char *joint = side ? p->piece->right_joint : p->piece->left_joint;
        const char *text = words[strcmp(joint, "end") == 0 ? 0 : strcmp(joint, "gap") == 0 ? 1 : 2];
        const double half_m = drawing_text_width_1(text) * text_m / 2 * scale;
        const double a = edge_m(s, z_m - half_m, side), b = edge_m(s, z_m + half_m, side);
        const double y_m = side ? fmin(a, b) - 0.0045 * scale : fmax(a, b) + 0.002 * scale;
        pen_text(pen, (Point){z_m, y_m}, (Form){text_m, DRAWING_MIDDLE, false}, text);
    }
}

static void plan_draw(Shop *p)
{
    Draw *d = p->draw;
    const PanelShape *s = &p->piece->shape;
    Point corner[4];
    shop_corners(s, corner);
    pen_area(pen_of(d, p->plan, p->piece->anchor ? DRAWING_ANCHOR : DRAWING_PANEL), corner, 4);
    for (int k = 0; k < d->girders; k++) {
        const double z_m = (k - (d->girders - 1) / 2.0) * d->spacing_m;
        if (z_m < s->from_z_m || z_m > s->to_z_m) continue;
        const double over_m = 0.003 * p->plan->scale_1;
        pen_line(pen_of(d, p->plan, DRAWING_CENTRELINE),
                 (Point){z_m, edge_m(s, z_m, false) - over_m},
                 (Point){z_m, edge_m(s, z_m, true) + over_m});
    }
    keys_draw(p);
    holes_draw(p);
    if (p->piece->anchor) shop_connectors(p);
    lifting_draw(p);
    across_dimensions(p);
    along_dimensions(p);
    skew_draw(p, false);
    skew_draw(p, true);
    names_draw(p);
    arrow_draw(p);
    view_title(d, p->plan, (Point){s->from_z_m, low_m(s) - 0.036 * p->plan->scale_1},
               "Plan from above");
}

/* ---- the sheet ---- */

static const double tables_m = 0.210; /* width of the right part */

const PanelLiftAnswer *shop_lift(const Shop *p)
{
    return p->draw->of->lift + (ptrdiff_t)p->kind * PANEL_LIFT_COUNT;
}

static void lift_read(Shop *p)
{
    const Draw *d = p->draw;
    const PanelLiftAnswer *lift = shop_lift(p);
    p->lift_across = 0;
    for (int i = 0; i < PANEL_LIFT_COUNT; i++)
        if (lift[i].points > p->lift_across) p->lift_across = lift[i].points;
    p->lift = ARENA_NEW(d->arena, PanelPoint, 2 * p->lift_across);
    panel_lift_points(&p->piece->shape, p->lift_across, draw_value(d, "handling.inset_along"),
                      draw_value(d, "handling.inset_across"), p->lift);
}

static Status kind_draw(Draw *d, int kind, Error *err)
{
    const char *name = d->plan->kind[kind].name;
    Shop p = {.draw = d, .kind = kind, .piece = &d->plan->piece[d->plan->kind[kind].like]};
    const PanelShape *s = &p.piece->shape;
    char id[32];
    snprintf(id, sizeof id, "panel-%s", name);
    for (char *c = id; *c; c++)
        if (*c >= 'A' && *c <= 'Z') *c = (char)(*c - 'A' + 'a');
    TRY(page_add(d, arena_text(d->arena, id),
                 arena_printf(d->arena, "%s of kind %s: %d of them",
                              p.piece->anchor ? "Anchor panel" : "Panel", name,
                              d->plan->kind[kind].count),
                 &p.sheet, err));
    const double wide_m = s->to_z_m - s->from_z_m, long_m = high_m(s) - low_m(s);
    const double room_m = d->right_m - d->left_m - tables_m - 0.078;
    p.scale = fmax(scale_fit(d, wide_m, room_m),
                   scale_fit(d, (shop_bars_known(d) ? 2 : 1) * long_m + 1.5 * d->deck_m,
                             d->high_m - d->low_m - 0.156));
    lift_read(&p);
    p.x_m = d->left_m + 0.032 - s->from_z_m / p.scale;
    double top_m = d->high_m - 0.024;
    p.plan = view_add(d, p.sheet, p.scale, (Point){p.x_m, top_m - high_m(s) / p.scale});
    plan_draw(&p);
    top_m -= long_m / p.scale + 0.036 + 0.022;
    top_m = shop_section(&p, top_m);
    shop_bars(&p, top_m);
    shop_tables(&p, (Point){d->right_m - tables_m, d->high_m}, tables_m);
    return STATUS_OK;
}

Status draw_shop(Draw *d, Error *err)
{
    for (int k = 0; k < d->plan->kind_count; k++) TRY(kind_draw(d, k, err));
    return STATUS_OK;
}
