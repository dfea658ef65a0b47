/* The life of the deck with the force, modulus, friction and day that were found. */
#include <math.h>
#include <string.h>

#include "look.h"

/* ---- the bridge file with other values ---- */

static Node *copy(const Node *from, Arena *arena)
{
    Node *to = node_new(arena, from->kind);
    const char *const text = to->text;
    *to = *from;
    to->first = to->next = to->last = NULL;
    to->count = 0;
    if (!to->text) to->text = text;
    for (const Node *child = from->first; child; child = child->next)
        node_append(to, copy(child, arena));
    return to;
}

static Node *child_of(Node *map, const char *key)
{
    Node *child = map->first;
    while (child && strcmp(child->key, key) != 0) child = child->next;
    return child;
}

static Node *group(Node *map, const char *key, Arena *arena)
{
    Node *child = child_of(map, key);
    if (child) return child;
    child = node_new(arena, NODE_MAP);
    child->key = arena_text(arena, key);
    node_append(map, child);
    return child;
}

static void set(Node *map, const char *key, double value_SI, const char *unit, Arena *arena)
{
    Node *child = child_of(map, key);
    char text[64];
    if (!child) {
        child = node_new(arena, NODE_TEXT);
        child->key = arena_text(arena, key);
        node_append(map, child);
    }
    child->text = arena_text(arena, quantity_write(value_SI, unit, text, sizeof text));
    child->plain = true;
}

/* ---- what goes in ---- */

typedef struct Case {
    double thrust_N, modulus_1, friction_1;
} Case;

static const ConcreteMix *panel_mix(const StageModel *model)
{
    for (int p = 0; p < model->part_count; p++) {
        const Material *m = &model->material[model->part[p].material];
        if (model->part[p].chain == CHAIN_DECK && m->kind == MATERIAL_CONCRETE &&
            model->part[p].element == model->gap[0].left_station - 1)
            return &m->mix;
    }
    return NULL;
}

static double planned_day(const ThrustAnswer *design)
{
    const LineAnswer *line = &design->line[0];
    return line->history->day[line->moments.jacked];
}

static void shift(Node *value, double by_day, Arena *arena)
{
    Error none;
    double day;
    char text[64];
    if (value->kind != NODE_TEXT || quantity_read(value->text, DIM_TIME, &day, &none) != STATUS_OK)
        return;
    value->text = arena_text(arena, quantity_write(day + by_day, "day", text, sizeof text));
}

/* Days that are given and come after the jacking move with it: the work follows on. */
static void days_move(Node *root, double to_day, double planned, Arena *arena)
{
    static const char *const later[] = {"lock",
                                        "closure_cast",
                                        "closure_active",
                                        "release",
                                        "fill_cast",
                                        "fill_active",
                                        "haunch",
                                        "diaphragm_cast",
                                        "diaphragm_active",
                                        "barrier",
                                        "overlay",
                                        "opening",
                                        "inspections",
                                        "end"};
    Node *days = group(root, "days", arena);
    set(days, "jacking", to_day, "day", arena);
    for (size_t i = 0; i < sizeof later / sizeof *later; i++) {
        Node *child = child_of(days, later[i]);
        if (!child) continue;
        shift(child, to_day - planned, arena);
        for (Node *item = child->first; item; item = item->next)
            shift(item, to_day - planned, arena);
    }
}

static const Node *changed(const SiteLifeWish *wish, const Case *with, Arena *arena)
{
    Node *root = copy(wish->root, arena);
    const ConcreteMix *mix = panel_mix(&wish->design->line[0].line->model);
    Node *shims = group(root, "shims", arena);
    if (mix && with->modulus_1 != 1) {
        Node *concrete = group(root, "concrete", arena);
        set(group(concrete, "panel", arena), "measured_modulus",
            with->modulus_1 * concrete_modulus_Pa(mix, 28), "GPa", arena);
    }
    if (look_read(with->friction_1)) {
        set(shims, "friction", with->friction_1, "", arena);
        if (child_of(shims, "friction_least"))
            set(shims, "friction_least", with->friction_1, "", arena);
    }
    if (look_read(wish->jacking_day))
        days_move(root, wish->jacking_day, planned_day(wish->design), arena);
    return root;
}

/* ---- runs ---- */

static SiteStress stress_of(const LineAnswer *line, const SiteBuiltLine *at, int time)
{
    const Split split = thrust_split(line, at->joint, at->side, time);
    return (SiteStress){-split.mean_total_Pa, -fmax(split.top_total_Pa, split.bottom_total_Pa)};
}

static SiteLife life_of(const LineAnswer *line, const SiteBuiltLine *at, const Case *with)
{
    return (SiteLife){.thrust_N = with->thrust_N,
                      .modulus_1 = with->modulus_1,
                      .friction_1 = with->friction_1,
                      .jacked = stress_of(line, at, line->moments.jacked),
                      .opening = stress_of(line, at, line->moments.opening),
                      .end = stress_of(line, at, line->moments.end)};
}

static Status first_error(const Diagnostics *found, Error *err)
{
    if (found->count == 0)
        return error_set(err, STATUS_BAD_INPUT, "the bridge as built does not read");
    if (err) *err = found->item[0];
    return STATUS_BAD_INPUT;
}

static void widen(double range[2], double value, bool first)
{
    range[0] = first ? value : fmin(range[0], value);
    range[1] = first ? value : fmax(range[1], value);
}

static void take(SiteBuilt *built, const ThrustAnswer *answer, const Case *with)
{
    for (int k = 0; k < built->count; k++) {
        SiteBuiltLine *at = &built->line[k];
        const SiteLife life = life_of(&answer->line[at->line], at, with);
        if (built->runs == 0 || life.end.fibre_Pa < at->least.end.fibre_Pa) at->least = life;
        if (built->runs == 0 || life.end.fibre_Pa > at->most.end.fibre_Pa) at->most = life;
    }
    widen(built->need_N, answer->need_N, built->runs == 0);
    widen(built->limit_N, answer->most_N, built->runs == 0);
    built->always = answer->met && (built->runs == 0 || built->always);
    built->ever = answer->met || built->ever;
    built->runs++;
}

static Status run(const SiteLifeWish *wish, const Case *with, Arena *arena, Arena *scratch,
                  SiteBuilt *built, Error *err)
{
    const ThrustWish given = {with->thrust_N, stage_settings_default()};
    Diagnostics *found = ARENA_NEW(arena, Diagnostics, 1);
    const Bridge *bridge;
    const BridgeLine *line;
    const ThrustAnswer *answer;
    int count;
    if (bridge_read(changed(wish, with, arena), arena, &bridge, found) != STATUS_OK)
        return first_error(found, err);
    TRY(bridge_lines(bridge, 1, arena, &line, &count, err));
    TRY(thrust_find(line, count, &given, arena, scratch, &answer, err));
    take(built, answer, with);
    return STATUS_OK;
}

/* ---- ends of what the readings leave open ---- */

static int ends(const SiteValue *value, const double otherwise[2], double end[2])
{
    end[0] = value->told ? value->low : otherwise[0];
    end[1] = value->told ? value->high : otherwise[1];
    return isfinite(end[0]) && end[1] > end[0] ? 2 : 1;
}

/* Lines of the unit, each at the joint that governs it. */
static void lines_take(const SiteLifeWish *wish, SiteBuilt *built)
{
    const ThrustAnswer *design = wish->design;
    const Case planned = {design->thrust_N, 1, NAN};
    int unit = -1;
    for (int k = 0; k < design->line_count; k++) {
        const LineAnswer *line = &design->line[k];
        unit += k == 0 || strcmp(line->line->unit, design->line[k - 1].line->unit) != 0;
        if (unit != wish->unit || built->count == JACK_LINES || line->jacked.joint < 0) continue;
        SiteBuiltLine *at = &built->line[built->count++];
        *at = (SiteBuiltLine){.line = k, .joint = line->jacked.joint, .side = line->jacked.side};
        at->design = life_of(line, at, &planned);
    }
    built->design_met = design->met;
    built->planned_day = planned_day(design);
    built->jacking_day = look_read(wish->jacking_day) ? wish->jacking_day : built->planned_day;
}

Status site_life(const SiteLifeWish *wish, Arena *arena, Arena *scratch, SiteBuilt *built,
                 Error *err)
{
    const size_t mark = arena_mark(arena);
    const SiteFit *fit = wish->fit;
    double force[2], modulus[2], friction[2];
    const double plan_N[2] = {fit->even_N.plan, fit->even_N.plan}, as_file[2] = {NAN, NAN};
    /* not told apart: from the plan's to that all of the slope is the panels' */
    const double deck[2] = {fmin(1, fit->deck_alone_1), fmax(1, fit->deck_alone_1)};
    SiteBuilt made = {.count = 0};
    lines_take(wish, &made);
    const int forces = ends(&fit->even_N, plan_N, force),
              moduli = ends(&fit->deck_1, deck, modulus);
    const int frictions = ends(&fit->friction_1, as_file, friction);
    for (int i = 0; i < forces * moduli * frictions; i++) {
        const Case with = {force[i % forces], modulus[i / forces % moduli],
                           friction[i / forces / moduli]};
        TRY(run(wish, &with, arena, scratch, &made, err));
        arena_reset(arena, mark);
    }
    *built = made;
    return STATUS_OK;
}
