/* Heights of the shims at every joint and girder: from a survey, else to be filled in. */
#include <math.h>
#include <string.h>

#include "draw.h"

typedef struct Seat {
    const char *run, *joint;
    double at_m; /* from the left end of the bridge */
} Seat;

/* Both ends of every run, faces of the gap, and the joints between panels. */
static int seats_of(const Draw *d, Seat *seat)
{
    const PanelPlan *plan = d->plan;
    int count = 0;
    for (int i = 0; i < plan->piece_count; i++) {
        const PanelPiece *p = &plan->piece[i];
        const char *run = plan->run[p->run].name;
        if (!piece_first_across(p)) continue;
        seat[count++] = (Seat){run, p->left_joint, p->from_m};
        const bool meets = p->right_joint[0] == 'R';
        if (!meets) seat[count++] = (Seat){run, p->right_joint, p->to_m};
    }
    return count;
}

static double column_m(const Draw *d) { return d->us ? 0.017 : 0.014; }

static double block_m(const Draw *d) { return 0.046 + d->girders * column_m(d); }

static Table block_start(Draw *d, DrawingSheet *sheet, double x_m)
{
    double width_m[TABLE_COLUMNS] = {0.020, 0.024};
    const char *head[TABLE_COLUMNS] = {"joint", "station"};
    const int girders = d->girders < TABLE_COLUMNS - 2 ? d->girders : TABLE_COLUMNS - 2;
    for (int k = 0; k < girders; k++) {
        width_m[2 + k] = column_m(d);
        head[2 + k] = arena_printf(d->arena, "G%d", k + 1);
    }
    Table t = table_start(d, sheet->first, (Point){x_m, d->high_m - 0.024}, 2 + girders, width_m);
    table_row(&t, head, true);
    return t;
}

static void seat_row(const Draw *d, Table *t, const Seat *seat)
{
    const char *text[TABLE_COLUMNS] = {seat->joint, draw_length(d, seat->at_m)};
    if (seat->joint[0] != 'R') text[0] = arena_printf(d->arena, "%s %s", seat->run, seat->joint);
    for (int c = 2; c < t->columns; c++) text[c] = "";
    table_row(t, text, false);
}

static Status sheet_next(Draw *d, int *number, DrawingSheet **sheet, Error *err)
{
    ++*number;
    TRY(page_add(d, arena_printf(d->arena, "shims-%d", *number),
                 arena_printf(d->arena, "Shim table, sheet %d: heights by survey", *number), sheet,
                 err));
    pen_words(
        pen_of(d, (*sheet)->first, DRAWING_TEXT), (Point){d->left_m, d->high_m},
        (Form){text_m, DRAWING_START, false}, d->right_m - d->left_m,
        arena_printf(
            d->arena,
            "Height of each shim from the girder's top to the soffit, girders G1 to G%d from the "
            "left looking along. Blank: by survey of the girders' tops, so that the deck comes "
            "to its profile after all that still bends them. Haunch of the bridge file: %s%s. "
            "Shims at most %s apart along a girder; those between joints go from the "
            "panel's plane soffit to the surveyed girder.",
            d->girders, draw_length(d, d->haunch_m),
            isnan(draw_value(d, "connectors.haunch_most"))
                ? ""
                : arena_printf(d->arena, ", at most %s",
                               draw_length(d, draw_value(d, "connectors.haunch_most"))),
            draw_length(d, draw_value(d, "shims.spacing"))));
    return STATUS_OK;
}

Status draw_shims(Draw *d, Error *err)
{
    Seat *seat = ARENA_NEW(d->arena, Seat, 2 * d->plan->piece_count + 2);
    const int count = seats_of(d, seat);
    const double step_m = block_m(d) + 0.004;
    const int blocks = (int)fmax(1, floor((d->right_m - d->left_m + 0.004) / step_m));
    int number = 0, block = 0;
    DrawingSheet *sheet;
    TRY(sheet_next(d, &number, &sheet, err));
    Table t = block_start(d, sheet, d->left_m);
    for (int i = 0; i < count; i++) {
        if (t.top.y_m - t.row_m < d->low_m) {
            if (++block == blocks) {
                TRY(sheet_next(d, &number, &sheet, err));
                block = 0;
            }
            t = block_start(d, sheet, d->left_m + block * step_m);
        }
        seat_row(d, &t, &seat[i]);
    }
    return STATUS_OK;
}
