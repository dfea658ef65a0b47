/* The jacking plan against hand calculation: movement, friction, temperature, one jack out. */
#include <string.h>

#include "jacking_case.h"

static const char closed[] =
    "closed form: design-basis of the method, one span, no friction, no time";

/* Flexibility of one girder with half of the deck. */
typedef struct Hand {
    double deck_m_per_N, all_m_per_N, panels_m;
} Hand;

static Hand by_hand(double deck_1, double girder_1)
{
    const double Ed = deck_1 * ksi(4696), Eg = girder_1 * ksi(29000);
    const double t = inch(8), b = inch(240), Ad = b * t, Id = b * t * t * t / 12;
    const double flange = 40 * 3, web = 100 * 1, arm = 51.5;
    const double Ag = (2 * flange + web) * inch(1) * inch(1);
    const double Ig = (2 * flange * arm * arm + 2 * 40 * 27 / 12.0 + 1e6 / 12.0) * pow(inch(1), 4);
    const double e = inch(53 + 2 + 4), L = inch(206 * 12), c = inch(72);
    Hand hand = {(L - c) / (Ed * Ad), 0, L - c};
    hand.all_m_per_N =
        hand.deck_m_per_N + L / (Eg * Ag) + e * e * ((L - c) / (Eg * Ig + Ed * Id) + c / (Eg * Ig));
    return hand;
}

/* ---- movement ---- */

/* 0.3 %: connectors of the anchors give, and the deck's bending reaches past the gap's faces. */
static void test_movement_without_friction_is_the_closed_form(void **state)
{
    (void)state;
    Case c;
    open_rigid(&c, "");
    const Hand hand = by_hand(1, 1);
    const double seated_m = (c.plan->seating_least_m + c.plan->seating_most_m) / 2;
    assert_int_equal(c.plan->joint_count, 20); /* ten panels a side, each with one */
    check_near(seated_m, 20 * inch(0.006), 1e-12, 0, "closed form");
    for (int i = 0; i < c.plan->step_count; i++) {
        const double line_N = c.plan->step[i].force_N / 2;
        check_near(c.plan->line[0].opening_m[i], line_N * hand.all_m_per_N, 3e-3, 0, closed);
        check_near(c.plan->step[i].opening.expected_m, c.plan->line[0].opening_m[i] + seated_m,
                   1e-9, 0, "law: one line, one gap");
        check_near(c.plan->step[i].left_m + c.plan->step[i].right_m, c.plan->line[0].opening_m[i],
                   1e-9, 1e-12, "law: both faces make the gap");
        for (int side = 0; side < 2; side++)
            check_near(c.plan->step[i].anchor_N[side], c.plan->step[i].force_N, 1e-6, 0,
                       "law: without friction the thrust arrives");
    }
    check_near(c.plan->energy_Nm, c.plan->thrust_N * c.plan->line[0].opening_m[6] / 2, 1e-4, 0,
               "law: work of a straight line");
    close_plan(&c);
}

static void test_band_parts_are_those_of_the_closed_form(void **state)
{
    (void)state;
    Case c;
    open_rigid(&c, "jacking: {deck_modulus_off: 15 %, girder_stiffness_off: 5 %}\n");
    const JackBand *band = &whole(c.plan)->opening;
    const double line_N = c.plan->thrust_N / 2, middle = by_hand(1, 1).all_m_per_N;
    /* differences of two runs: 1 % of them */
    check_near(band->above_m[JACK_BAND_DECK], line_N * (by_hand(0.85, 1).all_m_per_N - middle),
               0.01, 0, closed);
    check_near(band->below_m[JACK_BAND_DECK], line_N * (middle - by_hand(1.15, 1).all_m_per_N),
               0.01, 0, closed);
    check_near(band->above_m[JACK_BAND_GIRDER], line_N * (by_hand(1, 0.95).all_m_per_N - middle),
               0.01, 0, closed);
    check_near(band->below_m[JACK_BAND_GIRDER], line_N * (middle - by_hand(1, 1.05).all_m_per_N),
               0.01, 0, closed);
    check_near(band->above_m[JACK_BAND_SEATING], 20 * inch(0.004), 1e-12, 0, "closed form");
    check_near(band->above_m[JACK_BAND_FRICTION], 0, 0, 0, "law: no friction, no range");
    /* 33.02 kip of the gauge and 2 % of 3072 kip: 69.8 kip times the slope */
    check_near(band->above_m[JACK_BAND_GAUGE], hypot(kip(33.024), kip(61.44)) * middle / 2, 4e-3, 0,
               "root of the sum of squares");
    double squares = 0;
    for (int i = 0; i < JACK_BAND_FRICTION; i++) squares += band->above_m[i] * band->above_m[i];
    check_near(band->high_m - band->expected_m, sqrt(squares), 1e-9, 0,
               "root of the sum of squares");
    close_plan(&c);
}

/* What is known exactly has no band. */
static void test_band_closes_where_all_is_known(void **state)
{
    (void)state;
    Case c;
    open_plan(
        &c, kip(3072),
        (const char *[]){jacking_span, jacking_rigid_shims,
                         "jacks: {count: 8, size: 200 ton, calibration_off: 0 %, "
                         "gauge_accuracy: 0.05 %}\n",
                         "jacking: {deck_modulus_off: 0, girder_stiffness_off: 0, "
                         "difference: 0 delta_degF, seating_least: 0 in, seating_most: 0 in}\n"},
        4);
    const JackBand *band = &whole(c.plan)->opening;
    check_near(band->high_m - band->low_m, 2 * band->above_m[JACK_BAND_GAUGE], 1e-9, 0,
               "law: the gauge alone is left");
    assert_true(band->above_m[JACK_BAND_GAUGE] < 1e-3 * band->expected_m);
    close_plan(&c);
}

static void test_expectation_goes_through_the_points(void **state)
{
    (void)state;
    Case c;
    open_rigid(&c, "");
    const JackPoint *point = c.plan->point;
    assert_int_equal(c.plan->point_count, 29); /* seven steps in four parts, and nothing */
    for (int p = 0; p < c.plan->point_count; p++) {
        const JackExpect at = jacking_expect(c.plan, point[p].force_N);
        check_near(at.opening.expected_m, point[p].opening.expected_m, 1e-12, 1e-15, "law");
        check_near(at.opening.low_m, point[p].opening.low_m, 1e-12, 1e-15, "law");
        check_near(at.left_m, point[p].left_m, 1e-12, 1e-15, "law");
    }
    const JackExpect between =
        jacking_expect(c.plan, 0.3 * point[7].force_N + 0.7 * point[8].force_N);
    check_near(between.opening.high_m,
               0.3 * point[7].opening.high_m + 0.7 * point[8].opening.high_m, 1e-9, 0,
               "law: straight between");
    check_near(jacking_expect(c.plan, 1.1 * c.plan->thrust_N).opening.expected_m,
               whole(c.plan)->opening.expected_m +
                   0.1 * c.plan->thrust_N * whole(c.plan)->slope_m_per_N,
               1e-9, 0, "law: beyond the last point along the last piece");
    close_plan(&c);
}

/* ---- holds, locks, the way back ---- */

static void test_without_creep_and_friction_all_comes_back(void **state)
{
    (void)state;
    static const char law[] = "law: elastic, no friction: down is as up";
    Case c;
    open_rigid(&c, "");
    const double seated_m = (c.plan->seating_least_m + c.plan->seating_most_m) / 2;
    for (int i = 0; i < c.plan->hold_count; i++) {
        check_near(c.plan->hold[i].force_N, c.plan->thrust_N, 1e-9, 0, "law: no creep, no fall");
        check_near(c.plan->hold[i].quick_N, c.plan->thrust_N, 1e-9, 0, "law: no creep, no fall");
    }
    assert_int_equal(c.plan->return_count, 2);
    const JackReturn *back = &c.plan->back[1];
    assert_int_equal(back->count, 7);
    for (int k = 0; k < back->count - 1; k++)
        check_near(back->opening_m[k], c.plan->step[5 - k].opening.expected_m, 1e-6, 0, law);
    check_near(back->opening_m[6], seated_m, 1e-6, 1e-9, "law: only seating stays");
    check_near(back->again_1, 0.6, 1e-12, 0, "the stage before");
    check_near(back->again_m, whole(c.plan)->opening.expected_m, 1e-6, 0, law);
    for (int k = 0; k < back->count - 1; k++)
        check_near(back->loop_N[k], 0, 0, 1e-6 * c.plan->thrust_N, "law: no friction, no loop");
    close_plan(&c);
}

/* Friction f along both halves, ends held by girders that carry what the deck carries: at one opening
 * the force differs by the mean of what friction takes, f l / 2 of a half, up and down. 4 %: the thrust
 * bends the deck, which shifts the reactions that friction hangs on. */
static void test_friction_is_half_the_loop(void **state)
{
    (void)state;
    Case c;
    open_plan(&c, kip(3072),
              (const char *[]){jacking_span,
                               "shims: {friction: 0.3, friction_least: 0.3, connectors: 1e7 "
                               "kip/in/ft, vertical: 1e5 kip/in/ft}\n",
                               jacking_8},
              3);
    const JackReturn *back = &c.plan->back[1];
    check_near(back->loop_N[3], kip(60), 0.04, 0,
               "closed form: friction 120 kip of 100 ft, its mean");
    /* friction 0.30 on 4.0 kip/ft of 100 ft is 120 kip; beside anchors and gap the deck lifts off its
     * shims, over 13 and 6 ft at the most (design-basis, lessons of an independent model) */
    for (int side = 0; side < 2; side++) {
        const double taken_N = c.plan->thrust_N - whole(c.plan)->anchor_N[side];
        assert_true(taken_N < kip(120) && taken_N > kip(120 * 0.81));
    }
    assert_true(back->opening_m[3] > c.plan->step[2].opening.expected_m);
    close_plan(&c);
}

/* dP = alpha dT (L - c) / (F + f) of a locked line; 6e-6 and 10 degF, struts 3500 kip/in. */
static void test_locked_jacks_feel_the_temperature(void **state)
{
    (void)state;
    Case c;
    open_rigid(&c, "");
    const Hand hand = by_hand(1, 1);
    const double free_m = 6e-6 * 10 * hand.panels_m, strut = inch(1) / kip(3500);
    const double line_N = free_m / (hand.all_m_per_N + strut);
    const double now_N = c.plan->warmth.locked_warm_N - c.plan->thrust_N;
    check_near(now_N, 2 * line_N, 5e-3, 0, closed);
    check_near(c.plan->thrust_N - c.plan->warmth.locked_cold_N, 2 * line_N, 5e-3, 0, closed);
    /* locked in 5 degF warm: half of it is lost */
    check_near(c.plan->thrust_N - c.plan->warmth.later_warm_N, line_N, 5e-3, 0, closed);
    check_near(-c.plan->warmth.move_warm_m, free_m / 2, 5e-3, 0, "closed form: alpha dT (L - c)");
    close_plan(&c);
}

/* With creep the force falls, and by the law that starts quicker it falls more. */
static void test_creep_takes_from_a_hold(void **state)
{
    (void)state;
    Case c;
    char text[2400];
    bridge_replace(jacking_span, "time_model: elastic", "time_model: AASHTO 2015", text,
                   sizeof text);
    open_plan(&c, kip(3072), (const char *[]){text, jacking_rigid_shims, jacking_8}, 3);
    double before_N = c.plan->thrust_N;
    for (int i = 0; i < c.plan->hold_count; i++) {
        assert_true(c.plan->hold[i].force_N < before_N);
        assert_true(c.plan->hold[i].quick_N < c.plan->hold[i].force_N);
        before_N = c.plan->hold[i].force_N;
    }
    /* common practice, no source: creep alone takes about 1 to 2 % in 24 hours */
    const JackHold *day = &c.plan->hold[c.plan->hold_count - 1];
    check_near(day->after_day, 1, 1e-12, 0, "24 h");
    assert_true(1 - day->force_N / c.plan->thrust_N < 0.015);
    assert_true(1 - day->quick_N / c.plan->thrust_N > 0.005);
    close_plan(&c);
}

/* ---- one jack out, jacks off the middle ---- */

/* Ten jacks, 40 ft by 8.5 in, 2040 kip, the outer one at 18 ft off: 500 psi plus and minus 150. */
static void test_outer_jack_out_tilts_the_stress(void **state)
{
    (void)state;
    static const char law[] = "closed form: P e over t W^2 / 6, e = 18 ft / 9";
    Case c;
    char text[2400];
    bridge_replace(jacking_span, "thickness: 8 in", "thickness: 8.5 in", text, sizeof text);
    open_plan(&c, kip(2040),
              (const char *[]){text, jacking_rigid_shims, "jacks: {count: 10, size: 250 ton}\n"},
              3);
    const JackOut *first = &c.plan->out[0], *last = &c.plan->out[9], *pair = &c.plan->out[10];
    check_near(c.plan->gear.across_m[0], -18 * 0.3048, 1e-12, 0, "closed form: half a spacing in");
    check_near(first->off_m, 2 * 0.3048, 1e-12, 0, "law: equilibrium");
    check_near(first->jack_N, kip(2040.0 / 9), 1e-12, 0, "law: equilibrium");
    check_near(first->edge_least_Pa, ksi(0.350), 1e-6, 0, law);
    check_near(first->edge_most_Pa, ksi(0.650), 1e-6, 0, law);
    assert_true(first->tilt_m > 0); /* the left one is off: the right side goes ahead */
    check_near(last->tilt_m, -first->tilt_m, 1e-9, 0, "law: symmetry");
    assert_false(first->may);
    assert_int_equal(pair->partner, 9);
    check_near(pair->off_m, 0, 0, 1e-12, "law: symmetry");
    check_near(pair->jack_N, kip(255), 1e-12, 0, "law: equilibrium");
    /* 250 ton are 500 kip: over 255 kip 1.96, more than 1.5; 255 is less than 80 % */
    assert_true(pair->may);
    assert_int_equal(c.plan->out_count, 15);
    close_plan(&c);
}

/* Two girders 24 ft apart, each k: angle T e / (k 2 12^2), over 40 ft. */
static void test_side_that_goes_ahead(void **state)
{
    (void)state;
    Case c;
    open_rigid(&c, "");
    const double k = c.plan->line[0].thrust_N / c.plan->line[0].opening_m[6];
    const double half_m = 12 * 0.3048, e_m = c.plan->out[0].off_m;
    check_near(c.plan->out[0].tilt_m,
               c.plan->thrust_N * e_m / (2 * k * half_m * half_m) * 40 * 0.3048, 1e-9, 0,
               "law: equilibrium of two springs");
    close_plan(&c);
}

/* 1/4 in of 2040 kip on 480 by 8.5 in: 88 psi. */
static void test_quarter_of_an_inch_is_88_psi(void **state)
{
    (void)state;
    Case c;
    char text[2400];
    bridge_replace(jacking_span, "thickness: 8 in", "thickness: 8.5 in", text, sizeof text);
    open_plan(&c, kip(2040),
              (const char *[]){text, jacking_rigid_shims, "jacks: {count: 10, size: 200 ton}\n"},
              3);
    check_near(c.plan->height_Pa, ksi(0.0882), 0, ksi(0.00005), "closed form: P e / (b t^2 / 6)");
    const CheckRow *row = row_named(c.plan, "jacks too high or too low: change of stress");
    check_near(sheet_SI(row->sheet, "f_q"), ksi(0.0882), 0, ksi(0.00005),
               "closed form: P e / (b t^2 / 6)");
    close_plan(&c);
}

static void test_own_places_move_the_resultant(void **state)
{
    (void)state;
    Case c;
    open_plan(&c, kip(2040),
              (const char *[]){jacking_span, jacking_rigid_shims,
                               "jacks:\n  size: 500 ton\n  sets: 2\n  places:\n"
                               "    - {across: -15 ft, set: 1}\n    - {across: -4 ft, set: 1}\n"
                               "    - {across: 6 ft, set: 2}\n    - {across: 16 ft, set: 2}\n"},
              3);
    assert_int_equal(c.plan->gear.count, 4);
    assert_int_equal(c.plan->gear.set[2], 2);
    check_near(c.plan->off_m, 0.75 * 0.3048, 1e-12, 0, "law: mean of the places");
    assert_true(c.plan->tilt_m > 0);
    assert_false(c.plan->gear.proposed);
    close_plan(&c);
}

/* ---- steps ---- */

static void check_shares(const JackPlan *plan, const double *share_1, const int *stage, int count)
{
    assert_int_equal(plan->step_count, count);
    for (int i = 0; i < count; i++) {
        check_near(plan->step[i].share_1, share_1[i], 1e-12, 0, "common practice, no source");
        assert_int_equal(plan->step[i].stage, stage[i]);
    }
}

static void test_steps_follow_stages_or_the_file(void **state)
{
    (void)state;
    Case c;
    open_rigid(&c, "");
    check_shares(c.plan, (const double[]){0.1, 0.25, 0.5, 0.6, 0.75, 0.9, 1},
                 (const int[]){1, 1, 1, 1, 2, 2, 2}, 7);
    assert_true(c.plan->step[3].stage_end && c.plan->step[6].stage_end &&
                !c.plan->step[2].stage_end);
    check_near(c.plan->step[3].hold_day, 15.0 / 1440, 1e-12, 0, "default");
    check_near(c.plan->work_day, (45 + 5 * 5 + 15 + 30) / 1440.0, 1e-9, 0, "sum of the times");
    close_plan(&c);
    open_rigid(&c, "jacking:\n  stages: [40 %, 100 %]\n  steps:\n    - {share: 0.2, hold: 3 min}\n"
                   "    - {share: 0.4}\n    - {share: 1.03}\n    - {share: 1}\n");
    check_shares(c.plan, (const double[]){0.2, 0.4, 1.03, 1}, (const int[]){1, 1, 2, 2}, 4);
    check_near(c.plan->step[0].hold_day, 3.0 / 1440, 1e-12, 0, "as given");
    assert_true(c.plan->step[1].stage_end && c.plan->step[3].last);
    /* jacks are judged by the largest step: 1.03 * 3072 / 8 kip */
    check_near(sheet_SI(row_named(c.plan, "force of a jack, all working")->sheet, "P_j"),
               kip(1.03 * 384), 1e-9, 0, "law: equilibrium");
    check_near(c.plan->out[0].jack_N, kip(1.03 * 3072 / 7), 1e-9, 0, "law: equilibrium");
    /* beyond the thrust and back: the line of the first loading ends at 103 % */
    check_near(c.plan->point[c.plan->point_count - 1].force_N, 1.03 * c.plan->thrust_N, 1e-12, 0,
               "law");
    close_plan(&c);
}

static void test_jacks_are_proposed_where_none_are_given(void **state)
{
    (void)state;
    Case c;
    open_plan(&c, kip(2040), (const char *[]){jacking_span, jacking_rigid_shims}, 2);
    const JackGear *gear = &c.plan->gear;
    assert_true(gear->proposed);
    assert_int_equal(gear->count, 10);          /* one every 4 ft of 40 ft */
    assert_string_equal(gear->size, "250 ton"); /* 2 * 204 kip > 400 kip of 200 ton */
    assert_int_equal(checks_verdict(c.plan->rows), CHECK_UNPROVEN);
    close_plan(&c);
}

static void check_refused(const char *more, const char *key)
{
    BridgeFile file;
    char text[2600];
    snprintf(text, sizeof text, "%s%s", jacking_span, more);
    bridge_from_text(&file, text);
    assert_int_equal(file.status, STATUS_BAD_INPUT);
    assert_int_equal(file.found.count, 1);
    assert_string_equal(file.found.item[0].key, key);
    bridge_close(&file);
}

static void test_what_cannot_be_is_refused(void **state)
{
    (void)state;
    check_refused("jacks: {count: 3, places: [{across: 1 ft}]}\n", "jacks.places[1].across");
    check_refused("jacks: {places: [{across: 21 ft}]}\n", "jacks.places[1].across");
    check_refused("jacks: {places: [{across: 2 ft}, {across: 1 ft}]}\n", "jacks.places[2].across");
    check_refused("jacks: {places: [{across: 2 ft, set: 3}]}\n", "jacks.places[1].across");
    check_refused("jacks: {size: 100 ton, calibration_slope: 30 in^2}\n",
                  "jacks.calibration_slope");
    check_refused("jacks: {gauge_division: 140 psi, gauge_range: 1000 psi}\n",
                  "jacks.gauge_division");
    check_refused("jacking: {stages: [0.5]}\n", "jacking.stages[1]");
    check_refused("jacking: {stages: [0.5, 0.4, 1]}\n", "jacking.stages[2]");
    check_refused("jacking: {steps: [{share: 0.5}]}\n", "jacking.steps[1].share");
    check_refused("jacking: {seating_least: 0.02 in}\n", "jacking.seating_least");
    check_refused("jacking: {alarm_slip: 0.05 in}\n", "jacking.alarm_slip");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_movement_without_friction_is_the_closed_form),
        cmocka_unit_test(test_band_parts_are_those_of_the_closed_form),
        cmocka_unit_test(test_band_closes_where_all_is_known),
        cmocka_unit_test(test_expectation_goes_through_the_points),
        cmocka_unit_test(test_without_creep_and_friction_all_comes_back),
        cmocka_unit_test(test_friction_is_half_the_loop),
        cmocka_unit_test(test_locked_jacks_feel_the_temperature),
        cmocka_unit_test(test_creep_takes_from_a_hold),
        cmocka_unit_test(test_outer_jack_out_tilts_the_stress),
        cmocka_unit_test(test_side_that_goes_ahead),
        cmocka_unit_test(test_quarter_of_an_inch_is_88_psi),
        cmocka_unit_test(test_own_places_move_the_resultant),
        cmocka_unit_test(test_steps_follow_stages_or_the_file),
        cmocka_unit_test(test_jacks_are_proposed_where_none_are_given),
        cmocka_unit_test(test_what_cannot_be_is_refused),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
