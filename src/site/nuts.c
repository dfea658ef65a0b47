/* On the nuts: no gauge tells of the force, the gap does. It stands as long as nuts, packing and anchors do:
 * temperature and creep change the force alone. */
#include <math.h>

#include "look.h"

static const double nuts_z = 4;

/* Middle of the gap's openings of up to three readings from `i` on, forwards or back; NAN: none. */
static double middle_m(const Look *look, int i, int by, SitePhase phase, int to)
{
    double m[3];
    int n = 0;
    for (; i != to && n < 3; i += by) {
        const Seen *s = &look->seen[i];
        if (s->r->phase == phase && look_read(s->raw_m)) m[n++] = s->raw_m;
        if (s->r->phase != phase && s->r->phase != SITE_RESET) break;
    }
    return n ? robust_median(n, m) : (double)NAN;
}

static int nuts_start(const Look *look, int at)
{
    int from = at;
    while (
        from > 0 && look->seen[from - 1].r->step == look->seen[at].r->step &&
        (look->seen[from - 1].r->phase == SITE_NUTS || look->seen[from - 1].r->phase == SITE_RESET))
        from--;
    return from;
}

/* What the deck lost in going over to the nuts, against what a hold may fall by. */
static void went_over(const Look *look, int at, int from, Findings *list)
{
    const JackPlan *plan = look->day->plan;
    const Seen *s = &look->seen[at];
    const JackStep *step = &plan->step[s->r->step - 1];
    const double before_m = middle_m(look, from - 1, -1, SITE_HELD, -1);
    const double closes_m = before_m - s->raw_m;
    const double off_m = s->off_m * sqrt(2), stiff = look_stiff_N_per_m(plan);
    const double most_m = plan->alarm.drop_1 * step->force_N / stiff;
    if (!look_read(closes_m) || closes_m <= fmax(most_m, nuts_z * off_m)) return;
    SiteFinding *f = finding_add(list, SITE_FALL, SITE_HOLD, false);
    finding_bounds(f, DIM_LENGTH, -closes_m, -most_m, NAN, off_m);
    f->words = arena_printf(
        look->arena,
        "onto the nuts the gap closed by %s: up to %s of force are gone; pump until the "
        "nuts come free and set them down again",
        say_move(look, closes_m), say_force(look, closes_m * stiff));
}

static void moves_on(const Look *look, int at, int from, Findings *list)
{
    const Seen *s = &look->seen[at];
    const JackStep *step = &look->day->plan->step[s->r->step - 1];
    const double opens_m = s->raw_m - middle_m(look, from, 1, SITE_NUTS, at);
    const double off_m = s->off_m * sqrt(2);
    const double most_m = nuts_z * off_m + 0.005 * step->opening.expected_m;
    if (!look_read(opens_m) || fabs(opens_m) <= most_m) return;
    const bool closes = opens_m < 0;
    SiteFinding *f =
        finding_add(list, closes ? SITE_FALL : SITE_LATER, closes ? SITE_HOLD : SITE_STOP, false);
    finding_bounds(f, DIM_LENGTH, opens_m, -most_m, most_m, off_m);
    f->words =
        closes
            ? arena_printf(look->arena,
                           "on the nuts the gap closed by %s: up to %s of force are gone",
                           say_move(look, -opens_m),
                           say_force(look, -opens_m * look_stiff_N_per_m(look->day->plan)))
            : arena_printf(look->arena, "on the nuts the gap opened further by %s: something gives",
                           say_move(look, opens_m));
}

/* Cells between jacks and nuts go on telling the force. */
static void cells_fall(const Look *look, int at, int from, Findings *list)
{
    const JackPlan *plan = look->day->plan;
    const Seen *s = &look->seen[at], *was = from > 0 ? &look->seen[from - 1] : NULL;
    if (!was || was->r->phase != SITE_HELD || !look_read(was->r->cell_N)) return;
    const double falls_N = was->r->cell_N - s->r->cell_N;
    const JackStep *step = &plan->step[s->r->step - 1];
    const double warm_N = look_thermal_N_per_K(plan) * (s->warm_K - was->warm_K);
    const double most_N =
        plan->alarm.drop_1 * step->force_N +
        hold_creep_N(plan, step, s->r->time_day - was->r->time_day) +
        (look_read(warm_N) ? fmax(0, -warm_N) : look_thermal_N_per_K(plan) * plan->warmth.window_K);
    if (!look_read(falls_N) || falls_N <= most_N) return;
    SiteFinding *f = finding_add(list, SITE_FALL, SITE_HOLD, false);
    finding_bounds(f, DIM_FORCE, falls_N, NAN, most_N, s->off_N);
    f->words = arena_printf(look->arena, "on the nuts the load cells fell by %s; %s is explained",
                            say_force(look, falls_N), say_force(look, most_N));
}

void find_nuts(const Look *look, int at, Findings *list)
{
    const Seen *s = &look->seen[at];
    if (s->r->phase != SITE_NUTS || s->r->step < 1) return;
    const int from = nuts_start(look, at);
    if (look_read(s->raw_m)) {
        went_over(look, at, from, list);
        moves_on(look, at, from, list);
    }
    cells_fall(look, at, from, list);
}
