/* Numbers, times and places as people read them. */
#include <assert.h>
#include <math.h>
#include <stdio.h>

#include "clench/figure.h"

enum { DAYS_A_YEAR = 365 };

int figure_ticks(double from_1, double to_1, int most, double *tick_1)
{
    assert(to_1 > from_1 && most >= 2);
    const double rough = (to_1 - from_1) / (most - 1);
    const double decade = pow(10, floor(log10(rough)));
    const double part = rough / decade;
    const double step = decade * (part <= 1 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10);
    int count = 0;
    for (double k = ceil(from_1 / step - 1e-9); k * step <= to_1 + 1e-9 * step && count < most; k++)
        tick_1[count++] = k * step + 0.0; /* no minus zero */
    return count;
}

const char *figure_move_unit(UnitSystem units) { return units == UNITS_US ? "in" : "mm"; }

/* Decimals that leave three figures, none beyond the point for thousands. */
static int decimals(double size)
{
    return size >= 99.95 ? 0 : size >= 9.995 ? 1 : size >= 0.9995 ? 2 : 3;
}

char *figure_quantity(Arena *arena, double value_SI, const char *unit)
{
    if (!isfinite(value_SI)) return arena_text(arena, "none");
    const double shown = quantity_in(value_SI, unit);
    return arena_printf(arena, "%.*f %s", decimals(fabs(shown)), shown == 0 ? 0.0 : shown, unit);
}

char *figure_stress(Arena *arena, double stress_Pa, UnitSystem units)
{
    const char *unit = quantity_unit(units, DIM_STRESS);
    const double size = fabs(quantity_in(stress_Pa, unit));
    const int places = units == UNITS_US ? 0 : 2;
    char number[64];
    snprintf(number, sizeof number, "%.*f", places, size);
    const bool zero = size < 0.5 * pow(10, -places);
    return arena_printf(arena, "%s %s%s", number, unit,
                        zero            ? ""
                        : stress_Pa < 0 ? " compression"
                                        : " tension");
}

char *figure_stress_short(Arena *arena, double stress_Pa, UnitSystem units)
{
    const double size = fabs(quantity_in(stress_Pa, quantity_unit(units, DIM_STRESS)));
    const int places = units == UNITS_US ? 0 : 2;
    if (size < 0.5 * pow(10, -places)) return arena_printf(arena, "%.*f", places, 0.0);
    return arena_printf(arena, "%c %.*f", stress_Pa < 0 ? 'C' : 'T', places, size);
}

char *figure_duration(Arena *arena, double days_day)
{
    const double years = days_day / DAYS_A_YEAR;
    if (years >= 9.95) return arena_printf(arena, "%.0f yr", years);
    if (years >= 0.995) {
        const bool whole = fabs(years - round(years)) < 0.05;
        return arena_printf(arena, "%.*f yr", whole ? 0 : 1, years);
    }
    if (days_day >= 0.95) return arena_printf(arena, "%.0f d", days_day);
    return arena_printf(arena, "%.2g d", days_day < 0 ? 0 : days_day);
}

int figure_moments(const LineAnswer *line, FigureMoment moment[5])
{
    const BridgeLine *b = line->line;
    const char *const name[5] = {b->jacked, b->released, b->bonded, b->opening, b->end};
    static const char *const label[5] = {"jacked", "released", "bonded", "opening", "end of life"};
    const StageHistory *h = line->history;
    double start_day = NAN;
    int count = 0;
    for (int i = 0; i < 5; i++) {
        const int time = name[i] ? stage_time_named(h, name[i]) : -1;
        if (time < 0 || (count && time <= moment[count - 1].time)) continue;
        if (count == 0) start_day = h->day[time];
        moment[count++] = (FigureMoment){time, label[i], h->day[time] - start_day};
    }
    return count;
}

const char *figure_event(const Event *event)
{
    switch (event->kind) {
    case EVENT_BIRTH: return event->name ? event->name : "new parts carry";
    case EVENT_LOAD: return event->name ? event->name : cause_text(event->cause);
    case EVENT_SHIMS: return "panels on shims";
    case EVENT_SHIMS_EMPTY: return event->name ? event->name : "closure cast";
    case EVENT_BOND: return event->name ? event->name : "grouted";
    case EVENT_JACK: return event->name ? event->name : "step of the jacks";
    case EVENT_LOCK: return event->name ? event->name : "jacks locked";
    case EVENT_RELEASE: return event->name ? event->name : "jacks released";
    case EVENT_TENDON: return event->name ? event->name : "tendons stressed";
    case EVENT_TEMPERATURE: return event->name ? event->name : "temperature";
    case EVENT_NOTE: break;
    }
    return event->name ? event->name : "";
}

char *figure_when(Arena *arena, const LineAnswer *line, double day)
{
    FigureMoment moment[5];
    const int count = figure_moments(line, moment);
    if (count == 0) return arena_printf(arena, "on day %.4g", day);
    for (int i = count - 1; i >= 0; i--) {
        const double off = fabs(line->history->day[moment[i].time] - day);
        if (off > 1e-6 * (1 + fabs(day))) continue;
        if (i == 0) return arena_text(arena, moment[i].label);
        return arena_printf(arena, "%s, %s", moment[i].label,
                            figure_duration(arena, moment[i].after_day));
    }
    const double after_day = day - line->history->day[moment[0].time];
    if (after_day < 0)
        return arena_printf(arena, "%s before jacking", figure_duration(arena, -after_day));
    return figure_duration(arena, after_day);
}

char *figure_where(Arena *arena, const LineAnswer *line, const Governing *at, UnitSystem units)
{
    if (at->joint >= 0 && at->joint < line->line->joint_count)
        return arena_text(arena, line->line->joint[at->joint].mark);
    if (at->station < 0 || at->station >= line->line->model.station_count)
        return arena_text(arena, "the whole line");
    const double x_m = line->line->model.x_m[at->station];
    return arena_printf(arena, "x = %s",
                        figure_quantity(arena, x_m, quantity_unit(units, DIM_LENGTH)));
}
