/* What was built by the readings of the jacking day, and its life. */
#include "site.h"

#include <math.h>

/* ---- what the readings tell ---- */

typedef const char *(*Say)(const Report *r, double value);

static const char *ratio(const Report *r, double value_1)
{
    return arena_printf(r->arena, "%.3f", value_1);
}

static void told_row(const Report *r, FigureTable *t, const char *what, const SiteValue *v, Say say)
{
    const char *const plan = isfinite(v->plan) ? say(r, v->plan) : "-";
    figure_table_row(
        t, v->told ? (const char *[]){what, say(r, v->value), say(r, v->low), say(r, v->high), plan}
                   : (const char *[]){what, "cannot tell", "-", "-", plan});
}

static const char *with_unit(const Report *r, const char *what, const char *unit)
{
    return arena_printf(r->arena, "%s [%s]", what, unit);
}

static void told_table(Report *r, const SiteFit *fit)
{
    static const char *const head[] = {"what", "value", "least", "most", "plan"};
    FigureTable *t = figure_table_start(
        r->arena, "What the readings tell; least and most at 95 %, ranges that nobody knows added",
        5);
    const char *const force = jacking_force_unit(r), *const move = jacking_move_unit(r);
    for (int c = 0; c < 5; c++) figure_table_column(t, c, c > 0, head[c]);
    told_row(r, t, "movement for a force, over the plan's", &fit->slope_1, ratio);
    told_row(r, t, with_unit(r, "seating of all joints", move), &fit->seating_m, jacking_move);
    told_row(r, t, with_unit(r, "half the loop, up and down", force), &fit->loop_N, jacking_force);
    told_row(r, t, "friction at the shims", &fit->friction_1, ratio);
    told_row(r, t, "true force over the gauge's", &fit->gauge_1, ratio);
    told_row(r, t, "stiffness of the girders, over the plan's", &fit->girder_1, ratio);
    told_row(r, t, "modulus of the panels, over the plan's", &fit->deck_1, ratio);
    told_row(r, t, with_unit(r, "locked force", force), &fit->force_N, jacking_force);
    told_row(r, t, with_unit(r, "the same, deck and girders alike warm", force), &fit->even_N,
             jacking_force);
    document_table(r, t);
}

static void open_item(Report *r, const char *what, const SiteValue *value)
{
    if (value->told) return;
    document_add(r, REPORT_ITEM, arena_printf(r->arena, "cannot tell %s: %s", what, value->why));
}

static void open_items(Report *r, const SiteFit *fit)
{
    open_item(r, "the gauge", &fit->gauge_1);
    open_item(r, "the girders", &fit->girder_1);
    open_item(r, "the panels", &fit->deck_1);
    open_item(r, "friction at the shims", &fit->friction_1);
    open_item(r, "the locked force", &fit->force_N);
    if (!fit->deck_1.told)
        document_add(
            r, REPORT_ITEM,
            arena_printf(r->arena,
                         "all of the slope would be: panels of %.2f, or girders of %.2f of "
                         "the plan's stiffness, or a true force of %.2f of the gauge's; or "
                         "some of each",
                         fit->deck_alone_1, fit->girder_alone_1, fit->gauge_alone_1));
}

void site_built(Report *r, const SiteSource *source)
{
    const SiteFit *fit = source->fit;
    if (!fit) {
        document_add(r, REPORT_TEXT,
                     arena_printf(r->arena, "Nothing is told of the deck: %s.", source->fit_why));
        return;
    }
    told_table(r, fit);
    open_items(r, fit);
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena,
                              "From %d readings of the first loading with all joints closed, of "
                              "which %d lie more than three spreads off the line.",
                              fit->used, fit->left_out));
}

/* ---- the locked force ---- */

const char *site_force_words(const Report *r, const SiteSource *source)
{
    const SiteFit *fit = source->fit;
    if (!fit || !fit->even_N.told) return NULL;
    const SiteValue *v = isfinite(fit->apart_K) ? &fit->even_N : &fit->force_N;
    return arena_printf(r->arena, "%s (%s to %s) at 95 %%%s", jacking_said_force(r, v->value),
                        jacking_force(r, fit->even_N.low), jacking_force(r, fit->even_N.high),
                        isfinite(fit->apart_K)
                            ? " once deck and girders are alike warm"
                            : ", the temperatures of deck and girders not known");
}

void site_force(Report *r, const SiteSource *source)
{
    static const char *const head[] = {"from", "less by", "more by"};
    const SiteFit *fit = source->fit;
    const char *unit = jacking_force_unit(r);
    if (!fit || !fit->even_N.told) return;
    FigureTable *t =
        figure_table_start(r->arena, "Where the interval of the locked force comes from", 3);
    for (int c = 0; c < 3; c++)
        figure_table_column(t, c, c > 0, c ? jacking_head(r, head[c], unit) : head[c]);
    for (int i = 0; i < SITE_PARTS; i++)
        figure_table_row(t, (const char *[]){site_force_part_name((SiteForcePart)i),
                                             jacking_force(r, fit->below_N[i]),
                                             jacking_force(r, fit->above_N[i])});
    figure_table_row(t, (const char *[]){"together",
                                         jacking_force(r, fit->even_N.value - fit->even_N.low),
                                         jacking_force(r, fit->even_N.high - fit->even_N.value)});
    document_table(r, t);
    document_add(r, REPORT_TEXT,
                 "Together: the root of the sum of the squares of the first three, which do not "
                 "depend on each other; bores and hold added as they are, since they are ranges "
                 "(common practice, no source).");
    if (!isfinite(fit->apart_K)) return;
    document_add(
        r, REPORT_TEXT,
        arena_printf(r->arena,
                     "When it was locked the deck was %s %s than the girders: %s of the %s that "
                     "stood there %s once that is gone.",
                     jacking_said_kelvin(r, fabs(fit->apart_K)),
                     fit->apart_K >= 0 ? "warmer" : "colder",
                     jacking_said_force(r, fabs(fit->force_N.value - fit->even_N.value)),
                     jacking_said_force(r, fit->force_N.value),
                     fit->apart_K >= 0 ? "is lost" : "comes on top"));
}

/* ---- life ---- */

static void life_row(const Report *r, FigureTable *t, const char *when, const SiteStress *design,
                     const SiteStress *least, const SiteStress *most)
{
    figure_table_row(
        t, (const char *[]){
               when, jacking_pressure(r, design->mean_Pa), jacking_pressure(r, least->mean_Pa),
               jacking_pressure(r, most->mean_Pa), jacking_pressure(r, design->fibre_Pa),
               jacking_pressure(r, least->fibre_Pa), jacking_pressure(r, most->fibre_Pa)});
}

static void life_table(Report *r, const SiteSource *source, const SiteBuiltLine *at)
{
    static const char *const head[] = {"",      "mean: design", "least", "most", "fibre: design",
                                       "least", "most"};
    const LineAnswer *line = &source->report->answer->line[at->line];
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "%s, joint %s, which governs it: compression by permanent load [%s]; mean of "
                     "the deck, and its less compressed fibre",
                     document_name(r, line), line->line->joint[at->joint].mark,
                     jacking_pressure_unit(r)),
        7);
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c > 0, head[c]);
    life_row(r, t, "jacked", &at->design.jacked, &at->least.jacked, &at->most.jacked);
    life_row(r, t, "open to traffic", &at->design.opening, &at->least.opening, &at->most.opening);
    const double life_day =
        line->history->day[line->moments.end] - line->history->day[line->moments.opening];
    life_row(r, t,
             arena_printf(r->arena, "end of life, %s later", figure_duration(r->arena, life_day)),
             &at->design.end, &at->least.end, &at->most.end);
    document_table(r, t);
}

static void went_in(Report *r, const SiteBuilt *built)
{
    const SiteBuiltLine *at = &built->line[0];
    const SiteLife *low = &at->least, *high = &at->most;
    Text text = text_start(r->arena);
    text_printf(&text,
                "Least and most of %d lives, over what the readings leave open. The least: %s "
                "locked, modulus of the panels %.2f of the file's",
                built->runs, jacking_said_force(r, low->thrust_N), low->modulus_1);
    if (isfinite(low->friction_1)) text_printf(&text, ", friction %.3f", low->friction_1);
    text_printf(&text, "; the most: %s, %.2f", jacking_said_force(r, high->thrust_N),
                high->modulus_1);
    if (isfinite(high->friction_1)) text_printf(&text, ", %.3f", high->friction_1);
    text_add(&text,
             ". A stiffness of the girders that was found is not put in: the bridge file has "
             "no input for it. Creep until the locks is counted twice, on the safe side.");
    document_add(r, REPORT_TEXT, text.bytes);
}

void site_life_add(Report *r, const SiteSource *source)
{
    const SiteBuilt *built = source->built;
    if (!built || built->count == 0) {
        document_add(r, REPORT_TEXT,
                     arena_printf(r->arena, "No life was run: %s.",
                                  source->built_why ? source->built_why : "no joint governs"));
        return;
    }
    document_fact(
        r, "as built",
        built->always ? "every joint stays closed and every limit is kept, at both ends of "
                        "what the readings leave open"
        : built->ever ? "A JOINT OPENS OR A LIMIT IS PASSED at one end of what the readings "
                        "leave open, not at the other: measure more, or jack anew"
                      : "A JOINT OPENS OR A LIMIT IS PASSED whatever the readings leave open");
    document_fact(
        r, "window",
        arena_printf(
            r->arena, "so built the deck needs %s to %s; the first limit stands at %s to %s",
            jacking_force(r, built->need_N[0]), jacking_said_force(r, built->need_N[1]),
            jacking_force(r, built->limit_N[0]), jacking_said_force(r, built->limit_N[1])));
    if (!built->design_met)
        document_fact(r, "design", "the design itself does not meet rules and limits");
    document_fact(
        r, "day",
        source->calendar
            ? arena_printf(r->arena,
                           "jacked on day %.0f of the calendar (day 0 is %s), planned for "
                           "day %.0f; what comes after is moved along",
                           built->jacking_day, source->calendar, built->planned_day)
            : arena_printf(r->arena,
                           "day %.0f as planned; with --calendar, the date of day 0, the "
                           "life runs from the real day",
                           built->planned_day));
    for (int k = 0; k < built->count; k++) life_table(r, source, &built->line[k]);
    went_in(r, built);
}

/* ---- the whole ---- */

const Report *report_site_fit(const SiteSource *source, Arena *arena)
{
    Report *const r = document_start(source->report, "As built", arena);
    const char *const force = site_force_words(r, source);
    document_add(
        r, REPORT_LEAD,
        force ? arena_printf(arena, "%s: locked %s; the plan has %s.", source->day->plan->unit,
                             force, jacking_said_force(r, source->day->plan->thrust_N))
              : arena_printf(arena, "%s: no locked force is told yet.", source->day->plan->unit));
    document_add(r, REPORT_HEADING, "What was built");
    site_built(r, source);
    site_force(r, source);
    document_add(r, REPORT_HEADING, "Life with that");
    site_life_add(r, source);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}

void report_site_fit_json(const SiteSource *source, Text *text)
{
    Json json = json_start(text);
    json_open_map(&json, NULL);
    json_text(&json, "name", source->report->name);
    json_text(&json, "unit", source->day->plan->unit);
    json_text(&json, "caution", report_caution());
    json_int(&json, "records", (int)source->records);
    json_text(&json, "hash", source->hash);
    json_text(&json, "fit_why", source->fit_why);
    if (source->fit) {
        json_open_map(&json, "fit");
        site_fit_json(source->fit, &json);
        json_close_map(&json);
    }
    json_text(&json, "life_why", source->built_why);
    if (source->built) {
        json_open_map(&json, "life");
        json_text(&json, "calendar", source->calendar);
        site_built_json(source->built, source->report->answer, &json);
        json_close_map(&json);
    }
    json_close_map(&json);
}
