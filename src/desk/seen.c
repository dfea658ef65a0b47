/* What is seen at the shown thrust: numbers as JSON, and one sentence that says what the pictures say. */
#include <math.h>

#include "desk_data.h"

int desk_worst_line(const Desk *desk)
{
    int worst = -1;
    double over_Pa = 0;
    for (int k = 0; k < desk->shown->line_count; k++) {
        const JointsStanding *s = &desk->line[k].standing;
        if (s->rule < 0) continue;
        const double here_Pa = s->worst.demand - s->worst.limit;
        if (worst >= 0 && here_Pa <= over_Pa) continue;
        worst = k;
        over_Pa = here_Pa;
    }
    return worst;
}

/* The line where a joint opens first; -1: all stay closed. */
static int first_line(const Desk *desk)
{
    int first = -1;
    for (int k = 0; k < desk->shown->line_count; k++) {
        const JointsStanding *s = &desk->line[k].standing;
        if (s->first_rule >= 0 &&
            (first < 0 || s->first.day < desk->line[first].standing.first.day))
            first = k;
    }
    return first;
}

/* "J07 of the interior line (top fibre, end of life, 75 yr)"; a rule on the average has no fibre. */
static const char *joint_words(const Desk *desk, int k, int rule, const Governing *at, Arena *arena)
{
    const LineAnswer *line = &desk->shown->line[k];
    const char *fibre = line->line->rule[rule].average ? ""
                        : at->top                      ? "top fibre, "
                                                       : "bottom fibre, ";
    return arena_printf(arena, "%s of the %s (%s%s)", line->line->joint[at->joint].mark,
                        desk_line_name(desk, k, arena), fibre, figure_when(arena, line, at->day));
}

static const char *stress_words(const Desk *desk, double stress_Pa, Arena *arena)
{
    return figure_quantity(arena, stress_Pa, quantity_unit(desk->source.units, DIM_STRESS));
}

static void closed_words(const Desk *desk, Text *text, Arena *arena)
{
    const int k = desk_worst_line(desk);
    text_add(text, "every joint stays closed");
    if (k < 0) return;
    const JointsStanding *s = &desk->line[k].standing;
    text_printf(text, "; nearest to its limit is %s, %s left by the rule \"%s\".",
                joint_words(desk, k, s->rule, &s->worst, arena),
                stress_words(desk, fmax(0, s->worst.limit - s->worst.demand), arena),
                desk->shown->line[k].line->rule[s->rule].name);
}

/* A joint opens by a rule on its fibres; by one on the average it keeps too little compression. */
static void open_words(const Desk *desk, int first, Text *text, Arena *arena)
{
    const JointsStanding *s = &desk->line[first].standing;
    const LineAnswer *line = &desk->shown->line[first];
    int open = 0, joints = 0;
    for (int k = 0; k < desk->shown->line_count; k++) {
        open += desk->line[k].standing.open_count;
        joints += desk->shown->line[k].line->joint_count;
    }
    text_printf(text, "%d of %d joints %s a limit. First %s %s", open, joints,
                open == 1 ? "passes" : "pass",
                joint_words(desk, first, s->first_rule, &s->first, arena),
                line->line->rule[s->first_rule].average ? "keeps too little compression" : "opens");
    const int k = desk_worst_line(desk);
    const JointsStanding *worst = &desk->line[k].standing;
    text_printf(text, "; worst %s, %s beyond the rule \"%s\".",
                joint_words(desk, k, worst->rule, &worst->worst, arena),
                stress_words(desk, worst->worst.demand - worst->worst.limit, arena),
                desk->shown->line[k].line->rule[worst->rule].name);
}

static void window_words(const Desk *desk, Text *text, Arena *arena)
{
    const ThrustAnswer *a = desk->shown;
    const char *force = quantity_unit(desk->source.units, DIM_FORCE);
    if (!a->reachable)
        text_add(text, " No thrust closes them all.");
    else if (!a->met && a->thrust_N > a->most_N)
        text_printf(text, " A limit stands at %s.", figure_quantity(arena, a->most_N, force));
    else if (!a->met)
        text_printf(text, " The deck needs %s.",
                    figure_quantity(arena, fmax(a->need_N, a->least_N), force));
}

const char *desk_sentence(const Desk *desk, Arena *arena)
{
    Text text = text_start(arena);
    const ThrustAnswer *a = desk->shown;
    const int first = first_line(desk);
    text_printf(&text, "At %s ",
                figure_quantity(arena, a->thrust_N, quantity_unit(desk->source.units, DIM_FORCE)));
    if (first < 0)
        closed_words(desk, &text, arena);
    else
        open_words(desk, first, &text, arena);
    window_words(desk, &text, arena);
    return text.bytes;
}

static void worst_add(const Desk *desk, Json *j, Arena *arena)
{
    const int k = desk_worst_line(desk);
    if (k < 0) {
        json_none(j, "worst");
        return;
    }
    const LineAnswer *line = &desk->shown->line[k];
    const JointsStanding *s = &desk->line[k].standing;
    const Governing *at = &s->worst;
    json_open_map(j, "worst");
    json_int(j, "line", k);
    json_int(j, "rule", s->rule);
    json_text(j, "rule_name", line->line->rule[s->rule].name);
    json_int(j, "joint", at->joint);
    json_text(j, "name", line->line->joint[at->joint].mark);
    json_int(j, "time", at->time);
    json_number(j, "day", at->day);
    json_text(j, "when", figure_when(arena, line, at->day));
    json_bool(j, "top", at->top);
    json_text(j, "side", at->side < 0 ? "left" : "right");
    json_number(j, "permanent_Pa", at->permanent_Pa);
    json_number(j, "live_Pa", at->live_Pa);
    json_number(j, "gradient_Pa", at->gradient_Pa);
    json_number(j, "wheel_Pa", at->wheel_Pa);
    json_number(j, "demand_Pa", at->demand);
    json_number(j, "limit_Pa", at->limit);
    json_number(j, "margin_Pa", at->limit - at->demand);
    json_close_map(j);
}

void desk_seen(const Desk *desk, Text *text)
{
    const ThrustAnswer *a = desk->shown;
    const LineAnswer *governs = &a->line[a->governing_line];
    const size_t mark = arena_mark(desk->scratch);
    int open = 0;
    for (int k = 0; k < a->line_count; k++) open += desk->line[k].standing.open_count;
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_number(&j, "thrust_N", a->thrust_N);
    json_bool(&j, "predicted", a == desk->predicted);
    json_bool(&j, "met", a->met);
    json_bool(&j, "reachable", a->reachable);
    json_int(&j, "open_count", open);
    worst_add(desk, &j, desk->scratch);
    json_number(&j, "average_Pa", governs->average_Pa);
    json_number(&j, "gap_movement_m", governs->gap_movement_m);
    json_number(&j, "anchor_force_N", governs->anchor_force_N);
    json_text(&j, "sentence", desk_sentence(desk, desk->scratch));
    json_close_map(&j);
    arena_reset(desk->scratch, mark);
}
