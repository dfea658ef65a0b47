/* What the lives say: shares with their intervals, thrusts, and where the uncertainty comes from. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "clench/odds.h"

static const double sure_1 = 0.95;

static OddsShare share_of(int hits, int count)
{
    OddsShare share = {.hits = hits, .count = count, .share_1 = (double)hits / count};
    share_interval(hits, count, sure_1, &share.low_1, &share.high_1);
    return share;
}

/* ---- until when ---- */

static double first_open_day(const OddsStudy *study, const float *open_day, uint32_t life)
{
    const float *day = open_day + (size_t)life * (size_t)study->joint_count;
    double first = INFINITY;
    for (int j = 0; j < study->joint_count; j++) first = fmin(first, day[j]);
    return first;
}

static double end_day(const OddsStudy *study)
{
    const LineAnswer *line = &study->design->line[0];
    return line->history->day[line->moments.end] - line->history->day[line->moments.jacked];
}

static void count_years(const OddsStudy *study, const float *open_day, OddsAnswer *out)
{
    static const double years[] = {1, 5, 10, 25, 50};
    const double year_day = 365.25, end_year = end_day(study) / year_day;
    for (size_t k = 0; k < sizeof years / sizeof *years; k++)
        if (years[k] < end_year - 0.5) out->year[out->year_count++].after_year = years[k];
    out->year[out->year_count++].after_year = end_year;
    for (int k = 0; k < out->year_count; k++) {
        int closed = 0;
        for (uint32_t i = 0; i < study->lives; i++)
            closed += first_open_day(study, open_day, i) >
                      out->year[k].after_year * year_day * (1 + 1e-6);
        out->year[k].closed = share_of(closed, (int)study->lives);
    }
}

/* ---- which thrust ---- */

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static OddsThrust thrust_for(double share_1, const double *sorted_N, int count)
{
    OddsThrust out = {.share_1 = share_1, .low_N = 0, .high_N = INFINITY};
    int low, high;
    quantile_interval(count, share_1, sure_1, &low, &high);
    if (low >= 0) out.low_N = sorted_N[low];
    if (high < count) out.high_N = sorted_N[high];
    /* the least thrust that at least this share of the lives is content with */
    const int at = (int)ceil(share_1 * count - 1e-9) - 1;
    out.need_N = sorted_N[at < 0 ? 0 : at];
    return out;
}

static void choose_thrusts(const OddsStudy *study, const double *sorted_N, OddsAnswer *out)
{
    double share[ODDS_THRUSTS] = {0.5, 0.9, 0.95, 0.99, study->odds->wanted_1};
    for (int k = 0; k + 1 < ODDS_THRUSTS; k++)
        if (fabs(share[k] - share[ODDS_THRUSTS - 1]) < 1e-9) share[k] = 0.8;
    qsort(share, ODDS_THRUSTS, sizeof *share, by_size);
    for (int k = 0; k < ODDS_THRUSTS; k++) {
        out->thrust[k] = thrust_for(share[k], sorted_N, (int)study->lives);
        if (fabs(share[k] - study->odds->wanted_1) < 1e-9) out->wanted = k;
    }
}

/* ---- how the margins spread ---- */

const double odds_band_1[ODDS_BANDS] = {0.05, 0.25, 0.5, 0.75, 0.95};

/* Lives without an answer have the least margin of all. */
static void spread_margins(const OddsStudy *study, const OddsLife *life, double *room,
                           OddsAnswer *out)
{
    for (int t = 0; t < ODDS_TIMES; t++) {
        for (uint32_t i = 0; i < study->lives; i++)
            room[i] = life[i].failed ? -(double)INFINITY : (double)life[i].margin_Pa[t];
        qsort(room, study->lives, sizeof *room, by_size);
        for (int k = 0; k < ODDS_BANDS; k++)
            out->band_Pa[k][t] = room[(uint32_t)(odds_band_1[k] * (study->lives - 1) + 0.5)];
    }
}

/* ---- which joints ---- */

static int by_closed(const void *a, const void *b)
{
    const OddsJoint *x = a, *y = b;
    const int by_hits = (x->closed.hits > y->closed.hits) - (x->closed.hits < y->closed.hits);
    if (by_hits) return by_hits;
    return x->line != y->line ? x->line - y->line : x->joint - y->joint;
}

static void count_joints(const OddsStudy *study, const float *open_day, Arena *arena,
                         OddsAnswer *out)
{
    OddsJoint *joint = ARENA_NEW(arena, OddsJoint, study->joint_count);
    int at = 0;
    for (int k = 0; k < study->design->line_count; k++)
        for (int j = 0; j < study->design->line[k].line->joint_count; j++, at++) {
            int closed = 0;
            for (uint32_t i = 0; i < study->lives; i++)
                closed += isinf(open_day[(size_t)i * (size_t)study->joint_count + (size_t)at]);
            joint[at] = (OddsJoint){k, j, share_of(closed, (int)study->lives)};
        }
    qsort(joint, (size_t)study->joint_count, sizeof *joint, by_closed);
    out->joint = joint;
    out->joint_count = study->joint_count;
}

/* ---- where the uncertainty comes from ---- */

static int by_part(const void *a, const void *b)
{
    const OddsCause *x = a, *y = b;
    const int by = (x->part_1 < y->part_1) - (x->part_1 > y->part_1);
    return by ? by : (int)x->id - (int)y->id;
}

static void mean_of_needs(const OddsStudy *study, const OddsLife *life, OddsAnswer *out)
{
    double sum = 0, square = 0;
    int count = 0;
    for (uint32_t i = 0; i < study->lives; i++)
        if (isfinite(life[i].need_N)) {
            sum += life[i].need_N;
            count++;
        }
    out->mean_N = count ? sum / count : (double)NAN;
    for (uint32_t i = 0; i < study->lives; i++)
        if (isfinite(life[i].need_N))
            square += (life[i].need_N - out->mean_N) * (life[i].need_N - out->mean_N);
    out->deviation_N = count > 1 ? sqrt(square / (count - 1)) : (double)NAN;
}

static OddsCause cause_of(const OddsStudy *study, const OddsLife *life, double mean_N, OddsId id)
{
    double zz = 0, zy = 0, yy = 0, z_mean = 0;
    int count = 0;
    for (uint32_t i = 0; i < study->lives; i++)
        if (isfinite(life[i].need_N)) {
            z_mean += odds_normal_1(study, i, id);
            count++;
        }
    z_mean /= count > 0 ? count : 1;
    for (uint32_t i = 0; i < study->lives; i++) {
        if (!isfinite(life[i].need_N)) continue;
        const double z = odds_normal_1(study, i, id) - z_mean, y = life[i].need_N - mean_N;
        zz += z * z;
        zy += z * y;
        yy += y * y;
    }
    if (study->odds->law[id].spread_1 <= 0 || zz <= 0 || yy <= 0) return (OddsCause){.id = id};
    return (OddsCause){.id = id, .part_1 = zy * zy / (zz * yy), .per_spread_N = zy / zz};
}

/* Normal values of the uncertain inputs over the lives that have a need, their means taken off. */
typedef struct Inputs {
    int count, used[ODDS_COUNT];
    double mean[ODDS_COUNT];
} Inputs;

static Inputs inputs_of(const OddsStudy *study, const OddsLife *life)
{
    Inputs in = {0};
    int lives = 0;
    for (int id = 0; id < ODDS_COUNT; id++)
        if (study->odds->law[id].spread_1 > 0) in.used[in.count++] = id;
    for (uint32_t i = 0; i < study->lives; i++) {
        if (!isfinite(life[i].need_N)) continue;
        lives++;
        for (int k = 0; k < in.count; k++)
            in.mean[k] += odds_normal_1(study, i, (OddsId)in.used[k]);
    }
    for (int k = 0; k < in.count; k++) in.mean[k] /= lives > 0 ? lives : 1;
    return in;
}

/* Share of the variance that a plane through all inputs explains: least squares by the normal equations. */
static double explained(const OddsStudy *study, const OddsLife *life, double mean_N)
{
    const Inputs in = inputs_of(study, life);
    const int n = in.count;
    double matrix[ODDS_COUNT * ODDS_COUNT] = {0}, right[ODDS_COUNT] = {0}, kept[ODDS_COUNT];
    double yy = 0, fitted = 0;
    for (uint32_t i = 0; i < study->lives; i++) {
        double z[ODDS_COUNT];
        if (!isfinite(life[i].need_N)) continue;
        const double y = life[i].need_N - mean_N;
        for (int k = 0; k < n; k++) z[k] = odds_normal_1(study, i, (OddsId)in.used[k]) - in.mean[k];
        for (int k = 0; k < n; k++) {
            right[k] += z[k] * y;
            for (int m = 0; m < n; m++) matrix[k * n + m] += z[k] * z[m];
        }
        yy += y * y;
    }
    memcpy(kept, right, sizeof kept);
    if (n == 0 || yy <= 0 || !dense_solve(n, matrix, right)) return 0;
    for (int k = 0; k < n; k++) fitted += right[k] * kept[k];
    return fitted / yy;
}

void odds_answer(const OddsStudy *study, const OddsLife *life, const float *open_day, Arena *arena,
                 OddsAnswer *answer)
{
    OddsAnswer out = {.study = study};
    double *need_N = ARENA_NEW(arena, double, study->lives);
    for (uint32_t i = 0; i < study->lives; i++) {
        out.failed += life[i].failed;
        out.never += !life[i].failed && isinf(life[i].need_N);
    }
    spread_margins(study, life, need_N, &out); /* its room, first */
    for (uint32_t i = 0; i < study->lives; i++) need_N[i] = life[i].need_N;
    qsort(need_N, study->lives, sizeof *need_N, by_size);
    out.need_N = need_N;
    count_years(study, open_day, &out);
    choose_thrusts(study, need_N, &out);
    count_joints(study, open_day, arena, &out);
    mean_of_needs(study, life, &out);
    for (int id = 0; id < ODDS_COUNT; id++)
        out.cause[id] = cause_of(study, life, out.mean_N, (OddsId)id);
    out.explained_1 = explained(study, life, out.mean_N);
    qsort(out.cause, ODDS_COUNT, sizeof *out.cause, by_part);
    *answer = out;
}
