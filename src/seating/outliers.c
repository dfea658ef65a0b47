/* Readings that are off the curve through their neighbours. */
#include <math.h>

#include "work.h"

typedef struct Left {
    int count, *index; /* readings of a piece that are still believed */
    double *x_m, *off_m, *other_x_m, *other_off_m;
} Left;

/* Residual over the standard deviation that one unit of noise gives it; `spared`: without what the shape of
 * the curve may make of it, so that a bent girder is no outlier at its ends. */
static double residual(const Left *l, int i, bool spared)
{
    int n = 0;
    for (int k = 0; k < l->count; k++)
        if (k != i) {
            l->other_x_m[n] = l->x_m[k];
            l->other_off_m[n++] = l->off_m[k];
        }
    const Between b = survey_between(l->other_x_m, n, l->x_m[i], true);
    double noise = 1;
    for (int k = 0; k < b.count; k++) noise += b.weight_1[k] * b.weight_1[k];
    const double size_m = fabs(l->off_m[i] - survey_value(&b, l->other_off_m));
    const double doubt_m =
        spared ? survey_doubt(l->other_x_m, l->other_off_m, n, l->x_m[i], true) : 0;
    return fmax(0, size_m - doubt_m) / sqrt(noise);
}

static void left_make(const Work *w, const SeatGirder *g, const double *off_m, Left *l)
{
    *l = (Left){.index = ARENA_NEW(w->result, int, g->count),
                .x_m = ARENA_NEW(w->result, double, g->count),
                .off_m = ARENA_NEW(w->result, double, g->count),
                .other_x_m = ARENA_NEW(w->result, double, g->count),
                .other_off_m = ARENA_NEW(w->result, double, g->count)};
    for (int i = 0; i < g->count; i++) {
        if (w->reading[g->first + i].line < 0) continue; /* confirmed: odd, but true */
        l->index[l->count] = g->first + i;
        l->x_m[l->count] = w->reading[g->first + i].x_m;
        l->off_m[l->count++] = off_m[g->first + i];
    }
}

/* How rough all readings are about their neighbours; never less than the survey's own noise. */
double outliers_roughness_m(const Work *w, const double *off_m, double *all)
{
    int n = 0;
    for (int p = 0; p < w->plan->piece_count; p++) {
        Left l;
        left_make(w, &w->piece[p], off_m, &l);
        for (int i = 1; i + 1 < l.count && l.count > 3; i++) all[n++] = residual(&l, i, false);
    }
    const double normal_1 = 0.6745; /* of a standard deviation: median of sizes */
    return n ? readings_median(all, n) / normal_1 : 0;
}

static void left_strike(Left *l, int i)
{
    for (int k = i; k + 1 < l->count; k++) {
        l->index[k] = l->index[k + 1];
        l->x_m[k] = l->x_m[k + 1];
        l->off_m[k] = l->off_m[k + 1];
    }
    l->count--;
}

Status outliers_refuse(Work *w, const SeatGirder *g, const double *off_m, double spread_m)
{
    const double most_1 = seat_value(w->bridge, "survey.outlier");
    Status status = STATUS_OK;
    Left l;
    left_make(w, g, off_m, &l);
    while (l.count > 4) {
        int worst = -1;
        double size = most_1;
        for (int i = 0; i < l.count; i++) {
            const double r = residual(&l, i, true) / spread_m;
            if (r > size) {
                size = r;
                worst = i;
            }
        }
        if (worst < 0) return status;
        const int at = l.index[worst];
        const double x_at_m = l.x_m[worst], off_at_m = l.off_m[worst];
        left_strike(&l, worst);
        const Between b = survey_between(l.x_m, l.count, x_at_m, true);
        const double away_m = off_at_m - survey_value(&b, l.off_m);
        status = readings_refuse(
            w, w->reading[at].line, "elevation",
            "G%d at %s is %s %s what its neighbours say, %.1f standard deviations: read "
            "it again, or write \"confirmed\" into its note",
            g->girder + 1, seat_place_m(w, x_at_m), seat_length(w, fabs(away_m)),
            away_m > 0 ? "above" : "below", size);
    }
    return status;
}
