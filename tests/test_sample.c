/* Drawn numbers against published vectors and scipy; laws of the ways to fill the cube. */
#include <string.h>

#include "check.h"
#include "clench/numeric.h"
#include "data/sample_oracle.h"

static const char scipy[] = "scipy 1.10.1, stored by tools/oracle/sample_scipy.py";
enum { SIDE = 5 }; /* of a test that lays the unit cube out in boxes */

/* Known answers of Salmon et al. 2011, philox4x32, 10 rounds, from memory. */
static void test_philox_gives_the_known_answers(void **state)
{
    (void)state;
    static const struct {
        uint32_t counter[4], key[2], word[4];
    } known[] = {
        {{0}, {0}, {0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
        {{~0u, ~0u, ~0u, ~0u}, {~0u, ~0u}, {0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
        {{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
         {0xa4093822, 0x299f31d0},
         {0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}},
    };
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        uint32_t word[4];
        philox(known[i].counter, known[i].key, word);
        assert_memory_equal(word, known[i].word, sizeof word);
    }
}

static void test_sobol_agrees_with_scipy(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof sobol_case / sizeof *sobol_case; i++)
        for (int d = 0; d < SAMPLE_DIMENSIONS; d++)
            assert_true(sobol_share(sobol_case[i][0], d) == sobol_case[i][1 + d] * 0x1p-32);
}

/* Each variable of a Latin hypercube falls once in each share, whatever the count. */
static void test_a_latin_hypercube_is_one(void **state)
{
    (void)state;
    static const uint32_t counts[] = {1, 2, 3, 64, 1000, 4097};
    for (size_t c = 0; c < sizeof counts / sizeof *counts; c++)
        for (int d = 0; d < SAMPLE_DIMENSIONS; d += 5) {
            static unsigned char seen[4097];
            memset(seen, 0, sizeof seen);
            for (uint32_t i = 0; i < counts[c]; i++) {
                const double share = sample_share(SAMPLE_LATIN, i, counts[c], d, 7);
                assert_true(share > 0 && share < 1);
                seen[(uint32_t)(share * counts[c])]++;
            }
            for (uint32_t i = 0; i < counts[c]; i++) assert_int_equal(seen[i], 1);
        }
}

/* Pearson's chi square of two variables in SIDE by SIDE boxes, 24 degrees of freedom; 51.18 is passed by
 * chance once in a thousand (table of the distribution, scipy.stats.chi2.isf(1e-3, 24)). */
static void test_two_variables_do_not_depend(void **state)
{
    (void)state;
    enum { POINTS = 5000 };
    static const SampleKind kinds[] = {SAMPLE_PLAIN, SAMPLE_LATIN};
    for (int k = 0; k < 2; k++)
        for (int d = 0; d + 1 < SAMPLE_DIMENSIONS; d += 3) {
            int box[SIDE * SIDE] = {0};
            double square = 0;
            for (uint32_t i = 0; i < POINTS; i++) {
                const int x = (int)(SIDE * sample_share(kinds[k], i, POINTS, d, 11));
                const int y = (int)(SIDE * sample_share(kinds[k], i, POINTS, d + 1, 11));
                box[SIDE * x + y]++;
            }
            const double mean = (double)POINTS / (SIDE * SIDE);
            for (int b = 0; b < SIDE * SIDE; b++)
                square += (box[b] - mean) * (box[b] - mean) / mean;
            assert_true(square < 51.18);
        }
}

/* The mean of a smooth function over the cube: each way has its own rate, so that Sobol's error is far below
 * that of independent points. Closed form: the product of (1 + a (2 x - 1)) has the mean 1. */
static double mean_off(SampleKind kind, uint32_t count, uint64_t seed)
{
    double sum = 0;
    for (uint32_t i = 0; i < count; i++) {
        double product = 1;
        for (int d = 0; d < 6; d++)
            product *= 1 + 0.5 * (2 * sample_share(kind, i, count, d, seed) - 1);
        sum += product;
    }
    return fabs(sum / count - 1);
}

static void test_filling_the_cube_pays(void **state)
{
    (void)state;
    double plain = 0, latin = 0, sobol = 0;
    for (uint64_t seed = 0; seed < 20; seed++) {
        plain += mean_off(SAMPLE_PLAIN, 1024, seed) / 20;
        latin += mean_off(SAMPLE_LATIN, 1024, seed) / 20;
        sobol += mean_off(SAMPLE_SOBOL, 1024, seed) / 20;
    }
    /* law: the variance of independent points is ((1 + a^2/3)^6 - 1) / n; the mean of |normal| is .7979 of sigma */
    const double sigma = sqrt((pow(1 + 0.25 / 3, 6) - 1) / 1024);
    check_near(plain, 0.7979 * sigma, 0.5, 0, "law: error of independent points, 20 of them");
    assert_true(latin < 0.7 * plain);
    assert_true(sobol < 0.2 * plain);
}

static void test_beta_and_intervals_agree_with_scipy(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof beta_case / sizeof *beta_case; i++)
        check_near(beta_share(beta_case[i][0], beta_case[i][1], beta_case[i][2]), beta_case[i][3],
                   1e-11, 0, scipy);
    for (size_t i = 0; i < sizeof interval_case / sizeof *interval_case; i++) {
        const double *c = interval_case[i];
        double low, high;
        share_interval((int)c[0], (int)c[1], c[2], &low, &high);
        check_near(low, c[3], 1e-9, 1e-14, scipy);
        check_near(high, c[4], 1e-9, 1e-14, scipy);
    }
    for (size_t i = 0; i < sizeof rank_case / sizeof *rank_case; i++) {
        int low, high;
        quantile_interval(rank_case[i][0], rank_case[i][1] / 1000.0, 0.95, &low, &high);
        assert_int_equal(low, rank_case[i][2]);
        assert_int_equal(high, rank_case[i][3]);
    }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_philox_gives_the_known_answers),
        cmocka_unit_test(test_sobol_agrees_with_scipy),
        cmocka_unit_test(test_a_latin_hypercube_is_one),
        cmocka_unit_test(test_two_variables_do_not_depend),
        cmocka_unit_test(test_filling_the_cube_pays),
        cmocka_unit_test(test_beta_and_intervals_agree_with_scipy),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
