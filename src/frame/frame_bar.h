/* Private to frame: the strain rows of a bar. */
#ifndef CLENCH_FRAME_BAR_H
#define CLENCH_FRAME_BAR_H

#include "clench/frame.h"

void bar_rows(const BarPlace *place, double B[3][6]);
int bar_unknown(const BarPlace *place, int k); /* k-th of its six unknowns */

#endif
