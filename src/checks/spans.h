/* Private to checks: spans of a line. */
#ifndef CLENCH_CHECKS_SPANS_H
#define CLENCH_CHECKS_SPANS_H

#include "kit.h"

enum { SPANS_MAX = 24 };
typedef struct Span {
    double from_m, to_m; /* bearings */
    int middle;          /* station nearest to mid-span */
} Span;
int spans_of(const KitLine *k, Span span[SPANS_MAX]);
double span_camber_m(const KitLine *k, int time,
                     const Span *span); /* up; girder, from unstressed */

#endif
