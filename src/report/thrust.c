/* The report on the thrust: the order of its blocks, and the figures. */
#include <string.h>

#include "document.h"

static void add_figure(Report *report, const LineAnswer *line, const char *id)
{
    const FigureKindRow *row = figure_kind(0);
    for (int k = 0; k < figure_kind_count(); k++)
        if (!strcmp(figure_kind(k)->id, id)) row = figure_kind(k);
    const UnitSystem units = report->source->units;
    const FigureView sheet = figure_paper(line, units, REPORT_WIDE_PX);
    const FigureView phone = figure_paper(line, units, REPORT_NARROW_PX);
    const Figure *wide = row->draw(&sheet, report->arena);
    if (wide->item_count == 0) return;
    ReportBlock *block = document_add(report, REPORT_FIGURE, wide->title);
    block->place = REPORT_PAGE;
    block->wide = wide;
    block->narrow = row->draw(&phone, report->arena);
}

static void add_figures(Report *report)
{
    const LineAnswer *line = document_line(report->source);
    for (int k = 0; k < figure_kind_count(); k++) add_figure(report, line, figure_kind(k)->id);
}

/* The other lines: their tables, opened on demand, and where their joints stand. */
static void add_others(Report *report, bool figures)
{
    const ThrustAnswer *a = report->source->answer;
    const LineAnswer *shown = document_line(report->source);
    if (a->line_count < 2) return;
    document_add(report, REPORT_HEADING, "The other lines")->place = REPORT_PAGE;
    for (int i = 0; i < a->line_count; i++) {
        if (&a->line[i] == shown) continue;
        ReportBlock *before = report->last;
        blocks_rules(report, &a->line[i]);
        blocks_limits(report, &a->line[i]);
        blocks_left(report, &a->line[i]);
        for (ReportBlock *b = before->next; b; b = b->next) {
            b->place = REPORT_PAGE;
            b->folded = true;
        }
        if (figures) add_figure(report, &a->line[i], "deck");
    }
}

const Report *report_thrust(const ReportSource *source, bool figures, Arena *arena)
{
    Report *report = document_start(source, "Thrust that keeps the joints closed", arena);
    const LineAnswer *line = document_line(source);
    blocks_answer(report);
    blocks_lines(report);
    if (figures) {
        document_add(report, REPORT_HEADING, "Pictures of the line that governs")->place =
            REPORT_PAGE;
        add_figures(report);
    }
    document_add(report, REPORT_HEADING, "The numbers of the line that governs")->place =
        REPORT_PAGE;
    blocks_rules(report, line);
    blocks_limits(report, line);
    blocks_left(report, line);
    blocks_sources(report, line);
    add_others(report, figures);
    blocks_defaults(report);
    blocks_cautions(report);
    return report;
}
