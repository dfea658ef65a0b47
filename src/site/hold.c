/* A hold: the force that falls beyond what temperature and creep explain, the gap that moves. */
#include <math.h>

#include "look.h"

static const double hold_z = 4, wild_z = 5;
static const double thermometer_K = 0.3; /* of deck less girders (common practice, no source) */

int hold_start(const Look *look, int at)
{
    int from = at;
    while (
        from > 0 && look->seen[from - 1].r->step == look->seen[at].r->step &&
        (look->seen[from - 1].r->phase == SITE_HELD || look->seen[from - 1].r->phase == SITE_RESET))
        from--;
    while (from < at && look->seen[from].r->phase == SITE_RESET) from++;
    return from;
}

/* What creep takes by the quicker law after the last step: as the plan's long hold has it. */
static double long_creep_N(const JackPlan *plan, double after_day)
{
    int i = 1;
    if (plan->hold_count < 2) return 0;
    while (i < plan->hold_count - 1 && after_day > plan->hold[i].after_day) i++;
    const JackHold *a = &plan->hold[i - 1], *b = &plan->hold[i];
    const double part_1 = (after_day - a->after_day) / (b->after_day - a->after_day);
    return plan->thrust_N - a->quick_N - part_1 * (b->quick_N - a->quick_N);
}

/* Within a step's hold it starts with the third root of time (EN 1992-1-1 B.7). */
double hold_creep_N(const JackPlan *plan, const JackStep *step, double after_day)
{
    const double part_1 = step->hold_day > 0 ? fmax(0, after_day) / step->hold_day : 1;
    if (step->last && part_1 > 1) return fmax(step->drop_quick_N, long_creep_N(plan, after_day));
    return step->drop_quick_N * pow(fmax(part_1, 1e-9), part_1 > 1 ? 0.7 : 0.3);
}

/* The last value less the one before it that it agrees with better than with half of them. */
static double change_of_few(int n, const double *y)
{
    double by[4] = {0};
    for (int i = 0; i < n - 1; i++) {
        int k = i;
        const double change = y[n - 1] - y[i];
        for (; k > 0 && fabs(by[k - 1]) > fabs(change); k--) by[k] = by[k - 1];
        by[k] = change;
    }
    return by[(n - 2) / 2];
}

/* Change from the first to the last of values that change steadily, and its error: by the median of slopes,
 * whose ends have thirteen times the variance of a mean; less than five would turn with one. */
static double change(int n, const double *t, const double *y, double each, double *off)
{
    RobustLine line;
    *off = each * sqrt(2);
    if (n < 5 || !robust_line(n, t, y, 0.95, &line)) return n < 5 ? change_of_few(n, y) : 0;
    *off = each * sqrt(13.0 / n);
    return line.slope * (t[n - 1] - t[0]);
}

bool hold_counts(const Look *look, int i, int at)
{
    const Seen *s = &look->seen[i];
    Findings cannot = {.count = 0};
    find_impossible(look, i, &cannot);
    return s->r->phase == SITE_HELD && !cannot.count && (!s->odd || i == at) &&
           look_read(s->force_N) && look_read(s->raw_m);
}

double hold_still_N(const Look *look, const Seen *seen, double warm0_K)
{
    const JackPlan *plan = look->day->plan;
    const double warm_K =
        look_read(seen->warm_K) && look_read(warm0_K) ? seen->warm_K - warm0_K : 0;
    return seen->force_N -
           look_thermal_N_per_K(plan) * warm_K * fmin(1, seen->force_N / plan->seated_N);
}

bool hold_look(const Look *look, int at, Hold *hold)
{
    double t[ROBUST_LINE_MAX], force_N[ROBUST_LINE_MAX], gap_m[ROBUST_LINE_MAX];
    const JackPlan *plan = look->day->plan;
    int from = hold_start(look, at), n = 0;
    if (look->seen[at].r->phase != SITE_HELD || look->seen[at].r->step < 1) return false;
    const int stride = (at - from + ROBUST_LINE_MAX) / ROBUST_LINE_MAX;
    double warm0_K = NAN;
    for (int i = from + (at - from) % stride; i <= at; i += stride) {
        const Seen *s = &look->seen[i];
        if (!hold_counts(look, i, at)) continue;
        if (!look_read(warm0_K) && look_read(s->warm_K)) warm0_K = s->warm_K;
        t[n] = s->r->time_day;
        force_N[n] = hold_still_N(look, s, warm0_K);
        gap_m[n++] = s->raw_m;
    }
    if (n < 2) return false;
    const Seen *s = &look->seen[at];
    const double dial_m = sqrt(fmax(0, s->off_m * s->off_m - pow(s->slope_m_per_N * s->off_N, 2)));
    double each_N = s->off_N;
    if (look_read(warm0_K)) each_N = hypot(each_N, look_thermal_N_per_K(plan) * thermometer_K);
    hold->from = from;
    hold->count = n;
    hold->minutes = (t[n - 1] - t[0]) * 1440;
    hold->explained_N = hold_creep_N(plan, &plan->step[s->r->step - 1], t[n - 1] - t[0]);
    hold->fall_N = -change(n, t, force_N, each_N, &hold->off_N);
    hold->closes_m = -change(n, t, gap_m, dial_m, &hold->closes_off_m);
    return true;
}

/* Gap that closes while valves are shut: a jack loses oil. */
static void gap_moves(const Look *look, int at, const Hold *hold, Findings *list)
{
    const double least_m = hold_z * hold->closes_off_m + 0.005 * look->seen[at].expect_m;
    if (fabs(hold->closes_m) <= least_m) return;
    const bool closes = hold->closes_m > 0;
    SiteFinding *f = finding_add(list, closes ? SITE_FALL : SITE_LATER,
                                 closes ? SITE_HOLD : SITE_STOP, hold->count >= 5);
    finding_bounds(f, DIM_LENGTH, -hold->closes_m, -least_m, least_m, hold->closes_off_m);
    f->words =
        arena_printf(look->arena, "in %.0f minutes of the hold the gap %s by %s%s", hold->minutes,
                     closes ? "closed" : "opened further", say_move(look, fabs(hold->closes_m)),
                     closes ? ": oil leaves a jack" : " with the pump still: something gives");
}

/* Four errors of reading and 1 %, or the plan's alarm where it is above what chance does. */
double hold_beyond_N(const JackPlan *plan, const JackStep *step, const Hold *hold)
{
    return fmin(fmax(plan->alarm.drop_1 * step->force_N, 2.5 * hold->off_N),
                fmax(hold_z * hold->off_N, 0.01 * step->force_N));
}

static void force_falls(const Look *look, int at, const Hold *hold, Findings *list)
{
    const JackPlan *plan = look->day->plan;
    const Seen *s = &look->seen[at];
    const JackStep *step = &plan->step[s->r->step - 1];
    const double beyond_N = hold->fall_N - hold->explained_N;
    const double least_N = fmax(hold_z * hold->off_N, 0.01 * step->force_N);
    if (beyond_N <= hold_beyond_N(plan, step, hold) && -beyond_N <= least_N) return;
    const bool falls = beyond_N > 0;
    SiteFinding *f = finding_add(list, falls ? SITE_FALL : SITE_LATER,
                                 falls ? SITE_HOLD : SITE_AGAIN, hold->count >= 5);
    finding_bounds(f, DIM_FORCE, hold->fall_N, NAN, hold->explained_N, hold->off_N);
    if (!falls) finding_bounds(f, DIM_FORCE, hold->fall_N, hold->explained_N, NAN, hold->off_N);
    f->words = arena_printf(
        look->arena,
        "in %.0f minutes of the hold the force %s by %s, temperature taken out; creep "
        "explains a fall of %s%s",
        hold->minutes, falls ? "fell" : "rose", say_force(look, fabs(hold->fall_N)),
        say_force(look, hold->explained_N),
        falls ? "" : ". Read the temperatures of deck and girders; is the pump shut off?");
}

/* Readings that seen[at] should be like: up to three of this hold, and the last on the way to it. */
static int alike(const Look *look, int at, const Seen *like[3])
{
    const Seen *s = &look->seen[at];
    bool on = true;
    int n = 0;
    for (int i = at - 1; i >= 0 && n < 3 && on; i--) {
        const Seen *was = &look->seen[i];
        if (was->r->step != s->r->step || was->r->phase == SITE_BACK) break;
        on = was->r->phase != SITE_PUMP;
        if (look_read(was->force_N)) like[n++] = was;
    }
    return n;
}

static double to_its_degrees_N(const Look *look, const Seen *was, const Seen *s)
{
    if (!look_read(s->warm_K) || !look_read(was->warm_K)) return was->force_N;
    return was->force_N + look_thermal_N_per_K(look->day->plan) * (s->warm_K - was->warm_K);
}

bool hold_odd(const Look *look, int at, Odd *odd)
{
    const Seen *s = &look->seen[at], *like[3];
    double was_N[3];
    int off_count = 0;
    if (s->r->phase != SITE_HELD || s->r->step < 1 || !look_read(s->force_N)) return false;
    const int n = alike(look, at, like);
    odd->off_N = 1.5 * hypot(s->off_N, look_thermal_N_per_K(look->day->plan) * thermometer_K);
    for (int i = 0; i < n; i++) {
        was_N[i] = to_its_degrees_N(look, like[i], s);
        off_count += fabs(s->force_N - was_N[i]) > wild_z * odd->off_N + 0.01 * fabs(was_N[i]);
    }
    if (2 * off_count <= n) return false;
    odd->lead_N = robust_median(n, was_N);
    return true;
}

static bool hold_wild(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    Odd odd;
    if (!hold_odd(look, at, &odd)) return false;
    SiteFinding *f =
        finding_add(list, s->force_N < odd.lead_N ? SITE_FALL : SITE_LATER, SITE_AGAIN, true);
    finding_bounds(f, DIM_FORCE, s->force_N, odd.lead_N - wild_z * odd.off_N,
                   odd.lead_N + wild_z * odd.off_N, odd.off_N);
    f->words = arena_printf(look->arena,
                            "%s; the readings before lead to %s: misread, or sudden; read again",
                            say_force(look, s->force_N), say_force(look, odd.lead_N));
    return true;
}

void find_hold(const Look *look, int at, Findings *list, SiteVerdict *verdict)
{
    Hold hold = {.from = at};
    if (look->seen[at].r->phase != SITE_HELD || look->seen[at].r->step < 1) return;
    const bool many = hold_look(look, at, &hold);
    if (many && verdict) {
        verdict->fall_N = hold.fall_N;
        verdict->fall_most_N = hold.explained_N;
    }
    if (hold_wild(look, at, list) || !many) return;
    gap_moves(look, at, &hold, list);
    force_falls(look, at, &hold, list);
}
