/* Values that follow from others. Each line is one default of the manual. */
#include <math.h>
#include <string.h>

#include "read.h"

static void fill(double *value, double derived)
{
    if (isnan(*value)) *value = derived;
}

/* ---- the calendar: each stage so many days after an earlier one ---- */

typedef struct DayStep {
    size_t day, after;
    double later_day;
} DayStep;
#define STEP(day, after, later)                                 \
    {                                                           \
        offsetof(DayData, day), offsetof(DayData, after), later \
    }
/* Common practice, no source: see the schema's help of each key. */
static const DayStep day_steps[] = {
    STEP(girder_tensioned, girder_cast, -0.25),
    STEP(phase_1_cast, girder_cast, 20),
    STEP(phase_2_cast, phase_1_cast, 3),
    STEP(panels_set, phase_2_cast, 67),
    STEP(joints, panels_set, 10),
    STEP(anchors, joints, 2),
    STEP(ties_set, panels_set, 0),
    STEP(jacking, anchors, 8),
    STEP(lock, jacking, 0.1),
    STEP(closure_cast, lock, 0.1),
    STEP(closure_active, closure_cast, 1),
    STEP(release, closure_active, 2.8),
    STEP(fill_cast, release, 0.2),
    STEP(fill_active, fill_cast, 1),
    STEP(haunch, fill_active, 2.8),
    STEP(diaphragm_cast, haunch, 0),
    STEP(diaphragm_active, diaphragm_cast, 1),
    STEP(barrier, haunch, 12),
    STEP(overlay, barrier, 10),
    STEP(opening, overlay, 10),
    STEP(end, opening, 27394),
};

static void derive_days(Bridge *b)
{
    char *days = (char *)&b->days;
    for (size_t i = 0; i < sizeof day_steps / sizeof *day_steps; i++) {
        const double after = *(double *)(void *)(days + day_steps[i].after);
        fill((double *)(void *)(days + day_steps[i].day), after + day_steps[i].later_day);
    }
    fill(&b->days.girders_ready,
         b->girders.kind == GIRDER_PRETENSIONED ? b->days.girder_cast + 1 : b->days.panels_set);
}

static void derive_spans(Bridge *b)
{
    SpanData *span = b->spans.item;
    if (b->piers.connection < 0)
        b->piers.connection =
            b->girders.kind == GIRDER_PRETENSIONED ? PIER_LINK_SLAB : PIER_CONTINUOUS;
    for (int i = 0; i < b->spans.count; i++)
        if (span[i].pier < 0) span[i].pier = b->piers.connection;
}

static void derive_plates(Bridge *b)
{
    PlateData *plate = b->girders.plates.item;
    const SpanData *span = b->spans.item;
    double length_m = 0;
    for (int i = 0; i < b->spans.count; i++) length_m += span[i].length_m;
    if (b->girders.plates.count) fill(&plate[b->girders.plates.count - 1].to_m, length_m);
}

static void derive_section(GirderData *g)
{
    BeamSection room;
    const BeamSection *shape = g->shape ? section_standard(g->shape, &room) : NULL;
    if (shape) {
        fill(&g->area_m2, shape->area_m2);
        fill(&g->inertia_m4, shape->inertia_m4);
        fill(&g->centroid_m, shape->centroid_m);
        fill(&g->depth_m, shape->depth_m);
        fill(&g->top_width_m, shape->top_width_m);
        if (shape->perimeter_m > 0) fill(&g->perimeter_m, shape->perimeter_m);
    }
    if (!isnan(g->depth_m) && !isnan(g->top_width_m))
        fill(&g->perimeter_m, 2 * (g->depth_m + g->top_width_m)); /* of the hull */
    StrandRowData *row = g->strands.item;
    for (int i = 0; i < g->strands.count; i++) fill(&row[i].end_height_m, row[i].height_m);
}

static void derive_deck(Bridge *b)
{
    GirderData *g = &b->girders;
    const double between_m = g->spacing_m * (g->count - 1);
    if (isnan(g->overhang_m))
        g->overhang_m =
            isnan(b->deck.width_m) ? 0.4 * g->spacing_m : (b->deck.width_m - between_m) / 2;
    fill(&b->deck.width_m, between_m + 2 * g->overhang_m);
    fill(&b->loads.overlay_Pa, b->climate.asphalt ? 25 / quantity_in(1, "psf") : 0);
}

static void derive_piers(Bridge *b)
{
    const PlateData *plate = b->girders.plates.item;
    double depth_m = b->girders.depth_m, width_m = b->girders.top_width_m;
    if (b->girders.plates.count) {
        depth_m = plate->top_thickness_m + plate->web_depth_m + plate->bottom_thickness_m;
        width_m = plate->top_width_m;
    }
    fill(&b->piers.diaphragm_depth_m, depth_m);
    fill(&b->piers.diaphragm_width_m, width_m);
}

/* Slip of the grouted interface, one girder line. Studs: 100 kN/mm for 19 mm (EN 1994-2 A.3, from
 * memory) is 570 kip/in each, three to four a foot. A rough grouted face is stiffer; how much is
 * common practice, no source. A rigid one would let the thrust in over a point. */
static void derive_connectors(Bridge *b)
{
    const double kip_in_ft = b->girders.kind == GIRDER_PRETENSIONED ? 20000 : 2000;
    fill(&b->shims.connector_N_per_m2, kip_in_ft / quantity_in(1, "kip/in/ft"));
}

static void derive_concretes(Bridge *b)
{
    const double volume_to_surface_m[CONCRETE_PARTS] = {
        b->girders.area_m2 / b->girders.perimeter_m, b->deck.thickness_m / 2,
        b->deck.thickness_m / 2, b->piers.end_gap_m / 2};
    for (int i = 0; i < CONCRETE_PARTS; i++) {
        ConcreteData *c = &b->concrete[i];
        fill(&c->loading_Pa, 0.8 * c->strength_Pa); /* AASHTO LRFD 5.4.2.3.2 (from memory) */
        fill(&c->mean_Pa, c->strength_Pa + 8e6);    /* EN 1992-1-1:2004 table 3.1 */
        if (c->time_model < 0) c->time_model = b->time_model;
        fill(&c->volume_to_surface_m, volume_to_surface_m[i]);
    }
}

/* AASHTO LRFD 5.9.2.3.1b (from memory), sqrt in ksi. */
static double girder_tension_Pa(const Bridge *b)
{
    const double fc = quantity_in(b->concrete[CONCRETE_GIRDER].strength_Pa, "ksi");
    const double ksi = b->girders.top_bars ? 0.24 * sqrt(fc) : fmin(0.0948 * sqrt(fc), 0.2);
    return ksi / quantity_in(1, "ksi");
}

/* AASHTO LRFD 5.9.2.3.2b (from memory), sqrt in ksi. */
static double girder_service_tension_Pa(const Bridge *b)
{
    const double fc = quantity_in(b->concrete[CONCRETE_GIRDER].strength_Pa, "ksi");
    return fmin(0.19 * sqrt(fc), 0.6) / quantity_in(1, "ksi");
}

/* Derived values become visible: text in the bridge's units. */
static void show_values(Bridge *b)
{
    for (int i = 0; i < b->value_count; i++) {
        Value *v = &b->value[i];
        BridgeValue *shown = &v->shown;
        const SchemaRow *row = shown->row;
        const bool derived = shown->origin == ORIGIN_DERIVED;
        int length = 4;
        const char *word = "none";
        if (row->kind == SCHEMA_QUANTITY) {
            const char *unit = quantity_unit((UnitSystem)b->units, row->dimension);
            shown->value = *(double *)v->field;
            if (derived && !isnan(shown->value)) {
                snprintf(shown->text, sizeof shown->text, "%.6g%s%s",
                         quantity_in(shown->value, unit), unit[0] ? " " : "", unit);
                continue;
            }
        } else if (row->kind == SCHEMA_COUNT_NUMBER || row->kind == SCHEMA_CHOICE)
            shown->value = *(int *)v->field;
        if (!derived) continue;
        if (row->kind == SCHEMA_CHOICE && *(int *)v->field >= 0) {
            for (word = row->choices, length = 0; *(int *)v->field > length; length++)
                word = strchr(word, '|') + 1;
            length = (int)strcspn(word, "|");
        }
        snprintf(shown->text, sizeof shown->text, "%.*s", length, word);
    }
}

void bridge_derive(Bridge *bridge, Diagnostics *diagnostics)
{
    derive_days(bridge);
    derive_spans(bridge);
    derive_plates(bridge);
    derive_section(&bridge->girders);
    derive_connectors(bridge);
    derive_deck(bridge);
    derive_piers(bridge);
    derive_concretes(bridge);
    jacks_derive(bridge);
    fill(&bridge->criteria.girder_tension_Pa, girder_tension_Pa(bridge));
    fill(&bridge->criteria.girder_service_tension_Pa, girder_service_tension_Pa(bridge));
    fill(&bridge->shims.friction_least_1, bridge->shims.friction_1 / 2); /* no source */
    fill(&bridge->shims.spacing_m, bridge->panels.length_m);
    fill(&bridge->ways.cast.first_day, bridge->days.panels_set);
    seats_derive(bridge);
    if (bridge->connectors.kind < 0)
        bridge->connectors.kind =
            bridge->girders.kind == GIRDER_PRETENSIONED ? CONNECTOR_BARS : CONNECTOR_STUDS;
    show_values(bridge);
    bridge_judge(bridge, diagnostics);
    jacks_judge(bridge, diagnostics);
    seats_judge(bridge, diagnostics);
}
