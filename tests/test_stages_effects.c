/* stages: the linear structure of a moment against the march itself: influence lines, reactions,
 * uniform load, temperature. */
#include "check.h"

#include "stage_make.h"

static Arena *arena;

static int set_up(void **state)
{
    (void)state;
    arena = arena_create((size_t)1 << 30);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

static const double w_N_per_m = 7e3, dT_K = 11;

/* A finished elastic bridge; `after` adds the event whose effect is asked. */
static const StageHistory *finished(Make *make, void (*after)(Make *make, double L))
{
    LineSpec spec = line_spec();
    spec.closure_share_1 = 1;
    *make = line_make(&spec, arena);
    const double L = line_length(&spec);
    line_set_up(make, &spec, 0, 4e3, 16e3);
    make_jack(make, 0, 0, 3e6, 3);
    make_event(make, 0, EVENT_LOCK, CAUSE_THRUST);
    make_birth(make, 0, 2);
    make_event(make, 0, EVENT_RELEASE, CAUSE_RELEASE);
    make_bond(make, 0, 0, L);
    make_note(make, 0, "finished");
    after(make, L);
    make_note(make, 0, "after");
    return make_run(make);
}

static void load_all(Make *make, double L) { make_load(make, 0, 0, L, CHAIN_DECK, w_N_per_m); }

static void load_a_part(Make *make, double L)
{
    (void)L;
    make_load(make, 0, 35, 60, CHAIN_DECK, w_N_per_m);
}

static void warm_the_deck(Make *make, double L)
{
    (void)L;
    Event *event = make_event(make, 0, EVENT_TEMPERATURE, CAUSE_TEMPERATURE);
    event->chain = CHAIN_DECK;
    event->change_K = dT_K;
}

static const StageStructure *structure_of(const StageHistory *h)
{
    Error err;
    const StageStructure *structure;
    check_status(stage_structure(h, make_time(h, "finished"), 0, arena, &structure, &err),
                 STATUS_OK, &err);
    return structure;
}

/* Change of a fibre's stress from "finished" to "after". */
static double change_of(const StageHistory *h, StageEffect effect)
{
    FibreStress a, b;
    assert_true(
        stage_stress(h, make_time(h, "finished"), effect.chain, effect.station, effect.side, &a));
    assert_true(
        stage_stress(h, make_time(h, "after"), effect.chain, effect.station, effect.side, &b));
    return effect.top ? b.top_Pa - a.top_Pa : b.bottom_Pa - a.bottom_Pa;
}

/* Influence line summed under the load of stations from..to, each with its tributary length. */
static double summed(const StageModel *model, const double *line, int from, int to)
{
    double sum = 0;
    for (int i = from; i <= to; i++) {
        const double length = (i > from ? model->x_m[i] - model->x_m[i - 1] : 0) +
                              (i < to ? model->x_m[i + 1] - model->x_m[i] : 0);
        sum += 0.5 * length * w_N_per_m * line[i];
    }
    return sum;
}

/* Downward movement of the girder's nodes from "finished" to "after". */
static void check_moves(const StageHistory *h, const StageStructure *structure, int from, int to)
{
    const StageModel *model = h->model;
    const int n = model->station_count;
    double *value = ARENA_NEW(arena, double, n), *work = ARENA_NEW(arena, double, 6 * n);
    const NodeMove *before = h->move + (ptrdiff_t)make_time(h, "finished") * n * 2,
                   *after = h->move + (ptrdiff_t)make_time(h, "after") * n * 2;
    for (int i = 0; i < n; i += 7) {
        assert_true(stage_influence_move(structure, i, value, work));
        check_near(summed(model, value, from, to),
                   before[(ptrdiff_t)2 * i].v_m - after[(ptrdiff_t)2 * i].v_m, 1e-6, 1e-10,
                   "law: Maxwell-Betti, the deflected shape of a unit load");
    }
}

static void check_influence(void (*load)(Make *make, double L), double from_m, double to_m)
{
    Make make;
    const StageHistory *h = finished(&make, load);
    const StageStructure *structure = structure_of(h);
    const StageModel *model = &make.model;
    const int n = model->station_count, from = make_station(&make, from_m),
              to = make_station(&make, to_m);
    double *value = ARENA_NEW(arena, double, 8 * n), *work = ARENA_NEW(arena, double, 48 * n);
    for (int i = 1; i + 1 < n; i += 9) {
        StageEffect effect[8];
        bool there[8];
        for (int k = 0; k < 8; k++)
            effect[k] = (StageEffect){k & 1 ? CHAIN_DECK : CHAIN_GIRDER, i, k & 2 ? 1 : -1, k & 4};
        stage_influence(structure, effect, 8, value, there, work);
        for (int k = 0; k < 8; k++) {
            assert_true(there[k]);
            check_near(summed(model, value + (ptrdiff_t)k * n, from, to), change_of(h, effect[k]),
                       1e-6, 5, "law: Maxwell-Betti, an influence line is the answer to the load");
        }
    }
    check_moves(h, structure, from, to);
    for (int s = 0; s < model->support_count; s++) {
        const double *before = h->reaction_N + (ptrdiff_t)make_time(h, "finished") * 4,
                     *after = h->reaction_N + (ptrdiff_t)make_time(h, "after") * 4;
        assert_true(stage_influence_reaction(structure, s, value, work));
        check_near(summed(model, value, from, to), after[s] - before[s], 1e-6, 0.1,
                   "law: Maxwell-Betti");
    }
}

static void test_influence_lines_answer_a_full_load(void **state)
{
    (void)state;
    check_influence(load_all, 0, 104);
}

static void test_influence_lines_answer_a_part_load(void **state)
{
    (void)state;
    check_influence(load_a_part, 35, 60);
}

/* Moments of 1 N/m: zero where a beam's ends are, and reactions and load give the rest. */
static void test_uniform_moment_balances_the_load(void **state)
{
    (void)state;
    Make make;
    const StageHistory *h = finished(&make, load_all);
    const StageModel *model = &make.model;
    const int n = model->station_count;
    double *moment = ARENA_NEW(arena, double, n), *work = ARENA_NEW(arena, double, 12 * n);
    stage_uniform_moment(structure_of(h), moment, work);
    const double *before = h->reaction_N + (ptrdiff_t)make_time(h, "finished") * 4,
                 *after = h->reaction_N + (ptrdiff_t)make_time(h, "after") * 4;
    for (int i = 3; i + 3 < n; i++) {
        const double x = model->x_m[i];
        double M = -0.5 * x * x;
        bool pier = false;
        for (int s = 0; s < 4; s++) {
            const double at = model->x_m[model->support[s].station];
            if (at < x) M += (after[s] - before[s]) / w_N_per_m * (x - at);
            pier |= fabs(at - x) < 1.5;
        }
        if (!pier)
            check_near(moment[i], M, 1e-3, 0.5, "law: equilibrium; means round the parabola");
    }
}

/* The deck warmed by the march, and as a profile over the depth. */
static void test_temperature_profile_equals_a_warmed_deck(void **state)
{
    (void)state;
    Make make;
    const StageHistory *h = finished(&make, warm_the_deck);
    const int n = make.model.station_count;
    const double t = make.model.deck_thickness_m, depth[3] = {0, t, t}, rise[3] = {dT_K, dT_K, 0};
    FibreStress *deck = ARENA_NEW(arena, FibreStress, 2 * n),
                *girder = ARENA_NEW(arena, FibreStress, 2 * n);
    Arena *scratch = arena_create(1 << 26);
    stage_temperature(structure_of(h), depth, rise, 3, deck, girder, scratch);
    arena_free(scratch);
    for (int i = 0; i < n; i++)
        for (int s = 0; s < 2; s++) {
            if ((i == 0 && s == 0) || (i == n - 1 && s == 1)) {
                assert_true(isnan(deck[2 * i + s].N_N));
                continue;
            }
            const int side = s ? 1 : -1;
            check_near(deck[2 * i + s].top_Pa,
                       change_of(h, (StageEffect){CHAIN_DECK, i, side, true}), 1e-6, 5,
                       "law: the same free strain");
            check_near(girder[2 * i + s].bottom_Pa,
                       change_of(h, (StageEffect){CHAIN_GIRDER, i, side, false}), 1e-6, 5,
                       "law: the same free strain");
        }
}

/* One span, straight profile over the deck alone: what is left is self-equilibrated at mid-span. */
static void test_temperature_stress_has_no_resultant_in_one_span(void **state)
{
    (void)state;
    LineSpec spec = line_spec();
    spec.span_count = 1;
    spec.span_m[0] = 30;
    spec.gap_from_m = 4;
    spec.gap_to_m = 5;
    spec.closure_share_1 = 1;
    spec.longest_m = 0.5;
    Make make = line_make(&spec, arena);
    line_set_up(&make, &spec, 0, 0, 0);
    make_birth(&make, 0, 2);
    make_bond(&make, 0, 0, 30);
    make_note(&make, 0, "finished");
    const StageHistory *h = make_run(&make);
    const int n = make.model.station_count, middle = make_station(&make, 15);
    const double depth[3] = {0, 0.1, 0.4}, rise[3] = {-8, -2, 0};
    FibreStress *deck = ARENA_NEW(arena, FibreStress, 2 * n),
                *girder = ARENA_NEW(arena, FibreStress, 2 * n);
    Arena *scratch = arena_create(1 << 26);
    stage_temperature(structure_of(h), depth, rise, 3, deck, girder, scratch);
    arena_free(scratch);
    const FibreStress *d = deck + (ptrdiff_t)2 * middle, *g = girder + (ptrdiff_t)2 * middle;
    const double lever = spec.girder_top_m + spec.haunch_m + spec.deck_arm_m / 2;
    check_near(d->N_N + g->N_N, 0, 0, 1e-3, "law: no resultant force");
    check_near(d->M_Nm + g->M_Nm - d->N_N * lever, 0, 0, 1e-3 * fabs(g->M_Nm),
               "law: no resultant moment");
    assert_true(fabs(g->M_Nm) > 1e3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_influence_lines_answer_a_full_load, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_influence_lines_answer_a_part_load, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_uniform_moment_balances_the_load, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_temperature_profile_equals_a_warmed_deck, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_temperature_stress_has_no_resultant_in_one_span,
                                        set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("stages_effects", tests, NULL, NULL);
}
