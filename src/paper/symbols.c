/* Symbols, numbers and units of formulas. Trade symbols keep their look: f'c is f' with the index c. */
#include "paper_data.h"

#include <string.h>

static const struct {
    const char *name, *letter;
} greek[] = {{"alpha", "α"},  {"beta", "β"},  {"gamma", "γ"}, {"delta", "δ"}, {"epsilon", "ε"},
             {"eps", "ε"},    {"zeta", "ζ"},  {"eta", "η"},   {"theta", "θ"}, {"kappa", "κ"},
             {"lambda", "λ"}, {"mu", "μ"},    {"nu", "ν"},    {"xi", "ξ"},    {"pi", "π"},
             {"rho", "ρ"},    {"sigma", "σ"}, {"tau", "τ"},   {"phi", "φ"},   {"chi", "χ"},
             {"psi", "ψ"},    {"omega", "ω"}, {"Gamma", "Γ"}, {"Delta", "Δ"}, {"Theta", "Θ"},
             {"Lambda", "Λ"}, {"Sigma", "Σ"}, {"Phi", "Φ"},   {"Psi", "Ψ"},   {"Omega", "Ω"}};

static const char *letters_of(const char *name)
{
    for (size_t i = 0; i < sizeof greek / sizeof *greek; i++)
        if (strcmp(greek[i].name, name) == 0) return greek[i].letter;
    return name;
}

static Math index_of(Paper *paper, const char *text, double size_pt)
{
    return math_words(paper, letters_of(text), FACE_PLAIN, 0.72 * size_pt);
}

Math math_symbol(Paper *paper, const char *symbol, const Math *power, double size_pt)
{
    const size_t base_length = strcspn(symbol, "_'");
    const char *const base = arena_textn(paper->arena, symbol, base_length);
    const bool prime = symbol[base_length] == '\'';
    const char *index = symbol + base_length + (symbol[base_length] ? 1 : 0);
    if (prime && *index == '_') index++; /* f'_c */
    Math row = math_words(paper, letters_of(base), FACE_ITALIC, size_pt);
    math_append(&row, math_space(0.03 * size_pt));
    if (prime) math_append(&row, math_words(paper, "\xE2\x80\xB2", FACE_PLAIN, size_pt));
    const double at_pt = row.width_pt;
    if (*index) {
        const Math low = index_of(paper, index, size_pt);
        math_put(&row, low, prime ? at_pt - 0.12 * size_pt : at_pt, 0.22 * size_pt);
        row.width_pt = at_pt + low.width_pt - (prime ? 0.12 * size_pt : 0) + 0.04 * size_pt;
    }
    if (power) {
        math_put(&row, *power, at_pt + 0.05 * size_pt, -0.42 * size_pt);
        const double end_pt = at_pt + power->width_pt + 0.08 * size_pt;
        if (end_pt > row.width_pt) row.width_pt = end_pt;
    }
    return row;
}

/* "2.5e-6": 2.5 times ten to the power. */
Math math_number(Paper *paper, const char *number, double size_pt)
{
    const char *const mark = strpbrk(number, "eE");
    if (!mark) return math_words(paper, number, FACE_PLAIN, size_pt);
    const char *const digits = arena_textn(paper->arena, number, (size_t)(mark - number));
    const char *const power = mark[1] == '-'
                                  ? arena_printf(paper->arena, "\xE2\x88\x92%s", mark + 2)
                                  : mark + 1 + (mark[1] == '+');
    Math row = math_words(paper, arena_printf(paper->arena, "%s \xC3\x97 10", digits), FACE_PLAIN,
                          size_pt);
    const Math high = math_words(paper, power, FACE_PLAIN, 0.72 * size_pt);
    math_put(&row, high, row.width_pt + 0.04 * size_pt, -0.42 * size_pt);
    row.width_pt += high.width_pt + 0.06 * size_pt;
    return row;
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* "kip*in^2" as kip·in². */
Math math_unit(Paper *paper, const char *unit, double size_pt)
{
    static const char *const high[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    Text text = text_start(paper->arena);
    for (const char *c = unit; *c; c++) {
        const bool after_name = c > unit && !strchr("*/", c[-1]);
        if (*c == '^') continue;
        if (*c == '*')
            text_add(&text, "·");
        else if (is_digit(*c) && after_name)
            text_add(&text, high[*c - '0']);
        else if (strncmp(c, "deg", 3) == 0) {
            text_add(&text, "°");
            c += 2;
        } else if (strncmp(c, "delta_", 6) == 0)
            c += 5;
        else
            text_addn(&text, c, 1);
    }
    if (!text.length) return math_space(0);
    return math_words(paper, text.bytes, FACE_PLAIN, size_pt);
}
