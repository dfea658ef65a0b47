/* Inside concrete: one row a time model, and what several rows share. */
#ifndef CLENCH_CONCRETE_MODEL_H
#define CLENCH_CONCRETE_MODEL_H

#include "clench/concrete.h"

/* Units of the formulas as printed. NIST SP 811 (2008), appendix B.8; exact but for rounding. */
#define IN_m         0.0254             /* inch */
#define PSI_Pa       6894.757293168361  /* lbf/in^2 */
#define KSI_Pa       6894757.293168361  /* kip/in^2 */
#define PCF_N_per_m3 157.08746384623196 /* lbf/ft^3 */
#define MM_m         1e-3
#define MPA_Pa       1e6
#define GPA_Pa       1e9

/* What a time model supplies, from the mix alone: measured modulus and the factors of the mix on
 * creep and shrinkage are put on by the door (mix.c). */
typedef struct ModelRow {
    double (*strength_Pa)(const ConcreteMix *mix, double age_day);
    double (*modulus_Pa)(const ConcreteMix *mix, double age_day);
    /* Creep coefficient at `count` delays after loading. Many at once, since most of its cost
     * depends on the mix and the age at loading only. */
    void (*creep_1)(const ConcreteMix *mix, double loaded_age_day, const double *delay_day,
                    int count, double *creep_1);
    /* The modulus that the coefficient refers to; NULL: the modulus at loading. */
    double (*creep_modulus_Pa)(const ConcreteMix *mix);
    double (*shrinkage_1)(const ConcreteMix *mix, double age_day);
} ModelRow;

extern const ModelRow model_elastic, model_aashto2015, model_aashto2005, model_mc2010, model_en1992,
    model_aci209;
const ModelRow *model_row(const ConcreteMix *mix);
/* What a creep coefficient at that loading age is multiplied by to give compliance. */
double model_creep_scale_per_Pa(const ConcreteMix *mix, double loaded_age_day);

/* ACI 209R-92, equation 2-1: t / (alpha + beta t), also the growth used with AASHTO. */
double aci_growth_1(const ConcreteMix *mix, double age_day);
/* AASHTO LRFD 5.4.2.4 at a given strength. */
double aashto_modulus_Pa(const ConcreteMix *mix, double strength_Pa);

/* ---- what MC 2010 and EN 1992 write alike (european.c) ---- */

double european_fcm_MPa(const ConcreteMix *mix);
/* beta_cc(t) = exp(s (1 - sqrt(28/t))): MC 2010 (5.1-51), EN 1992-1-1 (3.2). */
double european_growth_1(double s_1, double age_day);
/* Characteristic strength at an age from beta_cc(t). */
double european_strength_Pa(const ConcreteMix *mix, double growth_1);
/* Age at loading corrected for the cement: MC 2010 (5.1-73), EN 1992-1-1 (B.9); 20 degC. */
double european_loading_day(CementClass cement, double loaded_age_day);

#endif
