/* Private to stages: a history under construction. */
#ifndef CLENCH_STAGES_RECORD_H
#define CLENCH_STAGES_RECORD_H

#include "march.h"

typedef struct Record {
    StageHistory history;
    double *day, *gape, *gap_force, *gap_opening, *reaction,
        *reaction_x; /* unit: as in the history */
    int *event;
    PartForce *force;
    CauseForce *cause;
    unsigned char *alive;
    LinkState *link;
    NodeMove *move;
} Record;

Record *record_new(const StageModel *model, int times, bool causes, Arena *arena);
/* The first `times` times of another record of the same shape. */
void record_copy(Record *record, const Record *from, int times);
/* Row of causes at a time, begun as a copy of the one before; NULL where they are left out. */
CauseForce *record_causes(Record *record, int time);
void record_time(Record *record, const March *march, const Step *step, int time);

#endif
