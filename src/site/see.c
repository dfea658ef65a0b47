/* What pictures show of the readings. */
#include <math.h>
#include <stdlib.h>

#include "look.h"

static int by_index(const void *a, const void *b)
{
    return ((const SiteSeen *)a)->index - ((const SiteSeen *)b)->index;
}

int site_see(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
             const SiteSeen **seen)
{
    Look look;
    int n = 0;
    look_make(day, reading, count, arena, &look);
    SiteSeen *const list = ARENA_NEW(arena, SiteSeen, look.count + SITE_LOOK);
    for (int i = 0; i < look.count; i++) {
        const Seen *s = &look.seen[i];
        list[n++] = (SiteSeen){(int)(s->r - reading), s->force_N, s->open_m};
    }
    for (int i = count > SITE_LOOK ? count - SITE_LOOK : 0; i < count; i++) {
        Seen s;
        if (!reading[i].struck) continue;
        look_one(&look, &reading[i], &s);
        list[n++] = (SiteSeen){i, s.force_N, s.open_m};
    }
    if (n > 1) qsort(list, (size_t)n, sizeof *list, by_index);
    *seen = list;
    return n;
}

void site_dials(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
                double zero_m[SITE_POINTS])
{
    Look look;
    look_make(day, reading, count, arena, &look);
    for (int p = 0; p < SITE_POINTS; p++) {
        zero_m[p] = NAN;
        for (int i = look.count - 1; i >= 0 && !look_read(zero_m[p]); i--)
            zero_m[p] = look.seen[i].r->move_m[p] - look.seen[i].point_m[p];
    }
}

static int last_held(const Look *look)
{
    int at = look->count - 1;
    while (at >= 0 && (look->seen[at].r->phase != SITE_HELD || look->seen[at].r->step < 1)) at--;
    return at;
}

static void points_fill(const Look *look, int from, int at, SiteHold *hold)
{
    double warm0_K = NAN;
    for (int i = from; i <= at; i++) {
        const Seen *s = &look->seen[i];
        const bool counts = hold_counts(look, i, at);
        if (counts && !look_read(warm0_K) && look_read(s->warm_K)) warm0_K = s->warm_K;
        const double still_N = counts ? hold_still_N(look, s, warm0_K) : (double)NAN;
        if (!look_read(hold->from_N)) {
            hold->from_N = still_N;
            hold->curve_day[0] = s->r->time_day - look->seen[from].r->time_day;
        }
        hold->point[hold->count++] = (SiteHoldPoint){
            .after_day = s->r->time_day - look->seen[from].r->time_day,
            .force_N = s->force_N,
            .still_N = still_N,
        };
    }
}

bool site_hold(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
               SiteHold *hold)
{
    Look look;
    Hold made;
    look_make(day, reading, count, arena, &look);
    const int at = last_held(&look);
    if (at < 0) return false;
    const int from = hold_start(&look, at);
    const JackStep *step = &day->plan->step[look.seen[at].r->step - 1];
    *hold = (SiteHold){.step = look.seen[at].r->step,
                       .from_N = NAN,
                       .point = ARENA_NEW(arena, SiteHoldPoint, at - from + 1)};
    points_fill(&look, from, at, hold);
    for (int i = from; i <= at; i++) hold->point[i - from].index = (int)(look.seen[i].r - reading);
    const double from_day = hold->curve_day[0];
    const double over_day = fmax(step->hold_day, hold->point[hold->count - 1].after_day) - from_day;
    for (int i = 1; i < SITE_HOLD_CURVE; i++) {
        const double part_1 = i / (SITE_HOLD_CURVE - 1.0);
        const double after_day = part_1 * part_1 * over_day; /* closer where it is steep */
        hold->curve_day[i] = from_day + after_day;
        hold->curve_N[i] = hold_creep_N(day->plan, step, after_day);
    }
    hold->beyond_N =
        hold_look(&look, at, &made) ? hold_beyond_N(day->plan, step, &made) : (double)NAN;
    return true;
}
