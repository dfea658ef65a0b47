/* The level of each shim's top when its first panel comes on: the girders sag under every panel that was
 * set before, so a shim that is set by level must be set high by what is still to come. */
#include <math.h>

#include "work.h"

/* A seat on a girder line of the stages, between two of its stations. */
typedef struct Stand {
    int seat, next;  /* next: at the same station, -1 */
    double loaded_m; /* panels lie from 0 to here, the gap left out */
    double share_1;
} Stand;

typedef struct Levels {
    Work *w;
    int line, *first; /* first: of each station, -1 */
    Stand *stand;
    int count;
    double *drop_m; /* of each seat */
} Levels;

static double panel_from_m(const Work *w, const SeatLine *l, double z_m)
{
    const SeatUnit *unit = &w->seats->unit[l->unit];
    const int panel = l->left_panel >= 0 ? l->left_panel : l->right_panel;
    for (int i = 0; i < w->plan->line_count; i++) {
        const SeatLine *at = &w->seat_line[i];
        if (at->unit == l->unit && at->joint && at->right_panel == panel)
            return at->x_m + z_m * (at->skew_1 - w->plan->skew_1) - unit->start_m;
    }
    return 0;
}

static void stand_add(Levels *v, int station, Stand stand)
{
    if (stand.share_1 == 0) return;
    stand.next = v->first[station];
    v->first[station] = v->count;
    v->stand[v->count++] = stand;
}

static void stands_of(Levels *v, const StageModel *model, int seat)
{
    const Work *w = v->w;
    const int girder = seat % w->plan->girders;
    const SeatLine *l = &w->seat_line[seat / w->plan->girders];
    const double z_m = seat_z_m(w, girder);
    const double u_m = w->seat[seat].x_m - w->seats->unit[l->unit].start_m - z_m * w->plan->skew_1;
    int i = 0;
    while (i + 2 < model->station_count && model->x_m[i + 1] <= u_m) i++;
    double way_1 = (u_m - model->x_m[i]) / (model->x_m[i + 1] - model->x_m[i]);
    if (fabs(way_1) < 1e-6) way_1 = 0;
    if (fabs(way_1 - 1) < 1e-6) way_1 = 1;
    const double loaded_m = panel_from_m(w, l, z_m);
    stand_add(v, i, (Stand){seat, -1, loaded_m, 1 - way_1});
    stand_add(v, i + 1, (Stand){seat, -1, loaded_m, way_1});
}

/* Sum of the line from 0 to `to`, without the gap; value between stations straight. */
static double sum_to(const StageModel *model, const double *value, double to_m, const SeatUnit *u)
{
    double sum = 0;
    for (int i = 0; i + 1 < model->station_count && model->x_m[i] < to_m; i++) {
        const double a = model->x_m[i], b = fmin(model->x_m[i + 1], to_m);
        if (a >= u->gap_from_m - 1e-6 && b <= u->gap_to_m + 1e-6) continue;
        const double end = value[i] + (value[i + 1] - value[i]) * (b - a) / (model->x_m[i + 1] - a);
        sum += (b - a) * (value[i] + end) / 2;
    }
    return sum;
}

static double panel_load_N_per_m(const StageModel *model)
{
    for (int e = 0; e < model->event_count; e++)
        if (model->event[e].kind == EVENT_LOAD && model->event[e].on_deck)
            return model->event[e].line_load_N_per_m;
    return 0;
}

static Status line_levels(Levels *v, Error *err)
{
    Work *w = v->w;
    const SeatMarch *march = &w->march[v->line];
    const StageModel *model = march->history->model;
    const StageStructure *bare;
    const double q = panel_load_N_per_m(model);
    const size_t mark = arena_mark(w->scratch);
    TRY(stage_structure(march->history, march->set, 0, w->scratch, &bare, err));
    double *value = ARENA_NEW(w->scratch, double, model->station_count);
    double *work = ARENA_NEW(w->scratch, double, 12 * model->station_count);
    for (int i = 0; i < model->station_count; i++) {
        if (v->first[i] < 0) continue;
        if (!stage_influence_move(bare, i, value, work))
            return error_set(err, STATUS_BAD_INPUT, "no girder lies under a shim at %.4g ft",
                             quantity_in(model->x_m[i], "ft"));
        for (int k = v->first[i]; k >= 0; k = v->stand[k].next) {
            const Stand *s = &v->stand[k];
            const SeatUnit *u = &w->seats->unit[w->seat_line[s->seat / w->plan->girders].unit];
            v->drop_m[s->seat] += s->share_1 * q * sum_to(model, value, s->loaded_m, u);
        }
    }
    arena_reset(w->scratch, mark);
    return STATUS_OK;
}

/* What the girder has done by itself between the survey and the first panel. */
static double waited_m(const Work *w, int seat)
{
    const int girder = seat % w->plan->girders;
    const SeatLine *l = &w->seat_line[seat / w->plan->girders];
    SeatMarch m = w->march[seat_line_of(w, l->unit, girder)];
    const double u_m =
        w->seat[seat].x_m - w->seats->unit[l->unit].start_m - seat_z_m(w, girder) * w->plan->skew_1;
    return seating_waited_m(&m, u_m);
}

Status levels_make(Work *w, Error *err)
{
    const int seats = w->plan->line_count * w->plan->girders;
    Levels v = {.w = w,
                .stand = ARENA_NEW(w->result, Stand, 2 * seats),
                .drop_m = ARENA_NEW(w->result, double, seats)};
    for (v.line = 0; v.line < w->line_count; v.line++) {
        const StageModel *model = w->march[v.line].history->model;
        v.first = ARENA_NEW(w->result, int, model->station_count);
        v.count = 0;
        for (int i = 0; i < model->station_count; i++) v.first[i] = -1;
        for (int s = 0; s < seats; s++)
            if (seat_line_of(w, w->seat_line[s / w->plan->girders].unit, s % w->plan->girders) ==
                v.line)
                stands_of(&v, model, s);
        TRY(line_levels(&v, err));
    }
    for (int s = 0; s < seats; s++)
        w->seat[s].set_m = w->seat[s].top_m + waited_m(w, s) - v.drop_m[s] +
                           (w->seat[s].shim_m[0] + w->seat[s].shim_m[1]) / 2;
    return STATUS_OK;
}
