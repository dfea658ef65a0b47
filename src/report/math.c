/* Sheets in a text and in a page: lines, and MathML that every browser draws. */
#include "document.h"

#include <string.h>

/* ---- units ---- */

/* Text behind "delta_degF" or "degF", NULL where `at` is none of them; a difference and a temperature
 * are told apart by what they are of. */
static const char *degrees_end(const char *at)
{
    if (strncmp(at, "delta_", 6) == 0) at += 6;
    return strncmp(at, "deg", 3) == 0 && (at[3] == 'F' || at[3] == 'C') ? at + 3 : NULL;
}

const char *report_degrees(const char *text, Arena *arena)
{
    if (!strstr(text, "deg")) return text;
    Text out = text_start(arena);
    for (const char *c = text; *c; c++) {
        const char *const end = degrees_end(c);
        if (end) {
            text_add(&out, "°");
            c = end;
        }
        text_addn(&out, c, 1);
    }
    return out.bytes;
}

const char *report_unit(const char *unit, Arena *arena)
{
    static const char *const high[] = {"²", "³", "⁴"};
    Text text = text_start(arena);
    for (const char *c = unit; *c; c++) {
        if (*c == '^' && c[1] >= '2' && c[1] <= '4')
            text_add(&text, high[*++c - '2']);
        else if (*c == '*')
            text_add(&text, "·");
        else
            text_addn(&text, c, 1);
    }
    return text.length ? report_degrees(text.bytes, arena) : "";
}

/* ---- MathML ---- */

static const struct {
    const char *name, *letter;
} greek[] = {{"alpha", "α"},  {"beta", "β"},  {"gamma", "γ"}, {"delta", "δ"}, {"epsilon", "ε"},
             {"eps", "ε"},    {"zeta", "ζ"},  {"eta", "η"},   {"theta", "θ"}, {"kappa", "κ"},
             {"lambda", "λ"}, {"mu", "μ"},    {"nu", "ν"},    {"xi", "ξ"},    {"pi", "π"},
             {"rho", "ρ"},    {"sigma", "σ"}, {"tau", "τ"},   {"phi", "φ"},   {"chi", "χ"},
             {"psi", "ψ"},    {"omega", "ω"}, {"Gamma", "Γ"}, {"Delta", "Δ"}, {"Theta", "Θ"},
             {"Lambda", "Λ"}, {"Sigma", "Σ"}, {"Phi", "Φ"},   {"Psi", "Ψ"},   {"Omega", "Ω"}};

static void leaf(Text *out, const char *element, const char *text)
{
    text_printf(out, "<%s>", element);
    report_escape(out, text);
    text_printf(out, "</%s>", element);
}

static const char *letters_of(const char *name)
{
    for (size_t i = 0; i < sizeof greek / sizeof *greek; i++)
        if (strcmp(greek[i].name, name) == 0) return greek[i].letter;
    return name;
}

/* "f'c" is f with a prime and the index c, "A_sc" A with the index sc. */
static void symbol_add(Text *out, const char *symbol)
{
    const size_t length = strcspn(symbol, "_'");
    const bool prime = symbol[length] == '\'';
    const char *index = symbol + length + (symbol[length] ? 1 : 0);
    if (prime && *index == '_') index++;
    const char *const base = arena_textn(out->arena, symbol, length);
    const char *const element = prime ? (*index ? "msubsup" : "msup") : (*index ? "msub" : NULL);
    if (element) text_printf(out, "<%s>", element);
    leaf(out, "mi", letters_of(base));
    if (*index) leaf(out, "mi", letters_of(index));
    if (prime) leaf(out, "mo", "\xE2\x80\xB2");
    if (element) text_printf(out, "</%s>", element);
}

static int level_of(const Term *term)
{
    switch (term->kind) {
    case TERM_ADD:
    case TERM_SUBTRACT:
    case TERM_NEGATE:
    case TERM_COMPARE: return 1;
    case TERM_MULTIPLY: return 2;
    case TERM_POWER: return 3;
    default: return 4;
    }
}

static void part_add(Text *out, const Term *term, int least)
{
    const bool brackets = level_of(term) < least;
    text_add(out, "<mrow>");
    if (brackets) leaf(out, "mo", "(");
    report_math(term, out);
    if (brackets) leaf(out, "mo", ")");
    text_add(out, "</mrow>");
}

static void pair_add(Text *out, const Term *term, const char *sign, int left, int right)
{
    part_add(out, term->part[0], left);
    leaf(out, "mo", sign);
    part_add(out, term->part[1], right);
}

static void two_add(Text *out, const Term *term, const char *element, int first)
{
    text_printf(out, "<%s>", element);
    part_add(out, term->part[0], first);
    part_add(out, term->part[1], 1);
    text_printf(out, "</%s>", element);
}

static void function_add(Text *out, const Term *term)
{
    const bool root = strcmp(term->text, "sqrt") == 0;
    if (!root) leaf(out, "mi", term->text);
    text_add(out, root ? "<msqrt>" : "<mo>(</mo>");
    for (int i = 0; i < term->count; i++) {
        if (i > 0) leaf(out, "mo", ",");
        report_math(term->part[i], out);
    }
    text_add(out, root ? "</msqrt>" : "<mo>)</mo>");
}

static bool starts_with_number(const Term *term)
{
    while (term->kind == TERM_POWER || term->kind == TERM_MULTIPLY) term = term->part[0];
    return term->kind == TERM_NUMBER;
}

void report_math(const Term *term, Text *out)
{
    switch (term->kind) {
    case TERM_NUMBER:
        leaf(out, "mn", term->text);
        if (term->unit)
            leaf(out, "mtext",
                 arena_printf(out->arena, "\xC2\xA0%s", report_unit(term->unit, out->arena)));
        break;
    case TERM_SYMBOL: symbol_add(out, term->text); break;
    case TERM_ADD: pair_add(out, term, "+", 1, 2); break;
    case TERM_SUBTRACT: pair_add(out, term, "\xE2\x88\x92", 1, 2); break;
    case TERM_MULTIPLY:
        pair_add(out, term, starts_with_number(term->part[1]) ? "\xC3\x97" : "\xE2\x81\xA2", 2, 3);
        break;
    case TERM_DIVIDE: two_add(out, term, "mfrac", 1); break;
    case TERM_POWER: two_add(out, term, "msup", 4); break;
    case TERM_NEGATE:
        leaf(out, "mo", "\xE2\x88\x92");
        part_add(out, term->part[0], 2);
        break;
    case TERM_FUNCTION: function_add(out, term); break;
    case TERM_COMPARE: pair_add(out, term, term->text, 1, 1); break;
    }
}

/* ---- lines of a sheet ---- */

static void unit_add(Text *out, const char *unit)
{
    leaf(out, "mtext", arena_printf(out->arena, "\xC2\xA0%s", report_unit(unit, out->arena)));
}

static void equation_html(const Sheet *sheet, int index, UnitSystem units, Text *out)
{
    const SheetLine *const line = &sheet->line[index];
    const char *const usual = sheet_usual_unit(line, units);
    char number[SHEET_NUMBER_MAX];
    const Term *term;
    text_add(out, "<math display=\"block\">");
    symbol_add(out, line->symbol);
    if (line->formula && sheet_parse(line->formula, out->arena, &term, NULL) == STATUS_OK &&
        term->kind != TERM_NUMBER) {
        const Term *const numbers = sheet_numbers(sheet, index, out->arena);
        leaf(out, "mo", "=");
        report_math(term, out);
        if (numbers) {
            leaf(out, "mo", "=");
            report_math(numbers, out);
        }
    }
    leaf(out, "mo", "=");
    leaf(out, "mn", sheet_number(line->shown, SHEET_DIGITS, number));
    if (*line->unit) unit_add(out, line->unit);
    if (usual) {
        leaf(out, "mtext", " (");
        leaf(out, "mn", sheet_number(sheet_line_in(line, usual), SHEET_DIGITS, number));
        unit_add(out, usual);
        leaf(out, "mtext", ")");
    }
    text_add(out, "</math>\n");
}

static void line_html(const Sheet *sheet, int index, UnitSystem units, Text *out)
{
    const SheetLine *const line = &sheet->line[index];
    text_add(out, "<p>");
    report_escape(out, line->words);
    if (line->source && *line->source) {
        text_add(out, " <small>[");
        report_escape(out, line->source);
        text_add(out, "]</small>");
    }
    text_add(out, "</p>\n");
    if (line->kind == SHEET_WORDS) return;
    equation_html(sheet, index, units, out);
}

void sheet_html(const Sheet *sheet, UnitSystem units, Text *out)
{
    text_add(out, "<section class=\"working\">\n");
    for (int i = 0; i < sheet->count; i++) line_html(sheet, i, units, out);
    text_add(out, "</section>\n");
}

static void line_text(const Sheet *sheet, int index, UnitSystem units, Text *out)
{
    const SheetLine *const line = &sheet->line[index];
    const char *const usual = sheet_usual_unit(line, units);
    char number[SHEET_NUMBER_MAX];
    const Term *term;
    text_printf(out, "  %s%s%s%s\n", line->words, line->source && *line->source ? "  [" : "",
                line->source ? line->source : "", line->source && *line->source ? "]" : "");
    if (line->kind == SHEET_WORDS) return;
    text_printf(out, "    %s", line->symbol);
    if (line->formula && sheet_parse(line->formula, out->arena, &term, NULL) == STATUS_OK &&
        term->kind != TERM_NUMBER) {
        const Term *const numbers = sheet_numbers(sheet, index, out->arena);
        text_add(out, " = ");
        sheet_text(term, out);
        if (numbers) {
            text_add(out, " = ");
            sheet_text(numbers, out);
        }
    }
    text_printf(out, " = %s%s%s", sheet_number(line->shown, SHEET_DIGITS, number),
                *line->unit ? " " : "", line->unit);
    if (usual)
        text_printf(out, " (%s %s)", sheet_number(sheet_line_in(line, usual), SHEET_DIGITS, number),
                    usual);
    text_add(out, "\n");
}

void sheet_lines(const Sheet *sheet, UnitSystem units, Text *out)
{
    for (int i = 0; i < sheet->count; i++) line_text(sheet, i, units, out);
}
