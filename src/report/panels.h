/* Private to the files of the panels' report. */
#ifndef CLENCH_REPORT_PANELS_H
#define CLENCH_REPORT_PANELS_H

#include "document.h"

/* "9.50", "41.2": in the unit people see; said: with it. */
const char *panels_number(const Report *r, double value_SI, DimensionId dimension, int places);
const char *panels_head(const Report *r, const char *name, DimensionId dimension);
const char *panels_said(const Report *r, double value_SI, DimensionId dimension, int places);
const char *panels_day(const Report *r, double day); /* "-42.6", "90" */
const char *panels_minutes(const Report *r, double time_day);
const char *panels_volume(const Report *r, double volume_m3); /* "0.42 ft3 (3.1 gal)", "12 l" */
const char *panels_choice(PanelChoice choice);                /* "least panels" */

void panels_kinds(Report *r, const PanelSource *p);
void panels_layout(Report *r, const PanelSource *p);
void panels_schedule(Report *r, const PanelSource *p);
void panels_casting(Report *r, const PanelSource *p);
void panels_lifting(Report *r, const PanelSource *p);
void panels_workings(Report *r, const PanelSource *p); /* of lifting */
void panels_closing(Report *r, const PanelSource *p);
/* The heaviest kind; the kind whose lift comes nearest to its limit. */
const PanelPiece *panels_heaviest(const PanelPlan *plan);
const PanelLiftAnswer *panels_worst(const PanelSource *p, PanelLift lift);
bool panels_lift_met(const PanelLiftAnswer *lift);

#endif
