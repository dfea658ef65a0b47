/* Force against movement: the band, the slope, the last readings against those before, the sides. */
#include <math.h>

#include "look.h"

/* The real line may be bent otherwise than the plan's by that much of the way ahead of the readings that a
 * fit stands on; beyond that, how many standard deviations make a bend, and one reading that is to be read
 * again. Chosen with the tuning seeds of tests/test_site.c (docs/theory/site.md). */
static const double curve_1 = 0.045, bend_z = 4.2, wild_z = 5;

/* ---- band ---- */

/* Once temperatures are read their part of the band is what thermometers leave: half a degree. */
static void band_of(const Look *look, const Seen *s, double *low_m, double *high_m)
{
    const JackPlan *plan = look->day->plan;
    const JackExpect e = jacking_expect(plan, fmax(0, s->force_N));
    double below = 0, above = 0;
    for (int i = 0; i < JACK_BAND_PARTS; i++) {
        double part_1 = 1;
        if (i == JACK_BAND_WARMTH && look_read(s->warm_K))
            part_1 = fmin(1, 0.5 / fmax(plan->warmth.window_K, 1e-6));
        if (i < JACK_BAND_FRICTION) {
            below += part_1 * part_1 * e.opening.below_m[i] * e.opening.below_m[i];
            above += part_1 * part_1 * e.opening.above_m[i] * e.opening.above_m[i];
        }
    }
    below = sqrt(below);
    above = sqrt(above);
    /* nobody knows at which force below `seated` the joints close */
    const double open_1 = fmax(0, 1 - fmax(0, s->force_N) / plan->seated_N);
    above += open_1 * plan->seating_most_m;
    below += open_1 * plan->seating_least_m;
    for (int i = JACK_BAND_FRICTION; i < JACK_BAND_PARTS; i++) {
        below += e.opening.below_m[i];
        above += e.opening.above_m[i];
    }
    *low_m = e.opening.expected_m - below;
    *high_m = e.opening.expected_m + above;
}

static void band(const Look *look, const Seen *s, Findings *list)
{
    double low_m, high_m;
    band_of(look, s, &low_m, &high_m);
    const double margin_m = 2 * s->off_m;
    const bool little = s->open_m<low_m - margin_m, much = s->open_m> high_m + margin_m;
    if (!little && !much) return;
    SiteFinding *f = finding_add(list, little ? SITE_LITTLE : SITE_MUCH, SITE_HOLD, false);
    finding_bounds(f, DIM_LENGTH, s->open_m, low_m, high_m, s->off_m);
    f->words = arena_printf(
        look->arena, "at %s the gap has opened %s%s; %s to %s is what the plan allows for: %s",
        say_force(look, s->force_N), say_move(look, s->open_m),
        look_read(s->warm_K) ? ", temperature taken out" : "", say_move(look, low_m),
        say_move(look, high_m),
        little ? "something binds, or the gauge reads high"
               : "something gives, or the gauge reads low");
}

/* ---- sides ---- */

static void sides(const Look *look, const Seen *s, Findings *list)
{
    const JackPlan *plan = look->day->plan;
    if (!look_read(s->tilt_m) || s->r->step == 0) return;
    double reach_m = 0;
    for (int p = 0; p < look->day->point_count; p++)
        if (look->day->point[p].kind == SITE_GAP)
            reach_m = fmax(reach_m, fabs(look->day->point[p].across_m));
    const double off_m = s->off_m; /* of a dial at an edge, about */
    const double force_N = look_read(s->force_N) ? s->force_N : plan->step[s->r->step - 1].force_N;
    const double expect_m = fmax(0, force_N) / plan->thrust_N * plan->tilt_m;
    if (fabs(s->tilt_m - expect_m) <= plan->alarm.sides_m + 2 * off_m || reach_m == 0) return;
    SiteFinding *f = finding_add(list, SITE_SIDES, SITE_HOLD, false);
    finding_bounds(f, DIM_LENGTH, s->tilt_m, expect_m - plan->alarm.sides_m,
                   expect_m + plan->alarm.sides_m, off_m);
    f->words =
        arena_printf(look->arena, "the %s edge is ahead by %s, the plan says %s and allows %s more",
                     s->tilt_m > expect_m ? "right" : "left", say_move(look, fabs(s->tilt_m)),
                     say_move(look, fabs(expect_m)), say_move(look, plan->alarm.sides_m));
}

static void dial(const Look *look, const Seen *s, Findings *list)
{
    if (s->wild < 0) return;
    SiteFinding *f = finding_add(list, SITE_DIAL, SITE_AGAIN, true);
    f->point = s->wild;
    finding_bounds(f, DIM_LENGTH, s->point_m[s->wild], s->point_m[s->wild] - s->wild_m,
                   s->point_m[s->wild] - s->wild_m, s->off_m);
    f->words = arena_printf(look->arena,
                            "dial %d alone is %s off what it and the others showed before: read it "
                            "again; if it was moved "
                            "or set anew, keep a reading of phase reset",
                            s->wild + 1, say_move(look, s->wild_m));
}

void find_movement(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    if (!look_read(s->open_m) || (!look_read(s->force_N) && s->r->phase != SITE_NUTS)) return;
    if (s->first) band(look, s, list);
    if (s->first || s->r->phase != SITE_PUMP) sides(look, s, list);
    dial(look, s, list);
}

/* ---- slope ---- */

static void slope_whole(const Look *look, int at, Findings *list)
{
    const double most_1 = look->day->plan->alarm.movement_1;
    Line line;
    if (!look_line(look, at + 1, &line) || line.used < 6 || !line.fit.bounded) return;
    const bool flat = line.fit.high<1 - most_1, steep = line.fit.low> 1 + most_1;
    if (!flat && !steep) return;
    SiteFinding *f = finding_add(list, flat ? SITE_FLAT : SITE_STEEP, SITE_HOLD, true);
    finding_bounds(f, DIM_NONE, line.fit.slope, 1 - most_1, 1 + most_1,
                   (line.fit.high - line.fit.low) / (2 * 1.96));
    f->words = arena_printf(
        look->arena,
        "movement for force is %.2f of the plan's (95 %%: %.2f to %.2f); %.2f to %.2f is "
        "allowed",
        line.fit.slope, line.fit.low, line.fit.high, 1 - most_1, 1 + most_1);
}

/* How far a reading is off a line of readings before it, and one standard deviation of that: `shared` what
 * the fit leaves open there, `off` with the reading's own; `curve` what a bend may explain. */
typedef struct Away {
    double away_m, shared_m, off_m, curve_m;
} Away;

static Away away_from(const Line *line, const Seen *s)
{
    const double slope_off_1 = (line->fit.high - line->fit.low) / (2 * 1.96);
    const double centre_m = s->expect_m - line->centre_m;
    const double ahead_m = fmax(0, s->expect_m - line->last_m);
    Away away = {.away_m = s->open_m - line->fit.level - line->fit.slope * s->expect_m};
    away.shared_m = fabs(slope_off_1 * centre_m);
    away.curve_m = curve_1 * ahead_m;
    away.off_m = hypot(away.shared_m, line->spread_m);
    return away;
}

static bool beyond(const Away *away, double z)
{
    return fabs(away->away_m) > z * away->off_m + away->curve_m;
}

static void bent(const Look *look, const Seen *s, double away_m, double off_m, bool at_once,
                 Findings *list)
{
    SiteFinding *f =
        finding_add(list, away_m < 0 ? SITE_BENT_FLAT : SITE_BENT_STEEP, SITE_HOLD, true);
    finding_bounds(f, DIM_LENGTH, away_m, 0, 0, off_m);
    f->words =
        arena_printf(look->arena,
                     "the gap at %s is %s %s than the readings before lead to (%.1f standard "
                     "deviations)%s",
                     say_force(look, s->force_N), say_move(look, fabs(away_m)),
                     away_m < 0 ? "less open" : "more open", fabs(away_m / off_m),
                     at_once ? ", at a stroke" : "");
}

static double dial_off_m(const Seen *s)
{
    return sqrt(fmax(0, s->off_m * s->off_m - pow(s->slope_m_per_N * s->off_N, 2)));
}

static int last_first(const Look *look, int below)
{
    int i = below - 1;
    while (i >= 0 && !look->seen[i].first) i--;
    return i;
}

static void ask_again(const Look *look, const Seen *s, const Away *now, Findings *list)
{
    const double most_m = wild_z * now->off_m + now->curve_m, lead_m = s->open_m - now->away_m;
    SiteFinding *f =
        finding_add(list, now->away_m < 0 ? SITE_BENT_FLAT : SITE_BENT_STEEP, SITE_AGAIN, true);
    finding_bounds(f, DIM_LENGTH, s->open_m, lead_m - most_m, lead_m + most_m, now->off_m);
    f->words = arena_printf(look->arena,
                            "%s open, the readings before lead to %s: misread, or a jump; read all "
                            "again before the pump runs",
                            say_move(look, s->open_m), say_move(look, lead_m));
}

/* One reading off asks to read again; two in a row off the same way stand. */
static bool jump(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    const int was = last_first(look, at);
    Line line;
    if (was < 0) return false;
    if (look_line(look, was, &line)) {
        const Away now = away_from(&line, s), before = away_from(&line, &look->seen[was]);
        if (now.away_m * before.away_m > 0 && beyond(&before, bend_z) && beyond(&now, bend_z)) {
            bent(look, s, now.away_m, now.off_m, true, list);
            return true;
        }
    }
    if (!look_line(look, at, &line)) return false;
    const Away now = away_from(&line, s);
    if (!beyond(&now, wild_z)) return false;
    ask_again(look, s, &now, list);
    return true;
}

enum { BEND_MOST = 18 };
/* The median of the last readings against the line of those before them: what the line leaves open stays,
 * the error of each reading shrinks with their number (a median: 1.57 of a mean's variance). */
static bool bend_over(const Look *look, int at, int window, Findings *list)
{
    double off_m[BEND_MOST], shared_m = 0, curve_m = 0;
    int n = 0, from = at + 1;
    Line line;
    while (n < window && (from = last_first(look, from)) >= 0) n++;
    if (n < window || !look_line(look, from, &line)) return false;
    n = 0;
    for (int i = from; i <= at; i++) {
        if (!look->seen[i].first) continue;
        const Away away = away_from(&line, &look->seen[i]);
        off_m[n++] = away.away_m;
        shared_m += away.shared_m / window;
        curve_m += away.curve_m / window;
    }
    const double middle_m = robust_median(n, off_m);
    const double most_m = hypot(shared_m, line.spread_m * sqrt(1.57 / window));
    if (fabs(middle_m) <= bend_z * most_m + curve_m) return false;
    bent(look, &look->seen[at], middle_m, most_m, false, list);
    return true;
}

static void bend(const Look *look, int at, Findings *list)
{
    static const int windows[] = {4, 6, 9, 13, BEND_MOST};
    for (size_t w = 0; w < sizeof windows / sizeof *windows; w++)
        if (bend_over(look, at, windows[w], list)) return;
}

/* Before there is a line: less force than before with the gap opened further. */
static bool contrary(const Look *look, int at)
{
    const Seen *s = &look->seen[at];
    const int was = last_first(look, at);
    if (was < 0) return false;
    const Seen *before = &look->seen[was];
    return s->force_N < 0.95 * before->force_N - wild_z * s->off_N &&
           s->raw_m > before->raw_m + wild_z * dial_off_m(s);
}

/* A reading on the way up below what was reached: mistyped, or really on the way back. */
static void dropped(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    Line line;
    if (s->r->phase != SITE_PUMP || s->r->step == 0) return;
    if (look_line(look, at, &line)) {
        const Away now = away_from(&line, s);
        if (beyond(&now, wild_z)) ask_again(look, s, &now, list);
    } else if (contrary(look, at)) {
        SiteFinding *f = finding_add(list, SITE_IMPOSSIBLE, SITE_AGAIN, true);
        finding_bounds(f, DIM_FORCE, s->force_N, look->seen[last_first(look, at)].force_N, NAN,
                       s->off_N);
        f->words =
            arena_printf(look->arena,
                         "%s is less than before, but the gap opened further: mistyped, or on "
                         "the way back",
                         say_force(look, s->force_N));
    }
}

void find_slope(const Look *look, int at, Findings *list)
{
    if (!look_read(look->seen[at].open_m) || !look_read(look->seen[at].expect_m)) return;
    if (!look->seen[at].first) {
        dropped(look, at, list);
        return;
    }
    slope_whole(look, at, list);
    if (!jump(look, at, list)) bend(look, at, list);
}
