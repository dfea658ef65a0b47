/* The reference of the bridge file as Markdown, from the schema's table. */
#include <math.h>
#include <string.h>

#include "document.h"

/* A small example for each section. Together, in the order of the table, they are one bridge. */
/* clang-format off */
static const struct {
    const char *section, *text;
} example[] = {
    {"", "title: Two spans over the mill race\nunits: US\ntime_model: MC 2010\n"},
    {"spans", "spans:\n  - length: 94 ft\n  - length: 94 ft\n"},
    {"piers", "piers:\n  connection: continuous\n"},
    {"supports", "supports:\n  - kind: free bearing\n  - kind: fixed bearing\n"
                 "  - {kind: free bearing, stiffness: 10 kip/in}\n"},
    {"girders", "girders:\n  count: 5\n  spacing: 8 ft 6 in\n  overhang: 3 ft 3 in\n"
                "  kind: plate girder\n  plates:\n"
                "    - {top_width: 18 in, top_thickness: 1.25 in, web_depth: 54 in, web_thickness: 9/16 in,\n"
                "       bottom_width: 18 in, bottom_thickness: 1.5 in}\n"},
    {"deck", "deck:\n  thickness: 8.5 in\n  haunch: 2 in\n"},
    {"panels", "panels:\n  length: 10 ft\n  anchor_length: 12 ft\n  gap: 6 ft\n"},
    {"runs", "runs:\n  - {from_span: 1, to_span: 2, gap_at: 47 ft}\n"},
    {"connectors", "connectors:\n  diameter: 7/8 in\n  spacing: 4 ft\n"},
    {"handling", "handling:\n  stripping_strength: 3.5 ksi\n  truck: 45 kip\n"},
    {"ends", "ends:\n  clearance: 2 in\n"},
    {"closure", "closure:\n  fraction: 50 %\n"},
    {"jacks", "jacks:\n  count: 10\n  rated: 1.8 MN\n"},
    {"shims", "shims:\n  friction: 0.1\n"},
    {"concrete", "concrete:\n  panel: {strength: 7 ksi, cement: rapid}\n  closure: {strength: 55 MPa}\n"},
    {"days", "days:\n  phase_1_cast: 0 day\n  phase_2_cast: 3 day\n  panels_set: 90 day\n"
             "  inspections: [1000 day, 30 yr]\n"},
    {"loads", "loads:\n  barrier: 0.42 kip/ft\n  overlay: 25 psf\n"},
    {"live", "live:\n  model: HL-93\n"},
    {"climate", "climate:\n  humidity: 70 %\n  gradient_zone: 3\n  asphalt: yes\n"},
    {"criteria", "criteria:\n  joints: [average after losses, Service I with half the gradient]\n  tension: 0 psi\n"},
};

static const struct {
    DimensionId dimension;
    const char *units; /* the usual ones; what the reader would not take is left out */
} usual[] = {
    {DIM_NONE, "%"},
    {DIM_LENGTH, "in ft yd mi mm cm m km"},
    {DIM_AREA, "in^2 ft^2 mm^2 cm^2 m^2"},
    {DIM_INERTIA, "in^4 ft^4 mm^4 cm^4 m^4"},
    {DIM_FORCE, "lbf kip tonf N kN MN"},
    {DIM_STRESS, "psi ksi Pa kPa MPa GPa bar"},
    {DIM_LINE_LOAD, "plf klf kip/ft N/m kN/m"},
    {DIM_AREA_LOAD, "psf ksf Pa kPa N/m^2 kN/m^2"},
    {DIM_WEIGHT_DENSITY, "pcf kcf N/m^3 kN/m^3"},
    {DIM_STIFFNESS, "kip/in kip/ft kN/mm kN/m MN/m"},
    {DIM_BED_STIFFNESS, "kip/in/ft kip/ft^2 kN/mm/m MN/m^2"},
    {DIM_TIME, "min h day d week yr"},
    {DIM_TEMPERATURE, "degF degC K"},
    {DIM_TEMPERATURE_DIFF, "delta_degF delta_degC K"},
    {DIM_EXPANSION, "1/delta_degF 1/delta_degC 1/K"},
};
/* clang-format on */

static bool unit_fits(const char *name, DimensionId dimension)
{
    char text[32];
    double value_SI;
    Error ignored = {0};
    snprintf(text, sizeof text, "1%s%s", name[0] == '1' ? "" : " ", name + (name[0] == '1'));
    return quantity_read(text, dimension, &value_SI, &ignored) == STATUS_OK;
}

static bool dimension_used(DimensionId dimension)
{
    for (int i = 0; i < bridge_schema_count(); i++) {
        const SchemaRow *row = bridge_schema_row(i);
        if (row->kind == SCHEMA_QUANTITY && row->dimension == dimension) return true;
    }
    return false;
}

static void add_names(Text *out, DimensionId dimension, const char *units)
{
    const char *between = "";
    while (*units) {
        char name[16];
        const size_t length = strcspn(units, " ");
        snprintf(name, sizeof name, "%.*s", (int)length, units);
        if (unit_fits(name, dimension)) {
            text_printf(out, "%s`%s`", between, name);
            between = ", ";
        }
        units += length;
        units += strspn(units, " ");
    }
}

static void add_units(Text *out)
{
    text_add(out, "| value | units | written as |\n| --- | --- | --- |\n");
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        const DimensionId dimension = usual[i].dimension;
        if (!dimension_used(dimension)) continue;
        text_printf(out, "| %s | %s", dimension_called(dimension),
                    dimension == DIM_NONE ? "none, or " : "");
        add_names(out, dimension, usual[i].units);
        text_printf(out, " | `%s` |\n", dimension_example(dimension));
    }
}

/* ---- one key ---- */

static const char *leaf_of(const char *path)
{
    const char *dot = strrchr(path, '.');
    return dot ? dot + 1 : path;
}

/* Units in which both ends of the range read well. */
static const char *shown_unit(const SchemaRow *row, UnitSystem units)
{
    const bool us = units == UNITS_US;
    if (row->dimension == DIM_LENGTH && row->least < 0.1 && row->most < 20)
        return figure_move_unit(units);
    if (row->dimension == DIM_STRESS && us && row->most > 3e7) return "ksi";
    if (row->dimension == DIM_AREA && !us && row->most < 1) return "mm^2";
    if (row->dimension == DIM_STRESS && !us && row->most > 1e10) return "GPa";
    return quantity_unit(units, row->dimension);
}

/* Three figures, without a power of ten where people would write none. */
static void add_number(Text *out, double value)
{
    const double size = fabs(value);
    const double step = size >= 1000 ? pow(10, floor(log10(size)) - 2) : 0;
    if (step > 0)
        text_printf(out, "%.0f", round(value / step) * step);
    else
        text_printf(out, "%.3g", value);
}

static void add_range(Text *out, const SchemaRow *row)
{
    if (row->kind == SCHEMA_COUNT_NUMBER || row->dimension == DIM_NONE) {
        text_printf(out, "%.6g to %.6g", row->least, row->most);
        return;
    }
    if (row->dimension == DIM_TIME) {
        text_printf(out, "%.6g to %.6g day", row->least, row->most);
        return;
    }
    for (int u = 0; u < 2; u++) {
        const char *unit = shown_unit(row, (UnitSystem)u);
        if (u) text_add(out, "; ");
        add_number(out, quantity_in(row->least, unit));
        text_add(out, " to ");
        add_number(out, quantity_in(row->most, unit));
        text_printf(out, " %s", unit);
    }
}

static void add_choices(Text *out, const char *choices)
{
    const char *between = "";
    while (*choices) {
        const size_t length = strcspn(choices, "|");
        if (length) text_printf(out, "%s`%.*s`", between, (int)length, choices);
        between = ", ";
        choices += length + (choices[length] == '|');
    }
}

static void add_allowed(Text *out, const SchemaRow *row)
{
    switch (row->kind) {
    case SCHEMA_QUANTITY:
        if (row->dimension != DIM_NONE) text_printf(out, "%s, ", dimension_called(row->dimension));
        add_range(out, row);
        break;
    case SCHEMA_COUNT_NUMBER:
        text_add(out, "a count, ");
        add_range(out, row);
        break;
    case SCHEMA_TEXT: text_add(out, "text"); break;
    case SCHEMA_CHOICE:
    case SCHEMA_FLAG: add_choices(out, row->choices); break;
    case SCHEMA_LIST: text_printf(out, "a list of 1 to %.0f", row->most); break;
    case SCHEMA_MAP: break;
    }
}

static void add_default(Text *out, const SchemaRow *row)
{
    if (!row->standard)
        text_add(out, "**must be given**");
    else if (*row->standard)
        text_printf(out, "`%s`", row->standard);
    else
        text_add(out, row->kind == SCHEMA_LIST ? "may be left out" : "derived");
}

static void add_key(Text *out, const SchemaRow *row, const char *name)
{
    text_printf(out, "| `%s` | ", name);
    add_default(out, row);
    text_add(out, " | ");
    add_allowed(out, row);
    text_printf(out, " | %s |\n", row->help);
}

/* ---- sections ---- */

static bool is_inside(const char *path, const char *prefix)
{
    const size_t length = strlen(prefix);
    return !strncmp(path, prefix, length) && (path[length] == '.' || path[length] == '[');
}

static const SchemaRow *row_at(const char *path)
{
    for (int i = 0; i < bridge_schema_count(); i++)
        if (!strcmp(bridge_schema_row(i)->path, path)) return bridge_schema_row(i);
    return NULL;
}

/* The concretes have the same keys: one row a key, the defaults that differ in it. */
static void add_concretes(Text *out)
{
    static const char *const part[] = {"girder", "panel", "closure", "diaphragm"};
    for (int i = 0; i < bridge_schema_count(); i++) {
        const SchemaRow *row = bridge_schema_row(i);
        if (!is_inside(row->path, "concrete.girder")) continue;
        bool same = true;
        const SchemaRow *of[4];
        for (int p = 0; p < 4; p++) {
            char path[128];
            snprintf(path, sizeof path, "concrete.%s.%s", part[p], leaf_of(row->path));
            of[p] = row_at(path);
            same = same && of[p] && of[p]->standard && row->standard &&
                   !strcmp(of[p]->standard, row->standard);
        }
        if (same) {
            add_key(out, row, leaf_of(row->path));
            continue;
        }
        text_printf(out, "| `%s` | ", leaf_of(row->path));
        for (int p = 0; p < 4; p++) {
            if (!of[p]) continue;
            text_printf(out, "%s%s ", p ? ", " : "", part[p]);
            add_default(out, of[p]);
        }
        text_add(out, " | ");
        add_allowed(out, row);
        text_printf(out, " | %s |\n", row->help);
    }
}

static void add_example(Text *out, const char *section)
{
    for (size_t i = 0; i < sizeof example / sizeof *example; i++)
        if (!strcmp(example[i].section, section))
            text_printf(out, "\n```yaml\n%s```\n", example[i].text);
}

static void add_section(Text *out, const SchemaRow *section)
{
    text_printf(out, "\n## %s\n\n%s", section->path, section->help);
    if (section->kind == SCHEMA_LIST) text_printf(out, " A list of 1 to %.0f.", section->most);
    text_printf(out, "%s\n", section->standard ? "" : " It **must be given**.");
    add_example(out, section->path);
    if (!strcmp(section->path, "concrete"))
        text_add(out, "\nOne group each for `girder`, `panel`, `closure` and `diaphragm`, with the "
                      "same keys:\n");
    text_add(out, "\n| key | default | allowed | meaning |\n| --- | --- | --- | --- |\n");
    if (!strcmp(section->path, "concrete")) {
        add_concretes(out);
        return;
    }
    for (int i = 0; i < bridge_schema_count(); i++) {
        const SchemaRow *row = bridge_schema_row(i);
        if (row->kind != SCHEMA_MAP && is_inside(row->path, section->path))
            add_key(out, row, row->path + strlen(section->path) + (section->kind == SCHEMA_MAP));
    }
}

static const char head[] =
    "# The bridge file\n\n"
    "Written by `clench schema --markdown` from the table that the program itself reads by; do not "
    "edit it.\n\n"
    "A bridge file is YAML without anchors, tags and tabs: groups of keys, lists, and values. A "
    "key that "
    "is not\n"
    "in this reference is an error, and so is a key given twice. "
    "[first-bridge.md](first-bridge.md) "
    "takes it step\n"
    "by step; complete files are in [examples/](../examples/).\n\n"
    "## Where a value comes from\n\n"
    "| origin | |\n| --- | --- |\n"
    "| given | it stands in the file |\n"
    "| default | it does not, and the table below has a value for it |\n"
    "| derived | it does not, and it follows from other values: the meaning says how |\n\n"
    "Every report counts the values that the file does not give and names those that weigh most; "
    "`--defaults` and\n"
    "the page list all of them, `--json` has the origin of every value. `none` as a default means "
    "that the thing\n"
    "is absent, not zero. A whole group or list may be left out unless it **must be given**.\n\n"
    "## Units\n\n"
    "A value is a number and its unit: `8 ft 6 in`, `7/8 in`, `0.42 kip/ft`, `70 %`. Any product "
    "or "
    "quotient of\n"
    "units with whole powers of the right kind is read; these are the usual ones. A bare number "
    "where a "
    "unit is due\n"
    "is an error that shows what to write. Ranges below are what the program accepts, not what is "
    "advisable.\n\n";

void report_reference(Text *out)
{
    text_add(out, head);
    add_units(out);
    text_add(out, "\n## The job\n\n| key | default | allowed | meaning |\n"
                  "| --- | --- | --- | --- |\n");
    for (int i = 0; i < bridge_schema_count(); i++) {
        const SchemaRow *row = bridge_schema_row(i);
        if (row->kind != SCHEMA_MAP && row->kind != SCHEMA_LIST && !strpbrk(row->path, ".["))
            add_key(out, row, row->path);
    }
    add_example(out, "");
    for (int i = 0; i < bridge_schema_count(); i++) {
        const SchemaRow *row = bridge_schema_row(i);
        const bool group = row->kind == SCHEMA_MAP || row->kind == SCHEMA_LIST;
        if (group && !strpbrk(row->path, ".[")) add_section(out, row);
    }
}
