/* frame: closed forms, struts against the explicit matrix, mechanisms and their names. */
#include "check.h"

#include "clench/numeric.h"
#include "frame_built.h"

static Arena *arena;

static int set_up(void **state)
{
    (void)state;
    arena = arena_create(16 << 20);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

/* ---- closed forms ---- */

/* Clamped at station 0 by springs at two heights; `stiff` must leave no trace. */
static void clamp(Built *b)
{
    spring(b, 0, 1, 1e16, 1e16);
    spring(b, 0, -1, 1e16, 0);
    for (int i = 0; i < STATIONS; i++) frame_hold_node(b->frame, i, 1);
}

/* Force F along the bridge at the tip's node, axis of the bar at height y. */
static void test_eccentric_cantilever_is_exact(void **state)
{
    (void)state;
    Error err;
    const double EA = 6e9, EI = 7e8, y = -0.8, F = 1e6, L = station_m[STATIONS - 1];
    Built b = built_new(arena);
    for (int e = 0; e + 1 < STATIONS; e++) bar(&b, bar_at(e, 0, y, y), EA, EI);
    clamp(&b);
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    double x[N] = {0};
    x[frame_unknown(STATIONS - 1, 0, 0)] = F;
    frame_solve(b.frame, x, 1);
    const double *tip = x + frame_unknown(STATIONS - 1, 0, 0);
    check_near(tip[2], F * y * L / EI, 1e-7, 0, "closed form: theta = F y L/EI");
    check_near(tip[1], F * y * L * L / (2 * EI), 1e-7, 0, "closed form: v = F y L^2/2EI");
    check_near(tip[0], F * L / EA + F * y * y * L / EI, 1e-7, 0,
               "closed form: u = F L/EA + F y^2 L/EI");
}

static void test_cantilever_under_tip_load_is_exact(void **state)
{
    (void)state;
    Error err;
    const double EI = 7e8, F = 1e5, L = station_m[STATIONS - 1];
    Built b = built_new(arena);
    for (int e = 0; e + 1 < STATIONS; e++) bar(&b, bar_at(e, 0, 0.4, 0.4), 6e9, EI);
    clamp(&b);
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    double x[N] = {0};
    x[frame_unknown(STATIONS - 1, 0, 1)] = -F;
    frame_solve(b.frame, x, 1);
    const double *tip = x + frame_unknown(STATIONS - 1, 0, 0);
    check_near(tip[1], -F * L * L * L / (3 * EI), 1e-7, 0, "closed form: v = F L^3/3EI");
    check_near(tip[2], -F * L * L / (2 * EI), 1e-7, 0, "closed form: theta = F L^2/2EI");
    const BarPlace first = bar_at(0, 0, 0.4, 0.4);
    check_near(EI * frame_bar_strain(&first, x).from_per_m, -F * L, 1e-7, 0,
               "closed form: M = -F L at the clamp");
}

/* A fibre of tension N, harped down by e at one inner station, lifts a simple beam: moment of a
 * triangle of height N e; at x = a of a span L the rise is N e a b/3EI, b = L - a. */
static void test_harped_fibre_lifts_as_its_equivalent_load(void **state)
{
    (void)state;
    Error err;
    const double EI = 7e8, T = 2e6, e = 0.5, a = station_m[3], L = station_m[STATIONS - 1];
    Built beam = built_new(arena);
    double x[N] = {0};
    for (int k = 0; k + 1 < STATIONS; k++) {
        bar(&beam, bar_at(k, 0, 0, 0), 6e9, EI);
        const double s0 = station_m[k], s1 = station_m[k + 1];
        const double y0 = s0 <= a ? -e * s0 / a : -e * (L - s0) / (L - a);
        const double y1 = s1 <= a ? -e * s1 / a : -e * (L - s1) / (L - a);
        const BarPlace fibre = bar_at(k, 0, y0, y1);
        frame_bar_force(&fibre, -T, 0, 0, x);
    }
    spring(&beam, 0, 0, 1e16, 1e16);
    spring(&beam, STATIONS - 1, 0, 0, 1e16);
    for (int i = 0; i < STATIONS; i++) frame_hold_node(beam.frame, i, 1);
    check_status(frame_factor(beam.frame, station_m, &err), STATUS_OK, &err);
    frame_solve(beam.frame, x, 1);
    check_near(x[frame_unknown(3, 0, 1)], T * e * a * (L - a) / (3 * EI), 1e-7, 0,
               "closed form: point load T e (1/a + 1/b) at a");
    const BarPlace left = bar_at(2, 0, 0, 0);
    check_near(EI * frame_bar_strain(&left, x).to_per_m, -T * e, 1e-7, 0, "closed form: M = -T e");
}

/* Two chains joined at both ends only; F stretches the deck. What goes over the slip plane:
 * X = F/EAd / (1/EAd + 1/EAg + a^2/EId + (g + yg)^2/EIg + 2/(k L)). */
static void test_link_arms_carry_the_moment_of_slip(void **state)
{
    (void)state;
    Error err;
    const double EAd = 2e10, EId = 9e7, EAg = 9e9, EIg = 4e9, yg = 0.85, k = 3e9, F = 1e6;
    const double L = station_m[STATIONS - 1], arm = usual_arms.girder_arm_m + yg;
    const double a = usual_arms.deck_arm_m;
    Built b = built_new(arena);
    for (int e = 0; e + 1 < STATIONS; e++) {
        bar(&b, bar_at(e, 0, -yg, -yg), EAg, EIg);
        bar(&b, bar_at(e, 1, 0, 0), EAd, EId);
    }
    link(&b, usual_arms, 0, k, 0, 1e14);
    link(&b, usual_arms, STATIONS - 1, k, 0, 1e14);
    spring(&b, 0, 0, 1e14, 1e14);
    spring(&b, STATIONS - 1, 0, 0, 1e14);
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    double x[N] = {0}, slip, lift;
    x[frame_unknown(0, 1, 0)] = -F;
    x[frame_unknown(STATIONS - 1, 1, 0)] = F;
    frame_solve(b.frame, x, 1);
    frame_link_strain(usual_arms, STATIONS - 1, x, &slip, &lift);
    const double X = F / EAd / (1 / EAd + 1 / EAg + a * a / EId + arm * arm / EIg + 2 / (k * L));
    check_near(k * slip, X, 1e-7, 0, "closed form: compatibility at the slip plane");
    const BarPlace girder = bar_at(2, 0, -yg, -yg), deck = bar_at(2, 1, 0, 0);
    check_near(EIg * frame_bar_strain(&girder, x).from_per_m, -X * arm, 1e-7, 0,
               "closed form: M = -X (g + yg)");
    check_near(EId * frame_bar_strain(&deck, x).to_per_m, -X * a, 1e-7, 0, "closed form: M = -X a");
}

/* ---- struts ---- */

/* Between neighbours a strut is a fibre of EA = k L at its height. */
static void test_strut_between_neighbours_equals_a_fibre(void **state)
{
    (void)state;
    Error err;
    unsigned long seed = 5;
    for (int soft = 0; soft < 2; soft++) {
        const double k = soft ? 1e3 : 1e13;
        Built with = bridge(arena, -0.1 * 5e9), fibre = bridge(arena, -0.1 * 5e9);
        frame_add_strut(with.frame, &(Strut){2, 3, 0.09, k});
        const BarPlace place = bar_at(2, 1, 0.09, 0.09);
        bar(&fibre, place, k * place.length_m, 0);
        check_status(frame_factor(with.frame, station_m, &err), STATUS_OK, &err);
        check_status(frame_factor(fibre.frame, station_m, &err), STATUS_OK, &err);
        double x[N], y[N], largest = 0;
        for (int i = 0; i < N; i++) x[i] = y[i] = 1e6 * noise(&seed);
        frame_solve(with.frame, x, 1);
        frame_solve(fibre.frame, y, 1);
        for (int i = 0; i < N; i++) largest = fmax(largest, fabs(y[i]));
        for (int i = 0; i < N; i++)
            check_near(x[i], y[i], 0, 1e-9 * largest, "law: a strut is a fibre");
    }
}

/* Far struts against the dense matrix with their rows added. */
static void test_far_struts_equal_the_explicit_matrix(void **state)
{
    (void)state;
    Error err;
    unsigned long seed = 17;
    const Strut strut[3] = {{0, 5, 0.1, 5e9}, {1, 3, -0.2, 1e8}, {2, 5, 0, 3e10}};
    Built b = bridge(arena, 0);
    double *dense = ARENA_NEW(arena, double, N *N);
    double row[3][N] = {{0}}, x[N], y[N], largest = 0;
    for (int i = 0; i < N; i++)
        for (int j = i > FRAME_BAND ? i - FRAME_BAND : 0; j <= i; j++)
            dense[i * N + j] = dense[j * N + i] =
                b.frame->band[i * (FRAME_BAND + 1) + FRAME_BAND - (i - j)];
    for (int s = 0; s < 3; s++) {
        frame_add_strut(b.frame, &strut[s]);
        frame_strut_force(&strut[s], 1, row[s]);
        for (int i = 0; i < N; i++)
            for (int j = 0; j < N; j++)
                dense[i * N + j] += strut[s].stiffness_N_per_m * row[s][i] * row[s][j];
    }
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    for (int i = 0; i < N; i++) x[i] = y[i] = 1e6 * noise(&seed);
    frame_solve(b.frame, x, 1);
    assert_true(dense_solve(N, dense, y));
    for (int i = 0; i < N; i++) largest = fmax(largest, fabs(y[i]));
    for (int i = 0; i < N; i++)
        check_near(x[i], y[i], 0, 1e-9 * largest, "law: Woodbury equals the explicit matrix");
}

/* ---- mechanisms ---- */

typedef struct Hold {
    double girder_x, girder_left_y, girder_right_y, deck_x, deck_left_y, deck_right_y;
} Hold;

/* A girder and a deck of `count` equal elements, held where the numbers are not 0; the deck hangs on
 * links at its first and last station. Returns the error's sentence. */
static const char *loose(int count, double length_m, Hold hold, Error *err)
{
    Frame *frame = frame_new(count + 1, arena);
    double *x = ARENA_NEW(arena, double, count + 1);
    for (int i = 0; i <= count; i++) x[i] = length_m * i / count;
    for (int e = 0; e < count; e++) {
        frame_add_bar(frame, &(BarPlace){e, 0, length_m / count, -0.9, -0.9, 0}, 9e9, 4e9);
        frame_add_bar(frame, &(BarPlace){e, 1, length_m / count, 0, 0, 0}, 2e10, 9e7);
    }
    frame_add_link(frame, usual_arms, 0, hold.deck_x, 0, hold.deck_left_y);
    frame_add_link(frame, usual_arms, count, 0, 0, hold.deck_right_y);
    frame_add_spring(frame, 0, 0, hold.girder_x, hold.girder_left_y);
    frame_add_spring(frame, count, 0, 0, hold.girder_right_y);
    err->text[0] = 0;
    const Status status = frame_factor(frame, x, err);
    return status == STATUS_OK ? "held" : err->text;
}

static const struct {
    const char *who, *how;
    Hold hold;
} mechanisms[] = {
    {"held", "held", {1e12, 1e12, 1e12, 1e9, 1e9, 1e9}},
    {"girder", "along the bridge", {0, 1e12, 1e12, 1e9, 1e9, 1e9}},
    {"girder", "vertically", {1e12, 0, 0, 1e9, 1e9, 1e9}},
    {"deck", "along the bridge", {1e12, 1e12, 1e12, 0, 1e9, 1e9}},
    {"deck", "vertically", {1e12, 1e12, 1e12, 1e9, 0, 0}},
};

/* What hangs on a loose girder is loose with it: the last unknown in the order gives the name, so
 * a whole bridge that is free may be told by its deck. */
static void check_named(int count, double length_m)
{
    for (size_t k = 0; k < sizeof mechanisms / sizeof *mechanisms; k++) {
        Error err;
        const char *text = loose(count, length_m, mechanisms[k].hold, &err);
        const bool whole_bridge = mechanisms[k].hold.deck_x > 0 && mechanisms[k].who[0] == 'g';
        if ((!whole_bridge && !strstr(text, mechanisms[k].who)) || !strstr(text, mechanisms[k].how))
            fail_msg("%d elements: %s %s: %s", count, mechanisms[k].who, mechanisms[k].how, text);
        if (k > 0) {
            assert_int_equal(err.status, STATUS_UNSTABLE);
            assert_non_null(strstr(text, "x = "));
        }
    }
}

static void test_mechanism_is_named(void **state)
{
    (void)state;
    check_named(5, 8.5);
    check_named(60, 40);
    check_named(400, 119);
}

/* A deck that slides as a whole is held by 1e-7 of the shims' stiffness and is no mechanism. */
static void test_sliding_deck_is_no_mechanism(void **state)
{
    (void)state;
    Error err;
    for (int count = 50; count <= 1600; count *= 2) {
        const double length = 119, h = length / count;
        Frame *frame = frame_new(count + 1, arena);
        for (int e = 0; e < count; e++) {
            frame_add_bar(frame, &(BarPlace){e, 0, h, -0.9, -0.9, 0}, 1.4e10, 4e9);
            frame_add_bar(frame, &(BarPlace){e, 1, h, 0, 0, 0}, 2.2e10, 9e7);
        }
        for (int i = 0; i <= count; i++)
            frame_add_link(frame, usual_arms, i, 1e-7 * 5.7e8 * h, 0, 1.1e9 * h);
        frame_add_spring(frame, 0, 0, 1e13, 1e13);
        frame_add_spring(frame, count, 0, 0, 1e13);
        check_status(frame_factor(frame, NULL, &err), STATUS_OK, &err);
    }
}

static void test_mechanism_without_places_names_its_station(void **state)
{
    (void)state;
    Error err;
    Built b = built_new(arena);
    for (int e = 0; e + 1 < STATIONS; e++) bar(&b, bar_at(e, 0, 0, 0), 1e10, 1e9);
    spring(&b, 0, 0, 0, 1e12);
    spring(&b, 5, 0, 0, 1e12);
    for (int i = 0; i < STATIONS; i++) frame_hold_node(b.frame, i, 1);
    check_status(frame_factor(b.frame, NULL, &err), STATUS_UNSTABLE, &err);
    assert_non_null(strstr(err.text, "girder at station 5"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_eccentric_cantilever_is_exact, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_cantilever_under_tip_load_is_exact, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_harped_fibre_lifts_as_its_equivalent_load, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_link_arms_carry_the_moment_of_slip, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_strut_between_neighbours_equals_a_fibre, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_far_struts_equal_the_explicit_matrix, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_mechanism_is_named, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_sliding_deck_is_no_mechanism, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_mechanism_without_places_names_its_station, set_up,
                                        tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("frame_forms", tests, NULL, NULL);
}
