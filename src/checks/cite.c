/* Effects of live load and stresses of gradients, worked out once for all rows that cite them. */
#include "cite.h"

#include <math.h>
#include <string.h>

#include "ties.h"

static const double nothing = 10; /* Pa, N, N m */

struct Cited {
    Cite key;
    double value; /* unit: of the effect */
    CheckWorking working;
    Cited *next;
};

static bool same_effect(const Cite *a, const Cite *b)
{
    if (!a->other != !b->other) return false;
    if (a->other)
        return a->other->kind == b->other->kind && a->other->at == b->other->at &&
               a->other->to == b->other->to && a->other->side == b->other->side;
    const StageEffect *x = &a->effect, *y = &b->effect;
    return x->chain == y->chain && x->station == y->station && x->side == y->side &&
           x->top == y->top;
}

static bool same(const Cite *a, const Cite *b)
{
    return a->k == b->k && a->late == b->late && a->lines == b->lines && a->load == b->load &&
           a->gradient == b->gradient && (!a->load || a->sign == b->sign) && same_effect(a, b);
}

static LiveLines *lines_of(const Cite *cite)
{
    if (cite->lines) return cite->lines;
    return cite->late ? cite->k->end_live : cite->k->open_live;
}

/* ---- the list ---- */

static const char *part_words(const CheckCase *with, const Cite *cite)
{
    const StageEffect *e = &cite->effect;
    return arena_printf(with->arena, "%s of the %s, %s %s", e->top ? "top" : "bottom",
                        e->chain == CHAIN_DECK ? "deck" : "girder",
                        kit_x(with, cite->k, e->station), e->side < 0 ? "left" : "right");
}

/* Between the middles of two elements; none before the first station and behind the last. */
static const char *deck_words(const CheckCase *with, const KitLine *k, const LiveEffect *e)
{
    const char *unit = quantity_unit(bridge_units(with->bridge), DIM_LENGTH);
    return arena_printf(with->arena, "change of the deck's normal force, x = %.2f to %.2f %s",
                        quantity_in(kit_middle_m(k, e->at), unit),
                        quantity_in(kit_middle_m(k, e->to), unit), unit);
}

static const char *effect_words(const CheckCase *with, const KitLine *k, const LiveEffect *e)
{
    switch (e->kind) {
    case LIVE_REACTION:
        return arena_printf(with->arena, "reaction of the bearing at %s",
                            kit_x(with, k, k->model->support[e->at].station));
    case LIVE_MOMENT:
        return arena_printf(with->arena, "moment of girder and deck, %s", kit_x(with, k, e->at));
    case LIVE_SHEAR:
        return arena_printf(with->arena, "shear of girder and deck, %s %s", kit_x(with, k, e->at),
                            e->side < 0 ? "left" : "right");
    case LIVE_DECK: return deck_words(with, k, e);
    case LIVE_PART:
        return arena_printf(with->arena, "force of ties, %s", tie_words(with, k, e->at));
    }
    return "";
}

static const char *when_words(const Cite *cite)
{
    if (cite->lines)
        return cite->late ? "end of life, strips as without live load"
                          : "opening, strips as without live load";
    return cite->late ? "end of life" : "opening";
}

static const char *title_of(const CheckCase *with, const Cite *cite, const char *mark)
{
    const KitLine *k = cite->k;
    const char *what = cite->other ? effect_words(with, k, cite->other) : part_words(with, cite);
    const char *when = when_words(cite);
    const char *most = cite->sign > 0 ? "most tension" : "most compression";
    if (cite->other) most = cite->sign > 0 ? "most" : "least";
    if (cite->load)
        return arena_printf(with->arena, "%s: %s, %s; %s, %s, %s", mark, k->name, what, most,
                            cite->load->name, when);
    return arena_printf(with->arena, "%s: %s, %s; %s gradient, %s", mark, k->name, what,
                        cite->gradient == &k->line->cold ? "negative" : "positive", when);
}

static bool work_live(const CheckCase *with, const Cite *key, Cited *cited, Sheet *s)
{
    LiveWorking *w = ARENA_NEW(with->arena, LiveWorking, 1);
    LiveLines *lines = lines_of(key);
    const bool there = key->other ? live_effect_working(lines, key->load, key->other, key->sign, w)
                                  : live_working(lines, key->load, &key->effect, key->sign, w);
    if (!there) return false;
    if (key->other)
        cite_write_effect(with, w, s);
    else
        cite_write_live(with, w, s);
    cited->working.live = w;
    cited->value = w->value;
    return true;
}

static bool work_gradient(const CheckCase *with, const Cite *key, Cited *cited, Sheet *s)
{
    GradientWorking *w = ARENA_NEW(with->arena, GradientWorking, 1);
    if (!live_gradient(lines_of(key), key->gradient, &key->effect, with->arena, w)) return false;
    cite_write_gradient(with, w, s);
    cited->working.gradient = w;
    cited->value = w->stress_Pa;
    return true;
}

static void work_out(const CheckCase *with, Cited *cited)
{
    const Cite *key = &cited->key;
    Sheet s = sheet_start(cited->working.title, with->arena);
    if (!(key->load ? work_live : work_gradient)(with, key, cited, &s)) return;
    if (fabs(cited->value) < nothing) return; /* an influence line without such a part */
    Sheet *kept = ARENA_NEW(with->arena, Sheet, 1);
    *kept = s;
    cited->working.sheet = kept;
}

static const Cited *cited(const CheckCase *with, const Cite *cite)
{
    CheckShared *shared = with->shared;
    int count = 1;
    Cited **at = &shared->cited;
    for (; *at; at = &(*at)->next) {
        if (same(&(*at)->key, cite)) return *at;
        count += (*at)->working.sheet && !(*at)->key.load == !cite->load;
    }
    Cited *made = ARENA_NEW(with->arena, Cited, 1);
    const char *mark = arena_printf(with->arena, "%c%d", cite->load ? 'L' : 'G', count);
    *made = (Cited){.key = *cite, .value = NAN};
    if (cite->other) {
        LiveEffect *other = ARENA_NEW(with->arena, LiveEffect, 1);
        *other = *cite->other;
        made->key.other = other;
    }
    made->working = (CheckWorking){.mark = mark, .title = title_of(with, cite, mark)};
    work_out(with, made);
    *at = made;
    return made;
}

void cite_effect(Sheet *s, const CheckCase *with, const Cite *cite, const char *symbol,
                 const char *unit, const char *words)
{
    const Cited *found = cited(with, cite);
    if (!found->working.sheet) {
        sheet_given_from(s, symbol, 0, unit, words, "the influence line has no such part");
        return;
    }
    sheet_given_from(s, symbol, cite->positive * found->value, unit, words,
                     arena_printf(s->arena, "working %s", found->working.mark));
}

void cite_stress(Sheet *s, const CheckCase *with, const Cite *cite, const char *symbol,
                 const char *words)
{
    cite_effect(s, with, cite, symbol, with->shared->unit.stress, words);
}

void cite_gradient(Sheet *s, const CheckCase *with, const Cite *cite)
{
    if (cite->gradient)
        cite_stress(s, with, cite, "f_TG", "of the temperature gradient");
    else
        sheet_given(s, "f_TG", 0, with->shared->unit.stress,
                    "temperature gradient: none counts, or it relieves");
}

/* Live load first: L1, L2, ... G1, ... */
void cite_all(const CheckCase *with, CheckList *list)
{
    int count = 0;
    for (const Cited *c = with->shared->cited; c; c = c->next) count++;
    CheckWorking *all = ARENA_NEW(with->arena, CheckWorking, count + 1);
    for (int live = 1; live >= 0; live--)
        for (const Cited *c = with->shared->cited; c; c = c->next) {
            if ((c->key.load != NULL) != live || !c->working.sheet) continue;
            all[list->working_count++] = c->working;
            if (list->status != STATUS_OK || c->working.sheet->status == STATUS_OK) continue;
            list->status = c->working.sheet->status;
            list->err = c->working.sheet->err;
        }
    list->working = all;
}
