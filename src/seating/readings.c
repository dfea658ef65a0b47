/* From rows of the survey to readings of each girder: in order, put together, without gaps, outliers and
 * wrong units. What is refused is named; what is repaired is told. */
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "work.h"

static const double same_m = 0.15; /* nearer readings are of one point */

Status readings_refuse(Work *w, int line, const char *key, const char *format, ...)
{
    char text[sizeof((Error *)0)->text];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    const Place place = {line, line > 0};
    Error err = {0};
    error_at(&err, STATUS_BAD_INPUT, place, place, key, "%s", text);
    diagnostics_add(w->list, &err);
    return STATUS_BAD_INPUT;
}

/* ---- units and datum ---- */

typedef struct Slip {
    double factor_1;
    const char *words;
} Slip;
/* How many times too large values are that were written in one unit under the head of another. */
static const Slip slips[] = {{12, "inches under a head in feet"},
                             {1 / 12.0, "feet under a head in inches"},
                             {1 / 0.3048, "feet under a head in metres"},
                             {0.3048, "metres under a head in feet"},
                             {1000, "millimetres under a head in metres"},
                             {0.001, "metres under a head in millimetres"},
                             {100, "centimetres under a head in metres"},
                             {1000 * 0.3048, "millimetres under a head in feet"},
                             {1 / 0.0254, "inches under a head in metres"}};

static const char *slip_words(double ratio_1)
{
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
        if (fabs(ratio_1 / slips[i].factor_1 - 1) < 0.04) return slips[i].words;
    return NULL;
}

static Status check_stations(Work *w)
{
    const Survey *s = w->wish->survey;
    const double length_m = w->plan->length_m, start_m = w->plan->grade.left_end_m;
    const double side_m = fabs(w->plan->skew_1) * w->deck_half_m + 10;
    double least_m = INFINITY, most_m = -INFINITY;
    if (s->row[0].along) return STATUS_OK;
    for (int i = 0; i < s->count; i++) {
        least_m = fmin(least_m, s->row[i].at_m - start_m);
        most_m = fmax(most_m, s->row[i].at_m - start_m);
    }
    const double over_m = most_m - least_m;
    const char *words = slip_words(over_m / length_m);
    if (words && fabs(over_m - length_m) > side_m)
        return readings_refuse(w, 0, "station",
                               "the stations go over %s, the bridge is %s long: as if they were %s",
                               seat_place_m(w, over_m), seat_place_m(w, length_m), words);
    if (least_m > length_m || most_m < 0)
        return readings_refuse(
            w, 0, "station",
            "the stations go from %s to %s, the bridge from %s to %s (profile.left_end)",
            seat_place_m(w, least_m + start_m), seat_place_m(w, most_m + start_m),
            seat_place_m(w, start_m), seat_place_m(w, start_m + length_m));
    return STATUS_OK;
}

/* ---- which girder a row is of ---- */

/* Piece of a girder in a unit at x, the nearest. */
static int piece_near(const Work *w, int girder, int unit, double x_m)
{
    int best = -1;
    double least_m = INFINITY;
    for (int p = 0; p < w->plan->piece_count; p++) {
        const SeatGirder *g = &w->piece[p];
        if (g->girder != girder || (unit >= 0 && g->unit != unit)) continue;
        const double off_m = fmax(fmax(g->from_m - x_m, x_m - g->to_m), 0);
        if (off_m < least_m) {
            least_m = off_m;
            best = p;
        }
    }
    return best;
}

static int unit_of_span(const Work *w, int span)
{
    for (int u = 0; u < w->seats->unit_count; u++) {
        const SeatUnit *unit = &w->seats->unit[u];
        if (span > unit->first_span && span < unit->first_span + unit->support_count) return u;
    }
    return -1;
}

/* x of the row, and the piece that it lies on. */
static Status row_place(Work *w, const SurveyRow *row, double *x_m, int *piece)
{
    const int unit = row->span ? unit_of_span(w, row->span) : -1;
    if (row->span && unit < 0)
        return readings_refuse(w, row->line, "span", "there is no span %d", row->span);
    *x_m = row->at_m - w->plan->grade.left_end_m;
    if (row->along) {
        const SeatUnit *u = &w->seats->unit[unit];
        *x_m = u->start_m + u->support_m[row->span - 1 - u->first_span] + row->at_m +
               seat_z_m(w, row->girder) * w->plan->skew_1;
    }
    *piece = piece_near(w, row->girder, unit, *x_m);
    const SeatGirder *g = &w->piece[*piece];
    const double reach_m = seat_value(w->bridge, "survey.reach");
    if (*x_m < g->from_m - reach_m - 1e-6 || *x_m > g->to_m + reach_m + 1e-6)
        return readings_refuse(w, row->line, row->along ? "distance" : "station",
                               "G%d ends at %s: the reading at %s is beside it", row->girder + 1,
                               seat_place_m(w, *x_m < g->from_m ? g->from_m : g->to_m),
                               seat_place_m(w, *x_m));
    for (int p = 0; unit < 0 && p < w->plan->piece_count; p++)
        if (p != *piece && w->piece[p].girder == row->girder &&
            (fabs(w->piece[p].from_m - *x_m) < 0.002 || fabs(w->piece[p].to_m - *x_m) < 0.002) &&
            (fabs(g->from_m - *x_m) < 0.002 || fabs(g->to_m - *x_m) < 0.002))
            return readings_refuse(
                w, row->line, "station",
                "two girders end at %s: a column span says which of them was read",
                seat_place_m(w, *x_m));
    return STATUS_OK;
}

/* ---- readings of one point ---- */

typedef struct Raw {
    int piece, row;
    double x_m;
} Raw;

static int by_place(const void *a, const void *b)
{
    const Raw *p = a, *q = b;
    if (p->piece != q->piece) return p->piece < q->piece ? -1 : 1;
    if (p->x_m != q->x_m) return p->x_m < q->x_m ? -1 : 1;
    return p->row < q->row ? -1 : 1;
}

/* Least squares z = z0 + roll * offset of the rows of a point; level where no two offsets differ. */
static Status point_make(Work *w, const Raw *raw, int count, SeatReading *made, int *doubled)
{
    const SurveyRow *row = w->wish->survey->row;
    const double deviation_m = seat_value(w->bridge, "survey.deviation");
    double x_m = 0, z_m = 0, o_m = 0, oo = 0, oz = 0, off_m = 0;
    bool confirmed = true;
    for (int i = 0; i < count; i++) {
        const SurveyRow *r = &row[raw[i].row];
        const double offset_m = isnan(r->offset_m) ? 0 : r->offset_m;
        x_m += raw[i].x_m / count;
        z_m += r->elevation_m / count;
        o_m += offset_m / count;
        confirmed = confirmed && r->confirmed;
    }
    for (int i = 0; i < count; i++) {
        const SurveyRow *r = &row[raw[i].row];
        const double d_m = (isnan(r->offset_m) ? 0 : r->offset_m) - o_m;
        oo += d_m * d_m;
        oz += d_m * (r->elevation_m - z_m);
    }
    const double roll_1 = oo > 1e-4 ? oz / oo : 0;
    for (int i = 0; i < count; i++) {
        const SurveyRow *r = &row[raw[i].row];
        const double d_m = (isnan(r->offset_m) ? 0 : r->offset_m) - o_m;
        off_m = fmax(off_m, fabs(r->elevation_m - z_m - roll_1 * d_m));
    }
    const SurveyRow *first = &row[raw[0].row];
    *made = (SeatReading){x_m, z_m - roll_1 * o_m, roll_1, confirmed ? -first->line : first->line};
    if (w->plan->flanges > 1 && fabs(o_m) > 0.05 && oo <= 1e-4)
        return readings_refuse(
            w, first->line, "offset",
            "G%d at %s is read on one flange alone: the other one must be read too",
            first->girder + 1, seat_place_m(w, x_m));
    if (off_m > 3 * deviation_m)
        return readings_refuse(
            w, first->line, "elevation",
            "G%d at %s is read %d times, the last time in line %d, and they differ by %s: "
            "strike the wrong one",
            first->girder + 1, seat_place_m(w, x_m), count, row[raw[count - 1].row].line,
            seat_length(w, 2 * off_m));
    *doubled += count > 1 && oo <= 1e-4;
    return STATUS_OK;
}

static Status points_make(Work *w, const Raw *raw, int count)
{
    Status status = STATUS_OK;
    int doubled = 0, made = 0;
    for (int i = 0; i < count;) {
        int next = i + 1;
        while (next < count && raw[next].piece == raw[i].piece &&
               raw[next].x_m - raw[i].x_m < same_m)
            next++;
        if (point_make(w, &raw[i], next - i, &w->reading[made], &doubled) != STATUS_OK)
            status = STATUS_BAD_INPUT;
        SeatGirder *g = &w->piece[raw[i].piece];
        if (g->count++ == 0) g->first = made;
        made++;
        i = next;
    }
    w->plan->reading_count = made;
    if (doubled)
        seat_say(w, false,
                 "survey: %d points are read more than once and agree: their mean is taken",
                 doubled);
    return status;
}

/* Rows that lie before the row of their girder that came before. */
static int rows_back(const Work *w, const Raw *raw)
{
    double *last_m = ARENA_NEW(w->result, double, w->plan->piece_count);
    int back = 0;
    for (int p = 0; p < w->plan->piece_count; p++) last_m[p] = -INFINITY;
    for (int i = 0; i < w->wish->survey->count; i++) {
        back += raw[i].x_m < last_m[raw[i].piece] - same_m;
        last_m[raw[i].piece] = raw[i].x_m;
    }
    return back;
}

static Status rows_take(Work *w)
{
    const Survey *s = w->wish->survey;
    Raw *raw = ARENA_NEW(w->result, Raw, s->count);
    Status status = STATUS_OK;
    for (int i = 0; i < s->count; i++) {
        raw[i].row = i;
        if (row_place(w, &s->row[i], &raw[i].x_m, &raw[i].piece) != STATUS_OK)
            status = STATUS_BAD_INPUT;
        const SurveyRow *r = &s->row[i];
        const double outer_m =
            seat_flange(w, raw[i].x_m)->apart_m + seat_flange(w, raw[i].x_m)->width_m / 2 + 0.01;
        if (!isnan(r->offset_m) && fabs(r->offset_m) > outer_m)
            status = readings_refuse(w, r->line, "offset",
                                     "%s from the middle of the girder is beside it",
                                     seat_length(w, fabs(r->offset_m)));
    }
    TRY(status);
    const int shuffled = rows_back(w, raw);
    qsort(raw, (size_t)s->count, sizeof *raw, by_place);
    if (shuffled)
        seat_say(w, false, "survey: rows do not follow the bridge (%d go back): they were sorted",
                 shuffled);
    w->reading = ARENA_NEW(w->result, SeatReading, s->count);
    w->plan->reading = w->reading;
    return points_make(w, raw, s->count);
}

/* ---- coverage ---- */

static Status check_cover(Work *w, const SeatGirder *g)
{
    const double spacing_m = seat_value(w->bridge, "survey.spacing") + 1e-6;
    const double reach_m = seat_value(w->bridge, "survey.reach") + 1e-6;
    const SeatReading *r = &w->reading[g->first];
    const char *unit = w->seats->unit[g->unit].name;
    if (g->count < 2)
        return readings_refuse(w, 0, "survey",
                               "G%d of %s has %d readings: its ends must be read at least",
                               g->girder + 1, unit, g->count);
    Status status = STATUS_OK;
    if (r[0].x_m > g->from_m + reach_m || r[g->count - 1].x_m < g->to_m - reach_m) {
        const bool left = r[0].x_m > g->from_m + reach_m;
        status = readings_refuse(
            w, 0, "survey",
            "G%d of %s is read from %s to %s, but goes from %s to %s: its %s end is missing",
            g->girder + 1, unit, seat_place_m(w, r[0].x_m), seat_place_m(w, r[g->count - 1].x_m),
            seat_place_m(w, g->from_m), seat_place_m(w, g->to_m), left ? "left" : "right");
    }
    for (int i = 1; i < g->count; i++)
        if (r[i].x_m - r[i - 1].x_m > spacing_m)
            status =
                readings_refuse(w, abs(r[i].line), "survey",
                                "nothing is read on G%d between %s and %s: no two readings may be "
                                "farther apart than %s (survey.spacing)",
                                g->girder + 1, seat_place_m(w, r[i - 1].x_m),
                                seat_place_m(w, r[i].x_m), seat_place_m(w, spacing_m));
    return status;
}

/* ---- where the girders lie ---- */

static int by_size(const void *a, const void *b)
{
    const double p = *(const double *)a, q = *(const double *)b;
    return p < q ? -1 : p > q;
}

double readings_median(double *value, int count)
{
    qsort(value, (size_t)count, sizeof *value, by_size);
    return count % 2 ? value[count / 2] : (value[count / 2 - 1] + value[count / 2]) / 2;
}

/* Against the profile, of all readings: `off` of each is kept. */
static Status check_level(Work *w, double *off_m)
{
    const int count = w->plan->reading_count;
    const double far_m = seat_value(w->bridge, "survey.far");
    double *sorted = ARENA_NEW(w->result, double, count);
    double *level = ARENA_NEW(w->result, double, count);
    for (int p = 0; p < w->plan->piece_count; p++)
        for (int i = 0; i < w->piece[p].count; i++) {
            const int r = w->piece[p].first + i;
            level[r] = seat_expected_m(w, w->piece[p].unit, w->piece[p].girder, w->reading[r].x_m);
            off_m[r] = w->reading[r].top_m - level[r];
        }
    memcpy(sorted, off_m, sizeof *sorted * (size_t)count);
    const double middle_m = readings_median(sorted, count);
    if (fabs(middle_m) > far_m) {
        const double expected_m = readings_median(level, count);
        const char *words =
            fabs(expected_m) > 1 ? slip_words((expected_m + middle_m) / expected_m) : NULL;
        return readings_refuse(w, 0, "elevation",
                               "the girder tops lie about %s %s where the profile, panels and "
                               "deck.haunch want them%s%s: %s?",
                               seat_place_m(w, fabs(middle_m)), middle_m > 0 ? "above" : "below",
                               words ? ", as if they were " : "", words ? words : "",
                               words ? "another unit" : "another datum, or another profile");
    }
    Status status = STATUS_OK;
    for (int p = 0; p < w->plan->piece_count; p++) {
        const SeatGirder *g = &w->piece[p];
        memcpy(sorted, off_m + g->first, sizeof *sorted * (size_t)g->count);
        const double own_m = readings_median(sorted, g->count);
        if (fabs(own_m) > far_m)
            status = readings_refuse(
                w, abs(w->reading[g->first].line), "elevation",
                "G%d of %s lies %s %s where the profile wants it, the others do not: "
                "another unit, or another girder?",
                g->girder + 1, w->seats->unit[g->unit].name, seat_place_m(w, fabs(own_m)),
                own_m > 0 ? "above" : "below");
    }
    return status;
}

/* ---- all of it ---- */

static void pieces_make(Work *w)
{
    const int girders = w->plan->girders;
    int count = 0;
    for (int u = 0; u < w->seats->unit_count; u++) count += w->seats->unit[u].girder_count;
    w->piece = ARENA_NEW(w->result, SeatGirder, count * girders);
    for (int g = 0; g < girders; g++)
        for (int u = 0; u < w->seats->unit_count; u++)
            for (int k = 0; k < w->seats->unit[u].girder_count; k++) {
                const SeatUnit *unit = &w->seats->unit[u];
                const double z_m = seat_z_m(w, g), by_m = unit->start_m + z_m * w->plan->skew_1;
                w->piece[w->plan->piece_count++] =
                    (SeatGirder){.girder = g,
                                 .unit = u,
                                 .z_m = z_m,
                                 .from_m = by_m + unit->girder_from_m[k],
                                 .to_m = by_m + unit->girder_to_m[k]};
            }
    w->plan->piece = w->piece;
}

static void columns_make(Work *w)
{
    const int count = w->plan->reading_count;
    int confirmed = 0;
    w->reading_x_m = ARENA_NEW(w->result, double, count);
    w->reading_top_m = ARENA_NEW(w->result, double, count);
    w->reading_roll_1 = ARENA_NEW(w->result, double, count);
    for (int i = 0; i < count; i++) {
        SeatReading *r = &w->reading[i];
        confirmed += r->line < 0;
        r->line = abs(r->line);
        w->reading_x_m[i] = r->x_m;
        w->reading_top_m[i] = r->top_m;
        w->reading_roll_1[i] = r->roll_1;
    }
    if (confirmed)
        seat_say(w, false, "survey: %d readings are confirmed in their note: not tried as outliers",
                 confirmed);
}

Status readings_make(Work *w, Error *err)
{
    const int before = w->list->count + w->list->dropped;
    const Survey *s = w->wish->survey;
    pieces_make(w);
    err->status = STATUS_BAD_INPUT; /* what is wrong stands in the diagnostics */
    TRY(check_stations(w));
    TRY(rows_take(w));
    Status status = STATUS_OK;
    for (int p = 0; p < w->plan->piece_count; p++)
        if (check_cover(w, &w->piece[p]) != STATUS_OK) status = STATUS_BAD_INPUT;
    TRY(status);
    double *off_m = ARENA_NEW(w->result, double, s->count);
    double *all = ARENA_NEW(w->result, double, s->count);
    TRY(check_level(w, off_m));
    w->plan->roughness_m = outliers_roughness_m(w, off_m, all);
    const double spread_m =
        fmax(w->plan->roughness_m, fmax(seat_value(w->bridge, "survey.deviation"), 1e-6));
    for (int p = 0; p < w->plan->piece_count; p++)
        if (outliers_refuse(w, &w->piece[p], off_m, spread_m) != STATUS_OK)
            status = STATUS_BAD_INPUT;
    if (w->list->count + w->list->dropped > before) return STATUS_BAD_INPUT;
    columns_make(w);
    *err = (Error){0};
    return status;
}
