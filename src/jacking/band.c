/* Expected movement and its band, from runs that differ in one thing each. */
#include <math.h>

#include "work.h"

typedef struct Runs {
    LineRead read[JACK_LINES];
} Runs;

double over_lines(const Work *work, const double *of_line)
{
    double sum = 0;
    for (int k = 0; k < work->line_count; k++) sum += work->girders[k] * of_line[k];
    return sum;
}

double mean_lines(const Work *work, const double *of_line)
{
    double sum = 0;
    for (int k = 0; k < work->line_count; k++) sum += work->weight_1[k] * of_line[k];
    return sum;
}

static Status run_lines(const Work *work, const Variant *variant, Runs *runs, Error *err)
{
    const Then none = {.from = work->ladder.step_count - 1};
    for (int k = 0; k < work->line_count; k++)
        TRY(line_read(work, k, variant, &none, &runs->read[k], err));
    return STATUS_OK;
}

/* Mean over the width, without seating: the lines as springs side by side behind a gap that opens alike
 * everywhere, each as stiff as its run says at the whole thrust. */
static void weights_set(Work *work, const Runs *runs)
{
    const int last = work->ladder.point_count - 1;
    double sum = 0;
    for (int k = 0; k < work->line_count; k++) {
        work->weight_1[k] =
            work->girders[k] * work->line[k]->share_1 / runs->read[k].opening_m[last];
        sum += work->weight_1[k];
    }
    for (int k = 0; k < work->line_count; k++) work->weight_1[k] /= sum;
}

static double mean_at(const Work *work, const Runs *runs, int point)
{
    double of_line[JACK_LINES];
    for (int k = 0; k < work->line_count; k++) of_line[k] = runs->read[k].opening_m[point];
    return mean_lines(work, of_line);
}

static double seating_m(const JackPlan *plan, double force_N, double of_all_m)
{
    return of_all_m * fmin(1, force_N / plan->seated_N);
}

static void widen(JackBand *band, JackBandPart part, double difference_m)
{
    band->below_m[part] = fmax(band->below_m[part], -difference_m);
    band->above_m[part] = fmax(band->above_m[part], difference_m);
}

/* One thing changed one way and the other. */
static Status part_run(const Work *work, const Runs *middle, JackBandPart part,
                       const Variant variant[2], JackBand *band, Error *err)
{
    Runs *runs = ARENA_NEW(work->arena, Runs, 1);
    for (int i = 0; i < 2; i++) {
        TRY(run_lines(work, &variant[i], runs, err));
        for (int p = 0; p < work->ladder.point_count; p++)
            widen(&band[p], part, mean_at(work, runs, p) - mean_at(work, middle, p));
    }
    return STATUS_OK;
}

static Status parts_run(const Work *work, const Runs *middle, JackBand *band, Error *err)
{
    const JackPlan *plan = work->plan;
    const double deck = jack_value(work, "jacking.deck_modulus_off");
    const double girder = jack_value(work, "jacking.girder_stiffness_off");
    Variant v[2] = {work->middle, work->middle};
    v[0].deck_1 = 1 - deck;
    v[1].deck_1 = 1 + deck;
    TRY(part_run(work, middle, JACK_BAND_DECK, v, band, err));
    v[0] = v[1] = work->middle;
    v[0].girder_1 = 1 - girder;
    v[1].girder_1 = 1 + girder;
    TRY(part_run(work, middle, JACK_BAND_GIRDER, v, band, err));
    v[0] = v[1] = work->middle;
    v[0].friction_1 = plan->friction_least_1;
    v[1].friction_1 = plan->friction_most_1;
    TRY(part_run(work, middle, JACK_BAND_FRICTION, v, band, err));
    v[0] = v[1] = work->middle;
    v[0].warm_K = plan->warmth.window_K;
    v[1].warm_K = -plan->warmth.window_K;
    return part_run(work, middle, JACK_BAND_WARMTH, v, band, err);
}

static double force_at(const Work *work, int point)
{
    return point < 0 ? 0 : work->ladder.share_1[point] * work->plan->thrust_N;
}

/* Of the expected line, from the point before. */
static double slope_at(const Work *work, const JackBand *band, int point)
{
    const double before_m = point > 0 ? band[point - 1].expected_m : 0;
    return (band[point].expected_m - before_m) /
           (force_at(work, point) - force_at(work, point - 1));
}

static void band_close(JackBand *band)
{
    double below_m2 = 0, above_m2 = 0;
    for (int i = 0; i < JACK_BAND_FRICTION; i++) {
        below_m2 += band->below_m[i] * band->below_m[i];
        above_m2 += band->above_m[i] * band->above_m[i];
    }
    band->low_m = band->expected_m - sqrt(below_m2);
    band->high_m = band->expected_m + sqrt(above_m2);
    for (int i = JACK_BAND_FRICTION; i < JACK_BAND_PARTS; i++) {
        band->low_m -= band->below_m[i];
        band->high_m += band->above_m[i];
    }
}

static void bands_set(const Work *work, const Runs *middle, JackBand *band)
{
    const JackPlan *plan = work->plan;
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    const double half_m = (plan->seating_most_m - plan->seating_least_m) / 2;
    for (int p = 0; p < work->ladder.point_count; p++) {
        const double force_N = force_at(work, p), mean_m = mean_at(work, middle, p);
        band[p].expected_m = mean_m + seating_m(plan, force_N, seat_m);
        for (int k = 0; k < work->line_count; k++)
            widen(&band[p], JACK_BAND_SHARING, middle->read[k].opening_m[p] - mean_m);
        band[p].below_m[JACK_BAND_SEATING] = band[p].above_m[JACK_BAND_SEATING] =
            seating_m(plan, force_N, half_m);
    }
    for (int p = 0; p < work->ladder.point_count; p++) {
        const double off_m =
            fabs(slope_at(work, band, p)) * jack_force_error_N(&plan->gear, force_at(work, p));
        band[p].below_m[JACK_BAND_GAUGE] = band[p].above_m[JACK_BAND_GAUGE] = off_m;
        band_close(&band[p]);
    }
}

static void faces_at(const Work *work, const Runs *middle, int point, double *left_m,
                     double *right_m)
{
    double left[JACK_LINES], right[JACK_LINES];
    for (int k = 0; k < work->line_count; k++) {
        left[k] = middle->read[k].left_m[point];
        right[k] = middle->read[k].right_m[point];
    }
    *left_m = mean_lines(work, left);
    *right_m = mean_lines(work, right);
}

/* Points that go beyond all before: the first loading. */
static void points_keep(const Work *work, const Runs *middle, const JackBand *band)
{
    JackPlan *plan = work->plan;
    double most_N = 0;
    plan->point_count = 1;
    for (int p = 0; p < work->ladder.point_count; p++) {
        const double force_N = force_at(work, p);
        if (force_N <= most_N * (1 + 1e-9)) continue;
        JackPoint *point = &plan->point[plan->point_count++];
        point->force_N = most_N = force_N;
        point->opening = band[p];
        faces_at(work, middle, p, &point->left_m, &point->right_m);
    }
}

/* Falls in the holds by the quicker law; never less than by the file's. */
static Status quick_run(const Work *work, Error *err)
{
    Runs *runs = ARENA_NEW(work->arena, Runs, 1);
    Variant quick = work->middle;
    double held_N[JACK_LINES];
    quick.quick = true;
    TRY(run_lines(work, &quick, runs, err));
    for (int i = 0; i < work->plan->step_count; i++) {
        JackStep *step = &work->plan->step[i];
        for (int k = 0; k < work->line_count; k++) held_N[k] = runs->read[k].held_N[i];
        step->drop_quick_N = fmax(step->drop_N, step->force_N - over_lines(work, held_N));
    }
    return STATUS_OK;
}

static void step_fill(const Work *work, const Runs *middle, const JackBand *band, int point)
{
    const int i = work->ladder.step[point];
    JackPlan *plan = work->plan;
    JackStep *step = &plan->step[i];
    double of_line[JACK_LINES];
    step->opening = band[point];
    step->slope_m_per_N = slope_at(work, band, point);
    step->division_N = plan->gear.count * plan->gear.slope_m2 * plan->gear.division_Pa;
    step->division_m = step->division_N * step->slope_m_per_N;
    faces_at(work, middle, point, &step->left_m, &step->right_m);
    for (int k = 0; k < work->line_count; k++) of_line[k] = middle->read[k].held_N[i];
    step->drop_N = step->force_N - over_lines(work, of_line);
    for (int side = 0; side < 2; side++) {
        for (int k = 0; k < work->line_count; k++) of_line[k] = middle->read[k].anchor_N[i][side];
        step->anchor_N[side] = over_lines(work, of_line);
        for (int k = 0; k < work->line_count; k++) of_line[k] = middle->read[k].slip_m[i][side];
        step->anchor_slip_m[side] = mean_lines(work, of_line);
    }
    for (int w = 0; w < plan->watch_count; w++) {
        for (int k = 0; k < work->line_count; k++) of_line[k] = middle->read[k].watch_m[i][w];
        plan->watch[w].move_m[i] = mean_lines(work, of_line);
    }
    for (int k = 0; k < work->line_count; k++)
        plan->line[k].opening_m[i] = middle->read[k].opening_m[point];
}

/* Work of the jacks without what joints swallow: deck and girders, and friction. */
static void energy_fill(const Work *work, const Runs *middle)
{
    double energy_Nm = 0, before_m = 0;
    for (int p = 0; p < work->ladder.point_count; p++) {
        const double mean_m = mean_at(work, middle, p);
        energy_Nm += 0.5 * (force_at(work, p) + force_at(work, p - 1)) * (mean_m - before_m);
        before_m = mean_m;
        if (work->ladder.step[p] >= 0) work->plan->step[work->ladder.step[p]].energy_Nm = energy_Nm;
    }
    work->plan->energy_Nm = energy_Nm;
}

Status band_fill(Work *work, Error *err)
{
    Runs *middle = ARENA_NEW(work->arena, Runs, 1);
    JackBand *band = ARENA_NEW(work->arena, JackBand, JACK_POINTS);
    TRY(run_lines(work, &work->middle, middle, err));
    weights_set(work, middle);
    TRY(parts_run(work, middle, band, err));
    bands_set(work, middle, band);
    points_keep(work, middle, band);
    for (int p = 0; p < work->ladder.point_count; p++)
        if (work->ladder.step[p] >= 0) step_fill(work, middle, band, p);
    energy_fill(work, middle);
    return quick_run(work, err);
}
