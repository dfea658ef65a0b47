/* A bridge file against an independent model of the same mechanics: file, mesh, parts and order of
 * events together. That model has no transfer length and rounds three weights, hence 1 psi. */
#include "bridge_file.h"

#include <string.h>

static const char source[] = "independent model of the same mechanics, case d1";

typedef struct Known {
    const char *moment;
    int joint; /* from 0 */
    double top_psi, bottom_psi;
} Known;

/* Joints at 25, 33 and 77 ft; thrust 300 kip. */
static const Known known[] = {
    {"jacked", 2, -236.25, -413.35},        {"jacked", 3, -237.805, -413.126},
    {"jacked", 8, -237.805, -413.126},      {"opening", 2, -349.579, -401.263},
    {"opening", 3, -385.899, -417.25},      {"end of life", 2, -321.399, -375.287},
    {"end of life", 3, -360.086, -394.708}, {"end of life", 8, -360.086, -394.708},
};

static StageModel with_thrust(const StageModel *model, double thrust_N, Arena *arena)
{
    StageModel changed = *model;
    Event *event = ARENA_NEW(arena, Event, model->event_count);
    memcpy(event, model->event, sizeof *event * (size_t)model->event_count);
    for (int i = 0; i < model->event_count; i++)
        if (event[i].kind == EVENT_JACK) event[i].thrust_N = thrust_N;
    changed.event = event;
    return changed;
}

static void test_one_span_agrees_with_an_independent_model(void **state)
{
    (void)state;
    BridgeFile file;
    const BridgeLine *line = NULL;
    const StageHistory *history = NULL;
    const StageSettings settings = stage_settings_default();
    int count = 0;
    Error err = {0};
    bridge_from_example(&file, "tests/data/bridge_one_span.yaml");
    check_status(bridge_lines(file.bridge, 1, file.arena, &line, &count, &err), STATUS_OK, &err);
    Arena *scratch = arena_create((size_t)256 << 20);
    const StageModel model = with_thrust(&line->model, 300 / quantity_in(1, "kip"), file.arena);
    check_status(stage_run(&model, &settings, file.arena, scratch, &history, &err), STATUS_OK,
                 &err);
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        FibreStress stress;
        const int time = stage_time_named(history, known[i].moment);
        assert_true(stage_stress(history, time, CHAIN_DECK, line->joint[known[i].joint].station, 1,
                                 &stress));
        check_near(quantity_in(stress.top_Pa, "psi"), known[i].top_psi, 0, 1.0, source);
        check_near(quantity_in(stress.bottom_Pa, "psi"), known[i].bottom_psi, 0, 1.0, source);
    }
    const int jacked = stage_time_named(history, "jacked");
    check_near(quantity_in(history->gap_opening_m[jacked], "in"), 0.32258, 0.005, 0, source);
    arena_free(scratch);
    bridge_close(&file);
}

static void test_five_unlike_spans_are_ten_lines(void **state)
{
    (void)state;
    BridgeFile file;
    int count = 0;
    Error err = {0};
    const BridgeLine *line = NULL;
    char small[4096], text[8192];
    bridge_small("", small, sizeof small);
    bridge_replace(small, "  - length: 94 ft\n",
                   "  - length: 80 ft\n  - length: 81 ft\n  - length: 82 ft\n  - length: 83 ft\n"
                   "  - length: 84 ft\n",
                   text, sizeof text);
    bridge_from_text(&file, text);
    assert_int_equal(file.status, STATUS_OK);
    check_status(bridge_lines(file.bridge, 1, file.arena, &line, &count, &err), STATUS_OK, &err);
    assert_int_equal(count, 10);
    bridge_close(&file);
}

/* Interior line 8.5 ft apart: (0.36 + 8.5/25)/1.2 = 0.5833 for shear of one truck, not its 0.397 for
 * moment; two tubs: (0.05 + 0.85/2 + 0.425)/1.2 = 0.75 for both, whatever the number of lanes. */
static void test_one_truck_has_lanes_of_its_own_in_shear(void **state)
{
    static const char table[] =
        "AASHTO LRFD tables 4.6.2.2.2b-1 and -3a-1 over the presence factor "
        "1.2 of 3.6.1.1.2 (from memory), by hand";
    const char *const path[] = {"examples/steel-continuous.yaml", "examples/single-tub.yaml"};
    const double moment_1[] = {0.397, 0.75}, shear_1[] = {0.58333, 0.75};
    (void)state;
    for (int i = 0; i < 2; i++) {
        BridgeFile file;
        const BridgeLine *line = NULL;
        int count = 0;
        Error err = {0};
        bridge_from_example(&file, path[i]);
        check_status(bridge_lines(file.bridge, 1, file.arena, &line, &count, &err), STATUS_OK,
                     &err);
        check_near(line[0].lanes_fatigue_1, moment_1[i], 0, 0.0005, table);
        check_near(line[0].lanes_fatigue_shear_1, shear_1[i], 0, 0.00001, table);
        bridge_close(&file);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_span_agrees_with_an_independent_model),
        cmocka_unit_test(test_one_truck_has_lanes_of_its_own_in_shear),
        cmocka_unit_test(test_five_unlike_spans_are_ten_lines),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
