/* Private to the files of the jacking day in report. */
#ifndef CLENCH_REPORT_SITE_H
#define CLENCH_REPORT_SITE_H

#include "jacking.h"

void site_built(Report *r, const SiteSource *source); /* what the readings tell */
void site_force(Report *r, const SiteSource *source); /* where its interval comes from */
void site_life_add(Report *r, const SiteSource *source);
/* "3880 kip (3720 to 4040) once deck and girders are alike warm". */
const char *site_force_words(const Report *r, const SiteSource *source);

#endif
