/* What the readings say of the deck that was built, and what they cannot tell apart. */
#include <math.h>
#include <string.h>

#include "look.h"

typedef struct Work {
    Look look;
    const JackPlan *plan;
    SiteFit *fit;
    Line line;          /* of the first loading, for openings at a force */
    double force_off_1; /* error of the gauge's force, two standard deviations */
} Work;

static SiteValue told(double value, double off, double plan)
{
    return (SiteValue){true, value, value - off, value + off, plan, NULL};
}

static SiteValue untold(double plan, const char *why)
{
    return (SiteValue){false, NAN, NAN, NAN, plan, why};
}

static double seat_mid_m(const JackPlan *plan)
{
    return (plan->seating_least_m + plan->seating_most_m) / 2;
}

static const JackStep *whole(const JackPlan *plan) { return &plan->step[plan->step_count - 1]; }

/* ---- slope and seating ---- */

static Status slope_fit(Work *work, Error *err)
{
    double x[2 * ROBUST_FIT_ROWS], y[ROBUST_FIT_ROWS], least_m = 0;
    RobustFit found;
    int n = 0;
    for (int i = 0; i < work->look.count && n < ROBUST_FIT_ROWS; i++) {
        const Seen *s = &work->look.seen[i];
        if (!s->first || !look_read(s->open_m) || s->force_N < 0.98 * work->plan->seated_N)
            continue;
        x[(size_t)2 * (size_t)n] = 1;
        x[(size_t)2 * (size_t)n + 1] = s->expect_m - seat_mid_m(work->plan);
        y[n++] = s->open_m;
        least_m = s->off_m / 2;
    }
    if (n < 6 || !robust_fit(n, 2, x, y, least_m, &found) ||
        !look_line(&work->look, work->look.count, &work->line))
        return error_set(
            err, STATUS_BAD_INPUT,
            "%d readings of the first loading with all joints closed, force and gap read: at "
            "least 6 at different forces are needed",
            n);
    const double t = student_quantile(0.975, found.freedom);
    work->fit->used = n;
    for (int i = 0; i < n; i++) {
        const double left_m = y[i] - found.value[0] - found.value[1] * x[2 * i + 1];
        work->fit->left_out += fabs(left_m) > 3 * found.spread;
    }
    work->fit->seating_m =
        told(found.value[0], t * sqrt(found.covariance[0][0]), seat_mid_m(work->plan));
    work->fit->slope_1 = told(found.value[1], t * sqrt(found.covariance[1][1]), 1);
    return STATUS_OK;
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

/* The plan's loop at a force on the way down from the whole thrust. */
static double plan_loop_N(const JackPlan *plan, double force_N)
{
    const JackReturn *back = &plan->back[plan->return_count - 1];
    double best_N = NAN, nearest_N = INFINITY;
    for (int i = 0; plan->return_count > 0 && i < back->count; i++) {
        if (!look_read(back->loop_N[i]) || fabs(back->force_N[i] - force_N) >= nearest_N) continue;
        nearest_N = fabs(back->force_N[i] - force_N);
        best_N = back->loop_N[i];
    }
    return best_N;
}

static double top_N(const Look *look)
{
    double most_N = 0;
    for (int i = 0; i < look->count; i++)
        if (look->seen[i].first) most_N = fmax(most_N, look->seen[i].force_N);
    return most_N;
}

static void loop_fit(Work *work)
{
    const char *const why =
        "no way back was read: go down to half the force and up again before locking";
    double half_N[SITE_LOOK], copy_N[SITE_LOOK], plan_N = NAN;
    const double most_N = top_N(&work->look);
    int n = 0;
    work->fit->loop_N = work->fit->friction_1 = untold(NAN, why);
    for (int i = 0; i < work->look.count; i++) {
        const Seen *s = &work->look.seen[i];
        if (s->r->phase != SITE_BACK || !look_read(s->open_m) || s->force_N > 0.8 * most_N ||
            s->force_N < work->plan->seated_N)
            continue;
        const double up_N = loading_N(work, s->open_m);
        if (!look_read(up_N)) continue;
        half_N[n++] = (up_N - s->force_N) / 2;
        if (look_read(plan_loop_N(work->plan, s->force_N)))
            plan_N = plan_loop_N(work->plan, s->force_N);
    }
    if (n < 2) return;
    memcpy(copy_N, half_N, sizeof *copy_N * (size_t)n);
    const double each_N = fmax(n > 2 ? robust_spread(n, copy_N) : 0, work->look.seen[0].off_N);
    const double off_N = hypot(student_quantile(0.975, n < 6 ? 5 : n - 1) * each_N * sqrt(1.57 / n),
                               1.96 * work->line.spread_m / whole(work->plan)->slope_m_per_N /
                                   sqrt(work->line.used));
    const double loop_N = robust_median(n, half_N);
    work->fit->loop_N = told(loop_N, off_N, plan_N);
    const double middle_1 = (work->plan->friction_least_1 + work->plan->friction_most_1) / 2;
    work->fit->friction_1 = untold(middle_1, "the plan has no loop to compare with");
    if (!look_read(plan_N) || plan_N <= 0) return;
    work->fit->friction_1 =
        told(fmax(0, middle_1 * loop_N / plan_N), middle_1 * off_N / plan_N, middle_1);
    work->fit->friction_1.low = fmax(0, work->fit->friction_1.low);
}

/* ---- a second measure ---- */

static bool scale_fit(int n, const double *x, const double *y, double least, SiteValue *value)
{
    RobustFit found;
    if (n < 4 || !robust_fit(n, 1, x, y, least, &found)) return false;
    *value = told(found.value[0],
                  student_quantile(0.975, found.freedom) * sqrt(found.covariance[0][0]), 1);
    return true;
}

static void gauge_fit(Work *work)
{
    double x[SITE_LOOK], y[SITE_LOOK];
    int n = 0;
    for (int i = 0; i < work->look.count && n < ROBUST_FIT_ROWS; i++) {
        const Seen *s = &work->look.seen[i];
        if (!look_read(s->r->cell_N) || !look_read(s->force_N) || s->force_N < work->plan->seated_N)
            continue;
        x[n] = s->force_N;
        y[n++] = s->r->cell_N;
    }
    if (!scale_fit(n, x, y, work->look.seen[0].off_N / 2, &work->fit->gauge_1))
        work->fit->gauge_1 = untold(1, "force and movement alone cannot tell a wrong gauge from "
                                       "another stiffness: read load cells, "
                                       "or a second calibrated gauge at the jacks");
}

static double rise_expected_m(const JackPlan *plan, const SitePoint *point, double force_N)
{
    return plan->watch[point->watch].move_m[plan->step_count - 1] * force_N / plan->thrust_N;
}

/* Rise for a force goes with one over the stiffness of the girders. */
static void girder_fit(Work *work)
{
    double x[SITE_LOOK], y[SITE_LOOK], least_m = 1e-4;
    SiteValue rise;
    int n = 0;
    for (int i = 0; i < work->look.count; i++) {
        const Seen *s = &work->look.seen[i];
        for (int p = 0; p < work->look.day->point_count && s->first; p++) {
            const SitePoint *point = &work->look.day->point[p];
            if (point->kind != SITE_RISE || !look_read(s->point_m[p]) || n == ROBUST_FIT_ROWS)
                continue;
            x[n] = rise_expected_m(work->plan, point, s->force_N);
            y[n++] = s->point_m[p];
            least_m = fmax(least_m, 0.3 * point->division_m);
        }
    }
    work->fit->girder_1 = untold(
        1,
        "force and movement alone cannot tell girders from panels: read the rise of the girders in "
        "mid-span, or strains");
    if (!scale_fit(n, x, y, least_m, &rise) || rise.low <= 0) return;
    const double gauge_1 = work->fit->gauge_1.told ? work->fit->gauge_1.value : 1;
    const double value_1 = gauge_1 / rise.value;
    const double off_1 = value_1 * hypot((rise.high - rise.value) / rise.value, work->force_off_1);
    work->fit->girder_1 = told(value_1, off_1, 1);
}

/* ---- panels ---- */

/* Share of a stiffness in the opening at the whole thrust: its band was made with 1 / (1 - off). */
static double share_m(const JackBand *all, JackBandPart part, double off_1)
{
    return all->above_m[part] * (1 - off_1) / off_1;
}

/* Of the part that alone makes the opening larger by `more_m`. */
static double stiffness_1(double part_m, double more_m)
{
    return 1 / fmax(0.2, 1 + more_m / part_m);
}

static void deck_fit(Work *work, double deck_off_1, double girder_off_1)
{
    SiteFit *fit = work->fit;
    const JackBand *all = &whole(work->plan)->opening;
    const double elastic_m = all->expected_m - seat_mid_m(work->plan);
    const double deck_m = share_m(all, JACK_BAND_DECK, deck_off_1);
    const double girder_m = share_m(all, JACK_BAND_GIRDER, girder_off_1);
    const double gauge_1 = fit->gauge_1.told ? fit->gauge_1.value : 1;
    const double more_m = (fit->slope_1.value / gauge_1 - 1) * elastic_m;
    fit->deck_alone_1 = stiffness_1(deck_m, more_m);
    fit->girder_alone_1 = stiffness_1(girder_m, more_m);
    fit->gauge_alone_1 = fit->slope_1.value;
    fit->deck_1 = untold(1, "needs the stiffness of the girders first, or a strain of the deck");
    if (!fit->girder_1.told) return;
    const double girders_m = (1 / fit->girder_1.value - 1) * girder_m;
    const double off_m = hypot(hypot((fit->slope_1.high - fit->slope_1.value) * elastic_m,
                                     work->force_off_1 * elastic_m),
                               (fit->girder_1.high - fit->girder_1.value) * girder_m) +
                         fmax(all->above_m[JACK_BAND_SHARING], all->below_m[JACK_BAND_SHARING]);
    fit->deck_1 = told(stiffness_1(deck_m, more_m - girders_m), 0, 1);
    fit->deck_1.low = stiffness_1(deck_m, more_m - girders_m + off_m);
    fit->deck_1.high = stiffness_1(deck_m, more_m - girders_m - off_m);
}

/* ---- force that is locked ---- */

static void locked_fit(Work *work)
{
    double force_N[3];
    int n = 0;
    work->fit->force_N = untold(work->plan->thrust_N, "no hold was read at the whole thrust");
    work->fit->locked_day = NAN;
    for (int i = work->look.count - 1; i >= 0 && n < 3; i--) {
        const Seen *s = &work->look.seen[i];
        if (s->r->phase != SITE_HELD || s->odd || !look_read(s->force_N)) continue;
        if (n == 0) work->fit->locked_day = s->r->time_day;
        force_N[n++] = s->force_N;
    }
    if (n == 0) return;
    const double gauge_1 = work->fit->gauge_1.told ? work->fit->gauge_1.value : 1;
    const double value_N = gauge_1 * robust_median(n, force_N);
    const double off_N = hypot(work->force_off_1 * value_N, 1.96 * work->look.seen[0].off_N);
    work->fit->force_N = told(value_N, off_N, work->plan->thrust_N);
}

Status site_fit(const SiteDay *day, const SiteReading *reading, int count, SiteOff off,
                Arena *arena, SiteFit *fit, Error *err)
{
    Work work = {.plan = day->plan};
    SiteFit made = {.used = 0};
    work.fit = &made;
    look_make(day, reading, count, arena, &work.look);
    TRY(slope_fit(&work, err));
    gauge_fit(&work);
    work.force_off_1 =
        made.gauge_1.told
            ? made.gauge_1.high - made.gauge_1.value
            : jack_force_error_N(&day->plan->gear, day->plan->thrust_N) / day->plan->thrust_N;
    loop_fit(&work);
    girder_fit(&work);
    deck_fit(&work, off.deck_1, off.girder_1);
    locked_fit(&work);
    *fit = made;
    return STATUS_OK;
}
