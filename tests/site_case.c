#include "site_case.h"

#include <stdlib.h>
#include <string.h>

static const char gear_text[] =
    "jacks: {count: 12, size: 400 ton, sets: 2, stroke: 8 in, gauge_range: 10000 psi, "
    "gauge_division: 50 psi}\n";

static void plan_make(SiteCase *f, const char *path, const char *more)
{
    const BridgeLine *line;
    const char *bytes = NULL;
    size_t size = 0;
    int count;
    Error err = {0};
    const JackPlan *plan;
    f->arena = arena_create((size_t)2 << 30);
    f->scratch = arena_create((size_t)1 << 30);
    check_status(file_read(path, YAML_SIZE_MAX, f->arena, &bytes, &size, &err), STATUS_OK, &err);
    const char *text = arena_printf(f->arena, "%s%s", bytes, more);
    bridge_from_text(&f->file, text);
    for (int i = 0; i < f->file.found.count; i++) print_error("%s\n", f->file.found.item[i].text);
    assert_int_equal(f->file.status, STATUS_OK);
    check_status(yaml_read(text, strlen(text), f->arena, &f->root, &f->file.found), STATUS_OK,
                 NULL);
    check_status(bridge_lines(f->file.bridge, 1, f->arena, &line, &count, &err), STATUS_OK, &err);
    const ThrustWish wish = {.settings = stage_settings_default()};
    check_status(thrust_find(line, count, &wish, f->arena, f->scratch, &f->answer, &err), STATUS_OK,
                 &err);
    const JackWish jacks = {f->file.bridge, f->answer, 0};
    check_status(jacking_plan(&jacks, f->arena, f->scratch, &plan, &err), STATUS_OK, &err);
    f->day = (SiteDay){.plan = plan, .units = UNITS_US, .point_count = 6};
    const double across[] = {-0.45, -0.15, 0.15, 0.45};
    for (int p = 0; p < 4; p++)
        f->day.point[p] = (SitePoint){
            .kind = SITE_GAP, .across_m = across[p] * plan->width_m, .division_m = 2.5e-4};
    for (int p = 4; p < 6; p++)
        f->day.point[p] = (SitePoint){.kind = SITE_SLIP, .side = p - 4, .division_m = 2.5e-5};
}

void site_case_open(SiteCase *c)
{
    const char *path = getenv("CLENCH_SITE_EXAMPLE"); /* another bridge, for tuning */
    plan_make(c, path ? path : "examples/steel-continuous.yaml", gear_text);
}

void site_case_close(SiteCase *c)
{
    arena_free(c->arena);
    arena_free(c->scratch);
    bridge_close(&c->file);
}
