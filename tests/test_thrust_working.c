/* thrust: how stresses of live load and gradient come about gives those that the answer was made of. */
#include "bridge_file.h"

#include <math.h>

#include "clench/thrust.h"

static Arena *arena, *scratch;

static int set_up(void **state)
{
    (void)state;
    arena = arena_create((size_t)2 << 30);
    scratch = arena_create((size_t)1 << 30);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(arena);
    arena_free(scratch);
    return 0;
}

static const ThrustAnswer *answer_to(BridgeFile *file, const char *path)
{
    const BridgeLine *line = NULL;
    const ThrustAnswer *answer = NULL;
    const ThrustWish wish = {0, stage_settings_default()};
    int count = 0;
    Error err = {0};
    bridge_from_example(file, path);
    check_status(bridge_lines(file->bridge, 1, arena, &line, &count, &err), STATUS_OK, &err);
    check_status(thrust_find(line, count, &wish, arena, scratch, &answer, &err), STATUS_OK, &err);
    return answer;
}

static LiveLines *lines_at_end(const LineAnswer *line)
{
    LiveLines *lines = NULL;
    Error err = {0};
    check_status(live_lines(line->line, line->history, thrust_time_end(line), arena, &lines, &err),
                 STATUS_OK, &err);
    return lines;
}

static StageEffect effect_of(const LineAnswer *line, int joint, int side, bool top)
{
    return (StageEffect){CHAIN_DECK, thrust_joint_station(line->line, joint), side, top};
}

/* Every ordinate times its load, and the forces over the section, give the stress of the answer. */
static int check_live(const LineAnswer *line, LiveLines *lines, int joint, int side, bool top)
{
    const JointLoad *load = &line->end[2 * joint + (side > 0)];
    const StageEffect effect = effect_of(line, joint, side, top);
    int trains = 0;
    for (int sign = -1; sign <= 1; sign += 2) {
        LiveWorking w;
        assert_int_equal(live_working(lines, &line->line->live, &effect, sign, &w), load->there);
        if (!load->there) continue;
        const double wanted = top        ? sign > 0 ? load->live_top_max_Pa : load->live_top_min_Pa
                              : sign > 0 ? load->live_bottom_max_Pa
                                         : load->live_bottom_min_Pa;
        check_near(line->line->lanes_1 * w.value, wanted, 1e-9, 1,
                   "law: the position found once more has the stress that was found");
        check_near(w.N_N / w.area_m2 + w.M_Nm * w.y_m / w.inertia_m4, w.value, 1e-9, 1,
                   "closed form: plane section");
        trains += w.train;
    }
    return trains;
}

static void check_gradient(const LineAnswer *line, const LiveLines *lines, int joint, int side,
                           bool top)
{
    const JointLoad *load = &line->end[2 * joint + (side > 0)];
    const StageEffect effect = effect_of(line, joint, side, top);
    for (int cold = 0; cold < 2 && load->there; cold++) {
        GradientWorking w;
        assert_true(live_gradient(lines, cold ? &line->line->cold : &line->line->warm, &effect,
                                  scratch, &w));
        const double wanted = cold  ? top ? load->cold_top_Pa : load->cold_bottom_Pa
                              : top ? load->warm_top_Pa
                                    : load->warm_bottom_Pa;
        const double plane_Pa = w.N_N / w.area_m2 + w.M_Nm * w.y_m / w.inertia_m4;
        const double own_Pa =
            w.E_Pa * w.expansion_per_K * (w.mean_K + w.slope_K_per_m * w.y_m - w.rise_K);
        check_near(w.stress_Pa, wanted, 1e-12, 1, "law: the same structure");
        check_near(plane_Pa + own_Pa, wanted, 1e-9, 1, "closed form: plane plus what it leaves");
    }
}

static int check_line(const LineAnswer *line)
{
    LiveLines *lines = lines_at_end(line);
    int trains = 0;
    for (int j = 0; j < line->line->joint_count; j++)
        for (int k = 0; k < 4; k++) {
            trains += check_live(line, lines, j, k % 2 ? 1 : -1, k / 2 == 0);
            check_gradient(line, lines, j, k % 2 ? 1 : -1, k / 2 == 0);
        }
    return trains;
}

/* The last of them is tied through its piers with diaphragms that gape: its structure under live load
 * hangs on the thrust, and the answer's loads are those at the answer's thrust. */
static void test_workings_give_the_stresses_of_the_answer(void **state)
{
    (void)state;
    static const char *const path[] = {"examples/causeway.yaml", "examples/steel-continuous.yaml",
                                       "examples/made-continuous.yaml"};
    int trains = 0;
    for (int i = 0; i < 3; i++) {
        BridgeFile file;
        const ThrustAnswer *answer = answer_to(&file, path[i]);
        for (int k = 0; k < answer->line_count; k++) trains += check_line(&answer->line[k]);
        bridge_close(&file);
    }
    assert_true(trains > 0); /* the continuous one has joints between contraflexure points */
}

/* closed form: M(s) under a unit load at x of a simple span L is s (L - x)/L or x (L - s)/L. The
 * bearings are springs of no moment, so this is exact. */
static void test_moment_of_the_section_is_that_of_a_simple_span(void **state)
{
    (void)state;
    BridgeFile file;
    const LineAnswer *line = &answer_to(&file, "examples/causeway.yaml")->line[0];
    LiveLines *lines = lines_at_end(line);
    const StageModel *model = &line->line->model;
    const int last = model->station_count - 1;
    const double from_m = model->x_m[model->support[0].station];
    const double span_m = model->x_m[last] - from_m;
    const int joint = line->line->joint_count / 2;
    const StageEffect effect = effect_of(line, joint, -1, true);
    const double s_m = model->x_m[effect.station] - from_m;
    LiveWorking w;
    assert_int_equal(model->support[0].station, 0);
    assert_true(live_working(lines, &line->line->live, &effect, -1, &w));
    double sum_Nm = 0;
    for (int i = 0; i < w.axle_count; i++) {
        const double x_m = w.axle[i].x_m - from_m;
        const double M_m =
            x_m < s_m ? x_m * (span_m - s_m) / span_m : s_m * (span_m - x_m) / span_m;
        check_near(w.axle[i].section_m, M_m, 1e-6, 1e-6, "closed form: simple span");
        sum_Nm += w.vehicle_1 * w.axle[i].load_N * M_m;
    }
    assert_true(w.axle_count == 3);
    check_near(w.lane_section_m2, s_m * (span_m - s_m) / 2, 1e-6, 0, "closed form: x (L - x) / 2");
    check_near(w.section_Nm, sum_Nm + w.lane_N_per_m * w.lane_section_m2, 1e-6, 0,
               "law: superposition");
    bridge_close(&file);
}

static void check_effect(LiveLines *lines, const LiveLoad *load, LiveEffect effect,
                         LiveRange wanted)
{
    for (int sign = -1; sign <= 1; sign += 2) {
        LiveWorking w;
        assert_true(live_effect_working(lines, load, &effect, sign, &w));
        const double extreme = sign > 0 ? wanted.most : wanted.least;
        check_near(w.value, extreme, 1e-9, 1e-3, "law: the position found once more");
    }
}

/* Extremes by another way of asking, at every support and some stations of a continuous unit. */
static void test_workings_give_reactions_moments_and_shears(void **state)
{
    (void)state;
    BridgeFile file;
    const LineAnswer *line = &answer_to(&file, "examples/steel-continuous.yaml")->line[0];
    LiveLines *lines = lines_at_end(line);
    const LiveLoad *load = &line->line->live;
    const StageModel *model = &line->line->model;
    int reactions = 0;
    for (int i = 0; i < model->support_count; i++) {
        LiveRange range;
        if (!live_reaction(lines, load, i, &range)) continue;
        check_effect(lines, load, (LiveEffect){LIVE_REACTION, .at = i}, range);
        reactions++;
    }
    assert_int_equal(reactions, 5);
    for (int s = 3; s + 1 < model->station_count; s += 17) {
        check_effect(lines, load, (LiveEffect){LIVE_MOMENT, .at = s}, live_moment(lines, load, s));
        check_effect(lines, load, (LiveEffect){LIVE_SHEAR, .at = s, .side = 1},
                     live_shear(lines, load, s, 1));
    }
    bridge_close(&file);
}

/* closed form: the reaction of a simple span is 1 - x/L, so a lane of w gives w L / 2 and each axle its
 * share; the heaviest of HL-93 stands at the bearing. */
static void test_reaction_of_a_simple_span_by_hand(void **state)
{
    (void)state;
    BridgeFile file;
    const LineAnswer *line = &answer_to(&file, "examples/causeway.yaml")->line[0];
    LiveLines *lines = lines_at_end(line);
    const StageModel *model = &line->line->model;
    const double from_m = model->x_m[model->support[0].station];
    const double span_m = model->x_m[model->station_count - 1] - from_m;
    const LiveEffect effect = {LIVE_REACTION, .at = 0};
    LiveWorking w;
    assert_true(live_effect_working(lines, &line->line->live, &effect, 1, &w));
    assert_int_equal(w.axle_count, 3);
    for (int i = 0; i < 3; i++)
        check_near(w.axle[i].ordinate, 1 - (w.axle[i].x_m - from_m) / span_m, 1e-6, 1e-6,
                   "closed form: simple span");
    check_near(w.lane_area, span_m / 2, 1e-6, 0, "closed form: L/2");
    const double ft = 0.3048 / span_m, kip_N = 4448.2216152605;
    const double truck = 32 + 32 * (1 - 14 * ft) + 8 * (1 - 28 * ft);
    const double lane = 0.64 * span_m / 0.3048 / 2;
    check_near(w.value / kip_N, 1.33 * truck + lane, 1e-6, 0, "AASHTO LRFD 3.6.1.2; by hand");
    bridge_close(&file);
}

/* The deck's force is what a part's influence lines add up to: the change over a length, and nothing before the
 * first element and behind the last. */
static void test_change_of_the_deck_s_force_adds_up(void **state)
{
    (void)state;
    BridgeFile file;
    const LineAnswer *line = &answer_to(&file, "examples/causeway.yaml")->line[0];
    LiveLines *lines = lines_at_end(line);
    const int n = line->line->model.station_count;
    double *sum = ARENA_NEW(arena, double, n), *one = ARENA_NEW(arena, double, n);
    const int cut[] = {-1, 4, 11, 23, n - 1};
    for (int k = 0; k < 4; k++) {
        const LiveEffect effect = {LIVE_DECK, .at = cut[k], .to = cut[k + 1]};
        assert_true(live_line(lines, &effect, one));
        double largest = 0;
        for (int i = 0; i < n; i++) {
            sum[i] += one[i];
            largest = fmax(largest, fabs(one[i]));
        }
        assert_true(largest > 0.01);
    }
    for (int i = 0; i < n; i++) check_near(sum[i], 0, 0, 1e-9, "law: equilibrium of the deck");
    bridge_close(&file);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_workings_give_the_stresses_of_the_answer, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_moment_of_the_section_is_that_of_a_simple_span, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_workings_give_reactions_moments_and_shears, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_reaction_of_a_simple_span_by_hand, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_change_of_the_deck_s_force_adds_up, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
