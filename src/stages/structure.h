/* Private to stages: the factored structure of one moment. */
#ifndef CLENCH_STAGES_STRUCTURE_H
#define CLENCH_STAGES_STRUCTURE_H

#include "clench/frame.h"
#include "clench/stages.h"

struct StageStructure {
    const StageHistory *history;
    int time;
    double day;
    Frame *frame;
    const unsigned char *alive;
    const PartForce *force;
    BarPlace *place;      /* [part] */
    double *E_Pa;         /* [part], secant; 0: does not carry */
    const double *gape_1; /* [part], NULL: no compression-only part */
    unsigned char *there; /* [2 * station + chain]: the node exists */
    bool *supported;      /* [support] */
};

/* Nodal loads of a uniform load on all spans, on the deck where there is one. */
void structure_load(const StageStructure *s, double live_N_per_m, double *right);

#endif
