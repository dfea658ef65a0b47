/* Answers as JSON: SI, the unit in the key. */
#include <math.h>

#include "document.h"

static void source_add(Json *j, const ReportSource *s)
{
    json_text(j, "program", "clench");
    json_text(j, "version", s->version);
    json_text(j, "name", s->name);
    json_text(j, "file", s->file);
    json_text(j, "caution", report_caution());
}

static void governing_add(Json *j, const LineAnswer *line, const Governing *at, bool force)
{
    const BridgeLine *b = line->line;
    const bool joint = at->joint >= 0 && at->joint < b->joint_count;
    const bool station = at->station >= 0 && at->station < b->model.station_count;
    json_open_map(j, "at");
    json_text(j, "joint", joint ? b->joint[at->joint].mark : NULL);
    if (station)
        json_number(j, "station_m", b->model.x_m[at->station]);
    else
        json_none(j, "station_m");
    json_text(j, "side", at->side < 0 ? "left" : at->side > 0 ? "right" : NULL);
    json_text(j, "fibre", at->top ? "top" : "bottom");
    json_number(j, "day", at->day);
    json_number(j, "permanent_Pa", at->permanent_Pa);
    json_number(j, "live_Pa", at->live_Pa);
    json_number(j, "gradient_Pa", at->gradient_Pa);
    json_number(j, "wheel_Pa", at->wheel_Pa);
    json_number(j, force ? "demand_N" : "demand_Pa", at->demand);
    json_number(j, force ? "limit_N" : "limit_Pa", at->limit);
    json_close_map(j);
}

static void rules_add(Json *j, const LineAnswer *line)
{
    json_open_list(j, "rules");
    for (int i = 0; i < line->line->rule_count; i++) {
        const RuleAnswer *a = &line->rule[i];
        json_open_map(j, NULL);
        json_text(j, "name", line->line->rule[i].name);
        json_text(j, "clause", line->line->rule[i].clause);
        json_bool(j, "counts", line->line->rule[i].counts);
        json_bool(j, "reachable", a->reachable);
        json_number(j, "need_N", a->reachable ? a->need_N : (double)NAN);
        governing_add(j, line, &a->at, false);
        json_close_map(j);
    }
    json_close_list(j);
    json_open_list(j, "limits");
    for (int i = 0; i < line->line->limit_count; i++) {
        const LimitAnswer *a = &line->limit[i];
        json_open_map(j, NULL);
        json_text(j, "name", line->line->limit[i].name);
        json_text(j, "clause", line->line->limit[i].clause);
        json_number(j, "most_N", a->most_N);
        if (isfinite(a->most_N))
            governing_add(j, line, &a->at, line->line->limit[i].kind >= LIMIT_UPLIFT);
        json_close_map(j);
    }
    json_close_list(j);
}

static void split_add(Json *j, const LineAnswer *line, const char *key, const Split *split)
{
    json_open_map(j, key);
    json_text(j, "joint", split->joint >= 0 ? line->line->joint[split->joint].mark : NULL);
    json_number(j, "day", line->history->day[split->time]);
    json_number(j, "mean_Pa", split->mean_total_Pa);
    json_number(j, "top_Pa", split->top_total_Pa);
    json_open_list(j, "causes");
    for (int c = 0; c < CAUSE_COUNT; c++) {
        if (split->mean_Pa[c] == 0 && split->top_Pa[c] == 0) continue;
        json_open_map(j, NULL);
        json_text(j, "cause", cause_text((Cause)c));
        json_number(j, "mean_Pa", split->mean_Pa[c]);
        json_number(j, "top_Pa", split->top_Pa[c]);
        json_close_map(j);
    }
    json_close_list(j);
    json_close_map(j);
}

static void line_head(Json *j, const LineAnswer *line)
{
    json_text(j, "name", line->line->name);
    json_text(j, "unit", line->line->unit);
    json_number(j, "share_1", line->line->share_1);
    json_number(j, "share_stiff_1", line->line->share_stiff_1);
    json_number(j, "thrust_N", line->thrust_N);
}

static void line_add(Json *j, const LineAnswer *line)
{
    const double area_m2 = document_deck_area_m2(line);
    json_open_map(j, NULL);
    line_head(j, line);
    json_number(j, "need_N", line->need_N);
    json_number(j, "need_average_Pa", area_m2 > 0 ? line->need_N / area_m2 : (double)NAN);
    json_number(j, "most_N", line->most_N);
    json_text(j, "need_rule", line->need_rule < 0 ? NULL : document_need_name(line));
    json_text(j, "most_limit",
              line->most_limit < 0 && line->most_rule < 0 ? NULL : document_most_name(line));
    json_number(j, "gap_movement_m", line->gap_movement_m);
    json_number(j, "anchor_force_N", line->anchor_force_N);
    rules_add(j, line);
    if (line->finish.joint >= 0) {
        json_open_map(j, "compression");
        split_add(j, line, "jacked", &line->jacked);
        split_add(j, line, "opening", &line->opening);
        split_add(j, line, "end", &line->finish);
        json_number(j, "left_at_opening_1", document_left_1(&line->opening, &line->jacked, false));
        json_number(j, "left_at_end_1", document_left_1(&line->finish, &line->jacked, false));
        json_close_map(j);
    }
    json_close_map(j);
}

void report_thrust_json(const ReportSource *s, Text *text)
{
    static const char *const origin[] = {"default", "given", "derived"};
    const ThrustAnswer *a = s->answer;
    Json j = json_start(text);
    json_open_map(&j, NULL);
    source_add(&j, s);
    json_number(&j, "given_whole_N", a->given ? a->thrust_N : (double)NAN);
    json_number(&j, "need_whole_N", a->need_N);
    json_number(&j, "most_whole_N", a->most_N);
    json_bool(&j, "window", a->window);
    json_number(&j, "need_whole_stiff_N", a->need_stiff_N);
    json_number(&j, "most_whole_stiff_N", a->most_stiff_N);
    json_number(&j, "thrust_whole_N", a->thrust_N);
    json_bool(&j, "reachable", a->reachable);
    json_bool(&j, "met", a->met);
    json_int(&j, "runs", a->runs);
    json_number(&j, "affine_error_1", a->affine_error_1);
    json_text(&j, "governing_line", document_line(s)->line->name);
    json_text(&j, "governing_unit", document_line(s)->line->unit);
    json_open_list(&j, "lines");
    for (int i = 0; i < a->line_count; i++) line_add(&j, &a->line[i]);
    json_close_list(&j);
    json_open_list(&j, "values");
    for (int i = 0; i < s->value_count; i++) {
        json_open_map(&j, NULL);
        json_text(&j, "path", s->value[i]->path);
        json_text(&j, "text", s->value[i]->text);
        json_text(&j, "origin", origin[s->value[i]->origin]);
        json_close_map(&j);
    }
    json_close_list(&j);
    json_close_map(&j);
    text_add(text, "\n");
}

/* ---- history at joints ---- */

static void state_add(Json *j, const LineAnswer *line, int joint, int time)
{
    const StageHistory *h = line->history;
    FibreStress stress;
    if (!document_joint_state(line, joint, time, &stress)) return;
    json_open_map(j, NULL);
    json_number(j, "day", h->day[time]);
    json_text(j, "event", h->event[time] < 0 ? NULL : h->model->event[h->event[time]].name);
    json_number(j, "top_Pa", stress.top_Pa);
    json_number(j, "bottom_Pa", stress.bottom_Pa);
    json_number(j, "N_N", stress.N_N);
    json_number(j, "M_Nm", stress.M_Nm);
    json_open_list(j, "margin_Pa"); /* in the order of `rules` */
    for (int r = 0; r < line->line->rule_count; r++)
        if (line->line->rule[r].counts)
            json_number(j, NULL, figure_margin_Pa(line, r, joint, time));
    json_close_list(j);
    json_close_map(j);
}

void report_life_json(const ReportSource *s, int line_index, const int *joint, int joint_count,
                      Text *text)
{
    const LineAnswer *line = &s->answer->line[line_index];
    Json j = json_start(text);
    json_open_map(&j, NULL);
    source_add(&j, s);
    json_open_map(&j, "line");
    line_head(&j, line);
    json_close_map(&j);
    json_open_list(&j, "rules");
    for (int r = 0; r < line->line->rule_count; r++)
        if (line->line->rule[r].counts) json_text(&j, NULL, line->line->rule[r].name);
    json_close_list(&j);
    json_open_list(&j, "joints");
    for (int i = 0; i < joint_count; i++) {
        const Joint *at = &line->line->joint[joint[i]];
        json_open_map(&j, NULL);
        json_text(&j, "joint", at->mark);
        json_number(&j, "station_m", line->line->model.x_m[at->station]);
        json_open_list(&j, "history");
        for (int t = 0; t < line->history->time_count; t++) state_add(&j, line, joint[i], t);
        json_close_list(&j);
        json_close_map(&j);
    }
    json_close_list(&j);
    json_close_map(&j);
    text_add(text, "\n");
}
