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
        set(group(root, "days", arena), "jacking", wish->jacking_day, "day", arena);
    return root;
}

/* ---- runs ---- */

static SiteLife life_of(const LineAnswer *line, int joint, int side)
{
    const Split jacked = thrust_split(line, joint, side, line->moments.jacked);
    const Split open = thrust_split(line, joint, side, line->moments.opening);
    const Split end = thrust_split(line, joint, side, line->moments.end);
    return (SiteLife){.jacked_Pa = -jacked.mean_total_Pa,
                      .opening_Pa = -open.mean_total_Pa,
                      .end_Pa = -end.mean_total_Pa};
}

static Status first_error(const Diagnostics *found, Error *err)
{
    if (found->count == 0)
        return error_set(err, STATUS_BAD_INPUT, "the bridge as built does not read");
    if (err) *err = found->item[0];
    return STATUS_BAD_INPUT;
}

static Status run(const SiteLifeWish *wish, const SiteBuilt *built, const Case *with, Arena *arena,
                  Arena *scratch, SiteLife *life, Error *err)
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
    const LineAnswer *of = &answer->line[built->line];
    *life = life_of(of, built->joint, wish->design->line[built->line].jacked.side);
    life->met = answer->met;
    life->thrust_N = with->thrust_N;
    life->modulus_1 = with->modulus_1;
    life->friction_1 = with->friction_1;
    return STATUS_OK;
}

/* ---- ends of what the readings leave open ---- */

static int ends(const SiteValue *value, double otherwise[2], double end[2])
{
    end[0] = value->told ? value->low : otherwise[0];
    end[1] = value->told ? value->high : otherwise[1];
    return isfinite(end[0]) && end[1] > end[0] ? 2 : 1;
}

Status site_life(const SiteLifeWish *wish, Arena *arena, Arena *scratch, SiteBuilt *built,
                 Error *err)
{
    const size_t mark = arena_mark(arena);
    const SiteFit *fit = wish->fit;
    const int at = wish->design->governing_line >= 0 ? wish->design->governing_line : 0;
    const LineAnswer *line = &wish->design->line[at];
    double force[2], modulus[2], friction[2];
    double plan_N[2] = {fit->force_N.plan, fit->force_N.plan}, as_file[2] = {NAN, NAN};
    /* not told apart: from the plan's to that all of the slope is the panels' */
    double deck[2] = {fmin(1, fit->deck_alone_1), fmax(1, fit->deck_alone_1)};
    SiteBuilt made = {.line = at, .joint = line->jacked.joint};
    made.design = life_of(line, line->jacked.joint, line->jacked.side);
    made.design.thrust_N = wish->design->thrust_N;
    made.design.modulus_1 = 1;
    made.design.friction_1 = NAN;
    made.design.met = wish->design->met;
    const int forces = ends(&fit->force_N, plan_N, force),
              moduli = ends(&fit->deck_1, deck, modulus);
    const int frictions = ends(&fit->friction_1, as_file, friction);
    for (int i = 0; i < forces * moduli * frictions; i++) {
        const Case with = {force[i % forces], modulus[i / forces % moduli],
                           friction[i / forces / moduli]};
        SiteLife life = {.end_Pa = NAN};
        TRY(run(wish, &made, &with, arena, scratch, &life, err));
        arena_reset(arena, mark);
        if (i == 0 || life.end_Pa < made.least.end_Pa) made.least = life;
        if (i == 0 || life.end_Pa > made.most.end_Pa) made.most = life;
    }
    *built = made;
    return STATUS_OK;
}
