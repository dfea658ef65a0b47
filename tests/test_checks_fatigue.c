/* Connectors in fatigue, their interface at anchor panels, ties in fatigue, girders beside tied piers. */
#include "checks_case.h"

#include <string.h>

#include "../src/checks/pockets.h"
#include "../src/checks/ties.h"

static const char path[] = "tests/data/reference_deck.yaml";
static const double kip_N = 4448.2216152605; /* NIST SP 811 B.8 */
static const double thrust_N = 2040 * 4448.2216152605;

static ChecksCase with_more(const char *more)
{
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "# more", more);
    return c;
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

/* ---- fatigue of connectors ---- */

/* The reference deck, 150 ft, anchor panel 8 ft, axles of the file's own with one lane: the largest shear
 * flow of the fatigue truck in a panel is that of the last pocket, 2 ft from the end, where 32, 32 and 8 kip
 * 30 and 14 ft apart with 15 % stand at the left of its middle, and 32 kip at the next station at the right. */
static void test_fatigue_of_studs_in_an_anchor_panel_by_hand(void **state)
{
    static const char source[] = "closed form: V Q/I of a simple span";
    (void)state;
    ChecksCase c =
        with_more("live: {model: axles, axles: [{load: 100 kip}], impact: 0, "
                  "lanes_interior: 1, lanes_exterior: 1}\n"
                  "connectors: {diameter: 7/8 in, anchor_count: 50, anchor_grout: 6 ksi}\n");
    CheckCase with;
    const KitLine *k = shared_line(&c, &with, 0);
    const double L = 150 * 0.3048, ft = 0.3048 / L;
    const int at = line_station(k, 148 * 0.3048);
    const double left = k->model->x_m[at] / L, right = k->model->x_m[at + 1] / L;
    const double V = 32 * left + 32 * (left - 30 * ft) + 8 * (left - 44 * ft);
    const double flow = 1.15 * (V + 32 * (1 - right)) * force_per_moment(k); /* kip/m */
    const CheckRow *row =
        checks_row(&c, "fatigue of the connectors of an anchor panel", "interior line");
    const Sheet *s = row->sheet;
    check_near(sheet_value(s, "F_r"), flow * 8 * 0.3048, 2e-4, 0, source);
    check_near(quantity_in(row->demand, "kip"), 1.75 * flow * 8 * 0.3048, 2e-4, 0, source);
    check_near(quantity_in(row->capacity, "kip"), 50 * 5.5 * 0.765625, 1e-9, 0,
               "AASHTO LRFD 6.10.10.2 (from memory)");
    assert_int_equal(row->state, CHECK_UNPROVEN); /* the truck beside axles of the file's own */
    checks_close(&c);
    c = with_more("connectors: {diameter: 7/8 in, anchor_count: 9, anchor_grout: 6 ksi}\n");
    assert_int_equal(checks_row(&c, "fatigue of the connectors of an anchor panel", NULL)->state,
                     CHECK_FAIL);
    checks_close(&c);
    c = with_more("connectors: {diameter: 7/8 in, anchor_count: 60, anchor_grout: 6 ksi}\n");
    assert_int_equal(checks_row(&c, "fatigue of the connectors of an anchor panel", NULL)->state,
                     CHECK_PASS);
    checks_close(&c);
}

/* Bars of 7/8 in on a soffit as the form left it: A_b 0.60132 in^2, mu 0.6, so 0.36079 in^2 of friction a bar.
 * What stays on lowers 26 ksi by 22/60 of its stress. */
static void test_fatigue_of_bars_in_an_anchor_panel_by_hand(void **state)
{
    static const char source[] = "AASHTO LRFD 5.5.3.2 and 5.7.4.3 (from memory); by hand";
    static const char name[] = "fatigue of the connectors of an anchor panel";
    (void)state;
    for (int n = 9; n <= 60; n += 51) {
        char keys[96];
        snprintf(keys, sizeof keys, "diameter: 7/8 in, anchor_count: %d", n);
        ChecksCase c = with_bars(keys);
        const CheckRow *row = checks_row(&c, name, "interior line");
        const Sheet *s = row->sheet;
        const double bar = 0.6 * 3.14159265 * 0.875 * 0.875 / 4;
        const double F_p = sheet_value(s, "F_p"), F_f = 1.75 * sheet_value(s, "F_r");
        const double f_min = fmin(60, F_p / (n * bar));
        check_near(quantity_in(row->demand, "ksi"), F_f / (n * bar), 1e-8, 0, source);
        check_near(quantity_in(row->capacity, "ksi"), 26 - 22 * f_min / 60, 1e-8, 0, source);
        assert_int_equal(row->state, n == 9 ? CHECK_FAIL : CHECK_PASS);
        checks_close(&c);
    }
}

/* law: what stays on at an anchor panel is what presses the deck beside it. */
static void test_what_stays_on_an_anchor_panel_is_the_deck_s_compression(void **state)
{
    (void)state;
    ChecksCase c = with_bars("diameter: 7/8 in, anchor_count: 60");
    CheckCase with;
    const KitLine *k = shared_line(&c, &with, 0);
    const PocketForce f = anchor_force(&with, k, false);
    const int face = k->line->joint[0].station;
    double most = 0;
    for (int t = k->opening; t <= k->end; t++)
        most = fmax(most, stage_deck_compression_N(k->history, t, face, 1));
    check_near(pocket_permanent_N(&f), most, 0.002, 0, "law: equilibrium of the anchor panel");
    checks_close(&c);
}

/* Bond holds a pocket as well, and nothing is known of its fatigue: few bars are no failure and no proof. */
static void test_fatigue_of_bars_in_a_pocket_is_unproven_or_met(void **state)
{
    (void)state;
    ChecksCase c = with_bars("diameter: 7/8 in, per_cluster: 3");
    const CheckRow *row = checks_row(&c, "fatigue of a pocket", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "no provision"));
    assert_true(sheet_value(row->sheet, "df") > sheet_value(row->sheet, "dF_TH"));
    const int need = (int)ceil(sheet_value(row->sheet, "n_req"));
    checks_close(&c);
    for (int less = 0; less < 2; less++) { /* the number that is named is the least that does */
        char keys[96];
        snprintf(keys, sizeof keys, "diameter: 7/8 in, per_cluster: %d", need - less);
        c = with_bars(keys);
        for (int i = 0; i < c.answer->line_count && less == 0; i++)
            assert_int_equal(
                checks_row(&c, "fatigue of a pocket", c.answer->line[i].line->name)->state,
                CHECK_PASS);
        row = checks_row(&c, "fatigue of a pocket", NULL);
        assert_int_equal(row->state, less ? CHECK_UNPROVEN : CHECK_PASS);
        checks_close(&c);
    }
}

/* The causeway gives the strength of its anchor panels as a number. */
static void test_given_strength_says_nothing_of_fatigue(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 1000 * kip_N, NULL, NULL);
    const CheckRow *row = checks_row(&c, "fatigue of the connectors of an anchor panel", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_true(isnan(row->ratio_1));
    assert_non_null(strstr(row->why, "connectors.anchor_count"));
    checks_close(&c);
}

/* ---- interface at anchor panels ---- */

/* 42 in wide, 12 ft long: 6048 in^2, of which the thrust's couple may pull half open; 0.8 ksi of the weaker
 * face on 3024 in^2, times 0.9: 2177.3 kip, however many bars; 725.8 kip on a group of 4 ft. Least steel on
 * all of it: 0.05 x 6048 / 60 = 5.04 in^2, that is 9 bars of 0.6013 in^2, 8 are too few. */
static void test_caps_at_an_anchor_panel_count_what_stays_pressed(void **state)
{
    static const char source[] = "AASHTO LRFD 5.7.4.2 and 5.7.4.3 (from memory); by hand";
    const char *const length[] = {"12 ft", "4 ft"};
    const double cap_kip[] = {2177.28, 725.76}, least_in2[] = {5.04, 1.68};
    (void)state;
    for (int i = 0; i < 2; i++) {
        char keys[128];
        snprintf(keys, sizeof keys, "diameter: 7/8 in, anchor_count: 500, anchor_length: %s",
                 length[i]);
        ChecksCase c = with_bars(keys);
        const char *const name[] = {"connectors of an anchor panel",
                                    "connectors of an anchor panel at strength"};
        for (int n = 0; n < 2; n++)
            check_near(quantity_in(checks_row(&c, name[n], NULL)->capacity, "kip"), cap_kip[i],
                       1e-6, 0, source);
        const CheckRow *row = checks_row(&c, "least area of bars at an anchor panel", NULL);
        check_near(quantity_in(row->demand, "in^2"), least_in2[i], 1e-9, 0, source);
        checks_close(&c);
    }
    ChecksCase few = with_bars("diameter: 7/8 in, anchor_count: 8"),
               enough = with_bars("diameter: 7/8 in, anchor_count: 9");
    static const char least[] = "least area of bars at an anchor panel";
    assert_int_equal(checks_row(&few, least, NULL)->state, CHECK_FAIL);
    check_near(quantity_in(checks_row(&few, least, NULL)->capacity, "in^2"), 8 * 0.601320, 0, 1e-5,
               source);
    assert_true(checks_row(&enough, least, NULL)->ratio_1 < 1);
    checks_close(&few);
    checks_close(&enough);
}

/* ---- ties ---- */

static const char tied[] = "examples/made-continuous.yaml";

/* law: a load on the deck brings no force along the bridge, so ties, diaphragm and deck balance at a pier. */
static void test_forces_of_a_part_balance_at_a_tied_pier(void **state)
{
    (void)state;
    ChecksCase c;
    CheckCase with;
    checks_from_example(&c, tied, 3000 * kip_N, NULL, NULL);
    const KitLine *k = shared_line(&c, &with, 0);
    const StageModel *m = k->model;
    const int n = m->station_count;
    double *one = ARENA_NEW(c.arena, double, n), *sum = ARENA_NEW(c.arena, double, n);
    double *work = ARENA_NEW(c.arena, double, 6 * n);
    int part[TIE_LEVELS], piers = 0;
    for (int e = 0; e + 1 < n; e++) {
        if (ties_of(k, e, part) != 2) continue;
        double tie_1 = 0; /* largest influence on a tie */
        piers++;
        stage_influence_deck(live_structure(k->open_live), e, sum, work);
        for (int p = 0; p < m->part_count; p++) {
            if (m->part[p].element != e || m->part[p].chain != CHAIN_GIRDER || m->part[p].shear)
                continue;
            stage_influence_part(live_structure(k->open_live), p, one, work);
            for (int i = 0; i < n; i++) {
                sum[i] += one[i];
                if (tie_is(k, p)) tie_1 = fmax(tie_1, fabs(one[i]));
            }
        }
        assert_true(tie_1 > 0.01);
        for (int i = 0; i < n; i++) check_near(sum[i], 0, 0, 1e-6, "law: equilibrium");
    }
    assert_int_equal(piers, 3);
    checks_close(&c);
}

static ChecksCase with_ties(const char *fresh)
{
    ChecksCase c;
    checks_from_example(&c, tied, 3000 * kip_N, "tie_yield: 75 ksi", fresh);
    return c;
}

/* Bars: 26 - 22 f_min/75 ksi, where what stays on is most of it; the threshold of a coupler that the file
 * gives where it is less. Steel: its own threshold alone, at most that of category A, 24 ksi. */
static void test_fatigue_of_ties_by_hand(void **state)
{
    static const char source[] = "AASHTO LRFD 5.5.3.2 and table 6.6.1.2.5-3 (from memory); by hand";
    static const char name[] = "fatigue of ties through a pier";
    const struct {
        const char *fresh;
        double given_ksi;
        bool bars, threshold;
    } row_of[] = {
        {"tie_yield: 75 ksi", 24, true, false},
        {"tie_yield: 75 ksi\n  tie_threshold: 4 ksi", 4, true, true},
        {"tie_yield: 75 ksi\n  tie_kind: steel", 24, false, false},
        {"tie_yield: 75 ksi\n  tie_kind: steel\n  tie_threshold: 16 ksi", 16, false, true}};
    (void)state;
    for (int i = 0; i < 4; i++) {
        ChecksCase c = with_ties(row_of[i].fresh);
        const CheckRow *row = checks_row(&c, name, "interior line");
        const Sheet *s = row->sheet;
        const double A = sheet_value(s, "A_t"), g = 1.75 * sheet_value(s, "g_f");
        const double least = (sheet_value(s, "N_p") + g * sheet_value(s, "N_b")) / A;
        const double bar = 26 - 22 * fmax(0, fmin(1, least / 75));
        check_near(quantity_in(row->demand, "ksi"),
                   g * (sheet_value(s, "N_a") - sheet_value(s, "N_b")) / A, 1e-9, 0, source);
        check_near(quantity_in(row->capacity, "ksi"),
                   row_of[i].bars ? fmin(bar, row_of[i].given_ksi) : row_of[i].given_ksi, 1e-9, 0,
                   source);
        assert_true(row->demand > 0);
        assert_int_equal(row->state, row_of[i].threshold ? CHECK_PASS : CHECK_UNPROVEN);
        if (!row_of[i].threshold) assert_non_null(strstr(row->why, "piers.tie_threshold"));
        checks_close(&c);
    }
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 1000 * kip_N, NULL, NULL);
    assert_null(checks_row(&c, name, NULL)); /* no ties, no row */
    checks_close(&c);
}

static double truck_N(const KitLine *k, const StageStructure *structure, int part, int sign,
                      Arena *arena)
{
    const int n = k->model->station_count;
    double *value = ARENA_NEW(arena, double, n), *work = ARENA_NEW(arena, double, 8 * (n + 2));
    stage_influence_part(structure, part, value, work);
    const InfluenceLine line = {n, k->model->x_m, value};
    return traffic_extreme(&k->fatigue, &line, sign, false, work).value;
}

/* At half of the needed thrust creep leaves the diaphragm open at its foot, and one truck does not close it:
 * at the end of life the lower ties have seven times what they have beside strips that all of the live load
 * has closed. Neither bound may be less. */
static void test_diaphragm_that_stays_open_relieves_no_tie(void **state)
{
    (void)state;
    ChecksCase c;
    CheckCase with;
    Error err = {0};
    checks_from_example(&c, tied, 2000 * kip_N, NULL, NULL);
    const KitLine *k = shared_line(&c, &with, 0);
    const StageStructure *open = NULL, *closed = live_structure(k->end_live);
    check_status(stage_structure(k->history, k->end, 0, c.arena, &open, &err), STATUS_OK, &err);
    const Sheet *s = checks_row(&c, "fatigue of ties through a pier", k->name)->sheet;
    const double shown = sheet_value(s, "N_a") - sheet_value(s, "N_b");
    double range[2] = {0, 0}; /* largest of the lower ties */
    for (int p = 0; p < k->model->part_count; p++) {
        if (!tie_is(k, p) || k->model->part[p].from_height_m > -1) continue;
        for (int i = 0; i < 2; i++)
            range[i] = fmax(range[i], truck_N(k, i ? open : closed, p, 1, c.arena) -
                                          truck_N(k, i ? open : closed, p, -1, c.arena));
    }
    assert_true(range[1] > 2 * range[0]);
    assert_true(shown * kip_N >= range[1] * (1 - 1e-9));
    checks_close(&c);
}

/* A deck that opens no longer relieves the ties: the range is not theirs then. */
static void test_ties_beside_joints_that_open_are_unproven(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, tied, 1000 * kip_N, "tie_yield: 75 ksi",
                        "tie_yield: 75 ksi\n  tie_threshold: 20 ksi\n  tie_kind: steel");
    assert_int_equal(checks_row(&c, "joints under Fatigue I", NULL)->state, CHECK_FAIL);
    const CheckRow *row = checks_row(&c, "fatigue of ties through a pier", "interior line");
    assert_true(row->ratio_1 < 1);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "joints of the deck open"));
    checks_close(&c);
}

/* ---- girders beside tied piers ---- */

static const char negative[] = "pretensioned girder in negative moment";

/* BT-54, lower flange 26 by 6 in, 8.5 ksi: 0.85 x 8.5 x 26 x 0.65 c against 9 in^2 at yield, 50 in up, 6 in^2
 * at 87 (8 - c)/c ksi, 8 in up, and the strands: a quadratic in c. */
static void test_girder_beside_a_tied_pier_by_hand(void **state)
{
    static const char source[] = "AASHTO LRFD 5.6.3.2 (from memory); by hand";
    (void)state;
    ChecksCase c = with_ties("tie_yield: 75 ksi");
    const CheckRow *row = checks_row(&c, negative, "interior line");
    const Sheet *s = row->sheet;
    const double P = sheet_value(s, "P_e"), M_e = sheet_value(s, "M_e");
    const double q = 0.85 * 8.5 * 26 * 0.65, half = (9 * 75 + P - 6 * 87) / (2 * q);
    const double axis = half + sqrt(half * half + 6 * 87 * 8 / q), a = 0.65 * axis;
    check_near(sheet_value(s, "c"), axis, 1e-6, 0, source);
    /* two strands 6 in up lie between block and axis; near the girder's end they are not developed */
    const double lost = 0.003 * 28500 * sheet_value(s, "A_s1") * (axis - 6) / axis;
    assert_true(a < 6 && axis > 6 && sheet_value(s, "A_s1") < 0.434);
    const double M_n = 9 * 75 * 50.0 + 6 * 87 * (8 - axis) / axis * 8 + M_e - lost * 6 -
                       0.85 * 8.5 * 26 * a * a / 2;
    check_near(quantity_in(row->capacity, "kip*in"), 0.9 * M_n, 1e-6, 0, source);
    check_near(sheet_value(s, "C"), sheet_value(s, "T"), 1e-6, 0, "law: equilibrium");
    assert_int_equal(row->state, row->ratio_1 > 1.001 ? CHECK_FAIL : CHECK_UNPROVEN);
    checks_close(&c);
}

/* Ties of 100 ksi in a girder of 12 ksi: limits of strain 0.004 and 0.008; above 10 ksi the block has
 * less than 0.85 f'c. */
static void test_girder_beside_a_tied_pier_of_strong_materials(void **state)
{
    static const char source[] = "AASHTO LRFD 5.6.2.1, 5.6.2.2, 5.5.4.2 (from memory); by hand";
    (void)state;
    ChecksCase c;
    checks_from_example(&c, tied, 3000 * kip_N, "tie_yield: 75 ksi",
                        "tie_yield: 100 ksi\nconcrete:\n  girder: {strength: 12 ksi}");
    const Sheet *s = checks_row(&c, negative, "interior line")->sheet;
    const double e = sheet_value(s, "e_t");
    check_near(sheet_value(s, "phi"), fmax(0.75, fmin(0.9, 0.75 + 0.15 * (e - 0.004) / 0.004)),
               1e-9, 0, source);
    check_near(sheet_value(s, "C"), 0.81 * 12 * sheet_value(s, "A_c"), 1e-6, 0, source);
    check_near(sheet_value(s, "e_tl"), 0.008, 1e-9, 0, source);
    check_near(sheet_value(s, "C"), sheet_value(s, "T"), 1e-6, 0, "law: equilibrium");
    checks_close(&c);
}

/* Much steel over a diaphragm of 5 ksi: 40 in^2 no longer yield far enough for 0.9. */
static void test_heavily_tied_pier_has_a_smaller_factor(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, tied, 3000 * kip_N, "area: 9.0 in^2", "area: 40 in^2");
    const Sheet *s = checks_row(&c, "ties and diaphragm in negative moment", NULL)->sheet;
    const double strain = 0.003 * (50 - sheet_value(s, "c")) / sheet_value(s, "c");
    assert_true(strain < 0.005);
    check_near(sheet_value(s, "phi"),
               fmax(0.75, 0.75 + 0.15 * (strain - 0.00275) / (0.005 - 0.00275)), 1e-6, 0,
               "AASHTO LRFD 5.5.4.2, 5.6.2.1 (from memory); by hand");
    checks_close(&c);
}

/* Beyond their reach the ties are not there: strands alone, lower ratio of resistance 0.75. */
static void test_ties_hold_a_girder_as_far_as_they_reach(void **state)
{
    (void)state;
    ChecksCase c = with_ties("tie_yield: 75 ksi\n  tie_reach: 10 ft");
    const CheckRow *row = checks_row(&c, negative, "interior line");
    const Sheet *s = row->sheet;
    assert_true(sheet_value(s, "x_e") > 120);
    check_near(sheet_value(s, "T"), sheet_value(s, "P_e"), 1e-12, 0, "law: no ties beyond");
    check_near(sheet_value(s, "phi"), 0.75, 0, 0, "AASHTO LRFD 5.5.4.2 (from memory)");
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

/* Beyond the ties: 0.85 x 8.5 x 26 x 0.65 c against the strands alone. Two of them, 2 x 0.217 in^2 at 6 in, lie
 * between the block's edge and the axis, where the plane section takes tension away. The resistance is not
 * above that of the forces in balance without this tension. */
static void test_strands_between_block_and_axis_by_hand(void **state)
{
    static const char source[] = "law: plane section and equilibrium; by hand";
    (void)state;
    ChecksCase c = with_ties("tie_yield: 75 ksi\n  tie_reach: 10 ft");
    const Sheet *s = checks_row(&c, negative, "interior line")->sheet;
    const double P = sheet_value(s, "P_e"), M_e = sheet_value(s, "M_e");
    const double press = 0.85 * 8.5 * 26, axis = P / (press * 0.65), a = 0.65 * axis;
    assert_true(a < 6 && axis > 6); /* the harped row of 8 is high up */
    check_near(sheet_value(s, "c"), axis, 1e-6, 0, source);
    const double lost = 0.003 * 28500 * 0.434 * (axis - 6) / axis;
    check_near(sheet_value(s, "dP_1"), lost, 1e-6, 0, source);
    const double M_n = M_e - lost * 6 - press * a * a / 2;
    check_near(sheet_value(s, "M_n"), M_n, 1e-6, 0, source);
    const double less = (P - lost) / press; /* edge of the block in balance */
    assert_true(M_n < M_e - lost * 6 - press * less * less / 2);
    assert_true(M_e - lost * 6 - press * less * less / 2 < M_e - press * a * a / 2);
    checks_close(&c);
}

/* What cannot be computed is said: how far ties reach, and the lower flange of a section of its own. */
static void test_girder_beside_a_tied_pier_says_what_is_missing(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, tied, 3000 * kip_N, "area: 9.0 in^2", "area: 16 in^2");
    const CheckRow *row = checks_row(&c, negative, NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "piers.tie_reach"));
    checks_close(&c);
    checks_from_example(&c, tied, 3000 * kip_N, "shape: BT-54",
                        "area: 659 in^2\n  inertia: 268051 in^4\n  centroid: 27.63 in\n"
                        "  depth: 54 in\n  top_width: 42 in");
    row = checks_row(&c, negative, NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_true(isnan(row->ratio_1));
    assert_non_null(strstr(row->why, "girders.shape"));
    checks_close(&c);
    checks_from_example(&c, "examples/causeway.yaml", 1000 * kip_N, NULL, NULL);
    assert_null(checks_row(&c, negative, NULL)); /* simple spans */
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fatigue_of_studs_in_an_anchor_panel_by_hand),
        cmocka_unit_test(test_fatigue_of_bars_in_an_anchor_panel_by_hand),
        cmocka_unit_test(test_what_stays_on_an_anchor_panel_is_the_deck_s_compression),
        cmocka_unit_test(test_fatigue_of_bars_in_a_pocket_is_unproven_or_met),
        cmocka_unit_test(test_given_strength_says_nothing_of_fatigue),
        cmocka_unit_test(test_caps_at_an_anchor_panel_count_what_stays_pressed),
        cmocka_unit_test(test_forces_of_a_part_balance_at_a_tied_pier),
        cmocka_unit_test(test_fatigue_of_ties_by_hand),
        cmocka_unit_test(test_diaphragm_that_stays_open_relieves_no_tie),
        cmocka_unit_test(test_ties_beside_joints_that_open_are_unproven),
        cmocka_unit_test(test_girder_beside_a_tied_pier_by_hand),
        cmocka_unit_test(test_girder_beside_a_tied_pier_of_strong_materials),
        cmocka_unit_test(test_heavily_tied_pier_has_a_smaller_factor),
        cmocka_unit_test(test_ties_hold_a_girder_as_far_as_they_reach),
        cmocka_unit_test(test_strands_between_block_and_axis_by_hand),
        cmocka_unit_test(test_girder_beside_a_tied_pier_says_what_is_missing),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
