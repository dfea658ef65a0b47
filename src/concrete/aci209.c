#include "model.h"

#include <math.h>

/* ACI 209R-92, chapter 2: moist-cured concrete, volume-to-surface form of the size factors.
 * Equations from memory, checked by the worked figures in the tests. psi, pcf, inch, per cent, day. */

double aci_growth_1(const ConcreteMix *mix, double age_day)
{
    return age_day / (mix->strength_alpha_day + mix->strength_beta_1 * age_day); /* 2-1 */
}

static double strength_Pa(const ConcreteMix *mix, double age_day)
{
    return aci_growth_1(mix, age_day) * mix->fc28_Pa;
}

static double modulus_Pa(const ConcreteMix *mix, double age_day)
{
    const double w = mix->weight_N_per_m3 / PCF_N_per_m3;
    const double fc = strength_Pa(mix, age_day) / PSI_Pa;
    return 33 * w * sqrt(w) * sqrt(fc) * PSI_Pa; /* 2-5 */
}

static void creep_1(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                    int count, double *creep)
{
    const double VS = mix->volume_to_surface_m / IN_m, RH = mix->humidity_ratio * 100;
    const double age = 1.25 * pow(loaded_age_day, -0.118);      /* 2-11 */
    const double humidity = 1.27 - 0.0067 * RH;                 /* 2-14, meant for RH > 40 */
    const double size = 2.0 / 3 * (1 + 1.13 * exp(-0.54 * VS)); /* 2-21 */
    const double ultimate = 2.35 * age * humidity * size * mix->aci_creep_mix_1;
    for (int i = 0; i < count; i++) {
        const double t06 = pow(delay_day[i], 0.60);
        creep[i] = ultimate * t06 / (10 + t06); /* 2-8 */
    }
}

/* 2-15, 2-16; meant for RH >= 40. At 80 % the two lines are 0.584 and 0.600, as printed. */
static double shrinkage_humidity_1(double RH)
{
    return RH <= 80 ? 1.40 - 0.0102 * RH : 3.00 - 0.030 * RH;
}

/* Table 2.5.3: shrinkage by days of moist curing, linear between (2.5.3). From memory. */
static double curing_1(double days)
{
    static const double day[] = {1, 3, 7, 14, 28, 90};
    static const double factor[] = {1.2, 1.1, 1.0, 0.93, 0.86, 0.75};
    if (days <= day[0]) return factor[0];
    for (int i = 1; i < 6; i++)
        if (days <= day[i])
            return factor[i - 1] +
                   (factor[i] - factor[i - 1]) * (days - day[i - 1]) / (day[i] - day[i - 1]);
    return factor[5];
}

static double shrinkage_1(const ConcreteMix *mix, double age_day)
{
    const double t = age_day - mix->cure_end_age_day;
    if (t <= 0) return 0;
    const double VS = mix->volume_to_surface_m / IN_m;
    const double size = 1.2 * exp(-0.12 * VS); /* 2-22 */
    const double ultimate = 780e-6 * curing_1(mix->cure_end_age_day) * size *
                            shrinkage_humidity_1(mix->humidity_ratio * 100) *
                            mix->aci_shrinkage_mix_1;
    return -ultimate * t / (35 + t); /* 2-9 */
}

const ModelRow model_aci209 = {strength_Pa, modulus_Pa, creep_1, NULL, shrinkage_1};
