/* thrust on lines whose answers are known by hand: rules, limits, windows, lines that share. */
#include "check.h"

#include <string.h>

#include "clench/thrust.h"
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

/* ---- a line by hand: one elastic span without weight, deck without bending in the slip plane ---- */

typedef struct Toy {
    LineSpec spec;
    BridgeLine line;
    JointRule rule[4];
    UpperLimit limit[4];
    Joint joint[8];
} Toy;

static const double guess_N = 1e6;

static void add_toy_life(Make *make, const LineSpec *spec)
{
    line_set_up(make, spec, 0, 0, 0);
    make_jack(make, 0, 0, guess_N, 2);
    make_note(make, 0, "jacked");
    make_event(make, 0, EVENT_LOCK, CAUSE_THRUST);
    make_birth(make, 0, 2);
    make_event(make, 0, EVENT_RELEASE, CAUSE_RELEASE);
    make_note(make, 0, "released");
    make_bond(make, 0, 0, line_length(spec));
    make_note(make, 0, "bonded");
    make_note(make, 1, "opening");
    make_note(make, 2, "end");
}

static Toy *toy(void)
{
    Toy *t = ARENA_NEW(arena, Toy, 1);
    LineSpec *spec = &t->spec;
    *spec = line_spec();
    spec->span_count = 1;
    spec->span_m[0] = 40;
    spec->gap_from_m = 19;
    spec->gap_to_m = 21;
    spec->anchor_m = 0;
    spec->deck_I_1 = 1e-4;
    spec->deck_arm_m = 1e-9;
    spec->closure_share_1 = 1;
    spec->link_per_m = (Link){.shim_vertical_N_per_m = 1e10,
                              .shim_horizontal_N_per_m = 1e8,
                              .bond_vertical_N_per_m = 1e10,
                              .bond_horizontal_N_per_m = 1e12,
                              .two_way = true};
    Make make = line_make(spec, arena);
    add_toy_life(&make, spec);
    t->line = (BridgeLine){.name = "toy",
                           .unit = "span 1",
                           .model = make.model,
                           .share_1 = 1,
                           .share_stiff_1 = 1,
                           .width_m = spec->deck_width_m,
                           .joint_count = 2,
                           .joint = t->joint,
                           .live = traffic_hl93(),
                           .rule = t->rule,
                           .limit = t->limit,
                           .jacked = "jacked",
                           .released = "released",
                           .bonded = "bonded",
                           .opening = "opening",
                           .end = "end",
                           .first_guess_N = guess_N};
    for (int j = 0; j < 2; j++)
        t->joint[j] = (Joint){.station = make_station(&make, 9 + j), .mark = "J"};
    return t;
}

static void add_rule(Toy *t, JointRule rule)
{
    rule.name = "rule";
    t->rule[t->line.rule_count++] = rule;
}

static void add_limit(Toy *t, LimitKind kind, double value, double factor)
{
    t->limit[t->line.limit_count++] = (UpperLimit){kind, "limit", "by hand", value, factor};
}

static const ThrustAnswer *answer_of(const BridgeLine *line, int count, double given_N)
{
    Error err;
    const ThrustAnswer *answer;
    const ThrustWish wish = {given_N, stage_settings_default()};
    Arena *scratch = arena_create((size_t)1 << 30);
    check_status(thrust_find(line, count, &wish, arena, scratch, &answer, &err), STATUS_OK, &err);
    arena_free(scratch);
    return answer;
}

/* What of the thrust survives the release: F/(F + fc), closed form; fc by area. */
static double survives_1(const Toy *t)
{
    const LineSpec *s = &t->spec;
    const double EAd = s->deck.E_Pa * s->deck_width_m * s->deck_depth_m, e = s->girder_top_m + 0.05;
    const double F = 38 / EAd + 40 / (s->girder_E_Pa * s->girder_A_m2) +
                     e * e * 40 / (s->girder_E_Pa * s->girder_I_m4) +
                     2 / t->line.model.link[0].bond_horizontal_N_per_m;
    return F / (F + 2 / EAd);
}

static double deck_area(const Toy *t) { return t->spec.deck_width_m * t->spec.deck_depth_m; }

/* Stress of the bottom fibre under 1 N of thrust: it follows the girder's curvature. */
static double bottom_per_N(const Toy *t)
{
    const LineSpec *s = &t->spec;
    return 1 / deck_area(t) + s->deck.E_Pa * (s->girder_top_m + s->haunch_m) * s->deck_depth_m / 2 /
                                  (s->girder_E_Pa * s->girder_I_m4);
}

/* ---- rules ---- */

static void test_average_rule_by_hand(void **state)
{
    (void)state;
    Toy *t = toy();
    add_rule(t, (JointRule){.average = true, .limit_Pa = -2e6, .counts = true});
    add_rule(t, (JointRule){.average = true, .limit_Pa = -3e6});
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    const double need = 2e6 * deck_area(t) / survives_1(t);
    check_near(a->need_N, need, 1e-5, 0, "closed form: sigma A (F + fc)/F");
    check_near(a->line[0].rule[1].need_N, 1.5 * need, 1e-5, 0, "closed form: sigma A (F + fc)/F");
    assert_true(a->line[0].need_rule == 0 && a->reachable && a->met && a->window);
    assert_true(isinf(a->most_N) && a->limiting_line == -1 && a->line[0].most_limit == -1);
    check_near(a->line[0].average_Pa * 1e-6 * t->line.width_m * t->line.model.deck_thickness_m,
               need * 1e-6, 1e-5, 0, "closed form: thrust over the panel's area");
}

/* Wheel bending counts with its factor; each fibre has its own. */
static void test_wheel_bending_is_added(void **state)
{
    (void)state;
    Toy *t = toy();
    t->joint[1].wheel_bottom_Pa = 1.5e6;
    add_rule(t, (JointRule){.wheel_1 = 0.8, .counts = true});
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    check_near(a->need_N, 1.2e6 / bottom_per_N(t) / survives_1(t), 1e-4, 0,
               "closed form: N/A and curvature of the girder");
    const Governing *at = &a->line[0].rule[0].at;
    assert_true(at->joint == 1 && !at->top);
    check_near(at->wheel_Pa, 1.2e6, 1e-12, 0, "law: factor times wheel bending");
}

/* A tension that nothing brings about needs no thrust, and the history is there all the same. */
static void test_no_need_is_zero(void **state)
{
    (void)state;
    Toy *t = toy();
    add_rule(t, (JointRule){.limit_Pa = 1e6, .counts = true});
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    check_near(a->need_N, 0, 0, 1e-9, "law: open by nothing");
    assert_true(a->reachable && a->met);
    assert_non_null(a->line[0].history);
    check_near(a->line[0].history->gap_force_N[a->line[0].history->time_count - 1], 0, 0, 1,
               "law: no thrust");
}

/* A deck with bending, jacked far above its middle: the bottom at the gap opens with the thrust. */
static void test_rule_that_no_thrust_can_meet_is_unreachable(void **state)
{
    (void)state;
    Toy *t = toy();
    t->spec.deck_I_1 = 1;
    t->spec.longest_m = 0.5;
    Make make = line_make(&t->spec, arena);
    ((Gap *)make.model.gap)->jack_above_mid_m = 0.10;
    line_set_up(&make, &t->spec, 0, 0, 0);
    make_jack(&make, 0, 0, guess_N, 2);
    make_note(&make, 0, "jacked");
    make_note(&make, 0, "bonded");
    make_note(&make, 1, "opening");
    make_note(&make, 2, "end");
    t->line.model = make.model;
    t->line.joint_count = 1;
    t->joint[0] =
        (Joint){.station = make_station(&make, 18.5), .mark = "J", .wheel_bottom_Pa = 1e5};
    add_rule(t, (JointRule){.wheel_1 = 1, .counts = true});
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    assert_false(a->reachable);
    assert_false(a->window);
    assert_false(a->met);
    assert_false(a->line[0].rule[0].reachable);
    assert_true(a->line[0].need_rule == 0 && !a->line[0].rule[0].at.top);
}

/* ---- limits ---- */

static void check_limit(LimitKind kind, double value, double factor, double most_N)
{
    Toy *t = toy();
    for (int j = 0; j < t->line.joint_count; j++) t->joint[j].at_anchor = j == 0;
    add_rule(t, (JointRule){.average = true, .limit_Pa = -1e6, .counts = true});
    add_limit(t, kind, value, factor);
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    check_near(a->most_N, most_N, 1e-4, 0, "closed form: the limit over the effect of 1 N");
    check_near(a->most_stiff_N, most_N, 1e-4, 0, "closed form: the limit over the effect of 1 N");
    const LimitAnswer *limit = &a->line[0].limit[0];
    check_near(limit->at.demand, value, 1e-3, 0, "law: at the most the limit is met");
    assert_true(a->limiting_line == 0 && a->line[0].most_limit == 0);
    assert_true(a->window == (a->need_N <= a->most_N));
}

static void test_jacks_limit_the_thrust(void **state)
{
    (void)state;
    check_limit(LIMIT_JACKS, 3e6, 1, 3e6);
    check_limit(LIMIT_JACKS, 3e6, 1.25, 2.4e6);
}

/* Largest compression of the deck between two moments, anywhere. */
static double deck_compression_Pa(const StageHistory *h, const char *from, const char *to)
{
    double most = 0;
    for (int t = stage_time_named(h, from); t <= stage_time_named(h, to); t++)
        for (int i = 0; i < h->model->station_count; i++)
            for (int side = -1; side <= 1; side += 2) {
                FibreStress s;
                if (stage_stress(h, t, CHAIN_DECK, i, side, &s))
                    most = fmax(most, fmax(-s.top_Pa, -s.bottom_Pa));
            }
    return most;
}

static void check_deck_limit(LimitKind kind, const char *from, const char *to)
{
    Toy *t = toy();
    add_rule(t, (JointRule){.average = true, .limit_Pa = -1e6, .counts = true});
    add_limit(t, kind, 10e6, 1);
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    const ThrustAnswer *at_most = answer_of(&t->line, 1, a->most_N);
    assert_true(a->most_N > 10e6 / bottom_per_N(t) * 0.8);
    check_near(deck_compression_Pa(at_most->line[0].history, from, to), 10e6, 1e-5, 0,
               "law: at the most the limit is met");
    assert_true(at_most->met);
}

static void test_deck_compression_limits_the_thrust(void **state)
{
    (void)state;
    check_deck_limit(LIMIT_DECK_JACKING, "jacked", "bonded");
    check_deck_limit(LIMIT_DECK_PERMANENT, "opening", "end");
    const Toy *t = toy();
    check_limit(LIMIT_DECK_SERVICE, 10e6, 1, 10e6 / bottom_per_N(t) / survives_1(t));
}

static void test_girder_limits_the_thrust(void **state)
{
    (void)state;
    const LineSpec s = toy()->spec;
    const double e = s.girder_top_m + s.haunch_m, A = s.girder_A_m2, I = s.girder_I_m4;
    check_limit(LIMIT_GIRDER_TOP_TENSION, 100e6, 1, 100e6 / (1 / A + e * s.girder_top_m / I));
    check_limit(LIMIT_GIRDER_COMPRESSION, 30e6, 1, 30e6 / (e * s.girder_bottom_m / I - 1 / A));
}

static void test_anchor_limits_the_thrust(void **state)
{
    (void)state;
    check_limit(LIMIT_ANCHOR, 3e6, 1.2, 2.5e6);
}

/* Compression at the bottom never becomes tension: no limit. */
static void test_limit_that_is_never_met_is_infinite(void **state)
{
    (void)state;
    Toy *t = toy();
    add_rule(t, (JointRule){.average = true, .limit_Pa = -1e6, .counts = true});
    add_limit(t, LIMIT_GIRDER_BOTTOM_TENSION, 50e6, 1);
    add_limit(t, LIMIT_TIE, 1e6, 1);
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    assert_true(isinf(a->most_N) && isinf(a->line[0].limit[0].most_N));
    assert_true(isinf(a->line[0].limit[1].most_N) && a->window);
}

static void test_window_can_be_empty(void **state)
{
    (void)state;
    Toy *t = toy();
    add_rule(t, (JointRule){.average = true, .limit_Pa = -5e6, .counts = true});
    add_limit(t, LIMIT_JACKS, 2e6, 1);
    add_limit(t, LIMIT_DECK_JACKING, 20e6, 1);
    const ThrustAnswer *a = answer_of(&t->line, 1, 0);
    assert_true(a->need_N > a->most_N);
    assert_true(a->reachable && !a->window && !a->met);
    assert_int_equal(a->line[0].most_limit, 0);
    const ThrustAnswer *given = answer_of(&t->line, 1, 1.9e6);
    assert_true(given->given && !given->met);
}

/* ---- two lines ---- */

/* The stiffer demand governs; the other is shown at its share of the same whole thrust. */
static void test_two_lines_share_one_thrust(void **state)
{
    (void)state;
    Toy *inner = toy(), *outer = toy();
    BridgeLine line[2];
    add_rule(inner, (JointRule){.average = true, .limit_Pa = -2e6, .counts = true});
    add_rule(outer, (JointRule){.average = true, .limit_Pa = -3e6, .counts = true});
    add_limit(inner, LIMIT_ANCHOR, 3e6, 1);
    add_limit(outer, LIMIT_ANCHOR, 6e6, 1);
    line[0] = inner->line;
    line[1] = outer->line;
    line[0].share_1 = 0.5;
    line[1].share_1 = 0.3;
    line[0].share_stiff_1 = 0.25;
    line[1].share_stiff_1 = 0.4;
    const ThrustAnswer *a = answer_of(line, 2, 0);
    const double one = deck_area(inner) / survives_1(inner);
    check_near(a->need_N, 3e6 * one / 0.3, 1e-5, 0, "closed form: the larger of need over share");
    check_near(a->need_stiff_N, 2e6 * one / 0.25, 1e-4, 0,
               "closed form: the larger of need over share, stiff deck");
    check_near(a->most_N, 6e6, 1e-6, 0, "closed form: the smaller of limit over share");
    check_near(a->most_stiff_N, 12e6, 1e-6, 0, "closed form: the smaller of limit over share");
    assert_int_equal(a->governing_line, 1);
    assert_int_equal(a->limiting_line, 0);
    assert_false(a->window); /* 7.8 MN and 6 MN */
    for (int k = 0; k < 2; k++) {
        const LineAnswer *l = &a->line[k];
        check_near(l->thrust_N, a->thrust_N * line[k].share_1, 1e-9, 0, "law: its share");
        check_near(l->history->gap_force_N[stage_time_named(l->history, "jacked")], l->thrust_N,
                   1e-9, 0, "law: its share");
    }
}

static void test_given_thrust_is_shared(void **state)
{
    (void)state;
    Toy *inner = toy(), *outer = toy();
    BridgeLine line[2];
    add_rule(inner, (JointRule){.average = true, .limit_Pa = -2e6, .counts = true});
    add_rule(outer, (JointRule){.average = true, .limit_Pa = -3e6, .counts = true});
    line[0] = inner->line;
    line[1] = outer->line;
    line[0].share_1 = 0.6;
    line[1].share_1 = 0.4;
    const ThrustAnswer *a = answer_of(line, 2, 5e6);
    check_near(a->line[0].thrust_N, 3e6, 1e-12, 0, "law: its share");
    check_near(a->line[1].thrust_N, 2e6, 1e-12, 0, "law: its share");
    assert_true(a->given && a->thrust_N == 5e6);
    assert_true(a->met == (5e6 >= a->need_N));
}

/* ---- what is refused ---- */

static void check_refused(const BridgeLine *line, int count, Status status, const char *words)
{
    Error err = {0};
    const ThrustAnswer *answer = NULL;
    const ThrustWish wish = {0, stage_settings_default()};
    Arena *scratch = arena_create((size_t)1 << 30);
    check_status(thrust_find(line, count, &wish, arena, scratch, &answer, &err), status, &err);
    assert_null(answer); /* outputs only on success */
    if (!strstr(err.text, words)) fail_msg("'%s' does not say '%s'", err.text, words);
    arena_free(scratch);
}

static void test_unsound_lines_are_refused(void **state)
{
    (void)state;
    Toy *t = toy();
    add_rule(t, (JointRule){.average = true, .limit_Pa = -2e6, .counts = true});
    check_refused(&t->line, 0, STATUS_TOO_LARGE, "0 girder lines");
    check_refused(&t->line, LINES_MAX + 1, STATUS_TOO_LARGE, "girder lines");
    BridgeLine line = t->line;
    line.joint_count = 0;
    check_refused(&line, 1, STATUS_BAD_INPUT, "no joint");
    line = t->line;
    line.first_guess_N = 0;
    check_refused(&line, 1, STATUS_BAD_INPUT, "no first guess");
    line = t->line;
    line.bonded = "haunches";
    check_refused(&line, 1, STATUS_BAD_INPUT, "no moment named 'haunches'");
    line = t->line;
    line.rule_count = RULES_MAX + 1;
    check_refused(&line, 1, STATUS_TOO_LARGE, "rules");
    line = t->line;
    line.live.vehicle[0].axle_N[0] = -1;
    check_refused(&line, 1, STATUS_BAD_INPUT, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_average_rule_by_hand, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_wheel_bending_is_added, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_no_need_is_zero, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_rule_that_no_thrust_can_meet_is_unreachable, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_jacks_limit_the_thrust, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_deck_compression_limits_the_thrust, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_girder_limits_the_thrust, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_anchor_limits_the_thrust, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_limit_that_is_never_met_is_infinite, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_window_can_be_empty, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_two_lines_share_one_thrust, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_given_thrust_is_shared, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_unsound_lines_are_refused, set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("thrust_limits", tests, NULL, NULL);
}
