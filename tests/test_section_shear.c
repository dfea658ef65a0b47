/* section: the area that carries shear. */
#include "check.h"

#include "clench/section.h"

/* I^2 over the sum of Q^2/b, strip by strip. */
static double shear_area_by_strips(const BeamSection *s)
{
    enum { STRIPS = 200000 };
    const WidthProfile *p = &s->profile;
    const double dy = s->depth_m / STRIPS, centroid = s->depth_m - s->centroid_m;
    double Q = 0, sum = 0;
    int i = 0;
    for (int k = 0; k < STRIPS; k++) {
        const double y = (k + 0.5) * dy;
        while (y > p->depth_m[i + 1]) i++;
        const double share = (y - p->depth_m[i]) / (p->depth_m[i + 1] - p->depth_m[i]);
        const double b = p->width_m[i] + share * (p->width_m[i + 1] - p->width_m[i]);
        const double half = 0.5 * b * dy * (centroid - y);
        sum += (Q + half) * (Q + half) / b * dy;
        Q += 2 * half;
    }
    return s->inertia_m4 * s->inertia_m4 / sum;
}

static void test_shear_areas(void **state)
{
    (void)state;
    const WidthProfile rectangle = {2, {0, 1.27}, {0.43, 0.43}};
    check_near(section_shear_area_m2(&rectangle), 5.0 / 6 * 1.27 * 0.43, 1e-12, 0,
               "closed form: 5/6 b h");
    const PlateGirder plates = {0.41, 0.025, 1.372, 0.0143, 0.53, 0.0381, 1, 0};
    BeamSection steel;
    Error err;
    check_status(section_from_plates(&plates, &steel, &err), STATUS_OK, &err);
    check_near(section_shear_area_m2(&steel.profile), shear_area_by_strips(&steel), 1e-4, 0,
               "closed form: energy of shear, summed strip by strip");
    const double web_m2 = plates.web_depth_m * plates.web_thickness_m;
    check_near(section_shear_area_m2(&steel.profile), web_m2, 0.05, 0,
               "common practice, no source: an I-girder's web carries the shear");
    BeamSection concrete;
    assert_non_null(section_standard("BT-72", &concrete));
    check_near(section_shear_area_m2(&concrete.profile), shear_area_by_strips(&concrete), 5e-4, 0,
               "closed form: energy of shear, summed strip by strip; tapered pieces by Gauss");
    const WidthProfile none = {0, {0}, {0}};
    assert_true(section_shear_area_m2(&none) == 0);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shear_areas),
    };
    return cmocka_run_group_tests_name("section_shear", tests, NULL, NULL);
}
