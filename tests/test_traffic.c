#include <stdlib.h>
#include <string.h>

#include "beam_lines.h"
#include "check.h"
#include "clench/traffic.h"
#include "data/hl93_reference.h"

/* Lines have feet (moment) or pure numbers (reaction) a unit load; effects are checked in kip. */
static const double ft = 0.3048, kip = 4448.2216152605;

enum { STATIONS = 1000 };
typedef struct Line {
    int count;
    double x[STATIONS], value[STATIONS];
} Line;

/* Stations every `step` ft in every span; `at` ft becomes one too (at < 0: none). */
static Line stations(const Beam *b, double step, double at)
{
    Line line = {0};
    for (int k = 0; k < b->spans; k++) {
        const int pieces = (int)ceil(b->length[k] / step - 1e-9);
        const double from = beam_support(b, k);
        for (int i = k > 0; i <= pieces; i++) {
            const double x = from + b->length[k] * i / pieces;
            const double before = line.count > 0 ? line.x[line.count - 1] : x;
            assert_true(line.count + 2 <= STATIONS);
            if (at > before + 1e-6 && at < x - 1e-6) line.x[line.count++] = at;
            line.x[line.count++] = x;
        }
    }
    return line;
}

static void to_metres(Line *line)
{
    for (int i = 0; i < line->count; i++) line->x[i] *= ft;
}

static Line moment_line(const Beam *b, double at, double step)
{
    Line line = stations(b, step, at);
    for (int i = 0; i < line.count; i++) line.value[i] = beam_moment(b, at, line.x[i]);
    to_metres(&line);
    return line;
}

static Line reaction_line(const Beam *b, int support, double step)
{
    Line line = stations(b, step, -1);
    for (int i = 0; i < line.count; i++) line.value[i] = beam_reaction(b, support, line.x[i]);
    to_metres(&line);
    return line;
}

static LiveExtreme extreme(LiveLoad live, const Line *line, int sign, bool train)
{
    static double work[8 * (STATIONS + 2)];
    const InfluenceLine influence = {line->count, line->x, line->value};
    Error err;
    check_status(traffic_check(&live, &err), STATUS_OK, &err);
    LiveExtreme e = traffic_extreme(&live, &influence, sign, train, work);
    e.value /= kip, e.vehicle /= kip, e.lane /= kip, e.lead_x_m /= ft;
    return e;
}

/* One vehicle of HL-93 alone, without impact and lane. */
static double vehicle_alone(int vehicle, const Line *line, int sign)
{
    LiveLoad live = traffic_hl93();
    live.vehicle[0] = live.vehicle[vehicle];
    live.vehicle_count = 1;
    live.impact_ratio = live.lane_N_per_m = 0;
    return extreme(live, line, sign, false).value;
}

/* ---- simple spans ---- */

static const struct {
    double L, truck, truck_mid, truck_V, tandem, tandem_mid, tandem_V, lane_mid, lane_V, mid, V;
} simple_table[] = {
    {20, 160.0, 160, 41.60, 202.5, 200, 45.00, 32, 6.4, 298.0, 66.25},
    {30, 282.1, 260, 49.60, 326.7, 325, 46.67, 72, 9.6, 504.3, 75.57},
    {40, 449.8, 440, 55.20, 451.2, 450, 47.50, 128, 12.8, 726.5, 86.22},
    {50, 627.8, 620, 58.56, 576.0, 575, 48.00, 200, 16.0, 1024.6, 93.88},
    {60, 806.5, 800, 60.80, 700.8, 700, 48.33, 288, 19.2, 1352.0, 100.06},
    {80, 1164.9, 1160, 63.60, 950.6, 950, 48.75, 512, 25.6, 2054.8, 110.19},
    {90, 1344.4, 1340, 64.53, 1075.6, 1075, 48.89, 648, 28.8, 2430.2, 114.63},
    {100, 1523.9, 1520, 65.28, 1200.5, 1200, 49.00, 800, 32.0, 2821.6, 118.82},
    {120, 1883.3, 1880, 66.40, 1450.4, 1450, 49.17, 1152, 38.4, 3652.4, 126.71},
    {130, 2063.0, 2060, 66.83, 1575.4, 1575, 49.23, 1352, 41.6, 4091.8, 130.48},
    {140, 2242.8, 2240, 67.20, 1700.4, 1700, 49.29, 1568, 44.8, 4547.2, 134.18},
    {150, 2422.6, 2420, 67.52, 1825.3, 1825, 49.33, 1800, 48.0, 5018.6, 137.80},
    {180, 2962.2, 2960, 68.27, 2200.3, 2200, 49.44, 2592, 57.6, 6528.8, 148.39},
    {200, 3322.0, 3320, 68.64, 2450.2, 2450, 49.50, 3200, 64.0, 7615.6, 155.29},
};

static void test_simple_spans_match_table(void **state)
{
    (void)state;
    const char *source =
        "closed form; the truck reproduces AASHTO Standard Specifications, appendix A";
    for (size_t i = 0; i < sizeof simple_table / sizeof simple_table[0]; i++) {
        const double L = simple_table[i].L;
        const Beam beam = {1, {L}};
        const Line mid = moment_line(&beam, L / 2, L), end = reaction_line(&beam, 0, L);
        check_near(vehicle_alone(0, &mid, 1), simple_table[i].truck_mid, 0, 0.1, source);
        check_near(vehicle_alone(1, &mid, 1), simple_table[i].tandem_mid, 0, 0.1, source);
        check_near(vehicle_alone(0, &end, 1), simple_table[i].truck_V, 0, 0.01, source);
        check_near(vehicle_alone(1, &end, 1), simple_table[i].tandem_V, 0, 0.01, source);
        const LiveExtreme m = extreme(traffic_hl93(), &mid, 1, false);
        const LiveExtreme v = extreme(traffic_hl93(), &end, 1, false);
        check_near(m.lane, simple_table[i].lane_mid, 0, 0.1, source);
        check_near(v.lane, simple_table[i].lane_V, 0, 0.01, source);
        check_near(m.value, simple_table[i].mid, 0, 0.1, source);
        check_near(v.value, simple_table[i].V, 0, 0.01, source);
        assert_int_equal(m.vehicle_index, L > 40 ? 0 : 1);
    }
}

/* The absolute maximum, from sections 0.05 ft apart. */
static void test_simple_spans_absolute_maximum(void **state)
{
    (void)state;
    const char *source =
        "closed form; the truck reproduces AASHTO Standard Specifications, appendix A";
    for (size_t i = 0; i < sizeof simple_table / sizeof simple_table[0]; i++) {
        const Beam beam = {1, {simple_table[i].L}};
        double truck = 0, tandem = 0;
        for (int k = (int)(0.3 * 20 * beam.length[0]); k <= 10 * beam.length[0]; k++) {
            const double at = 0.05 * k;
            const Line line = moment_line(&beam, at, beam.length[0]);
            truck = fmax(truck, vehicle_alone(0, &line, 1));
            tandem = fmax(tandem, vehicle_alone(1, &line, 1));
        }
        check_near(truck, simple_table[i].truck, 0, 0.1, source);
        check_near(tandem, simple_table[i].tandem, 0, 0.1, source);
    }
}

static void test_truck_with_lane_end_shear_matches_handbook(void **state)
{
    (void)state;
    const double row[][2] = {
        {70, 84.8},   {75, 87.04},   {80, 89.2},    {85, 91.29},   {90, 93.33},   {95, 95.32},
        {100, 97.28}, {105, 99.2},   {110, 101.09}, {115, 102.95}, {120, 104.8},  {130, 108.43},
        {140, 112},   {150, 115.52}, {160, 119},    {170, 122.44}, {180, 125.86}, {190, 129.26}};
    LiveLoad live = traffic_hl93();
    live.impact_ratio = 0;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const Beam beam = {1, {row[i][0]}};
        const Line end = reaction_line(&beam, 1, 11);
        check_near(
            extreme(live, &end, 1, false).value, row[i][1], 0, 0.01,
            "Bridge and Highway Structure Rehabilitation and Repair, McGraw-Hill 2010, p. 167");
    }
}

static void test_lane_with_concentrated_load_matches_handbook(void **state)
{
    (void)state;
    const double row[][3] = {{20, 122, 32.4}, {40, 308, 38.8},   {60, 558, 45.2},
                             {80, 872, 51.6}, {100, 1250, 58.0}, {115, 1575.5, 62.8}};
    LiveLoad live = {.vehicle_count = 1, .lane_N_per_m = 0.64 * kip / ft, .train_vehicle = -1};
    live.vehicle[0].axle_count = 1;
    const char *source =
        "Bridge and Highway Structure Rehabilitation and Repair, McGraw-Hill 2010, "
        "table 6.7";
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const Beam beam = {1, {row[i][0]}};
        const Line mid = moment_line(&beam, row[i][0] / 2, 7), end = reaction_line(&beam, 0, 7);
        live.vehicle[0].axle_N[0] = 18 * kip;
        check_near(extreme(live, &mid, 1, false).value, row[i][1], 1e-9, 0, source);
        live.vehicle[0].axle_N[0] = 26 * kip;
        check_near(extreme(live, &end, 1, false).value, row[i][2], 1e-9, 0, source);
    }
}

static void test_fatigue_truck_has_long_gap(void **state)
{
    (void)state;
    const Beam beam = {1, {100}};
    const Line mid = moment_line(&beam, 50, 100);
    const LiveExtreme e = extreme(traffic_hl93_fatigue(), &mid, 1, true);
    check_near(
        e.value, 1.15 * (32 * 25 + 32 * 10 + 8 * 18), 1e-12, 0,
        "closed form: middle axle at mid-span; AASHTO LRFD 3.6.1.4.1, 3.6.2.1 (from memory)");
    assert_false(e.train);
}

/* ---- continuous beams ---- */

static void test_lines_match_published_ordinates(void **state)
{
    (void)state;
    const char *source =
        "AISC continuous-bridge tables, equal spans, computed apart from this program";
    const Beam two = {2, {1, 1}}, three = {3, {1, 1, 1}}, four = {4, {1, 1, 1, 1}};
    const double pier2[] = {-.0248, -.0480, -.0683, -.0840, -.0938, -.0960, -.0893, -.0720, -.0428};
    const double span3[] = {.0494, .0995, .1509, .2042, .1600, .1190, .0819, .0493, .0218};
    const double react3[] = {.1594, .3152, .4638, .6016, .7250, .8304, .9142, .9728, 1.0026};
    const double pier4[] = {.0104, .0171, .0206, .0214, .0201, .0171, .0131, .0086, .0040};
    for (int i = 0; i < 9; i++) {
        const double x = (i + 1) / 10.0;
        check_near(beam_moment(&two, 1, x), pier2[i], 0, 6e-5, source);
        check_near(beam_moment(&three, 0.4, x), span3[i], 0, 6e-5, source);
        check_near(beam_reaction(&three, 1, x), react3[i], 0, 6e-5, source);
        check_near(beam_moment(&four, 1, 2 + x), pier4[i], 0, 6e-5, source);
    }
}

/* Coefficients of w L^2: the lane load takes the spans of the published load cases by itself. The
 * place .518 L of the last row is printed from the right end of span 3. */
static void test_lane_load_takes_adverse_spans(void **state)
{
    (void)state;
    const struct {
        int spans;
        double at, tolerance, coefficient;
    } row[] = {
        {2, 1, 5e-5, -0.125},      {3, 0.450, 5e-5, 0.1013}, {3, 1.5, 5e-5, -0.050},
        {3, 1, 6e-4, 0.383 - 0.5}, {4, 0.446, 5e-5, 0.0996}, {4, 2.482, 5e-5, 0.0805},
    };
    const LiveLoad lane = {.lane_N_per_m = kip / ft, .train_vehicle = -1};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        Beam beam = {row[i].spans, {100, 100, 100, 100}};
        const Line line = moment_line(&beam, 100 * row[i].at, 0.5);
        const LiveExtreme e = extreme(lane, &line, row[i].coefficient < 0 ? -1 : 1, false);
        check_near(e.value / 1e4, row[i].coefficient, 0, row[i].tolerance,
                   "beam formula pages 2396 to 2408: equal spans, some of them loaded");
        assert_int_equal(e.vehicle_index, -1);
    }
}

static void test_most_and_least_lane_add_up_to_all_spans(void **state)
{
    (void)state;
    const double row[][3] = {{2, 0.375, 0.0703}, {3, 0.4, 0.080},    {3, 1.5, 0.025},
                             {4, 0.393, 0.0772}, {4, 1.536, 0.0364}, {3, 1, -0.1},
                             {4, 2, -2.0 / 28}};
    const LiveLoad lane = {.lane_N_per_m = kip / ft, .train_vehicle = -1};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const Beam beam = {(int)row[i][0], {100, 100, 100, 100}};
        const Line line = moment_line(&beam, 100 * row[i][1], 0.5);
        const double sum =
            extreme(lane, &line, 1, false).value + extreme(lane, &line, -1, false).value;
        check_near(sum / 1e4, row[i][2], 0, 5.1e-5,
                   "Civil Engineering Formulas, McGraw-Hill, table 2.1: uniform load on all spans");
    }
}

/* Train 0: not compared. The source lets the second truck face the first, rear axles 50 ft apart,
 * which counts where both stand in one span (sections up to .8 L); AASHTO LRFD 3.6.1.3.1 measures
 * from the lead axle of one truck to the rear axle of the other, so both drive the same way. */
static void test_two_spans_match_table(void **state)
{
    (void)state;
    const struct {
        double truck_most, truck_least, tandem_most, tandem_least, lane_most, lane_least;
        double most, least, train;
    } row[] = {
        {674, -81, 513, -58, 357.1, -57.6, 1253, -165, 0},
        {1140, -162, 878, -115, 622.1, -115.2, 2138, -330, 0},
        {1411, -243, 1102, -173, 794.9, -172.8, 2672, -496, 0},
        {1528, -324, 1194, -231, 875.5, -230.4, 2907, -661, 0},
        {1497, -405, 1172, -288, 864.0, -288.0, 2855, -826, 0},
        {1342, -486, 1054, -346, 760.3, -345.6, 2546, -991, 0},
        {1057, -567, 848, -404, 564.5, -403.2, 1971, -1157, 0},
        {674, -647, 578, -461, 276.5, -460.8, 1173, -1322, 0},
        {237, -728, 269, -519, 56.3, -678.4, 414, -1647, -1836},
        {0, -809, 0, -577, 0, -1152, 0, -2228, -2974},
    };
    const char *source =
        "two spans of 120 ft, vehicles on a grid of 0.5 ft, computed apart from this "
        "program";
    const Beam beam = {2, {120, 120}};
    for (int i = 0; i < 10; i++) {
        const Line line = moment_line(&beam, 12 * (i + 1), 0.5);
        const double rounding = 0.51; /* printed to whole kip-ft */
        check_near(vehicle_alone(0, &line, 1), row[i].truck_most, 5e-3, rounding, source);
        check_near(vehicle_alone(0, &line, -1), row[i].truck_least, 5e-3, rounding, source);
        check_near(vehicle_alone(1, &line, 1), row[i].tandem_most, 5e-3, rounding, source);
        check_near(vehicle_alone(1, &line, -1), row[i].tandem_least, 5e-3, rounding, source);
        const LiveExtreme most = extreme(traffic_hl93(), &line, 1, false);
        const LiveExtreme least = extreme(traffic_hl93(), &line, -1, false);
        check_near(most.lane, row[i].lane_most, 5e-3, 0.051, source);
        check_near(least.lane, row[i].lane_least, 5e-3, 0.051, source);
        check_near(most.value, row[i].most, 5e-3, rounding, source);
        check_near(least.value, row[i].least, 5e-3, rounding, source);
        if (row[i].train == 0) continue;
        const LiveExtreme train = extreme(traffic_hl93(), &line, -1, true);
        check_near(train.value, row[i].train, 5e-3, rounding, source);
        assert_true(train.train && !least.train);
    }
}

/* Both trucks in the far span of two: 8-32-32 and 8-32-32 kip, 50 ft apart, on the
 * line M = -at a (L^2 - a^2)/(4 L^3), a from the far end; places on a grid. */
static double two_trucks_in_far_span(double at, double L, bool forward)
{
    static const double axle[6] = {8, 32, 32, 8, 32, 32}, place[6] = {0, 14, 28, 78, 92, 106};
    double best = 0;
    for (int k = 0; k <= 20 * (L + 212); k++) {
        const double x = 0.05 * k - 106;
        double sum = 0;
        for (int i = 0; i < 6; i++) {
            const double a = x + (forward ? -place[i] : place[i]);
            if (a > 0 && a < L) sum += axle[i] * at * a * (L * L - a * a) / (4 * L * L * L);
        }
        best = fmax(best, sum);
    }
    return best;
}

static void test_train_in_one_span(void **state)
{
    (void)state;
    const Beam beam = {2, {120, 120}};
    LiveLoad live = traffic_hl93();
    live.train_factor_1 = 1; /* so that the train governs over one truck */
    for (int at = 12; at < 80; at += 12) {
        const Line line = moment_line(&beam, at, 0.5);
        const LiveExtreme e = extreme(live, &line, -1, true);
        const double two =
            fmax(two_trucks_in_far_span(at, 120, true), two_trucks_in_far_span(at, 120, false));
        assert_true(e.train);
        check_near(e.vehicle, -1.33 * two, 2e-5, 0,
                   "closed form: three-moment equation, two trucks");
    }
}

static void test_simple_spans_match_independent_model(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof hl93_simple / sizeof hl93_simple[0]; i++) {
        const Beam beam = {1, {hl93_simple[i].L}};
        const Line at = moment_line(&beam, hl93_simple[i].x_of_total, 0.5);
        const Line mid = moment_line(&beam, hl93_simple[i].L / 2, 0.5);
        check_near(extreme(traffic_hl93(), &at, 1, false).value, hl93_simple[i].total, 1e-6, 0,
                   HL93_REFERENCE);
        check_near(extreme(traffic_hl93(), &mid, 1, false).value, hl93_simple[i].mid_total, 1e-6, 0,
                   HL93_REFERENCE);
    }
}

static void test_three_spans_match_independent_model(void **state)
{
    (void)state;
    const Beam beam = {3, {100, 130, 100}};
    for (size_t i = 0; i < sizeof hl93_three_spans / sizeof hl93_three_spans[0]; i++) {
        const Line line = moment_line(&beam, hl93_three_spans[i].x, 0.5);
        const LiveExtreme most = extreme(traffic_hl93(), &line, 1, false);
        const LiveExtreme least = extreme(traffic_hl93(), &line, -1, hl93_three_spans[i].train);
        check_near(most.value, hl93_three_spans[i].most, 3e-3, 0.001, HL93_REFERENCE);
        check_near(least.value, hl93_three_spans[i].least, 3e-3, 0.001, HL93_REFERENCE);
        check_near(vehicle_alone(0, &line, 1), hl93_three_spans[i].max_truck, 3e-3, 1e-3,
                   HL93_REFERENCE);
        check_near(vehicle_alone(0, &line, -1), hl93_three_spans[i].min_truck, 3e-3, 1e-3,
                   HL93_REFERENCE);
        check_near(vehicle_alone(1, &line, -1), hl93_three_spans[i].min_tandem, 3e-3, 1e-3,
                   HL93_REFERENCE);
        if (!least.train) continue;
        check_near(least.vehicle / 0.9 / 1.33, hl93_three_spans[i].min_two_trucks, 3e-3, 0,
                   HL93_REFERENCE);
        check_near(least.lane / 0.9, hl93_three_spans[i].min_lane, 3e-3, 0, HL93_REFERENCE);
    }
}

static void test_reactions_match_independent_model(void **state)
{
    (void)state;
    const Beam beam = {3, {100, 130, 100}};
    for (size_t i = 0; i < sizeof hl93_reactions / sizeof hl93_reactions[0]; i++) {
        const Line line = reaction_line(&beam, hl93_reactions[i].support, 0.5);
        check_near(extreme(traffic_hl93(), &line, 1, false).value, hl93_reactions[i].most_single,
                   3e-3, 0, HL93_REFERENCE);
        check_near(extreme(traffic_hl93(), &line, -1, false).value, hl93_reactions[i].least, 3e-3,
                   0, HL93_REFERENCE);
        if (hl93_reactions[i].most_train > 0)
            check_near(extreme(traffic_hl93(), &line, 1, true).value, hl93_reactions[i].most_train,
                       3e-3, 0, HL93_REFERENCE);
    }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_simple_spans_match_table),
        cmocka_unit_test(test_simple_spans_absolute_maximum),
        cmocka_unit_test(test_truck_with_lane_end_shear_matches_handbook),
        cmocka_unit_test(test_lane_with_concentrated_load_matches_handbook),
        cmocka_unit_test(test_fatigue_truck_has_long_gap),
        cmocka_unit_test(test_lines_match_published_ordinates),
        cmocka_unit_test(test_lane_load_takes_adverse_spans),
        cmocka_unit_test(test_most_and_least_lane_add_up_to_all_spans),
        cmocka_unit_test(test_two_spans_match_table),
        cmocka_unit_test(test_train_in_one_span),
        cmocka_unit_test(test_simple_spans_match_independent_model),
        cmocka_unit_test(test_three_spans_match_independent_model),
        cmocka_unit_test(test_reactions_match_independent_model),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
