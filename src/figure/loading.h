/* Force against opening, for the plan and for the readings of the day. Private to figure. */
#ifndef CLENCH_FIGURE_LOADING_H
#define CLENCH_FIGURE_LOADING_H

#include "plot.h"

enum { LEFT = 62, RIGHT = 22, LOAD_HEIGHT = 330 };

typedef struct Loading {
    Plot plot;
    const JackPlan *plan;
    UnitSystem units;
} Loading;

FigurePoint loading_at(const Loading *l, double opening_m, double force_N);
/* Axes with room for the plan, and for that opening and force. */
void loading_axes(Loading *l, double top_px, double most_m, double most_N);
void loading_band(const Loading *l);
void loading_back(const Loading *l); /* from the end of the last stage */

#endif
