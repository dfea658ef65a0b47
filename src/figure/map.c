/* Map of joints against time, coloured by the margin to opening. Bands of colour have their numbers
 * written in and their edges drawn, so that colour is never the only sign. */
#include <assert.h>
#include <math.h>

#include "plot.h"

enum { LEFT = 62, RIGHT = 14, ROWS = 36, LEVELS = 16, NO_BAND = -1 };

typedef struct Map {
    Plot plot;
    const LineAnswer *line;
    int rule;
    UnitSystem units;
    int columns, levels;
    double level[LEVELS]; /* display units, ascending */
    double *margin;       /* [column * ROWS + row], display units; NAN without deck */
    double *edge_px;      /* [columns + 1] */
    double row_day[ROWS + 1];
    const FigureView *view;
    int *row_time;     /* [ROWS]: of the history */
    double opening_px; /* line of the opening to traffic; off the sheet where there is none */
} Map;

static double row_px(const Map *m, int edge) { return axis_px(&m->plot.y, m->row_day[edge]); }

/* The band of a value: how many levels lie at or below it. */
static int band_of(const Map *m, int column, int row)
{
    const double value = m->margin[column * ROWS + row];
    if (isnan(value)) return NO_BAND;
    int band = 0;
    while (band < m->levels && m->level[band] <= value) band++;
    return band;
}

/* 1 where open, else from 0.9 (just closed) down to 0 (the widest margin). */
static double band_heat(const Map *m, int band)
{
    if (band == 0) return 1;
    return m->levels > 1 ? 0.9 * (m->levels - band) / (m->levels - 1) : 0.45;
}

static const char *band_text(const Map *m, int band)
{
    Arena *a = m->plot.figure->arena;
    if (band == 0) return m->view->page ? "below 0: passed" : "below 0: open";
    const char *unit = quantity_unit(m->units, DIM_STRESS);
    if (band == m->levels) return arena_printf(a, "over %.6g %s", m->level[band - 1], unit);
    return arena_printf(a, "%.6g to %.6g", m->level[band - 1], m->level[band]);
}

/* Paper judges by the rule that governs, a page by all that count. */
static double margin_Pa(const Map *m, int joint, int time)
{
    return m->view->page ? thrust_margin_Pa(m->line, joint, time, NULL)
                         : figure_margin_Pa(m->line, m->rule, joint, time);
}

static int time_at(const StageHistory *h, double day)
{
    int time = 0;
    while (time + 1 < h->time_count && h->day[time + 1] <= day) time++;
    return time;
}

static void fill_margins(Map *m, double start_day, double *high)
{
    const double per_Pa = plot_per_SI(m->units, DIM_STRESS);
    *high = -INFINITY;
    for (int row = 0; row < ROWS; row++) {
        const double day = start_day + sqrt(m->row_day[row] * m->row_day[row + 1]);
        const int time = m->row_time[row] = time_at(m->line->history, day);
        for (int column = 0; column < m->columns; column++) {
            const double margin = margin_Pa(m, column, time);
            const double shown = isnan(margin) ? (double)NAN : per_Pa * margin;
            m->margin[column * ROWS + row] = shown;
            if (isnan(shown)) continue;
            *high = fmax(*high, shown);
        }
    }
}

/* Zero and round steps above it: below zero a joint is open, however far. */
static void set_levels(Map *m, double high)
{
    m->level[0] = 0;
    m->levels = 1;
    if (high > 1e-3) m->levels = figure_ticks(0, high, 9, m->level);
}

static void set_edges(Map *m)
{
    const BridgeLine *b = m->line->line;
    const double per_m = plot_per_SI(m->units, DIM_LENGTH);
    m->edge_px[0] = m->plot.x.from_px;
    m->edge_px[m->columns] = m->plot.x.to_px;
    for (int c = 1; c < m->columns; c++) {
        const double x_m =
            (b->model.x_m[b->joint[c - 1].station] + b->model.x_m[b->joint[c].station]) / 2;
        m->edge_px[c] = axis_px(&m->plot.x, per_m * x_m);
    }
}

/* Half a px under the next column: no seam of paper between two roundings. */
static double column_right(const Map *m, int column)
{
    return m->edge_px[column + 1] + (column + 1 < m->columns ? 0.5 : 0);
}

/* Cells that are picked are no higher than this, so that a pick says when. */
enum { PICK_ROWS = 6 };

static bool cell_ends(const Map *m, int column, int row)
{
    if (row + 1 == ROWS || (m->view->page && (row + 1) % PICK_ROWS == 0)) return true;
    return band_of(m, column, row + 1) != band_of(m, column, row);
}

/* One rectangle a run of rows in one band. */
static void draw_column(const Map *m, int column)
{
    Figure *f = m->plot.figure;
    const char *mark = m->line->line->joint[column].mark;
    int from = 0;
    for (int row = 0; row < ROWS; row++) {
        const int band = band_of(m, column, row);
        if (!cell_ends(m, column, row)) continue;
        const FigurePoint corner = {m->edge_px[column], row_px(m, row + 1)};
        if (band != NO_BAND) {
            FigureItem *cell =
                figure_rect(f, FIGURE_HEAT, corner, column_right(m, column) - corner.x_px,
                            row_px(m, from) - corner.y_px);
            cell->heat_1 = band_heat(m, band);
            cell->pick = figure_pick(m->view, f->arena, column, m->row_time[(from + row + 1) / 2]);
            cell->title =
                arena_printf(f->arena, "%s, %s to %s: margin %s%s%s", mark,
                             figure_duration(f->arena, m->row_day[from]),
                             figure_duration(f->arena, m->row_day[row + 1]), band_text(m, band),
                             band == m->levels ? "" : " ",
                             band == m->levels ? "" : quantity_unit(m->units, DIM_STRESS));
        }
        from = row + 1;
    }
}

/* Between two cells: 0 nothing, 1 an edge of bands, 2 the edge of what is open. */
static int edge_kind(const Map *m, int column, int row, int next_column, int next_row)
{
    const int a = band_of(m, column, row), b = band_of(m, next_column, next_row);
    if (a == b || a == NO_BAND || b == NO_BAND) return 0;
    return a == 0 || b == 0 ? 2 : 1;
}

static void draw_edge(const Map *m, int kind, FigurePoint from, FigurePoint to)
{
    if (kind > 0)
        figure_segment(m->plot.figure, kind == 2 ? FIGURE_ZERO : FIGURE_CONTOUR, from, to);
}

/* Edges of one kind in a row are one line. */
static void draw_edges_across(const Map *m, int row)
{
    const double y = row_px(m, row + 1);
    int from = 0;
    for (int c = 0; c < m->columns; c++) {
        const int kind = edge_kind(m, c, row, c, row + 1);
        if (c + 1 < m->columns && edge_kind(m, c + 1, row, c + 1, row + 1) == kind) continue;
        draw_edge(m, kind, (FigurePoint){m->edge_px[from], y}, (FigurePoint){m->edge_px[c + 1], y});
        from = c + 1;
    }
}

static void draw_edges_up(const Map *m, int column)
{
    const double x = m->edge_px[column + 1];
    int from = 0;
    for (int row = 0; row < ROWS; row++) {
        const int kind = edge_kind(m, column, row, column + 1, row);
        if (row + 1 < ROWS && edge_kind(m, column, row + 1, column + 1, row + 1) == kind) continue;
        draw_edge(m, kind, (FigurePoint){x, row_px(m, from)}, (FigurePoint){x, row_px(m, row + 1)});
        from = row + 1;
    }
}

static void draw_edges(const Map *m)
{
    for (int row = 0; row + 1 < ROWS; row++) draw_edges_across(m, row);
    for (int c = 0; c + 1 < m->columns; c++) draw_edges_up(m, c);
}

static void draw_column_numbers(const Map *m, int column, double x_px)
{
    Figure *f = m->plot.figure;
    for (int row = 3; row < ROWS; row += 6) {
        const double value = m->margin[column * ROWS + row];
        if (isnan(value)) continue;
        const double y = (row_px(m, row) + row_px(m, row + 1)) / 2 + 4;
        if (fabs(y - 4 - m->opening_px) < 8) continue; /* the line would strike it out */
        const double tenth = m->units == UNITS_US ? 1 : 10;
        const double round_value = round(value * tenth) / tenth + 0.0; /* no minus zero */
        char *text = arena_printf(f->arena, "%.*f", m->units == UNITS_US ? 0 : 1, round_value);
        figure_text(f, FIGURE_HEAT_TEXT, (FigurePoint){x_px, y}, FIGURE_MIDDLE, text)->size =
            FIGURE_SMALL;
    }
}

/* The margin written into the map, where there is room for a number; always at the joint that
 * governs. */
static void draw_numbers(const Map *m)
{
    const int governs = figure_joint(m->view);
    const bool known = governs >= 0 && governs < m->columns;
    const double keep_px = known ? (m->edge_px[governs] + m->edge_px[governs + 1]) / 2 : -1000;
    double free_px = 0;
    for (int c = 0; c < m->columns; c++) {
        const double x = (m->edge_px[c] + m->edge_px[c + 1]) / 2;
        if (c != governs && (x - 20 < free_px || fabs(x - keep_px) < 42)) continue;
        free_px = x + 22;
        draw_column_numbers(m, c, x);
    }
}

static double opening_find(const Map *m, const FigureMoment *moment, int count)
{
    const int time = thrust_time_open(m->line);
    for (int i = 0; i < count; i++)
        if (moment[i].time == time && moment[i].after_day > m->plot.y.from)
            return axis_px(&m->plot.y, moment[i].after_day);
    return -1000;
}

static void draw_opening(const Map *m)
{
    Figure *f = m->plot.figure;
    if (m->opening_px < 0) return;
    figure_segment(f, FIGURE_LIMIT, (FigurePoint){m->plot.x.from_px, m->opening_px},
                   (FigurePoint){m->plot.x.to_px, m->opening_px});
}

/* On a page: the joint and the time that are looked at. */
static void draw_seen(const Map *m)
{
    Figure *f = m->plot.figure;
    const StageHistory *h = m->line->history;
    const int joint = figure_joint(m->view);
    if (joint >= 0) {
        const double left = m->edge_px[joint], right = m->edge_px[joint + 1];
        figure_rect(f, FIGURE_SEEN, (FigurePoint){left, m->plot.y.to_px}, right - left,
                    m->plot.y.from_px - m->plot.y.to_px);
    }
    const double after_day = h->day[m->view->time] - h->day[m->line->moments.jacked];
    if (m->view->time < m->line->moments.jacked) return;
    const double y = axis_px(&m->plot.y, fmin(m->plot.y.to, fmax(m->plot.y.from, after_day)));
    figure_segment(f, FIGURE_SEEN, (FigurePoint){m->plot.x.from_px, y},
                   (FigurePoint){m->plot.x.to_px, y});
}

static double draw_legend(const Map *m, double top_px)
{
    LegendEntry entry[LEVELS + 2];
    for (int band = 0; band <= m->levels; band++)
        entry[band] = (LegendEntry){FIGURE_HEAT, true, band_text(m, band), band_heat(m, band)};
    entry[m->levels + 1] = (LegendEntry){FIGURE_LIMIT, false, "opening to traffic", 0};
    return plot_legend(m->plot.figure, 4, top_px, entry, m->levels + 2);
}

static FigureTable *map_table(const Map *m, Arena *arena)
{
    FigureMoment moment[5];
    const int count = figure_moments(m->line, moment);
    const char *unit = quantity_unit(m->units, DIM_STRESS);
    FigureTable *t = figure_table_start(
        arena, arena_printf(arena, "Margin to opening [%s], negative where open", unit), 1 + count);
    figure_table_column(t, 0, false, "joint");
    for (int i = 0; i < count; i++) figure_table_column(t, 1 + i, true, moment[i].label);
    for (int c = 0; c < m->columns; c++) {
        const char *cell[6] = {m->line->line->joint[c].mark};
        for (int i = 0; i < count; i++) {
            const double margin = margin_Pa(m, c, moment[i].time);
            cell[1 + i] = isnan(margin) ? "no deck"
                                        : arena_printf(arena, "%.*f", m->units == UNITS_US ? 0 : 2,
                                                       quantity_in(margin, unit));
        }
        figure_table_row(t, cell);
    }
    return t;
}

static void map_draw(Map *m, const FigureMoment *moment, int count, double height)
{
    Figure *f = m->plot.figure;
    double high;
    const double first = 0.5, last = fmax(moment[count - 1].after_day, 2);
    for (int row = 0; row <= ROWS; row++)
        m->row_day[row] = first * pow(last / first, (double)row / ROWS);
    fill_margins(m, m->line->history->day[moment[0].time], &high);
    set_levels(m, high);
    set_edges(m);
    const double top = draw_legend(m, 0) + 24;
    m->plot.y = (Axis){first, last, top + height, top, true};
    m->opening_px = opening_find(m, moment, count);
    for (int c = 0; c < m->columns; c++) draw_column(m, c);
    draw_edges(m);
    draw_numbers(m);
    draw_opening(m);
    if (m->view->page) draw_seen(m);
    plot_time_axis(&m->plot, "time after jacking, upwards");
    Plot axis = m->plot; /* no grid over the colours */
    axis.y = (Axis){0, 1, top + height, top + height - 4, false};
    plot_x_axis(&axis, arena_printf(f->arena, "station [%s]", quantity_unit(m->units, DIM_LENGTH)));
    f->height_px = top + height + 44;
}

Figure *figure_map(const FigureView *view, Arena *arena)
{
    const LineAnswer *line = view->line;
    const UnitSystem units = view->units;
    const double width_px = view->width_px;
    Figure *f = figure_start(arena, "map", width_px, 60);
    f->title = arena_printf(arena, "Margin to opening of every joint through the life, %s",
                            line->line->name);
    const int rule = figure_rule(line);
    f->description = arena_printf(
        arena,
        "Across: the bridge; up: time after jacking on a logarithmic scale. Numbers and bands: "
        "compression in %s that is left above the limit at the worse fibre, by the rule %s; below "
        "zero the joint is open. Before opening to traffic: permanent stress alone. Governs: %s.",
        quantity_unit(units, DIM_STRESS),
        view->page ? "that is nearest"
        : rule < 0 ? "none"
                   : line->line->rule[rule].name,
        line->finish.joint < 0 ? "none" : line->line->joint[line->finish.joint].mark);
    FigureMoment moment[5];
    const int count = figure_moments(line, moment);
    const int columns = line->line->joint_count;
    if (rule < 0 || count < 2 || columns < 1) return f;
    Map m = {.plot = {f, plot_along(line, units, LEFT, width_px - RIGHT), {0, 1, 0, 0, false}},
             .line = line,
             .rule = rule,
             .units = units,
             .columns = columns,
             .margin = ARENA_NEW(arena, double, (size_t)columns *ROWS),
             .edge_px = ARENA_NEW(arena, double, columns + 1),
             .view = view,
             .row_time = ARENA_NEW(arena, int, ROWS)};
    map_draw(&m, moment, count, plot_narrow(f) ? 260 : 340);
    f->table = map_table(&m, arena);
    return f;
}
