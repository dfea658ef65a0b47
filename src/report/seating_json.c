/* The seats as JSON (SI, the unit in the key) and as CSV (the unit in the head). */
#include <math.h>

#include "seating.h"

static void seat_add(Json *j, const SeatPlan *plan, int seat)
{
    const Seat *s = &plan->seat[seat];
    const SeatLine *l = &plan->line[seat / plan->girders];
    json_open_map(j, NULL);
    json_text(j, "line", l->mark);
    json_int(j, "girder", seat % plan->girders + 1);
    json_number(j, "x_m", s->x_m);
    json_number(j, "station_m", plan->grade.left_end_m + s->x_m);
    json_number(j, "girder_top_m", s->top_m);
    json_number(j, "panel_top_wanted_m", s->grade_m);
    json_number(j, "moves_later_m", s->later_m);
    json_number(j, "height_m", s->height_m);
    json_open_list(j, "shim_m");
    for (int side = 0; side < plan->flanges; side++) json_number(j, NULL, s->shim_m[side]);
    json_close_list(j);
    json_number(j, "haunch_least_m", s->thin_m);
    json_number(j, "haunch_most_m", s->thick_m);
    json_number(j, "set_at_m", s->set_m);
    json_number(j, "deviation_survey_m", s->survey_m);
    json_number(j, "deviation_m", s->off_m);
    json_number(j, "chance_within_1", s->inside_1);
    json_number(j, "load_N", s->load_N);
    json_number(j, "pressure_Pa", s->pressure_Pa);
    json_close_map(j);
}

static void lines_add(Json *j, const SeatPlan *plan)
{
    json_open_list(j, "lines");
    for (int i = 0; i < plan->line_count; i++) {
        const SeatLine *l = &plan->line[i];
        json_open_map(j, NULL);
        json_text(j, "line", l->mark);
        json_text(j, "unit", plan->unit[l->unit].name);
        json_number(j, "x_m", l->x_m);
        json_number(j, "skew_1", l->skew_1);
        json_bool(j, "joint", l->joint);
        json_number(j, "wedge_m", l->wedge_m);
        json_close_map(j);
    }
    json_close_list(j);
}

static void places_add(Json *j, const SeatPlan *plan)
{
    json_open_list(j, "haunches");
    for (int i = 0; i < plan->place_count; i++) {
        const SeatPlace *p = &plan->place[i];
        json_open_map(j, NULL);
        json_int(j, "girder", p->girder + 1);
        json_number(j, "x_m", p->x_m);
        json_number(j, "middle_m", p->height_m);
        json_number(j, "least_m", p->thin_m);
        json_number(j, "most_m", p->thick_m);
        json_close_map(j);
    }
    json_close_list(j);
}

static void panels_add(Json *j, const SeatPlan *plan)
{
    json_open_list(j, "panels");
    for (int i = 0; i < plan->panel_count; i++) {
        json_open_map(j, NULL);
        json_text(j, "panel", plan->panel[i].mark);
        json_number(j, "off_profile_m", plan->panel[i].facet_m);
        json_number(j, "off_plane_m", plan->panel[i].plane_m);
        json_close_map(j);
    }
    json_close_list(j);
}

static void moves_add(Json *j, const SeatPlan *plan)
{
    json_open_list(j, "movement");
    for (int i = 0; i < plan->move_count; i++) {
        const SeatMove *m = &plan->move[i];
        json_open_map(j, NULL);
        json_int(j, "span", m->span);
        json_text(j, "line", m->exterior ? "exterior" : "interior");
        json_number(j, "x_m", m->x_m);
        json_number(j, "panels_m", m->panels_m);
        json_number(j, "thrust_m", m->thrust_m);
        json_number(j, "other_m", m->other_m);
        json_number(j, "superimposed_m", m->later_m);
        json_number(j, "time_m", m->time_m);
        json_number(j, "total_m", m->total_m);
        json_number(j, "then_to_end_of_life_m", m->end_m);
        json_close_map(j);
    }
    json_close_list(j);
}

static void adjust_add(Json *j, const SeatPlan *plan)
{
    const SeatAdjust *a = &plan->adjust;
    json_open_map(j, "proposal");
    json_bool(j, "wanted", a->wanted);
    json_bool(j, "fits", a->wanted && a->fits);
    json_number(j, "raise_m", a->raise_m);
    json_number(j, "tilt_1", a->tilt_1);
    json_number(j, "deviations_off_limits_1", a->deviations_1);
    json_number(j, "haunch_least_m", a->wanted ? a->thin_m : (double)NAN);
    json_number(j, "haunch_most_m", a->wanted ? a->thick_m : (double)NAN);
    json_number(j, "chance_within_1", a->inside_1);
    json_close_map(j);
}

static void rest_add(Json *j, const SeatPlan *plan)
{
    json_open_map(j, "grout");
    json_number(j, "under_anchor_panels_m3", plan->grout.anchor_m3);
    json_number(j, "under_other_panels_m3", plan->grout.run_m3);
    json_number(j, "pockets_m3", plan->grout.pocket_m3);
    json_number(j, "with_waste_m3", plan->grout.all_m3);
    json_number(j, "mean_haunch_m", plan->grout.mean_m);
    json_close_map(j);
    json_open_map(j, "limits");
    json_number(j, "haunch_least_m", plan->limit.least_m);
    json_number(j, "haunch_most_m", plan->limit.most_m);
    json_number(j, "step_m", plan->limit.step_m);
    json_number(j, "pressure_Pa", plan->limit.strength_Pa);
    json_number(j, "wedge_m", plan->limit.wedge_m);
    json_close_map(j);
    json_number(j, "chance_within_1", plan->inside_1);
    json_number(j, "survey_roughness_m", plan->roughness_m);
    json_number(j, "survey_doubt_m", plan->doubt_m);
    json_open_list(j, "remarks");
    for (int i = 0; i < plan->remark_count; i++) {
        json_open_map(j, NULL);
        json_bool(j, "kept", !plan->alarm[i]);
        json_text(j, "text", plan->remark[i]);
        json_close_map(j);
    }
    json_close_list(j);
}

void report_seating_json(const ReportSource *source, const SeatPlan *plan, Text *text)
{
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", source->version);
    json_text(&j, "name", source->name);
    json_text(&j, "file", source->file);
    json_bool(&j, "met", seating_met(plan));
    json_number(&j, "thrust_N", plan->thrust_N);
    json_number(&j, "day", plan->day);
    json_number(&j, "survey_day", plan->survey_day);
    json_int(&j, "girders", plan->girders);
    json_int(&j, "readings", plan->reading_count);
    json_open_list(&j, "seats");
    for (int i = 0; i < plan->line_count * plan->girders; i++) seat_add(&j, plan, i);
    json_close_list(&j);
    lines_add(&j, plan);
    places_add(&j, plan);
    panels_add(&j, plan);
    moves_add(&j, plan);
    adjust_add(&j, plan);
    rest_add(&j, plan);
    json_close_map(&j);
    text_add(text, "\n");
}

/* ---- CSV (RFC 4180), one row a shim seat ---- */

void report_seating_csv(const ReportSource *source, const SeatPlan *plan, Text *text)
{
    const bool us = source->units == UNITS_US;
    const char *far = us ? "ft" : "m", *small = us ? "in" : "mm", *force = us ? "kip" : "kN";
    const char *stress = us ? "psi" : "MPa";
    text_printf(
        text,
        "line,girder,station [%s],top [%s],wanted [%s],moves [%s],height [%s],shim left [%s],"
        "shim right [%s],haunch least [%s],haunch most [%s],set at [%s],deviation [%s],"
        "chance within,load [%s],pressure [%s]\r\n",
        far, far, far, small, small, small, small, small, small, far, small, force, stress);
    for (int i = 0; i < plan->line_count * plan->girders; i++) {
        const Seat *s = &plan->seat[i];
        text_printf(
            text,
            "%s,G%d,%.4f,%.4f,%.4f,%.3f,%.3f,%.4f,%.4f,%.3f,%.3f,%.4f,%.3f,%.4f,%.2f,%.1f\r\n",
            plan->line[i / plan->girders].mark, i % plan->girders + 1,
            quantity_in(plan->grade.left_end_m + s->x_m, far), quantity_in(s->top_m, far),
            quantity_in(s->grade_m, far), quantity_in(s->later_m, small),
            quantity_in(s->height_m, small), quantity_in(s->shim_m[0], small),
            quantity_in(s->shim_m[plan->flanges - 1], small), quantity_in(s->thin_m, small),
            quantity_in(s->thick_m, small), quantity_in(s->set_m, far),
            quantity_in(s->off_m, small), s->inside_1, quantity_in(s->load_N, force),
            quantity_in(s->pressure_Pa, stress));
    }
}
