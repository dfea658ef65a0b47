/* Private to compare: one way after the other. */
#ifndef CLENCH_COMPARE_WORK_H
#define CLENCH_COMPARE_WORK_H

#include "clench/compare.h"

typedef struct CompareWork {
    const Bridge *bridge;
    const ThrustAnswer *thrust;
    const CompareAnswer *answer; /* its place is set */
    Arena *result, *scratch;
} CompareWork;

/* Lines of a way, followed and judged; `only` a line alone (the others stay empty), -1 all. */
MUST_USE Status way_follow(CompareWork *work, const WayWish *wish, int only, Arena *into,
                           WayLine **line, int *count, Error *err);
/* tendons.c: the number of tendons, 0 < count; `enough`: they keep the joints of that line closed. */
MUST_USE Status way_tendons_find(CompareWork *work, WayAnswer *way, Error *err);
/* look.c: what is read off the histories. */
void way_look(const CompareWork *work, WayAnswer *way);

/* quantities.c: of the whole bridge, the tendons as found. */
MUST_USE Status way_quantities(const CompareWork *work, const WayQuantities **out, Error *err);

#endif
