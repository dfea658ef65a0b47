/* How sure the haunches are: noise of the readings through the weights of the interpolation, what all
 * readings share, and how far the predicted movement may be off. */
#include <math.h>
#include <string.h>

#include "work.h"

static double square(double x) { return x * x; }

/* Independent noise of the readings at a place: variance over that of one reading. */
static double own_1(const Between *b)
{
    double sum = 0;
    for (int i = 0; i < b->count; i++) sum += square(b->weight_1[i]);
    return sum;
}

static double inside_1(const SeatLimits *limit, double thin_m, double thick_m, double off_m)
{
    if (!(off_m > 0)) return thin_m >= limit->least_m && thick_m <= limit->most_m;
    return fmax(0, normal_share((limit->most_m - thick_m) / off_m) -
                       normal_share((limit->least_m - thin_m) / off_m));
}

static double survey_off_m(const Work *w, int place)
{
    const double one_m = seat_value(w->bridge, "survey.deviation");
    const double shared_m = seat_value(w->bridge, "survey.benchmark");
    return sqrt(square(one_m) * own_1(&w->place_between[place]) + square(shared_m) +
                square(w->place_doubt_m[place]));
}

/* Lift by the thrust and all else (sag by weight, time) are off by themselves: where they balance, the
 * small rest is no surer than its parts. */
static double movement_m(const Work *w, int place)
{
    const double thrust_m = w->place_thrust_m[place];
    return hypot(thrust_m, w->place_later_m[place] - thrust_m);
}

void deviations_make(Work *w)
{
    const double movement_1 = seat_value(w->bridge, "seats.movement_off");
    w->place_off_m = ARENA_NEW(w->result, double, w->plan->place_count);
    for (int i = 0; i < w->plan->place_count; i++)
        w->place_off_m[i] = hypot(survey_off_m(w, i), movement_1 * movement_m(w, i));
}

static void seats_sure(Work *w)
{
    const int seats = w->plan->line_count * w->plan->girders;
    for (int k = 0; k < seats; k++) {
        const int at = w->seat_place[k];
        Seat *s = &w->seat[k];
        s->survey_m = survey_off_m(w, at);
        s->off_m = w->place_off_m[at];
        s->inside_1 = inside_1(&w->plan->limit, s->thin_m, s->thick_m, s->off_m);
        if (s->inside_1 < w->seat[w->plan->tightest].inside_1) w->plan->tightest = k;
    }
}

/* ---- all places at once: drawn, since they hang together ---- */

enum { DRAWS = 2000 };

/* Two standard normal numbers by their place (Box and Muller 1958). */
static void normal_pair(uint32_t draw, uint32_t item, double value[2])
{
    const uint32_t counter[4] = {draw, item, 0, 0}, key[2] = {0x5EA7, 0x1950};
    uint32_t word[4];
    philox(counter, key, word);
    const double u = (word[0] + 0.5) / 4294967296.0, v = (word[1] + 0.5) / 4294967296.0;
    const double size = sqrt(-2 * log(u)), angle = 2 * acos(-1) * v;
    value[0] = size * cos(angle);
    value[1] = size * sin(angle);
}

typedef struct Draw {
    const Work *w;
    double one_m, shared_m, movement_1;
    double *noise_m;  /* of each reading */
    double *off_m;    /* of each place: that it is higher than it should be */
    double *survey_m; /* the survey's part of it */
} Draw;

static void draw_readings(Draw *d, uint32_t draw, double movement_1[2])
{
    const int count = d->w->plan->reading_count;
    double pair[2];
    normal_pair(draw, 0, pair);
    const double shared_m = d->shared_m * pair[0];
    movement_1[0] = d->movement_1 * pair[1];
    normal_pair(draw, (uint32_t)(1 + (count + 1) / 2), pair); /* behind those of the readings */
    movement_1[1] = d->movement_1 * pair[0];
    for (int i = 0; i < count; i += 2) {
        normal_pair(draw, (uint32_t)(1 + i / 2), pair);
        d->noise_m[i] = shared_m + d->one_m * pair[0];
        if (i + 1 < count) d->noise_m[i + 1] = shared_m + d->one_m * pair[1];
    }
}

/* A place's height is too small by the survey's error, and by the movement's. */
static void draw_places(Draw *d, uint32_t draw)
{
    const Work *w = d->w;
    double movement_1[2];
    draw_readings(d, draw, movement_1);
    for (int i = 0; i < w->plan->place_count; i++) {
        d->survey_m[i] = -survey_value(&w->place_between[i], d->noise_m);
        const double thrust_m = w->place_thrust_m[i];
        d->off_m[i] = d->survey_m[i] - movement_1[0] * thrust_m -
                      movement_1[1] * (w->place_later_m[i] - thrust_m);
    }
}

/* The raise follows the survey: what it takes along of the survey's errors is gone from the haunches. */
static void take_along(Draw *d, bool tilt)
{
    const Work *w = d->w;
    const int count = w->plan->place_count;
    double mean_m = 0, dd = 0, dy = 0;
    for (int i = 0; i < count; i++) mean_m += d->survey_m[i] / count;
    double middle_m = 0;
    for (int i = 0; i < count; i++) middle_m += w->place[i].x_m / count;
    for (int i = 0; i < count && tilt; i++) {
        dd += square(w->place[i].x_m - middle_m);
        dy += (w->place[i].x_m - middle_m) * d->survey_m[i];
    }
    for (int i = 0; i < count; i++)
        d->off_m[i] -= mean_m + (tilt && dd > 0 ? dy / dd * (w->place[i].x_m - middle_m) : 0);
}

static bool all_inside(const Draw *d, double raise_m, double tilt_1)
{
    const Work *w = d->w;
    const SeatLimits *limit = &w->plan->limit;
    for (int i = 0; i < w->plan->place_count; i++) {
        const SeatPlace *p = &w->place[i];
        const double by_m = d->off_m[i] + raise_m + tilt_1 * (p->x_m - w->plan->grade.middle_m);
        if (p->thin_m + by_m < limit->least_m || p->thick_m + by_m > limit->most_m) return false;
    }
    return true;
}

void sure_make(Work *w)
{
    SeatPlan *plan = w->plan;
    SeatAdjust *a = &plan->adjust;
    Draw d = {w,
              seat_value(w->bridge, "survey.deviation"),
              seat_value(w->bridge, "survey.benchmark"),
              seat_value(w->bridge, "seats.movement_off"),
              ARENA_NEW(w->result, double, plan->reading_count),
              ARENA_NEW(w->result, double, plan->place_count),
              ARENA_NEW(w->result, double, plan->place_count)};
    seats_sure(w);
    int kept = 0, adjusted = 0;
    for (uint32_t draw = 0; draw < DRAWS; draw++) {
        draw_places(&d, draw);
        kept += all_inside(&d, 0, 0);
        if (!a->wanted) continue;
        take_along(&d, a->tilted);
        adjusted += all_inside(&d, a->raise_m, a->tilt_1);
    }
    plan->inside_1 = (double)kept / DRAWS;
    a->inside_1 = a->wanted ? (double)adjusted / DRAWS : plan->inside_1;
}
