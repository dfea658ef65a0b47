/* What has to be known of a plan: limits that are not kept, and what it does not see. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "work.h"

void seat_say(Work *w, bool alarm, const char *format, ...)
{
    char text[800];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    if (w->plan->remark_count == w->remark_room) {
        const int room = w->remark_room ? 2 * w->remark_room : 32;
        const char **more = ARENA_NEW(w->result, const char *, room);
        bool *alarms = ARENA_NEW(w->result, bool, room);
        for (int i = 0; i < w->plan->remark_count; i++) {
            more[i] = w->remark[i];
            alarms[i] = w->alarm[i];
        }
        w->remark = more;
        w->alarm = alarms;
        w->remark_room = room;
        w->plan->remark = more;
        w->plan->alarm = alarms;
    }
    w->remark[w->plan->remark_count] = arena_text(w->result, text);
    w->alarm[w->plan->remark_count++] = alarm;
}

const char *seat_length(const Work *w, double length_m)
{
    const bool us = bridge_units(w->bridge) == UNITS_US;
    return arena_printf(w->result, us ? "%.2f in" : "%.0f mm",
                        quantity_in(length_m, us ? "in" : "mm"));
}

const char *seat_place_m(const Work *w, double x_m)
{
    const bool us = bridge_units(w->bridge) == UNITS_US;
    return arena_printf(w->result, us ? "%.1f ft" : "%.2f m", quantity_in(x_m, us ? "ft" : "m"));
}

static const char *where(const Work *w, const SeatPlace *p)
{
    const char *x = seat_place_m(w, p->x_m);
    if (p->line < 0) return arena_printf(w->result, "G%d, %s", p->girder + 1, x);
    return arena_printf(w->result, "G%d, %s at %s", p->girder + 1, w->seat_line[p->line].mark, x);
}

/* ---- limits ---- */

static void say_haunch(Work *w)
{
    const SeatPlan *plan = w->plan;
    const SeatLimits *limit = &plan->limit;
    const SeatPlace *thin = &w->place[plan->thinnest], *thick = &w->place[plan->thickest];
    int thins = 0, thicks = 0;
    for (int i = 0; i < plan->place_count; i++) {
        thins += w->place[i].thin_m < limit->least_m - 1e-9;
        thicks += w->place[i].thick_m > limit->most_m + 1e-9;
    }
    if (thins)
        seat_say(w, true,
                 "haunch of %s at the edge of the flange at %s: %s is the least; so at %d of %d "
                 "places%s",
                 seat_length(w, thin->thin_m), where(w, thin), seat_length(w, limit->least_m),
                 thins, plan->place_count,
                 thin->thin_m < 0 ? "; THE PANEL WOULD SIT ON THE GIRDER" : "");
    if (thicks)
        seat_say(w, true, "haunch of %s at %s: %s is the most; so at %d of %d places",
                 seat_length(w, thick->thick_m), where(w, thick), seat_length(w, limit->most_m),
                 thicks, plan->place_count);
}

/* "raising the profile by 0.4 in and turning it by 0.01 %, rising to the left". */
static const char *adjust_words(const Work *w)
{
    const SeatAdjust *a = &w->plan->adjust;
    return arena_printf(
        w->result, "%s the profile by %s%s", a->raise_m < 0 ? "lowering" : "raising",
        seat_length(w, fabs(a->raise_m)),
        a->tilted ? arena_printf(w->result, " and turning it by %.4f %%, rising to the %s",
                                 100 * fabs(a->tilt_1), a->tilt_1 > 0 ? "right" : "left")
                  : "");
}

/* The proposal comes on top of what the file has: what is to stand there then. */
static const char *adjust_sum(const Work *w)
{
    const Grade *g = &w->plan->grade;
    if (g->raise_m == 0 && g->tilt_1 == 0) return "";
    const double raise_m = g->raise_m + w->plan->adjust.raise_m;
    return arena_printf(w->result,
                        ", on top of what the file has: profile.raise is then %s%s, profile.tilt "
                        "%.4f %%",
                        raise_m < 0 ? "-" : "", seat_length(w, fabs(raise_m)),
                        100 * (g->tilt_1 + w->plan->adjust.tilt_1));
}

static void say_adjust(Work *w)
{
    static const char *const off[] = {"not one", "one", "two"};
    const SeatAdjust *a = &w->plan->adjust;
    if (!a->wanted) return;
    const char *from = seat_length(w, a->thin_m), *to = seat_length(w, a->thick_m);
    if (a->fits)
        seat_say(
            w, false,
            "%s keeps all haunches within their limits (%s to %s), %s standard deviation%s off "
            "them; with the agreement of the road's engineer it goes into profile.raise%s%s",
            adjust_words(w), from, to, off[(int)a->deviations_1], a->deviations_1 > 1 ? "s" : "",
            a->tilted ? " and profile.tilt" : "", adjust_sum(w));
    else
        seat_say(w, false,
                 "no raise%s keeps all haunches within their limits; the nearest is %s: %s to %s. "
                 "Girders, panels or limits must change",
                 seat_word(w->bridge, "profile.adjust", "raise and tilt") ? " with a tilt" : "",
                 adjust_words(w), from, to);
}

static void say_bearing(Work *w)
{
    const SeatPlan *plan = w->plan;
    const Seat *s = &w->seat[plan->pressed];
    if (s->pressure_Pa <= plan->limit.strength_Pa) return;
    const bool us = bridge_units(w->bridge) == UNITS_US;
    const char *unit = us ? "psi" : "MPa";
    seat_say(w, true,
             "a shim is pressed with %.*f %s at G%d, %s: %.*f %s is allowed (seats.strength)",
             us ? 0 : 1, quantity_in(s->pressure_Pa, unit), unit, plan->pressed % plan->girders + 1,
             w->seat_line[plan->pressed / plan->girders].mark, us ? 0 : 1,
             quantity_in(plan->limit.strength_Pa, unit), unit);
}

static void say_facets(Work *w)
{
    const SeatPlan *plan = w->plan;
    int worst = 0, over = 0;
    for (int i = 0; i < plan->line_count; i++) {
        if (fabs(w->seat_line[i].wedge_m) > fabs(w->seat_line[worst].wedge_m)) worst = i;
        over += fabs(w->seat_line[i].wedge_m) > plan->limit.wedge_m;
    }
    const SeatLine *l = &w->seat_line[worst];
    const bool us = bridge_units(w->bridge) == UNITS_US;
    if (over)
        seat_say(
            w, true,
            "%d joints stand wedged by more than %.*f %s, at most by %.*f %s, wider at the %s, "
            "at %s: shorter panels, or faces cast to a taper",
            over, us ? 4 : 1, quantity_in(plan->limit.wedge_m, us ? "in" : "mm"), us ? "in" : "mm",
            us ? 3 : 1, quantity_in(fabs(l->wedge_m), us ? "in" : "mm"), us ? "in" : "mm",
            l->wedge_m > 0 ? "top" : "soffit", l->mark);
}

/* Connectors are proven for one depth of haunch. */
static void say_connectors(Work *w)
{
    const BridgeValue *most = bridge_value_at(w->bridge, "connectors.haunch_most");
    const double proven_m =
        most->origin == ORIGIN_GIVEN && !isnan(most->value) ? most->value : w->haunch_m;
    const double found_m = w->place[w->plan->thickest].thick_m;
    if (found_m > proven_m + 1e-9)
        seat_say(w, false,
                 "the deepest haunch is %s: clench checks proves the connectors for %s; give "
                 "connectors.haunch_most",
                 seat_length(w, found_m), seat_length(w, proven_m));
    const double mean_m = w->plan->grout.mean_m;
    if (fabs(mean_m - w->haunch_m) > 0.25 * w->haunch_m)
        seat_say(w, false,
                 "the mean haunch is %s, the stages are run with deck.haunch of %s: its weight and "
                 "its lever are taken from there",
                 seat_length(w, mean_m), seat_length(w, w->haunch_m));
}

/* ---- what it rests on ---- */

static void say_warmth(Work *w)
{
    const BridgeValue *said = bridge_value_at(w->bridge, "survey.top_warmer");
    const SeatMove *most = &w->plan->move[0];
    for (int i = 0; i < w->plan->move_count; i++)
        if (w->plan->move[i].bow_m > most->bow_m) most = &w->plan->move[i];
    const bool us = bridge_units(w->bridge) == UNITS_US;
    const double ask_K = us ? 5 / 1.8 : 3; /* 5 degF, 3 K: what a sunny hour brings; no source */
    if (isnan(said->value))
        seat_say(w, false,
                 "survey.top_warmer is not said: girders whose top is %s warmer than their bottom "
                 "stand up to %s higher in mid-span (span %d, simple): survey at dawn or overcast",
                 us ? "5 °F" : "3 °C", seat_length(w, ask_K * most->bow_m), most->span);
    else if (said->value != 0)
        seat_say(w, fabs(said->value * most->bow_m) > w->plan->limit.step_m * 4,
                 "at the survey the top of the girders was %.1f %s warmer than their bottom: they "
                 "stood about %s %s in the middle of span %d (simple span); it is not taken out%s",
                 fabs(said->value) * (us ? 1.8 : 1), us ? "°F" : "°C",
                 seat_length(w, fabs(said->value * most->bow_m)),
                 said->value > 0 ? "too high" : "too low", most->span,
                 fabs(said->value * most->bow_m) > w->plan->limit.step_m * 4
                     ? ": survey again at dawn or overcast"
                     : "");
}

static void say_plane(Work *w)
{
    const SeatPanel *most = &w->panel[0];
    for (int i = 0; i < w->plan->panel_count; i++)
        if (w->panel[i].plane_m > most->plane_m) most = &w->panel[i];
    if (most->plane_m > w->plan->limit.step_m)
        seat_say(w, false,
                 "the seats of %s are not in one plane by up to %s: the panel must bend or rock "
                 "(girders that sag differently, skew on a curve)",
                 most->mark, seat_length(w, most->plane_m));
}

/* The stages weigh panels by deck.thickness, that at the edge: the sag under them comes out too small. */
static void say_crown(Work *w)
{
    if (w->rise_1 == 0) return;
    double most_m = 0, sag_m = 0;
    for (int g = 0; g < w->plan->girders; g++) most_m = fmax(most_m, seat_strip_thickness_m(w, g));
    for (int i = 0; i < w->plan->move_count; i++) sag_m = fmax(sag_m, -w->plan->move[i].panels_m);
    const double more_1 = most_m / w->plan->thickness_m - 1;
    seat_say(
        w, true,
        "thickened crown: the stages weigh panels by deck.thickness; over a girder they are up "
        "to %.0f %% heavier: it sags about %s more under them, and its shims are that much too "
        "low: do not set by these heights",
        100 * more_1, seat_length(w, more_1 * sag_m));
}

static void say_rest(Work *w)
{
    const BridgeValue *radius = bridge_value_at(w->bridge, "deck.plan_radius");
    if (w->plan->skew_1 != 0)
        seat_say(w, false,
                 "skew: piers are taken as skewed as the ends; girders move as if each stood for "
                 "itself, square");
    if (!isnan(radius->value))
        seat_say(w, false,
                 "curve in plan: stations are radial and every girder as long as the "
                 "line at mid-width");
    if (seat_value(w->bridge, "loads.future") > 0)
        seat_say(w, false,
                 "the future wearing surface is not counted: under it the deck lies lower");
    if (w->plan->flanges > 1 && w->plan->grade.left_slope_1 != 0)
        seat_say(w, false,
                 "tubs are taken with level flanges where the survey has no offsets: both "
                 "shims of a seat then differ by the cross slope");
}

void remarks_make(Work *w)
{
    const int survey = w->plan->remark_count; /* said while it was read: they go last */
    const char **said = ARENA_NEW(w->result, const char *, survey + 1);
    for (int i = 0; i < survey; i++) said[i] = w->remark[i];
    w->plan->remark_count = 0;
    say_haunch(w);
    say_bearing(w);
    say_facets(w);
    say_adjust(w);
    say_warmth(w);
    say_connectors(w);
    say_plane(w);
    say_crown(w);
    say_rest(w);
    for (int i = 0; i < survey; i++) seat_say(w, false, "%s", said[i]);
}
