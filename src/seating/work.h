/* The plan of the seats while it is made. Private to seating. */
#ifndef CLENCH_SEATING_WORK_H
#define CLENCH_SEATING_WORK_H

#include "clench/numeric.h"
#include "clench/seating.h"

/* A flange's piece of girder. */
typedef struct Flange {
    double to_m, width_m, apart_m; /* apart: of a tub's two flanges, from the middle of the tub */
} Flange;

typedef struct Work {
    const SeatWish *wish;
    const Bridge *bridge;
    Arena *result, *scratch;
    SeatPlan *plan;
    const BridgeSeats *seats;
    const BridgeLine *line; /* all lines of all different units */
    SeatMarch *march;       /* of each line */
    const StageHistory **history;
    int line_count;
    bool cubic;
    double rise_1, haunch_m, deck_half_m, spacing_m;
    int flange_count;
    Flange *flange;
    SeatReading *reading;
    SeatGirder *piece;
    SeatLine *seat_line;
    Seat *seat;
    SeatPlace *place;
    Between *place_between; /* of each place, indices of the plan's readings */
    double *place_later_m, *place_thrust_m, *place_doubt_m, *place_off_m;
    int *seat_place; /* of each seat */
    SeatPanel *panel;
    double *reading_x_m, *reading_top_m, *reading_roll_1;
    Diagnostics *list;
    int remark_room;
    const char **remark;
    bool *alarm;
} Work;

double seat_value(const Bridge *bridge, const char *path);
bool seat_word(const Bridge *bridge, const char *path, const char *word);
double seat_z_m(const Work *work, int girder);
/* Line of a girder in a unit: of work->line. */
int seat_line_of(const Work *work, int unit, int girder);
double seat_thickness_m(const Work *work, double z_m);
/* Mean over the strip of deck that a girder carries. */
double seat_strip_thickness_m(const Work *work, int girder);
const Flange *seat_flange(const Work *work, double x_m);
/* Later movement at x of the bridge on girder's line. */
double seat_later_m(const Work *work, int unit, int girder, double x_m);
double seat_thrust_m(const Work *work, int unit, int girder, double x_m);
/* What the girder's top is expected at if the haunch is deck.haunch. */
double seat_expected_m(const Work *work, int unit, int girder, double x_m);
void PRINTF_LIKE(3, 4) seat_say(Work *work, bool alarm, const char *format, ...);
/* "1.25 in", "32 mm". */
const char *seat_length(const Work *work, double length_m);
const char *seat_place_m(const Work *work, double x_m); /* "52.5 ft" */

/* An error of the survey at a line of its file, 0: none; BAD_INPUT. */
Status PRINTF_LIKE(4, 5)
    readings_refuse(Work *work, int line, const char *key, const char *format, ...);
double readings_median(double *value, int count); /* sorts; unit: of the values */
/* Of readings against the profile, one standard deviation about their neighbours; all: room for a number a
 * reading. */
double outliers_roughness_m(const Work *work, const double *off_m, double *all);
Status outliers_refuse(Work *work, const SeatGirder *girder, const double *off_m, double spread_m);

MUST_USE Status marches_make(Work *work, Error *err);
MUST_USE Status readings_make(Work *work, Error *err);
MUST_USE Status lines_make(Work *work, Error *err);
void places_make(Work *work);
MUST_USE Status levels_make(Work *work, Error *err);
void moves_make(Work *work);
void bearing_make(Work *work);
void grout_make(Work *work);
void facets_make(Work *work);
void deviations_make(Work *work); /* of each place */
void adjust_make(Work *work);
void sure_make(Work *work);
void remarks_make(Work *work);

#endif
