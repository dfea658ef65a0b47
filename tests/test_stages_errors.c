/* stages: what is refused and how it is told; forks; two threads at once. */
#include "check.h"

#include <pthread.h>
#include <string.h>

#include "stage_make.h"

static Arena *arena;

static int set_up(void **state)
{
    (void)state;
    arena = arena_create((size_t)1 << 30);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

/* A sound life, jacked on day 60: the place to break things. */
static Make sound(LineSpec *spec)
{
    *spec = line_spec();
    spec->deck = (Material){.kind = MATERIAL_CONCRETE, .name = "panel", .expansion_per_K = 1e-5};
    spec->deck.mix = concrete_mix_default(TIME_AASHTO2015);
    spec->closure = spec->deck;
    spec->closure.name = "closure";
    spec->closure.cast_day = 60;
    Make make = line_make(spec, arena);
    line_set_up(&make, spec, 50, 4e3, 16e3);
    make_jack(&make, 60, 0, 4e6, 3);
    make_event(&make, 60.1, EVENT_LOCK, CAUSE_THRUST);
    make_birth(&make, 61, 2);
    make_event(&make, 63, EVENT_RELEASE, CAUSE_RELEASE);
    make_birth(&make, 64, 3);
    make_bond(&make, 66, 0, line_length(spec));
    make_note(&make, 400, "late");
    return make;
}

static Event *event_of(Make *make, EventKind kind)
{
    for (int e = 0; e < make->model.event_count; e++)
        if (make->model.event[e].kind == kind) return (Event *)&make->model.event[e];
    fail_msg("no such event");
    return NULL;
}

static void check_refused(const Make *make, const StageSettings *settings, Status status,
                          const char *words)
{
    Error err = {0};
    const StageSettings usual = stage_settings_default();
    const StageHistory *const untouched = (const StageHistory *)&usual, *history = untouched;
    Arena *scratch = arena_create((size_t)1 << 30);
    check_status(
        stage_run(&make->model, settings ? settings : &usual, arena, scratch, &history, &err),
        status, &err);
    assert_ptr_equal(history, untouched); /* outputs only on success */
    assert_int_equal(err.status, status);
    if (!strstr(err.text, words)) fail_msg("'%s' does not say '%s'", err.text, words);
    arena_free(scratch);
}

/* ---- input ---- */

static void test_events_out_of_order_are_refused(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    event_of(&make, EVENT_LOCK)->day = 59;
    event_of(&make, EVENT_LOCK)->name = "lock off";
    check_refused(&make, NULL, STATUS_BAD_INPUT, "'lock off' on day 59 comes after day 60");
    make.model.event_count = 0;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "no events");
}

static void test_indices_out_of_range_are_refused(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    event_of(&make, EVENT_JACK)->gap = 1;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "names gap 1 of 1");
    make = sound(&spec);
    event_of(&make, EVENT_LOAD)->to_station = make.model.station_count;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "names stations");
    make = sound(&spec);
    ((Part *)make.model.part)[7].material = 99;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "part 7");
    make = sound(&spec);
    ((Support *)make.model.support)[2].station = -1;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "support 2");
    make = sound(&spec);
    ((Gap *)make.model.gap)[0].right_station = make.model.gap[0].left_station;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "gap 0 has no length");
    make = sound(&spec);
    make.model.gap_count = 9;
    check_refused(&make, NULL, STATUS_TOO_LARGE, "9 gaps");
}

static void test_unsound_geometry_is_refused(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    ((double *)make.model.x_m)[5] = make.model.x_m[4];
    check_refused(&make, NULL, STATUS_BAD_INPUT, "number 5 does not");
    make = sound(&spec);
    ((PartSection *)make.model.section)[1].area_m2 = 0;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "has no area");
    make = sound(&spec);
    ((Part *)make.model.part)[0].compression_only = true;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "strip without inertia");
    make = sound(&spec);
    make.model.station_count = 1;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "two stations");
}

static void test_part_born_before_its_casting_is_refused(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    for (int m = 0; m < make.model.material_count; m++)
        if (strcmp(make.model.material[m].name, "closure") == 0)
            ((Material *)make.model.material)[m].cast_day = 61;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "'closure' is cast on day 61");
}

static void test_load_on_a_deck_that_is_not_there_is_refused(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    event_of(&make, EVENT_LOAD)->chain = CHAIN_DECK;
    check_refused(&make, NULL, STATUS_BAD_INPUT, "the deck does not carry yet");
}

/* ---- mechanisms and iterations ---- */

static void test_girder_without_a_fixed_bearing_is_a_mechanism(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    ((Support *)make.model.support)[0].horizontal_N_per_m = 0;
    check_refused(&make, NULL, STATUS_UNSTABLE, "free to move along the bridge");
}

static void test_girder_without_bearings_is_a_mechanism(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    for (int s = 0; s < make.model.support_count; s++)
        ((Support *)make.model.support)[s].vertical_N_per_m = 0;
    check_refused(&make, NULL, STATUS_UNSTABLE, "free to move vertically");
}

/* A deck that is jacked against nothing: no anchors, no friction. */
static void test_thrust_against_nothing_does_not_settle(void **state)
{
    (void)state;
    LineSpec spec = line_spec();
    spec.link_per_m.friction_1 = 0;
    Make make = line_make(&spec, arena);
    make_birth(&make, 0, 0);
    make_birth(&make, 0, 1);
    make_event(&make, 0, EVENT_SHIMS, CAUSE_WEIGHT);
    make_jack(&make, 0, 0, 1e6, 1);
    event_of(&make, EVENT_JACK)->name = "push";
    check_refused(&make, NULL, STATUS_NO_CONVERGENCE, "event push on day 0");
}

static void test_too_few_iterations_are_told(void **state)
{
    (void)state;
    LineSpec spec;
    StageSettings settings = stage_settings_default();
    Make make = sound(&spec);
    settings.newton_max = 1;
    check_refused(&make, &settings, STATUS_NO_CONVERGENCE, "of the largest force is left at x = ");
}

static void test_missing_moment_is_minus_one(void **state)
{
    (void)state;
    LineSpec spec;
    Make make = sound(&spec);
    const StageHistory *h = make_run(&make);
    assert_int_equal(stage_time_named(h, "never"), -1);
    assert_int_equal(stage_time_named(h, "late"), h->time_count - 1);
    assert_true(h->day[h->time_count - 1] == 400);
}

/* ---- forks and threads ---- */

static void check_same(const StageHistory *a, const StageHistory *b)
{
    const size_t times = (size_t)a->time_count, parts = (size_t)a->model->part_count,
                 stations = (size_t)a->model->station_count;
    assert_int_equal(a->time_count, b->time_count);
    assert_memory_equal(a->force, b->force, times * parts * sizeof *a->force);
    assert_memory_equal(a->move, b->move, times * stations * 2 * sizeof *a->move);
    assert_memory_equal(a->reaction_N, b->reaction_N,
                        times * (size_t)a->model->support_count * sizeof(double));
    assert_memory_equal(a->gap_force_N, b->gap_force_N, times * sizeof(double));
    if (a->deck_cause && b->deck_cause)
        assert_memory_equal(a->deck_cause, b->deck_cause,
                            times * stations * CAUSE_COUNT * sizeof *a->deck_cause);
}

/* Another thrust from a fork before the jacks is the same as a run from the start; the trunk stays. */
static void test_fork_equals_a_run_of_its_own(void **state)
{
    (void)state;
    Error err;
    LineSpec spec;
    const StageSettings settings = stage_settings_default();
    Make low = sound(&spec), high = sound(&spec);
    event_of(&high, EVENT_JACK)->thrust_N = 5e6;
    StageRun *trunk, *fork;
    check_status(stage_start(&low.model, &settings, arena, arena, &trunk, &err), STATUS_OK, &err);
    while (!stage_next_is(trunk, EVENT_JACK))
        check_status(stage_step(trunk, &err), STATUS_OK, &err);
    fork = stage_fork(trunk, &high.model, false, arena, arena);
    while (!stage_done(fork)) check_status(stage_step(fork, &err), STATUS_OK, &err);
    while (!stage_done(trunk)) check_status(stage_step(trunk, &err), STATUS_OK, &err);
    check_same(stage_history(fork), make_run(&high));
    check_same(stage_history(trunk), make_run(&low));
    assert_false(stage_next_is(trunk, EVENT_NOTE));
}

static void test_causes_left_out_change_nothing_else(void **state)
{
    (void)state;
    LineSpec spec;
    StageSettings settings = stage_settings_default();
    Make make = sound(&spec);
    settings.leave_causes = true;
    const StageHistory *bare = make_run_with(&make, &settings);
    assert_null(bare->deck_cause);
    check_same(bare, make_run(&make));
}

static void *run_many(void *with)
{
    const Make *make = with;
    const StageHistory *last = NULL;
    for (int k = 0; k < 4; k++) last = make_run(make);
    return (void *)last;
}

/* Different bridges at the same time, each as if alone: no state is shared. */
static void test_two_threads_do_not_meet(void **state)
{
    (void)state;
    LineSpec spec;
    Make make[2] = {sound(&spec), sound(&spec)};
    event_of(&make[1], EVENT_JACK)->thrust_N = 2.5e6;
    for (int k = 0; k < 2; k++) make[k].arena = arena_create((size_t)1 << 30);
    const StageHistory *alone[2] = {make_run(&make[0]), make_run(&make[1])};
    pthread_t thread[2];
    for (int k = 0; k < 2; k++)
        assert_int_equal(pthread_create(&thread[k], NULL, run_many, &make[k]), 0);
    for (int k = 0; k < 2; k++) {
        void *last;
        assert_int_equal(pthread_join(thread[k], &last), 0);
        check_same(last, alone[k]);
        arena_free(make[k].arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_events_out_of_order_are_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_indices_out_of_range_are_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_unsound_geometry_is_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_part_born_before_its_casting_is_refused, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_load_on_a_deck_that_is_not_there_is_refused, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_girder_without_a_fixed_bearing_is_a_mechanism, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_girder_without_bearings_is_a_mechanism, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_thrust_against_nothing_does_not_settle, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_too_few_iterations_are_told, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_missing_moment_is_minus_one, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_fork_equals_a_run_of_its_own, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_causes_left_out_change_nothing_else, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_two_threads_do_not_meet, set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("stages_errors", tests, NULL, NULL);
}
