/* What the readings say of the deck that was built, and what they cannot tell apart. */
#include <math.h>
#include <string.h>

#include "fit.h"

/* Of load cells, one way; of deck less girders, one standard deviation (common practice, no source). */
static const double cells_1 = 0.01, thermometer_K = 0.3;

SiteValue fit_told(double value, double off, double plan)
{
    return (SiteValue){true, value, value - off, value + off, plan, NULL};
}

SiteValue fit_untold(double plan, const char *why)
{
    return (SiteValue){false, NAN, NAN, NAN, plan, why};
}

static double seat_mid_m(const JackPlan *plan)
{
    return (plan->seating_least_m + plan->seating_most_m) / 2;
}

const JackStep *fit_whole(const JackPlan *plan) { return &plan->step[plan->step_count - 1]; }

/* ---- slope and seating ---- */

/* Friction at the shims takes a part of the opening that does not grow with the force: it looks like seating. */
static double friction_m(const JackPlan *plan)
{
    const JackBand *all = &fit_whole(plan)->opening;
    return fmax(all->below_m[JACK_BAND_FRICTION], all->above_m[JACK_BAND_FRICTION]);
}

static bool warm_read(const Look *look)
{
    int read = 0, of = 0;
    for (int i = 0; i < look->count; i++) {
        of += look->seen[i].first;
        read += look->seen[i].first && look_read(look->seen[i].warm_K);
    }
    return 2 * read > of;
}

/* What shifts all openings alike: zero of the gauge, thermometers or, not read, the whole window. */
static double offset_m(const Work *work)
{
    const JackPlan *plan = work->plan;
    const JackGear *gear = &plan->gear;
    const double zero_N = gear->count * gear->slope_m2 * gear->accuracy_1 * gear->range_Pa;
    const double warm_m = fabs(plan->warmth.move_warm_m);
    const double warm_1 =
        warm_read(&work->look) ? 1.96 * thermometer_K / fmax(plan->warmth.window_K, 1e-6) : 1;
    return hypot(zero_N * fit_whole(plan)->slope_m_per_N, fmin(1, warm_1) * warm_m);
}

/* Temperature that was not read may have drifted by the window on the way up. */
static double drift_1(const Work *work, const double *x, int n)
{
    double least_m = INFINITY, most_m = 0;
    for (int i = 0; i < n; i++) {
        least_m = fmin(least_m, x[2 * i + 1]);
        most_m = fmax(most_m, x[2 * i + 1]);
    }
    if (warm_read(&work->look) || most_m <= least_m) return 0;
    return fabs(work->plan->warmth.move_warm_m) / (most_m - least_m);
}

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
        fit_told(found.value[0],
                 hypot(t * sqrt(found.covariance[0][0]), offset_m(work)) + friction_m(work->plan),
                 seat_mid_m(work->plan));
    work->fit->slope_1 =
        fit_told(found.value[1], hypot(t * sqrt(found.covariance[1][1]), drift_1(work, x, n)), 1);
    return STATUS_OK;
}

/* ---- a second measure ---- */

static bool scale_fit(int n, const double *x, const double *y, double least, SiteValue *value)
{
    RobustFit found;
    if (n < 4 || !robust_fit(n, 1, x, y, least, &found)) return false;
    *value = fit_told(found.value[0],
                      student_quantile(0.975, found.freedom) * sqrt(found.covariance[0][0]), 1);
    return true;
}

static void gauge_fit(Work *work)
{
    double x[SITE_LOOK], y[SITE_LOOK];
    int n = 0;
    for (int i = 0; i < work->look.count && n < ROBUST_FIT_ROWS; i++) {
        const Seen *s = &work->look.seen[i];
        if (!look_read(s->r->cell_N) || !look_read(s->force_N) ||
            s->force_N < work->plan->seated_N || s->r->phase == SITE_BACK)
            continue; /* on the way back the bores push the other way */
        x[n] = s->force_N;
        y[n++] = s->r->cell_N;
    }
    if (!scale_fit(n, x, y, work->look.seen[0].off_N / 2, &work->fit->gauge_1)) {
        work->fit->gauge_1 =
            fit_untold(1, "force and movement alone cannot tell a wrong gauge from "
                          "another stiffness: read load cells, "
                          "or a second calibrated gauge at the jacks");
        return;
    }
    SiteValue *gauge = &work->fit->gauge_1;
    work->cells_off_1 = gauge->high - gauge->value;
    *gauge = fit_told(gauge->value, hypot(work->cells_off_1, cells_1 * gauge->value), 1);
}

/* Straight between the steps of the way up. */
static double rise_expected_m(const JackPlan *plan, const SitePoint *point, double force_N)
{
    const double *const move_m = plan->watch[point->watch].move_m;
    double below_N = 0, below_m = 0;
    for (int i = 0; i < plan->step_count; i++) {
        const double at_N = plan->step[i].force_N;
        if (at_N <= below_N) break; /* the plan goes down again */
        if (force_N <= at_N || i == plan->step_count - 1)
            return below_m + (move_m[i] - below_m) * (force_N - below_N) / (at_N - below_N);
        below_N = at_N;
        below_m = move_m[i];
    }
    return below_m * force_N / below_N;
}

/* Friction leaves a part of the thrust in the deck; the plan's rises are with its middle one. */
static double friction_of_force_1(const JackPlan *plan)
{
    const double loop_N = fit_plan_loop_N(plan, 0.5 * plan->thrust_N);
    const double range_1 = (plan->friction_most_1 - plan->friction_least_1) /
                           fmax(plan->friction_most_1 + plan->friction_least_1, 1e-9);
    return look_read(loop_N) ? loop_N * range_1 / plan->thrust_N : 0;
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
    work->fit->girder_1 = fit_untold(
        1,
        "force and movement alone cannot tell girders from panels: read the rise of the girders in "
        "mid-span, or strains");
    if (!scale_fit(n, x, y, least_m, &rise) || rise.low <= 0) return;
    const double gauge_1 = work->fit->gauge_1.told ? work->fit->gauge_1.value : 1;
    const double value_1 = gauge_1 / rise.value;
    const double off_1 =
        value_1 * (hypot((rise.high - rise.value) / rise.value, work->force_off_1) +
                   friction_of_force_1(work->plan));
    work->fit->girder_1 = fit_told(value_1, off_1, 1);
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
    const JackBand *all = &fit_whole(work->plan)->opening;
    const double elastic_m = all->expected_m - seat_mid_m(work->plan);
    const double deck_m = share_m(all, JACK_BAND_DECK, deck_off_1);
    const double girder_m = share_m(all, JACK_BAND_GIRDER, girder_off_1);
    const double gauge_1 = fit->gauge_1.told ? fit->gauge_1.value : 1;
    const double more_m = (fit->slope_1.value / gauge_1 - 1) * elastic_m;
    fit->deck_alone_1 = stiffness_1(deck_m, more_m);
    fit->girder_alone_1 = stiffness_1(girder_m, more_m);
    fit->gauge_alone_1 = fit->slope_1.value;
    fit->deck_1 =
        fit_untold(1, "needs the stiffness of the girders first, or a strain of the deck");
    if (!fit->girder_1.told) return;
    const double girders_m = (1 / fit->girder_1.value - 1) * girder_m;
    const double off_m = hypot(hypot((fit->slope_1.high - fit->slope_1.value) * elastic_m,
                                     work->force_off_1 * elastic_m),
                               (fit->girder_1.high - fit->girder_1.value) * girder_m) +
                         fmax(all->above_m[JACK_BAND_SHARING], all->below_m[JACK_BAND_SHARING]);
    fit->deck_1 = fit_told(stiffness_1(deck_m, more_m - girders_m), 0, 1);
    fit->deck_1.low = stiffness_1(deck_m, more_m - girders_m + off_m);
    fit->deck_1.high = stiffness_1(deck_m, more_m - girders_m - off_m);
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
    fit_loop(&work);
    girder_fit(&work);
    deck_fit(&work, off.deck_1, off.girder_1);
    fit_locked(&work);
    *fit = made;
    return STATUS_OK;
}
