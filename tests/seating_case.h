/* A bridge whose seats can be worked by hand, and its survey. */
#ifndef CLENCH_TESTS_SEATING_CASE_H
#define CLENCH_TESTS_SEATING_CASE_H

#include "bridge_file.h"
#include "clench/seating.h"

static inline double inch(double value) { return value * 0.0254; }
static inline double foot(double value) { return value * 0.3048; }

/* One span of 230 ft on two plate girders 24 ft apart, time_model elastic, shims rigid and without
 * friction; panels of 10 ft, anchors of 12 ft, a gap of 6 ft in the middle. */
extern const char seat_span[];

typedef struct SeatCase {
    BridgeFile file;
    Arena *arena, *scratch;
    const SeatPlan *plan; /* NULL: refused */
    Survey survey;
    Diagnostics found; /* of the survey */
    Error err;
} SeatCase;

/* `more` is put behind the bridge; errors of the survey are left in `found`. */
void seat_open(SeatCase *c, const char *more, const char *survey, double thrust_N, double day);
void seat_close(SeatCase *c);
/* A survey in feet of girders at x (ft from the left end) by a function of x and girder. */
char *seat_survey(Arena *arena, int girders, double length_ft, int parts,
                  double (*top_ft)(double x_ft, int girder));
/* The first error of the survey holds all these words. */
void seat_refused(const char *more, const char *survey, const char *words);
const Seat *seat_at(const SeatPlan *plan, const char *mark, int girder);

#endif
