/* Answers of LAPACK for the band tests; writes tests/data/band_lapack.h to stdout.
 *
 *     cc -O1 tools/oracle/band_lapack.c -llapacke -o /tmp/band_lapack
 *     /tmp/band_lapack | clang-format --style=file --assume-filename=tests/x.h > tests/data/band_lapack.h
 */
#include <lapacke.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { N = 48, B = 8, LDA = 3 * B + 1 };

/* The same line stands in tests/test_numeric.c. */
static double entry_of(int i, int j) { return ((i * 31 + j * 17) % 23 - 11) / 11.0; }

static void print(const char *name, const double *x)
{
    printf("static const double %s[%d] = {", name, N);
    for (int i = 0; i < N; i++) printf("%s%.17g", i ? ", " : "", x[i]);
    printf("};\n");
}

/* dgbsv, rows pivoted; `symmetric` mirrors the lower half and adds `shift` to the diagonal. */
static void solve(const char *name, int symmetric, double shift)
{
    double a[N * LDA], x[N];
    lapack_int pivot[N];
    memset(a, 0, sizeof a);
    for (int i = 0; i < N; i++) {
        x[i] = 1 + i % 7;
        for (int j = 0; j < N; j++)
            if (abs(i - j) <= B)
                a[j * LDA + 2 * B + i - j] =
                    (symmetric && j > i ? entry_of(j, i) : entry_of(i, j)) + (i == j ? shift : 0);
    }
    if (LAPACKE_dgbsv(LAPACK_COL_MAJOR, N, B, B, 1, a, LDA, pivot, x, N)) abort();
    print(name, x);
}

/* dsbev */
static int count_negative(double shift)
{
    double a[N * (B + 1)], w[N];
    memset(a, 0, sizeof a);
    for (int j = 0; j < N; j++)
        for (int i = j; i < N && i <= j + B; i++)
            a[j * (B + 1) + i - j] = entry_of(i, j) + (i == j ? shift : 0);
    if (LAPACKE_dsbev(LAPACK_COL_MAJOR, 'N', 'L', N, B, a, B + 1, w, NULL, 1)) abort();
    int negative = 0;
    for (int i = 0; i < N; i++) negative += w[i] < 0;
    return negative;
}

int main(void)
{
    printf("/* LAPACK %s. Written by tools/oracle/band_lapack.c. */\n", "3.11.0 (Debian 12)");
    printf("#ifndef CLENCH_TESTS_BAND_LAPACK_H\n#define CLENCH_TESTS_BAND_LAPACK_H\n\n");
    printf("enum { LAPACK_N = %d, LAPACK_B = %d };\n", N, B);
    printf("static const double lapack_shift[3] = {0, 2, 9};\n");
    printf("static const int lapack_negative[3] = {%d, %d, %d};\n", count_negative(0),
           count_negative(2), count_negative(9));
    solve("lapack_general_x", 0, 0);
    solve("lapack_symmetric_0_x", 1, 0);
    solve("lapack_symmetric_2_x", 1, 2);
    solve("lapack_symmetric_9_x", 1, 9);
    printf("static const double *const lapack_symmetric_x[3] = {lapack_symmetric_0_x,\n");
    printf("lapack_symmetric_2_x, lapack_symmetric_9_x};\n\n#endif\n");
    return 0;
}
