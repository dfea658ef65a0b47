/* What each kind of event changes before its step is solved. Equilibrium does the rest: nothing is
 * moved here by formula, no force is reset but that of what is taken out. */
#include <math.h>

#include "march.h"

static Status misplaced(const Event *event, const char *why, Error *err)
{
    return error_set(err, STATUS_BAD_INPUT, "event '%s' on day %g: %s",
                     event->name ? event->name : "(no name)", event->day, why);
}

static void load_down(March *march, int station, int chain, double weight)
{
    march->load[frame_unknown(station, chain, 1)] -= weight;
}

static bool has_node(const March *march, int station, Chain chain)
{
    for (int p = 0; p < march->model->part_count; p++) {
        const Part *part = &march->model->part[p];
        if (march->alive[p] && part->chain == chain &&
            (part->element == station || part->element + 1 == station))
            return true;
    }
    return false;
}

/* ---- birth ---- */

/* Strands come with their tension, relaxed at constant strain since they were tensioned. */
static void birth_of_part(March *march, int p, double day)
{
    const Part *part = &march->model->part[p];
    const Material *law = &march->model->material[part->material];
    march->alive[p] = 1;
    march->force[p] = (PartForce){0};
    const double initial = part->initial_Pa > 0 ? part->initial_Pa : law->initial_Pa;
    if (law->kind != MATERIAL_STRAND || initial <= 0) return;
    if (law->fpy_Pa > 0)
        march->relaxed_Pa[p] =
            strand_relaxation_Pa(initial, law->fpy_Pa, 0, day - law->tension_day);
    march->force[p].N =
        march->model->section[part->section].area_m2 * (initial - march->relaxed_Pa[p]);
}

static Status birth(March *march, const Event *event, Error *err)
{
    const StageModel *model = march->model;
    for (int p = 0; p < model->part_count; p++) {
        if (model->part[p].phase != event->phase || march->alive[p]) continue;
        const Material *law = &model->material[model->part[p].material];
        if (law->kind == MATERIAL_CONCRETE && event->day <= law->cast_day)
            return error_set(err, STATUS_BAD_INPUT,
                             "event '%s' on day %g: '%s' is cast on day %g and cannot carry before",
                             event->name ? event->name : "(no name)", event->day, law->name,
                             law->cast_day);
        birth_of_part(march, p, event->day);
    }
    for (int s = 0; s < model->support_count; s++) {
        if (model->support[s].from_phase == event->phase) march->support[s].active = true;
        if (model->support[s].to_phase == event->phase) march->support[s] = (SupportState){0};
    }
    return STATUS_OK;
}

/* ---- loads ---- */

static double tributary(const StageModel *model, int station, int from, int to)
{
    double length = 0;
    if (station > from) length += 0.5 * (model->x_m[station] - model->x_m[station - 1]);
    if (station < to) length += 0.5 * (model->x_m[station + 1] - model->x_m[station]);
    return length;
}

static Status line_load(March *march, const Event *event, Error *err)
{
    for (int i = event->from_station; i <= event->to_station; i++) {
        const double weight = event->line_load_N_per_m *
                              tributary(march->model, i, event->from_station, event->to_station);
        if (!has_node(march, i, (Chain)event->chain))
            return misplaced(event,
                             event->chain == CHAIN_DECK ? "the deck does not carry yet"
                                                        : "the girder does not carry yet",
                             err);
        load_down(march, i, event->chain, weight);
        if (event->chain == CHAIN_GIRDER && event->on_deck) march->deck_weight_N[i] += weight;
    }
    return STATUS_OK;
}

/* ---- links ---- */

/* The deck's weight goes from the girder to the deck chain and comes back through the shims: in
 * balance from the start, the deck free of stress. */
static void rest_on_shims(March *march)
{
    for (int i = 0; i < march->model->station_count; i++) {
        if (march->shim[i].now.state != LINK_NONE || !has_node(march, i, CHAIN_DECK)) continue;
        const double weight = march->deck_weight_N[i];
        load_down(march, i, CHAIN_GIRDER, -weight);
        load_down(march, i, CHAIN_DECK, weight);
        march->deck_weight_N[i] = 0;
        march->shim[i] = (ShimState){
            .now = {.V_N = -weight, .state = LINK_STICK},
            .capacity_N = march->model->link[i].friction_1 * weight,
            .friction = march->model->link[i].friction_1 > 0,
        };
    }
}

static void rest_without_load(March *march, const Event *event)
{
    for (int i = event->from_station; i <= event->to_station; i++)
        if (march->shim[i].now.state == LINK_NONE && has_node(march, i, CHAIN_DECK))
            march->shim[i] = (ShimState){.now = {.state = LINK_SLIDE}};
}

static void bond(March *march, const Event *event)
{
    for (int i = event->from_station; i <= event->to_station; i++)
        if (has_node(march, i, CHAIN_DECK)) march->shim[i].now.state = LINK_BONDED;
}

/* ---- jacks ---- */

static void push(March *march, int g, double force)
{
    const Gap *gap = &march->model->gap[g];
    const Strut line = {gap->left_station, gap->right_station, gap->jack_above_mid_m, 0};
    frame_strut_force(&line, force, march->load);
}

static void jack(March *march, const Event *event, double part)
{
    GapState *gap = &march->gap[event->gap];
    if (gap->locked) { /* the jacks take over from their locks: jacking again */
        gap->locked = false;
        gap->jack_N = gap->strut_N;
        gap->strut_N = 0;
        push(march, event->gap, gap->jack_N);
    }
    gap->jacked_once = true;
    const double share = 1.0 / (event->steps > 1 ? event->steps : 1);
    const double more = (event->thrust_N - gap->jack_N) * share / (1 - (part - share));
    push(march, event->gap, more);
    gap->jack_N += more;
}

static void lock(March *march, int g)
{
    GapState *gap = &march->gap[g];
    push(march, g, -gap->jack_N);
    gap->strut_N = gap->jack_N;
    gap->jack_N = 0;
    gap->locked = true;
}

static void release(March *march, int g)
{
    GapState *gap = &march->gap[g];
    push(march, g, -gap->jack_N);
    gap->jack_N = gap->strut_N = 0;
    gap->locked = false;
}

/* ---- tendons in ducts: first a load on the chain, then bonded ---- */

static void tendon(March *march, const Step *step, const Event *event)
{
    const StageModel *model = march->model;
    const double share = 1.0 / (event->steps > 1 ? event->steps : 1);
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (part->phase != event->phase) continue;
        const double initial =
            part->initial_Pa > 0 ? part->initial_Pa : model->material[part->material].initial_Pa;
        const double force = initial * model->section[part->section].area_m2;
        if (!step->last) { /* pulled, free in its duct */
            frame_bar_force(&march->place[p], -force * share, 0, 0, march->load);
            continue;
        }
        march->alive[p] = 1; /* bonded with the force that it has */
        march->force[p] = (PartForce){.N = force};
        frame_bar_force(&march->place[p], force, 0, 0, march->load);
    }
}

static void warm(March *march, const Event *event, double *strut_change)
{
    const StageModel *model = march->model;
    if (event->chain < 0) {
        const Gap *gap = &model->gap[event->gap];
        strut_change[event->gap] =
            gap->strut_N_per_m * gap->strut_expansion_m_per_K * event->change_K;
        return;
    }
    for (int p = 0; p < model->part_count; p++)
        if (march->alive[p] && (int)model->part[p].chain == event->chain && !model->part[p].shear)
            march->free.temperature[p].axial_1 =
                model->material[model->part[p].material].expansion_per_K * event->change_K;
}

Status event_apply(March *march, const Step *step, double strut_change[FRAME_STRUTS], Error *err)
{
    const Event *event = &march->model->event[step->event];
    switch (event->kind) {
    case EVENT_BIRTH: return birth(march, event, err);
    case EVENT_LOAD: return line_load(march, event, err);
    case EVENT_SHIMS: rest_on_shims(march); break;
    case EVENT_SHIMS_EMPTY: rest_without_load(march, event); break;
    case EVENT_BOND: bond(march, event); break;
    case EVENT_JACK: jack(march, event, step->part_1); break;
    case EVENT_LOCK: lock(march, event->gap); break;
    case EVENT_RELEASE: release(march, event->gap); break;
    case EVENT_TENDON: tendon(march, step, event); break;
    case EVENT_TEMPERATURE: warm(march, event, strut_change); break;
    case EVENT_NOTE: break;
    }
    return STATUS_OK;
}
