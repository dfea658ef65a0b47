/* The four ways to connect the panels side by side, as a document. */
#include <math.h>
#include <string.h>

#include "compare.h"

/* ---- numbers ---- */

const char *compare_stress(const Report *r, double stress_Pa)
{
    return isfinite(stress_Pa) ? figure_stress_short(r->arena, stress_Pa, r->source->units) : "-";
}

static const char *unit_of(const Report *r) { return quantity_unit(r->source->units, DIM_STRESS); }

static const char *signed_stress(const Report *r, double stress_Pa)
{
    const int places = r->source->units == UNITS_US ? 0 : 2;
    const double shown = quantity_in(stress_Pa, unit_of(r));
    if (fabs(shown) < 0.5 * pow(10, -places)) return "0";
    return arena_printf(r->arena, "%+.*f", places, shown);
}

/* "31 less", "4 more" compression. */
static const char *change(const Report *r, double change_Pa)
{
    const int places = r->source->units == UNITS_US ? 0 : 2;
    const double size = fabs(quantity_in(change_Pa, unit_of(r)));
    if (size < 0.5 * pow(10, -places)) return "0";
    return arena_printf(r->arena, "%.*f %s", places, size, change_Pa > 0 ? "less" : "more");
}

FigureTable *compare_table(const Report *r, const char *caption, const char *first)
{
    FigureTable *t = figure_table_start(r->arena, caption, 1 + WAY_COUNT);
    figure_table_column(t, 0, false, first);
    for (int w = 0; w < WAY_COUNT; w++) figure_table_column(t, 1 + w, true, way_called((Way)w));
    return t;
}

/* A row of what `cell` says of each way. */
typedef const char *(*Cell)(const Report *r, const CompareAnswer *c, const WayAnswer *way);

static void row(const Report *r, FigureTable *t, const CompareAnswer *c, const char *name,
                Cell cell)
{
    const char *text[1 + WAY_COUNT] = {name};
    for (int w = 0; w < WAY_COUNT; w++) text[1 + w] = cell(r, c, &c->way[w]);
    figure_table_row(t, text);
}

static bool compressed(Way way) { return way == WAY_THRUST || way == WAY_TENDON; }

static const WayLine *worst_of(const WayAnswer *way) { return &way->line[way->governing]; }

/* ---- how the joints stand ---- */

static const char *when(const Report *r, const LineAnswer *line, const Governing *at)
{
    if (at->day >= line->history->day[line->moments.end]) return "end of life";
    if (at->time == line->moments.opening) return "opening";
    return arena_printf(r->arena, "day %.0f", at->day);
}

static const char *count(const Report *r, const WayAnswer *way)
{
    int beyond = 0, all = 0;
    for (int k = 0; k < way->line_count; k++) {
        beyond += way->line[k].standing.open_count;
        all += way->line[k].answer->line->joint_count;
    }
    return arena_printf(r->arena, "%d of %d", beyond, all);
}

static const char *first(const Report *r, const WayAnswer *way)
{
    const WayLine *found = NULL;
    for (int k = 0; k < way->line_count; k++) {
        const WayLine *line = &way->line[k];
        if (line->standing.first_rule < 0) continue;
        if (!found || line->standing.first.day < found->standing.first.day) found = line;
    }
    return found ? when(r, found->answer, &found->standing.first) : "never";
}

static void standing_row(const Report *r, FigureTable *t, const WayAnswer *way)
{
    const WayLine *line = worst_of(way);
    const JointsStanding *s = &line->standing;
    if (s->rule < 0) return; /* no rule counts */
    const double margin_Pa = compare_margin_Pa(line);
    figure_table_row(
        t, (const char *[]){
               way_called(way->way),
               arena_printf(r->arena, "%s at %s", compressed(way->way) ? "opens" : "cracks",
                            compare_stress(r, s->worst.limit)),
               signed_stress(r, margin_Pa), signed_stress(r, margin_Pa - s->worst.limit),
               arena_printf(r->arena, "%s %s, %s", line->answer->line->joint[s->worst.joint].mark,
                            s->worst.top ? "top" : "bottom", document_name(r, line->answer)),
               when(r, line->answer, &s->worst), line->answer->line->rule[s->rule].name,
               count(r, way), first(r, way)});
}

static void standing_table(Report *r, const CompareAnswer *c)
{
    static const char *const head[] = {"way",  "a joint", "left",        "to no tension",
                                       "at",   "when",    "by the rule", "joints beyond",
                                       "first"};
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(
            r->arena,
            "How the joints of all girder lines stand by the rules that count [%s]: least "
            "that is left to the limit, and to no tension at all; C compression, T tension",
            unit_of(r)),
        9);
    for (int k = 0; k < 9; k++) figure_table_column(t, k, k == 2 || k == 3, head[k]);
    for (int w = 0; w < WAY_COUNT; w++) standing_row(r, t, &c->way[w]);
    document_table(r, t);
}

/* ---- the compression ---- */

static const char *pulled_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return compressed(way->way) ? compare_stress(r, -way->kept.pulled_Pa) : "none";
}

static const char *duct_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return way->way == WAY_TENDON ? change(r, way->kept.duct_Pa) : "";
}

static const char *draw_in_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return way->way == WAY_TENDON ? change(r, way->kept.draw_in_Pa) : "";
}

/* Tendons: those pulled later shorten the deck under the others. Jacks: what is in the mean of the deck
 * besides the thrust over its section. */
static const char *elastic_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    const WayKept *k = &way->kept;
    if (way->way != WAY_TENDON) return "";
    return change(r, k->pulled_Pa - k->duct_Pa - k->draw_in_Pa + k->begin.mean_Pa[CAUSE_THRUST]);
}

static const char *begin_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return compare_stress(r, way->kept.begin.mean_total_Pa);
}

static const char *finish_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return compare_stress(r, way->kept.finish.mean_total_Pa);
}

static const char *kept_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    if (!compressed(way->way)) return "";
    return arena_printf(r->arena, "%.0f %%", 100 * compare_kept_1(&way->kept));
}

static void cause_rows(Report *r, FigureTable *t, const CompareAnswer *c)
{
    for (int k = 0; k < CAUSE_COUNT; k++) {
        const char *text[1 + WAY_COUNT] = {arena_printf(
            r->arena, "  %s", k == CAUSE_THRUST ? "on the locks" : cause_text((Cause)k))};
        bool any = false;
        for (int w = 0; w < WAY_COUNT; w++) {
            const WayKept *kept = &c->way[w].kept;
            text[1 + w] = change(r, kept->finish.mean_Pa[k] - kept->begin.mean_Pa[k]);
            any = any || strcmp(text[1 + w], "0") != 0;
        }
        if (any) figure_table_row(t, text);
    }
}

static const JointLoad *loads_of(const CompareAnswer *c, const WayAnswer *way)
{
    return &way->line[c->line].answer->end[2 * c->joint + (c->side > 0)];
}

static const char *top_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return compare_stress(r, way->kept.finish.top_total_Pa);
}

static const char *live_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    return compare_stress(r, loads_of(c, way)->live_top_max_Pa);
}

static const char *cold_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    return compare_stress(r, loads_of(c, way)->cold_top_Pa);
}

static const char *bonded_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return compare_stress(r, way->kept.bonded.mean_total_Pa);
}

static const char *opening_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return compare_stress(r, way->kept.opening.mean_total_Pa);
}

static void kept_table(Report *r, const CompareAnswer *c)
{
    const LineAnswer *line = &c->thrust->line[c->line];
    const double x_m = line->line->model.x_m[thrust_joint_station(line->line, c->joint)];
    FigureTable *t = compare_table(
        r,
        arena_printf(r->arena,
                     "The deck at %s, %s, %s from the left end of the unit: mean over its depth "
                     "under permanent load [%s]; less and more compression",
                     line->line->joint[c->joint].mark, document_name(r, line),
                     figure_quantity(r->arena, x_m, quantity_unit(r->source->units, DIM_LENGTH)),
                     unit_of(r)),
        "moment or cause");
    row(r, t, c, "force of the jacks over the section", pulled_cell);
    row(r, t, c, "  friction in the ducts", duct_cell);
    row(r, t, c, "  draw-in of the wedges", draw_in_cell);
    row(r, t, c, "  shortening under later tendons", elastic_cell);
    row(r, t, c, "jacked, stressed, or first joined", begin_cell);
    cause_rows(r, t, c);
    row(r, t, c, "end of life", finish_cell);
    row(r, t, c, "kept, barrier and overlay apart", kept_cell);
    row(r, t, c, "(on the way: deck and girders one)", bonded_cell);
    row(r, t, c, "(on the way: opening)", opening_cell);
    row(r, t, c, "top fibre at the end of life", top_cell);
    row(r, t, c, "  live load adds there", live_cell);
    row(r, t, c, "  the cold gradient adds", cold_cell);
    document_table(r, t);
}

/* ---- the girders ---- */

static const char *building_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return arena_printf(r->arena, "%s to %s", compare_stress(r, way->building.top_least_Pa),
                        compare_stress(r, way->building.top_most_Pa));
}

static const char *building_bottom_cell(const Report *r, const CompareAnswer *c,
                                        const WayAnswer *way)
{
    (void)c;
    return arena_printf(r->arena, "%s to %s", compare_stress(r, way->building.bottom_least_Pa),
                        compare_stress(r, way->building.bottom_most_Pa));
}

static const char *end_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return arena_printf(r->arena, "%s to %s", compare_stress(r, way->finish.top_least_Pa),
                        compare_stress(r, way->finish.top_most_Pa));
}

static const char *end_bottom_cell(const Report *r, const CompareAnswer *c, const WayAnswer *way)
{
    (void)c;
    return arena_printf(r->arena, "%s to %s", compare_stress(r, way->finish.bottom_least_Pa),
                        compare_stress(r, way->finish.bottom_most_Pa));
}

static void girder_table(Report *r, const CompareAnswer *c)
{
    FigureTable *t = compare_table(
        r,
        arena_printf(r->arena, "The girders, all lines and places, permanent load [%s]",
                     unit_of(r)),
        "");
    row(r, t, c, "top, while building", building_cell);
    row(r, t, c, "bottom, while building", building_bottom_cell);
    row(r, t, c, "top, end of life", end_cell);
    row(r, t, c, "bottom, end of life", end_bottom_cell);
    document_table(r, t);
}

/* ---- words ---- */

static void lead(Report *r, const CompareAnswer *c)
{
    Text text = text_start(r->arena);
    text_add(&text, "The same deck connected four ways");
    for (int w = 0; w < WAY_COUNT; w++) {
        const WayAnswer *way = &c->way[w];
        const double margin_Pa = compare_margin_Pa(worst_of(way));
        const bool within = margin_Pa > -1e-4 * c->thrust->line[0].average_Pa;
        text_printf(&text, "; %s: ", way_called((Way)w));
        if (within)
            text_add(&text, compressed((Way)w) ? "every joint closed" : "no crack by the rules");
        else
            text_printf(&text, "%s at %s joints", compressed((Way)w) ? "open" : "cracks",
                        count(r, way));
    }
    text_add(&text, ".");
    document_add(r, REPORT_LEAD, text.bytes);
    const char *force = quantity_unit(r->source->units, DIM_FORCE);
    document_fact(r, "thrust",
                  arena_printf(r->arena, "%s of the whole deck%s.",
                               figure_quantity(r->arena, c->thrust->thrust_N, force),
                               c->thrust->given ? ", as given" : ", the least that is needed"));
    const WayAnswer *tendon = &c->way[WAY_TENDON];
    const BridgeLine *line = tendon->line[c->line].answer->line;
    const LineTendons *t = line->tendons;
    document_fact(
        r, "tendons",
        arena_printf(r->arena, "%d in the whole width%s, %s at the jacks together%s.",
                     tendon->tendons,
                     tendon->tendons_given ? " as given"
                     : tendon->enough      ? ", the least number that keeps every joint closed"
                                           : ", the most that the deck bears",
                     figure_quantity(r->arena, t->pull.jack_Pa * t->area_m2 / line->share_1, force),
                     tendon->enough ? "" : ": they do not keep every joint closed"));
}

const Report *report_compare(const ReportSource *source, const CompareAnswer *answer, Arena *arena)
{
    Report *r = document_start(source, "Four ways to connect the panels", arena);
    lead(r, answer);
    document_add(r, REPORT_CAUTION, report_caution());
    standing_table(r, answer);
    kept_table(r, answer);
    girder_table(r, answer);
    compare_quantities(r, answer);
    compare_words(r, answer);
    return r;
}
