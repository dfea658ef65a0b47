/* Sections, bars, connectors and tables of a panel's sheet. */
#include <math.h>
#include <string.h>

#include "shop.h"

/* ---- connectors of an anchor panel ---- */

static bool in_pocket(const Shop *p, double x_m, double z_m)
{
    for (int i = 0; i < p->piece->pocket_count; i++) {
        const PanelHole *h = &p->piece->hole[i];
        if (fabs(x_m - h->x_m) < h->along_m / 2 && fabs(z_m - h->z_m) < h->across_m / 2)
            return true;
    }
    return false;
}

/* Rows of a group in the middle of the panel: over connectors.anchor_length, else at the pitch. */
static double row_step_m(const Draw *d, int rows)
{
    const double length_m = draw_value(d, "connectors.anchor_length");
    if (isnan(length_m) || rows < 2) return draw_value(d, "connectors.pitch");
    return length_m / rows;
}

static int group_draw(Shop *p, Pen pen, double z_m, int count)
{
    const Draw *d = p->draw;
    const PanelShape *s = &p->piece->shape;
    const int per_row = draw_count(d, "connectors.per_row"), rows = (count + per_row - 1) / per_row;
    const double gauge_m = draw_value(d, "connectors.gauge"), step_m = row_step_m(d, rows);
    const double left_m = s->left_m + z_m * s->left_slope_1;
    const double right_m = s->right_m + z_m * s->right_slope_1;
    int outside = 0;
    for (int i = 0; i < count; i++) {
        const int row = i / per_row;
        const int beside = row == rows - 1 ? count - row * per_row : per_row;
        const double x_m = (left_m + right_m) / 2 + (row - (rows - 1) / 2.0) * step_m;
        const double at_m = z_m + (i % per_row - (beside - 1) / 2.0) * gauge_m;
        pen_circle(pen, (Point){at_m, x_m}, draw_value(d, "connectors.diameter") / 2);
        outside += !in_pocket(p, x_m, at_m);
    }
    return outside;
}

void shop_connectors(Shop *p)
{
    Draw *d = p->draw;
    const int count = draw_count(d, "connectors.anchor_count");
    const Pen pen = pen_of(d, p->plan, DRAWING_CONNECTOR);
    for (int k = 0; k < d->girders && count > 0; k++) {
        const double z_m = (k - (d->girders - 1) / 2.0) * d->spacing_m;
        if (z_m < p->piece->shape.from_z_m || z_m > p->piece->shape.to_z_m) continue;
        p->outside = group_draw(p, pen, z_m, count);
    }
}

/* ---- cuts ---- */

static double thickness_m(const PanelShape *s, double z_m)
{
    return s->edge_m + s->rise_1 * (s->half_m - fabs(z_m));
}

/* A stretch of the panel between two pockets, its crown in. */
static void block_draw(const Shop *p, DrawingView *view, double from_m, double to_m)
{
    const PanelShape *s = &p->piece->shape;
    Point ring[6];
    int count = 0;
    ring[count++] = (Point){from_m, 0};
    ring[count++] = (Point){to_m, 0};
    ring[count++] = (Point){to_m, thickness_m(s, to_m)};
    if (from_m < 0 && to_m > 0 && s->rise_1 != 0) ring[count++] = (Point){0, thickness_m(s, 0)};
    ring[count++] = (Point){from_m, thickness_m(s, from_m)};
    pen_area(pen_of(p->draw, view, DRAWING_CUT), ring, count);
}

double shop_section(Shop *p, double top_m)
{
    Draw *d = p->draw;
    const PanelShape *s = &p->piece->shape;
    const double most_m = thickness_m(s, fabs(s->from_z_m) < fabs(s->to_z_m) ? s->from_z_m : 0);
    DrawingView *view = view_add(d, p->sheet, p->scale, (Point){p->x_m, top_m - most_m / p->scale});
    double from_m = s->from_z_m;
    for (int i = 0; i < p->piece->pocket_count; i++) {
        const PanelHole *h = &p->piece->hole[i];
        if (h->z_m - h->across_m / 2 <= from_m) continue;
        block_draw(p, view, from_m, h->z_m - h->across_m / 2);
        from_m = h->z_m + h->across_m / 2;
    }
    block_draw(p, view, from_m, s->to_z_m);
    const double y[] = {0, thickness_m(s, s->from_z_m)};
    const Dims chain = {view, true, s->from_z_m, -0.006, 2, y, false};
    chain_draw(d, &chain);
    view_title(d, view, (Point){s->from_z_m, -0.008 * p->scale},
               "Cut across the bridge, through a row of pockets");
    return top_m - most_m / p->scale - 0.008 - 0.016;
}

/* ---- bars ---- */

typedef struct Layer {
    const char *area, *spacing, *cover, *name;
    bool top;
} Layer;
static const Layer layers[2] = {
    {"panels.top_bar", "panels.top_bar_spacing", "panels.top_cover", "top", true},
    {"panels.bottom_bar", "panels.bottom_bar_spacing", "panels.bottom_cover", "bottom", false}};

static bool bars_known(const Draw *d, const Layer *l)
{
    return !isnan(draw_value(d, l->area)) && !isnan(draw_value(d, l->spacing));
}

bool shop_bars_known(const Draw *d)
{
    return bars_known(d, &layers[0]) || bars_known(d, &layers[1]);
}

/* Bars that fit between the covers of both joints, and the first one's place from the left joint. */
static int bars_of(const Shop *p, const Layer *l, double *first_m)
{
    const double step_m = draw_value(p->draw, l->spacing), cover_m = draw_value(p->draw, l->cover);
    const double length_m = p->piece->cast_m;
    const int count = 1 + (int)floor((length_m - 2 * cover_m) / step_m + 1e-9);
    *first_m = (length_m - (count - 1) * step_m) / 2;
    return count;
}

static double bar_across_m(double area_m2) { return sqrt(4 * area_m2 / acos(-1)); }

/* Top bars in the left half, bottom bars in the right one; fanned out where the joints are not
 * parallel. */
static void bars_draw(const Shop *p, DrawingView *view, const Layer *l)
{
    Draw *d = p->draw;
    const PanelShape *s = &p->piece->shape;
    const double cover_m = draw_value(d, l->cover), middle_m = (s->from_z_m + s->to_z_m) / 2;
    const double z[2] = {l->top ? s->from_z_m + cover_m : middle_m,
                         l->top ? middle_m : s->to_z_m - cover_m};
    double first_m;
    const int count = bars_of(p, l, &first_m);
    double *at = ARENA_NEW(d->arena, double, count + 2);
    for (int i = 0; i < count; i++) {
        const double part_1 = (first_m + i * draw_value(d, l->spacing)) / p->piece->cast_m;
        Point end[2];
        for (int e = 0; e < 2; e++) {
            const double left_m = s->left_m + z[e] * s->left_slope_1;
            const double right_m = s->right_m + z[e] * s->right_slope_1;
            end[e] = (Point){z[e], left_m + part_1 * (right_m - left_m)};
        }
        pen_line(pen_of(d, view, DRAWING_BAR), end[0], end[1]);
    }
    /* at mid-width, where their spacing is meant: told beside the panel */
    at[0] = 0;
    at[1] = first_m;
    at[2] = first_m + (count - 1) * draw_value(d, l->spacing);
    at[3] = p->piece->cast_m;
    const double z_m = l->top ? s->from_z_m : s->to_z_m;
    const double shift_m = s->left_m + z_m * s->left_slope_1;
    for (int i = 0; i < 4; i++) at[i] += shift_m;
    if (fabs(s->left_slope_1 - s->right_slope_1) > 1e-9) return; /* a wedge has no one length */
    const Dims chain = {view, true, z_m, l->top ? -0.009 : 0.009, 4, at, false};
    chain_draw(d, &chain);
}

static const char *bars_words(const Shop *p, const Layer *l)
{
    const Draw *d = p->draw;
    double first_m;
    if (!bars_known(d, l))
        return arena_printf(d->arena,
                            "Transverse %s bars are not in the bridge file (%s): none is drawn.",
                            l->name, l->area);
    const int count = bars_of(p, l, &first_m);
    const char *unit = d->us ? "in" : "mm";
    const double area = quantity_in(draw_value(d, l->area), d->us ? "in^2" : "mm^2");
    return arena_printf(d->arena,
                        "Transverse %s: %d bars of %.4g %s\xC2\xB2 at %s, clear cover %s.", l->name,
                        count, area, unit, draw_length(d, draw_value(d, l->spacing)),
                        draw_length(d, draw_value(d, l->cover)));
}

/* Cut along the bridge at one side of the sheet: joints, bars as dots. */
static void along_draw(Shop *p, Point at, double width_m)
{
    Draw *d = p->draw;
    const double length_m = p->piece->cast_m;
    const double scale = scale_fit(d, length_m, width_m - 0.030);
    DrawingView *view = view_add(d, p->sheet, scale, (Point){at.x_m + 0.016, at.y_m + 0.014});
    Point ring[2 * KEY_POINTS], face[KEY_POINTS];
    key_face(d, (Point){0, 0}, -shop_key_m(p, false), face);
    memcpy(ring, face, sizeof face);
    key_face(d, (Point){length_m, 0}, shop_key_m(p, true), face);
    for (int i = 0; i < KEY_POINTS; i++) ring[KEY_POINTS + i] = face[KEY_POINTS - 1 - i];
    pen_area(pen_of(d, view, DRAWING_CUT), ring, 2 * KEY_POINTS);
    for (int i = 0; i < 2; i++) {
        const Layer *l = &layers[i];
        double first_m;
        if (!bars_known(d, l)) continue;
        const int count = bars_of(p, l, &first_m);
        const double r_m = bar_across_m(draw_value(d, l->area)) / 2;
        const double deep_m = draw_value(d, l->cover) + r_m;
        for (int k = 0; k < count; k++)
            pen_circle(pen_of(d, view, DRAWING_BAR),
                       (Point){first_m + k * draw_value(d, l->spacing),
                               l->top ? d->deck_m - deep_m : deep_m},
                       r_m);
    }
    const double y[] = {0, d->deck_m};
    const Dims thick = {view, true, 0, -0.007, 2, y, false};
    chain_draw(d, &thick);
    const double x[] = {0, length_m};
    const Dims whole = {view, false, d->deck_m, 0.006, 2, x, false};
    chain_draw(d, &whole);
    view_title(d, view, (Point){0, -0.008 * scale}, "Cut along, at the edge");
}

void shop_bars(Shop *p, double top_m)
{
    Draw *d = p->draw;
    const PanelShape *s = &p->piece->shape;
    Point corner[4];
    shop_corners(s, corner);
    const double high_m = fmax(corner[2].y_m, corner[3].y_m);
    const double low_m = fmin(corner[0].y_m, corner[1].y_m);
    const double room_m = fmax((s->to_z_m - s->from_z_m) / p->scale, 0.25);
    double under_m = low_m - 0.002 * p->scale;
    top_m -= 0.004;
    DrawingView *view = view_add(d, p->sheet, p->scale, (Point){p->x_m, top_m - high_m / p->scale});
    const bool any = shop_bars_known(d);
    if (any) {
        pen_area(pen_of(d, view, DRAWING_HIDDEN), corner, 4);
        for (int i = 0; i < 2; i++)
            if (bars_known(d, &layers[i])) bars_draw(p, view, &layers[i]);
    } else {
        under_m = high_m;
    }
    Text text = text_start(d->arena);
    for (int i = 0; i < 2; i++) text_printf(&text, "%s%s", i ? " " : "", bars_words(p, &layers[i]));
    text_add(&text,
             " Bars along the bridge and at edges, pockets and inserts: by the engineer. Bars end "
             "at the joints; where one meets a pocket it stands beside it.");
    const double down_m = pen_words(pen_of(d, view, DRAWING_TEXT), (Point){s->from_z_m, under_m},
                                    (Form){text_m, DRAWING_START, false}, room_m, text.bytes);
    const Point title = {s->from_z_m, under_m - (down_m + 0.008) * p->scale};
    if (any)
        view_title(d, view, title,
                   "Transverse bars: top in the left half, bottom in the right one");
}

/* ---- tables ---- */

static const char *both(const Draw *d, double a_m, double b_m)
{
    return arena_printf(d->arena, "%s, %s", draw_length(d, a_m), draw_length(d, b_m));
}

static void size_rows(const Shop *p, Table *t)
{
    const Draw *d = p->draw;
    const PanelPiece *piece = p->piece;
    const PanelBody *b = &piece->body;
    const int volume_places = d->us ? 2 : 3;
    table_pair(t, "length as cast, at mid-width",
               d->us ? arena_printf(d->arena, "%s (%.4f ft)", draw_length(d, piece->cast_m),
                                    quantity_in(piece->cast_m, "ft"))
                     : arena_printf(d->arena, "%.1f mm", piece->cast_m * 1000));
    table_pair(t, "long and short side", both(d, b->longest_m, b->shortest_m));
    table_pair(t, "edges along the joints", both(d, b->left_edge_m, b->right_edge_m));
    table_pair(t, "diagonals", both(d, b->diagonal_1_m, b->diagonal_2_m));
    table_pair(t, "area", draw_quantity(d, b->area_m2, DIM_AREA, d->us ? 1 : 2));
    table_pair(t, "concrete", draw_quantity(d, b->net_m3, DIM_VOLUME, volume_places));
    table_pair(t, "weight as lifted", draw_quantity(d, piece->weight_N, DIM_FORCE, 1));
    table_pair(t, "weight, pockets solid", draw_quantity(d, piece->gross_N, DIM_FORCE, 1));
    table_pair(t, "centre, from the left joint", draw_length(d, b->net_x_m - piece->shape.left_m));
    table_pair(t, b->net_z_m < -1e-6 ? "centre, left of mid-width" : "centre, right of mid-width",
               draw_length(d, fabs(b->net_z_m)));
    table_pair(t, "pockets, blockouts",
               arena_printf(d->arena, "%d of %s, %d", piece->pocket_count,
                            draw_length(d, draw_value(d, "handling.pocket")),
                            piece->blockout_count));
}

static void concrete_rows(const Shop *p, Table *t)
{
    const Draw *d = p->draw;
    const int places = d->us ? 0 : 1;
    table_pair(t, "concrete, 28 days",
               draw_quantity(d, draw_value(d, "concrete.panel.strength"), DIM_STRESS, places));
    table_pair(t, "when lifted off the bed",
               draw_quantity(d, draw_value(d, "handling.stripping_strength"), DIM_STRESS, places));
    const PanelLiftAnswer *lift = shop_lift(p);
    for (int i = 0; i < PANEL_LIFT_COUNT; i++)
        table_pair(
            t, i == PANEL_OFF_BED ? "lifting off the bed" : "lifting onto girders",
            arena_printf(d->arena, "%s of %s%s",
                         draw_quantity(d, lift[i].stress_Pa, DIM_STRESS, places),
                         draw_quantity(d, lift[i].limit_Pa, DIM_STRESS, places),
                         lift[i].stress_Pa > lift[i].limit_Pa * (1 + 1e-9) ? ": CRACKS" : ""));
    table_pair(t, "lifting points",
               arena_printf(d->arena, "2 rows of %d%s", p->lift_across,
                            lift[0].chosen ? "" : ", not chosen: needed"));
    table_pair(t, "pull of a sling",
               arena_printf(d->arena, "%s at %.4g\xC2\xB0 or steeper",
                            draw_quantity(d, fmax(lift[0].leg_N, lift[1].leg_N), DIM_FORCE, 1),
                            lift[0].sling_degrees));
}

static const char *area_said(const Draw *d, const char *path)
{
    const double area_m2 = draw_value(d, path);
    if (isnan(area_m2)) return "not in the file";
    return arena_printf(d->arena, "%.4g %s\xC2\xB2", quantity_in(area_m2, d->us ? "in^2" : "mm^2"),
                        d->us ? "in" : "mm");
}

static bool at_gap(const PanelPiece *p)
{
    return strcmp(p->left_joint, "gap") == 0 || strcmp(p->right_joint, "gap") == 0;
}

static void place_rows(const Shop *p, Table *t)
{
    const Draw *d = p->draw;
    if (at_gap(p->piece)) {
        table_pair(t, "bursting steel, a jack", area_said(d, "panels.burst_bars"));
        table_pair(t, "through the depth, a jack", area_said(d, "panels.depth_bars"));
        table_pair(t, "along the edge, a jack", area_said(d, "panels.edge_bars"));
    }
    if (!p->piece->anchor) return;
    const int count = draw_count(d, "connectors.anchor_count");
    const int per_row = draw_count(d, "connectors.per_row");
    const int rows = (count + per_row - 1) / per_row;
    table_pair(t, "steel that ties the thrust", area_said(d, "panels.anchor_bars"));
    if (count == 0) {
        table_pair(t, "connectors, a girder", "not chosen: none is drawn");
        return;
    }
    table_pair(t, "connectors, a girder",
               arena_printf(d->arena, "%d %s of %s, %d a row", count,
                            draw_said(d, "connectors.kind"),
                            draw_length(d, draw_value(d, "connectors.diameter")), per_row));
    table_pair(t, "their rows",
               arena_printf(d->arena, "%d at %s, gauge %s", rows,
                            draw_length(d, row_step_m(d, rows)),
                            draw_length(d, draw_value(d, "connectors.gauge"))));
    table_pair(
        t, "grout before jacking",
        draw_quantity(d, draw_value(d, "connectors.anchor_grout"), DIM_STRESS, d->us ? 0 : 1));
}

/* Marks, those that are set turned behind a stroke. */
static const char *marks_words(const Shop *p)
{
    const PanelPlan *plan = p->draw->plan;
    Text text = text_start(p->draw->arena);
    int turned = 0, written = 0;
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < plan->piece_count; i++) {
            const PanelPiece *q = &plan->piece[i];
            if (q->kind != p->kind || q->turned != (pass == 1)) continue;
            if (pass == 1 && turned++ == 0)
                text_add(&text, written ? "; turned: " : "turned: ");
            else if (written > 0)
                text_add(&text, ", ");
            text_add(&text, q->mark);
            written++;
        }
    return text.bytes;
}

/* Lifting points that lie in a pocket, or nearer to its edge than the deck is thick (common practice, no
 * source). */
static int lifts_at_pockets(const Shop *p)
{
    int count = 0;
    for (int i = 0; i < 2 * p->lift_across; i++) {
        bool near = false;
        for (int k = 0; k < p->piece->hole_count && !near; k++) {
            const PanelHole *h = &p->piece->hole[k];
            const double x_m = fmax(0, fabs(p->lift[i].x_m - h->x_m) - h->along_m / 2);
            const double z_m = fmax(0, fabs(p->lift[i].z_m - h->z_m) - h->across_m / 2);
            near = hypot(x_m, z_m) < p->draw->deck_m;
        }
        count += near;
    }
    return count;
}

static double notes_draw(const Shop *p, Point top, double width_m)
{
    const Pen pen = pen_of(p->draw, p->sheet->first, DRAWING_TEXT);
    const Form form = {text_m, DRAWING_START, false};
    double down_m = pen_words(pen, top, form, width_m,
                              arena_printf(p->draw->arena, "Marks: %s", marks_words(p)));
    const int lifts = lifts_at_pockets(p);
    if (lifts > 0)
        down_m += pen_words(
            pen, (Point){top.x_m, top.y_m - down_m}, form, width_m,
            arena_printf(
                p->draw->arena,
                "MIND: %d of the %d lifting points lie in a pocket or nearer to it than the "
                "deck is thick: choose handling.points and handling.inset_across.",
                lifts, 2 * p->lift_across));
    if (p->outside > 0)
        down_m += pen_words(
            pen, (Point){top.x_m, top.y_m - down_m}, form, width_m,
            arena_printf(
                p->draw->arena,
                "MIND: %d of the %d connectors on a girder stand outside of the pockets as "
                "scheduled: larger pockets or a slot have to be detailed.",
                p->outside, draw_count(p->draw, "connectors.anchor_count")));
    down_m += pen_words(
        pen, (Point){top.x_m, top.y_m - down_m}, form, width_m,
        match_cast(p->draw)
            ? "Dashed at a joint: the key, which stands out at the joint nearer to the gap; its "
              "shape "
              "(a third of the depth, 3/4 in deep) is common practice, the bridge file has none. A "
              "panel belongs to its mark: faces that were cast against each other meet again."
            : "Dashed at a joint: the recess for the grout; its shape (a third of the depth, 3/4 "
              "in "
              "deep) is common practice, the bridge file has none.");
    return down_m;
}

void shop_tables(Shop *p, Point top, double width_m)
{
    Table t = table_start(p->draw, p->sheet->first, top, 2,
                          (const double[]){0.44 * width_m, 0.56 * width_m - 0.002});
    table_row(&t,
              (const char *const[]){"kind", arena_printf(p->draw->arena, "%s, %d of them",
                                                         p->draw->plan->kind[p->kind].name,
                                                         p->draw->plan->kind[p->kind].count)},
              true);
    size_rows(p, &t);
    concrete_rows(p, &t);
    place_rows(p, &t);
    notes_draw(p, (Point){top.x_m, t.top.y_m - 0.004}, width_m);
    along_draw(p, (Point){top.x_m, p->draw->low_m + 0.004}, width_m);
}
