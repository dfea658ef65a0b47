/* All panels in plan, in stretches under each other: with their marks, and in the order of setting. */
#include <math.h>
#include <string.h>

#include "draw.h"

static const double above_m = 0.024, under_m = 0.040;

/* ---- stretches ---- */

/* Ends of panels and gaps from left to right; their number. */
static int ends_of(const Draw *d, double *end_m)
{
    int count = 0;
    end_m[count++] = 0;
    for (int i = 0; i < d->plan->piece_count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        if (!piece_first_across(p)) continue;
        if (p->from_m > end_m[count - 1] + 1e-6) end_m[count++] = p->from_m;
        end_m[count++] = p->to_m;
    }
    return count;
}

typedef struct Sheets {
    Draw *draw;
    const char *id, *title;
    StripLabel *label;
    bool joints; /* their marks and the lengths of panels */
    DrawingSheet *sheet;
    double top_m;
    int count;
} Sheets;

static Status sheet_next(Sheets *s, Error *err)
{
    Draw *d = s->draw;
    s->count++;
    TRY(page_add(d, arena_printf(d->arena, "%s-%d", s->id, s->count),
                 arena_printf(d->arena, "%s, sheet %d", s->title, s->count), &s->sheet, err));
    s->top_m = d->high_m;
    return STATUS_OK;
}

static bool in_strip(const Strip *strip, const PanelPiece *p)
{
    return p->from_m > strip->from_m - 1e-6 && p->to_m < strip->to_m + 1e-6;
}

/* At the upper edge, read from below. */
static void joint_marks(Draw *d, DrawingView *view, const Strip *strip)
{
    const double s = view->scale_1;
    for (int i = 0; i < d->plan->piece_count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        if (!in_strip(strip, p) || !piece_first_across(p) || p->left_joint[0] != 'R') continue;
        Point corner[4];
        strip_corners(strip, p, corner);
        const Point at = corner[0];
        pen_line(pen_of(d, view, DRAWING_JOINT), at, (Point){at.x_m, at.y_m + 0.003 * s});
        pen_text(pen_of(d, view, DRAWING_JOINT),
                 (Point){at.x_m + text_m / 2 * s, at.y_m + 0.004 * s},
                 (Form){text_m, DRAWING_START, true}, p->left_joint);
    }
}

/* Below a stretch: its lengths, in several levels where panels are narrow, and its title. */
static double under_of(const Draw *d, double scale)
{
    double least_m = INFINITY;
    for (int i = 0; i < d->plan->piece_count; i++)
        least_m = fmin(least_m, d->plan->piece[i].to_m - d->plan->piece[i].from_m);
    return least_m / scale < 0.022 ? under_m + 0.016 : under_m;
}

static void strip_lengths(Draw *d, DrawingView *view, const Strip *strip, double low_m)
{
    double *at = ARENA_NEW(d->arena, double, 2 * d->plan->piece_count + 2);
    double *all = ARENA_NEW(d->arena, double, 2 * d->plan->piece_count + 2);
    int count = 0;
    const int ends = ends_of(d, all);
    for (int i = 0; i < ends; i++)
        if (all[i] > strip->from_m - 1e-6 && all[i] < strip->to_m + 1e-6)
            at[count++] = strip_point(strip, all[i], 0).x_m;
    const Dims chain = {view, false, low_m, -0.010, count, at, true};
    chain_draw(d, &chain);
}

static Status strip_put(Sheets *s, double from_m, double to_m, double scale, Error *err)
{
    Draw *d = s->draw;
    const Strip strip = strip_of(d, from_m, to_m);
    Point least, most;
    strip_box(&strip, &least, &most);
    const double below_m = s->joints ? under_of(d, scale) : under_m;
    const double high_m = (most.y_m - least.y_m) / scale + above_m + below_m;
    if (!s->sheet || s->top_m - high_m < d->low_m) TRY(sheet_next(s, err));
    DrawingView *view = view_add(
        d, s->sheet, scale,
        (Point){d->left_m + 0.010 - least.x_m / scale, s->top_m - above_m - most.y_m / scale});
    strip_draw(d, view, &strip, s->label);
    if (s->joints) joint_marks(d, view, &strip);
    if (s->joints && isnan(draw_value(d, "deck.plan_radius")))
        strip_lengths(d, view, &strip, least.y_m);
    view_title(
        d, view, (Point){least.x_m, least.y_m - (below_m - 0.010) * scale},
        arena_printf(d->arena, "Stations %s to %s", draw_length(d, from_m), draw_length(d, to_m)));
    s->top_m -= high_m;
    return STATUS_OK;
}

/* As long as a sheet is wide; legible marks need a panel about 20 mm long. */
static Status strips_put(Sheets *s, Error *err)
{
    Draw *d = s->draw;
    const double skew_m = d->width_m * fabs(tan(d->plan->skew_rad));
    const double room_m = d->right_m - d->left_m - 0.020;
    const double most = d->us ? 120 : 100;
    const double scale = fmin(most, fmax(scale_fit(d, d->length_m + skew_m, room_m),
                                         scale_fit(d, d->width_m, d->high_m - d->low_m - 0.10)));
    double *end_m = ARENA_NEW(d->arena, double, 2 * d->plan->piece_count + 2);
    const int count = ends_of(d, end_m);
    int from = 0;
    for (int i = 1; i < count; i++) {
        const bool last = i == count - 1;
        if (!last && end_m[i + 1] - end_m[from] + skew_m <= room_m * scale) continue;
        TRY(strip_put(s, end_m[from], end_m[i], scale, err));
        from = i;
    }
    return STATUS_OK;
}

/* ---- the panel plan ---- */

static void label_marks(const Draw *d, int piece, const char *line[2])
{
    const PanelPiece *p = &d->plan->piece[piece];
    line[0] = p->mark;
    line[1] =
        arena_printf(d->arena, "%s%s", d->plan->kind[p->kind].name, p->turned ? ", turned" : "");
    if (!isnan(draw_value(d, "deck.plan_radius"))) /* no chain below */
        line[1] = arena_printf(d->arena, "%s  %s", line[1], draw_length(d, p->to_m - p->from_m));
}

Status draw_panels(Draw *d, Error *err)
{
    Sheets s = {d, "panels", "Panel plan: marks and kinds", label_marks, true, NULL, 0, 0};
    TRY(strips_put(&s, err));
    const Pen pen = pen_of(d, s.sheet->first, DRAWING_TEXT);
    if (s.top_m - d->low_m > 0.020)
        pen_words(
            pen, (Point){d->left_m, d->low_m + 0.014}, (Form){text_m, DRAWING_START, false},
            d->right_m - d->left_m,
            "In a panel: its mark and its kind; turned: out of the forms of its kind by half a "
            "turn. Above: marks of the joints. Dashed: girders. Lengths from joint to joint at "
            "mid-width.");
    return STATUS_OK;
}

/* ---- the order of setting ---- */

static void label_order(const Draw *d, int piece, const char *line[2])
{
    const PanelPiece *p = &d->plan->piece[piece];
    line[0] = arena_printf(d->arena, "%d", piece + 1);
    line[1] = arena_printf(d->arena, "day %.4g", floor(p->cast.set_day * 10 + 0.5) / 10);
}

typedef struct Step {
    const char *path, *what;
    double day; /* unit: day */
} Step;

static const Step usual[] = {
    {"days.girders_ready", "Girders stand, bearings as in the bridge file; survey of their tops.",
     0},
    {"days.panels_set",
     "The last panel is set; all in the order of the sheets that follow, each with its arrow along "
     "the "
     "stations, on shims of the shim table.",
     0},
    {"days.ties_set", "Ties through the piers set; nothing is cast between the girder ends.", 0},
    {"days.joints",
     "Joints closed one after the other from the anchor panels to the gap, pressed while "
     "the epoxy sets.",
     0},
    {"days.anchors",
     "Anchor panels grouted to the girders. HOLD: strength of the grout proven by "
     "cylinders before jacking.",
     0},
    {"days.jacking",
     "Jacking by the plan of the jacking day, in stages with holds. HOLD: nobody in line "
     "with the jacks or below; readings judged before each step.",
     0},
    {"days.lock", "Jacks locked mechanically; the force is held and accepted.", 0},
    {"days.closure_cast", "First closure cast between the jacks.", 0},
    {"days.release", "HOLD: strength of the closure proven. Jacks released and taken out.", 0},
    {"days.fill_cast", "The rest of the gap filled.", 0},
    {"days.haunch", "Haunches and pockets grouted: deck and girders act as one from now on.", 0},
    {"days.diaphragm_cast", "Diaphragms between tied girder ends cast.", 0},
    {"days.barrier", "Barriers.", 0},
    {"days.overlay", "Overlay.", 0},
    {"days.opening", "Opened to traffic.", 0},
};
enum { STEPS = sizeof usual / sizeof *usual };

static bool tied(const Draw *d)
{
    return d->span_count > 1 && strcmp(draw_said(d, "piers.connection"), "tied") == 0;
}

static int steps_of(const Draw *d, Step step[STEPS])
{
    int count = 0;
    for (int i = 0; i < STEPS; i++) {
        const bool pier = strstr(usual[i].path, "ties") || strstr(usual[i].path, "diaphragm");
        const double day = draw_value(d, usual[i].path);
        if (isnan(day) || (pier && !tied(d))) continue;
        int at = count++;
        for (; at > 0 && step[at - 1].day > day; at--) step[at] = step[at - 1];
        step[at] = usual[i];
        step[at].day = day;
    }
    return count;
}

static void steps_draw(Draw *d, DrawingSheet *sheet)
{
    Step step[STEPS];
    const int count = steps_of(d, step);
    const Pen pen = pen_of(d, sheet->first, DRAWING_TEXT),
              lines = pen_of(d, sheet->first, DRAWING_TABLE);
    const double width_m = 0.46, big_m = 0.0035;
    double y_m = d->high_m - 0.010;
    pen_text(pen, (Point){d->left_m, y_m}, (Form){0.005, DRAWING_START, false}, "Sequence");
    y_m -= 0.006;
    for (int i = 0; i < count; i++) {
        pen_line(lines, (Point){d->left_m, y_m}, (Point){d->left_m + width_m, y_m});
        const double low_m = y_m - 0.0065;
        pen_text(pen, (Point){d->left_m, low_m}, (Form){big_m, DRAWING_START, false},
                 arena_printf(d->arena, "%d", i + 1));
        pen_text(pen, (Point){d->left_m + 0.014, low_m}, (Form){big_m, DRAWING_START, false},
                 arena_printf(d->arena, "day %.4g", step[i].day));
        y_m -= pen_words(pen, (Point){d->left_m + 0.050, y_m - 0.0006},
                         (Form){big_m, DRAWING_START, false}, width_m - 0.052, step[i].what) +
               0.004;
    }
    pen_line(lines, (Point){d->left_m, y_m}, (Point){d->left_m + width_m, y_m});
    pen_words(pen, (Point){d->left_m, y_m - 0.004}, (Form){text_m, DRAWING_START, false}, width_m,
              "Days of the bridge file, calendar days without weekends; what the engine judged. "
              "Means and methods, cranes and bracing are the contractor's.");
}

static void days_table(Draw *d, DrawingSheet *sheet)
{
    const PanelPlan *plan = d->plan;
    Table t = table_start(d, sheet->first, (Point){d->left_m + 0.50, d->high_m - 0.016}, 5,
                          (const double[]){0.022, 0.034, 0.034, 0.060, 0.060});
    table_row(&t, (const char *const[]){"run", "first", "last", "set from day", "gap at"}, true);
    for (int r = 0; r < plan->run_count && t.top.y_m > d->low_m + 0.02; r++) {
        const PanelRun *run = &plan->run[r];
        const PanelPiece *a = &plan->piece[run->first], *b = a + run->count - 1;
        table_row(&t,
                  (const char *const[]){
                      run->name, a->mark, b->mark,
                      arena_printf(d->arena, "%.5g to %.5g", a->cast.set_day, b->cast.set_day),
                      draw_length(d, (run->gap_from_m + run->gap_to_m) / 2)},
                  false);
    }
}

Status draw_order(Draw *d, Error *err)
{
    DrawingSheet *sheet;
    TRY(page_add(d, "sequence", "Sequence of erection and jacking", &sheet, err));
    steps_draw(d, sheet);
    days_table(d, sheet);
    Sheets s = {d, "order", "Order in which the panels are set", label_order, false, NULL, 0, 0};
    return strips_put(&s, err);
}
