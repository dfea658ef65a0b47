/* The document: blocks in their order, and what the blocks share. */
#include "document.h"

#include <math.h>
#include <string.h>

const char *report_caution(void)
{
    return "A proposal to a licensed engineer, not an approval. No published provision is known "
           "that "
           "covers decks compressed this way: every rule and limit is borrowed and named with its "
           "clause.";
}

Report *document_start(const ReportSource *source, const char *title, Arena *arena)
{
    Report *report = ARENA_NEW(arena, Report, 1);
    report->source = source;
    report->title = title;
    report->arena = arena;
    return report;
}

ReportBlock *document_add(Report *report, ReportKind kind, const char *text)
{
    ReportBlock *block = ARENA_NEW(report->arena, ReportBlock, 1);
    block->kind = kind;
    block->text = text;
    if (report->last)
        report->last->next = block;
    else
        report->first = block;
    report->last = block;
    return block;
}

ReportBlock *document_table(Report *report, const FigureTable *table)
{
    ReportBlock *block = document_add(report, REPORT_TABLE, table->caption);
    block->table = table;
    return block;
}

void document_fact(Report *report, const char *label, const char *text)
{
    document_add(report, REPORT_FACT, text)->label = label;
}

const char *document_unit(const Report *report, const LineAnswer *line)
{
    const char *unit = line->line->unit, *open = strstr(unit, " (alike:");
    if (!open) return unit;
    int alike = 2;
    for (const char *c = open; *c; c++) alike += *c == ',';
    return arena_printf(report->arena, "%.*s (%d alike)", (int)(open - unit), unit, alike);
}

bool document_one_unit(const Report *report)
{
    const ThrustAnswer *a = report->source->answer;
    for (int i = 1; i < a->line_count; i++)
        if (strcmp(a->line[i].line->unit, a->line[0].line->unit) != 0) return false;
    return true;
}

const char *document_name(const Report *report, const LineAnswer *line)
{
    if (document_one_unit(report)) return line->line->name;
    return arena_printf(report->arena, "%s, %s", line->line->name, document_unit(report, line));
}

const LineAnswer *document_line(const ReportSource *source)
{
    const ThrustAnswer *a = source->answer;
    return &a->line[a->governing_line >= 0 && a->governing_line < a->line_count ? a->governing_line
                                                                                : 0];
}

double document_deck_area_m2(const LineAnswer *line)
{
    return line->average_Pa > 0 ? line->thrust_N / line->average_Pa
                                : line->line->width_m * line->line->model.deck_thickness_m;
}

const char *document_need_name(const LineAnswer *line)
{
    return line->need_rule < 0 ? "none" : line->line->rule[line->need_rule].name;
}

const char *document_most_name(const LineAnswer *line)
{
    if (line->most_rule >= 0) return line->line->rule[line->most_rule].name;
    return line->most_limit < 0 ? "none" : line->line->limit[line->most_limit].name;
}

double document_left_1(const Split *then, const Split *jacked, bool top)
{
    const double before = top ? jacked->top_total_Pa : jacked->mean_total_Pa;
    const double after = top ? then->top_total_Pa : then->mean_total_Pa;
    return before < 0 ? after / before : (double)NAN;
}
