/* The window of the thrust: what every rule needs, what every limit allows, and what lies between. */
#include <math.h>

#include "plot.h"

enum { ROW = 26, NARROW_ROW = 40 };

typedef struct Window {
    Plot plot;
    const LineAnswer *line;
    UnitSystem units;
    double label_px, y_px;
} Window;

static double force(const Window *w, double force_N)
{
    return quantity_in(force_N, quantity_unit(w->units, DIM_FORCE));
}

static void row_label(const Window *w, FigureRole role, const char *label)
{
    const bool above = w->label_px == 0;
    figure_text(w->plot.figure, role,
                (FigurePoint){above ? 4 : w->label_px, w->y_px + (above ? 13 : 17)},
                above ? FIGURE_START : FIGURE_END, label);
}

/* A thin bar over the thrusts that a rule or limit allows, a dot at its end, the number there. */
static void draw_row(Window *w, FigureRole role, const char *label, double from, double to)
{
    Figure *f = w->plot.figure;
    const bool above = w->label_px == 0, need = role == FIGURE_NEED;
    const double y = w->y_px + (above ? 26 : 13);
    const double left = axis_px(&w->plot.x, from), right = axis_px(&w->plot.x, to);
    row_label(w, FIGURE_LABEL, label);
    const double end = need ? left : right;
    char *number = arena_printf(f->arena, "%.0f", need ? from : to);
    const double width = figure_text_width_px(number, FIGURE_PLAIN) + 8;
    const bool flip = need ? end - width < w->plot.x.from_px : end + width > f->width_px - 2;
    const double from_px = need && flip ? fmin(right, left + width + 6) : left;
    const double to_px = !need && flip ? fmax(left, right - width - 6) : right;
    figure_segment(f, role, (FigurePoint){from_px, y}, (FigurePoint){to_px, y})->title =
        arena_printf(f->arena, "%s: %s %s %s", label, need ? "at least" : "at most", number,
                     quantity_unit(w->units, DIM_FORCE));
    figure_dot(f, role, (FigurePoint){end, y}, 4);
    figure_text(f, FIGURE_STRONG, (FigurePoint){end + (need != flip ? -8 : 8), y + 4},
                need != flip ? FIGURE_END : FIGURE_START, number);
    w->y_px += above ? NARROW_ROW : ROW;
}

static void draw_words(Window *w, FigureRole role, const char *label, const char *words)
{
    const bool above = w->label_px == 0;
    row_label(w, FIGURE_LABEL, label);
    figure_text(w->plot.figure, role,
                (FigurePoint){w->plot.x.from_px + 6, w->y_px + (above ? 30 : 17)}, FIGURE_START,
                words);
    w->y_px += above ? NARROW_ROW : ROW;
}

static void draw_rule(Window *w, int r)
{
    const RuleAnswer *rule = &w->line->rule[r];
    const JointRule *by = &w->line->line->rule[r];
    Figure *f = w->plot.figure;
    const char *label = by->counts ? by->name : arena_printf(f->arena, "(%s)", by->name);
    if (!rule->reachable)
        draw_words(w, FIGURE_NOTE, label, "no thrust in the tried range closes it");
    else if (rule->need_N <= 0)
        draw_words(w, FIGURE_NOTE, label, "needs no thrust");
    else
        draw_row(w, FIGURE_NEED, label, force(w, rule->need_N), w->plot.x.to);
}

static void draw_limit(Window *w, int k)
{
    const LimitAnswer *limit = &w->line->limit[k];
    const char *name = w->line->line->limit[k].name;
    const double most = force(w, limit->most_N);
    if (!isfinite(limit->most_N))
        draw_words(w, FIGURE_NOTE, name, "never reached");
    else if (most <= 0)
        draw_words(w, FIGURE_NOTE, name, "passed without any thrust");
    else if (most > w->plot.x.to)
        draw_words(w, FIGURE_NOTE, name,
                   arena_printf(w->plot.figure->arena, "%.0f, beyond the scale", most));
    else
        draw_row(w, FIGURE_MOST, name, 0, most);
}

/* The scale holds all needs, and limits up to a few times the need. */
static double scale_end(const Window *w)
{
    double end = fmax(force(w, w->line->need_N), 0);
    for (int r = 0; r < w->line->line->rule_count; r++)
        if (w->line->rule[r].reachable) end = fmax(end, force(w, w->line->rule[r].need_N));
    const double most = force(w, w->line->most_N);
    if (isfinite(most)) end = fmax(end, most);
    const double room = 2.5 * end;
    for (int k = 0; k < w->line->line->limit_count; k++) {
        const double at = force(w, w->line->limit[k].most_N);
        if (isfinite(at) && at <= room) end = fmax(end, at);
    }
    return end > 0 ? 1.12 * end : 1;
}

static void draw_span(const Window *w, double top, double bottom)
{
    const double need = fmax(0, force(w, w->line->need_N));
    const double most = fmin(force(w, w->line->most_N), w->plot.x.to);
    if (!isfinite(need)) return;
    const bool open = need <= most;
    const double left = axis_px(&w->plot.x, fmax(0, fmin(need, most)));
    const double right = axis_px(&w->plot.x, fmin(w->plot.x.to, fmax(need, most)));
    figure_rect(w->plot.figure, open ? FIGURE_WINDOW : FIGURE_CLASH, (FigurePoint){left, top},
                fmax(right - left, 1), bottom - top)
        ->title = open ? "window: by the rules that count and the limits, all borrowed"
                       : "no window: the need lies above the limit";
}

static FigureTable *window_table(const LineAnswer *line, UnitSystem units, Arena *arena)
{
    const char *unit = quantity_unit(units, DIM_FORCE);
    FigureTable *t = figure_table_start(arena, "Thrust of the line by rule and limit", 5);
    static const char *const head[] = {"rule or limit", "source", NULL, "where", "when"};
    for (int c = 0; c < 5; c++)
        figure_table_column(t, c, c == 2,
                            c == 2 ? arena_printf(arena, "thrust [%s]", unit) : head[c]);
    for (int r = 0; r < line->line->rule_count; r++) {
        const RuleAnswer *a = &line->rule[r];
        const bool needs = a->reachable && a->need_N > 0;
        figure_table_row(
            t, (const char *[]){
                   line->line->rule[r].name, line->line->rule[r].clause,
                   needs ? arena_printf(arena, "at least %.1f", quantity_in(a->need_N, unit))
                         : (a->reachable ? "none needed" : "not reachable"),
                   figure_where(arena, line, &a->at, units), figure_when(arena, line, a->at.day)});
    }
    for (int k = 0; k < line->line->limit_count; k++) {
        const LimitAnswer *a = &line->limit[k];
        const bool bound = isfinite(a->most_N);
        figure_table_row(t, (const char *[]){line->line->limit[k].name, line->line->limit[k].clause,
                                             bound ? arena_printf(arena, "at most %.1f",
                                                                  quantity_in(a->most_N, unit))
                                                   : "never reached",
                                             bound ? figure_where(arena, line, &a->at, units) : "",
                                             bound ? figure_when(arena, line, a->at.day) : ""});
    }
    return t;
}

static void draw_rows(Window *w)
{
    for (int r = 0; r < w->line->line->rule_count; r++)
        if (w->line->line->rule[r].counts) draw_rule(w, r);
    for (int r = 0; r < w->line->line->rule_count; r++)
        if (!w->line->line->rule[r].counts) draw_rule(w, r);
    w->y_px += 8;
    for (int k = 0; k < w->line->line->limit_count; k++) draw_limit(w, k);
}

Figure *figure_window(const FigureView *view, Arena *arena)
{
    const LineAnswer *line = view->line;
    const UnitSystem units = view->units;
    const double width_px = view->width_px;
    Figure *f = figure_start(arena, "window", width_px, 60);
    f->title = arena_printf(arena, "The window of the thrust, %s", line->line->name);
    f->description =
        "Right of its dot a rule is kept; left of its dot a limit is kept. Shaded: between "
        "the largest need that counts and the smallest limit. Rules in brackets are "
        "shown only. Every rule and limit is borrowed: a shaded window is a proposal.";
    Window w = {
        {f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}}, line, units, plot_narrow(f) ? 0 : 390, 0};
    const bool open = line->need_N <= line->most_N;
    const LegendEntry entry[] = {
        {FIGURE_NEED, false, "rules: at least", 0},
        {FIGURE_MOST, false, "limits: at most", 0},
        {open ? FIGURE_WINDOW : FIGURE_CLASH, true, open ? "window" : "clash: no window", 0}};
    const double top = plot_legend(f, 4, 0, entry, 3) + 6;
    const int rows = line->line->rule_count + line->line->limit_count;
    const double bottom = top + rows * (w.label_px > 0 ? ROW : NARROW_ROW) + 12;
    w.plot.x = (Axis){0, 1, w.label_px + 14, width_px - 22, false};
    w.plot.x.to = scale_end(&w);
    w.plot.y = (Axis){0, 1, bottom, top, false};
    draw_span(&w, top, bottom);
    plot_x_axis(&w.plot,
                arena_printf(arena, "thrust of the line [%s]", quantity_unit(units, DIM_FORCE)));
    w.y_px = top;
    draw_rows(&w);
    f->height_px = bottom + 42;
    f->table = window_table(line, units, arena);
    return f;
}
