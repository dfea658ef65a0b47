#include <float.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "clench/numeric.h"
#include "data/band_lapack.h"

enum { N_MAX = 240, B_MAX = 12, COUNT_MAX = 5 };

static const double PI = 3.14159265358979323846;

/* Minimal standard generator of Park and Miller, 1988 (from memory): the same everywhere. */
static double next_random(unsigned *state)
{
    *state = (unsigned)((unsigned long long)*state * 16807ULL % 2147483647ULL);
    return *state / 2147483647.0 * 2 - 1;
}

static double *entry(double *a, int b, int i, int j) { return &a[i * (b + 1) + b - (i - j)]; }
static double *lu_entry(double *a, int b, int i, int j)
{
    return &a[i * (3 * b + 1) + (j - i + b)];
}

/* What must never be read is not a number. */
static void spoil(double *a, int count)
{
    for (int k = 0; k < count; k++) a[k] = NAN;
}

static void fill_zero(int n, int b, double *a)
{
    spoil(a, n * (b + 1));
    for (int i = 0; i < n; i++)
        for (int j = i < b ? 0 : i - b; j <= i; j++) *entry(a, b, i, j) = 0;
}

/* Chain of equal springs held at both ends: 2 on the diagonal, -1 beside it. */
static void fill_chain(int n, int b, double *a)
{
    fill_zero(n, b, a);
    for (int i = 0; i < n; i++) {
        *entry(a, b, i, i) = 2;
        if (i > 0) *entry(a, b, i, i - 1) = -1;
    }
}

/* Net of `wide` by `length` points, numbered across: 4 minus the neighbours; half band `wide`. */
static void fill_net(int wide, int length, double shift, double *a)
{
    fill_zero(wide * length, wide, a);
    for (int i = 0; i < wide * length; i++) {
        *entry(a, wide, i, i) = 4 - shift;
        if (i % wide > 0) *entry(a, wide, i, i - 1) = -1;
        if (i >= wide) *entry(a, wide, i, i - wide) = -1;
    }
}

static void fill_random(int n, int b, double diagonal, unsigned seed, double *a)
{
    fill_zero(n, b, a);
    for (int i = 0; i < n; i++)
        for (int j = i < b ? 0 : i - b; j <= i; j++)
            *entry(a, b, i, j) = next_random(&seed) + (i == j ? diagonal : 0);
}

static void test_chain_under_equal_loads_gives_parabola(void **state)
{
    (void)state;
    static double a[N_MAX * (B_MAX + 1)], x[N_MAX];
    for (int b = 1; b <= B_MAX; b++) {
        int negative = -1;
        fill_chain(N_MAX, b, a);
        for (int i = 0; i < N_MAX; i++) x[i] = 1;
        assert_int_equal(band_factor(N_MAX, b, a, 1e-12, &negative), -1);
        assert_int_equal(negative, 0);
        band_solve(N_MAX, b, a, x, 1);
        for (int i = 0; i < N_MAX; i++)
            check_near(
                x[i], 0.5 * (i + 1) * (N_MAX - i), 1e-12, 0,
                "closed form: x_i = (i+1)(n-i)/2 for the second difference of x equal to -1");
    }
}

static void test_diagonal_matrix_divides(void **state)
{
    (void)state;
    double a[3] = {2, -4, 8}, x[3] = {1, 1, 1};
    int negative = -1;
    assert_int_equal(band_factor(3, 0, a, 1e-12, &negative), -1);
    assert_int_equal(negative, 1);
    band_solve(3, 0, a, x, 1);
    check_near(x[0], 0.5, 0, 0, "closed form: 1/d");
    check_near(x[1], -0.25, 0, 0, "closed form: 1/d");
    check_near(x[2], 0.125, 0, 0, "closed form: 1/d");
}

/* Matrix smaller than its band: every row is a short one. */
static void test_full_matrix_narrower_than_band_solves(void **state)
{
    (void)state;
    double a[3 * 9], x[3] = {4 * 1 + 1 * 2, 1 * 1 + 5 * 2 + 2 * 3, 2 * 2 + 6 * 3};
    fill_zero(3, 8, a);
    const double full[3][3] = {{4, 1, 0}, {1, 5, 2}, {0, 2, 6}};
    for (int i = 0; i < 3; i++)
        for (int j = 0; j <= i; j++) *entry(a, 8, i, j) = full[i][j];
    assert_int_equal(band_factor(3, 8, a, 1e-12, NULL), -1);
    band_solve(3, 8, a, x, 1);
    for (int i = 0; i < 3; i++) check_near(x[i], i + 1, 1e-14, 0, "law: A times (1,2,3)");
}

static double largest_residual(int n, int b, const double *a, const double *x, const double *right)
{
    static double y[N_MAX];
    band_multiply(n, b, a, x, y);
    double largest = 0;
    for (int i = 0; i < n; i++) largest = fmax(largest, fabs(y[i] - right[i]));
    return largest;
}

static void test_random_bands_leave_no_residual(void **state)
{
    (void)state;
    static double a[N_MAX * (B_MAX + 1)], f[N_MAX * (B_MAX + 1)];
    static double x[COUNT_MAX * N_MAX], right[COUNT_MAX * N_MAX];
    unsigned seed = 7;
    for (int b = 1; b <= B_MAX; b++) {
        fill_random(N_MAX, b, 2.0 * b + 1, 100u + (unsigned)b, a);
        memcpy(f, a, sizeof a);
        for (int k = 0; k < COUNT_MAX * N_MAX; k++) x[k] = right[k] = next_random(&seed);
        assert_int_equal(band_factor(N_MAX, b, f, 1e-12, NULL), -1);
        band_solve(N_MAX, b, f, x, COUNT_MAX);
        for (int k = 0; k < COUNT_MAX; k++)
            check_near(largest_residual(N_MAX, b, a, x + (ptrdiff_t)k * N_MAX,
                                        right + (ptrdiff_t)k * N_MAX),
                       0, 0, 1e-14, "law: A x = f, diagonally dominant, rounding only");
    }
}

static void test_multiply_is_symmetric(void **state)
{
    (void)state;
    static double a[N_MAX * (B_MAX + 1)], x[N_MAX], y[N_MAX], ax[N_MAX], ay[N_MAX];
    unsigned seed = 3;
    for (int b = 0; b <= B_MAX; b++) {
        fill_random(N_MAX, b, 0, 5, a);
        for (int i = 0; i < N_MAX; i++) {
            x[i] = next_random(&seed);
            y[i] = next_random(&seed);
        }
        band_multiply(N_MAX, b, a, x, ax);
        band_multiply(N_MAX, b, a, y, ay);
        double left = 0, right = 0;
        for (int i = 0; i < N_MAX; i++) {
            left += y[i] * ax[i];
            right += x[i] * ay[i];
        }
        check_near(left, right, 0, 1e-12, "law: y'Ax = x'Ay");
    }
}

/* Sylvester's law of inertia: D < 0 as often as eigenvalues lie below the shift. */
static void check_inertia(int wide, int length, double shift)
{
    static double a[N_MAX * (B_MAX + 1)];
    int below = 0, negative = -1;
    for (int j = 1; j <= wide; j++)
        for (int k = 1; k <= length; k++)
            below += 4 - 2 * cos(j * PI / (wide + 1)) - 2 * cos(k * PI / (length + 1)) < shift;
    fill_net(wide, length, shift, a);
    assert_int_equal(band_factor(wide * length, wide, a, 1e-12, &negative), -1);
    assert_int_equal(negative, below);
}

static void test_negative_pivots_count_eigenvalues_below_shift(void **state)
{
    (void)state;
    for (int k = 0; k < 40; k++) {
        check_inertia(8, 30, -0.11 + 0.217 * k);
        check_inertia(5, 40, -0.11 + 0.217 * k);
        check_inertia(1, 100, -0.11 + 0.217 * k);
    }
}

/* Cut off at row `end`: rows up to it are a chain that floats. */
static void test_floating_chain_names_its_last_row(void **state)
{
    (void)state;
    static double a[N_MAX * (B_MAX + 1)];
    for (int b = 1; b <= B_MAX; b++)
        for (int end = 1; end < N_MAX; end += 17) {
            int negative = -5;
            fill_chain(N_MAX, b, a);
            *entry(a, b, 0, 0) = 1;
            *entry(a, b, end, end) = 1;
            if (end + 1 < N_MAX) *entry(a, b, end + 1, end) = 0;
            assert_int_equal(band_factor(N_MAX, b, a, 1e-12, &negative), end);
            assert_int_equal(negative, -5);
        }
}

static void test_empty_row_is_a_mechanism(void **state)
{
    (void)state;
    static double a[20 * 9];
    fill_chain(20, 8, a);
    *entry(a, 8, 13, 13) = *entry(a, 8, 13, 12) = *entry(a, 8, 14, 13) = 0;
    assert_int_equal(band_factor(20, 8, a, 1e-12, NULL), 13);
}

static void fill_lu_random(int n, int b, unsigned seed, double *a)
{
    spoil(a, n * (3 * b + 1));
    for (int i = 0; i < n; i++)
        for (int j = i < b ? 0 : i - b; j <= i + b && j < n; j++)
            *lu_entry(a, b, i, j) = next_random(&seed);
}

static double lu_residual(int n, int b, double *a, const double *x, const double *right)
{
    double largest = 0;
    for (int i = 0; i < n; i++) {
        double sum = -right[i];
        for (int j = i < b ? 0 : i - b; j <= i + b && j < n; j++)
            sum += *lu_entry(a, b, i, j) * x[j];
        largest = fmax(largest, fabs(sum));
    }
    return largest;
}

static double largest_of(int n, const double *x)
{
    double largest = 0;
    for (int i = 0; i < n; i++) largest = fmax(largest, fabs(x[i]));
    return largest;
}

static void test_lu_of_random_bands_leaves_no_residual(void **state)
{
    (void)state;
    static double a[N_MAX * (3 * B_MAX + 1)], f[N_MAX * (3 * B_MAX + 1)];
    static double x[COUNT_MAX * N_MAX], right[COUNT_MAX * N_MAX];
    static int pivot[N_MAX];
    unsigned seed = 11;
    for (int b = 1; b <= B_MAX; b++) {
        fill_lu_random(N_MAX, b, 200u + (unsigned)b, a);
        memcpy(f, a, sizeof a);
        for (int k = 0; k < COUNT_MAX * N_MAX; k++) x[k] = right[k] = next_random(&seed);
        assert_int_equal(band_lu_factor(N_MAX, b, f, pivot, 1e-14), -1);
        band_lu_solve(N_MAX, b, f, pivot, x, COUNT_MAX);
        for (int k = 0; k < COUNT_MAX; k++)
            check_near(
                lu_residual(N_MAX, b, a, x + (ptrdiff_t)k * N_MAX, right + (ptrdiff_t)k * N_MAX), 0,
                0, 2e-14 * b * largest_of(N_MAX, x + (ptrdiff_t)k * N_MAX),
                "law: backward stability, residual of the order eps * |A| * |x|");
    }
}

/* Only neighbours, nothing on the diagonal: no step works without a row change. */
static void test_lu_of_empty_diagonal_pivots(void **state)
{
    (void)state;
    enum { N = 60 };
    for (int b = 1; b <= B_MAX; b++) {
        static double a[N * (3 * B_MAX + 1)];
        double x[N];
        int pivot[N];
        memset(a, 0, sizeof a);
        for (int i = 0; i < N; i++) {
            if (i > 0) *lu_entry(a, b, i, i - 1) = 1;
            if (i + 1 < N) *lu_entry(a, b, i, i + 1) = 1;
            x[i] = i == 0 || i == N - 1 ? 1 : 2;
        }
        assert_int_equal(band_lu_factor(N, b, a, pivot, 1e-14), -1);
        band_lu_solve(N, b, a, pivot, x, 1);
        for (int i = 0; i < N; i++)
            check_near(x[i], 1, 0, 0, "closed form: row sums of the neighbour matrix");
    }
}

static void test_lu_agrees_with_symmetric_factor(void **state)
{
    (void)state;
    enum { N = 100, B = 8 };
    static double a[N * (B + 1)], g[N * (3 * B + 1)];
    double x[N], y[N];
    int pivot[N];
    fill_random(N, B, 9, 42, a);
    spoil(g, N * (3 * B + 1));
    for (int i = 0; i < N; i++)
        for (int j = i < B ? 0 : i - B; j <= i; j++)
            *lu_entry(g, B, i, j) = *lu_entry(g, B, j, i) = *entry(a, B, i, j);
    for (int i = 0; i < N; i++) x[i] = y[i] = 1 + i % 7;
    assert_int_equal(band_factor(N, B, a, 1e-12, NULL), -1);
    assert_int_equal(band_lu_factor(N, B, g, pivot, 1e-14), -1);
    band_solve(N, B, a, x, 1);
    band_lu_solve(N, B, g, pivot, y, 1);
    for (int i = 0; i < N; i++) check_near(x[i], y[i], 0, 1e-14, "law: one matrix, one solution");
}

static void test_lu_names_the_dependent_column(void **state)
{
    (void)state;
    enum { N = 40, B = 3 };
    double a[N * (3 * B + 1)];
    int pivot[N];
    for (int column = 0; column < N; column++) {
        fill_lu_random(N, B, 77, a);
        for (int i = 0; i < N; i++)
            if (abs(i - column) <= B) *lu_entry(a, B, i, column) = 0;
        assert_int_equal(band_lu_factor(N, B, a, pivot, 1e-12), column);
    }
}

/* Equal columns 20 and 21: the second one has nothing left. */
static void test_lu_finds_equal_columns(void **state)
{
    (void)state;
    enum { N = 40, B = 3 };
    double a[N * (3 * B + 1)];
    int pivot[N];
    fill_lu_random(N, B, 78, a);
    *lu_entry(a, B, 17, 20) = *lu_entry(a, B, 24, 21) = 0;
    for (int i = 18; i <= 23; i++) *lu_entry(a, B, i, 21) = *lu_entry(a, B, i, 20);
    assert_int_equal(band_lu_factor(N, B, a, pivot, 1e-12), 21);
}

/* The same line stands in tools/oracle/band_lapack.c. */
static double entry_of(int i, int j) { return ((i * 31 + j * 17) % 23 - 11) / 11.0; }

static void test_indefinite_bands_agree_with_lapack(void **state)
{
    (void)state;
    double a[LAPACK_N * (LAPACK_B + 1)], x[LAPACK_N];
    for (int k = 0; k < 3; k++) {
        int negative = -1;
        fill_zero(LAPACK_N, LAPACK_B, a);
        for (int i = 0; i < LAPACK_N; i++) {
            x[i] = 1 + i % 7;
            for (int j = i < LAPACK_B ? 0 : i - LAPACK_B; j <= i; j++)
                *entry(a, LAPACK_B, i, j) = entry_of(i, j) + (i == j ? lapack_shift[k] : 0);
        }
        assert_int_equal(band_factor(LAPACK_N, LAPACK_B, a, 1e-12, &negative), -1);
        assert_int_equal(negative, lapack_negative[k]);
        band_solve(LAPACK_N, LAPACK_B, a, x, 1);
        const double *const expected = lapack_symmetric_x[k];
        for (int i = 0; i < LAPACK_N; i++)
            check_near(x[i], expected[i], 0, 1e-12 * largest_of(LAPACK_N, expected),
                       "LAPACK dgbsv and dsbev, stored by tools/oracle/band_lapack.c");
    }
}

static void test_lu_agrees_with_lapack(void **state)
{
    (void)state;
    double a[LAPACK_N * (3 * LAPACK_B + 1)], x[LAPACK_N];
    int pivot[LAPACK_N];
    spoil(a, LAPACK_N * (3 * LAPACK_B + 1));
    for (int i = 0; i < LAPACK_N; i++) {
        x[i] = 1 + i % 7;
        for (int j = 0; j < LAPACK_N; j++)
            if (abs(i - j) <= LAPACK_B) *lu_entry(a, LAPACK_B, i, j) = entry_of(i, j);
    }
    assert_int_equal(band_lu_factor(LAPACK_N, LAPACK_B, a, pivot, 1e-14), -1);
    band_lu_solve(LAPACK_N, LAPACK_B, a, pivot, x, 1);
    for (int i = 0; i < LAPACK_N; i++)
        check_near(x[i], lapack_general_x[i], 0, 1e-12 * largest_of(LAPACK_N, lapack_general_x),
                   "LAPACK dgbsv, stored by tools/oracle/band_lapack.c");
}

static double factorial(int n) { return n < 2 ? 1 : n * factorial(n - 1); }

static void test_hilbert_system_gives_closed_form(void **state)
{
    (void)state;
    enum { N = 6 };
    double a[N * N], x[N];
    for (int i = 0; i < N; i++) {
        x[i] = 1;
        for (int j = 0; j < N; j++) a[i * N + j] = 1.0 / (i + j + 1);
    }
    assert_true(dense_solve(N, a, x));
    for (int i = 1; i <= N; i++) {
        const double sign = (N + i) % 2 ? -1 : 1;
        const double sum =
            sign * factorial(N + i - 1) / (factorial(i - 1) * factorial(i - 1) * factorial(N - i));
        check_near(x[i - 1], sum, 1e-9, 0,
                   "closed form: row sums of the inverse Hilbert matrix; condition 1.5e7");
    }
}

static void test_dense_ignores_units_of_rows_and_columns(void **state)
{
    (void)state;
    double a[9] = {0, 2e12, 0, 3, 5, 4e-9, 1e20, 1e20, 0};
    double x[3] = {2e12, 3 + 5 + 4e-9 * 1e9, 2e20};
    assert_true(dense_solve(3, a, x));
    check_near(x[0], 1, 1e-14, 0, "law: A times (1, 1, 1e9)");
    check_near(x[1], 1, 1e-14, 0, "law: A times (1, 1, 1e9)");
    check_near(x[2], 1e9, 1e-14, 0, "law: A times (1, 1, 1e9)");
}

static void test_dense_refuses_singular(void **state)
{
    (void)state;
    double a[9] = {1, 2, 3, 4, 5, 6, 7, 8, 9}, x[3] = {1, 2, 3};
    assert_false(dense_solve(3, a, x));
    double zero[4] = {0, 0, 1, 1}, y[2] = {0, 1};
    assert_false(dense_solve(2, zero, y));
    double column[4] = {0, 1, 0, 1};
    assert_false(dense_solve(2, column, y));
}

static double wallis(double x, void *calls)
{
    ++*(int *)calls;
    return x * x * x - 2 * x - 5;
}
static double cube(double x, void *calls)
{
    ++*(int *)calls;
    return (x - 1) * (x - 1) * (x - 1);
}
static double cosine_less_x(double x, void *calls)
{
    ++*(int *)calls;
    return cos(x) - x;
}
static double jump(double x, void *calls)
{
    ++*(int *)calls;
    return x < 1.25 ? -1e-3 : 1e6;
}

static void test_root_of_smooth_functions_in_few_calls(void **state)
{
    (void)state;
    int calls = 0;
    check_near(root_between(wallis, &calls, 2, 3, 1e-14), 2.0945514815423265, 0, 1e-14,
               "closed form: real root of x^3 - 2x - 5, Cardano");
    assert_in_range(calls, 3, 12);
    calls = 0;
    check_near(root_between(cosine_less_x, &calls, 1, 0, 1e-14), 0.73908513321516064, 0, 1e-14,
               "closed form: fixed point of the cosine");
    assert_in_range(calls, 3, 12);
}

static void test_root_of_wild_functions_stays_in_bracket(void **state)
{
    (void)state;
    int calls = 0;
    check_near(root_between(jump, &calls, -10, 10, 1e-12), 1.25, 0, 1e-12,
               "closed form: place of the jump");
    assert_in_range(calls, 3, 200);
    calls = 0;
    check_near(root_between(cube, &calls, -3, 10, 1e-9), 1, 0, 1e-4,
               "closed form: threefold root; |f| < 1e-12 is all that is left to see");
    assert_in_range(calls, 3, 200);
}

static void test_root_at_the_end_is_returned(void **state)
{
    (void)state;
    int calls = 0;
    assert_true(root_between(cube, &calls, 1, 4, 1e-9) == 1);
    assert_true(root_between(cube, &calls, -4, 1, 1e-9) == 1);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_chain_under_equal_loads_gives_parabola),
        cmocka_unit_test(test_diagonal_matrix_divides),
        cmocka_unit_test(test_full_matrix_narrower_than_band_solves),
        cmocka_unit_test(test_random_bands_leave_no_residual),
        cmocka_unit_test(test_multiply_is_symmetric),
        cmocka_unit_test(test_negative_pivots_count_eigenvalues_below_shift),
        cmocka_unit_test(test_floating_chain_names_its_last_row),
        cmocka_unit_test(test_empty_row_is_a_mechanism),
        cmocka_unit_test(test_lu_of_random_bands_leaves_no_residual),
        cmocka_unit_test(test_lu_of_empty_diagonal_pivots),
        cmocka_unit_test(test_lu_agrees_with_symmetric_factor),
        cmocka_unit_test(test_lu_names_the_dependent_column),
        cmocka_unit_test(test_lu_finds_equal_columns),
        cmocka_unit_test(test_indefinite_bands_agree_with_lapack),
        cmocka_unit_test(test_lu_agrees_with_lapack),
        cmocka_unit_test(test_hilbert_system_gives_closed_form),
        cmocka_unit_test(test_dense_ignores_units_of_rows_and_columns),
        cmocka_unit_test(test_dense_refuses_singular),
        cmocka_unit_test(test_root_of_smooth_functions_in_few_calls),
        cmocka_unit_test(test_root_of_wild_functions_stays_in_bracket),
        cmocka_unit_test(test_root_at_the_end_is_returned),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
