/* thrust: what a review of whole answers found, on bridge files. Figures of the review stand beside. */
#include "bridge_file.h"

#include <math.h>
#include <string.h>

#include "clench/thrust.h"

static Arena *arena, *scratch;

static int set_up(void **state)
{
    (void)state;
    arena = arena_create((size_t)2 << 30);
    scratch = arena_create((size_t)1 << 30);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(arena);
    arena_free(scratch);
    return 0;
}

static const ThrustAnswer *answer_to(BridgeFile *file, double given_N)
{
    const BridgeLine *line = NULL;
    const ThrustAnswer *answer = NULL;
    const ThrustWish wish = {given_N, stage_settings_default()};
    int count = 0;
    Error err = {0};
    assert_int_equal(file->status, STATUS_OK);
    check_status(bridge_lines(file->bridge, 1, arena, &line, &count, &err), STATUS_OK, &err);
    check_status(thrust_find(line, count, &wish, arena, scratch, &answer, &err), STATUS_OK, &err);
    return answer;
}

/* The example with one piece of its text replaced. */
static const ThrustAnswer *answer_of(const char *path, const char *old, const char *fresh,
                                     BridgeFile *file)
{
    const char *bytes;
    size_t size;
    char text[16384];
    Error err = {0};
    check_status(file_read(path, sizeof text, arena, &bytes, &size, &err), STATUS_OK, &err);
    bridge_from_text(file, bridge_replace(bytes, old, fresh, text, sizeof text));
    return answer_to(file, 0);
}

static const LimitAnswer *limit_of(const LineAnswer *line, LimitKind kind)
{
    for (int k = 0; k < line->line->limit_count; k++)
        if (line->line->limit[k].kind == kind) return &line->limit[k];
    fail_msg("no such limit");
    return NULL;
}

/* Panels' strength was taken for the closure of 4 ksi: 2329 kip a line instead of about 1014. */
static void test_closure_is_judged_by_its_own_strength(void **state)
{
    (void)state;
    BridgeFile weak, usual;
    const ThrustAnswer *a = answer_of("examples/steel-continuous.yaml", "\nconcrete:\n",
                                      "\nconcrete:\n  closure: {strength: 4 ksi}\n", &weak);
    bridge_from_example(&usual, "examples/steel-continuous.yaml");
    const ThrustAnswer *b = answer_to(&usual, 0);
    const double weak_N = limit_of(&a->line[0], LIMIT_DECK_JACKING)->most_N;
    const double usual_N = limit_of(&b->line[0], LIMIT_DECK_JACKING)->most_N;
    assert_true(weak_N < 0.6 * usual_N);
    bridge_close(&weak);
    bridge_close(&usual);
}

/* Two short steel spans: the thrust lifts them off the pier inside what was called the window. */
static void test_bearings_that_lift_close_the_window(void **state)
{
    (void)state;
    BridgeFile file;
    bridge_from_text(&file, "spans: [{length: 60 ft}, {length: 60 ft}]\n"
                            "girders:\n"
                            "  count: 5\n"
                            "  spacing: 8.5 ft\n"
                            "  kind: plate girder\n"
                            "  plates:\n"
                            "    - {top_width: 16 in, top_thickness: 1 in, web_depth: 36 in,\n"
                            "       web_thickness: 0.5 in, bottom_width: 16 in,\n"
                            "       bottom_thickness: 1.25 in}\n"
                            "climate: {humidity: 70 %, gradient_zone: 2}\n");
    const ThrustAnswer *answer = answer_to(&file, 0);
    for (int k = 0; k < answer->line_count; k++) {
        const LineAnswer *line = &answer->line[k];
        const LimitAnswer *lift = limit_of(line, LIMIT_UPLIFT);
        assert_true(isfinite(lift->most_N) != 0 && line->most_N <= lift->most_N);
    }
    bridge_close(&file);
}

/* The sum of both levels hid one beyond its yield: 847 kip a line instead of about 500. */
static void test_ties_are_judged_level_by_level(void **state)
{
    (void)state;
    BridgeFile file;
    bridge_from_example(&file, "examples/made-continuous.yaml");
    const ThrustAnswer *answer = answer_to(&file, 0);
    const double most = limit_of(&answer->line[0], LIMIT_TIE)->most_N / 4448.2216;
    assert_true(most > 400 && most < 600);
    bridge_close(&file);
}

/* Ten jacks push what they push however the lines share it: 1504 was printed for 1600 kip. */
static void test_jacks_do_not_depend_on_sharing(void **state)
{
    (void)state;
    BridgeFile file;
    bridge_from_example(&file, "examples/causeway.yaml");
    const ThrustAnswer *answer = answer_to(&file, 0);
    check_near(answer->most_stiff_N, 1600 * 4448.2216152605, 1e-6, 0,
               "closed form: 10 jacks of 320 kip over a margin of 2");
    bridge_close(&file);
}

static void test_need_does_not_depend_on_the_given_thrust(void **state)
{
    (void)state;
    BridgeFile file;
    bridge_from_example(&file, "examples/causeway.yaml");
    const double need_N = answer_to(&file, 0)->need_N;
    check_near(answer_to(&file, 53e6)->need_N, need_N, 1e-6, 0, "law: 12,000 kip given or not");
    bridge_close(&file);
}

static void test_closure_over_the_whole_width_has_no_fill(void **state)
{
    (void)state;
    BridgeFile whole, part;
    const ThrustAnswer *a =
        answer_of("examples/causeway.yaml", "fraction: 60 %", "fraction: 100 %", &whole);
    bridge_from_example(&part, "examples/causeway.yaml");
    const ThrustAnswer *b = answer_to(&part, 0);
    assert_true(isnan(a->line[0].fill_top_Pa) != 0);
    assert_true(isnan(b->line[0].fill_top_Pa) == 0);
    bridge_close(&whole);
    bridge_close(&part);
}

int main(void)
{
#define REVIEW(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        REVIEW(test_closure_is_judged_by_its_own_strength),
        REVIEW(test_bearings_that_lift_close_the_window),
        REVIEW(test_ties_are_judged_level_by_level),
        REVIEW(test_jacks_do_not_depend_on_sharing),
        REVIEW(test_need_does_not_depend_on_the_given_thrust),
        REVIEW(test_closure_over_the_whole_width_has_no_fill),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
