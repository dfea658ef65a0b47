/* The tables of the report on the thrust. */
#include <math.h>
#include <string.h>

#include "document.h"

static const char *number(const Report *r, double value_SI, DimensionId dimension, int places)
{
    if (!isfinite(value_SI)) return "none";
    return arena_printf(r->arena, "%.*f", places,
                        quantity_in(value_SI, quantity_unit(r->source->units, dimension)));
}

static int stress_places(const Report *r) { return r->source->units == UNITS_US ? 0 : 2; }

static const char *head(const Report *r, const char *name, DimensionId dimension)
{
    return arena_printf(r->arena, "%s [%s]", name, quantity_unit(r->source->units, dimension));
}

/* "gradient T 96, wheel T 426": what the rule adds to the permanent stress. */
static const char *loads_then(const Report *r, const Governing *at)
{
    const struct {
        const char *name;
        double part_Pa;
    } part[] = {{"live load", at->live_Pa}, {"gradient", at->gradient_Pa}, {"wheel", at->wheel_Pa}};
    Text text = text_start(r->arena);
    for (int i = 0; i < 3; i++)
        if (strcmp(figure_stress_short(r->arena, part[i].part_Pa, UNITS_US), "0") != 0)
            text_printf(&text, "%s%s %s", text.length ? ", " : "", part[i].name,
                        figure_stress_short(r->arena, part[i].part_Pa, r->source->units));
    return text.length ? text.bytes : "permanent alone";
}

static const char *fibre(const Governing *at)
{
    if (at->joint < 0) return "";
    return at->top ? "top" : "bottom";
}

/* ---- tables ---- */

void blocks_lines(Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    const bool one = document_one_unit(r);
    FigureTable *t = figure_table_start(
        r->arena,
        one ? arena_printf(r->arena, "Girder lines of %s", document_unit(r, &a->line[0]))
            : "Girder lines",
        7);
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c >= 1 && c <= 4, "line");
    t->head[1] = head(r, "needs", DIM_FORCE);
    t->head[2] = head(r, "average", DIM_STRESS);
    t->head[3] = head(r, "at most", DIM_FORCE);
    t->head[4] = arena_printf(r->arena, "gap opens [%s]", figure_move_unit(r->source->units));
    t->head[5] = "needed by the rule";
    t->head[6] = "first limit";
    for (int i = 0; i < a->line_count; i++) {
        const LineAnswer *line = &a->line[i];
        const double area_m2 = document_deck_area_m2(line);
        const bool known = area_m2 > 0 && line->reachable;
        figure_table_row(
            t,
            (const char *[]){
                document_name(r, line),
                line->reachable ? number(r, line->need_N, DIM_FORCE, 0) : "no thrust",
                known ? number(r, line->need_N / area_m2, DIM_STRESS, stress_places(r)) : "",
                number(r, line->most_N, DIM_FORCE, 0),
                arena_printf(r->arena, "%.2f",
                             quantity_in(line->gap_movement_m, figure_move_unit(r->source->units))),
                document_need_name(line), document_most_name(line)});
    }
    document_table(r, t);
}

static void rule_row(const Report *r, FigureTable *t, const LineAnswer *line, int i)
{
    const RuleAnswer *a = &line->rule[i];
    const JointRule *rule = &line->line->rule[i];
    const double area_m2 = document_deck_area_m2(line);
    const bool needs = a->reachable && a->need_N > 0;
    figure_table_row(
        t, (const char *[]){
               rule->counts ? rule->name : arena_printf(r->arena, "(%s)", rule->name),
               a->reachable ? number(r, a->need_N, DIM_FORCE, 0) : "no thrust",
               needs && area_m2 > 0 ? number(r, a->need_N / area_m2, DIM_STRESS, stress_places(r))
                                    : "",
               arena_printf(r->arena, "%s %s",
                            figure_where(r->arena, line, &a->at, r->source->units), fibre(&a->at)),
               figure_when(r->arena, line, a->at.day), loads_then(r, &a->at)});
}

/* Those that count first: the others are there to see what they would ask for. */
void blocks_rules(Report *r, const LineAnswer *line)
{
    if (line->line->rule_count == 0) return;
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "What each rule needs, %s; rules in brackets are shown only; C compression, T "
                     "tension",
                     document_name(r, line)),
        6);
    static const char *const plain[] = {"rule", NULL, NULL, "at", "when", NULL};
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c == 1 || c == 2, plain[c]);
    t->head[1] = head(r, "needs", DIM_FORCE);
    t->head[2] = head(r, "average", DIM_STRESS);
    t->head[5] = head(r, "loads then", DIM_STRESS);
    for (int i = 0; i < line->line->rule_count; i++)
        if (line->line->rule[i].counts) rule_row(r, t, line, i);
    for (int i = 0; i < line->line->rule_count; i++)
        if (!line->line->rule[i].counts) rule_row(r, t, line, i);
    document_table(r, t);
}

/* Limits in the order in which a growing thrust meets them. */
static int limits_sorted(const LineAnswer *line, int order[LIMITS_MAX])
{
    const int count = line->line->limit_count;
    for (int i = 0; i < count; i++) {
        int at = i;
        for (; at > 0 && line->limit[order[at - 1]].most_N > line->limit[i].most_N; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    return count;
}

void blocks_limits(Report *r, const LineAnswer *line)
{
    if (line->line->limit_count == 0) return;
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena, "What each limit leaves, %s; the first that is met on top",
                     document_name(r, line)),
        4);
    static const char *const plain[] = {"limit", NULL, "where", "when"};
    for (int c = 0; c < 4; c++) figure_table_column(t, c, c == 1, plain[c]);
    t->head[1] = head(r, "at most", DIM_FORCE);
    int order[LIMITS_MAX];
    const int count = limits_sorted(line, order);
    for (int i = 0; i < count; i++) {
        const LimitAnswer *a = &line->limit[order[i]];
        const bool bound = isfinite(a->most_N);
        figure_table_row(
            t, (const char *[]){line->line->limit[order[i]].name,
                                bound ? number(r, a->most_N, DIM_FORCE, 0) : "no bound",
                                bound ? figure_where(r->arena, line, &a->at, r->source->units) : "",
                                bound ? figure_when(r->arena, line, a->at.day) : ""});
    }
    document_table(r, t);
}

void blocks_sources(Report *r, const LineAnswer *line)
{
    const BridgeLine *b = line->line;
    FigureTable *t = figure_table_start(r->arena, "Where rules and limits are borrowed from", 2);
    figure_table_column(t, 0, false, "rule or limit");
    figure_table_column(t, 1, false, "borrowed from");
    for (int i = 0; i < b->rule_count; i++)
        figure_table_row(t, (const char *[]){b->rule[i].name, b->rule[i].clause});
    for (int i = 0; i < b->limit_count; i++)
        figure_table_row(t, (const char *[]){b->limit[i].name, b->limit[i].clause});
    document_table(r, t);
}

/* ---- what became of the compression ---- */

static const char *percent(const Report *r, double ratio_1)
{
    return isnan(ratio_1) ? "" : arena_printf(r->arena, "%.0f %%", 100 * ratio_1);
}

static const char *change(const Report *r, double change_Pa)
{
    const double size = fabs(quantity_in(change_Pa, quantity_unit(r->source->units, DIM_STRESS)));
    if (size < 0.5 * pow(10, -stress_places(r))) return "0";
    return arena_printf(r->arena, "%.*f %s", stress_places(r), size,
                        change_Pa > 0 ? "less" : "more");
}

static void left_row(const Report *r, FigureTable *t, const char *name, const Split *then,
                     const Split *jacked)
{
    const UnitSystem units = r->source->units;
    figure_table_row(t, (const char *[]){name,
                                         figure_stress_short(r->arena, then->mean_total_Pa, units),
                                         percent(r, document_left_1(then, jacked, false)),
                                         figure_stress_short(r->arena, then->top_total_Pa, units),
                                         percent(r, document_left_1(then, jacked, true))});
}

void blocks_left(Report *r, const LineAnswer *line)
{
    if (line->finish.joint < 0) return;
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "Compression left at %s, %s, permanent load [%s]; C compression, T tension",
                     line->line->joint[line->finish.joint].mark, document_name(r, line),
                     quantity_unit(r->source->units, DIM_STRESS)),
        5);
    static const char *const plain[] = {"moment or cause", "mean", "left", "top fibre", "left"};
    for (int c = 0; c < 5; c++) figure_table_column(t, c, c > 0, plain[c]);
    left_row(r, t, "jacked", &line->jacked, &line->jacked);
    for (int c = 0; c < CAUSE_COUNT; c++) {
        const double mean_Pa = line->finish.mean_Pa[c] - line->jacked.mean_Pa[c];
        const double top_Pa = line->finish.top_Pa[c] - line->jacked.top_Pa[c];
        if (!strcmp(change(r, mean_Pa), "0") && !strcmp(change(r, top_Pa), "0")) continue;
        figure_table_row(t, (const char *[]){arena_printf(r->arena, "  %s", cause_text((Cause)c)),
                                             change(r, mean_Pa), "", change(r, top_Pa), ""});
    }
    left_row(r, t, "end of life", &line->finish, &line->jacked);
    left_row(r, t, "(on the way: opening)", &line->opening, &line->jacked);
    document_table(r, t);
}
