#!/usr/bin/env python3
"""Sobol points, incomplete beta ratios and Clopper-Pearson intervals of scipy for tests/test_sample.c.

tools/oracle/sample_scipy.py > tests/data/sample_oracle.h, then clang-format    (Debian's python3-scipy)
"""
import scipy
from scipy.special import betainc
from scipy.stats import beta, binom, qmc

print("/* Written by tools/oracle/sample_scipy.py with scipy", scipy.__version__, "*/")
print("static const uint32_t sobol_case[][17] = { /* index, then 16 variables times 2^32 */")
points = qmc.Sobol(16, scramble=False).random(4096)
for i in (0, 1, 2, 3, 7, 33, 63, 64, 1000, 4095):
    print("    {%s}," % ", ".join([str(i)] + ["%du" % round(v * 2**32) for v in points[i]]))
print("};")
print("static const double beta_case[][4] = { /* x, a, b, ratio */")
for x, a, b in ((0.3, 2, 5), (0.001, 0.5, 200), (0.9, 40, 3), (0.5, 1000, 1001), (0.012, 120, 9881), (1e-6, 1, 50), (0.999, 3, 0.7)):
    print("    {%r, %r, %r, %r}," % (x, a, b, float(betainc(a, b, x))))
print("};")
print("static const double interval_case[][5] = { /* hits, count, share that is sure, low, high */")
for k, n, sure in ((3, 100, 0.95), (0, 50, 0.95), (50, 50, 0.95), (7, 10, 0.9), (120, 10000, 0.95), (1, 100000, 0.99)):
    tail = (1 - sure) / 2
    low = float(beta.ppf(tail, k, n - k + 1)) if k else 0.0
    high = float(beta.ppf(1 - tail, k + 1, n - k)) if k < n else 1.0
    print("    {%d, %d, %r, %r, %r}," % (k, n, sure, low, high))
print("};")
print("static const int rank_case[][4] = { /* count, quantile in 1/1000, low, high: x[low] <= q <= x[high] from 0 */")
for n, p in ((100, 500), (1000, 900), (1000, 990), (200, 999), (10000, 995), (20, 50)):
    q = p / 1000
    low = max([k for k in range(-1, n) if k == -1 or binom.cdf(k, n, q) <= 0.025])
    high = min([k for k in range(0, n + 1) if binom.cdf(k, n, q) >= 0.975])
    print("    {%d, %d, %d, %d}," % (n, p, low, high))
print("};")
