/* Materials, sections and parts of a girder line. */
#include <math.h>
#include <string.h>

#include "model.h"
#include "read.h"

/* ---- the girder's sections ---- */

PlateGirder model_plate(const Bridge *b, const PlateData *p)
{
    return (PlateGirder){
        .top_width_m = p->top_width_m,
        .top_thickness_m = p->top_thickness_m,
        .web_depth_m = p->web_depth_m,
        .web_thickness_m = p->web_thickness_m,
        .bottom_width_m = p->bottom_width_m,
        .bottom_thickness_m = p->bottom_thickness_m,
        .web_count = b->girders.kind == GIRDER_TUB ? 2 : 1,
        .web_slope_1 = b->girders.kind == GIRDER_TUB ? b->girders.web_slope_1 : 0,
    };
}

static Status steel_pieces(Builder *m, Error *err)
{
    const GirderData *g = &m->bridge->girders;
    const PlateData *plate = g->plates.item;
    m->piece_count = g->plates.count;
    for (int i = 0; i < g->plates.count; i++) {
        const PlateGirder plates = model_plate(m->bridge, &plate[i]);
        TRY(section_from_plates(&plates, &m->piece[i], err));
        m->piece_weight_N_per_m[i] =
            m->piece[i].area_m2 * g->steel_density_N_per_m3 * (1 + g->details_1);
        m->haunch_width_m[i] = plates.web_count * plates.top_width_m;
    }
    return STATUS_OK;
}

Status model_pieces(Builder *m, Error *err)
{
    const GirderData *g = &m->bridge->girders;
    if (g->kind != GIRDER_PRETENSIONED) return steel_pieces(m, err);
    BeamSection *piece = &m->piece[0];
    m->piece_count = 1;
    *piece = (BeamSection){0};
    if (g->shape) section_standard(g->shape, piece);
    if (piece->depth_m != g->depth_m || piece->area_m2 != g->area_m2) piece->profile.count = 0;
    piece->area_m2 = g->area_m2;
    piece->inertia_m4 = g->inertia_m4;
    piece->centroid_m = g->centroid_m;
    piece->depth_m = g->depth_m;
    m->piece_weight_N_per_m[0] = g->area_m2 * g->density_N_per_m3;
    m->haunch_width_m[0] = g->top_width_m;
    return STATUS_OK;
}

int model_piece(const Builder *m, double x_m)
{
    const PlateData *plate = m->bridge->girders.plates.item;
    const Unit *unit = m->unit;
    bool inside = false;
    for (int k = 0; k < unit->girder_count && !inside; k++)
        inside = x_m > unit->girder_from_m[k] && x_m < unit->girder_to_m[k];
    if (!inside) return -1;
    int piece = 0;
    if (m->bridge->girders.kind == GIRDER_PRETENSIONED) return 0;
    while (piece + 1 < m->piece_count && x_m + m->unit->start_m > plate[piece].to_m) piece++;
    return piece;
}

/* ---- materials ---- */

ConcreteMix model_mix(const Bridge *b, ConcretePart part)
{
    const ConcreteData *c = &b->concrete[part];
    ConcreteMix mix = concrete_mix_default((TimeModel)c->time_model);
    mix.fc28_Pa = c->strength_Pa;
    mix.fcm_Pa = c->mean_Pa;
    mix.fci_Pa = c->loading_Pa;
    mix.modulus28_Pa = isnan(c->modulus_Pa) ? 0 : c->modulus_Pa;
    mix.weight_N_per_m3 = c->density_N_per_m3;
    mix.K1_1 = c->K1_1;
    mix.modulus_2005 = c->time_model == TIME_AASHTO2005;
    mix.humidity_ratio = b->climate.humidity_1;
    mix.volume_to_surface_m = c->volume_to_surface_m;
    mix.strength_alpha_day = c->alpha_day;
    mix.strength_beta_1 = c->beta_1;
    mix.cement = (CementClass)c->cement;
    mix.cure_end_age_day = c->cure_day;
    mix.early_drying_1 = c->early_drying_1;
    mix.creep_factor_1 = c->creep_1;
    mix.shrinkage_factor_1 = c->shrinkage_1;
    return mix;
}

void model_add_material(Builder *m, MaterialRole role, Material material)
{
    m->material_of[role] = m->material_count;
    m->material[m->material_count++] = material;
}

Material model_concrete(const Bridge *b, ConcretePart part, const char *name, double cast_day)
{
    return (Material){.kind = MATERIAL_CONCRETE,
                      .name = name,
                      .expansion_per_K = b->concrete[part].expansion_per_K,
                      .mix = model_mix(b, part),
                      .cast_day = cast_day};
}

static void girder_materials(Builder *m)
{
    const Bridge *b = m->bridge;
    const GirderData *g = &b->girders;
    if (g->kind != GIRDER_PRETENSIONED) {
        model_add_material(m, ROLE_GIRDER,
                           (Material){.kind = MATERIAL_ELASTIC,
                                      .name = "girder steel",
                                      .E_Pa = g->steel_modulus_Pa,
                                      .expansion_per_K = g->steel_expansion_per_K});
        return;
    }
    model_add_material(m, ROLE_GIRDER,
                       model_concrete(b, CONCRETE_GIRDER, "girder concrete", b->days.girder_cast));
    model_add_material(m, ROLE_STRAND,
                       (Material){.kind = MATERIAL_STRAND,
                                  .name = "strand",
                                  .E_Pa = g->strand_modulus_Pa,
                                  .expansion_per_K = g->steel_expansion_per_K,
                                  .fpy_Pa = g->strand_yield_Pa,
                                  .initial_Pa = g->strand_jacking_Pa,
                                  .tension_day = b->days.girder_tensioned});
}

static bool has_ties(const Unit *unit) { return unit->girder_count > 1; }

void model_materials(Builder *m)
{
    const Bridge *b = m->bridge;
    for (int i = 0; i < ROLE_COUNT; i++) m->material_of[i] = -1;
    girder_materials(m);
    way_materials(m);
    if (!has_ties(m->unit)) return;
    model_add_material(m, ROLE_TIE,
                       (Material){.kind = MATERIAL_ELASTIC,
                                  .name = "ties",
                                  .E_Pa = b->piers.tie_modulus_Pa,
                                  .expansion_per_K = b->girders.steel_expansion_per_K});
    model_add_material(m, ROLE_DIAPHRAGM,
                       model_concrete(b, CONCRETE_DIAPHRAGM, "diaphragm", b->days.diaphragm_cast));
}

/* ---- sections and parts ---- */

int model_add_section(Builder *m, PartSection section)
{
    for (int i = 0; i < m->section_count && section.inertia_m4 == 0; i++)
        if (m->section[i].inertia_m4 == 0 && m->section[i].area_m2 == section.area_m2 &&
            m->section[i].top_m == section.top_m)
            return i;
    if (m->section_count == m->section_room) {
        const int room = m->section_room ? 2 * m->section_room : 64;
        PartSection *more = ARENA_NEW(m->arena, PartSection, room);
        if (m->section_count) memcpy(more, m->section, sizeof *more * (size_t)m->section_count);
        m->section = more;
        m->section_room = room;
    }
    m->section[m->section_count] = section;
    return m->section_count++;
}

void model_add_part(Builder *m, Part part)
{
    if (m->part_count == m->part_room) {
        const int room = m->part_room ? 2 * m->part_room : 1024;
        Part *more = ARENA_NEW(m->arena, Part, room);
        if (m->part_count) memcpy(more, m->part, sizeof *more * (size_t)m->part_count);
        m->part = more;
        m->part_room = room;
    }
    m->part[m->part_count++] = part;
}

PartSection model_slab(const Builder *m, double fraction_1)
{
    const double b = m->width_m * fraction_1, t = m->thickness_m;
    return (PartSection){.area_m2 = b * t,
                         .inertia_m4 = b * t * t * t / 12,
                         .top_m = t / 2,
                         .bottom_m = t / 2,
                         .profile = {2, {0, t}, {b, b}}};
}

static double middle(const Builder *m, int element)
{
    return (m->mesh.x_m[element] + m->mesh.x_m[element + 1]) / 2;
}

static void add_girders(Builder *m)
{
    int section[PIECES_MAX];
    for (int i = 0; i < m->piece_count; i++) {
        const BeamSection *s = &m->piece[i];
        section[i] = model_add_section(m, (PartSection){s->area_m2, s->inertia_m4,
                                                        s->depth_m - s->centroid_m, s->centroid_m,
                                                        s->profile});
    }
    for (int e = 0; e + 1 < m->mesh.count; e++) {
        const int piece = model_piece(m, middle(m, e));
        if (piece < 0) continue;
        const double height_m = m->piece[piece].centroid_m - m->piece[piece].depth_m;
        model_add_part(m, (Part){.element = e,
                                 .chain = CHAIN_GIRDER,
                                 .material = m->material_of[ROLE_GIRDER],
                                 .section = section[piece],
                                 .phase = PHASE_GIRDER,
                                 .from_height_m = height_m,
                                 .to_height_m = height_m});
    }
}

/* ---- strands ---- */

/* Height above the soffit at distance d from the nearer girder end. */
static double strand_height_m(const StrandRowData *row, double d_m)
{
    if (isnan(row->harped_at_m) || d_m >= row->harped_at_m) return row->height_m;
    return row->end_height_m + (row->height_m - row->end_height_m) * d_m / row->harped_at_m;
}

static void add_strand_row(Builder *m, const StrandRowData *row, double from_m, double to_m)
{
    const GirderData *g = &m->bridge->girders;
    const double transfer_m = 60 * g->strand_diameter_m; /* AASHTO LRFD 5.9.4.3.1 (from memory) */
    const double area_m2 = row->count * g->strand_area_m2;
    for (int e = 0; e + 1 < m->mesh.count; e++) {
        const double x_m = middle(m, e), a_m = m->mesh.x_m[e], b_m = m->mesh.x_m[e + 1];
        if (x_m < from_m || x_m > to_m) continue;
        const double bonded_m = fmin(x_m - from_m, to_m - x_m) - row->debonded_m;
        if (bonded_m <= 0) continue;
        /* in steps of a millionth, so that like places share a section */
        const double part_1 = round(1e6 * fmin(1, bonded_m / transfer_m)) / 1e6;
        if (part_1 <= 0) continue;
        model_add_part(
            m,
            (Part){
                .element = e,
                .chain = CHAIN_GIRDER,
                .material = m->material_of[ROLE_STRAND],
                .section = model_add_section(m, (PartSection){.area_m2 = area_m2 * part_1}),
                .phase = PHASE_GIRDER,
                .from_height_m = strand_height_m(row, fmin(a_m - from_m, to_m - a_m)) - g->depth_m,
                .to_height_m = strand_height_m(row, fmin(b_m - from_m, to_m - b_m)) - g->depth_m,
            });
    }
}

static void add_strands(Builder *m)
{
    const ListData *rows = &m->bridge->girders.strands;
    const StrandRowData *row = rows->item;
    if (m->bridge->girders.kind != GIRDER_PRETENSIONED) return;
    for (int k = 0; k < m->unit->girder_count; k++)
        for (int i = 0; i < rows->count; i++)
            add_strand_row(m, &row[i], m->unit->girder_from_m[k], m->unit->girder_to_m[k]);
}

/* ---- pier connections ---- */

/* Diaphragm concrete carries the shear between the girder ends, which strips that only press do not:
 * shear area 5/6 of a rectangle, G = E/2(1 + 0.2). Closed form; it is taken uncracked in shear. */
static void add_shear_key(Builder *m, int element)
{
    const PierData *piers = &m->bridge->piers;
    const double area_m2 = piers->diaphragm_width_m * piers->diaphragm_depth_m;
    Part part = {
        .element = element, .chain = CHAIN_GIRDER, .phase = PHASE_DIAPHRAGM, .shear = true};
    part.material = m->material_of[ROLE_DIAPHRAGM];
    part.section =
        model_add_section(m, (PartSection){.area_m2 = 5.0 / 6 * area_m2 / (2 * (1 + 0.2))});
    model_add_part(m, part);
}

static void add_pier(Builder *m, int element)
{
    const PierData *piers = &m->bridge->piers;
    const TieData *tie = piers->ties.item;
    Part part = {.element = element, .chain = CHAIN_GIRDER, .phase = PHASE_TIES};
    part.material = m->material_of[ROLE_TIE];
    for (int i = 0; i < piers->ties.count; i++) {
        part.section = model_add_section(m, (PartSection){.area_m2 = tie[i].area_m2});
        part.from_height_m = part.to_height_m = -tie[i].below_top_m;
        model_add_part(m, part);
    }
    const double strip_m = piers->diaphragm_depth_m / DIAPHRAGM_STRIPS;
    part.material = m->material_of[ROLE_DIAPHRAGM];
    part.phase = PHASE_DIAPHRAGM;
    part.compression_only = true;
    part.section = model_add_section(m, (PartSection){.area_m2 = strip_m * piers->diaphragm_width_m,
                                                      .top_m = strip_m / 2,
                                                      .bottom_m = strip_m / 2});
    for (int i = 0; i < DIAPHRAGM_STRIPS; i++) {
        part.from_height_m = part.to_height_m = -(i + 0.5) * strip_m;
        model_add_part(m, part);
    }
    add_shear_key(m, element);
}

void model_parts(Builder *m)
{
    add_girders(m);
    add_strands(m);
    way_deck(m);
    for (int e = 0; e + 1 < m->mesh.count; e++)
        if (model_piece(m, middle(m, e)) < 0) add_pier(m, e);
}
