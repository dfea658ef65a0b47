#include "jacking_case.h"

#include <string.h>

const char jacking_span[] = "spans:\n"
                            "  - length: 230 ft\n"
                            "supports:\n"
                            "  - kind: fixed bearing\n"
                            "  - kind: free bearing\n"
                            "time_model: elastic\n"
                            "girders:\n"
                            "  count: 2\n"
                            "  spacing: 24 ft\n"
                            "  overhang: 8 ft\n"
                            "  kind: plate girder\n"
                            "  plates:\n"
                            "    - {top_width: 40 in, top_thickness: 3 in, web_depth: 100 in, "
                            "web_thickness: 1 in, bottom_width: 40 in, bottom_thickness: 3 in}\n"
                            "deck:\n"
                            "  thickness: 8 in\n"
                            "  wearing_allowance: 0 in\n"
                            "  haunch: 2 in\n"
                            "  density: 150 pcf\n"
                            "panels:\n"
                            "  length: 10 ft\n"
                            "  anchor_length: 12 ft\n"
                            "  gap: 6 ft\n"
                            "concrete:\n"
                            "  panel: {strength: 7 ksi, measured_modulus: 4696 ksi}\n"
                            "live: {lanes_exterior: 1}\n"
                            "climate:\n"
                            "  humidity: 70 %\n"
                            "  gradient_zone: 2\n";
const char jacking_rigid_shims[] =
    "shims: {friction: 0, friction_least: 0, connectors: 1e7 kip/in/ft, vertical: 1e5 kip/in/ft}\n";
const char jacking_8[] = "jacks: {count: 8, size: 200 ton, bore_friction: 0, stroke: 12 in}\n";

void open_plan(Case *c, double thrust_N, const char *const part[], int parts)
{
    Error err = {0};
    const BridgeLine *line;
    const ThrustAnswer *answer;
    int count;
    c->arena = arena_create((size_t)1 << 30);
    c->scratch = arena_create((size_t)1 << 30);
    Text text = text_start(c->arena);
    for (int i = 0; i < parts; i++) text_add(&text, part[i]);
    bridge_from_text(&c->file, text.bytes);
    for (int i = 0; i < c->file.found.count; i++) print_error("%s\n", c->file.found.item[i].text);
    assert_int_equal(c->file.status, STATUS_OK);
    check_status(bridge_lines(c->file.bridge, 1, c->arena, &line, &count, &err), STATUS_OK, &err);
    const ThrustWish wish = {.given_N = thrust_N, .settings = stage_settings_default()};
    check_status(thrust_find(line, count, &wish, c->arena, c->scratch, &answer, &err), STATUS_OK,
                 &err);
    assert_int_equal(jacking_units(answer), 1);
    const JackWish plan = {c->file.bridge, answer, 0};
    check_status(jacking_plan(&plan, c->arena, c->scratch, &c->plan, &err), STATUS_OK, &err);
}

void close_plan(Case *c)
{
    arena_free(c->arena);
    arena_free(c->scratch);
    bridge_close(&c->file);
}

void open_rigid(Case *c, const char *more)
{
    open_plan(c, kip(3072), (const char *[]){jacking_span, jacking_rigid_shims, jacking_8, more},
              4);
}

const JackStep *whole(const JackPlan *plan) { return &plan->step[plan->step_count - 1]; }

const CheckRow *row_named(const JackPlan *plan, const char *name)
{
    for (int i = 0; i < plan->rows->count; i++)
        if (strcmp(plan->rows->row[i].name, name) == 0) return &plan->rows->row[i];
    fail_msg("no row %s", name);
    return NULL;
}
