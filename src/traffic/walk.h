/* One clipped influence line, driven along +x. Private to traffic. */
#ifndef CLENCH_TRAFFIC_WALK_H
#define CLENCH_TRAFFIC_WALK_H

#include "clench/traffic.h"

/* g(x) = max(0, u(x)), u = sign * value, straight between stations, zero outside. A sum of shifted
 * g is straight between kinks, and largest where one of the g has a concave kink: a vertex. Zero
 * crossings and most stations of a smooth line are convex kinks, so that few vertices are left. */
typedef struct Clip {
    int count;
    double *x, *u; /* mirrored (-x, from the far end) for driving in -x */
    int vertex_count;
    double *vertex_x, *vertex_u; /* u > 0 at all */
    double peak;                 /* largest g */
    double *room;                /* 4 * count more */
} Clip;

Clip clip_make(const InfluenceLine *line, int sign, bool mirrored, double *work);
double clip_area(const Clip *clip); /* integral of g: exact */
/* g(x); *hint is the piece of the last call and becomes that of this one. */
double clip_at(const Clip *clip, double x, int *hint);
/* The train's vehicle: every variable gap at the train's own (AASHTO LRFD 3.6.1.3.1: 14 ft). */
Vehicle traffic_train_vehicle(const LiveLoad *live);

/* Offsets of axle 0 from any axle, every variable gap at its least or most: 1 + 2 per gap ... */
enum { OFFSETS_MAX = 80 }; /* 12 axles, the first 3 gaps variable: 79 */

/* A vehicle on the line. Hints and queue make positions that grow cheap; any order is correct. */
typedef struct Walk {
    const Clip *clip;
    const Vehicle *vehicle;
    int offset_count[AXLES_MAX];
    double offset[AXLES_MAX][OFFSETS_MAX]; /* [i]: of axle i from itself and each one behind it */
    double load[OFFSETS_MAX]; /* of the axle that stands on the vertex, for offset[0] */
    double rest[AXLES_MAX];   /* loads behind axle i */
    int hint[AXLES_MAX];
    int low_hint, high_hint;        /* ends of the window of the last axle */
    double low, high;               /* the window's last place */
    double *queue_x, *queue_u;      /* vertices in it that may still be the largest: falling u */
    int queue_from, queue_to, next; /* next: first vertex not yet taken */
} Walk;

void walk_start(Walk *walk, const Clip *clip, const Vehicle *vehicle);
typedef struct Best {
    double effect, lead_x;
} Best;
/* The best above `floor`; its effect is `floor` where there is none. */
Best walk_best(Walk *walk, double floor);
/* Two vehicles of fixed gaps, the second at least `gap` behind the first's last axle. */
Best walk_train(Walk *walk, double gap, double floor);

#endif
