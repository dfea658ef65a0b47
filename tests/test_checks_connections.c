/* Connectors and anchor panels: worked figures on stated inputs, closed forms, what is not proven. */
#include "checks_case.h"

#include <string.h>

#include "../src/checks/pockets.h"

static const char path[] = "tests/data/reference_deck.yaml";
static const double kip_N = 4448.2216152605; /* NIST SP 811 B.8 */
static const double thrust_N = 2040 * 4448.2216152605;

static ChecksCase with_more(const char *more)
{
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "# more", more);
    return c;
}

static const Sheet *sheet_of(const ChecksCase *c, const char *name)
{
    const CheckRow *row = checks_row(c, name, NULL);
    assert_non_null(row);
    return row->sheet;
}

/* ---- strength of studs and bars ---- */

static const char studs[] = "AASHTO LRFD 6.10.10.4.3, Ec by 33000 w^1.5 sqrt(f'c) (from memory); "
                            "calculated once more apart from this program";

typedef struct Stud {
    const char *diameter;
    double concrete_kip, steel_kip, design_kip, range_kip;
} Stud;
static const Stud stud_table[] = {
    {"3/4 in", 27.356, 26.507, 22.531, 3.094},
    {"7/8 in", 37.235, 36.079, 30.667, 4.211},
    {"1 in", 48.633, 47.124, 40.055, 5.500},
    {"1 1/4 in", 75.989, 73.631, 62.586, 8.594},
};

static void check_stud(const Stud *stud, const char *strength)
{
    char more[256];
    snprintf(more, sizeof more,
             "connectors: {diameter: %s, grout: 4 ksi, grout_density: 150 pcf, strength: %s}\n",
             stud->diameter, strength);
    ChecksCase c = with_more(more);
    const Sheet *s = sheet_of(&c, "strength of a pocket");
    const bool steel = strcmp(strength, "60 ksi") == 0; /* else the concrete governs */
    check_near(sheet_value(s, "Q_n"), steel ? stud->steel_kip : stud->concrete_kip, 0, 0.001,
               studs);
    if (steel) check_near(sheet_value(s, "Q_r"), stud->design_kip, 0, 0.001, studs);
    check_near(sheet_value(sheet_of(&c, "fatigue of a pocket"), "Z_r"), stud->range_kip, 0, 0.0006,
               "AASHTO LRFD 6.10.10.2 (from memory)");
    checks_close(&c);
}

static void test_strength_of_studs_table(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof stud_table / sizeof *stud_table; i++) {
        check_stud(&stud_table[i], "60 ksi");
        check_stud(&stud_table[i], "79 ksi");
    }
}

/* Concrete girders: the causeway at 1000 kip with these keys of its connectors. */
static ChecksCase with_bars(const char *keys)
{
    ChecksCase c;
    char more[512];
    snprintf(more, sizeof more, "connectors: {%s}\nshims:\n", keys);
    checks_from_example(&c, "examples/causeway.yaml", 1000 * kip_N, "shims:\n", more);
    return c;
}

/* Interface 42 by 12 in, 0.40 in^2 of bars: 0.24 x 504 + 24 = 144.96 kip where both faces are roughened,
 * caps 504 and 756; 0.075 x 504 + 0.6 x 24 = 52.2 kip where the soffit is as the form left it. */
static void test_interface_shear_of_bars_is_that_of_the_weaker_face(void **state)
{
    static const char source[] = "AASHTO LRFD 5.7.4.3 and 5.7.4.4 (from memory); by hand";
    static const char keys[] = "diameter: 0.50462650441 in, width: 42 in, spacing: 12 in, "
                               "per_cluster: 2, grout: 4 ksi, soffit: ";
    const char *const soffit[] = {"roughened", "not roughened"};
    const double V_n[] = {144.96, 52.2}, cap_1[] = {504, 403.2}, cap_2[] = {756, 403.2};
    (void)state;
    for (int i = 0; i < 2; i++) {
        char text[256];
        snprintf(text, sizeof text, "%s%s", keys, soffit[i]);
        ChecksCase c = with_bars(text);
        const Sheet *s = sheet_of(&c, "strength of a pocket");
        check_near(sheet_value(s, "A_cv"), 504, 1e-9, 0, source);
        check_near(sheet_value(s, "V_n"), V_n[i], 0, 0.005, source);
        check_near(sheet_value(s, "V_r"), 0.9 * V_n[i], 0, 0.005, source);
        check_near(sheet_value(s, "K_1") * sheet_value(s, "f'c") * 504, cap_1[i], 1e-9, 0, source);
        check_near(sheet_value(s, "K_2") * 504, cap_2[i], 1e-9, 0, source);
        /* 0.05 A_cv / f_y = 0.42 in^2: more than the 0.40 that are there */
        const CheckRow *row = checks_row(&c, "least area of bars across the interface", NULL);
        check_near(quantity_in(row->demand, "in^2"), 0.42, 1e-9, 0,
                   "AASHTO LRFD 5.7.4.2 (from memory)");
        assert_int_equal(row->state, CHECK_FAIL);
        checks_close(&c);
    }
}

static void test_smooth_top_has_the_constants_of_one(void **state)
{
    static const char source[] = "AASHTO LRFD 5.7.4.4 (from memory)";
    (void)state;
    ChecksCase c = with_bars("surface: not roughened, soffit: roughened, per_cluster: 2");
    const Sheet *s = sheet_of(&c, "strength of a pocket");
    check_near(sheet_value(s, "c"), 0.075, 1e-12, 0, source);
    check_near(sheet_value(s, "mu"), 0.6, 1e-12, 0, source);
    check_near(sheet_value(s, "K_1"), 0.2, 1e-12, 0, source);
    check_near(sheet_value(s, "K_2"), 0.8, 1e-12, 0, source);
    checks_close(&c);
}

/* Nine bars of 7/8 in, 0.6013 in^2 each, on a soffit that is not roughened: 0.9 x 0.6 x 9 x 0.6013 x 60
 * = 175.3 kip; bond of 12 ft by 42 in is not added. */
static void test_bond_does_not_hold_an_anchor_panel(void **state)
{
    static const char source[] = "closed form: phi mu A_vf f_y, no cohesion";
    const char *const name[] = {"connectors of an anchor panel",
                                "connectors of an anchor panel at strength"};
    (void)state;
    ChecksCase c = with_bars("diameter: 7/8 in, anchor_count: 9");
    for (int i = 0; i < 2; i++) {
        const CheckRow *row = checks_row(&c, name[i], NULL);
        check_near(quantity_in(row->capacity, "kip"), 175.345, 0, 0.01, source);
        assert_int_equal(row->state, CHECK_FAIL);
    }
    checks_close(&c);
}

/* ---- anchor panels ---- */

static const char stated[] = "arithmetic on stated inputs: 40 ft by 8.5 in, 2040 kip, 5 girders";

/* 408 kip a girder, 490 kip with 1.2: sixteen 7/8 in studs; couple 408 x 6.25 in = 213 kip ft. */
static void test_anchor_panel_needs_sixteen_studs(void **state)
{
    (void)state;
    ChecksCase c = with_more("");
    const CheckRow *row = checks_row(&c, "connectors of an anchor panel", NULL);
    check_near(sheet_value(row->sheet, "P"), 408, 1e-9, 0, stated);
    check_near(quantity_in(row->demand, "kip"), 490, 0, 0.5, stated);
    check_near(sheet_value(row->sheet, "n"), 16, 0, 0, stated);
    check_near(quantity_in(row->capacity, "kip"), 16 * 30.667, 0, 0.02, stated);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "connectors.anchor_count"));
    assert_non_null(strstr(row->why, "16"));
    const Sheet *held = sheet_of(&c, "inner edge of an anchor panel held down");
    check_near(sheet_value(held, "M") / 1.2 / 12, 213, 0, 0.6, stated);
    checks_close(&c);
}

/* Closed form against a sum over slices: pressures straight along the group, only pull counted. */
static void test_pull_at_the_inner_edge_is_the_integral_of_the_pressures(void **state)
{
    (void)state;
    ChecksCase c = with_more("");
    const Sheet *s = sheet_of(&c, "inner edge of an anchor panel held down");
    const double L = sheet_value(s, "L_g"), M = sheet_value(s, "M"), W = sheet_value(s, "W");
    const int slices = 100000;
    double pull = 0, length = 0;
    for (int i = 0; i < slices; i++) {
        const double x = (i + 0.5) / slices; /* from the inner edge */
        const double q = 6 * M / (L * L) * (1 - 2 * x) - W / L;
        if (q <= 0) continue;
        pull += q * L / slices;
        length += L / slices;
    }
    check_near(sheet_value(s, "T_u"), pull, 1e-6, 0, "closed form: sum over slices");
    check_near(sheet_value(s, "a"), length, 0, 2 * L / slices, "closed form: sum over slices");
    checks_close(&c);
}

/* Girders 9 ft apart: p = 51 kip/ft, M = p S^2/10 = 413 kip ft, tie about 65 kip. */
static void test_anchor_panel_is_a_deep_beam_between_girders(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "spacing: 8 ft\n  overhang: 4 ft",
                        "spacing: 9 ft\n  overhang: 2 ft");
    const CheckRow *row = checks_row(&c, "tie of an anchor panel between the girders", NULL);
    check_near(sheet_value(row->sheet, "p"), 51, 1e-9, 0, stated);
    check_near(sheet_value(row->sheet, "M"), 413, 0, 0.5, stated);
    /* lever arm 0.7 of the panel's 8 ft here; the figure has that of the 9 ft spacing */
    check_near(sheet_value(row->sheet, "T_u") / 1.2 * 8 / 9, 65, 0, 1, stated);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    checks_close(&c);
}

/* Two tubs 21 ft apart with 10 ft beyond, 41 ft of deck, 1500 kip, anchor panel 14 ft: p 36.585 kip/ft,
 * p S^2/8 = 2016.8 kip ft, lever 9.8 ft. Five girders 6 ft apart with 8 ft beyond: p o^2/2 = 51 x 32
 * kip ft, lever 0.7 x 8 ft, far more than between the girders. */
static void test_two_girders_are_a_simple_span_and_overhangs_count(void **state)
{
    static const char source[] = "closed form: simple span, cantilever";
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/single-tub.yaml", 1500 * kip_N, NULL, NULL);
    const Sheet *s = sheet_of(&c, "tie of an anchor panel between the girders");
    check_near(sheet_value(s, "M"), 2016.8, 0, 0.05, source);
    check_near(sheet_value(s, "T_u"), 1.2 * 2016.8 / 9.8, 0, 0.01, source);
    checks_close(&c);
    checks_from_example(&c, path, thrust_N, "spacing: 8 ft\n  overhang: 4 ft",
                        "spacing: 6 ft\n  overhang: 8 ft");
    s = sheet_of(&c, "tie of an anchor panel between the girders");
    check_near(sheet_value(s, "T_u"), 1.2 * 51 * 32 / 5.6, 1e-9, 0, source);
    checks_close(&c);
}

static void test_chosen_connectors_pass_and_fail(void **state)
{
    (void)state;
    ChecksCase c =
        with_more("connectors: {diameter: 7/8 in, anchor_count: 24, anchor_grout: 6 ksi, "
                  "pitch: 6 in, height: 6 in, per_row: 3}\n");
    assert_int_equal(checks_row(&c, "connectors of an anchor panel", NULL)->state, CHECK_PASS);
    assert_int_equal(checks_row(&c, "length of the group in an anchor panel", NULL)->state,
                     CHECK_PASS);
    const CheckRow *held = checks_row(&c, "inner edge of an anchor panel held down", NULL);
    assert_int_equal(held->state, CHECK_PASS);
    /* 490 / (24 x 30.667) to 5/3 and the pull of the inner edge to 5/3 */
    const double n_t = 24 * sheet_value(held->sheet, "a") / 96;
    const double by_hand = pow(489.6 / (24 * 30.667), 5.0 / 3) +
                           pow(sheet_value(held->sheet, "T_u") / (0.75 * n_t * 36.079), 5.0 / 3);
    check_near(held->ratio_1, by_hand, 1e-4, 0, "AASHTO LRFD 6.16.4.3 (from memory)");
    checks_close(&c);
    c = with_more(
        "connectors: {diameter: 7/8 in, anchor_count: 15, anchor_grout: 6 ksi, pitch: 6 in}\n");
    assert_int_equal(checks_row(&c, "connectors of an anchor panel", NULL)->state, CHECK_FAIL);
    checks_close(&c);
}

static void test_strength_given_as_a_number_is_used(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "gap: 6 ft", "gap: 6 ft, anchor_connectors: 600 kip");
    const CheckRow *row = checks_row(&c, "connectors of an anchor panel", NULL);
    check_near(quantity_in(row->capacity, "kip"), 0.85 * 600, 1e-9, 0, "arithmetic");
    assert_int_equal(row->state, CHECK_PASS);
    const CheckRow *service = checks_row(&c, "connectors of an anchor panel at strength", NULL);
    check_near(quantity_in(service->capacity, "kip"), 0.85 * 600, 1e-9, 0, "arithmetic");
    assert_int_equal(service->state,
                     service->demand > service->capacity ? CHECK_FAIL : CHECK_UNPROVEN);
    checks_close(&c);
}

/* Enough for the factored thrust, yet not for the live load that comes on top in service. */
static void test_given_strength_is_held_against_service_too(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 1000 * kip_N, "anchor_connectors: 780 kip",
                        "anchor_connectors: 500 kip");
    assert_int_equal(checks_row(&c, "connectors of an anchor panel", NULL)->state, CHECK_PASS);
    const CheckRow *row = checks_row(&c, "connectors of an anchor panel at strength", NULL);
    check_near(quantity_in(row->capacity, "kip"), 425, 1e-9, 0, "arithmetic: 0.85 x 500 kip");
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

/* ---- pockets ---- */

static KitLine *shared_line(ChecksCase *c, CheckCase *with, int index)
{
    Error err = {0};
    *with = (CheckCase){.bridge = c->file.bridge, .answer = c->answer, .arena = c->arena};
    check_status(kit_share(with, &err), STATUS_OK, &err);
    return &with->shared->line[index];
}

/* Q/I of the transformed section in elastic moduli of opening: deck force over moment. */
static double force_per_moment(const KitLine *k)
{
    const Material *panel = NULL;
    for (int i = 0; i < k->model->material_count; i++)
        if (strstr(k->model->material[i].name, "phase 1")) panel = &k->model->material[i];
    assert_non_null(panel);
    if (!panel) return NAN;
    const double age = k->history->day[k->opening] - panel->cast_day;
    const double ratio = 29000 * 6894757.2931684 / concrete_modulus_Pa(&panel->mix, age);
    const PartSection *g = line_girder(k, 0, NULL);
    const double t = 8.5 * 0.0254, b = 8 * 0.3048, haunch = 2 * 0.0254;
    const SectionPart part[2] = {
        {g->area_m2, g->inertia_m4, g->bottom_m, ratio},
        {b * t, b * t * t * t / 12, g->bottom_m + g->top_m + haunch + t / 2, 1}};
    const TransformedSection all = section_transform(part, 2);
    return b * t * (part[1].centroid_m - all.centroid_m) / all.inertia_m4;
}

static const char one_axle[] = "live: {model: axles, axles: [{load: 100 kip}], impact: 0, "
                               "lanes_interior: 1, lanes_exterior: 1}\n"
                               "shims: {connectors: 1e6 kip/in/ft}\n";

/* A load at mid-span; away from it, from the ends and from the closure N = -M Q/I. */
static void test_force_of_the_deck_is_moment_times_first_over_second_moment(void **state)
{
    (void)state;
    ChecksCase c = with_more(one_axle);
    CheckCase with;
    const KitLine *k = shared_line(&c, &with, 0);
    const int n = k->model->station_count, from = line_station(k, 20 * 0.3048),
              to = line_station(k, 60 * 0.3048), load = line_station(k, 75 * 0.3048);
    double *value = ARENA_NEW(c.arena, double, n), *work = ARENA_NEW(c.arena, double, 6 * n);
    const double L = 150 * 0.3048, right_1 = 1 - k->model->x_m[load] / L;
    for (int e = from; e < to; e++) {
        const double x = (k->model->x_m[e] + k->model->x_m[e + 1]) / 2;
        stage_influence_deck(live_structure(k->open_live), e, value, work);
        check_near(value[load], -x * right_1 * force_per_moment(k), 5e-4, 0,
                   "closed form: M Q/I of the transformed section");
    }
    checks_close(&c);
}

/* An axle of 100 kip at the right end of a pocket: dM = P s (1 - b/L), force dM Q/I. The axle stands on
 * the deck, which hands it to the girder over a few feet: 2 %. */
static void test_force_of_a_pocket_is_shear_flow_times_length(void **state)
{
    (void)state;
    ChecksCase c = with_more(one_axle);
    CheckCase with;
    const KitLine *k = shared_line(&c, &with, 0);
    const int near = line_station(k, 40 * 0.3048);
    const double L = 150 * 0.3048, from = k->model->x_m[near], to = k->model->x_m[near + 4];
    const PocketForce f = pocket_force(&with, k, from, to);
    check_near(-f.live_least_N, 100 * kip_N * (to - from) * (1 - to / L) * force_per_moment(k),
               0.02, 0, "closed form: V Q/I of the transformed section");
    checks_close(&c);
}

/* Default connectors slip: the pocket's own influence line gives less beside an anchor panel than V s Q/I,
 * which is what counts. Axle of 100 kip, and the fatigue truck of 32, 32 and 8 kip 30 and 14 ft apart with
 * 15 %: only its first axle stands at the left of the pocket. 1e-4: the modulus by hand is that of panels
 * cast three days apart. */
static void test_slip_does_not_relieve_a_pocket_of_live_load(void **state)
{
    static const char source[] = "closed form: V Q/I of a simple span";
    (void)state;
    ChecksCase c = with_more("live: {model: axles, axles: [{load: 100 kip}], impact: 0, "
                             "lanes_interior: 1, lanes_exterior: 1}\n");
    CheckCase with;
    const KitLine *k = shared_line(&c, &with, 0);
    const double *x_m = k->model->x_m, L = 150 * 0.3048, from = 10 * 0.3048, s = 4 * 0.3048;
    PocketForce f = pocket_force(&with, k, from, from + s);
    const double slipping_N = f.fatigue_N, flow = s * force_per_moment(k) * kip_N;
    pocket_at_least_full(k, &f);
    const int middle = line_station(k, from + s / 2);
    const double left = x_m[middle] / L, right = x_m[middle + 1] / L, ft = 0.3048 / L;
    check_near(-f.live_least_N, 100 * (1 - right) * flow, 1e-4, 0, source);
    const double range = 32 * (1 - right) + 32 * (1 - right - 30 * ft) + 8 * (1 - right - 44 * ft);
    check_near(f.fatigue_N, 1.15 * (range + 32 * left) * flow, 1e-4, 0, source);
    assert_true(slipping_N < f.fatigue_N);
    const CheckRow *row = checks_row(&c, "strength of a pocket", NULL);
    assert_int_not_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

/* The restraint of creep and shrinkage is spread by a stiffness: one of the file's own, or not proven. */
static void test_default_stiffness_proves_no_pocket(void **state)
{
    static const char chosen[] = "connectors: {diameter: 7/8 in, per_cluster: 40, spacing: 48 in, "
                                 "grout: 5 ksi}\n";
    (void)state;
    ChecksCase c = with_more(chosen);
    const CheckRow *row = checks_row(&c, "strength of a pocket", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "shims.connectors"));
    checks_close(&c);
    char more[256];
    snprintf(more, sizeof more, "%sshims: {connectors: 2000 kip/in/ft}\n", chosen);
    c = with_more(more);
    assert_int_equal(checks_row(&c, "strength of a pocket", NULL)->state, CHECK_PASS);
    checks_close(&c);
}

/* law: the deck is free at both ends, so all connectors together carry nothing. */
static void test_pockets_of_the_whole_deck_balance(void **state)
{
    (void)state;
    ChecksCase c = with_more("");
    CheckCase with;
    const KitLine *k = shared_line(&c, &with, 0);
    const double L = 150 * 0.3048;
    const PocketForce all = pocket_force(&with, k, 0, L);
    check_near(all.live_most_N, 0, 0, 1e-3, "law: equilibrium of the deck");
    check_near(all.thrust_N, 0, 0, 100, "law: equilibrium of the deck");
    check_near(all.later_most_N, 0, 0, 100, "law: equilibrium of the deck");
    /* what arrives at the right of an anchor panel's face is what its connectors hold */
    const PocketForce anchor = anchor_force(&with, k, false);
    const int face = k->line->joint[0].station;
    check_near(fabs(anchor.thrust_N), stage_deck_compression_N(k->history, k->bonded, face, 1),
               0.002, 0, "law: equilibrium of the anchor panel");
    checks_close(&c);
}

static double most_at_anchors_N(const CheckCase *with, const KitLine *k)
{
    const PocketForce left = anchor_force(with, k, false), right = anchor_force(with, k, true);
    return fmax(pocket_strength_N(with, &left, true), pocket_strength_N(with, &right, true));
}

static void test_what_is_printed_is_the_sum_that_chose_the_place(void **state)
{
    (void)state;
    ChecksCase c = with_more("loads: {overlay: 25 psf}\n");
    CheckCase with;
    for (int i = 0; i < c.answer->line_count; i++) {
        const KitLine *k = shared_line(&c, &with, i);
        const CheckRow *row = checks_row(&c, "connectors of an anchor panel at strength", k->name);
        assert_non_null(row);
        check_near(row->demand, most_at_anchors_N(&with, k), 1e-9, 0, "law: one sum, done twice");
    }
    checks_close(&c);
}

/* ---- measures ---- */

static void test_pockets_too_far_apart_fail(void **state)
{
    (void)state;
    ChecksCase c = with_more("connectors: {spacing: 5 ft}\n");
    const CheckRow *row = checks_row(&c, "spacing of pockets", NULL);
    assert_int_equal(row->state, CHECK_FAIL);
    check_near(quantity_in(row->capacity, "in"), 48, 1e-9, 0,
               "AASHTO LRFD 6.10.10.1.2 (from memory)");
    checks_close(&c);
}

/* A default against a default proves nothing and has no ratio. */
static void test_measures_that_are_not_chosen_have_no_ratio(void **state)
{
    const char *const name[] = {"spacing of pockets", "distance of rows in a pocket",
                                "distance of studs in a row"};
    (void)state;
    ChecksCase c = with_more("");
    for (int i = 0; i < 3; i++) {
        const CheckRow *row = checks_row(&c, name[i], NULL);
        assert_int_equal(row->state, CHECK_UNPROVEN);
        assert_true(isnan(row->ratio_1));
        assert_non_null(strstr(row->why, "not chosen: at "));
    }
    checks_close(&c);
}

static void test_measures_of_studs_follow_their_rules(void **state)
{
    static const char source[] = "AASHTO LRFD 6.10.10.1 (from memory)";
    (void)state;
    ChecksCase c = with_more("connectors: {diameter: 1 in, height: 3.5 in, haunch_most: 2 in, "
                             "pitch: 6 in, gauge: 3.5 in, per_row: 3, spacing: 48 in}\n");
    /* 1.5 in above the soffit: less than 2; 8.5 + 2 - 3.5 = 7 in of cover */
    assert_int_equal(checks_row(&c, "reach of connectors into the panel", NULL)->state, CHECK_FAIL);
    check_near(quantity_in(checks_row(&c, "cover of connectors", NULL)->capacity, "in"), 7, 1e-9, 0,
               source);
    assert_int_equal(checks_row(&c, "distance of rows in a pocket", NULL)->state, CHECK_PASS);
    assert_int_equal(checks_row(&c, "distance of studs in a row", NULL)->state, CHECK_FAIL);
    assert_int_equal(checks_row(&c, "spacing of pockets", NULL)->state, CHECK_PASS);
    /* (16 - 2 x 3.5 - 1)/2 = 4 in clear */
    check_near(
        quantity_in(checks_row(&c, "studs beside the edge of the flange", NULL)->capacity, "in"), 4,
        1e-9, 0, source);
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strength_of_studs_table),
        cmocka_unit_test(test_interface_shear_of_bars_is_that_of_the_weaker_face),
        cmocka_unit_test(test_smooth_top_has_the_constants_of_one),
        cmocka_unit_test(test_bond_does_not_hold_an_anchor_panel),
        cmocka_unit_test(test_anchor_panel_needs_sixteen_studs),
        cmocka_unit_test(test_pull_at_the_inner_edge_is_the_integral_of_the_pressures),
        cmocka_unit_test(test_anchor_panel_is_a_deep_beam_between_girders),
        cmocka_unit_test(test_two_girders_are_a_simple_span_and_overhangs_count),
        cmocka_unit_test(test_chosen_connectors_pass_and_fail),
        cmocka_unit_test(test_strength_given_as_a_number_is_used),
        cmocka_unit_test(test_given_strength_is_held_against_service_too),
        cmocka_unit_test(test_force_of_the_deck_is_moment_times_first_over_second_moment),
        cmocka_unit_test(test_force_of_a_pocket_is_shear_flow_times_length),
        cmocka_unit_test(test_slip_does_not_relieve_a_pocket_of_live_load),
        cmocka_unit_test(test_default_stiffness_proves_no_pocket),
        cmocka_unit_test(test_pockets_of_the_whole_deck_balance),
        cmocka_unit_test(test_what_is_printed_is_the_sum_that_chose_the_place),
        cmocka_unit_test(test_pockets_too_far_apart_fail),
        cmocka_unit_test(test_measures_that_are_not_chosen_have_no_ratio),
        cmocka_unit_test(test_measures_of_studs_follow_their_rules),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
