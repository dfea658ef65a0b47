/* Force and glue of one joint: docs/theory/panels.md. */
#include "clench/panel.h"

#include <math.h>

/* The reaction runs about twice as fast for 10 K more (from memory); a colder joint gives no more time
 * than the product's own statement. */
static double open_time_day(const PanelSeam *j)
{
    const double warmer_K = fmax(j->glue_K - j->open_at_K, 0);
    return j->open_day * pow(2, -warmer_K / 10);
}

PanelClosing panel_closing(const PanelSeam *j)
{
    PanelClosing c = {.press_N = j->pressure_Pa * j->face_m2,
                      .drag_N = j->pulled_N * (j->friction_1 + fabs(j->grade_1)),
                      .glue_m3 = j->glued_m2 * j->film_m * (1 + j->waste_1),
                      .open_day = open_time_day(j),
                      .work_day = j->spread_day + j->place_day + j->pull_day};
    c.force_N = c.press_N + c.drag_N;
    c.pieces = (int)ceil(c.force_N / j->piece_N - 1e-9);
    if (c.pieces < 2) c.pieces = 2; /* one alone turns the panel */
    if (j->piece_most > 0 && c.pieces > j->piece_most) c.pieces = j->piece_most;
    c.given_N = c.pieces * j->piece_N;
    c.given_Pa = fmax(c.given_N - c.drag_N, 0) / j->face_m2;
    c.pressed = c.given_N >= c.force_N * (1 - 1e-9);
    c.in_time = c.work_day <= c.open_day * (1 + 1e-9);
    return c;
}
