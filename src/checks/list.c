/* The list of rows: ratio, state, order. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cite.h"

const char *check_state_name(CheckState state)
{
    static const char *const name[CHECK_STATE_COUNT] = {"pass", "fail", "unproven", "told"};
    assert(state < CHECK_STATE_COUNT);
    return name[state];
}

static void keep_failure(CheckList *list, const Sheet *sheet)
{
    if (sheet->status == STATUS_OK || list->status != STATUS_OK) return;
    list->status = sheet->status;
    list->err = sheet->err;
}

static CheckRow *new_row(CheckList *list, const Sheet *sheet, const char *name)
{
    if (list->count == list->room) {
        const int room = list->room ? 2 * list->room : 64;
        CheckRow *more = ARENA_NEW(list->arena, CheckRow, room);
        if (list->count) memcpy(more, list->row, sizeof *more * (size_t)list->count);
        list->row = more;
        list->room = room;
    }
    Sheet *kept = ARENA_NEW(list->arena, Sheet, 1);
    *kept = *sheet;
    keep_failure(list, sheet);
    CheckRow *row = &list->row[list->count++];
    *row = (CheckRow){.name = arena_text(list->arena, name), .part = NULL, .sheet = kept};
    check_place(row, NULL, NULL, NULL, NULL);
    return row;
}

/* Ratios that print as 1.00 are met: the thrust itself is found to 0.02 %. */
static const double met_1 = 1e-3;

static bool meets(double demand, double capacity)
{
    return demand <= capacity + met_1 * fmax(capacity, 0);
}

static const char not_known[] = "the capacity is not known";

static double ratio_of(double demand, double capacity)
{
    if (isnan(capacity)) return NAN;
    if (capacity > 0) return fmax(demand, 0) / capacity;
    return demand <= capacity ? 0 : INFINITY;
}

CheckRow *check_add(CheckList *list, const CheckCase *with, const Sheet *sheet, const char *name,
                    double demand_SI, double capacity_SI, DimensionId dimension)
{
    (void)with;
    CheckRow *row = new_row(list, sheet, name);
    row->demand = demand_SI;
    row->capacity = capacity_SI;
    row->dimension = dimension;
    row->ratio_1 = ratio_of(demand_SI, capacity_SI);
    row->state = CHECK_UNPROVEN;
    if (isnan(capacity_SI))
        row->why = not_known;
    else
        row->state = meets(demand_SI, capacity_SI) ? CHECK_PASS : CHECK_FAIL;
    return row;
}

CheckRow *check_tell(CheckList *list, const CheckCase *with, const Sheet *sheet, const char *name,
                     double value_SI, DimensionId dimension)
{
    (void)with;
    CheckRow *row = new_row(list, sheet, name);
    row->demand = value_SI;
    row->capacity = row->ratio_1 = NAN;
    row->dimension = dimension;
    row->state = CHECK_TOLD;
    return row;
}

static const char *text_or_empty(const char *text) { return text ? text : ""; }

void check_place(CheckRow *row, const char *line, const char *where, const char *when,
                 const char *clause)
{
    row->line = text_or_empty(line);
    row->where = text_or_empty(where);
    row->when = text_or_empty(when);
    row->clause = text_or_empty(clause);
}

static bool was_given(const Bridge *bridge, const char *path)
{
    const BridgeValue *value = path ? bridge_value_at(bridge, path) : NULL;
    return value && value->origin == ORIGIN_GIVEN;
}

void check_needs(CheckRow *row, const CheckCase *with, const char *path, const char *reason)
{
    const bool unknown = row->why == not_known;
    if (row->state != CHECK_PASS && !unknown) return;
    if (!unknown && was_given(with->bridge, path)) return;
    row->state = CHECK_UNPROVEN;
    row->why = path ? arena_printf(with->arena, "%s: %s", path, reason) : reason;
}

/* ---- all checks ---- */

static int rank(CheckState state)
{
    static const int order[CHECK_STATE_COUNT] = {
        [CHECK_FAIL] = 0, [CHECK_UNPROVEN] = 1, [CHECK_PASS] = 2, [CHECK_TOLD] = 3};
    return order[state];
}

static double sort_ratio(const CheckRow *row) { return isnan(row->ratio_1) ? -1 : row->ratio_1; }

/* Rows without a ratio behind the others of their state; otherwise as they were made. */
static bool before(const CheckRow *a, const CheckRow *b)
{
    if (rank(a->state) != rank(b->state)) return rank(a->state) < rank(b->state);
    return sort_ratio(a) > sort_ratio(b);
}

static void sort(CheckList *list) /* stable */
{
    for (int i = 1; i < list->count; i++) {
        const CheckRow moved = list->row[i];
        int k = i;
        for (; k > 0 && before(&moved, &list->row[k - 1]); k--) list->row[k] = list->row[k - 1];
        list->row[k] = moved;
    }
}

static Status run_one(const Check *check, const CheckCase *with, CheckList *list, Error *err)
{
    const int first = list->count;
    TRY(check->run(with, list, err));
    for (int i = first; i < list->count; i++)
        if (!list->row[i].part) list->row[i].part = check->part;
    if (list->status == STATUS_OK) return STATUS_OK;
    return error_set(err, list->status, "%s: the sheet of a check does not compute: %s",
                     check->name, list->err.text);
}

Status checks_run(const CheckCase *with, const CheckList **list, Error *err)
{
    CheckCase made = *with;
    CheckList *out = ARENA_NEW(with->arena, CheckList, 1);
    out->arena = with->arena;
    TRY(kit_share(&made, err));
    for (int i = 0; i < checks_count; i++) TRY(run_one(&checks_table[i], &made, out, err));
    cite_all(&made, out);
    if (out->status != STATUS_OK)
        return error_set(err, out->status, "a working does not compute: %s", out->err.text);
    sort(out);
    *list = out;
    return STATUS_OK;
}

CheckState checks_verdict(const CheckList *list)
{
    CheckState worst = CHECK_PASS;
    for (int i = 0; i < list->count; i++) {
        if (list->row[i].state == CHECK_FAIL) return CHECK_FAIL;
        if (list->row[i].state == CHECK_UNPROVEN) worst = CHECK_UNPROVEN;
    }
    return worst;
}
