/* stages: laws that hold for any bridge, at every moment of its life. */
#include "check.h"

#include <string.h>

#include "case_model.h"
#include "stage_make.h"

static Arena *arena;

static int set_up(void **state)
{
    (void)state;
    arena = arena_create((size_t)3 << 30);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

/* A whole life on a coarse mesh: pub-c1 (steel, friction), pub-d1 (strands, relaxation). */
static const StageHistory *life(const char *name, double refine, CaseModel *c)
{
    Error err;
    const StageHistory *history;
    Arena *scratch = arena_create((size_t)1 << 30);
    *c = case_read(name, refine, arena);
    check_status(stage_run(&c->model, &c->settings, arena, scratch, &history, &err), STATUS_OK,
                 &err);
    arena_free(scratch);
    return history;
}

/* ---- equilibrium of every cut, from the recorded forces and the loads of the events ---- */

static double half_length(const StageModel *model, const Event *event, int i)
{
    const double *x = model->x_m;
    return (i > event->from_station ? 0.5 * (x[i] - x[i - 1]) : 0) +
           (i < event->to_station ? 0.5 * (x[i + 1] - x[i]) : 0);
}

/* Weight on both chains of a station from all events done at that time. */
static double weight_at(const StageHistory *h, int time, int station)
{
    double sum = 0;
    for (int t = 0; t <= time; t++) {
        if (h->event[t] < 0) continue;
        const Event *event = &h->model->event[h->event[t]];
        if (event->kind == EVENT_LOAD && station >= event->from_station &&
            station <= event->to_station)
            sum += event->line_load_N_per_m * half_length(h->model, event, station);
    }
    return sum;
}

typedef struct Cut {
    double N, M, V; /* of all parts at the element's left end, about the girder top */
} Cut;

static Cut cut_at(const StageHistory *h, int time, int element)
{
    const StageModel *model = h->model;
    const double L = model->x_m[element + 1] - model->x_m[element];
    const double deck = model->haunch_m + 0.5 * model->deck_thickness_m;
    Cut cut = {0};
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        const PartForce *f = &h->force[(size_t)time * (size_t)model->part_count + (size_t)p];
        if (part->element != element) continue;
        const double y = part->from_height_m + (part->chain == CHAIN_DECK ? deck : 0);
        const double rise = part->to_height_m - part->from_height_m;
        const bool fibre = !(model->section[part->section].inertia_m4 > 0);
        const double N = f->N * (fibre ? L / hypot(L, rise) : 1); /* along x */
        cut.N += N;
        cut.M += f->M_from - N * y;
        cut.V += (f->M_to - f->M_from) / L - N * rise / L;
    }
    for (int g = 0; g < model->gap_count; g++) { /* jacks and struts reach over the gap */
        const Gap *gap = &model->gap[g];
        if (element < gap->left_station || element >= gap->right_station) continue;
        double jack = h->gap_force_N[time * model->gap_count + g];
        const int low = (gap->left_station + gap->right_station - 1) / 2;
        const int high = (gap->left_station + gap->right_station) / 2;
        for (int p = 0; p < model->part_count; p++) {
            if (model->part[p].chain != CHAIN_DECK) continue;
            const double N = h->force[(size_t)time * (size_t)model->part_count + (size_t)p].N;
            if (model->part[p].element == low) jack += 0.5 * N;
            if (model->part[p].element == high) jack += 0.5 * N;
        }
        cut.N -= jack;
        cut.M += jack * (deck + gap->jack_above_mid_m);
    }
    return cut;
}

/* Largest force that a part puts on a node: the scale that the engine states its residual on. */
static double scale_of(const StageHistory *h, int time)
{
    const StageModel *model = h->model;
    double scale = 0;
    for (int p = 0; p < model->part_count; p++) {
        const PartForce *f = &h->force[(size_t)time * (size_t)model->part_count + (size_t)p];
        const int e = model->part[p].element;
        scale = fmax(scale, fmax(fabs(f->N), (fabs(f->M_from) + fabs(f->M_to)) /
                                                 (model->x_m[e + 1] - model->x_m[e])));
    }
    return scale;
}

/* Goes along the bridge: what supports and loads put in from the left is what the cut passes on. */
static void check_cuts(const StageHistory *h, int time)
{
    static const char *const law = "law: equilibrium of a cut";
    const StageModel *model = h->model;
    const double scale = scale_of(h, time);
    double H = 0, V = 0, M = 0;
    for (int i = 0; i + 1 < model->station_count; i++) {
        if (i > 0) M += V * (model->x_m[i] - model->x_m[i - 1]);
        for (int s = 0; s < model->support_count; s++) {
            if (model->support[s].station != i) continue;
            const double x = h->reaction_x_N[time * model->support_count + s];
            H += x;
            M += x * -model->support[s].below_top_m;
            V += h->reaction_N[time * model->support_count + s];
        }
        V -= weight_at(h, time, i);
        const Cut cut = cut_at(h, time, i);
        check_near(cut.N, -H, 0, 1e-9 * scale, law);
        check_near(cut.V, V, 0, 1e-9 * scale * (1 + i), law);
        check_near(cut.M, M, 0, 1e-9 * scale * (1 + model->x_m[i]) * (1 + i), law);
    }
}

static void test_every_cut_balances_at_every_time(void **state)
{
    (void)state;
    static const char *const name[] = {"pub-c1", "pub-d1", "pub-g1"};
    for (int k = 0; k < 3; k++) {
        CaseModel c;
        const StageHistory *h = life(name[k], 0.25, &c);
        for (int t = 0; t < h->time_count; t += t % 8 == 7 ? 5 : 1) check_cuts(h, t);
        check_cuts(h, h->time_count - 1);
        case_free(&c);
    }
}

/* ---- causes ---- */

static void test_causes_add_up_to_the_state_at_every_time(void **state)
{
    (void)state;
    static const char *const name[] = {"pub-c1", "pub-d2", "pub-f1"};
    for (int k = 0; k < 3; k++) {
        CaseModel c;
        const StageHistory *h = life(name[k], 0.25, &c);
        const int stations = c.model.station_count;
        double largest = 0;
        for (int t = 0; t < h->time_count; t++)
            for (int e = 0; e + 1 < stations; e++) {
                double N = line_deck_N(h, t, e);
                largest = fmax(largest, fabs(N));
                for (int cause = 0; cause < CAUSE_COUNT; cause++)
                    N -=
                        h->deck_cause[((size_t)t * CAUSE_COUNT + (size_t)cause) * (size_t)stations +
                                      (size_t)e]
                            .N_N;
                check_near(N, 0, 0, 1e-9 * largest + 1e-6, "law: causes add up");
            }
        case_free(&c);
    }
}

static void test_fibre_stresses_by_cause_add_up(void **state)
{
    (void)state;
    CaseModel c;
    const StageHistory *h = life("pub-c1", 0.25, &c);
    const int station = case_station(&c, 36.576);
    for (int t = 0; t < h->time_count; t += 7)
        for (int side = -1; side <= 1; side += 2) {
            FibreStress all, one;
            double top = 0, bottom = 0;
            if (!stage_stress(h, t, CHAIN_DECK, station, side, &all)) continue;
            for (int cause = 0; cause < CAUSE_COUNT; cause++)
                if (stage_stress_by_cause(h, t, (Cause)cause, station, side, &one)) {
                    top += one.top_Pa;
                    bottom += one.bottom_Pa;
                }
            check_near(top, all.top_Pa, 1e-9, 1e-3, "law: causes add up");
            check_near(bottom, all.bottom_Pa, 1e-9, 1e-3, "law: causes add up");
        }
    case_free(&c);
}

/* ---- superposition and symmetry ---- */

static Material creeping(double cast_day)
{
    Material m = {.kind = MATERIAL_CONCRETE, .cast_day = cast_day, .expansion_per_K = 1e-5};
    m.mix = concrete_mix_default(TIME_AASHTO2015);
    return m;
}

/* Invented life: jacked on day 60, closed, released, bonded, loaded; 1000 days. */
static void add_life(Make *make, const LineSpec *spec, double P)
{
    const double L = line_length(spec);
    line_set_up(make, spec, 50, 4e3, 16e3);
    make_jack(make, 60, 0, P, 5);
    make_event(make, 60.1, EVENT_LOCK, CAUSE_THRUST);
    make_birth(make, 61, 2);
    make_event(make, 63, EVENT_RELEASE, CAUSE_RELEASE);
    make_birth(make, 64, 3);
    make_bond(make, 66, 0, L);
    make_load(make, 80, 0, L, CHAIN_DECK, 9e3);
    make_note(make, 1000, "late");
}

static const StageHistory *superposed(double P)
{
    LineSpec spec = line_spec();
    spec.deck = creeping(0);
    spec.closure = creeping(60);
    spec.link_per_m.friction_1 = 0;
    spec.link_per_m.two_way = true;
    Make make = line_make(&spec, arena);
    add_life(&make, &spec, P);
    return make_run(&make);
}

static void test_thrust_superposes_without_friction(void **state)
{
    (void)state;
    const StageHistory *h[3] = {superposed(0), superposed(1.5e6), superposed(4.5e6)};
    const int parts = h[0]->model->part_count;
    for (int t = 0; t < h[0]->time_count; t++)
        for (int p = 0; p < parts; p++) {
            const PartForce *a = &h[0]->force[t * parts + p], *b = &h[1]->force[t * parts + p],
                            *c = &h[2]->force[t * parts + p];
            check_near(c->N - a->N, 3 * (b->N - a->N), 1e-8, 0.1, "law: superposition");
            check_near(c->M_from - a->M_from, 3 * (b->M_from - a->M_from), 1e-8, 1,
                       "law: superposition");
        }
}

/* The bridge and its history are symmetric but for the fixed bearing, which carries nothing. */
static void test_symmetric_bridge_stays_symmetric(void **state)
{
    (void)state;
    LineSpec spec = line_spec();
    spec.deck = creeping(0);
    spec.closure = creeping(60);
    Make make = line_make(&spec, arena);
    add_life(&make, &spec, 4e6);
    const StageHistory *h = make_run(&make);
    const int stations = make.model.station_count;
    for (int t = 3; t < h->time_count; t++) { /* after the panels of the right half */
        for (int e = 0; e + 1 < stations; e++) {
            check_near(line_deck_N(h, t, e), line_deck_N(h, t, stations - 2 - e), 0, 1e-3,
                       "law: mirror symmetry");
            check_near(line_girder_M(h, t, e, false), line_girder_M(h, t, stations - 2 - e, true),
                       0, 1e-3, "law: mirror symmetry");
        }
        const double *up = h->reaction_N + (ptrdiff_t)t * 4;
        check_near(up[0], up[3], 0, 1e-3, "law: mirror symmetry");
        check_near(up[1], up[2], 0, 1e-3, "law: mirror symmetry");
        check_near(h->reaction_x_N[(ptrdiff_t)t * 4], 0, 0, 1, "law: no push along the bridge");
    }
}

/* Nothing is jacked, the girder is free to lengthen, no shrinkage: no force in the deck. */
static void test_unloaded_deck_stays_without_stress(void **state)
{
    (void)state;
    LineSpec spec = line_spec();
    spec.deck = creeping(0);
    spec.link_per_m.friction_1 = 0;
    Make make = line_make(&spec, arena);
    line_set_up(&make, &spec, 50, 4e3, 16e3);
    make_note(&make, 500, "late");
    StageSettings settings = stage_settings_default();
    settings.shrinkage_scale_1 = 0;
    const StageHistory *h = make_run_with(&make, &settings);
    for (int e = 0; e + 1 < make.model.station_count; e++)
        check_near(line_deck_N(h, h->time_count - 1, e), 0, 0, 1e-3, "law: born without stress");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_every_cut_balances_at_every_time, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_causes_add_up_to_the_state_at_every_time, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_fibre_stresses_by_cause_add_up, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_thrust_superposes_without_friction, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_symmetric_bridge_stays_symmetric, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_unloaded_deck_stays_without_stress, set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("stages_laws", tests, NULL, NULL);
}
