/* Values of a sheet whose formulas stand elsewhere: side by side, in columns. */
#include "paper_data.h"

#include <math.h>
#include <string.h>

static const double size_pt = 10, source_pt = 7.5, indent_pt = 14, row_pt = 15, between_pt = 9;
/* Two more than where the numbers stand in the formula: so many that the result comes out of them. */
enum { COLUMNS = 4, VALUE_DIGITS = SHEET_DIGITS + 2 };

typedef struct ValuesRow {
    Math item[COLUMNS];
    double x_pt[COLUMNS];
    int count;
    double up_pt;
} ValuesRow;

static void row_draw(Paper *paper, const Box *box, double y_pt)
{
    const ValuesRow *const row = box->content;
    for (int i = 0; i < row->count; i++)
        math_show(paper, &row->item[i], paper->left_pt + row->x_pt[i], y_pt + row->up_pt);
}

static bool other_source(const SheetLine *line, const SheetLine *like)
{
    if (!line->source || !*line->source) return false;
    return !like->source || strcmp(line->source, like->source) != 0;
}

static Math value_item(Paper *paper, const SheetLine *line, const SheetLine *like)
{
    Math item = math_symbol(paper, line->symbol, NULL, size_pt);
    math_append(&item, sheet_equals(paper, sheet_result(paper, line, VALUE_DIGITS)));
    if (other_source(line, like))
        math_append(&item, math_words(paper, arena_printf(paper->arena, "  [%s]", line->source),
                                      FACE_PLAIN, source_pt));
    return item;
}

/* Two rows at least on a page, as of tables. */
static void row_close(Paper *paper, ValuesRow *row, bool keep)
{
    double up_pt = 0, down_pt = 0;
    for (int i = 0; i < row->count; i++) {
        up_pt = fmax(up_pt, row->item[i].up_pt);
        down_pt = fmax(down_pt, row->item[i].down_pt);
    }
    if (row->count == 0) return;
    row->up_pt = up_pt;
    box_add(paper, 2, fmax(up_pt + down_pt, row_pt - 2), row_draw, row)->keep = keep;
}

void values_add(Paper *paper, const Sheet *sheet, const Sheet *like)
{
    const double column_pt = (paper->measure_pt - indent_pt) / COLUMNS;
    ValuesRow *row = ARENA_NEW(paper->arena, ValuesRow, 1);
    const Box *first = NULL;
    int column = 0;
    for (int i = 0; i < sheet->count; i++) {
        if (sheet->line[i].kind == SHEET_WORDS) continue;
        const Math item = value_item(paper, &sheet->line[i], &like->line[i]);
        const int takes = (int)ceil((item.width_pt + between_pt) / column_pt);
        if (row->count > 0 && column + takes > COLUMNS) {
            row_close(paper, row, !first);
            first = first ? first : paper->last;
            row = ARENA_NEW(paper->arena, ValuesRow, 1);
            column = 0;
        }
        row->x_pt[row->count] = indent_pt + column * column_pt;
        row->item[row->count++] = item;
        column += takes < COLUMNS ? takes : COLUMNS;
    }
    if (first) paper->last->keep = true;
    row_close(paper, row, false);
    paper->working = paper->last;
}
