/* Where shims stand, how high, and the haunch there and between. */
#include <math.h>

#include "work.h"

enum { BETWEEN_SEATS = 3 }; /* places between two lines of shims */

/* ---- lines of shims ---- */

static double skew_of(const Work *w, bool end)
{
    return end || seat_word(w->bridge, "panels.skew", "all") ? w->plan->skew_1 : 0;
}

static SeatLine end_line(const Work *w, int u, bool right)
{
    const SeatUnit *unit = &w->seats->unit[u];
    const char *mark = arena_printf(w->result, "R%d-%s", u + 1, right ? "right" : "left");
    return (SeatLine){.mark = mark,
                      .unit = u,
                      .left_panel = right ? unit->joint_count - 1 : -1,
                      .right_panel = right ? -1 : 0,
                      .x_m = unit->start_m + (right ? unit->length_m : 0),
                      .skew_1 = skew_of(w, true),
                      .joint = true,
                      .anchor = true};
}

static SeatLine joint_line(const Work *w, int u, int j)
{
    const SeatUnit *unit = &w->seats->unit[u];
    const bool before = j <= unit->gap_joint;
    SeatLine line = {.mark = arena_printf(w->result, "R%d-J%02d", u + 1, j + 1),
                     .unit = u,
                     .left_panel = before ? j : j - 1,
                     .right_panel = before ? j + 1 : j,
                     .x_m = unit->start_m + unit->joint_m[j],
                     .skew_1 = skew_of(w, false),
                     .joint = true};
    if (j == unit->gap_joint) line.right_panel = -1;
    if (j == unit->gap_joint + 1) line.left_panel = -1;
    return line;
}

/* Shims between the edges of a panel, where shims.spacing is given and shorter than the panel. */
static int inner_count(const Work *w, const SeatLine *from, const SeatLine *to)
{
    const BridgeValue *spacing = bridge_value_at(w->bridge, "shims.spacing");
    if (from->right_panel < 0 || spacing->origin != ORIGIN_GIVEN) return 0;
    const double half_m = w->deck_half_m * fabs(to->skew_1 - from->skew_1);
    return (int)ceil((to->x_m - from->x_m + half_m) / spacing->value - 1e-6) - 1;
}

static void add_line(Work *w, SeatLine line)
{
    SeatPlan *plan = w->plan;
    if (plan->line_count > 0 && w->seat_line[plan->line_count - 1].unit == line.unit) {
        const SeatLine before = w->seat_line[plan->line_count - 1];
        const int inner = inner_count(w, &before, &line);
        for (int i = 1; i <= inner; i++) {
            const double way_1 = (double)i / (inner + 1);
            w->seat_line[plan->line_count++] = (SeatLine){
                .mark = arena_printf(w->result, "%s+%d", before.mark, i),
                .unit = line.unit,
                .left_panel = before.right_panel,
                .right_panel = before.right_panel,
                .x_m = before.x_m + way_1 * (line.x_m - before.x_m),
                .skew_1 = before.skew_1 + way_1 * (line.skew_1 - before.skew_1),
                .anchor = before.right_panel == 0 ||
                          before.right_panel == w->seats->unit[line.unit].joint_count - 1};
        }
    }
    w->seat_line[plan->line_count++] = line;
}

static int most_lines(const Work *w)
{
    const double spacing_m = seat_value(w->bridge, "shims.spacing");
    int count = 0;
    for (int u = 0; u < w->seats->unit_count; u++) {
        const SeatUnit *unit = &w->seats->unit[u];
        const double more_m = 2 * w->deck_half_m * fabs(w->plan->skew_1);
        count += 2 * unit->joint_count + 8 + (int)((unit->length_m + 2 * more_m) / spacing_m);
    }
    return count;
}

/* A joint that a skewed end of the deck cuts off would have no girder under it. */
static Status check_line(const Work *w, const SeatLine *line, Error *err)
{
    const SeatUnit *unit = &w->seats->unit[line->unit];
    for (int g = 0; g < w->plan->girders; g++) {
        const double z_m = seat_z_m(w, g);
        const double u_m = line->x_m + z_m * (line->skew_1 - w->plan->skew_1) - unit->start_m;
        if (u_m > -1e-6 && u_m < unit->length_m + 1e-6) continue;
        return error_set(
            err, STATUS_BAD_INPUT,
            "the skewed end of the deck cuts joint %s off at girder G%d: longer anchor "
            "panels, or panels.skew: all",
            line->mark, g + 1);
    }
    return STATUS_OK;
}

Status lines_make(Work *w, Error *err)
{
    w->seat_line = ARENA_NEW(w->result, SeatLine, most_lines(w));
    for (int u = 0; u < w->seats->unit_count; u++) {
        add_line(w, end_line(w, u, false));
        for (int j = 0; j < w->seats->unit[u].joint_count; j++) add_line(w, joint_line(w, u, j));
        add_line(w, end_line(w, u, true));
    }
    for (int i = 0; i < w->plan->line_count; i++) TRY(check_line(w, &w->seat_line[i], err));
    w->plan->line = w->seat_line;
    return STATUS_OK;
}

/* ---- heights ---- */

static double line_x_m(const SeatLine *line, double z_m) { return line->x_m + z_m * line->skew_1; }

/* Soffit of the panels' joints when they are set: what moves later is held ahead. */
static double soffit_m(const Work *w, int unit, int girder, double x_m)
{
    const double z_m = seat_z_m(w, girder);
    return grade_top_m(&w->plan->grade, x_m, z_m) - seat_thickness_m(w, z_m) -
           seat_later_m(w, unit, girder, x_m);
}

/* Height of the soffit over its own at z, less the roll of the girder. */
static double leans_m(const Work *w, double z_m, double roll_1, double by_m)
{
    const double there_m =
                     grade_across_m(&w->plan->grade, z_m + by_m) - seat_thickness_m(w, z_m + by_m),
                 here_m = grade_across_m(&w->plan->grade, z_m) - seat_thickness_m(w, z_m);
    return there_m - here_m - roll_1 * by_m;
}

static const SeatGirder *piece_of(const Work *w, int girder, int unit, double x_m)
{
    const SeatGirder *best = NULL;
    for (int p = 0; p < w->plan->piece_count; p++) {
        const SeatGirder *g = &w->piece[p];
        if (g->girder != girder || g->unit != unit) continue;
        if (!best || x_m > (best->to_m + g->from_m) / 2) best = g;
    }
    return best;
}

/* A place with its girder's top; the soffit is given. */
static double place_fill(Work *w, SeatPlace *p, double soffit)
{
    const int at = (int)(p - w->place);
    const SeatGirder *g = piece_of(w, p->girder, p->unit, p->x_m);
    Between b = survey_between(w->reading_x_m + g->first, g->count, p->x_m, w->cubic);
    w->place_doubt_m[at] = survey_doubt(w->reading_x_m + g->first, w->reading_top_m + g->first,
                                        g->count, p->x_m, w->cubic);
    w->plan->doubt_m = fmax(w->plan->doubt_m, w->place_doubt_m[at]);
    for (int i = 0; i < b.count; i++) b.index[i] += g->first;
    const double top_m = survey_value(&b, w->reading_top_m);
    const double roll_1 = survey_value(&b, w->reading_roll_1);
    const Flange *f = seat_flange(w, p->x_m);
    const double edge_m = f->apart_m + f->width_m / 2;
    const double left_m = leans_m(w, g->z_m, roll_1, -edge_m);
    const double right_m = leans_m(w, g->z_m, roll_1, edge_m);
    p->height_m = soffit - top_m;
    p->thin_m = p->height_m + fmin(0, fmin(left_m, right_m));
    p->thick_m = p->height_m + fmax(0, fmax(left_m, right_m));
    w->place_between[at] = b;
    w->place_later_m[at] = seat_later_m(w, p->unit, p->girder, p->x_m);
    w->place_thrust_m[at] = seat_thrust_m(w, p->unit, p->girder, p->x_m);
    return top_m;
}

static double rounded_m(const Work *w, double height_m)
{
    const double step_m = w->plan->limit.step_m;
    return floor(height_m / step_m + 0.5) * step_m;
}

static void seat_fill(Work *w, int line, int girder, double soffit)
{
    SeatPlace *p = &w->place[w->plan->place_count];
    const SeatLine *l = &w->seat_line[line];
    const double z_m = seat_z_m(w, girder);
    Seat *s = &w->seat[line * w->plan->girders + girder];
    *p = (SeatPlace){.girder = girder, .unit = l->unit, .line = line, .x_m = line_x_m(l, z_m)};
    const double top_m = place_fill(w, p, soffit);
    w->seat_place[line * w->plan->girders + girder] = w->plan->place_count++;
    *s = (Seat){.x_m = p->x_m,
                .top_m = top_m,
                .grade_m = grade_top_m(&w->plan->grade, p->x_m, z_m),
                .later_m = seat_later_m(w, l->unit, girder, p->x_m),
                .height_m = p->height_m,
                .thin_m = p->thin_m,
                .thick_m = p->thick_m};
    const Flange *f = seat_flange(w, p->x_m);
    const double roll_1 = survey_value(&w->place_between[p - w->place], w->reading_roll_1);
    for (int side = 0; side < 2; side++)
        s->shim_m[side] =
            rounded_m(w, s->height_m + leans_m(w, z_m, roll_1, side ? f->apart_m : -f->apart_m));
}

/* From one line with a joint to the next: the panel between is flat. */
static int next_joint(const Work *w, int line)
{
    int next = line + 1;
    while (next < w->plan->line_count && !w->seat_line[next].joint) next++;
    return next;
}

static void panel_places(Work *w, int girder, int from, int to)
{
    const double z_m = seat_z_m(w, girder);
    const int unit = w->seat_line[from].unit;
    const double x0_m = line_x_m(&w->seat_line[from], z_m), x1_m = line_x_m(&w->seat_line[to], z_m);
    const double y0_m = soffit_m(w, unit, girder, x0_m), y1_m = soffit_m(w, unit, girder, x1_m);
    for (int l = from; l < to; l++) {
        const double a_m = line_x_m(&w->seat_line[l], z_m),
                     b_m = line_x_m(&w->seat_line[l + 1], z_m);
        const double chord_1 = x1_m > x0_m ? (y1_m - y0_m) / (x1_m - x0_m) : 0;
        if (l > from) seat_fill(w, l, girder, y0_m + chord_1 * (a_m - x0_m));
        for (int i = 1; i <= BETWEEN_SEATS; i++) {
            SeatPlace *p = &w->place[w->plan->place_count];
            *p = (SeatPlace){.girder = girder,
                             .unit = unit,
                             .line = -1,
                             .x_m = a_m + i * (b_m - a_m) / (BETWEEN_SEATS + 1)};
            place_fill(w, p, y0_m + chord_1 * (p->x_m - x0_m));
            w->plan->place_count++;
        }
    }
}

static void girder_places(Work *w, int girder)
{
    for (int l = 0; l < w->plan->line_count; l = next_joint(w, l)) {
        const SeatLine *line = &w->seat_line[l];
        const double x_m = line_x_m(line, seat_z_m(w, girder));
        seat_fill(w, l, girder, soffit_m(w, line->unit, girder, x_m));
        if (line->right_panel >= 0) panel_places(w, girder, l, next_joint(w, l));
    }
}

void places_make(Work *w)
{
    const int seats = w->plan->line_count * w->plan->girders;
    const int room = seats * (BETWEEN_SEATS + 1);
    w->seat = ARENA_NEW(w->result, Seat, seats);
    w->seat_place = ARENA_NEW(w->result, int, seats);
    w->place = ARENA_NEW(w->result, SeatPlace, room);
    w->place_between = ARENA_NEW(w->result, Between, room);
    w->place_later_m = ARENA_NEW(w->result, double, room);
    w->place_thrust_m = ARENA_NEW(w->result, double, room);
    w->place_doubt_m = ARENA_NEW(w->result, double, room);
    for (int g = 0; g < w->plan->girders; g++) girder_places(w, g);
    SeatPlan *plan = w->plan;
    plan->seat = w->seat;
    plan->place = w->place;
    for (int i = 0; i < plan->place_count; i++) {
        if (w->place[i].thin_m < w->place[plan->thinnest].thin_m) plan->thinnest = i;
        if (w->place[i].thick_m > w->place[plan->thickest].thick_m) plan->thickest = i;
    }
}
