/* Panels on flat beds, cycle by cycle: docs/theory/panels.md. */
#include "clench/panel.h"

#include <math.h>

/* Neighbours on a bed together. The first may be the last one of the row before, back for the next to
 * be cast against. */
typedef struct Row {
    int first, count, cycle;
    bool goes_on; /* its first panel is cast already */
} Row;

enum { SLOTS_MAX = 4096 };
typedef struct Yard {
    const PanelYard *given;
    const double *length_m;
    PanelCast *cast;
    double used_m[SLOTS_MAX]; /* of bed b in cycle c: [c * beds + b] */
    int cycles, used_beds;
} Yard;

static double row_m(const Yard *y, const Row *row)
{
    double sum_m = y->given->skew_m;
    for (int i = 0; i < row->count; i++) sum_m += y->length_m[row->first + i];
    return sum_m;
}

static double room_m(const PanelYard *given) { return given->bed_m - 2 * given->clear_m; }

/* As many panels as a bed holds, to the end of the line at most. */
static Status row_next(const Yard *y, int from, int end, bool goes_on, Row *row, Error *err)
{
    *row = (Row){.first = from, .count = 1, .goes_on = goes_on};
    while (from + row->count < end) {
        row->count++;
        if (row_m(y, row) <= room_m(y->given) + 1e-9) continue;
        row->count--;
        break;
    }
    if (row_m(y, row) > room_m(y->given) + 1e-9 || (row->count == 1 && (goes_on || from + 1 < end)))
        return error_set(err, STATUS_BAD_INPUT,
                         "a bed of %.4g ft does not hold %s of %.4g ft with its ends",
                         quantity_in(y->given->bed_m, "ft"),
                         row->count == 1 && from + 1 < end ? "two panels" : "a panel",
                         quantity_in(y->length_m[from], "ft"));
    return STATUS_OK;
}

/* The first bed with room, from a cycle on. */
static Status row_place(Yard *y, Row *row, int from_cycle, Error *err)
{
    const int beds = y->given->beds;
    const double need_m = row_m(y, row) + y->given->clear_m;
    for (int slot = from_cycle * beds; slot < SLOTS_MAX; slot++) {
        double *const used_m = &y->used_m[slot];
        if (*used_m == 0) *used_m = y->given->clear_m;
        if (*used_m + need_m > y->given->bed_m + 1e-9) continue;
        double at_m = *used_m;
        *used_m += need_m;
        row->cycle = slot / beds;
        if (row->cycle + 1 > y->cycles) y->cycles = row->cycle + 1;
        if (slot % beds + 1 > y->used_beds) y->used_beds = slot % beds + 1;
        for (int i = row->first; i < row->first + row->count; at_m += y->length_m[i++])
            if (!(row->goes_on && i == row->first)) {
                y->cast[i].cycle = row->cycle;
                y->cast[i].bed = slot % beds;
                y->cast[i].place_m = at_m;
            }
        if (row->goes_on) y->cast[row->first].waits = true;
        return STATUS_OK;
    }
    return error_set(err, STATUS_TOO_LARGE, "more than %d fillings of the beds", (int)SLOTS_MAX);
}

static Status place_all(Yard *y, const PanelLine *line, int line_count, Error *err)
{
    for (int l = 0; l < line_count; l++) {
        const int end = line[l].first + line[l].count;
        int cycle = 0;
        bool goes_on = false;
        for (int at = line[l].first; at < end;) {
            Row row;
            TRY(row_next(y, at, end, goes_on, &row, err));
            TRY(row_place(y, &row, cycle, err));
            cycle = row.cycle + 1;
            at = row.first + row.count;
            if (at >= end) break;
            at--; /* the last one again */
            goes_on = true;
        }
    }
    return STATUS_OK;
}

static double later(const PanelYard *g) { return fmax(g->phase_day[0], g->phase_day[1]); }

static void set_days(Yard *y, const int *phase, int count, PanelSets *sets)
{
    const PanelYard *g = y->given;
    sets->cycle_day = fabs(g->phase_day[1] - g->phase_day[0]) + g->strip_day + g->reset_day;
    sets->first_day = INFINITY;
    sets->youngest_day = INFINITY;
    for (int i = 0; i < count; i++) {
        PanelCast *c = &y->cast[i];
        const double back_day = (y->cycles - 1 - c->cycle) * sets->cycle_day;
        c->phase = phase[i];
        c->cast_day = g->phase_day[phase[i]] - back_day;
        c->strip_day = later(g) + g->strip_day - back_day;
        const int days_left = (count - 1 - i) / g->per_day; /* whole ones */
        c->set_day = g->set_day - days_left;
        sets->first_day = fmin(sets->first_day, c->cast_day);
        sets->youngest_day = fmin(sets->youngest_day, c->set_day - c->cast_day);
        sets->oldest_day = fmax(sets->oldest_day, c->set_day - c->cast_day);
    }
}

static void set_pairs(PanelCast *cast, const PanelLine *line, int line_count, PanelSets *sets)
{
    for (int l = 0; l < line_count; l++)
        for (int i = line[l].first; i + 1 < line[l].first + line[l].count; i++) {
            const double apart_day = cast[i + 1].cast_day - cast[i].cast_day;
            cast[i + 1].against_left = apart_day > 0;
            cast[i].against_right = apart_day < 0;
            sets->apart_day = fmax(sets->apart_day, fabs(apart_day));
        }
}

/* Most panels that are lifted off their bed and not yet on the girders: just after a lifting. */
static void set_store(const PanelCast *cast, int count, PanelSets *sets)
{
    for (int i = 0; i < count; i++) {
        const double day = cast[i].strip_day;
        if (i > 0 && day == cast[i - 1].strip_day) continue;
        int stored = 0;
        for (int k = 0; k < count; k++) stored += cast[k].strip_day <= day && cast[k].set_day > day;
        if (stored <= sets->stored_most) continue;
        sets->stored_most = stored;
        sets->stored_day = day;
    }
}

Status panel_sets(const PanelYard *yard, const PanelList *list, PanelCast *cast, PanelSets *sets,
                  Error *err)
{
    Yard y = {.given = yard, .length_m = list->length_m, .cast = cast};
    for (int i = 0; i < list->count; i++) cast[i] = (PanelCast){0};
    *sets = (PanelSets){0};
    TRY(place_all(&y, list->line, list->line_count, err));
    sets->cycles = y.cycles;
    sets->used_beds = y.used_beds;
    for (int s = 0; s < y.cycles * yard->beds; s++)
        sets->bed_used_m = fmax(sets->bed_used_m, y.used_m[s]);
    set_days(&y, list->phase, list->count, sets);
    set_pairs(cast, list->line, list->line_count, sets);
    set_store(cast, list->count, sets);
    return STATUS_OK;
}
