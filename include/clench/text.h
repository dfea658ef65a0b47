/* text: foreign text to node trees with places, and files. Knows syntax, not meaning.
 *
 * YAML is read as a strict subset, so that what stands in a file is what is meant: one document in
 * UTF-8; no anchors, aliases, tags, merge keys or directives; keys are scalars and unique in their
 * map; every scalar stays the text it is (no, 1e3 and 012 hold no surprise). JSON is nearly a
 * subset of YAML and is read by the same function. */
#ifndef CLENCH_TEXT_H
#define CLENCH_TEXT_H

#include "clench/base.h"

/* A larger text is STATUS_TOO_LARGE; depth and number of values are bounded as in base.h. */
enum { YAML_SIZE_MAX = 4 << 20 };

/* Bytes to a tree that lives in `arena`. All that can be told at once is added to `diagnostics`,
 * in order of place: repeated keys (with the place of the first) and refused features; an error
 * of syntax is the last one, reading stops there. Error.key is the path, "deck.panel[2].length"
 * (items count from 1). *root is written only on STATUS_OK. */
MUST_USE Status yaml_read(const char *bytes, size_t size, Arena *arena, Node **root,
                          Diagnostics *diagnostics);

/* One value of a text set in place; comments and layout around it stay. path: as Error.key,
 * "deck.thickness" or "spans[2].length" (items count from 1); what the file does not have yet is
 * written behind the last key of its group, an item of a list must be there. The result is read again
 * and must be the same tree but for that value. *text, of text_start, is then the whole result, else it
 * stays as it was. BAD_INPUT: the text does not read (its first error, with its place), no such path,
 * a group instead of a value, or no place for it; TOO_LARGE: more than 256 bytes of value. */
MUST_USE Status yaml_set(const char *bytes, size_t size, const char *path, const char *value,
                         Text *text, Error *err);

/* A whole file into `arena`, with a NUL behind it that is not counted. More than `limit` bytes is
 * STATUS_TOO_LARGE before they are read; a directory or an unreadable file is STATUS_IO. */
MUST_USE Status file_read(const char *path, size_t limit, Arena *arena, const char **bytes,
                          size_t *size, Error *err);

/* All of `bytes` or nothing: written to a temporary file beside `path`, then renamed over it. An
 * existing file keeps its permissions, a link stays a link; a pipe or device is written to. */
MUST_USE Status file_write(const char *path, const char *bytes, size_t size, Error *err);

/* A folder, and those above it; one that exists is left as it is. */
MUST_USE Status directory_make(const char *path, Error *err);

#endif
