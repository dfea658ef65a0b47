/* Readings as force, opening and temperature since the zero reading; lines through many of them. */
#include <math.h>
#include <string.h>

#include "look.h"

/* A needle lags behind the pump, by that share of the thrust, one standard deviation (common practice, no
 * source). */
static const double lag_1 = 0.003;

bool look_read(double value) { return isfinite(value); }

/* ---- one reading ---- */

static double force_of(const JackGear *gear, const SiteReading *r)
{
    double sum_N = 0;
    for (int j = 0; j < gear->count; j++) {
        const double pressure_Pa = r->pressure_Pa[gear->set[j] - 1];
        if (!look_read(pressure_Pa)) return NAN;
        sum_N += jack_force_N(gear, pressure_Pa);
    }
    return sum_N;
}

static double warm_of(const SiteReading *zero, const SiteReading *r)
{
    const double warm_K = r->deck_K - r->girder_K - (zero->deck_K - zero->girder_K);
    return look_read(warm_K) ? warm_K : (double)NAN;
}

/* Opening in the middle and over the width: by the median of slopes over the dials. */
static void plane_fit(const SiteDay *day, const double *point_m, int left_out, Seen *seen)
{
    double x[SITE_POINTS], y[SITE_POINTS];
    RobustLine line;
    int n = 0;
    for (int p = 0; p < day->point_count; p++) {
        if (day->point[p].kind != SITE_GAP || p == left_out || !look_read(point_m[p])) continue;
        x[n] = day->point[p].across_m;
        y[n++] = point_m[p];
    }
    seen->raw_m = n == 1 ? y[0] : (double)NAN;
    seen->tilt_m = NAN;
    if (n < 2 || !robust_line(n, x, y, 0.95, &line)) return;
    double level[SITE_POINTS];
    for (int i = 0; i < n; i++) level[i] = y[i] - line.slope * x[i];
    seen->raw_m = robust_median(n, level);
    seen->tilt_m = line.slope * day->plan->width_m;
}

static double dial_m(const SiteDay *day)
{
    double most_m = 0;
    int n = 0;
    for (int p = 0; p < day->point_count; p++)
        if (day->point[p].kind == SITE_GAP) {
            most_m = fmax(most_m, day->point[p].division_m);
            n++;
        }
    return fmax(1e-4, 0.5 * most_m) / sqrt(fmax(1, n));
}

/* A gauge is read to half a division: a fifth of a division is one standard deviation, with the needle's
 * unrest (common practice, no source). */
static double force_off(const JackGear *gear)
{
    return 0.2 * gear->count * gear->slope_m2 * gear->division_Pa;
}

double look_thermal_N_per_K(const JackPlan *plan)
{
    return (plan->warmth.locked_warm_N - plan->warmth.locked_cold_N) / (2 * plan->warmth.swing_K);
}

static void opening_fill(const Look *look, Seen *seen, int left_out)
{
    const JackPlan *plan = look->day->plan;
    plane_fit(look->day, seen->point_m, left_out, seen);
    seen->open_m = seen->raw_m;
    if (!look_read(seen->raw_m) || !look_read(seen->warm_K)) return;
    /* warmer: the gap closes under the same force */
    const double per_K = (plan->warmth.move_warm_m - plan->warmth.move_cold_m) /
                         (2 * fmax(plan->warmth.window_K, 1e-6));
    const double share_1 = fmin(1, fmax(0, seen->force_N) / plan->seated_N);
    seen->open_m = seen->raw_m - share_1 * per_K * seen->warm_K;
}

void look_one(const Look *look, const SiteReading *r, Seen *seen)
{
    const SiteDay *day = look->day;
    *seen = (Seen){.r = r, .wild = -1, .wild_m = NAN};
    seen->force_N = r->phase == SITE_NUTS ? (double)NAN : force_of(&day->plan->gear, r);
    seen->warm_K = look->zero ? warm_of(look->zero, r) : (double)NAN;
    for (int p = 0; p < SITE_POINTS; p++)
        seen->point_m[p] =
            look->zero && p < day->point_count ? r->move_m[p] - look->zero->move_m[p] : (double)NAN;
    seen->expect_m = seen->slope_m_per_N = NAN;
    if (look_read(seen->force_N)) {
        const JackExpect expect = jacking_expect(day->plan, fmax(0, seen->force_N));
        seen->expect_m = expect.opening.expected_m;
        seen->slope_m_per_N = expect.slope_m_per_N;
    }
    if (look_read(seen->force_N) || r->phase == SITE_NUTS)
        opening_fill(look, seen, -1);
    else
        seen->raw_m = seen->open_m = seen->tilt_m = NAN;
    seen->off_N = force_off(&day->plan->gear);
    if (r->phase == SITE_PUMP && r->step > 0)
        seen->off_N = hypot(seen->off_N, lag_1 * day->plan->thrust_N);
    seen->off_m = dial_m(day);
    if (look_read(seen->slope_m_per_N))
        seen->off_m = hypot(seen->off_m, fabs(seen->slope_m_per_N) * seen->off_N);
}

/* ---- lines ---- */

static bool seated(const Look *look, const Seen *seen)
{
    return seen->first && look_read(seen->open_m) &&
           seen->force_N >= 0.98 * look->day->plan->seated_N;
}

/* Neighbours share a place where there are more than a line takes: medians of groups. */
static int thin(int n, double *x, double *y)
{
    if (n <= ROBUST_LINE_MAX) return n;
    for (int g = 0; g < ROBUST_LINE_MAX; g++) {
        const int from = g * n / ROBUST_LINE_MAX, to = (g + 1) * n / ROBUST_LINE_MAX;
        x[g] = robust_median(to - from, x + from);
        y[g] = robust_median(to - from, y + from);
    }
    return ROBUST_LINE_MAX;
}

bool look_line(const Look *look, int count, Line *line)
{
    double x[SITE_LOOK], y[SITE_LOOK], left[ROBUST_LINE_MAX];
    int n = 0;
    for (int i = 0; i < count; i++) {
        if (!seated(look, &look->seen[i])) continue;
        x[n] = look->seen[i].expect_m;
        y[n++] = look->seen[i].open_m;
    }
    line->used = n;
    if (n < 5) return false;
    line->last_m = x[n - 1];
    n = thin(n, x, y);
    if (!robust_line(n, x, y, 0.95, &line->fit)) return false;
    for (int i = 0; i < n; i++) left[i] = y[i] - line->fit.level - line->fit.slope * x[i];
    line->spread_m = fmax(robust_spread(n, left), look->seen[count - 1].off_m);
    line->centre_m = robust_median(n, x);
    return true;
}

bool look_point(const Look *look, int at, int point, double *expect_m, double *off_m)
{
    double x[SITE_LOOK], y[SITE_LOOK], left[ROBUST_LINE_MAX];
    RobustLine line;
    int n = 0;
    for (int i = 0; i < at; i++) {
        const Seen *s = &look->seen[i];
        if (!s->first || !look_read(s->point_m[point]) || s->force_N < look->day->plan->seated_N)
            continue;
        x[n] = s->expect_m;
        y[n++] = s->point_m[point];
    }
    if (n < 5) return false;
    n = thin(n, x, y);
    if (!robust_line(n, x, y, 0.95, &line)) return false;
    for (int i = 0; i < n; i++) left[i] = y[i] - line.level - line.slope * x[i];
    const double ahead_m = look->seen[at].expect_m - robust_median(n, x);
    *expect_m = line.level + line.slope * look->seen[at].expect_m;
    *off_m = hypot(fmax(robust_spread(n, left), look->seen[at].off_m),
                   0.25 * (line.high - line.low) * ahead_m);
    return true;
}

/* Friction turns first: just below the top the force falls more than the gap says. */
double look_stiff_N_per_m(const JackPlan *plan)
{
    const double up = 1 / plan->step[plan->step_count - 1].slope_m_per_N;
    if (plan->return_count < 1) return up;
    const JackReturn *back = &plan->back[plan->return_count - 1];
    const JackStep *top = &plan->step[back->from_step];
    const double falls_N = top->force_N - back->force_N[0];
    const double closes_m = top->opening.expected_m - back->opening_m[0];
    return fmax(up, closes_m > falls_N / (10 * up) ? falls_N / closes_m : 10 * up);
}

/* ---- all ---- */

/* In a hold a dial stays where most of the readings before have it: up to three of the hold, and the last on
 * the way to it. */
static bool hold_point(const Look *look, int at, int point, double *expect_m, double *off_m)
{
    const Seen *s = &look->seen[at];
    double was_m[3];
    int n = 0, alike = 0;
    bool on = true;
    *off_m = fmax(2e-4, look->day->point[point].division_m);
    for (int i = at - 1; i >= 0 && n < 3 && on; i--) {
        const Seen *was = &look->seen[i];
        on = was->r->phase != SITE_PUMP;
        if (was->r->step != s->r->step || was->r->phase == SITE_BACK) break;
        if (!look_read(was->point_m[point])) continue;
        was_m[n++] = was->point_m[point];
        alike += fabs(was->point_m[point] - s->point_m[point]) < 3 * *off_m + 0.5e-3;
    }
    if (n < 1) return false;
    *expect_m = 2 * alike >= n ? s->point_m[point] : robust_median(n, was_m);
    return true;
}

static bool on_line(const Seen *s)
{
    return s->first || (s->r->phase == SITE_RESET && look_read(s->expect_m));
}

/* Before dials have lines of their own: four or more must stand on a straight edge. */
static bool edge_point(const Look *look, int at, int point, double *expect_m, double *off_m)
{
    const Seen *s = &look->seen[at];
    int dials = 0;
    for (int p = 0; p < look->day->point_count; p++)
        dials += look->day->point[p].kind == SITE_GAP && look_read(s->point_m[p]);
    if (dials < 4) return false;
    *expect_m = s->raw_m + s->tilt_m / look->day->plan->width_m * look->day->point[point].across_m;
    *off_m = fmax(3e-4, 2 * look->day->point[point].division_m);
    return true;
}

/* One dial alone is off where all others keep to their own lines; -1: none. */
static int wild_of(const Look *look, int at, int *others, double *wild_m)
{
    const Seen *s = &look->seen[at];
    const bool held = s->r->phase == SITE_HELD || s->r->phase == SITE_NUTS;
    int wild = -1;
    double expect_m, off_m;
    *others = 0;
    for (int p = 0; p < look->day->point_count; p++) {
        if (look->day->point[p].kind != SITE_GAP || !look_read(s->point_m[p])) continue;
        if (!(held && hold_point(look, at, p, &expect_m, &off_m)) &&
            !(on_line(s) && look_point(look, at, p, &expect_m, &off_m)) &&
            !edge_point(look, at, p, &expect_m, &off_m))
            return -1;
        const double away_m = s->point_m[p] - expect_m;
        if (fabs(away_m) < 3 * off_m + 0.5e-3) {
            ++*others;
        } else {
            if (wild >= 0 || fabs(away_m) < 5 * off_m + 1e-3) return -1;
            wild = p;
            *wild_m = away_m;
        }
    }
    return *others ? wild : -1;
}

static void wild_find(const Look *look, int at)
{
    Seen *s = &look->seen[at];
    double wild_m = NAN;
    int others;
    if (!s->first && s->r->phase != SITE_HELD && s->r->phase != SITE_NUTS) return;
    const int wild = wild_of(look, at, &others, &wild_m);
    if (wild < 0) return;
    s->wild = wild;
    s->wild_m = wild_m;
    if (others >= 2) opening_fill(look, s, wild);
}

/* A dial that alone is off is set back to the line of the others. Else all of them, the pump still since the
 * reading before: that what they show is where they stood. */
static void reset_apply(const Look *look, int at)
{
    Seen *s = &look->seen[at];
    const Seen *was = at > 0 ? &look->seen[at - 1] : NULL;
    double *const shift_m = ARENA_NEW(look->arena, double, SITE_POINTS), wild_m = NAN;
    int others;
    if (!was) return;
    const bool still =
        fabs(s->force_N - was->force_N) <= 4 * s->off_N + 0.005 * look->day->plan->thrust_N ||
        was->r->phase == SITE_NUTS;
    const int wild = wild_of(look, at, &others, &wild_m);
    if (wild >= 0 && others >= 2) {
        shift_m[wild] = wild_m;
    } else if (still) {
        for (int p = 0; p < look->day->point_count; p++)
            if (look_read(s->point_m[p]) && look_read(was->point_m[p]))
                shift_m[p] = s->point_m[p] - was->point_m[p];
    } else {
        return;
    }
    s->shift_m = shift_m;
    for (int i = at; i < look->count; i++) {
        Seen *later = &look->seen[i];
        for (int p = 0; p < SITE_POINTS; p++) later->point_m[p] -= shift_m[p];
        if (look_read(later->raw_m)) opening_fill(look, later, -1);
    }
}

static const SiteReading *zero_of(const SiteReading *reading, int count)
{
    for (int i = 0; i < count; i++)
        if (!reading[i].struck && reading[i].step == 0) return &reading[i];
    return NULL;
}

/* One force mistyped too high does not end the first loading: the second highest counts. */
static void firsts_find(const Look *look)
{
    double most_N = 0, second_N = 0;
    for (int i = 0; i < look->count; i++) {
        Seen *s = &look->seen[i];
        Findings none = {.count = 0};
        if (!look_read(s->force_N) || !look_read(s->expect_m)) continue;
        s->first = s->r->phase == SITE_PUMP && s->r->step > 0 &&
                   s->force_N >= second_N - 3 * s->off_N && look_read(s->raw_m);
        if (s->first) find_impossible(look, i, &none);
        if (none.count) s->first = false;
        if (!s->first) continue;
        second_N = fmax(second_N, fmin(most_N, s->force_N));
        most_N = fmax(most_N, s->force_N);
    }
}

/* Those are never left out: what comes after counts from them. */
static int resets(const SiteReading *reading, int count)
{
    int n = 0;
    for (int i = 0; i < count; i++) n += reading[i].phase == SITE_RESET;
    return n;
}

void look_make(const SiteDay *day, const SiteReading *reading, int count, Arena *arena, Look *look)
{
    const int recent = SITE_LOOK / 2, early = SITE_LOOK - recent;
    const int before = count > SITE_LOOK ? count - recent : 0;
    *look = (Look){.day = day, .arena = arena, .zero = zero_of(reading, count)};
    look->seen = ARENA_NEW(arena, Seen, SITE_LOOK + resets(reading, count));
    for (int i = 0, k = 0; i < before; i++) {
        const bool sampled = k < early && i == (int)((long)k * before / early);
        k += sampled;
        if (!reading[i].struck && (sampled || reading[i].phase == SITE_RESET))
            look_one(look, &reading[i], &look->seen[look->count++]);
    }
    for (int i = before; i < count; i++)
        if (!reading[i].struck) look_one(look, &reading[i], &look->seen[look->count++]);
    firsts_find(look);
    for (int i = 0; i < look->count; i++) {
        Odd odd;
        Seen *s = &look->seen[i];
        if (s->r->phase == SITE_RESET) reset_apply(look, i);
        s->odd = hold_odd(look, i, &odd) && !(i > 0 && s[-1].odd && s[-1].r->step == s->r->step);
        if (look->seen[i].r->phase == SITE_HELD || i >= look->count - 6) wild_find(look, i);
    }
}
