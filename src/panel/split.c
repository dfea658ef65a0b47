/* How many panels, and how long: docs/theory/panels.md. */
#include "clench/panel.h"

#include <math.h>

static const double same_m = 1e-4; /* lengths nearer than this are one kind */
enum { SPLIT_MOST = 4000 };

static double length_of(const PanelStretch *s) { return s->to_m - s->from_m; }

/* ---- joints against what they keep away from ---- */

static double over_m(const PanelStretch *s, const double *length_m, int count)
{
    double least = INFINITY, x_m = s->from_m;
    for (int i = 0; i + 1 < count; i++) {
        x_m += length_m[i];
        for (int k = 0; k < s->keep_count; k++)
            least = fmin(least, fabs(x_m - s->keep[k].at_m) - s->keep[k].clear_m);
    }
    return least;
}

static PanelSplit split_new(int count, Arena *arena)
{
    return (PanelSplit){.count = count, .length_m = ARENA_NEW(arena, double, count)};
}

static void split_judge(const PanelStretch *s, PanelSplit *split)
{
    split->over_m = over_m(s, split->length_m, split->count);
}

static PanelSplit split_equal(const PanelStretch *s, int count, Arena *arena)
{
    PanelSplit split = split_new(count, arena);
    for (int i = 0; i < count; i++) split.length_m[i] = length_of(s) / count;
    split_judge(s, &split);
    return split;
}

/* Least number of equal panels that are no longer than the longest one. */
static int least_count(double length_m, double longest_m)
{
    const double count = ceil(length_m / longest_m - 1e-9);
    return count < 1 ? 1 : (int)count;
}

/* Nearest to the nominal length, at most a quarter longer; one or two more where a joint would stand
 * too near, and no other number where that does not help. */
static PanelSplit split_nominal(const PanelStretch *s, const PanelRule *rule, Arena *arena)
{
    int count = (int)lround(length_of(s) / rule->nominal_m);
    if (count < 1) count = 1;
    while (length_of(s) / count > 1.25 * rule->nominal_m) count++;
    const PanelSplit first = split_equal(s, count, arena);
    for (int more = 0; more <= 2; more++) {
        const PanelSplit split = split_equal(s, count + more, arena);
        if (split.over_m >= 0) return split;
    }
    return first;
}

/* ---- one length for as many panels as possible ---- */

/* Panels of the standard length, and what remains. */
typedef struct Make {
    int standard, rest;
    double rest_m;
} Make;

static Make make_of(double length_m, double standard_m, const PanelRule *rule)
{
    const int whole = (int)floor(length_m / standard_m + 1e-7);
    const double left_m = length_m - whole * standard_m;
    if (fabs(left_m) < same_m) return (Make){whole, 0, 0};
    if (left_m >= rule->shortest_m) return (Make){whole, 1, left_m};
    const double one_m = left_m + standard_m;
    if (whole >= 1 && one_m <= rule->longest_m) return (Make){whole - 1, 1, one_m};
    if (whole >= 1 && one_m / 2 >= rule->shortest_m) return (Make){whole - 1, 2, one_m / 2};
    const int count = least_count(length_m, rule->longest_m); /* no standard panel fits */
    return (Make){0, count, length_m / count};
}

/* The rest together, `skip` standard panels away from the gap. */
static void make_lay(const PanelStretch *s, const Make *make, double standard_m, int skip,
                     PanelSplit *split)
{
    const int first = s->gap_first ? skip : make->standard - skip;
    for (int i = 0; i < split->count; i++)
        split->length_m[i] = i >= first && i < first + make->rest ? make->rest_m : standard_m;
    split_judge(s, split);
}

static PanelSplit split_lay(const PanelStretch *s, const Make *make, double standard_m,
                            Arena *arena)
{
    PanelSplit best = split_new(make->standard + make->rest, arena);
    PanelSplit other = split_new(best.count, arena);
    make_lay(s, make, standard_m, 0, &best);
    for (int skip = 1; best.over_m < 0 && make->rest > 0 && skip <= make->standard; skip++) {
        make_lay(s, make, standard_m, skip, &other);
        if (other.over_m <= best.over_m) continue;
        const PanelSplit worse = best;
        best = other;
        other = worse;
    }
    return best;
}

static PanelSplit split_standard(const PanelStretch *s, double standard_m, const PanelRule *rule,
                                 Arena *arena)
{
    const Make make = make_of(length_of(s), standard_m, rule);
    if (make.rest == 0)
        return split_equal(s, make.standard, arena); /* without a rest of rounding */
    return split_lay(s, &make, standard_m, arena);
}

/* One panel shorter than the others, wherever the joints then stay clear. */
static PanelSplit split_uneven(const PanelStretch *s, int count, const PanelRule *rule,
                               Arena *arena)
{
    const double standard_m =
        fmin(rule->longest_m, (length_of(s) - rule->shortest_m) / (count - 1));
    const Make make = {count - 1, 1, length_of(s) - (count - 1) * standard_m};
    return split_lay(s, &make, standard_m, arena);
}

/* The first number of panels whose joints stay clear, equal if possible; else what comes nearest. */
static PanelSplit split_least(const PanelStretch *s, const PanelRule *rule, Arena *arena)
{
    const int least = least_count(length_of(s), rule->longest_m);
    const int most = (int)floor(length_of(s) / rule->shortest_m + 1e-9);
    PanelSplit best = split_equal(s, least, arena);
    for (int n = least; best.over_m < 0 && n <= (most > least ? most : least); n++) {
        const PanelSplit equal = split_equal(s, n, arena);
        if (equal.over_m > best.over_m) best = equal;
        if (best.over_m >= 0 || n < 2 || n > most) continue;
        const PanelSplit uneven = split_uneven(s, n, rule, arena);
        if (uneven.over_m > best.over_m) best = uneven;
    }
    return best;
}

typedef struct Score {
    int near, kinds, panels; /* joints too near: first of all */
} Score;

static Score score_of(const PanelSplit *split, int count)
{
    Score score = {0, panel_split_kinds(split, count), 0};
    for (int i = 0; i < count; i++) {
        score.panels += split[i].count;
        score.near += split[i].over_m < 0;
    }
    return score;
}

static bool better(Score a, Score b)
{
    if (a.near != b.near) return a.near < b.near;
    return a.kinds != b.kinds ? a.kinds < b.kinds : a.panels < b.panels;
}

typedef struct Search {
    const PanelStretch *stretch;
    int count;
    const PanelRule *rule;
    Arena *arena;
    PanelSplit *best, *trial;
    Score score;
} Search;

static void search_keep(Search *s)
{
    const Score score = score_of(s->trial, s->count);
    if (!better(score, s->score)) return;
    PanelSplit *const old = s->best;
    s->best = s->trial;
    s->trial = old;
    s->score = score;
}

static void search_try(Search *s, double standard_m)
{
    if (standard_m < s->rule->shortest_m - same_m || standard_m > s->rule->longest_m + same_m)
        return;
    for (int i = 0; i < s->count; i++)
        s->trial[i] = split_standard(&s->stretch[i], standard_m, s->rule, s->arena);
    search_keep(s);
}

/* Standard lengths that divide one of the stretches, the nominal and the longest one: between two of
 * them every stretch keeps its rest, so nothing is to be gained there. */
static void split_kinds(Search *s)
{
    for (int i = 0; i < s->count; i++) s->best[i] = split_least(&s->stretch[i], s->rule, s->arena);
    s->score = score_of(s->best, s->count);
    for (int i = 0; i < s->count; i++)
        s->trial[i] = split_nominal(&s->stretch[i], s->rule, s->arena);
    if (s->rule->nominal_m * 1.25 <= s->rule->longest_m) search_keep(s);
    search_try(s, s->rule->longest_m);
    search_try(s, s->rule->nominal_m);
    for (int i = 0; i < s->count; i++) {
        const double length_m = length_of(&s->stretch[i]);
        const int most = (int)floor(length_m / s->rule->shortest_m + 1e-9);
        for (int n = least_count(length_m, s->rule->longest_m); n <= most; n++)
            search_try(s, length_m / n);
    }
}

/* ---- all of them ---- */

static Status check_size(const PanelStretch *stretch, int count, const PanelRule *rule, Error *err)
{
    const double least_m = fmin(rule->nominal_m, rule->shortest_m);
    for (int i = 0; i < count; i++)
        if (!(length_of(&stretch[i]) < SPLIT_MOST * least_m))
            return error_set(err, STATUS_TOO_LARGE, "more than %d panels between two faces",
                             (int)SPLIT_MOST);
    return STATUS_OK;
}

Status panel_split(const PanelStretch *stretch, int count, const PanelRule *rule, Arena *arena,
                   PanelSplit *split, Error *err)
{
    TRY(check_size(stretch, count, rule, err));
    if (rule->choice == PANEL_LEAST_KINDS) {
        Search search = {.stretch = stretch,
                         .count = count,
                         .rule = rule,
                         .arena = arena,
                         .best = ARENA_NEW(arena, PanelSplit, count),
                         .trial = ARENA_NEW(arena, PanelSplit, count)};
        split_kinds(&search);
        for (int i = 0; i < count; i++) split[i] = search.best[i];
        return STATUS_OK;
    }
    for (int i = 0; i < count; i++)
        split[i] = rule->choice == PANEL_NOMINAL ? split_nominal(&stretch[i], rule, arena)
                                                 : split_least(&stretch[i], rule, arena);
    return STATUS_OK;
}

static bool seen(const PanelSplit *split, int to, int to_panel)
{
    const double length_m = split[to].length_m[to_panel];
    for (int i = 0; i <= to; i++)
        for (int k = 0; k < (i < to ? split[i].count : to_panel); k++)
            if (fabs(split[i].length_m[k] - length_m) < same_m) return true;
    return false;
}

int panel_split_kinds(const PanelSplit *split, int count)
{
    int kinds = 0;
    for (int i = 0; i < count; i++)
        for (int k = 0; k < split[i].count; k++) kinds += !seen(split, i, k);
    return kinds;
}
