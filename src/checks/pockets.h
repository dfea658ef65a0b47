/* What the connectors over a length of a girder line carry after the haunches are grouted. */
#ifndef CLENCH_CHECKS_POCKETS_H
#define CLENCH_CHECKS_POCKETS_H

#include "strength.h"

/* Forces along the girder between deck and girder over that length; + as on the girder along +x. */
typedef struct PocketForce {
    double from_m, to_m;
    double thrust_N;       /* locked in when the haunches are grouted: of anchor panels */
    double superimposed_N; /* barrier, overlay, wearing surface */
    double later_most_N, later_least_N; /* creep and shrinkage from grouting on, in service */
    double live_most_N, live_least_N;   /* lanes and impact in */
    double fatigue_N;                   /* range under the fatigue truck */
} PocketForce;

PocketForce pocket_force(const CheckCase *with, const KitLine *k, double from_m, double to_m);
PocketForce anchor_force(const CheckCase *with, const KitLine *k, bool right);
/* Slip makes the live load's force on a pocket smaller, and the slip of connectors is hardly known: what
 * full interaction gives is the least that counts. anchor_force has it in. */
void pocket_at_least_full(const KitLine *k, PocketForce *f);
/* Range under the fatigue truck on the connectors of an anchor panel, as if the largest shear flow inside
 * went over all of its length. */
double anchor_fatigue_N(const CheckCase *with, const KitLine *k, const PocketForce *anchor);
/* Largest size of what stays on in service, without factors. */
double pocket_permanent_N(const PocketForce *f);
/* Strength I: 1.5 or 0.65 on superimposed loads, 1.0 on what is locked in and on creep and shrinkage,
 * the live load factor; largest size. `locked`: thrust included. */
double pocket_strength_N(const CheckCase *with, const PocketForce *f, bool locked);

/* Rows on fatigue, connector_fatigue.c: of a pocket, and of an anchor panel's connectors. The number that is
 * needed goes with the measure. */
double fatigue_measure_N(const CheckCase *with, const PocketForce *f);
void fatigue_of_pocket(const CheckCase *with, const KitLine *k, const PocketForce *f,
                       CheckList *list);
void fatigue_of_anchor(const CheckCase *with, const KitLine *k, CheckList *list);

#endif
