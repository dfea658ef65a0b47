/* What the files of checks read of a bridge and its girder lines, and write into sheets. */
#ifndef CLENCH_CHECKS_VALUES_H
#define CLENCH_CHECKS_VALUES_H

#include "kit.h"

int value_int(const CheckCase *with, const char *path);
/* A line of the sheet for it; its source is the path and where the value comes from. */
void value_give(Sheet *sheet, const CheckCase *with, const char *symbol, const char *path,
                const char *unit, const char *words);
bool value_is_given(const CheckCase *with, const char *path); /* by the file, no default */
/* A count that is chosen (more than 0), or else `need` rounded up, as line `symbol`. */
int value_chosen(Sheet *sheet, const CheckCase *with, const char *symbol, const char *path,
                 double need_1);

/* sheet_SI of a symbol where it is known, else NAN. */
double value_known(const Sheet *sheet, const char *symbol, bool known);

/* Where numbers of sheets come from that are no inputs themselves. */
extern const char from_thickness[], from_haunch[], from_flange[], from_sections[], from_stages[],
    from_answer[], from_time[];
const char *from_width(const KitLine *k); /* of the deck on a line */

/* printf of a length, force or area in the bridge's units: "1.2 in^2" is no metric text. */
const char *text_in(const CheckCase *with, const char *format, double value_SI, const char *US,
                    const char *SI);

/* Adds T (thrust of the deck), r (the larger share of the line: tributary width, or stiffness of the
 * lines) and P = T r: the upper bound, without friction. Returns P in kip. */
double give_thrust(Sheet *sheet, const CheckCase *with, const KitLine *k);
/* Adds gamma and P_u = gamma P. */
double give_factored(Sheet *sheet, const CheckCase *with, const KitLine *k);

/* Adds g_m, or g_f for the fatigue truck: lanes on the line for moment, with where they are from. */
void give_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k);
/* Adds g_v, or g_vf for the fatigue truck: the same for shear and reactions. */
void give_shear_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k);
void give_fatigue_shear_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k);
void give_fatigue_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k);

/* Length of the deck beyond the last joint, and the longest panel between two joints. */
double line_anchor_m(const KitLine *k);
double line_panel_m(const KitLine *k);
/* Section of the girder at a station, NULL between tied girder ends. */
const PartSection *line_girder(const KitLine *k, int station, const Material **material);
int line_station(const KitLine *k, double x_m); /* the nearest */
double line_top_width_m(const CheckCase *with); /* of the top flange, first piece */

#endif
