#include "model.h"

#include <math.h>

/* EN 1992-1-1:2004, 3.1.2 to 3.1.4 and Annex B; 20 degC, quartzite aggregate. Equations from
 * memory, checked by a printed calculation sheet in the tests. MPa, mm, per cent, day. */

typedef struct CementRow {
    double s;        /* 3.1.2(6) */
    double ds1, ds2; /* alpha_ds1, alpha_ds2: B.2(1) */
} CementRow;

static const CementRow cement_rows[] = {
    [CEMENT_SLOW] = {0.38, 3, 0.13},
    [CEMENT_NORMAL] = {0.25, 4, 0.12},
    [CEMENT_RAPID] = {0.20, 6, 0.11},
};

static double growth_1(const ConcreteMix *mix, double age_day)
{
    return european_growth_1(cement_rows[mix->cement].s, age_day); /* (3.2) */
}

static double strength_Pa(const ConcreteMix *mix, double age_day)
{
    return european_strength_Pa(mix, growth_1(mix, age_day));
}

static double modulus_Pa(const ConcreteMix *mix, double age_day)
{
    const double fcm_t = growth_1(mix, age_day) * european_fcm_MPa(mix);
    return 22 * pow(fcm_t / 10, 0.3) * GPA_Pa; /* Table 3.1 and (3.5) */
}

/* The tangent modulus Ec = 1.05 Ecm that phi refers to: 3.1.4(2) */
static double creep_modulus_Pa(const ConcreteMix *mix)
{
    return 1.05 * 22 * pow(european_fcm_MPa(mix) / 10, 0.3) * GPA_Pa;
}

/* phi_RH of (B.3) with its alphas (B.8c); leaves beta_H of (B.8) */
static double phi_RH_1(double fcm, double RH, double h0, double *beta_H_day)
{
    const double humid = pow(0.012 * RH, 18), dry = (1 - RH / 100) / (0.1 * cbrt(h0));
    if (fcm <= 35) {
        *beta_H_day = fmin(1.5 * (1 + humid) * h0 + 250, 1500); /* (B.8a) */
        return 1 + dry;                                         /* (B.3a) */
    }
    const double log_ratio = log(35 / fcm);
    const double alpha1 = exp(0.7 * log_ratio), alpha2 = exp(0.2 * log_ratio);
    const double alpha3 = sqrt(35 / fcm);
    *beta_H_day = fmin(1.5 * (1 + humid) * h0 + 250 * alpha3, 1500 * alpha3); /* (B.8b) */
    return (1 + dry * alpha1) * alpha2;                                       /* (B.3b) */
}

static void creep_1(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                    int count, double *creep)
{
    const double fcm = european_fcm_MPa(mix), RH = mix->humidity_ratio * 100;
    const double h0 = 2 * mix->volume_to_surface_m / MM_m;
    const double t0 = european_loading_day(mix->cement, loaded_age_day);
    double beta_H;
    const double phi_RH = phi_RH_1(fcm, RH, h0, &beta_H);
    const double beta_fcm = 16.8 / sqrt(fcm);         /* (B.4) */
    const double beta_t0 = 1 / (0.1 + pow(t0, 0.20)); /* (B.5) */
    const double phi_0 = phi_RH * beta_fcm * beta_t0; /* (B.2) */
    for (int i = 0; i < count; i++)                   /* (B.1), (B.7) */
        creep[i] = phi_0 * pow(delay_day[i] / (beta_H + delay_day[i]), 0.3);
}

/* Table 3.3: kh of the notional size, linear between its rows */
static double kh_1(double h0)
{
    if (h0 <= 100) return 1.0;
    if (h0 <= 200) return 1.0 - 0.15 * (h0 - 100) / 100;
    if (h0 <= 300) return 0.85 - 0.10 * (h0 - 200) / 100;
    if (h0 <= 500) return 0.75 - 0.05 * (h0 - 300) / 200;
    return 0.70;
}

static double shrinkage_1(const ConcreteMix *mix, double age_day)
{
    const CementRow *const cement = &cement_rows[mix->cement];
    const double fcm = european_fcm_MPa(mix), fck = mix->fc28_Pa / MPA_Pa;
    const double h0 = 2 * mix->volume_to_surface_m / MM_m, RH = mix->humidity_ratio;
    const double beta_as = 1 - exp(-0.2 * sqrt(age_day));           /* (3.13) */
    const double eps_ca = beta_as * 2.5 * fmax(fck - 10, 0) * 1e-6; /* (3.11), (3.12) */
    const double t = age_day - mix->cure_end_age_day;
    if (t <= 0) return -eps_ca;
    const double beta_RH = 1.55 * (1 - RH * RH * RH); /* (B.12) */
    const double eps_cd0 = 0.85 * (220 + 110 * cement->ds1) * exp(-cement->ds2 * fcm / 10) * 1e-6 *
                           beta_RH;                        /* (B.11) */
    const double beta_ds = t / (t + 0.04 * h0 * sqrt(h0)); /* (3.10) */
    return -eps_ca - beta_ds * kh_1(h0) * eps_cd0;         /* (3.8), (3.9) */
}

const ModelRow model_en1992 = {strength_Pa, modulus_Pa, creep_1, creep_modulus_Pa, shrinkage_1};
