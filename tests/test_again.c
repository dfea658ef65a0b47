/* The same deck at another thrust: as if the thrust had been given, and how its joints stand. */
#include <string.h>

#include "bridge_file.h"
#include "clench/thrust.h"

static const char law[] = "law: need and window do not depend on the thrust that is judged";
static const char *const example[] = {"examples/causeway.yaml", "examples/single-tub.yaml",
                                      "examples/two-span-metric.yaml"};
enum { EXAMPLES = sizeof example / sizeof *example };

typedef struct Again {
    BridgeFile file;
    Arena *arena, *scratch;
    const BridgeLine *line;
    int line_count;
    const ThrustAnswer *found;
} Again;

static const ThrustAnswer *find(const Again *a, double given_N)
{
    const ThrustAnswer *answer = NULL;
    Error err = {0};
    const ThrustWish wish = {.given_N = given_N, .settings = stage_settings_default()};
    check_status(thrust_find(a->line, a->line_count, &wish, a->arena, a->scratch, &answer, &err),
                 STATUS_OK, &err);
    return answer;
}

static void set_up(Again *a, const char *path)
{
    Error err = {0};
    bridge_from_example(&a->file, path);
    a->arena = arena_create((size_t)1 << 30);
    a->scratch = arena_create((size_t)1 << 30);
    check_status(bridge_lines(a->file.bridge, 1, a->arena, &a->line, &a->line_count, &err),
                 STATUS_OK, &err);
    a->found = find(a, 0);
}

static void tear_down(Again *a)
{
    arena_free(a->arena);
    arena_free(a->scratch);
    bridge_close(&a->file);
}

static const ThrustAnswer *again(const Again *a, double whole_N)
{
    const ThrustStart *start[LINES_MAX];
    const StageSettings settings = stage_settings_default();
    const ThrustAnswer *answer = NULL;
    Error err = {0};
    for (int k = 0; k < a->line_count; k++)
        check_status(thrust_start(&a->line[k], &settings, a->arena, a->scratch, &start[k], &err),
                     STATUS_OK, &err);
    check_status(thrust_again(a->found, start, whole_N, a->arena, a->scratch, &answer, &err),
                 STATUS_OK, &err);
    return answer;
}

static void check_lines(const LineAnswer *x, const LineAnswer *y)
{
    const StageModel *model = x->history->model;
    const size_t parts = (size_t)x->history->time_count * (size_t)model->part_count;
    check_near(x->thrust_N, y->thrust_N, 0, 0, law);
    assert_memory_equal(x->rule, y->rule, sizeof x->rule);
    assert_memory_equal(x->limit, y->limit, sizeof x->limit);
    assert_memory_equal(&x->finish, &y->finish, sizeof x->finish);
    assert_memory_equal(x->history->force, y->history->force, parts * sizeof(PartForce));
    check_near(x->gap_movement_m, y->gap_movement_m, 0, 0, law);
    check_near(x->anchor_force_N, y->anchor_force_N, 0, 0, law);
    check_near(x->average_Pa, y->average_Pa, 0, 0, law);
}

static void test_again_is_what_a_given_thrust_gives(void **state)
{
    (void)state;
    for (int i = 0; i < EXAMPLES; i++) {
        Again a;
        set_up(&a, example[i]);
        const double whole_N = (i % 2 ? 0.83 : 1.17) * a.found->need_N;
        const ThrustAnswer *const x = again(&a, whole_N), *const y = find(&a, whole_N);
        assert_true(x->given && y->given);
        assert_int_equal(x->met, y->met);
        assert_int_equal(x->runs, y->runs);
        check_near(x->need_N, y->need_N, 0, 0, law);
        check_near(x->need_N, a.found->need_N, 0, 0, law);
        check_near(x->most_N, y->most_N, 0, 0, law);
        check_near(x->thrust_N, whole_N, 0, 0, law);
        for (int k = 0; k < x->line_count; k++) check_lines(&x->line[k], &y->line[k]);
        tear_down(&a);
    }
}

/* ---- how the joints stand, held against thrust_judge one by one ---- */

static JointsStanding standing(const Again *a, const LineAnswer *line)
{
    return thrust_standing(line, a->scratch);
}

typedef struct Seen {
    double worst_Pa, first_day;
    int count;
} Seen;

static void see_rule(const LineAnswer *line, int r, bool *open, Seen *seen)
{
    const JointRule *rule = &line->line->rule[r];
    const int from = rule->building ? line->moments.jacked : line->moments.opening;
    const int to = rule->building ? line->moments.opening - 1 : line->moments.end;
    for (int j = 0; j < line->line->joint_count; j++)
        for (int t = from; t <= to; t++)
            for (int k = 0; k < 4; k++) {
                const int only = thrust_joint_side(line->line, j), side = k % 2 ? 1 : -1;
                Governing at;
                if ((only && side != only) || !thrust_judge(line, r, j, side, k / 2 == 1, t, &at))
                    continue;
                const double over_Pa = at.demand - at.limit;
                seen->worst_Pa = fmax(seen->worst_Pa, over_Pa);
                if (over_Pa <= 1e-4 * line->average_Pa) continue;
                open[j] = true;
                seen->first_day = fmin(seen->first_day, at.day);
            }
}

static Seen see(const LineAnswer *line)
{
    bool open[512] = {false};
    Seen seen = {.worst_Pa = -INFINITY, .first_day = INFINITY};
    for (int r = 0; r < line->line->rule_count; r++)
        if (line->line->rule[r].counts) see_rule(line, r, open, &seen);
    for (int j = 0; j < line->line->joint_count; j++) seen.count += open[j];
    return seen;
}

static void test_standing_is_the_worst_of_all_that_is_judged(void **state)
{
    (void)state;
    Again a;
    set_up(&a, "examples/two-span-metric.yaml");
    for (int i = 0; i < 3; i++) {
        const ThrustAnswer *answer = i ? again(&a, (1 - 0.2 * i) * a.found->need_N) : a.found;
        for (int k = 0; k < answer->line_count; k++) {
            const LineAnswer *line = &answer->line[k];
            const JointsStanding stands = standing(&a, line);
            const Seen seen = see(line);
            check_near(stands.worst.demand - stands.worst.limit, seen.worst_Pa, 1e-12, 1e-3,
                       "law: the worst of all");
            assert_int_equal(stands.open_count, seen.count);
            assert_int_equal(stands.first_rule >= 0, seen.count > 0);
            if (seen.count > 0) check_near(stands.first.day, seen.first_day, 0, 0, "law");
        }
        const LineAnswer *governs = &answer->line[answer->governing_line];
        assert_int_equal(standing(&a, governs).open_count > 0, i > 0);
    }
    tear_down(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_again_is_what_a_given_thrust_gives),
        cmocka_unit_test(test_standing_is_the_worst_of_all_that_is_judged),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
