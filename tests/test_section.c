#include <string.h>

#include "check.h"
#include "clench/section.h"

/* Published values are in inches, kips and degrees Fahrenheit; so are the checks. */
static const double in = 0.0254, in2 = 0.0254 * 0.0254;
static const double in4 = 0.0254 * 0.0254 * 0.0254 * 0.0254;

static BeamSection from_profile(WidthProfile profile)
{
    BeamSection s;
    Error err;
    check_status(section_from_profile(&profile, &s, &err), STATUS_OK, &err);
    return s;
}

static BeamSection rectangle(double width_m, double depth_m)
{
    return from_profile((WidthProfile){2, {0, depth_m}, {width_m, width_m}});
}

static BeamSection from_plates(PlateGirder plates)
{
    BeamSection s;
    Error err;
    check_status(section_from_plates(&plates, &s, &err), STATUS_OK, &err);
    return s;
}

static BeamSection standard(const char *name)
{
    BeamSection s;
    assert_ptr_equal(section_standard(name, &s), &s);
    return s;
}

/* ---- profiles ---- */

static void test_rectangle_has_closed_form_properties(void **state)
{
    (void)state;
    const double b = 0.437, h = 1.285;
    const BeamSection s = rectangle(b, h);
    check_near(s.area_m2, b * h, 1e-14, 0, "closed form: b*h");
    check_near(s.inertia_m4, b * h * h * h / 12, 1e-13, 0, "closed form: b*h^3/12");
    check_near(s.centroid_m, h / 2, 1e-14, 0, "closed form: h/2");
    check_near(s.perimeter_m, 2 * (b + h), 1e-14, 0, "closed form: 2(b+h)");
}

static void test_triangle_has_closed_form_properties(void **state)
{
    (void)state;
    const double b = 0.731, h = 0.877; /* tip up */
    const BeamSection s = from_profile((WidthProfile){2, {0, h}, {0, b}});
    check_near(s.area_m2, b * h / 2, 1e-14, 0, "closed form: b*h/2");
    check_near(s.inertia_m4, b * h * h * h / 36, 1e-12, 0, "closed form: b*h^3/36");
    check_near(s.centroid_m, h / 3, 1e-13, 0, "closed form: h/3");
    check_near(s.perimeter_m, b + 2 * sqrt(h * h + b * b / 4), 1e-14, 0, "closed form: sides");
}

static void test_cut_profile_keeps_its_properties(void **state)
{
    (void)state;
    const BeamSection a = from_profile((WidthProfile){2, {0, 0.9}, {0.3, 0.75}});
    const BeamSection b =
        from_profile((WidthProfile){4, {0, 0.2, 0.2, 0.9}, {0.3, 0.4, 0.4, 0.75}});
    const char *law = "law: properties do not depend on how the outline is cut";
    check_near(b.area_m2, a.area_m2, 1e-13, 0, law);
    check_near(b.centroid_m, a.centroid_m, 1e-13, 0, law);
    check_near(b.inertia_m4, a.inertia_m4, 1e-13, 0, law);
    check_near(b.perimeter_m, a.perimeter_m, 1e-13, 0, law);
}

static void test_bad_profile_is_refused(void **state)
{
    (void)state;
    const WidthProfile bad[] = {
        {1, {0}, {1}},         {WIDTH_POINTS + 1, {0}, {1}},
        {2, {0.1, 1}, {1, 1}}, {3, {0, 1, 0.5}, {1, 1, 1}},
        {2, {0, 1}, {1, -1}},  {2, {0, (double)NAN}, {1, 1}},
        {2, {0, 0}, {1, 1}},   {2, {0, 1}, {0, 0}},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        BeamSection s = {.area_m2 = -1};
        Error err;
        check_status(section_from_profile(&bad[i], &s, &err), STATUS_BAD_INPUT, &err);
        assert_true(s.area_m2 == -1); /* untouched */
        assert_true(strlen(err.text) > 0);
    }
}

/* ---- standard shapes ---- */

static void test_standard_girders_have_published_properties(void **state)
{
    (void)state;
    const struct {
        const char *name;
        double depth, area, top, bottom, inertia; /* in */
    } row[] = {
        {"AASHTO I", 28, 276.0, 15.41, 12.59, 22744},
        {"AASHTO II", 36, 369.0, 20.17, 15.83, 50979},
        {"AASHTO III", 45, 559.5, 24.73, 20.27, 125390},
        {"AASHTO IV", 54, 789.0, 29.27, 24.73, 260741},
        {"AASHTO V", 63, 1013.0, 31.04, 31.96, 521163},
    };
    const char *source =
        "R. Brice and R. Pickings, PCI Journal, May-June 2021, appendix, table A.1";
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const BeamSection s = standard(row[i].name);
        check_near(s.depth_m / in, row[i].depth, 1e-13, 0, source);
        check_near(s.area_m2 / in2, row[i].area, 0, 0.05, source);
        check_near(s.centroid_m / in, row[i].bottom, 0, 0.005, source);
        check_near((s.depth_m - s.centroid_m) / in, row[i].top, 0, 0.005, source);
        check_near(s.inertia_m4 / in4, row[i].inertia, 0, 0.5, source);
    }
}

/* The layers are independent of the printed properties and must give them. */
static void test_layers_give_published_properties(void **state)
{
    (void)state;
    for (int i = 0; i < section_standard_count(); i++) {
        const BeamSection printed = standard(section_standard_name(i));
        const BeamSection layers = from_profile(printed.profile);
        const bool bulb_tee = strncmp(section_standard_name(i), "BT", 2) == 0;
        const char *source = section_standard_source(i);
        check_near(layers.area_m2 / in2, printed.area_m2 / in2, 0, 0.005, source);
        check_near(layers.centroid_m / in, printed.centroid_m / in, 0, 0.0051, source);
        check_near(layers.inertia_m4 / in4, printed.inertia_m4 / in4, bulb_tee ? 5e-4 : 0, 0.51,
                   source);
    }
}

static void test_layers_of_vi_and_bulb_tees_are_exact(void **state)
{
    (void)state;
    const struct {
        const char *name;
        double area, centroid, inertia, top; /* in */
    } row[] = {
        {"AASHTO VI", 1085, 36.381, 733320, 42},
        {"BT-54", 659, 27.634, 268051, 42},
        {"BT-63", 713, 32.118, 392516, 42},
        {"BT-72", 767, 36.604, 545857, 42},
    };
    const char *source = "closed form: sum of the layers, computed apart from this program";
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const BeamSection s = from_profile(standard(row[i].name).profile);
        check_near(s.area_m2 / in2, row[i].area, 0, 0.005, source);
        check_near(s.centroid_m / in, row[i].centroid, 0, 0.0005, source);
        check_near(s.inertia_m4 / in4, row[i].inertia, 0, 0.5, source);
        check_near(s.top_width_m / in, row[i].top, 1e-13, 0, source);
    }
}

static void test_volume_to_surface_of_standard_girders(void **state)
{
    (void)state;
    const struct {
        const char *name;
        double ratio; /* in */
    } row[] = {{"AASHTO II", 3.371}, {"AASHTO III", 4.056}, {"AASHTO IV", 4.741},
               {"AASHTO V", 4.438},  {"AASHTO VI", 4.406},  {"BT-54", 3.011},
               {"BT-63", 3.011},     {"BT-72", 3.010}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const BeamSection s = standard(row[i].name);
        check_near(s.area_m2 / s.perimeter_m / in, row[i].ratio, 0, 0.005,
                   "closed form: area over the whole outline of the layers");
    }
    const BeamSection vi = standard("AASHTO VI");
    const char *fhwa = "FHWA NHI-04-043, appendix C, design step C1.1";
    check_near(vi.area_m2 / in2 * 12, 13020, 0, 0.5, fhwa);
    check_near(vi.perimeter_m / in * 12, 2955.38, 0, 0.01, fhwa);
}

static void test_unknown_shape_is_null(void **state)
{
    (void)state;
    BeamSection s;
    assert_null(section_standard("BT-55", &s));
    assert_int_equal(section_standard_count(), 9);
}

/* ---- plates and composite sections ---- */

/* Positive-moment section of the steel example: 14 x 5/8, 54 x 1/2, 14 x 7/8 in. */
static const PlateGirder steel_example = {.top_width_m = 14 * 0.0254,
                                          .top_thickness_m = 0.625 * 0.0254,
                                          .web_depth_m = 54 * 0.0254,
                                          .web_thickness_m = 0.5 * 0.0254,
                                          .bottom_width_m = 14 * 0.0254,
                                          .bottom_thickness_m = 0.875 * 0.0254,
                                          .web_count = 1};

/* With a slab of 103 x 8 in, 62.375 in above the soffit; n = 0: steel alone. */
static TransformedSection with_slab(PlateGirder plates, double n)
{
    const BeamSection s = from_plates(plates);
    const SectionPart part[] = {
        {s.area_m2, s.inertia_m4, s.centroid_m, 1},
        {103 * 8 * in2, 103 * 512 / 12.0 * in4, 62.375 * in, n > 0 ? 1 / n : 0},
    };
    return section_transform(part, 2);
}

static void check_section(TransformedSection s, double area, double centroid, double inertia,
                          const char *source)
{
    check_near(s.area_m2 / in2, area, 0, 0.001, source);
    check_near(s.centroid_m / in, centroid, 0, 0.001, source);
    check_near(s.inertia_m4 / in4, inertia, 0, 0.1, source);
}

static void test_steel_composite_matches_example(void **state)
{
    (void)state;
    const char *recalled =
        "FHWA NHI-04-041, positive region, from memory, confirmed by calculation";
    const char *computed = "closed form: transformed section, computed apart from this program";
    check_section(with_slab(steel_example, 0), 48.000, 25.852, 22114.8, recalled);
    check_section(with_slab(steel_example, 8), 151.000, 50.765, 66340.3, recalled);
    check_section(with_slab(steel_example, 24), 82.333, 41.082, 48998.7, computed);
    PlateGirder pier = steel_example;
    pier.top_thickness_m = 2.5 * in, pier.bottom_thickness_m = 2.75 * in;
    check_section(with_slab(pier, 0), 100.500, 28.718, 65426.6, computed);
    const TransformedSection n8 = with_slab(steel_example, 8), n24 = with_slab(steel_example, 24);
    check_near(n8.inertia_m4 / n8.centroid_m / in2 / in, 1306.8, 0, 0.05, computed);
    check_near(n24.inertia_m4 / n24.centroid_m / in2 / in, 1192.7, 0, 0.05, computed);
    check_near(n24.inertia_m4 / (55.5 * in - n24.centroid_m) / in2 / in, 3398.4, 0, 0.05, computed);
}

static double stress_ksi(TransformedSection s, double moment_kipft, double height_in, double n)
{
    return -moment_kipft * 12 * (height_in - s.centroid_m / in) / (s.inertia_m4 / in4) / n;
}

static void test_stresses_of_steel_composite(void **state)
{
    (void)state;
    const char *source = "closed form: M*y/I of each section, computed apart from this program";
    const TransformedSection s[3] = {with_slab(steel_example, 0), with_slab(steel_example, 24),
                                     with_slab(steel_example, 8)};
    const double M[3] = {1000, 300, 2000};
    const double bottom[3] = {14.028, 3.018, 18.365}, top[3] = {-16.088, -1.059, -1.713};
    for (int i = 0; i < 3; i++) {
        check_near(stress_ksi(s[i], M[i], 0, 1), bottom[i], 0, 0.001, source);
        check_near(stress_ksi(s[i], M[i], 55.5, 1), top[i], 0, 0.001, source);
    }
    check_near(stress_ksi(s[1], 300, 66.375, 24), -0.0774, 0, 0.0001, source);
    check_near(stress_ksi(s[1], 300, 58.375, 24), -0.0529, 0, 0.0001, source);
    check_near(stress_ksi(s[2], 2000, 66.375, 8), -0.7059, 0, 0.0001, source);
    check_near(stress_ksi(s[2], 2000, 58.375, 8), -0.3441, 0, 0.0001, source);
}

static void test_shear_flow_of_steel_composite(void **state)
{
    (void)state;
    const TransformedSection s = with_slab(steel_example, 8);
    const char *source = "closed form: V*Q/I, computed apart from this program";
    const double Q = 103 * 8 / 8.0 * (62.375 - s.centroid_m / in);
    check_near(Q, 1195.8, 0, 0.05, source);
    check_near(100 * Q / (s.inertia_m4 / in4), 1.80257, 0, 0.001, source);
    /* The cluster's printed 86.523 kip takes the centroid as the printed 50.765 in. */
    const double printed = 103 * (62.375 - 50.765) / (s.inertia_m4 / in4);
    check_near(48 * 100 * printed, 86.523, 0, 0.001, source);
}

static void test_bulb_tee_composite_matches_example(void **state)
{
    (void)state;
    const char *source = "PCI Bridge Design Manual, example 9.4, from memory, confirmed by "
                         "calculation";
    const BeamSection s = standard("BT-72");
    const double n = 0.7845;
    const SectionPart part[] = {
        {s.area_m2, s.inertia_m4, s.centroid_m, 1},
        {42 * 0.5 * in2, 42 * 0.125 / 12 * in4, 72.25 * in, n},
        {108 * 7.5 * in2, 108 * 7.5 * 7.5 * 7.5 / 12 * in4, 76.25 * in, n},
    };
    const TransformedSection c = section_transform(part, 3);
    const double I = c.inertia_m4 / in4, yb = c.centroid_m / in;
    check_near(c.area_m2 / in2, 1418.9, 0, 0.06, source);
    check_near(yb, 54.77, 0, 0.01, source);
    check_near(I, 1100319, 0, 50, source);
    check_near(I / yb, 20090, 0, 5, source);
    check_near(I / (72 - yb), 63863, 0, 5, source);
    check_near(I / (80 - yb) / n, 55593, 0, 5, source);
}

/* Rolled girder with cover plate and slab: every part by its own area, centroid, inertia. */
static void test_rolled_girder_with_slab_matches_handbook(void **state)
{
    (void)state;
    const char *source = "T. G. Hicks (ed.), Handbook of Civil Engineering Calculations, "
                         "McGraw-Hill, composite steel-and-concrete bridge, table 2";
    const SectionPart girder = {44.16 * in2, 9012 * in4, 0, 1};
    const SectionPart plate = {15 * in2, 0, -18.67 * in, 1};
    const SectionPart slab = {78 * 6.5 * in2, 78 * 6.5 * 6.5 * 6.5 / 12 * in4, 21.17 * in, 1};
    const struct {
        double plate, n, area, centroid, inertia, bottom; /* n 0: no slab */
    } row[] = {{1, 0, 59.16, -4.73, 12916, 14.69},
               {1, 30, 76.06, 1.03, 21793, 20.45},
               {1, 10, 109.86, 7.22, 31414, 26.64},
               {0, 30, 0, 0, 14549, 23.78},
               {0, 10, 0, 0, 19779, 29.23}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        SectionPart part[3] = {girder, plate, slab};
        part[1].modular_ratio_1 = row[i].plate;
        part[2].modular_ratio_1 = row[i].n > 0 ? 1 / row[i].n : 0;
        const TransformedSection s = section_transform(part, 3);
        const double soffit = row[i].plate > 0 ? -19.42 : -17.92;
        check_near(s.inertia_m4 / in4, row[i].inertia, 1e-3, 0, source);
        check_near(s.centroid_m / in - soffit, row[i].bottom, 0, 0.01, source);
        if (row[i].area > 0) check_near(s.area_m2 / in2, row[i].area, 0, 0.01, source);
        if (row[i].area > 0) check_near(s.centroid_m / in, row[i].centroid, 0, 0.01, source);
    }
}

static void test_tub_counts_sloped_webs(void **state)
{
    (void)state;
    const double slope = 0.25, t = 0.016, h = 1.9, b = 0.45, tf = 0.03, B = 1.5, tb = 0.025;
    const BeamSection s = from_plates((PlateGirder){b, tf, h, t, B, tb, 2, slope});
    const double length = h * sqrt(1 + slope * slope), web = 2 * t * length;
    const double area = 2 * b * tf + web + B * tb;
    check_near(s.area_m2, area, 1e-13, 0, "closed form: plate thickness times its inclined length");
    const double y[3] = {tb + h + tf / 2, tb + h / 2, tb / 2};
    const double a[3] = {2 * b * tf, web, B * tb};
    const double own[3] = {2 * b * tf * tf * tf / 12, web * h * h / 12, B * tb * tb * tb / 12};
    double centroid = 0, inertia = 0;
    for (int i = 0; i < 3; i++) centroid += a[i] * y[i] / area;
    for (int i = 0; i < 3; i++) inertia += own[i] + a[i] * pow(y[i] - centroid, 2);
    check_near(s.centroid_m, centroid, 1e-13, 0, "closed form: plates");
    check_near(s.inertia_m4, inertia, 1e-13, 0,
               "closed form: inclined plate A*(L cos)^2/12, parallel axes");
    check_near(s.top_width_m, 2 * b, 1e-14, 0, "closed form: two top flanges");
    assert_true(s.perimeter_m == 0);
}

static void test_bad_plates_are_refused(void **state)
{
    (void)state;
    PlateGirder bad[] = {steel_example, steel_example, steel_example, steel_example};
    bad[0].web_depth_m = 0;
    bad[1].web_count = 3;
    bad[2].web_slope_1 = 0.2;
    bad[3].bottom_width_m = 0.1 * in;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        BeamSection s;
        Error err;
        check_status(section_from_plates(&bad[i], &s, &err), STATUS_BAD_INPUT, &err);
    }
}

/* ---- temperature through the depth: self-equilibrating stress ---- */

/* Stress E*(alpha*(mean + slope*(yc - y)) - alpha*T(y)) of a free section, tension positive. */
typedef struct Thermal {
    double mean, slope; /* strain of the centroid, per inch upwards; without alpha: degF */
    double centroid;    /* depth, in */
} Thermal;

static Thermal free_section(const BeamSection *s, const double *depth_in, const double *rise_F,
                            int count)
{
    double depth_m[4], integral, moment;
    for (int i = 0; i < count; i++) depth_m[i] = depth_in[i] * in;
    section_integrate(&s->profile, s->depth_m - s->centroid_m, depth_m, rise_F, count, &integral,
                      &moment);
    return (Thermal){integral / s->area_m2, moment / s->inertia_m4 * in,
                     (s->depth_m - s->centroid_m) / in};
}

static double thermal_ksi(Thermal t, double E_ksi, double alpha, double depth_in, double rise_F)
{
    return E_ksi * alpha * (t.mean + t.slope * (t.centroid - depth_in) - rise_F);
}

static void test_gradient_in_rectangle_is_self_equilibrating(void **state)
{
    (void)state;
    const struct {
        double T1, T2, mean, curvature, top, at4, at16, bottom;
    } zone[] = {
        {54, 14, 55.0e-6, -9.1111e-6, -0.6387, 0.1756, 0.0742, -0.2173},
        {46, 12, 47.0e-6, -7.7778e-6, -0.5427, 0.1489, 0.0636, -0.1853},
        {41, 11, 42.5e-6, -7.0000e-6, -0.4780, 0.1300, 0.0580, -0.1660},
        {38, 9, 37.0e-6, -6.2222e-6, -0.4653, 0.1311, 0.0484, -0.1507},
    };
    const char *source =
        "closed form: exact integrals, rectangle 12 x 24 in, E 4000 ksi, alpha 6e-6";
    const BeamSection s = rectangle(12 * in, 24 * in);
    for (int i = 0; i < 4; i++) {
        const double depth[] = {0, 4, 16}, rise[] = {zone[i].T1, zone[i].T2, 0};
        const Thermal t = free_section(&s, depth, rise, 3);
        check_near(6e-6 * t.mean, zone[i].mean, 0, 1e-10, source);
        check_near(-6e-6 * t.slope, zone[i].curvature, 0, 5e-11, source);
        check_near(thermal_ksi(t, 4000, 6e-6, 0, zone[i].T1), zone[i].top, 0, 1e-4, source);
        check_near(thermal_ksi(t, 4000, 6e-6, 4, zone[i].T2), zone[i].at4, 0, 1e-4, source);
        check_near(thermal_ksi(t, 4000, 6e-6, 16, 0), zone[i].at16, 0, 1e-4, source);
        check_near(thermal_ksi(t, 4000, 6e-6, 24, 0), zone[i].bottom, 0, 1e-4, source);
    }
}

static void test_gradient_in_panel_alone(void **state)
{
    (void)state;
    const char *source = "closed form: exact integrals, panel of 8 in, A 4 in, zone 1";
    const BeamSection s = rectangle(12 * in, 8 * in);
    const double depth[] = {0, 4, 8}, rise[] = {54, 14, 0};
    const Thermal t = free_section(&s, depth, rise, 3);
    check_near(6e-6 * t.mean, 123.0e-6, 0, 5e-11, source);
    check_near(-6e-6 * t.slope, -40.5e-6, 0, 5e-11, source);
    check_near(thermal_ksi(t, 4000, 6e-6, 0, 54), -0.1560, 0, 1e-4, source);
    check_near(thermal_ksi(t, 4000, 6e-6, 4, 14), +0.1560, 0, 1e-4, source);
    check_near(thermal_ksi(t, 4000, 6e-6, 8, 0), -0.1560, 0, 1e-4, source);
}

/* The slab's widths divided by n, stacked on the girder with its 3 in of haunch left open. */
static void test_gradient_in_steel_composite(void **state)
{
    (void)state;
    const char *source = "closed form: exact integrals, steel composite, n 8, alpha 6.5e-6, zone 2";
    const double w = 103 / 8.0 * in, y0 = 8 * in, y1 = 10.875 * in;
    const WidthProfile whole = {
        10,
        {0, y0, y0, y1, y1, y1 + 0.625 * in, y1 + 0.625 * in, y1 + 54.625 * in, y1 + 54.625 * in,
         y1 + 55.5 * in},
        {w, w, 0, 0, 14 * in, 14 * in, 0.5 * in, 0.5 * in, 14 * in, 14 * in}};
    const BeamSection s = from_profile(whole);
    check_near(s.inertia_m4 / in4, 66340.3, 0, 0.1, "closed form: transformed section");
    const double depth[] = {0, 4, 16}, rise[] = {46, 12, 0};
    const Thermal t = free_section(&s, depth, rise, 3);
    const double at_8 = 12 - 12 * 4 / 12.0, at_steel = 12 - 12 * 6.875 / 12;
    check_near(6.5e-6 * t.mean, 88.49e-6, 5e-3, 0, source);
    check_near(-6.5e-6 * t.slope, -2.560e-6, 5e-3, 0, source);
    check_near(thermal_ksi(t, 3625, 6.5e-6, 0, 46), -0.618, 5e-3, 0, source);
    check_near(thermal_ksi(t, 3625, 6.5e-6, 4, 12), 0.146, 5e-3, 0, source);
    check_near(thermal_ksi(t, 3625, 6.5e-6, 8, at_8), 0.203, 5e-3, 0, source);
    check_near(thermal_ksi(t, 29000, 6.5e-6, 10.875, at_steel), 1.95, 5e-3, 0, source);
    check_near(thermal_ksi(t, 29000, 6.5e-6, 66.375, 0), -1.20, 5e-3, 0, source);
}

static void test_integral_of_straight_field_gives_properties(void **state)
{
    (void)state;
    const BeamSection s = from_profile(standard("BT-54").profile);
    const double yc = s.depth_m - s.centroid_m;
    const double depth[] = {-0.1, 0.3, 2}, field[] = {yc + 0.1, yc - 0.3, yc - 2}; /* yc - y */
    double integral, moment;
    section_integrate(&s.profile, yc, depth, field, 3, &integral, &moment);
    check_near(integral, 0, 0, 1e-14, "law: first moment about the centroid is zero");
    check_near(moment, s.inertia_m4, 1e-13, 0, "law: second moment is the inertia");
    const double ones[] = {1, 1, 1};
    section_integrate(&s.profile, yc, depth, ones, 3, &integral, &moment);
    check_near(integral, s.area_m2, 1e-13, 0, "law: integral of one is the area");
    check_near(moment, 0, 0, 1e-14, "law: first moment about the centroid is zero");
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rectangle_has_closed_form_properties),
        cmocka_unit_test(test_triangle_has_closed_form_properties),
        cmocka_unit_test(test_cut_profile_keeps_its_properties),
        cmocka_unit_test(test_bad_profile_is_refused),
        cmocka_unit_test(test_standard_girders_have_published_properties),
        cmocka_unit_test(test_layers_give_published_properties),
        cmocka_unit_test(test_layers_of_vi_and_bulb_tees_are_exact),
        cmocka_unit_test(test_volume_to_surface_of_standard_girders),
        cmocka_unit_test(test_unknown_shape_is_null),
        cmocka_unit_test(test_steel_composite_matches_example),
        cmocka_unit_test(test_stresses_of_steel_composite),
        cmocka_unit_test(test_shear_flow_of_steel_composite),
        cmocka_unit_test(test_bulb_tee_composite_matches_example),
        cmocka_unit_test(test_rolled_girder_with_slab_matches_handbook),
        cmocka_unit_test(test_tub_counts_sloped_webs),
        cmocka_unit_test(test_bad_plates_are_refused),
        cmocka_unit_test(test_gradient_in_rectangle_is_self_equilibrating),
        cmocka_unit_test(test_gradient_in_panel_alone),
        cmocka_unit_test(test_gradient_in_steel_composite),
        cmocka_unit_test(test_integral_of_straight_field_gives_properties),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
