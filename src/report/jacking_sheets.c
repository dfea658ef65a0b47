/* Chapters of the jacking plan for the site: alarms, what is watched, holds, a jack out, the way back,
 * and sheets to write on. */
#include <math.h>

#include "jacking.h"

static const JackStep *whole(const JackPlan *plan) { return &plan->step[plan->step_count - 1]; }

static FigureTable *table_new(const Report *r, const char *caption, int columns,
                              const char *const *head, int words)
{
    FigureTable *t = figure_table_start(r->arena, caption, columns);
    for (int c = 0; c < columns; c++) figure_table_column(t, c, c >= words, head[c]);
    t->look = FIGURE_TABLE_LARGE;
    return t;
}

/* ---- alarms ---- */

static void alarm_row(FigureTable *t, const char *what, const char *hold, const char *back,
                      const char *meaning)
{
    figure_table_row(t, (const char *[]){what, hold, back, meaning});
}

static void alarms_of_gap(const Report *r, const JackPlan *plan, FigureTable *t)
{
    const JackAlarms *a = &plan->alarm;
    const char *off = jacking_percent(r, a->movement_1);
    alarm_row(
        t, "gap opens too little: below the band, or less with force than planned",
        arena_printf(r->arena, "below least; %s", off), "-",
        "shims, a bearing or a dam bind; gauge reads high; a jack is shut. NEVER pump to chase "
        "a movement");
    alarm_row(t, "gap opens too much: above the band, or more with force than planned",
              arena_printf(r->arena, "above most; %s", off), "with slip, or growing",
              "an anchor slips, a joint crushes; girders or concrete softer; gauge reads low");
    alarm_row(t, "one side ahead of the other beyond the plan", jacking_said_move(r, a->sides_m),
              "growing", "a jack is shut or stuck, or off its place; one side binds");
    alarm_row(t, "gauges, or gauge and load cell, apart", jacking_percent(r, a->force_1), "-",
              "one is wrong: believe neither until it is found out");
}

static void alarms_of_rest(const Report *r, const JackPlan *plan, FigureTable *t)
{
    const JackAlarms *a = &plan->alarm;
    alarm_row(t, "force falls in a hold, 15 minutes, temperature taken out",
              arena_printf(r->arena, "%s: %s at the whole thrust", jacking_percent(r, a->drop_1),
                           jacking_said_force(r, a->drop_1 * plan->thrust_N)),
              "falling faster", "a leak (the gap closes); slip of an anchor (it opens)");
    alarm_row(t, "slip of an anchor panel beyond the plan", jacking_said_move(r, a->slip_m),
              arena_printf(r->arena, "%s, or growing at one force",
                           jacking_said_move(r, a->abort_slip_m)),
              "the one link without a second: everything hangs on it");
    alarm_row(t, "girder off its expected rise, up or sideways", "-",
              jacking_said_move(r, a->camber_m), "thrust not where it should be; a brace is loose");
    alarm_row(t, "bearing off its expected movement", "-", jacking_percent(r, a->bearing_1),
              "a bearing is locked: the thrust goes into the pier");
    alarm_row(t, "new spall or crack; joint, dam or shim that moves", "any",
              "step at a joint; crack that is heard", "look before all else");
    alarm_row(t, "leak of oil, wind or lightning, somebody inside the zone", "any", "any",
              "shut in, nuts down, then clear it");
}

void jacking_alarms(Report *r, const JackPlan *plan)
{
    static const char *const head[] = {"what is read", "HOLD at", "GO BACK at", "what it may be"};
    document_add(r, REPORT_TEXT,
                 "HOLD: stop the pump, shut the valves, follow down the lock nuts, read again, ask "
                 "the engineer. BACK: lower evenly to the end of the stage before, nuts following. "
                 "Any of the crew may call STOP; one person, named before, gives GO.");
    FigureTable *t = table_new(
        r, "Alarms: limits are inputs of the file, common practice, no source", 4, head, 4);
    alarms_of_gap(r, plan, t);
    alarms_of_rest(r, plan, t);
    document_table(r, t);
}

/* ---- before the pump runs ---- */

void jacking_before(Report *r, const JackPlan *plan)
{
    const JackWarmth *w = &plan->warmth;
    const char *const items[] = {
        arena_printf(
            r->arena,
            "Nobody within %s of the gap, in line with the jacks, below the deck or over a "
            "joint; barriers and a watch stand. Oil under this pressure cuts skin: no hand on "
            "a hose.",
            figure_quantity(r->arena, plan->alarm.exclusion_m,
                            quantity_unit(r->source->units, DIM_LENGTH))),
        "Lock nuts (or shims) follow every movement, at most 1/16 in (1.5 mm) behind: a burst hose "
        "then drops nothing. Check valve at every jack; relief valve set at the planned pressure "
        "of the last step; a shut-off and a gauge at every jack.",
        arena_printf(
            r->arena,
            "Deck and girders within %s of each other on average, and that changing by less "
            "than %s an hour: before dawn or overcast.",
            jacking_said_kelvin(r, w->window_K), jacking_said_kelvin(r, w->rate_K)),
        arena_printf(
            r->arena,
            "Jacks at their height to %s: at the whole thrust that much is %s %s at top and "
            "soffit. Their resultant stands %s from the middle of the deck.",
            jacking_said_move(r, plan->height_off_m), jacking_pressure(r, plan->height_Pa),
            jacking_pressure_unit(r),
            arena_printf(r->arena, "%s %s", jacking_move(r, fabs(plan->off_m)),
                         jacking_move_unit(r))),
        "Strength of panels, grout of the anchors and epoxy proven; age of the joints as "
        "specified; "
        "certificates of jacks and gauges at hand; bearings free; ties and braces as drawn.",
        arena_printf(r->arena,
                     "Packing behind each jack: %s at both ends together, square, steel on mortar; "
                     "faces of the gap surveyed.",
                     jacking_said_move(r, plan->gap_m - plan->gear.closed_m)),
        "Zero readings of every gauge, dial and thermometer, twice, written down."};
    for (size_t i = 0; i < sizeof items / sizeof *items; i++)
        document_add(r, REPORT_ITEM, items[i]);
}

/* ---- what is watched besides ---- */

static void faces_table(Report *r, const JackPlan *plan)
{
    const char *const head[] = {"step",
                                jacking_head(r, "left face", jacking_move_unit(r)),
                                jacking_head(r, "right face", jacking_move_unit(r)),
                                jacking_head(r, "arrives left", jacking_force_unit(r)),
                                jacking_head(r, "arrives right", jacking_force_unit(r)),
                                jacking_head(r, "gives left", jacking_move_unit(r)),
                                jacking_head(r, "gives right", jacking_move_unit(r))};
    FigureTable *t = table_new(r,
                               "Faces of the gap, each away from it, without seating; force that "
                               "arrives at the anchor panels; give of their connectors",
                               7, head, 0);
    for (int i = 0; i < plan->step_count; i++) {
        const JackStep *s = &plan->step[i];
        figure_table_row(
            t,
            (const char *[]){arena_printf(r->arena, "%d", i + 1), jacking_move(r, s->left_m),
                             jacking_move(r, s->right_m), jacking_force(r, s->anchor_N[0]),
                             jacking_force(r, s->anchor_N[1]), jacking_move(r, s->anchor_slip_m[0]),
                             jacking_move(r, s->anchor_slip_m[1])});
    }
    document_table(r, t);
}

static void watch_row(const Report *r, const JackPlan *plan, const JackWatch *watch, FigureTable *t)
{
    const char **cell = ARENA_NEW(r->arena, const char *, t->column_count);
    cell[0] = arena_printf(r->arena, watch->bearing ? "bearing %d, to the right" : "rise, span %d",
                           watch->number);
    for (int c = 1, i = 0; c < t->column_count; c++) {
        i = (c * plan->step_count + t->column_count - 2) / (t->column_count - 1) - 1;
        cell[c] = jacking_move(r, watch->move_m[i]);
    }
    figure_table_row(t, cell);
}

/* At most eight steps side by side, the last among them. */
void jacking_watched(Report *r, const JackPlan *plan)
{
    const int shown = plan->step_count < 8 ? plan->step_count : 8;
    faces_table(r, plan);
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "Girders and bearings since the zero reading, mean of the girders [%s]; a "
                     "negative rise is a sag, a negative movement goes to the left",
                     jacking_move_unit(r)),
        shown + 1);
    figure_table_column(t, 0, false, "where");
    t->look = FIGURE_TABLE_LARGE;
    for (int c = 1; c <= shown; c++)
        figure_table_column(
            t, c, true,
            arena_printf(r->arena, "step %d", (c * plan->step_count + shown - 1) / shown));
    for (int i = 0; i < plan->watch_count; i++) watch_row(r, plan, &plan->watch[i], t);
    document_table(r, t);
}

/* ---- holds and temperature ---- */

static void holds_table(Report *r, const JackPlan *plan)
{
    const char *const head[] = {"after", jacking_head(r, "fallen", jacking_force_unit(r)),
                                "share", jacking_head(r, "at most", jacking_force_unit(r)),
                                "share", jacking_head(r, "left, least", jacking_force_unit(r))};
    FigureTable *t =
        table_new(r,
                  "Shut in or on the locks at one temperature, after the whole thrust is "
                  "reached: what creep and shrinkage take, by the time models of the file, "
                  "and at most (creep of EN 1992-1-1, which starts quicker)",
                  6, head, 0);
    for (int i = 0; i < plan->hold_count; i++) {
        const JackHold *h = &plan->hold[i];
        const double fallen_N = plan->thrust_N - h->force_N, most_N = plan->thrust_N - h->quick_N;
        figure_table_row(
            t, (const char *[]){jacking_minutes(r, h->after_day), jacking_force(r, fallen_N),
                                arena_printf(r->arena, "%.2f %%", 100 * fallen_N / plan->thrust_N),
                                jacking_force(r, most_N),
                                arena_printf(r->arena, "%.2f %%", 100 * most_N / plan->thrust_N),
                                jacking_force(r, h->quick_N)});
    }
    document_table(r, t);
}

static void warmth_words(Report *r, const JackPlan *plan)
{
    const JackWarmth *w = &plan->warmth;
    const bool us = r->source->units == UNITS_US;
    const double locked_N = plan->thrust_N - whole(plan)->drop_N;
    const double degree = us ? 5.0 / 9 : 1;
    document_add(
        r, REPORT_ITEM,
        arena_printf(
            r->arena,
            "On the locks the force rises by %s for each \xC2\xB0%c by which the deck gets warmer "
            "than "
            "the girders, and falls by %s for each colder one; take this out of a hold before the "
            "fall is judged. Over %s: between %s and %s.",
            jacking_said_force(r, (w->locked_warm_N - locked_N) / w->swing_K * degree),
            us ? 'F' : 'C',
            jacking_said_force(r, (locked_N - w->locked_cold_N) / w->swing_K * degree),
            jacking_said_kelvin(r, w->swing_K), jacking_said_force(r, w->locked_cold_N),
            jacking_said_force(r, w->locked_warm_N)));
    document_add(
        r, REPORT_ITEM,
        arena_printf(r->arena,
                     "Locked with the deck %s warmer than the girders, %s is left once that is "
                     "gone (%.1f %% "
                     "lost, creep of the hold in it); %s colder, %s. Wait for the window rather "
                     "than push more.",
                     jacking_said_kelvin(r, w->window_K), jacking_said_force(r, w->later_warm_N),
                     100 * (1 - w->later_warm_N / plan->thrust_N),
                     jacking_said_kelvin(r, w->window_K), jacking_said_force(r, w->later_cold_N)));
    document_add(
        r, REPORT_ITEM,
        arena_printf(
            r->arena,
            "A deck that warms by %s since the zero reading makes the opening at the whole "
            "thrust %s %s smaller, one that cools %s %s larger (in the band).",
            jacking_said_kelvin(r, w->window_K), jacking_move(r, -w->move_warm_m),
            jacking_move_unit(r), jacking_move(r, w->move_cold_m), jacking_move_unit(r)));
}

void jacking_holds(Report *r, const JackPlan *plan)
{
    holds_table(r, plan);
    warmth_words(r, plan);
    document_add(r, REPORT_ITEM,
                 "Lock: nuts down by hand on a clean thread at the full force, then lower the "
                 "pressure until it stands on them; note pressure and gap before and after. The "
                 "deck is then held: nobody releases a nut, wedges a joint or stands in line until "
                 "the closure has its strength and the engineer of record gives it free.");
}

/* ---- a jack shut off ---- */

static const char *out_words(const Report *r, const JackOut *out)
{
    Text text = text_start(r->arena);
    static const char *const why[] = {"force", "pressure", "edge without compression",
                                      "one side ahead"};
    for (unsigned i = 0; i < 4; i++)
        if (out->why & 1u << i) text_printf(&text, "%s%s", text.length ? ", " : "NO: ", why[i]);
    return text.length ? text.bytes : "may be";
}

static void out_row(const Report *r, const JackOut *out, FigureTable *t)
{
    figure_table_row(
        t,
        (const char *[]){
            out->partner < 0 ? arena_printf(r->arena, "%d", out->jack + 1)
                             : arena_printf(r->arena, "%d and %d", out->jack + 1, out->partner + 1),
            jacking_force(r, out->jack_N), jacking_pressure(r, out->pressure_Pa),
            jacking_pressure(r, out->edge_least_Pa), jacking_pressure(r, out->edge_most_Pa),
            jacking_move(r, out->tilt_m), out_words(r, out)});
}

void jacking_shut_off(Report *r, const JackPlan *plan)
{
    const char *const head[] = {"shut off",
                                jacking_head(r, "the others", jacking_force_unit(r)),
                                jacking_head(r, "gauge", jacking_pressure_unit(r)),
                                jacking_head(r, "edge, least", jacking_pressure_unit(r)),
                                jacking_head(r, "edge, most", jacking_pressure_unit(r)),
                                jacking_head(r, "right ahead by", jacking_move_unit(r)),
                                "whole thrust kept"};
    FigureTable *t =
        table_new(r,
                  "A jack shut off and the whole thrust kept by the others; compression "
                  "at the edges of the deck. Jacks count from the left",
                  7, head, 0);
    figure_table_column(t, 6, false, head[6]);
    for (int i = 0; i < plan->out_count; i++) out_row(r, &plan->out[i], t);
    document_table(r, t);
    const double left_1 = (plan->gear.count - 1.0) / plan->gear.count;
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "At the same pressure one jack less pushes %s in place of %s: the gauge alone does not "
            "tell, so write down which ones push. Where one alone may not be shut, its partner on "
            "the "
            "other side goes off with it, or the step is not made. For the time of the step only: "
            "it "
            "is mended before the jacks are locked. Edge stress: the deck as a beam lying flat; "
            "the "
            "side ahead: the deck as a stiff plate before girders as springs.",
            jacking_said_force(r, left_1 * plan->thrust_N), jacking_said_force(r, plan->thrust_N)));
}

/* ---- the way back ---- */

static void back_table(Report *r, const JackPlan *plan, const JackReturn *back)
{
    const JackStep *from = &plan->step[back->from_step];
    const char *const head[] = {"down to", jacking_head(r, "gauge", jacking_pressure_unit(r)),
                                jacking_head(r, "all jacks", jacking_force_unit(r)),
                                jacking_head(r, "gap reads", jacking_move_unit(r)),
                                jacking_head(r, "friction, half the loop", jacking_force_unit(r))};
    FigureTable *t =
        table_new(r,
                  arena_printf(r->arena, "From the end of stage %d (%s) down, nuts following",
                               from->stage, jacking_percent(r, from->share_1)),
                  5, head, 0);
    for (int i = 0; i < back->count; i++)
        figure_table_row(
            t, (const char *[]){
                   jacking_percent(r, back->share_1[i]), jacking_pressure(r, back->pressure_Pa[i]),
                   jacking_force(r, back->force_N[i]), jacking_move(r, back->opening_m[i]),
                   isnan(back->loop_N[i]) ? "-" : jacking_force(r, back->loop_N[i])});
    document_table(r, t);
    document_add(
        r, REPORT_TEXT,
        arena_printf(r->arena,
                     "Down to %s and up again to %s: the gap reads %s %s (%s %s on the first "
                     "way up).",
                     jacking_percent(r, back->again_1), jacking_percent(r, from->share_1),
                     jacking_move(r, back->again_m), jacking_move_unit(r),
                     jacking_move(r, from->opening.expected_m), jacking_move_unit(r)));
}

void jacking_back(Report *r, const JackPlan *plan)
{
    for (int i = 0; i < plan->return_count; i++) back_table(r, plan, &plan->back[i]);
    static const char *const items[] = {
        "Abort: shut in, nuts down, everybody out of the zone, then lower evenly in the steps "
        "above, "
        "all jacks together, the gap read at each; nuts are backed off only as far as the next "
        "step.",
        "On the way down friction at the shims holds the gap open: it follows late, and does not "
        "come back to nothing. Seals of the jacks now hold the piston too: the force is above the "
        "line of the certificate, by up to twice the bore friction.",
        "Jacks that stand on their nuts: pump until the nuts come free by hand; that pressure is "
        "the "
        "force in the deck then (compare it with the table of holds). Never above the last step.",
        "Out of stroke: lock, lower, reset packing, pump again to the pressure at which the nuts "
        "come "
        "free; only then go on.",
        "Release when the closure has its strength: in three or four steps, alike on both sides."};
    for (size_t i = 0; i < sizeof items / sizeof *items; i++)
        document_add(r, REPORT_ITEM, items[i]);
}

/* ---- sheets to write on ---- */

static void blank_rows(FigureTable *t, const char *first, int count)
{
    const char **cell = ARENA_NEW(t->arena, const char *, t->column_count);
    for (int i = 0; i < count; i++) {
        for (int c = 0; c < t->column_count; c++) cell[c] = c == 0 && i == 0 ? first : "";
        figure_table_row(t, cell);
    }
}

static void form_gauge(Report *r, const JackPlan *plan)
{
    const char *const head[] = {"step: plan reads",
                                "time",
                                jacking_head(r, "gauge", jacking_pressure_unit(r)),
                                jacking_head(r, "gap left", jacking_move_unit(r)),
                                jacking_head(r, "middle", jacking_move_unit(r)),
                                jacking_head(r, "gap right", jacking_move_unit(r)),
                                "go, hold, stop",
                                "by"};
    FigureTable *t = table_new(r,
                               "Readings: gauge and gap. Corrections are struck through, never "
                               "erased",
                               8, head, 8);
    t->look = FIGURE_TABLE_FORM;
    blank_rows(t, "zero", 1);
    for (int i = 0; i < plan->step_count; i++) {
        const JackStep *s = &plan->step[i];
        blank_rows(t,
                   arena_printf(r->arena, "%d: %s %s; %s (%s to %s) %s", i + 1,
                                jacking_pressure(r, s->pressure_Pa), jacking_pressure_unit(r),
                                jacking_move(r, s->opening.expected_m),
                                jacking_move(r, s->opening.low_m),
                                jacking_move(r, s->opening.high_m), jacking_move_unit(r)),
                   1);
        blank_rows(t,
                   arena_printf(r->arena, "end of hold, %s: falls %s at most",
                                jacking_minutes(r, s->hold_day),
                                jacking_said_force(r, s->drop_quick_N)),
                   1);
    }
    document_table(r, t);
}

static void form_rest(Report *r, const JackPlan *plan)
{
    static const char *const head[] = {"step", "slip left", "slip right", "rise",         "bearing",
                                       "deck", "girder",    "jacks off",  "seen, remarks"};
    FigureTable *t = table_new(r, "Readings: anchors, girders, bearings, temperatures", 9, head, 9);
    t->look = FIGURE_TABLE_FORM;
    blank_rows(t, "zero", 1);
    for (int i = 0; i < plan->step_count; i++)
        blank_rows(t, arena_printf(r->arena, "%d", i + 1), 1);
    blank_rows(t, "locked", 1);
    blank_rows(t, "next day", 1);
    document_table(r, t);
}

void jacking_blanks(Report *r, const JackPlan *plan)
{
    document_add(r, REPORT_HEADING, "Sheets to write on");
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena, "%s. Gauge ____________  Date ____________  Sheet ____",
                              plan->unit));
    form_gauge(r, plan);
    document_add(r, REPORT_BREAK, "");
    form_rest(r, plan);
    document_add(r, REPORT_TEXT,
                 "Accepted at the end of the hold: force, gap and slip agree with the plan.");
    document_add(r, REPORT_SIGN, "Engineer of the jacking");
    document_add(r, REPORT_SIGN, "Engineer of record");
    document_add(r, REPORT_BREAK, "");
}
