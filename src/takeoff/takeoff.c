/* The list of quantities: items in their order, sums, and what has to be known. docs/answers.md. */
#include "clench/takeoff.h"

#include <math.h>
#include <string.h>

#include "work.h"

/* ---- inputs ---- */

static void add_inputs(TakeoffWork *w)
{
    static const struct {
        const char *key, *name;
    } row[] = {
#define X(id, key, name) {key, name},
        TAKEOFF_INPUT_LIST(X)
#undef X
    };
    static const char *const from[] = {"default", "bridge file", "derived"};
    for (int i = 0; i < TAKEOFF_INPUT_COUNT; i++) {
        const BridgeValue *value = bridge_value_at(w->bridge, row[i].key);
        w->out->input[i] = (TakeoffInput){row[i].key, row[i].name, from[value->origin],
                                          value->value, value->row->dimension};
    }
}

/* ---- items ---- */

static void item_sum(TakeoffWork *w, TakeoffItem *item)
{
    for (int i = 0; i < item->line_count; i++) item->net += w->line[item->first + i].value;
    const double waste_1 = item->waste == TAKEOFF_NO_INPUT ? 0 : w->out->input[item->waste].value;
    item->ordered = item->net * (1 + waste_1);
    item->weight_N = NAN;
    if (item->dimension == DIM_FORCE)
        item->weight_N = item->net;
    else if (item->weight != TAKEOFF_NO_INPUT)
        item->weight_N = item->net * w->out->input[item->weight].value;
    if (item->open) item->net = item->ordered = item->weight_N = NAN;
}

/* An item without lines and without a reason is not of this bridge: left out. */
static void add_item(TakeoffWork *w, TakeoffItem *items, const TakeoffRow *row)
{
    TakeoffItem *item = &items[w->out->item_count];
    *item = (TakeoffItem){.group = row->group,
                          .name = row->name,
                          .purpose = row->purpose,
                          .dimension = row->dimension,
                          .unit = {row->unit[0], row->unit[1]},
                          .waste = row->waste,
                          .weight = row->weight,
                          .first = w->out->line_count};
    w->item = item;
    for (w->run = 0; w->run < w->plan->run_count && !item->open; w->run++) row->add(w);
    if (!item->line_count && !item->open) return;
    item_sum(w, item);
    w->out->item_count++;
}

static void add_items(TakeoffWork *w)
{
    TakeoffItem *items =
        ARENA_NEW(w->arena, TakeoffItem, takeoff_precast_count + takeoff_site_count);
    w->out->item = items;
    for (int i = 0; i < takeoff_precast_count; i++) add_item(w, items, &takeoff_precast[i]);
    for (int i = 0; i < takeoff_site_count; i++) add_item(w, items, &takeoff_site[i]);
}

/* ---- notes ---- */

static void add_notes(TakeoffWork *w)
{
    const PanelPlan *plan = w->plan;
    w->note_room = 8;
    w->note = ARENA_NEW(w->arena, const char *, w->note_room);
    work_note(
        w, "Haunches have their nominal height (deck.haunch) until the girders' tops are surveyed: "
           "camber alone can make the grout half as much again, or less. Order it by the survey.");
    work_note(
        w, "The gap has its width as laid out: jacking opens it by the movement of clench jacking, "
           "and closure and fill are more by that.");
    work_note(
        w, "Nothing is taken off for bars, connectors, keys and inserts in concrete or grout, nor "
           "for cover at the ends of bars: the safe side for ordering. Keys are not in the file.");
    if (plan->skew_rad != 0 || isfinite(work_value(w, "deck.plan_radius")))
        work_note(w, "The deck is skewed or curved: panels have their own shapes; haunches, dams, "
                     "barriers and "
                     "girders are counted along the girder lines, as if square and straight.");
    if (!strcmp(work_text(w, "panels.crown"), "thickened"))
        work_note(w,
                  "The panels are thicker at mid-width: their mean thickness stands in the lines.");
    if (!strcmp(work_text(w, "girders.kind"), "tub"))
        work_note(w, "Tubs have one row of pockets each, as in the schedule of the panels; "
                     "haunches and dams are "
                     "those of both flanges.");
    w->out->note = w->note;
}

Status takeoff_find(const Bridge *bridge, Arena *arena, const Takeoff **takeoff, Error *err)
{
    Takeoff *made = ARENA_NEW(arena, Takeoff, 1);
    TakeoffWork w = {.bridge = bridge, .arena = arena, .out = made};
    TRY(bridge_panels(bridge, arena, &w.plan, err));
    TRY(bridge_girders(bridge, arena, &w.girder, &w.girder_count, err));
    made->run = w.plan->run;
    made->run_count = w.plan->run_count;
    add_inputs(&w);
    add_items(&w);
    add_notes(&w);
    *takeoff = made;
    return STATUS_OK;
}

double takeoff_in_run(const Takeoff *t, int item, int run)
{
    const TakeoffItem *of = &t->item[item];
    double sum = 0;
    for (int i = 0; i < of->line_count; i++)
        if (t->line[of->first + i].run == run) sum += t->line[of->first + i].value;
    return of->open ? (double)NAN : sum;
}
