/* How sure: what the lives of a deck say, as document and as JSON. */
#include <math.h>

#include "document.h"

enum { JOINTS_SHOWN = 8, CAUSES_SHOWN = 8 };

/* Chances near 0 and 1 want digits: "99.93 %". Never rounded up to certainty. */
static const char *chance(Arena *a, double share_1)
{
    const double percent = 100 * share_1, from_end = fmin(percent, 100 - percent);
    const int places = from_end >= 5 || from_end == 0 ? 0 : from_end >= 0.5 ? 1 : 2;
    return arena_printf(a, "%.*f %%", places, percent);
}

static const char *interval(Arena *a, const OddsShare *share)
{
    return arena_printf(a, "%s to %s", chance(a, share->low_1), chance(a, share->high_1));
}

static const char *force(const Report *r, double force_N)
{
    if (!isfinite(force_N)) return "none";
    return figure_quantity(r->arena, force_N, quantity_unit(r->source->units, DIM_FORCE));
}

static const char *years(Arena *a, double year) { return arena_printf(a, "%.0f yr", year); }

/* ---- blocks ---- */

static void lead(Report *r, const OddsAnswer *o)
{
    Arena *a = r->arena;
    const OddsYear *last = &o->year[o->year_count - 1];
    document_add(
        r, REPORT_LEAD,
        arena_printf(
            a, "Jacked to %s by the gauges, every joint stays closed for %s in %s of %u lives.",
            force(r, o->study->thrust_N), years(a, last->after_year),
            chance(a, last->closed.share_1), o->study->lives));
    const OddsThrust *wanted = &o->thrust[o->wanted];
    document_fact(r, "sure",
                  arena_printf(a,
                               "The chance lies between %s and %s with 95 %% confidence, as far as "
                               "the number of lives goes.",
                               chance(a, last->closed.low_1), chance(a, last->closed.high_1)));
    if (isfinite(wanted->need_N))
        document_fact(r, "wanted",
                      arena_printf(a, "A chance of %s needs %s (%s to %s).",
                                   chance(a, wanted->share_1), force(r, wanted->need_N),
                                   force(r, wanted->low_N),
                                   isfinite(wanted->high_N) ? force(r, wanted->high_N)
                                                            : "no bound from so few lives"));
    else
        document_fact(
            r, "wanted",
            arena_printf(a, "No thrust gives a chance of %s.", chance(a, wanted->share_1)));
    if (o->never)
        document_fact(r, "never",
                      arena_printf(a, "In %d lives no thrust closes every joint.", o->never));
    if (o->failed)
        document_fact(
            r, "no answer",
            arena_printf(a, "In %d lives the engine found no answer: counted as open.", o->failed));
}

static void year_table(Report *r, const OddsAnswer *o)
{
    Arena *a = r->arena;
    FigureTable *t = figure_table_start(a, "Every joint stays closed until", 3);
    static const char *const head[] = {"after jacking", "chance", "95 % confidence"};
    for (int c = 0; c < 3; c++) figure_table_column(t, c, true, head[c]);
    for (int k = 0; k < o->year_count; k++)
        figure_table_row(t, (const char *[]){years(a, o->year[k].after_year),
                                             chance(a, o->year[k].closed.share_1),
                                             interval(a, &o->year[k].closed)});
    document_table(r, t);
}

static void thrust_table(Report *r, const OddsAnswer *o)
{
    Arena *a = r->arena;
    FigureTable *t =
        figure_table_start(a, "Thrust of the whole deck, by the gauges, for a chance", 3);
    static const char *const head[] = {"chance for life", "least thrust", "95 % confidence"};
    for (int c = 0; c < 3; c++) figure_table_column(t, c, true, head[c]);
    for (int k = 0; k < ODDS_THRUSTS; k++) {
        const OddsThrust *one = &o->thrust[k];
        const char *high = isfinite(one->high_N) ? force(r, one->high_N) : "not bounded";
        figure_table_row(
            t,
            (const char *[]){
                arena_printf(a, "%s%s", chance(a, one->share_1), k == o->wanted ? " (wanted)" : ""),
                force(r, one->need_N),
                one->low_N > 0 ? arena_printf(a, "%s to %s", force(r, one->low_N), high)
                               : arena_printf(a, "up to %s", high)});
    }
    document_table(r, t);
}

static void joint_table(Report *r, const OddsAnswer *o)
{
    Arena *a = r->arena;
    FigureTable *t = figure_table_start(a, "Joints least sure to stay closed for life", 4);
    static const char *const head[] = {"girder line", "joint", "chance", "95 % confidence"};
    for (int c = 0; c < 4; c++) figure_table_column(t, c, c > 1, head[c]);
    for (int k = 0; k < o->joint_count && k < JOINTS_SHOWN; k++) {
        const OddsJoint *joint = &o->joint[k];
        const LineAnswer *line = &o->study->design->line[joint->line];
        figure_table_row(
            t, (const char *[]){document_name(r, line), line->line->joint[joint->joint].mark,
                                chance(a, joint->closed.share_1), interval(a, &joint->closed)});
    }
    document_table(r, t);
}

static void cause_table(Report *r, const OddsAnswer *o)
{
    Arena *a = r->arena;
    FigureTable *t = figure_table_start(a,
                                        arena_printf(a,
                                                     "Where the uncertainty of the needed thrust "
                                                     "comes from; %.0f %% of it by straight lines",
                                                     100 * o->explained_1),
                                        4);
    figure_table_column(t, 0, false, "input");
    figure_table_column(t, 1, true, "factor: mean and standard deviation");
    figure_table_column(t, 2, true, "part of the variance");
    figure_table_column(t, 3, true, "one deviation more needs");
    for (int k = 0; k < CAUSES_SHOWN; k++) {
        const OddsCause *cause = &o->cause[k];
        const OddsLaw *law = &o->study->odds->law[cause->id];
        const char *size = force(r, fabs(cause->per_spread_N));
        figure_table_row(
            t, (const char *[]){odds_name(cause->id),
                                arena_printf(a, "%.2f, %.0f %%", law->mean_1, 100 * law->spread_1),
                                arena_printf(a, "%.0f %%", 100 * cause->part_1),
                                cause->per_spread_N < 0 ? arena_printf(a, "%s less", size)
                                                        : arena_printf(a, "%s more", size)});
    }
    document_table(r, t);
}

static void cautions(Report *r)
{
    static const char *const item[] = {
        "A thrust that just meets the rules with the file's own values has no reserve beyond the "
        "rules' own: "
        "that half of the lives need more is no error.",
        "Every mean and deviation is an input (group odds of the bridge file); those that ship are "
        "from "
        "publications by memory or have no source. Tests of the job's own concrete are worth more "
        "than any of them.",
        "The largest live load of 75 years is taken to come at any time, and to act with the "
        "largest gradient of "
        "the rule: the early years are judged on the safe side.",
        "Inputs vary for the bridge as a whole: panels that differ from each other, workmanship, "
        "impact, corrosion "
        "and mistakes are not in it. The chance is one of the model, not of the bridge.",
    };
    for (size_t k = 0; k < sizeof item / sizeof *item; k++) document_add(r, REPORT_ITEM, item[k]);
    document_add(r, REPORT_CAUTION, report_caution());
}

typedef Figure *Drawn(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena);

static void add_figures(Report *r, const OddsAnswer *odds)
{
    static Drawn *const draw[] = {figure_odds_chance, figure_odds_fan, figure_odds_causes};
    for (int k = 0; k < 3; k++) {
        const Figure *wide = draw[k](odds, r->source->units, REPORT_WIDE_PX, r->arena);
        ReportBlock *block = document_add(r, REPORT_FIGURE, wide->title);
        block->place = REPORT_PAGE;
        block->wide = wide;
        block->narrow = draw[k](odds, r->source->units, REPORT_NARROW_PX, r->arena);
    }
}

const Report *report_odds(const ReportSource *source, const OddsAnswer *odds, bool figures,
                          Arena *arena)
{
    static const char *const way[] = {[SAMPLE_PLAIN] = "independent",
                                      [SAMPLE_LATIN] = "a Latin hypercube",
                                      [SAMPLE_SOBOL] = "a shifted Sobol sequence"};
    Report *r = document_start(source, "How sure", arena);
    lead(r, odds);
    if (figures) add_figures(r, odds);
    year_table(r, odds);
    thrust_table(r, odds);
    joint_table(r, odds);
    cause_table(r, odds);
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            arena, "%u lives, drawn as %s, seed %llu; needed thrust %s in the mean, deviation %s.",
            odds->study->lives, way[odds->study->sample], (unsigned long long)odds->study->seed,
            force(r, odds->mean_N), force(r, odds->deviation_N)));
    cautions(r);
    return r;
}

/* ---- JSON ---- */

static void share_json(Json *j, const char *key, const OddsShare *share)
{
    json_open_map(j, key);
    json_int(j, "hits", share->hits);
    json_int(j, "count", share->count);
    json_number(j, "share_1", share->share_1);
    json_number(j, "low_1", share->low_1);
    json_number(j, "high_1", share->high_1);
    json_close_map(j);
}

static void years_json(Json *j, const OddsAnswer *o)
{
    json_open_list(j, "years");
    for (int k = 0; k < o->year_count; k++) {
        json_open_map(j, NULL);
        json_number(j, "after_year", o->year[k].after_year);
        share_json(j, "closed", &o->year[k].closed);
        json_close_map(j);
    }
    json_close_list(j);
    json_open_list(j, "thrusts");
    for (int k = 0; k < ODDS_THRUSTS; k++) {
        json_open_map(j, NULL);
        json_number(j, "chance_1", o->thrust[k].share_1);
        json_number(j, "need_whole_N", o->thrust[k].need_N);
        json_number(j, "low_whole_N", o->thrust[k].low_N);
        json_number(j, "high_whole_N", o->thrust[k].high_N);
        json_bool(j, "wanted", k == o->wanted);
        json_close_map(j);
    }
    json_close_list(j);
}

static void joints_json(Json *j, const OddsAnswer *o)
{
    json_open_list(j, "joints");
    for (int k = 0; k < o->joint_count; k++) {
        const BridgeLine *line = o->study->design->line[o->joint[k].line].line;
        json_open_map(j, NULL);
        json_text(j, "line", line->name);
        json_text(j, "unit", line->unit);
        json_text(j, "joint", line->joint[o->joint[k].joint].mark);
        share_json(j, "closed", &o->joint[k].closed);
        json_close_map(j);
    }
    json_close_list(j);
    json_open_list(j, "inputs");
    for (int k = 0; k < ODDS_COUNT; k++) {
        const OddsCause *cause = &o->cause[k];
        json_open_map(j, NULL);
        json_text(j, "key", odds_key(cause->id));
        json_number(j, "mean_1", o->study->odds->law[cause->id].mean_1);
        json_number(j, "spread_1", o->study->odds->law[cause->id].spread_1);
        json_number(j, "part_of_variance_1", cause->part_1);
        json_number(j, "per_deviation_N", cause->per_spread_N);
        json_close_map(j);
    }
    json_close_list(j);
}

void report_odds_json(const ReportSource *source, const OddsAnswer *odds, Text *text)
{
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", source->version);
    json_text(&j, "name", source->name);
    json_text(&j, "file", source->file);
    json_text(&j, "caution", report_caution());
    json_number(&j, "thrust_whole_N", odds->study->thrust_N);
    json_int(&j, "lives", odds->study->lives);
    json_int(&j, "failed", odds->failed);
    json_int(&j, "never", odds->never);
    json_number(&j, "mean_need_whole_N", odds->mean_N);
    json_number(&j, "deviation_need_whole_N", odds->deviation_N);
    json_number(&j, "explained_1", odds->explained_1);
    years_json(&j, odds);
    joints_json(&j, odds);
    json_close_map(&j);
}
