/* section: geometry of cross sections. Knows no material age, no member, no drawing. */
#ifndef CLENCH_SECTION_H
#define CLENCH_SECTION_H

#include "clench/base.h"

/* Width over depth below the top fibre, piecewise linear; a step is two points at one depth. */
enum { WIDTH_POINTS = 16 };
typedef struct WidthProfile {
    int count;
    double depth_m[WIDTH_POINTS]; /* 0 at the top, never decreasing */
    double width_m[WIDTH_POINTS];
} WidthProfile;

typedef struct BeamSection {
    double area_m2;
    double inertia_m4; /* about the horizontal axis through the centroid */
    double centroid_m; /* above the bottom fibre */
    double depth_m;
    double perimeter_m;   /* drying surface per length; 0 where unknown */
    double top_width_m;   /* of the top flange: haunch width */
    WidthProfile profile; /* all of it; count 0 where only properties are known */
} BeamSection;

/* Properties of a width profile, exact for its straight pieces; the perimeter is the whole outline,
 * top and bottom faces too (of a section in one piece, without inner faces). */
MUST_USE Status section_from_profile(const WidthProfile *profile, BeamSection *section, Error *err);

/* Welded plates: top flange, web(s), bottom flange. A box or tub has two webs, each `web_depth_m`
 * high measured vertically and `web_thickness_m` thick measured across the plate, inclined by
 * `web_slope_1` horizontal per vertical. `top_width_m` is the width over one web: a tub has two top
 * flanges of it; a closed box with one top plate gives half the plate's width. The section's
 * top_width_m is the sum, its perimeter_m 0 (steel does not dry). */
typedef struct PlateGirder {
    double top_width_m, top_thickness_m;
    double web_depth_m, web_thickness_m;
    double bottom_width_m, bottom_thickness_m;
    int web_count;      /* 1: I-girder; 2: box or tub */
    double web_slope_1; /* 0 for vertical */
} PlateGirder;
MUST_USE Status section_from_plates(const PlateGirder *plates, BeamSection *section, Error *err);

/* Area that carries shear, so that V/(G A) is the mean slide: I^2 over the integral of Q^2/b, shear
 * alike over each width (closed form; energy); between points of a profile by three Gauss points,
 * exact where the width is constant. Webs inclined 1:4 slide 6 % more than this. */
double section_shear_area_m2(const WidthProfile *profile);

/* Standard pretensioned shape by name ("AASHTO IV", "BT-72", ...), filled into *room and returned;
 * NULL where unknown. Area, centroid and inertia are the published ones; widths and perimeter come
 * from the layers, whose own properties differ by at most 0.04 %. Count, name(i) and source(i) for
 * lists and suggestions. */
const BeamSection *section_standard(const char *name, BeamSection *room);
int section_standard_count(void);
const char *section_standard_name(int index);
const char *section_standard_source(int index);

/* Sum of parts, each its own EA, EI and centroid height over one datum: transformed section. */
typedef struct SectionPart {
    double area_m2, inertia_m4, centroid_m; /* centroid above the common datum */
    double modular_ratio_1;                 /* E of the part over the reference E */
} SectionPart;
typedef struct TransformedSection {
    double area_m2, inertia_m4, centroid_m;
} TransformedSection;
TransformedSection section_transform(const SectionPart *part, int part_count);

/* Integrals of a field given at depths below the section's top (never decreasing; a step is two
 * points at one depth), straight between points, zero outside them, exact: sum of w(y)*f(y) dy, and
 * its first moment about the centroid (lever up positive). For temperature: a free section
 * lengthens by alpha*integral/area, and its top fibre outgrows its centroid by alpha*moment/inertia
 * per height, so that the bending moment it is worth (tension at the bottom positive) is
 * -E*alpha*moment. The profile must have points.
 * unit: field any; integral m2 times it; moment m3 times it. */
void section_integrate(const WidthProfile *profile, double centroid_depth_m, const double *depth_m,
                       const double *field, int count, double *integral, double *moment);

#endif
