/* Surveys that are wrong are refused with their place, or repaired with a word. */
#include "seating_case.h"

#include <string.h>

static const char grade[] = "profile:\n"
                            "  points:\n"
                            "    - {station: 900 ft, elevation: 90 ft}\n"
                            "    - {station: 1400 ft, elevation: 105 ft}\n"
                            "  left_end: 1000 ft\n";

static double top_ft(double x_ft, int girder)
{
    return 93 + 0.03 * x_ft - 11.0 / 12 + 0.004 * sin(0.7 * x_ft + girder);
}

/* Rows of both girders at tenth points; `line` (from 2) is replaced by `fresh`, "" leaves it out. */
static char *rows(Arena *arena, int line, const char *fresh)
{
    Text text = text_start(arena);
    text_add(&text, "station [ft],girder,elevation [ft],note\n");
    for (int i = 0; i < 22; i++) {
        const int g = i / 11;
        const double x_ft = 23.0 * (i % 11);
        if (i + 2 != line)
            text_printf(&text, "%.3f,G%d,%.4f,\n", 1000 + x_ft, g + 1, top_ft(x_ft, g));
        else if (fresh[0])
            text_printf(&text, "%s\n", fresh);
    }
    return text.bytes;
}

static void refused(int line, const char *fresh, const char *words, int at_line)
{
    Arena *arena = arena_create((size_t)1 << 26);
    SeatCase c;
    seat_open(&c, grade, rows(arena, line, fresh), 1e7, (double)NAN);
    assert_null(c.plan);
    bool found = false;
    for (int i = 0; i < c.found.count && !found; i++)
        found = strstr(c.found.item[i].text, words) &&
                (at_line == 0 || c.found.item[i].from.line == at_line);
    if (!found)
        fail_msg("wanted '%s' in line %d, got '%s' in line %d", words, at_line,
                 c.found.item[0].text, c.found.item[0].from.line);
    seat_close(&c);
    arena_free(arena);
}

static void told(const char *survey, const char *words)
{
    SeatCase c;
    seat_open(&c, grade, survey, 1e7, (double)NAN);
    for (int i = 0; i < c.found.count; i++) print_error("%s\n", c.found.item[i].text);
    assert_non_null(c.plan);
    bool found = false;
    for (int i = 0; i < c.plan->remark_count; i++)
        found = found || strstr(c.plan->remark[i], words);
    if (!found) fail_msg("nothing says '%s'", words);
    seat_close(&c);
}

static void test_good_survey_is_taken_without_a_word(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    SeatCase c;
    seat_open(&c, grade, rows(arena, 0, ""), 1e7, (double)NAN);
    assert_non_null(c.plan);
    assert_int_equal(c.plan->reading_count, 22);
    for (int i = 0; i < c.plan->remark_count; i++)
        assert_null(strstr(c.plan->remark[i], "survey:"));
    seat_close(&c);
    arena_free(arena);
}

static void test_what_is_no_survey_is_refused(void **state)
{
    (void)state;
    seat_refused(grade, "", "nothing in it");
    seat_refused(grade, "# only a remark\n", "nothing in it");
    seat_refused(grade, "station [ft],girder,elevation [ft]\n", "no row");
    seat_refused(grade, "station,girder,elevation [ft]\n1,G1,2\n", "needs a length's unit");
    seat_refused(grade, "station [kip],girder,elevation [ft]\n1,G1,2\n", "needs a length's unit");
    seat_refused(grade, "station [ft],girder [ft],elevation [ft]\n1,G1,2\n", "no unit");
    seat_refused(grade, "station [ft],girder,elevation [ft],staff\n1,G1,2,3\n",
                 "none of the columns");
    seat_refused(grade, "station [ft],station [ft],girder,elevation [ft]\n1,1,G1,2\n", "already");
    seat_refused(grade, "girder,elevation [ft]\nG1,2\n", "says where a point lies");
    seat_refused(grade, "distance [ft],girder,elevation [ft]\n1,G1,2\n", "says where a point lies");
    seat_refused(grade, "station [ft],elevation [ft]\n1,2\n", "no column gives the girder");
}

static void test_cells_that_are_no_values_are_refused_with_their_line(void **state)
{
    (void)state;
    refused(5, "1069,G1,94.1", "3 cells where the head has 4", 5);
    refused(6, "1092,G1,,", "the cell is empty", 6);
    refused(6, "1092,G1,95.x,", "is no number", 6);
    refused(6, "1092,G1,9.5e1,", "is no number", 6);
    refused(6, "1092,G1,nan,", "is no number", 6);
    refused(6, "1092,G3,95,", "is no girder", 6);
    refused(6, "1092,G0,95,", "is no girder", 6);
    refused(6, "10+2,G1,95,", "is no number", 6);
    refused(6, "\"1092,G1,95,", "not closed", 6);
}

static void test_gaps_and_missing_ends_are_refused(void **state)
{
    (void)state;
    refused(7, "", "nothing is read on G1 between 92.0 ft and 138.0 ft", 0);
    refused(2, "", "left end is missing", 0);
    refused(23, "", "right end is missing", 0);
}

static void test_outlier_is_named_and_may_be_confirmed(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    refused(8, "1138,G1,97.22,", "above what its neighbours say", 8); /* half a foot */
    refused(2, "1000,G1,91.58,", "below what its neighbours say", 2); /* at an end */
    told(rows(arena, 8, "1138,G1,96.48,Confirmed by a second set-up"), "1 readings are confirmed");
    arena_free(arena);
}

static void test_doubled_points_agree_or_are_refused(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    refused(6, "1069,G1,94.55,", "differ by", 5);
    told(rows(arena, 6,
              arena_printf(arena, "1092,G1,%.4f,\n1092,G1,%.4f,again", top_ft(92, 0),
                           top_ft(92, 0) + 0.006)),
         "1 points are read more than once and agree");
    arena_free(arena);
}

static void test_shuffled_rows_are_sorted_with_a_word(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    Text good = text_start(arena);
    text_add(&good, "# shuffled\nElevation [ft],Girder,Station [ft]\n");
    for (int i = 0; i < 22; i++) {
        const int k = (7 * i + 3) % 22;
        const double x_ft = 23.0 * (k % 11);
        text_printf(&good, "%.4f,%d,%d+%05.2f\n", top_ft(x_ft, k / 11), k / 11 + 1,
                    (int)(1000 + x_ft) / 100, fmod(1000 + x_ft, 100));
    }
    told(good.bytes, "they were sorted");
    SeatCase one, two;
    seat_open(&one, grade, rows(arena, 0, ""), 1e7, (double)NAN);
    seat_open(&two, grade, good.bytes, 1e7, (double)NAN);
    for (int i = 0; i < one.plan->line_count * 2; i++)
        check_near(one.plan->seat[i].height_m, two.plan->seat[i].height_m, 0, 1e-9,
                   "law: order does not matter");
    seat_close(&one);
    seat_close(&two);
    arena_free(arena);
}

/* The same survey under wrong heads: `station` and `elevation` are factors on the numbers. */
static char *scaled(Arena *arena, const char *head, double station, double elevation, double plus)
{
    Text text = text_start(arena);
    text_printf(&text, "%s\n", head);
    for (int i = 0; i < 22; i++) {
        const double x_ft = 23.0 * (i % 11);
        text_printf(&text, "%.4f,%d,%.4f\n", (1000 + x_ft) * station, i / 11 + 1,
                    top_ft(x_ft, i / 11) * elevation + plus);
    }
    return text.bytes;
}

static void test_wrong_units_and_datum_are_named(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    const char *feet = "station [ft],girder,elevation [ft]";
    seat_refused(grade, scaled(arena, feet, 12, 1, 0), "inches under a head in feet");
    seat_refused(grade, scaled(arena, feet, 0.3048, 1, 0), "metres under a head in feet");
    seat_refused(grade, scaled(arena, feet, 304.8, 1, 0), "millimetres under a head in feet");
    seat_refused(grade, scaled(arena, "station [m],girder,elevation [ft]", 304.8, 1, 0),
                 "millimetres under a head in metres");
    seat_refused(grade, scaled(arena, "station [m],girder,elevation [ft]", 1, 1, 0),
                 "feet under a head in metres");
    seat_refused(grade, scaled(arena, feet, 1, 12, 0), "inches under a head in feet");
    seat_refused(grade, scaled(arena, feet, 1, 0.3048, 0), "metres under a head in feet");
    seat_refused(grade, scaled(arena, "station [ft],girder,elevation [m]", 1, 304.8, 0),
                 "millimetres under a head in metres");
    seat_refused(grade, scaled(arena, feet, 1, 1, 2.5), "another datum");
    seat_refused("profile:\n  points:\n    - {station: 0 ft, elevation: 93 ft}\n    - {station: "
                 "400 ft, elevation: 105 ft}\n",
                 scaled(arena, feet, 1, 1, 0), "profile.left_end");
    arena_free(arena);
}

static void test_offsets_give_the_middle_and_the_roll(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    Text text = text_start(arena);
    text_add(&text, "station [ft],girder,elevation [ft],offset [in]\n");
    for (int i = 0; i < 44; i++) {
        const double x_ft = 23.0 * (i / 2 % 11), offset_in = i % 2 ? 16.5 : -11.2;
        text_printf(&text, "%.3f,%d,%.6f,%.2f\n", 1000 + x_ft, i / 22 + 1,
                    top_ft(x_ft, i / 22) + 0.013 * offset_in / 12, offset_in);
    }
    SeatCase c;
    seat_open(&c, grade, text.bytes, 1e7, (double)NAN);
    assert_non_null(c.plan);
    assert_int_equal(c.plan->reading_count, 22);
    for (int i = 0; i < 22; i++) {
        check_near(c.plan->reading[i].top_m, foot(top_ft(23.0 * (i % 11), i / 11)), 0, 1e-6,
                   "closed form: straight through both readings");
        check_near(c.plan->reading[i].roll_1, 0.013, 1e-4, 0, "closed form: rise over width");
    }
    const Seat *s = seat_at(c.plan, "R1-left", 0);
    check_near(s->thick_m - s->height_m, 0.013 * inch(20), 1e-3, 0,
               "closed form: roll times half of a flange of 40 in");
    check_near(s->height_m - s->thin_m, 0.013 * inch(20), 1e-3, 0,
               "law: as much on the other side");
    seat_close(&c);
    seat_refused(grade, "station [ft],girder,elevation [ft],offset [in]\n1000,1,92,25\n",
                 "is beside it");
    arena_free(arena);
}

static void test_readings_beside_the_girder_are_refused(void **state)
{
    (void)state;
    refused(12, "1238,G1,99.3,", "is beside it", 12);
    refused(12, "990,G1,92.3,", "is beside it", 12);
}

static void test_days_beside_the_life_are_refused(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 26);
    SeatCase c;
    seat_open(&c, grade, rows(arena, 0, ""), 1e7, (double)NAN);
    const double bad[] = {1, 1e6};
    for (int i = 0; i < 2; i++) {
        const SeatPlan *plan = NULL;
        Diagnostics found = {0};
        Error err = {0};
        const SeatWish wish = {c.file.bridge, &c.survey, NULL, 1e7, bad[i]};
        assert_int_equal(seating_plan(&wish, c.arena, c.scratch, &plan, &found, &err),
                         STATUS_BAD_INPUT);
        assert_non_null(strstr(err.text, "--day"));
    }
    seat_close(&c);
    arena_free(arena);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good_survey_is_taken_without_a_word),
        cmocka_unit_test(test_what_is_no_survey_is_refused),
        cmocka_unit_test(test_cells_that_are_no_values_are_refused_with_their_line),
        cmocka_unit_test(test_gaps_and_missing_ends_are_refused),
        cmocka_unit_test(test_outlier_is_named_and_may_be_confirmed),
        cmocka_unit_test(test_doubled_points_agree_or_are_refused),
        cmocka_unit_test(test_shuffled_rows_are_sorted_with_a_word),
        cmocka_unit_test(test_wrong_units_and_datum_are_named),
        cmocka_unit_test(test_offsets_give_the_middle_and_the_roll),
        cmocka_unit_test(test_readings_beside_the_girder_are_refused),
        cmocka_unit_test(test_days_beside_the_life_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
