/* The raw model of each girder line: weights, stations, parts, events, and what is refused. */
#include "bridge_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double ft = 0.3048, in = 0.0254;

static double klf(double N_per_m) { return quantity_in(N_per_m, "kip/ft"); }

static const BridgeLine *lines_of(BridgeFile *file, const char *example, int fineness, int *count)
{
    const BridgeLine *line = NULL;
    Error err = {0};
    bridge_from_example(file, example);
    check_status(bridge_lines(file->bridge, fineness, file->arena, &line, count, &err), STATUS_OK,
                 &err);
    return line;
}

/* Load of all events of one cause on the girder chain or deck, over its length: force. */
static double weight_of(const StageModel *model, Cause cause, bool on_deck)
{
    double sum = 0;
    for (int i = 0; i < model->event_count; i++) {
        const Event *e = &model->event[i];
        if (e->kind != EVENT_LOAD || e->cause != cause || e->on_deck != on_deck) continue;
        sum += e->line_load_N_per_m * (model->x_m[e->to_station] - model->x_m[e->from_station]);
    }
    return sum;
}

static const Event *event_named(const StageModel *model, const char *name)
{
    for (int i = 0; i < model->event_count; i++)
        if (model->event[i].name && strcmp(model->event[i].name, name) == 0)
            return &model->event[i];
    fail_msg("no event \"%s\"", name);
    return NULL;
}

static void test_causeway_weights_are_those_of_the_handbook(void **state)
{
    (void)state;
    BridgeFile file;
    int count = 0;
    const BridgeLine *line = lines_of(&file, "examples/causeway.yaml", 1, &count);
    const StageModel *m = &line[0].model;
    const double kip = quantity_in(1, "kip");
    assert_int_equal(count, 2);
    assert_string_equal(line[0].unit, "span 1 (alike: span 2, span 3, span 4)");
    check_near(klf(event_named(m, "transfer")->line_load_N_per_m), 0.686, 1e-3, 0,
               "PCI Bridge Design Manual, BT-54: 0.686 kip/ft (from memory)");
    check_near(weight_of(m, CAUSE_WEIGHT, true) * kip, 8.5 / 12 * 8.5 * 0.150 * 88, 1e-12, 0,
               "closed form: 8.5 in by 8.5 ft of 150 pcf, 88 ft of panels");
    check_near(klf(event_named(m, "closure cast")->line_load_N_per_m), 8.5 / 12 * 8.5 * 0.150,
               1e-12, 0, "closed form: the same over the gap");
    check_near(weight_of(m, CAUSE_CLOSURE, false) * kip,
               8.5 / 12 * 8.5 * 0.150 * 6 + 2.0 / 12 * 3.5 * 0.150 * 94, 1e-12, 0,
               "closed form: gap of 6 ft and haunch 2 in by 42 in");
    check_near(weight_of(m, CAUSE_SUPERIMPOSED, false) * kip,
               94 * (2 * 0.42 / 5 + 0.025 * (40.5 - 3) / 5), 1e-12, 0,
               "closed form: two barriers and overlay between them over five lines");
    check_near(line[1].width_m, 7.5 * ft, 1e-12, 0, "closed form: 8.5/2 + 3.25 ft");
    bridge_close(&file);
}

static void test_causeway_joints_stand_at_the_panels(void **state)
{
    (void)state;
    BridgeFile file;
    int count = 0;
    const BridgeLine *line = lines_of(&file, "examples/causeway.yaml", 1, &count);
    const double at_ft[] = {12, 20, 28, 36, 44, 50, 58, 66, 74, 82};
    assert_int_equal(line->joint_count, 10);
    for (int j = 0; j < 10; j++) {
        check_near(line->model.x_m[line->joint[j].station], at_ft[j] * ft, 0, 1e-9,
                   "closed form: anchors 12 ft, panels 8 ft, gap 44 to 50 ft");
        assert_int_equal(line->joint[j].at_anchor, j == 0 || j == 9);
        assert_int_equal(line->joint[j].at_gap, j == 4 || j == 5);
    }
    assert_string_equal(line->joint[9].mark, "J10");
    assert_int_equal(line->model.gap[0].left_station, line->joint[4].station);
    assert_int_equal(line->model.gap[0].right_station, line->joint[5].station);
    bridge_close(&file);
}

/* ---- laws of every model ---- */

static void check_events(const BridgeLine *line)
{
    static const char *const order[] = {"panels set",       "joints closed",  "anchors grouted",
                                        "jacked",           "jacks locked",   "closure cast",
                                        "closure set",      "jacks released", "gap filled",
                                        "haunches grouted", "opening",        "end of life"};
    const StageModel *m = &line->model;
    const Event *last = m->event;
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        const Event *here = event_named(m, order[i]);
        assert_true(here > last);
        last = here;
    }
    for (int i = 1; i < m->event_count; i++) {
        assert_true(m->event[i].day >= m->event[i - 1].day);
        for (int k = 0; k < i && m->event[i].name; k++)
            if (m->event[k].name) assert_string_not_equal(m->event[i].name, m->event[k].name);
    }
    assert_ptr_equal(event_named(m, line->jacked), event_named(m, "jacked"));
    event_named(m, line->released);
    event_named(m, line->bonded);
    event_named(m, line->opening);
    event_named(m, line->end);
}

/* Every element has its girder (or ties and strips), its deck (or closure and fill). */
static void check_parts(const BridgeLine *line)
{
    const StageModel *m = &line->model;
    int *beam = calloc((size_t)m->station_count, sizeof *beam);
    double *deck_m2 = calloc((size_t)m->station_count, sizeof *deck_m2);
    int *strips = calloc((size_t)m->station_count, sizeof *strips);
    assert_true(beam && deck_m2 && strips);
    for (int p = 0; p < m->part_count; p++) {
        const Part *part = &m->part[p];
        const PartSection *section = &m->section[part->section];
        assert_in_range(part->element, 0, m->station_count - 2);
        assert_in_range(part->material, 0, m->material_count - 1);
        if (part->chain == CHAIN_DECK)
            deck_m2[part->element] += section->area_m2;
        else if (section->inertia_m4 > 0)
            beam[part->element]++;
        else if (part->compression_only)
            strips[part->element]++;
    }
    for (int e = 0; e + 1 < m->station_count; e++) {
        assert_true(m->x_m[e + 1] > m->x_m[e]);
        assert_int_equal(beam[e], strips[e] > 0 ? 0 : 1);
        assert_true(strips[e] == 0 || strips[e] >= 8);
        check_near(deck_m2[e], line->width_m * m->deck_thickness_m, 1e-9, 0,
                   "law: closure and fill make up the deck");
    }
    free(beam);
    free(deck_m2);
    free(strips);
}

/* Elements start near 0.6 ft at fine places and grow by no more than about 1.4. */
static void check_sizes(const BridgeLine *line)
{
    const StageModel *m = &line->model;
    for (int e = 0; e + 1 < m->station_count; e++) assert_true(m->x_m[e + 1] - m->x_m[e] < 0.85);
    for (int j = 0; j < line->joint_count; j++) {
        const int s = line->joint[j].station;
        if (!line->joint[j].at_gap && !line->joint[j].at_anchor) continue;
        assert_true(m->x_m[s + 1] - m->x_m[s] < 0.24);
        assert_true(m->x_m[s] - m->x_m[s - 1] < 0.24);
    }
}

static void check_shares(const BridgeLine *line, int count, int girders)
{
    double share = 0, stiff = 0;
    for (int i = 0; i < count; i++) {
        const int times = strcmp(line[i].name, "exterior line") == 0 ? 2 : girders - 2;
        share += times * line[i].share_1;
        stiff += times * line[i].share_stiff_1;
        assert_true(line[i].lanes_1 > 0.3 && line[i].lanes_1 < 1.6);
    }
    check_near(share, 1, 1e-12, 0, "law: all lines together take the thrust");
    check_near(stiff, 1, 1e-12, 0, "law: all lines together take the thrust");
}

static void test_every_example_is_a_sound_model(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        int girders, lines;
    } example[] = {{"examples/causeway.yaml", 5, 2},
                   {"examples/made-continuous.yaml", 5, 2},
                   {"examples/steel-continuous.yaml", 5, 2},
                   {"examples/single-tub.yaml", 2, 1},
                   {"examples/two-span-metric.yaml", 4, 2}};
    for (size_t i = 0; i < sizeof example / sizeof *example; i++) {
        BridgeFile file;
        int count = 0;
        const BridgeLine *line = lines_of(&file, example[i].path, 1, &count);
        assert_int_equal(count, example[i].lines);
        check_shares(line, count, example[i].girders);
        for (int k = 0; k < count; k++) {
            check_events(&line[k]);
            check_parts(&line[k]);
            check_sizes(&line[k]);
        }
        bridge_close(&file);
    }
}

static void test_fineness_halves_every_element(void **state)
{
    (void)state;
    BridgeFile coarse, fine;
    int count = 0;
    const BridgeLine *a = lines_of(&coarse, "examples/made-continuous.yaml", 1, &count);
    const BridgeLine *b = lines_of(&fine, "examples/made-continuous.yaml", 2, &count);
    const int piers = 3; /* one element between girder ends stays one */
    assert_int_equal(b->model.station_count - 1, 2 * (a->model.station_count - 1) - piers);
    for (int i = 0, k = 0; i < a->model.station_count; i++, k++) {
        while (b->model.x_m[k] < a->model.x_m[i] - 1e-9) k++;
        check_near(b->model.x_m[k], a->model.x_m[i], 0, 1e-12, "law: stations stay");
    }
    bridge_close(&coarse);
    bridge_close(&fine);
}

/* ---- strands ---- */

static void strands_at(const StageModel *m, double x_m, double *area_m2, double *height_m)
{
    double sum = 0, moment = 0;
    for (int p = 0; p < m->part_count; p++) {
        const Part *part = &m->part[p];
        const double from_m = m->x_m[part->element], to_m = m->x_m[part->element + 1];
        if (m->material[part->material].kind != MATERIAL_STRAND || x_m < from_m || x_m >= to_m)
            continue;
        const double t = (x_m - from_m) / (to_m - from_m);
        const double area = m->section[part->section].area_m2;
        sum += area;
        moment += area * (part->from_height_m + t * (part->to_height_m - part->from_height_m));
    }
    *area_m2 = sum;
    *height_m = sum > 0 ? moment / sum : 0;
}

static void test_strands_are_harped_and_developed(void **state)
{
    (void)state;
    BridgeFile file;
    int count = 0;
    double area_m2, height_m;
    const BridgeLine *line = lines_of(&file, "examples/causeway.yaml", 1, &count);
    strands_at(&line->model, 47 * ft, &area_m2, &height_m);
    check_near(area_m2, 30 * 0.217 * in * in, 1e-12, 0, "closed form: 30 strands of 0.217 in^2");
    check_near(height_m, ((72 + 8 * 8.0) / 30 - 54) * in, 1e-9, 0, "closed form: centroid");
    strands_at(&line->model, 18.8 * ft, &area_m2, &height_m);
    check_near(height_m, ((72 + 8 * 28.0) / 30 - 54) * in, 1e-6, 0,
               "closed form: half-way to the harp point, 28 in");
    strands_at(&line->model, 0.5 * ft, &area_m2, &height_m);
    assert_true(area_m2 > 0 && area_m2 < 15 * 0.217 * in * in); /* transfer length 36 in */
    /* area a length over the transfer length: half of it, as of a straight ramp */
    double sum = 0;
    for (int i = 0; i < 3600; i++) {
        strands_at(&line->model, (i + 0.5) * 36 * in / 3600, &area_m2, &height_m);
        sum += area_m2 / 3600;
    }
    check_near(sum, 15 * 0.217 * in * in, 1e-3, 0, "closed form: mean of a ramp");
    bridge_close(&file);
}

static void test_debonded_strands_have_no_part_at_the_ends(void **state)
{
    (void)state;
    BridgeFile file;
    char text[2048], small[2048];
    const BridgeLine *line = NULL;
    int count = 0;
    double area_m2, height_m;
    Error err = {0};
    bridge_small("", small, sizeof small);
    bridge_from_text(&file, bridge_replace(small, "{count: 26, height: 4 in}",
                                           "{count: 26, height: 4 in, debonded: 10 ft}", text,
                                           sizeof text));
    assert_int_equal(file.status, STATUS_OK);
    check_status(bridge_lines(file.bridge, 1, file.arena, &line, &count, &err), STATUS_OK, &err);
    strands_at(&line->model, 9.9 * ft, &area_m2, &height_m);
    check_near(area_m2, 0, 0, 1e-15, "law: nothing bonded before 10 ft");
    strands_at(&line->model, 13.1 * ft, &area_m2, &height_m);
    check_near(area_m2, 26 * 0.217 * in * in, 1e-12, 0, "closed form: developed after 36 in");
    bridge_close(&file);
}

/* ---- limits and rules ---- */

static void test_limits_of_the_causeway(void **state)
{
    (void)state;
    BridgeFile file;
    int count = 0;
    const BridgeLine *line = lines_of(&file, "examples/causeway.yaml", 1, &count);
    double top = 0, jacks = 0, anchor = 0;
    for (int i = 0; i < line->limit_count; i++) {
        const UpperLimit *l = &line->limit[i];
        if (l->kind == LIMIT_GIRDER_TOP_TENSION) top = quantity_in(l->value, "ksi");
        if (l->kind == LIMIT_JACKS) jacks = quantity_in(l->value, "kip");
        if (l->kind == LIMIT_ANCHOR) anchor = quantity_in(l->value, "kip");
        assert_true(l->clause[0] && l->name[0]);
    }
    check_near(top, 0.24 * sqrt(8.5), 1e-9, 0, "AASHTO LRFD 5.9.2.3.1b (from memory)");
    check_near(jacks, 10 * 320 / 2.0 * 8.5 / 40.5, 1e-9, 0, "closed form");
    check_near(anchor, 0.85 * 780, 1e-9, 0, "closed form: phi times the connectors");
    assert_int_equal(line->rule_count, 9);
    check_near(quantity_in(line->rule[0].limit_Pa, "psi"), -250, 1e-9, 0,
               "AASHTO LRFD 9.7.5.3 (from memory)");
    assert_true(line->rule[3].counts && !line->rule[4].counts && line->rule[5].counts);
    bridge_close(&file);
}

/* ---- refusals ---- */

static void check_structure_refused(const char *text, Status status, int line, const char *words)
{
    BridgeFile file;
    const BridgeLine *made = NULL;
    int count = 0;
    char shown[1024];
    Error err = {0};
    bridge_from_text(&file, text);
    for (int i = 0; i < file.found.count; i++)
        print_error("%s\n", error_format(&file.found.item[i], "file", shown, sizeof shown));
    assert_int_equal(file.status, STATUS_OK);
    assert_int_equal(bridge_lines(file.bridge, 1, file.arena, &made, &count, &err), status);
    assert_null(made);
    if (!strstr(err.text, words)) fail_msg("\"%s\" lacks \"%s\"", err.text, words);
    assert_int_equal(err.from.line, line);
    bridge_close(&file);
}

static void check_refused(const char *old, const char *fresh, const char *more, int line,
                          const char *words)
{
    char small[4096], text[8192];
    bridge_small(more, small, sizeof small);
    check_structure_refused(bridge_replace(small, old, fresh, text, sizeof text), STATUS_BAD_INPUT,
                            line, words);
}

#define THREE "  - length: 94 ft\n  - length: 94 ft\n  - length: 94 ft\n"
#define ONE   "  - length: 94 ft\n"
#define TIES  "piers: {connection: tied, ties: [{below_top: 4 in, area: 9 in^2}]}\n"

static void test_run_over_an_untied_pier_is_refused(void **state)
{
    (void)state;
    check_refused(
        ONE, THREE, "runs: [{from_span: 1, to_span: 3}]\n", 15,
        "the girders are not tied through pier 1: they cannot carry the thrust across it; "
        "make one run a span, or tie them before jacking");
    check_refused(ONE, THREE, TIES "days: {ties_set: 115 day, jacking: 110 day}\n", 16,
                  "tied through pier 1 on day 115, after jacking on day 110");
    check_refused(ONE, THREE, "runs: [{from_span: 1, to_span: 1}]\n", 15, "span 2 is in no run");
    check_refused(ONE, THREE, TIES "runs: [{from_span: 1, to_span: 2}]\n", 16,
                  "takes only a part of spans 1 to 3");
    check_refused(ONE, ONE, "runs: [{from_span: 1, to_span: 1}, {from_span: 1, to_span: 1}]\n", 13,
                  "two runs share span 1");
}

static void test_supports_that_hold_the_thrust_are_refused(void **state)
{
    (void)state;
    check_refused(ONE, ONE, "supports: [{kind: integral}, {kind: free bearing}]\n", 13,
                  "built in at support 1 while the jacks push");
    check_refused(ONE, ONE, "supports: [{kind: fixed bearing}, {kind: dowelled}]\n", 13,
                  "dowelled at support 2");
    check_refused(ONE, ONE, "supports: [{kind: fixed bearing}, {kind: fixed bearing}]\n", 13,
                  "fixed at 2 supports");
    check_refused(ONE, ONE, "supports: [{kind: free bearing}, {kind: free bearing}]\n", 13,
                  "no support holds span 1 along the bridge");
    check_refused(ONE, ONE,
                  "supports: [{kind: fixed bearing, released: yes}, {kind: free bearing}]\n", 13,
                  "no support holds span 1");
}

static void test_panels_that_do_not_fit_are_refused(void **state)
{
    (void)state;
    check_refused(ONE, ONE, "runs: [{from_span: 1, to_span: 1, gap_at: 14 ft}]\n", 13,
                  "the jacking gap and an anchor panel overlap");
    check_refused(ONE, ONE, "runs: [{from_span: 1, to_span: 1, gap_at: 19 ft}]\n", 13,
                  "no panel of 10 ft fits");
    check_refused(ONE, "  - length: 24 ft\n", "", 2, "overlap");
}

/* 220 ft right of the gap in panels of 8 ft would put a joint 6 in beside pier 3. */
static void test_joints_keep_clear_of_tied_girder_ends(void **state)
{
    (void)state;
    BridgeFile file;
    int count = 0;
    const BridgeLine *line = lines_of(&file, "examples/made-continuous.yaml", 1, &count);
    for (int j = 0; j < line->joint_count; j++)
        for (int pier = 1; pier <= 3; pier++)
            assert_true(fabs(line->model.x_m[line->joint[j].station] - pier * 94 * ft) > 1.5 * ft);
    bridge_close(&file);
}

/* ---- the model runs ---- */

static void check_run(const char *example)
{
    BridgeFile file;
    int count = 0;
    const BridgeLine *line = lines_of(&file, example, 1, &count);
    const StageModel *m = &line->model;
    const StageSettings settings = stage_settings_default();
    const StageHistory *history = NULL;
    Error err = {0};
    Arena *scratch = arena_create((size_t)512 << 20);
    check_status(stage_run(m, &settings, file.arena, scratch, &history, &err), STATUS_OK, &err);
    const int end = stage_time_named(history, line->end);
    double load = 0, reaction = 0;
    for (int i = 0; i < m->event_count; i++)
        if (m->event[i].kind == EVENT_LOAD)
            load += m->event[i].line_load_N_per_m *
                    (m->x_m[m->event[i].to_station] - m->x_m[m->event[i].from_station]);
    for (int s = 0; s < m->support_count; s++)
        reaction += history->reaction_N[end * m->support_count + s];
    check_near(reaction, load, 1e-9, 0, "law: reactions carry the loads");
    const int jacked = stage_time_named(history, line->jacked);
    check_near(history->gap_force_N[jacked], line->first_guess_N, 1e-9, 0,
               "law: the gap has the thrust of the jacks");
    arena_free(scratch);
    bridge_close(&file);
}

static void test_models_run_and_balance(void **state)
{
    (void)state;
    check_run("examples/causeway.yaml");
    check_run("examples/made-continuous.yaml");
    check_run("examples/two-span-metric.yaml");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_causeway_weights_are_those_of_the_handbook),
        cmocka_unit_test(test_causeway_joints_stand_at_the_panels),
        cmocka_unit_test(test_every_example_is_a_sound_model),
        cmocka_unit_test(test_fineness_halves_every_element),
        cmocka_unit_test(test_strands_are_harped_and_developed),
        cmocka_unit_test(test_debonded_strands_have_no_part_at_the_ends),
        cmocka_unit_test(test_limits_of_the_causeway),
        cmocka_unit_test(test_run_over_an_untied_pier_is_refused),
        cmocka_unit_test(test_supports_that_hold_the_thrust_are_refused),
        cmocka_unit_test(test_panels_that_do_not_fit_are_refused),
        cmocka_unit_test(test_joints_keep_clear_of_tied_girder_ends),
        cmocka_unit_test(test_models_run_and_balance),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
