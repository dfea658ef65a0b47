/* How a value is shown: without what rounding leaves of nothing, and in the unit that people use for
 * its kind beside the one that its formulas are written in. */
#include "sheet_data.h"

#include <math.h>
#include <string.h>

/* ---- nothing ---- */

static const double rounding_1 = 1e-9;

/* Largest operand of a sum: what its rounding is measured by. */
static double scale_of(const Evaluate *on, const Term *term)
{
    Valued value = {0};
    double most = 0;
    if (term->kind == TERM_ADD || term->kind == TERM_SUBTRACT || term->kind == TERM_NEGATE ||
        (term->kind == TERM_FUNCTION && strcmp(term->text, "if") != 0 && term->count > 1)) {
        for (int i = 0; i < term->count; i++) most = fmax(most, scale_of(on, term->part[i]));
        return most;
    }
    return evaluate_term(on, term, &value) == STATUS_OK ? fabs(value.value) : 0;
}

/* Far below what anybody builds or measures: 10 Pa, a millinewton, a tenth of a nanometre. */
static bool is_nothing(double value, Measure measure)
{
    const double *const e = measure.exponent_1;
    const bool force = e[1] == 1 && e[2] == 0 && e[3] == 0 && e[4] == 0;
    const double SI = fabs(value) * measure.size;
    if (force && e[0] == -2) return SI < 10;
    if (force) return e[0] >= -1 && e[0] <= 1 && SI < 1e-3;
    if (e[1] != 0 || e[2] != 0 || e[3] != 0 || e[4] != 0) return false;
    return e[0] == 1 ? SI < 1e-10 : e[0] == 0 && SI < 1e-13;
}

double shown_of(const Sheet *sheet, const SheetLine *line, const Term *term)
{
    static const double plain = 0.01; /* of no unit in use is that nothing: saves the look */
    const Evaluate on = {.sheet = sheet, .count = sheet->count};
    Measure measure = measure_none();
    if (fabs(line->value) > plain) return line->value;
    if (measure_read(line->unit, &measure, NULL) == STATUS_OK && is_nothing(line->value, measure))
        return 0;
    if (!term) return line->value;
    return fabs(line->value) < rounding_1 * scale_of(&on, term) ? 0 : line->value;
}

/* ---- the unit of its kind ---- */

/* clang-format off */
static const struct { const char *written, *US, *SI; } usual[] = {
    {"kip", NULL, "kN"},           {"lbf", NULL, "N"},
    {"in", NULL, "mm"},            {"ft", NULL, "m"},
    {"in^2", NULL, "mm^2"},        {"ft^2", NULL, "m^2"},
    {"in^3", NULL, "mm^3"},        {"in^4", NULL, "mm^4"},
    {"1/in", NULL, "1/m"},         {"1/ft", NULL, "1/m"},
    {"ksi", NULL, "MPa"},          {"psi", NULL, "MPa"},
    {"ksf", NULL, "kPa"},          {"psf", NULL, "kPa"},
    {"kip*in", "kip*ft", "kN*m"},  {"kip*ft", NULL, "kN*m"},
    {"kip/in", "kip/ft", "kN/m"},  {"kip/ft", NULL, "kN/m"},
    {"lbf/ft", NULL, "N/m"},       {"kip*in/ft", "kip*ft/ft", "kN*m/m"},
    {"pcf", NULL, "kN/m^3"},       {"kcf", NULL, "kN/m^3"},
    {"delta_degF", NULL, "delta_degC"}, {"1/delta_degF", NULL, "1/delta_degC"},
    {"MN*m", NULL, "kN*m"},        {"MN/m", NULL, "kN/m"},
};
/* clang-format on */

/* A pressure that is given, of wind or people: 100 psf and less. */
static bool is_pressure(const SheetLine *line)
{
    static const double most_Pa = 4800;
    if (line->kind != SHEET_GIVEN) return false;
    if (strcmp(line->unit, "ksi") != 0 && strcmp(line->unit, "MPa") != 0) return false;
    return fabs(line->shown) < quantity_in(most_Pa, line->unit);
}

const char *sheet_usual_unit(const SheetLine *line, UnitSystem units)
{
    if (line->kind == SHEET_WORDS || line->shown == 0) return NULL;
    if (is_pressure(line)) return units == UNITS_US ? "psf" : "kPa";
    /* what is worked out; of given strengths and moduli ksi is the usual one */
    if (units == UNITS_US && line->kind == SHEET_FORMULA && strcmp(line->unit, "ksi") == 0) {
        const char *shown = quantity_shown_unit(units, DIM_STRESS, sheet_line_in(line, "Pa"));
        return strcmp(shown, "ksi") == 0 ? NULL : shown;
    }
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        if (strcmp(line->unit, usual[i].written) == 0)
            return units == UNITS_US ? usual[i].US : usual[i].SI;
    return NULL;
}

double sheet_line_in(const SheetLine *line, const char *unit)
{
    const double zero = quantity_in(0, line->unit);
    return quantity_in((line->shown - zero) / (quantity_in(1, line->unit) - zero), unit);
}
