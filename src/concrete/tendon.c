/* Stress along a tendon in its duct: what friction leaves while it is pulled, and what the draw-in of
 * the wedges takes back, where friction turns round. AASHTO LRFD 5.9.3.2.1 and 5.9.3.2.2b (from
 * memory): f = f_j exp(-(K x + mu alpha)). Exact for a path whose turning grows straight between its
 * points: s = K x + mu alpha measures the tendon, every branch is an exponential of s. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "clench/concrete.h"

enum { PATH_MAX = 16, BREAKS_MAX = PATH_MAX + 4, HALVINGS = 60 };

/* One tendon by s; seated stresses at both anchors, INFINITY at an end that is not pulled. */
typedef struct Tendon {
    const TendonPull *pull;
    const TendonPath *path;
    double s_1[PATH_MAX];
    double all_1; /* s at the right end */
    double left_Pa, right_Pa;
} Tendon;

static double pulled_at(const Tendon *t, double s)
{
    const double left = t->pull->left ? t->pull->jack_Pa * exp(-s) : 0;
    const double right = t->pull->right ? t->pull->jack_Pa * exp(s - t->all_1) : 0;
    return fmax(left, right);
}

/* Where the tendon stands still while the wedges draw in: to its left it moves to the right. */
static double still_at(const Tendon *t)
{
    if (!t->pull->left) return 0;
    if (!t->pull->right) return t->all_1;
    return fmin(fmax(0.5 * (t->all_1 + log(t->right_Pa / t->left_Pa)), 0), t->all_1);
}

static double seated_at(const Tendon *t, double s)
{
    const double left = t->pull->left ? t->left_Pa * exp(s) : (double)INFINITY;
    const double right = t->pull->right ? t->right_Pa * exp(t->all_1 - s) : (double)INFINITY;
    return fmin(pulled_at(t, s), fmin(left, right));
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Integral over x of f exp(+-(s - s_a)) between two s of one stretch, f at its begin. */
static double exponential(double from, double to, double ds, double dx)
{
    return fabs(ds) < 1e-12 || from == to ? 0.5 * (from + to) * dx
                                          : dx * (to - from) / log(to / from);
}

/* Movement of the tendon, integral of (pulled - seated) / E over x, of a stretch of the path between
 * two s: both stresses are one exponential each between the breaks. */
static double stretch_moved(const Tendon *t, int k, double from, double to)
{
    const double whole = t->s_1[k + 1] - t->s_1[k];
    const double dx = (t->path->x_m[k + 1] - t->path->x_m[k]) * (to - from) / whole;
    const double pulled = exponential(pulled_at(t, from), pulled_at(t, to), to - from, dx);
    const double seated = exponential(seated_at(t, from), seated_at(t, to), to - from, dx);
    return (pulled - seated) / t->pull->modulus_Pa;
}

static double moved(const Tendon *t, double from, double to)
{
    double cut[BREAKS_MAX] = {0.5 * t->all_1, still_at(t)};
    int cuts = 2;
    if (t->pull->left) cut[cuts++] = 0.5 * log(t->pull->jack_Pa / t->left_Pa);
    if (t->pull->right) cut[cuts++] = t->all_1 - 0.5 * log(t->pull->jack_Pa / t->right_Pa);
    for (int k = 0; k < t->path->count; k++) cut[cuts++] = t->s_1[k];
    qsort(cut, (size_t)cuts, sizeof *cut, by_size);
    double sum = 0;
    for (int i = 0; i + 1 < cuts; i++) {
        const double a = fmax(cut[i], from), b = fmin(cut[i + 1], to);
        if (!(b > a)) continue;
        int k = 0;
        while (k + 2 < t->path->count && t->s_1[k + 1] < 0.5 * (a + b)) k++;
        sum += stretch_moved(t, k, a, b);
    }
    return sum;
}

/* The right anchor for the left one as it stands. */
static void seat_right(Tendon *t)
{
    double low = 0, high = t->pull->jack_Pa;
    for (int i = 0; i < HALVINGS; i++) {
        t->right_Pa = 0.5 * (low + high);
        if (moved(t, still_at(t), t->all_1) > t->pull->set_m)
            low = t->right_Pa;
        else
            high = t->right_Pa;
    }
}

static void seat(Tendon *t)
{
    double low = 0, high = t->pull->jack_Pa;
    t->left_Pa = t->right_Pa = (double)INFINITY;
    if (!t->pull->left) {
        seat_right(t);
        return;
    }
    for (int i = 0; i < HALVINGS; i++) {
        t->left_Pa = 0.5 * (low + high);
        if (t->pull->right) seat_right(t);
        if (moved(t, 0, still_at(t)) > t->pull->set_m)
            low = t->left_Pa;
        else
            high = t->left_Pa;
    }
}

static Tendon tendon_of(const TendonPull *pull, const TendonPath *path)
{
    Tendon t = {.pull = pull, .path = path};
    assert(path->count >= 2 && path->count <= PATH_MAX && (pull->left || pull->right));
    for (int k = 0; k < path->count; k++)
        t.s_1[k] = pull->wobble_per_m * (path->x_m[k] - path->x_m[0]) +
                   pull->friction_1 * (path->turn_rad[k] - path->turn_rad[0]);
    /* without any friction s would not grow: one part in a million stands for it */
    for (int k = 0; k < path->count; k++)
        t.s_1[k] +=
            1e-6 * (path->x_m[k] - path->x_m[0]) / (path->x_m[path->count - 1] - path->x_m[0]);
    t.all_1 = t.s_1[path->count - 1];
    return t;
}

static double x_of(const Tendon *t, double s)
{
    int k = 0;
    while (k + 2 < t->path->count && t->s_1[k + 1] < s) k++;
    const double part = (s - t->s_1[k]) / (t->s_1[k + 1] - t->s_1[k]);
    return t->path->x_m[k] + part * (t->path->x_m[k + 1] - t->path->x_m[k]);
}

TendonSeat tendon_seat(const TendonPull *pull, const TendonPath *path)
{
    Tendon t = tendon_of(pull, path);
    TendonSeat out = {.left_Pa = (double)INFINITY, .right_Pa = (double)INFINITY};
    seat(&t);
    if (pull->left) out.left_Pa = t.left_Pa;
    if (pull->right) out.right_Pa = t.right_Pa;
    /* beyond the middle, where both pulls meet, a draw-in is felt as far as the tendon moves at all */
    const double still = still_at(&t), middle = 0.5 * t.all_1;
    const bool both = pull->left && pull->right;
    double from = pull->left ? 0.5 * log(pull->jack_Pa / t.left_Pa) : 0;
    double to = pull->right ? t.all_1 - 0.5 * log(pull->jack_Pa / t.right_Pa) : t.all_1;
    if (from > still || (both && from > middle)) from = still;
    if (to < still || (both && to < middle)) to = still;
    out.left_reach_m = x_of(&t, from) - path->x_m[0];
    out.right_reach_m = path->x_m[path->count - 1] - x_of(&t, to);
    out.slack = moved(&t, 0, t.all_1) < 0.999 * pull->set_m * (pull->left + pull->right);
    return out;
}

static double s_of(const Tendon *t, double x_m)
{
    int k = 0;
    while (k + 2 < t->path->count && t->path->x_m[k + 1] < x_m) k++;
    const double part = (x_m - t->path->x_m[k]) / (t->path->x_m[k + 1] - t->path->x_m[k]);
    return t->s_1[k] + part * (t->s_1[k + 1] - t->s_1[k]);
}

TendonStress tendon_at(const TendonPull *pull, const TendonPath *path, const TendonSeat *seat,
                       double x_m)
{
    Tendon t = tendon_of(pull, path);
    t.left_Pa = seat->left_Pa;
    t.right_Pa = seat->right_Pa;
    const double s = s_of(&t, x_m);
    return (TendonStress){pulled_at(&t, s), seated_at(&t, s)};
}

double tendon_stretch_m(const TendonPull *pull, const TendonPath *path)
{
    Tendon t = tendon_of(pull, path);
    double sum = 0;
    const double mid = pull->left && pull->right ? 0.5 * t.all_1 : -1;
    for (int k = 0; k + 1 < path->count; k++) {
        const double cut[3] = {t.s_1[k], fmin(fmax(mid, t.s_1[k]), t.s_1[k + 1]), t.s_1[k + 1]};
        for (int i = 0; i < 2; i++) {
            const double ds = cut[i + 1] - cut[i];
            const double dx = (path->x_m[k + 1] - path->x_m[k]) * ds / (t.s_1[k + 1] - t.s_1[k]);
            if (ds > 0)
                sum += exponential(pulled_at(&t, cut[i]), pulled_at(&t, cut[i + 1]), ds, dx);
        }
    }
    return sum / pull->modulus_Pa;
}
