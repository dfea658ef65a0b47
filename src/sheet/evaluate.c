#include "sheet_data.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Known without being given. */
static const SheetLine circle = {.kind = SHEET_GIVEN,
                                 .symbol = "pi",
                                 .unit = "",
                                 .words = "circumference over diameter",
                                 .value = 3.14159265358979323846,
                                 .shown = 3.14159265358979323846};

const SheetLine *sheet_find(const Sheet *sheet, int count, const char *symbol)
{
    for (int i = count - 1; i >= 0; i--)
        if (sheet->line[i].symbol && strcmp(sheet->line[i].symbol, symbol) == 0)
            return &sheet->line[i];
    return strcmp(symbol, "pi") == 0 ? &circle : NULL;
}

static Status units_differ(const Evaluate *on, Measure a, Measure b)
{
    char given[128];
    measure_describe(b, a, given, sizeof given);
    return error_set(on->err, STATUS_BAD_INPUT, "values of different units meet: the second is %s",
                     given);
}

static Status finite_or(const Evaluate *on, const Valued *value)
{
    if (isfinite(value->value)) return STATUS_OK;
    return error_set(on->err, STATUS_BAD_INPUT, "the result is not a finite number");
}

static Status pure_or(const Evaluate *on, const Valued *value, const char *what)
{
    if (!on->units || measure_pure(value->measure)) return STATUS_OK;
    return error_set(on->err, STATUS_BAD_INPUT, "%s must be a pure number", what);
}

static Status evaluate_number(const Evaluate *on, const Term *term, Valued *out)
{
    out->value = strtod(term->text, NULL);
    out->measure = measure_none();
    if (term->unit) TRY(measure_read(term->unit, &out->measure, on->err));
    out->measure.any = out->value == 0 && !term->unit;
    return finite_or(on, out);
}

static Status evaluate_symbol(const Evaluate *on, const Term *term, Valued *out)
{
    const SheetLine *const line = sheet_find(on->sheet, on->count, term->text);
    if (!line) return error_set(on->err, STATUS_BAD_INPUT, "%s is not given above", term->text);
    out->value = line->value;
    return measure_read(line->unit, &out->measure, on->err);
}

static Status evaluate_sum(const Evaluate *on, const Term *term, Valued *out)
{
    Valued a = {0}, b = {0};
    TRY(evaluate_term(on, term->part[0], &a));
    TRY(evaluate_term(on, term->part[1], &b));
    if (on->units && !measure_same(a.measure, b.measure))
        return units_differ(on, a.measure, b.measure);
    out->value = term->kind == TERM_ADD ? a.value + b.value : a.value - b.value;
    out->measure = a.measure.any ? b.measure : a.measure;
    return finite_or(on, out);
}

static Status evaluate_product(const Evaluate *on, const Term *term, Valued *out)
{
    const bool divides = term->kind == TERM_DIVIDE;
    Valued a = {0}, b = {0};
    TRY(evaluate_term(on, term->part[0], &a));
    TRY(evaluate_term(on, term->part[1], &b));
    if (divides && b.value == 0) return error_set(on->err, STATUS_BAD_INPUT, "division by zero");
    out->value = divides ? a.value / b.value : a.value * b.value;
    out->measure = measure_multiply(a.measure, b.measure, divides ? -1 : 1);
    return finite_or(on, out);
}

static Status evaluate_power(const Evaluate *on, const Term *term, Valued *out)
{
    Valued a = {0}, b = {0};
    TRY(evaluate_term(on, term->part[0], &a));
    TRY(evaluate_term(on, term->part[1], &b));
    TRY(pure_or(on, &b, "an exponent"));
    if ((a.value < 0 && b.value != rint(b.value)) || (a.value == 0 && b.value <= 0))
        return error_set(on->err, STATUS_BAD_INPUT, "%g^%g has no value", a.value, b.value);
    out->value = pow(a.value, b.value);
    out->measure = measure_multiply(measure_none(), a.measure, b.value);
    return finite_or(on, out);
}

static Status evaluate_compare(const Evaluate *on, const Term *term, bool *holds)
{
    Valued a = {0}, b = {0};
    TRY(evaluate_term(on, term->part[0], &a));
    TRY(evaluate_term(on, term->part[1], &b));
    if (on->units && !measure_same(a.measure, b.measure))
        return units_differ(on, a.measure, b.measure);
    const bool equal = a.value == b.value && term->text[1] == '=';
    *holds = equal || (term->text[0] == '<' ? a.value < b.value : a.value > b.value);
    return STATUS_OK;
}

static Status evaluate_if(const Evaluate *on, const Term *term, Valued *out)
{
    bool holds = false;
    TRY(evaluate_compare(on, term->part[0], &holds));
    return evaluate_term(on, term->part[holds ? 1 : 2], out);
}

static Status evaluate_extreme(const Evaluate *on, const Term *term, Valued *out)
{
    const bool most = term->text[1] == 'a'; /* max */
    Valued next = {0};
    TRY(evaluate_term(on, term->part[0], out));
    for (int i = 1; i < term->count; i++) {
        TRY(evaluate_term(on, term->part[i], &next));
        if (on->units && !measure_same(out->measure, next.measure))
            return units_differ(on, out->measure, next.measure);
        const Measure measure = out->measure.any ? next.measure : out->measure;
        if (most ? next.value > out->value : next.value < out->value) out->value = next.value;
        out->measure = measure;
    }
    return STATUS_OK;
}

static Status root_or_log(const Evaluate *on, const char *name, const Valued *a, Valued *out)
{
    const bool root = strcmp(name, "sqrt") == 0;
    if (a->value < 0 || (!root && a->value == 0))
        return error_set(on->err, STATUS_BAD_INPUT, "%s(%g) has no value", name, a->value);
    out->value = root ? sqrt(a->value) : strcmp(name, "ln") == 0 ? log(a->value) : log10(a->value);
    out->measure = root ? measure_multiply(measure_none(), a->measure, 0.5) : measure_none();
    return root ? STATUS_OK : pure_or(on, a, "the value of a logarithm");
}

static Status evaluate_plain(const Evaluate *on, const char *name, const Valued *a, Valued *out)
{
    out->measure = measure_none();
    if (strcmp(name, "exp") == 0)
        out->value =
            a->value > 700 ? (double)INFINITY : exp(a->value); /* e^709 is the last double */
    else if (strcmp(name, "sin") == 0)
        out->value = sin(a->value);
    else
        out->value = strcmp(name, "cos") == 0 ? cos(a->value) : tan(a->value);
    TRY(pure_or(on, a, "the value of this function"));
    return finite_or(on, out);
}

static Status evaluate_function(const Evaluate *on, const Term *term, Valued *out)
{
    const char *const name = term->text;
    Valued a = {0};
    if (strcmp(name, "if") == 0) return evaluate_if(on, term, out);
    if (strcmp(name, "min") == 0 || strcmp(name, "max") == 0)
        return evaluate_extreme(on, term, out);
    TRY(evaluate_term(on, term->part[0], &a));
    if (strcmp(name, "abs") == 0) {
        *out = (Valued){fabs(a.value), a.measure};
        return STATUS_OK;
    }
    if (strcmp(name, "sqrt") == 0 || name[0] == 'l') return root_or_log(on, name, &a, out);
    return evaluate_plain(on, name, &a, out);
}

static Status evaluate_negate(const Evaluate *on, const Term *term, Valued *out)
{
    TRY(evaluate_term(on, term->part[0], out));
    out->value = -out->value;
    return STATUS_OK;
}

Status evaluate_term(const Evaluate *on, const Term *term, Valued *out)
{
    switch (term->kind) {
    case TERM_NUMBER: return evaluate_number(on, term, out);
    case TERM_SYMBOL: return evaluate_symbol(on, term, out);
    case TERM_ADD:
    case TERM_SUBTRACT: return evaluate_sum(on, term, out);
    case TERM_MULTIPLY:
    case TERM_DIVIDE: return evaluate_product(on, term, out);
    case TERM_POWER: return evaluate_power(on, term, out);
    case TERM_NEGATE: return evaluate_negate(on, term, out);
    case TERM_FUNCTION: return evaluate_function(on, term, out);
    case TERM_COMPARE: break;
    }
    assert(false); /* a comparison stands inside if alone: the grammar has it nowhere else */
    return STATUS_BAD_INPUT;
}
