/* The document: blocks in their order, and what the blocks share. */
#include "document.h"

#include <math.h>

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
    return line->most_limit < 0 ? "none" : line->line->limit[line->most_limit].name;
}

double document_left_1(const Split *then, const Split *jacked, bool top)
{
    const double before = top ? jacked->top_total_Pa : jacked->mean_total_Pa;
    const double after = top ? then->top_total_Pa : then->mean_total_Pa;
    return before < 0 ? after / before : (double)NAN;
}
