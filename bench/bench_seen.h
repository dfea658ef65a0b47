/* Private to bench: time spent in functions of the engine, seen through the linker. */
#ifndef CLENCH_BENCH_SEEN_H
#define CLENCH_BENCH_SEEN_H

#include <stddef.h>

/* Every function that is watched: id, name as linked. Those of `thrust` call those of `stages`,
 * these `frame`, this the band kernels. */
#define SEEN_LIST(X)                    \
    X(TRIAL_BASE, "trial_base")         \
    X(TRIAL_RUN, "trial_run")           \
    X(STEP, "stage_step")               \
    X(LOADS, "loads_at")                \
    X(RULES, "rules_judge")             \
    X(LIMITS, "limits_judge")           \
    X(FRAME_FACTOR, "frame_factor")     \
    X(FRAME_SOLVE, "frame_solve")       \
    X(BAND_FACTOR, "band_factor")       \
    X(BAND_SOLVE, "band_solve")         \
    X(BAND_LU_FACTOR, "band_lu_factor") \
    X(BAND_LU_SOLVE, "band_lu_solve")

typedef enum Seen {
#define X(id, name) SEEN_##id,
    SEEN_LIST(X)
#undef X
        SEEN_COUNT
} Seen;

extern double seen_seconds[SEEN_COUNT];
extern long seen_calls[SEEN_COUNT];
extern size_t seen_peak_bytes; /* peaks of the arenas freed since it was set to 0 */

const char *seen_name(int seen);
double seen_clock(void); /* unit: s */
void seen_start(void);   /* sets all to 0 and watches until seen_stop */
void seen_stop(void);
/* Band kernels of n unknowns, ours and LAPACK's where it was found, printed. */
void seen_kernels(int n);

#endif
