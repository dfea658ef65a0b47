/* The comparison as JSON: SI, tension positive, the unit in the key. */
#include <math.h>

#include "compare.h"

static void governing_add(Json *j, const char *key, const LineAnswer *line, int rule,
                          const Governing *at)
{
    json_open_map(j, key);
    json_text(j, "rule", rule >= 0 ? line->line->rule[rule].name : NULL);
    json_text(j, "clause", rule >= 0 ? line->line->rule[rule].clause : NULL);
    json_text(j, "joint", at->joint >= 0 ? line->line->joint[at->joint].mark : NULL);
    json_text(j, "side", at->side < 0 ? "left" : "right");
    json_text(j, "fibre", at->top ? "top" : "bottom");
    json_number(j, "day", at->day);
    json_number(j, "permanent_Pa", at->permanent_Pa);
    json_number(j, "live_Pa", at->live_Pa);
    json_number(j, "gradient_Pa", at->gradient_Pa);
    json_number(j, "wheel_Pa", at->wheel_Pa);
    json_number(j, "limit_Pa", at->limit);
    json_close_map(j);
}

/* Permanent stress of both fibres, the side that is nearer to opening at its top. */
static bool state(const LineAnswer *line, int joint, int time, FibreStress *stress)
{
    FibreStress right;
    const int only = thrust_joint_side(line->line, joint);
    if (only) return thrust_stress(line, joint, only, time, stress);
    const bool left = thrust_stress(line, joint, -1, time, stress);
    const bool both = thrust_stress(line, joint, 1, time, &right);
    if (both && (!left || right.top_Pa > stress->top_Pa)) *stress = right;
    return left || both;
}

static void state_add(Json *j, const LineAnswer *line, int joint, int time)
{
    FibreStress stress;
    json_open_map(j, NULL);
    const int event = line->history->event[time];
    json_text(j, "moment", event >= 0 ? line->history->model->event[event].name : NULL);
    json_number(j, "day", line->history->day[time]);
    if (state(line, joint, time, &stress)) {
        json_number(j, "top_Pa", stress.top_Pa);
        json_number(j, "bottom_Pa", stress.bottom_Pa);
    }
    json_close_map(j);
}

/* Every joint at the named moments from the first judged one on, the compared joint at every time. */
static void history_add(Json *j, const LineAnswer *line, int joint, bool all_times)
{
    const StageHistory *h = line->history;
    json_open_list(j, "history");
    for (int t = line->moments.jacked; t <= line->moments.end; t++) {
        const bool named = h->event[t] >= 0 && h->model->event[h->event[t]].name;
        if (named || all_times) state_add(j, line, joint, t);
    }
    json_close_list(j);
}

static void joints_add(Json *j, const LineAnswer *line, int compared)
{
    json_open_list(j, "joints");
    for (int k = 0; k < line->line->joint_count; k++) {
        json_open_map(j, NULL);
        json_text(j, "joint", line->line->joint[k].mark);
        json_number(j, "station_m", line->line->model.x_m[thrust_joint_station(line->line, k)]);
        json_number(j, "margin_opening_Pa", thrust_margin_Pa(line, k, line->moments.opening, NULL));
        json_number(j, "margin_end_Pa", thrust_margin_Pa(line, k, line->moments.end, NULL));
        history_add(j, line, k, k == compared);
        json_close_map(j);
    }
    json_close_list(j);
}

static void lines_add(Json *j, const CompareAnswer *c, const WayAnswer *way)
{
    json_open_list(j, "lines");
    for (int k = 0; k < way->line_count; k++) {
        const WayLine *line = &way->line[k];
        const JointsStanding *s = &line->standing;
        json_open_map(j, NULL);
        json_text(j, "line", line->answer->line->name);
        json_text(j, "unit", line->answer->line->unit);
        json_number(j, "margin_Pa", compare_margin_Pa(line));
        json_int(j, "joints_beyond", s->open_count);
        json_int(j, "joint_count", line->answer->line->joint_count);
        if (s->rule >= 0) governing_add(j, "worst", line->answer, s->rule, &s->worst);
        if (s->first_rule >= 0) governing_add(j, "first", line->answer, s->first_rule, &s->first);
        joints_add(j, line->answer, k == c->line ? c->joint : -1);
        json_close_map(j);
    }
    json_close_list(j);
}

static void split_add(Json *j, const char *key, const LineAnswer *line, const Split *split)
{
    json_open_map(j, key);
    json_number(j, "day", line->history->day[split->time]);
    json_number(j, "mean_Pa", split->mean_total_Pa);
    json_number(j, "top_Pa", split->top_total_Pa);
    json_number(j, "bottom_Pa", split->bottom_total_Pa);
    json_open_map(j, "mean_by_cause_Pa");
    for (int k = 0; k < CAUSE_COUNT; k++)
        if (split->mean_Pa[k] != 0) json_number(j, cause_text((Cause)k), split->mean_Pa[k]);
    json_close_map(j);
    json_close_map(j);
}

static void kept_add(Json *j, const WayAnswer *way, const LineAnswer *line)
{
    const WayKept *k = &way->kept;
    json_open_map(j, "compression");
    json_number(j, "jacks_over_section_Pa", k->pulled_Pa);
    json_number(j, "lost_in_ducts_Pa", k->duct_Pa);
    json_number(j, "lost_by_draw_in_Pa", k->draw_in_Pa);
    split_add(j, "begin", line, &k->begin);
    split_add(j, "composite", line, &k->bonded);
    split_add(j, "opening", line, &k->opening);
    split_add(j, "end_of_life", line, &k->finish);
    json_number(j, "kept_1", compare_kept_1(k));
    json_close_map(j);
}

static void girder_add(Json *j, const char *key, const WayGirder *g)
{
    json_open_map(j, key);
    json_number(j, "top_most_Pa", g->top_most_Pa);
    json_number(j, "top_least_Pa", g->top_least_Pa);
    json_number(j, "bottom_most_Pa", g->bottom_most_Pa);
    json_number(j, "bottom_least_Pa", g->bottom_least_Pa);
    json_close_map(j);
}

static void tendons_add(Json *j, const WayAnswer *way, const BridgeLine *line)
{
    enum { PLACES = 20 };
    const LineTendons *t = line->tendons;
    const double length_m = t->path.x_m[t->path.count - 1];
    json_open_map(j, "tendons");
    json_int(j, "count", way->tendons);
    json_bool(j, "given", way->tendons_given);
    json_bool(j, "enough", way->enough);
    json_number(j, "area_of_line_m2", t->area_m2);
    json_number(j, "stretch_m", t->stretch_m);
    json_number(j, "draw_in_felt_left_m", t->seat.left_reach_m);
    json_number(j, "draw_in_felt_right_m", t->seat.right_reach_m);
    json_open_list(j, "profile");
    for (int i = 0; i <= PLACES; i++) {
        const double x_m = length_m * i / PLACES;
        const TendonStress at = tendon_at(&t->pull, &t->path, &t->seat, x_m);
        json_open_map(j, NULL);
        json_number(j, "station_m", x_m);
        json_number(j, "pulled_Pa", at.pulled_Pa);
        json_number(j, "seated_Pa", at.seated_Pa);
        json_close_map(j);
    }
    json_close_list(j);
    json_close_map(j);
}

static void way_add(Json *j, const CompareAnswer *c, const WayAnswer *way)
{
    const LineAnswer *line = way->line[c->line].answer;
    json_open_map(j, NULL);
    json_text(j, "way", way_name(way->way));
    json_number(j, "margin_Pa", compare_margin_Pa(&way->line[way->governing]));
    json_number(j, "rupture_Pa", line->line->rupture_Pa);
    json_int(j, "runs", way->runs);
    kept_add(j, way, line);
    girder_add(j, "girders_building", &way->building);
    girder_add(j, "girders_end_of_life", &way->finish);
    if (line->line->tendons) tendons_add(j, way, line->line);
    lines_add(j, c, way);
    json_close_map(j);
}

static void quantities_add(Json *j, const WayQuantities *list)
{
    json_open_list(j, "quantities");
    for (int k = 0; k < list->count; k++) {
        const WayQuantity *q = &list->item[k];
        const char *unit = q->dimension == DIM_TIME ? "day" : quantity_unit(UNITS_SI, q->dimension);
        json_open_map(j, NULL);
        json_text(j, "way", way_name(q->way));
        json_text(j, "what", q->name);
        json_bool(j, "work", q->work);
        json_number(j, "amount", quantity_in(q->value, unit));
        json_text(j, "unit", unit);
        json_open_list(j, "factors");
        for (int f = 0; f < q->factor_count; f++) {
            const WayFactor *factor = &q->factor[f];
            const char *of = quantity_unit(UNITS_SI, factor->dimension);
            json_open_map(j, NULL);
            json_text(j, "name", factor->name);
            json_number(j, "value", of[0] ? quantity_in(factor->value, of) : factor->value);
            json_text(j, "unit", of);
            json_bool(j, "divides", factor->over);
            json_close_map(j);
        }
        json_close_list(j);
        json_close_map(j);
    }
    json_close_list(j);
    json_open_map(j, "crew_hours");
    for (int w = 0; w < WAY_COUNT; w++) json_number(j, way_name((Way)w), 24 * list->crew_day[w]);
    json_close_map(j);
    json_int(j, "persons_in_a_crew", list->persons);
    json_number(j, "hours_spread_1", list->spread_1);
}

void report_compare_json(const ReportSource *source, const CompareAnswer *c, Text *text)
{
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", source->version);
    json_text(&j, "name", source->name);
    json_text(&j, "file", source->file);
    json_text(&j, "caution", report_caution());
    json_number(&j, "thrust_N", c->thrust->thrust_N);
    json_text(&j, "compared_line", c->thrust->line[c->line].line->name);
    json_text(&j, "compared_unit", c->thrust->line[c->line].line->unit);
    json_text(&j, "compared_joint", c->thrust->line[c->line].line->joint[c->joint].mark);
    json_open_list(&j, "ways");
    for (int w = 0; w < WAY_COUNT; w++) way_add(&j, c, &c->way[w]);
    json_close_list(&j);
    quantities_add(&j, c->quantities);
    json_close_map(&j);
}
