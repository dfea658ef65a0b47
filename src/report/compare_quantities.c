/* What each way is built of beyond what all share, with its reasoning, and hours of work. */
#include <math.h>
#include <string.h>

#include "compare.h"

/* Unit in which a factor reads well. */
static const char *factor_unit(UnitSystem units, const WayFactor *f)
{
    const bool us = units == UNITS_US;
    const double size = fabs(f->value);
    switch (f->dimension) {
    case DIM_LENGTH: return us ? (size < 0.5 ? "in" : "ft") : size < 0.5 ? "mm" : "m";
    case DIM_AREA: return us ? (size < 0.05 ? "in^2" : "ft^2") : size < 0.05 ? "mm^2" : "m^2";
    case DIM_TIME: return size < 0.99 / 12 ? "min" : "h";
    case DIM_WEIGHT_DENSITY: return us ? "pcf" : "kN/m^3";
    default: return "";
    }
}

/* "23 tendons", "1 gap", "6 ft width of all gaps". */
static void factor_add(Text *text, const Report *r, const WayFactor *f, bool first)
{
    const char *unit = factor_unit(r->source->units, f);
    const double shown = f->dimension == DIM_NONE ? f->value : quantity_in(f->value, unit);
    const size_t length = strlen(f->name);
    const bool one = f->dimension == DIM_NONE && f->value == 1 && f->name[length - 1] == 's';
    text_printf(text, "%s%.4g%s%s %.*s",
                first     ? ""
                : f->over ? " / "
                          : " x ",
                shown, unit[0] ? " " : "", unit, (int)(length - one), f->name);
}

static const char *reckoned(const Report *r, const WayQuantity *q)
{
    Text text = text_start(r->arena);
    for (int k = 0; k < q->factor_count; k++) factor_add(&text, r, &q->factor[k], k == 0);
    return text.bytes;
}

/* Three digits that matter, whole numbers whole. */
static const char *amount(const Report *r, const WayQuantity *q)
{
    const char *unit = q->unit[r->source->units == UNITS_SI];
    const bool gallons =
        strcmp(unit, "gal") == 0; /* of 231 cubic inches; no unit of the bridge file */
    double shown = q->value;
    if (unit[0])
        shown = gallons ? quantity_in(q->value, "in^3") / 231 : quantity_in(q->value, unit);
    const int places = !unit[0] || shown >= 100 ? 0 : shown >= 10 ? 1 : 2;
    return arena_printf(r->arena, "%.*f%s%s", places, shown, unit[0] ? " " : "", unit);
}

static void rows(const Report *r, FigureTable *t, const WayQuantities *list, bool work)
{
    for (int k = 0; k < list->count; k++) {
        const WayQuantity *q = &list->item[k];
        if (q->work != work) continue;
        figure_table_row(
            t, (const char *[]){way_called(q->way), q->name, amount(r, q), reckoned(r, q)});
    }
}

static FigureTable *list_table(const Report *r, const char *caption)
{
    static const char *const head[] = {"way", "what", "how much", "as"};
    FigureTable *t = figure_table_start(r->arena, caption, 4);
    for (int c = 0; c < 4; c++) figure_table_column(t, c, c == 2, head[c]);
    return t;
}

static void hours_table(Report *r, const WayQuantities *list)
{
    FigureTable *t = compare_table(
        r,
        arena_printf(
            r->arena,
            "Hours of work on the deck; a crew of %d, all hours %.0f %% either way; not what "
            "all share, not waiting",
            list->persons, 100 * list->spread_1),
        "");
    const char *crew[1 + WAY_COUNT] = {"crew hours"}, *range[1 + WAY_COUNT] = {"  between"},
                         *persons[1 + WAY_COUNT] = {"man-hours"};
    for (int w = 0; w < WAY_COUNT; w++) {
        const double hours = 24 * list->crew_day[w];
        crew[1 + w] = arena_printf(r->arena, "%.0f", hours);
        range[1 + w] = arena_printf(r->arena, "%.0f and %.0f", hours * (1 - list->spread_1),
                                    hours * (1 + list->spread_1));
        persons[1 + w] = arena_printf(r->arena, "%.0f", hours * list->persons);
    }
    figure_table_row(t, crew);
    figure_table_row(t, range);
    figure_table_row(t, persons);
    document_table(r, t);
}

void compare_quantities(Report *r, const CompareAnswer *c)
{
    FigureTable *t = list_table(r, "What each way is built of, the whole bridge; panels, haunches, "
                                   "pockets, barriers and overlay are left out");
    rows(r, t, c->quantities, false);
    document_table(r, t);
    hours_table(r, c->quantities);
    t = list_table(r, "The crew's hours, each a product of the file's times (ways.work)");
    rows(r, t, c->quantities, true);
    document_table(r, t);
}
