/* Axes, grids and legends shared by the pictures. */
#include "plot.h"

#include <math.h>

double axis_px(const Axis *axis, double value)
{
    const double from = axis->log ? log(axis->from) : axis->from;
    const double to = axis->log ? log(axis->to) : axis->to;
    const double at = axis->log ? log(value) : value;
    return axis->from_px + (axis->to_px - axis->from_px) * (at - from) / (to - from);
}

FigurePoint plot_at(const Plot *plot, double x, double y)
{
    return (FigurePoint){axis_px(&plot->x, x), axis_px(&plot->y, y)};
}

bool plot_narrow(const Figure *figure) { return figure->width_px < 600; }

static char *tick_text(Arena *arena, double value, bool stress)
{
    if (!stress || value == 0) return arena_printf(arena, "%.6g", value);
    return arena_printf(arena, "%c %.6g", value < 0 ? 'C' : 'T', fabs(value));
}

void plot_x_axis(const Plot *plot, const char *name)
{
    Figure *f = plot->figure;
    double tick[16];
    const int count = figure_ticks(plot->x.from, plot->x.to, plot_narrow(f) ? 5 : 11, tick);
    for (int i = 0; i < count; i++) {
        const double x = axis_px(&plot->x, tick[i]);
        figure_segment(f, FIGURE_GRID, (FigurePoint){x, plot->y.from_px},
                       (FigurePoint){x, plot->y.to_px});
        figure_text(f, FIGURE_LABEL, (FigurePoint){x, plot->y.from_px + 17}, FIGURE_MIDDLE,
                    tick_text(f->arena, tick[i], false));
    }
    const FigurePoint at = {(plot->x.from_px + plot->x.to_px) / 2, plot->y.from_px + 34};
    figure_text(f, FIGURE_LABEL, at, FIGURE_MIDDLE, name);
}

void plot_y_axis(const Plot *plot, const char *name, bool stress)
{
    Figure *f = plot->figure;
    double tick[16];
    const double low = fmin(plot->y.from, plot->y.to), high = fmax(plot->y.from, plot->y.to);
    const int count = figure_ticks(low, high, 6, tick);
    for (int i = 0; i < count; i++) {
        const double y = axis_px(&plot->y, tick[i]);
        figure_segment(f, tick[i] == 0 ? FIGURE_AXIS : FIGURE_GRID,
                       (FigurePoint){plot->x.from_px, y}, (FigurePoint){plot->x.to_px, y});
        figure_text(f, FIGURE_LABEL, (FigurePoint){plot->x.from_px - 6, y + 4}, FIGURE_END,
                    tick_text(f->arena, tick[i], stress));
    }
    figure_text(f, FIGURE_LABEL, (FigurePoint){4, fmin(plot->y.from_px, plot->y.to_px) - 9},
                FIGURE_START, name);
}

void plot_time_axis(const Plot *plot, const char *name)
{
    static const double day[] = {0.1, 1, 7, 28, 90, 365, 3650, 27375};
    Figure *f = plot->figure;
    for (size_t i = 0; i < sizeof day / sizeof *day; i++) {
        if (day[i] < plot->y.from || day[i] > plot->y.to * 1.001) continue;
        const double y = axis_px(&plot->y, day[i]);
        figure_segment(f, FIGURE_GRID, (FigurePoint){plot->x.from_px - 4, y},
                       (FigurePoint){plot->x.from_px, y});
        figure_text(f, FIGURE_LABEL, (FigurePoint){plot->x.from_px - 6, y + 4}, FIGURE_END,
                    figure_duration(f->arena, day[i]));
    }
    figure_text(f, FIGURE_LABEL, (FigurePoint){4, fmin(plot->y.from_px, plot->y.to_px) - 9},
                FIGURE_START, name);
}

Axis plot_along(const LineAnswer *line, UnitSystem units, double from_px, double to_px)
{
    const StageModel *m = &line->line->model;
    const char *unit = quantity_unit(units, DIM_LENGTH);
    return (Axis){quantity_in(m->x_m[0], unit), quantity_in(m->x_m[m->station_count - 1], unit),
                  from_px, to_px, false};
}

void plot_supports(const Plot *plot, const LineAnswer *line, UnitSystem units, double y_px)
{
    const StageModel *m = &line->line->model;
    for (int s = 0; s < m->support_count; s++) {
        const double x_m = m->x_m[m->support[s].station];
        const double x = axis_px(&plot->x, quantity_in(x_m, quantity_unit(units, DIM_LENGTH)));
        const FigurePoint corner[] = {{x, y_px}, {x - 5, y_px + 8}, {x + 5, y_px + 8}};
        figure_area(plot->figure, FIGURE_SUPPORT, corner, 3)->title = arena_printf(
            plot->figure->arena, "support at %s",
            figure_quantity(plot->figure->arena, x_m, quantity_unit(units, DIM_LENGTH)));
    }
}

static void legend_sample(Figure *figure, double x, double y, const LegendEntry *entry)
{
    if (entry->box) {
        figure_rect(figure, entry->role, (FigurePoint){x, y - 10}, 20, 11)->heat_1 = entry->heat_1;
        return;
    }
    figure_segment(figure, entry->role, (FigurePoint){x, y - 4}, (FigurePoint){x + 24, y - 4});
}

double plot_legend(Figure *figure, double left_px, double top_px, const LegendEntry *entry,
                   int count)
{
    double x = left_px, y = top_px + 13;
    for (int i = 0; i < count; i++) {
        const double width = 30 + figure_text_width_px(entry[i].label, FIGURE_PLAIN);
        if (x > left_px && x + width > figure->width_px - 4) {
            x = left_px;
            y += 19;
        }
        legend_sample(figure, x, y, &entry[i]);
        figure_text(figure, FIGURE_LABEL, (FigurePoint){x + 30, y}, FIGURE_START, entry[i].label);
        x += width + 10;
    }
    return y + 8;
}

void plot_widen(double *from, double *to, double share)
{
    const double by = fmax((*to - *from) * share, 1e-9 + 1e-6 * fabs(*to));
    *from -= by;
    *to += by;
}

double plot_per_SI(UnitSystem units, DimensionId dimension)
{
    return quantity_in(1, quantity_unit(units, dimension));
}

void plot_hits(const Plot *plot, const FigureView *view)
{
    const BridgeLine *b = view->line->line;
    Figure *f = plot->figure;
    const double per_m = plot_per_SI(view->units, DIM_LENGTH);
    const double top = fmin(plot->y.from_px, plot->y.to_px);
    const double height = fabs(plot->y.from_px - plot->y.to_px);
    double left = plot->x.from_px;
    for (int j = 0; j < b->joint_count; j++) {
        const double x_m = b->model.x_m[b->joint[j].station];
        const bool last = j + 1 == b->joint_count;
        const double next_m = last ? x_m : b->model.x_m[b->joint[j + 1].station];
        const double right = last ? plot->x.to_px : axis_px(&plot->x, (x_m + next_m) / 2 * per_m);
        FigureItem *hit =
            figure_rect(f, FIGURE_HIT, (FigurePoint){left, top}, right - left, height);
        hit->title = b->joint[j].mark;
        hit->pick = figure_pick(view, f->arena, j, -1);
        left = right;
    }
}

const char *plot_time_words(const FigureView *view, Arena *arena)
{
    const StageHistory *h = view->line->history;
    const double after_day = h->day[view->time] - h->day[view->line->moments.jacked];
    const int e = h->event[view->time];
    const char *event = e < 0 ? "" : figure_event(&h->model->event[e]);
    const char *when =
        view->time == view->line->moments.jacked ? ""
        : after_day < 0
            ? arena_printf(arena, "%s before jacking", figure_duration(arena, -after_day))
            : arena_printf(arena, "%s after jacking", figure_duration(arena, after_day));
    return arena_printf(arena, "%s%s%s%s", event, event[0] && when[0] ? ", " : "", when,
                        view->predicted ? " (predicted)" : "");
}

void plot_time_axis_along(const Plot *plot, const char *name)
{
    static const double day[] = {0.1, 1, 7, 28, 90, 365, 3650, 27375};
    Figure *f = plot->figure;
    double free_px = -1000;
    for (size_t i = 0; i < sizeof day / sizeof *day; i++) {
        if (day[i] < plot->x.from || day[i] > plot->x.to * 1.001) continue;
        const double x = axis_px(&plot->x, day[i]);
        const char *text = figure_duration(f->arena, day[i]);
        const double half = figure_text_width_px(text, FIGURE_PLAIN) / 2;
        figure_segment(f, FIGURE_GRID, (FigurePoint){x, plot->y.from_px},
                       (FigurePoint){x, plot->y.to_px});
        if (x - half < free_px || x + half > f->width_px) continue;
        figure_text(f, FIGURE_LABEL, (FigurePoint){x, plot->y.from_px + 17}, FIGURE_MIDDLE, text);
        free_px = x + half + 6;
    }
    const FigurePoint at = {(plot->x.from_px + plot->x.to_px) / 2, plot->y.from_px + 34};
    figure_text(f, FIGURE_LABEL, at, FIGURE_MIDDLE, name);
}

const char *plot_fit(Arena *arena, const char *text, FigureSize size, double width_px)
{
    if (figure_text_width_px(text, size) <= width_px) return text;
    size_t length = 0; /* of whole letters that fit with the ellipsis */
    for (size_t i = 1; text[i - 1]; i++) {
        if ((text[i] & 0xC0) == 0x80) continue; /* inside a letter */
        const char *cut = arena_printf(arena, "%.*s\xE2\x80\xA6", (int)i, text);
        if (figure_text_width_px(cut, size) > width_px) break;
        length = i;
    }
    return arena_printf(arena, "%.*s\xE2\x80\xA6", (int)length, text);
}
