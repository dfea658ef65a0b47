/* What stands of the bridge at a time. Private to figure. */
#ifndef CLENCH_FIGURE_PIECES_H
#define CLENCH_FIGURE_PIECES_H

#include "clench/figure.h"

typedef struct DeckPiece {
    int from, to;    /* stations */
    FigureRole role; /* PANEL, ANCHOR or CLOSURE; PLACED: lies there, carries nothing */
    const char *title;
    int joint; /* the joint nearest to its middle; -1: none */
} DeckPiece;
/* From joint to joint, what is there at that time; returns their number. */
int pieces_find(const LineAnswer *line, int time, Arena *arena, DeckPiece **piece);

int piece_link_state(const LineAnswer *line, int time, int station); /* LinkMode */
int piece_joint_near(const BridgeLine *line, double x_m);            /* -1: no joint */
/* The girder's and the deck's beam in an element at that time, -1: none. */
int piece_girder(const LineAnswer *line, int time, int element);
int piece_deck(const LineAnswer *line, int time, int element);

/* What the jacks of a gap do at a time. */
typedef enum GapStand { GAP_OPEN, GAP_JACKED, GAP_LOCKED, GAP_CLOSED } GapStand;
GapStand piece_gap(const LineAnswer *line, int time, int gap);
double piece_gap_force_N(const LineAnswer *line, int time, int gap);

#endif
