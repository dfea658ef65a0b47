/* stages against an elastic jacking stage solved as a plane-stress continuum and as beams by direct
 * stiffness, both outside this library: tests/data/jacking_oracle.json. Differences of the thrust
 * alone: no weight, no friction, shims that can pull. What is left is the stiffness of the links,
 * rigid there: ten times softer ones are ten times further off. */
#include "check.h"

#include "data/jacking_oracle.h"
#include "stage_make.h"

#define kip  4448.2216152605 /* NIST SP 811 (2008), appendix B.8 */
#define inch 0.0254
#define foot 0.3048
#define ksi  6894757.293168361

static const double P = 1000 * kip;
static const char *const ccx = "plane-stress continuum, general-purpose solver";
static const char *const beams = "beams by direct stiffness with multipliers";

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

static const StageHistory *oracle_line(double links_ft, Make *make)
{
    LineSpec spec = line_spec();
    spec.span_m[0] = spec.span_m[2] = 120 * foot;
    spec.span_m[1] = 150 * foot;
    spec.longest_m = links_ft * foot;
    spec.girder_E_Pa = 29000 * ksi;
    spec.girder_A_m2 = 76.75 * inch * inch;
    spec.girder_I_m4 = 49019 * inch * inch * inch * inch;
    spec.girder_top_m = 35.46 * inch;
    spec.girder_bottom_m = 27.04 * inch;
    spec.deck_width_m = 114 * inch;
    spec.deck_depth_m = spec.deck_arm_m = 9 * inch;
    spec.deck.E_Pa = 4800 * ksi;
    spec.haunch_m = 2 * inch;
    spec.anchor_m = 10 * foot;
    spec.gap_from_m = 190 * foot;
    spec.gap_to_m = 200 * foot;
    spec.link_per_m = (Link){1e12, 1e8, 1e12, 1e14, 0, true, false};
    *make = line_make(&spec, arena);
    for (int s = 0; s < 4; s++) /* fixed at the first pier */
        ((Support *)make->model.support)[s].horizontal_N_per_m = s == 1 ? 1e13 : 0;
    line_set_up(make, &spec, 0, 0, 0);
    make_jack(make, 0, 0, P, 1);
    make_note(make, 0, "jacked");
    return make_run(make);
}

static const PartForce *force_of(const StageHistory *h, int time, Chain chain, int element)
{
    static const PartForce none;
    for (int p = 0; p < h->model->part_count; p++)
        if (h->model->part[p].chain == chain && h->model->part[p].element == element &&
            h->model->part[p].phase < 2)
            return &h->force[time * h->model->part_count + p];
    return &none;
}

static void test_links_every_5_ft_agree_with_continuum(void **state)
{
    (void)state;
    Make make;
    const StageHistory *h = oracle_line(5, &make);
    const int t = make_time(h, "jacked");
    assert_int_equal(make.model.station_count, 79);
    check_near(h->gap_opening_m[t], jacking_ccx_gap_opening_m, 1e-5, 0, ccx);
    for (int s = 0; s < 4; s++)
        check_near(h->reaction_N[t * 4 + s], jacking_ccx_reaction_N[s], 4e-5, 0, ccx);
    for (int e = 0; e < 78; e++) {
        const PartForce *deck = force_of(h, t, CHAIN_DECK, e),
                        *girder = force_of(h, t, CHAIN_GIRDER, e);
        check_near(deck->N, jacking_ccx_deck_N_N[e], 0, 2e-5 * P, ccx);
        check_near(girder->N, jacking_ccx_girder_N_N[e], 0, 2e-5 * P, ccx);
        check_near(0.5 * (deck->M_from + deck->M_to), jacking_ccx_deck_M_Nm[e], 0, 6e-5 * 161e3,
                   ccx);
        check_near(0.5 * (girder->M_from + girder->M_to), jacking_ccx_girder_M_Nm[e], 0, 2e-5 * 4e6,
                   ccx);
    }
    for (int i = 0; i < 79; i++)
        check_near(h->move[((ptrdiff_t)t * 79 + i) * 2].v_m, jacking_ccx_rise_m[i], 0, 2e-5 * 0.08,
                   ccx);
}

/* Both sides of eleven stations: element means carried on. */
static void test_links_every_15_in_agree_with_both_oracles(void **state)
{
    (void)state;
    static const double x_ft[] = {30, 60, 90, 120, 150, 170, 220, 270, 300, 330, 360};
    Make make;
    const StageHistory *h = oracle_line(1.25, &make);
    const int t = make_time(h, "jacked");
    check_near(h->gap_opening_m[t], jacking_ccx_fine_gap_opening_m, 2e-5, 0, ccx);
    check_near(h->gap_opening_m[t], jacking_beams_fine_gap_opening_m, 2e-5, 0, beams);
    for (int s = 0; s < 4; s++)
        check_near(h->reaction_N[t * 4 + s], jacking_beams_fine_reaction_N[s], 1e-5, 0, beams);
    for (int k = 0; k < 22; k++) {
        FibreStress deck, girder;
        const int station = make_station(&make, x_ft[k / 2] * foot), side = k % 2 ? 1 : -1;
        assert_true(stage_stress(h, t, CHAIN_DECK, station, side, &deck));
        assert_true(stage_stress(h, t, CHAIN_GIRDER, station, side, &girder));
        check_near(deck.top_Pa, jacking_beams_fine_deck_top_Pa[k], 0, 500, beams); /* 0.07 psi */
        check_near(deck.bottom_Pa, jacking_beams_fine_deck_bottom_Pa[k], 0, 500, beams);
        check_near(girder.top_Pa, jacking_beams_fine_girder_top_Pa[k], 1e-5, 0, beams);
        check_near(girder.bottom_Pa, jacking_beams_fine_girder_bottom_Pa[k], 1e-5, 0, beams);
        check_near(deck.top_Pa, jacking_ccx_fine_deck_top_Pa[k], 0, 900, ccx); /* 0.13 psi */
        check_near(deck.bottom_Pa, jacking_ccx_fine_deck_bottom_Pa[k], 0, 900, ccx);
        check_near(girder.top_Pa, jacking_ccx_fine_girder_top_Pa[k], 0, 4e3, ccx);
        check_near(girder.bottom_Pa, jacking_ccx_fine_girder_bottom_Pa[k], 0, 4e3, ccx);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_links_every_5_ft_agree_with_continuum, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_links_every_15_in_agree_with_both_oracles, set_up,
                                        tear_down),
    };
    check_trap_floats();
    return cmocka_run_group_tests_name("stages_oracle", tests, NULL, NULL);
}
