/* A small frame that remembers what it is made of, for the tests of frame. */
#ifndef CLENCH_TESTS_FRAME_BUILT_H
#define CLENCH_TESTS_FRAME_BUILT_H

#include "clench/frame.h"

#include <string.h>

enum { STATIONS = 6, N = FRAME_UNKNOWNS * STATIONS };

/* Repeatable numbers between -1 and 1: a 64-bit linear congruence (Knuth, MMIX; from memory). */
static inline double noise(unsigned long *seed)
{
    *seed = *seed * 6364136223846793005UL + 1442695040888963407UL;
    return (double)(*seed >> 11) / 4503599627370496.0 - 1;
}

static const double station_m[STATIONS] = {0, 1.5, 2.25, 4.75, 5.0, 8.5};

static inline BarPlace bar_at(int element, int chain, double from_m, double to_m)
{
    return (BarPlace){element, chain, station_m[element + 1] - station_m[element], from_m, to_m, 0};
}

/* ---- a whole frame: what is put together, so that its inner forces can be found again ---- */

typedef struct Built {
    Frame *frame;
    int bar_count, link_count, spring_count;
    BarPlace bar[16];
    double EA[16], EI[16];
    struct {
        LinkArms arms;
        int station;
        double H_slip, H_lift, V_lift;
    } link[8];
    struct {
        int station;
        double height, horizontal, vertical;
    } spring[8];
} Built;

static inline Built built_new(Arena *arena) { return (Built){.frame = frame_new(STATIONS, arena)}; }

static inline void bar(Built *b, BarPlace place, double EA, double EI)
{
    frame_add_bar(b->frame, &place, EA, EI);
    b->bar[b->bar_count] = place;
    b->EA[b->bar_count] = EA;
    b->EI[b->bar_count++] = EI;
}

static inline void link(Built *b, LinkArms arms, int station, double H_slip, double H_lift,
                        double V_lift)
{
    frame_add_link(b->frame, arms, station, H_slip, H_lift, V_lift);
    b->link[b->link_count].arms = arms;
    b->link[b->link_count].station = station;
    b->link[b->link_count].H_slip = H_slip;
    b->link[b->link_count].H_lift = H_lift;
    b->link[b->link_count++].V_lift = V_lift;
}

static inline void spring(Built *b, int station, double height, double horizontal, double vertical)
{
    frame_add_spring(b->frame, station, height, horizontal, vertical);
    b->spring[b->spring_count].station = station;
    b->spring[b->spring_count].height = height;
    b->spring[b->spring_count].horizontal = horizontal;
    b->spring[b->spring_count++].vertical = vertical;
}

/* Inner forces at displacement x, from strains and laws alone. */
static inline void inner(const Built *b, const double *x, double *nodal)
{
    memset(nodal, 0, sizeof(double) * N);
    for (int k = 0; k < b->bar_count; k++) {
        const BarStrain s = frame_bar_strain(&b->bar[k], x);
        frame_bar_force(&b->bar[k], b->EA[k] * s.axial_1, b->EI[k] * s.from_per_m,
                        b->EI[k] * s.to_per_m, nodal);
    }
    for (int k = 0; k < b->link_count; k++) {
        double slip, lift;
        frame_link_strain(b->link[k].arms, b->link[k].station, x, &slip, &lift);
        frame_link_force(b->link[k].arms, b->link[k].station,
                         b->link[k].H_slip * slip + b->link[k].H_lift * lift,
                         b->link[k].V_lift * lift, nodal);
    }
    for (int k = 0; k < b->spring_count; k++) {
        const double *G = x + frame_unknown(b->spring[k].station, 0, 0);
        double *p = nodal + frame_unknown(b->spring[k].station, 0, 0);
        const double y = b->spring[k].height, H = b->spring[k].horizontal * (G[0] - y * G[2]);
        p[0] += H;
        p[1] += b->spring[k].vertical * G[1];
        p[2] -= y * H;
    }
    for (int k = 0; k < b->frame->strut_count; k++) {
        const Strut *strut = &b->frame->strut[k];
        frame_strut_force(strut, strut->stiffness_N_per_m * frame_strut_opening(strut, x), nodal);
    }
}

static const LinkArms usual_arms = {0.114, 0.0508};

/* Girder, strand, deck with an open element, shims, one fixed and two moving bearings. */
static inline Built bridge(Arena *arena, double H_lift)
{
    Built b = built_new(arena);
    for (int e = 0; e + 1 < STATIONS; e++) {
        bar(&b, bar_at(e, 0, -0.9, -0.9), 9e9, 4e9);
        bar(&b, bar_at(e, 0, -0.3 - 0.1 * e, -0.3 - 0.1 * (e + 1)), 2e8, 0);
        if (e != 2) bar(&b, bar_at(e, 1, 0, 0), 2e10, 9e7);
    }
    for (int i = 0; i < STATIONS; i++)
        link(&b, usual_arms, i, i % 2 ? 3e8 : 7e7, i == 1 || i == 4 ? H_lift : 0, 5e9);
    spring(&b, 0, -1.6, 1e11, 1e11);
    spring(&b, 3, -1.6, 1e6, 1e11);
    spring(&b, 5, -1.6, 1e6, 1e11);
    return b;
}

#endif
