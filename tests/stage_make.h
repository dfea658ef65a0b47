/* Raw stage models from a few lines, for closed forms and laws. */
#ifndef CLENCH_TESTS_STAGE_MAKE_H
#define CLENCH_TESTS_STAGE_MAKE_H

#include "clench/stages.h"

typedef struct Make {
    Arena *arena;
    StageModel model;
} Make;

/* Stations at all marks, in any order, and between them at most `longest_m` apart. */
Make make_start(Arena *arena, double longest_m, const double *mark_m, int mark_count);
int make_station(const Make *make, double x_m); /* fails the test where none is */
int make_material(Make *make, Material material);
int make_elastic(Make *make, double E_Pa); /* expansion 1e-5 per K */
int make_section(Make *make, PartSection section);
PartSection make_rectangle(double width_m, double depth_m);
/* `part` in every element between the two places. */
void make_parts(Make *make, double from_m, double to_m, Part part);
void make_links(Make *make, Link per_m); /* by tributary length */
int make_support(Make *make, double x_m, bool fixed);
int make_gap(Make *make, double from_m, double to_m, double strut_N_per_m);
Event *make_event(Make *make, double day, EventKind kind, Cause cause);
void make_birth(Make *make, double day, int phase);
void make_load(Make *make, double day, double from_m, double to_m, Chain chain, double w_N_per_m);
void make_bond(Make *make, double day, double from_m, double to_m);
void make_jack(Make *make, double day, int gap, double thrust_N, int steps);
void make_note(Make *make, double day, const char *name);
/* Runs with the default settings; fails the test where that fails. */
const StageHistory *make_run(const Make *make);
const StageHistory *make_run_with(const Make *make, const StageSettings *settings);
int make_time(const StageHistory *history, const char *name);

/* ---- a thrust line: girder (phase 0), deck (1), closure in the gap (2), fill beside it (3) ---- */

typedef struct LineSpec {
    int span_count;
    double span_m[4];
    double longest_m;
    double girder_E_Pa, girder_A_m2, girder_I_m4, girder_top_m, girder_bottom_m;
    double deck_width_m, deck_depth_m; /* of the section */
    double deck_I_1;                   /* share of the section's inertia that counts */
    double deck_arm_m;                 /* deck_thickness of the model: twice the arm of the links */
    double haunch_m;
    double anchor_m; /* length of both anchors; 0: a point each, at the ends */
    double gap_from_m, gap_to_m;
    double strut_N_per_m, closure_share_1;
    Link link_per_m;
    Material deck, closure; /* ELASTIC or CONCRETE */
} LineSpec;

/* Three spans of steel with a usual deck: a place to start from. Invented. */
LineSpec line_spec(void);
double line_length(const LineSpec *spec);
Make line_make(const LineSpec *spec, Arena *arena);
/* Girder, then deck on its shims with weights, then anchors, all on one day. */
void line_set_up(Make *make, const LineSpec *spec, double day, double girder_w_N_per_m,
                 double deck_w_N_per_m);
/* Sums over the history: all deck beams of an element, tension positive. */
double line_deck_N(const StageHistory *history, int time, int element);
double line_girder_N(const StageHistory *history, int time, int element);
/* Girder's moment about its centroid at the left or right end of an element. */
double line_girder_M(const StageHistory *history, int time, int element, bool at_end);

#endif
