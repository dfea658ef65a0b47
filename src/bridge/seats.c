/* Profile, survey and shims: what follows from other values, what cannot be, and where panels rest. */
#include <math.h>
#include <stdarg.h>

#include "layout.h"
#include "read.h"

/* ---- derived values ---- */

static void fill(double *value, double derived)
{
    if (isnan(*value)) *value = derived;
}

static double longest_span_m(const Bridge *b)
{
    const SpanData *span = b->spans.item;
    double most_m = 0;
    for (int i = 0; i < b->spans.count; i++) most_m = fmax(most_m, span[i].length_m);
    return most_m;
}

void seats_derive(Bridge *b)
{
    const bool crown = b->panels.crown != PANEL_CROWN_NONE && !isnan(b->deck.crossfall_1);
    const double fall_1 = crown ? -b->deck.crossfall_1 : 0;
    const double inch_m = 1 / quantity_in(1, "in");
    fill(&b->profile.left_slope_1, fall_1);
    fill(&b->profile.right_slope_1, fall_1);
    fill(&b->survey.day, b->days.panels_set);
    fill(&b->survey.spacing_m, longest_span_m(b) / 6);
    fill(&b->seats.haunch_most_m, b->connectors.haunch_most_m);
    fill(&b->seats.haunch_most_m, 4 * inch_m);
    fill(&b->seats.step_m, b->units == UNITS_SI ? 0.001 : inch_m / 16);
}

/* ---- what cannot be ---- */

typedef struct Judge {
    const Bridge *bridge;
    Diagnostics *list;
} Judge;

static void PRINTF_LIKE(3, 4) complain(const Judge *j, const char *paths, const char *format, ...)
{
    char text[sizeof((Error *)0)->text], path[128];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    const Place place = bridge_place(j->bridge, paths, path, sizeof path);
    Error err;
    error_at(&err, STATUS_BAD_INPUT, place, place, path, "%s", text);
    diagnostics_add(j->list, &err);
}

static void judge_points(const Judge *j)
{
    const ListData *list = &j->bridge->profile.points;
    const GradePointData *p = list->item;
    char path[64];
    if (list->count == 1)
        complain(j, "profile.points[1].station", "one point is no profile: two at least");
    for (int i = 0; i < list->count; i++) {
        snprintf(path, sizeof path, "profile.points[%d].curve", i + 1);
        if ((i == 0 || i == list->count - 1) && p[i].curve_m > 0)
            complain(j, path, "the first and the last point end the profile: no curve there");
        if (i == 0) continue;
        const double apart_m = p[i].station_m - p[i - 1].station_m;
        if (apart_m <= 0) {
            snprintf(path, sizeof path, "profile.points[%d].station", i + 1);
            complain(j, path, "the points come one after the other along the road");
        } else if (p[i].curve_m / 2 + p[i - 1].curve_m / 2 > apart_m * (1 + 1e-9))
            complain(j, path,
                     "two vertical curves overlap: half of each reaches %.4g ft, the points are "
                     "%.4g ft apart",
                     quantity_in(p[i].curve_m / 2 + p[i - 1].curve_m / 2, "ft"),
                     quantity_in(apart_m, "ft"));
    }
}

/* Panels that are flat across have no crown; those with one have it at mid-width. */
static void judge_slopes(const Judge *j)
{
    const Bridge *b = j->bridge;
    const GradeData *g = &b->profile;
    const bool flat = fabs(g->left_slope_1 + g->right_slope_1) < 1e-9;
    const bool inside = fabs(g->crown_m) < b->deck.width_m / 2;
    if (b->panels.crown == PANEL_CROWN_NONE && !flat && inside)
        complain(j, "profile.left_slope|profile.right_slope|panels.crown",
                 "panels without a crown are one plane across: one slope is minus the other, or "
                 "panels.crown says how the crown is made");
    if (b->panels.crown == PANEL_CROWN_NONE && !isnan(b->deck.crossfall_1) &&
        b->deck.crossfall_1 > 0 && g->left_slope_1 == 0 && g->right_slope_1 == 0 &&
        g->points.count > 0)
        complain(j, "deck.crossfall",
                 "it does not say to which side the deck falls: give "
                 "profile.left_slope and profile.right_slope");
    if (b->panels.crown != PANEL_CROWN_NONE && g->crown_m != 0)
        complain(j, "profile.crown", "panels with a crown have it at mid-width");
    const double steepest_1 = fmax(fabs(g->left_slope_1), fabs(g->right_slope_1));
    if (g->points.count > 0 && !isnan(b->deck.crossfall_1) &&
        steepest_1 > b->deck.crossfall_1 + 1e-9)
        complain(j, "profile.left_slope|profile.right_slope|deck.crossfall",
                 "the slope is steeper than deck.crossfall, %.4g %%", 100 * b->deck.crossfall_1);
    if (b->panels.crown == PANEL_CROWN_THICKENED &&
        (fabs(g->left_slope_1 + layout_rise_1(b)) > 1e-9 ||
         fabs(g->right_slope_1 + layout_rise_1(b)) > 1e-9))
        complain(j, "profile.left_slope|profile.right_slope",
                 "a thickened crown falls by deck.crossfall to both sides");
}

void seats_judge(const Bridge *bridge, Diagnostics *diagnostics)
{
    const Judge j = {bridge, diagnostics};
    judge_points(&j);
    judge_slopes(&j);
    if (bridge->profile.points.count > 0 &&
        bridge->seats.haunch_least_m >= bridge->seats.haunch_most_m)
        complain(&j, "seats.haunch_most|seats.haunch_least|connectors.haunch_most",
                 "the deepest haunch is not deeper than the least one");
    if (bridge->survey.day > bridge->days.panels_set)
        complain(&j, "survey.day",
                 "the survey is of the bare girders: not after days.panels_set, "
                 "day %.6g",
                 bridge->days.panels_set);
    if (bridge->survey.day < bridge->days.girders_ready)
        complain(&j, "survey.day", "the girders are there from days.girders_ready on, day %.6g",
                 bridge->days.girders_ready);
}

/* ---- where panels rest ---- */

static SeatUnit seat_unit(const Unit *u, int like)
{
    return (SeatUnit){.name = u->name,
                      .like = like,
                      .first_span = u->first_span,
                      .support_count = u->span_count + 1,
                      .start_m = u->start_m,
                      .length_m = u->length_m,
                      .gap_from_m = u->gap_from_m,
                      .gap_to_m = u->gap_to_m,
                      .support_m = u->support_m,
                      .girder_count = u->girder_count,
                      .girder_from_m = u->girder_from_m,
                      .girder_to_m = u->girder_to_m,
                      .joint_count = layout_joint_count(u),
                      .joint_m = u->joint_m,
                      .gap_joint = u->left_panels};
}

Status bridge_seats(const Bridge *bridge, Arena *arena, const BridgeSeats **seats, Error *err)
{
    Unit *all;
    int count;
    TRY(layout_all(bridge, arena, &all, &count, err));
    int *of = ARENA_NEW(arena, int, count);
    layout_alike(all, count, of);
    SeatUnit *unit = ARENA_NEW(arena, SeatUnit, count);
    for (int u = 0; u < count; u++) unit[u] = seat_unit(&all[u], of[u]);
    BridgeSeats *made = ARENA_NEW(arena, BridgeSeats, 1);
    *made = (BridgeSeats){count, bridge->girders.count > 2 ? 2 : 1, unit};
    *seats = made;
    return STATUS_OK;
}
