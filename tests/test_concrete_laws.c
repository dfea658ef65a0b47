/* concrete: the time models against an independent model, and the laws that all of them keep. */
#include "check.h"

#include "concrete_mixes.h"
#include "data/concrete_cases.h"

static const TimeModel all_models[] = {TIME_ELASTIC, TIME_AASHTO2015, TIME_AASHTO2005,
                                       TIME_MC2010,  TIME_EN1992,     TIME_ACI209};
enum { MODELS = sizeof all_models / sizeof all_models[0] };

/* ---- an independent model ---- */

#define COUNT(rows) (int)(sizeof(rows) / sizeof((rows)[0]))

static void check_case(const ConcreteMix *mix, const ComplianceRow *J, int J_count,
                       const ShrinkageRow *sh, int sh_count)
{
    const char *const source = "independent model of the same mechanics";
    for (int i = 0; i < J_count; i++) {
        check_near(concrete_modulus_Pa(mix, J[i].loaded_day) / GPa, J[i].E_GPa, 1e-6, 0, source);
        check_near(concrete_compliance_per_Pa(mix, J[i].age_day, J[i].loaded_day) * MPa * 1e6,
                   J[i].J_1e6_per_MPa, 1e-6, 0, source);
    }
    for (int i = 0; i < sh_count; i++)
        check_near(concrete_shrinkage_1(mix, sh[i].age_day) * 1e6, sh[i].microstrain, 1e-6, 5.1e-5,
                   source);
}
#define CHECK_CASE(mix, name)                                                           \
    check_case((mix), case_##name##_J, COUNT(case_##name##_J), case_##name##_shrinkage, \
               COUNT(case_##name##_shrinkage))

static void test_aashto_as_independent_model(void **state)
{
    (void)state;
    ConcreteMix mix = aashto_mix(TIME_AASHTO2015, 5.6, 4, 70);
    mix.fc28_Pa = 7 * ksi;
    mix.cure_end_age_day = 3; /* that model leaves the early-drying rule out, as aashto_mix does */
    CHECK_CASE(&mix, aashto2015);
    mix.model = TIME_AASHTO2005;
    mix.modulus_2005 = true;
    CHECK_CASE(&mix, aashto2005);
}

static void test_aci209_as_independent_model(void **state)
{
    (void)state;
    ConcreteMix mix = concrete_mix_default(TIME_ACI209);
    mix.humidity_ratio = 0.65;
    mix.volume_to_surface_m = 3.5 * inch;
    CHECK_CASE(&mix, aci209);
}

static void test_european_as_independent_model(void **state)
{
    (void)state;
    const ConcreteMix mc = european_mix(TIME_MC2010, 48, 70, 200, 3, CEMENT_NORMAL);
    CHECK_CASE(&mc, mc2010);
    const ConcreteMix en = european_mix(TIME_EN1992, 43, 65, 250, 3, CEMENT_NORMAL);
    CHECK_CASE(&en, ec2);
    const ConcreteMix low = european_mix(TIME_EN1992, 33, 80, 350, 5, CEMENT_SLOW);
    CHECK_CASE(&low, ec2_low);
}

/* ---- what holds for every model ---- */

static void test_names_and_sources_are_there(void **state)
{
    (void)state;
    for (int m = 0; m < MODELS; m++) {
        assert_true(time_model_name(all_models[m])[0] != '\0');
        assert_true(time_model_source(all_models[m])[0] != '\0');
    }
    assert_int_equal(MODELS, TIME_MODEL_COUNT);
    assert_string_equal(time_model_name(TIME_MC2010), "MC 2010");
}

static void test_elastic_has_no_time(void **state)
{
    (void)state;
    ConcreteMix mix = concrete_mix_default(TIME_ELASTIC);
    const char *const source = "law: constant modulus, no creep, no shrinkage";
    mix.modulus28_Pa = 31.7 * GPa;
    check_near(concrete_compliance_per_Pa(&mix, 30000, 0.5), 1 / (31.7 * GPa), 1e-14, 0, source);
    check_near(concrete_shrinkage_1(&mix, 30000), 0, 0, 0, source);
    check_near(concrete_strength_Pa(&mix, 2), mix.fc28_Pa, 0, 0, source);
}

static void test_measured_values_scale_the_model(void **state)
{
    (void)state;
    for (int m = 1; m < MODELS; m++) {
        const ConcreteMix plain = concrete_mix_default(all_models[m]);
        ConcreteMix mix = plain;
        mix.modulus28_Pa = 1.17 * concrete_modulus_Pa(&plain, 28);
        const double J = concrete_compliance_per_Pa(&plain, 400, 33);
        const double J0 = concrete_compliance_per_Pa(&plain, 33, 33);
        check_near(concrete_compliance_per_Pa(&mix, 400, 33), J / 1.17, 1e-13, 0,
                   "law: compliance is inverse to a measured modulus");
        check_near(concrete_modulus_Pa(&mix, 9), 1.17 * concrete_modulus_Pa(&plain, 9), 1e-13, 0,
                   "law: the growth of the modulus keeps its shape");
        mix = plain;
        mix.creep_factor_1 = 0.83, mix.shrinkage_factor_1 = 1.21;
        check_near(concrete_compliance_per_Pa(&mix, 400, 33), J0 + 0.83 * (J - J0), 1e-13, 0,
                   "law: the factor acts on creep alone");
        check_near(concrete_shrinkage_1(&mix, 400), 1.21 * concrete_shrinkage_1(&plain, 400), 1e-13,
                   0, "law: shrinkage is proportional to its factor");
    }
}

static void check_monotone(const ConcreteMix *mix)
{
    double shrinkage = 0, E_last = 0;
    for (int i = 0; i < 40; i++) { /* 1e-3 to 1e6 days */
        const double t = 1e-3 * pow(1.7, i);
        const double E = concrete_modulus_Pa(mix, t), sh = concrete_shrinkage_1(mix, t);
        assert_true(isfinite(E) && E > 0 && E >= E_last); /* law: concrete hardens */
        assert_true(isfinite(sh) && sh <= shrinkage);     /* law: it dries */
        assert_true(concrete_strength_Pa(mix, t) > 0);
        shrinkage = sh, E_last = E;
    }
    for (int i = 0; i < 19; i++) {
        const double loaded = 1e-3 * pow(3.1, i);
        double J_last = 0;
        for (int k = 0; k < 34; k++) {
            const double d = 1e-6 * pow(2.3, k);
            const double J = concrete_compliance_per_Pa(mix, loaded + d, loaded);
            const double older = concrete_compliance_per_Pa(mix, 2 * loaded + d, 2 * loaded);
            assert_true(isfinite(J) && J >= J_last); /* law: J grows under load */
            assert_true(older <= J);                 /* law: older concrete gives less */
            J_last = J;
        }
    }
}

static void test_compliance_and_shrinkage_are_monotone(void **state)
{
    (void)state;
    static const double humidity[] = {0.3, 0.5, 0.8, 0.9};
    for (int m = 0; m < MODELS; m++)
        for (int i = 0; i < 4; i++)
            for (int cement = CEMENT_SLOW; cement <= CEMENT_RAPID; cement++) {
                ConcreteMix mix = concrete_mix_default(all_models[m]);
                mix.humidity_ratio = humidity[i];
                mix.cement = (CementClass)cement;
                mix.fc28_Pa *= 0.6 + 0.4 * i;
                mix.volume_to_surface_m *= 0.4 + 0.5 * i;
                check_monotone(&mix);
            }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_aashto_as_independent_model),
        cmocka_unit_test(test_aci209_as_independent_model),
        cmocka_unit_test(test_european_as_independent_model),
        cmocka_unit_test(test_names_and_sources_are_there),
        cmocka_unit_test(test_elastic_has_no_time),
        cmocka_unit_test(test_measured_values_scale_the_model),
        cmocka_unit_test(test_compliance_and_shrinkage_are_monotone),
    };
    return cmocka_run_group_tests_name("concrete laws", tests, NULL, NULL);
}
