/* Dimensions: lengths as they are written, chains that add up, scales. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "draw.h"

/* ---- lengths ---- */

/* The step to which a written length is rounded: a sixteenth of an inch, a millimetre. */
static double step_m(UnitSystem units) { return units == UNITS_US ? 0.0254 / 16 : 0.001; }

static long steps_of(double length_m, UnitSystem units) { return lround(length_m / step_m(units)); }

static const char *inches(long sixteenths, Arena *arena)
{
    const char *sign = sixteenths < 0 ? "-" : "";
    long part = labs(sixteenths) % 16, of = 16;
    const long feet = labs(sixteenths) / 192, whole = labs(sixteenths) % 192 / 16;
    while (part > 0 && part % 2 == 0) part /= 2, of /= 2;
    const char *fraction = part ? arena_printf(arena, "%ld/%ld", part, of) : "";
    if (feet == 0 && whole == 0 && part) return arena_printf(arena, "%s%s\"", sign, fraction);
    if (feet == 0)
        return arena_printf(arena, "%s%ld%s%s\"", sign, whole, part ? " " : "", fraction);
    return arena_printf(arena, "%s%ld'-%ld%s%s\"", sign, feet, whole, part ? " " : "", fraction);
}

static const char *written(long steps, UnitSystem units, Arena *arena)
{
    return units == UNITS_US ? inches(steps, arena) : arena_printf(arena, "%ld", steps);
}

const char *drawing_length(double length_m, UnitSystem units, Arena *arena)
{
    if (!isfinite(length_m)) return "-";
    return written(steps_of(length_m, units), units, arena);
}

/* ---- scales ---- */

/* Usual ones (common practice, no source): fractions of an inch to a foot, then whole tens of feet to an
 * inch; of metres 1, 2, 2.5 and 5 times a power of ten. */
static const double scales_us[] = {2,   4,    6,    8,    12,   16,   24,    32,
                                   48,  96,   120,  240,  360,  480,  600,   720,
                                   960, 1200, 2400, 3600, 4800, 6000, 12000, 24000};
static const double scales_si[] = {2,   5,   10,  20,  25,   50,   75,   100,  125,  150,   200,
                                   250, 300, 400, 500, 1000, 1250, 2000, 2500, 5000, 10000, 25000};

double scale_fit(const Draw *d, double real_m, double paper_m)
{
    const double *scale = d->us ? scales_us : scales_si;
    const size_t count =
        d->us ? sizeof scales_us / sizeof *scales_us : sizeof scales_si / sizeof *scales_si;
    for (size_t i = 0; i < count; i++)
        if (real_m / scale[i] <= paper_m) return scale[i];
    return scale[count - 1];
}

const char *drawing_scale_words(const DrawingSet *set, double scale_1, Arena *arena)
{
    const double printed = set->half ? 2 * scale_1 : scale_1;
    if (set->units == UNITS_SI) return arena_printf(arena, "1:%.0f", printed);
    if (fmod(scale_1, 120) == 0) return arena_printf(arena, "1 in = %.0f ft", printed / 12);
    /* 12 / printed inches to a foot, in 64ths */
    const char *inch = inches(lround(12 / printed * 16), arena);
    const long sixty_fourths = lround(12 / printed * 64);
    if (sixty_fourths % 4) return arena_printf(arena, "1 in = %.4g ft", printed / 12);
    return arena_printf(arena, "%.*s in = 1 ft", (int)strlen(inch) - 1, inch);
}

/* ---- chains ---- */

enum { LEVELS = 5 };
static const double gap_m = 0.0007, over_m = 0.0015, level_m = 0.0040;

typedef struct Span {
    double from_m, to_m; /* on paper, along the line */
} Span;

/* The first level in which the words stand free of those before. */
static int level_of(Span words, bool fits, double last_m[LEVELS])
{
    for (int level = fits ? 0 : 1; level < LEVELS; level++) {
        if (words.from_m < last_m[level]) continue;
        last_m[level] = words.to_m;
        return level;
    }
    return LEVELS - 1;
}

static Point chain_point(const Dims *c, double along_m, double across_m)
{
    return c->upright ? (Point){across_m, along_m} : (Point){along_m, across_m};
}

/* Words of the levels stand beyond the line, but of lines below or right of the thing the first ones
 * stand on the near side. */
static void chain_words(Draw *d, const Dims *c, const char *text, double middle_m, double at_m,
                        int level)
{
    const double scale = c->view->scale_1;
    /* words above a line lie towards +y; of an upright line towards -x */
    const double up = c->upright ? -1 : 1;
    const bool towards = c->off_m * up > 0;
    double shift_m = gap_m;
    if (level > 0 && towards) shift_m += level * level_m;
    if (level > 0 && !towards) shift_m = -level * level_m + 0.0006;
    pen_text(pen_of(d, c->view, DRAWING_DIMENSION),
             chain_point(c, middle_m, at_m + up * shift_m * scale),
             (Form){text_m, DRAWING_MIDDLE, c->upright}, text);
}

static void tick(Draw *d, const Dims *c, double along_m, double at_m)
{
    const double half_m = 0.0009 * c->view->scale_1;
    const Point p = chain_point(c, along_m, at_m);
    pen_line(pen_of(d, c->view, DRAWING_DIMENSION), (Point){p.x_m - half_m, p.y_m - half_m},
             (Point){p.x_m + half_m, p.y_m + half_m});
}

/* One line of dimensions; returns the highest level that its words took. */
static int line_draw(Draw *d, const Dims *c, double off_m, const char **part)
{
    const double scale = c->view->scale_1, sign = c->off_m < 0 ? -1 : 1;
    const double at_m = c->base_m + off_m * scale, first = c->at_m[0];
    double last_m[LEVELS];
    int most = 0;
    const Pen pen = pen_of(d, c->view, DRAWING_DIMENSION);
    for (int i = 0; i < LEVELS; i++) last_m[i] = -INFINITY;
    pen_line(pen, chain_point(c, first, at_m), chain_point(c, c->at_m[c->count - 1], at_m));
    long before = 0;
    for (int i = 0; i < c->count; i++) {
        pen_line(pen, chain_point(c, c->at_m[i], c->base_m + sign * over_m * scale),
                 chain_point(c, c->at_m[i], at_m + sign * over_m * scale));
        tick(d, c, c->at_m[i], at_m);
        if (i == 0) continue;
        const long steps = steps_of(c->at_m[i] - first, d->of->units);
        const char *text = written(steps - before, d->of->units, d->arena);
        part[i - 1] = text;
        before = steps;
        const double room_m = (c->at_m[i] - c->at_m[i - 1]) / scale;
        const double half_m = drawing_text_width_1(text) * text_m / 2;
        const double middle_m = (c->at_m[i] + c->at_m[i - 1]) / 2;
        const Span words = {middle_m / scale - half_m, middle_m / scale + half_m + 0.001};
        const int level = level_of(words, 2 * half_m + 0.0012 <= room_m, last_m);
        if (level > most) most = level;
        chain_words(d, c, text, middle_m, at_m, level);
    }
    return most;
}

static void chain_keep(Draw *d, int count, const char *const *part, const char *whole)
{
    DrawingChain *chain = ARENA_NEW(d->arena, DrawingChain, 1);
    *chain = (DrawingChain){count, part, whole, d->set->chain};
    d->set->chain = chain;
}

double chain_draw(Draw *d, const Dims *c)
{
    const double sign = c->off_m < 0 ? -1 : 1;
    const double up = c->upright ? -1 : 1;
    const bool towards = c->off_m * up > 0;
    const char **part = ARENA_NEW(d->arena, const char *, c->count);
    const int level = line_draw(d, c, c->off_m, part);
    const double words_m = towards ? text_m + gap_m : 0;
    double beyond_m = c->off_m + sign * (level * level_m + words_m + 0.0035);
    if (!towards) beyond_m += sign * text_m; /* room of the next line's own words */
    if (!c->whole || c->count < 3) {
        if (c->count == 2) chain_keep(d, 1, part, part[0]);
        return beyond_m;
    }
    const Dims whole = {c->view,  c->upright, c->base_m,
                        beyond_m, 2,          (const double[]){c->at_m[0], c->at_m[c->count - 1]},
                        false};
    const char *text;
    line_draw(d, &whole, beyond_m, &text);
    chain_keep(d, c->count - 1, part, text);
    return beyond_m + sign * (words_m + (towards ? 0.0035 : 0.0035 + text_m));
}
