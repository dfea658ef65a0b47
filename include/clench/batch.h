/* batch: many runs on all processors of one machine. The answer does not depend on the number of threads: each
 * run is known by its index, and writes to its own place. */
#ifndef CLENCH_BATCH_H
#define CLENCH_BATCH_H

#include "clench/odds.h"

enum { BATCH_THREADS_MAX = 256 };

typedef struct BatchWish {
    int threads; /* 0: one a processor that this process may use */
    /* Called by the thread that called, about four times a second and at the end; true: stop. May be NULL. */
    bool (*progress)(void *with, uint32_t done, uint32_t total);
    void *with;
} BatchWish;

/* All lives of a study: life[lives], open_day[lives * joint_count]. *stopped: `progress` asked to stop, and
 * not all are there. Errors: IO where no thread can be started. */
MUST_USE Status batch_lives(const OddsStudy *study, const BatchWish *wish, OddsLife *life,
                            float *open_day, bool *stopped, Error *err);
/* Processors that this process may use. */
int batch_processors(void);

#endif
