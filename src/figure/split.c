/* What ate the compression: falling bars from the jacked stress to the end of life, by cause. */
#include <math.h>

#include "plot.h"

enum { ROW = 27, NARROW_ROW = 42 };

typedef struct Fall {
    Plot plot;
    const LineAnswer *line;
    UnitSystem units;
    Split jacked, then;
    const char *then_label;
    bool top;        /* top fibre, else the mean of the depth */
    double label_px; /* room left of the bars; 0: labels above */
    double y_px;
} Fall;

static double cause_Pa(const Fall *s, const Split *split, int cause)
{
    return s->top ? split->top_Pa[cause] : split->mean_Pa[cause];
}

static double total_Pa(const Fall *s, const Split *split)
{
    return s->top ? split->top_total_Pa : split->mean_total_Pa;
}

/* Compression counts upwards here. */
static double shown(const Fall *s, double stress_Pa)
{
    return quantity_in(-stress_Pa, quantity_unit(s->units, DIM_STRESS));
}

static double change_Pa(const Fall *s, int cause)
{
    return cause_Pa(s, &s->then, cause) - cause_Pa(s, &s->jacked, cause);
}

static char *change_text(const Fall *s, double change_Pa)
{
    Arena *a = s->plot.figure->arena;
    const double size = fabs(shown(s, change_Pa));
    return arena_printf(a, "%.*f %s", s->units == UNITS_US ? 0 : 2, size,
                        change_Pa > 0 ? "less" : "more");
}

static void draw_bar(Fall *s, FigureRole role, const char *label, double from, double to,
                     const char *number)
{
    Figure *f = s->plot.figure;
    const bool above = s->label_px == 0;
    const double y = s->y_px + (above ? 17 : 4);
    const double left = axis_px(&s->plot.x, fmin(from, to));
    const double right = axis_px(&s->plot.x, fmax(from, to));
    figure_text(f, role == FIGURE_TOTAL ? FIGURE_STRONG : FIGURE_LABEL,
                (FigurePoint){above ? 15 : s->label_px, s->y_px + (above ? 12 : 18)},
                above ? FIGURE_START : FIGURE_END, label);
    figure_rect(f, role, (FigurePoint){left, y}, fmax(right - left, 1.5), ROW - 8)->title =
        arena_printf(f->arena, "%s: %s", label, number);
    const double width = figure_text_width_px(number, FIGURE_PLAIN);
    const bool outside_left = right + 6 + width > f->width_px && left - 6 - width > s->label_px;
    figure_text(f, role == FIGURE_TOTAL ? FIGURE_STRONG : FIGURE_LABEL,
                above ? (FigurePoint){f->width_px - 6, s->y_px + 12}
                      : (FigurePoint){outside_left ? left - 6 : right + 6, y + 14},
                above || outside_left ? FIGURE_END : FIGURE_START, number);
    s->y_px += above ? NARROW_ROW : ROW;
}

static void set_axis(Fall *s)
{
    double low = 0, high = 0;
    for (int top = 0; top < 2; top++) {
        s->top = top;
        double at = shown(s, total_Pa(s, &s->jacked));
        high = fmax(high, at);
        low = fmin(low, at);
        for (int c = 0; c < CAUSE_COUNT; c++) {
            at += shown(s, change_Pa(s, c));
            high = fmax(high, at);
            low = fmin(low, at);
        }
    }
    high += fmax((high - low) * (s->label_px > 0 ? 0.14 : 0.02), 1e-6);
    s->plot.x = (Axis){low, high, fmax(s->label_px + 10, 10), s->plot.figure->width_px - 14, false};
}

static void draw_fall(Fall *s, bool top)
{
    s->top = top;
    Figure *f = s->plot.figure;
    const char *unit = quantity_unit(s->units, DIM_STRESS);
    const double start_px = s->y_px;
    figure_text(f, FIGURE_STRONG, (FigurePoint){4, s->y_px + 4}, FIGURE_START,
                arena_printf(f->arena, "%s [%s]", top ? "Top fibre" : "Mean of the depth", unit));
    s->y_px += 12;
    double at = shown(s, total_Pa(s, &s->jacked));
    draw_bar(s, FIGURE_TOTAL, "jacked", 0, at,
             figure_stress_short(f->arena, total_Pa(s, &s->jacked), s->units));
    for (int c = 0; c < CAUSE_COUNT; c++) {
        const double change = change_Pa(s, c), next = at + shown(s, change);
        if (fabs(shown(s, change)) < (s->units == UNITS_US ? 0.5 : 0.005)) {
            at = next;
            continue;
        }
        draw_bar(s, change > 0 ? FIGURE_LOSS : FIGURE_GAIN, cause_text((Cause)c), at, next,
                 change_text(s, change));
        at = next;
    }
    draw_bar(s, FIGURE_TOTAL, s->then_label, 0, shown(s, total_Pa(s, &s->then)),
             figure_stress_short(f->arena, total_Pa(s, &s->then), s->units));
    const double zero = axis_px(&s->plot.x, 0);
    figure_segment(f, FIGURE_AXIS, (FigurePoint){zero, start_px + 10},
                   (FigurePoint){zero, s->y_px});
    s->y_px += 26;
}

FigureTable *figure_split_table(const LineAnswer *line, UnitSystem units, Arena *arena)
{
    const Split *const split[] = {&line->jacked, &line->opening, &line->finish};
    FigureTable *t = figure_table_start(
        arena,
        arena_printf(arena, "Stress of the deck at %s by cause [%s]; C compression, T tension",
                     line->finish.joint >= 0 ? line->line->joint[line->finish.joint].mark
                                             : "the joint",
                     quantity_unit(units, DIM_STRESS)),
        7);
    static const char *const head[] = {"cause",      "mean jacked", "opening", "end",
                                       "top jacked", "opening",     "end"};
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int c = 0; c <= CAUSE_COUNT; c++) {
        const char *cell[7];
        bool any = false;
        cell[0] = c < CAUSE_COUNT ? cause_text((Cause)c) : "together";
        for (int k = 0; k < 3; k++) {
            const double mean = c < CAUSE_COUNT ? split[k]->mean_Pa[c] : split[k]->mean_total_Pa;
            const double top = c < CAUSE_COUNT ? split[k]->top_Pa[c] : split[k]->top_total_Pa;
            cell[1 + k] = figure_stress_short(arena, mean, units);
            cell[4 + k] = figure_stress_short(arena, top, units);
            any = any || mean != 0 || top != 0;
        }
        if (any) figure_table_row(t, cell);
    }
    return t;
}

/* On a page: of the joint and up to the time that are looked at, after jacking. */
static void look_at_joint(Fall *s, const FigureView *view, int joint)
{
    const LineAnswer *line = view->line;
    const Moments *m = &line->moments;
    const int only = thrust_joint_side(line->line, joint);
    const int side = only                                               ? only
                     : joint == line->finish.joint && line->finish.side ? line->finish.side
                                                                        : -1;
    s->jacked = thrust_split(line, joint, side, m->jacked);
    const int then = view->time > m->jacked ? view->time : m->end;
    s->then = thrust_split(line, joint, side, then);
    s->then_label = plot_fit(s->plot.figure->arena,
                             figure_when(s->plot.figure->arena, line, line->history->day[then]),
                             FIGURE_PLAIN, s->label_px > 0 ? s->label_px - 6 : 230);
}

static FigureTable *page_table(const Fall *s, Arena *arena)
{
    const char *unit = quantity_unit(s->units, DIM_STRESS);
    const double per_Pa = plot_per_SI(s->units, DIM_STRESS);
    FigureTable *t = figure_table_start(arena, "Stress of the deck by cause; tension positive", 5);
    const char *const head[] = {"cause", arena_printf(arena, "mean, jacked [%s]", unit),
                                arena_printf(arena, "mean, %s [%s]", s->then_label, unit),
                                arena_printf(arena, "top, jacked [%s]", unit),
                                arena_printf(arena, "top, %s [%s]", s->then_label, unit)};
    for (int c = 0; c < 5; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int c = 0; c <= CAUSE_COUNT; c++) {
        const bool all = c == CAUSE_COUNT;
        const double value_Pa[] = {all ? s->jacked.mean_total_Pa : s->jacked.mean_Pa[c],
                                   all ? s->then.mean_total_Pa : s->then.mean_Pa[c],
                                   all ? s->jacked.top_total_Pa : s->jacked.top_Pa[c],
                                   all ? s->then.top_total_Pa : s->then.top_Pa[c]};
        const char *cell[5] = {all ? "together" : cause_text((Cause)c)};
        for (int k = 0; k < 4; k++)
            cell[1 + k] = arena_printf(arena, "%.3f", per_Pa * value_Pa[k] + 0.0);
        figure_table_row(t, cell);
    }
    return t;
}

Figure *figure_split(const FigureView *view, Arena *arena)
{
    const LineAnswer *line = view->line;
    const UnitSystem units = view->units;
    const double width_px = view->width_px;
    Figure *f = figure_start(arena, "split", width_px, 60);
    const int joint = figure_joint(view);
    const char *mark =
        joint >= 0 && joint < line->line->joint_count ? line->line->joint[joint].mark : "no joint";
    f->title =
        arena_printf(arena, "What became of the compression at %s, %s", mark, line->line->name);
    f->description =
        "From the day of jacking to the end of life, by cause; the bars add up. Permanent "
        "stress, without live load and temperature gradient; C compression, T tension.";
    Fall s = {.plot = {f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}},
              .line = line,
              .units = units,
              .jacked = line->jacked,
              .then = line->finish,
              .then_label = "end of life",
              .label_px = plot_narrow(f) ? 0 : 250,
              .y_px = 14};
    if (view->page && joint >= 0) look_at_joint(&s, view, joint);
    set_axis(&s);
    draw_fall(&s, false);
    draw_fall(&s, true);
    f->height_px = s.y_px;
    f->table = view->page ? page_table(&s, arena) : figure_split_table(line, units, arena);
    return f;
}
