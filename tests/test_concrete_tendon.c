/* A tendon in its duct: friction while it is pulled, draw-in of the wedges. */
#include "check.h"

#include "clench/concrete.h"

static const double ksi = 6894757.293168361, ft = 0.3048, in = 0.0254;
static const char friction[] =
    "closed form: f = f_j exp(-(K x + mu alpha)), AASHTO LRFD 5.9.3.2.2b (from memory)";
static const char balance[] = "law: what the wedges draw in is the tendon's shortening";

static TendonPull pull_of(bool left, bool right)
{
    return (TendonPull){.jack_Pa = 201.3 * ksi,
                        .modulus_Pa = 28370 * ksi,
                        .wobble_per_m = 0.00021 / ft,
                        .friction_1 = 0.237,
                        .set_m = 0.263 * in,
                        .left = left,
                        .right = right};
}

/* Integral of (pulled - seated) / E between two places, by many small steps: another way. */
static double drawn_in(const TendonPull *pull, const TendonPath *path, const TendonSeat *seat,
                       double from_m, double to_m)
{
    enum { STEPS = 20000 };
    double sum = 0;
    for (int i = 0; i < STEPS; i++) {
        const TendonStress f =
            tendon_at(pull, path, seat, from_m + (to_m - from_m) * (i + 0.5) / STEPS);
        sum += (f.pulled_Pa - f.seated_Pa) / pull->modulus_Pa * (to_m - from_m) / STEPS;
    }
    return sum;
}

static void test_friction_is_an_exponential(void **state)
{
    (void)state;
    const double x_m[] = {0, 71.3 * ft, 203.9 * ft}, turn_rad[] = {0, 0.041, 0.083};
    const TendonPath path = {3, x_m, turn_rad};
    const TendonPull pull = pull_of(true, false);
    const TendonSeat seat = tendon_seat(&pull, &path);
    const double s = 0.00021 * 71.3 + 0.237 * 0.041;
    check_near(tendon_at(&pull, &path, &seat, x_m[1]).pulled_Pa, 201.3 * ksi * exp(-s), 1e-6, 0,
               friction);
    const double e = 0.00021 * 203.9 + 0.237 * 0.083;
    check_near(tendon_at(&pull, &path, &seat, x_m[2]).pulled_Pa, 201.3 * ksi * exp(-e), 2e-6, 0,
               friction);
}

/* Straight tendon, K alone, infinitely long: set = (f_j / E K) (1 - exp(-K l))^2, since the integral of
 * f_j (exp(-K x) - exp(-K (2 l - x))) over l is f_j / K (1 - e)^2 with e = exp(-K l). */
static void test_the_draw_in_has_its_length(void **state)
{
    (void)state;
    const double x_m[] = {0, 400 * ft}, turn_rad[] = {0, 0};
    const TendonPath path = {2, x_m, turn_rad};
    const TendonPull pull = pull_of(true, true);
    const TendonSeat seat = tendon_seat(&pull, &path);
    const double K = 0.00021 / ft;
    const double length_m = -log(1 - sqrt(pull.set_m * pull.modulus_Pa * K / pull.jack_Pa)) / K;
    static const char source[] = "closed form: set = f_j / (E K) (1 - exp(-K l))^2";
    check_near(seat.left_reach_m, length_m, 1e-4, 0, source);
    check_near(seat.right_reach_m, length_m, 1e-4, 0, source);
    check_near(seat.left_Pa, pull.jack_Pa * exp(-2 * K * length_m), 1e-5, 0, source);
    check_near(drawn_in(&pull, &path, &seat, 0, 200 * ft), pull.set_m, 1e-5, 0, balance);
    /* the rule of thumb l = sqrt(set E / p) with p the loss per length at the jack is short of it */
    const double rule_m = sqrt(pull.set_m * pull.modulus_Pa / (pull.jack_Pa * K));
    assert_true(seat.left_reach_m > rule_m && seat.left_reach_m < 1.03 * rule_m);
    assert_false(seat.slack);
}

/* So short that the draw-in of one end meets that of the other, or reaches the dead end. */
static void test_a_short_tendon_is_drawn_in_all_along(void **state)
{
    (void)state;
    const double x_m[] = {0, 12 * ft, 93.7 * ft}, turn_rad[] = {0, 0.03, 0.037};
    const TendonPath path = {3, x_m, turn_rad};
    for (int ends = 1; ends <= 3; ends++) {
        TendonPull pull = pull_of(ends & 1, ends & 2);
        pull.set_m = 0.31 * in;
        const TendonSeat seat = tendon_seat(&pull, &path);
        const int pulled = ends == 3 ? 2 : 1;
        check_near(drawn_in(&pull, &path, &seat, 0, x_m[2]), pulled * pull.set_m, 1e-5, 0, balance);
        check_near(seat.left_reach_m + seat.right_reach_m, x_m[2], 1e-9, 0,
                   "law: the draw-in is felt all along");
        if (ends != 3) continue;
        check_near(drawn_in(&pull, &path, &seat, 0, seat.left_reach_m), pull.set_m, 1e-4, 0,
                   balance);
    }
}

/* Friction turned round takes as much on the way back: f_seated f_pulled is one number along the
 * influenced length. */
static void test_friction_turns_round(void **state)
{
    (void)state;
    const double x_m[] = {0, 300 * ft}, turn_rad[] = {0, 0.21};
    const TendonPath path = {2, x_m, turn_rad};
    const TendonPull pull = pull_of(false, true);
    const TendonSeat seat = tendon_seat(&pull, &path);
    const double product = pull.jack_Pa * seat.right_Pa;
    for (int i = 1; i < 5; i++) {
        const double x = 300 * ft - seat.right_reach_m * (0.19 * i);
        const TendonStress f = tendon_at(&pull, &path, &seat, x);
        check_near(f.pulled_Pa * f.seated_Pa, product, 1e-9, 0,
                   "law: friction opposes the slip, the same both ways");
    }
    const TendonStress beyond = tendon_at(&pull, &path, &seat, 3 * ft);
    check_near(beyond.seated_Pa, beyond.pulled_Pa, 0, 0, "law: nothing moves beyond it");
    assert_true(isinf(seat.left_Pa));
}

static void test_a_tendon_without_friction_gives_evenly(void **state)
{
    (void)state;
    const double x_m[] = {0, 105 * ft}, turn_rad[] = {0, 0};
    const TendonPath path = {2, x_m, turn_rad};
    TendonPull pull = pull_of(true, false);
    pull.wobble_per_m = pull.friction_1 = 0;
    const TendonSeat seat = tendon_seat(&pull, &path);
    static const char source[] = "closed form: E set / L";
    const double loss = pull.modulus_Pa * pull.set_m / x_m[1];
    check_near(tendon_at(&pull, &path, &seat, 40 * ft).seated_Pa, pull.jack_Pa - loss, 1e-6, 0,
               source);
    check_near(tendon_stretch_m(&pull, &path), pull.jack_Pa * x_m[1] / pull.modulus_Pa, 1e-6, 0,
               "closed form: f L / E");
    pull.set_m = 0.9; /* more than the tendon was pulled */
    assert_true(tendon_seat(&pull, &path).slack);
}

/* f_j / (E s) (1 - exp(-s)) L of one end; of both ends the same over each half. */
static void test_the_stretch_is_the_integral(void **state)
{
    (void)state;
    const double x_m[] = {0, 212 * ft}, turn_rad[] = {0, 0.09};
    const TendonPath path = {2, x_m, turn_rad};
    const double s = 0.00021 * 212 + 0.237 * 0.09;
    for (int both = 0; both < 2; both++) {
        const TendonPull pull = pull_of(true, both);
        const double part = both ? s / 2 : s;
        check_near(tendon_stretch_m(&pull, &path),
                   pull.jack_Pa / pull.modulus_Pa * x_m[1] * (1 - exp(-part)) / part, 1e-6, 0,
                   "closed form: integral of f_j exp(-s) / E");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_friction_is_an_exponential),
        cmocka_unit_test(test_the_draw_in_has_its_length),
        cmocka_unit_test(test_a_short_tendon_is_drawn_in_all_along),
        cmocka_unit_test(test_friction_turns_round),
        cmocka_unit_test(test_a_tendon_without_friction_gives_evenly),
        cmocka_unit_test(test_the_stretch_is_the_integral),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
