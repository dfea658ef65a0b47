/* What moves the deck after the survey: read off the histories of the girder lines. */
#include <math.h>
#include <string.h>

#include "work.h"

/* ---- one history ---- */

static const Event *event_of(const StageHistory *h, int time)
{
    return h->event[time] < 0 ? NULL : &h->model->event[h->event[time]];
}

static int find_time(const StageHistory *h, bool (*is)(const Event *event))
{
    for (int t = 0; t < h->time_count; t++)
        if (event_of(h, t) && is(event_of(h, t))) return t;
    return -1;
}

static bool is_panels(const Event *e) { return e->kind == EVENT_LOAD && e->on_deck; }
static bool is_shims(const Event *e) { return e->kind == EVENT_SHIMS; }

/* The last time not after a day, up to `most`, and how far it is to the next one. */
static void find_day(const StageHistory *h, double day, int most, int *from, int *to, double *way_1)
{
    int t = 0;
    while (t < most && h->day[t + 1] <= day) t++;
    *from = *to = t;
    *way_1 = 0;
    if (t == most || h->day[t + 1] <= h->day[t] || day <= h->day[t]) return;
    *to = t + 1;
    *way_1 = (day - h->day[t]) / (h->day[t + 1] - h->day[t]);
}

/* The future surface is the last of what is put on at opening. */
static int future_time(const StageHistory *h)
{
    int found = -1;
    for (int t = 0; t < h->time_count; t++) {
        const Event *e = event_of(h, t);
        if (e && e->kind == EVENT_LOAD && e->cause == CAUSE_SUPERIMPOSED) found = t;
    }
    return found;
}

Status seating_march(const StageHistory *h, double survey_day, double day, bool future,
                     SeatMarch *m, Error *err)
{
    const int set = find_time(h, is_panels), joined = find_time(h, is_shims);
    if (set < 1 || joined < set)
        return error_set(err, STATUS_BAD_INPUT, "this history has no panels on shims");
    *m = (SeatMarch){.history = h, .set = set - 1, .joined = joined, .future = -1};
    find_day(h, survey_day, m->set, &m->survey_from, &m->survey_to, &m->survey_1);
    find_day(h, day, h->time_count - 1, &m->day_from, &m->day_to, &m->day_1);
    if (m->day_from < joined)
        return error_set(err, STATUS_BAD_INPUT, "on day %.6g the panels are not joined yet", day);
    const int last = future ? future_time(h) : -1;
    if (last > 0 && last <= m->day_from) m->future = last;
    return STATUS_OK;
}

/* Cubic of both nodes' heights and slopes. */
static double node_move_m(const StageHistory *h, int time, Chain chain, double u_m)
{
    const StageModel *model = h->model;
    const double *x = model->x_m;
    int low = 0, high = model->station_count - 1;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (x[middle] <= u_m)
            low = middle;
        else
            high = middle;
    }
    const NodeMove *node =
        h->move + ((size_t)time * (size_t)model->station_count + (size_t)low) * 2 + (size_t)chain;
    const NodeMove *a = &node[0], *b = &node[2];
    const double L = x[high] - x[low], s = (u_m - x[low]) / L;
    return a->v_m * (1 - s * s * (3 - 2 * s)) + b->v_m * s * s * (3 - 2 * s) +
           L * s * (1 - s) * (a->theta_rad * (1 - s) - b->theta_rad * s);
}

/* A station inside the jacking gap before the closure has no deck: its girder then. */
static double deck_move_m(const SeatMarch *m, int time, double u_m)
{
    return node_move_m(m->history, time, CHAIN_DECK, u_m) -
           node_move_m(m->history, m->joined, CHAIN_DECK, u_m);
}

static double girder_move_m(const SeatMarch *m, int time, double u_m)
{
    return node_move_m(m->history, time, CHAIN_GIRDER, u_m);
}

static double surveyed_m(const SeatMarch *m, double u_m)
{
    return (1 - m->survey_1) * girder_move_m(m, m->survey_from, u_m) +
           m->survey_1 * girder_move_m(m, m->survey_to, u_m);
}

double seating_moved_m(const SeatMarch *m, double u_m)
{
    const double deck_m = (1 - m->day_1) * deck_move_m(m, m->day_from, u_m) +
                          m->day_1 * deck_move_m(m, m->day_to, u_m);
    const double future_m =
        m->future < 0 ? 0 : deck_move_m(m, m->future, u_m) - deck_move_m(m, m->future - 1, u_m);
    return girder_move_m(m, m->joined, u_m) - surveyed_m(m, u_m) + deck_m - future_m;
}

double seating_waited_m(const SeatMarch *m, double u_m)
{
    return girder_move_m(m, m->set, u_m) - surveyed_m(m, u_m);
}

/* ---- the histories ---- */

/* The line with its share of a given thrust. */
static BridgeLine *pushed(const Work *w, const BridgeLine *line)
{
    BridgeLine *copy = ARENA_NEW(w->result, BridgeLine, 1);
    Event *event = ARENA_NEW(w->result, Event, line->model.event_count);
    *copy = *line;
    memcpy(event, line->model.event, sizeof *event * (size_t)line->model.event_count);
    for (int e = 0; e < line->model.event_count; e++)
        if (event[e].kind == EVENT_JACK) {
            event[e].thrust_N = w->wish->thrust_N * line->share_1;
            event[e].steps = 3; /* deflections are those of ten steps within 2e-12 m, measured */
        }
    copy->model.event = event;
    return copy;
}

static Status histories_run(Work *w, Error *err)
{
    TRY(bridge_lines(w->bridge, 1, w->result, &w->line, &w->line_count, err));
    StageSettings settings = stage_settings_default();
    settings.leave_causes = true;
    w->history = ARENA_NEW(w->result, const StageHistory *, w->line_count);
    for (int i = 0; i < w->line_count; i++) {
        const BridgeLine *line = pushed(w, &w->line[i]);
        const size_t mark = arena_mark(w->scratch);
        TRY(stage_run(&line->model, &settings, w->result, w->scratch, &w->history[i], err));
        arena_reset(w->scratch, mark);
    }
    return STATUS_OK;
}

static void histories_take(Work *w)
{
    const ThrustAnswer *answer = w->wish->answer;
    w->line_count = answer->line_count;
    BridgeLine *line = ARENA_NEW(w->result, BridgeLine, w->line_count);
    w->history = ARENA_NEW(w->result, const StageHistory *, w->line_count);
    for (int i = 0; i < w->line_count; i++) {
        line[i] = *answer->line[i].line;
        w->history[i] = answer->line[i].history;
    }
    w->line = line;
}

Status marches_make(Work *w, Error *err)
{
    if (w->wish->answer)
        histories_take(w);
    else
        TRY(histories_run(w, err));
    const double opening = seat_value(w->bridge, "days.opening");
    const double haunch = seat_value(w->bridge, "days.haunch");
    const double end = seat_value(w->bridge, "days.end");
    const double day = isnan(w->wish->day) ? opening : w->wish->day;
    if (day < haunch || day > end)
        return error_set(err, STATUS_BAD_INPUT,
                         "--day: the profile can be met from day %.6g (haunches grouted) to day "
                         "%.6g (end of life), not on day %.6g",
                         haunch, end, day);
    w->plan->day = day;
    w->plan->survey_day = seat_value(w->bridge, "survey.day");
    w->march = ARENA_NEW(w->result, SeatMarch, w->line_count);
    for (int i = 0; i < w->line_count; i++)
        TRY(seating_march(w->history[i], w->plan->survey_day, day,
                          seat_value(w->bridge, "loads.future") > 0, &w->march[i], err));
    return STATUS_OK;
}

/* ---- what it is made of, in the middle of each span ---- */

static double step_m(const SeatMarch *m, int t, double u_m)
{
    if (t <= m->joined) return girder_move_m(m, t, u_m) - girder_move_m(m, t - 1, u_m);
    return deck_move_m(m, t, u_m) - deck_move_m(m, t - 1, u_m);
}

/* The event that a time belongs to: the steps of the jacks end with it. NULL: an interval. */
static const Event *event_around(const StageHistory *h, int time)
{
    for (int t = time; t < h->time_count && h->day[t] <= h->day[time]; t++) {
        const Event *e = event_of(h, t);
        if (e) return e->kind == EVENT_JACK ? t - time < e->steps ? e : NULL : t == time ? e : NULL;
    }
    return NULL;
}

double seating_thrust_m(const SeatMarch *m, double u_m)
{
    double sum_m = 0;
    for (int t = m->survey_to + 1; t <= m->day_from; t++) {
        const Event *e = event_around(m->history, t);
        if (e && e->kind == EVENT_JACK) sum_m += step_m(m, t, u_m);
    }
    return sum_m;
}

static double *share_of(SeatMove *move, const SeatMarch *m, int t)
{
    const Event *e = event_around(m->history, t);
    if (!e) return &move->time_m;
    if (e->kind == EVENT_JACK) return &move->thrust_m;
    if (e->cause == CAUSE_SUPERIMPOSED) return &move->later_m;
    return is_panels(e) ? &move->panels_m : &move->other_m;
}

/* The gap has no deck at first: its middle is looked at beside it. */
static double beside_gap_m(const SeatUnit *u, double u_m)
{
    if (u_m <= u->gap_from_m || u_m >= u->gap_to_m) return u_m;
    return u_m < (u->gap_from_m + u->gap_to_m) / 2 ? u->gap_from_m : u->gap_to_m;
}

static double girder_depth_m(const Bridge *b)
{
    if (seat_word(b, "girders.kind", "pretensioned")) return seat_value(b, "girders.depth");
    return seat_value(b, "girders.plates[1].top_thickness") +
           seat_value(b, "girders.plates[1].web_depth") +
           seat_value(b, "girders.plates[1].bottom_thickness");
}

static void move_fill(const Work *w, const SeatMarch *m, double u_m, SeatMove *move)
{
    const StageHistory *h = m->history;
    for (int t = m->survey_to + 1; t <= m->day_from; t++)
        if (t != m->future) *share_of(move, m, t) += step_m(m, t, u_m);
    move->total_m = seating_moved_m(m, u_m);
    /* the parts of an interval before the survey's time and after the last whole step */
    move->time_m = move->total_m - move->panels_m - move->thrust_m - move->other_m - move->later_m;
    move->end_m = deck_move_m(m, h->time_count - 1, u_m) -
                  ((1 - m->day_1) * deck_move_m(m, m->day_from, u_m) +
                   m->day_1 * deck_move_m(m, m->day_to, u_m));
    const bool concrete = seat_word(w->bridge, "girders.kind", "pretensioned");
    const char *const path = concrete ? "concrete.girder.expansion" : "girders.steel_expansion";
    const double depth_m = girder_depth_m(w->bridge);
    const SeatUnit *unit = &w->seats->unit[move->unit];
    const int k = move->span - 1 - unit->first_span;
    const double span_m = unit->support_m[k + 1] - unit->support_m[k];
    const BridgeValue *alpha = bridge_value_at(w->bridge, path);
    move->bow_m = (alpha ? alpha->value : 12e-6) * span_m * span_m / (8 * depth_m);
}

void moves_make(Work *w)
{
    int count = 0;
    for (int u = 0; u < w->seats->unit_count; u++) count += w->seats->unit[u].support_count - 1;
    SeatMove *move = ARENA_NEW(w->result, SeatMove, count * w->seats->lines);
    for (int u = 0; u < w->seats->unit_count; u++) {
        const SeatUnit *unit = &w->seats->unit[u];
        for (int k = 0; k + 1 < unit->support_count; k++)
            for (int l = 0; l < w->seats->lines; l++) {
                SeatMove *at = &move[w->plan->move_count++];
                const double u_m =
                    beside_gap_m(unit, (unit->support_m[k] + unit->support_m[k + 1]) / 2);
                *at = (SeatMove){.unit = u,
                                 .span = unit->first_span + k + 1,
                                 .exterior = l == w->seats->lines - 1,
                                 .x_m = unit->start_m + u_m};
                move_fill(w, &w->march[unit->like * w->seats->lines + l], u_m, at);
            }
    }
    w->plan->move = move;
}
