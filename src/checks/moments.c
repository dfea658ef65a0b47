/* Moments of the whole cross-section, taken apart by what happened at each time of the history: an
 * event of load is dead load or wearing surface; jacking, release, temperature, creep and shrinkage
 * give what is locked in. */
#include "moments.h"
#include "cite.h"
#include "values.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* What the parts of a gap's elements lack to balance along the bridge is the force of jacks or struts. */
static void add_jacks(const KitLine *k, const double *normal_N, double *moment)
{
    const StageModel *model = k->model;
    for (int g = 0; g < model->gap_count; g++) {
        const Gap *gap = &model->gap[g];
        const double up_m = model->haunch_m + model->deck_thickness_m / 2 + gap->jack_above_mid_m;
        for (int e = gap->left_station; e < gap->right_station; e++) {
            moment[2 * e + 1] += normal_N[e] * up_m;
            moment[2 * e + 2] += normal_N[e] * up_m;
        }
    }
}

/* Sum over the parts of M - N y, y above the girder top, for both sides of every station. All forces at
 * a cut balance, so the level does not matter. normal: room for a number a station. */
static void moments_at(const KitLine *k, int time, double *moment, double *normal_N)
{
    const StageModel *model = k->model;
    const double deck_m = model->haunch_m + model->deck_thickness_m / 2;
    const PartForce *force = k->history->force + (size_t)time * (size_t)model->part_count;
    memset(moment, 0, sizeof *moment * 2 * (size_t)model->station_count);
    memset(normal_N, 0, sizeof *normal_N * (size_t)model->station_count);
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (part->shear) continue;
        const double up_m = part->chain == CHAIN_DECK ? deck_m : 0;
        moment[2 * part->element + 1] +=
            force[p].M_from - force[p].N * (part->from_height_m + up_m);
        moment[2 * part->element + 2] += force[p].M_to - force[p].N * (part->to_height_m + up_m);
        normal_N[part->element] += force[p].N;
    }
    add_jacks(k, normal_N, moment);
}

const Event *moments_event(const StageHistory *h, int time)
{
    for (int t = time; t < h->time_count && h->day[t] <= h->day[time]; t++) {
        if (h->event[t] < 0) continue;
        const Event *event = &h->model->event[h->event[t]];
        const int steps = event->steps > 1 && event->kind == EVENT_JACK ? event->steps : 1;
        return t - time < steps ? event : NULL;
    }
    return NULL;
}

typedef enum Kind { KIND_DEAD, KIND_WEARING, KIND_LOCKED } Kind;

static Kind kind_of(const CheckCase *with, const Event *event)
{
    if (!event) return KIND_LOCKED;
    if (event->kind == EVENT_SHIMS || event->kind == EVENT_BOND) return KIND_DEAD;
    if (event->kind != EVENT_LOAD) return KIND_LOCKED;
    if (event->cause != CAUSE_SUPERIMPOSED) return KIND_DEAD;
    const double barrier = 2 * kit_value(with, "loads.barrier") / kit_value(with, "girders.count");
    const bool is_barrier = event->day <= kit_value(with, "days.barrier") &&
                            fabs(event->line_load_N_per_m - barrier) <= 1e-9 * barrier;
    return is_barrier ? KIND_DEAD : KIND_WEARING;
}

static void book(Kind kind, double change_Nm, KitMoment *moment)
{
    if (kind == KIND_DEAD)
        moment->dead_Nm += change_Nm;
    else if (kind == KIND_WEARING)
        moment->wearing_Nm += change_Nm;
    else
        moment->locked_end_Nm += change_Nm;
}

const KitMoment *moments_share(const CheckCase *with, const KitLine *k)
{
    const int n = 2 * k->model->station_count;
    KitMoment *moment = ARENA_NEW(with->arena, KitMoment, n);
    double *now = ARENA_NEW(with->arena, double, n), *then = ARENA_NEW(with->arena, double, n);
    double *normal_N = ARENA_NEW(with->arena, double, n);
    for (int t = 0; t <= k->end; t++) {
        moments_at(k, t, now, normal_N);
        const Kind kind = kind_of(with, moments_event(k->history, t));
        for (int i = 0; i < n; i++) {
            book(kind, now[i] - then[i], &moment[i]);
            if (t == k->bonded) moment[i].bare_Nm = moment[i].dead_Nm;
            if (t == k->opening) moment[i].locked_open_Nm = moment[i].locked_end_Nm;
            then[i] = now[i];
        }
    }
    for (int i = 0; i < n; i++) moment[i].live = live_moment(k->open_live, &k->line->live, i / 2);
    return moment;
}

double kit_weight_Nm(const KitLine *k, int time, int station)
{
    const StageModel *model = k->model;
    const double deck_m = model->haunch_m + model->deck_thickness_m / 2;
    const PartForce *force = k->history->force + (size_t)time * (size_t)model->part_count;
    double sum = 0;
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (part->element != station || part->shear) continue;
        sum += force[p].M_from -
               force[p].N * (part->from_height_m + (part->chain == CHAIN_DECK ? deck_m : 0));
    }
    return sum;
}

/* ---- strength ---- */

typedef struct Factored {
    double dead_1, wearing_1, locked_1, live_1;
    double locked_Nm, live_Nm; /* the worse of opening and end; one lane */
} Factored;

/* Least factor on wearing surfaces: AASHTO LRFD table 3.4.1-2 (from memory). */
static const double wearing_least_1 = 0.65;

static const char *dead_path(const KitMoment *m, int sign)
{
    return sign * m->dead_Nm > 0 ? "criteria.strength_dead" : "criteria.relief";
}

static const char *locked_path(double locked_Nm, int sign)
{
    return sign * locked_Nm > 0 ? "criteria.locked" : "criteria.locked_relief";
}

static Factored factored(const CheckCase *with, const KitMoment *m, int sign)
{
    Factored f;
    f.dead_1 = kit_value(with, dead_path(m, sign));
    f.wearing_1 =
        sign * m->wearing_Nm > 0 ? kit_value(with, "criteria.strength_wearing") : wearing_least_1;
    f.live_1 = kit_value(with, "criteria.strength_live");
    f.locked_Nm =
        sign * m->locked_open_Nm > sign * m->locked_end_Nm ? m->locked_open_Nm : m->locked_end_Nm;
    f.locked_1 = kit_value(with, locked_path(f.locked_Nm, sign));
    f.live_Nm = sign > 0 ? m->live.most : m->live.least;
    return f;
}

double kit_factored_moment_Nm(const CheckCase *with, const KitLine *k, int station, int side,
                              int sign)
{
    const KitMoment *m = &k->moment[2 * station + (side > 0)];
    const Factored f = factored(with, m, sign);
    return sign * (f.dead_1 * m->dead_Nm + f.wearing_1 * m->wearing_Nm + f.locked_1 * f.locked_Nm +
                   f.live_1 * k->line->lanes_1 * f.live_Nm);
}

static void write_lane_moment(const CheckCase *with, const KitLine *k, int station, int sign,
                              double live_Nm, Sheet *s)
{
    static const char words[] = "moment of one lane of live load with impact";
    const LiveEffect effect = {LIVE_MOMENT, .at = station};
    const Cite cite = {
        .k = k, .other = &effect, .load = &k->line->live, .sign = sign, .positive = sign};
    if (with->shared->comparing)
        sheet_given(s, "M_1", live_Nm, with->shared->unit.moment, words);
    else
        cite_effect(s, with, &cite, "M_1", with->shared->unit.moment, words);
}

void kit_write_moment(const CheckCase *with, const KitLine *k, int station, int side, int sign,
                      Sheet *s)
{
    static const char source[] = "AASHTO LRFD tables 3.4.1-1 and -2, Strength I (from memory)";
    static const char booked[] = "stages: sum of M - N y over the parts, booked by its event";
    const char *unit = with->shared->unit.moment;
    const KitMoment *m = &k->moment[2 * station + (side > 0)];
    const Factored f = factored(with, m, sign);
    sheet_given_from(s, "M_DC", sign * m->dead_Nm, unit, "moment of weights and barriers", booked);
    sheet_given_from(s, "M_DW", sign * m->wearing_Nm, unit, "moment of overlay and wearing surface",
                     booked);
    sheet_given_from(s, "M_EL", sign * f.locked_Nm, unit,
                     "moment locked in through the reactions by thrust, creep and shrinkage",
                     booked);
    write_lane_moment(with, k, station, sign, sign * f.live_Nm, s);
    give_lanes(s, with, k);
    value_give(s, with, "g_DC", dead_path(m, sign), "",
               "factor on weights: less where they relieve");
    if (sign * m->wearing_Nm > 0)
        value_give(s, with, "g_DW", "criteria.strength_wearing", "", "factor on wearing surfaces");
    else
        sheet_given_from(s, "g_DW", f.wearing_1, "", "factor on wearing surfaces that relieve",
                         "AASHTO LRFD table 3.4.1-2 (from memory)");
    value_give(s, with, "g_EL", locked_path(f.locked_Nm, sign), "", "factor on what is locked in");
    value_give(s, with, "g_LL", "criteria.strength_live", "", "factor on live load");
    sheet_formula(s, "M_u", "g_DC M_DC + g_DW M_DW + g_EL M_EL + g_LL g_m M_1", unit,
                  "factored moment", source);
}
