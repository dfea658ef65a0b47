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
/* Section of the part that a stress is of, NULL: none is there; its fibre below the centroid. */
const PartSection *live_section(const LiveLines *lines, const StageEffect *effect);
double live_y_m(const PartSection *section, bool top);
/* The two-truck rule is tried for that sign, as live_range does. */
bool live_with_train(const LiveLines *lines, const LiveEffect *effect, int sign);

#endif
