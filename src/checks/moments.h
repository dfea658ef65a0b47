/* Private to checks: the moments of a line's cross-sections by what brings them. */
#ifndef CLENCH_CHECKS_MOMENTS_H
#define CLENCH_CHECKS_MOMENTS_H

#include "kit.h"

const KitMoment *moments_share(const CheckCase *with, const KitLine *k);

#endif
