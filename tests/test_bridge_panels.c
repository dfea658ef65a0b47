/* Panels of whole bridge files: they add up, keep to their limits, and say what the lines do not bear. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_file.h"
#include "draw.h"

#include "clench/panel.h"
#include "clench/report.h"

static const double in = 0.0254;

static int set_up(void **state)
{
    *state = arena_create((size_t)1 << 28);
    return 0;
}
static int tear_down(void **state)
{
    arena_free(*state);
    return 0;
}

typedef struct Made {
    BridgeFile file;
    const PanelPlan *plan;
    PanelSource source;
    ReportSource report;
} Made;

static void made_from(Made *m, const char *text)
{
    Error err = {0};
    bridge_from_text(&m->file, text);
    for (int i = 0; i < m->file.found.count; i++) print_error("%s\n", m->file.found.item[i].text);
    assert_int_equal(m->file.status, STATUS_OK);
    m->report = (ReportSource){.bridge = m->file.bridge, .units = bridge_units(m->file.bridge)};
    check_status(report_panels_find(&m->report, m->file.arena, &m->source, &err), STATUS_OK, &err);
    m->plan = m->source.plan;
}

static const char *remark_with(const PanelPlan *plan, const char *words)
{
    for (int i = 0; i < plan->remark_count; i++)
        if (strstr(plan->remark[i], words)) return plan->remark[i];
    return NULL;
}

/* Panels, gap and nothing else make up each run; marks are unique; every mark of a joint is met by the
 * engine's joint of the same number. */
static void check_plan(const Made *m)
{
    const PanelPlan *plan = m->plan;
    for (int r = 0; r < plan->run_count; r++) {
        const PanelRun *run = &plan->run[r];
        double total = run->gap_to_m - run->gap_from_m;
        for (int i = run->first; i < run->first + run->count; i++)
            total += plan->piece[i].to_m - plan->piece[i].from_m;
        check_near(total, run->length_m, 1e-12, 0, "law: panels and gap make up the run");
    }
    int of_kinds = 0;
    for (int k = 0; k < plan->kind_count; k++) of_kinds += plan->kind[k].count;
    assert_int_equal(of_kinds, plan->piece_count);
    for (int i = 0; i < plan->piece_count; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(plan->piece[i].mark, plan->piece[k].mark);
}

/* The first unit's joints of the engine against the same marks of the schedule. */
static void check_engine(const Made *m)
{
    const BridgeLine *line;
    int lines, met = 0;
    Error err = {0};
    check_status(bridge_lines(m->file.bridge, 1, m->file.arena, &line, &lines, &err), STATUS_OK,
                 &err);
    for (int i = 0; i < m->plan->piece_count; i++) {
        const PanelPiece *p = &m->plan->piece[i];
        for (int j = 0; j < line->joint_count && p->run == 0; j++) {
            char mark[32];
            snprintf(mark, sizeof mark, "R1-%s", line->joint[j].mark);
            if (strcmp(mark, p->right_joint) != 0) continue;
            check_near(line->model.x_m[line->joint[j].station], p->to_m, 0, 1e-6,
                       "law: engine and schedule have the same joints");
            met++;
        }
    }
    assert_int_equal(met, line->joint_count - 2 /* faces of the gap */);
}

static void steel_text(char *out, size_t size, int spans, const double *span_m, const char *more)
{
    size_t used = (size_t)snprintf(out, size, "units: SI\nspans:\n");
    for (int i = 0; i < spans; i++)
        used += (size_t)snprintf(out + used, size - used, "  - {length: %.17g m}\n", span_m[i]);
    snprintf(out + used, size - used,
             "girders:\n  count: 5\n  spacing: 2.6 m\n  kind: plate girder\n  plates:\n"
             "    - {top_width: 450 mm, top_thickness: 32 mm, web_depth: 1400 mm, web_thickness: "
             "14 mm, bottom_width: 500 mm, bottom_thickness: 40 mm}\n"
             "climate:\n  humidity: 70 %%\n  gradient_zone: 2\n%s",
             more);
}

static void test_random_bridges_add_up(void **state)
{
    (void)state;
    static const char *const layout[] = {"nominal", "least panels", "least kinds"};
    static char text[8000];
    seed = 41;
    for (int trial = 0; trial < 60; trial++) {
        double span_m[9];
        char more[400];
        const int spans = 1 + (int)draw(0, 8.99);
        for (int i = 0; i < spans; i++) span_m[i] = draw(24, 62);
        snprintf(
            more, sizeof more,
            "piers:\n  connection: %s\npanels:\n  layout: %s\n  length: %.3f m\n  anchor_length: "
            "%.3f m\n  skew: %s\ndeck:\n  skew_degrees: %.2f\n",
            trial % 4 ? "continuous" : "link slab", layout[trial % 3], draw(2, 3.2), draw(3, 4),
            trial % 2 ? "all" : "ends", draw(-9, 9));
        steel_text(text, sizeof text, spans, span_m, more);
        Made m;
        made_from(&m, text);
        check_plan(&m);
        check_engine(&m);
        for (int i = 0; i < m.plan->piece_count; i++) {
            const PanelPiece *p = &m.plan->piece[i];
            check_near(p->body.area_m2, (p->to_m - p->from_m) * m.plan->deck_width_m, 1e-9, 0,
                       "closed form: skewed edges leave length times width");
            if (trial % 3 && !p->anchor)
                assert_true(p->to_m - p->from_m <= m.plan->longest_allowed_m * (1 + 1e-9));
        }
        bridge_close(&m.file);
    }
}

/* A truck of 120 kN and a crane decide how long a panel may be. */
static void test_truck_and_crane_shorten_panels(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[2] = {38, 41};
    Made m;
    steel_text(
        text, sizeof text, 2, span_m,
        "panels:\n  layout: least panels\n  anchor_length: 2 m\nhandling:\n  truck: 120 kN\n");
    made_from(&m, text);
    const double width_m = 4 * 2.6 + 2 * 0.4 * 2.6, weight = 150 * 157.08746 * 8.5 * in * width_m;
    check_near(m.plan->longest_allowed_m, 120e3 / weight, 1e-6, 0,
               "closed form: payload over weight");
    assert_string_equal(m.plan->longest_by, "handling.truck");
    for (int i = 0; i < m.plan->piece_count; i++)
        if (!m.plan->piece[i].anchor) assert_true(m.plan->piece[i].gross_N <= 120e3 * (1 + 1e-9));
    assert_null(remark_with(m.plan, "wider"));
    assert_non_null(remark_with(m.plan, "heavier than the truck")); /* the anchor panels */
    bridge_close(&m.file);
}

static void test_bridges_beyond_the_lines_are_said_to_be(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[2] = {38, 41};
    Made m;
    steel_text(text, sizeof text, 2, span_m, "");
    made_from(&m, text);
    assert_true(report_panels_met(&m.source) || remark_with(m.plan, "nearer than"));
    assert_null(remark_with(m.plan, "skewed"));
    bridge_close(&m.file);
    steel_text(text, sizeof text, 2, span_m, "deck:\n  skew_degrees: 25\n  plan_radius: 300 m\n");
    made_from(&m, text);
    assert_false(report_panels_met(&m.source));
    assert_non_null(remark_with(m.plan, "25 degrees"));
    assert_non_null(remark_with(m.plan, "Beyond 15 to 20 degrees"));
    assert_non_null(remark_with(m.plan, "Beyond 0.06 rad"));
    assert_non_null(remark_with(m.plan, "less than 3 ft")); /* corners of the anchor panels */
    bridge_close(&m.file);
}

/* Shear at the obtuse corner of a skewed bridge: 1 + 0.2 (12 L t^3/Kg)^0.3 tan(skew), on all of a line;
 * moments stay those of the square one. */
static void test_a_skew_makes_shear_alone_larger(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    double shear[3], moment[3], fatigue[3];
    const double degrees[3] = {0, 20, -35};
    for (int i = 0; i < 3; i++) {
        char more[80];
        const BridgeLine *line;
        int lines;
        Error err = {0};
        BridgeFile file;
        snprintf(more, sizeof more, "deck:\n  skew_degrees: %g\n", degrees[i]);
        steel_text(text, sizeof text, 1, span_m, more);
        bridge_from_text(&file, text);
        check_status(bridge_lines(file.bridge, 1, file.arena, &line, &lines, &err), STATUS_OK,
                     &err);
        shear[i] = line->lanes_shear_1;
        moment[i] = line->lanes_1;
        fatigue[i] = line->lanes_fatigue_shear_1;
        assert_true((line->beyond != NULL) == (i > 0));
        bridge_close(&file);
    }
    const double tan20 = tan(20 * acos(-1) / 180), tan35 = tan(35 * acos(-1) / 180);
    check_near((shear[2] / shear[0] - 1) / (shear[1] / shear[0] - 1), tan35 / tan20, 1e-9, 0,
               "AASHTO LRFD table 4.6.2.2.3c-1, from memory: grows with the tangent");
    assert_true(shear[1] > shear[0]);
    check_near(fatigue[1] / fatigue[0], shear[1] / shear[0], 1e-9, 0,
               "AASHTO LRFD table 4.6.2.2.3c-1, from memory");
    check_near(moment[2], moment[0], 1e-12, 0, "what relieves is not taken");
}

/* A drain in the 5th panel makes it a kind of its own and moves its centre; one in the gap is told. */
static void test_blockouts_are_taken_out(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    Made plain, m;
    steel_text(text, sizeof text, 1, span_m, "");
    made_from(&plain, text);
    const double at_m = (plain.plan->piece[4].from_m + plain.plan->piece[4].to_m) / 2;
    char more[400];
    snprintf(
        more, sizeof more,
        "panels:\n  blockouts:\n    - {at: %.6f m, across: 3.6 m, along: 400 mm, wide: 300 mm}\n"
        "    - {at: 20 m, across: 0 m, along: 400 mm, wide: 300 mm}\n",
        at_m);
    steel_text(text, sizeof text, 1, span_m, more);
    made_from(&m, text);
    assert_int_equal(m.plan->kind_count, plain.plan->kind_count + 1);
    assert_int_equal(m.plan->piece[4].blockout_count, 1);
    check_near(plain.plan->net_m3 - m.plan->net_m3, 0.4 * 0.3 * 8.5 * in, 1e-6, 0, "closed form");
    assert_true(m.plan->piece[4].body.net_z_m < -1e-4);
    assert_non_null(remark_with(m.plan, "lie in no panel"));
    bridge_close(&m.file);
    bridge_close(&plain.file);
}

/* Two blockouts that share a part take it off twice: told, and not kept. */
static void test_blockouts_that_meet_are_told(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    for (int meet = 0; meet < 2; meet++) {
        Made m;
        char more[400];
        snprintf(
            more, sizeof more,
            "panels:\n  blockouts:\n    - {at: 10 m, across: 3.6 m, along: 300 mm, wide: 300 mm}\n"
            "    - {at: 10 m, across: %s, along: 300 mm, wide: 300 mm}\n",
            meet ? "3.75 m" : "4.0 m");
        steel_text(text, sizeof text, 1, span_m, more);
        made_from(&m, text);
        assert_int_equal(remark_with(m.plan, "meets another blockout") != NULL, meet);
        bridge_close(&m.file);
    }
}

/* Two halves and the closure make up the deck; marks tell them apart. */
static void test_longitudinal_closure_halves_the_panels(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    Made m;
    steel_text(
        text, sizeof text, 1, span_m,
        "panels:\n  crown: longitudinal closure\n  strip: 600 mm\ndeck:\n  crossfall: 2 %\n");
    made_from(&m, text);
    double area_m2 = 0;
    for (int i = 0; i < m.plan->piece_count; i++) area_m2 += m.plan->piece[i].body.area_m2;
    const PanelRun *run = &m.plan->run[0];
    check_near(area_m2,
               (run->length_m - (run->gap_to_m - run->gap_from_m)) * (m.plan->deck_width_m - 0.6),
               1e-12, 0, "law: panels, closure and gap make up the deck");
    for (int i = 0; i < m.plan->piece_count; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(m.plan->piece[i].mark, m.plan->piece[k].mark);
    assert_non_null(remark_with(m.plan, "longitudinal closure"));
    bridge_close(&m.file);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        TEST(test_random_bridges_add_up),
        TEST(test_truck_and_crane_shorten_panels),
        TEST(test_bridges_beyond_the_lines_are_said_to_be),
        TEST(test_a_skew_makes_shear_alone_larger),
        TEST(test_blockouts_are_taken_out),
        TEST(test_blockouts_that_meet_are_told),
        TEST(test_longitudinal_closure_halves_the_panels),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
