/* The display list: items on a sheet, tables behind them. */
#include <assert.h>
#include <string.h>

#include "clench/figure.h"

const char *figure_role_name(FigureRole role)
{
    static const char *const name[] = {
#define X(id, text) text,
        FIGURE_ROLE_LIST(X)
#undef X
    };
    assert(role >= 0 && role < FIGURE_ROLE_COUNT);
    return name[role];
}

Figure *figure_start(Arena *arena, const char *id, double width_px, double height_px)
{
    Figure *figure = ARENA_NEW(arena, Figure, 1);
    figure->id = id;
    figure->title = figure->description = "";
    figure->width_px = width_px;
    figure->height_px = height_px;
    figure->arena = arena;
    return figure;
}

static FigureItem *item_new(Figure *figure, FigureKind kind, FigureRole role,
                            const FigurePoint *point, int count)
{
    FigureItem *item = ARENA_NEW(figure->arena, FigureItem, 1);
    item->kind = kind;
    item->role = role;
    item->size = FIGURE_PLAIN;
    item->point_count = count;
    item->point = ARENA_NEW(figure->arena, FigurePoint, count);
    memcpy(item->point, point, sizeof *point * (size_t)count);
    if (figure->last)
        figure->last->next = item;
    else
        figure->first = item;
    figure->last = item;
    figure->item_count++;
    return item;
}

FigureItem *figure_lines(Figure *figure, FigureRole role, const FigurePoint *point, int count)
{
    return item_new(figure, FIGURE_POLYLINE, role, point, count);
}

FigureItem *figure_area(Figure *figure, FigureRole role, const FigurePoint *point, int count)
{
    return item_new(figure, FIGURE_POLYGON, role, point, count);
}

FigureItem *figure_segment(Figure *figure, FigureRole role, FigurePoint from, FigurePoint to)
{
    return item_new(figure, FIGURE_POLYLINE, role, (FigurePoint[]){from, to}, 2);
}

FigureItem *figure_rect(Figure *figure, FigureRole role, FigurePoint corner, double width_px,
                        double height_px)
{
    return item_new(figure, FIGURE_RECT, role, (FigurePoint[]){corner, {width_px, height_px}}, 2);
}

FigureItem *figure_dot(Figure *figure, FigureRole role, FigurePoint centre, double radius_px)
{
    return item_new(figure, FIGURE_DOT, role, (FigurePoint[]){centre, {radius_px, radius_px}}, 2);
}

FigureItem *figure_text(Figure *figure, FigureRole role, FigurePoint at, FigureAnchor anchor,
                        const char *text)
{
    FigureItem *item = item_new(figure, FIGURE_TEXT, role, &at, 1);
    item->anchor = anchor;
    item->text = text;
    return item;
}

double figure_text_width_px(const char *text, FigureSize size)
{
    static const double per_letter[] = {6.2, 7.3, 9.0}; /* common practice, no source: sans serif */
    double letters = 0;
    for (const char *c = text; *c; c++) letters += (*c & 0xC0) != 0x80; /* UTF-8 letters */
    return letters * per_letter[size];
}

FigureTable *figure_table_start(Arena *arena, const char *caption, int column_count)
{
    FigureTable *table = ARENA_NEW(arena, FigureTable, 1);
    table->arena = arena;
    table->caption = caption;
    table->column_count = column_count;
    table->head = ARENA_NEW(arena, const char *, column_count);
    table->number = ARENA_NEW(arena, bool, column_count);
    return table;
}

void figure_table_column(FigureTable *table, int column, bool number, const char *head)
{
    assert(column >= 0 && column < table->column_count);
    table->head[column] = head;
    table->number[column] = number;
}

void figure_table_row(FigureTable *table, const char *const *cell)
{
    const size_t columns = (size_t)table->column_count;
    if (table->row_count == table->row_room) {
        const int room = table->row_room ? 2 * table->row_room : 16;
        const char **grown = ARENA_NEW(table->arena, const char *, (size_t)room *columns);
        if (table->row_count)
            memcpy(grown, table->cell, sizeof *grown * columns * (size_t)table->row_count);
        table->cell = grown;
        table->row_room = room;
    }
    memcpy(table->cell + (size_t)table->row_count * columns, cell, sizeof *cell * columns);
    table->row_count++;
}
