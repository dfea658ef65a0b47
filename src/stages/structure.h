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
    double *E_Pa;         /* [part], 0: does not carry */
    unsigned char *there; /* [2 * station + chain]: the node exists */
    bool *supported;      /* [support] */
};

#endif
