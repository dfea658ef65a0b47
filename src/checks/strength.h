/* Strength of connectors: headed studs, or bars across an interface. */
#ifndef CLENCH_CHECKS_STRENGTH_H
#define CLENCH_CHECKS_STRENGTH_H

#include "values.h"

bool connect_bars(const CheckCase *with); /* bars and interface shear, else studs */
/* Adds the strength of one connector, Q_r, in concrete of that strength; for bars also the interface
 * over `length_m` of the girder. `cohesion`: bond of that interface counts beside the bars, and all of
 * it for the caps; false under the thrust, which pulls a part open. */
void connect_give(Sheet *sheet, const CheckCase *with, double concrete_Pa, double length_m,
                  bool cohesion);
/* Of bars alone: d, A_b, f_y and the friction mu of the weaker face. */
void connect_give_friction(Sheet *sheet, const CheckCase *with);
/* The number of connectors for the force P_u that is given above, as line n_req. */
double connect_need(Sheet *sheet, const CheckCase *with);
/* V_r of n connectors, given above as n; in newton. */
double connect_resist(Sheet *sheet, const CheckCase *with);
/* Length over which the connectors of an anchor panel stand: given, else the panel's. */
double connect_group_m(const CheckCase *with, const KitLine *k);
/* The strength of an anchor panel's connection is a number of the file and no connectors are chosen;
 * V_r of it, in newton. */
bool connect_is_given(const CheckCase *with);
double connect_resist_given(Sheet *sheet, const CheckCase *with);
const char *connect_clause(const CheckCase *with);
/* What every row on connectors hangs on. `count_path` NULL: not on a number;
 * `grout_path` NULL: not on the grout. */
void connect_needs(CheckRow *row, const CheckCase *with, const char *count_path,
                   const char *grout_path, double need_1);

#endif
