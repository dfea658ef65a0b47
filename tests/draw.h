/* Numbers that look random and are the same in every run. */
#ifndef CLENCH_TESTS_DRAW_H
#define CLENCH_TESTS_DRAW_H

static unsigned seed;
static inline double draw(double from, double to) /* unit: of its bounds */
{
    seed = seed * 1664525u + 1013904223u;
    return from + (to - from) * (seed >> 8) / 16777216.0;
}

#endif
