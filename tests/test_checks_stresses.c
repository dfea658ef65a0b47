/* Stresses of the stages as their sheets work them out: whoever types N, M, A, I and y of a sheet gets
 * the stress that the engine judged. */
#include <math.h>
#include <string.h>

#include "checks_case.h"

static bool has_symbol(const Sheet *sheet, const char *symbol)
{
    for (int i = 0; i < sheet->count; i++)
        if (sheet->line[i].symbol && strcmp(sheet->line[i].symbol, symbol) == 0) return true;
    return false;
}

static double by_hand(const Sheet *s)
{
    return sheet_value(s, "N") / sheet_value(s, "A") +
           sheet_value(s, "M") * sheet_value(s, "y") / sheet_value(s, "I");
}

/* The demand comes from the histories' fibre stress, the line from the forces of the part. */
static int check_rows(const ChecksCase *c, const char *begins, int sign, const char *result)
{
    int count = 0;
    for (int i = 0; i < c->list->count; i++) {
        const CheckRow *row = &c->list->row[i];
        if (strncmp(row->name, begins, strlen(begins)) != 0 || !has_symbol(row->sheet, "N"))
            continue;
        const char *permanent = has_symbol(row->sheet, "f_p") ? "f_p" : result;
        check_near(sheet_value(row->sheet, permanent), sign * by_hand(row->sheet), 1e-12, 1e-12,
                   "closed form: N / A + M y / I");
        if (row->demand > 0)
            check_near(sheet_SI(row->sheet, result), row->demand, 1e-9, 0,
                       "law: the sheet is what was judged");
        count++;
    }
    return count;
}

static void test_girder_stresses_can_be_recomputed(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 0, NULL, NULL);
    assert_true(check_rows(&c, "girder compression", -1, "f") >= 4);
    assert_true(check_rows(&c, "girder tension", 1, "f") >= 3);
    assert_true(check_rows(&c, "deck compression", -1, "f_c") >= 3);
    checks_close(&c);
}

static void test_joints_can_be_recomputed(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 0, NULL, NULL);
    int count = 0;
    for (int i = 0; i < c.list->count; i++) {
        const CheckRow *row = &c.list->row[i];
        if (strncmp(row->name, "joints: ", 8) != 0) continue;
        const Sheet *s = row->sheet;
        const double mean = -sheet_value(s, "N") / sheet_value(s, "A");
        const double wanted = has_symbol(s, "y") ? -by_hand(s) + sheet_value(s, "f_t") : mean;
        check_near(sheet_value(s, "f_there"), wanted, 1e-12, 1e-12, "closed form: plane section");
        check_near(sheet_SI(s, "f_there"), row->capacity, 1e-9, 0,
                   "law: the sheet is what was judged");
        count++;
    }
    assert_true(count >= 3);
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_girder_stresses_can_be_recomputed),
        cmocka_unit_test(test_joints_can_be_recomputed),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
