/* Spread of a jack's force, plane stress in ccx 2.20; tensions over one jack. Written by
 * tools/oracle/jacks_ccx.py. */
#ifndef CLENCH_TESTS_JACKS_ORACLE_H
#define CLENCH_TESTS_JACKS_ORACLE_H

/* jacks in a row, free edges of the deck: plate over spacing, jacks, bursting, face between two */
static const double jacks_ccx_deck[][4] = {
    {0.1, 4, 0.2261, 0.08103}, {0.2, 4, 0.1855, 0.07935},  {0.35, 6, 0.1385, 0.07789},
    {0.5, 6, 0.1009, 0.06939}, {0.7, 6, 0.05769, 0.05161}, {0.8, 6, 0.03775, 0.03926},
};

/* over the depth: plate and distance from mid-depth over the depth, bursting */
static const double jacks_ccx_depth[][3] = {
    {0.3, 0, 0.172},        {0.5, 0, 0.1185},        {0.7, 0, 0.07042},     {0.8, 0, 0.04705},
    {0.6, 0.0625, 0.08867}, {0.75, 0.0625, 0.05441}, {0.6, 0.125, 0.07193}, {0.5, 0.125, 0.09731},
};

#endif
