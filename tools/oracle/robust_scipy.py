#!/usr/bin/python3
"""Oracle for src/numeric/robust.c and the fit of the site: scipy; writes tests/data/robust_oracle.h.

    /usr/bin/python3 tools/oracle/robust_scipy.py    needs python3-scipy, clang-format

Series: lines with normal errors, ties, wild values. Theil-Sen and its interval by
scipy.stats.theilslopes; Huber's fit by scipy.optimize.least_squares (loss "huber", its knee 1.345 times
the spread that the residuals have, found by fixed point), its covariance by numpy from the formula of
Huber 1973; quantiles by scipy.stats; intervals of counts by binomtest (Wilson).
"""
import pathlib
import subprocess

import numpy as np
from scipy import optimize, stats

OUT = pathlib.Path(__file__).resolve().parents[2] / "tests/data/robust_oracle.h"


def series():
    rng = np.random.default_rng(20260717)
    made = []
    for n, wild, step in ((7, 0, 0), (12, 1, 0), (24, 3, 0.05), (40, 8, 0.1), (64, 10, 0.25)):
        x = np.sort(rng.uniform(0.3, 7.1, n))
        if step:
            x = np.round(x / 0.5) * 0.5
        y = 0.37 + 1.83 * x + rng.normal(0, 0.11, n)
        y[rng.choice(n, wild, replace=False)] += rng.choice([-1, 1], wild) * rng.uniform(1, 9, wild)
        if step:
            y = np.round(y / step) * step
        made.append((x, y))
    return made


def huber(x, y):
    A = np.column_stack([np.ones_like(x), x])
    n, p = A.shape
    value = np.linalg.lstsq(A, y, rcond=None)[0]
    for _ in range(400):
        left = np.sort(np.abs(y - A @ value))[p:]
        s = np.median(left) / stats.norm.ppf(0.75)
        new = optimize.least_squares(lambda v: y - A @ v, value, loss="huber", f_scale=1.345 * s,
                                     xtol=1e-15, ftol=1e-15, gtol=1e-15).x
        done = np.max(np.abs(new - value)) < 1e-12
        value = new
        if done:
            break
    r = y - A @ value
    psi = np.clip(r / s, -1.345, 1.345)
    share = np.mean(np.abs(r / s) <= 1.345)
    K = 1 + p * (1 - share) / (n * share)
    cov = K**2 * s**2 * np.sum(psi**2) / (n - p) / share**2 * np.linalg.inv(A.T @ A)
    return value, s, np.sqrt(np.diag(cov))


def numbers(values):
    return "{" + ", ".join(repr(float(v)) for v in values) + "}"


def main():
    text = ["/* Robust lines and fits, quantiles, intervals of counts: scipy " + __import__("scipy").__version__ +
            ". Written by\n * tools/oracle/robust_scipy.py. */",
            "#ifndef CLENCH_TESTS_ROBUST_ORACLE_H", "#define CLENCH_TESTS_ROBUST_ORACLE_H", "",
            "typedef struct RobustCase {", "int n;", "double x[64], y[64];",
            "double slope, level, low, high; /* theilslopes, 0.95, joint */",
            "double huber_level, huber_slope, huber_spread, huber_level_off, huber_slope_off;",
            "double median, spread; /* of y */", "} RobustCase;",
            "static const RobustCase robust_case[] = {"]
    for x, y in series():
        t = stats.theilslopes(y, x, 0.95, method="joint")
        v, s, off = huber(x, y)
        mad = stats.median_abs_deviation(y, scale="normal")
        text.append("{%d, %s, %s, %s}," % (len(x), numbers(x), numbers(y), ", ".join(
            repr(float(k)) for k in (t[0], t[1], t[2], t[3], v[0], v[1], s, off[0], off[1], np.median(y), mad))))
    text += ["};", "", "/* share, degrees of freedom (0: normal), quantile */",
             "static const double robust_quantile[][3] = {"]
    for share in (0.001, 0.0321, 0.25, 0.6, 0.9, 0.975, 0.995):
        text.append("{%r, 0, %r}," % (share, float(stats.norm.ppf(share))))
        for v in (5, 9, 27, 120):
            text.append("{%r, %d, %r}," % (share, v, float(stats.t.ppf(share, v))))
    text += ["};", "", "/* events, trials, 95 % Wilson interval */", "static const double robust_wilson[][4] = {"]
    for k, n in ((0, 500), (3, 500), (17, 10000), (500, 500), (61, 300)):
        c = stats.binomtest(k, n).proportion_ci(0.95, "wilson")
        text.append("{%d, %d, %r, %r}," % (k, n, float(c.low), float(c.high)))
    text += ["};", "", "#endif", ""]
    OUT.write_text("\n".join(text))
    subprocess.run(["clang-format", "-i", str(OUT)], check=True)


main()
