/* The history at named joints: what the deck carries there at every event and between. */
#include <math.h>

#include "document.h"

enum { RULES_SHOWN = 4 };

bool document_joint_state(const LineAnswer *line, int joint, int time, FibreStress *stress)
{
    const int station = line->line->joint[joint].station;
    const int only = thrust_joint_side(line->line, joint);
    FibreStress right;
    if (only) return stage_stress(line->history, time, CHAIN_DECK, station, only, stress);
    const bool has_left = stage_stress(line->history, time, CHAIN_DECK, station, -1, stress);
    const bool has_right = stage_stress(line->history, time, CHAIN_DECK, station, 1, &right);
    if (has_right && (!has_left || right.top_Pa > stress->top_Pa)) *stress = right;
    return has_left || has_right;
}

/* Named moments, the last event of a day, and between events about three times a decade. */
static bool row_wanted(const StageHistory *h, int time, int *last_bucket, double *event_day)
{
    if (h->event[time] >= 0) {
        *event_day = h->day[time];
        *last_bucket = -1;
        if (h->model->event[h->event[time]].name) return true;
        return time + 1 == h->time_count || h->day[time + 1] > h->day[time];
    }
    const bool event_next = time + 1 < h->time_count && h->day[time + 1] <= h->day[time];
    const double passed = h->day[time] - *event_day;
    const int bucket = passed < 1 ? 0 : (int)(3 * log10(passed)) + 1;
    if (event_next || bucket == 0 || bucket == *last_bucket) return false;
    *last_bucket = bucket;
    return true;
}

static const char *event_name(const StageHistory *h, int time)
{
    return h->event[time] < 0 ? "" : figure_event(&h->model->event[h->event[time]]);
}

static int counting_rules(const LineAnswer *line, int rule[RULES_SHOWN])
{
    int count = 0;
    for (int r = 0; r < line->line->rule_count && count < RULES_SHOWN; r++)
        if (line->line->rule[r].counts) rule[count++] = r;
    return count;
}

static void life_row(const Report *r, FigureTable *t, const LineAnswer *line, int joint, int time)
{
    Arena *a = r->arena;
    const UnitSystem units = r->source->units;
    const StageHistory *h = line->history;
    FibreStress stress;
    if (!document_joint_state(line, joint, time, &stress)) return;
    int rule[RULES_SHOWN];
    const int rules = counting_rules(line, rule);
    const char *cell[6 + RULES_SHOWN];
    cell[0] = event_name(h, time);
    cell[1] = arena_printf(a, "%.1f", h->day[time]);
    cell[2] = figure_stress_short(a, stress.top_Pa, units);
    cell[3] = figure_stress_short(a, stress.bottom_Pa, units);
    cell[4] = figure_stress_short(a, 0.5 * (stress.top_Pa + stress.bottom_Pa), units);
    const double N = quantity_in(stress.N_N, quantity_unit(units, DIM_FORCE));
    cell[5] = arena_printf(a, "%s%.0f", N <= -0.5 ? "C " : N >= 0.5 ? "T " : "", fabs(N));
    for (int k = 0; k < rules; k++) {
        const double margin_Pa = figure_margin_Pa(line, rule[k], joint, time);
        const double tenth = units == UNITS_US ? 1 : 100;
        const double shown = quantity_in(margin_Pa, quantity_unit(units, DIM_STRESS));
        cell[6 + k] = arena_printf(a, "%.*f", units == UNITS_US ? 0 : 2, /* no minus zero */
                                   round(shown * tenth) / tenth + 0.0);
    }
    figure_table_row(t, cell);
}

static FigureTable *life_table(const Report *r, const LineAnswer *line, int joint)
{
    Arena *a = r->arena;
    const UnitSystem units = r->source->units;
    int rule[RULES_SHOWN];
    const int rules = counting_rules(line, rule);
    const BridgeLine *b = line->line;
    const char *stress = quantity_unit(units, DIM_STRESS);
    const double x_m = b->model.x_m[b->joint[joint].station];
    FigureTable *t = figure_table_start(
        a,
        arena_printf(a, "%s at %s, %s; C compression, T tension; margins: negative where open",
                     b->joint[joint].mark,
                     figure_quantity(a, x_m, quantity_unit(units, DIM_LENGTH)), b->name),
        6 + rules);
    static const char *const name[] = {"event", "day", "top", "bottom", "mean"};
    for (int c = 0; c < 5; c++)
        figure_table_column(t, c, c > 0,
                            c < 2 ? name[c] : arena_printf(a, "%s [%s]", name[c], stress));
    figure_table_column(t, 5, true, arena_printf(a, "N [%s]", quantity_unit(units, DIM_FORCE)));
    for (int k = 0; k < rules; k++)
        figure_table_column(t, 6 + k, true, arena_printf(a, "margin %d [%s]", k + 1, stress));
    int bucket = -1;
    double event_day = line->history->day[0];
    for (int time = 0; time < line->history->time_count; time++)
        if (row_wanted(line->history, time, &bucket, &event_day)) life_row(r, t, line, joint, time);
    return t;
}

const Report *report_life(const ReportSource *source, int line_index, const int *joint,
                          int joint_count, Arena *arena)
{
    const LineAnswer *line = &source->answer->line[line_index];
    Report *r = document_start(source, "History of the deck at its joints", arena);
    const char *force = quantity_unit(source->units, DIM_FORCE);
    document_add(r, REPORT_LEAD,
                 arena_printf(arena, "%s of %s, jacked to %s.", line->line->name,
                              document_unit(r, line),
                              figure_quantity(arena, line->thrust_N, force)));
    document_add(r, REPORT_CAUTION, report_caution());
    int rule[RULES_SHOWN];
    const int rules = counting_rules(line, rule);
    for (int k = 0; k < rules; k++)
        document_add(r, REPORT_ITEM,
                     arena_printf(arena, "margin %d: %s (%s)", k + 1,
                                  line->line->rule[rule[k]].name,
                                  line->line->rule[rule[k]].clause));
    for (int i = 0; i < joint_count; i++) document_table(r, life_table(r, line, joint[i]));
    return r;
}
