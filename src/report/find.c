/* From a tree to the answer that is reported on: what every door (command, server, page) does. */
#include "clench/report.h"

static void fill(ReportSource *source, const Bridge *bridge, Arena *arena)
{
    const int count = bridge_value_count(bridge);
    const BridgeValue **value = ARENA_NEW(arena, const BridgeValue *, count + 1);
    for (int i = 0; i < count; i++) value[i] = bridge_value(bridge, i);
    const BridgeValue *title = bridge_value_at(bridge, "title");
    *source = (ReportSource){.name = title ? title->text : "",
                             .file = "",
                             .bridge = bridge,
                             .version = clench_version(),
                             .value = value,
                             .value_count = count,
                             .units = bridge_units(bridge)};
}

Status report_read(const Node *root, Arena *result, ReportSource *source, Diagnostics *diagnostics)
{
    const Bridge *bridge;
    TRY(bridge_read(root, result, &bridge, diagnostics));
    fill(source, bridge, result);
    return STATUS_OK;
}

Status report_find(const Node *root, double given_N, Arena *result, Arena *scratch,
                   ReportSource *source, Diagnostics *diagnostics, Error *err)
{
    const Bridge *bridge;
    const BridgeLine *line;
    int line_count;
    ReportSource found;
    *err = (Error){0};
    TRY(bridge_read(root, result, &bridge, diagnostics));
    fill(&found, bridge, result);
    TRY(bridge_lines(bridge, 1, result, &line, &line_count, err));
    const ThrustWish wish = {.given_N = given_N, .settings = stage_settings_default()};
    TRY(thrust_find(line, line_count, &wish, result, scratch, &found.answer, err));
    *source = found;
    return STATUS_OK;
}
