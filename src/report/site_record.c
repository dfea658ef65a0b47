/* The acceptance record of the jacking day: what was read, judged and locked, and blanks to sign. */
#include "site.h"

#include <math.h>
#include <string.h>

enum { RECORD_ROWS = 400 };

static const JackPlan *plan_of(const SiteSource *source) { return source->day->plan; }

static SiteVerdict judged(const SiteSource *source, int index, Arena *arena)
{
    SiteVerdict v;
    site_judge(source->day, source->reading, index + 1, arena, &v);
    return v;
}

static int last_reading(const SiteSource *source)
{
    int at = source->count - 1;
    while (at >= 0 && source->reading[at].struck) at--;
    return at;
}

/* ---- cover ---- */

static const char *people(const Report *r, const SiteSource *source)
{
    Text text = text_start(r->arena);
    for (int i = 0; i < source->count; i++) {
        bool known = !source->row[i].who || !*source->row[i].who;
        for (int k = 0; k < i && !known; k++)
            known = source->row[k].who && strcmp(source->row[k].who, source->row[i].who) == 0;
        if (!known) text_printf(&text, "%s%s", text.length ? "; " : "", source->row[i].who);
    }
    return text.length ? text.bytes : "nobody is named";
}

typedef struct Tally {
    int struck, calls[SITE_STOP + 1], silent;
} Tally;

static Tally tally(const SiteSource *source)
{
    Tally t = {.struck = 0};
    for (int i = 0; i < source->count; i++) {
        const SiteRow *row = &source->row[i];
        bool said = false;
        t.struck += row->struck != 0;
        for (int c = SITE_GO; c <= SITE_STOP && row->call; c++)
            if (strcmp(row->call, site_call_name((SiteCall)c)) == 0) {
                t.calls[c]++;
                said = true;
            }
        t.silent += !said;
    }
    return t;
}

static void cover_facts(Report *r, const SiteSource *source)
{
    const JackGear *gear = &plan_of(source)->gear;
    const Tally t = tally(source);
    document_fact(
        r, "readings",
        arena_printf(
            r->arena,
            "%d, of which %d struck; said on the spot: %d go on, %d read again, %d hold, %d "
            "stop; %d rows of a logger without a change of the call",
            source->count, t.struck, t.calls[SITE_GO], t.calls[SITE_AGAIN], t.calls[SITE_HOLD],
            t.calls[SITE_STOP], t.silent));
    if (source->count > 0)
        document_fact(r, "time",
                      arena_printf(r->arena, "%s to %s", source->row[0].time,
                                   source->row[source->count - 1].time));
    document_fact(r, "read by", people(r, source));
    document_fact(r, "jacks",
                  arena_printf(r->arena, "%d in %d %s%s; certificate %s%s%s", gear->count,
                               gear->sets, gear->sets == 1 ? "set" : "sets",
                               gear->proposed ? " (PROPOSED: not in the bridge file)" : "",
                               gear->certificate ? gear->certificate : "NOT NAMED",
                               gear->certificate_date ? " of " : "",
                               gear->certificate_date ? gear->certificate_date : ""));
    document_fact(r, "log",
                  arena_printf(r->arena, "%ld records, the chain is %s; last hash %s",
                               source->records, source->broken ? "BROKEN" : "whole", source->hash));
    if (source->broken) document_fact(r, "BROKEN", source->broken);
}

static void cover(Report *r, const SiteSource *source)
{
    static const char *const who[] = {"Engineer of the jacking", "Calibration of jacks and gauges",
                                      "Resident engineer or inspector",
                                      "Engineer of record: accepted, or what is to be done"};
    const JackPlan *plan = plan_of(source);
    const char *force = site_force_words(r, source);
    document_add(r, REPORT_LEAD,
                 force ? arena_printf(r->arena, "%s: %s was wanted; locked %s.", plan->unit,
                                      jacking_said_force(r, plan->thrust_N), force)
                       : arena_printf(r->arena,
                                      "%s: %s was wanted; THE LOCKED FORCE IS NOT TOLD: %s.",
                                      plan->unit, jacking_said_force(r, plan->thrust_N),
                                      source->fit ? source->fit->force_N.why : source->fit_why));
    cover_facts(r, source);
    document_add(r, REPORT_CAUTION, jacking_caution);
    document_add(r, REPORT_TEXT,
                 "This record accepts nothing by itself. It is accepted by those who sign it, each "
                 "with the date; the hash above is written down by hand with the signature:");
    for (size_t i = 0; i < sizeof who / sizeof *who; i++) document_add(r, REPORT_SIGN, who[i]);
    document_add(r, REPORT_BREAK, "");
}

/* ---- what acceptance asks ---- */

static void asked_row(FigureTable *t, const char *what, const char *read, const char *asked,
                      int kept)
{
    static const char *const word[] = {"NO", "yes", "not read", "by eye: ______"};
    figure_table_row(t, (const char *[]){what, read, asked, word[kept]});
}
enum { NO, YES, UNREAD, BY_EYE };

static void asked_slope(const Report *r, const SiteSource *source, FigureTable *t)
{
    const double off_1 = plan_of(source)->alarm.movement_1;
    const SiteFit *fit = source->fit;
    const char *asked = arena_printf(r->arena, "%.2f to %.2f", 1 - off_1, 1 + off_1);
    if (!fit) {
        asked_row(t, "movement for force, over the plan's", "-", asked, UNREAD);
        return;
    }
    asked_row(t, "movement for force, over the plan's",
              arena_printf(r->arena, "%.3f (%.3f to %.3f)", fit->slope_1.value, fit->slope_1.low,
                           fit->slope_1.high),
              asked, fabs(fit->slope_1.value - 1) <= off_1 ? YES : NO);
}

static void asked_force(const Report *r, const SiteSource *source, FigureTable *t)
{
    const double plan_N = plan_of(source)->thrust_N;
    const char *force = site_force_words(r, source);
    asked_row(t, "locked force", force ? force : "-",
              arena_printf(r->arena, "%s within its interval", jacking_said_force(r, plan_N)),
              !force                                    ? UNREAD
              : source->fit->even_N.high < plan_N       ? NO
              : source->fit->even_N.low > 1.05 * plan_N ? NO
                                                        : YES);
}

/* Last reading of a hold at the last step that was judged; -1. */
static int last_hold(const SiteSource *source)
{
    int at = source->count - 1;
    while (at >= 0 && (source->reading[at].struck || source->reading[at].phase != SITE_HELD ||
                       source->reading[at].step != plan_of(source)->step_count))
        at--;
    return at;
}

static void asked_hold(const Report *r, const SiteSource *source, FigureTable *t)
{
    const JackPlan *plan = plan_of(source);
    const int at = last_hold(source);
    const SiteVerdict v = at >= 0 ? judged(source, at, r->arena) : (SiteVerdict){.fall_N = NAN};
    const double most_N = plan->alarm.drop_1 * plan->thrust_N;
    const char *asked =
        arena_printf(r->arena, "%s beyond creep, at most", jacking_said_force(r, most_N));
    if (at < 0 || !isfinite(v.fall_N)) {
        asked_row(t, "hold at the whole thrust", "-", asked, UNREAD);
        return;
    }
    asked_row(t, "hold at the whole thrust",
              arena_printf(r->arena, "fell by %s, creep explains %s; last call: %s",
                           jacking_said_force(r, v.fall_N), jacking_force(r, v.fall_most_N),
                           site_call_name(v.call)),
              asked, v.fall_N - v.fall_most_N <= most_N && v.call < SITE_HOLD ? YES : NO);
}

static void asked_slip(const Report *r, const SiteSource *source, FigureTable *t)
{
    const JackPlan *plan = plan_of(source);
    const JackStep *whole = &plan->step[plan->step_count - 1];
    double zero_m[SITE_POINTS], last_m[SITE_POINTS], most_m = -1, give_m = 0;
    for (int p = 0; p < SITE_POINTS; p++) zero_m[p] = last_m[p] = NAN;
    for (int i = 0; i < source->count; i++) {
        const SiteReading *reading = &source->reading[i];
        for (int p = 0; p < source->day->point_count && !reading->struck; p++) {
            const SitePoint *point = &source->day->point[p];
            if (point->kind != SITE_SLIP || !isfinite(reading->move_m[p])) continue;
            if (reading->step == 0 && !isfinite(zero_m[p])) zero_m[p] = reading->move_m[p];
            if (reading->phase == SITE_RESET && isfinite(last_m[p]))
                zero_m[p] += reading->move_m[p] - last_m[p];
            last_m[p] = reading->move_m[p];
            if (!isfinite(zero_m[p]) || fabs(reading->move_m[p] - zero_m[p]) <= most_m) continue;
            most_m = fabs(reading->move_m[p] - zero_m[p]);
            give_m = fabs(whole->anchor_slip_m[point->side]);
        }
    }
    const double limit_m = give_m + plan->alarm.slip_m;
    asked_row(t, "slip of an anchor panel, the largest read",
              most_m < 0 ? "-" : jacking_said_move(r, most_m),
              arena_printf(r->arena, "%s at most", jacking_said_move(r, limit_m)),
              most_m < 0          ? UNREAD
              : most_m <= limit_m ? YES
                                  : NO);
}

static void asked_warmth(const Report *r, const SiteSource *source, FigureTable *t)
{
    const double most_K = plan_of(source)->warmth.window_K;
    const double apart_K = source->fit ? source->fit->apart_K : (double)NAN;
    asked_row(t, "deck against girders when it was locked",
              isfinite(apart_K) ? jacking_said_kelvin(r, apart_K) : "-",
              arena_printf(r->arena, "%s apart at most", jacking_said_kelvin(r, most_K)),
              !isfinite(apart_K)        ? UNREAD
              : fabs(apart_K) <= most_K ? YES
                                        : NO);
}

static void asked(Report *r, const SiteSource *source)
{
    static const char *const head[] = {"what", "as read", "asked", "kept"};
    static const char *const by_eye[] = {
        "joints closed, top and bottom, by feeler; no step, spall or crack",
        "nuts down by hand, marked; packing tight", "strain at the far end, where it was read",
        "strength of the closure before the jacks are released",
        "gap after release against its reading before"};
    const int last = last_reading(source);
    FigureTable *t =
        figure_table_start(r->arena, "What acceptance asks; limits are inputs of the file", 4);
    for (int c = 0; c < 4; c++) figure_table_column(t, c, false, head[c]);
    asked_slope(r, source, t);
    asked_force(r, source, t);
    asked_hold(r, source, t);
    asked_slip(r, source, t);
    asked_warmth(r, source, t);
    if (last >= 0) {
        const SiteVerdict v = judged(source, last, r->arena);
        asked_row(t, "verdict on the last reading", site_call_name(v.call), "go on",
                  v.call == SITE_GO ? YES : NO);
    }
    for (size_t i = 0; i < sizeof by_eye / sizeof *by_eye; i++)
        asked_row(t, by_eye[i], "", "", BY_EYE);
    document_table(r, t);
}

/* ---- readings ---- */

/* Of thousands of rows: all that changed something, and the rest evenly. */
static bool shown(const SiteSource *source, int i)
{
    const SiteRow *row = &source->row[i];
    if (source->count <= RECORD_ROWS || i == 0 || i == source->count - 1) return true;
    if (row->struck || (row->remark && *row->remark)) return true;
    if (row->call && strcmp(row->call, site_call_name(SITE_GO)) != 0) return true;
    const int every = 2 * source->count / RECORD_ROWS;
    return i % every == 0;
}

static const char *or_dash(const char *text) { return text && *text ? text : "-"; }

static const char *row_number(const Report *r, const SiteRow *row)
{
    return arena_printf(r->arena, row->struck ? "%ld struck" : "%ld", row->number);
}

static void written_table(Report *r, const SiteSource *source)
{
    static const char *const head[] = {"no.",           "time",  "step", "gauge",
                                       "deck; girders", "cells", "by"};
    FigureTable *t = figure_table_start(
        r->arena, "Readings, as they were written; what is struck is marked and stays", 7);
    for (int c = 0; c < 7; c++) figure_table_column(t, c, false, head[c]);
    for (int i = 0; i < source->count; i++) {
        const SiteRow *row = &source->row[i];
        if (!shown(source, i)) continue;
        figure_table_row(
            t, (const char *[]){row_number(r, row), row->time,
                                arena_printf(r->arena, "%s %s", row->step, or_dash(row->phase)),
                                row->gauge, row->degrees, or_dash(row->cell), or_dash(row->who)});
    }
    document_table(r, t);
}

static void dials_table(Report *r, const SiteSource *source)
{
    const int points = source->day->point_count;
    const char *cell[SITE_POINTS + 1];
    FigureTable *t = figure_table_start(r->arena, "Dials, as they were written", points + 1);
    figure_table_column(t, 0, false, "no.");
    for (int p = 0; p < points; p++)
        figure_table_column(t, p + 1, true, arena_printf(r->arena, "dial %d", p + 1));
    for (int i = 0; i < source->count; i++) {
        if (!shown(source, i)) continue;
        cell[0] = row_number(r, &source->row[i]);
        for (int p = 0; p < points; p++) cell[p + 1] = or_dash(source->row[i].move[p]);
        figure_table_row(t, cell);
    }
    document_table(r, t);
}

static const SiteSeen *seen_of(const SiteSeen *seen, int count, int index)
{
    for (int i = 0; i < count; i++)
        if (seen[i].index == index) return &seen[i];
    return NULL;
}

static void judged_table(Report *r, const SiteSource *source)
{
    const char *const move = jacking_move_unit(r);
    const char *const head[] = {"no.",
                                jacking_head(r, "all jacks", jacking_force_unit(r)),
                                jacking_head(r, "opening", move),
                                jacking_head(r, "least", move),
                                jacking_head(r, "most", move),
                                "said on the spot"};
    const SiteSeen *seen;
    const int seen_count = site_see(source->day, source->reading, source->count, r->arena, &seen);
    FigureTable *t = figure_table_start(
        r->arena,
        "What was made of them: force by the certificate, temperature taken out of the "
        "opening, the plan's band at that force",
        6);
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c > 0 && c < 5, head[c]);
    for (int i = 0; i < source->count; i++) {
        const SiteRow *row = &source->row[i];
        const SiteSeen *s = seen_of(seen, seen_count, i);
        const bool forced = s && isfinite(s->force_N);
        const JackExpect e = jacking_expect(plan_of(source), forced ? fmax(0, s->force_N) : 0);
        if (!shown(source, i)) continue;
        figure_table_row(
            t, (const char *[]){arena_printf(r->arena, "%ld", row->number),
                                forced ? jacking_force(r, s->force_N) : "-",
                                s && isfinite(s->opening_m) ? jacking_move(r, s->opening_m) : "-",
                                forced ? jacking_move(r, e.opening.low_m) : "-",
                                forced ? jacking_move(r, e.opening.high_m) : "-",
                                row->struck ? "struck" : or_dash(row->call)});
    }
    document_table(r, t);
}

static void said_items(Report *r, const SiteSource *source)
{
    for (int i = 0; i < source->count; i++) {
        const SiteRow *row = &source->row[i];
        if (row->call && strcmp(row->call, site_call_name(SITE_GO)) != 0)
            document_add(r, REPORT_ITEM,
                         arena_printf(r->arena, "%ld: %s", row->number, row->reason));
        if (row->struck)
            document_add(r, REPORT_ITEM,
                         arena_printf(r->arena, "%ld struck by record %ld: %s (%s)", row->number,
                                      row->struck, row->struck_why, row->struck_who));
        if (row->remark && *row->remark)
            document_add(r, REPORT_ITEM,
                         arena_printf(r->arena, "%ld, remark: %s", row->number, row->remark));
    }
}

static const char *point_name(const Report *r, const SiteSource *source, int p)
{
    const SitePoint *point = &source->day->point[p];
    switch (point->kind) {
    case SITE_GAP:
        return arena_printf(r->arena, "gap at %s from the middle, right positive",
                            figure_quantity(r->arena, point->across_m,
                                            quantity_unit(r->source->units, DIM_LENGTH)));
    case SITE_SLIP: return point->side ? "slip of the right anchor" : "slip of the left anchor";
    default:
        return arena_printf(r->arena, point->kind == SITE_RISE ? "rise, span %d" : "bearing %d",
                            plan_of(source)->watch[point->watch].number);
    }
}

static void readings(Report *r, const SiteSource *source)
{
    Text dials = text_start(r->arena);
    int rows = 0;
    for (int p = 0; p < source->day->point_count; p++)
        text_printf(&dials, "%s %d %s", p ? ";" : "", p + 1, point_name(r, source, p));
    for (int i = 0; i < source->count; i++) rows += shown(source, i);
    document_add(r, REPORT_HEADING, "Readings");
    document_add(r, REPORT_TEXT, arena_printf(r->arena, "Dials:%s.", dials.bytes));
    if (rows < source->count)
        document_add(
            r, REPORT_TEXT,
            arena_printf(r->arena,
                         "%d of %d rows: all that changed a call, were struck or remarked, "
                         "the rest evenly. All stand in the log.",
                         rows, source->count));
    written_table(r, source);
    dials_table(r, source);
    judged_table(r, source);
    said_items(r, source);
}

/* ---- pictures ---- */

static void picture(Report *r, Figure *(*draw)(const FigureSite *, Arena *),
                    const SiteSource *source)
{
    FigureSite site = {source->day, source->reading, source->count, REPORT_PAPER_PX};
    const Figure *const wide = draw(&site, r->arena);
    if (!wide) return;
    ReportBlock *block = document_add(r, REPORT_FIGURE, wide->title);
    block->wide = wide;
    site.width_px = REPORT_NARROW_PX;
    block->narrow = draw(&site, r->arena);
}

const Report *report_site_record(const SiteSource *source, Arena *arena)
{
    Report *const r = document_start(source->report, "Record of the jacking", arena);
    cover(r, source);
    document_add(r, REPORT_HEADING, "What acceptance asks");
    asked(r, source);
    document_add(r, REPORT_HEADING, "Force against movement, and the hold");
    picture(r, figure_site_force, source);
    picture(r, figure_site_hold, source);
    document_add(r, REPORT_HEADING, "What was built");
    site_built(r, source);
    site_force(r, source);
    document_add(r, REPORT_HEADING, "Life as built");
    site_life_add(r, source);
    document_add(r, REPORT_BREAK, "");
    readings(r, source);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}
