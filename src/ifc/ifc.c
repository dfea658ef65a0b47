/* The model: what it is made from, in its order. docs/answers.md. */
#include "clench/ifc.h"

#include <math.h>
#include <string.h>

#include "model.h"

double model_value(const Model *m, const char *path)
{
    const BridgeValue *value = bridge_value_at(m->bridge, path);
    return value ? value->value : (double)NAN;
}

const char *model_words(const Model *m, const char *path)
{
    const BridgeValue *value = bridge_value_at(m->bridge, path);
    return value ? value->text : "";
}

void model_note(Model *m, const char *note)
{
    if (m->summary->note_count == m->note_room) return;
    m->note[m->summary->note_count++] = note;
}

void members_add(Model *m, Members *members, int id)
{
    if (members->count == members->room) {
        members->room = members->room ? 2 * members->room : 64;
        int *const more = ARENA_NEW(m->step.arena, int, members->room);
        if (members->count) memcpy(more, members->id, sizeof *more * (size_t)members->count);
        members->id = more;
    }
    members->id[members->count++] = id;
}

ModelPlace model_place(const Model *m, double station_m, double left_m, double z_m)
{
    ModelPlace p = {station_m, 0, z_m, 0};
    if (m->radius_m != 0) {
        p.heading_rad = station_m / m->radius_m;
        p.x_m = m->radius_m * sin(p.heading_rad);
        p.y_m = m->radius_m * (1 - cos(p.heading_rad));
    }
    p.x_m -= left_m * sin(p.heading_rad);
    p.y_m += left_m * cos(p.heading_rad);
    return p;
}

static void write_head(Model *m)
{
    const Step *s = &m->step;
    text_printf(s->text,
                "ISO-10303-21;\nHEADER;\n"
                "FILE_DESCRIPTION((%s),'2;1');\n"
                "FILE_NAME(%s,'%sT00:00:00',(''),(''),%s,%s,'');\n"
                "FILE_SCHEMA(('IFC4X3_ADD2'));\nENDSEC;\nDATA;\n",
                step_text(s, "a proposal to a licensed engineer, not an approval"),
                step_text(s, s->settings->name), s->settings->date,
                step_text(s, arena_printf(s->arena, "clench %s", clench_version())),
                step_text(s, arena_printf(s->arena, "%s, revision %s", s->settings->file,
                                          s->settings->revision)));
}

static void add_notes(Model *m)
{
    model_note(m, "The deck is drawn level: grade, crest and camber are not in the model, nor "
                  "haunches, shims, "
                  "bars, connectors, jacks, bearings and supports.");
    if (!strcmp(model_words(m, "panels.crown"), "two planes"))
        model_note(m, "Panels folded along mid-width are drawn flat.");
    if (!strcmp(model_words(m, "panels.crown"), "longitudinal closure") &&
        model_value(m, "deck.crossfall") > 0)
        model_note(m, "Panels side by side are drawn level, without their crossfall.");
    if (m->radius_m != 0)
        model_note(
            m, "On the curve each panel stands on the arc with its own angle; girders are straight "
               "from support to support and from one section to the next, barriers are left out.");
    m->summary->note = m->note;
}

Status ifc_write(const Bridge *bridge, const IfcSettings *settings, Text *text, IfcSummary *summary,
                 Error *err)
{
    Model m = {.step = {.text = text, .arena = text->arena, .settings = settings},
               .bridge = bridge,
               .summary = summary,
               .note_room = 16};
    *summary = (IfcSummary){0};
    TRY(bridge_panels(bridge, text->arena, &m.plan, err));
    m.note = ARENA_NEW(text->arena, const char *, m.note_room);
    m.thickness_m = m.plan->thickness_m;
    m.haunch_m = model_value(&m, "deck.haunch");
    const double radius_m = model_value(&m, "deck.plan_radius");
    if (isfinite(radius_m))
        m.radius_m = strcmp(model_words(&m, "deck.curve"), "left") ? -radius_m : radius_m;
    if (!strcmp(model_words(&m, "panels.skew"), "all")) m.skew_all_rad = m.plan->skew_rad;
    write_head(&m);
    project_write(&m);
    deck_write(&m);
    TRY(girders_write(&m, err));
    project_close(&m);
    add_notes(&m);
    text_add(text, "ENDSEC;\nEND-ISO-10303-21;\n");
    summary->entities = m.step.last;
    return STATUS_OK;
}
