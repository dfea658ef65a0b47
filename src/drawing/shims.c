/* Heights of the shims at every joint and girder: from a survey, else to be filled in. */
#include <math.h>
#include <string.h>

#include "draw.h"

typedef struct Row {
    const char *run, *joint;
    double at_m;       /* from the left end of the bridge */
    const Seat *shims; /* [girders]; NULL: blank */
} Row;

/* Those of the survey's plan: joints, ends, and rows between joints. */
static int rows_of_seats(const Draw *d, Row *row)
{
    const SeatPlan *plan = d->of->seat;
    for (int i = 0; i < plan->line_count; i++)
        row[i] = (Row){"", plan->line[i].mark, plan->line[i].x_m,
                       plan->seat + (ptrdiff_t)i * plan->girders};
    return plan->line_count;
}

/* Both ends of every run, faces of the gap, and the joints between panels. */
static int rows_of(const Draw *d, Row *row)
{
    const PanelPlan *plan = d->plan;
    int count = 0;
    for (int i = 0; i < plan->piece_count; i++) {
        const PanelPiece *p = &plan->piece[i];
        const char *run = plan->run[p->run].name;
        if (!piece_first_across(p)) continue;
        row[count++] = (Row){run, p->left_joint, p->from_m, NULL};
        const bool meets = p->right_joint[0] == 'R';
        if (!meets) row[count++] = (Row){run, p->right_joint, p->to_m, NULL};
    }
    return count;
}

static double column_m(const Draw *d)
{
    const bool two = d->of->seat && d->of->seat->flanges == 2;
    return (d->us ? 0.017 : 0.014) * (two ? 2 : 1);
}

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

/* As rounded by the plan: in sixteenths or mm where they are, else as a decimal number. */
static const char *shim_words(const Draw *d, double height_m)
{
    const double step_m = d->us ? 0.0254 / 16 : 0.001;
    if (fabs(height_m / step_m - round(height_m / step_m)) < 1e-6) return draw_length(d, height_m);
    return d->us ? arena_printf(d->arena, "%.3f\"", height_m / 0.0254)
                 : arena_printf(d->arena, "%.1f", height_m * 1000);
}

static const char *cell_words(const Draw *d, const Seat *seat)
{
    const char *left = shim_words(d, seat->shim_m[0]);
    if (d->of->seat->flanges < 2) return left;
    return arena_printf(d->arena, "%s, %s", left, shim_words(d, seat->shim_m[1]));
}

static void seat_row(const Draw *d, Table *t, const Row *seat)
{
    const char *text[TABLE_COLUMNS] = {seat->joint, draw_length(d, seat->at_m)};
    if (seat->joint[0] != 'R') text[0] = arena_printf(d->arena, "%s %s", seat->run, seat->joint);
    for (int c = 2; c < t->columns; c++)
        text[c] = seat->shims ? cell_words(d, &seat->shims[c - 2]) : "";
    table_row(t, text, false);
}

static bool alarmed(const SeatPlan *plan)
{
    for (int i = 0; i < plan->remark_count; i++)
        if (plan->alarm[i]) return true;
    return false;
}

static const char *table_words(const Draw *d)
{
    const SeatPlan *plan = d->of->seat;
    const char *first = arena_printf(
        d->arena,
        "Height of each shim from the girder's top to the soffit, girders G1 to G%d from the left "
        "looking along. ",
        d->girders);
    if (plan)
        return arena_printf(
            d->arena,
            "%sFrom the survey of day %.4g, for the profile on day %.4g (%s), at a thrust of %s, "
            "with "
            "all that moves the deck until then, by clench seat; rounded to %s.%s%s",
            first, plan->survey_day, plan->day, plan->day_words,
            draw_quantity(d, plan->thrust_N, DIM_FORCE, 0), shim_words(d, plan->limit.step_m),
            plan->flanges == 2 ? " Of a tub: under its left, its right flange." : "",
            alarmed(plan) ? " A LIMIT IS NOT KEPT: see clench seat." : "");
    return arena_printf(d->arena,
                        "%sBlank: by survey of the girders' tops, so that the deck comes to its "
                        "profile after all that "
                        "still bends them (clench draw --survey). Haunch of the bridge file: %s%s. "
                        "Shims at most %s "
                        "apart along a girder; those between joints go from the panel's plane "
                        "soffit to the surveyed "
                        "girder.",
                        first, draw_length(d, d->haunch_m),
                        isnan(draw_value(d, "connectors.haunch_most"))
                            ? ""
                            : arena_printf(d->arena, ", at most %s",
                                           draw_length(d, draw_value(d, "connectors.haunch_most"))),
                        draw_length(d, draw_value(d, "shims.spacing")));
}

static Status sheet_next(Draw *d, int *number, DrawingSheet **sheet, Error *err)
{
    ++*number;
    TRY(page_add(d, arena_printf(d->arena, "shims-%d", *number),
                 arena_printf(d->arena, "Shim table, sheet %d: %s", *number,
                              d->of->seat ? "from the survey" : "heights by survey"),
                 sheet, err));
    pen_words(pen_of(d, (*sheet)->first, DRAWING_TEXT), (Point){d->left_m, d->high_m},
              (Form){text_m, DRAWING_START, false}, d->right_m - d->left_m, table_words(d));
    return STATUS_OK;
}

Status draw_shims(Draw *d, Error *err)
{
    const SeatPlan *plan = d->of->seat;
    const int room = plan ? plan->line_count : 2 * d->plan->piece_count + 2;
    Row *row = ARENA_NEW(d->arena, Row, room);
    const int count = plan ? rows_of_seats(d, row) : rows_of(d, row);
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
        seat_row(d, &t, &row[i]);
    }
    return STATUS_OK;
}
