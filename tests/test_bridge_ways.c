/* The other ways to connect the panels, from the bridge file to the end of life, against an independent
 * model of the same mechanics: tendons, joints without compression, a cast deck. */
#include "bridge_file.h"

#include <string.h>

static const char source[] = "independent model of the same mechanics, cases f1, u1 and g1";

typedef struct Known {
    const char *moment;
    int joint; /* from 0, at 10 ft each */
    double top_psi, bottom_psi, girder_top_psi, girder_bottom_psi;
} Known;

/* Joints at 50 ft, over the pier at 120 ft, at 170 and 270 ft. */
static const Known tendons[] = {
    {"tendons stressed", 4, -969.973, -971.705, -10311.003, 7740.363},
    {"tendons stressed", 11, -976.108, -978.504, 13448.752, -11819.602},
    {"haunches grouted", 4, -960.165, -951.796, -10498.04, 7925.865},
    {"haunches grouted", 11, -954.65, -968.763, 13729.262, -12031.478},
    {"opening", 11, -565.05, -669.677, 13441.09, -17472.168},
    {"opening", 16, -885.826, -858.301, -6721.523, 3234.363},
    {"end of life", 4, -858.931, -763.862, -15385.947, 9285.765},
    {"end of life", 11, -342.067, -425.216, 11905.546, -19666.581},
    {"end of life", 26, -342.067, -425.216, 11905.546, -19666.581},
};
static const Known joints[] = {
    {"haunches grouted", 4, -0.778, 7.578, -10498.771, 7926.101},
    {"opening", 4, -118.034, -41.26, -11393.879, 10565.469},
    {"opening", 11, 307.953, 202.99, 14309.658, -16611.006},
    {"end of life", 4, -36.049, 39.44, -13261.397, 10072.996},
    {"end of life", 11, 416.193, 333.538, 13562.996, -17955.546},
    {"end of life", 16, 111.028, 129.94, -7240.904, 2682.908},
};
static const Known cast[] = {
    {"opening", 4, 148.028, 240.216, -16019.457, 9122.118},
    {"opening", 11, 669.294, 590.996, 11399.152, -20038.511},
    {"end of life", 4, 325.883, 409.177, -19353.429, 8436.589},
    {"end of life", 11, 848.89, 792.664, 10370.576, -22174.577},
    {"end of life", 16, 590.781, 583.731, -11437.807, -3610.868},
};

static FibreStress mean_of(const StageHistory *h, int time, Chain chain, const Joint *joint)
{
    FibreStress l = {0}, r = {0};
    assert_true(stage_stress(h, time, chain, joint->station, -1, &l));
    assert_true(stage_stress(h, time, chain, joint->station + joint->wide, 1, &r));
    return (FibreStress){0.5 * (l.top_Pa + r.top_Pa), 0.5 * (l.bottom_Pa + r.bottom_Pa), 0, 0};
}

static void check_known(const BridgeLine *line, const StageHistory *h, const Known *k,
                        double deck_psi, double girder_psi)
{
    const int time = stage_time_named(h, k->moment);
    assert_true(time >= 0);
    const FibreStress deck = mean_of(h, time, CHAIN_DECK, &line->joint[k->joint]);
    const FibreStress girder = mean_of(h, time, CHAIN_GIRDER, &line->joint[k->joint]);
    check_near(quantity_in(deck.top_Pa, "psi"), k->top_psi, 0, deck_psi, source);
    check_near(quantity_in(deck.bottom_Pa, "psi"), k->bottom_psi, 0, deck_psi, source);
    check_near(quantity_in(girder.top_Pa, "psi"), k->girder_top_psi, 0, girder_psi, source);
    check_near(quantity_in(girder.bottom_Pa, "psi"), k->girder_bottom_psi, 0, girder_psi, source);
}

typedef struct Life {
    BridgeFile file;
    Arena *scratch;
    const BridgeLine *line; /* the interior one */
    const StageHistory *history;
} Life;

/* The case's haunch has one weight all along and comes at once: friction at the shims remembers the way.
 * Its joints are of the panels' own concrete. */
static void as_the_case(Life *life, StageModel *model)
{
    *model = life->line->model;
    Event *event = ARENA_NEW(life->scratch, Event, model->event_count);
    Material *material = ARENA_NEW(life->scratch, Material, model->material_count);
    memcpy(event, model->event, sizeof *event * (size_t)model->event_count);
    memcpy(material, model->material, sizeof *material * (size_t)model->material_count);
    const double given = 0.03 / quantity_in(1, "kip/ft");
    double haunch = given;
    for (int i = 0; i < model->event_count; i++) {
        if (event[i].kind != EVENT_LOAD || event[i].line_load_N_per_m > 1.3 * given) continue;
        event[i].from_station = 0;
        event[i].to_station = model->station_count - 1;
        event[i].line_load_N_per_m = haunch;
        haunch = 0;
    }
    for (int i = 0; i < model->material_count; i++)
        if (strcmp(material[i].name, "UHPC joints") == 0) material[i] = material[1];
    model->event = event;
    model->material = material;
}

static void life_start(Life *life, Way way)
{
    const WayWish wish = {way, 0, 1};
    StageSettings settings = stage_settings_default();
    int count = 0;
    Error err = {0};
    settings.first_step_day = 0.05; /* as the cases */
    settings.step_growth_1 = 1.25;
    bridge_from_example(&life->file, "tests/data/bridge_ways.yaml");
    life->scratch = arena_create((size_t)512 << 20);
    check_status(
        bridge_way_lines(life->file.bridge, &wish, life->scratch, &life->line, &count, &err),
        STATUS_OK, &err);

    StageModel *model = ARENA_NEW(life->scratch, StageModel, 1);
    as_the_case(life, model);
    check_status(stage_run(model, &settings, life->scratch, life->file.arena, &life->history, &err),
                 STATUS_OK, &err);
}

static void life_end(Life *life)
{
    bridge_close(&life->file);
    arena_free(life->scratch);
}

/* Three weights of the case are rounded; it seats the wedges along a mirrored line, not a mirrored
 * exponential. Off by at most 0.8 psi in the deck and 25 psi in the girder (0.2 %, the mesh). */
static void test_tendons_agree_with_an_independent_model(void **state)
{
    (void)state;
    Life life;
    life_start(&life, WAY_TENDON);
    for (size_t i = 0; i < sizeof tendons / sizeof *tendons; i++)
        check_known(life.line, life.history, &tendons[i], 1.0, 30);
    life_end(&life);
}

/* Joints are judged at their faces, 2 in from where the case looks: 2 psi at the cusp over a pier. */
static void test_joints_without_compression_agree_with_an_independent_model(void **state)
{
    (void)state;
    Life life;
    life_start(&life, WAY_UHPC);
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++)
        check_known(life.line, life.history, &joints[i], 2.0, 150);
    life_end(&life);
}

static void test_a_cast_deck_agrees_with_an_independent_model(void **state)
{
    (void)state;
    Life life;
    life_start(&life, WAY_CAST);
    for (size_t i = 0; i < sizeof cast / sizeof *cast; i++)
        check_known(life.line, life.history, &cast[i], 1.0, 30);
    life_end(&life);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tendons_agree_with_an_independent_model),
        cmocka_unit_test(test_joints_without_compression_agree_with_an_independent_model),
        cmocka_unit_test(test_a_cast_deck_agrees_with_an_independent_model),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
