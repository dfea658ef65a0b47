/* Axes, grids and legends shared by the pictures. Private to figure. */
#ifndef CLENCH_FIGURE_PLOT_H
#define CLENCH_FIGURE_PLOT_H

#include "clench/figure.h"

/* Values (in display units) to px; `log` over the logarithm. */
typedef struct Axis {
    double from, to, from_px, to_px;
    bool log;
} Axis;
double axis_px(const Axis *axis, double value);

typedef struct Plot {
    Figure *figure;
    Axis x, y;
} Plot;
FigurePoint plot_at(const Plot *plot, double x, double y);
bool plot_narrow(const Figure *figure);
/* Vertical grid lines with numbers under them and the name of the axis under those. */
void plot_x_axis(const Plot *plot, const char *name);
/* Horizontal grid lines with numbers left of them. Stresses: "C 500" and "T 200", no sign. */
void plot_y_axis(const Plot *plot, const char *name, bool stress);
/* The x axis along the bridge, in display units; supports as triangles under the plot. */
Axis plot_along(const LineAnswer *line, UnitSystem units, double from_px, double to_px);
void plot_supports(const Plot *plot, const LineAnswer *line, UnitSystem units, double y_px);

enum {
    PAGE_LEFT = 62,
    PAGE_RIGHT = 14
}; /* of a page's pictures along the bridge, one under the other */
/* How many of a unit one of SI is: pictures draw thousands of points, quantity_in is exact and slow. */
double plot_per_SI(UnitSystem units, DimensionId dimension);
/* A column a joint that can be picked, over the height of a plot. */
void plot_hits(const Plot *plot, const FigureView *view);
/* The text, or what of it fits with an ellipsis behind. */
const char *plot_fit(Arena *arena, const char *text, FigureSize size, double width_px);
/* The time of a view in words: "jacks released, 7 d after jacking", "predicted". */
const char *plot_time_words(const FigureView *view, Arena *arena);
/* Vertical grid lines at round times, x over the logarithm of days; named moments above the plot. */
void plot_time_axis_along(const Plot *plot, const char *name);

/* Horizontal grid lines at round times, y over the logarithm of days. */
void plot_time_axis(const Plot *plot, const char *name);

typedef struct LegendEntry {
    FigureRole role;
    bool box; /* a box, else a line */
    const char *label;
    double heat_1;
} LegendEntry;
/* Entries side by side, wrapped at the right edge; gives the y under them. */
double plot_legend(Figure *figure, double left_px, double top_px, const LegendEntry *entry,
                   int count);
/* Widens [from, to] by a share of it on both sides. */
void plot_widen(double *from, double *to, double share);

#endif
