/* The answer in one paragraph. */
#include <math.h>

#include "document.h"

static const char *force_text(const Report *r, double force_N)
{
    return figure_quantity(r->arena, force_N, quantity_unit(r->source->units, DIM_FORCE));
}

static void answer_need(const Report *r, Text *text)
{
    const ThrustAnswer *a = r->source->answer;
    const LineAnswer *line = document_line(r->source);
    if (!a->reachable) {
        const Governing *at = &line->rule[line->need_rule].at;
        text_printf(text,
                    "No thrust keeps every joint closed: by the rule %s, the %s fibre of %s opens "
                    "further as the thrust grows. ",
                    document_need_name(line), at->top ? "top" : "bottom",
                    figure_where(r->arena, line, at, r->source->units));
        return;
    }
    double area_m2 = document_deck_area_m2(line);
    text_printf(text, "The deck needs %s in all to keep every joint closed",
                force_text(r, a->need_N));
    if (area_m2 > 0 && line->need_N > 0)
        text_printf(text, "; the line that governs needs %s, an average of %s over its deck",
                    force_text(r, line->need_N),
                    figure_quantity(r->arena, line->need_N / area_m2,
                                    quantity_unit(r->source->units, DIM_STRESS)));
    text_printf(text, ". ");
}

static void answer_window(const Report *r, Text *text)
{
    const ThrustAnswer *a = r->source->answer;
    const LineAnswer *line = document_line(r->source);
    const int k = a->limiting_line;
    const LineAnswer *limiting = k >= 0 && k < a->line_count ? &a->line[k] : line;
    if (!a->reachable) return;
    if (!isfinite(a->most_N))
        text_printf(text, "Window: from %s (%s), no limit above it. ", force_text(r, a->need_N),
                    document_need_name(line));
    else if (a->window)
        text_printf(text, "Window: %s (%s) to %s (%s, %s). ", force_text(r, a->need_N),
                    document_need_name(line), force_text(r, a->most_N),
                    document_most_name(limiting), limiting->line->name);
    else
        text_printf(
            text,
            "The window is empty: %s needs %s, but %s (%s) allows %s. What can open it: "
            "older panels, another gap or run, a remedy at the one joint that governs, more "
            "girder at the place of the limit. ",
            document_need_name(line), force_text(r, a->need_N), document_most_name(limiting),
            limiting->line->name, force_text(r, a->most_N));
}

static void answer_governs(const Report *r, Text *text)
{
    const LineAnswer *line = document_line(r->source);
    if (line->need_rule < 0) return;
    const Governing *at = &line->rule[line->need_rule].at;
    const char *after = at->day > line->history->day[line->jacked.time] ? " after jacking" : "";
    text_printf(text, "Governs: %s%s, %s%s, %s of %s. ",
                figure_where(r->arena, line, at, r->source->units),
                at->joint < 0 ? ""
                : at->top     ? ", top fibre"
                              : ", bottom fibre",
                figure_when(r->arena, line, at->day), after, line->line->name, line->line->unit);
}

static void answer_left(const Report *r, Text *text)
{
    const LineAnswer *line = document_line(r->source);
    const double open_1 = document_left_1(&line->opening, &line->jacked, false);
    const double end_1 = document_left_1(&line->finish, &line->jacked, false);
    if (isnan(open_1) || line->finish.joint < 0) return;
    text_printf(
        text,
        "Of the mean compression at %s, %.0f %% is left at opening and %.0f %% at the end of life.",
        line->line->joint[line->finish.joint].mark, 100 * open_1, 100 * end_1);
}

void blocks_answer(Report *r)
{
    Text text = text_start(r->arena);
    const ThrustAnswer *a = r->source->answer;
    if (a->given)
        text_printf(&text, "The given thrust of %s %s. ", force_text(r, a->thrust_N),
                    a->met ? "lies in the window" : "does not lie in the window");
    answer_need(r, &text);
    answer_window(r, &text);
    answer_governs(r, &text);
    answer_left(r, &text);
    document_add(r, REPORT_LEAD, text.bytes);
    if (a->line_count > 1 && isfinite(a->need_stiff_N) && a->need_stiff_N > 0)
        document_add(
            r, REPORT_TEXT,
            arena_printf(r->arena,
                         "Shared by tributary width. Were the deck stiff enough to share by "
                         "the stiffness of the lines: needed %s, at most %s.",
                         force_text(r, a->need_stiff_N), force_text(r, a->most_stiff_N)));
    const LineAnswer *line = document_line(r->source);
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena,
                              "When this line is jacked to %s its gap opens by %s, and at most %s "
                              "arrives at the inner face of an anchor panel.",
                              force_text(r, line->thrust_N),
                              figure_quantity(r->arena, line->gap_movement_m,
                                              figure_move_unit(r->source->units)),
                              force_text(r, line->anchor_force_N)));
}
