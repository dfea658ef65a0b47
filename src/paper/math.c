/* Formulas as boxes on a baseline: fractions, roots, powers, brackets that grow. */
#include "paper_data.h"

#include <math.h>
#include <string.h>

enum { LEVEL_SUM = 1, LEVEL_PRODUCT, LEVEL_POWER, LEVEL_ATOM };

/* ---- boxes ---- */

static void mark_add(Math *on, Mark *mark)
{
    if (on->last)
        on->last->next = mark;
    else
        on->first = mark;
    on->last = mark;
}

Math math_space(double width_pt) { return (Math){.width_pt = width_pt}; }

Math math_words(Paper *paper, const char *text, Face face, double size_pt)
{
    PangoLayout *const layout = words_layout(paper, text, face, size_pt, -1);
    Mark *const mark = ARENA_NEW(paper->arena, Mark, 1);
    mark->layout = layout;
    Math math = {
        .width_pt = words_width_pt(layout), .up_pt = 0.70 * size_pt, .down_pt = 0.22 * size_pt};
    mark_add(&math, mark);
    return math;
}

/* Takes over the marks of the part: it is not used again. */
void math_put(Math *on, Math part, double x_pt, double y_pt)
{
    Mark *next;
    for (Mark *mark = part.first; mark; mark = next) {
        next = mark->next;
        mark->next = NULL;
        mark->x_pt += x_pt;
        mark->y_pt += y_pt;
        mark->to_x_pt += x_pt;
        mark->to_y_pt += y_pt;
        for (int i = 0; i < 4; i++) mark->bend_pt[i] += i % 2 ? y_pt : x_pt;
        mark_add(on, mark);
    }
    on->up_pt = fmax(on->up_pt, part.up_pt - y_pt);
    on->down_pt = fmax(on->down_pt, part.down_pt + y_pt);
}

void math_append(Math *row, Math part)
{
    math_put(row, part, row->width_pt, 0);
    row->width_pt += part.width_pt;
}

void math_curve(Paper *paper, Math *on, const double from_to_pt[4], const double bend_pt[4],
                double thick_pt)
{
    Mark *const mark = ARENA_NEW(paper->arena, Mark, 1);
    *mark = (Mark){.kind = MARK_CURVE,
                   .x_pt = from_to_pt[0],
                   .y_pt = from_to_pt[1],
                   .to_x_pt = from_to_pt[2],
                   .to_y_pt = from_to_pt[3],
                   .thick_pt = thick_pt};
    memcpy(mark->bend_pt, bend_pt, sizeof mark->bend_pt);
    mark_add(on, mark);
}

void math_line(Paper *paper, Math *on, const double from_to_pt[4], double thick_pt)
{
    const double none_pt[4] = {0};
    math_curve(paper, on, from_to_pt, none_pt, thick_pt);
    on->last->kind = MARK_LINE;
}

void math_show(const Paper *paper, const Math *math, double x_pt, double y_pt)
{
    cairo_t *const cr = paper->cr;
    ink_set(paper, INK_TEXT);
    for (const Mark *m = math->first; m; m = m->next) {
        if (m->kind == MARK_WORDS) {
            cairo_move_to(cr, x_pt + m->x_pt, y_pt + m->y_pt - words_baseline_pt(m->layout));
            pango_cairo_show_layout(cr, m->layout);
            continue;
        }
        cairo_set_line_width(cr, m->thick_pt);
        cairo_move_to(cr, x_pt + m->x_pt, y_pt + m->y_pt);
        if (m->kind == MARK_LINE)
            cairo_line_to(cr, x_pt + m->to_x_pt, y_pt + m->to_y_pt);
        else
            cairo_curve_to(cr, x_pt + m->bend_pt[0], y_pt + m->bend_pt[1], x_pt + m->bend_pt[2],
                           y_pt + m->bend_pt[3], x_pt + m->to_x_pt, y_pt + m->to_y_pt);
        cairo_stroke(cr);
    }
}

/* ---- terms ---- */

/* One side of a bracket as high as what it holds. */
static Math bracket(Paper *paper, const Math *inside, bool opens, double size_pt)
{
    if (inside->up_pt + inside->down_pt < 1.35 * size_pt)
        return math_words(paper, opens ? "(" : ")", FACE_PLAIN, size_pt);
    const double width_pt = 0.34 * size_pt, over_pt = 0.08 * size_pt;
    const double top_pt = -inside->up_pt - over_pt, low_pt = inside->down_pt + over_pt;
    const double end_pt = opens ? width_pt : 0, out_pt = opens ? -0.02 * size_pt : 0.36 * size_pt;
    const double third_pt = (low_pt - top_pt) / 3;
    Math math = {.width_pt = width_pt + 0.04 * size_pt, .up_pt = -top_pt, .down_pt = low_pt};
    math_curve(paper, &math, (const double[4]){end_pt, top_pt, end_pt, low_pt},
               (const double[4]){out_pt, top_pt + third_pt, out_pt, low_pt - third_pt},
               0.055 * size_pt);
    return math;
}

static Math in_brackets(Paper *paper, Math inside, double size_pt)
{
    Math row = bracket(paper, &inside, true, size_pt);
    const Math right = bracket(paper, &inside, false, size_pt);
    math_append(&row, inside);
    math_append(&row, right);
    return row;
}

static int level_of(const Term *term)
{
    switch (term->kind) {
    case TERM_ADD:
    case TERM_SUBTRACT:
    case TERM_NEGATE:
    case TERM_COMPARE: return LEVEL_SUM;
    case TERM_MULTIPLY: return LEVEL_PRODUCT;
    case TERM_POWER: return LEVEL_POWER;
    default: return LEVEL_ATOM; /* a fraction's bar holds it together */
    }
}

static Math at_level(Paper *paper, const Term *term, int least, double size_pt)
{
    const Math inside = math_term(paper, term, size_pt);
    return level_of(term) < least ? in_brackets(paper, inside, size_pt) : inside;
}

static Math pair(Paper *paper, const Term *term, const char *sign, int right, double size_pt)
{
    Math row = at_level(paper, term->part[0], LEVEL_SUM, size_pt);
    math_append(&row, math_space(0.22 * size_pt));
    math_append(&row, math_words(paper, sign, FACE_PLAIN, size_pt));
    math_append(&row, math_space(0.22 * size_pt));
    math_append(&row, at_level(paper, term->part[1], right, size_pt));
    return row;
}

static bool starts_with_number(const Term *term)
{
    while (term->kind == TERM_POWER || term->kind == TERM_MULTIPLY) term = term->part[0];
    return term->kind == TERM_NUMBER;
}

static Math product(Paper *paper, const Term *term, double size_pt)
{
    Math row = at_level(paper, term->part[0], LEVEL_PRODUCT, size_pt);
    if (starts_with_number(term->part[1])) {
        math_append(&row, math_space(0.14 * size_pt));
        math_append(&row, math_words(paper, "\xC3\x97", FACE_PLAIN, size_pt));
        math_append(&row, math_space(0.14 * size_pt));
    } else {
        math_append(&row, math_space(0.18 * size_pt));
    }
    math_append(&row, at_level(paper, term->part[1], LEVEL_POWER, size_pt));
    return row;
}

static Math fraction(Paper *paper, const Term *term, double size_pt)
{
    const double part_pt = fmax(0.9 * size_pt, 6.5), axis_pt = -0.26 * size_pt;
    const double gap_pt = 0.14 * size_pt, side_pt = 0.10 * size_pt;
    const Math above = math_term(paper, term->part[0], part_pt);
    const Math below = math_term(paper, term->part[1], part_pt);
    const double width_pt = fmax(above.width_pt, below.width_pt) + 2 * side_pt;
    Math math = {.width_pt = width_pt + 0.12 * size_pt};
    const double left_pt = 0.06 * size_pt;
    math_line(paper, &math, (const double[4]){left_pt, axis_pt, left_pt + width_pt, axis_pt},
              0.05 * size_pt);
    math_put(&math, above, left_pt + 0.5 * (width_pt - above.width_pt),
             axis_pt - gap_pt - above.down_pt);
    math_put(&math, below, left_pt + 0.5 * (width_pt - below.width_pt),
             axis_pt + gap_pt + below.up_pt);
    return math;
}

/* "1/3" in a power stays on its line. */
static Math exponent(Paper *paper, const Term *term, double size_pt)
{
    if (term->kind != TERM_DIVIDE) return math_term(paper, term, size_pt);
    Math row = at_level(paper, term->part[0], LEVEL_PRODUCT, size_pt);
    math_append(&row, math_words(paper, "/", FACE_PLAIN, size_pt));
    math_append(&row, at_level(paper, term->part[1], LEVEL_POWER, size_pt));
    return row;
}

static Math power(Paper *paper, const Term *term, double size_pt)
{
    const Term *const base = term->part[0];
    const Math high = exponent(paper, term->part[1], fmax(0.72 * size_pt, 6));
    if (base->kind == TERM_SYMBOL) return math_symbol(paper, base->text, &high, size_pt);
    Math row = math_term(paper, base, size_pt);
    if (level_of(base) < LEVEL_ATOM || base->kind == TERM_DIVIDE)
        row = in_brackets(paper, row, size_pt);
    const double rise_pt = fmax(0.42 * size_pt, row.up_pt - 0.30 * size_pt);
    math_put(&row, high, row.width_pt + 0.03 * size_pt, -rise_pt);
    row.width_pt += high.width_pt + 0.06 * size_pt;
    return row;
}

static Math root(Paper *paper, const Term *term, double size_pt)
{
    const Math inside = math_term(paper, term->part[0], size_pt);
    const double top_pt = -inside.up_pt - 0.14 * size_pt, low_pt = inside.down_pt;
    const double sign_pt = 0.62 * size_pt, thick_pt = 0.055 * size_pt;
    const double end_pt = sign_pt + inside.width_pt + 0.08 * size_pt;
    Math math = {.width_pt = end_pt + 0.06 * size_pt, .up_pt = -top_pt + thick_pt};
    const double knee_pt = low_pt - 0.45 * fmin(low_pt - top_pt, 1.2 * size_pt);
    math_line(paper, &math,
              (const double[4]){0.04 * size_pt, knee_pt + 0.07 * size_pt, 0.16 * size_pt, knee_pt},
              thick_pt);
    math_line(paper, &math, (const double[4]){0.16 * size_pt, knee_pt, 0.34 * size_pt, low_pt},
              1.7 * thick_pt);
    math_line(paper, &math, (const double[4]){0.34 * size_pt, low_pt, 0.58 * size_pt, top_pt},
              thick_pt);
    math_line(paper, &math, (const double[4]){0.57 * size_pt, top_pt, end_pt, top_pt}, thick_pt);
    math_put(&math, inside, sign_pt + 0.04 * size_pt, 0);
    return math;
}

/* x for a <= b, else y: two rows behind a brace. */
static Math cases(Paper *paper, const Term *term, double size_pt)
{
    Math above = math_term(paper, term->part[1], size_pt);
    Math below = math_term(paper, term->part[2], size_pt);
    Math when = math_words(paper, "for ", FACE_PLAIN, size_pt);
    math_append(&when, math_term(paper, term->part[0], size_pt));
    const double column_pt = fmax(above.width_pt, below.width_pt) + size_pt;
    const double gap_pt = 0.30 * size_pt, axis_pt = -0.26 * size_pt, left_pt = 0.55 * size_pt;
    const double high_pt = axis_pt - 0.5 * gap_pt - fmax(above.down_pt, when.down_pt);
    const double low_pt = axis_pt + 0.5 * gap_pt + fmax(below.up_pt, 0.7 * size_pt);
    Math math = {.width_pt = left_pt + column_pt + when.width_pt};
    math_put(&math, when, left_pt + column_pt, high_pt);
    math_put(&math, math_words(paper, "else", FACE_PLAIN, size_pt), left_pt + column_pt, low_pt);
    math_put(&math, above, left_pt, high_pt);
    math_put(&math, below, left_pt, low_pt);
    const double x_pt = 0.32 * size_pt, end_pt = 0.45 * size_pt, tip_pt = 0.12 * size_pt;
    math_curve(paper, &math, (const double[4]){end_pt, -math.up_pt, tip_pt, axis_pt},
               (const double[4]){x_pt - 0.1 * size_pt, -math.up_pt, x_pt, axis_pt}, 0.05 * size_pt);
    math_curve(paper, &math, (const double[4]){tip_pt, axis_pt, end_pt, math.down_pt},
               (const double[4]){x_pt, axis_pt, x_pt - 0.1 * size_pt, math.down_pt},
               0.05 * size_pt);
    return math;
}

static Math arguments(Paper *paper, const Term *term, double size_pt)
{
    Math row = {0};
    for (int i = 0; i < term->count; i++) {
        if (i > 0) math_append(&row, math_words(paper, ",", FACE_PLAIN, size_pt));
        if (i > 0) math_append(&row, math_space(0.3 * size_pt));
        math_append(&row, math_term(paper, term->part[i], size_pt));
    }
    return row;
}

static Math function(Paper *paper, const Term *term, double size_pt)
{
    if (strcmp(term->text, "sqrt") == 0) return root(paper, term, size_pt);
    if (strcmp(term->text, "if") == 0) return cases(paper, term, size_pt);
    const Math inside = arguments(paper, term, size_pt);
    if (strcmp(term->text, "abs") == 0) {
        Math row = math_words(paper, "|", FACE_PLAIN, size_pt);
        math_append(&row, inside);
        math_append(&row, math_words(paper, "|", FACE_PLAIN, size_pt));
        return row;
    }
    Math row = math_words(paper, term->text, FACE_PLAIN, size_pt);
    math_append(&row, math_space(0.06 * size_pt));
    math_append(&row, in_brackets(paper, inside, size_pt));
    return row;
}

static Math number(Paper *paper, const Term *term, double size_pt)
{
    if (strncmp(term->text, "3.14159265", 10) == 0)
        return math_words(paper, "\xCF\x80", FACE_PLAIN, size_pt);
    Math row = math_number(paper, term->text, size_pt);
    if (!term->unit) return row;
    math_append(&row, math_space(0.18 * size_pt));
    math_append(&row, math_unit(paper, term->unit, 0.9 * size_pt));
    return row;
}

static Math negative(Paper *paper, const Term *term, double size_pt)
{
    Math row = math_words(paper, "\xE2\x88\x92", FACE_PLAIN, size_pt);
    math_append(&row, at_level(paper, term->part[0], LEVEL_POWER, size_pt));
    return row;
}

static const char *comparison(const char *sign)
{
    if (strcmp(sign, "<=") == 0) return "\xE2\x89\xA4";
    return strcmp(sign, ">=") == 0 ? "\xE2\x89\xA5" : sign;
}

Math math_term(Paper *paper, const Term *term, double size_pt)
{
    switch (term->kind) {
    case TERM_NUMBER: return number(paper, term, size_pt);
    case TERM_SYMBOL: return math_symbol(paper, term->text, NULL, size_pt);
    case TERM_ADD: return pair(paper, term, "+", LEVEL_PRODUCT, size_pt);
    case TERM_SUBTRACT: return pair(paper, term, "\xE2\x88\x92", LEVEL_PRODUCT, size_pt);
    case TERM_MULTIPLY: return product(paper, term, size_pt);
    case TERM_DIVIDE: return fraction(paper, term, size_pt);
    case TERM_POWER: return power(paper, term, size_pt);
    case TERM_NEGATE: return negative(paper, term, size_pt);
    case TERM_FUNCTION: return function(paper, term, size_pt);
    case TERM_COMPARE: break;
    }
    return pair(paper, term, comparison(term->text), LEVEL_SUM, size_pt);
}
