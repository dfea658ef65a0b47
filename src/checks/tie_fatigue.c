/* Fatigue of the ties through a pier: range of their stress under the fatigue truck against the threshold
 * of their worst detail, which the file gives; bars have one of their own that falls with the stress
 * which stays on, and the thrust keeps ties high. docs/theory/checks.md. */
#include <math.h>

#include "cite.h"
#include "decompression.h"
#include "table.h"
#include "ties.h"
#include "values.h"

static const char threshold_path[] = "piers.tie_threshold";
static const double ksi_Pa = 6894757.2931684; /* NIST SP 811 B.8 */

typedef struct Range {
    double permanent_N, area_m2, most_N, least_N; /* of the fatigue truck on one lane */
    int part;
    bool late;        /* structure at the end of life, else at opening */
    LiveLines *still; /* NULL: strips as the live load closes them */
    bool there;
} Range;

static bool bars(const CheckCase *with) { return value_int(with, "piers.tie_kind") == 0; }

/* Over its limit; 1.0 is met. The same as the sheet. */
static double ratio_1(const CheckCase *with, const KitLine *k, const Range *r)
{
    const double factor_1 = kit_value(with, "criteria.fatigue_live") * k->line->lanes_fatigue_1;
    const double given_Pa = kit_value(with, threshold_path);
    const double yield_Pa = fmin(kit_value(with, "piers.tie_yield"), 100 * ksi_Pa);
    const double least_Pa = (r->permanent_N + factor_1 * r->least_N) / r->area_m2;
    const double steady_1 = fmax(0, fmin(least_Pa / yield_Pa, 1));
    double limit_Pa = bars(with) ? (26 - 22 * steady_1) * ksi_Pa : 24 * ksi_Pa;
    if (!isnan(given_Pa)) limit_Pa = fmin(limit_Pa, given_Pa);
    return factor_1 * (r->most_N - r->least_N) / r->area_m2 / limit_Pa;
}

static double largest_N(const KitLine *k, int part)
{
    double largest = -INFINITY;
    for (int t = k->opening; t <= k->end; t++)
        largest = fmax(
            largest, k->history->force[(size_t)t * (size_t)k->model->part_count + (size_t)part].N);
    return largest;
}

/* Ties on one structure. */
static void try_structure(const CheckCase *with, const KitLine *k, const Range *on, Range *worst)
{
    LiveLines *lines = on->still;
    if (!lines) lines = on->late ? k->end_live : k->open_live;
    const size_t mark = arena_mark(with->arena);
    double *value = ARENA_NEW(with->arena, double, k->model->station_count);
    for (int p = 0; p < k->model->part_count; p++) {
        if (!tie_is(k, p)) continue;
        const LiveEffect effect = {LIVE_PART, .at = p};
        live_line(lines, &effect, value);
        const LiveRange range = live_range(lines, &k->fatigue, &effect, value);
        Range one = *on;
        one.permanent_N = largest_N(k, p);
        one.area_m2 = k->model->section[k->model->part[p].section].area_m2;
        one.most_N = range.most;
        one.least_N = range.least;
        one.part = p;
        one.there = true;
        if (!worst->there || ratio_1(with, k, &one) > ratio_1(with, k, worst)) *worst = one;
    }
    arena_reset(with->arena, mark);
}

/* Diaphragm concrete carries where it is pressed: once as under the live load that closes its strips, once
 * as it stands without, since one truck may leave open what all of the live load closes. */
static Status worst_range(const CheckCase *with, const KitLine *k, Range *worst, Error *err)
{
    const int time[2] = {k->opening, k->end};
    for (int i = 0; i < 2; i++) {
        Range on = {.late = i};
        try_structure(with, k, &on, worst);
        TRY(live_lines_under(k->line, k->history, time[i], 0, with->arena, &on.still, err));
        try_structure(with, k, &on, worst);
    }
    return STATUS_OK;
}

static void write_range(const CheckCase *with, const KitLine *k, const Range *w, Sheet *s)
{
    const LiveEffect effect = {LIVE_PART, .at = w->part};
    Cite cite = {.k = k,
                 .other = &effect,
                 .late = w->late,
                 .lines = w->still,
                 .load = &k->fatigue,
                 .sign = 1,
                 .positive = 1};
    cite_effect(s, with, &cite, "N_a", "kip", "fatigue truck with 15 %, one lane, most");
    cite.sign = -1;
    cite_effect(s, with, &cite, "N_b", "kip", "the same, least");
}

static void write_limit(const CheckCase *with, Sheet *s)
{
    static const char bar[] = "AASHTO LRFD 5.5.3.2, 8th edition (from memory)";
    const bool given = !isnan(kit_value(with, threshold_path));
    if (bars(with)) {
        value_give(s, with, "f_t", "piers.tie_yield", "ksi", "yield stress");
        sheet_formula(s, "f_y", "min(f_t, 100 [ksi])", "ksi", "that counts", bar);
        sheet_formula(s, "f_m", "max(0 [ksi], min(f_min, f_y))", "ksi", "tension that counts", bar);
        sheet_formula(s, "dF_b", "26 [ksi] - 22 [ksi] f_m / f_y", "ksi",
                      "straight bars without splices", bar);
    } else
        sheet_formula(s, "dF_b", "24 [ksi]", "ksi", "the best detail of steel, category A",
                      "AASHTO LRFD table 6.6.1.2.5-3 (from memory)");
    if (given)
        value_give(s, with, "dF_TH", threshold_path, "ksi", "threshold of their worst detail");
    sheet_formula(s, "dF", given ? "min(dF_b, dF_TH)" : "dF_b", "ksi", "range that is allowed",
                  bar);
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k, const Range *w)
{
    static const char name[] = "fatigue of ties through a pier";
    const char *clause = bars(with) ? "AASHTO LRFD 5.5.3.2, Fatigue I (from memory)"
                                    : "AASHTO LRFD 6.6.1.2, Fatigue I (from memory)";
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "N_p", w->permanent_N, "kip",
                     "largest permanent force of a level of ties, from opening on", from_stages);
    sheet_given_from(&s, "A_t", w->area_m2, "in^2", "area of that level", "piers.ties");
    write_range(with, k, w, &s);
    give_fatigue_lanes(&s, with, k);
    value_give(&s, with, "g_LL", "criteria.fatigue_live", "", "Fatigue I on live load");
    sheet_formula(&s, "df", "g_LL g_f (N_a - N_b) / A_t", "ksi", "range of stress", clause);
    sheet_formula(&s, "f_min", "(N_p + g_LL g_f N_b) / A_t", "ksi",
                  "least stress, tension positive", clause);
    write_limit(with, &s);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "df"), sheet_SI(&s, "dF"), DIM_STRESS);
    check_place(row, k->name, tie_words(with, k, w->part), "in service", clause);
    check_needs(row, with, threshold_path,
                "couplers, welds, threads and anchorages of the ties decide it");
    if (bars(with))
        check_needs(row, with, "piers.tie_yield", "the threshold of bars hangs on their grade");
    kit_needs_fatigue_truck(with, row);
    if (!joints_stay_pressed(with, k))
        check_needs(
            row, with, NULL,
            "joints of the deck open under Fatigue I: ties beside a deck that has let go take "
            "many times this range");
}

Status check_tie_fatigue(const CheckCase *with, CheckList *list, Error *err)
{
    for (int i = 0; i < with->shared->count; i++) {
        Range worst = {.there = false};
        bool tied = false;
        for (int p = 0; p < with->shared->line[i].model->part_count; p++)
            tied = tied || tie_is(&with->shared->line[i], p);
        if (!tied) continue;
        TRY(worst_range(with, &with->shared->line[i], &worst, err));
        add_row(with, list, &with->shared->line[i], &worst);
    }
    return STATUS_OK;
}
