/* stages against complete staged lives of an independent model of the same mechanics: tests/cases. */
#include "check.h"

#include <string.h>

#include "case_model.h"

static const char *const source = "independent model of the same mechanics, tests/cases";

/* How near we are to each case; the case files themselves ask for 1 psi or 0.3 %. */
typedef struct Near {
    double deck_Pa, girder_Pa, strand_Pa;
    double closure_Pa;         /* fibres of closure and fill in the middle of the gap */
    double force_N, opening_m; /* deck, gap, anchors, reactions; movement of the gap */
} Near;

typedef struct Seen {
    const CaseModel *c;
    const StageHistory *h;
    const json_t *stage;
    int time;
    const Near *near;
} Seen;

static const PartForce *forces(const Seen *seen)
{
    return seen->h->force + (size_t)seen->time * (size_t)seen->h->model->part_count;
}

/* Mean of both sides, as the cases give it. */
static bool both_sides(const Seen *seen, Chain chain, int station, FibreStress *out)
{
    FibreStress l, r;
    if (!stage_stress(seen->h, seen->time, chain, station, -1, &l) ||
        !stage_stress(seen->h, seen->time, chain, station, 1, &r))
        return false;
    *out = (FibreStress){0.5 * (l.top_Pa + r.top_Pa), 0.5 * (l.bottom_Pa + r.bottom_Pa),
                         0.5 * (l.N_N + r.N_N), 0.5 * (l.M_Nm + r.M_Nm)};
    return true;
}

static void check_strands(const Seen *seen, const json_t *station, int at)
{
    const json_t *given = json_object_get(station, "strand_psi");
    if (!given) given = json_object_get(station, "tendon_psi");
    if (!given || strcmp(json_string_value(json_object_get(seen->stage, "stage")), "panels") == 0)
        return;
    const StageModel *model = &seen->c->model;
    size_t k = 0;
    for (int m = 0; m < model->material_count; m++) {
        if (model->material[m].kind != MATERIAL_STRAND) continue;
        double stress = 0;
        for (int p = 0; p < model->part_count; p++)
            if (model->part[p].material == m &&
                (model->part[p].element == at || model->part[p].element == at - 1))
                stress += 0.5 * forces(seen)[p].N / model->section[model->part[p].section].area_m2;
        check_near(stress, json_number_value(json_array_get(given, k++)) * 6894.757293168361, 0,
                   seen->near->strand_Pa, source);
    }
}

static void check_station(const Seen *seen, const json_t *v)
{
    const CaseModel *c = seen->c;
    const int at = case_station(c, case_get(c, v, "x"));
    FibreStress s = {0};
    if (case_has(c, v, "deck_top") && both_sides(seen, CHAIN_DECK, at, &s)) {
        check_near(s.top_Pa, case_get(c, v, "deck_top"), 0, seen->near->deck_Pa, source);
        check_near(s.bottom_Pa, case_get(c, v, "deck_bottom"), 0, seen->near->deck_Pa, source);
        check_near(s.N_N, case_get(c, v, "deck_force"), 0, seen->near->force_N, source);
    }
    assert_true(both_sides(seen, CHAIN_GIRDER, at, &s));
    check_near(s.top_Pa, case_get(c, v, "girder_top"), 0, seen->near->girder_Pa, source);
    check_near(s.bottom_Pa, case_get(c, v, "girder_bottom"), 0, seen->near->girder_Pa, source);
    check_strands(seen, v, at);
}

/* Sum of N and mean moments of the parts of a phase (-1: all) on both sides of the gap's middle. */
static PartForce middle(const Seen *seen, int gap, int phase)
{
    const StageModel *model = &seen->c->model;
    const int sum = model->gap[gap].left_station + model->gap[gap].right_station;
    const int left = (sum - 1) / 2, right = sum / 2;
    PartForce out = {0};
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        const PartForce *f = &forces(seen)[p];
        if (part->chain != CHAIN_DECK || (phase >= 0 && part->phase != phase)) continue;
        const double share = 0.5 * ((part->element == left) + (part->element == right));
        out.N += share * f->N;
        out.M_from += share * 0.5 * (f->M_from + f->M_to);
    }
    return out;
}

static double unit_force(const CaseModel *c) { return c->us ? 4448.2216152605 : 1e3; }
static const char *key_force(const CaseModel *c, const char *us, const char *si)
{
    return c->us ? us : si;
}

static double at_index(const json_t *list, int i)
{
    return json_number_value(json_array_get(list, (size_t)i));
}

static void check_strip(const Seen *seen, int gap, int k, const json_t *v)
{
    const StageModel *model = &seen->c->model;
    const int phase = 2 + 2 * gap + k;
    if (!json_is_object(v)) return;
    const PartForce f = middle(seen, gap, phase);
    int p = 0;
    while (model->part[p].phase != phase) p++;
    const PartSection *s = &model->section[model->part[p].section];
    check_near(-f.N, -case_get(seen->c, v, "force"), 0, seen->near->force_N, source);
    check_near(f.N / s->area_m2 - f.M_from * s->top_m / s->inertia_m4, case_get(seen->c, v, "top"),
               0, seen->near->closure_Pa, source);
    check_near(f.N / s->area_m2 + f.M_from * s->bottom_m / s->inertia_m4,
               case_get(seen->c, v, "bottom"), 0, seen->near->closure_Pa, source);
}

static void check_gap(const Seen *seen, int gap)
{
    const CaseModel *c = seen->c;
    const StageHistory *h = seen->h;
    const json_t *v = seen->stage;
    const size_t row = (size_t)seen->time * (size_t)c->model.gap_count + (size_t)gap;
    const json_t *thrust =
        json_object_get(v, key_force(c, "thrust_at_gap_kip", "thrust_at_gap_kN"));
    const json_t *opening = json_object_get(v, c->us ? "gap_opening_in" : "gap_opening_mm");
    const json_t *strips = json_array_get(json_object_get(v, "closure_and_fill_mid"), (size_t)gap);
    const PartForce all = middle(seen, gap, -1);
    const double want = at_index(thrust, gap) * unit_force(c);
    if (all.N == 0) /* jacks or struts alone */
        check_near(h->gap_force_N[row], want, 0, seen->near->force_N, source);
    else if (strcmp(json_string_value(json_object_get(v, "stage")), "closure") != 0)
        check_near(-all.N, want, 0, seen->near->force_N, source);
    check_near(h->gap_opening_m[row], at_index(opening, gap) * (c->us ? 0.0254 : 1e-3), 0,
               seen->near->opening_m, source);
    for (int k = 0; k < 2; k++) check_strip(seen, gap, k, json_array_get(strips, (size_t)k));
}

static void check_anchors(const Seen *seen, int gap)
{
    const CaseModel *c = seen->c;
    const json_t *run = json_array_get(json_object_get(c->input, "runs"), (size_t)gap);
    const json_t *given = json_array_get(
        json_object_get(seen->stage, key_force(c, "deck_compression_at_anchor_inner_faces_kip",
                                               "deck_compression_at_anchor_inner_faces_kN")),
        (size_t)gap);
    const double left = at_index(case_array(c, run, "anchor_left"), 1) * case_length(c);
    const double right = at_index(case_array(c, run, "anchor_right"), 0) * case_length(c);
    check_near(stage_deck_compression_N(seen->h, seen->time, case_station(c, left), 1),
               at_index(given, 0) * unit_force(c), 0, 3 * seen->near->force_N, source);
    check_near(stage_deck_compression_N(seen->h, seen->time, case_station(c, right), -1),
               at_index(given, 1) * unit_force(c), 0, 3 * seen->near->force_N, source);
}

static void check_stage(const Seen *seen)
{
    const CaseModel *c = seen->c;
    const int supports = c->model.support_count;
    size_t k;
    json_t *v;
    json_array_foreach(json_object_get(seen->stage, "stations"), k, v) check_station(seen, v);
    const json_t *reaction =
        json_object_get(seen->stage, key_force(c, "reactions_kip", "reactions_kN"));
    for (int s = 0; s < supports; s++)
        check_near(seen->h->reaction_N[seen->time * supports + s],
                   at_index(reaction, s) * unit_force(c), 0, seen->near->force_N, source);
    for (int gap = 0; gap < c->model.gap_count; gap++) {
        check_gap(seen, gap);
        check_anchors(seen, gap);
    }
}

/* Shims that gape, those under the closure left out. */
static void check_open_shims(const Seen *seen)
{
    const CaseModel *c = seen->c;
    const json_t *given =
        json_object_get(seen->stage, c->us ? "open_shims_x_ft" : "open_shims_x_m");
    const LinkState *link = seen->h->link + (size_t)seen->time * (size_t)c->model.station_count;
    int open = 0;
    for (int i = 0; i < c->model.station_count; i++) {
        bool closure = false;
        for (int g = 0; g < c->model.gap_count; g++)
            closure |= i > c->model.gap[g].left_station && i < c->model.gap[g].right_station;
        if (link[i].state != LINK_OPEN || closure) continue;
        open++;
        bool found = false;
        for (int k = 0; k < (int)json_array_size(given); k++)
            found |= fabs(at_index(given, k) * case_length(c) - c->model.x_m[i]) < 1e-3;
        assert_true(found);
    }
    if (given) assert_int_equal(open, json_array_size(given));
}

static void check_case(const char *name, Near near)
{
    Error err;
    Arena *arena = arena_create((size_t)1 << 30), *scratch = arena_create((size_t)1 << 30);
    CaseModel c = case_read(name, 1, arena);
    const StageHistory *h;
    check_status(stage_run(&c.model, &c.settings, arena, scratch, &h, &err), STATUS_OK, &err);
    assert_true(h->worst_residual_1 <= c.settings.newton_tolerance_1);
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(c.results, "stages"), i, v)
    {
        const int time = stage_time_named(h, json_string_value(json_object_get(v, "stage")));
        assert_true(time >= 0);
        const Seen seen = {&c, h, v, time, &near};
        check_stage(&seen);
        check_open_shims(&seen);
    }
    case_free(&c);
    arena_free(arena);
    arena_free(scratch);
}

#define psi 6894.757293168361
#define kip 4448.2216152605

static const Near us_elastic = {0.01 * psi, 0.02 * psi, 0, 0.2 * psi, 0.001 * kip, 1e-5 * 0.0254};
static const Near us_steel = {0.07 * psi, 0.5 * psi, 0, 1.5 * psi, 0.05 * kip, 1e-5 * 0.0254};
static const Near si_steel = {600, 6e3, 0, 2e4, 400, 2e-7};
static const Near us_pretensioned = {0.1 * psi, 0.5 * psi,  60 * psi,
                                     0.5 * psi, 0.05 * kip, 2e-5 * 0.0254};

static const Near us_tendon = {0.5 * psi, 1 * psi, 60 * psi, 0, 0.3 * kip, 0};

#define CASE(name, near)                           \
    static void test_##name##_agrees(void **state) \
    {                                              \
        (void)state;                               \
        check_case("pub-" #name, near);            \
    }
CASE(a1, us_elastic)
CASE(b1, us_elastic)
CASE(b2, us_elastic)
CASE(c1, us_steel)
CASE(c2, si_steel)
CASE(d1, us_pretensioned)
CASE(d2, us_pretensioned)
CASE(e1, si_steel)
CASE(f1, us_tendon)
CASE(g1, us_steel)
CASE(u1, us_steel)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a1_agrees), cmocka_unit_test(test_b1_agrees),
        cmocka_unit_test(test_b2_agrees), cmocka_unit_test(test_c1_agrees),
        cmocka_unit_test(test_c2_agrees), cmocka_unit_test(test_d1_agrees),
        cmocka_unit_test(test_d2_agrees), cmocka_unit_test(test_e1_agrees),
        cmocka_unit_test(test_f1_agrees), cmocka_unit_test(test_g1_agrees),
        cmocka_unit_test(test_u1_agrees),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("stages_cases", tests, NULL, NULL);
}
