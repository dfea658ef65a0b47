/* Histories laid between two others, held against runs at the same thrust. */
#include <math.h>

#include "../src/desk/desk_data.h"
#include "bridge_file.h"

static const char affine[] =
    "law: stress is affine in the thrust while contact and slip keep their "
    "pattern";
enum { ROOM = 1 << 29 };

typedef struct Three {
    BridgeFile file;
    Arena *scratch;
    const ThrustAnswer *a, *b, *between;
} Three;

/* Shims that neither slide nor lift: contact keeps its pattern under any thrust. Strands without
 * relaxation, which is not straight in the stress (3e-9 of the largest force here). */
static BridgeLine *hold_shims(const BridgeLine *line, Arena *arena)
{
    BridgeLine *held = ARENA_NEW(arena, BridgeLine, 1);
    *held = *line;
    Link *link = ARENA_NEW(arena, Link, line->model.station_count);
    for (int i = 0; i < line->model.station_count; i++) {
        link[i] = line->model.link[i];
        link[i].two_way = true;
        link[i].friction_1 = 0;
    }
    Material *material = ARENA_NEW(arena, Material, line->model.material_count);
    for (int i = 0; i < line->model.material_count; i++) {
        material[i] = line->model.material[i];
        if (material[i].kind == MATERIAL_STRAND) material[i].fpy_Pa = 0;
    }
    held->model.link = link;
    held->model.material = material;
    return held;
}

static void run_three(Three *three, double share_1)
{
    char text[2048];
    Error err = {0};
    const BridgeLine *line = NULL;
    int count = 0;
    ThrustWish wish = {.settings = stage_settings_default()};
    const ThrustStart *start[1];
    wish.settings.newton_tolerance_1 = 1e-13; /* the law is asked to 1e-9 over a hundred steps */
    three->scratch = arena_create(ROOM);
    bridge_from_text(&three->file, bridge_small("", text, sizeof text));
    Arena *arena = three->file.arena;
    check_status(bridge_lines(three->file.bridge, 1, arena, &line, &count, &err), STATUS_OK, &err);
    line = hold_shims(line, arena);
    check_status(thrust_find(line, 1, &wish, arena, three->scratch, &three->a, &err), STATUS_OK,
                 &err);
    check_status(thrust_start(line, &wish.settings, arena, three->scratch, start, &err), STATUS_OK,
                 &err);
    const double a_N = three->a->thrust_N, b_N = 1.4 * a_N;
    check_status(thrust_again(three->a, start, b_N, arena, three->scratch, &three->b, &err),
                 STATUS_OK, &err);
    check_status(thrust_again(three->a, start, a_N + share_1 * (b_N - a_N), arena, three->scratch,
                              &three->between, &err),
                 STATUS_OK, &err);
}

static void check_numbers(const double *x, const double *y, size_t count)
{
    double size = 0;
    for (size_t i = 0; i < count; i++) size = fmax(size, fabs(y[i]));
    for (size_t i = 0; i < count; i++) check_near(x[i], y[i], 0, 1e-9 * size, affine);
}

static void check_links(const StageHistory *x, const StageHistory *y, double size_N)
{
    for (int i = 0; i < x->time_count * x->model->station_count; i++) {
        check_near(x->link[i].H_N, y->link[i].H_N, 0, 1e-9 * size_N, affine);
        check_near(x->link[i].V_N, y->link[i].V_N, 0, 1e-9 * size_N, affine);
        assert_int_equal(x->link[i].state, y->link[i].state);
    }
}

static void test_history_between_two_is_the_run_where_the_pattern_keeps(void **state)
{
    (void)state;
    static const double shares_1[] = {0.37, 1.22, -0.31};
    for (int k = 0; k < 3; k++) {
        Three three;
        Blend blend;
        run_three(&three, shares_1[k]);
        const StageHistory *run = three.between->line[0].history;
        blend_make(&blend, three.a->line[0].history, three.b->line[0].history, three.file.arena);
        blend_share(&blend, shares_1[k]);
        for (int t = 0; t < run->time_count; t++) blend_row(&blend, t, true);
        const StageHistory *x = &blend.history;
        const StageModel *m = run->model;
        const size_t times = (size_t)run->time_count, stations = times * (size_t)m->station_count;
        check_numbers(&x->force->N, &run->force->N, 3 * times * (size_t)m->part_count);
        check_numbers(&x->move->u_m, &run->move->u_m, 6 * stations);
        check_numbers(&x->deck_cause->N_N, &run->deck_cause->N_N,
                      (size_t)2 * CAUSE_COUNT * stations);
        check_numbers(x->gap_force_N, run->gap_force_N, times * (size_t)m->gap_count);
        check_numbers(x->gap_opening_m, run->gap_opening_m, times * (size_t)m->gap_count);
        check_numbers(x->reaction_N, run->reaction_N, times * (size_t)m->support_count);
        check_links(x, run, three.between->line[0].thrust_N);
        arena_free(three.scratch);
        bridge_close(&three.file);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_history_between_two_is_the_run_where_the_pattern_keeps),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
