/* Laws of moving loads on lines of no special shape, against plain searches. */
#include <string.h>

#include "check.h"
#include "clench/traffic.h"

enum { POINTS = 14 };
typedef struct Line {
    double x[POINTS], value[POINTS];
} Line;

/* Numbers in [0, 1) that repeat on every machine: Knuth's MMIX congruence. */
static double random_1(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static Line random_line(uint64_t *seed)
{
    Line line;
    double x = -3;
    for (int i = 0; i < POINTS; i++) {
        line.x[i] = x;
        line.value[i] = random_1(seed) - 0.45;
        x += 0.3 + 4 * random_1(seed);
    }
    return line;
}

static double line_at(const Line *line, int sign, double x)
{
    for (int i = 0; i + 1 < POINTS; i++)
        if (x >= line->x[i] - 1e-9 && x <= line->x[i + 1] + 1e-9) {
            const double t = (x - line->x[i]) / (line->x[i + 1] - line->x[i]);
            return fmax(0, sign * (line->value[i] + t * (line->value[i + 1] - line->value[i])));
        }
    return 0;
}

static LiveExtreme extreme(const LiveLoad *live, const Line *line, int sign, bool train)
{
    double work[8 * (POINTS + 2)];
    Error err;
    check_status(traffic_check(live, &err), STATUS_OK, &err);
    return traffic_extreme(live, &(InfluenceLine){POINTS, line->x, line->value}, sign, train, work);
}

static LiveLoad one_vehicle(Vehicle vehicle)
{
    LiveLoad live = {.vehicle_count = 1, .train_vehicle = -1};
    live.vehicle[0] = vehicle;
    return live;
}

/* ---- plain search: places and variable gaps on a grid, both ends of a gap included ---- */

typedef struct Search {
    const Line *line;
    int sign, ahead; /* driving direction of the search: +1 or -1 */
    Vehicle vehicle;
    int steps; /* of a variable gap */
    double best;
} Search;

/* Axles from `axle` on, when axle `axle` is at x; sum: of those before it. */
static void search_behind(Search *s, int axle, double x, double sum)
{
    sum += s->vehicle.axle_N[axle] * line_at(s->line, s->sign, x);
    if (axle + 1 == s->vehicle.axle_count) {
        s->best = fmax(s->best, sum);
        return;
    }
    const double least = s->vehicle.gap_min_m[axle], most = s->vehicle.gap_max_m[axle];
    const int steps = most > least ? s->steps : 0;
    for (int i = 0; i <= steps; i++)
        search_behind(s, axle + 1, x - s->ahead * (least + (most - least) * i / fmax(1, steps)),
                      sum);
}

static double search_grid(Search s, double step)
{
    for (s.ahead = -1; s.ahead <= 1; s.ahead += 2)
        for (int k = 0; k * step < 130; k++) search_behind(&s, 0, k * step - 40, 0);
    return s.best;
}

static const Vehicle two_gaps = {.name = "two variable gaps",
                                 .axle_count = 4,
                                 .axle_N = {35, 80, 110, 60},
                                 .gap_min_m = {2, 3, 1.2},
                                 .gap_max_m = {6, 3, 7.5}};
static const Vehicle rear_pair = {.name = "variable gap before two axles",
                                  .axle_count = 4,
                                  .axle_N = {60, 100, 90, 95},
                                  .gap_min_m = {3.1, 2.4, 1.3},
                                  .gap_max_m = {3.1, 8.2, 1.3}};
static const Vehicle long_tail = {.name = "variable gap, the last",
                                  .axle_count = 3,
                                  .axle_N = {36, 142, 142},
                                  .gap_min_m = {4.3, 4.3},
                                  .gap_max_m = {4.3, 9.1}};
static const Vehicle six_fixed = {.name = "six axles",
                                  .axle_count = 6,
                                  .axle_N = {50, 90, 90, 70, 70, 70},
                                  .gap_min_m = {3.5, 1.2, 6.5, 1.3, 1.3},
                                  .gap_max_m = {3.5, 1.2, 6.5, 1.3, 1.3}};

/* No grid finds more, and a fine grid comes as near as its step allows. */
static void check_vehicle(Vehicle vehicle, double step, int gap_steps)
{
    uint64_t seed = 20240131;
    double load = 0;
    for (int i = 0; i < vehicle.axle_count; i++) load += vehicle.axle_N[i];
    const LiveLoad live = one_vehicle(vehicle);
    for (int run = 0; run < 6; run++) {
        const Line line = random_line(&seed);
        const int sign = run % 2 ? 1 : -1;
        const double found = sign * extreme(&live, &line, sign, false).value;
        const Search s = {&line, sign, 1, vehicle, gap_steps, 0};
        const double grid = search_grid(s, step);
        assert_true(found >= grid - 1e-9 * load);
        check_near(grid, found, 0.02, 0, "law: a fine search comes near the largest");
    }
}

static void test_fixed_gaps_beat_every_grid(void **state)
{
    (void)state;
    check_vehicle(six_fixed, 0.01, 0);
}

static void test_last_gap_variable_beats_every_grid(void **state)
{
    (void)state;
    check_vehicle(long_tail, 0.01, 200);
}

static void test_middle_gap_variable_beats_every_grid(void **state)
{
    (void)state;
    check_vehicle(rear_pair, 0.02, 120);
}

static void test_two_variable_gaps_beat_every_grid(void **state)
{
    (void)state;
    check_vehicle(two_gaps, 0.1, 24);
}

/* Stations and gaps on multiples of 0.5 m: a grid whose pieces divide 0.5 m holds every critical
 * place. */
static void test_grid_of_stations_is_exact(void **state)
{
    (void)state;
    uint64_t seed = 77;
    Vehicle vehicle = two_gaps;
    vehicle.gap_min_m[2] = 1.5;
    const LiveLoad live = one_vehicle(vehicle);
    for (int run = 0; run < 40; run++) {
        Line line = random_line(&seed);
        for (int i = 0; i < POINTS; i++) line.x[i] = i * (run % 3 + 1) * 0.5;
        const double found = extreme(&live, &line, 1, false).value;
        Search s = {&line, 1, 1, vehicle, 0, 0};
        s.steps = 24; /* gaps 2 to 6 and 1.5 to 7.5 m: pieces of 1/6 and 1/4 m */
        const double grid = search_grid(s, 0.5);
        check_near(found, grid, 1e-12, 0, "law: the largest has each group of axles on a station");
    }
}

/* ---- train ---- */

static double two_trucks(const Line *line, int sign, double x, double apart)
{
    Search lead = {line, sign, 1, long_tail, 0, 0}, behind = lead;
    lead.vehicle.gap_max_m[1] = behind.vehicle.gap_max_m[1] = long_tail.gap_min_m[1];
    search_behind(&lead, 0, x, 0);
    search_behind(&behind, 0, x - apart, 0);
    return lead.best + behind.best;
}

static Line mirrored(const Line *line)
{
    Line other;
    for (int i = 0; i < POINTS; i++) {
        other.x[i] = -line->x[POINTS - 1 - i];
        other.value[i] = line->value[POINTS - 1 - i];
    }
    return other;
}

static void test_train_beats_every_grid(void **state)
{
    (void)state;
    uint64_t seed = 4711;
    LiveLoad live = one_vehicle(long_tail);
    live.train_vehicle = 0, live.train_factor_1 = 1;
    live.train_gap_m = 9.3, live.train_axle_gap_m = 4.3;
    live.impact_ratio = 0.25;
    const double reach = 4.3 + 4.3 + 9.3;
    for (int run = 0; run < 6; run++) {
        const Line line = random_line(&seed);
        const Line back = mirrored(&line);
        const LiveExtreme found = extreme(&live, &line, 1, true);
        double grid = 0;
        for (int i = 0; i < 1300; i++)
            for (int k = 0; k < 134; k++) {
                const double x = 0.1 * i - 40, apart = reach + 0.3 * k;
                grid = fmax(grid, two_trucks(&line, 1, x, apart));
                grid = fmax(grid, two_trucks(&back, 1, x, apart));
            }
        assert_true(found.value >= 1.25 * grid - 1e-9);
        if (found.train) check_near(1.25 * grid, found.value, 0.02, 0, "law: fine search");
    }
}

/* ---- what the result says ---- */

static double at_place(const Line *line, int sign, const Vehicle *v, const LiveExtreme *e)
{
    double x = e->lead_x_m, sum = 0;
    for (int i = 0; i < v->axle_count; i++) {
        sum += v->axle_N[i] * line_at(line, sign, x);
        x -= (e->forward ? 1 : -1) * v->gap_min_m[i];
    }
    return sum;
}

static void test_place_gives_the_value(void **state)
{
    (void)state;
    uint64_t seed = 5;
    LiveLoad live = one_vehicle(six_fixed);
    live.lane_N_per_m = 9.3, live.impact_ratio = 0.33;
    bool seen[2] = {false, false};
    for (int run = 0; run < 40; run++) {
        const Line line = random_line(&seed);
        const LiveExtreme e = extreme(&live, &line, 1, false);
        seen[e.forward] = true;
        check_near(1.33 * at_place(&line, 1, &six_fixed, &e), e.vehicle, 1e-9, 0,
                   "law: the effect of the axles at the reported place");
        check_near(e.vehicle + e.lane, e.value, 1e-14, 0, "law: the parts add up");
        assert_int_equal(e.vehicle_index, 0);
    }
    assert_true(seen[0] && seen[1]);
}

/* Vehicle part of the places, impact and train factor in. */
static double of_places(const LiveLoad *live, const Line *line, const LiveExtreme *e,
                        AxlePlace place[2 * AXLES_MAX], int *count)
{
    double work[8 * (POINTS + 2)], sum = 0;
    const InfluenceLine influence = {POINTS, line->x, line->value};
    *count = traffic_places(live, &influence, 1, e, place, work);
    for (int i = 0; i < *count; i++) {
        check_near(traffic_at(&influence, place[i].x_m), line_at(line, 1, place[i].x_m), 1e-12,
                   1e-9, "law: an axle that adds stands where the line is positive");
        sum += place[i].load_N * line_at(line, 1, place[i].x_m);
    }
    return sum * (1 + live->impact_ratio) * (e->train ? live->train_factor_1 : 1);
}

static void test_axles_of_an_extreme_give_its_value(void **state)
{
    (void)state;
    const Vehicle *const tried[] = {&six_fixed, &long_tail, &two_gaps};
    uint64_t seed = 77;
    int trains = 0;
    for (int run = 0; run < 60; run++) {
        LiveLoad live = one_vehicle(*tried[run % 3]);
        const bool train = run % 3 == 1;
        live.impact_ratio = 0.33, live.lane_N_per_m = 9.3;
        if (train) live.train_vehicle = 0;
        live.train_factor_1 = 0.9, live.train_gap_m = 6.2, live.train_axle_gap_m = 4.3;
        const Line line = random_line(&seed);
        const LiveExtreme e = extreme(&live, &line, 1, train);
        AxlePlace place[2 * AXLES_MAX];
        int count;
        check_near(of_places(&live, &line, &e, place, &count), e.vehicle, 1e-9, 0,
                   "law: the effect of the axles at their places");
        trains += e.train;
    }
    assert_true(trains > 3);
}

static void test_loaded_area_is_that_of_the_lane(void **state)
{
    (void)state;
    uint64_t seed = 8;
    for (int run = 0; run < 20; run++) {
        const Line line = random_line(&seed);
        const InfluenceLine influence = {POINTS, line.x, line.value};
        double one[POINTS], length_m, most_m, least_m;
        const LiveLoad live = {.train_vehicle = -1, .lane_N_per_m = 9.3};
        for (int i = 0; i < POINTS; i++) one[i] = 1;
        for (int sign = -1; sign <= 1; sign += 2)
            check_near(9.3 * traffic_loaded_area(&influence, sign, line.value, &length_m),
                       extreme(&live, &line, sign, false).lane, 1e-12, 1e-12,
                       "law: the lane load on the adverse lengths");
        const double area_m = traffic_loaded_area(&influence, 1, one, &most_m);
        check_near(area_m, most_m, 1e-12, 0, "law: the integral of one is the length");
        traffic_loaded_area(&influence, -1, one, &least_m);
        check_near(most_m + least_m, line.x[POINTS - 1] - line.x[0], 1e-12, 0,
                   "law: both loaded lengths make the line");
    }
}

static void test_line_read_backwards_gives_the_same(void **state)
{
    (void)state;
    uint64_t seed = 99;
    const LiveLoad live = traffic_hl93();
    for (int run = 0; run < 20; run++) {
        const Line line = random_line(&seed), back = mirrored(&line);
        const LiveExtreme a = extreme(&live, &line, -1, true), b = extreme(&live, &back, -1, true);
        check_near(b.value, a.value, 1e-12, 0, "law: both directions are driven");
        assert_int_equal(a.train, b.train);
    }
}

static void test_new_station_on_the_line_changes_nothing(void **state)
{
    (void)state;
    uint64_t seed = 1234;
    const LiveLoad live = traffic_hl93();
    for (int run = 0; run < 20; run++) {
        const Line line = random_line(&seed);
        double x[2 * POINTS], value[2 * POINTS], work[8 * (2 * POINTS + 2)];
        int count = 0;
        for (int i = 0; i < POINTS; i++) {
            if (i > 0) {
                x[count] = 0.3 * line.x[i] + 0.7 * line.x[i - 1];
                value[count++] = 0.3 * line.value[i] + 0.7 * line.value[i - 1];
            }
            x[count] = line.x[i], value[count++] = line.value[i];
        }
        const InfluenceLine fine = {count, x, value};
        check_near(traffic_extreme(&live, &fine, 1, true, work).value,
                   extreme(&live, &line, 1, true).value, 1e-12, 0, "law: the same line");
    }
}

static void test_nothing_adverse_gives_zero(void **state)
{
    (void)state;
    Line line;
    for (int i = 0; i < POINTS; i++) line.x[i] = i, line.value[i] = -0.1 * i;
    const LiveLoad live = traffic_hl93();
    const LiveExtreme e = extreme(&live, &line, 1, true);
    assert_true(e.value == 0 && !signbit(e.value) && e.lane == 0 && e.vehicle_index == -1);
    assert_true(!e.train);
    assert_true(extreme(&live, &line, -1, false).value < 0);
}

static void test_bad_live_load_is_refused(void **state)
{
    (void)state;
    LiveLoad bad[9];
    for (int i = 0; i < 9; i++) bad[i] = traffic_hl93();
    bad[0].vehicle_count = VEHICLES_MAX + 1;
    bad[1].vehicle[0].axle_count = 0;
    bad[2].vehicle[1].axle_N[1] = -1;
    bad[3].vehicle[0].gap_max_m[1] = 1;
    bad[4].lane_N_per_m = (double)NAN;
    bad[5].train_vehicle = 2;
    bad[6].train_factor_1 = -0.9;
    bad[7].vehicle[0].axle_count = TRAIN_AXLES_MAX + 1;
    bad[8].vehicle[1].axle_count = VARIABLE_GAPS_MAX + 2;
    for (int i = 0; i <= VARIABLE_GAPS_MAX; i++) bad[8].vehicle[1].gap_max_m[i] = 5;
    for (int i = 0; i < 9; i++) {
        Error err;
        check_status(traffic_check(&bad[i], &err), i < 7 ? STATUS_BAD_INPUT : STATUS_TOO_LARGE,
                     &err);
        assert_true(strlen(err.text) > 0);
    }
}

/* Every offset of the largest allowed vehicle fits. */
static void test_largest_vehicle_runs(void **state)
{
    (void)state;
    Vehicle v = {.axle_count = AXLES_MAX};
    for (int i = 0; i < AXLES_MAX; i++)
        v.axle_N[i] = 10, v.gap_min_m[i] = 1, v.gap_max_m[i] = i < VARIABLE_GAPS_MAX ? 1.5 : 1;
    const LiveLoad live = one_vehicle(v);
    Line line;
    for (int i = 0; i < POINTS; i++) line.x[i] = 2 * i, line.value[i] = 1;
    check_near(extreme(&live, &line, 1, false).value, 120, 1e-12, 0,
               "closed form: all axles on it");
}

/* ---- zones ---- */

static void test_negative_zones_of_two_spans(void **state)
{
    (void)state;
    double x[401], m[401], zone[4][2];
    for (int i = 0; i < 401; i++) {
        x[i] = 0.5 * i;
        const double z = x[i] > 100 ? 200 - x[i] : x[i];
        m[i] = 0.375 * 100 * z - z * z / 2 + 1e-9; /* two spans of 100, w = 1: R = 3/8 w L */
        if (i == 0 || i == 400) m[i] = -1e-7;      /* rounding of a solved structure */
    }
    assert_int_equal(traffic_negative_zones(x, m, 401, zone, 4), 1);
    check_near(zone[0][0], 75, 0, 1e-6, "closed form: contraflexure at 3/4 L");
    check_near(zone[0][1], 125, 0, 1e-6, "closed form: contraflexure at 3/4 L");
}

static void test_negative_zones_at_ends_and_without_room(void **state)
{
    (void)state;
    const double x[] = {0, 1, 2, 3, 4, 5, 6}, m[] = {-1, -3, 1, 0, -2, 2, -2};
    double zone[3][2];
    assert_int_equal(traffic_negative_zones(x, m, 7, zone, 3), 3);
    const double expected[3][2] = {{0, 1.75}, {3, 4.5}, {5.5, 6}};
    for (int i = 0; i < 6; i++)
        check_near(zone[i / 2][i % 2], expected[i / 2][i % 2], 1e-14, 0,
                   "closed form: straight lines");
    assert_int_equal(traffic_negative_zones(x, m, 7, zone, 2), 2);
    check_near(zone[1][1], 4.5, 1e-14, 0, "closed form: straight lines");
    assert_int_equal(traffic_negative_zones(x, (double[7]){0}, 7, zone, 3), 0);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fixed_gaps_beat_every_grid),
        cmocka_unit_test(test_last_gap_variable_beats_every_grid),
        cmocka_unit_test(test_middle_gap_variable_beats_every_grid),
        cmocka_unit_test(test_two_variable_gaps_beat_every_grid),
        cmocka_unit_test(test_grid_of_stations_is_exact),
        cmocka_unit_test(test_train_beats_every_grid),
        cmocka_unit_test(test_place_gives_the_value),
        cmocka_unit_test(test_axles_of_an_extreme_give_its_value),
        cmocka_unit_test(test_loaded_area_is_that_of_the_lane),
        cmocka_unit_test(test_line_read_backwards_gives_the_same),
        cmocka_unit_test(test_new_station_on_the_line_changes_nothing),
        cmocka_unit_test(test_nothing_adverse_gives_zero),
        cmocka_unit_test(test_bad_live_load_is_refused),
        cmocka_unit_test(test_largest_vehicle_runs),
        cmocka_unit_test(test_negative_zones_of_two_spans),
        cmocka_unit_test(test_negative_zones_at_ends_and_without_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
