/* Quantities as a document, as JSON and as CSV. */
#include <math.h>
#include <string.h>

#include "document.h"

static UnitSystem units_of(const TakeoffSource *s) { return s->report->units; }

static double shown(const TakeoffSource *s, const TakeoffItem *item, double value_SI)
{
    const char *unit = item->unit[units_of(s)];
    return *unit ? quantity_in(value_SI, unit) : value_SI;
}

static const char *weight_unit(const TakeoffSource *s)
{
    return quantity_unit(units_of(s), DIM_FORCE);
}

/* ---- the document ---- */

/* Four digits that matter; counts whole. */
static const char *number(Arena *arena, double value, bool count)
{
    if (!isfinite(value)) return "-";
    const double size = fabs(value);
    const int places = count || size >= 1000 ? 0 : size >= 100 ? 1 : size >= 10 ? 2 : 3;
    return arena_printf(arena, "%.*f", places, value);
}

static const char *waste_words(const TakeoffSource *s, const TakeoffItem *item, Arena *arena)
{
    if (item->waste == TAKEOFF_NO_INPUT) return "-";
    return arena_printf(arena, "%.3g %%", 100 * s->takeoff->input[item->waste].value);
}

enum { RUNS_SHOWN = 3 };

static int runs_shown(const TakeoffSource *s)
{
    const int runs = s->takeoff->run_count;
    return runs > 1 && runs <= RUNS_SHOWN ? runs : 0;
}

static FigureTable *group_table(Report *r, const TakeoffSource *s, TakeoffGroup group)
{
    const int runs = runs_shown(s);
    FigureTable *t = figure_table_start(r->arena, takeoff_group_name(group), 7 + runs);
    int c = 0;
    figure_table_column(t, c++, false, "no.");
    figure_table_column(t, c++, false, "what");
    for (int i = 0; i < runs; i++) figure_table_column(t, c++, true, s->takeoff->run[i].name);
    figure_table_column(t, c++, true, "in all");
    figure_table_column(t, c++, false, "unit");
    figure_table_column(t, c++, true, "waste");
    figure_table_column(t, c++, true, "to order");
    figure_table_column(
        t, c, true, arena_printf(r->arena, "weight [%s]", report_unit(weight_unit(s), r->arena)));
    return t;
}

static void item_row(Report *r, const TakeoffSource *s, FigureTable *t, int index)
{
    const TakeoffItem *item = &s->takeoff->item[index];
    const bool count = item->dimension == DIM_NONE;
    const char *cell[7 + RUNS_SHOWN];
    int c = 0;
    cell[c++] = arena_printf(r->arena, "%d", index + 1);
    cell[c++] =
        arena_printf(r->arena, "%s: %s", item->name, item->open ? item->open : item->purpose);
    for (int i = 0; i < runs_shown(s); i++)
        cell[c++] = number(r->arena, shown(s, item, takeoff_in_run(s->takeoff, index, i)), count);
    cell[c++] = number(r->arena, shown(s, item, item->net), count);
    cell[c++] = item->open ? "-" : report_unit(item->unit[units_of(s)], r->arena);
    cell[c++] = waste_words(s, item, r->arena);
    cell[c++] = item->waste == TAKEOFF_NO_INPUT
                    ? "-"
                    : number(r->arena, shown(s, item, item->ordered), count);
    cell[c] = number(r->arena, quantity_in(item->weight_N, weight_unit(s)), false);
    figure_table_row(t, cell);
}

static void add_groups(Report *r, const TakeoffSource *s)
{
    for (int g = 0; g < TAKEOFF_GROUP_COUNT; g++) {
        FigureTable *t = NULL;
        for (int i = 0; i < s->takeoff->item_count; i++) {
            if (s->takeoff->item[i].group != (TakeoffGroup)g) continue;
            if (!t) t = group_table(r, s, (TakeoffGroup)g);
            item_row(r, s, t, i);
        }
        if (t) document_table(r, t);
    }
}

static void add_workings(Report *r, const TakeoffSource *s)
{
    const Takeoff *out = s->takeoff;
    FigureTable *t = figure_table_start(
        r->arena, "Every line: number of the quantity above, run, and the product of its factors",
        6);
    static const char *const head[] = {"no.", "run", "of what", "reckoned as", "gives", "unit"};
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c == 4, head[c]);
    for (int i = 0; i < out->line_count; i++) {
        const TakeoffLine *line = &out->line[i];
        const TakeoffItem *item = &out->item[line->item];
        figure_table_row(t, (const char *[]){arena_printf(r->arena, "%d", line->item + 1),
                                             out->run[line->run].name, line->what,
                                             takeoff_reckoned(line, units_of(s), false, r->arena),
                                             number(r->arena, shown(s, item, line->value),
                                                    item->dimension == DIM_NONE),
                                             report_unit(item->unit[units_of(s)], r->arena)});
    }
    document_table(r, t);
}

static const TakeoffItem *item_named(const Takeoff *t, const char *name)
{
    for (int i = 0; i < t->item_count; i++)
        if (!strcmp(t->item[i].name, name)) return &t->item[i];
    return NULL;
}

static double net_of(const Takeoff *t, const char *name)
{
    const TakeoffItem *item = item_named(t, name);
    return item ? item->net : 0;
}

static void add_lead(Report *r, const TakeoffSource *s)
{
    const Takeoff *t = s->takeoff;
    const char *unit = units_of(s) == UNITS_US ? "yd^3" : "m^3";
    int open = 0;
    for (int i = 0; i < t->item_count; i++) open += t->item[i].open != NULL;
    document_add(
        r, REPORT_LEAD,
        arena_printf(
            r->arena,
            "%.0f panels and %.0f anchor panels in %d run%s: %s %s of precast concrete, %s %s of "
            "closure and fill, as built, without waste%s.",
            net_of(t, "panels"), net_of(t, "anchor panels"), t->run_count,
            t->run_count == 1 ? "" : "s",
            number(r->arena,
                   quantity_in(net_of(t, "concrete of panels") +
                                   net_of(t, "concrete of anchor panels"),
                               unit),
                   false),
            report_unit(unit, r->arena),
            number(r->arena,
                   quantity_in(net_of(t, "closure concrete") + net_of(t, "fill of the gap"), unit),
                   false),
            report_unit(unit, r->arena),
            open ? arena_printf(r->arena, "; %d quantities are open", open) : ""));
}

static const char caution[] =
    "Quantities of a design that is not yet surveyed, tested or approved: who orders by them "
    "checks them against the drawings first.";

const Report *report_takeoff(const TakeoffSource *s, Arena *arena)
{
    Report *const r = document_start(s->report, "Quantities", arena);
    add_lead(r, s);
    for (int i = 0; i < s->takeoff->item_count; i++)
        if (s->takeoff->item[i].open)
            document_fact(
                r, "open",
                arena_printf(arena, "%s: %s", s->takeoff->item[i].name, s->takeoff->item[i].open));
    for (int i = 0; i < s->takeoff->note_count; i++) document_fact(r, "mind", s->takeoff->note[i]);
    document_fact(r, "mind", takeoff_left_out());
    document_add(r, REPORT_CAUTION, caution);
    document_add(r, REPORT_HEADING, "Quantities");
    add_groups(r, s);
    document_add(r, REPORT_HEADING, "Workings");
    add_workings(r, s);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}

/* ---- JSON ---- */

static const char *const suffix[DIM_COUNT] = {
    [DIM_NONE] = "1",       [DIM_LENGTH] = "m",
    [DIM_AREA] = "m2",      [DIM_VOLUME] = "m3",
    [DIM_FORCE] = "N",      [DIM_LINE_LOAD] = "N_per_m",
    [DIM_AREA_LOAD] = "Pa", [DIM_WEIGHT_DENSITY] = "N_per_m3"};

static const char *key(Arena *arena, const char *name, DimensionId dimension)
{
    return arena_printf(arena, "%s_%s", name, suffix[dimension]);
}

static void line_json(Json *j, const TakeoffSource *s, const TakeoffLine *line, Arena *arena)
{
    json_open_map(j, NULL);
    json_text(j, "run", s->takeoff->run[line->run].name);
    json_text(j, "of", line->what);
    json_text(j, "from", line->from);
    json_open_list(j, "factors");
    for (int i = 0; i < line->factor_count; i++) {
        const TakeoffFactor *f = &line->factor[i];
        json_open_map(j, NULL);
        json_text(j, "name", f->name);
        json_number(j, key(arena, "value", f->dimension), f->value);
        if (f->input != TAKEOFF_NO_INPUT) json_text(j, "input", s->takeoff->input[f->input].key);
        json_close_map(j);
    }
    json_close_list(j);
    json_number(j, key(arena, "value", s->takeoff->item[line->item].dimension), line->value);
    json_close_map(j);
}

static void item_json(Json *j, const TakeoffSource *s, int index, Arena *arena)
{
    const Takeoff *t = s->takeoff;
    const TakeoffItem *item = &t->item[index];
    json_open_map(j, NULL);
    json_int(j, "no", index + 1);
    json_text(j, "group", takeoff_group_name(item->group));
    json_text(j, "name", item->name);
    json_text(j, "purpose", item->purpose);
    json_text(j, "open", item->open);
    json_number(j, key(arena, "value", item->dimension), item->net);
    json_text(j, "waste", item->waste == TAKEOFF_NO_INPUT ? NULL : t->input[item->waste].key);
    json_number(j, key(arena, "to_order", item->dimension), item->ordered);
    json_number(j, "weight_N", item->weight_N);
    json_open_map(j, "runs");
    for (int i = 0; i < t->run_count; i++)
        json_number(j, key(arena, t->run[i].name, item->dimension), takeoff_in_run(t, index, i));
    json_close_map(j);
    json_open_list(j, "lines");
    for (int i = 0; i < item->line_count; i++) line_json(j, s, &t->line[item->first + i], arena);
    json_close_list(j);
    json_close_map(j);
}

void report_takeoff_json(const TakeoffSource *s, Text *text)
{
    const Takeoff *t = s->takeoff;
    Arena *arena = text->arena;
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", s->report->version);
    json_text(&j, "name", s->report->name);
    json_text(&j, "file", s->report->file);
    json_text(&j, "caution", report_caution());
    json_open_list(&j, "mind");
    for (int i = 0; i < t->note_count; i++) json_text(&j, NULL, t->note[i]);
    json_text(&j, NULL, takeoff_left_out());
    json_close_list(&j);
    json_open_list(&j, "inputs");
    for (int i = 0; i < TAKEOFF_INPUT_COUNT; i++) {
        json_open_map(&j, NULL);
        json_text(&j, "key", t->input[i].key);
        json_text(&j, "name", t->input[i].name);
        json_text(&j, "from", t->input[i].from);
        json_number(&j, key(arena, "value", t->input[i].dimension), t->input[i].value);
        json_close_map(&j);
    }
    json_close_list(&j);
    json_open_list(&j, "quantities");
    for (int i = 0; i < t->item_count; i++) item_json(&j, s, i, arena);
    json_close_list(&j);
    json_close_map(&j);
}

/* ---- CSV ---- */

static void csv_row(Text *text, const char *const *cell, int count)
{
    for (int i = 0; i < count; i++) {
        if (i) text_add(text, ",");
        csv_cell(text, cell[i]);
    }
    text_add(text, "\r\n");
}

static const char *exact(Arena *arena, double value)
{
    return isfinite(value) ? arena_printf(arena, "%.12g", value) : "";
}

static void item_csv(const TakeoffSource *s, int index, Text *text)
{
    const Takeoff *t = s->takeoff;
    const TakeoffItem *item = &t->item[index];
    Arena *a = text->arena;
    const char *no = arena_printf(a, "%d", index + 1), *group = takeoff_group_name(item->group);
    const char *unit = item->unit[units_of(s)];
    for (int i = 0; i < item->line_count && !item->open; i++) {
        const TakeoffLine *line = &t->line[item->first + i];
        csv_row(text,
                (const char *[]){"line", no, group, item->name, t->run[line->run].name, line->what,
                                 takeoff_reckoned(line, units_of(s), true, a), line->from,
                                 exact(a, shown(s, item, line->value)), unit, "", "", ""},
                13);
    }
    for (int i = 0; i < t->run_count && !item->open; i++)
        csv_row(text,
                (const char *[]){"run", no, group, item->name, t->run[i].name, t->run[i].unit, "",
                                 "", exact(a, shown(s, item, takeoff_in_run(t, index, i))), unit,
                                 "", "", ""},
                13);
    csv_row(text,
            (const char *[]){
                item->open ? "open" : "total", no, group, item->name, "all",
                item->open ? item->open : item->purpose, "", "",
                exact(a, shown(s, item, item->net)), unit,
                item->waste == TAKEOFF_NO_INPUT ? "" : exact(a, 100 * t->input[item->waste].value),
                exact(a, shown(s, item, item->ordered)),
                exact(a, quantity_in(item->weight_N, weight_unit(s)))},
            13);
}

void report_takeoff_csv(const TakeoffSource *s, Text *text)
{
    const Takeoff *t = s->takeoff;
    csv_row(text,
            (const char *[]){"row", "no", "group", "quantity", "run", "of what", "reckoned as",
                             "from", "value", "unit", "waste [%]", "to order",
                             arena_printf(text->arena, "weight [%s]", weight_unit(s))},
            13);
    csv_row(text,
            (const char *[]){"project", "", "", s->report->name, "", s->report->file, "", "", "",
                             "", "", "", ""},
            13);
    for (int i = 0; i < t->note_count; i++)
        csv_row(text,
                (const char *[]){"mind", "", "", "", "", t->note[i], "", "", "", "", "", "", ""},
                13);
    csv_row(
        text,
        (const char *[]){"mind", "", "", "", "", takeoff_left_out(), "", "", "", "", "", "", ""},
        13);
    csv_row(text,
            (const char *[]){"mind", "", "", "", "", report_caution(), "", "", "", "", "", "", ""},
            13);
    for (int i = 0; i < t->item_count; i++) item_csv(s, i, text);
}
