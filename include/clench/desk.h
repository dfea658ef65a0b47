/* desk: a bridge as it is being looked at. Opened once from a packed tree; then every thrust that is asked
 * for gives a prediction at once (two histories a line, blended: stress is affine in the thrust while
 * contact and slip keep their pattern) or a full run, and pictures, tables and JSON of what is seen.
 * No I/O: the page's worker stands before it, or a test. */
#ifndef CLENCH_DESK_H
#define CLENCH_DESK_H

#include "clench/report.h"

typedef struct Desk Desk;
/* Histories live in arenas of `room_bytes` each. */
Desk *desk_create(size_t room_bytes);
void desk_free(Desk *desk); /* NULL is allowed */

typedef enum DeskUnits { DESK_UNITS_FILE, DESK_UNITS_US, DESK_UNITS_SI } DeskUnits;
/* Reads a packed tree (node_pack), finds need and window, keeps what looks need. The desk then shows the
 * needed thrust, by a full run. Errors of the schema are in `list`, then err->text is empty; all others
 * are in err; TOO_LARGE: the histories have no room. After an error the desk is empty: nothing else may
 * be asked of it. */
MUST_USE Status desk_open(Desk *desk, const char *bytes, size_t size, DeskUnits units,
                          Diagnostics *list, Error *err);
bool desk_is_open(const Desk *desk);
/* Need, window, lines, joints, times, pictures and values as JSON. */
void desk_facts(const Desk *desk, Text *text);

/* Shows a thrust of the whole deck: predicted, or with `full` by a run. BAD_INPUT: not a thrust; others
 * are those of the stages. After an error what was shown before stays. */
MUST_USE Status desk_look(Desk *desk, double whole_N, bool full, Error *err);
/* What is shown, as JSON, with a sentence. */
void desk_seen(const Desk *desk, Text *text);
/* How far the prediction at the shown thrust is from a full run at it: largest difference of a deck
 * stress at a joint in service, over the average stress of the thrust. Only after a full look. */
double desk_prediction_error_1(const Desk *desk);

/* A line, a time of its history, a joint of it (-1: the one that governs). */
typedef struct DeskPlace {
    int line, time, joint;
} DeskPlace;
/* `kind`: index of figure_page. BAD_INPUT where an index is out of range or a width is none. */
MUST_USE Status desk_picture(Desk *desk, int kind, DeskPlace place, double width_px, Text *svg,
                             Error *err);
/* The data behind the picture as CSV (RFC 4180), units in the heads. */
MUST_USE Status desk_table(Desk *desk, int kind, DeskPlace place, Text *csv, Error *err);

/* Of the last full look: report_thrust_json. Checks are the server's: they would make the page's engine
 * half as large again. */
void desk_json(const Desk *desk, Text *text);

#endif
