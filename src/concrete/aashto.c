#include "model.h"

#include <math.h>

/* AASHTO LRFD 5.4.2.3 and 5.4.2.4; formulas from memory, checked by the worked figures in the
 * tests. ksi, kcf, inch, per cent, day. */

static double strength_Pa(const ConcreteMix *mix, double age_day)
{
    return aci_growth_1(mix, age_day) * mix->fc28_Pa;
}

double aashto_modulus_Pa(const ConcreteMix *mix, double strength_Pa)
{
    const double fc = strength_Pa / KSI_Pa;
    const double wc = mix->weight_N_per_m3 / PCF_N_per_m3 / 1000; /* kcf */
    const double Ec = mix->modulus_2005
                          ? 33000 * mix->K1_1 * wc * sqrt(wc) * sqrt(fc)  /* 5.4.2.4-1, to 2014 */
                          : 120000 * mix->K1_1 * wc * wc * pow(fc, 0.33); /* 5.4.2.4-1, 2015 on */
    return Ec * KSI_Pa;
}

static double modulus_Pa(const ConcreteMix *mix, double age_day)
{
    return aashto_modulus_Pa(mix, strength_Pa(mix, age_day));
}

static double first_strength_ksi(const ConcreteMix *mix)
{
    return (mix->fci_Pa > 0 ? mix->fci_Pa : 0.8 * mix->fc28_Pa) / KSI_Pa; /* 5.4.2.3.2 */
}

static double ks_1(const ConcreteMix *mix)
{
    const double VS = mix->volume_to_surface_m / IN_m;
    return fmax(1.45 - 0.13 * VS, 1.0); /* 5.4.2.3.2-2 */
}

/* c of ktd = t / (c + t), 5.4.2.3.2-5. The article holds to f'c = 15 ksi; beyond that c keeps the
 * value of 15 ksi, since the older form turns negative at 15.25. */
static double half_time_2015_day(double fci_ksi)
{
    const double fci = fmin(fci_ksi, 15);
    return 12 * (100 - 4 * fci) / (fci + 20);
}

static double half_time_2005_day(double fci_ksi) { return 61 - 4 * fmin(fci_ksi, 15); }

/* psi = 1.9 ks khc kf ktd ti^-0.118, 5.4.2.3.2-1 */
static void creep(const ConcreteMix *mix, double ti_day, double half_time_day,
                  const double *delay_day, int count, double *creep_1)
{
    const double H = mix->humidity_ratio * 100;
    const double khc = 1.56 - 0.008 * H;                 /* 5.4.2.3.2-3 */
    const double kf = 5 / (1 + first_strength_ksi(mix)); /* 5.4.2.3.2-4 */
    const double full = 1.9 * ks_1(mix) * khc * kf * pow(ti_day, -0.118);
    for (int i = 0; i < count; i++)
        creep_1[i] = full * delay_day[i] / (half_time_day + delay_day[i]);
}

/* eps_sh = 0.48e-3 ks khs kf ktd, 5.4.2.3.3-1 */
static double shrinkage(const ConcreteMix *mix, double age_day, double half_time_day)
{
    const double t = age_day - mix->cure_end_age_day;
    if (t <= 0) return 0;
    const double H = mix->humidity_ratio * 100;
    const double khs = 2.00 - 0.014 * H; /* 5.4.2.3.3-2 */
    const double kf = 5 / (1 + first_strength_ksi(mix));
    const double early = mix->cure_end_age_day < 5 ? mix->early_drying_1 : 1; /* 5.4.2.3.3 */
    return -0.48e-3 * early * ks_1(mix) * khs * kf * t / (half_time_day + t);
}

static void creep_2015(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                       int count, double *creep_1)
{
    creep(mix, loaded_age_day, half_time_2015_day(first_strength_ksi(mix)), delay_day, count,
          creep_1);
}

static void creep_2005(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                       int count, double *creep_1)
{
    creep(mix, loaded_age_day, half_time_2005_day(first_strength_ksi(mix)), delay_day, count,
          creep_1);
}

static double shrinkage_2015(const ConcreteMix *mix, double age_day)
{
    return shrinkage(mix, age_day, half_time_2015_day(first_strength_ksi(mix)));
}

static double shrinkage_2005(const ConcreteMix *mix, double age_day)
{
    return shrinkage(mix, age_day, half_time_2005_day(first_strength_ksi(mix)));
}

const ModelRow model_aashto2015 = {strength_Pa, modulus_Pa, creep_2015, NULL, shrinkage_2015};
const ModelRow model_aashto2005 = {strength_Pa, modulus_Pa, creep_2005, NULL, shrinkage_2005};
