#include "walk.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double slack_m = 1e-9; /* an axle set on an end of the line stands on it */

/* ---- the clipped line ---- */

static bool is_vertex(const Clip *c, int i)
{
    if (!(c->u[i] > 0)) return false;
    if (i == 0 || i + 1 == c->count) return true; /* jumps to zero */
    const double before = (c->u[i] - c->u[i - 1]) * (c->x[i + 1] - c->x[i]);
    const double after = (c->u[i + 1] - c->u[i]) * (c->x[i] - c->x[i - 1]);
    return before > after;
}

Clip clip_make(const InfluenceLine *line, int sign, bool mirrored, double *work)
{
    const int n = line->count;
    assert(n >= 2);
    Clip c = {.count = n, .x = work, .u = work + n};
    c.vertex_x = c.u + n;
    c.vertex_u = c.vertex_x + n;
    c.room = c.vertex_u + n;
    for (int i = 0; i < n; i++) {
        const int from = mirrored ? n - 1 - i : i;
        c.x[i] = mirrored ? -line->x_m[from] : line->x_m[from];
        c.u[i] = sign * line->value[from];
        assert(i == 0 || c.x[i] > c.x[i - 1]);
    }
    for (int i = 0; i < n; i++)
        if (is_vertex(&c, i)) {
            c.vertex_x[c.vertex_count] = c.x[i];
            c.vertex_u[c.vertex_count++] = c.u[i];
            if (c.u[i] > c.peak) c.peak = c.u[i];
        }
    return c;
}

double clip_area(const Clip *c)
{
    double area = 0;
    for (int i = 0; i + 1 < c->count; i++) {
        const double h = c->x[i + 1] - c->x[i];
        const double a = fmax(c->u[i], c->u[i + 1]), b = fmin(c->u[i], c->u[i + 1]);
        if (b >= 0)
            area += h * (a + b) / 2;
        else if (a > 0)
            area += h * a / (a - b) * a / 2; /* the triangle above zero */
    }
    return area;
}

double clip_at(const Clip *c, double x, int *hint)
{
    if (x < c->x[0] - slack_m || x > c->x[c->count - 1] + slack_m) return 0;
    int i = *hint;
    while (i + 2 < c->count && x > c->x[i + 1]) i++;
    while (i > 0 && x < c->x[i]) i--;
    *hint = i;
    const double slope = (c->u[i + 1] - c->u[i]) / (c->x[i + 1] - c->x[i]);
    const double u = c->u[i] + slope * (x - c->x[i]);
    return u > 0 ? u : 0;
}

/* ---- one vehicle ---- */

static bool is_fixed(const Vehicle *v, int gap) { return v->gap_max_m[gap] == v->gap_min_m[gap]; }

/* Offsets of the axle behind, a gap further on; `load` keeps pace. */
static void add_offsets(Walk *w, int axle, double gap, const double *load_behind)
{
    for (int i = 0; i < w->offset_count[axle + 1]; i++) {
        const int at = w->offset_count[axle]++;
        assert(at < OFFSETS_MAX);
        w->offset[axle][at] = gap + w->offset[axle + 1][i];
        w->load[at] = load_behind[i];
    }
}

void walk_start(Walk *w, const Clip *clip, const Vehicle *v)
{
    w->clip = clip;
    w->vehicle = v;
    for (int axle = v->axle_count - 1; axle >= 0; axle--) {
        double behind[OFFSETS_MAX];
        const bool last = axle + 1 == v->axle_count;
        if (!last) memcpy(behind, w->load, sizeof behind[0] * (size_t)w->offset_count[axle + 1]);
        w->rest[axle] = last ? 0 : w->rest[axle + 1] + v->axle_N[axle + 1];
        w->offset[axle][0] = 0;
        w->load[0] = v->axle_N[axle];
        w->offset_count[axle] = 1;
        w->hint[axle] = 0;
        if (!last) add_offsets(w, axle, v->gap_min_m[axle], behind);
        if (!last && !is_fixed(v, axle)) add_offsets(w, axle, v->gap_max_m[axle], behind);
    }
    w->low_hint = w->high_hint = 0;
    w->low = w->high = (double)INFINITY; /* the first window starts afresh */
    w->queue_x = clip->room;
    w->queue_u = clip->room + clip->count;
}

/* Largest g in [low, high]: at one of the ends or at a vertex between. The queue holds the vertices
 * that no later, higher one has made useless (sliding-window maximum); the window starts afresh
 * where it moves back. */
static double window_best(Walk *w, double low, double high)
{
    const Clip *c = w->clip;
    if (low < w->low || high < w->high) w->queue_from = w->queue_to = w->next = 0;
    w->low = low;
    w->high = high;
    for (; w->next < c->vertex_count && c->vertex_x[w->next] <= high; w->next++) {
        const double u = c->vertex_u[w->next];
        while (w->queue_to > w->queue_from && w->queue_u[w->queue_to - 1] <= u) w->queue_to--;
        w->queue_x[w->queue_to] = c->vertex_x[w->next];
        w->queue_u[w->queue_to++] = u;
    }
    while (w->queue_from < w->queue_to && w->queue_x[w->queue_from] < low) w->queue_from++;
    const double at_low = clip_at(c, low, &w->low_hint), at_high = clip_at(c, high, &w->high_hint);
    double best = at_low > at_high ? at_low : at_high;
    if (w->queue_from < w->queue_to && w->queue_u[w->queue_from] > best)
        best = w->queue_u[w->queue_from];
    return best;
}

static double effect_from(Walk *w, int axle, double x, double floor);

/* Best effect of the axles from `axle` on, that one in [low, high]. */
static double best_behind(Walk *w, int axle, double low, double high, double floor)
{
    const Clip *c = w->clip;
    if (axle + 1 == w->vehicle->axle_count)
        return w->vehicle->axle_N[axle] * window_best(w, low, high);
    double best = fmax(floor, effect_from(w, axle, low, floor));
    best = fmax(best, effect_from(w, axle, high, best));
    for (int k = 0; k < w->offset_count[axle]; k++)
        for (int j = 0; j < c->vertex_count; j++) {
            const double x = c->vertex_x[j] + w->offset[axle][k];
            if (x > low && x < high) best = fmax(best, effect_from(w, axle, x, best));
        }
    return best;
}

/* Effect of the axles from `axle` on, that one at x and every variable gap at its best. May stop
 * early, with less, where all the rest on the peak would not bring it above `floor`. */
static double effect_from(Walk *w, int axle, double x, double floor)
{
    const Vehicle *v = w->vehicle;
    double sum = v->axle_N[axle] * clip_at(w->clip, x, &w->hint[axle]);
    for (; axle + 1 < v->axle_count; axle++) {
        if (sum + w->rest[axle] * w->clip->peak <= floor) return sum;
        const double high = x - v->gap_min_m[axle];
        if (!is_fixed(v, axle))
            return sum + best_behind(w, axle + 1, x - v->gap_max_m[axle], high, floor - sum);
        x = high;
        sum += v->axle_N[axle + 1] * clip_at(w->clip, x, &w->hint[axle + 1]);
    }
    return sum;
}

/* What a search above a floor brings back as no more than the floor may stand a rounding above it: its
 * place is then not the one of the floor. */
static bool is_more(double effect, double than)
{
    static const double rounding_1 = 1e-12;
    return effect > than + rounding_1 * fabs(than);
}

/* Every axle on every vertex, each variable gap before it at its ends or at its best. From the last
 * axle on: it is rarely the light one, and a good start spares most of the others. */
Best walk_best(Walk *w, double floor)
{
    const Clip *c = w->clip;
    const double total = w->vehicle->axle_N[0] + w->rest[0];
    Best best = {floor, c->x[0]};
    for (int k = w->offset_count[0] - 1; k >= 0; k--)
        for (int j = 0; j < c->vertex_count; j++) {
            if (w->load[k] * c->vertex_u[j] + (total - w->load[k]) * c->peak <= best.effect)
                continue;
            const double x = c->vertex_x[j] + w->offset[0][k];
            const double effect = effect_from(w, 0, x, best.effect);
            if (is_more(effect, best.effect)) best = (Best){effect, x};
        }
    return best;
}

/* ---- two vehicles ---- */

/* alone[k * n + j]: effect of one vehicle, axle k on vertex j; `most` the largest of them, which no
 * place of a vehicle exceeds; `reach` from lead axle to lead axle. */
typedef struct Train {
    Walk *walk;
    double reach, most;
    const double *alone;
    int axles, n;
} Train;

static double lead_place(const Train *t, int axle, int vertex)
{
    return t->walk->clip->vertex_x[vertex] + t->walk->offset[0][axle];
}

/* The lead vehicle with an axle on a vertex, the other where it does best: on a vertex too (a running
 * maximum) or right at `reach`. */
static Best lead_on_vertex(const Train *t, Best best)
{
    for (int k = 0; k < t->axles; k++) {
        int passed[TRAIN_AXLES_MAX] = {0};
        double behind = 0;
        for (int j = 0; j < t->n; j++) {
            const double lead_effect = t->alone[k * t->n + j];
            if (lead_effect + t->most <= best.effect) continue;
            const double lead = lead_place(t, k, j), free = lead - t->reach;
            for (int m = 0; m < t->axles; m++)
                for (; passed[m] < t->n && lead_place(t, m, passed[m]) <= free; passed[m]++)
                    behind = fmax(behind, t->alone[m * t->n + passed[m]]);
            const double close = effect_from(t->walk, 0, free, best.effect - lead_effect);
            const double effect = lead_effect + fmax(close, behind);
            if (is_more(effect, best.effect)) best = (Best){effect, lead};
        }
    }
    return best;
}

/* The vehicle behind with an axle on a vertex, the lead one right at `reach`. */
static Best close_on_vertex(const Train *t, Best best)
{
    for (int k = 0; k < t->axles; k++)
        for (int j = 0; j < t->n; j++) {
            const double behind = t->alone[k * t->n + j];
            if (behind + t->most <= best.effect) continue;
            const double lead = lead_place(t, k, j) + t->reach;
            const double effect = behind + effect_from(t->walk, 0, lead, best.effect - behind);
            if (is_more(effect, best.effect)) best = (Best){effect, lead};
        }
    return best;
}

Best walk_train(Walk *w, double gap, double floor)
{
    const Clip *c = w->clip;
    const int axles = w->vehicle->axle_count, n = c->vertex_count;
    assert(axles <= TRAIN_AXLES_MAX && w->offset_count[0] == axles); /* fixed gaps: one an axle */
    double *const alone = c->room; /* no variable gap: the queue is not used */
    Train t = {w, w->offset[0][axles - 1] + gap, 0, alone, axles, n};
    for (int k = 0; k < axles; k++)
        for (int j = 0; j < n; j++) {
            alone[k * n + j] = effect_from(w, 0, lead_place(&t, k, j), -1);
            t.most = fmax(t.most, alone[k * n + j]);
        }
    const Best none = {floor, c->x[0]};
    return 2 * t.most <= floor ? none : close_on_vertex(&t, lead_on_vertex(&t, none));
}
