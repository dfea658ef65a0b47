/* Private to checks: the rectangular stress block of concrete, AASHTO LRFD 5.6.2.2. */
#ifndef CLENCH_CHECKS_BLOCK_H
#define CLENCH_CHECKS_BLOCK_H

#include "kit.h"

double block_stress_1(double fc_Pa); /* stress of the block over f'c */
double block_depth_1(double fc_Pa);  /* its depth over that of the neutral axis */
/* The same into a sheet: a_1, and b_1 where `depth` is set, from f'k, the strength in ksi. */
void block_give(Sheet *sheet, double fc_Pa, bool depth);

#endif
