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

static const CheckWorking *working_of(const ChecksCase *c, const char *source)
{
    static const char word[] = "working ";
    for (int i = 0; source && i < c->list->working_count; i++)
        if (strncmp(source, word, sizeof word - 1) == 0 &&
            strcmp(source + sizeof word - 1, c->list->working[i].mark) == 0)
            return &c->list->working[i];
    return NULL;
}

/* Rows cite what is worked out, by its mark; returns how many lines do. */
static int check_cites(const ChecksCase *c)
{
    int count = 0;
    for (int i = 0; i < c->list->count; i++)
        for (int k = 0; k < c->list->row[i].sheet->count; k++) {
            const SheetLine *line = &c->list->row[i].sheet->line[k];
            if (!line->source || strncmp(line->source, "working ", 8) != 0 ||
                strncmp(line->source, "working of", 10) == 0)
                continue;
            const CheckWorking *w = working_of(c, line->source);
            assert_non_null(w);
            const bool stress = !w->live || w->live->fibre;
            check_near(fabs(line->value / quantity_in(1, line->unit)),
                       fabs(sheet_SI(w->sheet, stress ? "f" : "e")), 1e-12, 0,
                       "law: what is cited is what was worked out");
            count++;
        }
    return count;
}

/* From the axles to the stress, as a reader does. */
static void check_live(const CheckWorking *w)
{
    double N_N = 0, M_Nm = 0;
    for (int i = 0; i < w->live->axle_count; i++) {
        N_N += w->live->axle[i].load_N * w->live->axle[i].N_1;
        M_Nm += w->live->axle[i].load_N * w->live->axle[i].M_m;
    }
    const Sheet *s = w->sheet;
    const double lane_N = sheet_SI(s, "k_w") * sheet_SI(s, "w") * sheet_SI(s, "L_N");
    const double lane_Nm = sheet_SI(s, "k_w") * sheet_SI(s, "w") * sheet_SI(s, "L_M");
    check_near(sheet_SI(s, "N"), sheet_SI(s, "k_v") * N_N + lane_N, 1e-9, 1, "law: superposition");
    check_near(sheet_SI(s, "M"), sheet_SI(s, "k_v") * M_Nm + lane_Nm, 1e-9, 1,
               "law: superposition");
    check_near(sheet_value(s, "f"), by_hand(s), 1e-12, 0, "closed form: N / A + M y / I");
    check_near(sheet_SI(s, "f"), w->live->value, 1e-9, 0, "law: the same stress");
}

/* From the axles to a reaction, shear, moment or force, likewise. */
static void check_effect(const CheckWorking *w)
{
    double sum = 0; /* unit: of the effect */
    for (int i = 0; i < w->live->axle_count; i++)
        sum += w->live->axle[i].load_N * w->live->axle[i].ordinate;
    const Sheet *s = w->sheet;
    const double lane = sheet_SI(s, "k_w") * sheet_SI(s, "w") * sheet_SI(s, "L_i");
    check_near(sheet_SI(s, "e"), sheet_SI(s, "k_v") * sum + lane, 1e-9, 1, "law: superposition");
    check_near(sheet_SI(s, "e"), w->live->value, 1e-9, 0, "law: the same effect");
}

/* b T and b T y of a layer by Gauss' rule of two points, exact for cubics. */
static void check_layers(const CheckWorking *w)
{
    const GradientWorking *g = w->gradient;
    const double at[2] = {0.5 - sqrt(1.0 / 12), 0.5 + sqrt(1.0 / 12)};
    double sum = 0, moment = 0; /* unit: K m2, K m3 */
    for (int i = 0; i < g->layer_count; i++)
        for (int k = 0; k < 2; k++) {
            const WarmLayer *l = &g->layer[i];
            const double b = l->top_width_m + at[k] * (l->bottom_width_m - l->top_width_m);
            const double T = l->top_K + at[k] * (l->bottom_K - l->top_K);
            sum += l->height_m / 2 * b * T;
            moment += l->height_m / 2 * b * T * (l->y_m + at[k] * l->height_m);
        }
    assert_true(g->widths && g->layer_count > 0);
    check_near(sheet_SI(w->sheet, "S_0"), sum, 1e-9, 1e-9, "closed form: Gauss");
    check_near(sheet_SI(w->sheet, "S_1"), moment, 1e-9, 1e-9, "closed form: Gauss");
    check_near(sheet_SI(w->sheet, "T_m"), g->mean_K, 1e-9, 1e-9, "law: the mean that was used");
    check_near(sheet_SI(w->sheet, "T_k"), g->slope_K_per_m, 1e-9, 1e-9,
               "law: the slope that was used");
}

static void test_cited_effects_can_be_recomputed(void **state)
{
    static const char *const path[] = {"examples/causeway.yaml", "examples/made-continuous.yaml",
                                       "examples/two-span-metric.yaml"};
    (void)state;
    for (int i = 0; i < 3; i++) {
        ChecksCase c;
        checks_from_example(&c, path[i], 0, NULL, NULL);
        assert_true(check_cites(&c) >= 10);
        int fibres = 0, effects = 0;
        for (int k = 0; k < c.list->working_count; k++) {
            const CheckWorking *w = &c.list->working[k];
            (w->gradient ? check_layers : w->live->fibre ? check_live : check_effect)(w);
            fibres += w->live && w->live->fibre;
            effects += w->live && !w->live->fibre;
        }
        assert_true(fibres > 0 && effects > 10 && fibres + effects < c.list->working_count);
        checks_close(&c);
    }
}

static const SheetLine *line_of(const CheckRow *row, const char *symbol)
{
    for (int i = 0; row && i < row->sheet->count; i++)
        if (row->sheet->line[i].symbol && strcmp(row->sheet->line[i].symbol, symbol) == 0)
            return &row->sheet->line[i];
    fail_msg("%s has no line", symbol);
    return NULL;
}

static void check_from(const ChecksCase *c, const char *name, const char *symbol, const char *from)
{
    const SheetLine *line = line_of(checks_row(c, name, NULL), symbol);
    assert_non_null(line->source);
    assert_non_null(strstr(line->source, from));
}

static void test_inputs_say_where_they_come_from(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 0, NULL, NULL);
    check_from(&c, "time from jacking to grouted haunches", "d_j", "days.jacking, d");
    check_from(&c, "time from jacking to grouted haunches", "d_h", "days.haunch, d");
    check_from(&c, "joints: Service III with half the gradient", "g_LL", "criteria.joints");
    check_from(&c, "joints: Service III with half the gradient", "g_TG", "criteria.joints");
    check_from(&c, "joints: Service III with half the gradient", "f_t",
               "criteria.tension, default");
    check_from(&c, "joints: average after losses", "f_asked", "criteria.average, default");
    check_from(&c, "girder compression in service", "g_m", "4.6.2.2");
    checks_close(&c);
    checks_from_example(&c, "examples/two-span-metric.yaml", 0, NULL, NULL);
    check_from(&c, "joints under Fatigue I", "g_f", "live.lanes_");
    checks_close(&c);
    checks_from_example(&c, "examples/steel-continuous.yaml", 0,
                        "  spacing: ", "  splices: [{at: 60 ft, slip: 900 kip}]\n  spacing: ");
    check_from(&c, "bolted splice of the top flange", "R_s",
               "girders.splices[1].slip, bridge file");
    checks_close(&c);
}

/* AASHTO LRFD table 5.9.2.3.1b-1 (from memory): 0.24 sqrt(f'ci) with bonded bars, else the smaller of
 * 0.0948 sqrt(f'ci) and 0.2 ksi; f'ci of the example is 6.8 ksi. */
static void test_tension_at_transfer_is_worked_out(void **state)
{
    static const char name[] = "girder tension at transfer";
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/causeway.yaml", 0, NULL, NULL);
    assert_string_equal(line_of(checks_row(&c, name, NULL), "f_lim")->formula, "0.24 sqrt(f'ci)");
    check_near(line_of(checks_row(&c, name, NULL), "f_lim")->value, 0.24 * sqrt(6.8), 1e-12, 0,
               "AASHTO LRFD 5.9.2.3.1b (from memory)");
    check_from(&c, name, "f'ci", "strength_at_loading, bridge file");
    checks_close(&c);
    checks_from_example(&c, "examples/causeway.yaml", 0, "top_bars: yes", "top_bars: no");
    check_near(checks_row(&c, name, NULL)->capacity, 0.2 * 6.894757293168e6, 1e-9, 0,
               "AASHTO LRFD 5.9.2.3.1b (from memory): 0.0948 sqrt(6.8) = 0.247 is more than 0.2");
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_girder_stresses_can_be_recomputed),
        cmocka_unit_test(test_joints_can_be_recomputed),
        cmocka_unit_test(test_cited_effects_can_be_recomputed),
        cmocka_unit_test(test_inputs_say_where_they_come_from),
        cmocka_unit_test(test_tension_at_transfer_is_worked_out),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
