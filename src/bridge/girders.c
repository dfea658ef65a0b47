/* The girders of a bridge as they stand. */
#include "model.h"

#include <math.h>

static double bridge_length_m(const Bridge *b)
{
    const SpanData *span = b->spans.item;
    double length_m = 0;
    for (int i = 0; i < b->spans.count; i++) length_m += span[i].length_m;
    return length_m;
}

Status bridge_girders(const Bridge *bridge, Arena *arena, const BridgeGirder **girder, int *count,
                      Error *err)
{
    Builder m = {.bridge = bridge, .arena = arena};
    TRY(model_pieces(&m, err));
    const GirderData *g = &bridge->girders;
    const PlateData *plate = g->plates.item;
    const bool steel = g->kind != GIRDER_PRETENSIONED;
    BridgeGirder *out = ARENA_NEW(arena, BridgeGirder, m.piece_count);
    for (int i = 0; i < m.piece_count; i++) {
        const bool last = i == m.piece_count - 1;
        out[i] = (BridgeGirder){.from_m = i ? out[i - 1].to_m : 0,
                                .to_m = last ? bridge_length_m(bridge) : plate[i].to_m,
                                .section = m.piece[i],
                                .haunch_m = m.haunch_width_m[i],
                                .weight_N_per_m = m.piece_weight_N_per_m[i]};
        if (steel) out[i].plate = model_plate(bridge, &plate[i]);
    }
    *girder = out;
    *count = m.piece_count;
    return STATUS_OK;
}
