#include "clench/concrete.h"

#include <assert.h>
#include <math.h>

/* Intrinsic relaxation of low-relaxation strand: f/45 (f/fpy - 0.55) log10(24 t), the form behind
 * AASHTO LRFD 5.9.3.4.2c, in increments since the stress changes. From memory. */
double strand_relaxation_Pa(double f_Pa, double fpy_Pa, double from_day, double to_day)
{
    assert(fpy_Pa > 0 && from_day >= 0 && to_day >= from_day);
    const double excess = f_Pa / fpy_Pa - 0.55;
    if (f_Pa <= 0 || excess <= 0) return 0;
    const double hour = 1.0 / 24;
    return f_Pa / 45 * excess * log10(fmax(to_day, hour) / fmax(from_day, hour));
}
