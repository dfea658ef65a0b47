/* Working of movement, stroke, energy, holds and temperature. */
#include <math.h>

#include "rows.h"

static const JackStep *whole(const Rows *r) { return &r->plan->step[r->plan->step_count - 1]; }

static const char run_of_plan[] = "stages, the run of the plan";

void row_movement(const Rows *r, Sheet *s, const char *symbol)
{
    sheet_given_from(s, symbol, whole(r)->opening.expected_m, "in",
                     "expected opening of the gap at the whole thrust", run_of_plan);
}

/* ---- the band ---- */

static const char *band_source(JackBandPart part)
{
    if (part == JACK_BAND_GAUGE) return "error of the force times movement with force";
    if (part == JACK_BAND_SEATING) return "half of least to most, all joints";
    if (part == JACK_BAND_SHARING) return "lines by tributary width against one straight gap";
    return "stages, a run with this alone changed";
}

static void band_side(const Rows *r, bool above)
{
    static const char *const symbol[JACK_BAND_PARTS] = {"d_d", "d_g", "d_t", "d_p",
                                                        "d_s", "d_f", "d_w"};
    const JackBand *band = &whole(r)->opening;
    Sheet s = row_sheet(r, above ? "Most movement at the whole thrust"
                                 : "Least movement at the whole thrust");
    row_movement(r, &s, "u");
    for (int i = 0; i < JACK_BAND_PARTS; i++)
        sheet_given_from(&s, symbol[i], above ? band->above_m[i] : band->below_m[i], "in",
                         jack_band_name((JackBandPart)i), band_source((JackBandPart)i));
    sheet_formula(&s, "d_1", "sqrt(d_d^2 + d_g^2 + d_t^2 + d_p^2 + d_s^2)", "in",
                  "those that are independent",
                  "root of the sum of squares; common practice, no source");
    sheet_formula(&s, "d_2", "d_f + d_w", "in", "ranges that nobody knows before",
                  "added as they are; common practice, no source");
    sheet_formula(&s, above ? "u_h" : "u_l", above ? "u + d_1 + d_2" : "u - d_1 - d_2", "in",
                  above ? "upper end of the band" : "lower end of the band", row_practice);
    CheckRow *row = check_tell(r->list, &r->with, &s,
                               above ? "most movement at the whole thrust"
                                     : "least movement at the whole thrust",
                               sheet_SI(&s, above ? "u_h" : "u_l"), DIM_LENGTH);
    row_close(r, row, row_practice, NULL, NULL);
}

/* The deck's own part by hand, with the friction that works against it: a bound that needs no run. */
static void deck_part(const Rows *r)
{
    const BridgeLine *line = r->work->line[0];
    const StageModel *model = &line->model;
    double from_m = model->x_m[0], to_m = from_m;
    for (int j = 0; j < line->joint_count; j++) {
        if (!line->joint[j].at_anchor) continue;
        if (j == 0) from_m = model->x_m[line->joint[j].station];
        to_m = model->x_m[line->joint[j].station];
    }
    Sheet s = row_sheet(r, "The deck's own shortening, by hand");
    row_thrust(r, &s);
    row_give(r, &s, "B", "deck.width", "in", "width of the deck");
    sheet_given(&s, "t", r->plan->thickness_m, "in", "deck that carries");
    sheet_given(&s, "L", to_m - from_m - r->plan->gap_m, "in",
                "panels between anchors and gap, both sides");
    sheet_given_from(&s, "E_c", r->work->deck_E_Pa, "ksi", "modulus of the panels on the day",
                     "time model of the panels, phase 1");
    row_give(r, &s, "t_d", "deck.thickness", "in", "depth that weighs");
    row_give(r, &s, "w_c", "deck.density", "kip/in^3", "weight density of the deck");
    sheet_given_from(&s, "mu", r->work->middle.friction_1, "", "friction, middle of its range",
                     "shims.friction, shims.friction_least");
    sheet_formula(&s, "A_d", "B t", "in^2", "deck", "closed form");
    sheet_formula(&s, "H", "mu w_c t_d B L / 2", "kip", "friction of one half of the panels",
                  "law: friction; the halves taken alike");
    sheet_formula(&s, "u_d", "(T - H / 2) L / (E_c A_d)", "in",
                  "shortening of the panels: the force falls evenly by H", "closed form");
    row_movement(r, &s, "u");
    sheet_formula(&s, "k_d", "u_d / u", "", "its share of the expected opening",
                  "the rest is the girders lengthening and bending, and seating");
    CheckRow *row = check_tell(r->list, &r->with, &s, "the deck's own shortening",
                               sheet_SI(&s, "u_d"), DIM_LENGTH);
    row_close(r, row, "closed form", NULL, NULL);
}

/* ---- stroke and room ---- */

/* The step at which the gap is widest. */
static const JackStep *widest(const Rows *r)
{
    const JackStep *best = whole(r);
    for (int i = 0; i < r->plan->step_count; i++)
        if (r->plan->step[i].opening.expected_m > best->opening.expected_m)
            best = &r->plan->step[i];
    return best;
}

static void stroke(const Rows *r)
{
    Sheet s = row_sheet(r, "Stroke");
    sheet_given_from(&s, "u", widest(r)->opening.expected_m, "in",
                     "largest expected opening of the gap", run_of_plan);
    sheet_given_from(&s, "u_h", widest(r)->opening.high_m, "in", "upper end of its band",
                     run_of_plan);
    row_give(r, &s, "k_s", "jacking.movement_margin", "", "on the expected movement");
    row_give(r, &s, "r_s", "jacking.movement_reserve", "in", "kept beside that");
    row_give(r, &s, "k_u", "jacks.use", "", "share of the stroke that is used");
    row_give(r, &s, "S_j", "jacks.stroke", "in", "stroke of a jack");
    sheet_formula(&s, "S_req", "max(k_s u + r_s, u_h / k_u)", "in", "stroke that is needed",
                  row_practice);
    CheckRow *row = check_add(r->list, &r->with, &s, "stroke", sheet_SI(&s, "S_req"),
                              sheet_SI(&s, "S_j"), DIM_LENGTH);
    row_close(r, row, row_practice, "jacks.stroke", "the stroke is a default");
}

static void room(const Rows *r)
{
    Sheet s = row_sheet(r, "Room for the jacks in the gap");
    row_give(r, &s, "h_j", "jacks.closed_height", "in", "a jack with its piston in");
    row_give(r, &s, "h_p", "jacks.packing", "in", "plates and packing at both ends, the least");
    row_give(r, &s, "h_u", "jacking.uneven", "in", "faces that are not square");
    sheet_given(&s, "c", r->plan->gap_m, "in", "gap when the panels are set");
    sheet_formula(&s, "c_req", "h_j + h_p + h_u", "in", "gap that is needed", row_practice);
    sheet_formula(&s, "h_m", "c - h_j - h_u", "in",
                  "packing, stools and plates of one jack, both ends together", "closed form");
    CheckRow *row = check_add(r->list, &r->with, &s, "room for the jacks in the gap",
                              sheet_SI(&s, "c_req"), sheet_SI(&s, "c"), DIM_LENGTH);
    row_close(r, row, row_practice, "jacks.closed_height", "the length of a jack is a default");
}

static void energy(const Rows *r)
{
    Sheet s = row_sheet(r, "Stored energy");
    row_thrust(r, &s);
    row_movement(r, &s, "u");
    sheet_formula(&s, "W_s", "T u / 2 / 12 [in/ft]", "kip*ft",
                  "if movement went straight with force", "closed form");
    sheet_given_from(&s, "W", r->plan->energy_Nm, "kip*ft",
                     "work of the jacks along the expected line, without seating", run_of_plan);
    CheckRow *row = check_tell(r->list, &r->with, &s, "energy stored at the whole thrust",
                               sheet_SI(&s, "W"), DIM_MOMENT);
    row_close(r, row, "law: work", NULL, NULL);
}

/* ---- holds and temperature ---- */

static void hold(const Rows *r)
{
    Sheet s = row_sheet(r, "What the force loses in the hold by creep");
    row_thrust(r, &s);
    sheet_given_from(&s, "D_1", whole(r)->drop_N, "kip", "fall in the last hold, jacks shut in",
                     "stages, creep and shrinkage of the time models");
    sheet_given_from(&s, "D_2", whole(r)->drop_quick_N, "kip",
                     "the same by a law that starts quicker", "stages with EN 1992-1-1 Annex B");
    sheet_formula(&s, "D", "max(D_1, D_2)", "kip", "fall to be expected, the most", row_practice);
    row_give(r, &s, "k_d", "jacking.alarm_drop", "", "fall that is an alarm");
    sheet_formula(&s, "D_a", "k_d T", "kip", "fall that is an alarm", row_practice);
    CheckRow *row = check_add(r->list, &r->with, &s, "fall of the force in the hold",
                              sheet_SI(&s, "D"), sheet_SI(&s, "D_a"), DIM_FORCE);
    row_close(r, row, row_practice, NULL, NULL);
}

static void locked(const Rows *r)
{
    const JackWarmth *w = &r->plan->warmth;
    Sheet s = row_sheet(r, "Locked jacks while the temperature changes");
    row_thrust(r, &s);
    row_give(r, &s, "d_T", "jacking.swing", "delta_degF", "deck against girders, either way");
    sheet_given_from(&s, "F_w", w->locked_warm_N, "kip", "force of all, deck warmer by it",
                     "stages, with friction at the shims");
    sheet_given_from(&s, "F_c", w->locked_cold_N, "kip", "force of all, deck colder by it",
                     "stages, with friction at the shims");
    sheet_formula(&s, "c_w", "(F_w - F_c) / (2 d_T)", "kip/delta_degF", "change of force a degree",
                  "mean of warmer and colder");
    sheet_formula(&s, "P_w", "max(F_w, F_c) / n", "kip", "one jack, the most", "law: equal jacks");
    sheet_given_from(&s, "R", r->plan->gear.rated_N, "kip", "rated force of a jack and its lock",
                     "jacks.rated");
    row_give(r, &s, "k_u", "jacks.use", "", "share of the rated force that is used");
    sheet_formula(&s, "R_u", "k_u R", "kip", "force that may stand on it", row_practice);
    CheckRow *row = check_add(r->list, &r->with, &s, "locked jacks while the deck warms",
                              sheet_SI(&s, "P_w"), sheet_SI(&s, "R_u"), DIM_FORCE);
    row_close(r, row, row_practice, NULL, NULL);
}

static void window(const Rows *r)
{
    const JackWarmth *w = &r->plan->warmth;
    Sheet s = row_sheet(r, "Locked in warm: what is lost later");
    row_thrust(r, &s);
    row_give(r, &s, "d_T", "jacking.difference", "delta_degF",
             "deck warmer than the girders when locked");
    sheet_given_from(&s, "F_l", w->later_warm_N, "kip", "force of all once that is gone",
                     "stages, with friction at the shims");
    sheet_formula(&s, "D", "T - F_l", "kip", "lost, with the creep of the last hold",
                  "closed form");
    sheet_formula(&s, "k_l", "D / T", "", "share of the thrust", "closed form");
    CheckRow *row = check_tell(r->list, &r->with, &s, "locked in warm: lost later",
                               sheet_SI(&s, "D"), DIM_FORCE);
    row_close(r, row, "stages", NULL, NULL);
}

void rows_movement(const Rows *r)
{
    band_side(r, true);
    band_side(r, false);
    deck_part(r);
    stroke(r);
    room(r);
    energy(r);
    hold(r);
    locked(r);
    window(r);
}
