/* Margins of the jacks with their working, as checks write it: force, pressure, gauge, one out, height. */
#include "rows.h"

#include <math.h>
#include <string.h>

const char row_practice[] = "common practice, no source";

Sheet row_sheet(const Rows *r, const char *title) { return sheet_start(title, r->work->arena); }

void row_give(const Rows *r, Sheet *sheet, const char *symbol, const char *path, const char *unit,
              const char *words)
{
    static const char *const from[] = {"default", "bridge file", "derived"};
    const BridgeValue *value = bridge_value_at(r->with.bridge, path);
    sheet_given_from(sheet, symbol, value->value, unit, words,
                     arena_printf(sheet->arena, "%s, %s", path, from[value->origin]));
}

static const char *gear_source(const Rows *r, const char *path)
{
    const BridgeValue *value = bridge_value_at(r->with.bridge, path);
    if (r->plan->gear.proposed && value->origin != ORIGIN_GIVEN)
        return "proposed, not in the bridge file";
    return arena_printf(r->work->arena, "%s, %s", path,
                        value->origin == ORIGIN_GIVEN ? "bridge file" : "derived");
}

void row_thrust(const Rows *r, Sheet *s)
{
    sheet_given(s, "T", r->plan->thrust_N, "kip", "thrust of the whole deck");
    sheet_given_from(s, "n", r->plan->gear.count, "", "jacks", gear_source(r, "jacks.count"));
    sheet_given(s, "k_x", r->plan->highest_1, "", "largest step over the thrust");
    sheet_formula(s, "P_j", "k_x T / n", "kip", "one jack", "law: one pressure, one size");
}

static void give_rated(const Rows *r, Sheet *s)
{
    sheet_given_from(s, "R", r->plan->gear.rated_N, "kip", "rated force of a jack",
                     gear_source(r, "jacks.rated"));
}

void row_close(const Rows *r, CheckRow *row, const char *clause, const char *open,
               const char *reason)
{
    check_place(row, "", "gap", r->work->line[0]->jacked, clause);
    row->part = "jacks";
    if (r->plan->gear.proposed)
        check_needs(
            row, &r->with, NULL,
            jack_value(r->work, "jacks.count") > 0
                ? "jacks.size, jacks.area: not given; shown with a proposal"
                : "jacks.count, jacks.size: the jacks are not chosen; shown with a proposal");
    if (open) check_needs(row, &r->with, open, reason);
}

/* ---- force and pressure ---- */

static void give_pressure(const Rows *r, Sheet *s, const char *force, const char *symbol)
{
    sheet_given_from(s, "a", r->plan->gear.zero_N, "kip", "calibration: force = a + b p",
                     gear_source(r, "jacks.calibration_zero"));
    sheet_given_from(s, "b", r->plan->gear.slope_m2, "in^2", "calibration: force = a + b p",
                     gear_source(r, "jacks.calibration_slope"));
    sheet_formula(s, symbol, arena_printf(s->arena, "1000 [psi/ksi] (%s - a) / b", force), "psi",
                  "pressure at the gauge", "closed form: calibration line");
}

static void pressure(const Rows *r)
{
    Sheet s = row_sheet(r, "Pressure at the largest step");
    row_thrust(r, &s);
    sheet_given_from(&s, "A", r->plan->gear.area_m2, "in^2", "effective area of a jack",
                     gear_source(r, "jacks.area"));
    row_give(r, &s, "eta", "jacks.bore_friction", "", "taken by seals and bore while pushing");
    give_pressure(r, &s, "P_j", "p");
    row_give(r, &s, "p_m", "jacks.highest_pressure", "psi", "highest pressure");
    row_give(r, &s, "k_u", "jacks.use", "", "share of it that is used");
    sheet_formula(&s, "p_u", "k_u p_m", "psi", "pressure that may be used", row_practice);
    CheckRow *row = check_add(r->list, &r->with, &s, "pressure at the largest step",
                              sheet_SI(&s, "p"), sheet_SI(&s, "p_u"), DIM_STRESS);
    row_close(r, row, row_practice, "jacks.certificate",
              "no certificate of jacks and gauges together is named");
}

static void force(const Rows *r)
{
    Sheet s = row_sheet(r, "Force of a jack against its rated force");
    row_thrust(r, &s);
    give_rated(r, &s);
    row_give(r, &s, "k_m", "jacks.margin", "", "rated over planned force, all jacks working");
    row_give(r, &s, "k_u", "jacks.use", "", "share of the rated force that is used");
    sheet_formula(&s, "R_req", "max(k_m P_j, P_j / k_u)", "kip", "rated force that is needed",
                  row_practice);
    CheckRow *row = check_add(r->list, &r->with, &s, "force of a jack, all working",
                              sheet_SI(&s, "R_req"), sheet_SI(&s, "R"), DIM_FORCE);
    row_close(r, row, row_practice, NULL, NULL);
}

/* ---- the gauge ---- */

static void gauge_scale(const Rows *r)
{
    Sheet s = row_sheet(r, "The gauge works in the middle of its scale");
    row_thrust(r, &s);
    give_pressure(r, &s, "P_j", "p");
    row_give(r, &s, "p_r", "jacks.gauge_range", "psi", "full scale");
    sheet_formula(&s, "p_3", "0.75 p_r", "psi", "upper end of its middle half",
                  "ASME B40.100 (from memory): grades A and B are best in the middle half");
    sheet_formula(&s, "p_1", "0.25 p_r", "psi", "lower end of its middle half",
                  "as above: below it a reading says less");
    CheckRow *row = check_add(r->list, &r->with, &s, "the gauge's scale: not above its middle half",
                              sheet_SI(&s, "p"), sheet_SI(&s, "p_3"), DIM_STRESS);
    row_close(r, row, row_practice, NULL, NULL);
    /* of a gauge that is chosen: a coarse one reads less, which the band holds already */
    const bool chosen =
        bridge_value_at(r->with.bridge, "jacks.gauge_range")->origin == ORIGIN_GIVEN;
    const char *const below = "the gauge's scale: not below its middle half";
    row = chosen ? check_add(r->list, &r->with, &s, below, sheet_SI(&s, "p_1"), sheet_SI(&s, "p"),
                             DIM_STRESS)
                 : check_tell(r->list, &r->with, &s, below, sheet_SI(&s, "p_1"), DIM_STRESS);
    row_close(r, row, row_practice, NULL, NULL);
}

static void gauge_worth(const Rows *r)
{
    const JackStep *all = &r->plan->step[r->plan->step_count - 1];
    Sheet s = row_sheet(r, "What the gauge is worth");
    row_thrust(r, &s);
    sheet_given_from(&s, "b", r->plan->gear.slope_m2, "in^2", "calibration: force = a + b p",
                     gear_source(r, "jacks.calibration_slope"));
    row_give(r, &s, "p_d", "jacks.gauge_division", "psi", "one division");
    row_give(r, &s, "p_r", "jacks.gauge_range", "psi", "full scale");
    row_give(r, &s, "k_g", "jacks.gauge_accuracy", "", "accuracy, of full scale");
    row_give(r, &s, "k_c", "jacks.calibration_off", "", "how far the calibration line may be off");
    sheet_given_from(&s, "m", all->slope_m_per_N, "in/kip", "movement with force, last part",
                     "stages, the run of the plan");
    sheet_formula(&s, "F_d", "n b p_d / 1000 [psi/ksi]", "kip", "force of one division, all jacks",
                  "closed form");
    sheet_formula(&s, "u_d", "m F_d", "in", "movement of one division", "closed form");
    sheet_formula(&s, "F_g", "n b k_g p_r / 1000 [psi/ksi]", "kip", "error of the gauge, one way",
                  "closed form");
    sheet_formula(&s, "F_e", "sqrt(F_g^2 + (k_c T)^2)", "kip", "error of the force, one way",
                  "root of the sum of squares: independent errors");
    CheckRow *row = check_tell(r->list, &r->with, &s, "error of the force at the whole thrust",
                               sheet_SI(&s, "F_e"), DIM_FORCE);
    row_close(r, row, row_practice, NULL, NULL);
}

/* ---- one out ---- */

static void give_deck(const Rows *r, Sheet *s)
{
    row_give(r, s, "B", "deck.width", "in", "width of the deck");
    sheet_given(s, "t", r->plan->thickness_m, "in", "deck that carries");
}

static void one_out(const Rows *r)
{
    const JackGear *gear = &r->plan->gear;
    if (gear->count < 2) return;
    const double outer_m = fmax(fabs(gear->across_m[0]), fabs(gear->across_m[gear->count - 1]));
    Sheet s = row_sheet(r, "An outer jack shut off, the thrust kept");
    row_thrust(r, &s);
    give_rated(r, &s);
    give_deck(r, &s);
    sheet_given(&s, "y_o", outer_m, "in", "outer jack from the middle of the deck");
    row_give(r, &s, "k_o", "jacks.one_out_margin", "", "rated over planned force, one out");
    sheet_formula(&s, "P_o", "k_x T / (n - 1)", "kip", "one of the others", "law: equilibrium");
    give_pressure(r, &s, "P_o", "p_o");
    sheet_formula(&s, "R_req", "k_o P_o", "kip", "rated force that is needed", row_practice);
    sheet_formula(&s, "e", "y_o / (n - 1)", "in", "their resultant off the middle",
                  "law: equilibrium, jacks placed alike on both sides");
    sheet_formula(&s, "f_0", "T / (t B)", "ksi", "compression, mean", "closed form");
    sheet_formula(&s, "f_m", "T e / (t B^2 / 6)", "ksi", "change at the edges",
                  "closed form: the deck as a beam lying flat");
    CheckRow *row = check_add(r->list, &r->with, &s, "one jack shut off: force of the others",
                              sheet_SI(&s, "R_req"), sheet_SI(&s, "R"), DIM_FORCE);
    row_close(r, row, row_practice, NULL, NULL);
    row = check_add(r->list, &r->with, &s, "one jack shut off: edge of the deck",
                    sheet_SI(&s, "f_m"), sheet_SI(&s, "f_0"), DIM_STRESS);
    row_close(r, row, "law: equilibrium; no tension, common practice, no source", NULL, NULL);
}

static void off_middle(const Rows *r)
{
    Sheet s = row_sheet(r, "All jacks against the middle of the deck");
    row_thrust(r, &s);
    give_deck(r, &s);
    sheet_given(&s, "e", fabs(r->plan->off_m), "in", "their resultant off the middle");
    sheet_formula(&s, "f_0", "T / (t B)", "ksi", "compression, mean", "closed form");
    sheet_formula(&s, "f_m", "T e / (t B^2 / 6)", "ksi", "change at the edges",
                  "closed form: the deck as a beam lying flat");
    sheet_formula(&s, "f_t", "0.05 f_0", "ksi", "change that is left to tolerances", row_practice);
    CheckRow *row = check_add(r->list, &r->with, &s, "resultant of the jacks across the width",
                              sheet_SI(&s, "f_m"), sheet_SI(&s, "f_t"), DIM_STRESS);
    row_close(r, row, row_practice, NULL, NULL);
}

/* Highest sensitivity of the job: a quarter of an inch is told beside the file's own tolerance. */
static void height(const Rows *r)
{
    Sheet s = row_sheet(r, "Jacks too high or too low");
    row_thrust(r, &s);
    give_deck(r, &s);
    row_give(r, &s, "y_j", "jacks.above_mid", "in",
             "line of the jacks above mid-depth, in the stages");
    row_give(r, &s, "e", "jacks.off_mid", "in", "how far they may stand off that line");
    sheet_formula(&s, "S", "B t^2 / 6", "in^3", "section modulus of the deck", "closed form");
    sheet_formula(&s, "f_e", "T e / S", "ksi", "change at top and soffit", "law: equilibrium");
    sheet_formula(&s, "f_q", "T * 0.25 [in] / S", "ksi", "the same for a quarter of an inch",
                  "law: equilibrium");
    CheckRow *row = check_tell(r->list, &r->with, &s, "jacks too high or too low: change of stress",
                               sheet_SI(&s, "f_e"), DIM_STRESS);
    row_close(r, row, "law: equilibrium; judged by clench checks, height of the jacks", NULL, NULL);
}

Status rows_fill(Work *work, Error *err)
{
    CheckList *list = ARENA_NEW(work->arena, CheckList, 1);
    list->arena = work->arena;
    const Rows r = {
        work,
        work->plan,
        {.bridge = work->wish->bridge, .answer = work->wish->answer, .arena = work->arena},
        list};
    pressure(&r);
    force(&r);
    gauge_scale(&r);
    gauge_worth(&r);
    off_middle(&r);
    height(&r);
    one_out(&r);
    rows_movement(&r);
    if (list->status != STATUS_OK)
        return error_set(err, list->status, "jacking: a sheet does not compute: %s",
                         list->err.text);
    work->plan->rows = list;
    return STATUS_OK;
}
