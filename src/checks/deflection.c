/* Live-load deflection of the girders, an optional criterion: all design lanes loaded, all girders alike.
 * The influence line of a movement is the deflected shape under a unit load there (Maxwell). */
#include <math.h>
#include <string.h>

#include "spans.h"
#include "table.h"
#include "values.h"

static const char clause[] =
    "AASHTO LRFD 2.5.2.6.2, optional, with 3.6.1.3.2 (from memory): span over a number";
static const char load_source[] = "AASHTO LRFD 3.6.1.2 and table 3.6.2.1-1 (from memory)";

/* The truck alone, or a quarter of it with the lane load. */
static const double truck_beside_lane_1 = 0.25;

/* One line while its stations are tried. */
typedef struct Deflect {
    LiveMove *move;
    LiveLoad load; /* the design truck and the lane, no tandem, no second truck */
    LiveLoad seek; /* the same with the axles at their nearest: quicker, for the place alone */
    InfluenceLine line;
    double *value, *shear, *work; /* value: what `line` shows */
} Deflect;

/* Of one lane, impact in, at a station. */
typedef struct Deflection {
    int station;
    LiveExtreme at;
    double value_m; /* NAN: no girder there */
} Deflection;

static Status deflect_start(const CheckCase *with, const KitLine *k, Deflect *d, Error *err)
{
    const int n = k->model->station_count;
    TRY(live_move_start(k->line, k->history, k->opening, with->arena, &d->move, err));
    d->load = traffic_hl93();
    d->load.vehicle_count = 1;
    d->load.train_vehicle = -1;
    d->seek = d->load;
    for (int i = 0; i < AXLES_MAX; i++)
        d->seek.vehicle[0].gap_max_m[i] = d->seek.vehicle[0].gap_min_m[i];
    d->value = ARENA_NEW(with->arena, double, n);
    d->shear = ARENA_NEW(with->arena, double, n);
    d->work = ARENA_NEW(with->arena, double, 8 * (n + 2));
    d->line = (InfluenceLine){n, k->model->x_m, d->value};
    return STATUS_OK;
}

static Deflection deflect_at(const Deflect *d, const LiveLoad *load, int station)
{
    Deflection one = {.station = station, .value_m = NAN};
    if (!live_move(d->move, station, d->value, d->shear)) return one;
    one.at = traffic_extreme(load, &d->line, 1, false, d->work);
    one.value_m = fmax(one.at.vehicle, truck_beside_lane_1 * one.at.vehicle + one.at.lane);
    return one;
}

static bool within(const KitLine *k, const Span *span, int station)
{
    return station >= 0 && station < k->model->station_count &&
           k->model->x_m[station] >= span->from_m && k->model->x_m[station] <= span->to_m;
}

/* The deflection has one hump a span: from the middle uphill, with ever shorter strides. */
static Deflection worst_of(const KitLine *k, const Deflect *d, const Span *span)
{
    Deflection worst = deflect_at(d, &d->seek, span->middle);
    int stride = 1;
    while (within(k, span, span->middle + 16 * stride)) stride *= 2;
    for (; stride > 0; stride /= 2)
        for (int sign = -1; sign <= 1; sign += 2)
            for (int next = worst.station + sign * stride; within(k, span, next);
                 next += sign * stride) {
                const Deflection one = deflect_at(d, &d->seek, next);
                if (!(one.value_m > worst.value_m)) break;
                worst = one;
            }
    return worst;
}

/* ---- the working ---- */

static void write_lanes(Sheet *s, const CheckCase *with)
{
    const double width_m = kit_value(with, "deck.width");
    const double barrier_m = kit_value(with, "loads.barrier_width");
    const int lanes = traffic_lane_count(width_m - 2 * barrier_m);
    const char *unit = quantity_unit(bridge_units(with->bridge), DIM_LENGTH);
    value_give(s, with, "W", "deck.width", unit, "width of the deck");
    value_give(s, with, "b_b", "loads.barrier_width", unit, "deck edge to face of a barrier");
    sheet_formula(s, "w_r", "W - 2 b_b", unit, "clear roadway", NULL);
    sheet_given_from(s, "N_L", lanes, "", "design lanes on it, all loaded",
                     "AASHTO LRFD 3.6.1.1.1 (from memory)");
    sheet_given_from(s, "m", traffic_presence_1(lanes), "", "multiple presence of so many",
                     "AASHTO LRFD table 3.6.1.1.2-1 (from memory)");
    value_give(s, with, "N_b", "girders.count", "", "girders, which deflect alike");
    sheet_formula(s, "g", "m N_L / N_b", "", "lanes on a girder",
                  "AASHTO LRFD 2.5.2.6.2 (from memory)");
}

/* The axles that add to it, each with the movement under it; the sum of their products into `sum`. */
static void write_axles(const CheckCase *with, Sheet *s, const Deflect *d, const LiveExtreme *at,
                        Text *sum)
{
    const UnitSystem units = bridge_units(with->bridge);
    const char *length = quantity_unit(units, DIM_LENGTH);
    AxlePlace axle[2 * AXLES_MAX];
    const int count = traffic_places(&d->load, &d->line, 1, at, axle, d->work);
    for (int i = 0; i < count; i++) {
        char P[16], y[16];
        snprintf(P, sizeof P, "P_%d", i + 1);
        snprintf(y, sizeof y, "y_%d", i + 1);
        sheet_given_from(s, P, axle[i].load_N, units == UNITS_US ? "kip" : "kN",
                         "axle of the design truck", load_source);
        sheet_given_from(
            s, y, traffic_at(&d->line, axle[i].x_m), units == UNITS_US ? "in/kip" : "mm/kN",
            arena_printf(with->arena, "movement by a unit load where it stands, x = %.1f %s",
                         quantity_in(axle[i].x_m, length), length),
            "influence line of the movement");
        text_printf(sum, "%s%s %s", i > 0 ? " + " : "", P, y);
    }
}

static void write_load(const CheckCase *with, Sheet *s, const Deflect *d, const Deflection *w)
{
    const bool US = bridge_units(with->bridge) == UNITS_US;
    const char *move = US ? "in" : "mm", *unit_load = US ? "in/kip" : "mm/kN";
    Text sum = text_start(with->arena);
    write_axles(with, s, d, &w->at, &sum);
    sheet_given_from(s, "y_0", d->value[w->station], unit_load,
                     "by a unit load at the place itself", "influence line of the movement");
    sheet_given_from(s, "y_s", d->shear[w->station], unit_load,
                     "of that by shear of the girder alone", "virtual work");
    sheet_given_from(s, "IM", d->load.impact_ratio, "", "dynamic allowance of the truck",
                     load_source);
    sheet_formula(s, "v_T", arena_printf(with->arena, "(1 + IM) (%s)", sum.bytes), move,
                  "design truck of one lane", "law: superposition");
    sheet_given_from(s, "w_L", d->load.lane_N_per_m, US ? "kip/ft" : "kN/m", "lane load",
                     load_source);
    sheet_given_from(s, "A_y", w->at.lane / d->load.lane_N_per_m, US ? "in*ft/kip" : "mm*m/kN",
                     "area of the line of such movements where it is downwards",
                     "influence line of the movement");
    sheet_formula(s, "v_L", "w_L A_y", move, "lane load of one lane", "law: superposition");
    sheet_formula(s, "v_1", "max(v_T, 0.25 v_T + v_L)", move,
                  "truck alone, or a quarter of it with the lane load",
                  "AASHTO LRFD 3.6.1.3.2 (from memory)");
}

static void add_span(const CheckCase *with, CheckList *list, const KitLine *k, const Deflect *d,
                     const Span *span, int number)
{
    static const char name[] = "deflection under live load";
    const UnitSystem units = bridge_units(with->bridge);
    const Deflection worst = worst_of(k, d, span);
    if (isnan(worst.value_m)) return;
    const Deflection w = deflect_at(d, &d->load, worst.station); /* its lines stand in d */
    Sheet s = kit_sheet(with, k, name);
    write_lanes(&s, with);
    write_load(with, &s, d, &w);
    const char *move = units == UNITS_US ? "in" : "mm";
    sheet_formula(&s, "v", "g v_1", move, "deflection of a girder, Service I with impact", clause);
    sheet_given_from(&s, "L", span->to_m - span->from_m, quantity_unit(units, DIM_LENGTH),
                     "span, between bearings", "spans, between bearings");
    value_give(&s, with, "k", "criteria.deflection", "", "span over deflection that is allowed");
    sheet_formula(&s, "v_lim", units == UNITS_US ? "12 [in/ft] L / k" : "1000 [mm/m] L / k", move,
                  "allowed", clause);
    sheet_words(&s, "Where people walk the number is 1000 (AASHTO LRFD 2.5.2.6.2, from memory). "
                    "Movement upwards beside a loaded span is not looked at.");
    if (k->history->gape_1)
        sheet_words(&s, "Diaphragm concrete at tied piers, which carries in compression only, is "
                        "left out: ties alone, on the safe side.");
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "v"), sheet_SI(&s, "v_lim"), DIM_LENGTH);
    check_place(row, k->name,
                arena_printf(with->arena, "span %d, %s", number, kit_x(with, k, w.station)),
                kit_when(with, k, k->opening), clause);
    if (strcmp(bridge_value_at(with->bridge, "live.model")->text, "HL-93") != 0)
        check_needs(row, with, NULL,
                    "live.model: beside axles of the file's own the deflection is that of the "
                    "truck and lane of AASHTO LRFD 3.6.1.3.2");
}

Status check_deflection(const CheckCase *with, CheckList *list, Error *err)
{
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        Deflect d;
        Span span[SPANS_MAX];
        const int count = spans_of(k, span);
        TRY(deflect_start(with, k, &d, err));
        for (int n = 0; n < count; n++) add_span(with, list, k, &d, &span[n], n + 1);
    }
    return STATUS_OK;
}
