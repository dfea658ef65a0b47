/* The window of the thrust: what every rule needs, what every limit allows, and what lies between. */
#include <math.h>

#include "page.h"
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

/* ---- of a page: the whole deck's window as one bar, its ends named, the thrust that is looked at ---- */

enum { BAR_TOP = 44, BAR = 26, BAR_LEFT = 14 };

typedef struct Bar {
    Plot plot;
    const FigureView *view;
    double per_N;
} Bar;

static const char *most_name(const LineAnswer *line)
{
    if (line->most_limit >= 0) return line->line->limit[line->most_limit].name;
    return line->most_rule >= 0 ? line->line->rule[line->most_rule].name : "no limit";
}

/* An end of the bar: what it is called and what sets it. */
typedef struct BarEnd {
    bool need, left; /* left of the other end */
    double at_px;
    const char *number, *name, *pick;
} BarEnd;

/* Names below, those of the left end from there on, of the right end up to there; on a narrow sheet one
 * below the other. */
static void draw_end(const Bar *b, const BarEnd *end)
{
    Figure *f = b->plot.figure;
    const bool narrow = plot_narrow(f);
    const double middle = f->width_px / 2;
    const double y = b->plot.y.from_px + (narrow && !end->need ? 54 : 18);
    const double x = narrow      ? 4
                     : end->left ? fmax(4, fmin(end->at_px, middle - 280))
                                 : fmin(f->width_px - 4, fmax(end->at_px, middle + 280));
    const double room_px = narrow ? f->width_px - 8 : end->left ? middle - x : x - middle;
    const FigureAnchor side = narrow || end->left ? FIGURE_START : FIGURE_END;
    figure_segment(f, end->need ? FIGURE_NEED : FIGURE_MOST,
                   (FigurePoint){end->at_px, b->plot.y.to_px - 4},
                   (FigurePoint){end->at_px, b->plot.y.from_px + 4});
    figure_text(f, FIGURE_STRONG, (FigurePoint){x, y}, side,
                plot_fit(f->arena, end->number, FIGURE_PLAIN, room_px))
        ->pick = end->pick;
    figure_text(f, FIGURE_LABEL, (FigurePoint){x, y + 16}, side,
                plot_fit(f->arena, end->name, FIGURE_PLAIN, room_px))
        ->pick = end->pick;
}

static void draw_needle(const Bar *b)
{
    Figure *f = b->plot.figure;
    const ThrustAnswer *a = b->view->answer;
    const double x = axis_px(&b->plot.x, b->per_N * a->thrust_N);
    const char *text = arena_printf(
        f->arena, "%s: %s%s", a->met ? "in the window" : "not in the window",
        figure_quantity(f->arena, a->thrust_N, quantity_unit(b->view->units, DIM_FORCE)),
        b->view->predicted ? " (predicted)" : "");
    const double half = figure_text_width_px(text, FIGURE_PLAIN) / 2 + 4;
    figure_segment(f, FIGURE_AXIS, (FigurePoint){x, b->plot.y.to_px - 10},
                   (FigurePoint){x, b->plot.y.from_px});
    const FigurePoint head[] = {
        {x, b->plot.y.to_px}, {x - 6, b->plot.y.to_px - 11}, {x + 6, b->plot.y.to_px - 11}};
    figure_area(f, a->met ? FIGURE_SUPPORT : FIGURE_OPEN, head, 3);
    figure_text(f, a->met ? FIGURE_STRONG : FIGURE_GOVERNS,
                (FigurePoint){fmax(half, fmin(f->width_px - half, x)), b->plot.y.to_px - 16},
                FIGURE_MIDDLE, text);
}

static const char *line_pick(const Bar *b, int line, int joint)
{
    return joint < 0 ? arena_printf(b->plot.figure->arena, "line:%d", line)
                     : arena_printf(b->plot.figure->arena, "line:%d joint:%d", line, joint);
}

static void draw_ends(const Bar *b)
{
    Arena *arena = b->plot.figure->arena;
    const ThrustAnswer *a = b->view->answer;
    const char *unit = quantity_unit(b->view->units, DIM_FORCE);
    const LineAnswer *governs = &a->line[a->governing_line];
    const bool clash = a->reachable && a->need_N > a->most_N;
    if (a->reachable && governs->need_rule >= 0) {
        const Governing *at = &governs->rule[governs->need_rule].at;
        draw_end(
            b, &(BarEnd){true, !clash, axis_px(&b->plot.x, b->per_N * a->need_N),
                         arena_printf(arena, "needed %s", figure_quantity(arena, a->need_N, unit)),
                         arena_printf(arena, "%s, %s", governs->line->rule[governs->need_rule].name,
                                      figure_where(arena, governs, at, b->view->units)),
                         line_pick(b, a->governing_line, at->joint)});
    }
    if (a->limiting_line < 0 || !isfinite(a->most_N)) return;
    draw_end(b,
             &(BarEnd){false, clash, axis_px(&b->plot.x, fmin(b->per_N * a->most_N, b->plot.x.to)),
                       arena_printf(arena, "at most %s", figure_quantity(arena, a->most_N, unit)),
                       most_name(&a->line[a->limiting_line]), line_pick(b, a->limiting_line, -1)});
}

/* The window, or where need and limit clash: said in it too. */
static void draw_between(const Bar *b)
{
    Figure *f = b->plot.figure;
    const ThrustAnswer *a = b->view->answer;
    const double need_N = fmin(fmax(a->need_N, a->least_N), 1e12);
    const double need_px = axis_px(&b->plot.x, fmin(b->per_N * need_N, b->plot.x.to));
    const double most_px = isfinite(a->most_N)
                               ? axis_px(&b->plot.x, fmin(b->per_N * a->most_N, b->plot.x.to))
                               : b->plot.x.to_px;
    const double width_px = fabs(most_px - need_px);
    const char *word = a->window ? "window" : "no window";
    if (!a->reachable) return;
    figure_rect(f, a->window ? FIGURE_WINDOW : FIGURE_CLASH,
                (FigurePoint){fmin(need_px, most_px), BAR_TOP}, fmax(1, width_px), BAR)
        ->title = a->window ? "window" : "no window: the need lies above the limit";
    if (figure_text_width_px(word, FIGURE_PLAIN) + 12 < width_px)
        figure_text(f, FIGURE_NOTE, (FigurePoint){(need_px + most_px) / 2, BAR_TOP + 17},
                    FIGURE_MIDDLE, word);
}

Figure *page_window(const FigureView *view, Arena *arena)
{
    const ThrustAnswer *a = view->answer;
    Figure *f = figure_start(arena, "window", view->width_px, 60);
    Bar b = {.plot = {f,
                      {0, 1, BAR_LEFT, view->width_px - BAR_LEFT, false},
                      {0, 1, BAR_TOP + BAR, BAR_TOP, false}},
             .view = view,
             .per_N = plot_per_SI(view->units, DIM_FORCE)};
    const double most_N = isfinite(a->most_N) ? fmin(a->most_N, 2.5 * fmax(a->need_N, 1)) : 0;
    b.plot.x.to = 1.12 * b.per_N * fmax(fmax(a->thrust_N, most_N), fmax(a->need_N, 1));
    f->title = "Window of the thrust of the whole deck";
    f->description = arena_printf(
        arena,
        "Shaded: between what the joints need and the first limit. Every rule and limit is "
        "borrowed: a window is a proposal. %s",
        a->window ? "" : "Here it is empty: the need lies above the limit.");
    figure_rect(f, FIGURE_GIRDER, (FigurePoint){BAR_LEFT, BAR_TOP}, view->width_px - 2 * BAR_LEFT,
                BAR);
    draw_between(&b);
    draw_ends(&b);
    draw_needle(&b);
    f->height_px = BAR_TOP + BAR + (plot_narrow(f) ? 82 : 46);
    f->table = window_table(view->line, view->units, arena);
    return f;
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
