#include "case_model.h"

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

static double item(const json_t *array, int i)
{
    return json_number_value(json_array_get(array, (size_t)i));
}

static int length_of(const json_t *array) { return (int)json_array_size(array); }

double case_length(const CaseModel *c) { return c->us ? 0.3048 : 1; }

const json_t *case_array(const CaseModel *c, const json_t *object, const char *key)
{
    char name[64];
    snprintf(name, sizeof name, "%s_%s", key, c->us ? "ft" : "m");
    return json_object_get(object, name);
}

static double get_or(const CaseModel *c, const json_t *object, const char *key, double otherwise)
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
    for (int k = 0; k < length_of(pair); k++) mark(marks, item(pair, k) * case_length(c));
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

static void lay_mesh(CaseModel *c, int refine, Arena *arena)
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

enum { MATERIALS_MAX = 16, SECTIONS_MAX = 32, PARTS_MAX = 12000, EVENTS_MAX = 200 };

static CementClass cement_of(const char *name)
{
    if (strcmp(name, "S") == 0 || strcmp(name, "32.5N") == 0) return CEMENT_SLOW;
    if (strcmp(name, "R") == 0 || strcmp(name, "52.5R") == 0 || strcmp(name, "52.5N") == 0 ||
        strcmp(name, "42.5R") == 0)
        return name[0] == '4' || strcmp(name, "52.5N") == 0 ? CEMENT_RAPID : CEMENT_RAPID;
    return CEMENT_NORMAL;
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
    for (int i = 0; i < length_of(depth); i++) {
        out.depth_m[i] = item(depth, i) * to_depth;
        out.width_m[i] = item(width, i) * to_width;
    }
    out.count = length_of(depth);
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
    while (k + 1 < length_of(x) && item(x, k) < at) k++;
    const double a = item(x, k - 1), b = item(x, k);
    return item(y, k - 1) + (item(y, k) - item(y, k - 1)) * (at - a) / (b - a);
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
    for (int r = 0; r < length_of(runs); r++) {
        const json_t *gap = case_array(c, json_array_get(runs, (size_t)r), "gap");
        if (x > item(gap, 0) * case_length(c) && x < item(gap, 1) * case_length(c)) return r;
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
    while (panel < length_of(joints) && item(joints, panel) * case_length(c) < x) panel++;
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

/* ---- links, supports, gaps ---- */

static void links(CaseModel *c, Arena *arena)
{
    const json_t *shim = json_object_get(c->input, "shim");
    const int n = c->model.station_count;
    Link *link = ARENA_NEW(arena, Link, n);
    for (int i = 0; i < n; i++) {
        double bed = 0, all = 0;
        for (int e = i - 1; e <= i; e++) {
            if (e < 0 || e + 1 >= n) continue;
            const double half = 0.5 * (c->model.x_m[e + 1] - c->model.x_m[e]);
            all += half;
            bed += half;
        }
        const json_t *capacity = json_object_get(shim, "friction_capacity");
        link[i] = (Link){case_get(c, shim, "kv") * bed,
                         case_get(c, shim, "kx") * bed,
                         1e12 * all,
                         1e12 * all,
                         case_get(c, shim, "mu"),
                         !json_is_true(json_object_get(shim, "compression_only")),
                         capacity != NULL};
    }
    c->model.link = link;
}

static void supports(CaseModel *c, Arena *arena)
{
    const json_t *spans = case_array(c, c->input, "spans");
    const int n = length_of(spans) + 1,
              fixed = (int)json_integer_value(json_object_get(c->input, "fixed_support"));
    Support *support = ARENA_NEW(arena, Support, n);
    double x = 0;
    for (int s = 0; s < n; s++) {
        support[s] = (Support){case_station(c, x), 1e13, s == fixed ? 1e13 : 0, 0, -1, -1};
        if (s < n - 1) x += item(spans, s) * case_length(c);
    }
    c->model.support = support;
    c->model.support_count = n;
}

static void gaps(CaseModel *c, Arena *arena)
{
    const json_t *runs = json_object_get(c->input, "runs");
    Gap *gap = ARENA_NEW(arena, Gap, length_of(runs) + 1);
    for (int r = 0; r < length_of(runs); r++) {
        const json_t *run = json_array_get(runs, (size_t)r), *strut = json_object_get(run, "strut");
        const json_t *at = case_array(c, run, "gap");
        const double a = item(at, 0) * case_length(c), b = item(at, 1) * case_length(c);
        gap[r] = (Gap){case_station(c, a), case_station(c, b), get_or(c, run, "jack_y_from_mid", 0),
                       case_get(c, strut, "E") * case_get(c, strut, "A") / (b - a), 0};
    }
    c->model.gap = gap;
    c->model.gap_count = length_of(runs);
}

/* ---- events ---- */

static Event *next(CaseModel *c, double day, EventKind kind, Cause cause)
{
    if (c->model.event_count == EVENTS_MAX) fail_msg("case file: too many events");
    Event *event = (Event *)c->model.event + c->model.event_count++;
    *event =
        (Event){.day = day, .kind = kind, .cause = cause, .to_station = c->model.station_count - 1};
    return event;
}

static void birth(CaseModel *c, double day, int phase, Cause cause)
{
    next(c, day, EVENT_BIRTH, cause)->phase = phase;
}

static void load(CaseModel *c, double day, int from, int to, double w, bool on_deck, Cause cause)
{
    Event *event = next(c, day, EVENT_LOAD, cause);
    event->from_station = from;
    event->to_station = to;
    event->line_load_N_per_m = w;
    event->on_deck = on_deck;
}

static void girder_weight(CaseModel *c, double day)
{
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(json_object_get(c->input, "girder"), "sections"), i, v)
        load(c, day, case_station(c, case_get(c, v, "x0")), case_station(c, case_get(c, v, "x1")),
             case_get(c, v, "w"), false, CAUSE_WEIGHT);
}

static void panel_weight(CaseModel *c, double day)
{
    const double w = case_get(c, json_object_get(c->input, "deck"), "w");
    int from = 0;
    for (int g = 0; g < c->model.gap_count; g++) {
        load(c, day, from, c->model.gap[g].left_station, w, true, CAUSE_WEIGHT);
        from = c->model.gap[g].right_station;
    }
    load(c, day, from, c->model.station_count - 1, w, true, CAUSE_WEIGHT);
}

static void bond(CaseModel *c, double day, double from, double to)
{
    Event *event = next(c, day, EVENT_BOND, CAUSE_WEIGHT);
    event->from_station = case_station(c, from);
    event->to_station = case_station(c, to);
}

static void one_event(CaseModel *c, const json_t *v)
{
    const char *what = json_string_value(json_object_get(v, "do"));
    const json_t *runs = json_object_get(c->input, "runs"),
                 *deck = json_object_get(c->input, "deck");
    const double day = case_get(c, v, "t"), unit = case_length(c);
    const int run_count = length_of(runs);
    if (strcmp(what, "girder") == 0 || strcmp(what, "transfer") == 0) {
        birth(c, day, 0, CAUSE_PRESTRESS);
        girder_weight(c, day);
    } else if (strcmp(what, "panels") == 0) {
        panel_weight(c, day);
    } else if (strcmp(what, "joints") == 0) {
        birth(c, day, 1, CAUSE_WEIGHT);
        next(c, day, EVENT_SHIMS, CAUSE_WEIGHT);
    } else if (strcmp(what, "haunch") == 0) {
        load(c, day, 0, c->model.station_count - 1, get_or(c, deck, "w_haunch", 0), false,
             CAUSE_CLOSURE);
        next(c, day, EVENT_BOND, CAUSE_CLOSURE);
    } else if (strcmp(what, "sdl") == 0) {
        load(c, day, 0, c->model.station_count - 1, case_get(c, v, "w"), false, CAUSE_SUPERIMPOSED);
    }
    for (int r = 0; r < run_count; r++) {
        const json_t *run = json_array_get(runs, (size_t)r);
        if (strcmp(what, "anchors") == 0) {
            const json_t *left = case_array(c, run, "anchor_left"),
                         *right = case_array(c, run, "anchor_right");
            bond(c, day, item(left, 0) * unit, item(left, 1) * unit);
            bond(c, day, item(right, 0) * unit, item(right, 1) * unit);
        } else if (strcmp(what, "jack") == 0) {
            Event *event = next(c, day, EVENT_JACK, CAUSE_THRUST);
            event->gap = r;
            event->thrust_N = case_get(c, v, "P");
            event->steps = (int)json_integer_value(json_object_get(v, "steps"));
        } else if (strcmp(what, "lock") == 0) {
            next(c, day, EVENT_LOCK, CAUSE_THRUST)->gap = r;
        } else if (strcmp(what, "release") == 0) {
            next(c, day, EVENT_RELEASE, CAUSE_RELEASE)->gap = r;
        } else if (strcmp(what, "closure_weight") == 0) {
            load(c, day, c->model.gap[r].left_station, c->model.gap[r].right_station,
                 case_get(c, deck, "w"), false, CAUSE_CLOSURE);
        } else if (strcmp(what, "closure") == 0) {
            birth(c, day, 2 + 2 * r, CAUSE_CLOSURE);
            Event *event = next(c, day, EVENT_SHIMS_EMPTY, CAUSE_CLOSURE);
            event->from_station = c->model.gap[r].left_station + 1;
            event->to_station = c->model.gap[r].right_station - 1;
        } else if (strcmp(what, "fill") == 0) {
            birth(c, day, 3 + 2 * r, CAUSE_CLOSURE);
        }
    }
    const char *name = json_string_value(json_object_get(v, "record"));
    if (name) next(c, day, EVENT_NOTE, CAUSE_WEIGHT)->name = name;
}

CaseModel case_read(const char *name, int refine, Arena *arena)
{
    char path[128];
    json_error_t why;
    CaseModel c = {0};
    snprintf(path, sizeof path, "tests/cases/%s.json", name);
    c.root = json_load_file(path, 0, &why);
    if (!c.root) fail_msg("%s: %s", path, why.text);
    c.input = json_object_get(c.root, "input");
    c.results = json_object_get(c.root, "results");
    const char *units = json_string_value(json_object_get(c.root, "units"));
    c.us = units && strcmp(units, "US") == 0;
    c.model.material = ARENA_NEW(arena, Material, MATERIALS_MAX);
    c.model.section = ARENA_NEW(arena, PartSection, 400);
    c.model.part = ARENA_NEW(arena, Part, PARTS_MAX);
    c.model.event = ARENA_NEW(arena, Event, EVENTS_MAX);
    const json_t *deck = json_object_get(c.input, "deck");
    c.model.deck_thickness_m = case_get(&c, deck, "t");
    c.model.haunch_m = case_get(&c, deck, "haunch");
    lay_mesh(&c, refine, arena);
    girder_parts(&c);
    strand_parts(&c);
    deck_parts(&c);
    links(&c, arena);
    supports(&c, arena);
    gaps(&c, arena);
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(c.input, "events"), i, v) one_event(&c, v);
    c.settings = stage_settings_default();
    if (json_object_get(c.input, "dt0")) {
        c.settings.first_step_day = case_get(&c, c.input, "dt0");
        c.settings.step_growth_1 = case_get(&c, c.input, "dt_growth");
    }
    return c;
}

void case_free(CaseModel *c) { json_decref(c->root); }
