/* The panels as JSON: SI, the unit in the key. */
#include <math.h>

#include "document.h"
#include "panels.h"

static void hole_add(Json *j, const PanelHole *hole)
{
    json_open_map(j, NULL);
    json_number(j, "along_m", hole->x_m);
    json_number(j, "across_m", hole->z_m);
    json_number(j, "length_m", hole->along_m);
    json_number(j, "width_m", hole->across_m);
    if (isfinite(hole->depth_m))
        json_number(j, "depth_m", hole->depth_m);
    else
        json_none(j, "depth_m");
    json_close_map(j);
}

static void holes_add(Json *j, const char *key, const PanelHole *hole, int count)
{
    json_open_list(j, key);
    for (int i = 0; i < count; i++) hole_add(j, &hole[i]);
    json_close_list(j);
}

static void kind_add(Json *j, const PanelSource *p, int k)
{
    const PanelKind *kind = &p->plan->kind[k];
    const PanelPiece *like = &p->plan->piece[kind->like];
    const PanelBody *b = &like->body;
    json_open_map(j, NULL);
    json_text(j, "kind", kind->name);
    json_int(j, "panels", kind->count);
    json_text(j, "first", like->mark);
    json_bool(j, "anchor", like->anchor);
    json_number(j, "left_m", like->shape.left_m);
    json_number(j, "right_m", like->shape.right_m);
    json_number(j, "left_slope_1", like->shape.left_slope_1);
    json_number(j, "right_slope_1", like->shape.right_slope_1);
    json_number(j, "from_across_m", like->shape.from_z_m);
    json_number(j, "to_across_m", like->shape.to_z_m);
    json_number(j, "edge_thickness_m", like->shape.edge_m);
    json_number(j, "rise_1", like->shape.rise_1);
    json_number(j, "length_m", like->cast_m);
    json_number(j, "long_side_m", b->longest_m);
    json_number(j, "short_side_m", b->shortest_m);
    json_number(j, "left_edge_m", b->left_edge_m);
    json_number(j, "right_edge_m", b->right_edge_m);
    json_number(j, "diagonal_1_m", b->diagonal_1_m);
    json_number(j, "diagonal_2_m", b->diagonal_2_m);
    json_number(j, "least_width_m", b->haul_m);
    json_number(j, "area_m2", b->area_m2);
    json_number(j, "concrete_m3", b->net_m3);
    json_number(j, "solid_m3", b->gross_m3);
    json_number(j, "weight_N", like->weight_N);
    json_number(j, "solid_weight_N", like->gross_N);
    json_number(j, "centre_along_m", b->net_x_m);
    json_number(j, "centre_across_m", b->net_z_m);
    holes_add(j, "pockets", like->hole, like->pocket_count);
    holes_add(j, "blockouts", like->hole + like->pocket_count, like->blockout_count);
    json_open_list(j, "lifting");
    for (int which = 0; which < PANEL_LIFT_COUNT; which++) {
        const PanelLiftAnswer *a = &p->lift[k * PANEL_LIFT_COUNT + which];
        json_open_map(j, NULL);
        json_text(j, "name", a->name);
        json_int(j, "points_in_a_row", a->points);
        json_bool(j, "chosen", a->chosen);
        json_number(j, "factor_1", a->factor_1);
        json_number(j, "sling_degrees", a->sling_degrees);
        json_number(j, "strength_Pa", a->strength_Pa);
        json_number(j, "stress_Pa", a->stress_Pa);
        json_number(j, "limit_Pa", a->limit_Pa);
        json_number(j, "sling_N", a->leg_N);
        json_bool(j, "met", panels_lift_met(a));
        json_close_map(j);
    }
    json_close_list(j);
    json_close_map(j);
}

static void piece_add(Json *j, const PanelPlan *plan, const PanelPiece *p)
{
    json_open_map(j, NULL);
    json_text(j, "mark", p->mark);
    json_text(j, "run", plan->run[p->run].name);
    json_int(j, "number", p->number);
    json_text(j, "kind", plan->kind[p->kind].name);
    json_number(j, "from_m", p->from_m);
    json_number(j, "to_m", p->to_m);
    json_text(j, "left_joint", p->left_joint);
    json_text(j, "right_joint", p->right_joint);
    json_number(j, "weight_N", p->weight_N);
    json_int(j, "filling", p->cast.cycle + 1);
    json_int(j, "bed", p->cast.bed + 1);
    json_int(j, "phase", p->cast.phase + 1);
    json_number(j, "place_m", p->cast.place_m);
    json_bool(j, "cast_against_left", p->cast.against_left);
    json_bool(j, "cast_against_right", p->cast.against_right);
    json_bool(j, "back_on_a_bed", p->cast.waits);
    json_number(j, "cast_day", p->cast.cast_day);
    json_number(j, "off_bed_day", p->cast.strip_day);
    json_number(j, "set_day", p->cast.set_day);
    json_close_map(j);
}

static void closing_add(Json *j, const PanelPlan *plan)
{
    const PanelClosing *c = &plan->closing;
    json_open_map(j, "closing");
    json_bool(j, "glued", plan->glued);
    json_bool(j, "match_cast", plan->matched);
    json_int(j, "joints", plan->match_joints);
    json_text(j, "means", plan->pullers ? "chain pullers" : "bolts");
    json_number(j, "face_m2", plan->joint.face_m2);
    json_number(j, "pressure_Pa", plan->joint.pressure_Pa);
    json_number(j, "press_N", c->press_N);
    json_number(j, "drag_N", c->drag_N);
    json_number(j, "force_N", c->force_N);
    json_int(j, "pieces", c->pieces);
    json_number(j, "given_N", c->given_N);
    json_number(j, "given_Pa", c->given_Pa);
    json_bool(j, "pressed", c->pressed);
    json_number(j, "glue_a_joint_m3", c->glue_m3);
    json_number(j, "glue_m3", plan->glue_all_m3);
    json_text(j, "glue_class", plan->glue_class);
    json_number(j, "open_day", c->open_day);
    json_number(j, "work_day", c->work_day);
    json_int(j, "joints_of_one_mixing", plan->joints_in_pot);
    json_close_map(j);
}

static void options_add(Json *j, const PanelPlan *plan)
{
    json_text(j, "layout", panels_choice(plan->chosen));
    json_number(j, "longest_allowed_m", plan->longest_allowed_m);
    json_text(j, "longest_by", plan->longest_by);
    json_open_list(j, "choices");
    for (int c = 0; c < PANEL_CHOICE_COUNT; c++) {
        const PanelOption *o = &plan->option[c];
        json_open_map(j, NULL);
        json_text(j, "layout", panels_choice(o->choice));
        json_int(j, "panels", o->panels);
        json_int(j, "lengths", o->kinds);
        json_number(j, "shortest_m", o->shortest_m);
        json_number(j, "longest_m", o->longest_m);
        json_int(j, "sides_with_a_joint_too_near", o->too_near);
        json_close_map(j);
    }
    json_close_list(j);
}

static void yard_add(Json *j, const PanelPlan *plan)
{
    const PanelSets *s = &plan->sets;
    json_open_map(j, "casting");
    json_int(j, "fillings", s->cycles);
    json_int(j, "beds", s->used_beds);
    json_number(j, "bed_m", plan->yard.bed_m);
    json_number(j, "bed_used_m", s->bed_used_m);
    json_number(j, "filling_days", s->cycle_day);
    json_number(j, "between_phases_days", plan->lag_day);
    json_number(j, "lifted_off_age_days", plan->yard.strip_day);
    json_number(j, "first_day", s->first_day);
    json_number(j, "youngest_days", s->youngest_day);
    json_number(j, "oldest_days", s->oldest_day);
    json_number(j, "neighbours_apart_days", s->apart_day);
    json_int(j, "stored_most", s->stored_most);
    json_number(j, "stored_most_on_day", s->stored_day);
    json_close_map(j);
}

static void runs_add(Json *j, const PanelPlan *plan)
{
    json_open_list(j, "runs");
    for (int i = 0; i < plan->run_count; i++) {
        const PanelRun *run = &plan->run[i];
        json_open_map(j, NULL);
        json_text(j, "run", run->name);
        json_text(j, "unit", run->unit);
        json_number(j, "start_m", run->start_m);
        json_number(j, "length_m", run->length_m);
        json_number(j, "gap_from_m", run->gap_from_m);
        json_number(j, "gap_to_m", run->gap_to_m);
        json_int(j, "panels", run->count);
        json_close_map(j);
    }
    json_close_list(j);
}

void report_panels_json(const PanelSource *p, Text *text)
{
    const PanelPlan *plan = p->plan;
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", p->report->version);
    json_text(&j, "name", p->report->name);
    json_text(&j, "file", p->report->file);
    json_text(&j, "caution", report_caution());
    json_bool(&j, "met", report_panels_met(p));
    json_open_list(&j, "remarks");
    for (int i = 0; i < plan->remark_count; i++) {
        json_open_map(&j, NULL);
        json_bool(&j, "kept", !plan->alarm[i]);
        json_text(&j, "text", plan->remark[i]);
        json_close_map(&j);
    }
    json_close_list(&j);
    json_number(&j, "concrete_m3", plan->net_m3);
    json_number(&j, "weight_N", plan->weight_N);
    json_int(&j, "pockets", plan->pockets);
    json_number(&j, "deck_width_m", plan->deck_width_m);
    json_number(&j, "thickness_m", plan->thickness_m);
    json_number(&j, "skew_rad", plan->skew_rad);
    json_number(&j, "closure_strip_m", plan->strip_m);
    options_add(&j, plan);
    yard_add(&j, plan);
    closing_add(&j, plan);
    runs_add(&j, plan);
    json_open_list(&j, "kinds");
    for (int k = 0; k < plan->kind_count; k++) kind_add(&j, p, k);
    json_close_list(&j);
    json_open_list(&j, "panels");
    for (int i = 0; i < plan->piece_count; i++) piece_add(&j, plan, &plan->piece[i]);
    json_close_list(&j);
    json_close_map(&j);
    text_add(text, "\n");
}
