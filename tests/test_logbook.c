/* A jacking job from its log: the plan comes back to the last bit, words become numbers, rows of loggers. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_file.h"
#include "clench/logbook.h"
#include "clench/text.h"

typedef struct Fixture {
    BridgeFile file;
    Arena *arena, *scratch;
    SiteDay day;
} Fixture;

static Fixture shared;

static int setup(void **state)
{
    (void)state;
    Fixture *const f = &shared;
    const BridgeLine *line;
    const ThrustAnswer *answer;
    const JackPlan *plan;
    int count;
    Error err = {0};
    f->arena = arena_create((size_t)2 << 30);
    f->scratch = arena_create((size_t)1 << 30);
    bridge_from_example(&f->file, "examples/steel-continuous.yaml");
    check_status(bridge_lines(f->file.bridge, 1, f->arena, &line, &count, &err), STATUS_OK, &err);
    const ThrustWish wish = {.settings = stage_settings_default()};
    check_status(thrust_find(line, count, &wish, f->arena, f->scratch, &answer, &err), STATUS_OK,
                 &err);
    const JackWish jacks = {f->file.bridge, answer, 0};
    check_status(jacking_plan(&jacks, f->arena, f->scratch, &plan, &err), STATUS_OK, &err);
    check_status(logbook_points("gap -12 ft, gap 12 ft, slip left, rise 1", plan, &f->day, &err),
                 STATUS_OK, &err);
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    arena_free(shared.arena);
    arena_free(shared.scratch);
    bridge_close(&shared.file);
    return 0;
}

static LogbookRecord plan_record(Arena *arena)
{
    return (LogbookRecord){.number = 1,
                           .id = "plan",
                           .kind = "plan",
                           .at = "now",
                           .body = logbook_plan_body(&shared.day, "n", "f", arena)};
}

static void test_the_plan_comes_back_to_the_last_bit(void **state)
{
    (void)state;
    Logbook book;
    Error err = {0};
    const LogbookRecord record = plan_record(shared.arena);
    check_status(logbook_load(&record, 1, shared.arena, &book, &err), STATUS_OK, &err);
    assert_string_equal(logbook_plan_body(&book.day, "n", "f", shared.arena), record.body);
    assert_memory_equal(book.day.point, shared.day.point, sizeof book.day.point);
    const JackPlan *const plan = shared.day.plan, *const back = book.day.plan;
    assert_memory_equal(back->step, plan->step, sizeof plan->step);
    assert_memory_equal(back->point, plan->point, sizeof plan->point);
    assert_memory_equal(&back->alarm, &plan->alarm, sizeof plan->alarm);
    for (int k = 0; k <= 20; k++) {
        const double force_N = 0.06 * k * plan->thrust_N;
        const JackExpect a = jacking_expect(plan, force_N), b = jacking_expect(back, force_N);
        assert_memory_equal(&a.opening, &b.opening, sizeof a.opening);
        assert_true(a.error_N == b.error_N && a.slope_m_per_N == b.slope_m_per_N);
    }
}

static void test_a_plan_that_lacks_something_is_refused(void **state)
{
    (void)state;
    Logbook book;
    Error err = {0};
    LogbookRecord record = plan_record(shared.arena);
    static const char *const key[] = {"\"gap_m\"",  "\"steps\"",   "\"seated_N\"",
                                      "\"alarms\"", "\"sides_m\"", "\"division_m\""};
    for (size_t i = 0; i < sizeof key / sizeof *key; i++) {
        char *const body = arena_text(shared.arena, plan_record(shared.arena).body);
        char *const at = strstr(body, key[i]);
        assert_non_null(at);
        at[1] = 'X';
        record.body = body;
        check_status(logbook_load(&record, 1, shared.arena, &book, &err), STATUS_BAD_INPUT, &err);
    }
}

/* closed form: seconds since 1970 by the system's date: date -u -d 2031-05-04T09:30:00Z +%s is 1935653400,
 * of 2032-02-29T23:59:59Z 1961711999, of 1970-01-01 0. */
static void test_times(void **state)
{
    (void)state;
    static const struct {
        const char *text, *zone;
        double seconds;
    } good[] = {{"2031-05-04T09:30:00Z", NULL, 1935653400.0},
                {"2031-05-04 09:30", "UTC", 1935653400.0},
                {"2031-05-04T04:30:00-05:00", NULL, 1935653400.0},
                {"2031-05-04T11:30:00.25", "+02:00", 1935653400.25},
                {"2032-02-29T23:59:59Z", NULL, 1961711999.0},
                {"1970-01-01T00:00:00Z", NULL, 0}};
    static const char *const bad[] = {"2031-05-04T09:30:00",   "2031-02-29T09:30:00Z",
                                      "2031-13-04T09:30:00Z",  "2031-05-04T24:00:00Z",
                                      "2031-05-04T09:60:00Z",  "2031-05-04",
                                      "5/4/2031 09:30Z",       "2031-05-04T09:30:00+2",
                                      "2031-05-04T09:30:00ZZ", ""};
    double day;
    Error err = {0};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        check_status(logbook_time(good[i].text, good[i].zone, &day, &err), STATUS_OK, &err);
        check_near(86400 * day, good[i].seconds, 0, 1e-4, "closed form: seconds since 1970");
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        check_status(logbook_time(bad[i], NULL, &day, &err), STATUS_BAD_INPUT, &err);
}

static void check_words(LogbookWords words, const char *key)
{
    const char *body;
    Error err = {0};
    check_status(logbook_reading_body(&words, &shared.day, shared.arena, &body, &err),
                 STATUS_BAD_INPUT, &err);
    assert_string_equal(err.key, key);
}

static void test_words_that_are_no_reading_are_refused(void **state)
{
    (void)state;
    const LogbookWords good = {
        .time = "2031-05-04T09:30:00Z", .step = "1", .pressure = {"2000 psi"}};
    LogbookWords w = good;
    const char *body;
    Error err = {0};
    check_status(logbook_reading_body(&w, &shared.day, shared.arena, &body, &err), STATUS_OK, &err);
    w.step = "99", check_words(w, "step");
    w.step = NULL, check_words(w, "step");
    w = good, w.time = NULL, check_words(w, "time");
    w = good, w.phase = "up", check_words(w, "phase");
    w = good, w.pressure[0] = "2000", check_words(w, "pressure 1");
    w = good, w.pressure[JACK_SETS - 1] = "2000 psi", check_words(w, "pressure 8");
    w = good, w.move[1] = "2 psi", check_words(w, "move 2");
    w = good, w.move[4] = "2 in", check_words(w, "move 5");
    w = good, w.deck = "15 delta_degF", check_words(w, "deck");
    w = good, w.remark = "a\nb", check_words(w, "remark");
}

static Status rows_of(const char *csv, const char *map, LogbookRows *rows, Diagnostics *list)
{
    Node *root = NULL;
    const LogbookWords fixed = {.step = "3", .phase = "held"};
    if (map) {
        const Status status = yaml_read(map, strlen(map), shared.arena, &root, list);
        assert_int_equal(status, STATUS_OK);
    }
    *list = (Diagnostics){0};
    const LogbookSource source = {csv, strlen(csv), root, &fixed, "now", &shared.day};
    return logbook_import(&source, shared.arena, rows, list);
}

static void test_rows_of_a_logger(void **state)
{
    (void)state;
    LogbookRows rows;
    Diagnostics *const list = ARENA_NEW(shared.arena, Diagnostics, 1);
    const Status status =
        rows_of("Stamp [-05:00];\"Pump; A [psi]\";Gap left;Spare\r\n"
                "2031-05-04 04:30:00;2000;1.02;9\r\n"
                "2031-05-04 04:30:10;2010;;9\r\n"
                "2031-05-04 04:30:10;2010;;9\r\n"
                "2031-05-04 04:30:20;2020;-0.5;9\r\n"
                "2031-05-04 04:30:50;2050;1.0e0;9\r\n"
                "2031-05-04 04:30:50;2051;1.1;9\r\n",
                "{time: Stamp, pressure 1: 'Pump; A', move 2: 'Gap left [in]'}", &rows, list);
    for (int i = 0; i < list->count; i++) print_error("%s\n", list->item[i].text);
    assert_int_equal(status, STATUS_OK);
    assert_int_equal(rows.count, 5);
    assert_int_equal(rows.repeated, 1);
    assert_string_equal(
        rows.told.bytes,
        "columns not taken: Spare\n"
        "line 4: the same row stands above, left out\n"
        "line 6: 30 s after the row before, usual are 10 s: about 2 rows are missing\n"
        "line 7: same time as the row before, other values: both are kept\n");
    LogbookRecord record[6] = {plan_record(shared.arena)};
    memcpy(record + 1, rows.record, 5 * sizeof *record);
    for (int i = 1; i < 6; i++) record[i].number = i + 1;
    Logbook book;
    Error err = {0};
    check_status(logbook_load(record, 6, shared.arena, &book, &err), STATUS_OK, &err);
    assert_int_equal(book.count, 5);
    const SiteReading *const r = &book.value[0];
    assert_int_equal(r->step, 3);
    assert_int_equal(r->phase, SITE_HELD);
    check_near(r->pressure_Pa[0], 2000 * 6894.757, 1e-7, 0,
               "NIST Special Publication 811 (2008), Appendix B.8");
    check_near(r->move_m[1], 1.02 * 0.0254, 1e-12, 0,
               "NIST Special Publication 811 (2008), Appendix B.8");
    check_near(86400 * r->time_day, 1935653400, 0, 1e-4, "closed form: seconds since 1970");
    assert_true(isnan(r->move_m[0]) && isnan(book.value[1].move_m[1]));
}

/* What was struck does not come in again as good. */
static void test_struck_rows_of_an_export_are_left_out(void **state)
{
    (void)state;
    LogbookRows rows;
    Diagnostics *const list = ARENA_NEW(shared.arena, Diagnostics, 1);
    assert_int_equal(rows_of("struck by,time,pressure 1 [psi]\n-,2031-05-04T09:30:00Z,1\n"
                             "7,2031-05-04T09:31:00Z,2\n-,2031-05-04T09:32:00Z,3\n",
                             NULL, &rows, list),
                     STATUS_OK);
    assert_int_equal(rows.count, 2);
    assert_int_equal(rows.line[1], 4);
    assert_string_equal(rows.told.bytes, "line 3: struck, left out\n");
}

static void check_bad_rows(const char *csv, const char *map, int line, int column)
{
    LogbookRows rows = {.count = -1};
    Diagnostics *const list = ARENA_NEW(shared.arena, Diagnostics, 1);
    assert_int_equal(rows_of(csv, map, &rows, list), STATUS_BAD_INPUT);
    assert_int_equal(rows.count, -1);
    assert_true(list->count > 0);
    if (list->item[0].from.line != line || list->item[0].from.column != column)
        fail_msg("%s\n%d:%d: %s", csv, list->item[0].from.line, list->item[0].from.column,
                 list->item[0].text);
}

#define HEAD "time,pressure 1 [psi],move 1 [in]\n"

static void test_rows_with_an_error_are_refused_with_its_place(void **state)
{
    (void)state;
    check_bad_rows("", NULL, 1, 1);
    check_bad_rows("stamp,pressure 1 [psi]\n", NULL, 1, 1);
    check_bad_rows("time,pressure 1\n", NULL, 1, 6);
    check_bad_rows("time,pressure 1 [kip]\n", NULL, 1, 6);
    check_bad_rows("time,pressure 1 [psi],pressure 1 [psi]\n", NULL, 1, 23);
    check_bad_rows(HEAD "2031-05-04T09:30:00Z,2000\n", NULL, 2, 1);
    check_bad_rows(HEAD "2031-05-04T09:30:00,2000,1\n", NULL, 2, 1);
    check_bad_rows(HEAD "2031-05-04T09:30:00Z,2000,1\n2031-05-04T09:30:00Z,2000,x\n", NULL, 3, 27);
    check_bad_rows(HEAD "2031-05-04T09:30:00Z,\"2000\n", NULL, 2, 22);
    check_bad_rows(HEAD "2031-05-04T09:30:00Z,\"2000\"0,1\n", NULL, 2, 28);
    check_bad_rows(HEAD "2031-05-04T09:30:10Z,2000,1\n2031-05-04T09:30:00Z,2000,1\n", NULL, 3, 1);
    check_bad_rows(HEAD, "{time: Stamp}", 1, 1);
    check_bad_rows(HEAD, "{time: time, presure 1: 'pressure 1'}", 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_plan_comes_back_to_the_last_bit),
        cmocka_unit_test(test_a_plan_that_lacks_something_is_refused),
        cmocka_unit_test(test_times),
        cmocka_unit_test(test_words_that_are_no_reading_are_refused),
        cmocka_unit_test(test_rows_of_a_logger),
        cmocka_unit_test(test_struck_rows_of_an_export_are_left_out),
        cmocka_unit_test(test_rows_with_an_error_are_refused_with_its_place),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
