/* concrete: strength, modulus, creep and shrinkage of one mix with its age; relaxation of strand.
 * Knows ages and numbers; no section, no member, no calendar. */
#ifndef CLENCH_CONCRETE_H
#define CLENCH_CONCRETE_H

#include "clench/base.h"

/* clang-format off */
#define TIME_MODEL_LIST(X)                                                                     \
    X(ELASTIC,    "elastic",     "constant modulus, no creep, no shrinkage")                   \
    X(AASHTO2015, "AASHTO 2015", "AASHTO LRFD 5.4.2.3 with the time development of the 2015 interim and later") \
    X(AASHTO2005, "AASHTO 2005", "AASHTO LRFD 5.4.2.3 with the time development of 2005 to 2014") \
    X(MC2010,     "MC 2010",     "fib Model Code 2010, 5.1.9.4")                               \
    X(EN1992,     "EN 1992",     "EN 1992-1-1:2004 Annex B and 3.1")                           \
    X(ACI209,     "ACI 209",     "ACI 209R-92")
/* clang-format on */
typedef enum TimeModel {
#define X(id, name, source) TIME_##id,
    TIME_MODEL_LIST(X)
#undef X
        TIME_MODEL_COUNT
} TimeModel;
const char *time_model_name(TimeModel model); /* as in the bridge file */
const char *time_model_source(TimeModel model);

typedef enum CementClass { CEMENT_SLOW, CEMENT_NORMAL, CEMENT_RAPID } CementClass; /* S, N, R */

/* All fields must be set (concrete_mix_default fills them); 0 where the comment allows it. */
typedef struct ConcreteMix {
    TimeModel model;
    double fc28_Pa;         /* specified 28-day strength f'c, or fck */
    double fcm_Pa;          /* mean 28-day strength; 0: fck + 8 MPa. MC2010, EN1992 */
    double fci_Pa;          /* strength at first loading, AASHTO; 0: 0.8 f'c */
    double modulus28_Pa;    /* measured at 28 days; 0: by the model's formula */
    double weight_N_per_m3; /* weight density for the modulus formula, unreinforced */
    double K1_1;            /* aggregate factor of AASHTO 5.4.2.4 */
    bool modulus_2005; /* AASHTO: Ec = 33000 K1 wc^1.5 sqrt(f'c), else 120000 K1 wc^2 f'c^0.33 */
    double humidity_ratio;      /* mean ambient relative humidity, 0 to 1 */
    double volume_to_surface_m; /* V/S; notional size h = 2 V/S */
    double strength_alpha_day;  /* f'c(t) = t/(alpha + beta t) f'c28: AASHTO, ACI209 */
    double strength_beta_1;
    CementClass cement;
    double cure_end_age_day; /* end of moist curing: shrinkage counts from here */
    /* AASHTO: factor on shrinkage where drying starts before 5 days of curing (5.4.2.3.3 says
     * 1.2, the default); 1 leaves the rule out */
    double early_drying_1;
    double creep_factor_1; /* measured creep over the model's, default 1 */
    double shrinkage_factor_1;
    /* ACI 209 mixture factors (2.5 to 2.7), default 1: product of slump, fines, air, cement */
    double aci_creep_mix_1, aci_shrinkage_mix_1;
} ConcreteMix;
ConcreteMix concrete_mix_default(TimeModel model); /* 6 ksi, 70 %, V/S 4 in, 150 pcf, 7 d cure */

/* Ages count from casting and must be > 0; asking earlier is our bug (assert): a part becomes
 * active at its setting age. */
/* f'c(t) = t/(alpha + beta t) f'c28 by AASHTO and ACI 209; fck(t) of EN 1992 3.1.2(5) by EN 1992
 * and MC 2010, fck from 28 days on. */
double concrete_strength_Pa(const ConcreteMix *mix, double age_day);
double concrete_modulus_Pa(const ConcreteMix *mix, double age_day);
/* J(t, t'): strain at age t per unit stress put on at age t' <= t, the elastic part included. */
double concrete_compliance_per_Pa(const ConcreteMix *mix, double age_day, double loaded_age_day);
/* Free shrinkage strain at that age, negative for shortening; 0 up to the end of curing (EN 1992 and
 * MC 2010: the part without drying from casting on). Callers use differences. */
double concrete_shrinkage_1(const ConcreteMix *mix, double age_day);

/* The creep part of J as a sum of decaying terms, so that history costs one state a term:
 *   J(t'+d, t') - J(t', t') = sum_m term_per_Pa[m] * (1 - exp(-d / concrete_term_day[m])),
 * fitted over 0.01 <= d <= 40000 days, for loading ages from half a day on: off by at most 2e-4 of
 * the creep at 30000 days, the terms adding up in size to less than twice it. Written by
 * tools/terms.py. About 0.9 us a call, J itself 0.03 to 0.13 us. */
enum { CONCRETE_TERMS = 20 };
extern const double concrete_term_day[CONCRETE_TERMS]; /* retardation times, fixed, day */
void concrete_creep_terms(const ConcreteMix *mix, double loaded_age_day,
                          double term_per_Pa[CONCRETE_TERMS]);

/* Low-relaxation strand: loss between two times since tensioning (day) at intrinsic stress f
 * (from strain alone): d(loss) = f/45 (f/fpy - 0.55) d log10(24 t), t never below one hour; zero
 * below 0.55 fpy. AASHTO LRFD 5.9.3.4 family; see docs/theory.md. */
double strand_relaxation_Pa(double f_Pa, double fpy_Pa, double from_day, double to_day);

/* ---- a tendon in its duct: friction while it is pulled, draw-in of the wedges ---- */

/* How it is pulled: stress at the jacks, at one end or at both at once. */
typedef struct TendonPull {
    double jack_Pa, modulus_Pa;
    double wobble_per_m, friction_1; /* K, mu: f = f_j exp(-(K x + mu alpha)) */
    double set_m;                    /* draw-in at each pulled end */
    bool left, right;
} TendonPull;
/* Its path: x grows, and so does the angle turned from the left end; straight between; 2 to 16. */
typedef struct TendonPath {
    int count;
    const double *x_m, *turn_rad;
} TendonPath;
/* After the draw-in: stresses at the pulled anchors (INFINITY at others), and how far from each the
 * draw-in is felt. `slack`: it takes more than the whole stress. */
typedef struct TendonSeat {
    double left_Pa, right_Pa, left_reach_m, right_reach_m;
    bool slack;
} TendonSeat;
TendonSeat tendon_seat(const TendonPull *pull, const TendonPath *path);
typedef struct TendonStress {
    double pulled_Pa, seated_Pa; /* held by the jacks; after the draw-in */
} TendonStress;
TendonStress tendon_at(const TendonPull *pull, const TendonPath *path, const TendonSeat *seat,
                       double x_m);
/* How much longer it is when it is pulled, of both ends together. */
double tendon_stretch_m(const TendonPull *pull, const TendonPath *path);

#endif
