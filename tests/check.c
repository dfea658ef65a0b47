#define _GNU_SOURCE
#include "check.h"

#include <fenv.h>
#include <stdio.h>

void check_near_at(double value, double expected, double relative, double absolute,
                   const char *source, const char *file, int line)
{
    const double allowed = relative * fabs(expected) + absolute;
    if (fabs(value - expected) <= allowed) return;
    print_error("%s:%d: %.12g, expected %.12g within %.3g (off by %.3g)\n  source: %s\n", file,
                line, value, expected, allowed, value - expected, source);
    _fail(file, line);
}

void check_status_at(Status status, Status expected, const Error *err, const char *file, int line)
{
    if (status == expected) return;
    char text[1024];
    print_error("%s:%d: status %s, expected %s: %s\n", file, line, status_name(status),
                status_name(expected),
                status == STATUS_OK ? "" : error_format(err, NULL, text, sizeof text));
    _fail(file, line);
}

void check_trap_floats(void) { feenableexcept(FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW); }
