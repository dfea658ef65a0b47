/* Whole answers, from the text of a bridge file to the needed thrust: how far mesh and steps move them,
 * the same bridge in two systems of units, causes that add up, memory, refusal.
 *
 * Halving the mesh is tried where the governing stress settles within 1 psi: not yet in the steel
 * example, whose joint stands beside a pier in elements of 0.7 m (3 psi, docs/performance.md has the
 * figures). Halving the steps is tried for all. */
#include "check.h"

#include <string.h>

#include "clench/text.h"
#include "clench/thrust.h"

static const double psi_Pa = 4.4482216152605 / (0.0254 * 0.0254); /* NIST SP 811 */
static const size_t arena_bytes = (size_t)1 << 30;

static const char *const example[] = {
    "examples/causeway.yaml",         "examples/made-continuous.yaml", "examples/single-tub.yaml",
    "examples/steel-continuous.yaml", "examples/two-span-metric.yaml",
};
enum { EXAMPLES = sizeof example / sizeof *example };

/* ---- memory: linked with --wrap=arena_free, so that arenas inside thrust_find are seen too ---- */

static size_t peak_bytes; /* of the arenas freed since it was set to 0 */
/* NOLINTBEGIN(bugprone-reserved-identifier): the linker makes these names */
void __real_arena_free(Arena *arena);
void __wrap_arena_free(Arena *arena);
void __wrap_arena_free(Arena *arena)
{
    if (arena) peak_bytes += arena_peak(arena);
    __real_arena_free(arena);
}
/* NOLINTEND(bugprone-reserved-identifier) */

/* ---- from a file to the answer ---- */

typedef struct Found {
    Arena *arena;
    const ThrustAnswer *answer;
} Found;

static const Bridge *bridge_of(const char *path, Arena *arena)
{
    const char *bytes = NULL;
    size_t size = 0;
    Node *root = NULL;
    Error err = {0};
    const Bridge *bridge = NULL;
    Diagnostics *found = ARENA_NEW(arena, Diagnostics, 1);
    check_status(file_read(path, YAML_SIZE_MAX, arena, &bytes, &size, &err), STATUS_OK, &err);
    check_status(yaml_read(bytes, size, arena, &root, found), STATUS_OK, found->item);
    check_status(bridge_read(root, arena, &bridge, found), STATUS_OK, found->item);
    return bridge;
}

/* `steps`: each interval in that many; its growth becomes the root of that order. */
static Found find(const char *path, int fineness, int steps, double given_N)
{
    Found found = {.arena = arena_create(arena_bytes)};
    Arena *scratch = arena_create(arena_bytes);
    const BridgeLine *line = NULL;
    int count = 0;
    Error err = {0};
    ThrustWish wish = {.given_N = given_N, .settings = stage_settings_default()};
    wish.settings.first_step_day /= steps;
    wish.settings.step_growth_1 = pow(wish.settings.step_growth_1, 1.0 / steps);
    check_status(
        bridge_lines(bridge_of(path, found.arena), fineness, found.arena, &line, &count, &err),
        STATUS_OK, &err);
    check_status(thrust_find(line, count, &wish, found.arena, scratch, &found.answer, &err),
                 STATUS_OK, &err);
    arena_free(scratch);
    return found;
}

/* ---- convergence ---- */

/* The last time index of a day in a history, or of the nearest before it. */
static int time_on(const StageHistory *history, double day)
{
    int found = 0;
    for (int t = 0; t < history->time_count; t++)
        if (history->day[t] <= day + 1e-6) found = t;
    return found;
}

/* Judged on a day that may lie between two times of the history: straight in the logarithm of time. */
static Governing judged_on(const LineAnswer *line, int rule, const Governing *at, double day)
{
    const int t = time_on(line->history, day);
    const int next = t + 1 < line->history->time_count ? t + 1 : t;
    const double a = line->history->day[t], b = line->history->day[next];
    const double share = b > a ? log(day / a) / log(b / a) : 0;
    Governing x, y;
    assert_true(thrust_judge(line, rule, at->joint, at->side, at->top, t, &x));
    assert_true(thrust_judge(line, rule, at->joint, at->side, at->top, next, &y));
    x.permanent_Pa += share * (y.permanent_Pa - x.permanent_Pa);
    x.live_Pa += share * (y.live_Pa - x.live_Pa);
    x.gradient_Pa += share * (y.gradient_Pa - x.gradient_Pa);
    x.demand += share * (y.demand - x.demand);
    return x;
}

/* Parts of the governing stress at the same whole thrust, joint, side, fibre and moment. */
static void check_governing(const ThrustAnswer *base, const ThrustAnswer *fine)
{
    static const char law[] = "law: an answer does not depend on mesh and steps, 1 psi";
    const LineAnswer *a = &base->line[base->governing_line];
    const LineAnswer *b = &fine->line[base->governing_line];
    const Governing *at = &a->rule[a->need_rule].at;
    const double day = a->history->day[at->time];
    const Governing x = judged_on(a, a->need_rule, at, day);
    const Governing y = judged_on(b, a->need_rule, at, day);
    check_near(b->thrust_N, a->thrust_N, 1e-12, 0, "the given thrust");
    check_near(y.permanent_Pa, x.permanent_Pa, 0, psi_Pa, law);
    check_near(y.live_Pa, x.live_Pa, 0, psi_Pa, law);
    check_near(y.gradient_Pa, x.gradient_Pa, 0, psi_Pa, law);
    check_near(y.demand, x.demand, 0, psi_Pa, law);
}

static void compare(const char *path, int fineness, int steps)
{
    const Found base = find(path, 1, 1, 0);
    const LineAnswer *line = &base.answer->line[base.answer->governing_line];
    const double whole_N = line->thrust_N / line->line->share_1;
    const Found fine = find(path, fineness, steps, whole_N);
    check_governing(base.answer, fine.answer);
    arena_free(base.arena);
    arena_free(fine.arena);
}

/* The need itself, not a stress under a given thrust: a force let in over a point would move it. */
static void test_mesh_halved_moves_no_need_by_1_per_cent(void **state)
{
    (void)state;
    for (int i = 0; i < EXAMPLES; i++) {
        const Found base = find(example[i], 1, 1, 0), fine = find(example[i], 2, 1, 0);
        check_near(fine.answer->need_N, base.answer->need_N, 0.01, 0,
                   "law: the need does not depend on the mesh");
        arena_free(base.arena);
        arena_free(fine.arena);
    }
}

static void test_steps_halved_move_no_example_by_1_psi(void **state)
{
    (void)state;
    for (int i = 0; i < EXAMPLES; i++) compare(example[i], 1, 2);
}

static void test_mesh_and_steps_halved_move_no_example_by_1_psi(void **state)
{
    (void)state;
    for (int i = 0; i < EXAMPLES; i++) compare(example[i], 2, 2);
}

/* Halved twice: that it stands still when halved once might be chance. */
static void test_mesh_quartered_moves_no_example_by_1_psi(void **state)
{
    (void)state;
    for (int i = 0; i < EXAMPLES; i++) compare(example[i], 4, 1);
}

/* ---- units ---- */

static const char two_systems[] = "law: an answer does not depend on the units it is asked in";
static const double alike_1 = 1e-9;

static void check_place(const Governing *x, const Governing *y)
{
    assert_int_equal(x->joint, y->joint);
    assert_int_equal(x->station, y->station);
    assert_int_equal(x->side, y->side);
    assert_int_equal(x->time, y->time);
    assert_int_equal(x->top, y->top);
    check_near(y->demand, x->demand, alike_1, alike_1 * psi_Pa, two_systems);
    check_near(y->limit, x->limit, alike_1, 0, two_systems);
    check_near(y->permanent_Pa, x->permanent_Pa, alike_1, alike_1 * psi_Pa, two_systems);
    check_near(y->live_Pa, x->live_Pa, alike_1, 0, two_systems);
    check_near(y->gradient_Pa, x->gradient_Pa, alike_1, 0, two_systems);
    check_near(y->wheel_Pa, x->wheel_Pa, alike_1, 0, two_systems);
}

static void check_histories(const LineAnswer *a, const LineAnswer *b)
{
    const StageModel *model = a->history->model;
    assert_int_equal(a->history->time_count, b->history->time_count);
    assert_int_equal(model->station_count, b->history->model->station_count);
    for (int t = 0; t < a->history->time_count; t++)
        for (int i = 0; i < 2 * model->station_count; i++) {
            FibreStress x, y;
            const Chain chain = i % 2 ? CHAIN_DECK : CHAIN_GIRDER;
            const bool there = stage_stress(a->history, t, chain, i / 2, 1, &x);
            assert_int_equal(stage_stress(b->history, t, chain, i / 2, 1, &y), there);
            if (!there) continue;
            /* stresses reach 1000 psi and more: 1e-9 of that */
            check_near(y.top_Pa, x.top_Pa, alike_1, 1000 * alike_1 * psi_Pa, two_systems);
            check_near(y.bottom_Pa, x.bottom_Pa, alike_1, 1000 * alike_1 * psi_Pa, two_systems);
        }
}

static void check_lines(const LineAnswer *a, const LineAnswer *b)
{
    assert_int_equal(a->line->rule_count, b->line->rule_count);
    assert_int_equal(a->line->limit_count, b->line->limit_count);
    for (int r = 0; r < a->line->rule_count; r++) {
        check_near(b->rule[r].need_N, a->rule[r].need_N, alike_1, 0, two_systems);
        check_place(&a->rule[r].at, &b->rule[r].at);
    }
    for (int k = 0; k < a->line->limit_count; k++) {
        if (isinf(a->limit[k].most_N) && isinf(b->limit[k].most_N)) continue;
        check_near(b->limit[k].most_N, a->limit[k].most_N, alike_1, 0, two_systems);
        check_place(&a->limit[k].at, &b->limit[k].at);
    }
    check_near(b->gap_movement_m, a->gap_movement_m, alike_1, 0, two_systems);
    check_near(b->anchor_force_N, a->anchor_force_N, alike_1, 0, two_systems);
    check_histories(a, b);
}

static void test_same_bridge_in_US_and_SI_units_gives_same_answer(void **state)
{
    (void)state;
    const Found us = find("tests/data/us.yaml", 1, 1, 0);
    const Found si = find("tests/data/si.yaml", 1, 1, 0);
    const ThrustAnswer *a = us.answer, *b = si.answer;
    assert_int_equal(a->line_count, b->line_count);
    assert_int_equal(a->governing_line, b->governing_line);
    assert_int_equal(a->limiting_line, b->limiting_line);
    check_near(b->need_N, a->need_N, alike_1, 0, two_systems);
    check_near(b->most_N, a->most_N, alike_1, 0, two_systems);
    check_near(b->need_stiff_N, a->need_stiff_N, alike_1, 0, two_systems);
    check_near(b->most_stiff_N, a->most_stiff_N, alike_1, 0, two_systems);
    for (int k = 0; k < a->line_count; k++) check_lines(&a->line[k], &b->line[k]);
    arena_free(us.arena);
    arena_free(si.arena);
}

/* ---- causes ---- */

static double sum_of(const double *part, double *largest)
{
    double sum = 0;
    for (int c = 0; c < CAUSE_COUNT; c++) {
        sum += part[c];
        *largest = fmax(*largest, fabs(part[c]));
    }
    return sum;
}

static void check_split(const Split *split)
{
    static const char law[] = "law: linear superposition; causes add up to the state";
    double largest = 0;
    const double mean = sum_of(split->mean_Pa, &largest), top = sum_of(split->top_Pa, &largest),
                 bottom = sum_of(split->bottom_Pa, &largest);
    assert_true(largest > 10 * psi_Pa); /* a split of nothing would add up to nothing */
    check_near(mean, split->mean_total_Pa, 0, 1e-6 * largest, law);
    check_near(top, split->top_total_Pa, 0, 1e-6 * largest, law);
    check_near(bottom, split->bottom_total_Pa, 0, 1e-6 * largest, law);
}

static void test_causes_add_up_to_state_of_every_line(void **state)
{
    (void)state;
    for (int i = 0; i < EXAMPLES; i++) {
        const Found found = find(example[i], 1, 1, 0);
        for (int k = 0; k < found.answer->line_count; k++) {
            check_split(&found.answer->line[k].jacked);
            check_split(&found.answer->line[k].opening);
            check_split(&found.answer->line[k].finish);
        }
        arena_free(found.arena);
    }
}

/* ---- memory ---- */

static void test_answer_takes_less_than_64_MB(void **state)
{
    (void)state;
    peak_bytes = 0;
    const Found found = find(example[0], 1, 1, 0);
    arena_free(found.arena);
    print_message("arenas of %s: %.1f MB\n", example[0], (double)peak_bytes / 1048576);
    assert_true(peak_bytes > 1 << 20); /* the arenas were seen */
    assert_true(peak_bytes < (size_t)64 << 20);
}

/* ---- refused ---- */

static void test_history_without_room_is_refused(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)5 << 20), *scratch = arena_create(arena_bytes);
    const BridgeLine *line = NULL;
    const ThrustAnswer *answer = NULL;
    int count = 0;
    Error err = {0};
    const ThrustWish wish = {.settings = stage_settings_default()};
    check_status(
        bridge_lines(bridge_of("examples/causeway.yaml", arena), 1, arena, &line, &count, &err),
        STATUS_OK, &err);
    check_status(thrust_find(line, count, &wish, arena, scratch, &answer, &err), STATUS_TOO_LARGE,
                 NULL);
    assert_non_null(strstr(err.text, "memory"));
    assert_null(answer);
    arena_free(arena);
    arena_free(scratch);
}

static void test_untied_run_is_refused_with_place_and_reason(void **state)
{
    (void)state;
    Arena *arena = arena_create(arena_bytes);
    const Bridge *bridge = bridge_of("examples/refused/untied-run.yaml", arena);
    const BridgeLine *line = NULL;
    int count = 0;
    Error err = {0};
    check_status(bridge_lines(bridge, 1, arena, &line, &count, &err), STATUS_BAD_INPUT, &err);
    assert_null(line);
    assert_int_equal(count, 0);
    assert_string_equal(err.key, "runs[1].to_span");
    assert_int_equal(err.from.line, 37);
    assert_int_equal(err.from.column, 29);
    assert_non_null(strstr(err.text, "not tied through pier 1"));
    assert_non_null(strstr(err.text, "tie them before jacking"));
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_mesh_halved_moves_no_need_by_1_per_cent),
        cmocka_unit_test(test_steps_halved_move_no_example_by_1_psi),
        cmocka_unit_test(test_mesh_and_steps_halved_move_no_example_by_1_psi),
        cmocka_unit_test(test_mesh_quartered_moves_no_example_by_1_psi),
        cmocka_unit_test(test_same_bridge_in_US_and_SI_units_gives_same_answer),
        cmocka_unit_test(test_causes_add_up_to_state_of_every_line),
        cmocka_unit_test(test_answer_takes_less_than_64_MB),
        cmocka_unit_test(test_history_without_room_is_refused),
        cmocka_unit_test(test_untied_run_is_refused_with_place_and_reason),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
