/* The ways to connect the panels without jacks: pours, tendons, what happens until deck and girders are
 * one, and by what their joints are judged. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "model.h"
#include "read.h"

const char *way_name(Way way)
{
    static const char *const name[] = {
#define X(id, name, called) name,
        WAY_LIST(X)
#undef X
    };
    return name[way];
}

const char *way_called(Way way)
{
    static const char *const called[] = {
#define X(id, name, called) called,
        WAY_LIST(X)
#undef X
    };
    return called[way];
}

int bridge_tendons(const Bridge *bridge) { return bridge->ways.tendon.count; }

/* ---- pours of a cast deck ---- */

/* What of the given pours lies in the unit. */
static int pours_given(const Unit *unit, Pour *pour)
{
    const CastData *cast = &unit->bridge->ways.cast;
    const PourData *given = cast->pours.item;
    int count = 0;
    for (int i = 0; i < cast->pours.count && count < POURS_MAX; i++) {
        const double from_m = fmax(given[i].from_m - unit->start_m, 0);
        const double to_m = fmin(given[i].to_m - unit->start_m, unit->length_m);
        if (to_m > from_m)
            pour[count++] = (Pour){from_m, to_m, cast->first_day + i * cast->between_day};
    }
    return count;
}

/* A quarter of a span to both sides of a pier is cast last, when the weight beside it hangs on the
 * girders already: fewer cracks over the pier. Common practice, no source. */
static int pours_usual(const Unit *unit, Pour *pour)
{
    const CastData *cast = &unit->bridge->ways.cast;
    const double *at_m = unit->support_m;
    const int last = unit->span_count;
    int count = 0;
    for (int k = 0; k < last; k++) {
        const double quarter_m = (at_m[k + 1] - at_m[k]) / 4;
        pour[count] = (Pour){k > 0 ? at_m[k] + quarter_m : 0,
                             k + 1 < last ? at_m[k + 1] - quarter_m : unit->length_m,
                             cast->first_day + count * cast->between_day};
        count++;
    }
    for (int k = 1; k < last; k++, count++)
        pour[count] =
            (Pour){at_m[k] - (at_m[k] - at_m[k - 1]) / 4, at_m[k] + (at_m[k + 1] - at_m[k]) / 4,
                   cast->first_day + count * cast->between_day};
    return count;
}

static int pours_of(const Unit *unit, Pour *pour)
{
    return unit->bridge->ways.cast.pours.count ? pours_given(unit, pour) : pours_usual(unit, pour);
}

/* Together they cover the deck once. */
static Status pours_check(const Builder *m, Error *err)
{
    static const double same_m = 0.005;
    double end_m = 0;
    while (end_m < m->unit->length_m - same_m) {
        int next = -1;
        for (int i = 0; i < m->pour_count; i++)
            if (fabs(m->pour[i].from_m - end_m) < same_m) next = i;
        if (next < 0)
            return bridge_refuse(m->bridge, err, "ways.cast.pours",
                                 "no pour begins %.4g ft from the left end of %s, or two overlap: "
                                 "together the pours must cover the deck once",
                                 quantity_in(end_m, "ft"), m->unit->name);
        end_m = m->pour[next].to_m;
    }
    double sum_m = 0;
    for (int i = 0; i < m->pour_count; i++) sum_m += m->pour[i].to_m - m->pour[i].from_m;
    if (sum_m > m->unit->length_m + m->pour_count * same_m)
        return bridge_refuse(m->bridge, err, "ways.cast.pours",
                             "the pours in %s overlap: together they must cover the deck once",
                             m->unit->name);
    return STATUS_OK;
}

static Status start_pours(Builder *m, Error *err)
{
    const CastData *cast = &m->bridge->ways.cast;
    Pour *pour = ARENA_NEW(m->arena, Pour, POURS_MAX);
    m->pour_count = pours_of(m->unit, pour);
    m->pour = pour;
    TRY(pours_check(m, err));
    m->composite_day = -INFINITY;
    for (int i = 0; i < m->pour_count; i++)
        m->composite_day =
            fmax(m->composite_day, pour[i].day + fmax(cast->active_day, cast->cure_day));
    if (cast->first_day < m->bridge->days.girders_ready)
        return bridge_refuse(m->bridge, err, "ways.cast.first|days.girders_ready",
                             "the deck is cast before the girders are ready");
    return STATUS_OK;
}

/* ---- tendons ---- */

/* Groups that are stressed one after the other: each shortens the deck under those before it. */
enum { GROUPS_MAX = 8 };

/* Straight in the deck: they turn as its crest and its curve in plan do, both at once at worst. */
static TendonPath path_of(const Unit *unit, Arena *arena)
{
    const DeckData *deck = &unit->bridge->deck;
    const double crest = isnan(deck->crest_m) ? 0 : 1 / deck->crest_m;
    const double plan = isnan(deck->plan_radius_m) ? 0 : 1 / deck->plan_radius_m;
    double *x_m = ARENA_NEW(arena, double, 2), *turn_rad = ARENA_NEW(arena, double, 2);
    x_m[1] = unit->length_m;
    turn_rad[1] = unit->length_m * hypot(crest, plan);
    return (TendonPath){2, x_m, turn_rad};
}

static Status start_tendons(Builder *m, Error *err)
{
    const TendonData *t = &m->bridge->ways.tendon;
    LineTendons *line = ARENA_NEW(m->arena, LineTendons, 1);
    const int count = m->wish.tendons > 0 ? m->wish.tendons : t->count;
    const int pulls = (count + t->at_once - 1) / t->at_once;
    assert(count > 0);
    *line = (LineTendons){.count = count,
                          .groups = pulls < GROUPS_MAX ? pulls : GROUPS_MAX,
                          .area_m2 = count * t->strands * t->strand_area_m2 * m->width_m /
                                     m->bridge->deck.width_m,
                          .strength_Pa = t->strength_Pa,
                          .yield_Pa = t->yield_Pa,
                          .above_mid_m = t->above_mid_m,
                          .pull = {.jack_Pa = t->jacking_Pa,
                                   .modulus_Pa = t->modulus_Pa,
                                   .wobble_per_m = t->wobble_per_m,
                                   .friction_1 = t->friction_1,
                                   .set_m = t->set_m,
                                   .left = t->pulled != PULLED_RIGHT,
                                   .right = t->pulled != PULLED_LEFT},
                          .path = path_of(m->unit, m->arena)};
    line->seat = tendon_seat(&line->pull, &line->path);
    line->stretch_m = tendon_stretch_m(&line->pull, &line->path);
    m->tendons = line;
    m->composite_day =
        fmax(m->composite_day, m->bridge->days.joints + t->stress_day + t->grout_day);
    if (line->seat.slack)
        return bridge_refuse(m->bridge, err, "ways.tendon.anchor_set",
                             "the draw-in of the wedges takes all stress from the tendons of %s, "
                             "which are %.4g ft long",
                             m->unit->name, quantity_in(m->unit->length_m, "ft"));
    return STATUS_OK;
}

Status way_start(Builder *m, Error *err)
{
    const DayData *days = &m->bridge->days;
    m->composite_day = days->haunch;
    if (m->wish.way == WAY_CAST) TRY(start_pours(m, err));
    if (m->wish.way == WAY_TENDON) TRY(start_tendons(m, err));
    if (m->wish.way == WAY_UHPC)
        m->composite_day = fmax(days->haunch, days->joints + m->bridge->ways.uhpc.active_day);
    if (m->composite_day < days->end) return STATUS_OK;
    return bridge_refuse(m->bridge, err, "days.end",
                         "with %s the deck is one with the girders on day %.6g: the life must end "
                         "after it",
                         way_called(m->wish.way), m->composite_day);
}

/* ---- stations ---- */

int way_places(const Unit *unit, Way way, double *x_m)
{
    int count = 0;
    if (way == WAY_UHPC) {
        const double half_m = unit->bridge->ways.uhpc.width_m / 2;
        for (int j = 0; j < layout_joint_count(unit); j++) {
            x_m[count++] = layout_joint_m(unit, j) - half_m;
            x_m[count++] = layout_joint_m(unit, j) + half_m;
        }
    }
    if (way != WAY_CAST) return count;
    Pour pour[POURS_MAX];
    const int pours = pours_of(unit, pour);
    for (int i = 0; i < pours; i++) {
        x_m[count++] = pour[i].from_m;
        x_m[count++] = pour[i].to_m;
    }
    return count;
}

/* ---- events ---- */

void way_tendons(Builder *m)
{
    const TendonData *t = &m->bridge->ways.tendon;
    const double day = m->bridge->days.joints + t->stress_day;
    for (int k = 0; k < m->tendons->groups; k++) {
        const bool last = k + 1 == m->tendons->groups;
        Event *event =
            model_add_event(m, day, EVENT_TENDON, CAUSE_THRUST, last ? "tendons stressed" : NULL);
        event->phase = (int)PHASE_TENDON + k;
    }
    model_add_event(m, day + t->grout_day, EVENT_NOTE, CAUSE_WEIGHT, "ducts grouted");
}

/* Each pour lies wet on the girders, and on what has hardened before; its formwork comes off when the
 * last one is cured. */
void way_pours(Builder *m)
{
    const CastData *cast = &m->bridge->ways.cast;
    const double forms = cast->forms_Pa * m->width_m;
    int first = 0, last = 0;
    for (int i = 0; i < m->pour_count; i++) {
        if (m->pour[i].day < m->pour[first].day) first = i;
        if (m->pour[i].day >= m->pour[last].day) last = i;
    }
    for (int i = 0; i < m->pour_count; i++) {
        const Pour *pour = &m->pour[i];
        const int from = mesh_near(&m->mesh, pour->from_m), to = mesh_near(&m->mesh, pour->to_m);
        const double hard_day = pour->day + cast->active_day;
        if (i == first)
            model_add_load(m, pour->day, CAUSE_WEIGHT, CHAIN_GIRDER, forms, 0, m->mesh.count - 1);
        model_add_load(m, pour->day, CAUSE_WEIGHT, CHAIN_GIRDER, model_deck_weight_N_per_m(m), from,
                       to);
        model_add_haunch(m, pour->day, CAUSE_WEIGHT, from, to);
        model_add_event(m, hard_day, EVENT_BIRTH, CAUSE_WEIGHT, NULL)->phase = (int)PHASE_POUR + i;
        Event *bond = model_add_event(m, hard_day, EVENT_BOND, CAUSE_WEIGHT,
                                      i == last    ? "deck hardened"
                                      : i == first ? "first pour hardened"
                                                   : NULL);
        bond->from_station = from;
        bond->to_station = to;
    }
    model_add_load(m, m->composite_day, CAUSE_WEIGHT, CHAIN_GIRDER, -forms, 0, m->mesh.count - 1);
}

/* ---- what the line is judged by ---- */

/* AASHTO LRFD 5.4.2.6 (from memory), sqrt in ksi. */
static double rupture_Pa(double strength_Pa)
{
    return 0.24 * sqrt(quantity_in(strength_Pa, "ksi")) / quantity_in(1, "ksi");
}

/* No compression is wanted: a crack counts, not an opening. */
static void cracking_rules(const Builder *m, BridgeLine *line)
{
    static const char clause[] =
        "modulus of rupture, AASHTO LRFD 5.4.2.6 (from memory), by analogy";
    JointRule *rule = ARENA_NEW(m->arena, JointRule, line->rule_count);
    memcpy(rule, line->rule, sizeof *rule * (size_t)line->rule_count);
    for (int r = 0; r < line->rule_count; r++) {
        if (rule[r].average) rule[r].counts = false;
        if (rule[r].average) continue;
        rule[r].limit_Pa = line->rupture_Pa;
        rule[r].clause = clause;
        if (rule[r].building) rule[r].name = "before opening";
    }
    line->rule = rule;
}

/* The faces of a UHPC joint are where panels crack; in it the stress is another. */
static void wide_joints(const Builder *m, const BridgeLine *line, Joint *joint)
{
    const double half_m = m->bridge->ways.uhpc.width_m / 2;
    for (int j = 0; j < line->joint_count; j++) {
        const double x_m = layout_joint_m(m->unit, j);
        joint[j].station = mesh_near(&m->mesh, x_m - half_m);
        joint[j].wide = mesh_near(&m->mesh, x_m + half_m) - joint[j].station;
    }
}

void way_dress(const Builder *m, BridgeLine *line, Joint *joint)
{
    static const char *const judged[WAY_COUNT] = {"jacked", "tendons stressed", "joints hardened",
                                                  "first pour hardened"};
    const Way way = m->wish.way;
    const bool cast = way == WAY_CAST;
    line->way = way;
    line->tendons = m->tendons;
    line->rupture_Pa = rupture_Pa(cast ? m->bridge->ways.cast.strength_Pa : line->deck_strength_Pa);
    if (way == WAY_THRUST) return;
    line->jacked = cast && m->pour_count == 1 ? "deck hardened" : judged[way];
    line->bonded = cast ? "deck hardened" : "haunches grouted";
    line->released = line->jacked;
    line->deck_strength_Pa = cast ? m->bridge->ways.cast.strength_Pa : line->deck_strength_Pa;
    for (int j = 0; j < line->joint_count; j++) {
        joint[j].at_gap = joint[j].at_anchor = false;
        if (way == WAY_UHPC) joint[j].away = 0;
    }
    if (way == WAY_UHPC) wide_joints(m, line, joint);
    if (way == WAY_UHPC || cast) cracking_rules(m, line);
}
