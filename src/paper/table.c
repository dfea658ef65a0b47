/* Tables: columns as wide as they need, heads that come again on the next page. */
#include "paper_data.h"

#include <math.h>
#include <string.h>

enum { COLUMNS_MAX = 16 };
static const double gap_pt = 13, part_indent_pt = 10, whole_1 = 0.38;
static const double pad_plain_pt = 2.2, pad_large_pt = 6, pad_words_pt = 3, form_row_pt = 27;

typedef struct Table {
    const FigureTable *data;
    double size_pt, width_pt, pad_pt;
    double x_pt[COLUMNS_MAX], column_pt[COLUMNS_MAX];
    int columns;
} Table;

typedef struct RowBox {
    const Table *table;
    PangoLayout *cell[COLUMNS_MAX];
    bool part; /* leading blanks: a part of the row above */
    bool head, last;
    double height_pt;
} RowBox;

/* ---- widths ---- */

static double natural_pt(Paper *paper, const char *text, Face face, double size_pt)
{
    return words_width_pt(words_layout(paper, text + strspn(text, " "), face, size_pt, -1));
}

/* The widest word: what is left of a line that breaks wherever it may. */
static double word_pt(Paper *paper, const char *text, Face face, double size_pt)
{
    PangoLayout *const layout = words_layout(paper, text + strspn(text, " "), face, size_pt, 0);
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD);
    return words_width_pt(layout);
}

typedef struct Need {
    double least_pt, full_pt, head_pt; /* widest word, widest cell, head on one line */
} Need;

static Need column_need(Paper *paper, const Table *table, int column)
{
    const FigureTable *const t = table->data;
    const double size_pt = table->size_pt;
    const double head_pt = natural_pt(paper, t->head[column], FACE_BOLD, size_pt) + 0.5;
    Need need = {word_pt(paper, t->head[column], FACE_BOLD, size_pt), 0, head_pt};
    for (int row = 0; row < t->row_count; row++) {
        const char *const text = t->cell[(size_t)row * (size_t)t->column_count + (size_t)column];
        const double in_pt = column == 0 && strspn(text, " ") > 1 ? part_indent_pt : 0;
        const double full_pt = natural_pt(paper, text, FACE_PLAIN, size_pt) + in_pt + 0.5;
        need.full_pt = fmax(need.full_pt, full_pt);
        need.least_pt = fmax(
            need.least_pt,
            t->number[column] ? full_pt : word_pt(paper, text, FACE_PLAIN, size_pt) + in_pt + 0.5);
    }
    need.full_pt = fmax(need.full_pt, need.least_pt);
    return need;
}

/* Room beyond the widest words: the same for all, but nobody gets more than it can use, so that short
 * cells stay on one line. Returns what is left. */
static double room_share(Need need[], int count, double room_pt)
{
    for (int round = 0; round < count && room_pt > 0.01; round++) {
        int open = 0;
        for (int c = 0; c < count; c++) open += need[c].full_pt > need[c].least_pt;
        if (open == 0) break;
        const double share_pt = room_pt / open;
        for (int c = 0; c < count; c++) {
            const double more_pt = fmin(share_pt, need[c].full_pt - need[c].least_pt);
            need[c].least_pt += more_pt;
            room_pt -= more_pt;
        }
    }
    return room_pt;
}

/* A form's first column tells what the row is for, the others are there to be written in: alike. */
static void form_widths(const Paper *paper, Need need[], int count)
{
    if (count < 2) return;
    const double first_pt = fmin(need[0].full_pt, 0.24 * paper->measure_pt);
    const double room_pt = paper->measure_pt - first_pt - gap_pt * (count - 1);
    need[0].least_pt = first_pt;
    for (int c = 1; c < count; c++) need[c].least_pt = room_pt / (count - 1);
}

/* False where not even the widest words fit. */
static bool widths_set(Paper *paper, Table *table)
{
    const int n = table->columns;
    Need need[COLUMNS_MAX];
    double least_pt = gap_pt * (n - 1);
    for (int c = 0; c < n; c++) {
        need[c] = column_need(paper, table, c);
        least_pt += need[c].least_pt;
    }
    const double room_pt = paper->measure_pt - least_pt;
    if (room_pt < 0) return false;
    const double left_pt = room_share(need, n, room_pt);
    for (int c = 0; c < n; c++) need[c].full_pt = fmax(need[c].full_pt, need[c].head_pt);
    double rest_pt = room_share(need, n, left_pt);
    if (table->data->look != FIGURE_TABLE_LARGE) rest_pt = 0;
    if (table->data->look == FIGURE_TABLE_FORM) form_widths(paper, need, n);
    double x_pt = 0;
    for (int c = 0; c < n; c++) {
        table->x_pt[c] = x_pt;
        table->column_pt[c] = need[c].least_pt + rest_pt / n;
        x_pt += table->column_pt[c] + gap_pt;
    }
    table->width_pt = x_pt - gap_pt;
    return true;
}

/* ---- rows ---- */

/* "10.3" in a column "no." leads to the section of that number. */
static bool is_number_of_section(const RowBox *row, int column)
{
    return column == 0 && !row->head && strcmp(row->table->data->head[0], "no.") == 0;
}

static void cell_draw(Paper *paper, const RowBox *row, int column, double x_pt, double y_pt)
{
    PangoLayout *const cell = row->cell[column];
    const bool leads = is_number_of_section(row, column);
    char link[64];
    snprintf(link, sizeof link, "dest='h%.20s'", pango_layout_get_text(cell));
    if (leads) cairo_tag_begin(paper->cr, CAIRO_TAG_LINK, link);
    words_show(paper, cell, x_pt, y_pt, row->part && column == 0 ? INK_SOFT : INK_TEXT);
    if (leads) cairo_tag_end(paper->cr, CAIRO_TAG_LINK);
}

/* Between the columns of a form. */
static void form_lines(Paper *paper, const Table *table, double y_pt, double low_pt)
{
    ink_set(paper, INK_TEXT);
    for (int c = 1; c < table->columns; c++) {
        const double x_pt = paper->left_pt + table->x_pt[c] - gap_pt / 2;
        line_draw(paper, x_pt, y_pt, x_pt, low_pt, 0.4);
    }
}

static void row_draw(Paper *paper, const Box *box, double y_pt)
{
    const RowBox *const row = box->content;
    const Table *const table = row->table;
    const double left_pt = paper->left_pt, right_pt = left_pt + table->width_pt;
    for (int c = 0; c < table->columns; c++) {
        PangoLayout *const cell = row->cell[c];
        double x_pt = left_pt + table->x_pt[c];
        if (c == 0 && row->part) x_pt += part_indent_pt;
        const double down_pt =
            row->head ? row->height_pt - words_height_pt(cell) - table->pad_pt : table->pad_pt;
        cell_draw(paper, row, c, x_pt, y_pt + down_pt);
    }
    const double low_pt = y_pt + row->height_pt;
    if (table->data->look == FIGURE_TABLE_FORM) form_lines(paper, table, y_pt, low_pt);
    ink_set(paper, row->head || row->last ? INK_TEXT : INK_LINE);
    line_draw(paper, left_pt, low_pt, right_pt, low_pt, row->head || row->last ? 0.8 : 0.4);
    if (row->head) line_draw(paper, left_pt, y_pt, right_pt, y_pt, 0.8);
}

static RowBox *row_new(Paper *paper, const Table *table, const char *const *text, Face face)
{
    RowBox *const row = ARENA_NEW(paper->arena, RowBox, 1);
    row->table = table;
    row->part = strspn(text[0], " ") > 1;
    for (int c = 0; c < table->columns; c++) {
        const double room_pt = table->column_pt[c] - (c == 0 && row->part ? part_indent_pt : 0);
        row->cell[c] = words_layout(paper, text[c] + strspn(text[c], " "), face, table->size_pt,
                                    fmax(room_pt, 8) + 0.5);
        if (table->data->number[c]) {
            /* wraps in its column, stands at its right edge */
            pango_layout_set_alignment(row->cell[c], PANGO_ALIGN_RIGHT);
        }
        row->height_pt = fmax(row->height_pt, words_height_pt(row->cell[c]) + 2 * table->pad_pt);
    }
    if (table->data->look == FIGURE_TABLE_FORM) row->height_pt = fmax(row->height_pt, form_row_pt);
    return row;
}

/* A short table is not parted. Of a long one the head and two rows stay together, and the two last
 * rows. */
static void rows_add(Paper *paper, const Table *table)
{
    const FigureTable *const t = table->data;
    RowBox *const head = row_new(paper, table, t->head, FACE_BOLD);
    head->head = true;
    Box *const head_box = box_add(paper, 4, head->height_pt, row_draw, head);
    head_box->keep = true;
    double height_pt = head->height_pt;
    for (int i = 0; i < t->row_count; i++) {
        RowBox *const row =
            row_new(paper, table, t->cell + (size_t)i * (size_t)t->column_count, FACE_PLAIN);
        row->last = i == t->row_count - 1;
        Box *const box = box_add(paper, 0, row->height_pt, row_draw, row);
        box->keep = i < t->row_count - 1 && (i == 0 || i == t->row_count - 2);
        if (i > 0) box->repeat = head_box;
        height_pt += row->height_pt;
    }
    if (height_pt > whole_1 * (paper->bottom_pt - paper->top_pt)) return;
    for (Box *box = head_box; box->next; box = box->next) box->keep = true;
}

static bool of_words(const FigureTable *data)
{
    int words = 0;
    for (int c = 0; c < data->column_count; c++) words += !data->number[c];
    return words > 2;
}

/* Large letters, to be read at arm's length; of words a size less. */
static double size_set(Table *table)
{
    const FigureTable *const data = table->data;
    table->pad_pt = pad_plain_pt;
    if (data->look != FIGURE_TABLE_LARGE)
        return data->row_count > 150 ? 7.5 : data->row_count > 40 ? 8.5 : 9.5;
    table->pad_pt = of_words(data) ? pad_words_pt : pad_large_pt;
    return of_words(data) ? 11 : 13;
}

void table_add(Paper *paper, const FigureTable *data)
{
    Table *const table = ARENA_NEW(paper->arena, Table, 1);
    table->data = data;
    table->columns = data->column_count < COLUMNS_MAX ? data->column_count : COLUMNS_MAX;
    if (data->row_count == 0) return;
    for (table->size_pt = size_set(table); table->size_pt > 6 && !widths_set(paper, table);)
        table->size_pt -= 0.5;
    if (data->caption && *data->caption) {
        flow_words(paper, 13, data->caption, FACE_BOLD, 10, 0, INK_TEXT);
        paper->last->keep = true;
    }
    rows_add(paper, table);
}
