/* stages: friction that reverses, contact that lifts and closes, jacks that come back, two gaps. */
#include "check.h"

#include <string.h>

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

/* ---- friction ---- */

static const double q = 0.3 * 16e3; /* friction per length */

/* A girder that does not give, a deck without bending: friction alone against the deck's EA. */
static LineSpec rubbing(void)
{
    LineSpec spec = line_spec();
    spec.span_count = 1;
    spec.span_m[0] = 100;
    spec.gap_from_m = 49;
    spec.gap_to_m = 51;
    spec.anchor_m = 0;
    spec.girder_A_m2 = 5e3;
    spec.girder_I_m4 = 2e3;
    spec.deck_I_1 = 1e-9;
    spec.deck_arm_m = 0;
    spec.link_per_m = (Link){1e10, 1e11, 1e10, 1e13, 0.3, false, false};
    return spec;
}

static const double up_N = 2e6, down_N = 1.8e6;

static const StageHistory *rubbed(const LineSpec *spec, Make *make)
{
    *make = line_make(spec, arena);
    line_set_up(make, spec, 0, 0, 16e3);
    make_jack(make, 0, 0, up_N, 7);
    make_note(make, 0, "up");
    make_jack(make, 0, 0, down_N, 3);
    make_note(make, 0, "down");
    make_jack(make, 0, 0, up_N, 2);
    make_note(make, 0, "up again");
    return make_run(make);
}

/* Compression at a distance from the gap: falls by q on the way up; on the way down friction has
 * turned as far as (up - down)/2q. */
static void check_profile(const StageHistory *h, const char *name, bool turned)
{
    const int t = make_time(h, name);
    const double *x = h->model->x_m, turn = (up_N - down_N) / (2 * q);
    for (int e = 0; x[e] < 49 - 1e-9; e++) {
        const double from_gap = 49 - 0.5 * (x[e] + x[e + 1]);
        const double N = turned && from_gap < turn ? down_N + q * from_gap : up_N - q * from_gap;
        const bool corner = turned && fabs(from_gap - turn) < 4; /* shims give a little */
        check_near(-line_deck_N(h, t, e), N, 0, corner ? q : 20,
                   "closed form: friction q along a bar, and turned over (up - down)/2q");
    }
}

static void test_friction_reverses_with_the_slip(void **state)
{
    (void)state;
    const LineSpec spec = rubbing();
    Make make;
    const StageHistory *h = rubbed(&spec, &make);
    check_profile(h, "up", false);
    check_profile(h, "down", true);
    check_profile(h, "up again", false);
}

static void test_friction_makes_a_loop_of_the_movement(void **state)
{
    (void)state;
    const LineSpec spec = rubbing();
    Make make;
    const StageHistory *h = rubbed(&spec, &make);
    const double EA = spec.deck.E_Pa * spec.deck_width_m * spec.deck_depth_m, run = 49;
    const double up = h->gap_opening_m[make_time(h, "up")],
                 down = h->gap_opening_m[make_time(h, "down")],
                 again = h->gap_opening_m[make_time(h, "up again")];
    const double dP = up_N - down_N;
    check_near(up, 2 * (up_N * run - q * run * run / 2) / EA, 1e-3, 0,
               "closed form: integral of (P - q x)/EA on both sides");
    check_near(up - down, 2 * dP * dP / (4 * q * EA), 0.01, 0,
               "closed form: dP^2/(4 q EA) on both sides");
    check_near(again, up, 1e-7, 0, "law: return-point memory");
}

/* Friction adds to zero: what the shims take from the deck they give to the girder. */
static void test_shims_pass_on_what_the_deck_loses(void **state)
{
    (void)state;
    LineSpec spec = line_spec();
    spec.link_per_m.friction_1 = 0.25;
    Make make = line_make(&spec, arena);
    line_set_up(&make, &spec, 0, 4e3, 16e3);
    make_jack(&make, 0, 0, 4e6, 10);
    make_note(&make, 0, "jacked");
    const StageHistory *h = make_run(&make);
    const int t = make_time(h, "jacked");
    for (int i = 1; make.model.x_m[i + 1] < 51 - 1e-9; i++) {
        const LinkState *link = &h->link[t * make.model.station_count + i];
        check_near(line_deck_N(h, t, i) - line_deck_N(h, t, i - 1), link->H_N, 0, 1e-2,
                   "law: equilibrium of a deck node");
        if (link->state == LINK_BONDED) continue;
        assert_true(fabs(link->H_N) <= 0.25 * fmax(-link->V_N, 0) + 1e-3);
        assert_true(link->V_N <= 0 && link->lift_m >= 0);
        assert_true(link->V_N == 0 || link->lift_m == 0);
        if (link->state == LINK_OPEN) assert_true(link->H_N == 0 && link->V_N == 0);
    }
}

/* ---- contact ---- */

/* Jacks far above mid-depth bend the deck's ends off their shims; slackened, all is as before. */
static void test_contact_lifts_and_closes_again(void **state)
{
    (void)state;
    LineSpec spec = line_spec();
    spec.link_per_m.friction_1 = 0;
    Make make = line_make(&spec, arena);
    ((Gap *)make.model.gap)->jack_above_mid_m = 0.09;
    line_set_up(&make, &spec, 0, 4e3, 16e3);
    make_note(&make, 0, "before");
    make_jack(&make, 0, 0, 3e6, 6);
    make_note(&make, 0, "jacked");
    make_jack(&make, 0, 0, 0, 1);
    make_note(&make, 0, "after");
    const StageHistory *h = make_run(&make);
    const int before = make_time(h, "before"), after = make_time(h, "after"),
              t = make_time(h, "jacked"), stations = make.model.station_count;
    int open = 0;
    double up = 0;
    for (int i = 0; i < stations; i++) {
        const LinkState *a = &h->link[before * stations + i], *b = &h->link[after * stations + i];
        open += h->link[t * stations + i].state == LINK_OPEN;
        up -= h->link[t * stations + i].V_N;
        check_near(b->V_N, a->V_N, 0, 1e-2, "law: elastic contact forgets");
        check_near(b->lift_m, 0, 0, 1e-12, "law: closed again");
    }
    assert_true(open >= 4);
    check_near(up, 16e3 * (104 - 2), 1e-9, 0, "law: the shims carry the deck, lifted or not");
    for (int e = 0; e + 1 < stations; e++)
        check_near(line_deck_N(h, after, e), 0, 0, 1e-2, "law: elastic contact forgets");
}

/* ---- locks ---- */

static Make jacked_line(double P, Material deck)
{
    LineSpec spec = line_spec();
    spec.deck = deck;
    spec.link_per_m.friction_1 = 0;
    spec.link_per_m.two_way = true;
    Make make = line_make(&spec, arena);
    line_set_up(&make, &spec, 30, 4e3, 16e3);
    make_jack(&make, 30, 0, P, 3);
    return make;
}

static void test_jacking_again_after_the_lock_is_jacking_on(void **state)
{
    (void)state;
    const Material elastic = line_spec().deck;
    Make direct = jacked_line(3.6e6, elastic), again = jacked_line(3e6, elastic);
    make_event(&again, 30, EVENT_LOCK, CAUSE_THRUST);
    make_note(&again, 30, "locked");
    make_jack(&again, 30, 0, 3e6, 1);
    make_note(&again, 30, "taken over");
    make_jack(&again, 30, 0, 3.6e6, 2);
    const StageHistory *a = make_run(&direct), *b = make_run(&again);
    const int parts = a->model->part_count, locked = make_time(b, "locked"),
              taken = make_time(b, "taken over");
    for (int p = 0; p < parts; p++) {
        check_near(b->force[taken * parts + p].N, b->force[locked * parts + p].N, 0, 1e-2,
                   "law: a change of hands moves nothing");
        check_near(b->force[(b->time_count - 1) * parts + p].N,
                   a->force[(a->time_count - 1) * parts + p].N, 1e-9, 1e-2, "law: superposition");
    }
    check_near(b->gap_opening_m[b->time_count - 1], a->gap_opening_m[a->time_count - 1], 1e-9, 0,
               "law: superposition");
}

static void test_jacking_again_makes_up_for_creep(void **state)
{
    (void)state;
    Material deck = {.kind = MATERIAL_CONCRETE, .mix = concrete_mix_default(TIME_AASHTO2015)};
    Make make = jacked_line(3e6, deck);
    make_event(&make, 30, EVENT_LOCK, CAUSE_THRUST);
    make_note(&make, 60, "crept");
    make_jack(&make, 60, 0, 3e6, 4);
    make_event(&make, 60, EVENT_LOCK, CAUSE_THRUST);
    make_note(&make, 60, "again");
    make_note(&make, 90, "crept again");
    const StageHistory *h = make_run(&make);
    const double first = 3e6 - h->gap_force_N[make_time(h, "crept")],
                 second = 3e6 - h->gap_force_N[make_time(h, "crept again")];
    assert_true(first > 1e5);
    check_near(h->gap_force_N[make_time(h, "again")], 3e6, 1e-9, 0, "law: the jacks' force");
    assert_true(second > 0 && second < 0.8 * first); /* older, and nearer to the end of it */
}

/* ---- two gaps on one line ---- */

typedef struct TwoGaps {
    double F, f_strut, f_closure, cut_m; /* closed form: as with one gap, lengths in series */
} TwoGaps;

static Make two_gaps(double P, TwoGaps *hand)
{
    const double L = 60, gap[2][2] = {{18, 19.5}, {40, 41.5}}, mark[] = {0, 18, 19.5, 40, 41.5, L};
    const double EAd = 33e9 * 2.8 * 0.23, EAg = 200e9 * 0.05, EIg = 200e9 * 0.02, e = 0.95;
    Make make = make_start(arena, 1, mark, 6);
    make.model.haunch_m = e - 0.9;
    Part girder = {.chain = CHAIN_GIRDER, .material = make_elastic(&make, 200e9)};
    girder.section = make_section(&make, (PartSection){.05, .02, .9, .7, {0}});
    girder.from_height_m = girder.to_height_m = -0.9;
    make_parts(&make, 0, L, girder);
    PartSection slab = make_rectangle(2.8, 0.23);
    slab.inertia_m4 *= 1e-9;
    Part deck = {.chain = CHAIN_DECK, .material = make_elastic(&make, 33e9), .phase = 1};
    deck.section = make_section(&make, slab);
    make_parts(&make, 0, 18, deck);
    make_parts(&make, 19.5, 40, deck);
    make_parts(&make, 41.5, L, deck);
    for (int g = 0; g < 2; g++) {
        deck.phase = 2 + g;
        make_parts(&make, gap[g][0], gap[g][1], deck);
        make_gap(&make, gap[g][0], gap[g][1], 3e8);
    }
    make_links(&make, (Link){1e10, 1e8, 1e10, 1e13, 0, true, false});
    make_support(&make, 0, true);
    make_support(&make, L, false);
    make_birth(&make, 0, 0);
    make_birth(&make, 0, 1);
    make_event(&make, 0, EVENT_SHIMS, CAUSE_WEIGHT);
    make_bond(&make, 0, 0, 0);
    make_bond(&make, 0, L, L);
    make_event(&make, 0, EVENT_LOCK, CAUSE_THRUST)->gap = 1; /* holds the piece between */
    make_jack(&make, 0, 0, P, 4);
    make_event(&make, 0, EVENT_LOCK, CAUSE_THRUST)->gap = 0;
    make_note(&make, 0, "locked");
    const double slip = 2 / make.model.link[0].bond_horizontal_N_per_m;
    *hand = (TwoGaps){(L - 3) / EAd + L / EAg + e * e * L / EIg + slip, 1 / 3e8, 1.5 / EAd, L - 3};
    return make;
}

static void test_two_gaps_share_one_thrust(void **state)
{
    (void)state;
    const double P = 2e6, dT = 9;
    TwoGaps hand;
    Make make = two_gaps(P, &hand);
    Event *warm = make_event(&make, 0, EVENT_TEMPERATURE, CAUSE_TEMPERATURE);
    warm->chain = CHAIN_DECK;
    warm->change_K = dT;
    make_note(&make, 0, "warm");
    warm = make_event(&make, 0, EVENT_TEMPERATURE, CAUSE_TEMPERATURE);
    warm->chain = CHAIN_DECK;
    warm->change_K = -dT;
    make_birth(&make, 0, 2);
    make_event(&make, 0, EVENT_RELEASE, CAUSE_RELEASE)->gap = 0;
    make_note(&make, 0, "first released");
    make_birth(&make, 0, 3);
    make_event(&make, 0, EVENT_RELEASE, CAUSE_RELEASE)->gap = 1;
    make_note(&make, 0, "both released");
    const StageHistory *h = make_run(&make);
    const int locked = make_time(h, "locked"), hot = make_time(h, "warm"),
              first = make_time(h, "first released"), both = make_time(h, "both released");
    check_near(h->gap_opening_m[(ptrdiff_t)2 * locked], P * (hand.F + hand.f_strut), 1e-6, 0,
               "closed form: movement = P (F + f_strut)");
    const double one = P * (hand.F + hand.f_strut) / (hand.F + hand.f_strut + hand.f_closure);
    const double two = one * (hand.F + hand.f_closure) / (hand.F + 2 * hand.f_closure);
    for (int g = 0; g < 2; g++) {
        check_near(h->gap_force_N[2 * locked + g], P, 1e-8, 0, "law: one thrust in series");
        check_near(h->gap_force_N[2 * hot + g] - P,
                   1e-5 * dT * hand.cut_m / (hand.F + 2 * hand.f_strut), 1e-6, 0,
                   "closed form: dP = alpha dT (L - c)/(F + 2 f_strut)");
        check_near(h->gap_force_N[2 * first + g], one, 1e-6, 0,
                   "closed form: P (F + fs)/(F + fs + fc)");
        check_near(h->gap_force_N[2 * both + g], two, 1e-6, 0,
                   "closed form: R (F + fc)/(F + 2 fc)");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_friction_reverses_with_the_slip, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_friction_makes_a_loop_of_the_movement, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_shims_pass_on_what_the_deck_loses, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_contact_lifts_and_closes_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_jacking_again_after_the_lock_is_jacking_on, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_jacking_again_makes_up_for_creep, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_two_gaps_share_one_thrust, set_up, tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("stages_links", tests, NULL, NULL);
}
