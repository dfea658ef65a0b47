/* stages and thrust at their edges: what a review of the engine found, each with the figure that
 * showed it. */
#include "case_line.h"
#include "check.h"
#include "clench/thrust.h"
#include "stage_make.h"

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

/* ---- thrust ---- */

/* A line of one joint that asks for an average compression. Invented. */
static BridgeLine average_line(double average_Pa)
{
    LineSpec spec = line_spec();
    Make make = line_make(&spec, arena);
    line_set_up(&make, &spec, 0, 4e3, 16e3);
    make_jack(&make, 0, 0, 3e6, 4);
    make_note(&make, 0, "jacked");
    make_event(&make, 0, EVENT_LOCK, CAUSE_THRUST);
    make_birth(&make, 0, 2);
    make_event(&make, 0, EVENT_RELEASE, CAUSE_RELEASE);
    make_birth(&make, 0, 3);
    make_bond(&make, 0, 0, 104);
    make_note(&make, 0, "bonded");
    make_note(&make, 1, "opening");
    make_note(&make, 2, "end");
    Joint *joint = ARENA_NEW(arena, Joint, 1);
    JointRule *rule = ARENA_NEW(arena, JointRule, 1);
    joint[0] = (Joint){.station = make_station(&make, 32), .mark = "J01"};
    rule[0] =
        (JointRule){.name = "average", .average = true, .limit_Pa = average_Pa, .counts = true};
    return (BridgeLine){.name = "line",
                        .unit = "unit",
                        .model = make.model,
                        .share_1 = 0.5,
                        .share_stiff_1 = 0.5,
                        .width_m = 2.8,
                        .joint_count = 1,
                        .joint = joint,
                        .live = traffic_hl93(),
                        .rule_count = 1,
                        .rule = rule,
                        .jacked = "jacked",
                        .released = "bonded",
                        .bonded = "bonded",
                        .opening = "opening",
                        .end = "end",
                        .first_guess_N = 3e6};
}

static const ThrustAnswer *find(const BridgeLine *line, int count)
{
    Error err;
    const ThrustAnswer *answer = NULL;
    const ThrustWish wish = {0, stage_settings_default()};
    check_status(thrust_find(line, count, &wish, arena, scratch, &answer, &err), STATUS_OK, &err);
    return answer;
}

static void test_two_lines_alike_have_both_histories(void **state)
{
    (void)state;
    const BridgeLine line[2] = {average_line(-5e6), average_line(-5e6)};
    const ThrustAnswer *answer = find(line, 2);
    assert_non_null(answer->line[0].history);
    assert_non_null(answer->line[1].history);
    check_near(answer->line[0].need_N, answer->line[1].need_N, 1e-6, 0, "law: alike");
}

/* Compression at the girder top under its loads, which the thrust takes away. */
static void test_limit_that_thrust_relieves_is_no_upper_limit(void **state)
{
    (void)state;
    BridgeLine line = average_line(-1e6);
    const UpperLimit limit = {LIMIT_GIRDER_COMPRESSION, "compression", "by hand", 40e6, 1};
    line.limit = &limit;
    line.limit_count = 1;
    const ThrustAnswer *answer = find(&line, 1);
    assert_true(answer->line[0].most_N > 1e6);
}

/* ---- stages against cases of the independent model ---- */

static FibreStress both_sides(const StageHistory *h, int time, Chain chain, int station)
{
    FibreStress l, r;
    assert_true(stage_stress(h, time, chain, station, -1, &l));
    assert_true(stage_stress(h, time, chain, station, 1, &r));
    return (FibreStress){.top_Pa = 0.5 * (l.top_Pa + r.top_Pa),
                         .bottom_Pa = 0.5 * (l.bottom_Pa + r.bottom_Pa)};
}

static const StageHistory *run_case(CaseModel *c)
{
    Error err;
    const StageHistory *h = NULL;
    check_status(stage_run(&c->model, &c->settings, arena, scratch, &h, &err), STATUS_OK, &err);
    return h;
}

/* By its length along x the girder was 3.6 psi and the strand 214 psi off. */
static void test_harped_strand_has_its_own_length(void **state)
{
    (void)state;
    CaseModel c = case_read("pub-d1", 1, arena);
    const StageHistory *h = run_case(&c);
    const int at = case_station(&c, 37 * 0.3048);
    const FibreStress f = both_sides(h, stage_time_named(h, "transfer"), CHAIN_GIRDER, at);
    check_near(f.bottom_Pa / 6894.757, -3505.914, 0, 0.1,
               "independent model of the same mechanics, case d1, transfer, x = 37 ft");
    case_free(&c);
}

/* Bonded in its last step it lost one step's share of the shortening: 26 psi in one step. */
static void test_tendon_is_free_until_it_is_stressed(void **state)
{
    (void)state;
    CaseModel c = case_read("pub-f1", 0.25, arena);
    for (int e = 0; e < c.model.event_count; e++)
        if (c.model.event[e].kind == EVENT_TENDON) ((Event *)c.model.event)[e].steps = 1;
    const StageHistory *h = run_case(&c);
    const int at = case_station(&c, 40 * 0.3048);
    const FibreStress f = both_sides(h, stage_time_named(h, "stressed"), CHAIN_DECK, at);
    check_near(f.top_Pa / 6894.757, -969.228, 0, 1,
               "independent model of the same mechanics, case f1, stressed, x = 40 ft");
    case_free(&c);
}

/* One element from a change of the girder's section: carried over it, 34 kPa off. */
static void test_deck_line_stops_where_the_girder_changes(void **state)
{
    (void)state;
    double top_Pa[2];
    for (int k = 0; k < 2; k++) {
        CaseModel c = case_read("pub-c2", k ? 1 : 2, arena);
        const StageHistory *h = run_case(&c);
        FibreStress f;
        assert_true(stage_stress(h, stage_time_named(h, "open"), CHAIN_DECK, case_station(&c, 22.2),
                                 -1, &f));
        top_Pa[k] = f.top_Pa;
        case_free(&c);
    }
    check_near(top_Pa[1], top_Pa[0], 3e-3, 0, "law: mesh, within the case's own 0.3 %");
}

/* ---- rounding and mechanisms ---- */

static Status two_stations_apart(double distance_m, Error *err)
{
    const double mark[] = {0, 20, 20 + distance_m, 40};
    Make make = make_start(arena, 1, mark, 4);
    const PartSection section = {.area_m2 = .05, .inertia_m4 = .02, .top_m = .9, .bottom_m = .7};
    make_parts(&make, 0, 40,
               (Part){.chain = CHAIN_GIRDER,
                      .material = make_elastic(&make, 200e9),
                      .section = make_section(&make, section),
                      .from_height_m = -.9,
                      .to_height_m = -.9});
    make_links(&make, (Link){1e9, 5e8, 1e12, 1e12, 0.1, false, false});
    make_support(&make, 0, true);
    make_support(&make, 40, false);
    make_birth(&make, 0, 0);
    make_load(&make, 0, 0, 40, CHAIN_GIRDER, 2e4);
    const StageSettings settings = stage_settings_default();
    const StageHistory *h;
    return stage_run(&make.model, &settings, arena, scratch, &h, err);
}

static void test_short_elements_settle(void **state)
{
    (void)state;
    Error err;
    double apart_m = 0.05;
    for (int k = 0; k < 10; k++, apart_m *= 0.7)
        check_status(two_stations_apart(apart_m, &err), STATUS_OK, &err);
}

static void test_girder_that_can_turn_is_a_mechanism(void **state)
{
    (void)state;
    Error err;
    const StageHistory *h;
    LineSpec spec = line_spec();
    spec.span_count = 1;
    spec.span_m[0] = 40;
    spec.gap_from_m = 19;
    spec.gap_to_m = 21;
    spec.longest_m = 0.5;
    Make make = line_make(&spec, arena);
    ((Support *)make.model.support)[1].vertical_N_per_m = 0;
    line_set_up(&make, &spec, 0, 4e3, 16e3);
    const StageSettings settings = stage_settings_default();
    check_status(stage_run(&make.model, &settings, arena, scratch, &h, &err), STATUS_UNSTABLE,
                 &err);
}

/* ---- numbers of the raw model ---- */

static Status jacked_with(void (*spoil)(Make *make, StageSettings *settings), Error *err)
{
    const StageHistory *h;
    LineSpec spec = line_spec();
    Make make = line_make(&spec, arena);
    StageSettings settings = stage_settings_default();
    line_set_up(&make, &spec, 0, 4e3, 16e3);
    make_jack(&make, 0, 0, 1e6, 2);
    make_event(&make, 0, EVENT_LOCK, CAUSE_THRUST);
    spoil(&make, &settings);
    make_note(&make, 10, "end");
    return stage_run(&make.model, &settings, arena, scratch, &h, err);
}

static void no_number(Make *make, StageSettings *s)
{
    (void)s;
    make_jack(make, 0, 0, NAN, 1);
}
static void no_first_step(Make *make, StageSettings *s)
{
    (void)make;
    s->first_step_day = 0;
}
static void shrinking(Make *make, StageSettings *s)
{
    (void)make;
    s->step_growth_1 = 0.5;
}

static void no_gap(Make *make, StageSettings *s)
{
    (void)s;
    Event *event = make_event(make, 0, EVENT_TEMPERATURE, CAUSE_TEMPERATURE);
    event->chain = -1;
    event->gap = 100000;
    event->change_K = 5;
}

static void no_chain(Make *make, StageSettings *s)
{
    (void)s;
    Event *event = make_event(make, 0, EVENT_LOAD, CAUSE_WEIGHT);
    event->chain = 700;
    event->line_load_N_per_m = 5;
}

static void soft_shims(Make *make, StageSettings *s)
{
    (void)s;
    for (int i = 0; i < make->model.station_count; i++)
        ((Link *)make->model.link)[i].shim_vertical_N_per_m = 0;
}

static void test_bad_numbers_are_refused(void **state)
{
    (void)state;
    void (*const spoil[])(Make *, StageSettings *) = {no_number, no_first_step, shrinking,
                                                      no_gap,    no_chain,      soft_shims};
    Error err;
    for (size_t k = 0; k < sizeof spoil / sizeof *spoil; k++)
        check_status(jacked_with(spoil[k], &err), STATUS_BAD_INPUT, &err);
}

int main(void)
{
#define EDGE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        EDGE(test_two_lines_alike_have_both_histories),
        EDGE(test_limit_that_thrust_relieves_is_no_upper_limit),
        EDGE(test_harped_strand_has_its_own_length),
        EDGE(test_tendon_is_free_until_it_is_stressed),
        EDGE(test_deck_line_stops_where_the_girder_changes),
        EDGE(test_short_elements_settle),
        EDGE(test_girder_that_can_turn_is_a_mechanism),
        EDGE(test_bad_numbers_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
