/* Private to checks: what hangs on joints that stay closed under the fatigue truck. */
#ifndef CLENCH_CHECKS_DECOMPRESSION_H
#define CLENCH_CHECKS_DECOMPRESSION_H

#include "kit.h"

/* Every joint of the line stays pressed under permanent loads and Fatigue I. */
bool joints_stay_pressed(const CheckCase *with, const KitLine *k);

#endif
