#include "site_truth.h"

#include <math.h>
#include <string.h>

#include <stdio.h>

#include "check.h"

const char *truth_name(TruthKind kind)
{
    static const char *const name[TRUTH_KINDS] = {
        "normal",        "binding shim",    "slipping anchor", "leaking jack",
        "gauge 3 % low", "sun on the deck", "swapped units",   "one wild reading"};
    return name[kind];
}

/* ---- chance (splitmix64) ---- */

static double uniform(Truth *t, double low, double high)
{
    uint64_t z = (t->seed += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return low + (high - low) * (double)(z >> 11) / 9007199254740992.0;
}

/* Normal, cut at two standard deviations: `range` is what is stated as the bound. */
static double within(Truth *t, double range)
{
    for (;;) {
        const double u = uniform(t, 1e-12, 1), v = uniform(t, 0, 1);
        const double z = sqrt(-2 * log(u)) * cos(2 * 3.14159265358979 * v);
        if (fabs(z) < 2) return z * range / 2;
    }
}

static double noise(Truth *t, double sigma) { return within(t, 2 * sigma); }

static double to_division(double value, double division)
{
    return division > 0 ? round(value / division) * division : value;
}

/* ---- the deck ---- */

static double seat_of(const Truth *t, double force_N)
{
    return t->seat_m * (1 - exp(-fmax(0, force_N) / t->seat_N));
}

static double spring_N(const Truth *t, double elastic_m)
{
    const double knee_m = t->knee_N / t->stiff_N_per_m;
    return elastic_m < knee_m ? t->stiff_N_per_m * elastic_m
                              : t->knee_N + t->knee_1 * t->stiff_N_per_m * (elastic_m - knee_m);
}

/* A slider breaks at its limit and goes on at four fifths of it, until it turns back. */
static double slider_pull(const Truth *t, int i, double elastic_m)
{
    const double stick_N = t->slider_N[i] / t->slider_m[i] * (elastic_m - t->at_m[i]);
    const double most_N = (t->sliding[i] ? 0.8 : 1) * t->slider_N[i];
    return fmax(-most_N, fmin(most_N, stick_N));
}

static double deck_N(const Truth *t, double elastic_m)
{
    double sum_N = spring_N(t, elastic_m);
    for (int i = 0; i < SLIDERS; i++) sum_N += slider_pull(t, i, elastic_m);
    return sum_N;
}

static void sliders_follow(Truth *t)
{
    for (int i = 0; i < SLIDERS; i++) {
        const double per_m = t->slider_N[i] / t->slider_m[i];
        const double stick_N = per_m * (t->elastic_m - t->at_m[i]);
        const double most_N = (t->sliding[i] ? 0.8 : 1) * t->slider_N[i];
        const bool breaks = fabs(stick_N) > most_N;
        if (breaks) t->at_m[i] = t->elastic_m - copysign(0.8 * t->slider_N[i], stick_N) / per_m;
        t->sliding[i] = breaks;
    }
}

/* To a true force: the elastic movement that carries it, by halving. */
static void load(Truth *t, double force_N)
{
    double low_m = -0.2, high_m = 1;
    double carried_N = force_N;
    if (t->kind == TRUTH_BINDING && force_N > t->from_N)
        carried_N = force_N - t->size_1 * (force_N - t->from_N);
    for (int i = 0; i < 60; i++) {
        const double mid_m = (low_m + high_m) / 2;
        if (deck_N(t, mid_m) < carried_N)
            low_m = mid_m;
        else
            high_m = mid_m;
    }
    if (t->kind == TRUTH_SLIPPING && force_N > fmax(t->from_N, t->force_N)) {
        const double more_N = force_N - fmax(t->from_N, t->force_N);
        const double slip_m = t->size_1 * more_N / t->stiff_N_per_m;
        t->bind_m += slip_m;
        if (!t->strokes || uniform(t, 0, 1) < 0.3) t->slip_m = t->bind_m;
    }
    t->elastic_m = (low_m + high_m) / 2;
    sliders_follow(t);
    t->force_N = force_N;
}

static double opening_m(const Truth *t)
{
    if (t->locked) return t->locked_m;
    const double share_1 = fmin(1, t->force_N / (0.1 * t->day->plan->thrust_N));
    return t->elastic_m + seat_of(t, t->force_N) + t->slip_m +
           share_1 * t->warm_m_per_K * t->deck_K;
}

/* ---- a job ---- */

static void draw_deck(Truth *t)
{
    const JackPlan *plan = t->day->plan;
    const JackBand *all = &plan->step[plan->step_count - 1].opening;
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    double friction_N = 0;
    t->seat_m = seat_m + within(t, (plan->seating_most_m - plan->seating_least_m) / 2);
    t->seat_N = plan->seated_N / uniform(t, 2.5, 5);
    double soft_m = within(t, fmin(all->below_m[JACK_BAND_DECK], all->above_m[JACK_BAND_DECK]));
    soft_m += within(t, fmin(all->below_m[JACK_BAND_GIRDER], all->above_m[JACK_BAND_GIRDER]));
    const double elastic_m = all->expected_m - seat_m + soft_m;
    for (int i = 0; i < SLIDERS; i++) {
        t->slider_N[i] = uniform(t, 0, 0.02 / SLIDERS) * plan->thrust_N;
        t->slider_m[i] = uniform(t, 0.002, 0.06) * elastic_m;
        friction_N += t->slider_N[i];
    }
    t->knee_N = uniform(t, 0.3, 0.8) * plan->thrust_N;
    t->knee_1 = 1 + within(t, 0.03);
    /* knee and half of the friction are in the plan's size; the rest is chance */
    const double over_N = plan->thrust_N - t->knee_N;
    t->stiff_N_per_m = (t->knee_N + over_N / t->knee_1 - 0.5 * friction_N) / elastic_m;
    t->tilt_1 = within(t, 0.6 * plan->alarm.sides_m) / all->expected_m;
    const double per_K = plan->warmth.move_warm_m / plan->warmth.window_K;
    t->warm_m_per_K = per_K * uniform(t, 0.9, 1.1);
    t->warm_N_per_K = -t->warm_m_per_K * t->stiff_N_per_m * uniform(t, 0.95, 1.1);
    t->creep_1 = uniform(t, 0.2, 1);
}

static void draw_gear(Truth *t)
{
    const JackPlan *plan = t->day->plan;
    const JackGear *gear = &plan->gear;
    t->scale_1 = 1 + within(t, gear->off_1);
    t->zero_N = within(t, gear->count * gear->slope_m2 * gear->accuracy_1 * gear->range_Pa);
    if (t->kind == TRUTH_GAUGE_LOW) t->scale_1 = 1 / 0.97;
    t->lag_day = uniform(t, 2, 12) / 86400;
    t->steer_1 = within(t, 0.02);
}

static void draw_fault(Truth *t)
{
    const JackPlan *plan = t->day->plan;
    t->from_N = uniform(t, 0.3, 0.75) * plan->thrust_N;
    t->size_1 = uniform(t, 0.05, 0.6);
    t->strokes = uniform(t, 0, 1) < 0.5;
    if (t->kind == TRUTH_LEAKING)
        t->size_1 = exp(uniform(t, log(0.003), log(0.2)));    /* in 15 minutes */
    if (t->kind == TRUTH_SUN) t->size_1 = uniform(t, 0.5, 5); /* K an hour */
    t->reading = (int)uniform(t, 1, 45);
}

static void truth_start(Truth *t, const SiteDay *day, TruthKind kind, uint64_t seed)
{
    *t = (Truth){.kind = kind, .seed = seed * 7919 + 13, .day = day, .slip_dials = seed % 2 == 0};
    draw_deck(t);
    draw_gear(t);
    draw_fault(t);
}

/* ---- reading ---- */

static void read_dials(Truth *t, SiteReading *r)
{
    const SiteDay *day = t->day;
    const double open_m = opening_m(t);
    for (int p = 0; p < SITE_POINTS; p++) r->move_m[p] = NAN;
    for (int p = 0; p < day->point_count; p++) {
        double m = 0;
        if (day->point[p].kind == SITE_GAP)
            m = open_m * (1 + t->tilt_1 * day->point[p].across_m / day->plan->width_m);
        if (day->point[p].kind == SITE_SLIP && !t->slip_dials) continue;
        if (day->point[p].kind == SITE_SLIP) {
            const JackPlan *plan = day->plan;
            const int last = plan->step_count - 1;
            m = plan->step[last].anchor_slip_m[day->point[p].side] * t->force_N / plan->thrust_N;
            if (day->point[p].side == 1) m += t->slip_m;
        }
        r->move_m[p] =
            to_division(m + noise(t, 0.3 * day->point[p].division_m), day->point[p].division_m);
    }
}

/* The needle shows the force of a moment ago. */
static SiteReading read_all(Truth *t, int step, SitePhase phase, double rate_N_per_day)
{
    const JackGear *gear = &t->day->plan->gear;
    SiteReading r = {.time_day = t->time_day, .step = step, .phase = phase, .cell_N = NAN};
    const double needle_N = t->force_N - t->lag_day * rate_N_per_day;
    const double shown_N =
        step == 0
            ? 0
            : fmax(0,
                   (needle_N - t->zero_N * fmin(1, t->force_N / (0.05 * t->day->plan->thrust_N))) /
                       t->scale_1);
    for (int k = 0; k < JACK_SETS; k++) {
        const double steer_1 = k == 0 ? 1 + t->steer_1 / 2 : 1 - t->steer_1 / 2;
        const double p =
            jack_pressure_Pa(gear, shown_N / gear->count * (gear->sets > 1 ? steer_1 : 1));
        r.pressure_Pa[k] = step == 0 ? 0
                                     : fmax(0, to_division(p + noise(t, 0.08 * gear->division_Pa),
                                                           gear->division_Pa / 2));
    }
    read_dials(t, &r);
    r.girder_K = to_division(288.15 + noise(t, 0.2), 0.25);
    r.deck_K = to_division(288.15 + t->deck_K + noise(t, 0.2), 0.25);
    return r;
}

static void swap_units(Truth *t, SiteReading *r)
{
    static const double gauge[] = {6.894757, 1 / 6.894757, 14.50377, 1 / 14.50377,
                                   145.0377, 10,           0.1};
    const double which = uniform(t, 0, 1);
    if (which < 0.6) {
        const double factor = gauge[(int)uniform(t, 0, 6.999)];
        for (int k = 0; k < JACK_SETS; k++) r->pressure_Pa[k] *= factor;
    } else if (which < 0.85) {
        const double factor = uniform(t, 0, 1) < 0.5 ? 25.4 : 1 / 25.4;
        for (int p = 0; p < t->day->point_count; p++)
            if (t->day->point[p].kind == SITE_GAP) r->move_m[p] *= factor;
    } else { /* degrees C in the field of degrees F: 59 as 59 C, or 15 as 15 F */
        const double celsius = r->deck_K - 273.15;
        r->deck_K =
            uniform(t, 0, 1) < 0.5 ? celsius * 1.8 + 32 + 273.15 : (celsius - 32) / 1.8 + 273.15;
    }
}

static void go_wild(Truth *t, SiteReading *r)
{
    const double sign = uniform(t, 0, 1) < 0.5 ? -1 : 1;
    if (uniform(t, 0, 1) < 0.5) {
        const double factor = 1 + sign * uniform(t, 0.15, 0.6);
        for (int k = 0; k < JACK_SETS; k++) r->pressure_Pa[k] *= factor;
    } else {
        r->move_m[(int)uniform(t, 0, 3.999)] += sign * uniform(t, 0.006, 0.05);
    }
}

/* ---- the day ---- */

typedef struct Job {
    Truth truth, twin; /* the same without the fault */
    SiteReading reading[TRUTH_READINGS];
    int count, taken; /* taken: without those read again */
    bool judged, over;
    TruthResult result;
    Arena *arena;
} Job;

static SiteCause true_cause(const Truth *t)
{
    if (t->kind == TRUTH_BINDING) return SITE_SHIM_FRICTION;
    if (t->kind == TRUTH_SLIPPING) return SITE_ANCHOR_SLIP;
    if (t->kind == TRUTH_LEAKING) return SITE_LEAK;
    if (t->kind == TRUTH_SUN) return SITE_WARM_DECK;
    if (t->kind == TRUTH_GAUGE_LOW) return SITE_GAUGE_LOW;
    return SITE_MISREAD;
}

static bool fault_began(const Job *job)
{
    const Truth *t = &job->truth;
    if (t->kind == TRUTH_BINDING || t->kind == TRUTH_SLIPPING) return t->force_N > t->from_N;
    if (t->kind == TRUTH_LEAKING) return t->leak_N > 0;
    if (t->kind == TRUTH_SWAPPED || t->kind == TRUTH_WILD) return job->taken > t->reading;
    return true;
}

static void held(Job *job, const SiteVerdict *v)
{
    TruthResult *r = &job->result;
    job->over = true;
    r->worst = v->call;
    r->why = v->finding[0].kind;
    r->at_1 = job->truth.force_N / job->truth.day->plan->thrust_N;
    r->early = !fault_began(job);
    snprintf(r->reason, sizeof r->reason, "%s", v->reason);
    for (int i = 0; i < v->guess_count; i++)
        if (v->guess[i].cause == true_cause(&job->truth)) {
            r->named = true;
            r->first_named = i == 0;
        }
}

static SiteCall judge(Job *job)
{
    SiteVerdict v;
    const size_t mark = arena_mark(job->arena);
    site_judge(job->truth.day, job->reading, job->count, job->arena, &v);
    if (v.call == SITE_AGAIN) job->result.agains++;
    if (v.call >= SITE_HOLD) held(job, &v);
    arena_reset(job->arena, mark);
    return v.call;
}

/* Reads; reads again where the verdict wants it, the pump still. */
static void take(Job *job, int step, SitePhase phase, double rate_N_per_day)
{
    Truth *t = &job->truth;
    if (job->over || job->count > TRUTH_READINGS - 6) return;
    SiteReading r = read_all(t, step, phase, rate_N_per_day);
    const bool bad = job->taken++ == t->reading;
    if (bad && t->kind == TRUTH_SWAPPED) swap_units(t, &r);
    if (bad && t->kind == TRUTH_WILD) go_wild(t, &r);
    job->reading[job->count++] = r;
    job->result.readings++;
    const double apart_m = fabs(opening_m(t) - opening_m(&job->twin));
    if (phase == SITE_PUMP) job->result.departure_m = fmax(job->result.departure_m, apart_m);
    if (!job->judged) return;
    SiteCall call = judge(job);
    if (bad && call != SITE_GO) job->result.caught = true;
    job->result.at_bad = job->result.at_bad || (bad && job->over);
    for (int again = 0; again < 3 && call == SITE_AGAIN && !job->over; again++) {
        t->time_day += 1.0 / 1440;
        job->reading[job->count++] = read_all(t, step, phase, 0);
        call = judge(job);
    }
}

static void pump(Job *job, double to_N, double rate_N_per_day)
{
    const double wait_day = fabs(to_N - job->truth.force_N) / rate_N_per_day;
    load(&job->truth, to_N);
    load(&job->twin, to_N);
    job->truth.time_day += wait_day;
}

static void hold_part(Job *job, const JackStep *step, double wait_day, double part_from_1,
                      double part_to_1)
{
    Truth *t = &job->truth;
    const double creep_N =
        t->creep_1 * step->drop_quick_N * (pow(part_to_1, 0.4) - pow(part_from_1, 0.4));
    double force_N = t->force_N - creep_N;
    if (t->kind == TRUTH_SUN) {
        const double warms_K = t->size_1 * wait_day * 24;
        t->deck_K += warms_K;
        force_N += t->warm_N_per_K * warms_K;
    }
    t->time_day += wait_day;
    if (t->kind == TRUTH_LEAKING && t->force_N > t->from_N) {
        /* the jack gives way: gap and force go down together */
        const double leak_N = t->size_1 * t->force_N * wait_day * 96;
        t->leak_N += leak_N;
        job->result.fall_1 = fmax(job->result.fall_1, t->leak_N / t->day->plan->thrust_N);
        const double before_m = t->elastic_m;
        load(t, t->force_N - leak_N);
        t->locked_m -= before_m - t->elastic_m;
        force_N -= leak_N;
    }
    t->force_N = force_N; /* creep and warmth: locked between jacks of one length, the gap stays */
}

static void hold(Job *job, int i)
{
    const JackStep *step = &job->truth.day->plan->step[i];
    const int parts = step->hold_day < 7.0 / 1440 ? 3 : step->hold_day < 16.0 / 1440 ? 5 : 8;
    job->truth.locked_m = opening_m(&job->truth);
    job->truth.locked = true;
    take(job, i + 1, SITE_HELD, 0);
    for (int k = 0; k < parts && !job->over; k++) {
        hold_part(job, step, step->hold_day / parts, (double)k / parts, (k + 1.0) / parts);
        take(job, i + 1, SITE_HELD, 0);
    }
    job->truth.locked = false;
    job->truth.leak_N = 0;
}

static void day_run(Job *job, bool back)
{
    const JackPlan *plan = job->truth.day->plan;
    take(job, 0, SITE_PUMP, 0);
    for (int i = 0; i < plan->step_count && !job->over; i++) {
        const double from_N = job->truth.force_N, to_N = plan->step[i].force_N;
        const double rate = 0.1 * plan->thrust_N * 1440 / uniform(&job->truth, 2, 5);
        for (int k = 1; k <= 4 && !job->over; k++) {
            /* the crew pumps by the gauge: what it shows is the step's */
            const double by_gauge_N = from_N + (to_N - from_N) * k / 4.0;
            pump(job, by_gauge_N * job->truth.scale_1 + job->truth.zero_N, rate);
            take(job, i + 1, SITE_PUMP, k < 4 ? rate : 0);
        }
        if (!job->over) hold(job, i);
    }
    for (int i = plan->step_count - 2; back && i >= 0; i--) {
        pump(job, plan->step[i].force_N * job->truth.scale_1 + job->truth.zero_N,
             0.1 * plan->thrust_N * 480);
        take(job, i + 1, SITE_BACK, 0);
    }
}

static void job_start(Job *job, const SiteDay *day, TruthKind kind, uint64_t seed)
{
    *job = (Job){.count = 0};
    truth_start(&job->truth, day, kind, seed);
    job->twin = job->truth;
    job->twin.kind = TRUTH_NORMAL;
}

static Job job; /* too large for the stack */

int truth_last(SiteReading *reading, Truth *truth)
{
    memcpy(reading, job.reading, sizeof *reading * (size_t)job.count);
    *truth = job.truth;
    return job.count;
}

TruthResult truth_run(const SiteDay *day, TruthKind kind, uint64_t seed, Arena *arena)
{
    job_start(&job, day, kind,
              seed); /* to the end, judged by nobody: how bad it would have become */
    day_run(&job, false);
    const double departure_m = job.result.departure_m, fall_1 = job.result.fall_1;
    const double warm_K = job.truth.deck_K;
    job_start(&job, day, kind, seed);
    job.judged = true;
    job.arena = arena;
    day_run(&job, false);
    job.result.bad = job.truth.reading;
    job.result.warm_K = warm_K;
    job.result.rate_K = kind == TRUTH_SUN ? job.truth.size_1 : 0;
    job.result.departure_m = departure_m;
    job.result.fall_1 = fall_1;
    return job.result;
}

int truth_readings(const SiteDay *day, TruthKind kind, uint64_t seed, bool back,
                   SiteReading *reading, Truth *truth)
{
    job_start(&job, day, kind, seed);
    day_run(&job, back);
    return truth_last(reading, truth);
}

void truth_wilson(int events, int trials, double *low_1, double *high_1)
{
    const double z = 1.959963984540054, n = trials, p = events / n;
    const double centre = (p + z * z / (2 * n)) / (1 + z * z / n);
    const double half = z / (1 + z * z / n) * sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    *low_1 = fmax(0, centre - half);
    *high_1 = fmin(1, centre + half);
}
