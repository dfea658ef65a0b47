/* Structural units of a bridge, their run of panels, and the stations of the mesh. */
#ifndef CLENCH_BRIDGE_LAYOUT_H
#define CLENCH_BRIDGE_LAYOUT_H

#include "bridge_data.h"
#include "clench/panel.h"

enum { SPANS_MAX = 24 }; /* as the schema allows */

/* Spans that act as one: simple ones alone, continuous or tied ones together. Its one run of panels
 * goes from end to end. x counts from the unit's left end. */
typedef struct Unit {
    const Bridge *bridge;
    const char *name;
    int first_span, span_count;
    double start_m, length_m; /* of the bridge, in front of the unit */
    double gap_from_m, gap_to_m, anchor_m;
    int left_panels, right_panels; /* between anchor panels and gap */
    double *joint_m; /* between panels from left to right, faces of anchors and gap included */
    double support_m[SPANS_MAX + 1];                         /* support lines 0 to span_count */
    int girder_count;                                        /* one between tied piers */
    double girder_from_m[SPANS_MAX], girder_to_m[SPANS_MAX]; /* clear ends */
} Unit;

/* The different units: alike ones are given once, with the others in the name. */
Status layout_units(const Bridge *bridge, Arena *arena, Unit **unit, int *unit_count, Error *err);
/* All units from left to right. */
Status layout_all(const Bridge *bridge, Arena *arena, Unit **unit, int *unit_count, Error *err);
/* of[u]: which of the different units, in the order of layout_units, u is alike; their number. */
int layout_alike(const Unit *all, int count, int *of);

/* The rule by which panels are cut, with the limits of truck and crane in the longest one; and what each
 * limit alone allows, INFINITY where it says nothing. */
typedef struct LayoutLimits {
    double longest_m, truck_m, truck_width_m, crane_m;
} LayoutLimits;
LayoutLimits layout_limits(const Bridge *bridge);
double layout_weight_N_per_m(const Bridge *bridge); /* of a panel, pockets not deducted */
/* The stretches between anchors and gaps, two a unit: layouts other than the chosen one. */
PanelStretch *layout_stretches(const Unit *unit, int unit_count, PanelChoice choice, Arena *arena);
PanelRule layout_rule(const Bridge *bridge, PanelChoice choice);
/* Rise of the deck's top towards mid-width; 0: flat. */
double layout_rise_1(const Bridge *bridge);

/* True where the girders on both sides of support line k are tied. */
bool layout_tied(const Unit *unit, int k);
/* Joints between panels from left to right, the faces of anchors and gap included. */
int layout_joint_count(const Unit *unit);
double layout_joint_m(const Unit *unit, int joint);
/* Where its stress is taken: a deck thickness into the run at faces of anchors and gap. */
double layout_judged_m(const Unit *unit, int joint);
/* True where x lies inside the jacking gap; phase of the panel at x, 0 or 1. */
bool layout_in_gap(const Unit *unit, double x_m);
int layout_phase(const Unit *unit, double x_m);

/* Stations: fine at piers, anchor and gap faces, growing geometrically between; every element cut in
 * `fineness` parts, but those between the ends of tied girders. */
typedef struct Mesh {
    int count;
    const double *x_m;
} Mesh;
Status layout_mesh(const Unit *unit, const WayWish *wish, Arena *arena, Mesh *mesh, Error *err);
int mesh_near(const Mesh *mesh, double x_m); /* the nearest station */

#endif
