/* Pictures and tables of what is shown, and the answer as JSON. */
#include <math.h>
#include <string.h>

#include "desk_data.h"

static Status check_picture(const Desk *desk, int kind, DeskPlace place, double width_px,
                            Error *err)
{
    if (kind < 0 || kind >= figure_page_count())
        return error_set(err, STATUS_BAD_INPUT, "picture %d of %d", kind, figure_page_count());
    if (place.line < 0 || place.line >= desk->shown->line_count)
        return error_set(err, STATUS_BAD_INPUT, "girder line %d of %d", place.line,
                         desk->shown->line_count);
    const LineAnswer *line = &desk->shown->line[place.line];
    if (place.time < 0 || place.time >= line->history->time_count)
        return error_set(err, STATUS_BAD_INPUT, "time %d of %d", place.time,
                         line->history->time_count);
    if (place.joint < -1 || place.joint >= line->line->joint_count)
        return error_set(err, STATUS_BAD_INPUT, "joint %d of %d", place.joint,
                         line->line->joint_count);
    if (!isfinite(width_px) || width_px < 200 || width_px > 8000)
        return error_set(err, STATUS_BAD_INPUT, "a picture is 200 to 8000 px wide, not %g",
                         width_px);
    return STATUS_OK;
}

/* Rows of a prediction that a picture reads. */
static void lay_rows(Desk *desk, DeskPlace place)
{
    if (desk->shown != desk->predicted) return;
    Blend *blend = &desk->line[place.line].blend;
    FigureMoment moment[5];
    const int count = figure_moments(&desk->shown->line[place.line], moment);
    for (int i = 0; i < count; i++) blend_row(blend, moment[i].time, false);
    blend_row(blend, place.time, true);
}

static const Figure *draw(Desk *desk, int kind, DeskPlace place, double width_px)
{
    lay_rows(desk, place);
    arena_reset(desk->drawn, 0);
    const FigureView view = {.line = &desk->shown->line[place.line],
                             .units = desk->source.units,
                             .width_px = width_px,
                             .page = true,
                             .answer = desk->shown,
                             .bridge = desk->source.bridge,
                             .time = place.time,
                             .joint = place.joint,
                             .predicted = desk->shown == desk->predicted,
                             .move_m = desk->line[place.line].move_m};
    return figure_page(kind)->draw(&view, desk->drawn);
}

Status desk_picture(Desk *desk, int kind, DeskPlace place, double width_px, Text *svg, Error *err)
{
    TRY(check_picture(desk, kind, place, width_px, err));
    report_svg(draw(desk, kind, place, width_px), "see", false, svg);
    return STATUS_OK;
}

/* ---- CSV, RFC 4180 ---- */

static void cell_add(Text *csv, const char *cell, bool last)
{
    csv_cell(csv, cell);
    text_add(csv, last ? "\r\n" : ",");
}

Status desk_table(Desk *desk, int kind, DeskPlace place, Text *csv, Error *err)
{
    TRY(check_picture(desk, kind, place, REPORT_WIDE_PX, err));
    const FigureTable *t = draw(desk, kind, place, REPORT_WIDE_PX)->table;
    const int columns = t ? t->column_count : 0;
    for (int c = 0; c < columns; c++) cell_add(csv, t->head[c], c + 1 == columns);
    for (int i = 0; t && i < t->row_count * columns; i++)
        cell_add(csv, t->cell[i], i % columns + 1 == columns);
    return STATUS_OK;
}

void desk_json(const Desk *desk, Text *text) { report_thrust_json(&desk->source, text); }
