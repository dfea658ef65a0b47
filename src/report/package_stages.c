/* The package: results stage by stage. */
#include <math.h>
#include <string.h>

#include "document.h"

enum { KEYS_MAX = 8 };

static const char *x_text(const Report *r, double x_m)
{
    return figure_quantity(r->arena, x_m, quantity_unit(r->source->units, DIM_LENGTH));
}

/* The event that ends a step of the history, where it has a name; NULL else. */
static const char *named(const StageHistory *h, int time)
{
    if (h->event[time] < 0) return NULL;
    const Event *const event = &h->model->event[h->event[time]];
    return event->name ? figure_event(event) : NULL;
}

/* Without a sign on what rounds to nothing. */
static const char *places_text(const Report *r, double value, int places)
{
    if (fabs(value) < 0.5 * pow(10, -places)) value = 0;
    return arena_printf(r->arena, "%.*f", places, value);
}

/* ---- stations that are shown ---- */

typedef struct Key {
    int station, side;
    const char *name;
} Key;

static int nearest_station(const StageModel *m, double x_m)
{
    int best = 0;
    for (int i = 1; i < m->station_count; i++)
        if (fabs(m->x_m[i] - x_m) < fabs(m->x_m[best] - x_m)) best = i;
    return best;
}

static void key_add(Key *key, int *count, int station, int side, const char *name)
{
    for (int i = 0; i < *count; i++)
        if (key[i].station == station) return;
    if (*count < KEYS_MAX) key[(*count)++] = (Key){station, side, name};
}

/* The joint that governs, mid-spans, and beside the supports within the unit. */
static int keys_find(const Report *r, const LineAnswer *line, Key key[KEYS_MAX])
{
    const StageModel *const m = line->history->model;
    int count = 0;
    if (line->finish.joint >= 0) {
        const Joint *const joint = &line->line->joint[line->finish.joint];
        const int side = line->finish.side < 0 ? -1 : 1;
        key_add(key, &count, joint->station, side,
                arena_printf(r->arena, "%s, which governs", joint->mark));
    }
    for (int s = 1; s < m->support_count; s++) {
        const double left_m = m->x_m[m->support[s - 1].station];
        const double right_m = m->x_m[m->support[s].station];
        if (right_m - left_m > 3) /* two lines of bearings of one pier are no span; m */
            key_add(key, &count, nearest_station(m, 0.5 * (left_m + right_m)), -1, "mid-span");
        if (s + 1 < m->support_count)
            key_add(key, &count, m->support[s].station, -1, "left of a support");
    }
    return count;
}

/* ---- tables by moments ---- */

static void stress_table(Report *r, const LineAnswer *line, const Key *key)
{
    const StageHistory *const h = line->history;
    const UnitSystem units = r->source->units;
    FigureTable *const t = figure_table_start(
        r->arena,
        arena_printf(r->arena, "Stresses at %s, x = %s: permanent loads; C compression, T tension",
                     key->name, x_text(r, h->model->x_m[key->station])),
        6);
    const char *const head[] = {"moment",
                                "day",
                                package_stress_head(r, "deck top"),
                                package_stress_head(r, "deck bottom"),
                                package_stress_head(r, "girder top"),
                                package_stress_head(r, "girder bottom")};
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int time = 0; time < h->time_count; time++) {
        FibreStress part[2];
        const char *cell[6] = {named(h, time), NULL, "-", "-", "-", "-"};
        if (!cell[0]) continue;
        cell[1] = package_day(r, h->day[time]);
        for (int k = 0; k < 2; k++) {
            const Chain chain = k == 0 ? CHAIN_DECK : CHAIN_GIRDER;
            if (!stage_stress(h, time, chain, key->station, key->side, &part[k])) continue;
            cell[2 + 2 * k] = figure_stress_short(r->arena, part[k].top_Pa, units);
            cell[3 + 2 * k] = figure_stress_short(r->arena, part[k].bottom_Pa, units);
        }
        figure_table_row(t, cell);
    }
    document_table(r, t);
}

enum { SUPPORTS_SHOWN = 7 };

/* Supports from..from + count: so many columns as a page takes. */
static void reaction_table(Report *r, const LineAnswer *line, int from, int count)
{
    const StageHistory *const h = line->history;
    const StageModel *const m = h->model;
    const char *const force = quantity_unit(r->source->units, DIM_FORCE);
    FigureTable *const t = figure_table_start(
        r->arena, arena_printf(r->arena, "Reactions of this line, upwards [%s]", force), 1 + count);
    figure_table_column(t, 0, false, "moment");
    for (int s = 0; s < count; s++)
        figure_table_column(
            t, 1 + s, true,
            arena_printf(r->arena, "x = %s", x_text(r, m->x_m[m->support[from + s].station])));
    for (int time = 0; time < h->time_count; time++) {
        const char *cell[1 + SUPPORTS_SHOWN];
        cell[0] = named(h, time);
        if (!cell[0]) continue;
        for (int s = 0; s < count; s++) {
            const double R_N =
                h->reaction_N[(size_t)time * (size_t)m->support_count + (size_t)(from + s)];
            cell[1 + s] = places_text(r, quantity_in(R_N, force), 1);
        }
        figure_table_row(t, cell);
    }
    document_table(r, t);
}

static void reactions_add(Report *r, const LineAnswer *line)
{
    const int supports = line->history->model->support_count;
    for (int from = 0; from < supports; from += SUPPORTS_SHOWN)
        reaction_table(r, line, from,
                       supports - from < SUPPORTS_SHOWN ? supports - from : SUPPORTS_SHOWN);
}

/* Gap force and opening, shortening of the deck between its ends, sag at the middle. */
static void movement_table(Report *r, const LineAnswer *line)
{
    const StageHistory *const h = line->history;
    const StageModel *const m = h->model;
    const char *const move = figure_move_unit(r->source->units);
    const char *const force = quantity_unit(r->source->units, DIM_FORCE);
    const int last = m->station_count - 1;
    const int middle = nearest_station(m, 0.5 * (m->x_m[0] + m->x_m[last]));
    FigureTable *const t =
        figure_table_start(r->arena, "Movements; u along x, v upwards, of the girder", 7);
    const char *const head[] = {"moment",
                                package_head(r, "force in the gap", force),
                                package_head(r, "gap opened", move),
                                package_head(r, "u, left end", move),
                                package_head(r, "u, right end", move),
                                package_head(r, "v, middle", move),
                                "day"};
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int time = 0; time < h->time_count; time++) {
        const char *const name = named(h, time);
        if (!name) continue;
        const NodeMove *const at = &h->move[(size_t)time * (size_t)m->station_count * 2];
        const bool gap = m->gap_count > 0;
        const double P_N = gap ? h->gap_force_N[(size_t)time * (size_t)m->gap_count] : (double)NAN;
        const double open_m =
            gap ? h->gap_opening_m[(size_t)time * (size_t)m->gap_count] : (double)NAN;
        const double moves_m[] = {open_m, at[0].u_m, at[(size_t)last * 2].u_m,
                                  at[(size_t)middle * 2].v_m};
        const char *cell[7] = {name, package_number(r, P_N, force)};
        for (int k = 0; k < 4; k++)
            cell[2 + k] =
                isfinite(moves_m[k]) ? places_text(r, quantity_in(moves_m[k], move), 3) : "-";
        cell[6] = package_day(r, h->day[time]);
        figure_table_row(t, cell);
    }
    document_table(r, t);
}

static void events_table(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    FigureTable *const t = figure_table_start(r->arena, "Stages in their order", 3);
    static const char *const head[] = {"day", "what happens", "booked under"};
    for (int c = 0; c < 3; c++) figure_table_column(t, c, c == 0, head[c]);
    for (int e = 0; e < m->event_count; e++) {
        const Event *const event = &m->event[e];
        if (!event->name) continue;
        figure_table_row(t, (const char *[]){package_day(r, event->day), figure_event(event),
                                             cause_text(event->cause)});
    }
    document_table(r, t);
}

/* What the reactions and moments of weights are made of. */
static void loads_table(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    const char *const load = r->source->units == UNITS_US ? "kip/ft" : "kN/m";
    FigureTable *const t = figure_table_start(
        r->arena, arena_printf(r->arena, "Loads on %s, downwards", document_name(r, line)), 6);
    const char *const head[] = {"day",
                                "what happens",
                                "put on the",
                                package_head(r, "from x", x),
                                package_head(r, "to x", x),
                                package_head(r, "load", load)};
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c == 0 || c > 2, head[c]);
    for (int e = 0; e < m->event_count; e++) {
        const Event *const event = &m->event[e];
        if (event->kind != EVENT_LOAD || event->line_load_N_per_m == 0) continue;
        figure_table_row(t, (const char *[]){package_day(r, event->day), figure_event(event),
                                             event->chain == CHAIN_DECK ? "deck" : "girder",
                                             package_number(r, m->x_m[event->from_station], x),
                                             package_number(r, m->x_m[event->to_station], x),
                                             package_number(r, event->line_load_N_per_m, load)});
    }
    document_table(r, t);
}

static void loads_add(Report *r)
{
    const ThrustAnswer *const answer = r->source->answer;
    package_section(r, "Loads");
    document_add(
        r, REPORT_TEXT,
        "Girder: area times density, of steel with the share of details (girders.details). Panels, "
        "closure and fill: deck.density times deck.thickness times the deck's width on the line. "
        "Haunch: deck.density times deck.haunch times the width of the top flange. Barriers: both "
        "over all girders; overlay and future surface: pressure times the roadway over all "
        "girders. "
        "While the deck rests on its shims its weight goes through them.");
    for (int i = 0; i < answer->line_count; i++)
        if (!package_seen(answer, i)) loads_table(r, &answer->line[i]);
}

void package_stages(Report *r)
{
    const LineAnswer *const line = document_line(r->source);
    Key key[KEYS_MAX];
    const int count = keys_find(r, line, key);
    document_add(r, REPORT_HEADING, "Stage by stage");
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena,
                              "%s, jacked to %s: permanent loads, thrust, creep and shrinkage.",
                              document_name(r, line),
                              figure_quantity(r->arena, line->thrust_N,
                                              quantity_unit(r->source->units, DIM_FORCE))));
    events_table(r, line);
    loads_add(r);
    package_section(r, "Stresses at key stations");
    for (int k = 0; k < count; k++) stress_table(r, line, &key[k]);
    package_section(r, "Reactions and movements");
    reactions_add(r, line);
    movement_table(r, line);
}
