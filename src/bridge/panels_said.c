/* What has to be known of the panels: limits that are not kept, and where they leave what the girder
 * lines are judged by. docs/theory/panels.md. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "panels.h"

static void PRINTF_LIKE(3, 4) say(PanelWork *w, bool alarm, const char *format, ...)
{
    char text[1024];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    if (w->plan->remark_count == w->remark_room) return; /* room is made for all of them */
    w->remark[w->plan->remark_count] = arena_text(w->arena, text);
    w->alarm[w->plan->remark_count++] = alarm;
}

/* "3.5 ft", in the units of the file. */
static const char *in_units(const PanelWork *w, double value, DimensionId dimension)
{
    const UnitSystem units = (UnitSystem)w->bridge->units;
    const char *unit = dimension == DIM_STRESS ? quantity_shown_unit(units, dimension, value)
                                               : quantity_unit(units, dimension);
    return arena_printf(w->arena, "%.4g %s", quantity_in(value, unit), unit);
}
static const char *length(const PanelWork *w, double length_m)
{
    return in_units(w, length_m, DIM_LENGTH);
}

/* ---- skew and curve ---- */

/* A joint that is turned against the thrust carries a part of it along its face. */
static void say_skew(PanelWork *w)
{
    const Bridge *b = w->bridge;
    const double degrees = fabs(b->deck.skew_degrees);
    if (degrees == 0) return;
    const bool all = b->panels.skew == PANEL_SKEW_ALL;
    say(w, true,
        "The deck is skewed by %.3g degrees. Thrust, stresses and checks of this program are those "
        "of "
        "a square bridge: bearings that press unevenly, girders that twist, and the thrust that "
        "wants to "
        "turn the deck are not in them; of corners, only the larger shear of live load.%s",
        degrees,
        degrees > 20
            ? " Beyond 15 to 20 degrees panels are kept square as a rule (common practice, "
              "no source), and a model in two directions is needed."
            : "");
    if (all)
        say(w, true,
            "All joints are skewed: each carries %.3g of the thrust along its face, which friction "
            "of at least %.3g or its keys must hold, and the glue not at all while it is fresh. "
            "The "
            "run must be guided sideways.",
            sin(fabs(w->plan->skew_rad)), tan(fabs(w->plan->skew_rad)));
}

static double longest_unit_m(const PanelWork *w)
{
    double longest_m = 0;
    for (int u = 0; u < w->unit_count; u++) longest_m = fmax(longest_m, w->unit[u].length_m);
    return longest_m;
}

static void say_curve(PanelWork *w)
{
    const double radius_m = w->bridge->deck.plan_radius_m;
    if (isnan(radius_m)) return;
    const double length_m = longest_unit_m(w), panel_m = w->plan->option[w->plan->chosen].longest_m;
    const double arc_rad = length_m / radius_m;
    say(w, true,
        "The bridge is curved in plan: the longest run turns by %.3g rad, and the girder lines are "
        "judged as if straight.%s The joints stand square to the arc, so panels are wedges, %s "
        "shorter at the inner edge than at the outer one; each joint turns the thrust by %.2g of "
        "itself sideways, which guides must hold until the haunches are grouted. A chord of the "
        "run "
        "leaves the arc by %s.",
        arc_rad,
        arc_rad > 0.06 ? " Beyond 0.06 rad that is not allowed for (AASHTO LRFD 4.6.1.2.4b, from "
                         "memory, girders of a span): a model of the curved bridge is needed."
                       : "",
        length(w, w->bridge->deck.width_m * panel_m / radius_m), panel_m / radius_m,
        length(w, length_m * length_m / 8 / radius_m));
}

/* ---- sizes ---- */

static double gross_N(const PanelPiece *p) { return p->gross_N; }
static double haul_m(const PanelPiece *p) { return p->body.haul_m; }

typedef struct Limit {
    double limit; /* unit: SI of `dimension`; none: not said */
    DimensionId dimension;
    double (*of)(const PanelPiece *piece);
    const char *words; /* with the limit */
} Limit;

static void say_over(PanelWork *w, const Limit *limit)
{
    const PanelPiece *worst = &w->piece[0];
    int count = 0;
    if (isnan(limit->limit)) return;
    for (int i = 0; i < w->plan->piece_count; i++) {
        const PanelPiece *p = &w->piece[i];
        count += limit->of(p) > limit->limit * (1 + 1e-9);
        if (limit->of(p) > limit->of(worst)) worst = p;
    }
    if (count > 0)
        say(w, true, "%d panels are %s, %s; %s has %s.", count, limit->words,
            in_units(w, limit->limit, limit->dimension), worst->mark,
            in_units(w, limit->of(worst), limit->dimension));
}

static void say_limits(PanelWork *w)
{
    const HandlingData *h = &w->bridge->handling;
    const Limit limit[] = {
        {h->truck_N, DIM_FORCE, gross_N, "heavier than the truck's payload"},
        {h->truck_width_m, DIM_LENGTH, haul_m, "wider on the road than what may travel"},
        {(h->crane_N * h->crane_share_1 - h->rigging_N) / h->crane_1, DIM_FORCE, gross_N,
         "heavier than what the crane lifts with its margins"}};
    for (size_t i = 0; i < sizeof limit / sizeof *limit; i++) say_over(w, &limit[i]);
}

static void say_corners(PanelWork *w)
{
    const double least_m = 3 / quantity_in(1, "ft"); /* common practice, no source */
    int count = 0;
    const PanelPiece *worst = NULL;
    for (int i = 0; i < w->plan->piece_count; i++) {
        const PanelPiece *p = &w->piece[i];
        if (!panel_pinched(&p->shape, least_m)) continue;
        count++;
        if (!worst || p->body.shortest_m < worst->body.shortest_m) worst = p;
    }
    if (!worst) return;
    say(w, true,
        worst->body.shortest_m <= 0
            ? "%s is no panel: the skew cuts it to a point before it reaches the other edge of the "
              "deck (%d like it, short side %s). Longer anchor panels, or all panels skewed."
            : "%s comes to a side of less than 3 ft (%d like it, short side %s): a corner that "
              "breaks. Longer anchor panels, or all panels skewed.",
        worst->mark, count, length(w, worst->body.shortest_m));
}

/* ---- joints ---- */

typedef struct Near {
    double over_m;
    const char *joint, *what;
    double x_m, away_m;
    int count;
} Near;

static void look_near(PanelWork *w, const Unit *unit, int u, double at_m, const char *what,
                      double clear_m, Near *near)
{
    for (int j = 1; j + 1 < layout_joint_count(unit); j++) {
        if (j == unit->left_panels || j == unit->left_panels + 1) continue;
        const double away_m = fabs(layout_joint_m(unit, j) - at_m);
        if (away_m > clear_m - 1e-6) continue;
        near->count++;
        if (away_m - clear_m >= near->over_m) continue;
        near->over_m = away_m - clear_m;
        near->joint = arena_printf(w->arena, "R%d-J%02d", u + 1, j + 1);
        near->what = what;
        near->x_m = unit->start_m + at_m;
        near->away_m = away_m;
    }
}

static void say_joints(PanelWork *w)
{
    const Bridge *b = w->bridge;
    const SpliceData *splice = b->girders.splices.item;
    Near near = {.over_m = INFINITY};
    for (int u = 0; u < w->unit_count; u++) {
        const Unit *unit = &w->unit[u];
        for (int k = 1; k < unit->span_count; k++)
            look_near(w, unit, u, unit->support_m[k], "pier", b->panels.clear_m, &near);
        for (int i = 0; i < b->girders.splices.count; i++)
            look_near(w, unit, u, splice[i].at_m - unit->start_m, "splice", b->panels.clear_m,
                      &near);
    }
    if (near.count == 0) return;
    say(w, true,
        "%d joints stand nearer than %s to a pier or splice; %s, %s from the %s at x = %s, is the "
        "nearest. Where the deck is pulled most a panel, not a joint, should lie: another "
        "panels.layout or panels.length.",
        near.count, length(w, b->panels.clear_m), near.joint, length(w, near.away_m), near.what,
        length(w, near.x_m));
}

/* ---- holes ---- */

static bool overlap(const PanelHole *a, const PanelHole *c)
{
    return fabs(a->x_m - c->x_m) < (a->along_m + c->along_m) / 2 &&
           fabs(a->z_m - c->z_m) < (a->across_m + c->across_m) / 2;
}

static void say_blockouts(PanelWork *w)
{
    int placed = 0;
    for (int i = 0; i < w->plan->piece_count; i++) {
        const PanelPiece *p = &w->piece[i];
        placed += p->blockout_count;
        for (int k = p->pocket_count; k < p->hole_count; k++) {
            if (!panel_holds(&p->shape, &p->hole[k], 0))
                say(w, true, "A blockout at x = %s is cut by an edge or joint of %s.",
                    length(w, p->from_m + p->hole[k].x_m), p->mark);
            /* What two holes share is taken off twice: the weight as lifted is too low then. */
            for (int q = 0; q < k; q++)
                if (overlap(&p->hole[q], &p->hole[k])) {
                    say(w, true, "A blockout at x = %s meets %s of %s.",
                        length(w, p->from_m + p->hole[k].x_m),
                        q < p->pocket_count ? "a pocket" : "another blockout", p->mark);
                    break;
                }
        }
    }
    if (placed < w->bridge->panels.blockouts.count)
        say(w, true,
            "%d blockouts lie in no panel: beyond the deck, in the jacking gap or in the "
            "longitudinal closure.",
            w->bridge->panels.blockouts.count - placed);
}

static void say_pockets(PanelWork *w)
{
    const Bridge *b = w->bridge;
    const double edge_m = 6 / quantity_in(1, "in"); /* common practice, no source */
    double least_m = INFINITY;
    const PanelPiece *worst = NULL;
    int girders = 0;
    for (int i = 0; i < w->plan->piece_count; i++) {
        const PanelPiece *p = &w->piece[i];
        const int rows = panel_pocket_rows(p->cast_m, b->connectors.spacing_m);
        const double left_m = p->cast_m / rows / 2 - b->handling.pocket_m / 2;
        if (p->number == 1 && p->run == 0) girders += p->pocket_count / rows;
        if (left_m >= least_m) continue;
        least_m = left_m;
        worst = p;
    }
    if (worst && least_m < edge_m)
        say(w, true, "Pockets of %s come within %s of a joint: less than 6 in breaks out.",
            worst->mark, length(w, fmax(least_m, 0)));
    if (girders < b->girders.count)
        say(w, true, "Girders below the longitudinal closure (%d): no panel sits on them there.",
            b->girders.count - girders);
}

/* ---- crown and width ---- */

static void say_crown(PanelWork *w)
{
    const Bridge *b = w->bridge;
    const double half_m = b->deck.width_m / 2;
    switch ((PanelCrown)b->panels.crown) {
    case PANEL_CROWN_TWO_PLANES:
        say(w, false,
            "The bed has two planes that meet at mid-width, %s higher there: panels are folded, "
            "not "
            "flat. A compressed deck with a crown is a shallow folded plate (common practice: "
            "tolerable, no source); its girder tops follow the planes.",
            length(w, b->deck.crossfall_1 * half_m));
        break;
    case PANEL_CROWN_THICKENED:
        say(w, true,
            "The panels are %s thicker at mid-width. Girder lines, thrust and checks but those of "
            "handling take deck.thickness throughout: give the rest as loads.overlay (%s on "
            "average).",
            length(w, b->deck.crossfall_1 * half_m),
            in_units(w, b->deck.density_N_per_m3 * b->deck.crossfall_1 * half_m / 2,
                     DIM_AREA_LOAD));
        break;
    case PANEL_CROWN_CLOSURE:
        say(w, true,
            "The panels are in two with a longitudinal closure of %s. Girder lines take the whole "
            "width as one deck that is compressed: a closure that is cast after jacking gets no "
            "thrust but what creep brings, and the panels' stress is %.3g times as large before.",
            length(w, b->panels.strip_m), b->deck.width_m / (b->deck.width_m - b->panels.strip_m));
        break;
    case PANEL_CROWN_NONE: break;
    }
    if (b->panels.crown != PANEL_CROWN_CLOSURE && b->deck.width_m > 50 / quantity_in(1, "ft"))
        say(w, false,
            "Panels of %s across: wider than 40 to 50 ft decks are laid in two with a longitudinal "
            "closure as a rule (common practice, no source).",
            length(w, b->deck.width_m));
}

/* ---- yard ---- */

static void say_cast(PanelWork *w)
{
    const PanelPlan *p = w->plan;
    if (p->glued && !p->matched)
        say(w, true,
            "The joints are to be match-cast, but panels.phases is 1: panels that are cast at once "
            "are not cast against each other.");
    if (p->matched && p->lag_day < 1)
        say(w, true,
            "Phase 2 follows phase 1 after %.2g days: at least 24 hours, and no more than 35 degF "
            "between them (common practice, no source).",
            p->lag_day);
    if (p->sets.youngest_day < p->least_age_day)
        say(w, true,
            "The youngest panel is %.3g days old when it is set, less than casting.least_age, %.3g "
            "days.",
            p->sets.youngest_day, p->least_age_day);
    if (p->sets.cycles > 1)
        say(w, false,
            "The engine takes every panel as young as the last set (days %.4g and %.4g). Earlier "
            "sets are up to %.3g days older: they creep and shrink less, so more of the "
            "compression "
            "stays than it says; neighbours differ by up to %.3g days.",
            p->early_day[0], p->early_day[1], (p->sets.cycles - 1) * p->sets.cycle_day,
            p->sets.apart_day);
    if (p->sets.first_day < fmin(p->early_day[0], p->early_day[1]) &&
        w->bridge->days.girder_cast > p->sets.first_day &&
        w->bridge->girders.kind == GIRDER_PRETENSIONED)
        say(w, false, "The first panels are cast before the girders, on day %.1f.",
            p->sets.first_day);
}

static void say_closing(PanelWork *w)
{
    const PanelPlan *p = w->plan;
    const PanelClosing *c = &p->closing;
    if (!p->glued) return;
    if (!c->pressed)
        say(w, true,
            "%d chain pullers press the joint with %s after %s of drag, not with %s. Then the "
            "jacks "
            "must press it before the glue is hard, or the engineer takes the lower pressure: a "
            "decision to record.",
            c->pieces, in_units(w, c->given_Pa, DIM_STRESS), in_units(w, c->drag_N, DIM_FORCE),
            in_units(w, p->joint.pressure_Pa, DIM_STRESS));
    if (p->joint.pressure_Pa < 40 / quantity_in(1, "psi") * (1 - 1e-9))
        say(w, false,
            "Joints are closed with %s, less than the 40 psi of the segmental provisions (from "
            "memory): it departs from them.",
            in_units(w, p->joint.pressure_Pa, DIM_STRESS));
    if (!c->in_time)
        say(w, true,
            "From mixing to pressure the work takes %.0f minutes, the glue allows %.0f at that "
            "temperature.",
            c->work_day * 1440, c->open_day * 1440);
    if (!p->glue_class)
        say(w, true,
            "No class of segmental glue covers that temperature: 40 to 105 degF (ASTM C881 types "
            "VI "
            "and VII, from memory).");
}

void panels_add_remarks(PanelWork *w)
{
    w->remark_room = 40 + w->plan->piece_count + 2 * w->bridge->panels.blockouts.count;
    w->remark = ARENA_NEW(w->arena, const char *, w->remark_room);
    w->alarm = ARENA_NEW(w->arena, bool, w->remark_room);
    say_skew(w);
    say_curve(w);
    say_limits(w);
    say_corners(w);
    say_joints(w);
    say_blockouts(w);
    say_pockets(w);
    say_cast(w);
    say_closing(w);
    say_crown(w);
    w->plan->remark = w->remark;
    w->plan->alarm = w->alarm;
}
