/* What cannot be, what is missing, and limits that one reading is enough to pass. */
#include <math.h>

#include "look.h"

SiteFinding *finding_add(Findings *list, SiteKind kind, SiteCall call, bool stands)
{
    const int at = list->count < SITE_FINDINGS ? list->count++ : SITE_FINDINGS - 1;
    SiteFinding *f = &list->item[at];
    *f = (SiteFinding){.kind = kind, .call = call, .point = -1, .words = ""};
    f->value = f->low = f->high = NAN;
    list->stands[at] = stands;
    return f;
}

void finding_bounds(SiteFinding *f, DimensionId dimension, double value, double low, double high,
                    double off)
{
    f->dimension = dimension;
    f->value = value;
    f->low = low;
    f->high = high;
    f->off = off;
    double beyond = 0;
    if (isfinite(low) && value < low) beyond = low - value;
    if (isfinite(high) && value > high) beyond = value - high;
    f->sure_1 = off > 0 ? normal_share(beyond / off) : 1;
}

/* ---- what cannot be ---- */

typedef struct Slip {
    double factor_1;
    const char *words;
} Slip;

/* Read in one unit, typed as another; a digit too many or too few. */
static const Slip slips[] = {
    {6.894757, "psi and kPa, or ksi and MPa, changed over"},
    {14.50377, "bar and psi changed over"},
    {145.0377, "MPa and psi changed over"},
    {10, "a digit too many or too few, or bar and MPa changed over"},
    {14.22334, "kgf/cm\xC2\xB2 and psi changed over"},
    {25.4, "inches and millimetres changed over"},
    {2.54, "inches and centimetres changed over"},
    {100, "two digits too many or too few"},
};

static const char *slip_words(double ratio_1)
{
    const char *const mistyped = "mistyped, or another gauge was read", *words = NULL;
    if (!(ratio_1 > 0)) return mistyped;
    const double size_1 = ratio_1 > 1 ? ratio_1 : 1 / ratio_1;
    double best = log(1.13);
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        const double away = fabs(log(size_1 / slips[i].factor_1));
        if (away < best) {
            best = away;
            words = slips[i].words;
        }
    }
    return words ? words : mistyped;
}

static void cannot(const Look *look, Findings *list, DimensionId dimension, double value,
                   double low, double high, const char *words)
{
    SiteFinding *f = finding_add(list, SITE_IMPOSSIBLE, SITE_AGAIN, true);
    finding_bounds(f, dimension, value, low, high, 0);
    f->words = words;
    (void)look;
}

static void pressures(const Look *look, const Seen *s, Findings *list)
{
    const JackGear *gear = &look->day->plan->gear;
    for (int k = 0; k < gear->sets; k++) {
        const double p = s->r->pressure_Pa[k];
        if (!look_read(p) || (p >= 0 && p <= 1.02 * gear->range_Pa)) continue;
        cannot(look, list, DIM_STRESS, p, 0, gear->range_Pa,
               arena_printf(look->arena, "set %d: %s is not on the gauge, which ends at %s: %s",
                            k + 1, say_pressure(look, p), say_pressure(look, gear->range_Pa),
                            s->r->step > 0 && p > 0
                                ? slip_words(p / look->day->plan->step[s->r->step - 1].pressure_Pa)
                                : "mistyped"));
    }
}

/* What most of the readings before say, of those that are far from `now_K`; NAN: as now. */
static double degrees_before(const Look *look, int at, int which, double now_K)
{
    double was_K[5];
    int n = 0, far = 0;
    for (int i = at - 1; i >= 0 && n < 5; i--) {
        const SiteReading *r = look->seen[i].r;
        const double value_K = which == 0 ? r->deck_K : r->girder_K;
        if (!look_read(value_K)) continue;
        was_K[n++] = value_K;
        far += fabs(value_K - now_K) > 10;
    }
    return 2 * far > n ? robust_median(n, was_K) : (double)NAN;
}

static void degrees(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    const double now[2] = {s->r->deck_K, s->r->girder_K};
    for (int k = 0; k < 2; k++) {
        if (!look_read(now[k])) continue;
        const double was_K = degrees_before(look, at, k, now[k]);
        const bool jumps = look_read(was_K);
        if (now[k] > 230 && now[k] < 345 && !jumps) continue;
        cannot(look, list, DIM_TEMPERATURE, now[k], 230, 345,
               arena_printf(look->arena,
                            "%s at %.0f \xC2\xB0"
                            "C%s: degrees of another scale, or mistyped",
                            k == 0 ? "the deck" : "the girders", now[k] - 273.15,
                            jumps ? arena_printf(look->arena,
                                                 ", %.0f \xC2\xB0"
                                                 "C before",
                                                 was_K - 273.15)
                                  : ""));
    }
}

/* Gauge and gap contradict each other by far more than a band: one of them is not what was read. */
static void contradict(const Look *look, const Seen *s, Findings *list)
{
    if (s->r->phase == SITE_BACK || s->r->phase == SITE_RESET || s->r->step == 0) return;
    if (!look_read(s->raw_m) || !look_read(s->expect_m)) return;
    const JackStep *step = &look->day->plan->step[s->r->step - 1];
    const double size_m = fmax(fabs(s->raw_m), s->expect_m);
    const JackExpect e = jacking_expect(look->day->plan, fmax(0, s->force_N));
    const double low_m = e.opening.low_m - 0.35 * size_m - 3e-3;
    const double high_m = e.opening.high_m + 0.35 * size_m + 3e-3;
    if (s->raw_m >= low_m && s->raw_m <= high_m) return;
    const double force_1 = s->force_N / step->force_N, gap_1 = s->raw_m / step->opening.expected_m;
    const bool gauge = force_1 < 0.3 || force_1 > 1.4; /* which of them does not suit the step */
    const double ratio_1 = gauge ? force_1 : fmax(gap_1, 1e-6);
    cannot(look, list, DIM_LENGTH, s->raw_m, low_m, high_m,
           arena_printf(
               look->arena,
               "gauge and gap contradict each other: %s with %s open, %s is expected at that "
               "force. The %s does not suit step %d: %s",
               say_force(look, s->force_N), say_move(look, s->raw_m), say_move(look, s->expect_m),
               gauge ? "gauge" : "gap", s->r->step, slip_words(ratio_1)));
}

static void dials(const Look *look, const Seen *s, Findings *list)
{
    const double most_m = look->day->plan->gear.stroke_m + 0.05;
    for (int p = 0; p < look->day->point_count; p++) {
        const double m = s->point_m[p];
        if (!look_read(m) || (fabs(m) <= most_m && look->day->point[p].kind == SITE_GAP) ||
            fabs(m) <= fmax(most_m, 0.5))
            continue;
        cannot(look, list, DIM_LENGTH, m, -most_m, most_m,
               arena_printf(look->arena,
                            "dial %d: %s since the zero reading is more than the jacks "
                            "reach: mistyped, or inches and millimetres changed over",
                            p + 1, say_move(look, m)));
    }
}

void find_impossible(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at], *before = at > 0 ? &look->seen[at - 1] : NULL;
    if (s->r->step < 0 || s->r->step > look->day->plan->step_count) {
        cannot(look, list, DIM_NONE, s->r->step, 0, look->day->plan->step_count,
               arena_printf(look->arena, "the plan has no step %d", s->r->step));
        return;
    }
    if (!look_read(s->r->time_day) ||
        (before && look_read(before->r->time_day) && s->r->time_day < before->r->time_day))
        cannot(look, list, DIM_TIME, s->r->time_day, before ? before->r->time_day : (double)NAN,
               (double)NAN, "the time lies before that of the reading before");
    if (s->r->phase == SITE_RESET && !s->shift_m)
        cannot(
            look, list, DIM_NONE, (double)NAN, (double)NAN, (double)NAN,
            "dials set anew, but not at the force of the reading before: what they were moved by "
            "cannot be told; read them before and after, pump still");
    pressures(look, s, list);
    degrees(look, at, list);
    dials(look, s, list);
    if (list->count == 0) contradict(look, s, list);
}

/* ---- limits ---- */

static void missing(const Look *look, const Seen *s, Findings *list)
{
    const char *what = NULL;
    if (!look->zero)
        what = "there is no zero reading: nothing can be judged";
    else if (!look_read(s->force_N) && s->r->phase != SITE_NUTS && s->r->phase != SITE_RESET)
        what = "the pressure of a set was not read";
    else if (!look_read(s->raw_m) && s->r->phase != SITE_RESET)
        what = "no dial of the gap was read, now or at the zero reading";
    if (!what) return;
    SiteFinding *f = finding_add(list, SITE_MISSING, look->zero ? SITE_AGAIN : SITE_HOLD, true);
    f->sure_1 = 1;
    f->words = what;
}

/* Of gauges that show it: what is not on the gauge was not read there. */
void find_pressure(const Look *look, const Seen *s, Findings *list)
{
    const JackGear *gear = &look->day->plan->gear;
    for (int k = 0; k < gear->sets; k++) {
        const double p = s->r->pressure_Pa[k];
        const double each_N = look_read(p) ? jack_force_N(gear, p) : 0;
        if (!look_read(p) || p > 1.02 * gear->range_Pa) continue;
        if (p <= gear->highest_Pa && each_N <= gear->rated_N) continue;
        const double most_Pa = fmin(gear->highest_Pa, jack_pressure_Pa(gear, gear->rated_N));
        SiteFinding *f = finding_add(list, SITE_PRESSURE, SITE_STOP, true);
        finding_bounds(f, DIM_STRESS, p, NAN, most_Pa, 0.2 * gear->division_Pa);
        f->words = arena_printf(look->arena, "set %d reads %s; the jacks bear %s", k + 1,
                                say_pressure(look, p), say_pressure(look, most_Pa));
    }
}

/* Beyond the step by more than reading, and a fiftieth (common practice, no source). */
static void force(const Look *look, const Seen *s, Findings *list)
{
    if (!look_read(s->force_N)) return;
    const JackPlan *plan = look->day->plan;
    const double step_N = s->r->step > 0 ? plan->step[s->r->step - 1].force_N : 0;
    double most_N = step_N + fmax(4 * s->off_N, 0.02 * step_N);
    if (s->r->phase == SITE_HELD) /* the hold's own rule tells why it rises */
        most_N = plan->thrust_N * (1 + plan->alarm.force_1) + 2 * s->off_N;
    if (s->force_N <= most_N) return;
    const bool over = s->force_N > plan->thrust_N * (1 + plan->alarm.force_1) + 2 * s->off_N;
    SiteFinding *f = finding_add(list, SITE_FORCE, over ? SITE_STOP : SITE_HOLD, false);
    finding_bounds(f, DIM_FORCE, s->force_N, NAN, most_N, s->off_N);
    f->words = arena_printf(look->arena, "%s of all jacks; step %d ends at %s",
                            say_force(look, s->force_N), s->r->step, say_force(look, step_N));
}

static void sets(const Look *look, const Seen *s, Findings *list)
{
    const JackGear *gear = &look->day->plan->gear;
    if (s->r->phase == SITE_NUTS) return;
    double low_Pa = INFINITY, high_Pa = -INFINITY;
    for (int k = 0; k < gear->sets; k++) {
        if (!look_read(s->r->pressure_Pa[k])) return;
        low_Pa = fmin(low_Pa, s->r->pressure_Pa[k]);
        high_Pa = fmax(high_Pa, s->r->pressure_Pa[k]);
    }
    /* steering needs up to the alarm; readings of two gauges may be apart by a division */
    const double off_Pa = 0.2 * sqrt(2) * gear->division_Pa;
    const double most_Pa = look->day->plan->alarm.force_1 * high_Pa + 2 * off_Pa;
    if (high_Pa - low_Pa <= most_Pa) return;
    SiteFinding *f = finding_add(list, SITE_SETS, SITE_HOLD, false);
    finding_bounds(f, DIM_STRESS, high_Pa - low_Pa, NAN, most_Pa, off_Pa);
    f->words = arena_printf(look->arena, "sets read %s to %s", say_pressure(look, low_Pa),
                            say_pressure(look, high_Pa));
}

static void cell(const Look *look, const Seen *s, Findings *list)
{
    if (!look_read(s->r->cell_N) || !look_read(s->force_N) || s->r->step == 0) return;
    const double apart_N = s->r->cell_N - s->force_N;
    const double most_N = look->day->plan->alarm.force_1 * fabs(s->force_N) + 2 * s->off_N;
    if (fabs(apart_N) <= most_N) return;
    SiteFinding *f = finding_add(list, SITE_CELL, SITE_HOLD, false);
    finding_bounds(f, DIM_FORCE, apart_N, -most_N, most_N, s->off_N);
    f->words = arena_printf(look->arena, "gauges say %s, load cells %s: believe neither",
                            say_force(look, s->force_N), say_force(look, s->r->cell_N));
}

/* Judged whatever gauge and gap say: the dial needs neither. Without a force, and beyond the step's, the
 * connectors give what they do at the step. */
void find_slips(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    const JackPlan *plan = look->day->plan;
    if (s->r->step < 1 || s->r->step > plan->step_count) return;
    for (int p = 0; p < look->day->point_count; p++) {
        const SitePoint *point = &look->day->point[p];
        if (point->kind != SITE_SLIP || !look_read(s->point_m[p])) continue;
        const JackStep *step = &plan->step[s->r->step - 1];
        const double part_1 =
            look_read(s->force_N) ? fmin(1, fmax(0, s->force_N) / step->force_N) : 1;
        const double give_m = fabs(step->anchor_slip_m[point->side]) * part_1;
        const double most_m = give_m + plan->alarm.slip_m;
        const double slip_m =
            fabs(s->point_m[p]); /* a dial mounted the other way round counts too */
        if (slip_m <= most_m) continue;
        const bool far = slip_m > give_m + plan->alarm.abort_slip_m;
        SiteFinding *f = finding_add(list, SITE_SLIPPED, far ? SITE_STOP : SITE_HOLD, false);
        finding_bounds(f, DIM_LENGTH, slip_m, NAN, most_m, fmax(5e-5, 0.5 * point->division_m));
        f->point = p;
        f->words = arena_printf(
            look->arena, "the %s anchor panel slipped %s; its connectors give %s%s",
            point->side ? "right" : "left", say_move(look, slip_m), say_move(look, give_m),
            s->point_m[p] < 0
                ? ". The dial went against its direction: is it mounted the other way "
                  "round?"
                : "");
    }
}

/* Where the girders stand still, by the plan: they grow to both sides of it in the warmth. */
static double fixed_x_m(const JackPlan *plan)
{
    double x_m = NAN, least_m = INFINITY;
    for (int i = 0; i < plan->watch_count; i++) {
        const double move_m = fabs(plan->watch[i].move_m[plan->step_count - 1]);
        if (!plan->watch[i].bearing || move_m >= least_m) continue;
        least_m = move_m;
        x_m = plan->watch[i].x_m;
    }
    return x_m;
}

/* Movement of a bearing by the girders' own warmth: steel 1.17e-5, concrete 1.08e-5 a kelvin (AASHTO LRFD
 * 6.4.1, 5.4.2.2, from memory); the mean serves. */
static double grown_m(const Look *look, const Seen *s, const JackWatch *watch)
{
    const double warms_K = s->r->girder_K - look->zero->girder_K;
    const double from_m = watch->x_m - fixed_x_m(look->day->plan);
    return watch->bearing && look_read(warms_K) && look_read(from_m) ? 1.12e-5 * warms_K * from_m
                                                                     : 0;
}

/* On the nuts the force is that of the step. */
static double share_of_step_1(const Seen *s, const JackPlan *plan)
{
    return look_read(s->force_N) ? s->force_N / plan->step[s->r->step - 1].force_N : 1;
}

static void watched(const Look *look, const Seen *s, Findings *list)
{
    const JackPlan *plan = look->day->plan;
    const bool stands = s->r->phase == SITE_NUTS || s->r->phase == SITE_HELD;
    if (s->r->step == 0 || !look->zero) return;
    if (!stands && (s->r->phase != SITE_PUMP || !look_read(s->force_N))) return;
    for (int p = 0; p < look->day->point_count; p++) {
        const SitePoint *point = &look->day->point[p];
        if ((point->kind != SITE_RISE && point->kind != SITE_BEARING) || !look_read(s->point_m[p]))
            continue;
        const JackWatch *watch = &plan->watch[point->watch];
        const double expect_m =
            share_of_step_1(s, plan) * watch->move_m[s->r->step - 1] + grown_m(look, s, watch);
        const double whole_m = plan->watch[point->watch].move_m[plan->step_count - 1];
        const double off_m = fmax(1e-4, 0.5 * point->division_m);
        const double most_m =
            point->kind == SITE_RISE
                ? plan->alarm.camber_m
                : plan->alarm.bearing_1 * fmax(fabs(expect_m), 0.25 * fabs(whole_m));
        const double away_m = s->point_m[p] - expect_m;
        if (fabs(away_m) <= most_m + 2 * off_m) continue;
        SiteFinding *f = finding_add(list, SITE_OFFPLAN, SITE_STOP, false);
        finding_bounds(f, DIM_LENGTH, s->point_m[p], expect_m - most_m, expect_m + most_m, off_m);
        f->point = p;
        f->words = arena_printf(look->arena, "%s: %s, the plan says %s",
                                point->kind == SITE_RISE ? "rise of the girders" : "bearing",
                                say_move(look, s->point_m[p]), say_move(look, expect_m));
    }
}

static void stroke(const Look *look, const Seen *s, Findings *list)
{
    const JackPlan *plan = look->day->plan;
    if (!look_read(s->raw_m) || !look_read(s->expect_m) || s->r->step == 0) return;
    const double used_m = s->raw_m + (look_read(s->tilt_m) ? fabs(s->tilt_m) / 2 : 0);
    const double rest_m = plan->step[plan->step_count - 1].opening.expected_m - s->expect_m;
    const double most_m = plan->gear.use_1 * plan->gear.stroke_m;
    const bool out = used_m > 0.95 * plan->gear.stroke_m;
    if (!out && (s->r->phase == SITE_BACK || used_m + fmax(0, rest_m) <= most_m)) return;
    SiteFinding *f = finding_add(list, SITE_STROKE, out ? SITE_STOP : SITE_HOLD, false);
    finding_bounds(f, DIM_LENGTH, out ? used_m : used_m + rest_m, (double)NAN, most_m, s->off_m);
    f->words = arena_printf(look->arena,
                            "%s of stroke used, %s more to the whole thrust; the jacks "
                            "have %s, of which %s may be used",
                            say_move(look, used_m), say_move(look, fmax(0, rest_m)),
                            say_move(look, plan->gear.stroke_m), say_move(look, most_m));
}

static void warm(const Look *look, const Seen *s, Findings *list)
{
    const double apart_K = s->r->deck_K - s->r->girder_K;
    const double most_K = look->day->plan->warmth.window_K, off_K = 0.5;
    if (!look_read(apart_K) || fabs(apart_K) <= most_K) return;
    SiteFinding *f = finding_add(list, SITE_WARM, SITE_HOLD, false);
    finding_bounds(f, DIM_TEMPERATURE_DIFF, apart_K, -most_K, most_K, off_K);
    f->words =
        arena_printf(look->arena,
                     "the deck is %s %s than the girders; jack within %s: locked so, the deck "
                     "%s compression later",
                     say_kelvin(look, fabs(apart_K)), apart_K > 0 ? "warmer" : "colder",
                     say_kelvin(look, most_K), apart_K > 0 ? "loses" : "gains");
}

/* Change of deck less girders in the last hour: the whole 99 % interval of its slope beyond the plan's rate. */
static void warming(const Look *look, int at, Findings *list)
{
    double hour[ROBUST_LINE_MAX], apart_K[ROBUST_LINE_MAX];
    const double most_K = look->day->plan->warmth.rate_K, now_day = look->seen[at].r->time_day;
    RobustLine line;
    int n = 0;
    for (int i = at; i >= 0 && n < ROBUST_LINE_MAX; i--) {
        const SiteReading *r = look->seen[i].r;
        if (!look_read(r->deck_K) || !look_read(r->girder_K) || !look_read(r->time_day)) continue;
        if (now_day - r->time_day > 1.0 / 24) break;
        hour[n] = (r->time_day - now_day) * 24;
        apart_K[n++] = r->deck_K - r->girder_K;
    }
    if (n < 6 || hour[0] - hour[n - 1] < 0.25) return;
    if (!robust_line(n, hour, apart_K, 0.99, &line) || !line.bounded) return;
    if (line.low <= most_K && line.high >= -most_K) return;
    SiteFinding *f = finding_add(list, SITE_WARMING, SITE_HOLD, false);
    finding_bounds(f, DIM_TEMPERATURE_DIFF, line.slope, -most_K, most_K,
                   (line.high - line.low) / (2 * 2.576));
    f->words = arena_printf(
        look->arena,
        "the deck gets %s than the girders by %s an hour; jack while it is %s an hour at most",
        line.slope > 0 ? "warmer" : "colder", say_kelvin(look, fabs(line.slope)),
        say_kelvin(look, most_K));
}

void find_limits(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    missing(look, s, list);
    find_pressure(look, s, list);
    force(look, s, list);
    sets(look, s, list);
    cell(look, s, list);
    find_slips(look, at, list);
    watched(look, s, list);
    stroke(look, s, list);
    warm(look, s, list);
    warming(look, at, list);
}
