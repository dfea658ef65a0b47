/* Deflection under live load and camber at each stage: closed forms with a handbook's section. */
#include <stdio.h>
#include <string.h>

#include "checks_case.h"

static const double kip_N = 4448.2216152605; /* NIST SP 811 B.8 */

/* Steel section, slab and modular ratio of FHWA NHI-04-041 (2003), positive region, as in
 * test_checks_girders.c: 14 x 5/8, 54 x 1/2 and 14 x 7/8 in, slab 103 x 8 in, n = 8. */
static const char handbook[] =
    "time_model: elastic\n"
    "spans:\n"
    "  - length: 120 ft\n"
    "girders:\n"
    "  count: 4\n"
    "  spacing: 103 in\n"
    "  overhang: 51.5 in\n"
    "  kind: plate girder\n"
    "  plates:\n"
    "    - {top_width: 14 in, top_thickness: 0.625 in, web_depth: 54 in, web_thickness: 0.5 in,\n"
    "       bottom_width: 14 in, bottom_thickness: 0.875 in}\n"
    "deck: {thickness: 8 in, wearing_allowance: 0 in, haunch: 2.875 in}\n"
    "panels: {length: 10 ft}\n"
    "concrete:\n"
    "  panel: {strength: 4 ksi, measured_modulus: 3625 ksi}\n"
    "  closure: {strength: 4 ksi, measured_modulus: 3625 ksi}\n"
    "climate: {humidity: 70 %, gradient_zone: 2}\n";

static const char name[] = "deflection under live load";
static const double L_in = 1440, E_ksi = 29000;

static void from_handbook(ChecksCase *c, const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, "%s%s", handbook, more);
    checks_from_text(c, text, 1200 * kip_N);
}

static const Sheet *sheet_of(const ChecksCase *c, const char *row_name, const char *line)
{
    const CheckRow *row = checks_row(c, row_name, line);
    assert_non_null(row);
    return row->sheet;
}

/* Steel and slab of 1/8 as one section: 22114.8 in^4 and 48 in^2 at 25.852 in, slab at 62.375 in. */
static double composite_in4(void)
{
    const double A = 103 * 8 / 8.0, I = 103 * 512 / 12.0 / 8, lever = 62.375 - 25.852;
    return 22114.8 + I + 48 * A / (48 + A) * lever * lever;
}

/* Movement of mid-span by a unit load at x, shear of the web alone. */
static double by_hand(double x_in)
{
    const double a = fmin(x_in, L_in - x_in), web = 54 * 0.5;
    if (a <= 0) return 0;
    return a * (3 * L_in * L_in - 4 * a * a) / (48 * E_ksi * composite_in4()) +
           a / (2 * E_ksi / 2.6 * web);
}

static double truck_by_hand(void)
{
    double worst = 0;
    for (int half_in = 0; half_in < 2 * (1440 + 400); half_in++) {
        const double x = 0.5 * half_in;
        worst = fmax(worst, 8 * by_hand(x) + 32 * by_hand(x - 168) + 32 * by_hand(x - 336));
    }
    return worst;
}

static void test_simple_span_by_hand(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "shims: {connectors: 100000 kip/in/in}\n"); /* no slip to speak of */
    const CheckRow *row = checks_row(&c, name, "interior line");
    assert_non_null(row);
    const Sheet *s = row->sheet;
    /* 412 in of deck less two barriers of 18 in: 31.3 ft, two lanes */
    check_near(sheet_value(s, "g"), 1.0 * 2 / 4, 1e-12, 0,
               "AASHTO LRFD 3.6.1.1.1 and 2.5.2.6.2: two lanes on four girders");
    check_near(sheet_value(s, "y_0") - sheet_value(s, "y_s"),
               pow(L_in, 3) / (48 * E_ksi * composite_in4()), 1e-3, 0,
               "closed form: P L^3/(48 E I)");
    check_near(sheet_value(s, "y_s"), L_in / (4 * E_ksi / 2.6 * 27), 2e-3, 0,
               "closed form: P L/(4 G A), all shear in the web");
    check_near(sheet_value(s, "v_T"), 1.33 * truck_by_hand(), 1e-3, 0,
               "closed form: HL-93 truck on a simple span");
    const double w = 0.64 / 12;
    check_near(sheet_value(s, "v_L"),
               5 * w * pow(L_in, 4) / (384 * E_ksi * composite_in4()) +
                   w * L_in * L_in / (8 * E_ksi / 2.6 * 27),
               1e-3, 0, "closed form: 5 w L^4/(384 E I) + w L^2/(8 G A)");
    check_near(sheet_value(s, "v_1"),
               fmax(sheet_value(s, "v_T"), 0.25 * sheet_value(s, "v_T") + sheet_value(s, "v_L")),
               1e-12, 0, "AASHTO LRFD 3.6.1.3.2");
    check_near(row->demand / 0.0254, 0.5 * sheet_value(s, "v_1"), 1e-12, 0, "law: the sheet's");
    check_near(row->capacity / 0.0254, L_in / 800, 1e-9, 0, "AASHTO LRFD 2.5.2.6.2");
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

static void test_the_criterion_can_be_set(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "criteria: {deflection: 3000}\n");
    const CheckRow *row = checks_row(&c, name, "interior line");
    assert_non_null(row);
    check_near(row->capacity / 0.0254, L_in / 3000, 1e-9, 0, "law: what the file asks");
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

static void test_axles_of_the_files_own_prove_nothing(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "live:\n"
                      "  model: axles\n"
                      "  axles: [{load: 10 kip, gap: 12 ft}, {load: 20 kip}]\n");
    assert_int_equal(checks_row(&c, name, "interior line")->state, CHECK_UNPROVEN);
    checks_close(&c);
}

/* The place is found by going uphill from mid-span: no station of the span may be worse. */
static void test_no_station_deflects_more(void **state)
{
    (void)state;
    ChecksCase c;
    Error err;
    checks_from_example(&c, "examples/two-span-metric.yaml", 0, NULL, NULL);
    const LineAnswer *line = &c.answer->line[0];
    const StageModel *model = line->history->model;
    const int n = model->station_count, opening = stage_time_named(line->history, "opening");
    LiveMove *move;
    check_status(live_move_start(line->line, line->history, opening, c.arena, &move, &err),
                 STATUS_OK, &err);
    double *value = ARENA_NEW(c.arena, double, n), *shear = ARENA_NEW(c.arena, double, n);
    double *work = ARENA_NEW(c.arena, double, 8 * (n + 2));
    LiveLoad load = traffic_hl93();
    load.vehicle_count = 1;
    load.train_vehicle = -1;
    const InfluenceLine influence = {n, model->x_m, value};
    double worst = 0, worst_m = 0;
    for (int i = 0; i < n; i++) {
        if (!live_move(move, i, value, shear)) continue;
        const LiveExtreme at = traffic_extreme(&load, &influence, 1, false, work);
        const double one = fmax(at.vehicle, 0.25 * at.vehicle + at.lane);
        if (one > worst) worst_m = model->x_m[i];
        worst = fmax(worst, one);
    }
    double told = 0;
    for (int i = 0; i < c.list->count; i++) {
        const CheckRow *row = &c.list->row[i];
        if (strcmp(row->name, name) == 0 && strcmp(row->line, "interior line") == 0)
            told = fmax(told, sheet_SI(row->sheet, "v_1"));
    }
    check_near(told, worst, 1e-9, 0, "law: the largest of all stations, axles placed again");
    const double end_m = model->x_m[n - 1], from_end_m = fmin(worst_m, end_m - worst_m);
    assert_true(from_end_m > 0.42 * end_m / 2 && from_end_m < 0.5 * end_m / 2);
    checks_close(&c);
}

/* Diaphragm concrete at tied piers left out: a unit load moves its place no less. */
static void test_ties_alone_are_never_stiffer(void **state)
{
    (void)state;
    ChecksCase c;
    Error err;
    checks_from_example(&c, "examples/made-continuous.yaml", 0, NULL, NULL);
    const StageHistory *h = c.answer->line[0].history;
    const int n = h->model->station_count, opening = stage_time_named(h, "opening");
    double *value = ARENA_NEW(c.arena, double, n), *work = ARENA_NEW(c.arena, double, 6 * n);
    const StageStructure *loose, *live;
    assert_non_null(h->gape_1);
    check_status(stage_structure_loose(h, opening, c.arena, &loose, &err), STATUS_OK, &err);
    check_status(stage_structure(h, opening, 2e4, c.arena, &live, &err), STATUS_OK, &err);
    int more = 0;
    for (int i = 0; i < n; i += 5) {
        if (!stage_influence_move(loose, i, value, work)) continue;
        const double alone = value[i];
        assert_true(stage_influence_move(live, i, value, work));
        assert_true(alone >= value[i] * (1 - 1e-9));
        more += alone > 1.05 * value[i];
    }
    assert_true(more > 0);
    checks_close(&c);
}

static void test_camber_is_the_sum_of_what_brought_it(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const Sheet *s = sheet_of(&c, check_camber_name, "interior line");
    /* 150 pcf on 103 in of deck, on the bare girder, but for the gap of 6 ft at mid-span */
    const double w = 0.150 * 103 * 8 / 144 / 12, EI = E_ksi * 22114.8;
    const double from = L_in / 2 - 36, to = L_in / 2;
    const double patch =
        2 * (1.5 * L_in * L_in * (to * to - from * from) - (pow(to, 4) - pow(from, 4))) / (48 * EI);
    check_near(sheet_value(s, "v_2") - sheet_value(s, "v_1"),
               -w * (5 * pow(L_in, 4) / (384 * EI) - patch), 5e-4, 0,
               "closed form: 5 w L^4/(384 E I) less a patch at mid-span");
    const double end = sheet_value(s, "v_7");
    check_near(sheet_value(s, "v_e"), end, 1e-9, 0, "law: changes add up to the whole");
    check_near(sheet_value(s, "v_C"), 0, 0, 0.01, "law: elastic concrete does not creep");
    assert_true(sheet_value(s, "v_J") > 0.2);
    check_near(sheet_value(s, "v_J"), sheet_value(s, "dv"), 1e-9, 0,
               "law: the jacks' part is the jump at the jacking");
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_simple_span_by_hand),
        cmocka_unit_test(test_the_criterion_can_be_set),
        cmocka_unit_test(test_axles_of_the_files_own_prove_nothing),
        cmocka_unit_test(test_no_station_deflects_more),
        cmocka_unit_test(test_ties_alone_are_never_stiffer),
        cmocka_unit_test(test_camber_is_the_sum_of_what_brought_it),
    };
    return cmocka_run_group_tests_name("checks_deflection", tests, NULL, NULL);
}
