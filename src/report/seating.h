/* Private to the files of the seats' report. */
#ifndef CLENCH_REPORT_SEATING_H
#define CLENCH_REPORT_SEATING_H

#include "document.h"

/* "52.50": in feet or metres; elevations with three digits. */
const char *seating_along(const Report *r, double length_m);
const char *seating_level(const Report *r, double level_m);
/* "1.25", "32": in inches or millimetres; with its sign: "+0.31". */
const char *seating_small(const Report *r, double length_m);
const char *seating_moved(const Report *r, double length_m);
/* "2 7/16", "62": a whole number of steps. */
const char *seating_shim(const Report *r, const SeatPlan *plan, double shim_m);
const char *seating_head(const Report *r, const char *name, bool small);
const char *seating_unit(const Report *r, bool small);         /* "in" or "mm"; "ft" or "m" */
const char *seating_volume(const Report *r, double volume_m3); /* "4.2 yd3" */
const char *seating_chance(const Report *r, double share_1);   /* "99.2 %", "> 99.9 %" */
const char *seating_place(const Report *r, const SeatPlan *plan, int place); /* "G2, R1-J04" */

void seating_shims(Report *r, const SeatPlan *plan);   /* every girder and line, for the crew */
void seating_girders(Report *r, const SeatPlan *plan); /* girder by girder, how each comes about */
void seating_moves(Report *r, const SeatPlan *plan);
void seating_panels(Report *r, const SeatPlan *plan); /* facets, wedges */

#endif
