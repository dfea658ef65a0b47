/* The checks as a document for the screen and as JSON. */
#include <math.h>
#include <string.h>

#include "document.h"

/* ---- what is shown ---- */

static bool shown_before(const CheckList *list, int index)
{
    for (int i = 0; i < index; i++)
        if (strcmp(list->row[i].name, list->row[index].name) == 0) return true;
    return false;
}

/* Without `all` the worst row of every check stands for its lines, and what is told is left out. */
static bool is_shown(const CheckList *list, int index, bool all)
{
    return all || (list->row[index].state != CHECK_TOLD && !shown_before(list, index));
}

static const char *quantity(const Report *r, const CheckRow *row, double value_SI)
{
    if (!isfinite(value_SI)) return "";
    const double capacity = isfinite(row->capacity) ? fabs(row->capacity) : 0;
    const char *unit =
        quantity_shown_unit(r->source->units, row->dimension, fmax(fabs(row->demand), capacity));
    char text[SHEET_NUMBER_MAX];
    const double value = quantity_in(value_SI, unit);
    /* what rounding leaves of nothing */
    if (fabs(value) < 1e-9 * fmax(1, fabs(isfinite(row->capacity) ? row->capacity : 0)))
        return arena_printf(r->arena, "0 %s", unit);
    return arena_printf(r->arena, "%s %s", sheet_number(value, 3, text), unit);
}

static const char *ratio(const Report *r, const CheckRow *row)
{
    if (isnan(row->ratio_1)) return "";
    if (!isfinite(row->ratio_1) || row->ratio_1 > 99) return "over";
    return arena_printf(r->arena, "%.2f", row->ratio_1);
}

static const char *state_words(const CheckRow *row)
{
    static const char *const words[CHECK_STATE_COUNT] = {[CHECK_PASS] = "",
                                                         [CHECK_FAIL] = "FAILS",
                                                         [CHECK_UNPROVEN] = "unproven",
                                                         [CHECK_TOLD] = "told"};
    return words[row->state];
}

/* ---- clauses by number ---- */

typedef struct Clauses {
    const char **text;
    int count;
} Clauses;

static int clause_number(Clauses *clauses, const char *clause)
{
    for (int i = 0; i < clauses->count; i++)
        if (strcmp(clauses->text[i], clause) == 0) return i + 1;
    clauses->text[clauses->count++] = clause;
    return clauses->count;
}

static void row_add(const Report *r, FigureTable *t, const CheckRow *row, Clauses *clauses)
{
    const char *place = row->line[0] && row->where[0]
                            ? arena_printf(r->arena, "%s, %s", row->line, row->where)
                        : row->line[0] ? row->line
                                       : row->where;
    const char *clause =
        row->clause[0] ? arena_printf(r->arena, "%d", clause_number(clauses, row->clause)) : "";
    figure_table_row(t, (const char *[]){state_words(row), ratio(r, row), row->name, place,
                                         row->when, quantity(r, row, row->demand),
                                         quantity(r, row, row->capacity), clause});
}

static void table_add(Report *r, const CheckList *list, bool all, Clauses *clauses)
{
    static const char *const heads[] = {"",     "ratio",  "check",    "where",
                                        "when", "demand", "capacity", "clause"};
    FigureTable *t = figure_table_start(
        r->arena,
        all ? "Every check of every girder line, worst first; what is told has no limit"
            : "The worst of every check, worst first; --all shows every line and what is told",
        8);
    for (int c = 0; c < 8; c++) figure_table_column(t, c, c == 1 || c >= 5, heads[c]);
    for (int i = 0; i < list->count; i++)
        if (is_shown(list, i, all)) row_add(r, t, &list->row[i], clauses);
    document_table(r, t);
}

/* ---- camber at each stage ---- */

/* The line of the working for stage `index`, counted from 1; NULL behind the last. */
static const SheetLine *camber_line(const CheckRow *row, int index)
{
    char symbol[16];
    snprintf(symbol, sizeof symbol, "v_%d", index);
    for (int i = 0; i < row->sheet->count; i++)
        if (row->sheet->line[i].kind != SHEET_WORDS &&
            strcmp(row->sheet->line[i].symbol, symbol) == 0)
            return &row->sheet->line[i];
    return NULL;
}

static FigureTable *camber_start(Report *r, const CheckRow *row, int stages)
{
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "Girder at mid-span above its unstressed shape at each stage [%s]; the "
                     "working in JSON and package tells what brought it",
                     figure_move_unit(r->source->units)),
        1 + stages);
    figure_table_column(t, 0, false, "where");
    for (int c = 1; c <= stages; c++) {
        const char *stage = strstr(camber_line(row, c)->words, ": ");
        figure_table_column(t, c, true, stage ? stage + 2 : camber_line(row, c)->words);
    }
    return t;
}

enum { STAGES_MAX = 12 };

static void camber_add(Report *r, const CheckList *list)
{
    const int places = r->source->units == UNITS_US ? 2 : 1;
    FigureTable *t = NULL;
    int stages = 0;
    for (int i = 0; i < list->count; i++) {
        const CheckRow *row = &list->row[i];
        const char *cell[1 + STAGES_MAX];
        if (strcmp(row->name, check_camber_name) != 0) continue;
        for (; !t && stages < STAGES_MAX && camber_line(row, stages + 1); stages++) {}
        if (!t) t = camber_start(r, row, stages);
        cell[0] = arena_printf(r->arena, "%s, %s", row->line, row->where);
        for (int c = 1; c <= stages; c++) {
            const double move =
                sheet_line_in(camber_line(row, c), figure_move_unit(r->source->units));
            cell[c] = arena_printf(r->arena, "%.*f", places, move);
        }
        figure_table_row(t, cell);
    }
    if (t) document_table(r, t);
}

/* ---- the rest ---- */

static void count_states(const CheckList *list, bool all, int count[CHECK_STATE_COUNT])
{
    for (int s = 0; s < CHECK_STATE_COUNT; s++) count[s] = 0;
    for (int i = 0; i < list->count; i++)
        if (is_shown(list, i, all)) count[list->row[i].state]++;
}

static void lead_add(Report *r, const CheckList *list, bool all)
{
    int count[CHECK_STATE_COUNT];
    count_states(list, all, count);
    const ThrustAnswer *a = r->source->answer;
    const char *thrust =
        figure_quantity(r->arena, a->thrust_N, quantity_unit(r->source->units, DIM_FORCE));
    const char *which = a->given       ? "the given thrust"
                        : a->reachable ? "the needed thrust"
                                       : "a thrust";
    document_add(r, REPORT_LEAD,
                 arena_printf(r->arena,
                              "%d %s, %d unproven, %d passed, at %s of %s, by the criteria \"%s\".",
                              count[CHECK_FAIL],
                              count[CHECK_FAIL] == 1 ? "check fails" : "checks fail",
                              count[CHECK_UNPROVEN], count[CHECK_PASS], which, thrust,
                              bridge_value_at(r->source->bridge, "criteria.set")->text));
}

static bool same_path(const char *a, const char *b)
{
    const size_t n = strcspn(a, ":");
    return n == strcspn(b, ":") && strncmp(a, b, n) == 0;
}

/* Each path once, with the reason of its worst row. */
static bool is_new_reason(const CheckList *list, int index, bool all)
{
    const CheckRow *row = &list->row[index];
    if (row->state != CHECK_UNPROVEN || !is_shown(list, index, all)) return false;
    for (int k = 0; k < index; k++)
        if (list->row[k].state == CHECK_UNPROVEN && is_shown(list, k, all) &&
            same_path(list->row[k].why, row->why))
            return false;
    return true;
}

static void reasons_add(Report *r, const CheckList *list, bool all)
{
    bool any = false;
    for (int i = 0; i < list->count; i++) {
        if (!is_new_reason(list, i, all)) continue;
        if (!any)
            document_add(r, REPORT_HEADING,
                         "Unproven: no limit is exceeded, but the file leaves open");
        any = true;
        document_add(r, REPORT_ITEM, list->row[i].why);
    }
}

static void clauses_add(Report *r, const Clauses *clauses)
{
    if (clauses->count == 0) return;
    document_add(r, REPORT_HEADING, "Clauses");
    for (int i = 0; i < clauses->count; i++)
        document_add(r, REPORT_ITEM, arena_printf(r->arena, "%d  %s", i + 1, clauses->text[i]));
}

const Report *report_checks(const ReportSource *source, const CheckList *list, bool all,
                            Arena *arena)
{
    Report *r = document_start(source, "checks", arena);
    Clauses clauses = {ARENA_NEW(arena, const char *, list->count + 1), 0};
    lead_add(r, list, all);
    table_add(r, list, all, &clauses);
    if (all) camber_add(r, list);
    reasons_add(r, list, all);
    clauses_add(r, &clauses);
    document_add(r, REPORT_HEADING, "Not checked here");
    for (int i = 0; checks_left_out[i]; i++) document_add(r, REPORT_ITEM, checks_left_out[i]);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}

/* ---- JSON ---- */

static const char *SI_unit(DimensionId dimension)
{
    static const char *const unit[DIM_COUNT] = {
        [DIM_LENGTH] = "m",        [DIM_AREA] = "m^2",      [DIM_FORCE] = "N",
        [DIM_MOMENT] = "N*m",      [DIM_STRESS] = "Pa",     [DIM_LINE_LOAD] = "N/m",
        [DIM_AREA_LOAD] = "N/m^2", [DIM_STIFFNESS] = "N/m", [DIM_TIME] = "day",
        [DIM_VOLUME] = "m^3",      [DIM_INERTIA] = "m^4",   [DIM_PER_LENGTH] = "1/m"};
    return unit[dimension] ? unit[dimension] : "";
}

static void working_add(Json *j, const Sheet *sheet)
{
    json_text(j, "title", sheet->title);
    json_open_list(j, "working");
    for (int i = 0; i < sheet->count; i++) {
        const SheetLine *line = &sheet->line[i];
        json_open_map(j, NULL);
        if (line->kind != SHEET_WORDS) {
            json_text(j, "symbol", line->symbol);
            json_text(j, "formula", line->formula);
            json_number(j, "value", line->value);
            json_text(j, "unit", line->unit);
        }
        json_text(j, "words", line->words);
        json_text(j, "source", line->source);
        json_close_map(j);
    }
    json_close_list(j);
}

/* Index of the girder line that a row names, "interior line" or with its unit behind; -1: of none. */
static int line_of(const ThrustAnswer *answer, const char *name)
{
    for (int k = 0; k < answer->line_count && name[0]; k++) {
        const BridgeLine *line = answer->line[k].line;
        const size_t length = strlen(line->name);
        if (strncmp(name, line->name, length) != 0) continue;
        const char *unit = name + length + strspn(name + length, ", ");
        if (!unit[0] || strcmp(unit, line->unit) == 0) return k;
    }
    return -1;
}

/* Station of "x = 12.0 ft" anywhere in the words, or of "J07" at their start; NAN: not at one place. */
static double station_of(const BridgeLine *line, const char *where)
{
    char length[40];
    double x_m;
    const char *at = strstr(where, "x = ");
    if (at) {
        at += strlen("x = ");
        const size_t number = strspn(at, "-0123456789. ");
        const size_t unit = strspn(at + number, "ftm");
        snprintf(length, sizeof length, "%.*s", (int)(number + unit), at);
        return quantity_read(length, DIM_LENGTH, &x_m, NULL) == STATUS_OK ? x_m : (double)NAN;
    }
    const size_t word = strcspn(where, ", ");
    for (int j = 0; j < line->joint_count; j++)
        if (strlen(line->joint[j].mark) == word && !strncmp(where, line->joint[j].mark, word))
            return line->model.x_m[line->joint[j].station];
    return NAN;
}

/* Where a page shows it on the bridge. */
static void place_add(Json *j, const ThrustAnswer *answer, const CheckRow *row)
{
    const int k = line_of(answer, row->line);
    if (k < 0)
        json_none(j, "line_index");
    else
        json_int(j, "line_index", k);
    json_number(j, "x_m", k < 0 ? (double)NAN : station_of(answer->line[k].line, row->where));
}

/* With `answer` also its place in numbers. */
static void check_json(const CheckRow *row, const ThrustAnswer *answer, Json *j)
{
    json_open_map(j, NULL);
    json_text(j, "name", row->name);
    json_text(j, "part", row->part);
    json_text(j, "state", check_state_name(row->state));
    json_number(j, "ratio_1", row->ratio_1);
    json_number(j, "demand", row->demand);
    json_number(j, "capacity", row->capacity);
    json_text(j, "unit", SI_unit(row->dimension));
    json_text(j, "line", row->line);
    json_text(j, "where", row->where);
    if (answer) place_add(j, answer, row);
    json_text(j, "when", row->when);
    json_text(j, "clause", row->clause);
    json_text(j, "why", row->why);
    working_add(j, row->sheet);
    json_close_map(j);
}

void report_check_json(const CheckRow *row, Json *j) { check_json(row, NULL, j); }

/* i: of the effect per newton, Pa/N of a stress. */
static void axle_add_json(Json *j, const LiveAxle *axle, bool fibre)
{
    json_open_map(j, NULL);
    json_number(j, "x_m", axle->x_m);
    json_number(j, "load_N", axle->load_N);
    json_number(j, "i", axle->ordinate);
    if (fibre) {
        json_number(j, "N_1", axle->N_1);
        json_number(j, "M_m", axle->M_m);
        json_number(j, "section_m", axle->section_m);
    }
    json_close_map(j);
}

static void layer_add_json(Json *j, const WarmLayer *l)
{
    json_open_map(j, NULL);
    json_number(j, "y_m", l->y_m);
    json_number(j, "height_m", l->height_m);
    json_number(j, "top_width_m", l->top_width_m);
    json_number(j, "bottom_width_m", l->bottom_width_m);
    json_number(j, "top_K", l->top_K);
    json_number(j, "bottom_K", l->bottom_K);
    json_number(j, "sum_K_m2", l->sum_K_m2);
    json_number(j, "moment_K_m3", l->moment_K_m3);
    json_close_map(j);
}

/* What the workings of the checks cite by its mark. */
static void cited_add_json(Json *j, const CheckWorking *cited)
{
    json_open_map(j, NULL);
    json_text(j, "mark", cited->mark);
    if (cited->live) {
        json_text(j, "vehicle", cited->live->vehicle);
        json_bool(j, "train", cited->live->train);
        json_open_list(j, "axles");
        for (int i = 0; i < cited->live->axle_count; i++)
            axle_add_json(j, &cited->live->axle[i], cited->live->fibre);
        json_close_list(j);
    }
    if (cited->gradient) {
        json_open_list(j, "layers");
        for (int i = 0; i < cited->gradient->layer_count; i++)
            layer_add_json(j, &cited->gradient->layer[i]);
        json_close_list(j);
    }
    working_add(j, cited->sheet);
    json_close_map(j);
}

void report_checks_json(const ReportSource *source, const CheckList *list, Text *text)
{
    int count[CHECK_STATE_COUNT];
    count_states(list, true, count);
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", source->version);
    json_text(&j, "name", source->name);
    json_text(&j, "file", source->file);
    json_text(&j, "caution", report_caution());
    json_text(&j, "criteria", bridge_value_at(source->bridge, "criteria.set")->text);
    json_number(&j, "thrust_whole_N", source->answer->thrust_N);
    json_bool(&j, "given", source->answer->given);
    json_text(&j, "verdict", check_state_name(checks_verdict(list)));
    json_open_map(&j, "count");
    for (int s = 0; s < CHECK_STATE_COUNT; s++)
        json_int(&j, check_state_name((CheckState)s), count[s]);
    json_close_map(&j);
    json_open_list(&j, "checks");
    for (int i = 0; i < list->count; i++) check_json(&list->row[i], source->answer, &j);
    json_close_list(&j);
    json_open_list(&j, "cited");
    for (int i = 0; i < list->working_count; i++) cited_add_json(&j, &list->working[i]);
    json_close_list(&j);
    json_open_list(&j, "not_checked");
    for (int i = 0; checks_left_out[i]; i++) json_text(&j, NULL, checks_left_out[i]);
    json_close_list(&j);
    json_close_map(&j);
    text_add(text, "\n");
}
