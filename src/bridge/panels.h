/* The panels of a bridge while they are being listed. Private to panels*.c. */
#ifndef CLENCH_BRIDGE_PANELS_H
#define CLENCH_BRIDGE_PANELS_H

#include "layout.h"

typedef struct PanelWork {
    const Bridge *bridge;
    Arena *arena;
    Unit *unit;
    int unit_count;
    PanelPlan *plan;
    PanelPiece *piece;
    int *phase; /* of each piece */
    PanelLine *line;
    int line_count;
    int remark_room;
    const char **remark;
    bool *alarm;
} PanelWork;

double panels_skew_rad(const Bridge *bridge);
/* Casting, storage and closing; what has to be said. */
Status panels_add_yard(PanelWork *work, Error *err);
void panels_add_closing(PanelWork *work);
void panels_add_remarks(PanelWork *work);

#endif
