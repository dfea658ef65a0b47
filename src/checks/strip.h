/* Strips of the deck across the bridge: AASHTO LRFD appendix A4. */
#ifndef CLENCH_CHECKS_STRIP_H
#define CLENCH_CHECKS_STRIP_H

#include "values.h"

/* Moments of table A4-1 for a spacing, into a sheet where S is given in ft: M_L in kip*ft/ft. The
 * negative one at `x` in, given above, from the girder's middle. */
void strip_positive(Sheet *sheet);
void strip_negative(Sheet *sheet);
/* S lies within the table: 4 to 15 ft. */
bool strip_covers(double spacing_m);
/* Bars of a strip against M_u given above in kip*ft/ft; adds a row. */
typedef struct StripRow {
    const char *name, *where, *clause;
    bool top;
} StripRow;
CheckRow *strip_add(const CheckCase *with, CheckList *list, Sheet *sheet, const StripRow *of);

#endif
