/* What does not change with the thrust that is looked at, as JSON. */
#include <math.h>
#include <string.h>

#include "desk_data.h"

const char *desk_line_name(const Desk *desk, int k, Arena *arena)
{
    const ThrustAnswer *a = desk->found;
    const BridgeLine *line = a->line[k].line;
    for (int i = 0; i < a->line_count; i++)
        if (strcmp(a->line[i].line->unit, line->unit) != 0)
            return arena_printf(arena, "%s, %s", line->name, line->unit);
    return line->name;
}

static const char *most_name(const LineAnswer *line)
{
    if (line->most_limit >= 0) return line->line->limit[line->most_limit].name;
    if (line->most_rule >= 0) return line->line->rule[line->most_rule].name;
    return NULL;
}

/* "J07 top fibre, end of life, 75 yr, interior line" */
static const char *place_words(const Desk *desk, int k, const Governing *at, bool fibre,
                               Arena *arena)
{
    const LineAnswer *line = &desk->found->line[k];
    const char *where = figure_where(arena, line, at, desk->source.units);
    return arena_printf(arena, "%s%s, %s, %s", where,
                        !fibre    ? ""
                        : at->top ? " top fibre"
                                  : " bottom fibre",
                        figure_when(arena, line, at->day), desk_line_name(desk, k, arena));
}

static void window_add(const Desk *desk, Json *j, Arena *arena)
{
    const ThrustAnswer *a = desk->found;
    const LineAnswer *governs = &a->line[a->governing_line];
    json_number(j, "need_N", a->reachable ? a->need_N : (double)NAN);
    json_number(j, "most_N", a->most_N);
    json_number(j, "least_N", a->least_N);
    json_number(j, "thrust_N", a->thrust_N);
    json_bool(j, "reachable", a->reachable);
    json_bool(j, "window", a->window);
    json_bool(j, "met", a->met);
    json_int(j, "governing_line", a->governing_line);
    json_int(j, "limiting_line", a->limiting_line);
    json_text(j, "need_name",
              governs->need_rule < 0 ? NULL : governs->line->rule[governs->need_rule].name);
    json_text(j, "need_where",
              governs->need_rule < 0
                  ? NULL
                  : place_words(desk, a->governing_line, &governs->rule[governs->need_rule].at,
                                !governs->line->rule[governs->need_rule].average, arena));
    const LineAnswer *limits = a->limiting_line < 0 ? NULL : &a->line[a->limiting_line];
    json_text(j, "most_name", limits ? most_name(limits) : NULL);
    const Governing *at = !limits                   ? NULL
                          : limits->most_limit >= 0 ? &limits->limit[limits->most_limit].at
                                                    : NULL;
    json_text(j, "most_where", at ? place_words(desk, a->limiting_line, at, false, arena) : NULL);
}

/* Steps of 1, 2 or 5 of the unit, some hundreds over the range; both ends are on a step. */
static void slider_add(const Desk *desk, Json *j)
{
    const ThrustAnswer *a = desk->found;
    const double unit_N = 1 / quantity_in(1, quantity_unit(desk->source.units, DIM_FORCE));
    const double middle_N = a->thrust_N > 0 ? a->thrust_N : desk->other->thrust_N / 1.2;
    const double top_N = fmax(1.3 * middle_N, fmin(1.1 * a->most_N, 2.5 * middle_N));
    const double rough = (top_N - 0.4 * middle_N) / 400 / unit_N;
    const double decade = pow(10, floor(log10(rough))), part = rough / decade;
    const double step_N = unit_N * decade * (part <= 1 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10);
    json_open_map(j, "slider");
    json_number(j, "from_N", step_N * fmax(1, floor(0.4 * middle_N / step_N)));
    json_number(j, "to_N", step_N * ceil(top_N / step_N));
    json_number(j, "step_N", step_N);
    json_close_map(j);
}

/* ---- times in words ---- */

/* Steps of the jacks before the last: of the day's jacking, which one. 0: none of them. */
static int jack_step(const StageHistory *h, int time)
{
    int next = time;
    while (next + 1 < h->time_count && h->event[next] < 0 && h->day[next + 1] <= h->day[time])
        next++;
    if (next == time || h->event[next] < 0 || h->model->event[h->event[next]].kind != EVENT_JACK)
        return 0;
    int step = 1;
    for (int t = time - 1; t >= 0 && h->event[t] < 0 && h->day[t] >= h->day[time]; t--) step++;
    return step;
}

static const char *time_words(const LineAnswer *line, int time, Arena *arena)
{
    const StageHistory *h = line->history;
    const double after_day = h->day[time] - h->day[line->moments.jacked];
    const char *event = h->event[time] < 0 ? "" : figure_event(&h->model->event[h->event[time]]);
    const char *when =
        after_day < 0 ? arena_printf(arena, "%s before jacking", figure_duration(arena, -after_day))
                      : arena_printf(arena, "%s after jacking", figure_duration(arena, after_day));
    const int step = jack_step(h, time);
    if (step > 0) return arena_printf(arena, "jacking, step %d", step);
    if (time == line->moments.jacked) return "jacked";
    if (!event[0]) return when;
    return arena_printf(arena, "%s, %s", event, when);
}

static const char *moment_name(const StageHistory *h, int time)
{
    return h->event[time] < 0 ? NULL : h->model->event[h->event[time]].name;
}

static void times_add(Json *j, const LineAnswer *line, Arena *arena)
{
    const StageHistory *h = line->history;
    json_open_list(j, "times");
    for (int t = 0; t < h->time_count; t++) {
        json_open_map(j, NULL);
        json_number(j, "day", h->day[t]);
        json_text(j, "label", time_words(line, t, arena));
        json_text(j, "moment", moment_name(h, t));
        json_close_map(j);
    }
    json_close_list(j);
    json_open_list(j, "moments");
    for (int t = 0; t < h->time_count; t++) {
        if (!moment_name(h, t)) continue;
        json_open_map(j, NULL);
        json_int(j, "time", t);
        json_text(j, "label", time_words(line, t, arena));
        json_close_map(j);
    }
    json_close_list(j);
}

static void line_add(const Desk *desk, Json *j, int k, Arena *arena)
{
    const LineAnswer *a = &desk->found->line[k];
    const BridgeLine *b = a->line;
    json_open_map(j, NULL);
    json_text(j, "name", desk_line_name(desk, k, arena));
    json_text(j, "unit", b->unit);
    json_number(j, "share_1", b->share_1);
    json_open_list(j, "rules");
    for (int r = 0; r < b->rule_count; r++) {
        json_open_map(j, NULL);
        json_text(j, "name", b->rule[r].name);
        json_bool(j, "counts", b->rule[r].counts);
        json_close_map(j);
    }
    json_close_list(j);
    json_int(j, "rule", figure_rule(a));
    json_int(j, "joint", a->need_rule < 0 ? -1 : a->finish.joint);
    json_open_list(j, "joints");
    for (int i = 0; i < b->joint_count; i++) {
        json_open_map(j, NULL);
        json_text(j, "name", b->joint[i].mark);
        json_number(j, "x_m", b->model.x_m[b->joint[i].station]);
        json_close_map(j);
    }
    json_close_list(j);
    times_add(j, a, arena);
    json_close_map(j);
}

static void values_add(const Desk *desk, Json *j)
{
    static const char *const origin[] = {"default", "given", "derived"};
    json_open_list(j, "values");
    for (int i = 0; i < desk->source.value_count; i++) {
        const BridgeValue *value = desk->source.value[i];
        json_open_map(j, NULL);
        json_text(j, "path", value->path);
        json_text(j, "shown", value->text);
        json_text(j, "origin", origin[value->origin]);
        json_close_map(j);
    }
    json_close_list(j);
}

void desk_facts(const Desk *desk, Text *text)
{
    Json j = json_start(text);
    const size_t mark = arena_mark(desk->scratch);
    json_open_map(&j, NULL);
    json_text(&j, "name", desk->source.name);
    json_text(&j, "units", desk->source.units == UNITS_US ? "US" : "SI");
    json_text(&j, "caution", report_caution());
    window_add(desk, &j, desk->scratch);
    slider_add(desk, &j);
    json_open_list(&j, "lines");
    for (int k = 0; k < desk->found->line_count; k++) line_add(desk, &j, k, desk->scratch);
    json_close_list(&j);
    json_open_list(&j, "pictures");
    for (int i = 0; i < figure_page_count(); i++) {
        json_open_map(&j, NULL);
        json_text(&j, "id", figure_page(i)->id);
        json_text(&j, "title", figure_page(i)->title);
        json_close_map(&j);
    }
    json_close_list(&j);
    values_add(desk, &j);
    json_close_map(&j);
    arena_reset(desk->scratch, mark);
}
