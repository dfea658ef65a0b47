/* The linear structure of one moment: parts alive with the moduli of that day, links as they stand. */
#include "structure.h"
#include "march.h"

#include <math.h>
#include <string.h>

static double modulus_on(const Material *law, double day)
{
    if (law->kind != MATERIAL_CONCRETE) return law->E_Pa;
    return concrete_modulus_Pa(&law->mix, day - law->cast_day);
}

/* Links at rest: bonded ones hold, pressing shims hold by friction, open ones do not. A structure in
 * service is bonded everywhere. */
static void add_links(StageStructure *s, const LinkState *state)
{
    const StageModel *model = s->history->model;
    const LinkArms arms = {0.5 * model->deck_thickness_m, model->haunch_m};
    for (int i = 0; i < model->station_count; i++) {
        const Link *link = &model->link[i];
        if (state[i].state == LINK_BONDED)
            frame_add_link(s->frame, arms, i, link->bond_horizontal_N_per_m, 0,
                           link->bond_vertical_N_per_m);
        else if (state[i].state == LINK_STICK || state[i].state == LINK_SLIDE)
            frame_add_link(s->frame, arms, i,
                           state[i].state == LINK_STICK ? link->shim_horizontal_N_per_m : 0, 0,
                           link->shim_vertical_N_per_m);
    }
}

static void add_supports(StageStructure *s, int time)
{
    const StageModel *model = s->history->model;
    for (int k = 0; k < model->support_count; k++) {
        const Support *support = &model->support[k];
        s->supported[k] = support->from_phase < 0;
        for (int t = 0; t <= time; t++) {
            const int e = s->history->event[t];
            if (e < 0 || model->event[e].kind != EVENT_BIRTH) continue;
            if (model->event[e].phase == support->from_phase) s->supported[k] = true;
            if (model->event[e].phase == support->to_phase) s->supported[k] = false;
        }
        if (s->supported[k])
            frame_add_spring(s->frame, support->station, -support->below_top_m,
                             support->horizontal_N_per_m, support->vertical_N_per_m);
    }
}

static void find_parts(StageStructure *s)
{
    const StageModel *model = s->history->model;
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        s->place[p] = part_place(model, part);
        if (!s->alive[p]) continue;
        s->there[2 * part->element + (int)part->chain] = 1;
        s->there[2 * part->element + 2 + (int)part->chain] = 1;
        s->E_Pa[p] = modulus_on(&model->material[part->material], s->day);
    }
}

static void add_parts(StageStructure *s)
{
    const StageModel *model = s->history->model;
    for (int p = 0; p < model->part_count; p++) {
        if (!s->alive[p] || s->E_Pa[p] == 0) continue;
        const PartSection *section = &model->section[model->part[p].section];
        part_add(s->frame, &model->part[p], &s->place[p], s->E_Pa[p] * section->area_m2,
                 s->E_Pa[p] * section->inertia_m4);
    }
}

/* Jacks that are locked at that moment hold the gap. Without a stiffness they are not there. */
static void add_struts(StageStructure *s)
{
    const StageModel *model = s->history->model;
    for (int g = 0; g < model->gap_count; g++) {
        bool locked = false;
        for (int t = 0; t <= s->time; t++) {
            const int e = s->history->event[t];
            if (e < 0 || model->event[e].gap != g) continue;
            const EventKind kind = model->event[e].kind;
            if (kind == EVENT_LOCK) locked = true;
            if (kind == EVENT_RELEASE || kind == EVENT_JACK) locked = false;
        }
        const Gap *gap = &model->gap[g];
        const Strut strut = {gap->left_station, gap->right_station, gap->jack_above_mid_m,
                             gap->strut_N_per_m};
        if (locked) frame_add_strut(s->frame, &strut);
    }
}

static Status factor(StageStructure *s, Error *err)
{
    const StageModel *model = s->history->model;
    frame_clear(s->frame);
    add_parts(s);
    add_links(s, s->history->link + (size_t)s->time * (size_t)model->station_count);
    add_supports(s, s->time);
    add_struts(s);
    for (int i = 0; i < model->station_count; i++)
        for (int c = 0; c < 2; c++)
            if (!s->there[2 * i + c]) frame_hold_node(s->frame, i, c);
    return frame_factor(s->frame, model->x_m, err);
}

void structure_load(const StageStructure *s, double live_N_per_m, double *right)
{
    const StageModel *model = s->history->model;
    const double *x = model->x_m;
    const int last = model->station_count - 1;
    memset(right, 0, sizeof(double) * (size_t)s->frame->n);
    for (int i = 0; i <= last; i++) {
        const double length = 0.5 * (x[i < last ? i + 1 : last] - x[i > 0 ? i - 1 : 0]);
        right[frame_unknown(i, s->there[2 * i + CHAIN_DECK] ? 1 : 0, 1)] = -live_N_per_m * length;
    }
}

/* A strip's share of its stiffness under the change of strain d that the live load brings:
 * [min(z + d, 0) - min(z, 0)]/d, z = N/EA + gape before. Returns the largest change of a share. */
static double take_secants(StageStructure *s, const double *x, const double *E_full)
{
    const StageModel *model = s->history->model;
    double largest = 0;
    for (int p = 0; p < model->part_count; p++) {
        if (!s->alive[p] || !model->part[p].compression_only) continue;
        const double EA = E_full[p] * model->section[model->part[p].section].area_m2;
        const double z = s->force[p].N / EA + s->gape_1[p];
        const double d = frame_bar_strain(&s->place[p], x).axial_1;
        const double carried = fmin(z + d, 0) - fmin(z, 0);
        const double share = fabs(d) > 1e-15 ? carried / d : z < 0;
        const double mixed = 0.5 * (share + s->E_Pa[p] / E_full[p]); /* half steps: no cycling */
        largest = fmax(largest, fabs(mixed - s->E_Pa[p] / E_full[p]));
        s->E_Pa[p] = mixed < 1e-6 ? 0 : mixed * E_full[p];
    }
    return largest;
}

enum { SECANT_ROUNDS = 60 };
static const double secant_settled_1 = 1e-4;

static Status find_secants(StageStructure *s, double live_N_per_m, Arena *arena, Error *err)
{
    const size_t parts = (size_t)s->history->model->part_count;
    const size_t mark = arena_mark(arena);
    double *E_full = ARENA_NEW(arena, double, parts), *x = ARENA_NEW(arena, double, s->frame->n);
    memcpy(E_full, s->E_Pa, parts * sizeof(double));
    for (int round = 0; round < SECANT_ROUNDS; round++) {
        structure_load(s, live_N_per_m, x);
        frame_solve(s->frame, x, 1);
        const double moved = take_secants(s, x, E_full);
        TRY(factor(s, err));
        if (moved < secant_settled_1) break;
    }
    arena_reset(arena, mark);
    return STATUS_OK;
}

static StageStructure *start(const StageHistory *history, int time, Arena *arena)
{
    const StageModel *model = history->model;
    const size_t parts = (size_t)model->part_count, t = (size_t)time;
    StageStructure *s = ARENA_NEW(arena, StageStructure, 1);
    s->history = history;
    s->time = time;
    s->day = history->day[time];
    s->alive = history->alive + t * parts;
    s->force = history->force + t * parts;
    s->gape_1 = history->gape_1 ? history->gape_1 + t * parts : NULL;
    s->frame = frame_new(model->station_count, arena);
    s->place = ARENA_NEW(arena, BarPlace, model->part_count);
    s->E_Pa = ARENA_NEW(arena, double, model->part_count);
    s->there = ARENA_NEW(arena, unsigned char, 2 * model->station_count);
    s->supported = ARENA_NEW(arena, bool, model->support_count);
    find_parts(s);
    return s;
}

Status stage_structure_loose(const StageHistory *history, int time, Arena *arena,
                             const StageStructure **structure, Error *err)
{
    StageStructure *s = start(history, time, arena);
    for (int p = 0; p < history->model->part_count; p++)
        if (history->model->part[p].compression_only) s->E_Pa[p] = 0;
    TRY(factor(s, err));
    *structure = s;
    return STATUS_OK;
}

Status stage_structure(const StageHistory *history, int time, double live_N_per_m, Arena *arena,
                       const StageStructure **structure, Error *err)
{
    StageStructure *s = start(history, time, arena);
    TRY(factor(s, err));
    if (s->gape_1) TRY(find_secants(s, live_N_per_m, arena, err));
    *structure = s;
    return STATUS_OK;
}
