/* Private to fit.c and locked.c: what is made of the readings on the way to what was built. */
#ifndef CLENCH_SITE_FIT_H
#define CLENCH_SITE_FIT_H

#include "look.h"

typedef struct Work {
    Look look;
    const JackPlan *plan;
    SiteFit *fit;
    Line line;          /* of the first loading, for openings at a force */
    double force_off_1; /* error of the gauge's force, of the cells' where they are read; 95 % */
    double cells_off_1; /* of the cells against the gauge, without the cells' own error */
} Work;

SiteValue fit_told(double value, double off, double plan);
SiteValue fit_untold(double plan, const char *why);
const JackStep *fit_whole(const JackPlan *plan);
/* Force that bore and seals of all jacks take at a force of the certificate's line; on the way back they hold
 * up to that much beside it. */
double fit_bore_N(const JackGear *gear, double force_N);
double fit_plan_loop_N(const JackPlan *plan, double force_N); /* NAN: the plan has none */
void fit_loop(Work *work);                                    /* locked.c */
void fit_locked(Work *work);

#endif
