/* The project, its units, the parts of the bridge, and what belongs to what. */
#include <math.h>
#include <string.h>

#include "model.h"

/* ---- units ---- */

/* A unit of the US as so many of an SI unit; exponents: length, mass, time and four more. */
static int converted(Step *s, const char *type, const char *name, const char *measure, int base,
                     const char *exponents, double size)
{
    const int dimensions = step_add(s, "IFCDIMENSIONALEXPONENTS(%s,0,0,0,0)", exponents);
    const int factor =
        step_add(s, "IFCMEASUREWITHUNIT(%s(%s),#%d)", measure, step_real(s, size), base);
    return step_add(s, "IFCCONVERSIONBASEDUNIT(#%d,.%s.,'%s',#%d)", dimensions, type, name, factor);
}

static int si_unit(Step *s, const char *type, const char *prefix, const char *name)
{
    return step_add(s, "IFCSIUNIT(*,.%s.,%s,.%s.)", type, prefix, name);
}

static int units_write(Step *s)
{
    const bool us = s->settings->units == UNITS_US;
    int unit[7];
    const int metre = si_unit(s, "LENGTHUNIT", "$", "METRE");
    const int m2 = si_unit(s, "AREAUNIT", "$", "SQUARE_METRE");
    const int m3 = si_unit(s, "VOLUMEUNIT", "$", "CUBIC_METRE");
    const int force = si_unit(s, "FORCEUNIT", us ? "$" : ".KILO.", "NEWTON");
    const int stress = si_unit(s, "PRESSUREUNIT", us ? "$" : ".MEGA.", "PASCAL");
    unit[0] = metre, unit[1] = m2, unit[2] = m3, unit[3] = force, unit[4] = stress;
    if (us) {
        const double ft = 1 / quantity_in(1, "ft");
        unit[0] = converted(s, "LENGTHUNIT", "FOOT", "IFCLENGTHMEASURE", metre, "1,0,0", ft);
        unit[1] = converted(s, "AREAUNIT", "SQUARE FOOT", "IFCAREAMEASURE", m2, "2,0,0", ft * ft);
        unit[2] =
            converted(s, "VOLUMEUNIT", "CUBIC FOOT", "IFCVOLUMEMEASURE", m3, "3,0,0", ft * ft * ft);
        unit[3] = converted(s, "FORCEUNIT", "KIP", "IFCFORCEMEASURE", force, "1,1,-2",
                            1 / quantity_in(1, "kip"));
        unit[4] = converted(s, "PRESSUREUNIT", "KSI", "IFCPRESSUREMEASURE", stress, "-1,1,-2",
                            1 / quantity_in(1, "ksi"));
    }
    unit[5] = si_unit(s, "PLANEANGLEUNIT", "$", "RADIAN");
    unit[6] = si_unit(s, "TIMEUNIT", "$", "SECOND");
    return step_add(s, "IFCUNITASSIGNMENT(%s)", step_list(s, unit, 7));
}

/* ---- the tree ---- */

static int contexts_write(Model *m)
{
    Step *s = &m->step;
    const int at = step_add(s, "IFCCARTESIANPOINT((0.,0.,0.))");
    m->origin = step_add(s, "IFCAXIS2PLACEMENT3D(#%d,$,$)", at);
    const int context =
        step_add(s, "IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,1.E-06,#%d,$)", m->origin);
    m->body = step_add(
        s, "IFCGEOMETRICREPRESENTATIONSUBCONTEXT('Body','Model',*,*,*,*,#%d,$,.MODEL_VIEW.,$)",
        context);
    m->axis = step_add(
        s, "IFCGEOMETRICREPRESENTATIONSUBCONTEXT('Axis','Model',*,*,*,*,#%d,$,.GRAPH_VIEW.,$)",
        context);
    return context;
}

static int part_write(Model *m, const char *name, const char *kind, int parent_place, ModelPlace at,
                      int *place)
{
    Step *s = &m->step;
    *place = shape_place(m, parent_place, at);
    return step_add(s, "IFCBRIDGEPART(%s,$,%s,$,$,#%d,$,$,.PARTIAL.,.%s.,.%s.)",
                    step_id(s, "part", name), step_text(s, name), *place,
                    strcmp(kind, "PIER") != 0 && strcmp(kind, "ABUTMENT") != 0 ? "VERTICAL"
                                                                               : "LONGITUDINAL",
                    kind);
}

static void aggregate_one(Model *m, const char *mark, int whole, int part)
{
    Members one = {&part, 1, 1};
    model_aggregate(m, mark, whole, &one);
}

/* Abutments and piers as parts without bodies: the file has no sizes of them. */
static void supports_write(Model *m)
{
    Members support = {0};
    double x_m = 0;
    for (int k = 0;; k++) {
        const double span_m =
            model_value(m, arena_printf(m->step.arena, "spans[%d].length", k + 1));
        const bool end = k == 0 || !isfinite(span_m);
        const char *name = arena_printf(m->step.arena, "support %d", k + 1);
        int place;
        members_add(m, &support,
                    part_write(m, name, end ? "ABUTMENT" : "PIER", m->substructure_place,
                               model_place(m, x_m, 0, 0), &place));
        if (!isfinite(span_m)) break;
        x_m += span_m;
    }
    model_aggregate(m, "substructure", m->substructure, &support);
}

void project_write(Model *m)
{
    Step *s = &m->step;
    const IfcSettings *with = s->settings;
    const int context = contexts_write(m), units = units_write(s);
    const char *words =
        arena_printf(s->arena,
                     "made by clench %s from %s, revision %s. A proposal to a licensed "
                     "engineer, not an approval.",
                     clench_version(), with->file, with->revision);
    const int project =
        step_add(s, "IFCPROJECT(%s,$,%s,%s,$,$,$,(#%d),#%d)", step_id(s, "project", ""),
                 step_text(s, with->name), step_text(s, words), context, units);
    const int site_place = step_add(s, "IFCLOCALPLACEMENT($,#%d)", m->origin);
    const int site = step_add(s, "IFCSITE(%s,$,'site',$,$,#%d,$,$,.ELEMENT.,$,$,$,$,$)",
                              step_id(s, "site", ""), site_place);
    const ModelPlace zero = {0, 0, 0, 0};
    const int bridge_place = shape_place(m, site_place, zero);
    const int bridge = step_add(s, "IFCBRIDGE(%s,$,%s,$,$,#%d,$,$,.ELEMENT.,.GIRDER.)",
                                step_id(s, "bridge", ""), step_text(s, with->name), bridge_place);
    m->deck = part_write(m, "deck", "DECK", bridge_place, zero, &m->deck_place);
    m->superstructure = part_write(m, "superstructure", "SUPERSTRUCTURE", bridge_place, zero,
                                   &m->superstructure_place);
    m->substructure =
        part_write(m, "substructure", "SUBSTRUCTURE", bridge_place, zero, &m->substructure_place);
    aggregate_one(m, "project", project, site);
    aggregate_one(m, "site", site, bridge);
    Members part = {0};
    members_add(m, &part, m->deck);
    members_add(m, &part, m->superstructure);
    members_add(m, &part, m->substructure);
    model_aggregate(m, "bridge", bridge, &part);
    supports_write(m);
}

/* ---- relations ---- */

void model_aggregate(Model *m, const char *mark, int whole, const Members *part)
{
    Step *s = &m->step;
    if (part->count)
        step_add(s, "IFCRELAGGREGATES(%s,$,$,$,#%d,%s)", step_id(s, "aggregates", mark), whole,
                 step_list(s, part->id, part->count));
}

static void contain(Model *m, const char *mark, int part, const Members *element)
{
    Step *s = &m->step;
    if (element->count)
        step_add(s, "IFCRELCONTAINEDINSPATIALSTRUCTURE(%s,$,$,$,%s,#%d)",
                 step_id(s, "contains", mark), step_list(s, element->id, element->count), part);
}

static void material(Model *m, const char *name, const char *category, const Members *element)
{
    Step *s = &m->step;
    if (!element->count) return;
    const int id = step_add(s, "IFCMATERIAL(%s,$,%s)", step_text(s, name), step_text(s, category));
    step_add(s, "IFCRELASSOCIATESMATERIAL(%s,$,$,$,%s,#%d)", step_id(s, "material", name),
             step_list(s, element->id, element->count), id);
}

void project_close(Model *m)
{
    const bool steel = strcmp(model_words(m, "girders.kind"), "pretensioned") != 0;
    contain(m, "deck", m->deck, &m->on_deck);
    contain(m, "superstructure", m->superstructure, &m->of_superstructure);
    material(m, "concrete of panels", "concrete", &m->panel_material);
    material(m, "concrete of closure", "concrete", &m->cast_material);
    material(m, steel ? "structural steel" : "concrete of girders", steel ? "steel" : "concrete",
             &m->girder_material);
}

void model_properties(Model *m, int element, const char *mark, const char *set,
                      const char *const (*property)[2], int count)
{
    Step *s = &m->step;
    int id[STEP_PROPERTIES];
    for (int i = 0; i < count && i < STEP_PROPERTIES; i++)
        id[i] = step_add(s, "IFCPROPERTYSINGLEVALUE('%s',$,%s,$)", property[i][0], property[i][1]);
    const int all = step_add(s, "IFCPROPERTYSET(%s,$,'%s',$,%s)", step_id(s, set, mark), set,
                             step_list(s, id, count));
    step_add(s, "IFCRELDEFINESBYPROPERTIES(%s,$,$,$,(#%d),#%d)",
             step_id(s, arena_printf(s->arena, "has %s", set), mark), element, all);
}
