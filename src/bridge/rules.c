/* Joint rules, upper limits, live load and sharing of a girder line. */
#include <math.h>

#include "model.h"
#include "read.h"

const JointRule *model_rules(const Bridge *b, Arena *arena)
{
#define X(name, average, building, live, gradient, wheel, counts, clause) \
    {name, clause, live, gradient, wheel, 0, average, building, counts},
    static const JointRule standard[JOINT_RULE_COUNT] = {JOINT_RULE_LIST(X)};
#undef X
    JointRule *rule = ARENA_NEW(arena, JointRule, JOINT_RULE_COUNT);
    const int *chosen = b->criteria.joints.item;
    for (int i = 0; i < JOINT_RULE_COUNT; i++) {
        rule[i] = standard[i];
        rule[i].limit_Pa = rule[i].average ? -b->criteria.average_Pa : b->criteria.tension_Pa;
        if (chosen) rule[i].counts = false;
    }
    for (int i = 0; i < b->criteria.joints.count; i++) rule[chosen[i]].counts = true;
    return rule;
}

/* ---- upper limits ---- */

typedef struct LimitList {
    UpperLimit *limit;
    int count;
} LimitList;

static void add(LimitList *list, LimitKind kind, const char *name, const char *clause, double value,
                double factor_1)
{
    list->limit[list->count++] = (UpperLimit){kind, name, clause, value, factor_1};
}

static void add_deck_limits(LimitList *list, const CriteriaData *c)
{
    add(list, LIMIT_DECK_JACKING, "deck compression at jacking",
        "AASHTO LRFD 5.9.2.3.1a (from memory)", c->deck_jacking_1, 1);
    add(list, LIMIT_DECK_PERMANENT, "deck compression, permanent",
        "AASHTO LRFD 5.9.2.3.2a (from memory)", c->deck_permanent_1, 1);
    add(list, LIMIT_DECK_SERVICE, "deck compression in service",
        "AASHTO LRFD 5.9.2.3.2a (from memory)", c->deck_service_1, 1);
}

static void add_girder_limits(LimitList *list, const Bridge *b)
{
    const bool steel = b->girders.kind != GIRDER_PRETENSIONED;
    const CriteriaData *c = &b->criteria;
    const double yield_Pa = c->steel_1 * b->girders.steel_yield_Pa;
    const double tension_Pa = steel ? yield_Pa : c->girder_tension_Pa;
    const double compression_Pa =
        steel ? yield_Pa : c->girder_compression_1 * b->concrete[CONCRETE_GIRDER].strength_Pa;
    const char *tension = steel ? "AASHTO LRFD 6.10.3.2 and 6.10.4.2 (from memory), by analogy"
                                : "AASHTO LRFD 5.9.2.3.1b (from memory)";
    const char *compression = steel ? tension : "AASHTO LRFD 5.9.2.3.1a (from memory)";
    add(list, LIMIT_GIRDER_TOP_TENSION, "tension at the girder top while jacked", tension,
        tension_Pa, 1);
    add(list, LIMIT_GIRDER_BOTTOM_TENSION, "tension at the girder bottom while jacked", tension,
        tension_Pa, 1);
    add(list, LIMIT_GIRDER_COMPRESSION, "compression of the girder while jacked", compression,
        compression_Pa, 1);
}

static void add_force_limits(LimitList *list, const Builder *m, const BridgeLine *line)
{
    const Bridge *b = m->bridge;
    const CriteriaData *c = &b->criteria;
    if (m->material_of[ROLE_TIE] >= 0)
        add(list, LIMIT_TIE, "ties through the piers, each level",
            "AASHTO LRFD 5.5.4.2 and 3.4.3.2 (from memory), by analogy",
            c->tie_1 * b->piers.tie_yield_Pa, c->thrust_1);
    add(list, LIMIT_UPLIFT, "bearings stay pressed", "common practice, no source", 0, 1);
    if (!isnan(b->panels.anchor_connectors_N))
        add(list, LIMIT_ANCHOR, "connectors of an anchor panel",
            "AASHTO LRFD 6.10.10.4 and 3.4.3.2 (from memory), by analogy",
            c->anchor_1 * b->panels.anchor_connectors_N, c->thrust_1);
    if (b->jacks.count > 0 && !isnan(b->jacks.rated_N))
        add(list, LIMIT_JACKS, "rated force of the jacks", "common practice, no source",
            b->jacks.count * b->jacks.rated_N / b->jacks.margin_1 * line->share_1, 1);
}

void model_limits(const Builder *m, BridgeLine *line)
{
    LimitList list = {ARENA_NEW(m->arena, UpperLimit, LIMIT_KIND_COUNT), 0};
    add_deck_limits(&list, &m->bridge->criteria);
    add_girder_limits(&list, m->bridge);
    add_force_limits(&list, m, line);
    line->limit = list.limit;
    line->limit_count = list.count;
}

/* ---- live load ---- */

static Status own_vehicle(const Bridge *b, LiveLoad *live, Error *err)
{
    const AxleData *axle = b->live.axles.item;
    *live = (LiveLoad){.name = "given axles",
                       .source = "bridge file",
                       .vehicle_count = 1,
                       .lane_N_per_m = b->live.lane_N_per_m,
                       .impact_ratio = b->live.impact_1,
                       .train_vehicle = -1};
    Vehicle *vehicle = &live->vehicle[0];
    vehicle->name = "given vehicle";
    vehicle->axle_count = b->live.axles.count;
    for (int i = 0; i < vehicle->axle_count; i++) {
        vehicle->axle_N[i] = axle[i].load_N;
        if (i + 1 < vehicle->axle_count)
            vehicle->gap_min_m[i] = vehicle->gap_max_m[i] = axle[i].gap_m;
    }
    return traffic_check(live, err);
}

/* The section near mid-span of the unit's first span, for stiffness over the whole cross-section. */
static const BeamSection *typical_section(const Builder *m)
{
    const int piece = model_piece(m, m->unit->support_m[1] / 2);
    return &m->piece[piece < 0 ? 0 : piece];
}

static double girder_modulus_Pa(const Builder *m)
{
    if (m->bridge->girders.kind != GIRDER_PRETENSIONED) return m->bridge->girders.steel_modulus_Pa;
    const ConcreteMix mix = model_mix(m->bridge, CONCRETE_GIRDER);
    return concrete_modulus_Pa(&mix, 28);
}

static LineSharing sharing_of(const Builder *m)
{
    const BeamSection *s = typical_section(m);
    const ConcreteMix deck = model_mix(m->bridge, CONCRETE_PANEL);
    const double girder_Pa = girder_modulus_Pa(m), deck_Pa = concrete_modulus_Pa(&deck, 28);
    return (LineSharing){.skew_shear_1 = 1,
                         .modular_1 = girder_Pa / deck_Pa,
                         .area_m2 = s->area_m2,
                         .inertia_m4 = s->inertia_m4,
                         .apart_m = s->depth_m - s->centroid_m + m->bridge->deck.haunch_m +
                                    m->thickness_m / 2,
                         .girder_Pa = girder_Pa,
                         .deck_Pa = deck_Pa,
                         .anchors_m = m->unit->length_m - 2 * m->unit->anchor_m,
                         .gap_m = m->unit->gap_to_m - m->unit->gap_from_m};
}

static Distribution distribution_of(const Builder *m, const LineSharing *s, double skew_rad)
{
    const Bridge *b = m->bridge;
    static const CrossSectionKind kinds[] = {CROSS_STEEL_I, CROSS_STEEL_BOX, CROSS_CONCRETE_I};
    double span_m = m->unit->support_m[1];
    for (int k = 2; k <= m->unit->span_count; k++) /* the shortest: the largest factor */
        span_m = fmin(span_m, m->unit->support_m[k] - m->unit->support_m[k - 1]);
    return (Distribution){.kind = kinds[b->girders.kind],
                          .span_m = span_m,
                          .spacing_m = b->girders.spacing_m,
                          .deck_thickness_m = m->thickness_m,
                          .stiffness_Kg_m4 =
                              s->modular_1 * (s->inertia_m4 + s->area_m2 * s->apart_m * s->apart_m),
                          .girder_count = b->girders.count,
                          .overhang_m = b->girders.overhang_m,
                          .barrier_width_m = b->loads.barrier_width_m,
                          .roadway_m = b->deck.width_m - 2 * b->loads.barrier_width_m,
                          .skew_rad = skew_rad};
}

static Status lanes_by_formula(const Builder *m, double skew_rad, LineSharing *out, Error *err)
{
    *out = sharing_of(m);
    out->in = distribution_of(m, out, skew_rad);
    return traffic_distribution(&out->in, &out->found, err);
}

/* Flexibility of a line for a jack in its deck, closed form of one span: docs/theory.md, hand check
 * of the gap's movement. Only the ratio between lines counts. */
static double flexibility_m_per_N(const Builder *m, double width_m)
{
    const LineSharing s = sharing_of(m);
    const double Ed = s.deck_Pa, Eg = s.girder_Pa, c = s.gap_m, L = s.anchors_m, e = s.apart_m;
    const double Ad = width_m * m->thickness_m, Id = Ad * m->thickness_m * m->thickness_m / 12;
    return (L - c) / (Ed * Ad) + L / (Eg * s.area_m2) +
           e * e * ((L - c) / (Eg * s.inertia_m4 + Ed * Id) + c / (Eg * s.inertia_m4));
}

/* One truck 5 ft from the barrier on a cross-section that stays straight: AASHTO LRFD C4.6.2.2.2d
 * (from memory), without multiple presence. */
static double rigid_one_lane(const Bridge *b)
{
    const GirderData *g = &b->girders;
    const double outer_m = g->spacing_m * (g->count - 1) / 2;
    const double truck_m =
        outer_m + g->overhang_m - b->loads.barrier_width_m - 5 / quantity_in(1, "ft");
    double squares_m2 = 0;
    for (int i = 0; i < g->count; i++) {
        const double x_m = g->spacing_m * i - outer_m;
        squares_m2 += x_m * x_m;
    }
    return 1.0 / g->count + outer_m * truck_m / squares_m2;
}

/* Shear, and fatigue: one lane, the presence factor 1.2 taken out (AASHTO LRFD 3.6.1.1.2, from
 * memory). */
static void other_lanes(const Builder *m, const DistributionFactors *f, BridgeLine *line)
{
    const double one = f->interior_moment_one_1 / 1.2;
    const double outer = fmax(f->exterior_lever_1 / 1.2, rigid_one_lane(m->bridge));
    line->lanes_shear_1 = m->exterior ? f->exterior_shear_1 : f->interior_shear_1;
    const double one_shear = f->interior_shear_one_1 / 1.2;
    const bool box = m->bridge->girders.kind == GIRDER_TUB; /* interior and exterior alike */
    const bool statics = m->exterior && !box;
    line->lanes_fatigue_1 = fmin(statics ? outer : one, line->lanes_1);
    line->lanes_fatigue_shear_1 = fmin(statics ? outer : one_shear, line->lanes_shear_1);
}

/* A skew makes the shear at the obtuse corner larger: on all of a line, to be safe. That it makes moments
 * smaller is not taken. */
static void skewed_lanes(const Builder *m, BridgeLine *line)
{
    const double skew_rad = m->bridge->deck.skew_degrees * acos(-1) / 180;
    LineSharing skewed;
    Error err = {0};
    if (skew_rad == 0 || lanes_by_formula(m, skew_rad, &skewed, &err) != STATUS_OK) return;
    line->sharing.skew_shear_1 = skewed.found.skew_shear_1;
    line->lanes_shear_1 *= skewed.found.skew_shear_1;
    line->lanes_fatigue_shear_1 *= skewed.found.skew_shear_1;
    if (!skewed.found.in_range) line->remark = arena_text(m->arena, skewed.found.remark);
}

Status model_live(const Builder *m, BridgeLine *line, Error *err)
{
    const Bridge *b = m->bridge;
    const GirderData *g = &b->girders;
    const double given = m->exterior ? b->live.lanes_exterior_1 : b->live.lanes_interior_1;
    const double edge_m = g->spacing_m / 2 + g->overhang_m;
    line->live = traffic_hl93();
    if (b->live.model == LIVE_AXLES) TRY(own_vehicle(b, &line->live, err));
    line->lanes_1 = line->lanes_shear_1 = given;
    line->lanes_fatigue_1 = line->lanes_fatigue_shear_1 = given;
    line->sharing = sharing_of(m);
    if (isnan(given)) {
        if (lanes_by_formula(m, 0, &line->sharing, err) != STATUS_OK)
            return bridge_refuse(b, err,
                                 m->exterior ? "live.lanes_exterior" : "live.lanes_interior",
                                 "the distribution formulas do not apply to this cross-section: "
                                 "give the lanes on a girder line");
        const DistributionFactors *f = &line->sharing.found;
        line->sharing.derived = true;
        line->lanes_1 = m->exterior ? f->exterior_moment_1 : f->interior_moment_1;
        if (!f->in_range) line->remark = arena_text(m->arena, f->remark);
        other_lanes(m, f, line);
        skewed_lanes(m, line);
    }
    line->share_1 = m->width_m / b->deck.width_m;
    const double own = 1 / flexibility_m_per_N(m, m->width_m);
    const double all =
        2 / flexibility_m_per_N(m, edge_m) + (g->count - 2) / flexibility_m_per_N(m, g->spacing_m);
    line->share_stiff_1 = own / all;
    return STATUS_OK;
}
