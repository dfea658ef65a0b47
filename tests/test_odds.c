/* Lives against the bridge file with the same values; what is said of them against closed forms. */
#include <string.h>

#include "bridge_file.h"
#include "clench/batch.h"

enum { WORDS = 4096, LIVES = 2000, FEW_LIVES = 400 };

typedef struct Deck {
    BridgeFile file;
    Arena *arena, *scratch;
    const ThrustAnswer *found;
} Deck;

static void set_up(Deck *d, const char *more)
{
    char text[WORDS];
    Error err = {0};
    const BridgeLine *line = NULL;
    int count = 0;
    const ThrustWish wish = {.settings = stage_settings_default()};
    bridge_from_text(&d->file, bridge_small(more, text, sizeof text));
    assert_int_equal(d->file.status, STATUS_OK);
    d->arena = arena_create((size_t)1 << 30);
    d->scratch = arena_create((size_t)1 << 30);
    check_status(bridge_lines(d->file.bridge, 1, d->arena, &line, &count, &err), STATUS_OK, &err);
    check_status(thrust_find(line, count, &wish, d->arena, d->scratch, &d->found, &err), STATUS_OK,
                 &err);
}

static void tear_down(Deck *d)
{
    arena_free(d->arena);
    arena_free(d->scratch);
    bridge_close(&d->file);
}

static OddsStudy study_of(const Deck *d, uint32_t lives, SampleKind sample, uint64_t seed)
{
    OddsStudy study;
    Error err = {0};
    const OddsWish wish = {.lives = lives, .sample = sample, .seed = seed};
    check_status(odds_study(d->file.bridge, d->found, &wish, &study, &err), STATUS_OK, &err);
    return study;
}

/* The group odds with all factors 1 and certain, except the one line in `but`. */
static const char *certain(const char *but, char *out, size_t size)
{
    static const char *const names[] = {
#define X(id, name) name,
        ODDS_LIST(X)
#undef X
    };
    size_t at = (size_t)snprintf(out, size, "odds:\n%s", but);
    for (int k = 0; k < ODDS_COUNT; k++) {
        char key[64];
        snprintf(key, sizeof key, "  %s:", names[k]);
        if (!strstr(but, key)) at += (size_t)snprintf(out + at, size - at, "  %s: 1\n", names[k]);
        at += (size_t)snprintf(out + at, size - at, "  %s_spread: 0\n", names[k]);
    }
    assert_true(at < size);
    return out;
}

static double need_of_life(const Deck *d, double thrust_1)
{
    OddsStudy study = study_of(d, 20, SAMPLE_PLAIN, 3);
    float day[200];
    OddsLife life;
    assert_true(study.joint_count < 200);
    study.thrust_N *= thrust_1;
    odds_life(&study, 7, d->arena, d->scratch, &life, day);
    assert_false(life.failed);
    return life.need_N;
}

/* A factor on an input is the same as the bridge file with the input so changed. */
static void test_a_life_is_the_bridge_with_other_values(void **state)
{
    (void)state;
    static const struct {
        const char *factor, *file;
    } pair[] = {
        {"  friction: 4\n", "shims: {friction: 0.8}\n"},
        {"  creep_deck: 1.4\n",
         "concrete: {panel: {measured_creep: 1.4}, closure: {measured_creep: 1.4}}\n"},
        {"  shrinkage_deck: 0.7\n",
         "concrete: {panel: {measured_shrinkage: 0.7}, closure: {measured_shrinkage: 0.7}}\n"},
        {"  creep_girder: 1.3\n", "concrete: {girder: {measured_creep: 1.3}}\n"},
        {"  weight_deck: 1\n", ""},
    };
    for (size_t k = 0; k < sizeof pair / sizeof *pair; k++) {
        Deck by_factor, by_file;
        char group[WORDS];
        set_up(&by_factor, certain(pair[k].factor, group, sizeof group));
        set_up(&by_file, pair[k].file);
        const double plain_N = by_factor.found->need_N, other_N = by_file.found->need_N;
        /* two runs predict: near the need they are as good as the search that stops at 1e-4 */
        check_near(need_of_life(&by_factor, other_N / plain_N), other_N, 1e-3, 0,
                   "law: the same bridge by two ways");
        if (pair[k].file[0]) assert_true(fabs(other_N / plain_N - 1) > 2e-3);
        tear_down(&by_factor);
        tear_down(&by_file);
    }
}

/* The force of the jacks is the one thing that the gauges are wrong about. */
static void test_weak_jacks_need_more_by_the_gauge(void **state)
{
    (void)state;
    Deck d;
    char group[WORDS];
    set_up(&d, certain("  force: 0.9\n", group, sizeof group));
    check_near(need_of_life(&d, 1 / 0.9), d.found->need_N / 0.9, 1e-3, 0,
               "closed form: need / factor");
    tear_down(&d);
}

static void test_factors_have_their_mean_and_spread(void **state)
{
    (void)state;
    Deck d;
    set_up(&d, "odds: {creep_deck: 1.2, creep_deck_spread: 0.4}\n");
    const OddsStudy study = study_of(&d, LIVES, SAMPLE_LATIN, 5);
    double sum = 0, square = 0, cross = 0, own = 0;
    for (uint32_t i = 0; i < LIVES; i++) {
        const double f = odds_factor_1(&study, i, ODDS_CREEP_DECK);
        const double z = odds_normal_1(&study, i, ODDS_CREEP_GIRDER);
        sum += f;
        square += f * f;
        cross += z * odds_normal_1(&study, i, ODDS_CREEP_DECK);
        own += z * z;
    }
    const double mean = sum / LIVES;
    check_near(mean, 1.2, 2e-3, 0, "closed form: logarithm normal");
    check_near(sqrt(square / LIVES - mean * mean) / mean, 0.4, 2e-2, 0,
               "closed form: logarithm normal");
    check_near(own / LIVES, 1, 5e-2, 0, "closed form: standard normal");
    check_near(cross / LIVES, 0, 0, 6e-2, "closed form: independent");
    tear_down(&d);
}

/* ---- what is said of lives whose law is known ---- */

/* Needs that are straight in two normal values: normal, mean 1 MN, deviation 0.25 MN of 0.2 and 0.15. */
static const double mean_N = 1e6, by_force_N = 2e5, by_live_N = -1.5e5;

static void known_lives(const OddsStudy *study, OddsLife *life, float *day)
{
    for (uint32_t i = 0; i < study->lives; i++) {
        life[i] = (OddsLife){.need_N = mean_N + by_force_N * odds_normal_1(study, i, ODDS_FORCE) +
                                       by_live_N * odds_normal_1(study, i, ODDS_LIVE)};
        for (int j = 0; j < study->joint_count; j++)
            day[(size_t)i * (size_t)study->joint_count + (size_t)j] =
                j == 0 && life[i].need_N > study->thrust_N ? 1000.0F : INFINITY;
    }
}

static OddsAnswer known_answer(const Deck *d, uint32_t lives, SampleKind sample, uint64_t seed)
{
    OddsStudy *study = ARENA_NEW(d->arena, OddsStudy, 1);
    OddsAnswer answer;
    *study = study_of(d, lives, sample, seed);
    study->thrust_N = mean_N + 1.6 * 2.5e5;
    OddsLife *life = ARENA_NEW(d->arena, OddsLife, lives);
    float *day = ARENA_NEW(d->arena, float, lives *(uint32_t)study->joint_count);
    known_lives(study, life, day);
    odds_answer(study, life, day, d->arena, &answer);
    return answer;
}

/* Reliability index 1.6: Phi = 0.9452 (table of the normal law). */
static void test_a_linear_limit_has_its_known_odds(void **state)
{
    (void)state;
    static const char closed[] = "closed form: reliability index of a linear limit state";
    Deck d;
    set_up(&d, "");
    const OddsAnswer a = known_answer(&d, LIVES, SAMPLE_LATIN, 9);
    const OddsYear *last = &a.year[a.year_count - 1];
    check_near(last->closed.share_1, 0.9452, 0, 0.012, closed);
    assert_true(last->closed.low_1 < 0.9452 && last->closed.high_1 > 0.9452);
    assert_int_equal(a.year[0].closed.hits, LIVES); /* 1 year: opens on day 1000 */
    check_near(a.thrust[a.wanted].share_1, 0.95, 0, 0, "the default of odds.wanted");
    check_near(a.thrust[a.wanted].need_N, mean_N + 1.6449 * 2.5e5, 0.02, 0, closed);
    check_near(a.mean_N, mean_N, 2e-3, 0, closed);
    check_near(a.deviation_N, 2.5e5, 2e-2, 0, closed);
    assert_int_equal(a.cause[0].id, ODDS_FORCE);
    assert_int_equal(a.cause[1].id, ODDS_LIVE);
    check_near(a.cause[0].part_1, 0.64, 0, 0.03, closed);
    check_near(a.cause[1].part_1, 0.36, 0, 0.03, closed);
    check_near(a.cause[0].per_spread_N, by_force_N, 0.05, 0, closed);
    check_near(a.explained_1, 1, 1e-9, 0, closed);
    assert_int_equal(a.joint[0].closed.hits, last->closed.hits);
    tear_down(&d);
}

/* 95 % intervals of independent lives hold the truth in 95 % or a little more of 200 studies: 182 or fewer
 * would come by chance once in 80 (binomial, scipy.stats.binom.cdf(182, 200, 0.95) = 0.0121). */
static void test_intervals_hold_the_truth(void **state)
{
    (void)state;
    Deck d;
    int share = 0, thrust = 0;
    set_up(&d, "");
    for (uint64_t seed = 0; seed < 200; seed++) {
        const size_t mark = arena_mark(d.arena);
        const OddsAnswer a = known_answer(&d, FEW_LIVES, SAMPLE_PLAIN, seed);
        const OddsYear *last = &a.year[a.year_count - 1];
        share += last->closed.low_1 < 0.94520 && last->closed.high_1 > 0.94520;
        thrust += a.thrust[a.wanted].low_N < mean_N + 1.64485 * 2.5e5 &&
                  a.thrust[a.wanted].high_N > mean_N + 1.64485 * 2.5e5;
        arena_reset(d.arena, mark);
    }
    assert_in_range(share, 183, 200);
    assert_in_range(thrust, 183, 200);
    tear_down(&d);
}

/* ---- threads ---- */

static void run_lives(const OddsStudy *study, int threads, OddsLife *life, float *day)
{
    Error err = {0};
    bool stopped = true;
    const BatchWish wish = {.threads = threads};
    check_status(batch_lives(study, &wish, life, day, &stopped, &err), STATUS_OK, &err);
    assert_false(stopped);
}

static void test_threads_change_no_bit(void **state)
{
    (void)state;
    enum { FEW = 24, ROOM = 4000 };
    static OddsLife one[FEW], many[FEW];
    static float one_day[ROOM], many_day[ROOM];
    Deck d;
    set_up(&d, "");
    const OddsStudy study = study_of(&d, FEW, SAMPLE_SOBOL, 1);
    assert_true(FEW * study.joint_count <= ROOM);
    run_lives(&study, 1, one, one_day);
    run_lives(&study, 3, many, many_day);
    for (int i = 0; i < FEW; i++) {
        assert_false(one[i].failed);
        assert_memory_equal(&one[i].need_N, &many[i].need_N, sizeof one[i].need_N);
        assert_memory_equal(one[i].margin_Pa, many[i].margin_Pa, sizeof one[i].margin_Pa);
    }
    assert_memory_equal(one_day, many_day, sizeof(float) * FEW * (size_t)study.joint_count);
    assert_true(one[0].need_N != one[1].need_N);
    tear_down(&d);
}

static bool stop_at_once(void *with, uint32_t done, uint32_t total)
{
    (void)with;
    (void)done;
    (void)total;
    return true;
}

static void test_a_stopped_study_says_so(void **state)
{
    (void)state;
    Deck d;
    Error err = {0};
    bool stopped = false;
    set_up(&d, "");
    const OddsStudy study = study_of(&d, LIVES, SAMPLE_LATIN, 1);
    OddsLife *life = ARENA_NEW(d.arena, OddsLife, LIVES);
    float *day = ARENA_NEW(d.arena, float, LIVES *study.joint_count);
    const BatchWish wish = {.threads = 2, .progress = stop_at_once};
    check_status(batch_lives(&study, &wish, life, day, &stopped, &err), STATUS_OK, &err);
    assert_true(stopped);
    tear_down(&d);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_life_is_the_bridge_with_other_values),
        cmocka_unit_test(test_weak_jacks_need_more_by_the_gauge),
        cmocka_unit_test(test_factors_have_their_mean_and_spread),
        cmocka_unit_test(test_a_linear_limit_has_its_known_odds),
        cmocka_unit_test(test_intervals_hold_the_truth),
        cmocka_unit_test(test_threads_change_no_bit),
        cmocka_unit_test(test_a_stopped_study_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
