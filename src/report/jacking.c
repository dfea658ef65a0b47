/* The jacking plan as a document: cover, steps, band, margins, and the order of its chapters. */
#include "jacking.h"

#include <math.h>
#include <string.h>

/* ---- numbers ---- */

const char *jacking_force_unit(const Report *r)
{
    return quantity_unit(r->source->units, DIM_FORCE);
}
const char *jacking_pressure_unit(const Report *r)
{
    return quantity_unit(r->source->units, DIM_STRESS);
}
const char *jacking_move_unit(const Report *r) { return figure_move_unit(r->source->units); }

const char *jacking_force(const Report *r, double force_N)
{
    const double value = quantity_in(force_N, jacking_force_unit(r));
    if (!isfinite(value)) return "-";
    return arena_printf(r->arena, fabs(value) < 99.5 ? "%.1f" : "%.0f", value);
}

const char *jacking_pressure(const Report *r, double pressure_Pa)
{
    const char *const form = r->source->units == UNITS_US ? "%.0f" : "%.2f";
    return arena_printf(r->arena, form, quantity_in(pressure_Pa, jacking_pressure_unit(r)));
}

const char *jacking_move(const Report *r, double move_m)
{
    const bool us = r->source->units == UNITS_US;
    double value = quantity_in(move_m, jacking_move_unit(r));
    if (fabs(value) < (us ? 5e-4 : 5e-3)) value = 0; /* no minus before a zero */
    return arena_printf(r->arena, us ? "%.3f" : "%.2f", value);
}

const char *jacking_minutes(const Report *r, double time_day)
{
    const int minutes = (int)lround(time_day * 1440);
    if (minutes < 60) return arena_printf(r->arena, "%d min", minutes);
    if (minutes % 60 == 0) return arena_printf(r->arena, "%d h", minutes / 60);
    return arena_printf(r->arena, "%d h %d min", minutes / 60, minutes % 60);
}

const char *jacking_percent(const Report *r, double share_1)
{
    return arena_printf(r->arena, "%.3g %%", 100 * share_1);
}

const char *jacking_head(const Report *r, const char *name, const char *unit)
{
    return arena_printf(r->arena, "%s [%s]", name, unit);
}

const char *jacking_said_move(const Report *r, double move_m)
{
    const double value = quantity_in(move_m, jacking_move_unit(r));
    return arena_printf(r->arena, fabs(value) < 999.5 ? "%.3g %s" : "%.0f %s", value,
                        jacking_move_unit(r));
}

const char *jacking_said_force(const Report *r, double force_N)
{
    return arena_printf(r->arena, "%s %s", jacking_force(r, force_N), jacking_force_unit(r));
}

const char *jacking_said_kelvin(const Report *r, double difference_K)
{
    const bool us = r->source->units == UNITS_US;
    return arena_printf(r->arena, "%.3g \xC2\xB0%c",
                        quantity_in(difference_K, us ? "delta_degF" : "delta_degC"),
                        us ? 'F' : 'C');
}

/* ---- cover ---- */

static const JackStep *whole(const JackPlan *plan) { return &plan->step[plan->step_count - 1]; }

static void lead_add(Report *r, const JackPlan *plan)
{
    const JackGear *gear = &plan->gear;
    const JackBand *gap = &whole(plan)->opening;
    document_add(
        r, REPORT_LEAD,
        arena_printf(
            r->arena,
            "%s: %d jacks, %s in %d steps, %s %s at the gauge; the gap opens by %s %s, at least %s "
            "and at most %s. %s kip*ft are stored then.",
            plan->unit, gear->count, jacking_said_force(r, plan->thrust_N), plan->step_count,
            jacking_pressure(r, whole(plan)->pressure_Pa), jacking_pressure_unit(r),
            jacking_move(r, gap->expected_m), jacking_move_unit(r), jacking_move(r, gap->low_m),
            jacking_move(r, gap->high_m),
            arena_printf(r->arena, "%.0f", quantity_in(plan->energy_Nm, "kip*ft"))));
    if (r->source->units == UNITS_SI)
        r->last->text = arena_printf(
            r->arena,
            "%s: %d jacks, %s in %d steps, %s %s at the gauge; the gap opens by %s %s, at least %s "
            "and at most %s. %.0f kJ are stored then.",
            plan->unit, gear->count, jacking_said_force(r, plan->thrust_N), plan->step_count,
            jacking_pressure(r, whole(plan)->pressure_Pa), jacking_pressure_unit(r),
            jacking_move(r, gap->expected_m), jacking_move_unit(r), jacking_move(r, gap->low_m),
            jacking_move(r, gap->high_m), plan->energy_Nm / 1000);
}

static const char *names_failed(const Report *r, const CheckList *rows)
{
    Text text = text_start(r->arena);
    for (int i = 0; i < rows->count; i++)
        if (rows->row[i].state == CHECK_FAIL)
            text_printf(&text, "%s%s", text.length ? "; " : "", rows->row[i].name);
    return text.length ? text.bytes : NULL;
}

/* Each reason once. */
static bool new_reason(const CheckList *rows, int index)
{
    if (rows->row[index].state != CHECK_UNPROVEN) return false;
    for (int k = 0; k < index; k++)
        if (rows->row[k].state == CHECK_UNPROVEN &&
            strcmp(rows->row[k].why, rows->row[index].why) == 0)
            return false;
    return true;
}

static const char *reasons_open(const Report *r, const CheckList *rows)
{
    Text text = text_start(r->arena);
    for (int i = 0; i < rows->count; i++)
        if (new_reason(rows, i))
            text_printf(&text, "%s%s", text.length ? "; " : "", rows->row[i].why);
    return text.length ? text.bytes : NULL;
}

static const char *height_words(const Report *r, const JackPlan *plan)
{
    if (plan->above_mid_m == 0) return "at mid-depth";
    return arena_printf(r->arena, "%s %s mid-depth", jacking_said_move(r, fabs(plan->above_mid_m)),
                        plan->above_mid_m > 0 ? "above" : "below");
}

static const char *size_words(const Report *r, const JackGear *gear)
{
    const char *size = strcmp(gear->size, "own") == 0 ? "an own product" : gear->size;
    return gear->proposed ? arena_printf(r->arena, "%s (PROPOSED: not in the file)", size) : size;
}

static void facts_jacks(Report *r, const JackPlan *plan)
{
    const JackGear *gear = &plan->gear;
    const bool us = r->source->units == UNITS_US;
    char slope[SHEET_NUMBER_MAX];
    document_fact(r, "jacks",
                  arena_printf(r->arena, "%d of %s in %d %s, line of action %s", gear->count,
                               size_words(r, gear), gear->sets, gear->sets == 1 ? "set" : "sets",
                               height_words(r, plan)));
    document_fact(
        r, "certificate",
        gear->certificate
            ? arena_printf(r->arena, "%s%s%s", gear->certificate,
                           gear->certificate_date ? " of " : "",
                           gear->certificate_date ? gear->certificate_date : "")
            : "NONE NAMED: jacks and gauges are calibrated together, within 6 to 12 months");
    document_fact(
        r, "force",
        arena_printf(r->arena, "one jack pushing = %.4g %s + %s %s \xC3\x97 pressure",
                     quantity_in(gear->zero_N, jacking_force_unit(r)), jacking_force_unit(r),
                     sheet_number(quantity_in(gear->slope_m2, us ? "in^2" : "mm^2"), 4, slope),
                     us ? "in\xC2\xB2" : "mm\xC2\xB2"));
}

static void facts_add(Report *r, const JackPlan *plan)
{
    const ThrustAnswer *a = r->source->answer;
    const char *failed = names_failed(r, plan->rows);
    const char *open = reasons_open(r, plan->rows);
    document_fact(
        r, "thrust",
        arena_printf(r->arena, "%s of the whole deck, %s%s", jacking_said_force(r, plan->thrust_N),
                     a->given ? "as given" : "as the joints need it",
                     a->met ? "" : "; IT DOES NOT MEET RULES AND LIMITS: see clench thrust"));
    facts_jacks(r, plan);
    document_fact(r, "stroke",
                  arena_printf(r->arena,
                               "%s is needed, the jacks have %s; the gap takes %s of jack "
                               "and packing, it has %s",
                               jacking_said_move(r, plan->stroke_need_m),
                               jacking_said_move(r, plan->gear.stroke_m),
                               jacking_said_move(r, plan->gap_need_m),
                               jacking_said_move(r, plan->gap_m)));
    document_fact(r, "time",
                  arena_printf(r->arena, "%s from the zero reading to the locks, holds in",
                               jacking_minutes(r, plan->work_day)));
    if (failed) document_fact(r, "FAILS", failed);
    if (open) document_fact(r, "unproven", open);
}

/* ---- steps ---- */

void jacking_steps(Report *r, const JackPlan *plan)
{
    FigureTable *t = figure_table_start(
        r->arena, "Steps: gauge and gap. Opening since the zero reading, mean of left and right",
        9);
    const char *const head[] = {"step",
                                "stage",
                                "share",
                                jacking_head(r, "gauge", jacking_pressure_unit(r)),
                                jacking_head(r, "all jacks", jacking_force_unit(r)),
                                jacking_head(r, "least", jacking_move_unit(r)),
                                jacking_head(r, "expected", jacking_move_unit(r)),
                                jacking_head(r, "most", jacking_move_unit(r)),
                                "hold"};
    for (int c = 0; c < 9; c++) figure_table_column(t, c, c >= 2, head[c]);
    t->look = FIGURE_TABLE_LARGE;
    for (int i = 0; i < plan->step_count; i++) {
        const JackStep *s = &plan->step[i];
        figure_table_row(
            t,
            (const char *[]){arena_printf(r->arena, "%d", i + 1),
                             arena_printf(r->arena, "%d%s", s->stage, s->stage_end ? " end" : ""),
                             jacking_percent(r, s->share_1), jacking_pressure(r, s->pressure_Pa),
                             jacking_force(r, s->force_N), jacking_move(r, s->opening.low_m),
                             jacking_move(r, s->opening.expected_m),
                             jacking_move(r, s->opening.high_m), jacking_minutes(r, s->hold_day)});
    }
    document_table(r, t);
}

static void worth_add(Report *r, const JackPlan *plan)
{
    const JackStep *s = whole(plan);
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "One division of the gauge (%s %s) is %s of all jacks and %s of movement. The "
            "force at the whole thrust is known to %s, one way (gauge and calibration). "
            "Joints take %s to %s in closing, mostly before step 1 is reached; from step 1 "
            "on the gap opens by %s more.",
            jacking_pressure(r, plan->gear.division_Pa), jacking_pressure_unit(r),
            jacking_said_force(r, s->division_N), jacking_said_move(r, s->division_m),
            jacking_said_force(r, s->gauge_error_N), jacking_said_move(r, plan->seating_least_m),
            jacking_said_move(r, plan->seating_most_m),
            jacking_said_move(r, s->opening.expected_m - plan->step[0].opening.expected_m)));
}

/* ---- band ---- */

static void band_row(const Report *r, FigureTable *t, const char *name, double below_m,
                     double above_m)
{
    figure_table_row(t, (const char *[]){name, jacking_move(r, below_m), jacking_move(r, above_m)});
}

void jacking_band(Report *r, const JackPlan *plan)
{
    const JackBand *band = &whole(plan)->opening;
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena, "Where the band at the whole thrust comes from, beside %s %s",
                     jacking_move(r, band->expected_m), jacking_move_unit(r)),
        3);
    figure_table_column(t, 0, false, "what is not known");
    figure_table_column(t, 1, true, jacking_head(r, "less by", jacking_move_unit(r)));
    figure_table_column(t, 2, true, jacking_head(r, "more by", jacking_move_unit(r)));
    for (int i = 0; i < JACK_BAND_PARTS; i++)
        band_row(r, t, jack_band_name((JackBandPart)i), band->below_m[i], band->above_m[i]);
    band_row(r, t, "together", band->expected_m - band->low_m, band->high_m - band->expected_m);
    document_table(r, t);
    document_add(r, REPORT_TEXT,
                 "Together: the root of the sum of the squares of the first five, which do not "
                 "depend on each other; friction and sharing added as they are, since they are "
                 "ranges that nobody knows before the day (common practice, no source).");
}

/* ---- margins ---- */

static const char *row_value(const Report *r, const CheckRow *row, double value_SI)
{
    if (!isfinite(value_SI)) return "-";
    const char *unit = row->dimension == DIM_LENGTH
                           ? jacking_move_unit(r)
                           : quantity_unit(r->source->units, row->dimension);
    return figure_quantity(r->arena, value_SI, unit);
}

void jacking_margins(Report *r, const JackPlan *plan)
{
    static const char *const words[CHECK_STATE_COUNT] = {[CHECK_PASS] = "",
                                                         [CHECK_FAIL] = "FAILS",
                                                         [CHECK_UNPROVEN] = "unproven",
                                                         [CHECK_TOLD] = "told"};
    FigureTable *t = figure_table_start(r->arena, "Margins of jacks, gauge, stroke and locks", 5);
    static const char *const head[] = {"", "what", "needs or has", "limit", "ratio"};
    for (int c = 0; c < 5; c++) figure_table_column(t, c, c >= 2, head[c]);
    for (int i = 0; i < plan->rows->count; i++) {
        const CheckRow *row = &plan->rows->row[i];
        if (row->state == CHECK_TOLD) continue;
        figure_table_row(
            t, (const char *[]){
                   words[row->state], row->name, row_value(r, row, row->demand),
                   row_value(r, row, row->capacity),
                   isfinite(row->ratio_1) ? arena_printf(r->arena, "%.2f", row->ratio_1) : "-"});
    }
    document_table(r, t);
    for (int i = 0; i < plan->rows->count; i++)
        if (new_reason(plan->rows, i))
            document_add(r, REPORT_ITEM,
                         arena_printf(r->arena, "open: %s", plan->rows->row[i].why));
}

/* ---- the whole ---- */

const char jacking_caution[] =
    "Jacking stores energy that can kill. This plan does not replace the engineer of record. Do "
    "not "
    "jack if temperature, grout, closure or calibration are not as it asks. Stop and ask the "
    "engineer of record at every alarm; never raise the pressure to chase a movement. Every figure "
    "marked common practice has no source; no published provision covers this method.";

static void figures_add(Report *r, const JackPlan *plan)
{
    const Figure *const wide[] = {
        figure_jacks(plan, r->source->units, REPORT_PAPER_PX, r->arena),
        figure_loading(plan, r->source->units, REPORT_PAPER_PX, r->arena)};
    const Figure *const narrow[] = {
        figure_jacks(plan, r->source->units, REPORT_NARROW_PX, r->arena),
        figure_loading(plan, r->source->units, REPORT_NARROW_PX, r->arena)};
    for (int i = 0; i < 2; i++) {
        ReportBlock *const block = document_add(r, REPORT_FIGURE, wide[i]->title);
        block->wide = wide[i];
        block->narrow = narrow[i];
    }
}

static void cover_add(Report *r, const JackPlan *const *plan, int count, bool sheets)
{
    static const char *const who[] = {"Engineer of record", "Engineer of the jacking",
                                      "Contractor's foreman of the jacks", "For the owner"};
    for (int i = 0; i < count; i++) {
        lead_add(r, plan[i]);
        facts_add(r, plan[i]);
    }
    document_add(r, REPORT_CAUTION, jacking_caution);
    if (!sheets) return;
    document_add(r, REPORT_TEXT, "Not valid until all of these have signed for this revision:");
    for (size_t i = 0; i < sizeof who / sizeof *who; i++) document_add(r, REPORT_SIGN, who[i]);
    document_add(r, REPORT_BREAK, "");
}

static void heading(Report *r, const JackPlan *plan, bool several, const char *text)
{
    document_add(r, REPORT_HEADING,
                 several ? arena_printf(r->arena, "%s: %s", plan->unit, text) : text);
}

static void plan_add(Report *r, const JackPlan *plan, bool several, bool sheets)
{
    heading(r, plan, several, "What gauge and gap should read");
    jacking_steps(r, plan);
    worth_add(r, plan);
    if (sheets) figures_add(r, plan);
    jacking_band(r, plan);
    if (sheets) document_add(r, REPORT_BREAK, "");
    heading(r, plan, several, "When to hold, when to go back");
    jacking_alarms(r, plan);
    heading(r, plan, several, "Before the pump runs");
    jacking_before(r, plan);
    heading(r, plan, several, "Faces, anchors, girders and bearings");
    jacking_watched(r, plan);
    heading(r, plan, several, "Holds and temperature");
    jacking_holds(r, plan);
    heading(r, plan, several, "A jack shut off");
    jacking_shut_off(r, plan);
    heading(r, plan, several, "The way back");
    jacking_back(r, plan);
    if (sheets) document_add(r, REPORT_BREAK, "");
    if (sheets) jacking_blanks(r, plan);
    heading(r, plan, several, "Margins");
    jacking_margins(r, plan);
    if (!sheets) return;
    heading(r, plan, several, "Working");
    package_rows(r, plan->rows, "All rows; the number is that of the working");
}

const Report *report_jacking(const ReportSource *source, const JackPlan *const *plan,
                             int plan_count, bool sheets, Arena *arena)
{
    Report *const r = document_start(source, "Jacking plan", arena);
    cover_add(r, plan, plan_count, sheets);
    for (int i = 0; i < plan_count; i++) plan_add(r, plan[i], plan_count > 1, sheets);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}
