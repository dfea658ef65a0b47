/* Private to thrust: influence lines of one moment. */
#ifndef CLENCH_THRUST_LIVE_H
#define CLENCH_THRUST_LIVE_H

#include "trial.h"

enum { ZONES = 32, EFFECTS_MAX = 4, LINES_HELD = 5 };

struct LiveLines {
    const BridgeLine *line;
    const StageHistory *history;
    int time;
    const StageStructure *structure;
    int zone_count;
    double zone_m[ZONES][2];
    double *value, *work, *scan; /* unit: Pa/N and as traffic wants; value holds LINES_HELD lines */
    bool *supported;             /* [support]: active at that moment, with a vertical spring */
    double *reaction;            /* [support * stations + station]; unit: none */
};

bool live_in_zone(const LiveLines *lines, int station); /* of negative moment */
/* Influence line of the moment of the whole cross-section, by statics from the reactions. */
void live_moment_line(const LiveLines *lines, int station, double *value_m);

#endif
