/* The calendar of a girder line as events of the raw model. */
#include <math.h>
#include <string.h>

#include "model.h"

enum { JACK_STEPS = 10 };

static Event *add(Builder *m, double day, EventKind kind, Cause cause, const char *name)
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
    add(m, day, EVENT_BIRTH, cause, name)->phase = (int)phase;
}

static void add_load(Builder *m, double day, Cause cause, Chain chain, double load_N_per_m,
                     int from, int to)
{
    if (load_N_per_m == 0 || from >= to) return;
    Event *event = add(m, day, EVENT_LOAD, cause, NULL);
    event->chain = (int)chain;
    event->line_load_N_per_m = load_N_per_m;
    event->from_station = from;
    event->to_station = to;
}

/* A load a piece of girder: of the piece's weight, or of its width. Nothing between girder ends. */
static void add_by_piece(Builder *m, double day, Cause cause, const double *of_piece, double factor)
{
    const double *x_m = m->mesh.x_m;
    int from = 0;
    for (int e = 1; e < m->mesh.count; e++) {
        const int here = model_piece(m, (x_m[e - 1] + x_m[e]) / 2);
        const int next = e + 1 < m->mesh.count ? model_piece(m, (x_m[e] + x_m[e + 1]) / 2) : -2;
        if (here == next) continue;
        if (here >= 0) add_load(m, day, cause, CHAIN_GIRDER, factor * of_piece[here], from, e);
        from = e;
    }
}

static int gap_from(const Builder *m) { return mesh_near(&m->mesh, m->unit->gap_from_m); }
static int gap_to(const Builder *m) { return mesh_near(&m->mesh, m->unit->gap_to_m); }

static double deck_weight(const Builder *m)
{
    const DeckData *deck = &m->bridge->deck;
    return deck->density_N_per_m3 * deck->thickness_m * m->width_m;
}

/* Both panels' sides of the gap. */
static void add_beside_gap(Builder *m, double day, Cause cause, Chain chain, double load_N_per_m,
                           bool on_deck)
{
    const int first = m->event_count;
    add_load(m, day, cause, chain, load_N_per_m, 0, gap_from(m));
    add_load(m, day, cause, chain, load_N_per_m, gap_to(m), m->mesh.count - 1);
    for (int i = first; i < m->event_count; i++) m->event[i].on_deck = on_deck;
}

static void name_last(Builder *m, const char *name) { m->event[m->event_count - 1].name = name; }

static void add_girders(Builder *m)
{
    const DayData *days = &m->bridge->days;
    const bool strands = m->bridge->girders.kind == GIRDER_PRETENSIONED;
    const Cause cause = strands ? CAUSE_PRESTRESS : CAUSE_WEIGHT;
    add_birth(m, days->girders_ready, PHASE_GIRDER, cause, NULL);
    add_by_piece(m, days->girders_ready, CAUSE_WEIGHT, m->piece_weight_N_per_m, 1);
    name_last(m, strands ? "transfer" : "girders erected");
}

static void add_panels(Builder *m)
{
    const DayData *days = &m->bridge->days;
    const double construction = m->bridge->loads.construction_Pa * m->width_m;
    const int left = mesh_near(&m->mesh, m->unit->anchor_m);
    const int right = mesh_near(&m->mesh, m->unit->length_m - m->unit->anchor_m);
    add_beside_gap(m, days->panels_set, CAUSE_WEIGHT, CHAIN_GIRDER, deck_weight(m), true);
    name_last(m, "panels set");
    if (m->material_of[ROLE_TIE] >= 0)
        add_birth(m, days->ties_set, PHASE_TIES, CAUSE_WEIGHT, "girders tied");
    add_birth(m, days->joints, PHASE_DECK, CAUSE_WEIGHT, NULL);
    add(m, days->joints, EVENT_SHIMS, CAUSE_FRICTION, "joints closed");
    add(m, days->anchors, EVENT_BOND, CAUSE_FRICTION, NULL)->to_station = left;
    add(m, days->anchors, EVENT_BOND, CAUSE_FRICTION, "anchors grouted")->from_station = right;
    add_beside_gap(m, days->anchors, CAUSE_WEIGHT, CHAIN_DECK, construction, false);
}

static void add_warmth(Builder *m, double day, double change_K)
{
    if (change_K == 0) return;
    Event *event = add(m, day, EVENT_TEMPERATURE, CAUSE_TEMPERATURE, NULL);
    event->chain = CHAIN_DECK;
    event->change_K = change_K;
}

static void add_thrust(Builder *m, double thrust_N)
{
    const DayData *days = &m->bridge->days;
    add_warmth(m, days->jacking, m->bridge->climate.deck_warmer_K);
    Event *jack = add(m, days->jacking, EVENT_JACK, CAUSE_THRUST, "jacked");
    jack->thrust_N = thrust_N;
    jack->steps = JACK_STEPS;
    add(m, days->lock, EVENT_LOCK, CAUSE_THRUST, "jacks locked");
    add_warmth(m, days->closure_cast, -m->bridge->climate.deck_warmer_K);
    add_load(m, days->closure_cast, CAUSE_CLOSURE, CHAIN_GIRDER, deck_weight(m), gap_from(m),
             gap_to(m));
    name_last(m, "closure cast");
    add_birth(m, days->closure_active, PHASE_CLOSURE, CAUSE_CLOSURE, NULL);
    Event *empty = add(m, days->closure_active, EVENT_SHIMS_EMPTY, CAUSE_FRICTION, "closure set");
    empty->from_station = gap_from(m);
    empty->to_station = gap_to(m);
    add(m, days->release, EVENT_RELEASE, CAUSE_RELEASE, "jacks released");
    add_birth(m, days->fill_active, PHASE_FILL, CAUSE_CLOSURE, "gap filled");
}

static void add_composite(Builder *m)
{
    const Bridge *b = m->bridge;
    const DayData *days = &b->days;
    const int lines = b->girders.count;
    const double roadway_m = b->deck.width_m - 2 * b->loads.barrier_width_m;
    const int last = m->mesh.count - 1;
    add_beside_gap(m, days->haunch, CAUSE_WEIGHT, CHAIN_DECK,
                   -b->loads.construction_Pa * m->width_m, false);
    add_by_piece(m, days->haunch, CAUSE_CLOSURE, m->haunch_width_m,
                 b->deck.haunch_m * b->deck.density_N_per_m3);
    add(m, days->haunch, EVENT_BOND, CAUSE_CLOSURE, "haunches grouted");
    add_birth(m, days->haunch, PHASE_SUPPORT, CAUSE_WEIGHT, NULL);
    if (m->material_of[ROLE_TIE] >= 0)
        add_birth(m, days->diaphragm_active, PHASE_DIAPHRAGM, CAUSE_WEIGHT, "diaphragms set");
    add_load(m, days->barrier, CAUSE_SUPERIMPOSED, CHAIN_GIRDER,
             2 * b->loads.barrier_N_per_m / lines, 0, last);
    add_load(m, days->overlay, CAUSE_SUPERIMPOSED, CHAIN_GIRDER,
             b->loads.overlay_Pa * roadway_m / lines, 0, last);
    add_load(m, days->opening, CAUSE_SUPERIMPOSED, CHAIN_GIRDER,
             b->loads.future_Pa * roadway_m / lines, 0, last);
}

static void add_life(Builder *m)
{
    const DayData *days = &m->bridge->days;
    const double *seen = days->inspections.item;
    add(m, days->opening, EVENT_NOTE, CAUSE_WEIGHT, "opening");
    for (int i = 0; i < days->inspections.count; i++)
        add(m, seen[i], EVENT_NOTE, CAUSE_WEIGHT,
            arena_printf(m->arena, "inspection %d, day %.6g", i + 1, seen[i]));
    add(m, days->end, EVENT_NOTE, CAUSE_WEIGHT, "end of life");
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

void model_events(Builder *m, double thrust_N)
{
    add_girders(m);
    add_panels(m);
    add_thrust(m, thrust_N);
    add_composite(m);
    add_life(m);
    sort_by_day(m);
}
