/* Private to the files of the jacking plan in report. */
#ifndef CLENCH_REPORT_JACKING_H
#define CLENCH_REPORT_JACKING_H

#include "document.h"

const char *jacking_force(const Report *r, double force_N); /* "3900" */
const char *jacking_pressure(const Report *r, double pressure_Pa);
const char *jacking_move(const Report *r, double move_m);      /* "2.481" */
const char *jacking_minutes(const Report *r, double time_day); /* "15 min", "2 h 10 min" */
const char *jacking_percent(const Report *r, double share_1);  /* "60 %" */
const char *jacking_head(const Report *r, const char *name, const char *unit);
const char *jacking_force_unit(const Report *r);
const char *jacking_pressure_unit(const Report *r);
const char *jacking_move_unit(const Report *r);
/* "0.125 in" and "3900 kip" in running text. */
const char *jacking_said_move(const Report *r, double move_m);
const char *jacking_said_force(const Report *r, double force_N);
const char *jacking_said_kelvin(const Report *r, double difference_K); /* "5 °F" */

extern const char jacking_caution[]; /* what jacking is, and that nobody is replaced */

/* Chapters; each is for one plan. */
void jacking_steps(Report *r, const JackPlan *plan);   /* what gauge and gap should read */
void jacking_band(Report *r, const JackPlan *plan);    /* where the band comes from */
void jacking_watched(Report *r, const JackPlan *plan); /* faces, anchors, girders, bearings */
void jacking_alarms(Report *r, const JackPlan *plan);
void jacking_holds(Report *r, const JackPlan *plan); /* holds, temperature */
void jacking_shut_off(Report *r, const JackPlan *plan);
void jacking_back(Report *r, const JackPlan *plan); /* the way back */
void jacking_margins(Report *r, const JackPlan *plan);
void jacking_before(Report *r, const JackPlan *plan); /* before the pump runs */
void jacking_blanks(Report *r, const JackPlan *plan); /* to write on */

#endif
