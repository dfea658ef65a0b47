/* Private to checks: the moments of a line's cross-sections by what brings them. */
#ifndef CLENCH_CHECKS_MOMENTS_H
#define CLENCH_CHECKS_MOMENTS_H

#include "kit.h"

/* Event to which a time belongs: steps before the last of an event carry no name of their own. NULL: the
 * end of an interval. */
const Event *moments_event(const StageHistory *history, int time);
const KitMoment *moments_share(const CheckCase *with, const KitLine *k);

#endif
