/* Elevation of a girder line with its deck, one strip a stage. Everything that is drawn is read off
 * the history: which deck parts live, in which state the shims are, what the gap carries. */
#include <math.h>
#include <string.h>

#include "pieces.h"
#include "plot.h"

enum { STRIP = 84, DECK_TOP = 32, DECK = 12, HAUNCH = 6, GIRDER = 14, LEFT = 12 };

typedef struct Strip {
    Plot plot;
    const LineAnswer *line;
    UnitSystem units;
    int time;
    double y_px; /* top of the strip */
    const char *label;
} Strip;

static double strip_x(const Strip *s, int station)
{
    const double x_m = s->line->line->model.x_m[station];
    return axis_px(&s->plot.x, quantity_in(x_m, quantity_unit(s->units, DIM_LENGTH)));
}

/* Rectangles of deck from joint to joint. */
static void draw_deck(const Strip *s)
{
    DeckPiece *piece;
    const int count = pieces_find(s->line, s->time, s->plot.figure->arena, &piece);
    for (int i = 0; i < count; i++) {
        if (piece[i].role == FIGURE_PLACED) continue;
        const double x = strip_x(s, piece[i].from), width = strip_x(s, piece[i].to) - x;
        figure_rect(s->plot.figure, piece[i].role, (FigurePoint){x, s->y_px + DECK_TOP}, width,
                    DECK)
            ->title = piece[i].title;
    }
}

static FigureRole link_role(int state)
{
    return state == LINK_BONDED ? FIGURE_BOND : state == LINK_OPEN ? FIGURE_LIFT : FIGURE_SHIM;
}

static const char *link_title(int state)
{
    static const char *const title[] = {"", "on shims, held by friction", "on shims, sliding",
                                        "lifted off the shims", "grouted to the girder"};
    return title[state <= LINK_BONDED ? state : 0];
}

/* One line a run of stations in one state, half an element beyond the outer ones. */
static void draw_links(const Strip *s)
{
    const int n = s->line->line->model.station_count;
    const double y = s->y_px + DECK_TOP + DECK + HAUNCH / 2.0;
    int from = 0;
    for (int i = 0; i < n; i++) {
        const int state = piece_link_state(s->line, s->time, i);
        if (i + 1 < n && piece_link_state(s->line, s->time, i + 1) == state) continue;
        const double left = from ? (strip_x(s, from - 1) + strip_x(s, from)) / 2 : strip_x(s, 0);
        const double right = i + 1 < n ? (strip_x(s, i) + strip_x(s, i + 1)) / 2 : strip_x(s, i);
        if (state != LINK_NONE && right > left)
            figure_segment(s->plot.figure, link_role(state), (FigurePoint){left, y},
                           (FigurePoint){right, y})
                ->title = link_title(state);
        from = i + 1;
    }
}

static void draw_arrow(Figure *f, double from, double to, double y)
{
    const double back = to > from ? -6 : 6;
    figure_segment(f, FIGURE_FORCE, (FigurePoint){from, y}, (FigurePoint){to + back, y});
    const FigurePoint head[] = {{to, y}, {to + back, y - 4}, {to + back, y + 4}};
    figure_area(f, FIGURE_FORCE, head, 3);
}

/* What the gap carries: over it, or at the end of the strip where the strip's name is too near. */
static void draw_force(const Strip *s, double middle, double force_N)
{
    Figure *f = s->plot.figure;
    const char *text = figure_quantity(f->arena, force_N, quantity_unit(s->units, DIM_FORCE));
    const double half = figure_text_width_px(text, FIGURE_PLAIN) / 2 + 10;
    const bool room = middle - half > LEFT + figure_text_width_px(s->label, FIGURE_PLAIN);
    figure_text(f, FIGURE_STRONG, (FigurePoint){room ? middle : s->plot.x.to_px, s->y_px + 14},
                room ? FIGURE_MIDDLE : FIGURE_END, text);
}

/* The gap: arrows of the thrust where it acts, with what the gap carries at that moment. */
static void draw_gaps(const Strip *s)
{
    const StageHistory *h = s->line->history;
    const StageModel *m = h->model;
    Figure *f = s->plot.figure;
    for (int g = 0; g < m->gap_count; g++) {
        const double force_N = h->gap_force_N[(size_t)s->time * (size_t)m->gap_count + (size_t)g];
        const double left = strip_x(s, m->gap[g].left_station);
        const double right = strip_x(s, m->gap[g].right_station);
        const double y = s->y_px + DECK_TOP + DECK / 2.0;
        if (piece_deck(s->line, s->time, m->gap[g].left_station) < 0 && right - left > 2)
            figure_rect(f, FIGURE_JACK, (FigurePoint){left, y - 2}, right - left, 4)->title =
                "jacking gap";
        if (fabs(force_N) < 1) continue;
        draw_arrow(f, left, left - 26, y - DECK / 2.0 - 7);
        draw_arrow(f, right, right + 26, y - DECK / 2.0 - 7);
        draw_force(s, (left + right) / 2, force_N);
    }
}

static void draw_strip(const Strip *s)
{
    Figure *f = s->plot.figure;
    const double left = s->plot.x.from_px, right = s->plot.x.to_px;
    const double y = s->y_px + DECK_TOP + DECK + HAUNCH;
    figure_text(f, FIGURE_STRONG, (FigurePoint){LEFT, s->y_px + 14}, FIGURE_START, s->label);
    figure_rect(f, FIGURE_GIRDER, (FigurePoint){left, y}, right - left, GIRDER)->title =
        "girder line";
    draw_links(s);
    draw_deck(s);
    draw_gaps(s);
    plot_supports(&s->plot, s->line, s->units, y + GIRDER);
}

/* Marks of joints above the deck of a strip, as many as have room; the governing one always. */
static void draw_marks(const Strip *s)
{
    const BridgeLine *b = s->line->line;
    Figure *f = s->plot.figure;
    double free_from = 0;
    const int governs = s->line->finish.joint;
    for (int j = 0; j < b->joint_count; j++) {
        const double x = strip_x(s, b->joint[j].station);
        const double half = figure_text_width_px(b->joint[j].mark, FIGURE_SMALL) / 2 + 3;
        const bool near = governs >= 0 && j != governs &&
                          fabs(x - strip_x(s, b->joint[governs].station)) < 2 * half;
        if (near || (j != governs && x - half < free_from)) continue;
        FigureItem *mark =
            figure_text(f, j == governs ? FIGURE_GOVERNS : FIGURE_LABEL,
                        (FigurePoint){x, s->y_px + DECK_TOP - 3}, FIGURE_MIDDLE, b->joint[j].mark);
        mark->size = FIGURE_SMALL;
        if (j == governs) mark->title = "the joint that governs";
        free_from = x + half;
    }
}

static FigureTable *joint_table(const LineAnswer *line, UnitSystem units, Arena *arena)
{
    const BridgeLine *b = line->line;
    const char *unit = quantity_unit(units, DIM_LENGTH);
    FigureTable *t = figure_table_start(arena, "Joints along the bridge", 3);
    figure_table_column(t, 0, false, "joint");
    figure_table_column(t, 1, true, arena_printf(arena, "station [%s]", unit));
    figure_table_column(t, 2, false, "kind");
    for (int j = 0; j < b->joint_count; j++) {
        const Joint *joint = &b->joint[j];
        figure_table_row(
            t, (const char *[]){
                   joint->mark,
                   arena_printf(arena, "%.2f", quantity_in(b->model.x_m[joint->station], unit)),
                   joint->at_gap      ? "face of the gap"
                   : joint->at_anchor ? "inner face of an anchor panel"
                                      : "between panels"});
    }
    return t;
}

/* Time when the panels lie on shims, before any other named moment; -1 where there is none. */
static int time_of_shims(const StageHistory *h)
{
    for (int t = 0; t < h->time_count; t++)
        if (h->event[t] >= 0 && h->model->event[h->event[t]].kind == EVENT_SHIMS) return t;
    return -1;
}

static const char *strip_label(Arena *arena, const FigureMoment *moment)
{
    if (moment->after_day <= 0) return arena_text(arena, moment->label);
    if (!strcmp(moment->label, "bonded"))
        return arena_printf(arena, "haunches bonded, %s",
                            figure_duration(arena, moment->after_day));
    return arena_printf(arena, "%s, %s", moment->label, figure_duration(arena, moment->after_day));
}

Figure *figure_bridge(const FigureView *view, Arena *arena)
{
    const LineAnswer *line = view->line;
    const UnitSystem units = view->units;
    const double width_px = view->width_px;
    FigureMoment moment[6];
    int count = 0;
    const int shims = time_of_shims(line->history);
    if (shims >= 0) moment[count++] = (FigureMoment){shims, "panels on shims", 0};
    count += figure_moments(line, moment + count);
    Figure *f = figure_start(arena, "bridge", width_px, 76 + STRIP * count);
    f->title = arena_printf(arena, "The bridge and its stages, %s", line->line->name);
    f->description = "Elevation, heights not to scale. Each strip is one stage: deck panels on the "
                     "girder line, the anchor panels grouted before jacking, the gap and what it "
                     "carries; the time is counted from jacking.";
    f->table = joint_table(line, units, arena);
    static const LegendEntry entry[] = {
        {FIGURE_PANEL, true, "panel", 0},           {FIGURE_ANCHOR, true, "anchor panel", 0},
        {FIGURE_CLOSURE, true, "closure, fill", 0}, {FIGURE_SHIM, false, "on shims", 0},
        {FIGURE_LIFT, false, "lifted off", 0},      {FIGURE_BOND, false, "grouted", 0}};
    const double top = plot_legend(f, LEFT, 0, entry, 6) + 6;
    f->height_px = top + STRIP * count + 32;
    Strip s = {{f, plot_along(line, units, LEFT, width_px - LEFT), {0, 1, 0, 0, false}},
               line,
               units,
               0,
               top,
               ""};
    for (int i = 0; i < count; i++) {
        s.time = moment[i].time;
        s.y_px = top + STRIP * i;
        s.label = strip_label(arena, &moment[i]);
        draw_strip(&s);
        if (i == 0) draw_marks(&s);
    }
    s.plot.y = (Axis){0, 1, top + STRIP * count - 10, top + STRIP * count - 14, false};
    plot_x_axis(&s.plot, arena_printf(arena, "station [%s]", quantity_unit(units, DIM_LENGTH)));
    return f;
}
