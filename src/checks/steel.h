/* Private to checks: the plates of a steel girder and what its flanges bear in compression. */
#ifndef CLENCH_CHECKS_STEEL_H
#define CLENCH_CHECKS_STEEL_H

#include "kit.h"

/* Plates of the girder beside a station; widths of one flange, webs as given. */
typedef struct Plates {
    double top_width_m, top_m, web_depth_m, web_m, bottom_width_m, bottom_m;
    double area_m2, inertia_m4, above_soffit_m, depth_m; /* of the whole section */
    int web_count;
    double along_1; /* along an inclined web over its vertical depth */
} Plates;
/* The piece whose section is that of the model's part. */
Plates steel_plates(const CheckCase *with, const KitLine *k, int station, int side);

/* Writes f_r, the nominal resistance F_nc of a flange in compression, into the sheet: local buckling,
 * lateral torsional buckling with the unbraced length L_b (given or none), web load shedding R_b.
 * `hc_m`: depth of the web in compression under the stresses of the check. The sheet has no earlier
 * symbols of these names: b_f, t_f, F_y, E, D_c, t_w, D. */
void steel_compression(const CheckCase *with, Sheet *sheet, const Plates *plates, bool top,
                       double Dc_m);
/* Depth of the web in compression, along it, from the stresses of both fibres; 0 where it is in tension. */
double steel_web_compression_m(const Plates *plates, double top_Pa, double bottom_Pa);
/* A row that passes against the yield stress is unproven while that is a default. */
void steel_needs_yield(const CheckCase *with, CheckRow *row);

#endif
