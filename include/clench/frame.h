/* frame: stiffness and forces of two chains of nodes on the same stations, with eccentric bars,
 * links between the chains, springs to earth and struts between far nodes. Numbers in, numbers out:
 * knows no material, no age, no stage.
 *
 * Station i has six unknowns: u, v, theta of node G (girder top), then of node D (deck mid-depth).
 * A plane section moves u(y) = u - theta y. Bars are Bernoulli beams with rigid offsets: constant
 * axial force, moment straight along the element. Source of the element: closed form, cubic beam. */
#ifndef CLENCH_FRAME_H
#define CLENCH_FRAME_H

#include "clench/base.h"

enum { FRAME_UNKNOWNS = 6, FRAME_BAND = 8, FRAME_STRUTS = 8 };

/* Place of an unknown: chain 0 G, 1 D; which 0 u, 1 v, 2 theta. */
static inline int frame_unknown(int station, int chain, int which)
{
    return FRAME_UNKNOWNS * station + 3 * chain + which;
}

/* Where a bar lies: its length along x, heights of its ends above the chain's nodes. */
typedef struct BarPlace {
    int station, chain;
    double length_m, from_height_m, to_height_m;
    double cosine_1; /* of a fibre's slope; 0: a beam, whose sections stay vertical */
} BarPlace;
/* Strain of its axis and curvature at both ends; curvature straight between. */
typedef struct BarStrain {
    double axial_1, from_per_m, to_per_m;
} BarStrain;

/* Both stand here, in full: they are the inner loops of every step. x: all unknowns, m and rad. */

/* Axis: a straight line between points rigidly fixed to the nodes at both heights,
 *   axial = [(u2 - y2 t2) - (u1 - y1 t1)]/L + s (v2 - v1)/L,  s = (y2 - y1)/L.
 * A fibre has its own length L/c and direction, c = cos of its slope: axial times c^2, N along x is c N.
 * Curvature of the cubic: v''(0) = 6 (v2 - v1)/L^2 - (4 t1 + 2 t2)/L, v''(L) mirrored.
 * unit: of x m and rad. */
static inline BarStrain frame_bar_strain(const BarPlace *place, const double *x)
{
    const double *a = x + frame_unknown(place->station, place->chain, 0);
    const double *b = a + FRAME_UNKNOWNS;
    const double L = place->length_m, y1 = place->from_height_m, y2 = place->to_height_m;
    const double chord = (b[1] - a[1]) / L;
    const double along = place->cosine_1 > 0 ? place->cosine_1 * place->cosine_1 : 1;
    return (BarStrain){
        .axial_1 = along * ((b[0] - y2 * b[2]) - (a[0] - y1 * a[2]) + (y2 - y1) * chord) / L,
        .from_per_m = (6 * chord - 4 * a[2] - 2 * b[2]) / L,
        .to_per_m = (-6 * chord + 2 * a[2] + 4 * b[2]) / L,
    };
}

/* Adds the nodal forces that a bar with axial force N and end moments puts up.
 * p = B' [N L, L (2 M1 + M2)/6, L (M1 + 2 M2)/6]: work of N and of straight moments on straight
 * curvatures; multiplied out. */
static inline void frame_bar_force(const BarPlace *place, double N_N, double M1_Nm, double M2_Nm,
                                   double *nodal) /* nodal unit: N, N m */
{
    double *a = nodal + frame_unknown(place->station, place->chain, 0);
    double *b = a + FRAME_UNKNOWNS;
    const double y1 = place->from_height_m, y2 = place->to_height_m;
    const double N = place->cosine_1 > 0 ? place->cosine_1 * N_N : N_N, M1 = M1_Nm, M2 = M2_Nm;
    const double shear = ((M2 - M1) - N * (y2 - y1)) / place->length_m;
    a[0] -= N;
    a[1] += shear;
    a[2] += N * y1 - M1;
    b[0] += N;
    b[1] -= shear;
    b[2] += M2 - N * y2;
}

/* A bar that carries shear alone: gamma = (v2 - v1)/L - (t1 + t2)/2. */
static inline double frame_shear_strain(const BarPlace *place, const double *x)
{
    const double *a = x + frame_unknown(place->station, place->chain, 0);
    const double *b = a + FRAME_UNKNOWNS;
    return (b[1] - a[1]) / place->length_m - 0.5 * (a[2] + b[2]);
}

static inline void frame_shear_force(const BarPlace *place, double V_N,
                                     double *nodal) /* nodal unit: N, N m */
{
    double *a = nodal + frame_unknown(place->station, place->chain, 0);
    double *b = a + FRAME_UNKNOWNS;
    const double couple = 0.5 * V_N * place->length_m;
    a[1] -= V_N;
    a[2] -= couple;
    b[1] += V_N;
    b[2] -= couple;
}

/* Arms of a link: the slip plane is `deck_arm_m` below D and `girder_arm_m` above G. */
typedef struct LinkArms {
    double deck_arm_m, girder_arm_m;
} LinkArms;
/* slip: deck's soffit over girder along +x; lift: D over G upwards. */
void frame_link_strain(LinkArms arms, int station, const double *x, double *slip_m, double *lift_m);
void frame_link_force(LinkArms arms, int station, double H_N, double V_N, double *nodal);

/* A strut between the D nodes of two stations at a height above them: its shortening is felt as the
 * closing of the gap. */
typedef struct Strut {
    int left_station, right_station;
    double height_m, stiffness_N_per_m;
} Strut;
double frame_strut_opening(const Strut *strut, const double *x);           /* m */
void frame_strut_force(const Strut *strut, double force_N, double *nodal); /* external pair F */

/* ---- the tangent ---- */

typedef struct Frame {
    int station_count, n;
    double *band;    /* symmetric part, lower: unit: N/m, N, N m; n * (FRAME_BAND + 1) */
    double *general; /* n * (3 * FRAME_BAND + 1): only where unsymmetric; NULL until needed */
    double *own;     /* diagonal before it was factored; unit: N/m, N m */
    int *pivot;
    bool unsymmetric;
    int coupling_count; /* slide couplings dH = c dlift, in order of being added */
    struct FrameCoupling {
        int station;
        LinkArms arms;
        double H_per_lift_N_per_m;
    } * coupling;
    int strut_count;
    Strut strut[FRAME_STRUTS];
    double *strut_move; /* K^-1 a of each strut: unit: m per N; strut_count * n */
    double strut_matrix[FRAME_STRUTS * FRAME_STRUTS]; /* unit: m/N */
    int negative_pivots; /* of the symmetric factor: > 0 is instability */
} Frame;

/* All memory of a frame for that many stations, from the arena; used again by frame_clear. */
Frame *frame_new(int station_count, Arena *arena);
void frame_clear(Frame *frame);
void frame_add_bar(Frame *frame, const BarPlace *place, double EA_N, double EI_Nm2);
void frame_add_shear(Frame *frame, const BarPlace *place, double GA_N);
/* dH = H_slip dslip + H_lift dlift, dV = V_lift dlift. */
void frame_add_link(Frame *frame, LinkArms arms, int station, double H_slip_N_per_m,
                    double H_lift_N_per_m, double V_lift_N_per_m);
/* Springs to earth at a height above node G. */
void frame_add_spring(Frame *frame, int station, double height_m, double horizontal_N_per_m,
                      double vertical_N_per_m);
void frame_add_strut(Frame *frame, const Strut *strut);
/* A node that does not exist (yet) stays where it is. */
void frame_hold_node(Frame *frame, int station, int chain);
/* UNSTABLE: names station, node and direction of the loose unknown; x_m may be NULL. */
MUST_USE Status frame_factor(Frame *frame, const double *x_m, Error *err);
/* In place: `count` load vectors, one behind the other, become displacements. */
void frame_solve(const Frame *frame, double *right, int count);

#endif
