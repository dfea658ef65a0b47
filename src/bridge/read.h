/* Steps of reading a bridge after the schema's walk. */
#ifndef CLENCH_BRIDGE_READ_H
#define CLENCH_BRIDGE_READ_H

#include "bridge_data.h"

/* Fills what neither the file nor the table gave, then judges: order of days, keys that belong
 * together. Adds to the diagnostics. */
void bridge_derive(Bridge *bridge, Diagnostics *diagnostics);
/* The second half of it: what the table's rows cannot judge alone. */
void bridge_judge(const Bridge *bridge, Diagnostics *diagnostics);

/* Place of the first of the paths that the file gives, "girders.shape|girders.kind", line 0 where
 * it gives none; the first path itself in `first`. */
Place bridge_place(const Bridge *bridge, const char *paths, char *first, size_t first_size);
/* A structure that cannot be built as described: BAD_INPUT at that place. */
Status bridge_refuse(const Bridge *bridge, Error *err, const char *paths, const char *format, ...)
    PRINTF_LIKE(4, 5);

/* ---- jacks.c: generic sizes, and what the file says of jacks and steps ---- */
void jacks_derive(Bridge *bridge);
void jacks_judge(const Bridge *bridge, Diagnostics *diagnostics);

/* ---- seats.c: profile, survey, shims ---- */
void seats_derive(Bridge *bridge);
void seats_judge(const Bridge *bridge, Diagnostics *diagnostics);

#endif
