#include "model.h"

#include <math.h>

double european_fcm_MPa(const ConcreteMix *mix)
{
    if (mix->fcm_Pa > 0) return mix->fcm_Pa / MPA_Pa;
    return mix->fc28_Pa / MPA_Pa + 8; /* EN 1992-1-1 Table 3.1, MC 2010 (5.1-1) */
}

double european_growth_1(double s_1, double age_day) { return exp(s_1 * (1 - sqrt(28 / age_day))); }

/* fck(t) = fcm(t) - 8 MPa before 28 days, fck from then on: EN 1992-1-1, 3.1.2(5). The 8 MPa are
 * fcm - fck of the mix. Below three days, where the standard asks for tests, the difference may
 * leave nothing: then half the mean strength (common practice, no source). */
double european_strength_Pa(const ConcreteMix *mix, double growth_1)
{
    const double fcm = european_fcm_MPa(mix) * MPA_Pa, fck = mix->fc28_Pa;
    const double fcm_t = growth_1 * fcm;
    return fmin(fck, fmax(fcm_t - (fcm - fck), 0.5 * fcm_t));
}

double european_loading_day(CementClass cement, double loaded_age_day)
{
    if (cement == CEMENT_NORMAL) return fmax(loaded_age_day, 0.5); /* alpha = 0 */
    const double slower = 9 / (2 + pow(loaded_age_day, 1.2)) + 1;
    const double t0 = cement == CEMENT_RAPID ? loaded_age_day * slower : loaded_age_day / slower;
    return fmax(t0, 0.5);
}
