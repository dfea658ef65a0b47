/* thrust: influence lines of a girder's vertical movement, against closed forms. */
#include "check.h"

#include "clench/thrust.h"
#include "clench/traffic.h"
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

/* ---- a bare girder on rigid bearings, spans alike ---- */

static const double L_m = 23.85, E_Pa = 31e9, width_m = 0.43, depth_m = 1.27;

static double EI(void) { return E_Pa * width_m * pow(depth_m, 3) / 12; }
/* Shear area of a rectangle 5/6 b h; an elastic material has Poisson's ratio 0.3 here. */
static double GA(void) { return E_Pa / 2.6 * 5 / 6 * width_m * depth_m; }

typedef struct Beam {
    BridgeLine line;
    Make make;
    LiveMove *move;
    double *value, *shear;
} Beam;

static Beam *beam(int span_count, double longest_m)
{
    Beam *b = ARENA_NEW(arena, Beam, 1);
    double mark_m[9];
    Error err;
    for (int i = 0; i <= 2 * span_count; i++) mark_m[i] = i * L_m / 2;
    b->make = make_start(arena, longest_m, mark_m, 2 * span_count + 1);
    const int law = make_elastic(&b->make, E_Pa);
    const int section = make_section(&b->make, make_rectangle(width_m, depth_m));
    make_parts(&b->make, 0, span_count * L_m,
               (Part){.chain = CHAIN_GIRDER,
                      .material = law,
                      .section = section,
                      .from_height_m = -depth_m / 2,
                      .to_height_m = -depth_m / 2});
    for (int i = 0; i <= span_count; i++) make_support(&b->make, i * L_m, i == 0);
    b->make.model.deck_thickness_m = 0.2;
    make_birth(&b->make, 0, 0);
    make_note(&b->make, 0, "opening");
    const StageHistory *h = make_run(&b->make);
    b->line.model = b->make.model;
    check_status(live_move_start(&b->line, h, make_time(h, "opening"), arena, &b->move, &err),
                 STATUS_OK, &err);
    b->value = ARENA_NEW(arena, double, b->make.model.station_count);
    b->shear = ARENA_NEW(arena, double, b->make.model.station_count);
    return b;
}

static void look(Beam *b, double x_m)
{
    assert_true(live_move(b->move, make_station(&b->make, x_m), b->value, b->shear));
}

static double bending(const Beam *b, int station) { return b->value[station] - b->shear[station]; }

/* Simple beam: movement of mid-span by a unit load `a` from the nearer end. */
static double simple_bending(double a) { return a * (3 * L_m * L_m - 4 * a * a) / (48 * EI()); }
static double simple_shear(double a) { return a / (2 * GA()); }

static void test_mid_span_of_a_simple_beam(void **state)
{
    (void)state;
    Beam *b = beam(1, 0.9);
    const StageModel *model = &b->make.model;
    look(b, L_m / 2);
    const int middle = make_station(&b->make, L_m / 2);
    check_near(bending(b, middle), pow(L_m, 3) / (48 * EI()), 2e-6, 0,
               "closed form: P L^3/(48 E I); bearings of 1e13 N/m");
    check_near(b->shear[middle], L_m / (4 * GA()), 1e-9, 0, "closed form: P L/(4 G A)");
    for (int i = 0; i < model->station_count; i++) {
        const double a = fmin(model->x_m[i], L_m - model->x_m[i]);
        check_near(bending(b, i), simple_bending(a), 2e-6, 1e-13,
                   "closed form: P a (3 L^2 - 4 a^2)/(48 E I)");
        check_near(b->shear[i], simple_shear(a), 1e-9, 1e-20, "closed form: P a/(2 G A)");
    }
}

static LiveExtreme lane_and_truck(Beam *b, const LiveLoad *load)
{
    const StageModel *model = &b->make.model;
    const InfluenceLine line = {model->station_count, model->x_m, b->value};
    return traffic_extreme(load, &line, 1, false,
                           ARENA_NEW(arena, double, 8 * (model->station_count + 2)));
}

static void test_uniform_load_and_a_patch(void **state)
{
    (void)state;
    Beam *b = beam(1, 0.15);
    const StageModel *model = &b->make.model;
    look(b, L_m / 2);
    LiveLoad load = traffic_hl93();
    load.vehicle_count = 0;
    const double w = load.lane_N_per_m;
    check_near(lane_and_truck(b, &load).lane,
               5 * w * pow(L_m, 4) / (384 * EI()) + w * L_m * L_m / (8 * GA()), 5e-5, 0,
               "closed form: 5 w L^4/(384 E I) + w L^2/(8 G A)");
    /* a patch from the end to c: integral of a (3 L^2 - 4 a^2)/48 E I from 0 to c */
    const int last = make_station(&b->make, L_m / 2) / 2;
    const double c = model->x_m[last];
    double sum = 0;
    for (int i = 0; i < last; i++)
        sum += (model->x_m[i + 1] - model->x_m[i]) * 0.5 * (bending(b, i) + bending(b, i + 1));
    check_near(sum, (1.5 * L_m * L_m * c * c - pow(c, 4)) / (48 * EI()), 5e-5, 0,
               "closed form: integral of the simple beam's line over a patch");
}

/* The design truck with its rear axles at their nearest, moved in small steps over the closed form. */
static double truck_by_hand(const Vehicle *truck)
{
    double worst = 0;
    for (int step = 0; 0.005 * step < L_m + 10; step++) {
        double sum = 0, x = 0.005 * step;
        for (int i = 0; i < truck->axle_count; i++) {
            const double a = fmin(x, L_m - x);
            if (a > 0) sum += truck->axle_N[i] * (simple_bending(a) + simple_shear(a));
            x -= truck->gap_min_m[i];
        }
        worst = fmax(worst, sum);
    }
    return worst;
}

static void test_design_truck_on_a_simple_beam(void **state)
{
    (void)state;
    Beam *b = beam(1, 0.3);
    look(b, L_m / 2);
    const LiveLoad load = {.vehicle_count = 1, .train_vehicle = -1, .impact_ratio = 0.33};
    LiveLoad truck = load;
    truck.vehicle[0] = traffic_hl93().vehicle[0];
    check_near(lane_and_truck(b, &truck).vehicle, 1.33 * truck_by_hand(&truck.vehicle[0]), 2e-4, 0,
               "closed form: simple beam, truck of AASHTO LRFD 3.6.1.2.2");
}

static void test_two_spans_at_the_middle_of_one(void **state)
{
    (void)state;
    Beam *b = beam(2, 0.15);
    const int at = make_station(&b->make, L_m / 2), far = make_station(&b->make, 1.5 * L_m);
    look(b, L_m / 2);
    check_near(bending(b, at), 23 * pow(L_m, 3) / (1536 * EI()), 2e-6, 0,
               "closed form: two equal spans, 1/48 - 1/16 of the pier moment 3 P L/32");
    check_near(bending(b, far), -9 * pow(L_m, 3) / (1536 * EI()), 2e-6, 0,
               "closed form: M_B L^2/(16 E I) upwards in the other span, M_B = 3 P L/32");
    const double left = 13.0 / 32, right = 19.0 / 32, other = 3.0 / 32;
    check_near(b->shear[at], (left * left / 2 + right * right / 2 + other * other) * L_m / GA(),
               1e-4, 0, "closed form: sum of V^2/(G A) with the shear forces of the bent beam");
    LiveLoad load = traffic_hl93();
    load.vehicle_count = 0;
    const double w = load.lane_N_per_m, lane = lane_and_truck(b, &load).lane;
    double by_shear = 0;
    for (int i = 0; i < make_station(&b->make, L_m); i++)
        by_shear += w * (b->make.model.x_m[i + 1] - b->make.model.x_m[i]) * 0.5 *
                    (b->shear[i] + b->shear[i + 1]);
    check_near(lane - by_shear, 7 * w * pow(L_m, 4) / (768 * EI()), 5e-5, 0,
               "closed form: 5/384 - 1/256, load on one of two spans, pier moment w L^2/16");
}

/* Maxwell: the line of one place read at another is the same both ways round, shear in. */
static void test_lines_of_two_places_agree(void **state)
{
    (void)state;
    Beam *b = beam(3, 1.1);
    const int i = 5, j = make_station(&b->make, 1.5 * L_m) + 3;
    assert_true(live_move(b->move, i, b->value, b->shear));
    const double whole = b->value[j], slide = b->shear[j];
    assert_true(live_move(b->move, j, b->value, b->shear));
    check_near(b->value[i], whole, 1e-8, 0, "law: Maxwell");
    check_near(b->shear[i], slide, 1e-8, 0, "law: Maxwell");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_mid_span_of_a_simple_beam, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_uniform_load_and_a_patch, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_design_truck_on_a_simple_beam, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_two_spans_at_the_middle_of_one, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_lines_of_two_places_agree, set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("thrust_move", tests, NULL, NULL);
}
