/* Pictures of many lives: chance against thrust, how margins spread with the years, what moves the need. */
#include <math.h>

#include "plot.h"

enum {
    CHANCE_HEIGHT = 200,
    FAN_HEIGHT = 200,
    BAR = 24,
    LABELS = 190,
    CAUSES_SHOWN = 8,
    CURVE = 120
};

/* ---- chance against thrust ---- */

static double chance_at(const OddsAnswer *odds, double thrust_N)
{
    const int count = (int)odds->study->lives;
    int low = 0, high = count; /* of needs not above it */
    while (low < high) {
        const int middle = (low + high) / 2;
        if (odds->need_N[middle] <= thrust_N)
            low = middle + 1;
        else
            high = middle;
    }
    return 100.0 * low / count;
}

/* From the least need to what nearly all are content with. */
static Axis thrusts(const OddsAnswer *odds, double per_N, double from_px, double to_px)
{
    const int count = (int)odds->study->lives;
    double most = odds->study->thrust_N;
    for (int i = 0; i < count && i <= (int)(0.995 * count); i++)
        if (isfinite(odds->need_N[i])) most = fmax(most, odds->need_N[i]);
    double least = isfinite(odds->need_N[0]) ? fmin(odds->need_N[0], odds->study->thrust_N)
                                             : 0.5 * odds->study->thrust_N;
    plot_widen(&least, &most, 0.05);
    return (Axis){per_N * fmax(least, 0), per_N * most, from_px, to_px, false};
}

static void draw_band(const Plot *plot, const OddsAnswer *odds, double per_N)
{
    Figure *f = plot->figure;
    FigurePoint *band = ARENA_NEW(f->arena, FigurePoint, 2 * CURVE);
    FigurePoint *line = ARENA_NEW(f->arena, FigurePoint, CURVE);
    const int lives = (int)odds->study->lives;
    for (int i = 0; i < CURVE; i++) {
        const double thrust = plot->x.from + (plot->x.to - plot->x.from) * i / (CURVE - 1);
        const double chance = chance_at(odds, thrust / per_N);
        double low, high;
        share_interval((int)lround(chance / 100 * lives), lives, 0.95, &low, &high);
        line[i] = plot_at(plot, thrust, chance);
        band[i] = plot_at(plot, thrust, 100 * low);
        band[2 * CURVE - 1 - i] = plot_at(plot, thrust, 100 * high);
    }
    figure_area(f, FIGURE_BAND, band, 2 * CURVE)->title = "95 % confidence";
    figure_lines(f, FIGURE_MOMENT_4, line, CURVE)->title = "chance that every joint stays closed";
}

static void draw_mark(const Plot *plot, FigureRole role, double thrust, const char *label,
                      double y_px)
{
    if (thrust < plot->x.from || thrust > plot->x.to) return;
    const double x = axis_px(&plot->x, thrust);
    figure_segment(plot->figure, role, (FigurePoint){x, plot->y.from_px},
                   (FigurePoint){x, plot->y.to_px});
    const bool flip = x + figure_text_width_px(label, FIGURE_SMALL) + 6 > plot->x.to_px;
    figure_text(plot->figure, FIGURE_LABEL, (FigurePoint){flip ? x - 4 : x + 4, y_px},
                flip ? FIGURE_END : FIGURE_START, label)
        ->size = FIGURE_SMALL;
}

static FigureTable *chance_table(const OddsAnswer *odds, const char *unit, Arena *arena)
{
    FigureTable *t = figure_table_start(arena, "Thrust that so many lives are content with", 2);
    figure_table_column(t, 0, true, "lives [%]");
    figure_table_column(t, 1, true, arena_printf(arena, "thrust [%s]", unit));
    for (int k = 1; k < 20; k++) {
        const double need_N = odds->need_N[(uint32_t)k * odds->study->lives / 20];
        figure_table_row(
            t, (const char *[]){arena_printf(arena, "%d", 5 * k),
                                isfinite(need_N) ? figure_quantity(arena, need_N, unit) : "none"});
    }
    return t;
}

Figure *figure_odds_chance(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena)
{
    Figure *f = figure_start(arena, "chance", width_px, CHANCE_HEIGHT + 78);
    const char *unit = quantity_unit(units, DIM_FORCE);
    const double per_N = plot_per_SI(units, DIM_FORCE), top = 26;
    const Plot plot = {
        f, thrusts(odds, per_N, 48, width_px - 12), {0, 100, top + CHANCE_HEIGHT, top, false}};
    const OddsThrust *wanted = &odds->thrust[odds->wanted];
    f->title = "Chance against thrust";
    f->description =
        "Share of the lives in which every joint stays closed, by the thrust of the whole deck.";
    plot_y_axis(&plot, "lives with every joint closed [%]", false);
    plot_x_axis(&plot, arena_printf(arena, "thrust of the whole deck, by the gauges [%s]", unit));
    draw_band(&plot, odds, per_N);
    draw_mark(&plot, FIGURE_SEEN, per_N * odds->study->thrust_N, "judged", top + 12);
    if (isfinite(wanted->need_N))
        draw_mark(&plot, FIGURE_NEED, per_N * wanted->need_N,
                  arena_printf(arena, "wanted %.4g %%", 100 * wanted->share_1), top + 26);
    f->table = chance_table(odds, unit, arena);
    return f;
}

/* ---- margins with the years ---- */

static void band_range(const OddsAnswer *odds, double per_Pa, double *low, double *high)
{
    for (int k = 0; k < ODDS_BANDS; k++)
        for (int t = 0; t < ODDS_TIMES; t++) {
            const double value = per_Pa * odds->band_Pa[k][t];
            if (!isfinite(value)) continue;
            *low = fmin(*low, value);
            *high = fmax(*high, value);
        }
    plot_widen(low, high, 0.08);
}

static FigurePoint band_point(const Plot *plot, const OddsAnswer *odds, int band, int time,
                              double per_Pa)
{
    const double value = fmax(per_Pa * odds->band_Pa[band][time], plot->y.from);
    return plot_at(plot, odds->study->after_day[time], value);
}

static void draw_fan(const Plot *plot, const OddsAnswer *odds, double per_Pa)
{
    static const struct {
        int low, high;
        FigureRole role;
        const char *title;
    } band[] = {{0, 4, FIGURE_BAND, "90 % of the lives"},
                {1, 3, FIGURE_COMPRESSION, "half of the lives"}};
    Figure *f = plot->figure;
    for (int b = 0; b < 2; b++) {
        FigurePoint *area = ARENA_NEW(f->arena, FigurePoint, 2 * ODDS_TIMES);
        for (int t = 0; t < ODDS_TIMES; t++) {
            area[t] = band_point(plot, odds, band[b].low, t, per_Pa);
            area[2 * ODDS_TIMES - 1 - t] = band_point(plot, odds, band[b].high, t, per_Pa);
        }
        figure_area(f, band[b].role, area, 2 * ODDS_TIMES)->title = band[b].title;
    }
    FigurePoint *line = ARENA_NEW(f->arena, FigurePoint, ODDS_TIMES);
    for (int t = 0; t < ODDS_TIMES; t++) line[t] = band_point(plot, odds, 2, t, per_Pa);
    figure_lines(f, FIGURE_MOMENT_4, line, ODDS_TIMES)->title = "the middle life";
}

static FigureTable *fan_table(const OddsAnswer *odds, UnitSystem units, Arena *arena)
{
    const double per_Pa = plot_per_SI(units, DIM_STRESS);
    FigureTable *t = figure_table_start(
        arena,
        arena_printf(arena, "Margin of the worst joint [%s]: so many lives have less",
                     quantity_unit(units, DIM_STRESS)),
        1 + ODDS_BANDS);
    figure_table_column(t, 0, true, "day after jacking");
    for (int k = 0; k < ODDS_BANDS; k++)
        figure_table_column(t, 1 + k, true, arena_printf(arena, "%.0f %%", 100 * odds_band_1[k]));
    for (int i = 0; i < ODDS_TIMES; i++) {
        const char *cell[1 + ODDS_BANDS];
        cell[0] = arena_printf(arena, "%.4g", odds->study->after_day[i]);
        for (int k = 0; k < ODDS_BANDS; k++)
            cell[1 + k] = isfinite(odds->band_Pa[k][i])
                              ? arena_printf(arena, "%.2f", per_Pa * odds->band_Pa[k][i] + 0.0)
                              : "";
        figure_table_row(t, cell);
    }
    return t;
}

Figure *figure_odds_fan(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena)
{
    Figure *f = figure_start(arena, "fan", width_px, FAN_HEIGHT + 108);
    const double per_Pa = plot_per_SI(units, DIM_STRESS);
    const double *day = odds->study->after_day;
    static const LegendEntry entry[] = {{FIGURE_MOMENT_4, false, "the middle life", 0},
                                        {FIGURE_COMPRESSION, true, "half of the lives", 0},
                                        {FIGURE_BAND, true, "90 % of them", 0},
                                        {FIGURE_LIMIT, false, "a joint opens below", 0}};
    double low = 0, high = 0;
    const double top = plot_legend(f, 4, 6, entry, 4) + 26;
    band_range(odds, per_Pa, &low, &high);
    const Plot plot = {f,
                       {day[0], day[ODDS_TIMES - 1], 48, width_px - 12, true},
                       {low, high, top + FAN_HEIGHT, top, false}};
    f->title = "Margin of the worst joint through the life";
    f->description = "What is left at the worst joint by all rules that count, in the middle life, "
                     "in half and in 90 % of the lives.";
    draw_fan(&plot, odds, per_Pa);
    plot_y_axis(&plot, arena_printf(arena, "margin [%s]", quantity_unit(units, DIM_STRESS)), false);
    plot_time_axis_along(&plot, "time after jacking");
    const double zero = axis_px(&plot.y, 0);
    figure_segment(f, FIGURE_LIMIT, (FigurePoint){plot.x.from_px, zero},
                   (FigurePoint){plot.x.to_px, zero})
        ->title = "a joint opens";
    f->height_px = top + FAN_HEIGHT + 46;
    f->table = fan_table(odds, units, arena);
    return f;
}

/* ---- what moves the need ---- */

static FigureTable *cause_table(const OddsAnswer *odds, UnitSystem units, Arena *arena)
{
    const char *unit = quantity_unit(units, DIM_FORCE);
    FigureTable *t = figure_table_start(arena, "What moves the needed thrust", 3);
    figure_table_column(t, 0, false, "input");
    figure_table_column(t, 1, true, arena_printf(arena, "one deviation more needs [%s]", unit));
    figure_table_column(t, 2, true, "part of the variance [%]");
    for (int k = 0; k < ODDS_COUNT; k++) {
        const OddsCause *cause = &odds->cause[k];
        figure_table_row(
            t, (const char *[]){
                   odds_name(cause->id),
                   arena_printf(arena, "%.1f",
                                plot_per_SI(units, DIM_FORCE) * cause->per_spread_N + 0.0),
                   arena_printf(arena, "%.1f", 100 * cause->part_1)});
    }
    return t;
}

Figure *figure_odds_causes(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena)
{
    const bool above = width_px < 500; /* labels over their bars */
    const double row = above ? 40 : BAR, left = above ? 12 : LABELS, top = 30;
    Figure *f = figure_start(arena, "causes", width_px, top + CAUSES_SHOWN * row + 46);
    const char *unit = quantity_unit(units, DIM_FORCE);
    const double per_N = plot_per_SI(units, DIM_FORCE);
    double most = 0;
    for (int k = 0; k < CAUSES_SHOWN; k++)
        most = fmax(most, per_N * fabs(odds->cause[k].per_spread_N));
    most = most > 0 ? 1.25 * most : 1;
    const double bottom = top + CAUSES_SHOWN * row;
    const Plot plot = {f, {-most, most, left, width_px - 12, false}, {0, 1, bottom, top, false}};
    f->title = "What moves the needed thrust";
    f->description = "Change of the needed thrust with one standard deviation more of each input, "
                     "largest first.";
    plot_x_axis(&plot, arena_printf(arena, "needed thrust for one deviation more [%s]", unit));
    const double zero = axis_px(&plot.x, 0);
    for (int k = 0; k < CAUSES_SHOWN; k++) {
        const OddsCause *cause = &odds->cause[k];
        const double y = top + k * row + (above ? 16 : 4),
                     end = axis_px(&plot.x, per_N * cause->per_spread_N);
        const char *number = arena_printf(arena, "%.3g", fabs(per_N * cause->per_spread_N));
        figure_text(f, FIGURE_LABEL, (FigurePoint){above ? left : left - 8, above ? y - 4 : y + 12},
                    above ? FIGURE_START : FIGURE_END, odds_name(cause->id));
        figure_rect(f, end > zero ? FIGURE_LOSS : FIGURE_GAIN, (FigurePoint){fmin(zero, end), y},
                    fmax(fabs(end - zero), 1), 16)
            ->title = arena_printf(arena, "%s: %s %s %s", odds_name(cause->id), number, unit,
                                   end > zero ? "more" : "less");
        figure_text(f, FIGURE_STRONG, (FigurePoint){end > zero ? end + 5 : end - 5, y + 13},
                    end > zero ? FIGURE_START : FIGURE_END, number);
    }
    figure_segment(f, FIGURE_AXIS, (FigurePoint){zero, bottom}, (FigurePoint){zero, top});
    f->table = cause_table(odds, units, arena);
    return f;
}
