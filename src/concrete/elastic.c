#include "model.h"

/* No time at all: strength and modulus of 28 days at every age. */

static double strength_Pa(const ConcreteMix *mix, double age_day)
{
    (void)age_day;
    return mix->fc28_Pa;
}

static double modulus_Pa(const ConcreteMix *mix, double age_day)
{
    (void)age_day;
    return aashto_modulus_Pa(mix, mix->fc28_Pa);
}

static void creep_1(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                    int count, double *creep)
{
    (void)mix, (void)loaded_age_day, (void)delay_day;
    for (int i = 0; i < count; i++) creep[i] = 0;
}

static double shrinkage_1(const ConcreteMix *mix, double age_day)
{
    (void)mix, (void)age_day;
    return 0;
}

const ModelRow model_elastic = {strength_Pa, modulus_Pa, creep_1, NULL, shrinkage_1};
