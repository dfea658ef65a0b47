/* Private to checks: what the files of checks share. */
#ifndef CLENCH_CHECKS_KIT_H
#define CLENCH_CHECKS_KIT_H

#include "clench/checks.h"

/* Units of a sheet that fit one another: kip and inch, or meganewton and metre. */
typedef struct KitUnits {
    const char *force, *length, *area, *modulus, *inertia, *moment, *stress, *line_load,
        *per_length;
} KitUnits;

/* Live load on both fibres of a girder beside a station, one lane, structure at opening (later the
 * deck is stiffer and the girder has less). */
typedef struct KitLive {
    bool there;
    LiveRange top_Pa, bottom_Pa, fatigue_top_Pa, fatigue_bottom_Pa;
} KitLive;

/* Moments of the whole cross-section beside a station, positive with tension at the bottom. What the
 * thrust, creep and shrinkage balance within a section drops out; what they bring through the
 * reactions of continuous girders is `locked`. */
typedef struct KitMoment {
    double dead_Nm, wearing_Nm; /* weights and barriers; overlay and future surface */
    double bare_Nm;             /* of dead_Nm: until the haunches are grouted */
    double locked_open_Nm, locked_end_Nm;
    LiveRange live; /* one lane, structure at opening; unit: N m */
} KitMoment;

/* One girder line with the times of its history that checks ask for. */
typedef struct KitLine {
    const LineAnswer *answer;
    const BridgeLine *line;
    const StageModel *model;
    const StageHistory *history;
    const char *name; /* "interior line", with its unit where there are several */
    int before_jack;  /* the time right before the thrust */
    int jacked, bonded, opening, end;
    LiveLines *open_live, *end_live; /* structures at opening and at the end of life */
    LiveLoad fatigue;
    const KitMoment *moment;    /* [2 * station + (side > 0)] */
    const KitLive *girder_live; /* [2 * station + (side > 0)] */
    const FibreStress *girder_cold,
        *girder_warm; /* likewise: of the gradients; N_N NAN: no girder */
} KitLine;

typedef struct Cited Cited; /* cite.h */

typedef struct CheckShared {
    int count;
    KitLine line[LINES_MAX];
    KitUnits unit;
    bool steel, tub;
    Cited *cited;   /* the first of them */
    bool comparing; /* sheets are written to find the worst: nothing is cited in them */
} CheckShared;

/* Fills with->shared; it lives in the arena of the case. */
MUST_USE Status kit_share(CheckCase *with, Error *err);

/* Value of an input by path in SI; NAN where it is left open ("none"). */
double kit_value(const CheckCase *with, const char *path);
bool kit_flag(const CheckCase *with, const char *path); /* "yes" */
/* Of an item of a list, counted from 1; number of items that have the key. */
double kit_value_in(const CheckCase *with, const char *list, int index, const char *key);
int kit_list_count(const CheckCase *with, const char *list, const char *key);
/* "x = 94.0 ft", the place along the unit, in the bridge's units. */
const char *kit_x(const CheckCase *with, const KitLine *k, int station);
/* Factored moment at strength for `sign` (1: positive): what relieves has its smaller factor. Writes the
 * working; the result is M_u, positive in the direction of the sign. */
void kit_write_moment(const CheckCase *with, const KitLine *k, int station, int side, int sign,
                      Sheet *sheet);
double kit_weight_Nm(const KitLine *k, int time, int station); /* whole section's moment then */
double kit_factored_moment_Nm(const CheckCase *with, const KitLine *k, int station, int side,
                              int sign);
/* "jacked", "day 345", "12.5 years after opening". */
const char *kit_when(const CheckCase *with, const KitLine *k, int time);
/* A sheet with the title "name: line". */
Sheet kit_sheet(const CheckCase *with, const KitLine *k, const char *title);

/* A stress somewhere at some time. */
typedef struct KitStress {
    double value_Pa;
    int station, side, time;
    bool top, there;
} KitStress;
/* Strength that the concrete beside a station has on that day, at most f'c; 0 where none is. */
double kit_strength_Pa(const KitLine *k, int time, Chain chain, int station, int side);
/* Largest of sign * stress of a chain over all stations and the times from..to (each one); the deck
 * without the gap. */
KitStress kit_worst_stress(const KitLine *k, Chain chain, int from, int to, int sign, bool top,
                           bool bottom);

/* With axles of the file's own the fatigue truck beside them is still that of AASHTO LRFD: a row that
 * passes is then unproven. */
void kit_needs_fatigue_truck(const CheckCase *with, CheckRow *row);
/* Part of the girder chain with inertia beside a station; -1 where there is none. */
int kit_girder_part(const KitLine *k, int time, int station, int side);
/* Middle of an element; element -1 is the first station, the one behind the last element the last. */
double kit_middle_m(const KitLine *k, int element);
/* The deck beside a station lies in the gap. */
bool kit_in_gap(const KitLine *k, int station, int side);

#endif
