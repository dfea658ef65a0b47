/* The jacking plan as JSON: SI, the unit in the key. */
#include <math.h>

#include "document.h"

static void band_add(Json *j, const char *key, const JackBand *band)
{
    json_open_map(j, key);
    json_number(j, "expected_m", band->expected_m);
    json_number(j, "low_m", band->low_m);
    json_number(j, "high_m", band->high_m);
    json_numbers(j, "below_m", band->below_m, JACK_BAND_PARTS);
    json_numbers(j, "above_m", band->above_m, JACK_BAND_PARTS);
    json_close_map(j);
}

static void gear_add(Json *j, const JackGear *gear)
{
    json_open_map(j, "jacks");
    json_text(j, "size", gear->size);
    json_bool(j, "proposed", gear->proposed);
    json_text(j, "certificate", gear->certificate);
    json_text(j, "certificate_date", gear->certificate_date);
    json_int(j, "count", gear->count);
    json_int(j, "sets", gear->sets);
    json_number(j, "rated_N", gear->rated_N);
    json_number(j, "area_m2", gear->area_m2);
    json_number(j, "stroke_m", gear->stroke_m);
    json_number(j, "closed_height_m", gear->closed_m);
    json_number(j, "packing_m", gear->packing_m);
    json_number(j, "highest_pressure_Pa", gear->highest_Pa);
    json_number(j, "calibration_zero_N", gear->zero_N);
    json_number(j, "calibration_slope_m2", gear->slope_m2);
    json_number(j, "calibration_off_1", gear->off_1);
    json_number(j, "gauge_division_Pa", gear->division_Pa);
    json_number(j, "gauge_range_Pa", gear->range_Pa);
    json_number(j, "gauge_accuracy_1", gear->accuracy_1);
    json_number(j, "use_1", gear->use_1);
    json_open_list(j, "places");
    for (int i = 0; i < gear->count; i++) {
        json_open_map(j, NULL);
        json_number(j, "across_m", gear->across_m[i]);
        json_int(j, "set", gear->set[i]);
        json_close_map(j);
    }
    json_close_list(j);
    json_close_map(j);
}

static void step_add(Json *j, const JackPlan *plan, int index)
{
    const JackStep *step = &plan->step[index];
    json_open_map(j, NULL);
    json_int(j, "step", index + 1);
    json_int(j, "stage", step->stage);
    json_bool(j, "stage_end", step->stage_end);
    json_number(j, "share_1", step->share_1);
    json_number(j, "force_N", step->force_N);
    json_number(j, "jack_N", step->jack_N);
    json_number(j, "pressure_Pa", step->pressure_Pa);
    json_number(j, "force_error_N", step->gauge_error_N);
    json_number(j, "pump_day", step->pump_day);
    json_number(j, "reached_day", step->reached_day);
    json_number(j, "hold_day", step->hold_day);
    band_add(j, "opening", &step->opening);
    json_number(j, "left_m", step->left_m);
    json_number(j, "right_m", step->right_m);
    json_number(j, "slope_m_per_N", step->slope_m_per_N);
    json_number(j, "division_N", step->division_N);
    json_number(j, "division_m", step->division_m);
    json_number(j, "drop_in_hold_N", step->drop_N);
    json_number(j, "drop_in_hold_quick_N", step->drop_quick_N);
    json_numbers(j, "anchor_N", step->anchor_N, 2);
    json_numbers(j, "anchor_slip_m", step->anchor_slip_m, 2);
    json_number(j, "energy_Nm", step->energy_Nm);
    json_close_map(j);
}

static void points_add(Json *j, const JackPlan *plan)
{
    json_open_list(j, "band_parts");
    for (int i = 0; i < JACK_BAND_PARTS; i++) json_text(j, NULL, jack_band_name((JackBandPart)i));
    json_close_list(j);
    json_open_list(j, "loading");
    for (int p = 0; p < plan->point_count; p++) {
        json_open_map(j, NULL);
        json_number(j, "force_N", plan->point[p].force_N);
        band_add(j, "opening", &plan->point[p].opening);
        json_number(j, "left_m", plan->point[p].left_m);
        json_number(j, "right_m", plan->point[p].right_m);
        json_close_map(j);
    }
    json_close_list(j);
}

static void returns_add(Json *j, const JackPlan *plan)
{
    json_open_list(j, "ways_back");
    for (int i = 0; i < plan->return_count; i++) {
        const JackReturn *back = &plan->back[i];
        json_open_map(j, NULL);
        json_int(j, "from_step", back->from_step + 1);
        json_numbers(j, "share_1", back->share_1, back->count);
        json_numbers(j, "force_N", back->force_N, back->count);
        json_numbers(j, "pressure_Pa", back->pressure_Pa, back->count);
        json_numbers(j, "opening_m", back->opening_m, back->count);
        json_numbers(j, "friction_N", back->loop_N, back->count);
        json_number(j, "again_from_share_1", back->again_1);
        json_number(j, "again_opening_m", back->again_m);
        json_close_map(j);
    }
    json_close_list(j);
}

static void after_add(Json *j, const JackPlan *plan)
{
    const JackWarmth *w = &plan->warmth;
    json_open_list(j, "hold");
    for (int i = 0; i < plan->hold_count; i++) {
        json_open_map(j, NULL);
        json_number(j, "after_day", plan->hold[i].after_day);
        json_number(j, "force_N", plan->hold[i].force_N);
        json_number(j, "force_quick_N", plan->hold[i].quick_N);
        json_close_map(j);
    }
    json_close_list(j);
    json_open_map(j, "temperature");
    json_number(j, "window_K", w->window_K);
    json_number(j, "rate_K_per_hour", w->rate_K);
    json_number(j, "swing_K", w->swing_K);
    json_number(j, "locked_warm_N", w->locked_warm_N);
    json_number(j, "locked_cold_N", w->locked_cold_N);
    json_number(j, "later_if_locked_warm_N", w->later_warm_N);
    json_number(j, "later_if_locked_cold_N", w->later_cold_N);
    json_number(j, "opening_warm_m", w->move_warm_m);
    json_number(j, "opening_cold_m", w->move_cold_m);
    json_close_map(j);
}

static void outs_add(Json *j, const JackPlan *plan)
{
    json_open_list(j, "shut_off");
    for (int i = 0; i < plan->out_count; i++) {
        const JackOut *out = &plan->out[i];
        json_open_map(j, NULL);
        json_int(j, "jack", out->jack + 1);
        if (out->partner < 0)
            json_none(j, "with");
        else
            json_int(j, "with", out->partner + 1);
        json_number(j, "jack_N", out->jack_N);
        json_number(j, "pressure_Pa", out->pressure_Pa);
        json_number(j, "off_middle_m", out->off_m);
        json_number(j, "edge_least_Pa", out->edge_least_Pa);
        json_number(j, "edge_most_Pa", out->edge_most_Pa);
        json_number(j, "tilt_m", out->tilt_m);
        json_bool(j, "may", out->may);
        json_close_map(j);
    }
    json_close_list(j);
}

static void watch_add(Json *j, const JackPlan *plan)
{
    json_open_list(j, "watched");
    for (int i = 0; i < plan->watch_count; i++) {
        json_open_map(j, NULL);
        json_text(j, "what", plan->watch[i].bearing ? "bearing" : "girder");
        json_int(j, "number", plan->watch[i].number);
        json_number(j, "x_m", plan->watch[i].x_m);
        json_numbers(j, "move_m", plan->watch[i].move_m, plan->step_count);
        json_close_map(j);
    }
    json_close_list(j);
    json_open_list(j, "lines");
    for (int i = 0; i < plan->line_count; i++) {
        json_open_map(j, NULL);
        json_text(j, "name", plan->line[i].name);
        json_int(j, "girders", plan->line[i].girders);
        json_number(j, "thrust_N", plan->line[i].thrust_N);
        json_numbers(j, "opening_m", plan->line[i].opening_m, plan->step_count);
        json_close_map(j);
    }
    json_close_list(j);
}

static void alarms_add(Json *j, const JackAlarms *alarm)
{
    json_open_map(j, "alarms");
    json_number(j, "movement_1", alarm->movement_1);
    json_number(j, "sides_m", alarm->sides_m);
    json_number(j, "force_1", alarm->force_1);
    json_number(j, "drop_in_15_minutes_1", alarm->drop_1);
    json_number(j, "anchor_slip_m", alarm->slip_m);
    json_number(j, "abort_slip_m", alarm->abort_slip_m);
    json_number(j, "camber_m", alarm->camber_m);
    json_number(j, "bearing_1", alarm->bearing_1);
    json_number(j, "exclusion_m", alarm->exclusion_m);
    json_close_map(j);
}

void report_jacking_plan_json(const JackPlan *plan, Json *j)
{
    json_text(j, "unit", plan->unit);
    json_number(j, "thrust_N", plan->thrust_N);
    json_number(j, "highest_share_1", plan->highest_1);
    json_number(j, "deck_width_m", plan->width_m);
    json_number(j, "deck_thickness_m", plan->thickness_m);
    json_number(j, "gap_m", plan->gap_m);
    gear_add(j, &plan->gear);
    json_open_list(j, "steps");
    for (int i = 0; i < plan->step_count; i++) step_add(j, plan, i);
    json_close_list(j);
    points_add(j, plan);
    json_number(j, "seating_least_m", plan->seating_least_m);
    json_number(j, "seating_most_m", plan->seating_most_m);
    json_number(j, "seated_N", plan->seated_N);
    json_number(j, "friction_least_1", plan->friction_least_1);
    json_number(j, "friction_most_1", plan->friction_most_1);
    json_number(j, "resultant_off_m", plan->off_m);
    json_number(j, "tilt_m", plan->tilt_m);
    json_number(j, "height_off_m", plan->height_off_m);
    json_number(j, "height_off_Pa", plan->height_Pa);
    json_number(j, "energy_Nm", plan->energy_Nm);
    json_number(j, "work_day", plan->work_day);
    json_number(j, "stroke_needed_m", plan->stroke_need_m);
    json_number(j, "gap_needed_m", plan->gap_need_m);
    returns_add(j, plan);
    after_add(j, plan);
    outs_add(j, plan);
    watch_add(j, plan);
    alarms_add(j, &plan->alarm);
}

void report_jacking_json(const ReportSource *source, const JackPlan *const *plan, int plan_count,
                         Text *text)
{
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", source->version);
    json_text(&j, "name", source->name);
    json_text(&j, "file", source->file);
    json_text(&j, "caution", report_caution());
    json_bool(&j, "met", source->answer->met);
    json_open_list(&j, "plans");
    for (int i = 0; i < plan_count; i++) {
        json_open_map(&j, NULL);
        report_jacking_plan_json(plan[i], &j);
        json_text(&j, "verdict", check_state_name(checks_verdict(plan[i]->rows)));
        json_open_list(&j, "margins");
        for (int k = 0; k < plan[i]->rows->count; k++)
            report_check_json(&plan[i]->rows->row[k], &j);
        json_close_list(&j);
        json_close_map(&j);
    }
    json_close_list(&j);
    json_close_map(&j);
    text_add(text, "\n");
}
