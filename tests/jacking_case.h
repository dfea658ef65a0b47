/* A span of two steel girders whose jacking can be worked by hand. */
#ifndef CLENCH_TESTS_JACKING_CASE_H
#define CLENCH_TESTS_JACKING_CASE_H

#include "bridge_file.h"
#include "clench/jacking.h"

static inline double inch(double value) { return value * 0.0254; }
static inline double kip(double value) { return value * 4448.2216152605; }
static inline double ksi(double value) { return value * 6894757.293168361; }

/* Rigid shims without friction, stiff connectors, no creep: what is left is beams. `more` is put behind;
 * the thrust is 3072 kip of a deck of 40 ft by 8 in, panels on both sides of the gap 100 ft each. */
extern const char jacking_span[], jacking_rigid_shims[], jacking_8[];

typedef struct Case {
    BridgeFile file;
    Arena *arena, *scratch;
    const JackPlan *plan;
} Case;

void open_plan(Case *c, double thrust_N, const char *const part[], int parts);
void open_rigid(Case *c, const char *more);
void close_plan(Case *c);
const JackStep *whole(const JackPlan *plan);
const CheckRow *row_named(const JackPlan *plan, const char *name);

#endif
