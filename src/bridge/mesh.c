/* The stations of a unit. */
#include <math.h>
#include <stdlib.h>

#include "model.h"
#include "read.h"

/* Sizes: the note on pier stresses in docs/theory.md; 0.6 ft keeps them within 1 psi. */
static const double near_m = 0.19, far_m = 0.84, same_m = 0.03;
/* How fast elements grow away from a fine point, per length: slower over inner piers, where joints of
 * the deck that govern stand a few feet from the cusp. */
static const double growth_1 = 0.4, growth_pier_1 = 0.15;
enum { STATIONS_MAX = 20000, SAMPLES = 100 };

/* A place that must be a station; around a fine one the elements start small. */
typedef struct KeyPoint {
    double x_m;
    double growth_1; /* 0: not fine */
} KeyPoint;

typedef struct KeyList {
    KeyPoint *point;
    int count, room;
    KeyPoint *fine; /* the fine ones alone */
    int fine_count;
    const Unit *unit;
} KeyList;

/* Inside the gap between tied girder ends there is no station: the nearer end takes its place. */
static double out_of_end_gap(const Unit *unit, double x_m)
{
    const double half_m = unit->bridge->piers.end_gap_m / 2;
    for (int k = 1; k < unit->span_count; k++) {
        const double pier_m = unit->support_m[k];
        if (layout_tied(unit, k) && fabs(x_m - pier_m) < half_m)
            return x_m < pier_m ? pier_m - half_m : pier_m + half_m;
    }
    return x_m;
}

static void key_add(KeyList *list, double x_m, double growth)
{
    if (x_m < -1e-9 || x_m > list->unit->length_m + 1e-9 || list->count == list->room) return;
    list->point[list->count++] = (KeyPoint){out_of_end_gap(list->unit, x_m), growth};
}

static void add_supports(KeyList *list)
{
    const Unit *unit = list->unit;
    const PierData *piers = &unit->bridge->piers;
    for (int k = 0; k <= unit->span_count; k++) {
        const double x_m = unit->support_m[k];
        const bool inner = k > 0 && k < unit->span_count;
        if (!layout_tied(unit, k)) {
            key_add(list, x_m, inner ? growth_pier_1 : growth_1);
            continue;
        }
        key_add(list, x_m - piers->bearing_offset_m, growth_1);
        key_add(list, x_m - piers->end_gap_m / 2, growth_1);
        key_add(list, x_m + piers->end_gap_m / 2, growth_1);
        key_add(list, x_m + piers->bearing_offset_m, growth_1);
    }
}

/* Begin, thirds and end of the transfer length at both ends of each row, and harp points. */
static void add_strands(KeyList *list)
{
    const GirderData *g = &list->unit->bridge->girders;
    const StrandRowData *row = g->strands.item;
    for (int k = 0; k < list->unit->girder_count; k++) {
        const double from_m = list->unit->girder_from_m[k];
        const double to_m = list->unit->girder_to_m[k];
        for (int i = 0; i < g->strands.count; i++) {
            for (int t = 0; t <= 3; t++) {
                const double at_m = row[i].debonded_m + 60 * g->strand_diameter_m * t / 3;
                key_add(list, from_m + at_m, 0);
                key_add(list, to_m - at_m, 0);
            }
            if (isnan(row[i].harped_at_m)) continue;
            key_add(list, from_m + row[i].harped_at_m, 0);
            key_add(list, to_m - row[i].harped_at_m, 0);
        }
    }
}

static void add_plates(KeyList *list)
{
    const ListData *plates = &list->unit->bridge->girders.plates;
    const PlateData *plate = plates->item;
    for (int i = 0; i < plates->count; i++) key_add(list, plate[i].to_m - list->unit->start_m, 0);
}

/* Joints, and the places beside faces of anchors and gap where their stress is taken. */
static void add_joints(KeyList *list)
{
    const int count = layout_joint_count(list->unit), left = list->unit->left_panels;
    for (int j = 0; j < count; j++) {
        const bool face = j == 0 || j == count - 1 || j == left || j == left + 1;
        key_add(list, layout_joint_m(list->unit, j), face ? growth_1 : 0);
        if (face) key_add(list, layout_judged_m(list->unit, j), 0);
    }
}

/* Edges of pours, faces of wide joints. */
static void add_way(KeyList *list, Way way, Arena *arena)
{
    double *x_m = ARENA_NEW(arena, double, 2 * POURS_MAX + 2 * layout_joint_count(list->unit));
    const int count = way_places(list->unit, way, x_m);
    for (int i = 0; i < count; i++) key_add(list, x_m[i], 0);
}

static double finer(double a, double b) { return a > 0 && b > 0 ? fmin(a, b) : fmax(a, b); }

static int by_place(const void *a, const void *b)
{
    const double x = ((const KeyPoint *)a)->x_m, y = ((const KeyPoint *)b)->x_m;
    return (x > y) - (x < y);
}

/* Sorted; points closer than 30 mm become one (shorter elements are rounding). The unit's ends stay. */
static void keys_merge(KeyList *list)
{
    qsort(list->point, (size_t)list->count, sizeof *list->point, by_place);
    int kept = 1;
    for (int i = 1; i < list->count; i++) {
        KeyPoint *last = &list->point[kept - 1];
        if (list->point[i].x_m - last->x_m < same_m)
            last->growth_1 = finer(last->growth_1, list->point[i].growth_1);
        else
            list->point[kept++] = list->point[i];
    }
    list->point[kept - 1].x_m = fmax(list->point[kept - 1].x_m, list->unit->length_m);
    list->count = kept;
    for (int i = 0; i < kept; i++)
        if (list->point[i].growth_1 > 0) list->fine[list->fine_count++] = list->point[i];
}

static double size_at(const KeyList *list, double x_m)
{
    double size_m = far_m;
    for (int i = 0; i < list->fine_count; i++)
        size_m = fmin(size_m, near_m + list->fine[i].growth_1 * fabs(x_m - list->fine[i].x_m));
    return size_m;
}

static bool between_girders(const Unit *unit, double x_m)
{
    const double half_m = unit->bridge->piers.end_gap_m / 2;
    for (int k = 1; k < unit->span_count; k++)
        if (layout_tied(unit, k) && fabs(x_m - unit->support_m[k]) < half_m) return true;
    return false;
}

/* Stations from key i (included) to key i + 1 (not): steps of equal integral of 1/size. Only counts
 * where out is NULL. */
static int fill_between(const KeyList *list, int i, int fineness, double *out)
{
    const double from_m = list->point[i].x_m, to_m = list->point[i + 1].x_m;
    const double step_m = (to_m - from_m) / SAMPLES;
    double sum[SAMPLES + 1] = {0};
    if (between_girders(list->unit, (from_m + to_m) / 2)) {
        if (out) out[0] = from_m;
        return 1;
    }
    for (int s = 0; s < SAMPLES; s++)
        sum[s + 1] = sum[s] + step_m / size_at(list, from_m + (s + 0.5) * step_m);
    const int coarse = (int)ceil(sum[SAMPLES] - 1e-6) > 1 ? (int)ceil(sum[SAMPLES] - 1e-6) : 1;
    double previous_m = from_m;
    for (int n = 1, s = 0; out && n <= coarse; n++) {
        const double wanted = sum[SAMPLES] * n / coarse;
        while (s < SAMPLES - 1 && sum[s + 1] < wanted) s++;
        const double part = (wanted - sum[s]) / (sum[s + 1] - sum[s]);
        const double next_m = n == coarse ? to_m : from_m + (s + part) * step_m;
        for (int f = 0; f < fineness; f++)
            *out++ = previous_m + (next_m - previous_m) * f / fineness;
        previous_m = next_m;
    }
    return coarse * fineness;
}

Status layout_mesh(const Unit *unit, const WayWish *wish, Arena *arena, Mesh *mesh, Error *err)
{
    const Bridge *b = unit->bridge;
    const int fineness = wish->fineness;
    const int room = 4 * (unit->span_count + 1) + b->girders.plates.count +
                     3 * layout_joint_count(unit) + 4 + 2 * POURS_MAX +
                     10 * b->girders.strands.count * unit->girder_count;
    KeyList list = {ARENA_NEW(arena, KeyPoint, room), 0, room,
                    ARENA_NEW(arena, KeyPoint, room), 0, unit};
    add_supports(&list);
    add_joints(&list);
    add_way(&list, wish->way, arena);
    if (b->girders.kind == GIRDER_PRETENSIONED)
        add_strands(&list);
    else
        add_plates(&list);
    keys_merge(&list);
    int count = 1;
    for (int i = 0; i + 1 < list.count; i++) {
        count += fill_between(&list, i, fineness, NULL);
        if (count > STATIONS_MAX) {
            bridge_refuse(b, err, "panels.length|spans[1].length",
                          "%s needs more than %d stations at fineness %d", unit->name, STATIONS_MAX,
                          fineness);
            if (err) err->status = STATUS_TOO_LARGE;
            return STATUS_TOO_LARGE;
        }
    }
    double *x_m = ARENA_NEW(arena, double, count), *at = x_m;
    for (int i = 0; i + 1 < list.count; i++) at += fill_between(&list, i, fineness, at);
    *at = list.point[list.count - 1].x_m;
    *mesh = (Mesh){count, x_m};
    return STATUS_OK;
}

int mesh_near(const Mesh *mesh, double x_m)
{
    int low = 0, high = mesh->count - 1;
    while (high - low > 1) {
        const int mid = (low + high) / 2;
        if (mesh->x_m[mid] > x_m)
            high = mid;
        else
            low = mid;
    }
    return x_m - mesh->x_m[low] <= mesh->x_m[high] - x_m ? low : high;
}
