/* Mixes that the tests of concrete share. */
#ifndef CLENCH_TESTS_CONCRETE_MIXES_H
#define CLENCH_TESTS_CONCRETE_MIXES_H

#include "clench/concrete.h"

/* NIST SP 811 (2008), appendix B.8 */
#define ksi  6894757.293168361
#define kcf  157087.46384623196
#define inch 0.0254
#define MPa  1e6
#define GPa  1e9

/* Creep coefficient over the modulus that the model refers it to. */
static inline double creep_1(const ConcreteMix *mix, double age_day, double loaded_day,
                             double E_ref_Pa)
{
    return E_ref_Pa * (concrete_compliance_per_Pa(mix, age_day, loaded_day) -
                       concrete_compliance_per_Pa(mix, loaded_day, loaded_day));
}

/* What the AASHTO figures of the tests are for: the formula alone, cured for a day. */
static inline ConcreteMix aashto_mix(TimeModel model, double fci_ksi, double VS_in, double RH)
{
    ConcreteMix mix = concrete_mix_default(model);
    mix.fci_Pa = fci_ksi * ksi;
    mix.volume_to_surface_m = VS_in * inch;
    mix.humidity_ratio = RH / 100;
    mix.cure_end_age_day = 1;
    mix.early_drying_1 = 1;
    return mix;
}

/* fck = fcm - 8 MPa; h is the notional size. */
static inline ConcreteMix european_mix(TimeModel model, double fcm_MPa, double RH, double h_mm,
                                       double cure_end_day, CementClass cement)
{
    ConcreteMix mix = concrete_mix_default(model);
    mix.fcm_Pa = fcm_MPa * MPa;
    mix.fc28_Pa = mix.fcm_Pa - 8 * MPa;
    mix.humidity_ratio = RH / 100;
    mix.volume_to_surface_m = h_mm / 2000;
    mix.cure_end_age_day = cure_end_day;
    mix.cement = cement;
    return mix;
}

#endif
