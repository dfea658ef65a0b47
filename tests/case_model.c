#include "case_parts.h"

#include <string.h>

#include "check.h"

/* Units of the case files by suffix. Factors: NIST SP 811 (exact inch, pound-force). */
static const struct {
    const char *suffix;
    double to_SI;
} unit_table[] = {
    {"ft", 0.3048},
    {"in", 0.0254},
    {"in2", 0.0254 * 0.0254},
    {"in4", 0.0254 * 0.0254 * 0.0254 * 0.0254},
    {"ksi", 4448.2216152605 / (0.0254 * 0.0254)},
    {"psi", 4.4482216152605 / (0.0254 * 0.0254)},
    {"kip", 4448.2216152605},
    {"klf", 4448.2216152605 / 0.3048},
    {"kcf", 4448.2216152605 / (0.3048 * 0.3048 * 0.3048)},
    {"kipPerInPerFt", 4448.2216152605 / (0.0254 * 0.3048)},
    {"degF", 5.0 / 9},
    {"perF", 1.8},
    {"m", 1},
    {"mm", 1e-3},
    {"m2", 1},
    {"mm2", 1e-6},
    {"m4", 1},
    {"GPa", 1e9},
    {"MPa", 1e6},
    {"kN", 1e3},
    {"kNpm", 1e3},
    {"MNpm2", 1e6},
    {"K", 1},
    {"perK", 1},
};

static const json_t *with_unit(const json_t *object, const char *key, double *factor)
{
    char name[64];
    for (size_t i = 0; i < sizeof unit_table / sizeof *unit_table; i++) {
        snprintf(name, sizeof name, "%s_%s", key, unit_table[i].suffix);
        const json_t *value = json_object_get(object, name);
        if (!value) continue;
        *factor = unit_table[i].to_SI;
        return value;
    }
    *factor = 1;
    return json_object_get(object, key);
}

double case_get(const CaseModel *c, const json_t *object, const char *key)
{
    (void)c;
    double factor;
    const json_t *value = with_unit(object, key, &factor);
    if (!value || !json_is_number(value)) fail_msg("case file: no number '%s'", key);
    return json_number_value(value) * factor;
}

bool case_has(const CaseModel *c, const json_t *object, const char *key)
{
    (void)c;
    double factor;
    return json_is_number(with_unit(object, key, &factor));
}

double case_item(const json_t *array, int i)
{
    return json_number_value(json_array_get(array, (size_t)i));
}

int case_count(const json_t *array) { return (int)json_array_size(array); }

double case_length(const CaseModel *c) { return c->us ? 0.3048 : 1; }

const json_t *case_array(const CaseModel *c, const json_t *object, const char *key)
{
    char name[64];
    snprintf(name, sizeof name, "%s_%s", key, c->us ? "ft" : "m");
    return json_object_get(object, name);
}

double case_get_or(const CaseModel *c, const json_t *object, const char *key, double otherwise)
{
    return case_has(c, object, key) ? case_get(c, object, key) : otherwise;
}

/* ---- stations ---- */

enum { MARKS_MAX = 200, STATIONS_MAX = 2000 };
static const double same = 1e-6;

typedef struct Marks {
    int count;
    double x[MARKS_MAX];
} Marks;

static void mark(Marks *marks, double x)
{
    int i = 0;
    while (i < marks->count && marks->x[i] < x - same) i++;
    if (i < marks->count && fabs(marks->x[i] - x) <= same) return;
    memmove(marks->x + i + 1, marks->x + i, sizeof(double) * (size_t)(marks->count - i));
    marks->x[i] = x;
    marks->count++;
}

static void mark_pair(const CaseModel *c, Marks *marks, const json_t *pair)
{
    for (int k = 0; k < case_count(pair); k++) mark(marks, case_item(pair, k) * case_length(c));
}

static void mark_stations(const CaseModel *c, Marks *marks)
{
    const json_t *spans = case_array(c, c->input, "spans"),
                 *girder = json_object_get(c->input, "girder");
    size_t i;
    json_t *v;
    double x = 0;
    mark(marks, 0);
    json_array_foreach(spans, i, v) mark(marks, x += json_number_value(v) * case_length(c));
    json_array_foreach(json_object_get(girder, "sections"), i, v)
    {
        mark(marks, case_get(c, v, "x0"));
        mark(marks, case_get(c, v, "x1"));
    }
    json_array_foreach(json_object_get(girder, "strands"), i, v)
        mark_pair(c, marks, case_array(c, v, "x"));
    mark_pair(c, marks, case_array(c, c->input, "joints"));
    mark_pair(c, marks, case_array(c, c->input, "stations"));
    json_array_foreach(json_object_get(c->input, "runs"), i, v)
    {
        mark_pair(c, marks, case_array(c, v, "anchor_left"));
        mark_pair(c, marks, case_array(c, v, "anchor_right"));
        mark_pair(c, marks, case_array(c, v, "gap"));
    }
}

void case_lay_mesh(CaseModel *c, double refine, Arena *arena)
{
    Marks *marks = ARENA_NEW(arena, Marks, 1);
    mark_stations(c, marks);
    const double longest = case_get(c, c->input, "mesh_hmax") / refine;
    double *x = ARENA_NEW(arena, double, STATIONS_MAX);
    int n = 0;
    for (int k = 0; k + 1 < marks->count; k++) {
        const double a = marks->x[k], b = marks->x[k + 1];
        const int pieces = (int)ceil((b - a) / longest - 1e-9);
        for (int j = 0; j < pieces; j++) x[n++] = a + (b - a) * j / pieces;
    }
    x[n++] = marks->x[marks->count - 1];
    c->model.x_m = x;
    c->model.station_count = n;
}

int case_station(const CaseModel *c, double x_m)
{
    for (int i = 0; i < c->model.station_count; i++)
        if (fabs(c->model.x_m[i] - x_m) <= same) return i;
    fail_msg("case file: no station at %g m", x_m);
    return -1;
}

/* ---- materials ---- */

/* fib MC 2010 and EN 1992 3.1.2(6): S is 32.5 N; N is 32.5 R and 42.5 N; R is the rest. */
static CementClass cement_of(const char *name)
{
    if (strcmp(name, "S") == 0 || strcmp(name, "32.5N") == 0) return CEMENT_SLOW;
    if (strcmp(name, "N") == 0 || strcmp(name, "32.5R") == 0 || strcmp(name, "42.5N") == 0)
        return CEMENT_NORMAL;
    return CEMENT_RAPID;
}

static ConcreteMix mix_of(const CaseModel *c, const json_t *v)
{
    const char *model = json_string_value(json_object_get(v, "model"));
    const char *form = json_string_value(json_object_get(v, "form"));
    const bool aashto = strcmp(model, "aashto") == 0;
    ConcreteMix mix = concrete_mix_default(
        aashto ? (strcmp(form, "2005") == 0 ? TIME_AASHTO2005 : TIME_AASHTO2015)
        : strcmp(model, "mc2010") == 0 ? TIME_MC2010
                                       : TIME_EN1992);
    mix.humidity_ratio = case_get(c, v, "RH") / 100;
    mix.cure_end_age_day = case_get(c, v, "cure_end_age");
    mix.early_drying_1 = 1; /* the cases leave the early-drying rule of AASHTO 5.4.2.3.3 out */
    if (aashto) {
        mix.fc28_Pa = case_get(c, v, "fc");
        mix.fci_Pa = case_get(c, v, "fci");
        mix.weight_N_per_m3 = case_get(c, v, "wc");
        mix.K1_1 = case_get(c, v, "K1");
        mix.strength_alpha_day = case_get(c, v, "alpha");
        mix.strength_beta_1 = case_get(c, v, "beta");
        mix.volume_to_surface_m = case_get(c, v, "VS");
        mix.modulus_2005 = json_object_get(v, "Eform") != NULL;
    } else {
        mix.fcm_Pa = case_get(c, v, "fcm");
        mix.fc28_Pa = mix.fcm_Pa - 8e6;
        mix.volume_to_surface_m = case_get(c, v, "h") / 2;
        mix.cement = cement_of(json_string_value(json_object_get(v, "cement")));
    }
    return mix;
}

static int add_material(CaseModel *c, Material material)
{
    Material *all = (Material *)c->model.material;
    all[c->model.material_count] = material;
    return c->model.material_count++;
}

static int concrete_material(CaseModel *c, const char *name)
{
    for (int m = 0; m < c->model.material_count; m++)
        if (strcmp(c->model.material[m].name, name) == 0) return m;
    const json_t *v = json_object_get(json_object_get(c->input, "concretes"), name);
    const json_t *load = json_object_get(c->input, "load");
    const bool girder = strcmp(name, "girder") == 0;
    const json_t *gradient = json_object_get(load, "gradient");
    const double alpha = gradient ? case_get(c, gradient, girder ? "alpha" : "alpha_deck") : 1e-5;
    if (strcmp(json_string_value(json_object_get(v, "model")), "elastic") == 0)
        return add_material(c, (Material){.kind = MATERIAL_ELASTIC,
                                          .name = name,
                                          .E_Pa = case_get(c, v, "E"),
                                          .expansion_per_K = alpha});
    return add_material(c, (Material){.kind = MATERIAL_CONCRETE,
                                      .name = name,
                                      .mix = mix_of(c, v),
                                      .cast_day = case_get(c, v, "cast_day"),
                                      .expansion_per_K = alpha});
}

static int add_section(CaseModel *c, PartSection section)
{
    PartSection *all = (PartSection *)c->model.section;
    all[c->model.section_count] = section;
    return c->model.section_count++;
}

static void add_part(CaseModel *c, Part part)
{
    if (c->model.part_count == PARTS_MAX) fail_msg("case file: too many parts");
    ((Part *)c->model.part)[c->model.part_count++] = part;
}

static WidthProfile profile_of(const CaseModel *c, const json_t *v)
{
    WidthProfile out = {0};
    double to_depth, to_width;
    const json_t *depth = with_unit(v, "depth", &to_depth), *width = with_unit(v, "b", &to_width);
    (void)c;
    for (int i = 0; i < case_count(depth); i++) {
        out.depth_m[i] = case_item(depth, i) * to_depth;
        out.width_m[i] = case_item(width, i) * to_width;
    }
    out.count = case_count(depth);
    return out;
}

/* ---- girder: phase 0 ---- */

static void girder_parts(CaseModel *c)
{
    const json_t *girder = json_object_get(c->input, "girder");
    const bool steel = strcmp(json_string_value(json_object_get(girder, "type")), "steel") == 0;
    const json_t *load = json_object_get(json_object_get(c->input, "load"), "gradient");
    const int material =
        steel ? add_material(
                    c, (Material){.kind = MATERIAL_ELASTIC,
                                  .name = "girder",
                                  .E_Pa = case_get(c, girder, "E"),
                                  .expansion_per_K = load ? case_get(c, load, "alpha") : 1.2e-5})
              : concrete_material(c, "girder");
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(girder, "sections"), i, v)
    {
        const double h = case_get(c, v, "h"), yb = case_get(c, v, "yb");
        const json_t *profile = json_object_get(v, "width_profile");
        PartSection section = {case_get(c, v, "A"), case_get(c, v, "I"), h - yb, yb, {0}};
        if (profile) section.profile = profile_of(c, profile);
        const int s = add_section(c, section);
        const int from = case_station(c, case_get(c, v, "x0")),
                  to = case_station(c, case_get(c, v, "x1"));
        for (int e = from; e < to; e++)
            add_part(c, (Part){.element = e,
                               .chain = CHAIN_GIRDER,
                               .material = material,
                               .section = s,
                               .phase = 0,
                               .from_height_m = yb - h,
                               .to_height_m = yb - h});
    }
}

static double straight(const json_t *x, const json_t *y, double at)
{
    int k = 1;
    while (k + 1 < case_count(x) && case_item(x, k) < at) k++;
    const double a = case_item(x, k - 1), b = case_item(x, k);
    return case_item(y, k - 1) + (case_item(y, k) - case_item(y, k - 1)) * (at - a) / (b - a);
}

static void strand_parts(CaseModel *c)
{
    const json_t *girder = json_object_get(c->input, "girder");
    const json_t *first = json_array_get(json_object_get(girder, "sections"), 0);
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(girder, "strands"), i, v)
    {
        const int material =
            add_material(c, (Material){.kind = MATERIAL_STRAND,
                                       .name = i ? "strand 2" : "strand 1",
                                       .E_Pa = case_get(c, v, "E"),
                                       .fpy_Pa = case_get(c, v, "fpy"),
                                       .initial_Pa = case_get(c, v, "fj"),
                                       .tension_day = case_get(c, v, "tension_day"),
                                       .expansion_per_K = 1e-5});
        const int s = add_section(c, (PartSection){.area_m2 = case_get(c, v, "A")});
        double to_y;
        const json_t *x = case_array(c, v, "x"), *y = with_unit(v, "y_above_bottom", &to_y);
        const double h = case_get(c, first, "h"), unit = case_length(c);
        for (int e = 0; e + 1 < c->model.station_count; e++)
            add_part(c,
                     (Part){.element = e,
                            .chain = CHAIN_GIRDER,
                            .material = material,
                            .section = s,
                            .from_height_m = straight(x, y, c->model.x_m[e] / unit) * to_y - h,
                            .to_height_m = straight(x, y, c->model.x_m[e + 1] / unit) * to_y - h});
    }
}

/* ---- deck: phase 1; closure and fill of run r: 2 + 2 r, 3 + 2 r ---- */

static PartSection strip(const CaseModel *c, double fraction)
{
    const json_t *deck = json_object_get(c->input, "deck");
    const double t = case_get(c, deck, "t"), b = case_get(c, deck, "b") * fraction;
    return (PartSection){b * t, b * t * t * t / 12, t / 2, t / 2, {2, {0, t}, {b, b}}};
}

static int gap_at(const CaseModel *c, double x)
{
    const json_t *runs = json_object_get(c->input, "runs");
    for (int r = 0; r < case_count(runs); r++) {
        const json_t *gap = case_array(c, json_array_get(runs, (size_t)r), "gap");
        if (x > case_item(gap, 0) * case_length(c) && x < case_item(gap, 1) * case_length(c))
            return r;
    }
    return -1;
}

static void gap_parts(CaseModel *c, int e, int r)
{
    const json_t *run = json_array_get(json_object_get(c->input, "runs"), (size_t)r);
    static const char *const names[] = {"closure", "fill"};
    for (int k = 0; k < 2; k++) {
        const json_t *v = json_object_get(run, names[k]);
        if (!v) continue;
        const int material =
            concrete_material(c, json_string_value(json_object_get(v, "concrete")));
        const int s = add_section(c, strip(c, case_get(c, v, "fraction")));
        add_part(c, (Part){.element = e,
                           .chain = CHAIN_DECK,
                           .material = material,
                           .section = s,
                           .phase = 2 + 2 * r + k});
    }
}

static int panel_at(const CaseModel *c, double x)
{
    const json_t *joints = case_array(c, c->input, "joints");
    int panel = 0;
    while (panel < case_count(joints) && case_item(joints, panel) * case_length(c) < x) panel++;
    return panel;
}

static void deck_parts(CaseModel *c)
{
    const json_t *concrete = json_object_get(json_object_get(c->input, "deck"), "concrete");
    const int s = add_section(c, strip(c, 1));
    for (int e = 0; e + 1 < c->model.station_count; e++) {
        const double x = 0.5 * (c->model.x_m[e] + c->model.x_m[e + 1]);
        const int r = gap_at(c, x);
        if (r >= 0) {
            gap_parts(c, e, r);
            continue;
        }
        const json_t *name =
            json_is_array(concrete)
                ? json_array_get(concrete, (size_t)panel_at(c, x) % json_array_size(concrete))
                : concrete;
        add_part(c, (Part){.element = e,
                           .chain = CHAIN_DECK,
                           .material = concrete_material(c, json_string_value(name)),
                           .section = s,
                           .phase = 1});
    }
}

/* Bars of a cast deck that run through: with the deck. */
static void bar_parts(CaseModel *c)
{
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(json_object_get(c->input, "deck"), "bars"), i, v)
    {
        const int material = add_material(c, (Material){.kind = MATERIAL_ELASTIC,
                                                        .name = "bars",
                                                        .E_Pa = case_get(c, v, "E"),
                                                        .expansion_per_K = 1.17e-5});
        const int s = add_section(c, (PartSection){.area_m2 = case_get(c, v, "A")});
        const double y = case_get(c, v, "y_from_mid");
        for (int e = 0; e + 1 < c->model.station_count; e++)
            add_part(c, (Part){.element = e,
                               .chain = CHAIN_DECK,
                               .material = material,
                               .section = s,
                               .phase = 1,
                               .from_height_m = y,
                               .to_height_m = y});
    }
}

/* ---- tendons: friction from both ends, seating by reversed friction ---- */

/* Length over which the seating is felt: the integral of 2 (f - f(l)) over it is set * E. */
static double seating_length(double fj, double K, double set_E)
{
    double low = 0, high = 1 / K;
    for (int k = 0; k < 100; k++) {
        const double l = 0.5 * (low + high);
        const double lost = 2 * fj * ((1 - exp(-K * l)) / K - l * exp(-K * l));
        *(lost < set_E ? &low : &high) = l;
    }
    return low;
}

static double tendon_stress(double fj, double K, double seated, double from_end)
{
    const double f = fj * exp(-K * from_end);
    return from_end < seated ? 2 * fj * exp(-K * seated) - f : f;
}

static double tendon_day(const CaseModel *c)
{
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(c->input, "events"), i,
                       v) if (strcmp(json_string_value(json_object_get(v, "do")), "tendons") ==
                              0) return case_get(c, v, "t");
    return 0;
}

static void tendon_parts(CaseModel *c)
{
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(c->input, "tendons"), i, v)
    {
        const double fj = case_get(c, v, "fj"), E = case_get(c, v, "E"), K = case_get(c, v, "K");
        const double y = case_get(c, v, "y_from_mid");
        const int material = add_material(c, (Material){.kind = MATERIAL_STRAND,
                                                        .name = "tendon",
                                                        .E_Pa = E,
                                                        .fpy_Pa = case_get(c, v, "fpy"),
                                                        .initial_Pa = fj,
                                                        .tension_day = tendon_day(c),
                                                        .expansion_per_K = 1e-5});
        const int s = add_section(c, (PartSection){.area_m2 = case_get(c, v, "A")});
        const double seated = seating_length(fj, K, case_get(c, v, "set") * E);
        const json_t *ends = case_array(c, v, "x");
        const double a = case_item(ends, 0) * case_length(c),
                     b = case_item(ends, 1) * case_length(c);
        for (int e = case_station(c, a); e < case_station(c, b); e++) {
            const double x = 0.5 * (c->model.x_m[e] + c->model.x_m[e + 1]);
            add_part(c, (Part){.element = e,
                               .chain = CHAIN_DECK,
                               .material = material,
                               .section = s,
                               .phase = CASE_TENDON_PHASE,
                               .from_height_m = y,
                               .to_height_m = y,
                               .initial_Pa = tendon_stress(fj, K, seated, fmin(x - a, b - x))});
        }
    }
}

void case_add_parts(CaseModel *c)
{
    girder_parts(c);
    strand_parts(c);
    deck_parts(c);
    bar_parts(c);
    tendon_parts(c);
}
