/* The plan of the seats, from the bridge and the survey. */
#include <math.h>
#include <string.h>

#include "work.h"

/* ---- what the bridge says ---- */

double seat_value(const Bridge *bridge, const char *path)
{
    const BridgeValue *value = bridge_value_at(bridge, path);
    return value ? value->value : (double)NAN;
}

bool seat_word(const Bridge *bridge, const char *path, const char *word)
{
    const BridgeValue *value = bridge_value_at(bridge, path);
    return value && strcmp(value->text, word) == 0;
}

double seat_z_m(const Work *w, int girder)
{
    return (girder - (w->plan->girders - 1) / 2.0) * w->spacing_m;
}

int seat_line_of(const Work *w, int unit, int girder)
{
    const bool exterior = girder == 0 || girder == w->plan->girders - 1;
    return w->seats->unit[unit].like * w->seats->lines + (exterior ? w->seats->lines - 1 : 0);
}

double seat_thickness_m(const Work *w, double z_m)
{
    return w->plan->thickness_m + w->rise_1 * (w->deck_half_m - fabs(z_m));
}

double seat_strip_thickness_m(const Work *w, int girder)
{
    const double z_m = seat_z_m(w, girder), half_m = w->spacing_m / 2;
    const double a_m = girder == 0 ? -w->deck_half_m : z_m - half_m;
    const double b_m = girder == w->plan->girders - 1 ? w->deck_half_m : z_m + half_m;
    /* thickness is straight in |z|: that at the mean of |z| */
    return seat_thickness_m(w, (b_m * fabs(b_m) - a_m * fabs(a_m)) / (2 * (b_m - a_m)));
}

const Flange *seat_flange(const Work *w, double x_m)
{
    int i = 0;
    while (i + 1 < w->flange_count && x_m > w->flange[i].to_m) i++;
    return &w->flange[i];
}

static double clamp(double x, double least, double most) { return fmin(fmax(x, least), most); }

/* Beyond the ends of the deck as at the ends; in the gap, which is cast to the profile, straight. */
/* Straight between the faces of the gap, where there is no deck at first. */
static double moved_m(const Work *w, int unit, int girder, double x_m,
                      double (*of)(const SeatMarch *march, double u_m))
{
    const SeatUnit *u = &w->seats->unit[unit];
    const SeatMarch *march = &w->march[seat_line_of(w, unit, girder)];
    const double u_m =
        clamp(x_m - u->start_m - seat_z_m(w, girder) * w->plan->skew_1, 0, u->length_m);
    if (u_m <= u->gap_from_m || u_m >= u->gap_to_m) return of(march, u_m);
    const double a = of(march, u->gap_from_m), b = of(march, u->gap_to_m);
    return a + (b - a) * (u_m - u->gap_from_m) / (u->gap_to_m - u->gap_from_m);
}

double seat_later_m(const Work *w, int unit, int girder, double x_m)
{
    return moved_m(w, unit, girder, x_m, seating_moved_m);
}

double seat_thrust_m(const Work *w, int unit, int girder, double x_m)
{
    return moved_m(w, unit, girder, x_m, seating_thrust_m);
}

double seat_expected_m(const Work *w, int unit, int girder, double x_m)
{
    const double z_m = seat_z_m(w, girder);
    return grade_top_m(&w->plan->grade, x_m, z_m) - seat_thickness_m(w, z_m) - w->haunch_m -
           seat_later_m(w, unit, girder, x_m);
}

static void flanges_make(Work *w)
{
    const Bridge *b = w->bridge;
    const bool tub = seat_word(b, "girders.kind", "tub");
    int count = 0;
    char path[64];
    do snprintf(path, sizeof path, "girders.plates[%d].to", ++count);
    while (bridge_value_at(b, path));
    w->flange_count = count > 1 ? count - 1 : 1;
    w->flange = ARENA_NEW(w->result, Flange, w->flange_count);
    w->flange[0] = (Flange){INFINITY, seat_value(b, "girders.top_width"), 0};
    for (int i = 0; i + 1 < count; i++) {
        double of[4];
        static const char *const key[] = {"to", "top_width", "bottom_width", "web_depth"};
        for (int k = 0; k < 4; k++) {
            snprintf(path, sizeof path, "girders.plates[%d].%s", i + 1, key[k]);
            of[k] = seat_value(b, path);
        }
        const double apart_m = of[2] / 2 + seat_value(b, "girders.web_slope") * of[3];
        w->flange[i] = (Flange){of[0], of[1], tub ? apart_m : 0};
    }
    w->plan->flanges = tub ? 2 : 1;
}

static Status bridge_take(Work *w, Error *err)
{
    const Bridge *b = w->bridge;
    SeatPlan *plan = w->plan;
    TRY(grade_of(b, w->result, &plan->grade, err));
    TRY(bridge_seats(b, w->result, &w->seats, err));
    plan->thrust_N = w->wish->thrust_N;
    plan->unit_count = w->seats->unit_count;
    plan->unit = w->seats->unit;
    plan->girders = (int)lround(seat_value(b, "girders.count"));
    plan->thickness_m = seat_value(b, "deck.thickness");
    plan->length_m = 2 * plan->grade.middle_m;
    plan->skew_1 = tan(seat_value(b, "deck.skew_degrees") * acos(-1) / 180);
    plan->limit =
        (SeatLimits){seat_value(b, "seats.haunch_least"), seat_value(b, "seats.haunch_most"),
                     seat_value(b, "seats.step"),         seat_value(b, "seats.strength"),
                     seat_value(b, "seats.wedge"),        seat_value(b, "seats.length"),
                     seat_value(b, "seats.width"),        seat_value(b, "seats.uneven"),
                     seat_value(b, "seats.waste")};
    w->spacing_m = seat_value(b, "girders.spacing");
    w->deck_half_m = seat_value(b, "deck.width") / 2;
    w->haunch_m = seat_value(b, "deck.haunch");
    w->cubic = seat_word(b, "survey.method", "cubic");
    if (seat_word(b, "panels.crown", "thickened") && seat_value(b, "deck.crossfall") > 0)
        w->rise_1 = seat_value(b, "deck.crossfall");
    flanges_make(w);
    return STATUS_OK;
}

/* ---- all of it ---- */

static const char *day_words(const Work *w)
{
    if (isnan(w->wish->day)) return "opening";
    return arena_printf(w->result, "day %.6g", w->plan->day);
}

Status seating_plan(const SeatWish *wish, Arena *result, Arena *scratch, const SeatPlan **plan,
                    Diagnostics *diagnostics, Error *err)
{
    Work *w = ARENA_NEW(result, Work, 1);
    *w = (Work){.wish = wish,
                .bridge = wish->bridge,
                .result = result,
                .scratch = scratch,
                .list = diagnostics,
                .plan = ARENA_NEW(result, SeatPlan, 1)};
    TRY(bridge_take(w, err));
    TRY(marches_make(w, err));
    w->plan->day_words = day_words(w);
    TRY(readings_make(w, err));
    TRY(lines_make(w, err));
    places_make(w);
    TRY(levels_make(w, err));
    moves_make(w);
    bearing_make(w);
    grout_make(w);
    facets_make(w);
    deviations_make(w);
    adjust_make(w);
    sure_make(w);
    remarks_make(w);
    *plan = w->plan;
    return STATUS_OK;
}

bool seating_met(const SeatPlan *plan)
{
    for (int i = 0; i < plan->remark_count; i++)
        if (plan->alarm[i]) return false;
    return true;
}
