/* base: errors, memory, units, node trees and JSON text. Knows nothing of bridges.
 *
 * Conventions of the whole library: newton, metre, pascal, kelvin, day; tension positive; x along
 * the girder, y up; moment positive with tension at the bottom fibre; angles counter-clockwise.
 * A function that can fail returns Status, is MUST_USE and takes `Error *err` last; its outputs
 * are written only on success. A function that cannot fail returns its value. */
#ifndef CLENCH_BASE_H
#define CLENCH_BASE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#define MUST_USE                __attribute__((warn_unused_result))
#define PRINTF_LIKE(form, args) __attribute__((format(printf, form, args)))

const char *clench_version(void); /* "0.1.0" */

/* ---- status: one list makes the enum, the name, the exit code and the meaning ---- */

/* clang-format off */
#define STATUS_LIST(X)                                                              \
    X(OK,             0, "done")                                                    \
    X(NOT_MET,        1, "a limit or the window is not met")                        \
    X(BAD_INPUT,      2, "the input needs a correction")                            \
    X(TOO_LARGE,      2, "the input is larger than the stated bound")               \
    X(UNSTABLE,       3, "the structure is a mechanism")                            \
    X(NO_CONVERGENCE, 3, "the iteration did not settle")                            \
    X(IO,             4, "the machine refused a file")                              \
    X(UNPROVEN,       5, "no check fails, but some need an input that is not given")
/* clang-format on */

typedef enum Status {
#define X(name, code, text) STATUS_##name,
    STATUS_LIST(X)
#undef X
        STATUS_COUNT
} Status;

int status_exit_code(Status status);
const char *status_name(Status status); /* "BAD_INPUT" */
const char *status_text(Status status);

/* A place in a text: line and column count from 1, in characters; line 0 means nowhere. */
typedef struct Place {
    int line, column;
} Place;

/* What went wrong, as data; the sentence is made at the edge by error_format. */
typedef struct Error {
    Status status;
    Place from, to;      /* `to` is one past the last character */
    char key[96];        /* path of the value concerned, "deck.thickness"; empty where none */
    char expected[128];  /* what was wanted, "a length"; empty where there is nothing to add */
    char suggestion[96]; /* what to write in place of from..to, "54 in"; empty where none */
    char text[384];      /* one sentence: what is wrong */
} Error;

/* Fills *err and returns `status`, so that it can stand in a return. `err` may be NULL. */
Status error_set(Error *err, Status status, const char *format, ...) PRINTF_LIKE(3, 4);
Status error_at(Error *err, Status status, Place from, Place to, const char *key,
                const char *format, ...) PRINTF_LIKE(6, 7);
/* bridge.yaml:12:9: deck.thickness: "54" has no unit, expected a length such as 8.5 in, write "54 in"
 * into out; file may be NULL. Always ends with a NUL; returns out. */
char *error_format(const Error *err, const char *file, char *out, size_t out_size);

#define TRY(call)                                         \
    do {                                                  \
        const Status try_status_ = (call);                \
        if (try_status_ != STATUS_OK) return try_status_; \
    } while (0)

/* All errors of one input, in order of place; further ones are counted and dropped. */
enum { DIAGNOSTICS_MAX = 50 };
typedef struct Diagnostics {
    Error item[DIAGNOSTICS_MAX];
    int count;   /* stored */
    int dropped; /* found beyond DIAGNOSTICS_MAX */
} Diagnostics;
void diagnostics_add(Diagnostics *list, const Error *err);
void diagnostics_sort(Diagnostics *list); /* by place, stable */

/* ---- memory: everything that a run makes dies with its arena ---- */

typedef struct Arena Arena;
Arena *arena_create(size_t limit_bytes); /* never NULL: out of memory ends the process */
void arena_free(Arena *arena);           /* NULL is allowed */
/* Zeroed, aligned to 16 bytes. Going past the limit ends the process with a message: readers
 * bound the sizes of models so that it cannot happen (STATUS_TOO_LARGE). */
void *arena_take(Arena *arena, size_t bytes);
size_t arena_used(const Arena *arena);
size_t arena_room(const Arena *arena); /* what the limit leaves */
size_t arena_peak(const Arena *arena);
/* Marks a level and goes back to it: scratch of one step. */
size_t arena_mark(const Arena *arena);
void arena_reset(Arena *arena, size_t mark);
char *arena_text(Arena *arena, const char *text);                 /* a copy */
char *arena_textn(Arena *arena, const char *text, size_t length); /* first bytes of it */
char *arena_printf(Arena *arena, const char *format, ...) PRINTF_LIKE(2, 3);
#define ARENA_NEW(arena, type, count) ((type *)arena_take((arena), sizeof(type) * (size_t)(count)))

/* ---- quantities: a number and its unit ---- */

/* Exponents of length, force, time, temperature difference, money. */
typedef struct Dimension {
    signed char length, force, time, temperature, money;
    bool level; /* a temperature level (degF with its offset), not a difference */
} Dimension;

/* clang-format off */
#define DIMENSION_LIST(X)                                                          \
    /*  name             L   F  T  K  $  level  what it is called   example */     \
    X(NONE,              0,  0, 0, 0, 0, false, "a number",          "0.3")         \
    X(LENGTH,            1,  0, 0, 0, 0, false, "a length",          "8.5 in")      \
    X(AREA,              2,  0, 0, 0, 0, false, "an area",           "767 in^2")    \
    X(VOLUME,            3,  0, 0, 0, 0, false, "a volume",          "12 yd^3")     \
    X(INERTIA,           4,  0, 0, 0, 0, false, "a second moment of area", "545894 in^4") \
    X(FORCE,             0,  1, 0, 0, 0, false, "a force",           "400 kip")     \
    X(MOMENT,            1,  1, 0, 0, 0, false, "a moment",          "1200 kip*ft") \
    X(STRESS,           -2,  1, 0, 0, 0, false, "a stress",          "6.5 ksi")     \
    X(LINE_LOAD,        -1,  1, 0, 0, 0, false, "a load per length", "0.42 kip/ft") \
    X(AREA_LOAD,        -2,  1, 0, 0, 0, false, "a load per area",   "25 psf")      \
    X(WEIGHT_DENSITY,   -3,  1, 0, 0, 0, false, "a weight density",  "150 pcf")     \
    X(STIFFNESS,        -1,  1, 0, 0, 0, false, "a stiffness",       "900 kip/in")  \
    X(BED_STIFFNESS,    -2,  1, 0, 0, 0, false, "a stiffness per length", "2000 kip/in/ft") \
    X(TIME,              0,  0, 1, 0, 0, false, "a time",            "28 day")      \
    X(TEMPERATURE,       0,  0, 0, 1, 0, true,  "a temperature",     "68 degF")     \
    X(TEMPERATURE_DIFF,  0,  0, 0, 1, 0, false, "a temperature difference", "15 delta_degF") \
    X(EXPANSION,         0,  0, 0,-1, 0, false, "an expansion coefficient", "6e-6/delta_degF") \
    X(PER_LENGTH,       -1,  0, 0, 0, 0, false, "a value per length", "0.0002 1/ft") \
    X(MONEY,             0,  0, 0, 0, 1, false, "an amount of money", "1500 USD")
/* clang-format on */

typedef enum DimensionId {
#define X(id, l, f, t, k, m, level, called, example) DIM_##id,
    DIMENSION_LIST(X)
#undef X
        DIM_COUNT
} DimensionId;

Dimension dimension_get(DimensionId id);
const char *dimension_called(DimensionId id);  /* "a length" */
const char *dimension_example(DimensionId id); /* "8.5 in" */

/* Text to SI. Grammar: number unit, several summed for lengths ("9 ft 3 in"), "70 %" for pure
 * numbers; fractions ("8 3/4 in"); units are products and quotients with whole powers (kip*ft,
 * lbf/ft^2, kN/m3, kip/in/ft, 1/ft). Rounded once: "9 ft 3 in" and "111 in" are the same double.
 * Refused, with the reason and what to write: a bare number where a unit is due, an unknown or
 * ambiguous unit (lb, ton, kg), another dimension, nan, inf, overflow after conversion, a decimal
 * comma. err->from/to give the columns of the bad part (1 = first character of text, line 1). */
MUST_USE Status quantity_read(const char *text, DimensionId dimension, double *value_SI,
                              Error *err);
/* Value in the named unit ("kip", "psi", "kip/ft"); asserts that the unit exists. About 1 us; not a
 * number and infinity stay what they are. */
double quantity_in(double value_SI, const char *unit); /* unit: of the named unit */
/* What a unit without a number measures, "kip*in^2/ft": dimension, and its size in SI; "" is 1. */
MUST_USE Status unit_read(const char *unit, Dimension *dimension, double *size_SI, Error *err);
/* Shortest decimal text that reads back to the same double, with the unit: "8.5 in". The value is
 * finite. In degC and degF that holds from 100 K on: nearer to 0 K a double is finer than the text.
 */
char *quantity_write(double value_SI, const char *unit, char *out, size_t out_size);

/* What people see: one row a system and dimension; the name is also readable. */
typedef enum UnitSystem { UNITS_US, UNITS_SI } UnitSystem;
/* Unit for output of a dimension: UNITS_US gives "ft" for DIM_LENGTH, "kip" for DIM_FORCE, "psi"
 * for DIM_STRESS, ...; UNITS_SI "m", "kN", "MPa". */
const char *quantity_unit(UnitSystem system, DimensionId dimension);
/* The unit in which people see a result of that size; demand and capacity go by the larger. One rule for
 * screen, package and the brackets of sheets: US stresses below 10 ksi in psi (concrete), from there on
 * in ksi (steel); lengths below 1 m in inches or millimetres; all else as quantity_unit. */
const char *quantity_shown_unit(UnitSystem system, DimensionId dimension, double size_SI);

/* ---- node tree: foreign text after syntax, before meaning ---- */

typedef enum NodeKind { NODE_TEXT, NODE_LIST, NODE_MAP } NodeKind;
typedef struct Node Node;
struct Node {
    NodeKind kind;
    Place from, to;         /* of the value */
    const char *key;        /* in the parent map, else NULL */
    Place key_from, key_to; /* of the key */
    const char *text;       /* NODE_TEXT: the scalar as written, never NULL; else NULL */
    bool plain;             /* NODE_TEXT: written without quotes on one line */
    Node *first, *next;     /* children; following sibling */
    Node *last;             /* the last child, for node_append */
    int count;              /* number of children */
};
/* Bounds of a tree that comes from outside, kept by every reader. */
enum { NODE_DEPTH_MAX = 32, NODE_COUNT_MAX = 250000, NODE_PACK_MAX = 32 << 20 };
const Node *node_find(const Node *map, const char *key); /* NULL where absent */
const Node *node_item(const Node *list, int index);      /* NULL where absent */
Node *node_new(Arena *arena, NodeKind kind);
void node_append(Node *parent, Node *child); /* in a map the child has its key already */
/* Keys that a map gives more than once: their number, and each with its first place. */
typedef struct NodeRepeat {
    const Node *first, *again;
} NodeRepeat;
int node_repeats(const Node *map, Arena *arena, NodeRepeat **repeats);
/* The tree as one block of bytes and back: the door between reader and engine (WebAssembly).
 * node_unpack trusts nothing: any bytes give a tree within the bounds or STATUS_BAD_INPUT. */
size_t node_pack_size(const Node *root);
void node_pack(const Node *root, char *bytes); /* room for node_pack_size(root) */
MUST_USE Status node_unpack(const char *bytes, size_t size, Arena *arena, Node **root, Error *err);
/* Name among `names` (count of them) nearest to `word` by edit distance, or NULL where none is
 * within a third of its length. */
const char *name_nearest(const char *word, const char *const *names, int count);

/* ---- text that grows in an arena, and JSON in it ---- */

typedef struct Text {
    Arena *arena;
    char *bytes; /* always ends with NUL once something was added */
    size_t length, room;
} Text;
Text text_start(Arena *arena);
void text_add(Text *text, const char *piece);
void text_addn(Text *text, const char *piece, size_t length);
void text_printf(Text *text, const char *format, ...) PRINTF_LIKE(2, 3);
/* printf %.*g is locale free here: the library never calls setlocale. */

/* Strict JSON, two spaces a level. Keys are NULL inside lists. Numbers: shortest that reads back,
 * not-a-number and infinity become null. */
typedef struct Json {
    Text *text;
    int depth;
    bool first[32];
    bool compact; /* numbers of a list on one line */
} Json;
Json json_start(Text *text);
void json_open_map(Json *json, const char *key);
void json_close_map(Json *json);
void json_open_list(Json *json, const char *key);
void json_close_list(Json *json);
void json_text(Json *json, const char *key, const char *value); /* NULL gives null */
void json_number(Json *json, const char *key, double value);    /* unit: as the key says */
void json_int(Json *json, const char *key, long value);
void json_bool(Json *json, const char *key, bool value);
void json_none(Json *json, const char *key);
void json_raw(Json *json, const char *key, const char *value); /* a value that is JSON already */
void json_numbers(Json *json, const char *key, const double *value, int count); /* unit: as key */
/* RFC 8259, strictly; keys unique, bounds as of a tree. A number, true, false or null is a text as written,
 * `plain`. Nodes have no places; an error has. Any bytes give a tree or STATUS_BAD_INPUT. */
MUST_USE Status json_read(const char *bytes, size_t size, Arena *arena, Node **root, Error *err);

/* One cell of CSV (RFC 4180), quoted where it must be. Words that a spreadsheet would take for a formula (they
 * start with = + - @ or a tab) get an apostrophe in front; numbers and a lone "-" stay as they are. */
void csv_cell(Text *text, const char *words);
const char *csv_words(const char *cell); /* of a cell that was read: without that apostrophe */

/* ---- SHA-256 (FIPS 180-4) of any number of pieces ---- */

enum { SHA256_SIZE = 32, SHA256_TEXT = 2 * SHA256_SIZE + 1 };
typedef struct Sha256 {
    uint32_t state[8];
    uint64_t size; /* bytes so far */
    unsigned char block[64];
} Sha256;
Sha256 sha256_start(void);
void sha256_add(Sha256 *sha, const void *bytes, size_t size);
void sha256_end(Sha256 *sha, unsigned char digest[SHA256_SIZE]); /* sha is used up */
void sha256_text(const unsigned char digest[SHA256_SIZE], char text[SHA256_TEXT]); /* lower hex */

#endif
