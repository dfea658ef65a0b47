/* The deck of each way to connect the panels: its materials and parts. */
#include <math.h>

#include "model.h"

/* ---- materials ---- */

static void panel_materials(Builder *m)
{
    const DayData *days = &m->bridge->days;
    model_add_material(
        m, ROLE_PANEL_1,
        model_concrete(m->bridge, CONCRETE_PANEL, "panels of phase 1", days->phase_1_cast));
    if (m->bridge->panels.phases == 2)
        model_add_material(
            m, ROLE_PANEL_2,
            model_concrete(m->bridge, CONCRETE_PANEL, "panels of phase 2", days->phase_2_cast));
}

/* Old age, at which creep and shrinkage of the joint are given. */
static const double given_at_day = 10000;

/* The course of the panels' law, scaled so that it ends at what is given. */
static Material uhpc(const Bridge *b)
{
    const UhpcData *u = &b->ways.uhpc;
    Material joint = model_concrete(b, CONCRETE_PANEL, "UHPC joints", b->days.joints);
    ConcreteMix *mix = &joint.mix;
    mix->fc28_Pa = u->strength_Pa;
    mix->fcm_Pa = u->strength_Pa + 8e6;
    mix->fci_Pa = 0.67 * u->strength_Pa; /* 14 of 21 ksi when it first carries */
    mix->modulus28_Pa = u->modulus_Pa;
    mix->cure_end_age_day = 0.5; /* it shrinks from setting on */
    mix->early_drying_1 = 1;
    mix->creep_factor_1 = mix->shrinkage_factor_1 = 1;
    if (mix->model == TIME_ELASTIC) return joint;
    const double elastic = 1 / concrete_modulus_Pa(mix, u->active_day);
    const double creep = concrete_compliance_per_Pa(mix, given_at_day, u->active_day) / elastic - 1;
    mix->creep_factor_1 = u->creep_1 / creep;
    mix->shrinkage_factor_1 = u->shrinkage_1 / -concrete_shrinkage_1(mix, given_at_day);
    return joint;
}

static void tendon_material(Builder *m)
{
    const TendonData *t = &m->bridge->ways.tendon;
    model_add_material(m, ROLE_TENDON,
                       (Material){.kind = MATERIAL_STRAND,
                                  .name = "tendons",
                                  .E_Pa = t->modulus_Pa,
                                  .expansion_per_K = m->bridge->girders.steel_expansion_per_K,
                                  .fpy_Pa = t->yield_Pa,
                                  .initial_Pa = t->jacking_Pa,
                                  .tension_day = m->bridge->days.joints + t->stress_day});
}

static void cast_materials(Builder *m)
{
    const CastData *cast = &m->bridge->ways.cast;
    const GirderData *g = &m->bridge->girders;
    for (int i = 0; i < m->pour_count; i++) {
        Material pour = model_concrete(m->bridge, CONCRETE_PANEL,
                                       arena_printf(m->arena, "pour %d", i + 1), m->pour[i].day);
        pour.mix.fc28_Pa = cast->strength_Pa;
        pour.mix.fcm_Pa = cast->strength_Pa + 8e6;
        pour.mix.fci_Pa = 0.8 * cast->strength_Pa;
        pour.mix.modulus28_Pa = 0;
        pour.mix.cure_end_age_day = cast->cure_day;
        m->pour_material[i] = m->material_count;
        m->material[m->material_count++] = pour;
    }
    model_add_material(m, ROLE_BARS,
                       (Material){.kind = MATERIAL_ELASTIC,
                                  .name = "bars along the deck",
                                  .E_Pa = 29000 / quantity_in(1, "ksi"),
                                  .expansion_per_K = g->steel_expansion_per_K});
}

void way_materials(Builder *m)
{
    const Bridge *b = m->bridge;
    if (m->wish.way == WAY_CAST) {
        cast_materials(m);
        return;
    }
    panel_materials(m);
    if (m->wish.way == WAY_TENDON) tendon_material(m);
    if (m->wish.way == WAY_UHPC) model_add_material(m, ROLE_JOINT, uhpc(b));
    if (m->wish.way != WAY_THRUST) return;
    model_add_material(m, ROLE_CLOSURE,
                       model_concrete(b, CONCRETE_CLOSURE, "closure", b->days.closure_cast));
    model_add_material(m, ROLE_FILL,
                       model_concrete(b, CONCRETE_CLOSURE, "fill", b->days.fill_cast));
}

/* ---- parts ---- */

static double middle(const Builder *m, int element)
{
    return (m->mesh.x_m[element] + m->mesh.x_m[element + 1]) / 2;
}

static int panel_material(const Builder *m, double x_m)
{
    return m->material_of[layout_phase(m->unit, x_m) ? ROLE_PANEL_2 : ROLE_PANEL_1];
}

/* Closure and fill side by side in the gap. */
static void add_gap_parts(Builder *m, Part part)
{
    const double cast_1 = m->bridge->closure.fraction_1;
    const bool filled = cast_1 < 0.999; /* else the closure takes the whole width */
    part.material = m->material_of[ROLE_CLOSURE];
    part.section = model_add_section(m, model_slab(m, cast_1));
    part.phase = PHASE_CLOSURE;
    model_add_part(m, part);
    if (!filled) return;
    part.material = m->material_of[ROLE_FILL];
    part.section = model_add_section(m, model_slab(m, 1 - cast_1));
    part.phase = PHASE_FILL;
    model_add_part(m, part);
}

static bool in_joint(const Builder *m, double x_m)
{
    const double half_m = m->bridge->ways.uhpc.width_m / 2;
    for (int j = 0; j < layout_joint_count(m->unit); j++)
        if (fabs(x_m - layout_joint_m(m->unit, j)) < half_m) return true;
    return false;
}

/* Of the stress that is left after friction and draw-in; one part a group. */
static void add_tendon_parts(Builder *m, int element, int section)
{
    const LineTendons *t = m->tendons;
    const TendonStress stress = tendon_at(&t->pull, &t->path, &t->seat, middle(m, element));
    for (int k = 0; k < t->groups; k++)
        model_add_part(m, (Part){.element = element,
                                 .chain = CHAIN_DECK,
                                 .material = m->material_of[ROLE_TENDON],
                                 .section = section,
                                 .phase = (int)PHASE_TENDON + k,
                                 .from_height_m = t->above_mid_m,
                                 .to_height_m = t->above_mid_m,
                                 .initial_Pa = stress.seated_Pa});
}

static int pour_at(const Builder *m, double x_m)
{
    for (int i = 0; i < m->pour_count; i++)
        if (x_m > m->pour[i].from_m && x_m < m->pour[i].to_m) return i;
    return 0; /* a sliver that the mesh has merged */
}

static void add_cast_parts(Builder *m, Part part, int bars)
{
    const int i = pour_at(m, middle(m, part.element));
    part.material = m->pour_material[i];
    part.phase = (int)PHASE_POUR + i;
    model_add_part(m, part);
    if (bars < 0) return;
    part.material = m->material_of[ROLE_BARS];
    part.section = bars;
    part.from_height_m = part.to_height_m = m->bridge->ways.cast.bars_above_m;
    model_add_part(m, part);
}

void way_deck(Builder *m)
{
    const Way way = m->wish.way;
    const CastData *cast = &m->bridge->ways.cast;
    const int whole = model_add_section(m, model_slab(m, 1));
    int fibre = -1;
    if (way == WAY_TENDON)
        fibre = model_add_section(
            m, (PartSection){.area_m2 = m->tendons->area_m2 / m->tendons->groups});
    if (way == WAY_CAST && cast->bars_1 > 0)
        fibre = model_add_section(
            m, (PartSection){.area_m2 = cast->bars_1 * m->width_m * m->thickness_m});
    for (int e = 0; e + 1 < m->mesh.count; e++) {
        const double x_m = middle(m, e);
        Part part = {.element = e, .chain = CHAIN_DECK, .section = whole, .phase = PHASE_DECK};
        if (way == WAY_CAST) {
            add_cast_parts(m, part, fibre);
            continue;
        }
        if (way == WAY_THRUST && layout_in_gap(m->unit, x_m)) {
            add_gap_parts(m, part);
            continue;
        }
        const bool joint = way == WAY_UHPC && in_joint(m, x_m);
        part.material = joint ? m->material_of[ROLE_JOINT] : panel_material(m, x_m);
        model_add_part(m, part);
        if (way == WAY_TENDON) add_tendon_parts(m, e, fibre);
    }
}
