/* Bending of a deck along the bridge under wheels, solids in ccx 2.20. Moments per width are
 * those of the stress at top or soffit, over one wheel. Written by tools/oracle/wheel_ccx.py. */
#ifndef CLENCH_TESTS_WHEEL_ORACLE_H
#define CLENCH_TESTS_WHEEL_ORACLE_H

/* one bay, one wheel at its middle: span and thickness (in), moment at the soffit */
static const double wheel_ccx_strip[][3] = {
    {72, 8, 0.19369},
    {100, 8, 0.22418},
    {144, 8, 0.2583},
};

/* several bays, worst place of one truck or two beside each other, presence factor in: spacing,
 * overhang, thickness (in), moment at the soffit, opposite one */
static const double wheel_ccx_deck[][5] = {
    {72, 42, 8, 0.20331, 0.045239},  {96, 42, 8, 0.23594, 0.056934},
    {120, 42, 8, 0.26165, 0.067167}, {144, 42, 8, 0.29616, 0.080408},
    {96, 66, 8, 0.25705, 0.081666},
};

#endif
