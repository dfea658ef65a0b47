/* Structural units and their run of panels. */
#include "layout.h"

#include <math.h>
#include <string.h>

#include "read.h"

static const SpanData *span_at(const Bridge *b, int i)
{
    return (const SpanData *)b->spans.item + i;
}

bool layout_tied(const Unit *unit, int k)
{
    return k > 0 && k < unit->span_count &&
           span_at(unit->bridge, unit->first_span + k - 1)->pier == PIER_TIED;
}

/* Support lines, and the girders between tied piers. */
static void set_girders(Unit *unit)
{
    const double half_m = unit->bridge->piers.end_gap_m / 2;
    unit->girder_count = 1;
    for (int k = 1; k <= unit->span_count; k++) {
        const SpanData *span = span_at(unit->bridge, unit->first_span + k - 1);
        unit->support_m[k] = unit->support_m[k - 1] + span->length_m;
        if (!layout_tied(unit, k)) continue;
        unit->girder_to_m[unit->girder_count - 1] = unit->support_m[k] - half_m;
        unit->girder_from_m[unit->girder_count++] = unit->support_m[k] + half_m;
    }
    unit->length_m = unit->support_m[unit->span_count];
    unit->girder_to_m[unit->girder_count - 1] = unit->length_m;
}

/* ---- panels ---- */

int layout_joint_count(const Unit *unit) { return unit->left_panels + unit->right_panels + 2; }

double layout_joint_m(const Unit *unit, int joint) { return unit->joint_m[joint]; }

double layout_judged_m(const Unit *unit, int joint)
{
    const double t_m = unit->bridge->deck.thickness_m, x_m = layout_joint_m(unit, joint);
    const int last = layout_joint_count(unit) - 1;
    if (joint == 0 || joint == unit->left_panels + 1) return x_m + t_m;
    if (joint == last || joint == unit->left_panels) return x_m - t_m;
    return x_m;
}

bool layout_in_gap(const Unit *unit, double x_m)
{
    return x_m > unit->gap_from_m && x_m < unit->gap_to_m;
}

/* The anchor panel at the left is the first, the gap is none. */
int layout_phase(const Unit *unit, double x_m)
{
    const int count = layout_joint_count(unit);
    int panel = 0;
    for (int j = 0; j < count; j++) panel += j != unit->left_panels && x_m > unit->joint_m[j];
    return unit->bridge->panels.phases == 2 ? panel % 2 : 0;
}

static Status check_room(const Unit *unit, const char *gap_path, Error *err)
{
    const Bridge *b = unit->bridge;
    const double nominal_m = b->panels.length_m;
    const double left_m = unit->gap_from_m - unit->anchor_m;
    const double right_m = unit->length_m - unit->anchor_m - unit->gap_to_m;
    char paths[160];
    snprintf(paths, sizeof paths,
             "%s|panels.gap|panels.anchor_length|panels.length|spans[%d].length", gap_path,
             unit->first_span + 1);
    if (left_m <= 0 || right_m <= 0)
        return bridge_refuse(b, err, paths,
                             "in %s the jacking gap and an anchor panel overlap: %.4g ft are left "
                             "on one side",
                             unit->name, quantity_in(fmin(left_m, right_m), "ft"));
    if (left_m < 0.6 * nominal_m || right_m < 0.6 * nominal_m)
        return bridge_refuse(b, err, paths,
                             "in %s no panel of %.4g ft fits the %.4g ft between the jacking gap "
                             "and an anchor panel: move the gap or choose other panels",
                             unit->name, quantity_in(nominal_m, "ft"),
                             quantity_in(fmin(left_m, right_m), "ft"));
    return STATUS_OK;
}

/* ---- runs ---- */

/* The pier inside the run that its thrust cannot cross. */
static Status check_tied(const Bridge *b, const RunData *run, int r, Error *err)
{
    char paths[64];
    for (int i = run->from_span - 1; i < run->to_span - 1; i++) {
        const int pier = span_at(b, i)->pier;
        snprintf(paths, sizeof paths, "runs[%d].to_span", r + 1);
        if (pier == PIER_LINK_SLAB)
            return bridge_refuse(
                b, err, paths,
                "the girders are not tied through pier %d: they cannot carry the "
                "thrust across it; make one run a span, or tie them before jacking",
                i + 1);
    }
    return STATUS_OK;
}

static Status run_of_unit(const Bridge *b, const Unit *unit, int *run_index, Error *err)
{
    const RunData *run = b->runs.item;
    const int first = unit->first_span + 1, last = unit->first_span + unit->span_count;
    char paths[64];
    *run_index = -1;
    for (int r = 0; r < b->runs.count; r++) {
        if (run[r].to_span < first || run[r].from_span > last) continue;
        snprintf(paths, sizeof paths, "runs[%d].from_span", r + 1);
        TRY(check_tied(b, &run[r], r, err));
        if (*run_index >= 0)
            return bridge_refuse(b, err, paths,
                                 "two runs share %s: the joint between them gets no thrust; make "
                                 "one run of %s",
                                 unit->name, unit->name);
        if (run[r].from_span != first || run[r].to_span != last)
            return bridge_refuse(b, err, paths,
                                 "the run takes only a part of %s, whose girders go on: the thrust "
                                 "needs anchors at both ends of them",
                                 unit->name);
        *run_index = r;
    }
    if (b->runs.count && *run_index < 0)
        return bridge_refuse(b, err, "runs[1].from_span", "%s is in no run", unit->name);
    return STATUS_OK;
}

static Status check_ties_in_time(const Unit *unit, Error *err)
{
    const Bridge *b = unit->bridge;
    for (int k = 1; k < unit->span_count; k++)
        if (layout_tied(unit, k) && b->days.ties_set > b->days.jacking)
            return bridge_refuse(b, err, "days.ties_set|days.jacking",
                                 "the girders are tied through pier %d on day %.6g, after jacking "
                                 "on day %.6g: they cannot carry the thrust across it; tie them "
                                 "before jacking",
                                 unit->first_span + k, b->days.ties_set, b->days.jacking);
    return STATUS_OK;
}

static Status set_run(Unit *unit, Error *err)
{
    const Bridge *b = unit->bridge;
    const RunData *run = b->runs.item;
    const int middle = (unit->span_count - 1) / 2;
    char gap_path[64] = "panels.gap";
    int r = -1;
    TRY(run_of_unit(b, unit, &r, err));
    TRY(check_ties_in_time(unit, err));
    double at_m = (unit->support_m[middle] + unit->support_m[middle + 1]) / 2;
    if (r >= 0 && !isnan(run[r].gap_at_m)) {
        at_m = run[r].gap_at_m - unit->start_m;
        snprintf(gap_path, sizeof gap_path, "runs[%d].gap_at", r + 1);
    }
    unit->anchor_m = b->panels.anchor_m;
    unit->gap_from_m = at_m - b->panels.gap_m / 2;
    unit->gap_to_m = at_m + b->panels.gap_m / 2;
    return check_room(unit, gap_path, err);
}

/* ---- alike units ---- */

static bool near(double a, double b) { return fabs(a - b) < 1e-6; }

static bool same_plate(const PlateData *p, const PlateData *q)
{
    return p->top_width_m == q->top_width_m && p->top_thickness_m == q->top_thickness_m &&
           p->web_depth_m == q->web_depth_m && p->web_thickness_m == q->web_thickness_m &&
           p->bottom_width_m == q->bottom_width_m && p->bottom_thickness_m == q->bottom_thickness_m;
}

/* Plates of unit a, shifted to b's place, cut both alike. */
static bool same_plates(const Unit *a, const Unit *b)
{
    const ListData *list = &a->bridge->girders.plates;
    const PlateData *plate = list->item;
    double from_m = 0;
    for (int i = 0; i < list->count; from_m = plate[i++].to_m)
        for (int k = 0; k < list->count; k++) {
            const double shift_m = b->start_m - a->start_m;
            const double lo_m = fmax(from_m + shift_m, fmax(b->start_m, k ? plate[k - 1].to_m : 0));
            const double hi_m =
                fmin(plate[i].to_m + shift_m, fmin(b->start_m + b->length_m, plate[k].to_m));
            if (hi_m - lo_m > 1e-3 && !same_plate(&plate[i], &plate[k])) return false;
        }
    return true;
}

static bool same_supports(const Unit *a, const Unit *b)
{
    const SupportData *s = a->bridge->supports.item;
    for (int k = 0; s && k <= a->span_count; k++) {
        const SupportData *p = &s[a->first_span + k], *q = &s[b->first_span + k];
        const bool stiffness = p->stiffness_N_per_m == q->stiffness_N_per_m ||
                               (isnan(p->stiffness_N_per_m) && isnan(q->stiffness_N_per_m));
        if (p->kind != q->kind || p->released != q->released || !stiffness) return false;
    }
    return true;
}

static bool units_alike(const Unit *a, const Unit *b)
{
    if (a->span_count != b->span_count || !near(a->gap_from_m, b->gap_from_m)) return false;
    for (int i = 0; i < a->span_count; i++) {
        const SpanData *p = span_at(a->bridge, a->first_span + i);
        const SpanData *q = span_at(b->bridge, b->first_span + i);
        if (!near(p->length_m, q->length_m)) return false;
        if (i + 1 < a->span_count && p->pier != q->pier) return false;
    }
    if (a->left_panels != b->left_panels || a->right_panels != b->right_panels) return false;
    for (int j = 0; j < layout_joint_count(a); j++)
        if (!near(a->joint_m[j], b->joint_m[j])) return false; /* splices move joints */
    return same_supports(a, b) && same_plates(a, b);
}

static const char *unit_name(const Unit *unit, Arena *arena)
{
    const int first = unit->first_span + 1, last = unit->first_span + unit->span_count;
    return first == last ? arena_printf(arena, "span %d", first)
                         : arena_printf(arena, "spans %d to %d", first, last);
}

static int split_units(const Bridge *b, Arena *arena, Unit *unit)
{
    int count = 0;
    double x_m = 0;
    for (int i = 0; i < b->spans.count; i++) {
        if (i == 0 || span_at(b, i - 1)->pier == PIER_LINK_SLAB)
            unit[count++] = (Unit){.bridge = b, .first_span = i, .start_m = x_m};
        unit[count - 1].span_count++;
        x_m += span_at(b, i)->length_m;
    }
    for (int u = 0; u < count; u++) {
        unit[u].name = unit_name(&unit[u], arena);
        set_girders(&unit[u]);
    }
    return count;
}

/* ---- joints ---- */

/* Equal panels by one division: nothing adds up. */
static void add_joints(double from_m, double to_m, const PanelSplit *split, double *joint_m)
{
    bool equal = true;
    double x_m = from_m;
    for (int i = 1; i < split->count; i++)
        equal = equal && split->length_m[i] == split->length_m[0];
    joint_m[0] = from_m;
    for (int i = 1; i < split->count; i++) {
        x_m += split->length_m[i - 1];
        joint_m[i] = equal ? from_m + (to_m - from_m) * i / split->count : x_m;
    }
    joint_m[split->count] = to_m;
}

static void take_joints(Unit *unit, const PanelSplit *left, const PanelSplit *right, Arena *arena)
{
    unit->left_panels = left->count;
    unit->right_panels = right->count;
    unit->joint_m = ARENA_NEW(arena, double, layout_joint_count(unit));
    add_joints(unit->anchor_m, unit->gap_from_m, left, unit->joint_m);
    add_joints(unit->gap_to_m, unit->length_m - unit->anchor_m, right,
               unit->joint_m + left->count + 1);
}

Status layout_all(const Bridge *bridge, Arena *arena, Unit **unit, int *unit_count, Error *err)
{
    Unit *all = ARENA_NEW(arena, Unit, bridge->spans.count);
    const int count = split_units(bridge, arena, all);
    for (int u = 0; u < count; u++) TRY(set_run(&all[u], err));
    const PanelRule rule = layout_rule(bridge, (PanelChoice)bridge->panels.layout);
    const PanelStretch *stretch = layout_stretches(all, count, rule.choice, arena);
    PanelSplit *split = ARENA_NEW(arena, PanelSplit, 2 * count);
    TRY(panel_split(stretch, 2 * count, &rule, arena, split, err));
    for (int u = 0; u < count; u++) {
        const PanelSplit *const left = &split[(ptrdiff_t)2 * u];
        take_joints(&all[u], left, left + 1, arena);
    }
    *unit = all;
    *unit_count = count;
    return STATUS_OK;
}

int layout_alike(const Unit *all, int count, int *of)
{
    int kept = 0;
    for (int u = 0; u < count; u++) {
        of[u] = kept;
        for (int k = 0; k < u && of[u] == kept; k++)
            if (units_alike(&all[k], &all[u])) of[u] = of[k];
        kept += of[u] == kept;
    }
    return kept;
}

Status layout_units(const Bridge *bridge, Arena *arena, Unit **unit, int *unit_count, Error *err)
{
    Unit *all;
    int count, kept = 0;
    TRY(layout_all(bridge, arena, &all, &count, err));
    const char **others = ARENA_NEW(arena, const char *, count);
    int *of = ARENA_NEW(arena, int, count);
    layout_alike(all, count, of);
    for (int u = 0; u < count; u++) {
        const int same = of[u];
        if (same == kept) {
            all[kept++] = all[u];
            continue;
        }
        others[same] =
            others[same] ? arena_printf(arena, "%s, %s", others[same], all[u].name) : all[u].name;
    }
    for (int k = 0; k < kept; k++)
        if (others[k]) all[k].name = arena_printf(arena, "%s (alike: %s)", all[k].name, others[k]);
    *unit = all;
    *unit_count = kept;
    return STATUS_OK;
}
