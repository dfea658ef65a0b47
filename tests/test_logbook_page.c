/* What the page on site gets: the day, verdict and pictures as JSON, words of its form. */
#include <stdlib.h>
#include <string.h>

#include "clench/logbook.h"
#include "site_log.h"

static const char *const zero_words[] = {"0 psi", "0 psi"};

/* The plan and readings of the case as records. */
typedef struct Records {
    LogbookRecord record[8];
    int count;
} Records;

static void records_start(Records *r)
{
    r->record[0] = (LogbookRecord){
        .id = "plan",
        .kind = "plan",
        .at = "now",
        .number = 1,
        .body = logbook_plan_body(&site_shared.day, "a bridge", "b.yaml", site_shared.scratch)};
    r->count = 1;
}

static void reading_add(Records *r, LogbookWords words)
{
    Error err = {0};
    const char *body = NULL;
    Arena *arena = site_shared.scratch;
    check_status(logbook_reading_body(&words, &site_shared.day, arena, &body, &err), STATUS_OK,
                 &err);
    r->record[r->count] = (LogbookRecord){.id = arena_printf(arena, "id%d", r->count),
                                          .kind = "reading",
                                          .at = "now",
                                          .number = r->count + 1,
                                          .body = body};
    r->count++;
}

static LogbookWords words_of(const char *time, const char *step, const char *const pressure[2],
                             const char *move)
{
    LogbookWords w = {.time = time, .step = step, .phase = "pump", .who = "A. B."};
    for (int i = 0; i < 2; i++) w.pressure[i] = pressure[i];
    for (int i = 0; i < 4; i++) w.move[i] = move;
    return w;
}

static Node *page_read(const Records *r, bool day)
{
    Error err = {0};
    Logbook book;
    Node *root = NULL;
    Text text = text_start(site_shared.scratch);
    check_status(logbook_load(r->record, r->count, site_shared.scratch, &book, &err), STATUS_OK,
                 &err);
    if (day)
        logbook_day_json(&book, site_shared.scratch, &text);
    else
        logbook_page_json(&book, 360, site_shared.scratch, &text);
    check_status(json_read(text.bytes, text.length, site_shared.scratch, &root, &err), STATUS_OK,
                 &err);
    return root;
}

static const char *said(const Node *map, const char *key)
{
    const Node *node = node_find(map, key);
    assert_non_null(node);
    return node->text;
}

static void test_the_day_says_what_to_read(void **state)
{
    (void)state;
    Records r;
    records_start(&r);
    const JackPlan *plan = site_shared.day.plan;
    const Node *day = page_read(&r, true);
    assert_string_equal(said(day, "name"), "a bridge");
    assert_int_equal(node_find(day, "sets")->count, 2);
    assert_int_equal(node_find(day, "dials")->count, 6);
    assert_string_equal(node_item(node_find(day, "dials"), 5)->text,
                        "slip of the right anchor panel");
    const Node *steps = node_find(day, "steps");
    assert_int_equal(steps->count, plan->step_count);
    const Node *step = node_item(steps, 2);
    check_near(strtod(said(step, "expected"), NULL) * 0.0254, plan->step[2].opening.expected_m, 0,
               0.5e-3 * 0.0254, "law: printed to a thousandth of an inch");
    check_near(strtod(said(step, "pressure"), NULL) * 6894.757293168361, plan->step[2].pressure_Pa,
               0, 0.5 * 6895, "law: printed to a psi");
    assert_true(node_find(day, "cautions")->count >= 3);
}

static void test_dials_start_where_the_zero_reading_has_them(void **state)
{
    (void)state;
    Records r;
    records_start(&r);
    assert_int_equal(node_find(page_read(&r, false), "dials")->count, 0);
    reading_add(&r, words_of("2031-05-04T05:00:00Z", "0", zero_words, "0.250 in"));
    const Node *page = page_read(&r, false);
    const Node *dial = node_item(node_item(node_find(page, "dials"), 3), 1);
    const JackBand *band = &site_shared.day.plan->step[3].opening;
    check_near(strtod(said(dial, "low"), NULL), 0.25 + band->low_m / 0.0254, 0, 0.5001e-3,
               "closed form: the dial's zero and the plan's opening");
    check_near(strtod(said(dial, "high"), NULL), 0.25 + band->high_m / 0.0254, 0, 0.5001e-3,
               "closed form: the dial's zero and the plan's opening");
    const Node *slip = node_item(node_item(node_find(page, "dials"), 3), 4);
    assert_true(node_find(slip, "low")->plain); /* null: its zero was not read */
}

/* A dial that was set anew counts from where it was set to. */
static void test_dials_that_were_set_anew_count_from_there(void **state)
{
    (void)state;
    Records r;
    records_start(&r);
    const JackPlan *plan = site_shared.day.plan;
    const char *const gauge = arena_printf(site_shared.scratch, "%.2f psi",
                                           plan->step[0].pressure_Pa / 6894.757293168361);
    const char *const pressure[] = {gauge, gauge};
    const double open_in = plan->step[0].opening.expected_m / 0.0254;
    reading_add(&r, words_of("2031-05-04T05:00:00Z", "0", zero_words, "0 in"));
    LogbookWords w = words_of("2031-05-04T05:20:00Z", "1", pressure,
                              arena_printf(site_shared.scratch, "%.4f in", open_in));
    reading_add(&r, w);
    w.time = "2031-05-04T05:21:00Z";
    w.phase = "reset";
    w.move[1] = "0.1 in";
    reading_add(&r, w);
    const Node *dials = node_item(node_find(page_read(&r, false), "dials"), 3);
    const double low_in = plan->step[3].opening.low_m / 0.0254;
    check_near(strtod(said(node_item(dials, 0), "low"), NULL), low_in, 0, 1e-3,
               "law: a dial that was left alone reads on");
    check_near(strtod(said(node_item(dials, 1), "low"), NULL), low_in - open_in + 0.1, 0, 1e-3,
               "law: what it was moved by is taken off what it shows from then on");
}

static void test_the_verdict_is_that_of_the_log(void **state)
{
    (void)state;
    Records r;
    Logbook book;
    SiteVerdict v;
    Error err = {0};
    records_start(&r);
    reading_add(&r, words_of("2031-05-04T05:00:00Z", "0", zero_words, "0 in"));
    reading_add(&r, words_of("2031-05-04T05:09:00Z", "1",
                             (const char *const[]){"9500 psi", "9500 psi"}, "2.7 in"));
    check_status(logbook_load(r.record, r.count, site_shared.scratch, &book, &err), STATUS_OK,
                 &err);
    logbook_judge(&book, 1, site_shared.scratch, &v);
    const Node *page = page_read(&r, false), *verdict = node_find(page, "verdict");
    assert_string_equal(said(verdict, "call"), site_call_name(v.call));
    assert_string_equal(said(verdict, "reason"), v.reason);
    assert_string_equal(said(verdict, "id"), "id2");
    assert_int_not_equal(v.call, SITE_GO);
    assert_int_equal(node_find(page, "pictures")->count, 1);
    assert_int_equal(strncmp(said(node_item(node_find(page, "pictures"), 0), "svg"), "<svg", 4), 0);
    r.record[3] = (LogbookRecord){.id = "s", .kind = "strike", .number = 4};
    check_status(logbook_strike_body(3, "wrong", "A", site_shared.scratch, &r.record[3].body, &err),
                 STATUS_OK, &err);
    r.count = 4;
    assert_string_equal(said(node_find(page_read(&r, false), "verdict"), "id"), "id1");
}

static void test_words_of_a_form_by_name(void **state)
{
    (void)state;
    Error err = {0};
    Node *root = NULL;
    LogbookWords w;
    Arena *arena = site_shared.scratch;
    const char good[] = "{\"time\": \"t\", \"pressure 2\": \"5 psi\", \"move 8\": \"-\"}";
    check_status(json_read(good, strlen(good), arena, &root, &err), STATUS_OK, &err);
    check_status(logbook_words(root, arena, &w, &err), STATUS_OK, &err);
    assert_string_equal(w.pressure[1], "5 psi");
    assert_string_equal(w.move[7], "-");
    assert_null(w.pressure[0]);
    static const char *const bad[] = {"{\"move 9\": \"1 in\"}",  "{\"move 0\": \"1 in\"}",
                                      "{\"move 01\": \"1 in\"}", "{\"move\": \"1 in\"}",
                                      "{\"Time\": \"\"}",        "{\"time\": 3}",
                                      "{\"who\": [\"A\"]}",      "[]"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        check_status(json_read(bad[i], strlen(bad[i]), arena, &root, &err), STATUS_OK, &err);
        check_status(logbook_words(root, arena, &w, &err), STATUS_BAD_INPUT, &err);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_day_says_what_to_read),
        cmocka_unit_test(test_dials_start_where_the_zero_reading_has_them),
        cmocka_unit_test(test_dials_that_were_set_anew_count_from_there),
        cmocka_unit_test(test_the_verdict_is_that_of_the_log),
        cmocka_unit_test(test_words_of_a_form_by_name)};
    return cmocka_run_group_tests(tests, log_setup, log_teardown);
}
