/* frame: bars, links, springs and struts against closed forms and laws. */
#include "check.h"

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

/* ---- one bar ---- */

/* u = a + b x, v = c + d x + k x^2/2, theta = d + k x. */
static void field(double *x, int chain, double a, double b, double c, double d, double k)
{
    for (int i = 0; i < STATIONS; i++) {
        const double s = station_m[i];
        x[frame_unknown(i, chain, 0)] = a + b * s;
        x[frame_unknown(i, chain, 1)] = c + d * s + 0.5 * k * s * s;
        x[frame_unknown(i, chain, 2)] = d + k * s;
    }
}

static void test_bar_constant_strain_and_curvature_are_exact(void **state)
{
    (void)state;
    const double b = 3e-4, k = -2e-3, y = -0.7, EA = 5e9, EI = 8e8;
    double x[N] = {0}, nodal[N] = {0};
    field(x, 0, 0.01, b, -0.02, 0.003, k);
    for (int e = 0; e + 1 < STATIONS; e++) {
        const BarPlace place = bar_at(e, 0, y, y);
        const BarStrain s = frame_bar_strain(&place, x);
        check_near(s.axial_1, b - y * k, 1e-11, 0, "closed form: u' - y theta'");
        check_near(s.from_per_m, k, 1e-10, 0, "closed form: v''");
        check_near(s.to_per_m, k, 1e-10, 0, "closed form: v''");
        frame_bar_force(&place, EA * s.axial_1, EI * s.from_per_m, EI * s.to_per_m, nodal);
    }
    const double axial = EA * (b - y * k), bend = EI * k;
    const double left[3] = {-axial, 0, axial * y - bend};
    for (int i = 0; i < STATIONS; i++)
        for (int w = 0; w < 3; w++) {
            const double end = i == 0 ? left[w] : i == STATIONS - 1 ? -left[w] : 0;
            check_near(nodal[frame_unknown(i, 0, w)], end, 0, 1e-9 * EA * fabs(b),
                       "law: patch test, no force inside");
        }
}

/* Curvature straight along the bar: v = x^3. */
static void test_bar_straight_curvature_is_exact(void **state)
{
    (void)state;
    double x[N] = {0};
    for (int i = 0; i < STATIONS; i++) {
        const double s = station_m[i];
        x[frame_unknown(i, 1, 1)] = s * s * s;
        x[frame_unknown(i, 1, 2)] = 3 * s * s;
    }
    for (int e = 0; e + 1 < STATIONS; e++) {
        const BarPlace place = bar_at(e, 1, 0, 0);
        const BarStrain s = frame_bar_strain(&place, x);
        check_near(s.from_per_m, 6 * station_m[e], 0, 1e-10, "closed form: (x^3)''");
        check_near(s.to_per_m, 6 * station_m[e + 1], 0, 1e-10, "closed form: (x^3)''");
        check_near(s.axial_1, 0, 0, 1e-15, "closed form: no axial strain");
    }
}

/* Small rotation w about (cx, cy), G at height 0, D at `level`. */
static void turn(double *x, double level, double w, double cx, double cy)
{
    for (int i = 0; i < STATIONS; i++)
        for (int chain = 0; chain < 2; chain++) {
            x[frame_unknown(i, chain, 0)] = 0.3 - w * (chain * level - cy);
            x[frame_unknown(i, chain, 1)] = -0.7 + w * (station_m[i] - cx);
            x[frame_unknown(i, chain, 2)] = w;
        }
}

static void test_rigid_motion_costs_nothing(void **state)
{
    (void)state;
    const LinkArms arms = {0.11, 0.06};
    unsigned long seed = 7;
    double x[N], slip, lift;
    turn(x, arms.deck_arm_m + arms.girder_arm_m, 0.05, 3.7, -1.9);
    for (int e = 0; e + 1 < STATIONS; e++)
        for (int chain = 0; chain < 2; chain++) {
            const BarPlace place = bar_at(e, chain, noise(&seed), noise(&seed));
            const BarStrain s = frame_bar_strain(&place, x);
            check_near(s.axial_1, 0, 0, 1e-14, "law: rigid motion");
            check_near(s.from_per_m, 0, 0, 1e-13, "law: rigid motion");
            check_near(s.to_per_m, 0, 0, 1e-13, "law: rigid motion");
        }
    for (int i = 0; i < STATIONS; i++) {
        frame_link_strain(arms, i, x, &slip, &lift);
        check_near(slip, 0, 0, 1e-14, "law: rigid motion");
        check_near(lift, 0, 0, 1e-14, "law: rigid motion");
    }
    const Strut strut = {1, 4, 0.37, 1e9};
    check_near(frame_strut_opening(&strut, x), 0, 0, 1e-14, "law: rigid motion");
}

/* Self-balance: nodal forces of any stress do no work on any rigid motion. */
static void test_forces_do_no_work_on_rigid_motion(void **state)
{
    (void)state;
    const LinkArms arms = {0.11, 0.06};
    unsigned long seed = 11;
    double x[N], nodal[N] = {0}, work = 0;
    turn(x, arms.deck_arm_m + arms.girder_arm_m, 0.2, -4, 3);
    for (int e = 0; e + 1 < STATIONS; e++) {
        const BarPlace place = bar_at(e, e % 2, noise(&seed), noise(&seed));
        frame_bar_force(&place, 1e6 * noise(&seed), 1e6 * noise(&seed), 1e6 * noise(&seed), nodal);
    }
    for (int i = 0; i < STATIONS; i++)
        frame_link_force(arms, i, 1e6 * noise(&seed), 1e6 * noise(&seed), nodal);
    const Strut strut = {0, 5, -0.4, 1};
    frame_strut_force(&strut, 1e6, nodal);
    for (int i = 0; i < N; i++) work += nodal[i] * x[i];
    check_near(work, 0, 0, 1e-7, "law: virtual work of rigid motion");
}

static void check_balance(const Built *b, double tolerance, const char *source)
{
    unsigned long seed = 23;
    double load[N], x[N], nodal[N];
    for (int i = 0; i < N; i++) x[i] = load[i] = 1e6 * noise(&seed);
    frame_solve(b->frame, x, 1);
    inner(b, x, nodal);
    for (int i = 0; i < N; i++) check_near(nodal[i], load[i], 0, tolerance, source);
}

static void test_symmetric_frame_balances_its_loads(void **state)
{
    (void)state;
    Error err;
    Built b = bridge(arena, 0);
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    assert_false(b.frame->unsymmetric);
    assert_int_equal(b.frame->negative_pivots, 0);
    check_balance(&b, 1e-3, "law: equilibrium");
}

/* A sliding shim, dH = mu dV: the tangent is unsymmetric, the balance is not touched by that. */
static void test_unsymmetric_frame_balances_its_loads(void **state)
{
    (void)state;
    Error err;
    Built b = bridge(arena, -0.3 * 5e9);
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    assert_true(b.frame->unsymmetric);
    check_balance(&b, 1e-3, "law: equilibrium");
}

static void test_frame_with_struts_balances_its_loads(void **state)
{
    (void)state;
    Error err;
    for (int k = 0; k < 2; k++) {
        Built b = bridge(arena, k ? 0.2 * 5e9 : 0);
        frame_add_strut(b.frame, &(Strut){2, 3, 0.05, 4e8});
        frame_add_strut(b.frame, &(Strut){0, 5, -0.2, 1e9});
        check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
        check_balance(&b, 1e-3, "law: equilibrium");
    }
}

/* Columns of the tangent against differences of the inner forces: exact, the frame is linear. */
static void test_tangent_agrees_with_differences_of_inner_forces(void **state)
{
    (void)state;
    Error err;
    Built b = bridge(arena, -0.25 * 5e9);
    frame_add_strut(b.frame, &(Strut){2, 3, 0.05, 4e8});
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    for (int j = 0; j < N; j++) {
        double x[N] = {0}, up[N], down[N], column[N];
        x[j] = 1e-3;
        inner(&b, x, up);
        x[j] = -1e-3;
        inner(&b, x, down);
        for (int i = 0; i < N; i++) column[i] = (up[i] - down[i]) / 2e-3;
        frame_solve(b.frame, column, 1);
        for (int i = 0; i < N; i++)
            check_near(column[i], i == j, 0, 1e-6,
                       "law: K^-1 times a column of K is a unit vector");
    }
}

static void test_flexibility_is_reciprocal(void **state)
{
    (void)state;
    Error err;
    Built b = bridge(arena, 0);
    frame_add_strut(b.frame, &(Strut){1, 4, 0.1, 2e9});
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    double *x = ARENA_NEW(arena, double, N *N);
    for (int i = 0; i < N; i++) x[i * N + i] = 1;
    frame_solve(b.frame, x, N);
    for (int i = 0; i < N; i++)
        for (int j = 0; j < i; j++)
            check_near(x[i * N + j], x[j * N + i], 1e-8, 1e-19, "law: Maxwell-Betti");
}

/* Several right sides at once are the same as one after another. */
static void test_many_right_sides_equal_one_by_one(void **state)
{
    (void)state;
    Error err;
    unsigned long seed = 3;
    Built b = bridge(arena, 0);
    frame_add_strut(b.frame, &(Strut){1, 4, 0.1, 2e9});
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    double many[5 * N], one[N];
    for (int i = 0; i < 5 * N; i++) many[i] = noise(&seed);
    for (int k = 4; k >= 0; k--) {
        double copy[5 * N];
        memcpy(copy, many, sizeof copy);
        memcpy(one, many + (ptrdiff_t)k * N, sizeof one);
        frame_solve(b.frame, one, 1);
        frame_solve(b.frame, copy, 5);
        for (int i = 0; i < N; i++)
            check_near(copy[k * N + i], one[i], 1e-12, 1e-20, "law: linearity");
    }
}

/* Cleared, a frame is as new. */
static void test_cleared_frame_forgets(void **state)
{
    (void)state;
    Error err;
    Built b = bridge(arena, 0.2 * 5e9);
    frame_add_strut(b.frame, &(Strut){1, 4, 0.1, 2e9});
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    frame_clear(b.frame);
    Frame *used = b.frame;
    b = bridge(arena, 0);
    memcpy(used->band, b.frame->band, sizeof(double) * N * (FRAME_BAND + 1));
    b.frame = used;
    check_status(frame_factor(b.frame, station_m, &err), STATUS_OK, &err);
    check_balance(&b, 1e-3, "law: equilibrium");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bar_constant_strain_and_curvature_are_exact),
        cmocka_unit_test(test_bar_straight_curvature_is_exact),
        cmocka_unit_test(test_rigid_motion_costs_nothing),
        cmocka_unit_test(test_forces_do_no_work_on_rigid_motion),
        cmocka_unit_test_setup_teardown(test_symmetric_frame_balances_its_loads, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_unsymmetric_frame_balances_its_loads, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_frame_with_struts_balances_its_loads, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_tangent_agrees_with_differences_of_inner_forces,
                                        set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_flexibility_is_reciprocal, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_many_right_sides_equal_one_by_one, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_cleared_frame_forgets, set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("frame", tests, NULL, NULL);
}
