/* Bearings and the links between deck and girder. */
#include <math.h>

#include "model.h"
#include "read.h"

static const double rigid_N_per_m = 1e12;  /* harmless in double precision */
static const double rigid_N_per_m2 = 1e12; /* bonded links, per length */

/* Holds along the bridge: stiffness, 0 where free. Without a list the unit's first support line is
 * fixed. */
static double stiffness_along(const Unit *unit, int k, bool *released)
{
    const SupportData *list = unit->bridge->supports.item;
    *released = false;
    if (!list) return k == 0 ? rigid_N_per_m : 0;
    const SupportData *s = &list[unit->first_span + k];
    *released = s->released;
    if (!isnan(s->stiffness_N_per_m)) return s->stiffness_N_per_m;
    return s->kind == SUPPORT_FREE ? 0 : rigid_N_per_m;
}

static Status check_support(const Unit *unit, int k, Error *err)
{
    const SupportData *list = unit->bridge->supports.item;
    const SupportData *s = list ? &list[unit->first_span + k] : NULL;
    if (!s || s->released) return STATUS_OK;
    if (s->kind != SUPPORT_INTEGRAL && s->kind != SUPPORT_DOWELLED) return STATUS_OK;
    char paths[64];
    snprintf(paths, sizeof paths, "supports[%d].kind", unit->first_span + k + 1);
    return bridge_refuse(unit->bridge, err, paths,
                         "the girders are %s at support %d while the jacks push: the support takes "
                         "the thrust that the girders should carry; release it until the haunches "
                         "are grouted",
                         s->kind == SUPPORT_INTEGRAL ? "built in" : "dowelled",
                         unit->first_span + k + 1);
}

/* One support line must hold the unit along the bridge while the jacks push, and only one rigidly. */
static Status check_supports(const Unit *unit, Error *err)
{
    int held = 0, rigid = 0, last = 0;
    bool released;
    char paths[64];
    for (int k = 0; k <= unit->span_count; k++) {
        TRY(check_support(unit, k, err));
        const double stiffness = stiffness_along(unit, k, &released);
        if (released || stiffness <= 0) continue;
        held++;
        if (stiffness < rigid_N_per_m) continue;
        rigid++;
        last = unit->first_span + k + 1;
    }
    snprintf(paths, sizeof paths, "supports[%d].kind", last > 0 ? last : unit->first_span + 1);
    if (held == 0)
        return bridge_refuse(unit->bridge, err, paths,
                             "no support holds %s along the bridge while the jacks push: fix one",
                             unit->name);
    if (rigid > 1)
        return bridge_refuse(unit->bridge, err, paths,
                             "%s is fixed at %d supports: between them the girders cannot lengthen "
                             "and the supports take the thrust; fix one, or give their stiffness",
                             unit->name, rigid);
    return STATUS_OK;
}

static double depth_near(const Builder *m, double x_m)
{
    int piece = model_piece(m, x_m + 1e-3);
    if (piece < 0) piece = model_piece(m, x_m - 1e-3);
    return piece < 0 ? m->piece[0].depth_m : m->piece[piece].depth_m;
}

static void add_bearing(Builder *m, double x_m, double along_N_per_m, int from_phase, int to_phase,
                        double vertical_N_per_m)
{
    m->support[m->support_count++] = (Support){.station = mesh_near(&m->mesh, x_m),
                                               .vertical_N_per_m = vertical_N_per_m,
                                               .horizontal_N_per_m = along_N_per_m,
                                               .below_top_m = depth_near(m, x_m),
                                               .from_phase = from_phase,
                                               .to_phase = to_phase};
}

/* The second of two bearings at a tied pier has the hold along the bridge: two would bypass the
 * ties. Until these are set each girder is held at its left bearing, which takes no force. */
static void add_support_line(Builder *m, int k)
{
    const Unit *unit = m->unit;
    const double offset_m = unit->bridge->piers.bearing_offset_m;
    const double x_m = unit->support_m[k];
    bool released;
    const double along = stiffness_along(unit, k, &released);
    const double now = released ? 0 : along;
    double right_m = x_m, vertical = rigid_N_per_m;
    if (layout_tied(unit, k)) { /* two rigid bearings so close would hold the girders' rotation */
        vertical = unit->bridge->piers.bearing_N_per_m;
        right_m += offset_m;
        add_bearing(m, x_m - offset_m, 0, PHASE_GIRDER, -1, vertical);
    }
    add_bearing(m, right_m, now, PHASE_GIRDER, -1, vertical);
    if (released && along > 0) add_bearing(m, right_m, along, PHASE_SUPPORT, -1, 0);
}

static double span_held(const Unit *unit, int from, int to)
{
    double sum = 0;
    bool released;
    for (int k = from; k <= to; k++) {
        const double along = stiffness_along(unit, k, &released);
        const bool of_next = k == to && layout_tied(unit, k); /* held at the next girder's end */
        if (!released && !of_next) sum += along;
    }
    return sum;
}

static void add_temporary(Builder *m)
{
    const Unit *unit = m->unit;
    int from = 0;
    for (int k = 1; k <= unit->span_count; k++) {
        if (k < unit->span_count && !layout_tied(unit, k)) continue;
        if (unit->girder_count > 1 && span_held(unit, from, k) <= 0) {
            const double offset_m = from ? unit->bridge->piers.bearing_offset_m : 0;
            add_bearing(m, unit->support_m[from] + offset_m, rigid_N_per_m, PHASE_GIRDER,
                        PHASE_TIES, 0);
        }
        from = k;
    }
}

Status model_supports(Builder *m, Error *err)
{
    TRY(check_supports(m->unit, err));
    m->support = ARENA_NEW(m->arena, Support, 4 * (m->unit->span_count + 1));
    for (int k = 0; k <= m->unit->span_count; k++) add_support_line(m, k);
    add_temporary(m);
    return STATUS_OK;
}

void model_links(Builder *m)
{
    const ShimData *s = &m->bridge->shims;
    const double *x_m = m->mesh.x_m;
    const double slip = s->connector_N_per_m2;
    m->link = ARENA_NEW(m->arena, Link, m->mesh.count);
    for (int i = 0; i < m->mesh.count; i++) {
        const double left_m = i > 0 ? x_m[i] - x_m[i - 1] : 0;
        const double right_m = i + 1 < m->mesh.count ? x_m[i + 1] - x_m[i] : 0;
        const double length_m = (left_m + right_m) / 2;
        m->link[i] = (Link){.shim_vertical_N_per_m = s->vertical_N_per_m2 * length_m,
                            .shim_horizontal_N_per_m = s->horizontal_N_per_m2 * length_m,
                            .bond_vertical_N_per_m = rigid_N_per_m2 * length_m,
                            .bond_horizontal_N_per_m = slip * length_m,
                            .friction_1 = s->friction_1};
    }
}
