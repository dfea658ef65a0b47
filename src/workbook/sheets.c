/* The sheets: cover, inputs, quantities, workings. */
#include <math.h>
#include <string.h>

#include "book.h"

static const Takeoff *takeoff_of(const Book *b) { return b->source->takeoff; }

static double size_of(const char *unit)
{
    Dimension dimension;
    double size = 1;
    if (*unit && unit_read(unit, &dimension, &size, NULL) != STATUS_OK) size = NAN;
    return size;
}

static lxw_worksheet *sheet_new(const Book *b, const char *name)
{
    lxw_worksheet *sheet = workbook_add_worksheet(b->file, name);
    worksheet_set_landscape(sheet);
    worksheet_fit_to_pages(sheet, 1, 0);
    worksheet_set_footer(sheet, "&L&F, &A&Rpage &P of &N");
    return sheet;
}

static void heads(lxw_worksheet *sheet, const Book *b, const char *const *head, int count)
{
    for (int c = 0; c < count; c++)
        worksheet_write_string(sheet, 0, (lxw_col_t)c, head[c], b->head);
    worksheet_repeat_rows(sheet, 0, 0);
}

static void say(lxw_worksheet *sheet, int row, int column, const char *text, lxw_format *format)
{
    worksheet_write_string(sheet, (lxw_row_t)row, (lxw_col_t)column, text, format);
}

static void put(lxw_worksheet *sheet, int row, int column, double value, lxw_format *format)
{
    worksheet_write_number(sheet, (lxw_row_t)row, (lxw_col_t)column, value, format);
}

/* A formula with its value, so that a reader that does not reckon has it too. */
static void reckon(lxw_worksheet *sheet, int row, int column, const char *formula, double value,
                   lxw_format *format)
{
    worksheet_write_formula_num(sheet, (lxw_row_t)row, (lxw_col_t)column, formula, format, value);
}

/* "AB" of column 27. */
static const char *letters(const Book *b, int column)
{
    if (column < 26) return arena_printf(b->arena, "%c", 'A' + column);
    return arena_printf(b->arena, "%c%c", 'A' + column / 26 - 1, 'A' + column % 26);
}

/* Of a wrapped text: the column holds about 105 letters. */
static double row_height(const char *text)
{
    const size_t lines = 1 + strlen(text) / 105;
    return 15.0 * (double)lines;
}

static const char *print_unit(const Book *b, const char *unit)
{
    return takeoff_print_unit(unit, b->arena);
}

/* ---- cover ---- */

void book_cover(Book *b)
{
    const ReportSource *report = b->source->report;
    lxw_worksheet *sheet = sheet_new(b, "Cover");
    const char *const fact[][2] = {
        {"project", report->name},
        {"bridge file", report->file},
        {"revision", b->settings->revision},
        {"date", b->settings->date},
        {"made by", arena_printf(b->arena, "clench %s", report->version)},
        {"units", b->units == UNITS_US ? "US customary" : "SI"}};
    worksheet_set_column(sheet, 0, 0, 14, NULL);
    worksheet_set_column(sheet, 1, 1, 100, NULL);
    say(sheet, 0, 0, "Quantities", b->title);
    int row = 2;
    for (size_t i = 0; i < sizeof fact / sizeof *fact; i++, row++) {
        say(sheet, row, 0, fact[i][0], b->strong);
        say(sheet, row, 1, fact[i][1], b->wrapped);
    }
    const char *const words[] = {"Every quantity is the sum of lines on the sheet Workings, every "
                                 "line the product of its factors. "
                                 "Change framed cells on the sheet Inputs, or any factor: all else "
                                 "follows. The framed waste is "
                                 "ordered beyond what is built in.",
                                 "Quantities of a design that is not yet surveyed, tested or "
                                 "approved: who orders by them checks "
                                 "them against the drawings first.",
                                 report_caution()};
    row++;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++, row++) {
        say(sheet, row, 0, i ? "caution" : "use", b->strong);
        say(sheet, row, 1, words[i], b->wrapped);
        worksheet_set_row(sheet, (lxw_row_t)row, row_height(words[i]), NULL);
    }
    for (int i = 0; i <= takeoff_of(b)->note_count; i++, row++) {
        const char *note =
            i < takeoff_of(b)->note_count ? takeoff_of(b)->note[i] : takeoff_left_out();
        say(sheet, row, 0, "mind", b->strong);
        say(sheet, row, 1, note, b->wrapped);
        worksheet_set_row(sheet, (lxw_row_t)row, row_height(note), NULL);
    }
}

/* ---- inputs: row i + 2 in the words of a formula ---- */

static const char *input_unit(const Book *b, int i)
{
    const TakeoffInput *in = &takeoff_of(b)->input[i];
    return takeoff_unit(b->units, in->dimension, in->value);
}

static double input_shown(const Book *b, int i)
{
    const char *unit = input_unit(b, i);
    const double value = takeoff_of(b)->input[i].value;
    return *unit ? quantity_in(value, unit) : value;
}

static const char *input_cell(const Book *b, int i)
{
    return arena_printf(b->arena, "Inputs!$C$%d", i + 2);
}

void book_inputs(Book *b)
{
    lxw_worksheet *sheet = sheet_new(b, "Inputs");
    heads(sheet, b,
          (const char *[]){"key of the bridge file", "what it is", "value", "unit", "from"}, 5);
    static const double width[] = {28, 48, 14, 12, 14};
    for (int c = 0; c < 5; c++)
        worksheet_set_column(sheet, (lxw_col_t)c, (lxw_col_t)c, width[c], NULL);
    for (int i = 0; i < TAKEOFF_INPUT_COUNT; i++) {
        const TakeoffInput *in = &takeoff_of(b)->input[i];
        const bool share = in->dimension == DIM_NONE;
        say(sheet, i + 1, 0, in->key, b->text);
        say(sheet, i + 1, 1, in->name, b->text);
        put(sheet, i + 1, 2, input_shown(b, i), share ? b->input_share : b->input);
        say(sheet, i + 1, 3, share ? "of what is built in" : print_unit(b, input_unit(b, i)),
            b->text);
        say(sheet, i + 1, 4, in->from, b->text);
    }
    worksheet_freeze_panes(sheet, 1, 0);
}

/* ---- workings ---- */

enum { LINE_FACTOR = 6, LINE_TO_UNIT = LINE_FACTOR + TAKEOFF_FACTORS, LINE_VALUE, LINE_UNIT };

static lxw_format *unit_format(Book *b, const char *unit)
{
    for (int i = 0; i < b->unit_count; i++)
        if (!strcmp(b->unit[i].unit, unit)) return b->unit[i].format;
    lxw_format *format = workbook_add_format(b->file);
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    format_set_num_format(format,
                          *unit ? arena_printf(b->arena, "#,##0.00##\" %s\"", print_unit(b, unit))
                                : "General");
    if (b->unit_count < (int)(sizeof b->unit / sizeof *b->unit)) {
        b->unit[b->unit_count].unit = unit;
        b->unit[b->unit_count++].format = format;
    }
    return format;
}

/* "panels x length as cast [ft] x thickness [in]" */
static const char *factor_names(const Book *b, const TakeoffLine *line)
{
    Text text = text_start(b->arena);
    for (int i = 0; i < line->factor_count; i++) {
        const TakeoffFactor *f = &line->factor[i];
        const char *unit = takeoff_unit(b->units, f->dimension, f->value);
        text_printf(&text, "%s%s", i ? " \xC3\x97 " : "", f->name);
        if (*unit) text_printf(&text, " [%s]", print_unit(b, unit));
    }
    return text.bytes;
}

typedef struct Product {
    Text formula;
    double shown, size; /* of the factors as shown; one of each of their units in SI */
} Product;

static void factor_put(Book *b, lxw_worksheet *sheet, int row, int column, const TakeoffFactor *f,
                       Product *product)
{
    const char *unit = takeoff_unit(b->units, f->dimension, f->value);
    const double shown = *unit ? quantity_in(f->value, unit) : f->value;
    lxw_format *format = unit_format(b, unit);
    if (f->input == TAKEOFF_NO_INPUT)
        put(sheet, row, column, shown, format);
    else
        reckon(sheet, row, column, arena_printf(b->arena, "=%s", input_cell(b, f->input)), shown,
               format);
    text_printf(&product->formula, "%s%s%d", product->formula.length ? "*" : "=",
                letters(b, column), row + 1);
    product->shown *= shown;
    product->size *= size_of(unit);
}

static void line_put(Book *b, lxw_worksheet *sheet, int row, const TakeoffLine *line)
{
    const TakeoffItem *item = &takeoff_of(b)->item[line->item];
    const char *unit = item->unit[b->units];
    Product product = {text_start(b->arena), 1, 1};
    put(sheet, row, 0, line->item + 1, b->count);
    say(sheet, row, 1, item->name, b->text);
    say(sheet, row, 2, takeoff_of(b)->run[line->run].name, b->text);
    say(sheet, row, 3, line->what, b->text);
    say(sheet, row, 4, line->from, b->text);
    say(sheet, row, 5, factor_names(b, line), b->text);
    for (int i = 0; i < line->factor_count; i++)
        factor_put(b, sheet, row, LINE_FACTOR + i, &line->factor[i], &product);
    const double to_unit = product.size / size_of(unit);
    put(sheet, row, LINE_TO_UNIT, to_unit, b->text);
    text_printf(&product.formula, "*%s%d", letters(b, LINE_TO_UNIT), row + 1);
    reckon(sheet, row, LINE_VALUE, product.formula.bytes, product.shown * to_unit, b->number);
    say(sheet, row, LINE_UNIT, print_unit(b, unit), b->text);
}

void book_workings(Book *b)
{
    lxw_worksheet *sheet = sheet_new(b, "Workings");
    heads(sheet, b,
          (const char *[]){"no.", "quantity", "run", "of what", "from", "factors", "1st", "2nd",
                           "3rd", "4th", "5th", "to the unit", "value", "unit"},
          LINE_UNIT + 1);
    static const double width[] = {6, 32, 6, 34, 40, 52, 12, 12, 12, 12, 12, 12, 14, 8};
    for (int c = 0; c <= LINE_UNIT; c++)
        worksheet_set_column(sheet, (lxw_col_t)c, (lxw_col_t)c, width[c], NULL);
    b->line_row = ARENA_NEW(b->arena, int, takeoff_of(b)->line_count + 1);
    int row = 1;
    for (int i = 0; i < takeoff_of(b)->line_count; i++) {
        const TakeoffLine *line = &takeoff_of(b)->line[i];
        b->line_row[i] = row;
        if (!takeoff_of(b)->item[line->item].open) line_put(b, sheet, row++, line);
    }
    worksheet_freeze_panes(sheet, 1, 3);
}

/* ---- quantities ---- */

typedef struct Columns {
    int run, all, unit, waste, order, weight;
} Columns;

/* Sum of the lines of the run, which stand one below the other. */
static void run_put(const Book *b, lxw_worksheet *sheet, int row, int index, int run, int column)
{
    const TakeoffItem *item = &takeoff_of(b)->item[index];
    int from = -1, to = -1;
    for (int i = item->first; i < item->first + item->line_count; i++) {
        if (takeoff_of(b)->line[i].run != run) continue;
        if (from < 0) from = b->line_row[i] + 1;
        to = b->line_row[i] + 1;
    }
    lxw_format *format = item->dimension == DIM_NONE ? b->count : b->number;
    if (from < 0) {
        put(sheet, row, column, 0, format);
        return;
    }
    const double value = takeoff_in_run(takeoff_of(b), index, run) / size_of(item->unit[b->units]);
    const char *letter = letters(b, LINE_VALUE);
    reckon(sheet, row, column,
           arena_printf(b->arena, "=SUM(Workings!%s%d:%s%d)", letter, from, letter, to), value,
           format);
}

static void weight_put(const Book *b, lxw_worksheet *sheet, int row, const TakeoffItem *item,
                       const Columns *c)
{
    const char *force = quantity_unit(b->units, DIM_FORCE), *all = letters(b, c->all);
    const double value = quantity_in(item->weight_N, force);
    if (item->dimension == DIM_FORCE) {
        reckon(sheet, row, c->weight, arena_printf(b->arena, "=%s%d", all, row + 1), value,
               b->number);
        return;
    }
    if (item->weight == TAKEOFF_NO_INPUT) return;
    const double to_force =
        size_of(item->unit[b->units]) * size_of(input_unit(b, item->weight)) / size_of(force);
    reckon(sheet, row, c->weight,
           arena_printf(b->arena, "=%s%d*%s*%.15g", all, row + 1, input_cell(b, item->weight),
                        to_force),
           value, b->number);
}

static void item_put(const Book *b, lxw_worksheet *sheet, int row, int index, const Columns *c)
{
    const TakeoffItem *item = &takeoff_of(b)->item[index];
    const char *all = letters(b, c->all), *unit = item->unit[b->units];
    put(sheet, row, 0, index + 1, b->count);
    say(sheet, row, 1, takeoff_group_name(item->group), b->text);
    say(sheet, row, 2, item->name, b->text);
    say(sheet, row, 3, item->open ? arena_printf(b->arena, "OPEN: %s", item->open) : item->purpose,
        b->wrapped);
    say(sheet, row, c->unit, *unit ? print_unit(b, unit) : "number", b->text);
    if (item->open) return;
    const int runs = takeoff_of(b)->run_count;
    for (int i = 0; i < runs; i++) run_put(b, sheet, row, index, i, c->run + i);
    reckon(sheet, row, c->all,
           arena_printf(b->arena, "=SUM(%s%d:%s%d)", letters(b, c->run), row + 1,
                        letters(b, c->run + runs - 1), row + 1),
           item->net / size_of(unit), item->dimension == DIM_NONE ? b->count : b->total);
    if (item->waste != TAKEOFF_NO_INPUT) {
        reckon(sheet, row, c->waste, arena_printf(b->arena, "=%s", input_cell(b, item->waste)),
               takeoff_of(b)->input[item->waste].value, b->share);
        reckon(
            sheet, row, c->order,
            arena_printf(b->arena, "=%s%d*(1+%s%d)", all, row + 1, letters(b, c->waste), row + 1),
            item->ordered / size_of(unit), b->total);
    }
    weight_put(b, sheet, row, item, c);
}

void book_quantities(Book *b)
{
    const Takeoff *t = takeoff_of(b);
    lxw_worksheet *sheet = sheet_new(b, "Quantities");
    const int runs = t->run_count;
    const Columns c = {4, 4 + runs, 5 + runs, 6 + runs, 7 + runs, 8 + runs};
    const char **head = ARENA_NEW(b->arena, const char *, c.weight + 1);
    static const char *const first[] = {"no.", "group", "quantity", "for what, how counted"};
    static const double width[] = {6, 22, 32, 44};
    for (int i = 0; i < 4; i++) head[i] = first[i];
    for (int i = 0; i < runs; i++)
        head[4 + i] = arena_printf(b->arena, "%s: %s", t->run[i].name, t->run[i].unit);
    head[c.all] = "in all";
    head[c.unit] = "unit";
    head[c.waste] = "waste";
    head[c.order] = "to order";
    head[c.weight] =
        arena_printf(b->arena, "weight as built [%s]", quantity_unit(b->units, DIM_FORCE));
    heads(sheet, b, head, c.weight + 1);
    for (int i = 0; i <= c.weight; i++)
        worksheet_set_column(sheet, (lxw_col_t)i, (lxw_col_t)i,
                             i < 4         ? width[i]
                             : i == c.unit ? 9
                                           : 14,
                             NULL);
    book_workings(b);
    for (int i = 0; i < t->item_count; i++) item_put(b, sheet, i + 1, i, &c);
    worksheet_freeze_panes(sheet, 1, 3);
}
