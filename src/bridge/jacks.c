/* Jacks and steps of jacking: generic sizes, derived values, and what is refused. */
#include <assert.h>
#include <math.h>
#include <stdarg.h>

#include "read.h"

/* 2 kip a ton is less than the area times 10,000 psi: the safe side. */
#define X(name, ton, area_in2) {name, 2 * (ton)*4448.2216152605, (area_in2)*0.0254 * 0.0254},
static const JackSize sizes[] = {JACK_SIZE_LIST(X)};
#undef X

int bridge_jack_size_count(void) { return (int)(sizeof sizes / sizeof *sizes); }

const JackSize *bridge_jack_size(int index)
{
    assert(index >= 0 && index < bridge_jack_size_count());
    return &sizes[index];
}

static void fill(double *value, double derived)
{
    if (isnan(*value)) *value = derived;
}

void jacks_derive(Bridge *bridge)
{
    JackData *j = &bridge->jacks;
    if (j->size > 0) {
        fill(&j->rated_N, sizes[j->size - 1].rated_N);
        fill(&j->area_m2, sizes[j->size - 1].area_m2);
    }
    fill(&j->calibration_slope_m2, j->area_m2 * (1 - j->bore_friction_1));
    if (j->count == 0) j->count = j->places.count;
    /* common practice, no source: steel sections are known better than the modulus of concrete */
    fill(&bridge->jacking.girder_off_1, bridge->girders.kind == GIRDER_PRETENSIONED ? 0.12 : 0.03);
}

static void PRINTF_LIKE(4, 5)
    complain(const Bridge *b, Diagnostics *d, const char *paths, const char *format, ...)
{
    char text[sizeof((Error *)0)->text], path[128];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    const Place place = bridge_place(b, paths, path, sizeof path);
    Error err;
    error_at(&err, STATUS_BAD_INPUT, place, place, path, "%s", text);
    diagnostics_add(d, &err);
}

static void judge_places(const Bridge *b, Diagnostics *d)
{
    const PlaceData *place = b->jacks.places.item;
    const int count = b->jacks.places.count;
    char path[64];
    if (count > 0 && count != b->jacks.count)
        complain(b, d, "jacks.places[1].across|jacks.count", "%d places for %d jacks", count,
                 b->jacks.count);
    for (int i = 0; i < count; i++) {
        snprintf(path, sizeof path, "jacks.places[%d].across", i + 1);
        if (fabs(place[i].across_m) >= b->deck.width_m / 2)
            complain(b, d, path, "the jack stands beside the deck, which is %.4g ft wide",
                     quantity_in(b->deck.width_m, "ft"));
        if (i > 0 && place[i].across_m <= place[i - 1].across_m)
            complain(b, d, path, "the jacks come one after the other from left to right");
        if (i > 0 && place[i].set < place[i - 1].set)
            complain(b, d, path, "sets stand side by side: the number of the set cannot fall");
        if (place[i].set > b->jacks.sets)
            complain(b, d, path, "set %d of %d: give jacks.sets", place[i].set, b->jacks.sets);
    }
    if (b->jacks.count > 0 && b->jacks.sets > b->jacks.count)
        complain(b, d, "jacks.sets", "%d sets of %d jacks", b->jacks.sets, b->jacks.count);
}

/* The whole thrust is what is locked. */
static bool is_whole(double share_1) { return fabs(share_1 - 1) < 1e-9; }

static void judge_steps(const Bridge *b, Diagnostics *d)
{
    const double *stage = b->jacking.stages.item;
    const StepData *step = b->jacking.steps.item;
    const int stages = b->jacking.stages.count, steps = b->jacking.steps.count;
    for (int i = 1; i < stages; i++)
        if (stage[i] <= stage[i - 1])
            complain(b, d, "jacking.stages[2]|jacking.stages[1]",
                     "each stage goes beyond the last");
    if (stages > 0 && !is_whole(stage[stages - 1]))
        complain(b, d, "jacking.stages[1]", "the last stage is the whole thrust: 100 %%");
    if (steps > 0 && !is_whole(step[steps - 1].share_1))
        complain(b, d, "jacking.steps[1].share",
                 "the last step is the whole thrust, 100 %%: it is what the jacks are locked at");
}

/* A line that is far from the area is a slip of the pen or of units. */
static void judge_calibration(const Bridge *b, Diagnostics *d)
{
    const JackData *j = &b->jacks;
    const double slope_1 = j->calibration_slope_m2 / j->area_m2; /* NAN: no jack is chosen */
    if (!isnan(slope_1) && fabs(slope_1 - 1) > 0.2)
        complain(b, d, "jacks.calibration_slope",
                 "%.4g in^2 is not within 20 %% of the effective area, %.4g in^2",
                 quantity_in(j->calibration_slope_m2, "in^2"), quantity_in(j->area_m2, "in^2"));
    if (j->division_Pa > j->range_Pa / 10)
        complain(b, d, "jacks.gauge_division|jacks.gauge_range",
                 "a gauge with less than ten divisions judges nothing");
    if (b->jacking.seating_least_m > b->jacking.seating_most_m)
        complain(b, d, "jacking.seating_least|jacking.seating_most",
                 "the least seating of a joint is more than the most");
    if (b->jacking.alarm_slip_m > b->jacking.abort_slip_m)
        complain(b, d, "jacking.alarm_slip|jacking.abort_slip",
                 "the slip that stops the job is smaller than the one that holds it");
}

void jacks_judge(const Bridge *bridge, Diagnostics *diagnostics)
{
    judge_places(bridge, diagnostics);
    judge_steps(bridge, diagnostics);
    judge_calibration(bridge, diagnostics);
}
