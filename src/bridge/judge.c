/* What the schema's rows cannot judge alone: keys that belong together, and the order of days. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "read.h"
#include "schema.h"

typedef struct Judge {
    const Bridge *bridge;
    Diagnostics *diagnostics;
} Judge;

/* An error at the first of the paths that the file gives: "girders.shape|girders.kind". */
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
    diagnostics_add(j->diagnostics, &err);
}

/* ---- order of days ---- */

typedef struct DayOrder {
    size_t before, after;
    const char *before_key, *after_key;
    bool apart; /* equal is not allowed: an age must be positive */
    int kinds;  /* 0: always, 1: pretensioned girders, 2: tied piers */
} DayOrder;
#define ORDER(before, after, apart, kinds)                                                    \
    {                                                                                         \
        offsetof(DayData, before), offsetof(DayData, after), "days." #before, "days." #after, \
            apart, kinds                                                                      \
    }
static const DayOrder day_orders[] = {
    ORDER(girder_tensioned, girder_cast, false, 1),
    ORDER(girder_cast, girders_ready, true, 1),
    ORDER(girders_ready, panels_set, false, 0),
    ORDER(phase_1_cast, panels_set, true, 0),
    ORDER(phase_2_cast, panels_set, true, 0),
    ORDER(panels_set, joints, false, 0),
    ORDER(joints, anchors, false, 0),
    ORDER(anchors, jacking, false, 0),
    ORDER(panels_set, ties_set, false, 2),
    ORDER(ties_set, haunch, false, 2),
    ORDER(jacking, lock, false, 0),
    ORDER(lock, closure_cast, false, 0),
    ORDER(closure_cast, closure_active, true, 0),
    ORDER(closure_active, release, false, 0),
    ORDER(release, fill_active, false, 0),
    ORDER(fill_cast, fill_active, true, 0),
    ORDER(fill_active, haunch, false, 0),
    ORDER(diaphragm_cast, diaphragm_active, true, 2),
    ORDER(ties_set, diaphragm_active, false, 2),
    ORDER(diaphragm_active, opening, false, 2),
    ORDER(haunch, barrier, false, 0),
    ORDER(haunch, overlay, false, 0),
    ORDER(barrier, opening, false, 0),
    ORDER(overlay, opening, false, 0),
    ORDER(opening, end, true, 0),
};

static bool has_tied_pier(const Bridge *b)
{
    const SpanData *span = b->spans.item;
    for (int i = 0; i + 1 < b->spans.count; i++)
        if (span[i].pier == PIER_TIED) return true;
    return false;
}

static void judge_days(const Judge *j)
{
    const char *days = (const char *)&j->bridge->days;
    const bool kind[] = {true, j->bridge->girders.kind == GIRDER_PRETENSIONED,
                         has_tied_pier(j->bridge)};
    for (size_t i = 0; i < sizeof day_orders / sizeof *day_orders; i++) {
        const DayOrder *o = &day_orders[i];
        const double before = *(const double *)(const void *)(days + o->before);
        const double after = *(const double *)(const void *)(days + o->after);
        if (!kind[o->kinds] || before < after || (before <= after && !o->apart)) continue;
        char paths[128];
        snprintf(paths, sizeof paths, "%s|%s", o->after_key, o->before_key);
        complain(j, paths, "day %.6g is %s %s on day %.6g: put the stages in order", after,
                 before > after ? "before" : "the same as", o->before_key, before);
    }
    const double *seen = j->bridge->days.inspections.item;
    double last = j->bridge->days.opening;
    for (int i = 0; i < j->bridge->days.inspections.count; last = seen[i++])
        if (seen[i] <= last || seen[i] >= j->bridge->days.end) {
            char path[128];
            snprintf(path, sizeof path, "days.inspections[%d]", i + 1);
            complain(j, path, "inspections come one after the other between opening and end");
        }
}

/* ---- girders ---- */

static void judge_plates(const Judge *j, double length_m)
{
    const ListData *list = &j->bridge->girders.plates;
    const PlateData *plate = list->item;
    const GirderData *g = &j->bridge->girders;
    char path[128];
    double from_m = 0;
    if (list->count == 0)
        complain(j, "girders.plates|girders.kind", "a steel girder needs its plates");
    for (int i = 0; i < list->count; from_m = plate[i++].to_m) {
        snprintf(path, sizeof path, "girders.plates[%d].to", i + 1);
        if (isnan(plate[i].to_m))
            complain(j, path, "every piece but the last needs its right end");
        else if (!(plate[i].to_m > from_m + 0.01))
            complain(j, path, "the pieces must come one after the other from left to right");
        if (g->kind == GIRDER_TUB &&
            plate[i].bottom_width_m / 2 + g->web_slope_1 * plate[i].web_depth_m >=
                g->spacing_m / 2) {
            snprintf(path, sizeof path, "girders.plates[%d].bottom_width", i + 1);
            complain(j, path, "two tubs of this width do not fit their spacing");
        }
        if (isnan(plate[i].to_m)) return;
    }
    if (list->count && fabs(plate[list->count - 1].to_m - length_m) > 0.01)
        complain(j, path, "the last piece must end with the bridge");
}

/* As many as stand at that mean height in the widest part, rows from the soffit up to twice of it, three
 * diameters apart: looser than AASHTO LRFD table 5.9.4.1-1 (from memory), for strands that are lumped. */
static int strands_that_fit(const GirderData *g, double height_m)
{
    BeamSection shape;
    if (!g->shape || !section_standard(g->shape, &shape)) return 1000;
    double width_m = 0;
    for (int i = 0; i < shape.profile.count; i++) width_m = fmax(width_m, shape.profile.width_m[i]);
    const double apart_m = 3 * g->strand_diameter_m;
    return (int)(floor(width_m / apart_m) * fmax(1, floor(2 * height_m / apart_m)));
}

static void judge_strands(const Judge *j)
{
    const GirderData *g = &j->bridge->girders;
    const StrandRowData *row = g->strands.item;
    const SpanData *span = j->bridge->spans.item;
    double shortest_m = span[0].length_m;
    for (int i = 1; i < j->bridge->spans.count; i++)
        shortest_m = fmin(shortest_m, span[i].length_m);
    char path[128];
    if (g->strands.count == 0)
        complain(j, "girders.strands|girders.kind", "a pretensioned girder needs its strands");
    for (int i = 0; i < g->strands.count; i++) {
        snprintf(path, sizeof path, "girders.strands[%d].height|girders.strands[%d].count", i + 1,
                 i + 1);
        if (row[i].height_m >= g->depth_m || row[i].end_height_m >= g->depth_m)
            complain(j, path, "the strands lie above the girder");
        if (row[i].count > strands_that_fit(g, row[i].height_m))
            complain(j, path, "%d strands do not fit into the girder at this height: at most %d",
                     row[i].count, strands_that_fit(g, row[i].height_m));
        if (2 * row[i].debonded_m > 0.8 * shortest_m ||
            (!isnan(row[i].harped_at_m) && 2 * row[i].harped_at_m > shortest_m))
            complain(j, path, "debonded lengths or harp points from both ends meet in a span");
        if (isnan(row[i].harped_at_m) && fabs(row[i].end_height_m - row[i].height_m) > 1e-9)
            complain(j, path, "strands that rise to the ends need harped_at");
    }
}

static void judge_pretensioned(const Judge *j)
{
    const GirderData *g = &j->bridge->girders;
    BeamSection room;
    if (g->plates.count)
        complain(j, "girders.plates|girders.kind", "plates belong to steel girders");
    if (g->shape && !section_standard(g->shape, &room)) {
        const char *name[64];
        int count = section_standard_count();
        if (count > 64) count = 64;
        for (int i = 0; i < count; i++) name[i] = section_standard_name(i);
        const char *nearest = name_nearest(g->shape, name, count);
        complain(j, "girders.shape", "the shape \"%.40s\" is not known%s%s%s", g->shape,
                 nearest ? ": is it \"" : "", nearest ? nearest : "", nearest ? "\"?" : "");
        return;
    }
    if (isnan(g->area_m2 + g->inertia_m4 + g->centroid_m + g->depth_m + g->top_width_m)) {
        complain(j, "girders.shape|girders.area|girders.kind",
                 "give a standard shape, or area, inertia, centroid, depth and top_width");
        return;
    }
    if (g->centroid_m >= g->depth_m)
        complain(j, "girders.centroid", "the centroid lies above the girder");
    judge_strands(j);
}

/* ---- the rest ---- */

static void judge_lists(const Judge *j)
{
    const Bridge *b = j->bridge;
    const RunData *run = b->runs.item;
    const AxleData *axle = b->live.axles.item;
    const ProfileData *point = b->climate.profile.item;
    char path[128];
    if (b->supports.count && b->supports.count != b->spans.count + 1)
        complain(j, "supports[1].kind", "%d entries for %d support lines", b->supports.count,
                 b->spans.count + 1);
    if (has_tied_pier(b) && b->piers.ties.count == 0)
        complain(j, "piers.ties|piers.connection|spans[1].pier",
                 "tied piers need their ties: below_top and area of each level");
    for (int i = 0; i < b->runs.count; i++) {
        snprintf(path, sizeof path, "runs[%d].to_span", i + 1);
        if (run[i].to_span < run[i].from_span || run[i].to_span > b->spans.count)
            complain(j, path, "a run goes from one of the %d spans to the same or a later one",
                     b->spans.count);
    }
    if (b->live.model == LIVE_AXLES && b->live.axles.count == 0)
        complain(j, "live.axles|live.model", "give the axles of the vehicle");
    if (b->live.model == LIVE_HL93 && b->live.axles.count)
        complain(j, "live.axles[1].load", "with axles of your own write live.model: axles");
    for (int i = 0; i + 1 < b->live.axles.count; i++) {
        snprintf(path, sizeof path, "live.axles[%d].gap|live.axles[%d].load", i + 1, i + 1);
        if (isnan(axle[i].gap_m)) complain(j, path, "give the gap to the next axle");
    }
    for (int i = 1; i < b->climate.profile.count; i++) {
        snprintf(path, sizeof path, "climate.profile[%d].depth", i + 1);
        if (point[i].depth_m <= point[i - 1].depth_m)
            complain(j, path, "depths increase from the top down");
    }
}

/* Ties pull in the girder or in what lies on it, not in the air below or above. */
static void judge_ties(const Judge *j)
{
    const Bridge *b = j->bridge;
    const TieData *tie = b->piers.ties.item;
    const double over_m = b->deck.haunch_m + b->deck.thickness_m;
    const double depth_m =
        b->girders.kind == GIRDER_PRETENSIONED ? b->girders.depth_m : b->piers.diaphragm_depth_m;
    char path[128];
    for (int i = 0; i < b->piers.ties.count; i++) {
        snprintf(path, sizeof path, "piers.ties[%d].below_top", i + 1);
        if (!isnan(depth_m) && tie[i].below_top_m >= depth_m)
            complain(j, path, "these ties lie below the girder");
        if (tie[i].below_top_m <= -over_m) complain(j, path, "these ties lie above the deck");
    }
}

/* Interface shear of bars is looked at with the constants of concrete; on as-rolled steel they are others
 * (AASHTO LRFD 5.7.4.4, from memory), and welded bars would need fatigue. */
static void judge_connectors(const Judge *j)
{
    const Bridge *b = j->bridge;
    if (b->connectors.kind == CONNECTOR_BARS && b->girders.kind != GIRDER_PRETENSIONED)
        complain(j, "connectors.kind|girders.kind",
                 "bars are looked at on concrete girders alone: write studs for a steel girder");
    if (b->girders.kind == GIRDER_PRETENSIONED &&
        !isnan(b->connectors.width_m + b->girders.top_width_m) &&
        b->connectors.width_m > b->girders.top_width_m)
        complain(j, "connectors.width", "the interface is wider than the girder's top flange");
    if (!isnan(b->connectors.anchor_length_m) && b->connectors.anchor_length_m > b->panels.anchor_m)
        complain(j, "connectors.anchor_length|panels.anchor_length",
                 "the connectors stand on more length than the anchor panel has");
}

static void judge_deck(const Judge *j)
{
    const Bridge *b = j->bridge;
    const double width_m =
        b->girders.spacing_m * (b->girders.count - 1) + 2 * b->girders.overhang_m;
    if (fabs(width_m - b->deck.width_m) > 0.01 || b->girders.overhang_m <= 0)
        complain(j, "deck.width|girders.overhang|girders.spacing",
                 "the deck's width is not that of the girders with both overhangs");
    if (b->deck.thickness_m - b->deck.wearing_m < 0.1)
        complain(j, "deck.wearing_allowance|deck.thickness", "hardly any deck is left to carry");
    if (b->loads.barrier_width_m * 2 >= b->deck.width_m)
        complain(j, "loads.barrier_width", "the barriers leave no roadway");
    if (b->piers.bearing_offset_m < b->piers.end_gap_m / 2)
        complain(j, "piers.bearing_offset|piers.end_gap",
                 "the bearings of a tied pier must stand under the girder ends");
    if (b->shims.friction_least_1 > b->shims.friction_1)
        complain(j, "shims.friction_least|shims.friction",
                 "the least friction is more than the most, shims.friction");
}

static void judge_panels(const Judge *j)
{
    const Bridge *b = j->bridge;
    if (b->panels.shortest_m > b->panels.longest_m)
        complain(j, "panels.shortest|panels.longest",
                 "the shortest panel is longer than the longest");
    if ((b->panels.crown == PANEL_CROWN_THICKENED || b->panels.crown == PANEL_CROWN_TWO_PLANES) &&
        !(b->deck.crossfall_1 > 0))
        complain(j, "panels.crown|deck.crossfall", "a crown needs the slope, deck.crossfall");
    if (b->panels.crown == PANEL_CROWN_CLOSURE && b->panels.strip_m > b->deck.width_m / 2)
        complain(j, "panels.strip", "the longitudinal closure takes more than half of the deck");
    if (!isnan(b->deck.plan_radius_m) && b->deck.plan_radius_m < b->deck.width_m)
        complain(j, "deck.plan_radius", "the radius is less than the deck's width");
}

void bridge_judge(const Bridge *bridge, Diagnostics *diagnostics)
{
    const Judge judge = {bridge, diagnostics};
    const SpanData *span = bridge->spans.item;
    double length_m = 0;
    for (int i = 0; i < bridge->spans.count; i++) length_m += span[i].length_m;
    judge_days(&judge);
    judge_deck(&judge);
    judge_panels(&judge);
    judge_connectors(&judge);
    judge_ties(&judge);
    judge_lists(&judge);
    if (bridge->girders.kind == GIRDER_PRETENSIONED)
        judge_pretensioned(&judge);
    else
        judge_plates(&judge, length_m);
}
