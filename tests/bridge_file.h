/* A bridge from text or from an example, for the tests of `bridge`. */
#ifndef CLENCH_TESTS_BRIDGE_FILE_H
#define CLENCH_TESTS_BRIDGE_FILE_H

#include "check.h"

#include "clench/bridge.h"
#include "clench/text.h"

typedef struct BridgeFile {
    Arena *arena;
    const Bridge *bridge; /* NULL where it was refused */
    Status status;
    Diagnostics found;
} BridgeFile;

void bridge_from_text(BridgeFile *file, const char *text);
void bridge_from_example(BridgeFile *file, const char *path); /* stops the test where refused */
void bridge_close(BridgeFile *file);

/* The smallest file that is complete, one simple span of bulb tees; `more` is put behind it. */
char *bridge_small(const char *more, char *out, size_t out_size);
/* The text with the first `old` replaced by `fresh`. */
char *bridge_replace(const char *text, const char *old, const char *fresh, char *out,
                     size_t out_size);

#endif
