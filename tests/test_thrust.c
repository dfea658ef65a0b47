/* thrust: the needed thrust, live load and gradient of the cases of an independent model, and what
 * must hold of every answer. */
#include "check.h"

#include <string.h>

#include "case_line.h"
#include "clench/thrust.h"

static const char *const source = "independent model of the same mechanics, tests/cases";

typedef struct Found {
    Arena *arena;
    CaseModel c;
    BridgeLine *line;
    const ThrustAnswer *answer;
} Found;

static Found find(const char *name, double refine, double given_N)
{
    Error err;
    Found f = {.arena = arena_create((size_t)2 << 30)};
    Arena *scratch = arena_create((size_t)1 << 30);
    f.c = case_read(name, refine, f.arena);
    f.line = ARENA_NEW(f.arena, BridgeLine, 1);
    *f.line = case_line(&f.c, f.arena);
    const ThrustWish wish = {given_N, f.c.settings};
    check_status(thrust_find(f.line, 1, &wish, f.arena, scratch, &f.answer, &err), STATUS_OK, &err);
    arena_free(scratch);
    return f;
}

static void done(Found *f)
{
    case_free(&f->c);
    arena_free(f->arena);
}

/* ---- the cases ---- */

/* One element away from a change of the girder's section the deck's stress depends on the mesh, by a
 * per cent there and here. */
static bool beside_change(const CaseModel *c, int station)
{
    int section[2] = {-1, -1};
    for (int p = 0; p < c->model.part_count; p++) {
        const Part *part = &c->model.part[p];
        if (part->chain != CHAIN_GIRDER || !(c->model.section[part->section].inertia_m4 > 0))
            continue;
        if (part->element == station - 2) section[0] = part->section;
        if (part->element == station + 1) section[1] = part->section;
    }
    return section[0] != section[1];
}

/* Live load and gradient at both moments: mean of both sides, as the cases give it. The bottom fibre
 * is left out inside the zones where only we apply the two-truck rule to it. */
static void check_loads(const Found *f, const json_t *moment, const JointLoad *load, double live_Pa,
                        double gradient_Pa)
{
    const CaseModel *c = &f->c;
    size_t k;
    json_t *v;
    json_array_foreach(json_object_get(moment, "joints_and_stations"), k, v)
    {
        const int station = case_station(c, case_get(c, v, "x"));
        const bool train = json_is_true(json_object_get(v, "two_truck_rule_applied"));
        for (int j = 0; j < f->line->joint_count; j++) {
            if (f->line->joint[j].station != station || beside_change(c, station)) continue;
            const JointLoad *l = load + (ptrdiff_t)2 * j, *r = l + 1;
            check_near(0.5 * (l->live_top_max_Pa + r->live_top_max_Pa),
                       case_get(c, v, "ll_im_deck_top_max"), 1e-4, live_Pa, source);
            check_near(0.5 * (l->live_top_min_Pa + r->live_top_min_Pa),
                       case_get(c, v, "ll_im_deck_top_min"), 1e-4, live_Pa, source);
            const double bottom = 0.5 * (l->live_bottom_max_Pa + r->live_bottom_max_Pa),
                         given = case_get(c, v, "ll_im_deck_bottom_max");
            if (train)
                assert_true(bottom > (1 - 1e-4) * given - live_Pa);
            else
                check_near(bottom, given, 1e-4, live_Pa, source);
            check_near(0.5 * (l->cold_top_Pa + r->cold_top_Pa), case_get(c, v, "gradient_deck_top"),
                       0, gradient_Pa, source);
            check_near(0.5 * (l->cold_bottom_Pa + r->cold_bottom_Pa),
                       case_get(c, v, "gradient_deck_bottom"), 0, gradient_Pa, source);
        }
    }
}

static const json_t *moment_named(const Found *f, const char *name)
{
    size_t k;
    json_t *v;
    json_array_foreach(json_object_get(f->c.results, "live_load_and_gradient"), k,
                       v) if (strcmp(json_string_value(json_object_get(v, "stage")), name) ==
                              0) return v;
    fail_msg("no live load at %s", name);
    return NULL;
}

/* The case names one of two mirrored joints; another may govern by a hair. */
static void check_governing(const Found *f, const json_t *given)
{
    const Governing *at = &f->answer->line[0].rule[0].at;
    const CaseModel *c = &f->c;
    const double length = c->model.x_m[c->model.station_count - 1];
    const double x = c->model.x_m[at->station], want = case_get(c, given, "governing_x");
    if (fabs(x - want) > 0.01 && fabs(length - x - want) > 0.01)
        fail_msg("governs at %g m, the case says %g m", x, want);
    assert_true(at->top);
    const char *stage = json_string_value(json_object_get(given, "governing_stage"));
    const StageHistory *h = f->answer->line[0].history;
    check_near(at->day, h->day[stage_time_named(h, stage)], 0, 1e-9, source);
}

static void check_case(const char *name, double live_Pa, double gradient_Pa)
{
    Found f = find(name, 1, 0);
    const json_t *given = json_object_get(f.c.results, "required_thrust");
    check_near(f.answer->need_N, case_get(&f.c, given, "required"), 1e-3, 0, source);
    check_governing(&f, given);
    check_loads(&f, moment_named(&f, "open"), f.answer->line[0].open, live_Pa, gradient_Pa);
    check_loads(&f, moment_named(&f, "end"), f.answer->line[0].end, live_Pa, gradient_Pa);
    assert_true(f.answer->reachable && f.answer->met && f.answer->window && !f.answer->given);
    assert_true(f.answer->affine_error_1 < 1e-3 && f.answer->runs <= 5);
    done(&f);
}

#define psi 6894.757293168361

static void test_need_of_c1_agrees(void **state)
{
    (void)state;
    check_case("pub-c1", 0.05 * psi, 0.02 * psi);
}
static void test_need_of_c2_agrees(void **state)
{
    (void)state;
    check_case("pub-c2", 0.02e6, 0.03e6);
}
static void test_need_of_d1_agrees(void **state)
{
    (void)state;
    check_case("pub-d1", 0.05 * psi, 0.02 * psi);
}
static void test_need_of_d2_agrees(void **state)
{
    (void)state;
    check_case("pub-d2", 0.05 * psi, 0.02 * psi);
}
static void test_need_of_e1_agrees(void **state)
{
    (void)state;
    check_case("pub-e1", 0.02e6, 0.01e6);
}

/* ---- what must hold of every answer ---- */

static double worst_margin(const LineAnswer *answer, Governing *worst)
{
    double margin = -INFINITY;
    for (int r = 0; r < answer->line->rule_count; r++)
        for (int j = 0; j < answer->line->joint_count; j++)
            for (int side = -1; side <= 1; side += 2)
                for (int top = 0; top < 2; top++)
                    for (int t = thrust_time_open(answer); t <= thrust_time_end(answer); t++) {
                        Governing at;
                        if (!thrust_judge(answer, r, j, side, top, t, &at)) continue;
                        if (at.demand - at.limit <= margin) continue;
                        margin = at.demand - at.limit;
                        *worst = at;
                    }
    return margin;
}

static void test_at_the_need_no_joint_opens_and_one_just_closes(void **state)
{
    (void)state;
    static const char *const name[] = {"pub-c1", "pub-d1", "pub-e1"};
    static const double refine[] = {0.5, 0.5, 0.7};
    for (int k = 0; k < 3; k++) {
        Found f = find(name[k], refine[k], 0);
        Governing worst;
        const double margin = worst_margin(&f.answer->line[0], &worst);
        check_near(margin, 0, 0, 0.1 * psi, "law: the least thrust that satisfies the rule");
        const Governing *at = &f.answer->line[0].rule[0].at;
        assert_int_equal(worst.top, at->top);
        check_near(at->demand, at->limit, 0, 1e-3, "law: the governing fibre meets its limit");
        check_near(at->permanent_Pa + at->live_Pa + at->gradient_Pa + at->wheel_Pa, at->demand,
                   1e-12, 1e-6, "law: parts add up");
        done(&f);
    }
}

static void check_split(const Split *split)
{
    double mean = 0, top = 0, bottom = 0;
    for (int c = 0; c < CAUSE_COUNT; c++) {
        mean += split->mean_Pa[c];
        top += split->top_Pa[c];
        bottom += split->bottom_Pa[c];
    }
    check_near(mean, split->mean_total_Pa, 1e-9, 1e-3, "law: causes add up");
    check_near(top, split->top_total_Pa, 1e-9, 1e-3, "law: causes add up");
    check_near(bottom, split->bottom_total_Pa, 1e-9, 1e-3, "law: causes add up");
}

static void test_split_adds_up(void **state)
{
    (void)state;
    static const char *const name[] = {"pub-c1", "pub-d2"};
    for (int k = 0; k < 2; k++) {
        Found f = find(name[k], 0.5, 0);
        const LineAnswer *line = &f.answer->line[0];
        check_split(&line->jacked);
        check_split(&line->opening);
        check_split(&line->finish);
        assert_int_equal(line->finish.joint, line->rule[0].at.joint);
        assert_true(line->jacked.top_Pa[CAUSE_CREEP] <= 0.1 * psi * 1e3);
        assert_true(line->finish.mean_Pa[CAUSE_THRUST] < 0);
        assert_true(line->finish.mean_Pa[CAUSE_SHRINKAGE] > 0);
        done(&f);
    }
}

/* A given thrust is shown, the need stays the need. */
static void test_given_thrust_is_judged(void **state)
{
    (void)state;
    Found need = find("pub-d2", 0.5, 0);
    const double N = need.answer->need_N;
    Found more = find("pub-d2", 0.5, 1.2 * N), less = find("pub-d2", 0.5, 0.8 * N);
    assert_true(more.answer->given && more.answer->met && !less.answer->met);
    assert_true(less.answer->window);
    check_near(more.answer->thrust_N, 1.2 * N, 1e-12, 0, "law: as given");
    check_near(more.answer->line[0].thrust_N, 1.2 * N, 1e-12, 0, "law: as given");
    check_near(more.answer->need_N, N, 2e-3, 0, "law: the need does not ask what is given");
    check_near(less.answer->need_N, N, 2e-3, 0, "law: the need does not ask what is given");
    const LineAnswer *line = &less.answer->line[0];
    const StageHistory *h = line->history;
    check_near(h->gap_force_N[stage_time_named(h, "jacked")], 0.8 * N, 1e-9, 0, "law: as given");
    Governing worst;
    assert_true(worst_margin(line, &worst) > 10 * psi);
    assert_true(worst_margin(&more.answer->line[0], &worst) < 0);
    done(&need);
    done(&more);
    done(&less);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_need_of_c1_agrees),
        cmocka_unit_test(test_need_of_c2_agrees),
        cmocka_unit_test(test_need_of_d1_agrees),
        cmocka_unit_test(test_need_of_d2_agrees),
        cmocka_unit_test(test_need_of_e1_agrees),
        cmocka_unit_test(test_at_the_need_no_joint_opens_and_one_just_closes),
        cmocka_unit_test(test_split_adds_up),
        cmocka_unit_test(test_given_thrust_is_judged),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("thrust", tests, NULL, NULL);
}
