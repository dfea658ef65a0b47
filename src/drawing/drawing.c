/* From a bridge to its sheets. docs/drawings.md. */
#include <math.h>

#include "draw.h"

static void supports_read(Draw *d)
{
    char path[64];
    double *support_m;
    while (snprintf(path, sizeof path, "spans[%d].length", d->span_count + 1) > 0 &&
           bridge_value_at(d->bridge, path))
        d->span_count++;
    support_m = ARENA_NEW(d->arena, double, d->span_count + 1);
    for (int i = 0; i < d->span_count; i++) {
        snprintf(path, sizeof path, "spans[%d].length", i + 1);
        support_m[i + 1] = support_m[i] + draw_value(d, path);
    }
    d->support_m = support_m;
    d->length_m = support_m[d->span_count];
}

static const char *paper_words(bool us, bool half)
{
    if (us) return half ? "11 x 17 in (half size)" : "22 x 34 in";
    return half ? "A3 (half size)" : "A1";
}

static Draw draw_start(const DrawingSource *source, Arena *arena)
{
    const bool us = source->units == UNITS_US;
    Draw d = {.of = source,
              .bridge = source->bridge,
              .plan = source->plan,
              .arena = arena,
              .set = ARENA_NEW(arena, DrawingSet, 1),
              .us = us,
              .left_m = us ? 0.034 : 0.028,
              .right_m = us ? 34 * 0.0254 - 0.020 : 0.841 - 0.018,
              .low_m = us ? 0.062 : 0.060,
              .high_m = us ? 22 * 0.0254 - 0.020 : 0.594 - 0.018};
    *d.set = (DrawingSet){.sheet = ARENA_NEW(arena, DrawingSheet, DRAWING_SHEETS_MAX),
                          .units = source->units,
                          .half = source->half,
                          .paper = paper_words(us, source->half),
                          .title = source->title,
                          .revision = source->revision,
                          .date = source->date,
                          .version = source->version};
    d.deck_m = draw_value(&d, "deck.thickness");
    d.haunch_m = draw_value(&d, "deck.haunch");
    d.width_m = draw_value(&d, "deck.width");
    d.girders = draw_count(&d, "girders.count");
    d.spacing_m = draw_value(&d, "girders.spacing");
    supports_read(&d);
    return d;
}

Status drawing_make(const DrawingSource *source, Arena *arena, const DrawingSet **set, Error *err)
{
    static Status (*const sheets[])(Draw * d, Error * err) = {
        draw_general, draw_section, draw_panels, draw_shop,
        draw_gap,     draw_shims,   draw_beds,   draw_order};
    Draw d = draw_start(source, arena);
    TRY(bridge_girders(source->bridge, arena, &d.piece, &d.piece_count, err));
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++) TRY(sheets[i](&d, err));
    draw_index(&d);
    frame_all(&d);
    *set = d.set;
    return STATUS_OK;
}
