/* thrust_find: two runs of a line predict, a third at the answer verifies and is the one shown; all
 * lines share one whole thrust. */
#include <math.h>

#include "trial.h"

enum { REFINE_MAX = 6 };

typedef struct Search {
    const BridgeLine *line;
    const StageSettings *settings;
    Arena *result, *trials, *scratch;
    TrialBase base;
    LineAnswer *answer;
    Moments moments;
    Trial a, b; /* b: the nearer to the answer */
    int *runs;
    size_t *run_bytes; /* of the largest run so far */
} Search;

/* Trials leave the booking of causes out; only the history that is shown needs it. A run takes about
 * what the largest before it took: refused while there is room to say so. */
static Status run(Search *s, double thrust_N, bool shown, Trial *trial, Error *err)
{
    Arena *const into = shown ? s->result : s->trials;
    const size_t before = arena_used(into);
    if (arena_room(into) < *s->run_bytes + *s->run_bytes / 2)
        return error_set(err, STATUS_TOO_LARGE,
                         "%s: histories of %d stations need more memory than a run may take; "
                         "longer panels or fewer spans in a unit need less",
                         s->line->name, s->line->model.station_count);
    ++*s->runs;
    TRY(trial_run(&s->base, thrust_N, !shown, into, trial, err));
    const size_t taken = arena_used(into) - before;
    if (taken > *s->run_bytes) *s->run_bytes = taken;
    return STATUS_OK;
}

/* Two runs around the first guess. */
static Status start(Search *s, Error *err)
{
    const double guess = s->line->first_guess_N;
    TRY(trial_base(s->line, s->settings, s->trials, s->scratch, &s->base, err));
    TRY(run(s, guess, false, &s->a, err));
    TRY(run(s, 1.25 * guess, false, &s->b, err));
    TRY(moments_find(s->line, s->a.history, &s->moments, err));
    s->answer->moments = s->moments;
    s->answer->line = s->line;
    TRY(loads_renew(s->answer, s->a.history, s->result, s->scratch, err));
    rules_judge(s->answer, &s->moments, &s->a, &s->b);
    return STATUS_OK;
}

/* Keeps the trial next to `thrust_N` as partner of the new one. */
static void take_in(Search *s, Trial fresh)
{
    if (fabs(s->a.thrust_N - fresh.thrust_N) > fabs(s->b.thrust_N - fresh.thrust_N)) s->a = s->b;
    s->b = fresh;
}

static bool far_apart(double x, double y) { return fabs(x - y) > 1e-6 * fmax(fabs(x), fabs(y)); }

static int largest_need(const Search *s, int count, bool stiff)
{
    int at = 0;
    for (int k = 1; k < count; k++) {
        const BridgeLine *x = s[k].line, *y = s[at].line;
        const double mine = s[k].answer->need_N / (stiff ? x->share_stiff_1 : x->share_1);
        const double best = s[at].answer->need_N / (stiff ? y->share_stiff_1 : y->share_1);
        if (!s[at].answer->reachable) break;
        if (!s[k].answer->reachable || mine > best) at = k;
    }
    return at;
}

/* Share of a limit: the jacks' total does not depend on how the lines share it. */
static double share_of(const BridgeLine *line, int limit, bool stiff)
{
    const bool jacks = limit >= 0 && line->limit[limit].kind == LIMIT_JACKS;
    return stiff && !jacks ? line->share_stiff_1 : line->share_1;
}

static double line_most(const Search *s, bool stiff)
{
    const LineAnswer *answer = s->answer;
    double least = INFINITY;
    for (int k = 0; k < s->line->limit_count; k++)
        least = fmin(least, answer->limit[k].most_N / share_of(s->line, k, stiff));
    if (answer->most_rule >= 0) least = fmin(least, answer->most_N / share_of(s->line, -1, stiff));
    return least;
}

static double smallest_limit(const Search *s, int count, bool stiff, int *which)
{
    double least = INFINITY;
    *which = -1;
    for (int k = 0; k < count; k++) {
        const double mine = line_most(&s[k], stiff);
        if (mine >= least) continue;
        least = mine;
        *which = k;
    }
    return least;
}

/* The limit that closes the window is verified by a run at it, like the need. */
static Status verify_limit(Search *s, int count, Error *err)
{
    for (int k = 0; k < count; k++) limits_judge(s[k].answer, &s[k].moments, &s[k].a, &s[k].b);
    for (int tries = 0; tries < REFINE_MAX; tries++) {
        int k;
        smallest_limit(s, count, false, &k);
        if (k < 0 || s[k].answer->most_N <= 0) return STATUS_OK;
        const double most = s[k].answer->most_N;
        Trial fresh = {0};
        if (!far_apart(most, s[k].b.thrust_N) || !far_apart(most, s[k].a.thrust_N))
            return STATUS_OK;
        TRY(run(&s[k], most, false, &fresh, err));
        const Trial near =
            fabs(s[k].a.thrust_N - most) < fabs(s[k].b.thrust_N - most) ? s[k].a : s[k].b;
        limits_judge(s[k].answer, &s[k].moments, &near, &fresh);
        if (fabs(s[k].answer->most_N - most) <= settled_1 * most) return STATUS_OK;
    }
    return STATUS_OK;
}

/* The history that is shown: the line under its share of the whole need. It is a trial like the
 * others, and the nearest to the answer. */
static Status show(Search *s, double whole_N, Error *err)
{
    Trial last = {0};
    s->answer->thrust_N = whole_N * s->line->share_1;
    TRY(run(s, s->answer->thrust_N, true, &last, err));
    s->answer->history = last.history;
    s->answer->joint_stress = last.joint;
    TRY(loads_renew(s->answer, last.history, s->result, s->scratch, err));
    if (far_apart(last.thrust_N, s->a.thrust_N) && far_apart(last.thrust_N, s->b.thrust_N))
        take_in(s, last);
    rules_judge(s->answer, &s->moments, &s->a, &s->b);
    return STATUS_OK;
}

static double whole_need(const Search *s, int count)
{
    const Search *line = &s[largest_need(s, count, false)];
    return line->answer->need_N / line->line->share_1;
}

/* Runs the line that governs at its need until the need stands still. */
static Status settle(Search *s, int count, ThrustAnswer *out, Error *err)
{
    const double predicted = whole_need(s, count);
    for (int k = 0; k < REFINE_MAX && !out->verified; k++) {
        const double need = whole_need(s, count);
        TRY(show(&s[largest_need(s, count, false)], need, err));
        out->verified = fabs(whole_need(s, count) - need) <= settled_1 * need;
    }
    out->affine_error_1 = predicted > 0 ? fabs(whole_need(s, count) / predicted - 1) : 0;
    return STATUS_OK;
}

static void sum_up(const Search *s, int count, ThrustAnswer *out)
{
    const int g = largest_need(s, count, false), stiff = largest_need(s, count, true);
    int unused;
    out->governing_line = g;
    out->reachable = s[g].answer->reachable;
    out->need_N = s[g].answer->need_N / s[g].line->share_1;
    out->need_stiff_N = s[stiff].answer->need_N / s[stiff].line->share_stiff_1;
    out->most_N = smallest_limit(s, count, false, &out->limiting_line);
    out->most_stiff_N = smallest_limit(s, count, true, &unused);
    double least_N = 0;
    for (int k = 0; k < count; k++)
        least_N = fmax(least_N, s[k].answer->least_N / s[k].line->share_1);
    out->least_N = least_N;
    out->window = out->reachable && fmax(out->need_N, least_N) <= out->most_N;
    out->met = thrust_met(out);
}

/* What is needed and allowed does not depend on the thrust that is given; its histories are run last. */
static Status show_given(Search *s, int count, double whole_N, ThrustAnswer *out, Error *err)
{
    out->given = true;
    out->thrust_N = whole_N;
    for (int k = 0; k < count; k++) {
        Trial given = {0};
        s[k].answer->thrust_N = whole_N * s[k].line->share_1;
        TRY(run(&s[k], s[k].answer->thrust_N, true, &given, err));
        s[k].answer->history = given.history;
        s[k].answer->joint_stress = given.joint;
        TRY(loads_renew(s[k].answer, given.history, s[k].result, s[k].scratch, err));
    }
    return STATUS_OK;
}

static Status search(Search *s, int count, const ThrustWish *wish, ThrustAnswer *out, Error *err)
{
    for (int k = 0; k < count; k++) TRY(start(&s[k], err));
    TRY(settle(s, count, out, err));
    out->thrust_N = whole_need(s, count);
    for (int k = 0; k < count; k++) {
        const double wanted = out->thrust_N * s[k].line->share_1, has = s[k].answer->thrust_N;
        const bool shown = s[k].answer->history && fabs(has - wanted) <= settled_1 * wanted;
        if (!shown) TRY(show(&s[k], out->thrust_N, err));
    }
    TRY(verify_limit(s, count, err));
    if (wish->given_N > 0) TRY(show_given(s, count, wish->given_N, out, err));
    sum_up(s, count, out);
    for (int k = 0; k < count; k++) thrust_describe(s[k].answer);
    return STATUS_OK;
}

static Status check(const BridgeLine *line, int count, Error *err)
{
    if (count < 1 || count > LINES_MAX)
        return error_set(err, STATUS_TOO_LARGE, "%d girder lines to judge: 1 to %d", count,
                         LINES_MAX);
    for (int k = 0; k < count; k++) {
        if (line[k].rule_count > RULES_MAX || line[k].limit_count > LIMITS_MAX)
            return error_set(err, STATUS_TOO_LARGE, "%s: %d rules and %d limits, at most %d and %d",
                             line[k].name, line[k].rule_count, line[k].limit_count, RULES_MAX,
                             LIMITS_MAX);
        if (line[k].joint_count < 1)
            return error_set(err, STATUS_BAD_INPUT, "%s has no joint to keep closed", line[k].name);
        if (!(line[k].first_guess_N > 0) || !(line[k].share_1 > 0))
            return error_set(err, STATUS_BAD_INPUT,
                             "%s has no first guess or no share of the thrust", line[k].name);
        TRY(traffic_check(&line[k].live, err));
    }
    return STATUS_OK;
}

/* Histories of all trials at once: a long continuous bridge takes 100 MB a line. */
static const size_t trials_bytes = (size_t)3 << 30;

Status thrust_find(const BridgeLine *line, int line_count, const ThrustWish *wish, Arena *result,
                   Arena *scratch, const ThrustAnswer **answer, Error *err)
{
    TRY(check(line, line_count, err));
    ThrustAnswer *out = ARENA_NEW(result, ThrustAnswer, 1);
    out->line_count = line_count;
    Arena *trials = arena_create(trials_bytes);
    Search s[LINES_MAX];
    size_t run_bytes = 0;
    for (int k = 0; k < line_count; k++)
        s[k] = (Search){.line = &line[k],
                        .settings = &wish->settings,
                        .result = result,
                        .trials = trials,
                        .scratch = scratch,
                        .answer = &out->line[k],
                        .runs = &out->runs,
                        .run_bytes = &run_bytes};
    const Status status = search(s, line_count, wish, out, err);
    arena_free(trials);
    if (status == STATUS_OK) *answer = out;
    return status;
}
