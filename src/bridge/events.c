/* The calendar of a girder line as events of the raw model. */
#include <math.h>
#include <string.h>

#include "model.h"

enum { JACK_STEPS = 10 };

Event *model_add_event(Builder *m, double day, EventKind kind, Cause cause, const char *name)
{
    if (m->event_count == m->event_room) {
        const int room = m->event_room ? 2 * m->event_room : 64;
        Event *more = ARENA_NEW(m->arena, Event, room);
        if (m->event_count) memcpy(more, m->event, sizeof *more * (size_t)m->event_count);
        m->event = more;
        m->event_room = room;
    }
    Event *event = &m->event[m->event_count++];
    *event = (Event){.day = day,
                     .kind = kind,
                     .name = name,
                     .cause = cause,
                     .to_station = m->mesh.count - 1,
                     .steps = 1};
    return event;
}

static void add_birth(Builder *m, double day, Phase phase, Cause cause, const char *name)
{
    model_add_event(m, day, EVENT_BIRTH, cause, name)->phase = (int)phase;
}

void model_add_load(Builder *m, double day, Cause cause, Chain chain, double load_N_per_m, int from,
                    int to)
{
    if (load_N_per_m == 0 || from >= to) return;
    Event *event = model_add_event(m, day, EVENT_LOAD, cause, NULL);
    event->chain = (int)chain;
    event->line_load_N_per_m = load_N_per_m;
    event->from_station = from;
    event->to_station = to;
}

/* A load a piece of girder: of the piece's weight, or of its width. Nothing between girder ends. */
static void add_by_piece(Builder *m, double day, Cause cause, const double *of_piece, double factor,
                         int first, int last)
{
    const double *x_m = m->mesh.x_m;
    int from = first;
    for (int e = first + 1; e <= last; e++) {
        const int here = model_piece(m, (x_m[e - 1] + x_m[e]) / 2);
        const int next = e < last ? model_piece(m, (x_m[e] + x_m[e + 1]) / 2) : -2;
        if (here == next) continue;
        if (here >= 0)
            model_add_load(m, day, cause, CHAIN_GIRDER, factor * of_piece[here], from, e);
        from = e;
    }
}

static int gap_from(const Builder *m) { return mesh_near(&m->mesh, m->unit->gap_from_m); }
static int gap_to(const Builder *m) { return mesh_near(&m->mesh, m->unit->gap_to_m); }

double model_deck_weight_N_per_m(const Builder *m)
{
    const DeckData *deck = &m->bridge->deck;
    return deck->density_N_per_m3 * deck->thickness_m * m->width_m;
}

/* Both panels' sides of the gap, where there is one. */
static void add_beside_gap(Builder *m, double day, Cause cause, Chain chain, double load_N_per_m,
                           bool on_deck)
{
    const int first = m->event_count;
    model_add_load(m, day, cause, chain, load_N_per_m, 0, m->gap ? gap_from(m) : m->mesh.count - 1);
    if (m->gap) model_add_load(m, day, cause, chain, load_N_per_m, gap_to(m), m->mesh.count - 1);
    for (int i = first; i < m->event_count; i++) m->event[i].on_deck = on_deck;
}

static void name_last(Builder *m, const char *name) { m->event[m->event_count - 1].name = name; }

static void add_girders(Builder *m)
{
    const DayData *days = &m->bridge->days;
    const bool strands = m->bridge->girders.kind == GIRDER_PRETENSIONED;
    const Cause cause = strands ? CAUSE_PRESTRESS : CAUSE_WEIGHT;
    add_birth(m, days->girders_ready, PHASE_GIRDER, cause, NULL);
    add_by_piece(m, days->girders_ready, CAUSE_WEIGHT, m->piece_weight_N_per_m, 1, 0,
                 m->mesh.count - 1);
    name_last(m, strands ? "transfer" : "girders erected");
}

static void add_ties(Builder *m)
{
    if (m->material_of[ROLE_TIE] >= 0)
        add_birth(m, m->bridge->days.ties_set, PHASE_TIES, CAUSE_WEIGHT, "girders tied");
}

/* The panels on the girders, then one deck on its shims. */
static void add_panels(Builder *m, double joined_day, const char *joined)
{
    const DayData *days = &m->bridge->days;
    add_beside_gap(m, days->panels_set, CAUSE_WEIGHT, CHAIN_GIRDER, model_deck_weight_N_per_m(m),
                   true);
    name_last(m, "panels set");
    add_ties(m);
    add_birth(m, joined_day, PHASE_DECK, CAUSE_WEIGHT, NULL);
    model_add_event(m, joined_day, EVENT_SHIMS, CAUSE_FRICTION, joined);
}

static void add_construction(Builder *m, double from_day, double to_day)
{
    const double load = m->bridge->loads.construction_Pa * m->width_m;
    add_beside_gap(m, from_day, CAUSE_WEIGHT, CHAIN_DECK, load, false);
    add_beside_gap(m, to_day, CAUSE_WEIGHT, CHAIN_DECK, -load, false);
}

static void add_anchors(Builder *m)
{
    const double day = m->bridge->days.anchors;
    const int left = mesh_near(&m->mesh, m->unit->anchor_m);
    const int right = mesh_near(&m->mesh, m->unit->length_m - m->unit->anchor_m);
    model_add_event(m, day, EVENT_BOND, CAUSE_FRICTION, NULL)->to_station = left;
    model_add_event(m, day, EVENT_BOND, CAUSE_FRICTION, "anchors grouted")->from_station = right;
}

static void add_warmth(Builder *m, double day, double change_K)
{
    if (change_K == 0) return;
    Event *event = model_add_event(m, day, EVENT_TEMPERATURE, CAUSE_TEMPERATURE, NULL);
    event->chain = CHAIN_DECK;
    event->change_K = change_K;
}

static void add_thrust(Builder *m, double thrust_N)
{
    const DayData *days = &m->bridge->days;
    add_warmth(m, days->jacking, m->bridge->climate.deck_warmer_K);
    Event *jack = model_add_event(m, days->jacking, EVENT_JACK, CAUSE_THRUST, "jacked");
    jack->thrust_N = thrust_N;
    jack->steps = JACK_STEPS;
    model_add_event(m, days->lock, EVENT_LOCK, CAUSE_THRUST, "jacks locked");
    add_warmth(m, days->closure_cast, -m->bridge->climate.deck_warmer_K);
    model_add_load(m, days->closure_cast, CAUSE_CLOSURE, CHAIN_GIRDER, model_deck_weight_N_per_m(m),
                   gap_from(m), gap_to(m));
    name_last(m, "closure cast");
    add_birth(m, days->closure_active, PHASE_CLOSURE, CAUSE_CLOSURE, NULL);
    Event *empty =
        model_add_event(m, days->closure_active, EVENT_SHIMS_EMPTY, CAUSE_FRICTION, "closure set");
    empty->from_station = gap_from(m);
    empty->to_station = gap_to(m);
    model_add_event(m, days->release, EVENT_RELEASE, CAUSE_RELEASE, "jacks released");
    add_birth(m, days->fill_active, PHASE_FILL, CAUSE_CLOSURE, "gap filled");
}

void model_add_haunch(Builder *m, double day, Cause cause, int from, int to)
{
    const DeckData *deck = &m->bridge->deck;
    add_by_piece(m, day, cause, m->haunch_width_m, deck->haunch_m * deck->density_N_per_m3, from,
                 to);
}

static void add_composite(Builder *m)
{
    const double day = m->composite_day;
    model_add_haunch(m, day, CAUSE_CLOSURE, 0, m->mesh.count - 1);
    model_add_event(m, day, EVENT_BOND, CAUSE_CLOSURE, "haunches grouted");
}

/* Not before the deck is one with the girders, whatever the calendar says. */
static void add_superimposed(Builder *m)
{
    const Bridge *b = m->bridge;
    const DayData *days = &b->days;
    const int lines = b->girders.count, last = m->mesh.count - 1;
    const double roadway_m = b->deck.width_m - 2 * b->loads.barrier_width_m;
    add_birth(m, m->composite_day, PHASE_SUPPORT, CAUSE_WEIGHT, NULL);
    if (m->material_of[ROLE_TIE] >= 0)
        add_birth(m, days->diaphragm_active, PHASE_DIAPHRAGM, CAUSE_WEIGHT, "diaphragms set");
    model_add_load(m, fmax(days->barrier, m->composite_day), CAUSE_SUPERIMPOSED, CHAIN_GIRDER,
                   2 * b->loads.barrier_N_per_m / lines, 0, last);
    model_add_load(m, fmax(days->overlay, m->composite_day), CAUSE_SUPERIMPOSED, CHAIN_GIRDER,
                   b->loads.overlay_Pa * roadway_m / lines, 0, last);
    model_add_load(m, fmax(days->opening, m->composite_day), CAUSE_SUPERIMPOSED, CHAIN_GIRDER,
                   b->loads.future_Pa * roadway_m / lines, 0, last);
}

static void add_life(Builder *m)
{
    const DayData *days = &m->bridge->days;
    const double *seen = days->inspections.item;
    model_add_event(m, fmax(days->opening, m->composite_day), EVENT_NOTE, CAUSE_WEIGHT, "opening");
    for (int i = 0; i < days->inspections.count; i++)
        model_add_event(m, seen[i], EVENT_NOTE, CAUSE_WEIGHT,
                        arena_printf(m->arena, "inspection %d, day %.6g", i + 1, seen[i]));
    model_add_event(m, days->end, EVENT_NOTE, CAUSE_WEIGHT, "end of life");
}

/* By day; events of one day stay in the order above. */
static void sort_by_day(Builder *m)
{
    for (int i = 1; i < m->event_count; i++) {
        const Event moved = m->event[i];
        int k = i;
        for (; k > 0 && moved.day < m->event[k - 1].day; k--) m->event[k] = m->event[k - 1];
        m->event[k] = moved;
    }
}

/* What stands on the girders before they and the deck are one. */
static void add_deck(Builder *m, double thrust_N)
{
    const DayData *days = &m->bridge->days;
    const double hard_day = days->joints + m->bridge->ways.uhpc.active_day;
    switch (m->wish.way) {
    case WAY_TENDON:
        add_panels(m, days->joints, "joints closed");
        add_construction(m, days->joints, m->composite_day);
        way_tendons(m);
        break;
    case WAY_UHPC:
        add_panels(m, hard_day, "joints hardened");
        add_construction(m, hard_day, m->composite_day);
        break;
    case WAY_CAST:
        add_ties(m);
        way_pours(m);
        return; /* the haunch is cast with the deck */
    default:
        add_panels(m, days->joints, "joints closed");
        add_anchors(m);
        add_construction(m, days->anchors, m->composite_day);
        add_thrust(m, thrust_N);
    }
    add_composite(m);
}

void model_events(Builder *m, double thrust_N)
{
    add_girders(m);
    add_deck(m, thrust_N);
    add_superimposed(m);
    add_life(m);
    sort_by_day(m);
}
