/* The package: sections with their properties, and where each dimension comes from. */
#include <math.h>
#include <string.h>

#include "document.h"

static const char *length_unit(const Report *r)
{
    return r->source->units == UNITS_US ? "in" : "m";
}

static const char *raised(const Report *r, int power)
{
    return arena_printf(r->arena, "%s^%d", length_unit(r), power);
}

/* Of the modulus: ksi or MPa. */
static const char *modulus_unit(const Report *r)
{
    return r->source->units == UNITS_US ? "ksi" : "MPa";
}

static const BridgeValue *value_at(const Report *r, const char *path)
{
    return bridge_value_at(r->source->bridge, path);
}

static void give(const Report *r, Sheet *s, const char *symbol, const char *path, const char *words)
{
    static const char *const from[] = {"default", "bridge file", "derived"};
    const BridgeValue *const v = value_at(r, path);
    const char *const unit = v->row->dimension == DIM_NONE ? "" : length_unit(r);
    sheet_given_from(s, symbol, v->value, unit, words,
                     arena_printf(r->arena, "%s, %s", path, from[v->origin]));
}

/* Where a section lies: the first and the last station, and the materials that have it. */
typedef struct Stretch {
    int from, to;
    Text materials;
} Stretch;

static Stretch stretch_of(const Report *r, const StageModel *m, int section)
{
    Stretch out = {m->station_count, -1, text_start(r->arena)};
    for (int p = 0; p < m->part_count; p++) {
        const Part *const part = &m->part[p];
        const char *const name = m->material[part->material].name;
        if (part->section != section) continue;
        if (part->element < out.from) out.from = part->element;
        if (part->element + 1 > out.to) out.to = part->element + 1;
        if (out.materials.length == 0 || !strstr(out.materials.bytes, name))
            text_printf(&out.materials, "%s%s", out.materials.length ? ", " : "", name);
    }
    return out;
}

/* The same section of the same materials. */
static bool alike(const StageModel *m, const Stretch *stretch, int one, int other)
{
    const PartSection *const a = &m->section[one], *const b = &m->section[other];
    return stretch[one].to >= 0 && stretch[other].to >= 0 && a->area_m2 == b->area_m2 &&
           a->inertia_m4 == b->inertia_m4 && a->top_m == b->top_m &&
           strcmp(stretch[one].materials.bytes, stretch[other].materials.bytes) == 0;
}

/* Stretches that go on with one like them are one row. */
static void section_row(const Report *r, FigureTable *t, const StageModel *m, Stretch *stretch,
                        int section)
{
    const PartSection *const s = &m->section[section];
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    if (!(s->inertia_m4 > 0) || stretch[section].to < 0) return;
    for (int k = 0; k < m->section_count; k++)
        if (k != section && stretch[k].to == stretch[section].from && alike(m, stretch, k, section))
            return; /* told with that one */
    int to = stretch[section].to;
    for (int k = 0; k < m->section_count; k++)
        if (k != section && stretch[k].from == to && alike(m, stretch, k, section)) {
            to = stretch[k].to;
            k = -1;
        }
    figure_table_row(t, (const char *[]){stretch[section].materials.bytes,
                                         package_number(r, m->x_m[stretch[section].from], x),
                                         package_number(r, m->x_m[to], x),
                                         package_number(r, s->area_m2, raised(r, 2)),
                                         package_number(r, s->inertia_m4, raised(r, 4)),
                                         package_number(r, s->top_m, length_unit(r)),
                                         package_number(r, s->bottom_m, length_unit(r))});
}

/* Strands, bars and ties have an area alone; what they sum up to differs along the line. */
static void fibres_table(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    FigureTable *const t = figure_table_start(
        r->arena, "Fibres: strands, bars, ties and strips, over all elements of the line", 4);
    const char *const head[] = {"material", package_head(r, "least area", raised(r, 2)),
                                package_head(r, "largest area", raised(r, 2)), "elements"};
    for (int c = 0; c < 4; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int k = 0; k < m->material_count; k++) {
        double least_m2 = INFINITY, most_m2 = 0;
        int count = 0;
        for (int e = 0; e + 1 < m->station_count; e++) {
            double sum_m2 = 0;
            for (int p = 0; p < m->part_count; p++)
                if (m->part[p].element == e && m->part[p].material == k &&
                    !(m->section[m->part[p].section].inertia_m4 > 0))
                    sum_m2 += m->section[m->part[p].section].area_m2;
            if (!(sum_m2 > 0)) continue;
            least_m2 = fmin(least_m2, sum_m2);
            most_m2 = fmax(most_m2, sum_m2);
            count++;
        }
        if (count > 0)
            figure_table_row(t, (const char *[]){m->material[k].name,
                                                 package_number(r, least_m2, raised(r, 2)),
                                                 package_number(r, most_m2, raised(r, 2)),
                                                 arena_printf(r->arena, "%d", count)});
    }
    document_table(r, t);
}

static void sections_table(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    FigureTable *const t =
        figure_table_start(r->arena,
                           arena_printf(r->arena, "Sections of %s, each about its own centroid",
                                        document_name(r, line)),
                           7);
    const char *const head[] = {"material",
                                package_head(r, "from x", x),
                                package_head(r, "to x", x),
                                package_head(r, "area", raised(r, 2)),
                                package_head(r, "inertia", raised(r, 4)),
                                package_head(r, "to top", length_unit(r)),
                                package_head(r, "to bottom", length_unit(r))};
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c > 0, head[c]);
    Stretch *const stretch = ARENA_NEW(r->arena, Stretch, m->section_count);
    for (int s = 0; s < m->section_count; s++) stretch[s] = stretch_of(r, m, s);
    for (int s = 0; s < m->section_count; s++) section_row(r, t, m, stretch, s);
    document_table(r, t);
}

/* A beam of a chain in an element; NULL where there is none. */
static const Part *beam_of(const StageHistory *h, Chain chain, int element)
{
    const int part =
        h->beam[((size_t)chain * (size_t)h->model->station_count + (size_t)element) * STAGE_BEAMS];
    return part < 0 ? NULL : &h->model->part[part];
}

static double modulus_28_Pa(const Material *m)
{
    return m->kind == MATERIAL_CONCRETE ? concrete_modulus_Pa(&m->mix, 28) : m->E_Pa;
}

static void give_modulus(Sheet *s, const Report *r, const char *symbol, const Material *m,
                         const char *words)
{
    sheet_given_from(s, symbol, modulus_28_Pa(m), modulus_unit(r), words,
                     m->kind == MATERIAL_CONCRETE ? time_model_source(m->mix.model)
                                                  : "girders.steel_modulus");
}

static void composite_given(Sheet *s, const Report *r, const StageModel *m, const Part *girder,
                            const Part *deck)
{
    static const char above[] = "table above";
    const PartSection *const g = &m->section[girder->section];
    const PartSection *const d = &m->section[deck->section];
    const char *const in = length_unit(r), *const in2 = raised(r, 2), *const in4 = raised(r, 4);
    sheet_given_from(s, "A_g", g->area_m2, in2, "girder, area", above);
    sheet_given_from(s, "I_g", g->inertia_m4, in4, "girder, second moment of area", above);
    sheet_given_from(s, "c_g", g->top_m, in, "girder, centroid to top fibre", above);
    sheet_given_from(s, "b_g", g->bottom_m, in, "girder, centroid to bottom fibre", above);
    sheet_given_from(s, "A_d", d->area_m2, in2, "deck of this line, area", above);
    sheet_given_from(s, "I_d", d->inertia_m4, in4, "deck, second moment of area", above);
    sheet_given_from(s, "c_d", d->top_m, in, "deck, centroid to top fibre", above);
    sheet_given_from(s, "h", m->haunch_m, in, "haunch", "deck.haunch");
    sheet_formula(s, "e", "c_g + h + c_d", in, "between both centroids", "closed form");
    give_modulus(s, r, "E_g", &m->material[girder->material], "girder, modulus at 28 days");
    give_modulus(s, r, "E_d", &m->material[deck->material], "deck, modulus at 28 days");
}

static void composite_add(Report *r, const LineAnswer *line)
{
    const StageHistory *const h = line->history;
    const int joint = line->finish.joint;
    if (joint < 0) return;
    const int station = line->line->joint[joint].station;
    const int element = station > 0 ? station - 1 : 0;
    const Part *const girder = beam_of(h, CHAIN_GIRDER, element);
    const Part *const deck = beam_of(h, CHAIN_DECK, element);
    if (!girder || !deck) return;
    const char *const mark = line->line->joint[joint].mark, *const in = length_unit(r);
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = sheet_start(arena_printf(r->arena, "Composite section beside %s", mark), r->arena);
    const char *const steiner = "closed form: parallel axes";
    composite_given(s, r, h->model, girder, deck);
    sheet_formula(s, "n", "E_d / E_g", "", "modular ratio", "closed form");
    sheet_formula(s, "A_c", "A_g + n A_d", raised(r, 2), "area in girder material", "closed form");
    sheet_formula(s, "y", "n A_d e / A_c", in, "composite centroid above the girder's", steiner);
    sheet_formula(s, "I_c", "I_g + n I_d + A_g y^2 + n A_d (e - y)^2", raised(r, 4),
                  "second moment of area in girder material", steiner);
    sheet_formula(s, "S_b", "I_c / (b_g + y)", raised(r, 3), "modulus, bottom of the girder",
                  "closed form");
    sheet_formula(s, "S_t", "I_c / (n (e - y + c_d))", raised(r, 3),
                  "modulus, top of the deck, in deck material", "closed form");
    package_section(r, s->title);
    document_add(r, REPORT_SHEET, s->title)->sheet = s;
}

/* ---- where dimensions come from ---- */

static void sheet_add(Report *r, Sheet *s, const Sheet *like, const char *like_title)
{
    package_section(r, s->title);
    if (like)
        document_add(r, REPORT_TEXT, arena_printf(r->arena, "Formulas as in %s.", like_title));
    ReportBlock *const block = document_add(r, REPORT_SHEET, s->title);
    block->sheet = s;
    block->like = like;
}

static Sheet *sheet_make(const Report *r, const char *title)
{
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = sheet_start(title, r->arena);
    return s;
}

/* Closure and fill share the width of the gap. */
static void write_gap(const Report *r, Sheet *s)
{
    static const char share[] = "closed form: side by side";
    if (!(value_at(r, "closure.fraction")->value < 0.999)) return;
    give(r, s, "k_C", "closure.fraction", "share of the width that the closure takes");
    sheet_formula(s, "A_C", "k_C A_d", raised(r, 2), "closure, area", share);
    sheet_formula(s, "I_C", "k_C I_d", raised(r, 4), "closure, second moment of area", share);
    sheet_formula(s, "A_F", "(1 - k_C) A_d", raised(r, 2), "fill, area", share);
    sheet_formula(s, "I_F", "(1 - k_C) I_d", raised(r, 4), "fill, second moment of area", share);
}

static void deck_add(Report *r, const LineAnswer *line)
{
    const char *const in = length_unit(r);
    const bool exterior = strncmp(line->line->name, "exterior", 8) == 0;
    Sheet *const s = sheet_make(r, arena_printf(r->arena, "Deck of %s", document_name(r, line)));
    give(r, s, "t_c", "deck.thickness", "panel as cast");
    give(r, s, "t_w", "deck.wearing_allowance", "ground or worn off");
    sheet_formula(s, "t", "t_c - t_w", in, "deck that carries", "closed form");
    give(r, s, "h", "deck.haunch", "haunch, deck soffit over girder top");
    give(r, s, "S", "girders.spacing", "between girders");
    if (exterior) give(r, s, "o", "girders.overhang", "deck edge beyond the exterior girder");
    sheet_formula(s, "b", exterior ? "S / 2 + o" : "S", in, "deck on this line: tributary width",
                  "closed form");
    sheet_formula(s, "A_d", "b t", raised(r, 2), "area", "closed form: rectangle");
    sheet_formula(s, "I_d", "b t^3 / 12", raised(r, 4), "second moment of area",
                  "closed form: rectangle");
    sheet_formula(s, "c_d", "t / 2", in, "centroid to top and to bottom", "closed form: rectangle");
    write_gap(r, s);
    sheet_add(r, s, NULL, NULL);
}

/* ---- the girder ---- */

static const char *plate_path(const Report *r, int index, const char *key)
{
    return arena_printf(r->arena, "girders.plates[%d].%s", index, key);
}

static const char *const plate_key[] = {"top_width",     "top_thickness", "web_depth",
                                        "web_thickness", "bottom_width",  "bottom_thickness"};
enum { PLATE_KEYS = 6 };

static bool same_plates(const Report *r, int one, int other)
{
    for (int k = 0; k < PLATE_KEYS; k++)
        if (value_at(r, plate_path(r, one, plate_key[k]))->value !=
            value_at(r, plate_path(r, other, plate_key[k]))->value)
            return false;
    return true;
}

/* As section_from_plates. */
static Sheet *plates_sheet(const Report *r, int index, bool tub, const char *title)
{
    static const char *const symbol[] = {"b_t", "t_t", "D", "t_w", "b_b", "t_b"};
    static const char *const words[] = {"width of a top flange",      "its thickness",
                                        "depth of a web, vertically", "thickness of a web",
                                        "width of the bottom flange", "its thickness"};
    static const char steiner[] = "closed form: parallel axes";
    const char *const in = length_unit(r), *const in2 = raised(r, 2);
    Sheet *const s = sheet_make(r, title);
    for (int k = 0; k < PLATE_KEYS; k++)
        give(r, s, symbol[k], plate_path(r, index, plate_key[k]), words[k]);
    sheet_formula(s, "n_w", tub ? "2" : "1", "", "webs", "girders.kind");
    if (tub) give(r, s, "m", "girders.web_slope", "slope of the webs, across over down");
    sheet_formula(s, "A_1", "n_w b_t t_t", in2, "top flange", "closed form");
    sheet_formula(s, "A_2", tub ? "n_w t_w sqrt(1 + m^2) D" : "n_w t_w D", in2, "web",
                  "closed form");
    sheet_formula(s, "A_3", "b_b t_b", in2, "bottom flange", "closed form");
    sheet_formula(s, "A", "A_1 + A_2 + A_3", in2, "area", "closed form");
    sheet_formula(s, "d", "t_t + D + t_b", in, "depth", "closed form");
    sheet_formula(s, "y_b", "(A_3 t_b / 2 + A_2 (t_b + D / 2) + A_1 (d - t_t / 2)) / A", in,
                  "centroid to bottom", "closed form");
    sheet_formula(s, "y_t", "d - y_b", in, "centroid to top", "closed form");
    sheet_formula(s, "I",
                  "A_1 (t_t^2 / 12 + (d - t_t / 2 - y_b)^2) + A_2 (D^2 / 12 + (t_b + D / 2 - "
                  "y_b)^2) + A_3 (t_b^2 / 12 + (t_b / 2 - y_b)^2)",
                  raised(r, 4), "second moment of area", steiner);
    return s;
}

/* Every piece of girder that is not like an earlier one. */
static void plates_add(Report *r, bool tub)
{
    const Sheet *first = NULL;
    for (int i = 1; value_at(r, plate_path(r, i, plate_key[0])); i++) {
        bool new = true;
        for (int k = 1; k < i && new; k++) new = !same_plates(r, i, k);
        if (!new) continue;
        Text pieces = text_start(r->arena);
        text_printf(&pieces, "Plates of piece %d", i);
        for (int k = i + 1; value_at(r, plate_path(r, k, plate_key[0])); k++)
            if (same_plates(r, i, k)) text_printf(&pieces, ", %d", k);
        Sheet *const s = plates_sheet(r, i, tub, pieces.bytes);
        sheet_add(r, s, first, first ? first->title : NULL);
        if (!first) first = s;
    }
}

static const char *shape_source(const char *name)
{
    for (int i = 0; i < section_standard_count(); i++)
        if (strcmp(section_standard_name(i), name) == 0) return section_standard_source(i);
    return NULL;
}

/* The shape's own numbers, and its widths, which blocks of compression and gradients are taken over. */
static void shape_add(Report *r, const LineAnswer *line)
{
    const char *const in = length_unit(r), *const shape = value_at(r, "girders.shape")->text;
    const StageHistory *const h = line->history;
    const Part *const girder = beam_of(h, CHAIN_GIRDER, line->line->model.station_count / 2);
    const char *const source = shape_source(shape);
    package_section(r, source ? arena_printf(r->arena, "Girder %s", shape) : "Girder");
    document_add(r, REPORT_TEXT,
                 source ? arena_printf(r->arena,
                                       "Area, second moment and centroid of the shape: %s.", source)
                        : "Area, second moment and centroid as the file gives them (girders.area, "
                          "girders.inertia, girders.centroid, girders.depth).");
    document_add(r, REPORT_TEXT,
                 "A row of strands has its count times girders.strand_area; from where its bond "
                 "begins it grows straight to that over 60 diameters (AASHTO LRFD 5.9.4.3.1, from "
                 "memory).");
    if (!girder) return;
    const WidthProfile *const p = &h->model->section[girder->section].profile;
    if (p->count < 2) return;
    FigureTable *const t = figure_table_start(
        r->arena,
        "Widths of the girder over its depth, straight between: for stress blocks and "
        "gradients",
        2);
    figure_table_column(t, 0, true, package_head(r, "below the top", in));
    figure_table_column(t, 1, true, package_head(r, "width", in));
    for (int i = 0; i < p->count; i++)
        figure_table_row(t, (const char *[]){package_number(r, p->depth_m[i], in),
                                             package_number(r, p->width_m[i], in)});
    document_table(r, t);
}

/* Another line before it with the same name, so with the same sections; spans differ in length alone. */
bool package_seen(const ThrustAnswer *answer, int index)
{
    for (int i = 0; i < index; i++)
        if (strcmp(answer->line[i].line->name, answer->line[index].line->name) == 0) return true;
    return false;
}

static void origins_add(Report *r, const LineAnswer *line)
{
    const ThrustAnswer *const answer = r->source->answer;
    const char *const kind = value_at(r, "girders.kind")->text;
    for (int i = 0; i < answer->line_count; i++)
        if (!package_seen(answer, i)) deck_add(r, &answer->line[i]);
    if (strcmp(kind, "pretensioned") == 0)
        shape_add(r, line);
    else
        plates_add(r, strcmp(kind, "tub") == 0);
}

void package_sections(Report *r)
{
    const LineAnswer *const line = document_line(r->source);
    const ThrustAnswer *const answer = r->source->answer;
    document_add(r, REPORT_HEADING, "Section properties");
    for (int i = 0; i < answer->line_count; i++)
        if (!package_seen(answer, i)) sections_table(r, &answer->line[i]);
    fibres_table(r, line);
    if (r->source->bridge) origins_add(r, line); /* else an answer without its inputs */
    composite_add(r, line);
}
