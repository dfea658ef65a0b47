/* Private to base: units and the place of an error inside a quantity's text. */
#ifndef CLENCH_BASE_UNITS_H
#define CLENCH_BASE_UNITS_H

#include "clench/base.h"
#include "exact.h"

/* A text being read. Positions are bytes; errors give characters. */
typedef struct Scan {
    const char *text;
    size_t at;
    DimensionId wanted;
    Error *err;
} Scan;

/* STATUS_BAD_INPUT with the place of text[from..to) and what was expected. */
Status scan_error(const Scan *scan, size_t from, size_t to, const char *suggestion,
                  const char *format, ...) PRINTF_LIKE(5, 6);
void scan_spaces(Scan *scan);

typedef struct Unit {
    Exact factor;        /* to SI */
    Dimension dimension; /* level: may name a level; delta_degF may not, K may do both */
    int zero;            /* hundredths of the unit between 0 K and its zero */
    bool single;         /* one name without a power */
} Unit;

/* Units without a number: "kip/ft", "1/ft", "%". Leaves scan->at behind it. */
MUST_USE Status unit_scan(Scan *scan, Unit *unit);
/* The unit of a program text; asserts that it exists. "" is the pure number. */
void unit_get(const char *text, Unit *unit);
bool unit_fits(const Unit *unit, DimensionId wanted);
bool unit_name_starts(const char *at);
bool unit_name_known(const char *at); /* the name there is one of a unit that is read */

#endif
