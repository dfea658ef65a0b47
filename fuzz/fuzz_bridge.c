/* Bytes as a bridge file: whatever is read gives sound models or one sentence why not. */
#include "clench/bridge.h"
#include "clench/text.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

static void check_model(const BridgeLine *line)
{
    const StageModel *m = &line->model;
    MUST_HOLD(m->station_count >= 2 && m->part_count > 0 && line->joint_count >= 4);
    for (int i = 0; i + 1 < m->station_count; i++) MUST_HOLD(m->x_m[i] < m->x_m[i + 1]);
    for (int p = 0; p < m->part_count; p++) {
        const Part *part = &m->part[p];
        MUST_HOLD(part->element >= 0 && part->element + 1 < m->station_count);
        MUST_HOLD(part->material >= 0 && part->material < m->material_count);
        MUST_HOLD(part->section >= 0 && part->section < m->section_count);
        MUST_HOLD(m->section[part->section].area_m2 > 0);
        MUST_HOLD(isfinite(part->from_height_m) && isfinite(part->to_height_m));
    }
    for (int e = 0; e < m->event_count; e++) {
        const Event *event = &m->event[e];
        MUST_HOLD(e == 0 || event->day >= m->event[e - 1].day);
        MUST_HOLD(isfinite(event->line_load_N_per_m) && isfinite(event->thrust_N));
        MUST_HOLD(event->from_station <= event->to_station);
    }
    for (int s = 0; s < m->support_count; s++) MUST_HOLD(isfinite(m->support[s].below_top_m));
    MUST_HOLD(isfinite(line->lanes_1) && isfinite(line->share_1) && isfinite(line->share_stiff_1));
    for (int i = 0; i < line->limit_count; i++) MUST_HOLD(isfinite(line->limit[i].value));
}

static void check_refused(const Diagnostics *found)
{
    char text[1024];
    MUST_HOLD(found->count > 0);
    for (int i = 0; i < found->count; i++) {
        MUST_HOLD(found->item[i].text[0] && found->item[i].status != STATUS_OK);
        error_format(&found->item[i], "fuzz", text, sizeof text);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 65536) return 0;
    Arena *arena = arena_create((size_t)1 << 30);
    Diagnostics *found = ARENA_NEW(arena, Diagnostics, 1);
    const Bridge *bridge = NULL;
    const BridgeLine *line = NULL;
    Node *root = NULL;
    int count = 0;
    Error err = {0};
    if (yaml_read((const char *)bytes, size, arena, &root, found) == STATUS_OK) {
        if (bridge_read(root, arena, &bridge, found) != STATUS_OK)
            check_refused(found);
        else if (bridge_lines(bridge, 1, arena, &line, &count, &err) != STATUS_OK)
            MUST_HOLD(err.text[0] && err.status != STATUS_OK);
        for (int i = 0; i < count; i++) check_model(&line[i]);
    }
    arena_free(arena);
    return 0;
}
