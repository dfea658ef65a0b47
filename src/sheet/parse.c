/* sum     = product {(+ | -) product}
 * product = signed {(* | / | nothing) signed}
 * signed  = [-] power
 * power   = atom [^ signed]
 * atom    = number [ [unit] ] | symbol | function ( sum {, sum} ) | ( sum )
 * The first argument of if is a comparison: sum (<= | < | >= | >) sum. */
#include "sheet_data.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* clang-format off */
static const FunctionRow functions[] = {
    {"sqrt", 1, 1}, {"abs", 1, 1}, {"exp", 1, 1}, {"ln", 1, 1}, {"log10", 1, 1},
    {"sin", 1, 1},  {"cos", 1, 1}, {"tan", 1, 1}, {"min", 2, TERM_PARTS}, {"max", 2, TERM_PARTS},
    {"if", 3, 3},
};
/* clang-format on */

typedef struct Parse {
    const char *text;
    size_t at;
    int depth;
    Arena *arena;
    Error *err;
} Parse;

const FunctionRow *function_find(const char *name)
{
    for (size_t i = 0; i < sizeof functions / sizeof *functions; i++)
        if (strcmp(functions[i].name, name) == 0) return &functions[i];
    return NULL;
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

static size_t symbol_length(const char *at)
{
    size_t length = 0;
    if (!is_letter(*at)) return 0;
    for (bool under = false;; length++) {
        const char c = at[length];
        if (c == '_' && !under && (is_letter(at[length + 1]) || is_digit(at[length + 1])))
            under = true;
        else if (!is_letter(c) && !is_digit(c) && c != '\'')
            return length;
    }
}

bool symbol_legal(const char *symbol)
{
    const size_t length = symbol_length(symbol);
    return length > 0 && length < 32 && symbol[length] == 0 && !function_find(symbol);
}

static Status fault(const Parse *parse, size_t from, const char *reason)
{
    const int column = (int)from + 1;
    return error_at(parse->err, STATUS_BAD_INPUT, (Place){1, column}, (Place){1, column + 1}, "",
                    "column %d: %s", column, reason);
}

static char next(Parse *parse)
{
    while (parse->text[parse->at] == ' ') parse->at++;
    return parse->text[parse->at];
}

static Term *term_new(const Parse *parse, TermKind kind, Term *a, Term *b)
{
    Term *term = ARENA_NEW(parse->arena, Term, 1);
    *term = (Term){.kind = kind, .text = "", .part = {a, b}};
    term->count = b ? 2 : a ? 1 : 0;
    return term;
}

static Status parse_sum(Parse *parse, Term **out);

/* "12 [in/ft]": the unit in the brackets. */
static Status number_unit(Parse *parse, Term *number)
{
    if (next(parse) != '[') return STATUS_OK;
    const size_t from = parse->at + 1, length = strcspn(parse->text + from, "]");
    Measure measure;
    if (parse->text[from + length] != ']' || length == 0)
        return fault(parse, from, "a unit ends with ]");
    number->unit = arena_textn(parse->arena, parse->text + from, length);
    Error why;
    if (measure_read(number->unit, &measure, &why) != STATUS_OK)
        return fault(parse, from, why.text);
    parse->at = from + length + 1;
    return STATUS_OK;
}

static Status parse_number(Parse *parse, Term **out)
{
    const size_t from = parse->at;
    const char *const text = parse->text;
    size_t at = from + strspn(text + from, "0123456789");
    if (text[at] == '.') at += 1 + strspn(text + at + 1, "0123456789");
    if (at == from + 1 && text[from] == '.') return fault(parse, from, "a number is expected");
    const size_t mark = at + (text[at] == 'e' || text[at] == 'E');
    const size_t digits = mark + (mark > at && (text[mark] == '-' || text[mark] == '+'));
    if (mark > at && is_digit(text[digits])) at = digits + strspn(text + digits, "0123456789");
    if (at - from > 30) return fault(parse, from, "the number is too long");
    parse->at = at;
    Term *const term = term_new(parse, TERM_NUMBER, NULL, NULL);
    term->text = arena_textn(parse->arena, text + from, at - from);
    TRY(number_unit(parse, term));
    *out = term;
    return STATUS_OK;
}

static Status parse_compare(Parse *parse, Term **out)
{
    Term *left = NULL, *right = NULL;
    TRY(parse_sum(parse, &left));
    const char sign = next(parse);
    if (sign != '<' && sign != '>') return fault(parse, parse->at, "a comparison is expected");
    const size_t from = parse->at++;
    if (parse->text[parse->at] == '=') parse->at++;
    const char *const text = arena_textn(parse->arena, parse->text + from, parse->at - from);
    TRY(parse_sum(parse, &right));
    *out = term_new(parse, TERM_COMPARE, left, right);
    (*out)->text = text;
    return STATUS_OK;
}

/* Behind "name(". */
static Status parse_arguments(Parse *parse, const FunctionRow *function, Term *term)
{
    for (;;) {
        const bool compares = term->count == 0 && strcmp(function->name, "if") == 0;
        if (term->count == function->most) return fault(parse, parse->at, "one value too many");
        Term **const part = &term->part[term->count];
        TRY(compares ? parse_compare(parse, part) : parse_sum(parse, part));
        term->count++;
        const char mark = next(parse);
        if (mark != ',' && mark != ')') return fault(parse, parse->at, ", or ) is expected");
        parse->at++;
        if (mark == ')') break;
    }
    return term->count < function->least ? fault(parse, parse->at - 1, "one value too few")
                                         : STATUS_OK;
}

static Status parse_name(Parse *parse, Term **out)
{
    const size_t from = parse->at, length = symbol_length(parse->text + from);
    const char *const name = arena_textn(parse->arena, parse->text + from, length);
    const FunctionRow *const function = function_find(name);
    const bool called = parse->text[from + length] == '(';
    if (called && !function) return fault(parse, from, "there is no function of this name");
    if (function && !called) return fault(parse, from, "a function is followed by (");
    if (!function && !symbol_legal(name)) return fault(parse, from, "the symbol is too long");
    Term *const term = term_new(parse, function ? TERM_FUNCTION : TERM_SYMBOL, NULL, NULL);
    term->text = name;
    parse->at = from + length + (called ? 1 : 0);
    if (function) TRY(parse_arguments(parse, function, term));
    *out = term;
    return STATUS_OK;
}

static Status parse_atom(Parse *parse, Term **out)
{
    const char c = next(parse);
    if (is_digit(c) || c == '.') return parse_number(parse, out);
    if (is_letter(c)) return parse_name(parse, out);
    if (c != '(') return fault(parse, parse->at, "a number, a symbol or ( is expected");
    parse->at++;
    TRY(parse_sum(parse, out));
    if (next(parse) != ')') return fault(parse, parse->at, ") is expected");
    parse->at++;
    return STATUS_OK;
}

static Status parse_signed(Parse *parse, Term **out)
{
    Term *base = NULL, *exponent = NULL;
    if (++parse->depth > SHEET_DEPTH_MAX)
        return fault(parse, parse->at, "the formula is nested too deeply");
    const bool negative = next(parse) == '-';
    if (negative) parse->at++;
    TRY(parse_atom(parse, &base));
    if (next(parse) == '^') {
        parse->at++;
        TRY(parse_signed(parse, &exponent));
        base = term_new(parse, TERM_POWER, base, exponent);
    }
    *out = negative ? term_new(parse, TERM_NEGATE, base, NULL) : base;
    parse->depth--;
    return STATUS_OK;
}

static Status parse_product(Parse *parse, Term **out)
{
    Term *right = NULL;
    TRY(parse_signed(parse, out));
    assert(*out);
    for (;;) {
        const char c = next(parse);
        const bool beside = is_letter(c) || c == '(';
        if (is_digit(c) || c == '.') {
            if (parse->at > 0 && is_digit(parse->text[parse->at - 1]))
                return fault(parse, parse->at, "the number is not understood");
            return fault(parse, parse->at, "before a number a product is written with *");
        }
        if (c != '*' && c != '/' && !beside) return STATUS_OK;
        if (beside && (*out)->kind == TERM_DIVIDE)
            return fault(parse, parse->at, "behind a division a product is written with *");
        if (!beside) parse->at++;
        TRY(parse_signed(parse, &right));
        *out = term_new(parse, c == '/' ? TERM_DIVIDE : TERM_MULTIPLY, *out, right);
    }
}

static Status parse_sum(Parse *parse, Term **out)
{
    Term *right = NULL;
    TRY(parse_product(parse, out));
    for (;;) {
        const char c = next(parse);
        if (c != '+' && c != '-') return STATUS_OK;
        parse->at++;
        TRY(parse_product(parse, &right));
        *out = term_new(parse, c == '+' ? TERM_ADD : TERM_SUBTRACT, *out, right);
    }
}

Status sheet_parse(const char *formula, Arena *arena, const Term **term, Error *err)
{
    Parse parse = {.text = formula, .arena = arena, .err = err};
    Term *root = NULL;
    if (strlen(formula) > SHEET_FORMULA_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a formula has at most %d characters",
                         SHEET_FORMULA_MAX);
    TRY(parse_sum(&parse, &root));
    if (next(&parse) != 0) return fault(&parse, parse.at, "this is too much here");
    *term = root;
    return STATUS_OK;
}
