/* What stands of the bridge at a time, read off the history. */
#include "pieces.h"

#include <math.h>
#include <stddef.h>

static int beam_alive(const LineAnswer *line, int time, Chain chain, int element)
{
    const StageHistory *h = line->history;
    const StageModel *m = h->model;
    const int *row = h->beam + ((ptrdiff_t)chain * m->station_count + element) * STAGE_BEAMS;
    for (int k = 0; k < STAGE_BEAMS && row[k] >= 0; k++)
        if (h->alive[(size_t)time * (size_t)m->part_count + (size_t)row[k]]) return row[k];
    return -1;
}

int piece_girder(const LineAnswer *line, int time, int element)
{
    return beam_alive(line, time, CHAIN_GIRDER, element);
}

int piece_deck(const LineAnswer *line, int time, int element)
{
    return beam_alive(line, time, CHAIN_DECK, element);
}

int piece_link_state(const LineAnswer *line, int time, int station)
{
    const StageHistory *h = line->history;
    return h->link[(size_t)time * (size_t)h->model->station_count + (size_t)station].state;
}

int piece_joint_near(const BridgeLine *line, double x_m)
{
    int near = -1;
    for (int j = 0; j < line->joint_count; j++) {
        const double off_m = fabs(line->model.x_m[line->joint[j].station] - x_m);
        if (near < 0 || off_m < fabs(line->model.x_m[line->joint[near].station] - x_m)) near = j;
    }
    return near;
}

static bool in_gap(const StageModel *m, int element)
{
    for (int g = 0; g < m->gap_count; g++)
        if (element >= m->gap[g].left_station && element < m->gap[g].right_station) return true;
    return false;
}

/* Panels lie on the girders once their weight is there. */
static bool placed(const LineAnswer *line, int time, int element)
{
    const StageHistory *h = line->history;
    for (int t = 0; t <= time; t++) {
        if (h->event[t] < 0) continue;
        const Event *event = &h->model->event[h->event[t]];
        if (event->kind == EVENT_LOAD && event->on_deck && element >= event->from_station &&
            element < event->to_station)
            return true;
    }
    return false;
}

/* Anchor panels are grouted to the girders before the thrust. */
static FigureRole role_of(const LineAnswer *line, int time, int element)
{
    const int jacked = line->moments.jacked;
    if (beam_alive(line, time, CHAIN_DECK, element) < 0)
        return placed(line, time, element) ? FIGURE_PLACED : FIGURE_ROLE_COUNT;
    if (in_gap(&line->line->model, element)) return FIGURE_CLOSURE;
    if (piece_link_state(line, jacked, element) == LINK_BONDED &&
        piece_link_state(line, jacked, element + 1) == LINK_BONDED)
        return FIGURE_ANCHOR;
    return FIGURE_PANEL;
}

static bool is_joint(const BridgeLine *b, int station)
{
    for (int j = 0; j < b->joint_count; j++)
        if (b->joint[j].station == station) return true;
    return false;
}

static const char *title_of(FigureRole role)
{
    switch (role) {
    case FIGURE_ANCHOR: return "anchor panel";
    case FIGURE_CLOSURE: return "closure and fill";
    case FIGURE_PLACED: return "panel, placed";
    default: return "panel";
    }
}

int pieces_find(const LineAnswer *line, int time, Arena *arena, DeckPiece **piece)
{
    const BridgeLine *b = line->line;
    const StageModel *m = &b->model;
    DeckPiece *out = ARENA_NEW(arena, DeckPiece, m->station_count);
    int count = 0, from = 0;
    FigureRole role = role_of(line, time, 0);
    for (int e = 0; e < m->station_count - 1; e++) {
        const bool end = e == m->station_count - 2;
        const FigureRole next = end ? FIGURE_ROLE_COUNT : role_of(line, time, e + 1);
        if (!end && next == role && !is_joint(b, e + 1)) continue;
        const double middle_m = (m->x_m[from] + m->x_m[e + 1]) / 2;
        if (role != FIGURE_ROLE_COUNT)
            out[count++] =
                (DeckPiece){from, e + 1, role, title_of(role), piece_joint_near(b, middle_m)};
        from = e + 1;
        role = next;
    }
    *piece = out;
    return count;
}

GapStand piece_gap(const LineAnswer *line, int time, int gap)
{
    const StageHistory *h = line->history;
    GapStand stand = GAP_OPEN;
    for (int t = 0; t <= time; t++) {
        if (h->event[t] < 0 || h->model->event[h->event[t]].gap != gap) continue;
        const EventKind kind = h->model->event[h->event[t]].kind;
        if (kind == EVENT_JACK) stand = GAP_JACKED;
        if (kind == EVENT_LOCK) stand = GAP_LOCKED;
        if (kind == EVENT_RELEASE) stand = GAP_CLOSED;
    }
    /* the first steps of the jacks, before the event is done */
    if (stand == GAP_OPEN && piece_gap_force_N(line, time, gap) > 1) stand = GAP_JACKED;
    return stand;
}

double piece_gap_force_N(const LineAnswer *line, int time, int gap)
{
    const StageHistory *h = line->history;
    return h->gap_force_N[(size_t)time * (size_t)h->model->gap_count + (size_t)gap];
}
