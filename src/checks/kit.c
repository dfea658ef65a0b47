/* What the files of checks share: times, places in words, worst stresses, moments of a section. */
#include "kit.h"
#include "moments.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

double kit_value(const CheckCase *with, const char *path)
{
    const BridgeValue *value = bridge_value_at(with->bridge, path);
    assert(value != NULL);
    return value->value;
}

bool kit_flag(const CheckCase *with, const char *path)
{
    const BridgeValue *value = bridge_value_at(with->bridge, path);
    assert(value != NULL);
    return strcmp(value->text, "yes") == 0;
}

double kit_value_in(const CheckCase *with, const char *list, int index, const char *key)
{
    char path[128];
    snprintf(path, sizeof path, "%s[%d].%s", list, index, key);
    return kit_value(with, path);
}

int kit_list_count(const CheckCase *with, const char *list, const char *key)
{
    char path[128];
    for (int i = 1;; i++) {
        snprintf(path, sizeof path, "%s[%d].%s", list, i, key);
        if (!bridge_value_at(with->bridge, path)) return i - 1;
    }
}

/* ---- what is shared ---- */

/* A jacking event is marched in steps of its own; the last one carries its name. */
static int time_before_jack(const StageHistory *history)
{
    for (int t = 0; t < history->time_count; t++) {
        const int e = history->event[t];
        if (e < 0 || history->model->event[e].kind != EVENT_JACK) continue;
        const int steps = history->model->event[e].steps;
        return t - (steps > 1 ? steps : 1);
    }
    return 0;
}

static Status moment(const KitLine *k, const char *name, int *time, Error *err)
{
    *time = stage_time_named(k->history, name);
    if (*time >= 0) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT, "the stages have no moment named '%s'", name);
}

static void girder_live(const KitLine *k, int station, KitLive *both)
{
    bool done[4];
    LiveRange live[4], fatigue[4];
    StageEffect effect[4];
    for (int i = 0; i < 4; i++)
        effect[i] = (StageEffect){CHAIN_GIRDER, station, i < 2 ? -1 : 1, i % 2 == 0};
    live_stress(k->open_live, &k->line->live, effect, 4, live, done);
    live_stress(k->open_live, &k->fatigue, effect, 4, fatigue, done);
    both[0] = (KitLive){done[0], live[0], live[1], fatigue[0], fatigue[1]};
    both[1] = (KitLive){done[2], live[2], live[3], fatigue[2], fatigue[3]};
}

static const FibreStress *girder_gradient(const KitLine *k, const Gradient *gradient, Arena *arena)
{
    const int n = k->model->station_count;
    FibreStress *deck = ARENA_NEW(arena, FibreStress, 2 * n);
    FibreStress *girder = ARENA_NEW(arena, FibreStress, 2 * n);
    stage_temperature(live_structure(k->open_live), gradient->depth_m, gradient->rise_K,
                      gradient->count, deck, girder, arena);
    return girder;
}

static void share_girder(const CheckCase *with, KitLine *k)
{
    KitLive *live = ARENA_NEW(with->arena, KitLive, 2 * k->model->station_count);
    for (int i = 0; i < k->model->station_count; i++) girder_live(k, i, live + (ptrdiff_t)2 * i);
    k->girder_live = live;
    k->girder_cold = girder_gradient(k, &k->line->cold, with->arena);
    k->girder_warm = girder_gradient(k, &k->line->warm, with->arena);
}

static bool one_unit(const ThrustAnswer *answer)
{
    for (int i = 1; i < answer->line_count; i++)
        if (strcmp(answer->line[i].line->unit, answer->line[0].line->unit) != 0) return false;
    return true;
}

static Status share_line(const CheckCase *with, const LineAnswer *answer, KitLine *k, Error *err)
{
    const BridgeLine *line = answer->line;
    *k = (KitLine){.answer = answer,
                   .line = line,
                   .history = answer->history,
                   .model = answer->history->model,
                   .fatigue = traffic_hl93_fatigue()};
    k->name = one_unit(with->answer) ? line->name
                                     : arena_printf(with->arena, "%s, %s", line->name, line->unit);
    TRY(moment(k, line->jacked, &k->jacked, err));
    TRY(moment(k, line->bonded, &k->bonded, err));
    TRY(moment(k, line->opening, &k->opening, err));
    TRY(moment(k, line->end, &k->end, err));
    k->before_jack = time_before_jack(k->history);
    TRY(live_lines(line, k->history, k->opening, with->arena, &k->open_live, err));
    TRY(live_lines(line, k->history, k->end, with->arena, &k->end_live, err));
    share_girder(with, k);
    k->moment = moments_share(with, k);
    return STATUS_OK;
}

static KitUnits units_of(UnitSystem system)
{
    if (system == UNITS_SI)
        return (KitUnits){"MN", "m", "m^2", "m^3", "m^4", "MN*m", "MPa", "MN/m", "1/m"};
    return (KitUnits){"kip", "in", "in^2", "in^3", "in^4", "kip*in", "ksi", "kip/in", "1/in"};
}

Status kit_share(CheckCase *with, Error *err)
{
    CheckShared *shared = ARENA_NEW(with->arena, CheckShared, 1);
    const BridgeValue *kind = bridge_value_at(with->bridge, "girders.kind");
    shared->unit = units_of(bridge_units(with->bridge));
    shared->steel = strcmp(kind->text, "pretensioned") != 0;
    shared->tub = strcmp(kind->text, "tub") == 0;
    for (int i = 0; i < with->answer->line_count; i++)
        TRY(share_line(with, &with->answer->line[i], &shared->line[shared->count++], err));
    with->shared = shared;
    return STATUS_OK;
}

/* ---- words ---- */

const char *kit_x(const CheckCase *with, const KitLine *k, int station)
{
    const char *unit = quantity_unit(bridge_units(with->bridge), DIM_LENGTH);
    return arena_printf(with->arena, "x = %.1f %s", quantity_in(k->model->x_m[station], unit),
                        unit);
}

const char *kit_when(const CheckCase *with, const KitLine *k, int time)
{
    const StageHistory *h = k->history;
    for (int t = time; t < h->time_count && h->event[t] >= 0 && h->day[t] <= h->day[time]; t++)
        if (h->model->event[h->event[t]].name) return h->model->event[h->event[t]].name;
    const double since_day = h->day[time] - h->day[k->opening];
    if (since_day > 365.25)
        return arena_printf(with->arena, "%.1f years after opening", since_day / 365.25);
    return arena_printf(with->arena, "day %.6g", h->day[time]);
}

Sheet kit_sheet(const CheckCase *with, const KitLine *k, const char *title)
{
    return sheet_start(arena_printf(with->arena, "%s: %s", title, k->name), with->arena);
}

void kit_needs_fatigue_truck(const CheckCase *with, CheckRow *row)
{
    const BridgeValue *model = bridge_value_at(with->bridge, "live.model");
    if (strcmp(model->text, "HL-93") == 0) return;
    check_needs(
        row, with, NULL,
        "live.model: beside axles of the file's own the fatigue truck is that of AASHTO LRFD "
        "3.6.1.4, with the lanes of the file");
}

/* ---- stresses ---- */

bool kit_in_gap(const KitLine *k, int station, int side)
{
    for (int g = 0; g < k->model->gap_count; g++) {
        const Gap *gap = &k->model->gap[g];
        if (station > gap->left_station && station < gap->right_station) return true;
        if ((station == gap->left_station && side > 0) ||
            (station == gap->right_station && side < 0))
            return true;
    }
    return false;
}

static void take(KitStress *worst, KitStress one, int sign)
{
    if (!worst->there || sign * one.value_Pa > sign * worst->value_Pa) *worst = one;
}

double kit_strength_Pa(const KitLine *k, int time, Chain chain, int station, int side)
{
    const int part = stage_part(k->history, time, chain, station, side);
    if (part < 0) return 0;
    const Material *law = &k->model->material[k->model->part[part].material];
    if (law->kind != MATERIAL_CONCRETE) return 0;
    const double age_day = k->history->day[time] - law->cast_day;
    return fmin(concrete_strength_Pa(&law->mix, age_day), law->mix.fc28_Pa);
}

KitStress kit_worst_stress(const KitLine *k, Chain chain, int from, int to, int sign, bool top,
                           bool bottom)
{
    KitStress worst = {.there = false};
    for (int t = from; t <= to; t++)
        for (int i = 0; i < k->model->station_count; i++)
            for (int side = -1; side <= 1; side += 2) {
                FibreStress at;
                if (chain == CHAIN_DECK && kit_in_gap(k, i, side)) continue;
                if (!stage_stress(k->history, t, chain, i, side, &at)) continue;
                if (top) take(&worst, (KitStress){at.top_Pa, i, side, t, true, true}, sign);
                if (bottom) take(&worst, (KitStress){at.bottom_Pa, i, side, t, false, true}, sign);
            }
    return worst;
}

/* ---- sections ---- */

static int element_at(const KitLine *k, int station, int side)
{
    const int element = side < 0 ? station - 1 : station;
    return element < 0 || element + 1 >= k->model->station_count ? -1 : element;
}

double kit_middle_m(const KitLine *k, int element)
{
    const int last = k->model->station_count - 1;
    if (element < 0) return k->model->x_m[0];
    if (element >= last) return k->model->x_m[last];
    return 0.5 * (k->model->x_m[element] + k->model->x_m[element + 1]);
}

int kit_girder_part(const KitLine *k, int time, int station, int side)
{
    const StageModel *model = k->model;
    const int element = element_at(k, station, side);
    if (element < 0) return -1;
    const int *row =
        k->history->beam +
        ((size_t)CHAIN_GIRDER * (size_t)model->station_count + (size_t)element) * STAGE_BEAMS;
    for (int i = 0; i < STAGE_BEAMS && row[i] >= 0; i++)
        if (k->history->alive[(size_t)time * (size_t)model->part_count + (size_t)row[i]])
            return row[i];
    return -1;
}
