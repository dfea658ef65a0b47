/* The schema table with the place of each value in struct Bridge (or in the item of its list). */
#ifndef CLENCH_BRIDGE_SCHEMA_H
#define CLENCH_BRIDGE_SCHEMA_H

#include "clench/bridge.h"

typedef struct Row {
    SchemaRow schema;
    size_t offset;    /* in struct Bridge, or in the item of the list around it */
    size_t item_size; /* lists: of one item */
} Row;

const Row *schema_row(int index);
/* Index of the row with that path, -1 where there is none. */
int schema_find(const char *path);
/* Index of the first row at or after `from` that is a direct child of `prefix` ("" for the top),
 * or -1. */
int schema_child(const char *prefix, int from);
const char *schema_leaf(const char *path); /* "thickness" of "deck.thickness" */
/* Position of the word among "a|b|c", or -1; and the word at a position, with its length. */
int choice_find(const char *choices, const char *word);
const char *choice_word(const char *choices, int index, int *length);

#endif
