/* takeoff: what a bridge is made of, as a list with its reasoning: every quantity is a sum of lines, every
 * line a product of named factors with the place they come from. Prices, labour and time are not its
 * matter. docs/answers.md. */
#ifndef CLENCH_TAKEOFF_H
#define CLENCH_TAKEOFF_H

#include "clench/bridge.h"

/* clang-format off */
#define TAKEOFF_GROUP_LIST(X)                                                                  \
    X(PRECAST, "Precast panels")   X(BARS, "Bars in the panels")  X(GROUT, "Grout")            \
    X(CAST, "Cast on the bridge")  X(JOINTS, "Joints")            X(CONNECTORS, "Connectors")  \
    X(SEATS, "Seats and dams")     X(JACKING, "Jacking")          X(DECK, "On the deck")       \
    X(GIRDERS, "Girders, for information")
/* Id, key of the bridge file, what it is. Waste is what is ordered beyond what is built in. */
#define TAKEOFF_INPUT_LIST(X)                                                              \
    X(CONCRETE_WASTE, "quantities.concrete_waste", "waste of concrete")                     \
    X(BAR_WASTE, "quantities.bar_waste", "waste of bars")                                   \
    X(GROUT_WASTE, "quantities.grout_waste", "waste of grout")                              \
    X(GLUE_WASTE, "closing.waste", "waste of glue")                                         \
    X(STRIP_WASTE, "quantities.strip_waste", "waste of dams, strips and forms")             \
    X(CONCRETE_WEIGHT, "deck.density", "weight of reinforced concrete")                     \
    X(GROUT_WEIGHT, "connectors.grout_density", "weight of grout")                          \
    X(STEEL_WEIGHT, "girders.steel_density", "weight of bars, as that of the girders' steel") \
    X(BARRIER_WEIGHT, "loads.barrier", "weight of one barrier")                             \
    X(OVERLAY_WEIGHT, "loads.overlay", "weight of the overlay")
/* clang-format on */

typedef enum TakeoffGroup {
#define X(id, name) TAKEOFF_##id,
    TAKEOFF_GROUP_LIST(X)
#undef X
        TAKEOFF_GROUP_COUNT
} TakeoffGroup;

typedef enum TakeoffInputId {
    TAKEOFF_NO_INPUT = -1,
#define X(id, key, name) TAKEOFF_##id,
    TAKEOFF_INPUT_LIST(X)
#undef X
        TAKEOFF_INPUT_COUNT
} TakeoffInputId;

/* A value that somebody may want to change afterwards. */
typedef struct TakeoffInput {
    const char *key, *name, *from; /* from: "default", "bridge file", "derived" */
    double value;                  /* unit: SI of the dimension */
    DimensionId dimension;
} TakeoffInput;

typedef struct TakeoffFactor {
    const char *name; /* "panels", "length"; "less" in front of what is taken off */
    double value;     /* unit: SI of the dimension; negative: taken off */
    DimensionId dimension;
    TakeoffInputId input; /* whose value it is */
} TakeoffFactor;

enum { TAKEOFF_FACTORS = 5 };
typedef struct TakeoffLine {
    int item, run;           /* of `run`s */
    const char *what, *from; /* "kind A, 10 of it"; "deck.width, deck.thickness" */
    int factor_count;
    TakeoffFactor factor[TAKEOFF_FACTORS];
    double value; /* unit: SI of the item's dimension; the product */
} TakeoffLine;

typedef struct TakeoffItem {
    TakeoffGroup group;
    const char *name, *purpose; /* what it is; what it is for, or how it is counted */
    DimensionId dimension;
    const char *unit[2];          /* [UnitSystem]: as it is ordered, "yd^3"; "" of a count */
    TakeoffInputId waste, weight; /* weight: of one unit of it */
    const char *open;      /* what the file does not say, so that nothing is counted; else NULL */
    int first, line_count; /* of `line`, run by run */
    double net, ordered;   /* unit: SI of the dimension; ordered: with waste */
    double weight_N;       /* of what is built in; NAN where none is known */
} TakeoffItem;

typedef struct Takeoff {
    TakeoffInput input[TAKEOFF_INPUT_COUNT];
    int item_count, line_count, note_count, run_count;
    const TakeoffItem *item;
    const TakeoffLine *line;
    const char *const *note; /* what has to be known, most important first */
    const PanelRun *run;
} Takeoff;

/* Errors: those of bridge_panels and bridge_girders. */
MUST_USE Status takeoff_find(const Bridge *bridge, Arena *arena, const Takeoff **takeoff,
                             Error *err);
double takeoff_in_run(const Takeoff *takeoff, int item, int run); /* unit: SI of the item, net */
const char *takeoff_group_name(TakeoffGroup group);
/* Unit in which a factor or an input is shown; "" of counts. */
const char *takeoff_unit(UnitSystem units, DimensionId dimension, double size_SI);
/* "10 panels x 9.5 ft length x 8.5 in thickness"; plain: ASCII, else with the signs of print. */
const char *takeoff_reckoned(const TakeoffLine *line, UnitSystem units, bool plain, Arena *arena);
const char *takeoff_print_unit(const char *unit, Arena *arena); /* "yd^3" as print has it */
const char *takeoff_left_out(void);                             /* what is on no line */

#endif
