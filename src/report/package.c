/* The package: cover, assumptions, inputs and the order of its chapters. */
#include <math.h>
#include <string.h>

#include "document.h"

/* ---- helpers of the chapters ---- */

void package_section(Report *r, const char *text) { document_add(r, REPORT_SECTION, text); }

const char *package_number(const Report *r, double value_SI, const char *unit)
{
    char text[SHEET_NUMBER_MAX];
    if (!isfinite(value_SI)) return "-";
    return arena_text(r->arena, sheet_number(quantity_in(value_SI, unit), SHEET_DIGITS, text));
}

const char *package_day(const Report *r, double day)
{
    return arena_printf(r->arena, fabs(day) < 1000 ? "%.1f" : "%.0f", day);
}

const char *package_stress_head(const Report *r, const char *name)
{
    return package_head(r, name, quantity_unit(r->source->units, DIM_STRESS));
}

const char *package_unit(const Report *r, const char *unit) { return report_unit(unit, r->arena); }

const char *package_head(const Report *r, const char *name, const char *unit)
{
    return arena_printf(r->arena, "%s [%s]", name, package_unit(r, unit));
}

/* ---- cover ---- */

static void cover_facts(Report *r, const PackageSource *package)
{
    const ReportSource *const s = r->source;
    document_fact(r, "input", strcmp(s->file, "-") == 0 ? "standard input" : s->file);
    document_fact(r, "revision", package->revision);
    document_fact(r, "date", package->date);
    document_fact(r, "units", s->units == UNITS_US ? "US customary" : "SI");
    document_fact(r, "program", arena_printf(r->arena, "clench %s", s->version));
    if (s->answer->given)
        document_fact(r, "thrust",
                      arena_printf(r->arena, "given: %s",
                                   figure_quantity(r->arena, s->answer->thrust_N,
                                                   quantity_unit(s->units, DIM_FORCE))));
}

static void cover_criteria(Report *r)
{
    const BridgeLine *const line = document_line(r->source)->line;
    Text text = text_start(r->arena);
    for (int i = 0; i < line->rule_count; i++)
        if (line->rule[i].counts)
            text_printf(&text, "%s%s", text.length ? "; " : "joints: ", line->rule[i].name);
    if (text.length) document_fact(r, "criteria", text.bytes);
}

/* Each name once, worst first. */
static void cover_failed(Report *r, const CheckList *checks)
{
    Text text = text_start(r->arena);
    for (int i = 0; i < checks->count; i++) {
        bool told = checks->row[i].state != CHECK_FAIL;
        for (int k = 0; k < i && !told; k++)
            told = checks->row[k].state == CHECK_FAIL &&
                   strcmp(checks->row[k].name, checks->row[i].name) == 0;
        if (!told) text_printf(&text, "%s%s", text.length ? "; " : "", checks->row[i].name);
    }
    document_fact(r, "failed", text.bytes);
}

static void cover_checks(Report *r, const CheckList *checks)
{
    int count[CHECK_STATE_COUNT] = {0};
    for (int i = 0; i < checks->count; i++) count[checks->row[i].state]++;
    Text text = text_start(r->arena);
    text_printf(&text, "%d passed, %d failed, %d unproven", count[CHECK_PASS], count[CHECK_FAIL],
                count[CHECK_UNPROVEN]);
    document_fact(r, "checks", text.bytes);
    if (count[CHECK_FAIL] > 0) cover_failed(r, checks);
}

static void cover_signatures(Report *r)
{
    static const char *const who[] = {"Engineer of record", "Independent checker",
                                      "Engineer of the jacking", "For the owner"};
    document_add(r, REPORT_TEXT,
                 "Not valid for construction until all of these have signed for this revision:");
    for (size_t i = 0; i < sizeof who / sizeof *who; i++) document_add(r, REPORT_SIGN, who[i]);
}

static void cover_add(Report *r, const PackageSource *package)
{
    cover_facts(r, package);
    cover_criteria(r);
    cover_checks(r, package->checks);
    blocks_lead(r);
    document_add(r, REPORT_CAUTION, report_caution());
    cover_signatures(r);
    document_add(r, REPORT_BREAK, "");
    document_add(r, REPORT_CONTENTS, "");
    document_add(r, REPORT_BREAK, "");
}

/* ---- assumptions and inputs ---- */

static const char *const assumptions[] = {
    "Tension is positive in every equation; in tables C marks compression and T tension. x runs "
    "along "
    "the girders from the left end of the structural unit.",
    "Each girder line with its part of the deck is followed as a plane frame through every stage: "
    "two "
    "chains of stations, girder and deck, with a link at every station.",
    "Plane sections of each part stay plane; between the parts there is slip until the haunches "
    "are "
    "bonded, with friction and contact at the shims.",
    "Concrete creeps and shrinks by its age: strains of all stress changes are added up "
    "(superposition in time); strand relaxes.",
    "Steel and uncracked concrete are elastic for live load and temperature; moduli are those of "
    "the "
    "day.",
    "The thrust of the whole deck is shared among the girder lines by tributary width; the other "
    "bound, by stiffness, stands beside it in the answer.",
};

static void assumptions_add(Report *r)
{
    document_add(r, REPORT_HEADING, "Basis and assumptions");
    for (size_t i = 0; i < sizeof assumptions / sizeof *assumptions; i++)
        document_add(r, REPORT_ITEM, assumptions[i]);
    package_section(r, "Rules, limits and where they are borrowed from");
    blocks_sources(r, document_line(r->source));
}

static void defaults_add(Report *r)
{
    document_add(r, REPORT_HEADING, "Every value that the file does not give");
    blocks_all_defaults(r);
}

static const char *words_of(const char *path, Arena *arena)
{
    char *const words = arena_text(arena, path);
    for (char *c = words; *c; c++)
        if (*c == '_') *c = ' ';
    return words;
}

void package_inputs(Report *r)
{
    document_add(r, REPORT_HEADING, "Inputs");
    FigureTable *const t = figure_table_start(r->arena, "Values that the file gives", 3);
    static const char *const head[] = {"input", "value", "meaning"};
    for (int c = 0; c < 3; c++) figure_table_column(t, c, false, head[c]);
    for (int i = 0; i < r->source->value_count; i++) {
        const BridgeValue *const v = r->source->value[i];
        if (v->origin != ORIGIN_GIVEN) continue;
        figure_table_row(t, (const char *[]){words_of(v->path, r->arena),
                                             report_degrees(v->text, r->arena),
                                             v->row && v->row->help ? v->row->help : ""});
    }
    document_table(r, t);
}

/* ---- pictures ---- */

/* Two pictures share a page: a high one is laid out wider, so that it fills the width all the same. */
static const Figure *paper_figure(const Report *r, const LineAnswer *line,
                                  const FigureKindRow *kind)
{
    static const double high_1 = 0.53; /* height over width of half a page */
    FigureView view = figure_paper(line, r->source->units, REPORT_PAPER_PX);
    const Figure *const figure = kind->draw(&view, r->arena);
    view.width_px = fmin(figure->height_px / high_1, REPORT_WIDE_PX);
    return view.width_px > REPORT_PAPER_PX ? kind->draw(&view, r->arena) : figure;
}

static void pictures_add(Report *r)
{
    const LineAnswer *const line = document_line(r->source);
    document_add(r, REPORT_HEADING, "Pictures of the line that governs");
    for (int k = 0; k < figure_kind_count(); k++) {
        const Figure *const figure = paper_figure(r, line, figure_kind(k));
        if (figure->item_count == 0) continue;
        ReportBlock *const block = document_add(r, REPORT_FIGURE, figure->title);
        block->wide = figure;
        const FigureView phone = figure_paper(line, r->source->units, REPORT_NARROW_PX);
        block->narrow = figure_kind(k)->draw(&phone, r->arena);
    }
}

static void others_add(Report *r)
{
    const ThrustAnswer *const a = r->source->answer;
    const LineAnswer *const shown = document_line(r->source);
    for (int i = 0; i < a->line_count; i++) {
        if (&a->line[i] == shown) continue;
        package_section(r, document_name(r, &a->line[i]));
        blocks_rules(r, &a->line[i]);
        blocks_limits(r, &a->line[i]);
    }
}

static void answer_add(Report *r)
{
    const LineAnswer *const line = document_line(r->source);
    document_add(r, REPORT_HEADING, "The answer");
    blocks_answer(r);
    blocks_lines(r);
    blocks_rules(r, line);
    blocks_limits(r, line);
    blocks_left(r, line);
    others_add(r);
}

static void left_out_add(Report *r)
{
    document_add(r, REPORT_HEADING, "What is not checked");
    for (int i = 0; checks_left_out[i]; i++) document_add(r, REPORT_ITEM, checks_left_out[i]);
    blocks_cautions(r);
}

const Report *report_package(const PackageSource *package, Arena *arena)
{
    Report *const r = document_start(package->report, "Calculation package", arena);
    cover_add(r, package);
    answer_add(r);
    assumptions_add(r);
    package_inputs(r);
    package_sections(r);
    package_time(r);
    package_stages(r);
    package_lanes(r);
    package_live(r, package->checks);
    package_thrust(r, package);
    pictures_add(r);
    package_checks(r, package->checks);
    defaults_add(r);
    package_sources(r, package->checks);
    left_out_add(r);
    return r;
}
