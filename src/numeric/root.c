/* Root in a bracket: inverse quadratic or linear steps, halving where they do not pay. Brent,
 * Algorithms for Minimization without Derivatives, 1973, chapter 4 (from memory). */
#include "clench/numeric.h"

#include <assert.h>
#include <float.h>
#include <math.h>

/* `best` has the smallest value so far, the root lies between `best` and `other`, `last` is the
 * best of the step before. */
typedef struct Bracket {
    double best, other, last;
    double f_best, f_other, f_last;
    double step, step_before;
} Bracket;

static void put_bracket_in_order(Bracket *s)
{
    if ((s->f_best > 0) == (s->f_other > 0)) {
        s->other = s->last;
        s->f_other = s->f_last;
        s->step = s->step_before = s->best - s->last;
    }
    if (fabs(s->f_other) < fabs(s->f_best)) {
        s->last = s->best;
        s->best = s->other;
        s->other = s->last;
        s->f_last = s->f_best;
        s->f_best = s->f_other;
        s->f_other = s->f_last;
    }
}

/* The interpolated step is p/q. */
static void interpolate(const Bracket *s, double half, double *p, double *q)
{
    const double r = s->f_best / s->f_last;
    if (s->last == s->other) {
        *p = 2 * half * r;
        *q = 1 - r;
    } else {
        const double u = s->f_last / s->f_other, v = s->f_best / s->f_other;
        *p = r * (2 * half * u * (u - v) - (s->best - s->last) * (v - 1));
        *q = (u - 1) * (v - 1) * (r - 1);
    }
    if (*p > 0)
        *q = -*q;
    else
        *p = -*p;
}

static void choose_step(Bracket *s, double half, double least)
{
    double p = 0, q = 0;
    if (fabs(s->step_before) >= least && fabs(s->f_last) > fabs(s->f_best))
        interpolate(s, half, &p, &q);
    const bool pays =
        q != 0 && 2 * p < fmin(3 * half * q - fabs(least * q), fabs(s->step_before * q));
    s->step_before = pays ? s->step : half;
    s->step = pays ? p / q : half;
}

double root_between(double (*f)(double x, void *with), void *with, double a, double b,
                    double tolerance)
{
    enum { STEPS_MAX = 400 }; /* smooth functions take ten; this keeps wild ones finite */
    Bracket s = {b, a, a, f(b, with), f(a, with), 0, b - a, b - a};
    s.f_last = s.f_other;
    assert(s.f_best == 0 || s.f_other == 0 || (s.f_best > 0) != (s.f_other > 0));
    if (s.f_other == 0) return a;
    for (int i = 0; i < STEPS_MAX; i++) {
        put_bracket_in_order(&s);
        const double least = 2 * DBL_EPSILON * fabs(s.best) + 0.5 * tolerance;
        const double half = 0.5 * (s.other - s.best);
        if (s.f_best == 0 || fabs(half) <= least) break;
        choose_step(&s, half, least);
        s.last = s.best;
        s.f_last = s.f_best;
        s.best += fabs(s.step) > least ? s.step : copysign(least, half);
        s.f_best = f(s.best, with);
    }
    return s.best;
}
