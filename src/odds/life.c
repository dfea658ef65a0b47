/* One life: the line's model with the inputs of a draw, run through its stages and judged. */
#include <math.h>
#include <string.h>

#include "clench/odds.h"

typedef struct Draw {
    double factor[ODDS_COUNT];
} Draw;

/* ---- the model of a life ---- */

static double jacking_day(const StageModel *model)
{
    for (int e = 0; e < model->event_count; e++)
        if (model->event[e].kind == EVENT_JACK) return model->event[e].day;
    return NAN;
}

/* First day on which a part of the material is there: it must have an age then. */
static double first_day(const StageModel *model, int material)
{
    double day = INFINITY;
    for (int p = 0; p < model->part_count; p++) {
        if (model->part[p].material != material) continue;
        for (int e = 0; e < model->event_count; e++)
            if (model->event[e].phase == model->part[p].phase &&
                (model->event[e].kind == EVENT_BIRTH || model->event[e].kind == EVENT_TENDON))
                day = fmin(day, model->event[e].day);
    }
    return day;
}

static bool of_deck(const StageModel *model, int material)
{
    for (int p = 0; p < model->part_count; p++)
        if (model->part[p].material == material && model->part[p].chain == CHAIN_DECK) return true;
    return false;
}

static void change_concrete(const Draw *draw, bool deck, ConcreteMix *mix)
{
    const double *f = draw->factor;
    const double modulus_Pa =
        mix->modulus28_Pa > 0 ? mix->modulus28_Pa : concrete_modulus_Pa(mix, 28);
    mix->creep_factor_1 *= f[deck ? ODDS_CREEP_DECK : ODDS_CREEP_GIRDER];
    mix->shrinkage_factor_1 *= f[deck ? ODDS_SHRINKAGE_DECK : ODDS_SHRINKAGE_GIRDER];
    mix->modulus28_Pa = modulus_Pa * f[deck ? ODDS_MODULUS_DECK : ODDS_MODULUS_GIRDER];
    mix->humidity_ratio = fmin(0.99, fmax(0.2, 1 - (1 - mix->humidity_ratio) * f[ODDS_DRYING]));
}

/* Panels older or younger when jacked: cast earlier or later, never after they are needed. */
static double cast_day(const StageModel *model, int material, double factor)
{
    const Material *m = &model->material[material];
    const double jacked = jacking_day(model), age = jacked - m->cast_day;
    if (!(age > 0) || !of_deck(model, material)) return m->cast_day;
    const double there = first_day(model, material);
    const double latest = there - fmin(1, there - m->cast_day);
    return fmin(jacked - age * factor, latest);
}

static const Material *materials(const StageModel *model, const Draw *draw, Arena *arena)
{
    Material *out = ARENA_NEW(arena, Material, model->material_count);
    memcpy(out, model->material, sizeof *out * (size_t)model->material_count);
    for (int m = 0; m < model->material_count; m++) {
        if (out[m].kind != MATERIAL_CONCRETE) continue;
        out[m].cast_day = cast_day(model, m, draw->factor[ODDS_AGE]);
        change_concrete(draw, of_deck(model, m), &out[m].mix);
    }
    return out;
}

static double load_factor(const Event *event, const Draw *draw)
{
    if (event->kind != EVENT_LOAD) return 1;
    if (event->cause == CAUSE_WEIGHT && event->on_deck) return draw->factor[ODDS_WEIGHT_DECK];
    if (event->cause == CAUSE_CLOSURE || event->cause == CAUSE_SUPERIMPOSED)
        return draw->factor[ODDS_WEIGHT_LATER];
    return 1;
}

static const Event *events(const StageModel *model, const Draw *draw, Arena *arena)
{
    Event *out = ARENA_NEW(arena, Event, model->event_count);
    memcpy(out, model->event, sizeof *out * (size_t)model->event_count);
    for (int e = 0; e < model->event_count; e++)
        out[e].line_load_N_per_m *= load_factor(&out[e], draw);
    return out;
}

static const Link *links(const StageModel *model, const Draw *draw, Arena *arena)
{
    Link *out = ARENA_NEW(arena, Link, model->station_count);
    memcpy(out, model->link, sizeof *out * (size_t)model->station_count);
    for (int s = 0; s < model->station_count; s++) out[s].friction_1 *= draw->factor[ODDS_FRICTION];
    return out;
}

static const JointRule *rules(const BridgeLine *line, const Draw *draw, Arena *arena)
{
    JointRule *out = ARENA_NEW(arena, JointRule, line->rule_count + 1);
    memcpy(out, line->rule, sizeof *out * (size_t)line->rule_count);
    for (int r = 0; r < line->rule_count; r++) {
        out[r].live_1 *= draw->factor[ODDS_LIVE];
        out[r].wheel_1 *= draw->factor[ODDS_LIVE];
        out[r].gradient_1 *= draw->factor[ODDS_GRADIENT];
    }
    return out;
}

static const BridgeLine *drawn(const BridgeLine *line, const Draw *draw, Arena *arena)
{
    BridgeLine *out = ARENA_NEW(arena, BridgeLine, 1);
    *out = *line;
    out->model.material = materials(&line->model, draw, arena);
    out->model.event = events(&line->model, draw, arena);
    out->model.link = links(&line->model, draw, arena);
    out->rule = rules(line, draw, arena);
    return out;
}

/* ---- its judgement ---- */

/* As the standing of the joints has it: open beyond 1e-4 of the average stress. */
static void look_at_joint(const LineAnswer *answer, const OddsStudy *study, int joint,
                          float margin_Pa[ODDS_TIMES], float *open_day)
{
    const Moments *m = &answer->moments;
    const double *day = answer->history->day;
    const double open_Pa =
        -1e-4 * answer->thrust_N / (answer->line->width_m * answer->line->model.deck_thickness_m);
    double closed = 0; /* day at which it was still: between two times it opens at the earlier */
    int next = 0;      /* of the study's days; rounding must not pass the last one by */
    *open_day = INFINITY;
    for (int t = m->jacked; t <= m->end; t++) {
        const double margin = thrust_margin_Pa(answer, joint, t, NULL);
        const double after = day[t] - day[m->jacked];
        if (isnan(margin)) continue;
        if (margin < open_Pa && isinf(*open_day)) *open_day = (float)closed;
        if (!(margin < open_Pa)) closed = after;
        const bool last = t == m->end || day[t + 1] > day[t];
        while (last && t >= m->opening && next < ODDS_TIMES &&
               (t == m->end || study->after_day[next] <= after * (1 + 1e-9))) {
            margin_Pa[next] = fminf(margin_Pa[next], (float)margin);
            next++;
        }
    }
}

void odds_life(const OddsStudy *study, uint32_t index, Arena *arena, Arena *scratch, OddsLife *life,
               float *open_day)
{
    const size_t mark = arena_mark(arena), scratch_mark = arena_mark(scratch);
    const ThrustAnswer *design = study->design;
    Draw draw;
    Error err = {0};
    *life = (OddsLife){0};
    for (int k = 0; k < ODDS_TIMES; k++) life->margin_Pa[k] = INFINITY;
    for (int id = 0; id < ODDS_COUNT; id++)
        draw.factor[id] = odds_factor_1(study, index, (OddsId)id);
    int first = 0;
    for (int k = 0; k < design->line_count && !life->failed; k++) {
        const BridgeLine *line = drawn(design->line[k].line, &draw, arena);
        const double thrust_N = study->thrust_N * line->share_1 * draw.factor[ODDS_FORCE];
        LineAnswer answer;
        life->trouble =
            thrust_life(line, thrust_N, &study->settings, arena, scratch, &answer, &err);
        life->failed = life->trouble != STATUS_OK;
        if (!life->failed) {
            for (int j = 0; j < line->joint_count; j++)
                look_at_joint(&answer, study, j, life->margin_Pa, &open_day[first + j]);
            life->need_N =
                fmax(life->need_N, answer.need_N / line->share_1 / draw.factor[ODDS_FORCE]);
        }
        first += line->joint_count;
        arena_reset(arena, mark);
        arena_reset(scratch, scratch_mark);
    }
    if (!life->failed) return;
    life->need_N = INFINITY;
    for (int k = 0; k < ODDS_TIMES; k++) life->margin_Pa[k] = NAN;
    for (int j = 0; j < study->joint_count; j++) open_day[j] = 0;
}
