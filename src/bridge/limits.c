/* What piers, splices, truck and crane ask of the lengths of panels: numbers for src/panel. */
#include <math.h>

#include "layout.h"

double layout_rise_1(const Bridge *b)
{
    return b->panels.crown == PANEL_CROWN_THICKENED ? b->deck.crossfall_1 : 0;
}

double layout_weight_N_per_m(const Bridge *b)
{
    const bool two = b->panels.crown == PANEL_CROWN_CLOSURE;
    const double width_m = two ? (b->deck.width_m - b->panels.strip_m) / 2 : b->deck.width_m;
    const double mean_m = b->deck.thickness_m + layout_rise_1(b) * b->deck.width_m / 4;
    return b->deck.density_N_per_m3 * width_m * mean_m;
}

/* The crane lifts factor * weight + rigging with a share of its chart, as in the checks of handling. */
LayoutLimits layout_limits(const Bridge *b)
{
    const HandlingData *h = &b->handling;
    const double weight_N_per_m = layout_weight_N_per_m(b);
    const double cosine = b->panels.skew == PANEL_SKEW_ALL
                              ? cos(b->deck.skew_degrees * acos(-1) / 180)
                              : 1; /* it travels across its joints */
    LayoutLimits limits = {.truck_m = INFINITY, .truck_width_m = INFINITY, .crane_m = INFINITY};
    if (!isnan(h->truck_N)) limits.truck_m = h->truck_N / weight_N_per_m;
    if (!isnan(h->truck_width_m)) limits.truck_width_m = h->truck_width_m / cosine;
    if (!isnan(h->crane_N))
        limits.crane_m =
            (h->crane_N * h->crane_share_1 - h->rigging_N) / h->crane_1 / weight_N_per_m;
    limits.longest_m =
        fmin(fmin(b->panels.longest_m, limits.truck_m), fmin(limits.truck_width_m, limits.crane_m));
    /* a panel of a foot is none: the checks of handling say what is too weak */
    limits.longest_m = fmax(limits.longest_m, 0.3);
    return limits;
}

PanelRule layout_rule(const Bridge *b, PanelChoice choice)
{
    const double longest_m = layout_limits(b).longest_m;
    return (PanelRule){.choice = choice,
                       .nominal_m = b->panels.length_m,
                       .longest_m = longest_m,
                       .shortest_m = fmin(b->panels.shortest_m, longest_m)};
}

/* A joint at the ends of tied girders would sit where the deck bends sharply. */
static double tied_clear_m(const Bridge *b) { return b->piers.end_gap_m / 2 + 0.3; }

/* Tied piers always; the others and splices where the file asks for such a layout. */
static int keep_of(const Unit *unit, PanelChoice choice, PanelKeep *keep)
{
    const Bridge *b = unit->bridge;
    const SpliceData *splice = b->girders.splices.item;
    const double clear_m = choice == PANEL_NOMINAL ? 0 : b->panels.clear_m;
    int count = 0;
    for (int k = 1; k < unit->span_count; k++) {
        const bool tied = layout_tied(unit, k);
        const double own_m = tied ? fmax(clear_m, tied_clear_m(b)) : clear_m;
        if (own_m > 0) keep[count++] = (PanelKeep){unit->support_m[k], own_m};
    }
    for (int i = 0; clear_m > 0 && i < b->girders.splices.count; i++)
        keep[count++] = (PanelKeep){splice[i].at_m - unit->start_m, clear_m};
    return count;
}

PanelStretch *layout_stretches(const Unit *unit, int unit_count, PanelChoice choice, Arena *arena)
{
    PanelStretch *made = ARENA_NEW(arena, PanelStretch, 2 * unit_count);
    for (int u = 0; u < unit_count; u++) {
        const Unit *at = &unit[u];
        PanelKeep *keep =
            ARENA_NEW(arena, PanelKeep, at->span_count + at->bridge->girders.splices.count);
        const int keeps = keep_of(at, choice, keep);
        PanelStretch *const left = &made[(ptrdiff_t)2 * u], *const right = left + 1;
        *left = (PanelStretch){at->anchor_m, at->gap_from_m, false, keeps, keep};
        *right = (PanelStretch){at->gap_to_m, at->length_m - at->anchor_m, true, keeps, keep};
    }
    return made;
}
