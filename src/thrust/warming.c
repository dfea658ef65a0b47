/* How the stress of a fibre by a gradient comes about: rise over the layers of its part, forces, section. */
#include <math.h>

#include "live.h"

/* ---- layers ---- */

/* Straight between points; of a step at `x` the side where `inside` lies, which is no point. */
static double straight_in(const double *at, const double *value, int count, double inside, double x)
{
    int i = 0;
    while (i + 2 < count && inside > at[i + 1]) i++;
    return value[i] + (value[i + 1] - value[i]) * (x - at[i]) / (at[i + 1] - at[i]);
}

/* Rise at a depth below the deck top, seen from `inside`: zero below the last point. */
static double rise_in(const Gradient *g, double inside, double x)
{
    if (g->count == 0 || inside > g->depth_m[g->count - 1]) return 0;
    if (g->count == 1 || inside < g->depth_m[0]) return g->rise_K[0];
    return straight_in(g->depth_m, g->rise_K, g->count, inside, x);
}

/* The next point of either list below x; INFINITY: none. */
static double next_point(const double *at, int count, double offset, double x)
{
    for (int i = 0; i < count; i++)
        if (at[i] + offset > x + 1e-9) return at[i] + offset;
    return INFINITY;
}

static WarmLayer layer_between(const PartSection *section, const Gradient *gradient, double top_m,
                               double from_m, double to_m)
{
    const WidthProfile *p = &section->profile;
    const double inside = 0.5 * (from_m + to_m), h = to_m - from_m;
    WarmLayer w = {.y_m = from_m - section->top_m, .height_m = h};
    w.top_width_m = straight_in(p->depth_m, p->width_m, p->count, inside, from_m);
    w.bottom_width_m = straight_in(p->depth_m, p->width_m, p->count, inside, to_m);
    w.top_K = rise_in(gradient, top_m + inside, top_m + from_m);
    w.bottom_K = rise_in(gradient, top_m + inside, top_m + to_m);
    const double tt = w.top_width_m * w.top_K, bb = w.bottom_width_m * w.bottom_K;
    const double cross = w.top_width_m * w.bottom_K + w.bottom_width_m * w.top_K;
    w.sum_K_m2 = h * (2 * tt + cross + 2 * bb) / 6;
    w.moment_K_m3 = w.y_m * w.sum_K_m2 + h * h * (tt + cross + 3 * bb) / 12;
    return w;
}

/* Pieces between all points of widths and of the profile, which starts top_m above the part's top. */
static void find_layers(const PartSection *section, const Gradient *gradient, double top_m,
                        GradientWorking *out)
{
    const WidthProfile *p = &section->profile;
    const double depth_m = p->depth_m[p->count - 1];
    double from_m = 0;
    while (from_m < depth_m && out->layer_count < WARM_LAYERS_MAX) {
        const double width_m = next_point(p->depth_m, p->count, 0, from_m);
        const double point_m = next_point(gradient->depth_m, gradient->count, -top_m, from_m);
        const double to_m = fmin(fmin(width_m, point_m), depth_m);
        const WarmLayer one = layer_between(section, gradient, top_m, from_m, to_m);
        if (one.top_K != 0 || one.bottom_K != 0) out->layer[out->layer_count++] = one;
        from_m = to_m;
    }
}

/* ---- the fibre ---- */

bool live_gradient(const LiveLines *lines, const Gradient *gradient, const StageEffect *effect,
                   Arena *scratch, GradientWorking *out)
{
    const int n = lines->line->model.station_count;
    const PartSection *section = live_section(lines, effect);
    FreeField free;
    if (!section || !stage_free_field(lines->structure, gradient->depth_m, gradient->rise_K,
                                      gradient->count, effect, &free))
        return false;
    const size_t mark = arena_mark(scratch);
    FibreStress *deck = ARENA_NEW(scratch, FibreStress, 2 * n);
    FibreStress *girder = ARENA_NEW(scratch, FibreStress, 2 * n);
    stage_temperature(lines->structure, gradient->depth_m, gradient->rise_K, gradient->count, deck,
                      girder, scratch);
    const FibreStress at =
        (effect->chain == CHAIN_DECK ? deck : girder)[2 * effect->station + (effect->side > 0)];
    arena_reset(scratch, mark);
    const double alpha = free.expansion_per_K, y_m = live_y_m(section, effect->top);
    *out = (GradientWorking){.N_N = at.N_N,
                             .M_Nm = at.M_Nm,
                             .area_m2 = section->area_m2,
                             .inertia_m4 = section->inertia_m4,
                             .y_m = y_m,
                             .E_Pa = free.E_Pa,
                             .expansion_per_K = alpha,
                             .stress_Pa = effect->top ? at.top_Pa : at.bottom_Pa};
    out->widths = free.rest;
    if (free.rest) find_layers(section, gradient, free.centre_m - section->top_m, out);
    if (!(alpha > 0)) return true;
    out->mean_K = free.axial_1 / alpha;
    out->slope_K_per_m = free.curvature_per_m / alpha;
    out->rise_K = free.rest ? (effect->top ? free.top_1 : free.bottom_1) / alpha
                            : out->mean_K + out->slope_K_per_m * y_m;
    return true;
}
