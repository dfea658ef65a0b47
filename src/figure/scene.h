/* The bridge at one moment. Private to figure. */
#ifndef CLENCH_FIGURE_SCENE_H
#define CLENCH_FIGURE_SCENE_H

#include "clench/figure.h"

Figure *scene_draw(const FigureView *view, Arena *arena);

#endif
