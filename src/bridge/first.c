/* A first bridge file from a short form: sizes by rules of thumb (common practice, no source), so that
 * there is something to look at and to put the own values into. Whether it does is the engine's to say. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "clench/bridge.h"

enum { FIRST_SPANS = 24, FORM_BYTES = 128 };

typedef enum FirstKind { FIRST_PLATE, FIRST_TUB, FIRST_PRETENSIONED, FIRST_KIND_COUNT } FirstKind;
static const char *const kind_name[] = {"plate girder", "tub", "pretensioned"};

typedef struct First {
    const Node *form;
    Diagnostics *list;
    Text *text;
    UnitSystem units;
    FirstKind kind;
    int span_count;
    char span_text[FIRST_SPANS][FORM_BYTES];
    double span_m[FIRST_SPANS];
    double longest_m, shortest_m, width_m;
    double humidity_1; /* unit: none */
    int zone;
    /* sized */
    int girder_count;
    double spacing_m, overhang_m, deck_m;
    double dead_Nm, late_Nm, live_Nm; /* on the girder alone, on the composite section, live load */
} First;

/* ---- the form ---- */

static void refuse(First *f, const char *key, Place from, Place to, const char *what)
{
    Error err;
    error_at(&err, STATUS_BAD_INPUT, from, to, key, "%s", what);
    diagnostics_add(f->list, &err);
}

/* The answer to one question of the form; NULL, and told, where it is missing. */
static const Node *answer(First *f, const char *key)
{
    const Node *node = node_find(f->form, key);
    if (node && node->kind == NODE_TEXT && node->text[0] &&
        strlen(node->text) < (size_t)24 * FORM_BYTES)
        return node;
    const Node *at = node ? node : f->form;
    refuse(f, key, at->from, at->to, "the form needs one answer here");
    return NULL;
}

static bool read_one(First *f, const Node *node, const char *text, DimensionId dimension,
                     double *value)
{
    Error err;
    if (quantity_read(text, dimension, value, &err) == STATUS_OK) return true;
    err.from = node->from;
    err.to = node->to;
    snprintf(err.key, sizeof err.key, "%s", node->key);
    diagnostics_add(f->list, &err);
    return false;
}

static void read_range(First *f, const char *key, DimensionId dimension, double least, double most,
                       double *value) /* unit: SI of the dimension */
{
    const Node *node = answer(f, key);
    if (!node || !read_one(f, node, node->text, dimension, value)) return;
    if (*value >= least && *value <= most) return;
    const char *unit = quantity_unit(f->units, dimension);
    char what[160];
    snprintf(what, sizeof what, "%.40s is out of range: %.3g to %.3g%s%s", node->text,
             quantity_in(least, unit), quantity_in(most, unit), *unit ? " " : "", unit);
    refuse(f, key, node->from, node->to, what);
}

/* "94 ft, 120 ft": the texts are kept as they were written. */
static void read_spans(First *f)
{
    const Node *node = answer(f, "spans");
    if (!node) return;
    for (const char *at = node->text; at;) {
        const char *comma = strchr(at, ',');
        const size_t length = comma ? (size_t)(comma - at) : strlen(at);
        if (f->span_count == FIRST_SPANS || length >= FORM_BYTES) {
            refuse(f, "spans", node->from, node->to, "1 to 24 spans, \"94 ft, 120 ft, 94 ft\"");
            return;
        }
        char *text = f->span_text[f->span_count];
        snprintf(text, FORM_BYTES, "%.*s", (int)length, at);
        at = comma ? comma + 1 : NULL;
        const char *trimmed = text + strspn(text, " ");
        memmove(text, trimmed, strlen(trimmed) + 1);
        double *span_m = &f->span_m[f->span_count++];
        if (!read_one(f, node, text, DIM_LENGTH, span_m)) return;
        if (*span_m < 12 || *span_m > 90)
            refuse(f, "spans", node->from, node->to,
                   "a first bridge is made for spans of 12 to 90 m, 40 to 295 ft");
    }
}

static void read_words(First *f)
{
    const Node *units = answer(f, "units"), *kind = answer(f, "girder"), *zone;
    if (units) {
        f->units = strcmp(units->text, "SI") == 0 ? UNITS_SI : UNITS_US;
        if (strcmp(units->text, "SI") != 0 && strcmp(units->text, "US") != 0)
            refuse(f, "units", units->from, units->to, "US or SI");
    }
    f->kind = FIRST_KIND_COUNT;
    for (int i = 0; kind && i < FIRST_KIND_COUNT; i++)
        if (strcmp(kind->text, kind_name[i]) == 0) f->kind = (FirstKind)i;
    if (kind && f->kind == FIRST_KIND_COUNT)
        refuse(f, "girder", kind->from, kind->to, "plate girder, tub or pretensioned");
    zone = answer(f, "gradient_zone");
    if (!zone) return;
    f->zone = strlen(zone->text) == 1 ? zone->text[0] - '0' : 0;
    if (f->zone < 1 || f->zone > 4)
        refuse(f, "gradient_zone", zone->from, zone->to,
               "the zone of the gradient is 1, 2, 3 or 4");
}

static void read_form(First *f)
{
    if (f->form->kind != NODE_MAP) {
        refuse(f, "", f->form->from, f->form->to, "the form is a group of answers");
        return;
    }
    read_words(f);
    read_spans(f);
    read_range(f, "width", DIM_LENGTH, 6, 40, &f->width_m);
    read_range(f, "humidity", DIM_NONE, 0.2, 1, &f->humidity_1);
    const Node *title = answer(f, "title");
    if (title && (strlen(title->text) > 80 || strpbrk(title->text, "\n\r\t")))
        refuse(f, "title", title->from, title->to, "a title has at most 80 letters on one line");
    f->longest_m = f->shortest_m = f->span_m[0];
    for (int i = 1; i < f->span_count; i++) {
        f->longest_m = fmax(f->longest_m, f->span_m[i]);
        f->shortest_m = fmin(f->shortest_m, f->span_m[i]);
    }
}

/* ---- sizes ---- */

/* Up to the next whole step of the units in use. */
static double size_m(const First *f, double value_m, double step_in, double step_mm)
{
    const double step_m = f->units == UNITS_US ? step_in * 0.0254 : step_mm / 1000;
    return ceil(value_m / step_m - 1e-9) * step_m;
}

/* A size as it is written: "8.5 in", "215 mm". */
static void put_size(First *f, const char *before, double value_m, const char *behind)
{
    if (f->units == UNITS_US)
        text_printf(f->text, "%s%.10g in%s", before, round(value_m / 0.0254 * 64) / 64, behind);
    else
        text_printf(f->text, "%s%.10g mm%s", before, round(value_m * 1e4) / 10, behind);
}

/* A place along the bridge: whole feet or half metres. */
static void put_station(First *f, double value_m)
{
    if (f->units == UNITS_US)
        text_printf(f->text, "to: %.0f ft, ", round(value_m / 0.3048));
    else
        text_printf(f->text, "to: %.10g m, ", round(value_m * 2) / 2);
}

/* Girders about 2.6 m apart (tubs 6.3 m from axis to axis); the deck goes 0.4 of that (0.48) beyond the
 * last. */
static void size_layout(First *f)
{
    const bool tub = f->kind == FIRST_TUB;
    const double target_m = tub ? 6.3 : 2.6, beyond = tub ? 0.96 : 0.8; /* both sides */
    f->girder_count = (int)fmax(tub ? 2 : 3, round(f->width_m / target_m + 1 - beyond));
    f->spacing_m = size_m(f, f->width_m / (f->girder_count - 1 + beyond) - 0.04, 3, 50);
    f->overhang_m = (f->width_m - (f->girder_count - 1) * f->spacing_m) / 2;
    f->deck_m = size_m(f, f->spacing_m > 2.9 ? 0.225 : 0.215, 0.5, 5);
}

/* Moments of the longest span of one girder, as if simply supported. Deck 24 kN/m3, the girder's weight
 * by its span; barriers of 6 kN/m; HL-93 on S/3.35 m lanes (S/11 ft). */
static void size_moments(First *f)
{
    const double L = f->longest_m, square = L * L / 8;
    const double girder_N_per_m = f->kind == FIRST_PRETENSIONED ? 6e3 + 270 * L : 1.2e3 + 55 * L;
    const double truck_Nm = 320e3 * L / 4 - 607e3; /* axles of 35, 145 and 145 kN, 4.3 m apart */
    f->dead_Nm = (24e3 * f->deck_m * f->spacing_m * 1.05 + girder_N_per_m) * square;
    f->late_Nm = (2 * 6e3 / f->girder_count + 0.6e3 * f->spacing_m) * square;
    f->live_Nm = f->spacing_m / 3.35 * (1.33 * truck_Nm + 9.34e3 * square);
}

/* ---- steel ---- */

/* One piece of plates for a moment: the bottom flange at 170 MPa in service, the top one with 0.7 of
 * its area in a span, where the deck helps, and 0.95 over a pier. to_m: 0 for the last piece. */
static void put_plates(First *f, double to_m, double moment_Nm, bool over_pier)
{
    const double webs = f->kind == FIRST_TUB ? 2 : 1;
    const double d = size_m(f, f->longest_m / (f->span_count > 1 ? 27 : 24), 2, 50);
    const double tw = size_m(f, fmax(d / 140, 0.0125), 0.0625, 1);
    const double area = fmax(moment_Nm / (170e6 * d) - webs * d * tw / 6, 0.008);
    const double top = (over_pier ? 0.95 : 0.7) * area / webs;
    const double top_b = size_m(f, fmax(d / 4, 0.35), 2, 50);
    const double bottom_b = size_m(f, webs > 1 ? 0.33 * f->spacing_m : fmax(d / 3.5, 0.35), 2, 50);
    text_add(f->text, "    - {");
    if (to_m > 0) put_station(f, to_m);
    put_size(f, "top_width: ", top_b, ", ");
    put_size(f, "top_thickness: ", size_m(f, fmax(top / top_b, 0.024), 0.125, 5), ",\n       ");
    put_size(f, "web_depth: ", d, ", ");
    put_size(f, "web_thickness: ", tw, ",\n       ");
    put_size(f, "bottom_width: ", bottom_b, ", ");
    put_size(f, "bottom_thickness: ", size_m(f, fmax(area / bottom_b, 0.024), 0.125, 5), "}\n");
}

/* Heavier over the piers of a continuous girder, a fifth of the span to each side. */
static void put_steel(First *f)
{
    const double all_Nm = f->dead_Nm + f->late_Nm + f->live_Nm;
    const double span_Nm = f->span_count > 1 ? 0.75 * all_Nm : all_Nm;
    double pier_m = 0;
    if (f->kind == FIRST_TUB) text_add(f->text, "  web_slope: 0.25\n");
    text_add(f->text, "  plates:               # from left to right, each up to its station\n");
    for (int i = 0; i + 1 < f->span_count; i++) {
        pier_m += f->span_m[i];
        put_plates(f, pier_m - 0.2 * f->span_m[i], span_Nm, false);
        put_plates(f, pier_m + 0.2 * f->span_m[i + 1], 0.9 * all_Nm, true);
    }
    put_plates(f, 0, span_Nm, false);
}

/* ---- pretensioned ---- */

static const struct {
    double reach_m;
    const char *shape;
} reach[] = {{15, "AASHTO III"}, {19, "AASHTO IV"}, {25, "BT-54"}, {33, "BT-63"}, {41, "BT-72"}};
enum { REACHES = sizeof reach / sizeof reach[0] };

static int shape_index(const First *f)
{
    int i = 0;
    while (i < REACHES && f->longest_m > reach[i].reach_m) i++;
    return i;
}

/* Strands of 140 mm2 at 1100 MPa after losses, 0.1 m above the soffit: as many as keep the bottom fibre
 * within 3.8 MPa tension in service, the composite section modulus taken as 1.35 of the girder's, and
 * press the section by 8 MPa, from which the thrust takes. */
static int strand_count(const First *f, const BeamSection *s)
{
    const double modulus_m3 = s->inertia_m4 / s->centroid_m;
    const double stress_Pa =
        f->dead_Nm / modulus_m3 + (f->late_Nm + 0.8 * f->live_Nm) / (1.35 * modulus_m3) - 3.8e6;
    const double per_strand_Pa =
        140e-6 * 1100e6 * (1 / s->area_m2 + (s->centroid_m - 0.1) / modulus_m3);
    const double pressing = 8e6 * s->area_m2 / (140e-6 * 1100e6);
    return 2 * (int)ceil(fmax(pressing, stress_Pa / per_strand_Pa) / 2);
}

/* Rows of ten, 50 mm apart; a third of them is harped at 0.4 of the shortest span. */
static void put_strands(First *f, const BeamSection *s)
{
    const int all = strand_count(f, s), harped = 2 * (all / 6);
    double height_m = 0.0508;
    text_printf(f->text, "  strands:              # %d of 0.6 in, a third of them harped\n", all);
    for (int left = all - harped; left > 0; left -= 10, height_m += 0.0508) {
        text_printf(f->text, "    - {count: %d, ", left < 10 ? left : 10);
        put_size(f, "height: ", size_m(f, height_m, 1, 10), "}\n");
    }
    text_printf(f->text, "    - {count: %d, ", harped);
    put_size(f, "height: ", size_m(f, height_m, 1, 10), ", ");
    put_size(f, "harped_at: ", size_m(f, 0.4 * f->shortest_m - 0.3, 12, 500), ",\n       ");
    put_size(f, "end_height: ", size_m(f, s->depth_m - 0.18, 1, 10), "}\n");
    text_add(f->text, "  top_bars: yes         # bars in the top flange: the thrust pulls there\n");
}

static void put_pretensioned(First *f)
{
    BeamSection room;
    const char *shape = reach[shape_index(f)].shape;
    text_printf(f->text, "  shape: %s\n", shape);
    put_strands(f, section_standard(shape, &room));
}

/* ---- the file ---- */

/* A text as YAML keeps it, whatever is in it. */
static void put_quoted(First *f, const char *text)
{
    text_add(f->text, "\"");
    for (; *text; text++) {
        if (*text == '"' || *text == '\\') text_add(f->text, "\\");
        text_addn(f->text, text, 1);
    }
    text_add(f->text, "\"");
}

static void put_head(First *f)
{
    text_add(f->text,
             "# A first bridge from spans, width, girders and site. Sizes are rules of thumb\n"
             "# (common practice, no source): put your own in their place. What is not\n"
             "# said here has a default or follows from what is.\n"
             "title: ");
    put_quoted(f, node_find(f->form, "title")->text);
    text_printf(f->text, "\nunits: %s\n\nspans:                  # bearing to bearing\n",
                f->units == UNITS_US ? "US" : "SI");
    for (int i = 0; i < f->span_count; i++)
        text_printf(f->text, "  - length: %s\n", f->span_text[i]);
}

static void put_girders(First *f)
{
    assert(f->kind < FIRST_KIND_COUNT); /* read_words has refused the others */
    text_printf(f->text, "\ngirders:\n  count: %d\n", f->girder_count);
    put_size(f, "  spacing: ", f->spacing_m, "\n");
    put_size(f, "  overhang: ", f->overhang_m, "\n");
    text_printf(f->text, "  kind: %s\n", kind_name[f->kind]);
    if (f->kind == FIRST_PRETENSIONED)
        put_pretensioned(f);
    else
        put_steel(f);
}

static void put_rest(First *f)
{
    put_size(f, "\ndeck:\n  thickness: ", f->deck_m, "\n");
    text_printf(f->text,
                "\nshims:\n  friction: 0.1         # plastic on greased steel: measure it\n"
                "\nclimate:\n  humidity: %.10g %%\n  gradient_zone: %d\n"
                "  asphalt: yes          # of 25 psf: keeps the deck's top less cold\n",
                100 * f->humidity_1, f->zone);
}

Status bridge_first(const Node *form, Text *text, Diagnostics *diagnostics)
{
    First *f = ARENA_NEW(text->arena, First, 1);
    f->form = form;
    f->list = diagnostics;
    f->text = text;
    read_form(f);
    if (diagnostics->count == 0 && f->kind == FIRST_PRETENSIONED && shape_index(f) == REACHES) {
        const Node *spans = node_find(form, "spans");
        refuse(f, "spans", spans->from, spans->to,
               "standard pretensioned girders reach 41 m (134 ft): shorter spans, or steel");
    }
    if (diagnostics->count > 0) return STATUS_BAD_INPUT;
    size_layout(f);
    size_moments(f);
    put_head(f);
    put_girders(f);
    put_rest(f);
    return STATUS_OK;
}
