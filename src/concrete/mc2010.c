#include "model.h"

#include <math.h>

/* fib Model Code 2010, 5.1.5.1, 5.1.7.2, 5.1.9.1 to 5.1.9.4; 20 degC, quartzite aggregate
 * (alpha_E = 1). Equations from memory, checked by the worked figures in the tests. MPa, mm, per
 * cent, day. */

typedef struct CementRow {
    double s;            /* Table 5.1-9, fcm <= 60 MPa */
    double as, ds1, ds2; /* alpha_as, alpha_ds1, alpha_ds2: Table 5.1-13 */
} CementRow;

static const CementRow cement_rows[] = {
    [CEMENT_SLOW] = {0.38, 800, 3, 0.013},   /* 32.5 N */
    [CEMENT_NORMAL] = {0.25, 700, 4, 0.012}, /* 32.5 R, 42.5 N */
    [CEMENT_RAPID] = {0.20, 600, 6, 0.012},  /* 42.5 R, 52.5 N, 52.5 R */
};

static double growth_1(const ConcreteMix *mix, double age_day)
{
    const double s = european_fcm_MPa(mix) > 60 ? 0.20 : cement_rows[mix->cement].s;
    return european_growth_1(s, age_day);
}

static double strength_Pa(const ConcreteMix *mix, double age_day)
{
    return european_strength_Pa(mix, growth_1(mix, age_day));
}

/* Eci, the tangent modulus at 28 days: (5.1-21) with Ec0 = 21.5 GPa */
static double modulus28_Pa(const ConcreteMix *mix)
{
    return 21.5 * cbrt(european_fcm_MPa(mix) / 10) * GPA_Pa;
}

static double modulus_Pa(const ConcreteMix *mix, double age_day)
{
    return sqrt(growth_1(mix, age_day)) * modulus28_Pa(mix); /* (5.1-56), (5.1-57) */
}

static void creep_1(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                    int count, double *creep)
{
    const double fcm = european_fcm_MPa(mix), RH = mix->humidity_ratio * 100;
    const double h = 2 * mix->volume_to_surface_m / MM_m;
    const double t0 = european_loading_day(mix->cement, loaded_age_day);
    const double log_fcm = log(fcm);

    const double beta_bc_fcm = 1.8 * exp(-0.7 * log_fcm);                    /* (5.1-65) */
    const double basic_rate = (30 / t0 + 0.035) * (30 / t0 + 0.035);         /* in (5.1-66) */
    const double beta_dc_fcm = 412 * exp(-1.4 * log_fcm);                    /* (5.1-68) */
    const double beta_RH = (1 - RH / 100) / cbrt(0.1 * h / 100);             /* (5.1-69) */
    const double beta_dc_t0 = 1 / (0.1 + pow(t0, 0.2));                      /* (5.1-70) */
    const double gamma_t0 = 1 / (2.3 + 3.5 / sqrt(t0));                      /* (5.1-71b) */
    const double alpha_fcm = sqrt(35 / fcm);                                 /* (5.1-71d) */
    const double beta_h = fmin(1.5 * h + 250 * alpha_fcm, 1500 * alpha_fcm); /* (5.1-71c) */
    const double drying = beta_dc_fcm * beta_RH * beta_dc_t0;

    for (int i = 0; i < count; i++) {
        const double d = delay_day[i];
        creep[i] = beta_bc_fcm * log(basic_rate * d + 1)       /* (5.1-64) */
                   + drying * pow(d / (beta_h + d), gamma_t0); /* (5.1-67), (5.1-71a) */
    }
}

/* Notional part of drying shrinkage with its sign: (5.1-80), (5.1-81) */
static double drying_1(const ConcreteMix *mix, double fcm_MPa)
{
    const CementRow *const cement = &cement_rows[mix->cement];
    const double RH = mix->humidity_ratio * 100;
    const double eps_cds0 = (220 + 110 * cement->ds1) * exp(-cement->ds2 * fcm_MPa) * 1e-6;
    const double beta_s1 = fmin(pow(35 / fcm_MPa, 0.1), 1); /* (5.1-83) */
    const double ratio = RH / 100;
    const double beta_RH = RH < 99 * beta_s1 ? -1.55 * (1 - ratio * ratio * ratio) : 0.25;
    return eps_cds0 * beta_RH;
}

static double shrinkage_1(const ConcreteMix *mix, double age_day)
{
    const double fcm = european_fcm_MPa(mix), h = 2 * mix->volume_to_surface_m / MM_m;
    const double eps_cbs0 =
        -cement_rows[mix->cement].as * pow(0.1 * fcm / (6 + 0.1 * fcm), 2.5) * 1e-6; /* (5.1-78) */
    const double beta_bs = 1 - exp(-0.2 * sqrt(age_day));                            /* (5.1-79) */
    const double t = age_day - mix->cure_end_age_day;
    if (t <= 0) return eps_cbs0 * beta_bs;
    const double beta_ds = sqrt(t / (0.035 * h * h + t)); /* (5.1-82) */
    return eps_cbs0 * beta_bs + drying_1(mix, fcm) * beta_ds;
}

const ModelRow model_mc2010 = {strength_Pa, modulus_Pa, creep_1, modulus28_Pa, shrinkage_1};
