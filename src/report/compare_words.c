/* What the numbers say of the jacked way that does not speak for it, and what is not in them. */
#include <math.h>

#include "compare.h"

static void item(Report *r, const char *text) { document_add(r, REPORT_ITEM, text); }

static const char *percent(const Report *r, double ratio_1)
{
    return arena_printf(r->arena, "%.0f %%", 100 * ratio_1);
}

static void against_tendons(Report *r, const CompareAnswer *c)
{
    const WayAnswer *thrust = &c->way[WAY_THRUST], *tendon = &c->way[WAY_TENDON];
    const double mine = compare_kept_1(&thrust->kept), other = compare_kept_1(&tendon->kept);
    if (mine < other)
        item(r, arena_printf(r->arena,
                             "Jacks keep less of their compression than tendons: %s against %s at "
                             "that joint.",
                             percent(r, mine), percent(r, other)));
    const double more_Pa = thrust->building.top_most_Pa - tendon->building.top_most_Pa;
    if (more_Pa > 0)
        item(r, arena_printf(r->arena,
                             "The thrust goes through the girders: their top sees up to %s while "
                             "building, %s with tendons, which leave the girders alone.",
                             compare_stress(r, thrust->building.top_most_Pa),
                             compare_stress(r, tendon->building.top_most_Pa)));
    if (tendon->enough && thrust->line[c->line].answer->line->tendons == NULL &&
        c->thrust->reachable && !c->thrust->window)
        item(r, "No thrust meets rules and limits at once; tendons meet the rules.");
    item(r, "Everything hangs on the anchor panels of a run and their connectors: a tendon that "
            "breaks is one of many.");
}

static void against_bars(Report *r, const CompareAnswer *c)
{
    const WayAnswer *uhpc = &c->way[WAY_UHPC], *cast = &c->way[WAY_CAST];
    item(r,
         "A joint under compression alone has no bars through it: past its limit it opens at once. "
         "UHPC joints and a cast deck have bars that hold cracks small.");
    const double mine = c->way[WAY_THRUST].finish.bottom_most_Pa;
    const double least = fmin(uhpc->finish.bottom_most_Pa, cast->finish.bottom_most_Pa);
    if (mine > least + 70e3) /* 10 psi */
        item(r, arena_printf(r->arena,
                             "At the end of life the girders' bottom sees up to %s under permanent "
                             "load; without compression %s.",
                             compare_stress(r, mine), compare_stress(r, least)));
    item(r, "The jacking gap with its closure and fill is one more joint, of concrete that starts "
            "without compression; a deck of tendons or UHPC has none.");
}

void compare_words(Report *r, const CompareAnswer *c)
{
    document_add(r, REPORT_HEADING, "Where the jacked way is worse");
    against_tendons(r, c);
    against_bars(r, c);
    document_add(r, REPORT_HEADING, "What the comparison rests on");
    item(r,
         "All ways run through the same stages with the same loads, friction at the shims, creep, "
         "shrinkage and calendar from the barrier on; what the file does not say of a way (group "
         "ways) is a default: put your own.");
    item(
        r,
        "UHPC joints and a cast deck are held against the modulus of rupture of the concrete "
        "beside "
        "the joint, compressed ones against opening: not the same thing. They are taken uncracked; "
        "once cracked their stress falls and their bars carry.");
    item(r,
         "From seating on a tendon follows the deck at every place; until its duct is grouted it "
         "could slip along it. Ducts are not taken out of the section.");
    item(r, "Tendons are low-relaxation strand, straight in the deck from end to end of a unit.");
}
