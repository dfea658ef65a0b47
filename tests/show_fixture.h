/* An answer to show: an invented two-span steel line that is really marched through its stages, with
 * invented needs, limits and live loads. For layout and wording, never a reference for numbers. */
#ifndef CLENCH_TESTS_SHOW_FIXTURE_H
#define CLENCH_TESTS_SHOW_FIXTURE_H

#include "clench/report.h"

const ThrustAnswer *show_answer(Arena *arena);
ReportSource show_source(Arena *arena, UnitSystem units);

#endif
