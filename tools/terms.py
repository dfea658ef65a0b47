#!/usr/bin/env python3
"""Writes src/concrete/terms_table.h: the fixed linear map from samples of a creep law to the
weights of decaying terms.

    tools/terms.py            writes the table
    tools/terms.py --check    compares the table with a fresh one, to 1e-6 of its largest entry

A creep law f(d), d days under load, is sampled at `samples` and fitted by
    f(d) = sum_m a_m (1 - exp(-d / tau_m)),   a = argmin sum_k (f(d_k) - fit(d_k))^2,
so that a = W f with one matrix W for every law, mix and age. Householder least squares, standard
library alone. The first retardation time, far below the first sample, takes what a steep law (a
power near 0.3) has crept before 0.01 day; the last ones what a logarithm has not crept yet.
The choice below was the best of some hundred (number, ends, samples) over the laws of all models:
off by at most 1.4e-4 of the creep at 30,000 days, the weights summing in size to at most 1.6 times
it (tests/test_concrete_time.c).
"""
import math
import os
import re
import sys

TABLE = os.path.join(os.path.dirname(__file__), "..", "src", "concrete", "terms_table.h")
TERMS, SAMPLES = 20, 32
FAST = -3.5  # log10 of the first retardation time, day
LOW, HIGH = -2.2, 5.0  # log10 of the others
FROM, TO = -2.0, 5.0  # log10 of the sample delays, day


def retardation_days():
    step = (HIGH - LOW) / (TERMS - 2)
    return [10**FAST] + [10 ** (LOW + step * m) for m in range(TERMS - 1)]


def sample_days():
    """Half even in the logarithm, half Chebyshev: closer together near the ends."""
    days = []
    for k in range(SAMPLES):
        even = 2 * k / (SAMPLES - 1) - 1
        place = (even - math.cos(math.pi * k / (SAMPLES - 1))) / 2
        days.append(10 ** (FROM + (TO - FROM) * (place + 1) / 2))
    return days


def least_squares_map(A):
    """W with W f = argmin |A a - f|, by Householder reflections."""
    rows, columns = len(A), len(A[0])
    A = [row[:] for row in A]
    B = [[float(i == j) for j in range(rows)] for i in range(rows)]
    for j in range(columns):
        norm = math.sqrt(sum(A[i][j] ** 2 for i in range(j, rows)))
        v = [A[i][j] for i in range(j, rows)]
        v[0] += math.copysign(norm, v[0])
        vv = sum(x * x for x in v)
        for M, first in ((A, j), (B, 0)):
            for c in range(first, len(M[0])):
                d = 2 * sum(v[i] * M[j + i][c] for i in range(rows - j)) / vv
                for i in range(rows - j):
                    M[j + i][c] -= d * v[i]
    W = [[0.0] * rows for _ in range(columns)]
    for c in range(rows):
        for j in reversed(range(columns)):
            known = sum(A[j][k] * W[k][c] for k in range(j + 1, columns))
            W[j][c] = (B[j][c] - known) / A[j][j]
    return W


def rows_of(numbers, indent):
    lines = []
    for start in range(0, len(numbers), 5):
        lines.append(indent + ", ".join("%.9e" % x for x in numbers[start : start + 5]) + ",")
    return "\n".join(lines)


def table_text():
    tau, days = retardation_days(), sample_days()
    W = least_squares_map([[1 - math.exp(-d / t) for t in tau] for d in days])
    text = "/* Written by tools/terms.py, which says how; do not edit. */\n/* clang-format off */\n"
    text += "enum { TERM_SAMPLES = %d };\n" % SAMPLES
    text += "const double concrete_term_day[CONCRETE_TERMS] = {\n%s\n};\n" % rows_of(tau, "    ")
    text += "static const double sample_day[TERM_SAMPLES] = {\n%s\n};\n" % rows_of(days, "    ")
    text += "static const double sample_weight[CONCRETE_TERMS][TERM_SAMPLES] = {\n"
    for row in W:
        text += "    {\n%s\n    },\n" % rows_of(row, "        ")
    return text + "};\n/* clang-format on */\n"


def numbers_of(text):
    return [float(x) for x in re.findall(r"-?\d\.\d+e[+-]\d+", text)]


def main():
    fresh = table_text()
    if sys.argv[1:] == ["--check"]:
        with open(TABLE) as file:
            old, new = numbers_of(file.read()), numbers_of(fresh)
        large = max(abs(x) for row in [new[TERMS + SAMPLES :]] for x in row)
        same = len(old) == len(new) and all(
            abs(a - b) <= 1e-6 * max(large, abs(b)) for a, b in zip(old, new)
        )
        sys.exit(0 if same else "terms_table.h is not what tools/terms.py writes")
    with open(TABLE, "w") as file:
        file.write(fresh)


if __name__ == "__main__":
    main()
