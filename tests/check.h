/* Thin layer over cmocka: a check states value, tolerance and source. */
#ifndef CLENCH_TESTS_CHECK_H
#define CLENCH_TESTS_CHECK_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "clench/base.h"

/* |value - expected| <= relative * |expected| + absolute. `source` names the published document,
 * or "closed form: ...", "law: ...", "common practice, no source". */
#define check_near(value, expected, relative, absolute, source) \
    check_near_at((value), (expected), (relative), (absolute), (source), __FILE__, __LINE__)
void check_near_at(double value, double expected, double relative, double absolute,
                   const char *source, const char *file, int line);

/* Prints the error's sentence where the status is another. */
#define check_status(call, expected, err) \
    check_status_at((call), (expected), (err), __FILE__, __LINE__)
void check_status_at(Status status, Status expected, const Error *err, const char *file, int line);

/* Not-a-number, division by zero and overflow stop the test where they are born. */
void check_trap_floats(void);

#endif
