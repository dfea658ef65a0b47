/* Influence lines of continuous beams of constant stiffness, from the three-moment equation.
 * Independent of the engine: the tests of traffic compare against lines made here. */
#ifndef CLENCH_TESTS_BEAM_LINES_H
#define CLENCH_TESTS_BEAM_LINES_H

enum { BEAM_SPANS = 8 };
typedef struct Beam {
    int spans;
    double length[BEAM_SPANS];
} Beam;

static inline double beam_support(const Beam *b, int k)
{
    double x = 0;
    for (int i = 0; i < k; i++) x += b->length[i];
    return x;
}

static inline int beam_span_at(const Beam *b, double *x) /* *x becomes local */
{
    int k = 0;
    while (k + 1 < b->spans && *x > b->length[k]) *x -= b->length[k++];
    return k;
}

/* Support moments M[0..spans] (tension at the bottom positive) under a unit load at x. Three-moment
 * equation: M0 L1 + 2 M1 (L1 + L2) + M2 L2 = - a(L1^2 - a^2)/L1 (load in span 1, a from its far
 * end) - b(L2^2 - b^2)/L2 (load in span 2, b from its far end). Thomas' algorithm. */
static inline void beam_support_moments(const Beam *beam, double x, double *M)
{
    const int n = beam->spans, at = beam_span_at(beam, &x);
    double c[BEAM_SPANS + 1] = {0}, d[BEAM_SPANS + 1] = {0};
    for (int j = 1; j < n; j++) {
        const double L1 = beam->length[j - 1], L2 = beam->length[j], b = L2 - x;
        double right = 0;
        if (at == j - 1) right -= x * (L1 * L1 - x * x) / L1;
        if (at == j) right -= b * (L2 * L2 - b * b) / L2;
        const double before = j > 1 ? L1 : 0, pivot = 2 * (L1 + L2) - before * c[j - 1];
        c[j] = L2 / pivot;
        d[j] = (right - before * d[j - 1]) / pivot;
    }
    M[0] = M[n] = 0;
    for (int j = n - 1; j > 0; j--) M[j] = d[j] - c[j] * M[j + 1];
}

/* Moment at `at` under a unit load at x. */
static inline double beam_moment(const Beam *beam, double at, double x)
{
    double M[BEAM_SPANS + 1], z = at, a = x;
    beam_support_moments(beam, x, M);
    const int k = beam_span_at(beam, &z), loaded = beam_span_at(beam, &a);
    const double L = beam->length[k], hang = M[k] + (M[k + 1] - M[k]) * z / L;
    if (loaded != k) return hang;
    return hang + (a < z ? a * (L - z) / L : z * (L - a) / L);
}

/* Reaction of support j under a unit load at x: shears of both sides. */
static inline double beam_reaction(const Beam *beam, int j, double x)
{
    double M[BEAM_SPANS + 1], a = x, R = 0;
    beam_support_moments(beam, x, M);
    const int loaded = beam_span_at(beam, &a);
    if (j > 0) {
        R += (M[j - 1] - M[j]) / beam->length[j - 1];
        if (loaded == j - 1) R += a / beam->length[j - 1];
    }
    if (j < beam->spans) {
        R += (M[j + 1] - M[j]) / beam->length[j];
        if (loaded == j) R += 1 - a / beam->length[j];
    }
    return R;
}

#endif
