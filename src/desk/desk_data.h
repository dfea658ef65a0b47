/* Private to desk: what lies on it. */
#ifndef CLENCH_DESK_DATA_H
#define CLENCH_DESK_DATA_H

#include "clench/desk.h"

/* A history between two others of the same line: rows of time are laid through them when they are asked
 * for, in arrays that every look uses again. */
typedef struct Blend {
    const StageHistory *a, *b;
    double share_1;       /* 0: a, 1: b */
    int first;            /* time index of the first jacking: before it a and b are one */
    StageHistory history; /* views of the arrays below */
    PartForce *force;
    double *gape_1, *gap_force_N, *gap_opening_m, *reaction_N, *reaction_x_N;
    LinkState *link;
    NodeMove *move;
    CauseForce *cause;
    bool *laid, *caused; /* [time] for this share */
} Blend;
void blend_make(Blend *blend, const StageHistory *a, const StageHistory *b, Arena *arena);
void blend_share(Blend *blend, double share_1); /* no row is laid yet */
void blend_row(Blend *blend, int time, bool causes);
size_t blend_bytes(const StageHistory *history);

typedef struct DeskLine {
    const ThrustStart *start;
    JointLoad *open, *end; /* between the two, where the loads hang on the thrust; else NULL */
    FibreStress *joint;    /* between them, of the prediction */
    Blend blend;
    double move_m; /* largest movement of the girder, at the need */
    JointsStanding standing;
} DeskLine;

struct Desk {
    Arena *home; /* of the desk itself */
    size_t room_bytes;
    Arena *kept, *looked, *spare, *scratch, *drawn;
    bool open;
    ReportSource source;               /* answer: that of the last full look */
    const ThrustAnswer *found, *other; /* at the need, and at another thrust */
    ThrustAnswer *predicted;           /* between them */
    const ThrustAnswer *shown;         /* predicted, or source.answer */
    DeskLine line[LINES_MAX];
};

/* "interior line", with its unit where there are several. */
const char *desk_line_name(const Desk *desk, int line, Arena *arena);
/* "every joint stays closed ...": the status line. */
const char *desk_sentence(const Desk *desk, Arena *arena);
/* The line whose joint is nearest to opening; -1: no rule counts. */
int desk_worst_line(const Desk *desk);

#endif
