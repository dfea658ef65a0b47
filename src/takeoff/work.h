/* The list of quantities while it is made. Private to takeoff. */
#ifndef CLENCH_TAKEOFF_WORK_H
#define CLENCH_TAKEOFF_WORK_H

#include "clench/takeoff.h"

typedef struct TakeoffWork {
    const Bridge *bridge;
    Arena *arena;
    const PanelPlan *plan;
    const BridgeGirder *girder;
    int girder_count;
    Takeoff *out;
    TakeoffItem *item; /* the one being filled */
    TakeoffLine *line;
    int line_room, note_room;
    const char **note;
    int run; /* the run being looked at */
} TakeoffWork;

/* One row of the table of items; `add` puts in the lines of the run that is looked at. */
typedef struct TakeoffRow {
    TakeoffGroup group;
    const char *name, *purpose;
    DimensionId dimension;
    const char *unit[2];
    TakeoffInputId waste, weight;
    void (*add)(TakeoffWork *work);
} TakeoffRow;

extern const TakeoffRow takeoff_precast[], takeoff_site[];
extern const int takeoff_precast_count, takeoff_site_count;

/* Value of an input by path in SI; NAN where it is left open. */
double work_value(const TakeoffWork *work, const char *path);
int work_count(const TakeoffWork *work, const char *path);
const char *work_text(const TakeoffWork *work, const char *path);
/* "deck.width, default": the place of a value. */
const char *work_from(const TakeoffWork *work, const char *path);
/* Nothing can be counted: the reason. */
void work_open(TakeoffWork *work, const char *why);
/* The item's name with more behind it: "transverse top bars, No. 5". */
void work_name(TakeoffWork *work, const char *more);
TakeoffLine *work_line(TakeoffWork *work, const char *what, const char *from);
void work_times(TakeoffLine *line, const char *name, DimensionId dimension, double value_SI);
void work_times_input(const TakeoffWork *work, TakeoffLine *line, const char *name,
                      TakeoffInputId input);
const PanelRun *work_run(const TakeoffWork *work);
/* Pieces of the run of one kind, anchor panels or others. */
int work_pieces(const TakeoffWork *work, int kind);
double work_mean_thickness_m(const PanelPiece *piece);
/* Bars by their area: "No. 5", "16 mm", or "" of another size. */
const char *work_bar_name(double area_m2);
void work_note(TakeoffWork *work, const char *note);

#endif
