/* Framework of the checks: states, order, verdict, inputs that matter. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "checks_case.h"

static const char *const steel = "examples/steel-continuous.yaml";

/* A list of its own with the bridge of an example, for rows that no check made. */
typedef struct Loose {
    BridgeFile file;
    CheckCase with;
    CheckList list;
    Sheet sheet;
} Loose;

static void loose_open(Loose *l)
{
    memset(l, 0, sizeof *l);
    bridge_from_example(&l->file, steel);
    l->with = (CheckCase){.bridge = l->file.bridge, .arena = l->file.arena};
    l->list.arena = l->file.arena;
    l->sheet = sheet_start("a sheet", l->file.arena);
    sheet_given(&l->sheet, "F", 12345.6, "kN", "a force");
}

static void test_demand_over_capacity_is_the_ratio(void **state)
{
    (void)state;
    Loose l;
    loose_open(&l);
    const CheckRow *row = check_add(&l.list, &l.with, &l.sheet, "a", 2.385, 4.77, DIM_FORCE);
    check_near(row->ratio_1, 0.5, 1e-15, 0, "closed form: 2.385/4.77");
    assert_int_equal(row->state, CHECK_PASS);
    row = check_add(&l.list, &l.with, &l.sheet, "b", 4.8, 4.77, DIM_FORCE);
    assert_int_equal(row->state, CHECK_FAIL);
    row = check_add(&l.list, &l.with, &l.sheet, "c", -3.1, 4.77, DIM_FORCE);
    check_near(row->ratio_1, 0, 0, 0, "law: nothing is demanded");
    row = check_add(&l.list, &l.with, &l.sheet, "d", 1.7, -0.2, DIM_FORCE);
    assert_int_equal(row->state, CHECK_FAIL);
    assert_true(isinf(row->ratio_1));
    bridge_close(&l.file);
}

static void test_missing_capacity_is_unproven(void **state)
{
    (void)state;
    Loose l;
    loose_open(&l);
    CheckRow *row = check_add(&l.list, &l.with, &l.sheet, "a", 2.385, (double)NAN, DIM_FORCE);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    check_needs(row, &l.with, "panels.anchor_connectors", "give it");
    assert_non_null(strstr(row->why, "panels.anchor_connectors"));
    bridge_close(&l.file);
}

static void test_default_that_matters_is_unproven_and_given_is_not(void **state)
{
    (void)state;
    Loose l;
    loose_open(&l);
    CheckRow *row = check_add(&l.list, &l.with, &l.sheet, "a", 2.385, 4.77, DIM_FORCE);
    check_needs(row, &l.with, "shims.friction", "it is given in the example");
    assert_int_equal(row->state, CHECK_PASS);
    check_needs(row, &l.with, "shims.vertical", "it is a default in the example");
    assert_int_equal(row->state, CHECK_UNPROVEN);
    row = check_add(&l.list, &l.with, &l.sheet, "b", 9, 4.77, DIM_FORCE);
    check_needs(row, &l.with, "shims.vertical", "it is a default in the example");
    assert_int_equal(row->state, CHECK_FAIL); /* a failure stays one */
    bridge_close(&l.file);
}

static void test_verdict_is_the_worst_and_told_takes_no_part(void **state)
{
    (void)state;
    Loose l;
    loose_open(&l);
    assert_int_equal(checks_verdict(&l.list), CHECK_PASS);
    check_tell(&l.list, &l.with, &l.sheet, "t", 3.3, DIM_FORCE);
    assert_int_equal(checks_verdict(&l.list), CHECK_PASS);
    check_add(&l.list, &l.with, &l.sheet, "u", 1, (double)NAN, DIM_FORCE);
    assert_int_equal(checks_verdict(&l.list), CHECK_UNPROVEN);
    check_add(&l.list, &l.with, &l.sheet, "f", 2, 1, DIM_FORCE);
    assert_int_equal(checks_verdict(&l.list), CHECK_FAIL);
    bridge_close(&l.file);
}

static bool in_order(const CheckRow *a, const CheckRow *b)
{
    static const int rank[CHECK_STATE_COUNT] = {
        [CHECK_FAIL] = 0, [CHECK_UNPROVEN] = 1, [CHECK_PASS] = 2, [CHECK_TOLD] = 3};
    if (rank[a->state] != rank[b->state]) return rank[a->state] < rank[b->state];
    return isnan(b->ratio_1) || a->ratio_1 >= b->ratio_1;
}

static void test_rows_stand_worst_first_and_are_complete(void **state)
{
    (void)state;
    ChecksCase c;
    const char *path = getenv("CLENCH_EXAMPLE");
    checks_from_example(&c, path ? path : steel, 0, NULL, NULL);
    if (getenv("CLENCH_PRINT")) checks_print(&c);
    assert_true(c.list->count > 10);
    for (int i = 0; i < c.list->count; i++) {
        const CheckRow *row = &c.list->row[i];
        if (i > 0) assert_true(in_order(&c.list->row[i - 1], row));
        assert_true(row->name[0] && row->part[0] && row->sheet->count > 0);
        assert_int_equal(row->sheet->status, STATUS_OK);
        assert_true(row->state == CHECK_TOLD || row->clause[0]);
        assert_true((row->state == CHECK_UNPROVEN) == (row->why != NULL));
    }
    checks_close(&c);
}

/* Sheets are worked in kip and inch or in meganewton and metre, empirical formulas convert: every row of
 * the same bridge comes out alike. */
static void test_units_of_a_sheet_do_not_change_a_check(void **state)
{
    (void)state;
    const char *const paths[] = {steel, "examples/single-tub.yaml", "examples/causeway.yaml",
                                 "examples/made-continuous.yaml"};
    for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
        ChecksCase us, si;
        checks_from_example(&us, paths[i], 0, NULL, NULL);
        checks_from_example(&si, paths[i], 0, "units: US", "units: SI");
        assert_int_equal(us.list->count, si.list->count);
        for (int n = 0; n < us.list->count; n++) {
            const CheckRow *row = &us.list->row[n], *same = NULL;
            for (int m = 0; m < si.list->count; m++) {
                const CheckRow *other = &si.list->row[m];
                if (strcmp(row->name, other->name) == 0 && strcmp(row->line, other->line) == 0 &&
                    fabs(row->demand - other->demand) <= 1e-6 * fabs(row->demand) + 1e-6)
                    same = other;
            }
            if (!same) fail_msg("%s, %s, %s", row->name, row->line, row->where);
            if (!same) continue;
            assert_int_equal(same->state, row->state);
            if (isfinite(row->capacity))
                check_near(same->capacity, row->capacity, 1e-6, 0, "law: units do not matter");
        }
        checks_close(&us);
        checks_close(&si);
    }
}

static void test_continuity_that_is_not_said_is_unproven(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, steel, 0, NULL, NULL);
    assert_int_equal(checks_row(&c, "joints: average after losses", NULL)->state, CHECK_PASS);
    checks_close(&c);
    checks_from_example(&c, steel, 0, "piers:\n  connection: continuous\n", "");
    const CheckRow *row = checks_row(&c, "joints: average after losses", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "piers.connection"));
    checks_close(&c);
}

/* What exceeds its limit fails, whatever is unproven behind it: here the truck beside the file's axles. */
static void test_exceeded_limit_fails_beside_axles_of_the_files_own(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/two-span-metric.yaml", 0, NULL, NULL);
    const CheckRow *row = checks_row(&c, "fatigue of bottom flange details", NULL);
    assert_true(row->ratio_1 > 1.001);
    assert_int_equal(row->state, CHECK_FAIL);
    assert_int_equal(checks_verdict(c.list), CHECK_FAIL);
    for (int i = 0; i < c.list->count; i++)
        assert_false(c.list->row[i].state == CHECK_UNPROVEN && isfinite(c.list->row[i].ratio_1) &&
                     c.list->row[i].ratio_1 > 1.001);
    row = checks_row(&c, "fatigue of the deck in compression", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "live.model"));
    checks_close(&c);
}

/* What only a check can see in a file: a panel that its crane or truck does not carry, pockets too far apart,
 * connectors that end in the haunch. A strand or a tie outside the girder is refused: test_bridge.c. */
static void test_values_that_cannot_be_are_seen_by_their_check(void **state)
{
    const struct {
        const char *more, *row;
    } bad[] = {{"handling: {crane: 40 kip}\nshims:\n", "crane"},
               {"handling: {truck: 20 kip}\nshims:\n", "weight of a panel on the road"},
               {"connectors: {spacing: 6 ft}\nshims:\n", "spacing of pockets"},
               {"connectors: {height: 3 in}\nshims:\n", "reach of connectors into the panel"}};
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ChecksCase c;
        checks_from_example(&c, "examples/causeway.yaml", 1000 * 4448.2216, "shims:\n",
                            bad[i].more);
        const CheckRow *row = checks_row(&c, bad[i].row, NULL);
        assert_int_equal(row->state, CHECK_FAIL);
        assert_int_equal(checks_verdict(c.list), CHECK_FAIL);
        checks_close(&c);
    }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_demand_over_capacity_is_the_ratio),
        cmocka_unit_test(test_missing_capacity_is_unproven),
        cmocka_unit_test(test_default_that_matters_is_unproven_and_given_is_not),
        cmocka_unit_test(test_verdict_is_the_worst_and_told_takes_no_part),
        cmocka_unit_test(test_rows_stand_worst_first_and_are_complete),
        cmocka_unit_test(test_exceeded_limit_fails_beside_axles_of_the_files_own),
        cmocka_unit_test(test_continuity_that_is_not_said_is_unproven),
        cmocka_unit_test(test_values_that_cannot_be_are_seen_by_their_check),
        cmocka_unit_test(test_units_of_a_sheet_do_not_change_a_check)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
