/* The package: the needed thrust worked out, checks with their working, sources. */
#include <math.h>
#include <string.h>

#include "document.h"

/* ---- the needed thrust ---- */

/* The line's model with its jacks pushing `ratio_1` times as hard. */
static const StageModel *pushed(const StageModel *from, double ratio_1, Arena *arena)
{
    StageModel *const model = ARENA_NEW(arena, StageModel, 1);
    Event *const event = ARENA_NEW(arena, Event, from->event_count + 1);
    for (int e = 0; e < from->event_count; e++) {
        event[e] = from->event[e];
        event[e].thrust_N *= ratio_1;
    }
    *model = *from;
    model->event = event;
    return model;
}

Status report_other(const ReportSource *source, double ratio_1, Arena *result, Arena *scratch,
                    const LineAnswer **other, Error *err)
{
    const LineAnswer *const line = document_line(source);
    StageSettings settings = stage_settings_default();
    settings.leave_causes = true;
    LineAnswer *const copy = ARENA_NEW(result, LineAnswer, 1);
    *copy = *line;
    copy->thrust_N *= ratio_1;
    copy->joint_stress = NULL; /* of the other history */
    TRY(stage_run(pushed(line->history->model, ratio_1, result), &settings, result, scratch,
                  &copy->history, err));
    *other = copy;
    return STATUS_OK;
}

static void affine_lines(Sheet *s, const char *stress, const char *force)
{
    const char *const from = "closed form: line through two histories";
    const char *const slope = arena_printf(s->arena, "%s/%s", stress, force);
    sheet_formula(s, "b", "(sigma_2 - sigma_1) / (P_2 - P_1)", slope,
                  "stress per thrust: less than 1/A, since shims and girders take their part",
                  from);
    sheet_formula(s, "a", "sigma_1 - b P_1", stress, "stress without thrust", from);
    sheet_words(
        s, "Governing equation: the permanent stress is \xCF\x83(P) = a + b P, and the joint stays "
           "closed while a + b P + \xCF\x83L + \xCF\x83T + \xCF\x83W \xE2\x89\xA4 \xCF\x83lim. "
           "Solved for P:");
    sheet_formula(s, "P_need", "(sigma_lim - sigma_L - sigma_T - sigma_W - a) / b", force,
                  "thrust of this line that the rule needs", "closed form");
}

static void need_lines(Sheet *s, const LineAnswer *line, const char *force)
{
    sheet_given_from(s, "s", line->line->share_1, "", "share of this line, by tributary width",
                     "deck on this line over deck.width");
    sheet_formula(s, "T_need", "P_need / s", force, "thrust of the whole deck", "closed form");
    sheet_given_from(s, "P_run", line->rule[line->need_rule].need_N, force,
                     "P_need found by a run of the stages at the answer itself: where they differ, "
                     "contact or slip change between the histories and the run counts",
                     "the answer");
}

static Sheet need_sheet(const Report *r, const LineAnswer *line, const LineAnswer *other,
                        const Governing *one, const Governing *two)
{
    const char *const stress = quantity_unit(r->source->units, DIM_STRESS);
    const char *const force = quantity_unit(r->source->units, DIM_FORCE);
    static const char permanent[] = "permanent stress then and there";
    const char *const check =
        arena_printf(r->arena, "as in the check \"joints: %s\", factors of the rule in",
                     line->line->rule[line->need_rule].name);
    Sheet s = sheet_start("needed thrust", r->arena);
    sheet_given_from(&s, "P_1", line->thrust_N, force, "thrust of this line, first history",
                     "the answer");
    sheet_given_from(&s, "sigma_1", one->permanent_Pa, stress, permanent, "stages");
    sheet_given_from(&s, "P_2", other->thrust_N, force, "thrust, second history", "run beside it");
    sheet_given_from(&s, "sigma_2", two->permanent_Pa, stress, permanent, "stages of that run");
    sheet_given_from(&s, "sigma_L", one->live_Pa, stress, "live load, factored", check);
    sheet_given_from(&s, "sigma_T", one->gradient_Pa, stress, "temperature gradient, factored",
                     check);
    sheet_given_from(&s, "sigma_W", one->wheel_Pa, stress, "local bending under a wheel, factored",
                     check);
    sheet_given_from(&s, "sigma_lim", one->limit, stress, "limit of the rule", check);
    affine_lines(&s, stress, force);
    need_lines(&s, line, force);
    return s;
}

void package_thrust(Report *r, const PackageSource *package)
{
    const LineAnswer *const line = document_line(r->source), *const other = package->other;
    document_add(r, REPORT_HEADING, "The needed thrust worked out");
    if (line->need_rule < 0 || !line->reachable || !(line->need_N > 0)) {
        document_add(r, REPORT_TEXT,
                     "No rule asks for a thrust that can be reached: see the answer.");
        return;
    }
    const JointRule *const rule = &line->line->rule[line->need_rule];
    const Governing *const at = &line->rule[line->need_rule].at;
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena, "%s, %s fibre of %s, %s. Rule: %s (%s).",
                              document_name(r, line), at->top ? "top" : "bottom",
                              figure_where(r->arena, line, at, r->source->units),
                              figure_when(r->arena, line, at->day), rule->name, rule->clause));
    Governing one, two;
    if (!other ||
        !thrust_judge(line, line->need_rule, at->joint, at->side, at->top, at->time, &one) ||
        !thrust_judge(other, line->need_rule, at->joint, at->side, at->top, at->time, &two))
        return;
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = need_sheet(r, line, other, &one, &two);
    document_add(r, REPORT_SHEET, s->title)->sheet = s;
}

/* ---- checks ---- */

/* Demand and capacity in one unit. */
static const char *check_unit(const Report *r, const CheckRow *row)
{
    const double capacity = isfinite(row->capacity) ? fabs(row->capacity) : 0;
    if (row->dimension == DIM_NONE) return "";
    return quantity_shown_unit(r->source->units, row->dimension, fmax(fabs(row->demand), capacity));
}

static const char *check_value(const Report *r, const CheckRow *row, double value_SI)
{
    static const double nothing =
        1e-6; /* what is left of zero, in SI: a micrometre, a micronewton */
    if (!isfinite(value_SI)) return "-";
    if (row->dimension == DIM_NONE) return package_number(r, value_SI, "");
    if (fabs(value_SI) < nothing) value_SI = 0;
    return arena_printf(r->arena, "%s %s", package_number(r, value_SI, check_unit(r, row)),
                        package_unit(r, check_unit(r, row)));
}

static const char *check_ratio(const Report *r, const CheckRow *row)
{
    return isfinite(row->ratio_1) ? arena_printf(r->arena, "%.2f", row->ratio_1) : "-";
}

static const char *place_of(const Report *r, const CheckRow *row)
{
    Text text = text_start(r->arena);
    const char *const part[] = {row->line, row->where, row->when};
    for (int i = 0; i < 3; i++)
        if (part[i] && *part[i]) text_printf(&text, "%s%s", text.length ? "; " : "", part[i]);
    return text.length ? text.bytes : "";
}

static int chapter_now(const Report *r)
{
    int count = 0;
    for (const ReportBlock *b = r->first; b; b = b->next) count += b->kind == REPORT_HEADING;
    return count;
}

static void checks_table_add(Report *r, const CheckList *checks, const char *caption)
{
    FigureTable *const t = figure_table_start(r->arena, caption, 7);
    static const char *const head[] = {"no.",      "check",     "where and when", "demand",
                                       "capacity", "ratio [1]", "state"};
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c >= 3 && c <= 5, head[c]);
    const int chapter = chapter_now(r); /* as the paper numbers it */
    for (int i = 0; i < checks->count; i++) {
        const CheckRow *const row = &checks->row[i];
        figure_table_row(t, (const char *[]){arena_printf(r->arena, "%d.%d", chapter, i + 1),
                                             row->name, place_of(r, row),
                                             check_value(r, row, row->demand),
                                             check_value(r, row, row->capacity),
                                             check_ratio(r, row), check_state_name(row->state)});
    }
    document_table(r, t);
}

static void check_verdict(Report *r, const CheckRow *row)
{
    Text text = text_start(r->arena);
    text_printf(&text, "Demand %s", check_value(r, row, row->demand));
    if (isfinite(row->capacity))
        text_printf(&text, ", capacity %s", check_value(r, row, row->capacity));
    if (isfinite(row->ratio_1)) text_printf(&text, ", ratio %s", check_ratio(r, row));
    text_add(&text, ".");
    if (row->why && *row->why) text_printf(&text, " Open: %s.", row->why);
    document_fact(r, check_state_name(row->state), text.bytes);
}

/* The first row before it whose sheet has the same formulas; -1: none. */
static int first_like(const CheckList *checks, int index)
{
    for (int i = 0; i < index; i++)
        if (sheet_same_formulas(checks->row[i].sheet, checks->row[index].sheet)) return i;
    return -1;
}

static void sheet_block(Report *r, const CheckList *checks, int index)
{
    const CheckRow *const row = &checks->row[index];
    const int like = first_like(checks, index);
    if (like >= 0)
        document_add(r, REPORT_TEXT,
                     arena_printf(r->arena, "Formulas as in %d.%d.", chapter_now(r), like + 1));
    ReportBlock *const block = document_add(r, REPORT_SHEET, row->name);
    block->sheet = row->sheet;
    block->like = like < 0 ? NULL : checks->row[like].sheet;
}

static void check_add_block(Report *r, const CheckList *checks, int index)
{
    const CheckRow *const row = &checks->row[index];
    const char *const place = place_of(r, row);
    const char *const line = row->line && *row->line ? row->line : "every line";
    const bool limited = row->clause && *row->clause;
    package_section(r, arena_printf(r->arena, "%s: %s", row->name, line));
    r->last->folded = true; /* the table of checks leads here */
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena, "%s%s%s.%s%s%s", row->part ? row->part : "",
                              *place ? ": " : "", place, limited ? " Limit from: " : "",
                              limited ? row->clause : "", limited ? "." : ""));
    sheet_block(r, checks, index);
    check_verdict(r, row);
}

void package_rows(Report *r, const CheckList *checks, const char *caption)
{
    checks_table_add(r, checks, caption);
    for (int i = 0; i < checks->count; i++) check_add_block(r, checks, i);
}

void package_checks(Report *r, const CheckList *checks)
{
    document_add(r, REPORT_HEADING, "Checks");
    document_add(
        r, REPORT_TEXT,
        "pass: the demand is not larger than the capacity. fail: it is. unproven: no limit is "
        "passed, but an input that matters is missing or a default; it is named behind "
        "\"Open\". told: a number that is wanted, without a limit of its own.");
    document_add(r, REPORT_TEXT,
                 r->source->units == UNITS_SI
                     ? "A value in brackets is the same value once more. Sheets whose formulas a "
                       "standard gives in kip and inch are worked in these; kN, mm and MPa stand "
                       "in the brackets."
                     : "A value in brackets is the same value once more, in the unit that is usual "
                       "for its kind.");
    document_add(r, REPORT_TEXT, "Looked at are:");
    for (int i = 0; i < checks_count; i++)
        document_add(
            r, REPORT_ITEM,
            arena_printf(r->arena, "%s: %s", checks_table[i].name, checks_table[i].covers));
    if (checks->count == 0) return;
    package_rows(r, checks,
                 "All checks, failed and unproven ones first; the number is that of the working");
}

/* ---- sources ---- */

enum { SOURCES_MAX = 400 };
typedef struct Sources {
    const char *text[SOURCES_MAX];
    int count;
} Sources;

static void source_add(Sources *list, const char *text)
{
    if (!text || !*text || strncmp(text, "closed form", 11) == 0 || strncmp(text, "law:", 4) == 0)
        return;
    int at = 0;
    for (; at < list->count && strcmp(list->text[at], text) <= 0; at++)
        if (strcmp(list->text[at], text) == 0) return;
    if (list->count == SOURCES_MAX) return;
    for (int i = list->count++; i > at; i--) list->text[i] = list->text[i - 1];
    list->text[at] = text;
}

static void line_sources(Sources *list, const LineAnswer *line)
{
    const BridgeLine *const b = line->line;
    const StageModel *const m = &b->model;
    for (int i = 0; i < b->rule_count; i++) source_add(list, b->rule[i].clause);
    for (int i = 0; i < b->limit_count; i++) source_add(list, b->limit[i].clause);
    source_add(list, b->live.source);
    source_add(list, b->warm.source);
    for (int k = 0; k < m->material_count; k++)
        if (m->material[k].kind == MATERIAL_CONCRETE)
            source_add(list, time_model_source(m->material[k].mix.model));
}

void package_sources(Report *r, const CheckList *checks)
{
    Sources *const list = ARENA_NEW(r->arena, Sources, 1);
    for (int i = 0; i < r->source->answer->line_count; i++)
        line_sources(list, &r->source->answer->line[i]);
    for (int i = 0; i < checks->count; i++) {
        source_add(list, checks->row[i].clause);
        for (int k = 0; k < checks->row[i].sheet->count; k++)
            source_add(list, checks->row[i].sheet->line[k].source);
    }
    document_add(r, REPORT_HEADING, "Sources cited");
    document_add(
        r, REPORT_TEXT,
        "\"From memory\" marks what was not seen in the edition in force: look it up before "
        "relying on it.");
    for (int i = 0; i < list->count; i++) document_add(r, REPORT_ITEM, list->text[i]);
}
