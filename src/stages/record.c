/* The history: one column an item, one row a time. */
#include "record.h"

#include <stddef.h>
#include <string.h>

/* ---- look-ups for stresses ---- */

static const int *beam_table(const StageModel *model, Arena *arena)
{
    const int rows = 2 * model->station_count;
    int *beam = ARENA_NEW(arena, int, rows *STAGE_BEAMS);
    for (int i = 0; i < rows * STAGE_BEAMS; i++) beam[i] = -1;
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (!(model->section[part->section].inertia_m4 > 0)) continue;
        int *row =
            beam + ((ptrdiff_t)part->chain * model->station_count + part->element) * STAGE_BEAMS;
        for (int k = 0; k < STAGE_BEAMS; k++)
            if (row[k] < 0) {
                row[k] = p;
                break;
            }
    }
    return beam;
}

/* A change of the girder's section bends the stress line of the deck too. */
static void mark_section_changes(const StageModel *model, Arena *arena, unsigned char *at)
{
    int *section = ARENA_NEW(arena, int, model->station_count);
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (part->chain != CHAIN_GIRDER || !(model->section[part->section].inertia_m4 > 0))
            continue;
        section[part->element] = part->section + 1; /* 0: no girder there */
    }
    for (int i = 1; i + 1 < model->station_count; i++)
        if (section[i - 1] != section[i]) at[i] = 1;
}

static const unsigned char *break_table(const StageModel *model, Arena *arena)
{
    unsigned char *at = ARENA_NEW(arena, unsigned char, model->station_count);
    mark_section_changes(model, arena, at);
    for (int s = 0; s < model->support_count; s++) at[model->support[s].station] = 1;
    for (int g = 0; g < model->gap_count; g++)
        at[model->gap[g].left_station] = at[model->gap[g].right_station] = 1;
    for (int e = 0; e < model->event_count; e++)
        if (model->event[e].kind == EVENT_BOND)
            at[model->event[e].from_station] = at[model->event[e].to_station] = 1;
    return at;
}

/* ---- columns ---- */

enum { COLUMNS = 12 };
typedef struct Column {
    void **at;
    size_t row_bytes;
} Column;

static bool one_sided(const StageModel *model)
{
    for (int p = 0; p < model->part_count; p++)
        if (model->part[p].compression_only) return true;
    return false;
}

static void columns_of(Record *r, const StageModel *model, bool causes, Column column[COLUMNS])
{
    const size_t stations = (size_t)model->station_count, parts = (size_t)model->part_count;
    const size_t gaps = (size_t)model->gap_count * sizeof(double);
    const size_t supports = (size_t)model->support_count * sizeof(double);
    const Column all[COLUMNS] = {
        {(void **)&r->day, sizeof(double)},
        {(void **)&r->event, sizeof(int)},
        {(void **)&r->force, parts * sizeof(PartForce)},
        {(void **)&r->alive, parts},
        {(void **)&r->gape, one_sided(model) ? parts * sizeof(double) : 0},
        {(void **)&r->link, stations * sizeof(LinkState)},
        {(void **)&r->move, 2 * stations * sizeof(NodeMove)},
        {(void **)&r->gap_force, gaps},
        {(void **)&r->gap_opening, gaps},
        {(void **)&r->reaction, supports},
        {(void **)&r->reaction_x, supports},
        {(void **)&r->cause, causes ? CAUSE_COUNT * stations * sizeof(CauseForce) : 0},
    };
    memcpy(column, all, sizeof all);
}

Record *record_new(const StageModel *model, int times, bool causes, Arena *arena)
{
    Record *r = ARENA_NEW(arena, Record, 1);
    Column column[COLUMNS];
    columns_of(r, model, causes, column);
    for (int c = 0; c < COLUMNS; c++)
        if (column[c].row_bytes > 0)
            *column[c].at = arena_take(arena, column[c].row_bytes * (size_t)times);
    r->history = (StageHistory){.model = model,
                                .time_count = times,
                                .day = r->day,
                                .event = r->event,
                                .force = r->force,
                                .alive = r->alive,
                                .gape_1 = r->gape,
                                .link = r->link,
                                .move = r->move,
                                .gap_force_N = r->gap_force,
                                .gap_opening_m = r->gap_opening,
                                .reaction_N = r->reaction,
                                .reaction_x_N = r->reaction_x,
                                .deck_cause = r->cause,
                                .beam = beam_table(model, arena),
                                .break_ = break_table(model, arena)};
    return r;
}

void record_copy(Record *record, const Record *from, int times)
{
    Column to[COLUMNS], source[COLUMNS];
    Record view = *from;
    columns_of(record, record->history.model, record->cause != NULL, to);
    columns_of(&view, record->history.model, record->cause != NULL, source);
    for (int c = 0; c < COLUMNS; c++)
        if (to[c].row_bytes > 0) memcpy(*to[c].at, *source[c].at, to[c].row_bytes * (size_t)times);
}

CauseForce *record_causes(Record *record, int time)
{
    if (!record->cause) return NULL;
    const size_t row = CAUSE_COUNT * (size_t)record->history.model->station_count;
    CauseForce *cause = record->cause + (size_t)time * row;
    if (time > 0) memcpy(cause, cause - row, row * sizeof *cause);
    return cause;
}

/* Compression across a gap: jacks, locked strut and whatever deck there is in its middle. */
static double gap_force(const March *march, int g)
{
    const Gap *gap = &march->model->gap[g];
    /* the middle element, or the mean of the two beside the middle station */
    const int low = (gap->left_station + gap->right_station - 1) / 2;
    const int high = (gap->left_station + gap->right_station) / 2;
    double force = march->gap[g].jack_N + march->gap[g].strut_N;
    for (int p = 0; p < march->model->part_count; p++) {
        const Part *part = &march->model->part[p];
        if (!march->alive[p] || part->chain != CHAIN_DECK) continue;
        if (part->element == low) force -= 0.5 * march->force[p].N;
        if (part->element == high) force -= 0.5 * march->force[p].N;
    }
    return force;
}

void record_time(Record *r, const March *march, const Step *step, int time)
{
    const StageModel *model = march->model;
    const size_t parts = (size_t)model->part_count, stations = (size_t)model->station_count;
    const size_t t = (size_t)time;
    r->day[time] = step->day;
    r->event[time] = step->last ? step->event : -1;
    memcpy(r->force + t * parts, march->force, parts * sizeof(PartForce));
    memcpy(r->alive + t * parts, march->alive, parts);
    if (r->gape) memcpy(r->gape + t * parts, march->open_1, parts * sizeof(double));
    memcpy(r->move + t * stations * 2, march->move, stations * 2 * sizeof(NodeMove));
    for (size_t i = 0; i < stations; i++) r->link[t * stations + i] = march->shim[i].now;
    for (int g = 0; g < model->gap_count; g++) {
        r->gap_force[time * model->gap_count + g] = gap_force(march, g);
        r->gap_opening[time * model->gap_count + g] = march->gap[g].opening_m;
    }
    for (int s = 0; s < model->support_count; s++) {
        r->reaction[time * model->support_count + s] = march->support[s].vertical_N;
        r->reaction_x[time * model->support_count + s] = march->support[s].horizontal_N;
    }
}
