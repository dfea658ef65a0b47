/* What a shim carries, how much grout fills the haunches, and what flat panels leave of the profile. */
#include <math.h>

#include "work.h"

/* ---- load of a shim ---- */

/* Largest load by the stages between the panels' joining and the grouting of the haunches, on the
 * stations from `a` to `b` of the unit. Anchor panels count until they are grouted. */
static double marched_N(const SeatMarch *m, double a_m, double b_m)
{
    const StageHistory *h = m->history;
    const StageModel *model = h->model;
    double most_N = 0;
    for (int t = m->joined; t <= m->day_from; t++) {
        double sum_N = 0;
        bool shims = false;
        for (int i = 0; i < model->station_count; i++) {
            const double x_m = model->x_m[i];
            if (x_m < a_m - 1e-6 || x_m > b_m + 1e-6) continue;
            const LinkState *link = &h->link[(size_t)t * (size_t)model->station_count + (size_t)i];
            if (link->state == LINK_BONDED || link->state == LINK_NONE) continue;
            const bool inside = i > 0 && i + 1 < model->station_count;
            const bool edge = inside && (fabs(x_m - a_m) < 1e-6 || fabs(x_m - b_m) < 1e-6);
            sum_N -= link->V_N * (edge ? 0.5 : 1);
            shims = true;
        }
        if (!shims && t > m->joined) break;
        most_N = fmax(most_N, sum_N);
    }
    return most_N;
}

/* Half of the way to the next line on the same panel. */
static double half_way_m(const Work *w, int line, bool right, double z_m)
{
    const SeatLine *l = &w->seat_line[line];
    if ((right ? l->right_panel : l->left_panel) < 0) return 0;
    const SeatLine *next = &w->seat_line[right ? line + 1 : line - 1];
    return fabs(next->x_m + z_m * next->skew_1 - l->x_m - z_m * l->skew_1) / 2;
}

static void seat_load(Work *w, int seat)
{
    const int girder = seat % w->plan->girders, line = seat / w->plan->girders;
    const SeatLine *l = &w->seat_line[line];
    const double z_m = seat_z_m(w, girder);
    const BridgeLine *b = &w->line[seat_line_of(w, l->unit, girder)];
    const double left_m = half_way_m(w, line, false, z_m), right_m = half_way_m(w, line, true, z_m);
    const double u_m = w->seat[seat].x_m - w->seats->unit[l->unit].start_m - z_m * w->plan->skew_1;
    const double density_N_per_m3 = seat_value(w->bridge, "deck.density");
    const double thickness_m = seat_strip_thickness_m(w, girder);
    const double plan_m2 = b->width_m * (left_m + right_m);
    const double weight_N =
        (density_N_per_m3 * thickness_m + seat_value(w->bridge, "loads.construction")) * plan_m2;
    /* the stages weigh the deck with its thickness at the edge */
    const double crown_N = density_N_per_m3 * (thickness_m - w->plan->thickness_m) * plan_m2;
    const double marched =
        marched_N(&w->march[seat_line_of(w, l->unit, girder)], u_m - left_m, u_m + right_m);
    Seat *s = &w->seat[seat];
    s->load_N = w->plan->limit.uneven_1 * fmax(weight_N, marched + crown_N) / w->plan->flanges;
    s->pressure_Pa = s->load_N / (w->plan->limit.length_m * w->plan->limit.width_m);
}

void bearing_make(Work *w)
{
    const int seats = w->plan->line_count * w->plan->girders;
    for (int s = 0; s < seats; s++) {
        seat_load(w, s);
        if (w->seat[s].pressure_Pa > w->seat[w->plan->pressed].pressure_Pa) w->plan->pressed = s;
    }
}

/* ---- grout ---- */

static bool under_anchor(const Work *w, int unit, int panel)
{
    return panel == 0 || panel == w->seats->unit[unit].joint_count - 1;
}

/* As bridge_panels sets them: rows of square pockets over every girder that is not under a closure strip. */
static double pockets_m3(const Work *w)
{
    const Bridge *b = w->bridge;
    const double side_m = seat_value(b, "handling.pocket");
    const double spacing_m = seat_value(b, "connectors.spacing");
    const bool cast = seat_word(b, "panels.joint", "narrow cast");
    const double joint_m = cast ? seat_value(b, "panels.joint_width") : 0;
    const bool strip = seat_word(b, "panels.crown", "longitudinal closure");
    const double strip_m = strip ? seat_value(b, "panels.strip") / 2 : 0;
    double a_row_m3 = 0, sum_m3 = 0;
    for (int g = 0; g < w->plan->girders; g++)
        if (!strip || fabs(seat_z_m(w, g)) > strip_m)
            a_row_m3 += side_m * side_m * seat_thickness_m(w, seat_z_m(w, g));
    for (int l = 0; l < w->plan->line_count; l++) {
        if (!w->seat_line[l].joint || w->seat_line[l].right_panel < 0) continue;
        const SeatLine *next = &w->seat_line[l + 1];
        while (!next->joint) next++;
        const double cast_m = next->x_m - w->seat_line[l].x_m - joint_m;
        sum_m3 += panel_pocket_rows(cast_m, spacing_m) * a_row_m3;
    }
    return sum_m3;
}

void grout_make(Work *w)
{
    const double dam_m = seat_value(w->bridge, "seats.dam");
    SeatGrout *g = &w->plan->grout;
    double area_m2 = 0;
    int panel = -1;
    for (int i = 0; i + 1 < w->plan->place_count; i++) {
        const SeatPlace *p = &w->place[i], *q = &w->place[i + 1];
        if (p->line >= 0) panel = w->seat_line[p->line].right_panel;
        if (p->girder != q->girder || p->unit != q->unit || panel < 0) continue;
        const Flange *f = seat_flange(w, (p->x_m + q->x_m) / 2);
        const double wide_m = fmax(f->width_m - 2 * dam_m, 0) * w->plan->flanges;
        const double plan_m2 = wide_m * (q->x_m - p->x_m);
        const double fill_m3 = plan_m2 * (fmax(p->height_m, 0) + fmax(q->height_m, 0)) / 2;
        *(under_anchor(w, p->unit, panel) ? &g->anchor_m3 : &g->run_m3) += fill_m3;
        area_m2 += plan_m2;
    }
    g->pocket_m3 = pockets_m3(w);
    g->mean_m = area_m2 > 0 ? (g->anchor_m3 + g->run_m3) / area_m2 : 0;
    g->all_m3 = (g->anchor_m3 + g->run_m3 + g->pocket_m3) * (1 + w->plan->limit.waste_1);
}

/* ---- flat panels ---- */

static double top_m(const Work *w, const SeatLine *l, int girder, double x_m)
{
    return grade_top_m(&w->plan->grade, x_m, seat_z_m(w, girder)) -
           seat_later_m(w, l->unit, girder, x_m);
}

static double at_m(const Work *w, const SeatLine *l, int girder)
{
    return l->x_m + seat_z_m(w, girder) * l->skew_1;
}

/* Slope of the panel between two lines. */
static double chord_1(const Work *w, const SeatLine *a, const SeatLine *b, int girder)
{
    const double x0 = at_m(w, a, girder), x1 = at_m(w, b, girder);
    return (top_m(w, b, girder, x1) - top_m(w, a, girder, x0)) / (x1 - x0);
}

static double facet_m(const Work *w, const SeatLine *a, const SeatLine *b)
{
    double worst_m = 0;
    for (int g = 0; g < w->plan->girders; g++) {
        const double x0 = at_m(w, a, g), slope = chord_1(w, a, b, g), y0 = top_m(w, a, g, x0);
        for (int i = 1; i < 4; i++) {
            const double x = x0 + i * (at_m(w, b, g) - x0) / 4;
            const double off_m = y0 + slope * (x - x0) - top_m(w, a, g, x);
            if (fabs(off_m) > fabs(worst_m)) worst_m = off_m;
        }
    }
    return worst_m;
}

enum { PLANE = 4 };

static void plane_row(const Work *w, const SeatLine *l, int girder, double x0_m, double row[PLANE])
{
    const double z_m = seat_z_m(w, girder);
    row[0] = 1;
    row[1] = at_m(w, l, girder) - x0_m;
    row[2] = z_m;
    row[3] = fabs(z_m - w->plan->grade.crown_m);
}

/* Largest distance of a panel's seats from the plane (with a crown: two) that fits them best. */
static double plane_m(const Work *w, const SeatLine *a, const SeatLine *b)
{
    const Grade *grade = &w->plan->grade;
    const bool crown = fabs(grade->left_slope_1 + grade->right_slope_1) > 1e-9;
    const int n = crown ? 4 : 3, girders = w->plan->girders;
    if (2 * girders <= n) return 0;
    double sum[PLANE * PLANE] = {0}, right[PLANE] = {0}, row[PLANE], worst_m = 0;
    const double y0 = top_m(w, a, 0, at_m(w, a, 0));
    for (int k = 0; k < 2 * girders; k++) {
        const SeatLine *l = k < girders ? a : b;
        const double y = top_m(w, l, k % girders, at_m(w, l, k % girders)) - y0;
        plane_row(w, l, k % girders, a->x_m, row);
        for (int i = 0; i < n; i++) {
            right[i] += row[i] * y;
            for (int j = 0; j < n; j++) sum[i * n + j] += row[i] * row[j];
        }
    }
    if (!dense_solve(n, sum, right)) return 0;
    for (int k = 0; k < 2 * girders; k++) {
        const SeatLine *l = k < girders ? a : b;
        double off = top_m(w, l, k % girders, at_m(w, l, k % girders)) - y0;
        plane_row(w, l, k % girders, a->x_m, row);
        for (int i = 0; i < n; i++) off -= row[i] * right[i];
        worst_m = fmax(worst_m, fabs(off));
    }
    return worst_m;
}

static const SeatLine *joint_beside(const Work *w, int line, int way)
{
    int at = line + way;
    while (at >= 0 && at < w->plan->line_count && !w->seat_line[at].joint) at += way;
    return &w->seat_line[at];
}

static void wedge_fill(Work *w, int line)
{
    SeatLine *l = &w->seat_line[line];
    if (!l->joint || l->left_panel < 0 || l->right_panel < 0) return;
    const SeatLine *a = joint_beside(w, line, -1), *b = joint_beside(w, line, 1);
    for (int g = 0; g < w->plan->girders; g++) {
        const double wedge_m =
            (chord_1(w, a, l, g) - chord_1(w, l, b, g)) * seat_thickness_m(w, seat_z_m(w, g));
        if (fabs(wedge_m) > fabs(l->wedge_m)) l->wedge_m = wedge_m;
    }
}

void facets_make(Work *w)
{
    w->panel = ARENA_NEW(w->result, SeatPanel, w->plan->line_count);
    for (int i = 0; i < w->plan->line_count; i++) {
        const SeatLine *l = &w->seat_line[i];
        wedge_fill(w, i);
        if (!l->joint || l->right_panel < 0) continue;
        const SeatLine *next = joint_beside(w, i, 1);
        w->panel[w->plan->panel_count++] =
            (SeatPanel){arena_printf(w->result, "R%d-%02d", l->unit + 1, l->right_panel + 1),
                        l->unit, facet_m(w, l, next), plane_m(w, l, next)};
    }
    w->plan->panel = w->panel;
}
