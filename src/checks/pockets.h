/* What the connectors over a length of a girder line carry after the haunches are grouted. */
#ifndef CLENCH_CHECKS_POCKETS_H
#define CLENCH_CHECKS_POCKETS_H

#include "strength.h"

typedef enum PocketKind { POCKET, ANCHOR_LEFT, ANCHOR_RIGHT } PocketKind;

/* Forces along the girder between deck and girder over that length; + as on the girder along +x. */
typedef struct PocketForce {
    double from_m, to_m;
    double thrust_N;       /* locked in when the haunches are grouted: of anchor panels */
    double superimposed_N; /* barrier, overlay, wearing surface */
    double later_most_N, later_least_N; /* creep and shrinkage from grouting on, in service */
    double live_most_N, live_least_N;   /* lanes and impact in */
    double fatigue_N;                   /* range under the fatigue truck */
    /* where the live load's come from: the deck's force changes between the middles of two elements, 
     * stretched to the length; shear or moment at a station for full interaction */
    LiveEffect deck;
    int station;
    PocketKind kind;
    double
        over_1; /* of fatigue_N: range of all connectors that are judged over that of this length */
} PocketForce;

PocketForce pocket_force(const CheckCase *with, const KitLine *k, double from_m, double to_m);
PocketForce anchor_force(const CheckCase *with, const KitLine *k, bool right);
/* Slip makes the live load's force on a pocket smaller, and the slip of connectors is hardly known: what
 * full interaction gives is the least that counts. anchor_force has it in. */
void pocket_at_least_full(const KitLine *k, PocketForce *f);
/* Range under the fatigue truck on the connectors of an anchor panel, as if the largest shear flow inside
 * went over all of its length: the length that governs, its fatigue_N that of all connectors. */
PocketForce anchor_fatigue(const CheckCase *with, const KitLine *k, const PocketForce *anchor);
/* Largest size of what stays on in service, without factors. */
double pocket_permanent_N(const PocketForce *f);
/* Strength I: 1.5 or 0.65 on superimposed loads, 1.0 on what is locked in and on creep and shrinkage,
 * the live load factor; largest size. `locked`: thrust included. */
double pocket_strength_N(const CheckCase *with, const PocketForce *f, bool locked);

/* First over second moment of the transformed section beside a station, with the moduli of opening: N of the
 * deck is -M times it (closed form: full interaction). 0 where deck or girder is missing. */
typedef struct PocketSection {
    const PartSection *girder;
    double girder_Pa, deck_Pa, width_m, deck_m;
    double above_m; /* deck's middle above the soffit */
    double per_m;
} PocketSection;
PocketSection pocket_section(const KitLine *k, int station);
/* The working of live_most_N and live_least_N, F_c and F_d; of fatigue_N, F_r. pocket_work.c */
void pocket_write_live(Sheet *sheet, const CheckCase *with, const KitLine *k, const PocketForce *f);
void pocket_write_fatigue(Sheet *sheet, const CheckCase *with, const KitLine *k,
                          const PocketForce *f);

/* Rows on fatigue, connector_fatigue.c: of a pocket, and of an anchor panel's connectors. The number that is
 * needed goes with the measure. */
double fatigue_measure_N(const CheckCase *with, const PocketForce *f);
void fatigue_of_pocket(const CheckCase *with, const KitLine *k, const PocketForce *f,
                       CheckList *list);
void fatigue_of_anchor(const CheckCase *with, const KitLine *k, CheckList *list);

#endif
