/* The girder lines of a bridge, ready to be judged. */
#include <math.h>

#include "model.h"
#include "read.h"

static Gradient gradient_of(const Builder *m, bool negative)
{
    const ClimateData *c = &m->bridge->climate;
    const double depth_m = m->thickness_m + m->bridge->deck.haunch_m + m->piece[0].depth_m;
    Gradient gradient = traffic_gradient(c->gradient_zone, negative, c->asphalt, depth_m);
    if (c->profile.count == 0) return gradient;
    const ProfileData *point = c->profile.item;
    const double factor = negative ? (c->asphalt ? -0.2 : -0.3) : 1; /* AASHTO LRFD 3.12.3 */
    gradient.count = c->profile.count;
    gradient.source = "bridge file";
    for (int i = 0; i < c->profile.count; i++) {
        gradient.depth_m[i] = point[i].depth_m;
        gradient.rise_K[i] = factor * point[i].rise_K;
    }
    return gradient;
}

static Joint *set_joints(const Builder *m, BridgeLine *line)
{
    const Unit *unit = m->unit;
    const int count = layout_joint_count(unit), left = unit->left_panels;
    const WheelStress wheel = model_wheel(m->bridge);
    Joint *joint = ARENA_NEW(m->arena, Joint, count);
    for (int j = 0; j < count; j++) {
        const int station = mesh_near(&m->mesh, layout_joint_m(unit, j));
        joint[j] = (Joint){.station = station,
                           .away = mesh_near(&m->mesh, layout_judged_m(unit, j)) - station,
                           .mark = arena_printf(m->arena, "J%02d", j + 1),
                           .at_gap = j == left || j == left + 1,
                           .at_anchor = j == 0 || j == count - 1,
                           .wheel_top_Pa = wheel.top_Pa,
                           .wheel_bottom_Pa = wheel.bottom_Pa};
    }
    line->joint = joint;
    line->joint_count = count;
    return joint;
}

static void set_strength(const Builder *m, BridgeLine *line)
{
    const DayData *days = &m->bridge->days;
    const ConcreteMix mix = model_mix(m->bridge, CONCRETE_PANEL);
    const double younger = m->bridge->panels.phases == 2
                               ? fmax(days->phase_1_cast, days->phase_2_cast)
                               : days->phase_1_cast;
    line->deck_strength_Pa = mix.fc28_Pa;
    line->deck_jacking_strength_Pa =
        fmin(concrete_strength_Pa(&mix, days->jacking - younger), mix.fc28_Pa);
}

static void set_gap(Builder *m)
{
    const JackData *jacks = &m->bridge->jacks;
    const double width_m = m->unit->gap_to_m - m->unit->gap_from_m;
    m->gap = ARENA_NEW(m->arena, Gap, 1);
    *m->gap = (Gap){.left_station = mesh_near(&m->mesh, m->unit->gap_from_m),
                    .right_station = mesh_near(&m->mesh, m->unit->gap_to_m),
                    .jack_above_mid_m = jacks->above_mid_m,
                    .strut_N_per_m = jacks->strut_N_per_m,
                    .strut_expansion_m_per_K = m->bridge->girders.steel_expansion_per_K * width_m};
}

static StageModel raw_model(const Builder *m)
{
    return (StageModel){.station_count = m->mesh.count,
                        .part_count = m->part_count,
                        .material_count = m->material_count,
                        .section_count = m->section_count,
                        .support_count = m->support_count,
                        .gap_count = m->gap != NULL,
                        .event_count = m->event_count,
                        .x_m = m->mesh.x_m,
                        .part = m->part,
                        .material = m->material,
                        .section = m->section,
                        .link = m->link,
                        .support = m->support,
                        .gap = m->gap,
                        .event = m->event,
                        .deck_thickness_m = m->thickness_m,
                        .haunch_m = m->bridge->deck.haunch_m};
}

static void set_moments(BridgeLine *line)
{
    line->jacked = "jacked";
    line->released = "jacks released";
    line->bonded = "haunches grouted";
    line->opening = "opening";
    line->end = "end of life";
}

/* A girder line is square and straight. */
static const char *beyond(const Bridge *b, Arena *arena)
{
    const bool skewed = b->deck.skew_degrees != 0, curved = !isnan(b->deck.plan_radius_m);
    if (!skewed && !curved) return NULL;
    return arena_printf(
        arena, "%s%s%s: judged as if square and straight; see clench panels",
        skewed ? arena_printf(arena, "skew of %.3g degrees", fabs(b->deck.skew_degrees)) : "",
        skewed && curved ? " and " : "", curved ? "curve in plan" : "");
}

static Status make_line(const Unit *unit, bool exterior, const Mesh *mesh, const WayWish *wish,
                        Arena *arena, BridgeLine *line, Error *err)
{
    const Bridge *b = unit->bridge;
    const GirderData *g = &b->girders;
    Builder *m = ARENA_NEW(arena, Builder, 1);
    m->bridge = b;
    m->unit = unit;
    m->arena = arena;
    m->mesh = *mesh;
    m->exterior = exterior;
    m->wish = *wish;
    m->width_m = exterior ? g->spacing_m / 2 + g->overhang_m : g->spacing_m;
    m->thickness_m = b->deck.thickness_m - b->deck.wearing_m;
    TRY(model_pieces(m, err));
    TRY(way_start(m, err));
    model_materials(m);
    model_parts(m);
    TRY(model_supports(m, err));
    model_links(m);
    if (wish->way == WAY_THRUST) set_gap(m);
    *line = (BridgeLine){.name = exterior ? "exterior line" : "interior line",
                         .unit = unit->name,
                         .beyond = beyond(b, arena),
                         .start_m = unit->start_m,
                         .width_m = m->width_m,
                         .rule = model_rules(b, arena),
                         .rule_count = JOINT_RULE_COUNT,
                         .cold = gradient_of(m, true),
                         .warm = gradient_of(m, false)};
    /* 100 psi at least: a guess to start from, whatever the rules ask */
    const double guess_Pa = fmax(1.5 * b->criteria.average_Pa, 0.7e6);
    line->first_guess_N = guess_Pa * m->width_m * m->thickness_m;
    model_events(m, line->first_guess_N);
    line->model = raw_model(m);
    Joint *joint = set_joints(m, line);
    set_strength(m, line);
    set_moments(line);
    TRY(model_live(m, line, err));
    if (wish->way == WAY_THRUST) model_limits(m, line);
    way_dress(m, line, joint);
    return STATUS_OK;
}

Status bridge_lines(const Bridge *bridge, int fineness, Arena *arena, const BridgeLine **line,
                    int *line_count, Error *err)
{
    const WayWish wish = {WAY_THRUST, 0, fineness};
    return bridge_way_lines(bridge, &wish, arena, line, line_count, err);
}

Status bridge_way_lines(const Bridge *bridge, const WayWish *wish, Arena *arena,
                        const BridgeLine **line, int *line_count, Error *err)
{
    Unit *unit;
    int unit_count = 0, count = 0;
    TRY(layout_units(bridge, arena, &unit, &unit_count, err));
    if (2 * unit_count > LINES_MAX) {
        bridge_refuse(bridge, err, "spans[1].length",
                      "%d different structural units: at most %d can be judged at once", unit_count,
                      LINES_MAX / 2);
        if (err) err->status = STATUS_TOO_LARGE;
        return STATUS_TOO_LARGE;
    }
    BridgeLine *made = ARENA_NEW(arena, BridgeLine, 2 * unit_count);
    for (int u = 0; u < unit_count; u++) {
        Mesh mesh;
        TRY(layout_mesh(&unit[u], wish, arena, &mesh, err));
        if (bridge->girders.count > 2)
            TRY(make_line(&unit[u], false, &mesh, wish, arena, &made[count++], err));
        TRY(make_line(&unit[u], true, &mesh, wish, arena, &made[count++], err));
    }
    *line = made;
    *line_count = count;
    return STATUS_OK;
}
