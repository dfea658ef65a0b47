/* The force that was locked and where its interval comes from; friction from the way back. */
#include <math.h>
#include <string.h>

#include "fit.h"

const char *site_force_part_name(SiteForcePart part)
{
    static const char *const name[SITE_PARTS] = {
        "gauge, and reading it", "calibration", "temperature of deck and girders",
        "friction of the jacks' bores", "hold until it was locked"};
    return name[part];
}

/* Of deck less girders, one standard deviation; of load cells, one way (both common practice, no source). */
static const double thermometer_K = 0.3, cells_1 = 0.01;

double fit_bore_N(const JackGear *gear, double force_N)
{
    const double each_N = gear->area_m2 * jack_pressure_Pa(gear, force_N / gear->count);
    const double bore_N = gear->count * each_N - force_N;
    return isfinite(bore_N) ? fmax(0, bore_N) : 0;
}

/* ---- friction: half of the loop ---- */

/* Force of the first loading at such an opening, by halving; NAN beyond the plan. */
static double loading_N(const Work *work, double open_m)
{
    const double expect_m = (open_m - work->line.fit.level) / work->line.fit.slope;
    double low_N = 0, high_N = 1.1 * work->plan->thrust_N;
    if (jacking_expect(work->plan, high_N).opening.expected_m < expect_m) return NAN;
    for (int i = 0; i < 60; i++) {
        const double mid_N = (low_N + high_N) / 2;
        if (jacking_expect(work->plan, mid_N).opening.expected_m < expect_m)
            low_N = mid_N;
        else
            high_N = mid_N;
    }
    return (low_N + high_N) / 2;
}

/* Straight between the shares of the way down from the whole thrust; those come from above. */
double fit_plan_loop_N(const JackPlan *plan, double force_N)
{
    double over_N = NAN, over_at_N = NAN;
    if (plan->return_count < 1) return NAN;
    const JackReturn *back = &plan->back[plan->return_count - 1];
    for (int i = 0; i < back->count; i++) {
        const double loop_N = back->loop_N[i], at_N = back->force_N[i];
        if (!look_read(loop_N)) continue;
        if (at_N <= force_N) {
            if (!look_read(over_N)) return loop_N;
            return loop_N + (over_N - loop_N) * (force_N - at_N) / (over_at_N - at_N);
        }
        over_N = loop_N;
        over_at_N = at_N;
    }
    return over_N;
}

static double top_N(const Look *look)
{
    double most_N = 0;
    for (int i = 0; i < look->count; i++)
        if (look->seen[i].first) most_N = fmax(most_N, look->seen[i].force_N);
    return most_N;
}

typedef struct Loop {
    double half_N[SITE_LOOK], ratio_1[SITE_LOOK]; /* friction alone; over the plan's */
    double bore_N;                                /* half of what the bores may explain, one way */
    int count, ratios, cells;
} Loop;

/* The gauge of a piston that goes back stands on the other side of the bore's friction: the force is above its
 * line, by up to twice that friction; half of that is taken, and left open to both sides. */
static void loop_take(const Work *work, const Seen *s, Loop *loop)
{
    const bool cell = look_read(s->r->cell_N) && work->fit->gauge_1.told;
    const double gauge_1 = work->fit->gauge_1.told ? work->fit->gauge_1.value : 1;
    const double up_N = gauge_1 * loading_N(work, s->open_m);
    const double bore_N = cell ? 0 : fit_bore_N(&work->plan->gear, s->force_N);
    const double down_N = cell ? s->r->cell_N : gauge_1 * s->force_N + bore_N;
    const double plan_N = fit_plan_loop_N(work->plan, s->force_N);
    if (!look_read(up_N)) return;
    loop->cells += cell;
    loop->bore_N = fmax(loop->bore_N, bore_N / 2);
    loop->half_N[loop->count++] = (up_N - down_N) / 2;
    if (look_read(plan_N) && plan_N > 0)
        loop->ratio_1[loop->ratios++] = (up_N - down_N) / 2 / plan_N;
}

/* Readings on the way down alone: on the way up again the loop is half closed. */
static void loop_read(const Work *work, Loop *loop)
{
    const double most_N = top_N(&work->look);
    double lowest_N = INFINITY;
    for (int i = 0; i < work->look.count; i++) {
        const Seen *s = &work->look.seen[i];
        if (s->r->phase != SITE_BACK) lowest_N = INFINITY;
        if (s->r->phase != SITE_BACK || !look_read(s->force_N) || s->force_N >= lowest_N) continue;
        lowest_N = s->force_N;
        if (look_read(s->open_m) && s->force_N <= 0.8 * most_N &&
            s->force_N >= work->plan->seated_N)
            loop_take(work, s, loop);
    }
}

static double loop_off_N(const Work *work, Loop *loop)
{
    double copy_N[SITE_LOOK];
    const int n = loop->count;
    memcpy(copy_N, loop->half_N, sizeof *copy_N * (size_t)n);
    const double each_N = fmax(n > 2 ? robust_spread(n, copy_N) : 0, work->look.seen[0].off_N / 2);
    const double line_N =
        work->line.spread_m / fit_whole(work->plan)->slope_m_per_N / sqrt(work->line.used) / 2;
    const double cells_N = loop->cells ? work->cells_off_1 * top_N(&work->look) / 2 : 0;
    return hypot(hypot(student_quantile(0.975, fmax(2, n - 1)) * each_N * sqrt(1.57 / n),
                       1.96 * line_N),
                 cells_N) +
           loop->bore_N;
}

static void friction_set(Work *work, Loop *loop)
{
    const JackPlan *plan = work->plan;
    SiteFit *fit = work->fit;
    const double middle_1 = (plan->friction_least_1 + plan->friction_most_1) / 2;
    fit->friction_1 = fit_untold(middle_1, "the plan has no loop to compare with");
    if (loop->ratios < 2) return;
    const double ratio_1 = robust_median(loop->ratios, loop->ratio_1);
    const double off_1 = (fit->loop_N.high - fit->loop_N.value) / fit->loop_N.plan;
    fit->friction_1 = fit_told(fmax(0, middle_1 * ratio_1), middle_1 * off_1, middle_1);
    fit->friction_1.low = fmax(0, middle_1 * (ratio_1 - off_1));
    fit->friction_1.high = fmax(0, middle_1 * (ratio_1 + off_1));
}

void fit_loop(Work *work)
{
    Loop *loop = ARENA_NEW(work->look.arena, Loop, 1);
    const double plan_N = fit_plan_loop_N(work->plan, 0.5 * work->plan->thrust_N);
    const double middle_1 = (work->plan->friction_least_1 + work->plan->friction_most_1) / 2;
    work->fit->loop_N = fit_untold(
        plan_N, "no way back was read: go down to half the force before locking, load cells read");
    work->fit->friction_1 = fit_untold(middle_1, work->fit->loop_N.why);
    loop_read(work, loop);
    if (loop->count < 2) return;
    const double off_N = loop_off_N(work, loop);
    if (look_read(plan_N) && off_N > plan_N) {
        work->fit->loop_N.why = work->fit->friction_1.why =
            loop->bore_N > off_N / 2
                ? "the friction of the jacks' own bores hides that of the shims "
                  "on the way back: read load cells there"
                : "the readings of the way back scatter more than friction "
                  "does: read it in more steps";
        return;
    }
    work->fit->loop_N = fit_told(robust_median(loop->count, loop->half_N), off_N, plan_N);
    friction_set(work, loop);
}

/* ---- the locked force ---- */

typedef struct Held {
    int last, count;
    double force_N, apart_K, open_m; /* middle of up to three */
} Held;

/* Of the hold at the last step; one reading that leads elsewhere does not count. */
static Held held_last(const Look *look)
{
    double force_N[3], apart_K[3], open_m[3];
    int n = 0, warm = 0, open = 0;
    Held held = {.last = -1, .apart_K = NAN, .open_m = NAN};
    for (int i = look->count - 1; i >= 0 && n < 3; i--) {
        const Seen *s = &look->seen[i];
        if (s->r->phase != SITE_HELD || s->r->step != look->day->plan->step_count || s->odd ||
            !look_read(s->force_N))
            continue;
        if (n == 0) held.last = i;
        force_N[n++] = s->force_N;
        if (look_read(s->r->deck_K - s->r->girder_K))
            apart_K[warm++] = s->r->deck_K - s->r->girder_K;
        if (look_read(s->raw_m)) open_m[open++] = s->raw_m;
    }
    held.count = n;
    if (n) held.force_N = robust_median(n, force_N);
    if (warm) held.apart_K = robust_median(warm, apart_K);
    if (open) held.open_m = robust_median(open, open_m);
    return held;
}

/* Least and most that going onto the nuts took; false: the gap was not read on them. */
static bool nuts_took_N(const Look *look, const Held *held, double took_N[2])
{
    double open_m[3];
    int n = 0;
    for (int i = held->last + 1; i < look->count && n < 3; i++) {
        const Seen *s = &look->seen[i];
        if (s->r->phase == SITE_NUTS && look_read(s->raw_m)) open_m[n++] = s->raw_m;
    }
    if (n == 0 || !look_read(held->open_m)) return false;
    const double closes_m = fmax(0, held->open_m - robust_median(n, open_m));
    took_N[0] = closes_m / fit_whole(look->day->plan)->slope_m_per_N;
    took_N[1] = closes_m * look_stiff_N_per_m(look->day->plan);
    return true;
}

static void parts_set(const Work *work, const Held *held, double took_N, double took_off_N)
{
    const JackGear *gear = &work->plan->gear;
    SiteFit *fit = work->fit;
    const double warm_N = fabs(look_thermal_N_per_K(work->plan));
    const double gauge_N = gear->count * gear->slope_m2 * gear->accuracy_1 * gear->range_Pa;
    const double read_N = 1.96 * work->look.seen[0].off_N;
    const bool cells = fit->gauge_1.told;
    const bool from_above = work->plan->highest_1 > fit_whole(work->plan)->share_1 + 1e-6;
    double *const low = fit->below_N, *const high = fit->above_N;
    low[SITE_PART_GAUGE] = cells ? work->cells_off_1 * held->force_N : hypot(gauge_N, read_N);
    low[SITE_PART_CALIBRATION] = (cells ? cells_1 : gear->off_1) * held->force_N;
    low[SITE_PART_WARMTH] =
        warm_N * (look_read(held->apart_K) ? 1.96 * thermometer_K : work->plan->warmth.window_K);
    for (int i = 0; i < SITE_PART_BORE; i++) high[i] = low[i];
    low[SITE_PART_BORE] = 0;
    high[SITE_PART_BORE] = from_above && !cells ? 2 * fit_bore_N(gear, held->force_N) : 0;
    low[SITE_PART_HOLD] =
        took_off_N + (took_N > 0 || took_off_N > 0 ? 0 : fit_whole(work->plan)->drop_quick_N);
    high[SITE_PART_HOLD] = took_off_N;
}

/* Temperature apart; the ranges added as they are. */
static double together_N(const double part_N[], bool warmth)
{
    const double warm_N = warmth ? part_N[SITE_PART_WARMTH] : 0;
    return hypot(hypot(part_N[SITE_PART_GAUGE], part_N[SITE_PART_CALIBRATION]), warm_N) +
           part_N[SITE_PART_BORE] + part_N[SITE_PART_HOLD];
}

void fit_locked(Work *work)
{
    SiteFit *fit = work->fit;
    const double plan_N = work->plan->thrust_N;
    const Held held = held_last(&work->look);
    double took_N[2] = {0, 0};
    fit->force_N = fit->even_N = fit_untold(plan_N, "no hold was read at the whole thrust");
    fit->locked_day = fit->apart_K = NAN;
    if (held.count == 0) return;
    fit->locked_day = work->look.seen[held.last].r->time_day;
    fit->apart_K = held.apart_K;
    const bool nuts = nuts_took_N(&work->look, &held, took_N);
    const double middle_N = (took_N[0] + took_N[1]) / 2;
    parts_set(work, &held, nuts, nuts ? (took_N[1] - took_N[0]) / 2 : 0);
    const double gauge_1 = fit->gauge_1.told ? fit->gauge_1.value : 1;
    const double force_N = gauge_1 * held.force_N - middle_N;
    const double even_N =
        force_N - (look_read(held.apart_K) ? look_thermal_N_per_K(work->plan) * held.apart_K : 0);
    fit->force_N = (SiteValue){true,
                               force_N,
                               force_N - together_N(fit->below_N, false),
                               force_N + together_N(fit->above_N, false),
                               plan_N,
                               NULL};
    fit->even_N = (SiteValue){true,
                              even_N,
                              even_N - together_N(fit->below_N, true),
                              even_N + together_N(fit->above_N, true),
                              plan_N,
                              NULL};
}
