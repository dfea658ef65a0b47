/* Verdict and fit as JSON, SI. */
#include "clench/site.h"

static void finding_json(const SiteFinding *f, Json *json)
{
    json_open_map(json, NULL);
    json_text(json, "kind", site_kind_name(f->kind));
    json_text(json, "call", site_call_name(f->call));
    json_number(json, "value", f->value);
    json_number(json, "low", f->low);
    json_number(json, "high", f->high);
    json_number(json, "off", f->off);
    json_text(json, "unit", quantity_unit(UNITS_SI, f->dimension));
    json_number(json, "sure", f->sure_1);
    if (f->point >= 0) json_int(json, "point", f->point + 1);
    json_text(json, "words", f->words);
    json_close_map(json);
}

void site_verdict_json(const SiteVerdict *v, Json *json)
{
    json_text(json, "call", site_call_name(v->call));
    json_number(json, "sure", v->sure_1);
    json_text(json, "reason", v->reason);
    json_open_list(json, "findings");
    for (int i = 0; i < v->finding_count; i++) finding_json(&v->finding[i], json);
    json_close_list(json);
    json_open_list(json, "causes");
    for (int i = 0; i < v->guess_count; i++) {
        json_open_map(json, NULL);
        json_text(json, "cause", site_cause_name(v->guess[i].cause));
        json_int(json, "signs", v->guess[i].for_count);
        json_int(json, "open", v->guess[i].open_count);
        json_text(json, "measure", v->guess[i].measure);
        json_close_map(json);
    }
    json_close_list(json);
    json_number(json, "force_N", v->force_N);
    json_number(json, "force_off_N", v->force_off_N);
    json_number(json, "opening_m", v->opening_m);
    json_number(json, "low_m", v->low_m);
    json_number(json, "expected_m", v->expected_m);
    json_number(json, "high_m", v->high_m);
    json_number(json, "tilt_m", v->tilt_m);
    json_number(json, "warm_K", v->warm_K);
    json_number(json, "slope", v->slope_1);
    json_number(json, "slope_low", v->slope_low_1);
    json_number(json, "slope_high", v->slope_high_1);
    json_number(json, "fall_N", v->fall_N);
    json_number(json, "fall_explained_N", v->fall_most_N);
}

static void value_json(const SiteValue *value, const char *key, Json *json)
{
    json_open_map(json, key);
    json_bool(json, "told", value->told);
    json_number(json, "value", value->value);
    json_number(json, "low", value->low);
    json_number(json, "high", value->high);
    json_number(json, "plan", value->plan);
    json_text(json, "why", value->why);
    json_close_map(json);
}

void site_fit_json(const SiteFit *fit, Json *json)
{
    json_int(json, "used", fit->used);
    json_int(json, "left_out", fit->left_out);
    value_json(&fit->slope_1, "slope", json);
    value_json(&fit->seating_m, "seating_m", json);
    value_json(&fit->loop_N, "loop_N", json);
    value_json(&fit->friction_1, "friction", json);
    value_json(&fit->gauge_1, "gauge", json);
    value_json(&fit->girder_1, "girder", json);
    value_json(&fit->deck_1, "deck", json);
    value_json(&fit->force_N, "force_N", json);
    value_json(&fit->even_N, "force_evenly_warm_N", json);
    json_open_list(json, "force_parts");
    for (int i = 0; i < SITE_PARTS && fit->even_N.told; i++) {
        json_open_map(json, NULL);
        json_text(json, "part", site_force_part_name((SiteForcePart)i));
        json_number(json, "below_N", fit->below_N[i]);
        json_number(json, "above_N", fit->above_N[i]);
        json_close_map(json);
    }
    json_close_list(json);
    json_number(json, "apart_K", fit->apart_K);
    json_number(json, "locked_day", fit->locked_day);
    json_number(json, "deck_alone", fit->deck_alone_1);
    json_number(json, "girder_alone", fit->girder_alone_1);
    json_number(json, "gauge_alone", fit->gauge_alone_1);
}

static void stress_json(const SiteStress *stress, const char *key, Json *json)
{
    json_open_map(json, key);
    json_number(json, "mean_Pa", stress->mean_Pa);
    json_number(json, "fibre_Pa", stress->fibre_Pa);
    json_close_map(json);
}

static void life_json(const SiteLife *life, const char *key, Json *json)
{
    json_open_map(json, key);
    json_number(json, "thrust_N", life->thrust_N);
    json_number(json, "modulus", life->modulus_1);
    json_number(json, "friction", life->friction_1);
    stress_json(&life->jacked, "jacked", json);
    stress_json(&life->opening, "opening", json);
    stress_json(&life->end, "end", json);
    json_close_map(json);
}

void site_built_json(const SiteBuilt *built, const ThrustAnswer *design, Json *json)
{
    json_int(json, "runs", built->runs);
    json_number(json, "planned_day", built->planned_day);
    json_number(json, "jacking_day", built->jacking_day);
    json_number(json, "need_least_N", built->need_N[0]);
    json_number(json, "need_most_N", built->need_N[1]);
    json_number(json, "limit_least_N", built->limit_N[0]);
    json_number(json, "limit_most_N", built->limit_N[1]);
    json_bool(json, "design_met", built->design_met);
    json_bool(json, "met_in_all", built->always);
    json_bool(json, "met_in_one", built->ever);
    json_open_list(json, "lines");
    for (int k = 0; k < built->count; k++) {
        const SiteBuiltLine *at = &built->line[k];
        const BridgeLine *line = design->line[at->line].line;
        json_open_map(json, NULL);
        json_text(json, "line", line->name);
        json_text(json, "joint", line->joint[at->joint].mark);
        life_json(&at->design, "design", json);
        life_json(&at->least, "least", json);
        life_json(&at->most, "most", json);
        json_close_map(json);
    }
    json_close_list(json);
}
