/* How sure a counted share is. */
#include <math.h>

#include "clench/numeric.h"

/* Continued fraction of the incomplete beta function, by Lentz's method (Press et al., Numerical
 * Recipes, 6.4). */
static double beta_fraction(double x, double a, double b)
{
    const double tiny = 1e-300;
    double c = 1, d = 1 - (a + b) * x / (a + 1);
    if (fabs(d) < tiny) d = tiny;
    d = 1 / d;
    double h = d;
    for (int m = 1; m < 10000; m++) {
        const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
        const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
        double change = 1;
        for (int half = 0; half < 2; half++) {
            const double step = half ? odd : even;
            d = 1 + step * d;
            c = 1 + step / c;
            if (fabs(d) < tiny) d = tiny;
            if (fabs(c) < tiny) c = tiny;
            d = 1 / d;
            change = d * c;
            h *= change;
        }
        if (fabs(change - 1) < 1e-15) break;
    }
    return h;
}

double beta_share(double x_1, double a_1, double b_1)
{
    if (x_1 <= 0) return 0;
    if (x_1 >= 1) return 1;
    const double front =
        exp(lgamma(a_1 + b_1) - lgamma(a_1) - lgamma(b_1) + a_1 * log(x_1) + b_1 * log1p(-x_1));
    if (x_1 < (a_1 + 1) / (a_1 + b_1 + 2)) return front * beta_fraction(x_1, a_1, b_1) / a_1;
    return 1 - front * beta_fraction(1 - x_1, b_1, a_1) / b_1;
}

typedef struct Beta {
    double a, b, share;
} Beta;

static double beta_off(double x, void *with)
{
    const Beta *beta = with;
    return beta_share(x, beta->a, beta->b) - beta->share;
}

void share_interval(int hits, int count, double sure_1, double *low_1, double *high_1)
{
    const double tail = (1 - sure_1) / 2;
    Beta low = {hits, count - hits + 1, tail}, high = {hits + 1, count - hits, 1 - tail};
    *low_1 = hits > 0 ? root_between(beta_off, &low, 0, 1, 1e-15) : 0;
    *high_1 = hits < count ? root_between(beta_off, &high, 0, 1, 1e-15) : 1;
}

/* Values below the quantile are a binomial count. P(count <= k) = I_{1-share}(n - k, k + 1). */
void quantile_interval(int count, double share_1, double sure_1, int *low, int *high)
{
    const double tail = (1 - sure_1) / 2;
    int most = -1; /* largest k with P(below <= k) <= tail */
    while (most + 1 < count && beta_share(1 - share_1, count - most - 1, most + 2) <= tail) most++;
    int least = most < 0 ? 0 : most; /* smallest k with P(below <= k) >= 1 - tail */
    while (least < count && beta_share(1 - share_1, count - least, least + 1) < 1 - tail) least++;
    *low = most;
    *high = least; /* x[low] <= quantile <= x[high], from 0; high == count: none */
}
