/* The answer: one sentence, then its parts, then what it is not. */
#include <math.h>

#include "document.h"

static const char *force_text(const Report *r, double force_N)
{
    return figure_quantity(r->arena, force_N, quantity_unit(r->source->units, DIM_FORCE));
}

static const LineAnswer *limiting_line(const Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    const int k = a->limiting_line;
    return k >= 0 && k < a->line_count ? &a->line[k] : document_line(r->source);
}

static void lead_impossible(const Report *r, Text *text)
{
    const LineAnswer *line = document_line(r->source);
    const Governing *at = &line->rule[line->need_rule].at;
    text_printf(text,
                "No thrust keeps every joint closed: by the rule %s, the %s fibre of %s opens "
                "further as the thrust grows.",
                document_need_name(line), at->top ? "top" : "bottom",
                figure_where(r->arena, line, at, r->source->units));
}

/* Whether the thrust lies in the window of a stiff deck too. */
static bool bounds_both(const ThrustAnswer *a)
{
    return a->thrust_N >= a->need_stiff_N * (1 - 1e-9) &&
           a->thrust_N <= a->most_stiff_N * (1 + 1e-9);
}

void blocks_lead(Report *r)
{
    Text text = text_start(r->arena);
    const ThrustAnswer *a = r->source->answer;
    const char *need = force_text(r, a->need_N), *most = force_text(r, a->most_N);
    if (a->given)
        text_printf(&text, "The given thrust of %s %s. ", force_text(r, a->thrust_N),
                    !a->met ? "does not lie in the window"
                    : bounds_both(a)
                        ? "lies in the window"
                        : "lies in the window, but not where the girder lines share it "
                          "by their stiffness");
    if (!a->reachable)
        lead_impossible(r, &text);
    else if (!isfinite(a->most_N))
        text_printf(&text,
                    "The deck needs %s in all to keep every joint closed; no limit stands above.",
                    need);
    else if (a->window)
        text_printf(&text,
                    "The deck needs %s in all to keep every joint closed; the first limit stands "
                    "at %s.",
                    need, most);
    else
        text_printf(&text,
                    "The window is empty: the deck needs %s in all to keep every joint closed, but "
                    "the first limit stands at %s.",
                    need, most);
    document_add(r, REPORT_LEAD, text.bytes);
}

static void fact_need(Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    const LineAnswer *line = document_line(r->source);
    if (!a->reachable || line->need_rule < 0) return;
    const Governing *at = &line->rule[line->need_rule].at;
    const bool later = at->day > line->history->day[line->jacked.time];
    document_fact(r, "needed",
                  arena_printf(r->arena, "%s: %s, %s; %s%s, %s%s", force_text(r, a->need_N),
                               document_need_name(line), document_name(r, line),
                               figure_where(r->arena, line, at, r->source->units),
                               at->joint < 0 || line->line->rule[line->need_rule].average ? ""
                               : at->top ? " top fibre"
                                         : " bottom fibre",
                               figure_when(r->arena, line, at->day),
                               later ? " after jacking" : ""));
}

static void fact_most(Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    if (!isfinite(a->most_N)) return;
    const LineAnswer *line = limiting_line(r);
    document_fact(r, "at most",
                  arena_printf(r->arena, "%s: %s, %s", force_text(r, a->most_N),
                               document_most_name(line), document_name(r, line)));
}

static void fact_between(Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    if (!a->reachable || !isfinite(a->most_N)) return;
    const double room_N = a->most_N - a->need_N;
    if (!a->window)
        document_fact(r, "to open it",
                      "older panels, another gap or run, a remedy at the one joint that governs, "
                      "more girder at the place of the limit");
    else if (a->need_N > 0)
        document_fact(r, "between",
                      arena_printf(r->arena, "%s, %.0f %% of the need", force_text(r, room_N),
                                   100 * room_N / a->need_N));
}

/* Both bounds of how the lines share the thrust, and what holds for either. */
static void fact_sharing(Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    if (!a->reachable || a->line_count < 2 || !(a->need_stiff_N > 0) || !isfinite(a->need_stiff_N))
        return;
    const double need_N = fmax(a->need_N, a->need_stiff_N);
    const double most_N = fmin(a->most_N, a->most_stiff_N);
    const char *both = need_N <= most_N ? arena_printf(r->arena, "; under both: %s to %s",
                                                       force_text(r, need_N), force_text(r, most_N))
                                        : (a->window ? "; no thrust is left under both" : "");
    document_fact(r, "sharing",
                  arena_printf(r->arena,
                               "above by tributary width; by the stiffness of the lines, a stiff "
                               "deck: needed %s, at most %s%s",
                               force_text(r, a->need_stiff_N), force_text(r, a->most_stiff_N),
                               both));
}

static void fact_line(Report *r)
{
    const LineAnswer *line = document_line(r->source);
    const UnitSystem units = r->source->units;
    const double area_m2 = document_deck_area_m2(line);
    Text text = text_start(r->arena);
    text_printf(&text, "%s of %s, jacked to %s", line->line->name, document_unit(r, line),
                force_text(r, line->thrust_N));
    if (area_m2 > 0)
        text_printf(
            &text, ", %s on average over its deck",
            figure_quantity(r->arena, line->thrust_N / area_m2, quantity_unit(units, DIM_STRESS)));
    text_printf(&text, "; its gap opens by %s, at most %s arrives at an anchor panel",
                figure_quantity(r->arena, line->gap_movement_m, figure_move_unit(units)),
                force_text(r, line->anchor_force_N));
    document_fact(r, "governs", text.bytes);
}

static void fact_left(Report *r)
{
    const LineAnswer *line = document_line(r->source);
    const double open_1 = document_left_1(&line->opening, &line->jacked, false);
    const double end_1 = document_left_1(&line->finish, &line->jacked, false);
    if (isnan(open_1) || line->finish.joint < 0 || open_1 > 2) return; /* hardly jacked: no share */
    document_fact(r, "kept",
                  arena_printf(r->arena,
                               "%.0f %% of the mean compression at %s until opening to traffic, "
                               "%.0f %% until the end of life",
                               100 * open_1, line->line->joint[line->finish.joint].mark,
                               100 * end_1));
}

/* The strip beside the closure starts without compression: it is shown, not judged. */
static void fact_fill(Report *r)
{
    const LineAnswer *line = document_line(r->source);
    if (isnan(line->fill_top_Pa)) return;
    const UnitSystem units = r->source->units;
    const char *unit = quantity_unit(units, DIM_STRESS);
    const double worst_Pa = fmax(line->fill_top_Pa, line->fill_bottom_Pa);
    document_fact(
        r, "not kept",
        arena_printf(r->arena,
                     "the fill beside the closure starts without compression: at the end "
                     "of life it has %s %s under permanent load alone; its joints are not "
                     "judged",
                     figure_quantity(r->arena, fabs(worst_Pa), unit),
                     worst_Pa > 0 ? "tension" : "compression at least"));
}

/* What the reader must know before using the numbers. */
static void fact_mind(Report *r)
{
    const ThrustAnswer *a = r->source->answer;
    const BridgeLine *b = document_line(r->source)->line;
    if (a->reachable && !a->verified)
        document_fact(r, "mind",
                      "the need did not settle: it is predicted, not met by a run at it; something "
                      "changes its pattern there (friction, lift-off)");
    if (b->beyond) document_fact(r, "mind", b->beyond);
    if (b->remark)
        document_fact(
            r, "mind",
            arena_printf(r->arena, "distribution of live load out of range: %s", b->remark));
}

static void fact_judged(Report *r)
{
    const BridgeLine *b = document_line(r->source)->line;
    int rules = 0;
    for (int i = 0; i < b->rule_count; i++) rules += b->rule[i].counts;
    document_fact(r, "judged by",
                  arena_printf(r->arena, "%d %s and %d limits, all borrowed", rules,
                               rules == 1 ? "rule that counts" : "rules that count",
                               b->limit_count));
    document_fact(r, "not judged",
                  "girders in service, buckling and strength of any part, fatigue, capacity of "
                  "bearings, panels' handling, details of anchor panels, the seasonal difference "
                  "of deck and girder: clench checks says what of these it looks at");
}

void blocks_answer(Report *r)
{
    blocks_lead(r);
    fact_need(r);
    fact_most(r);
    fact_between(r);
    fact_sharing(r);
    fact_line(r);
    fact_left(r);
    fact_fill(r);
    fact_mind(r);
    fact_judged(r);
    document_add(r, REPORT_CAUTION, report_caution());
}
