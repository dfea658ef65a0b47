/* The deck of a unit in plan at one moment, to scale: panels between their joints, anchor panels, the gap,
 * girder lines under it. Joints that are open at that moment are drawn thick. */
#include <math.h>
#include <string.h>

#include "page.h"
#include "pieces.h"
#include "plot.h"

enum { TOP = 40, MOST_HEIGHT = 240, LEAST_HEIGHT = 24, LINE_LABEL = 14 };

typedef struct Plan {
    Plot plot;
    const FigureView *view;
    const LineAnswer *line;
    double px_per_m, width_m; /* of the deck */
    double y_px;              /* of its upper edge */
} Plan;

static double station_px(const Plan *p, int station)
{
    const StageModel *m = &p->line->line->model;
    return p->plot.x.from_px + p->px_per_m * (m->x_m[station] - m->x_m[0]);
}

static double value_of(const FigureView *view, const char *path, double without)
{
    const BridgeValue *value = view->bridge ? bridge_value_at(view->bridge, path) : NULL;
    return value && value->value > 0 ? value->value : without;
}

static void draw_panels(const Plan *p)
{
    DeckPiece *piece;
    const int count = pieces_find(p->line, p->view->time, p->plot.figure->arena, &piece);
    for (int i = 0; i < count; i++) {
        const double x = station_px(p, piece[i].from);
        figure_rect(p->plot.figure, piece[i].role, (FigurePoint){x, p->y_px},
                    station_px(p, piece[i].to) - x, p->width_m * p->px_per_m)
            ->title = piece[i].title;
    }
}

/* The line of the same unit that girder `i` of `count` is: the outer ones are exterior lines. */
static int line_of(const FigureView *view, int i, int count)
{
    const bool outer = i == 0 || i == count - 1;
    for (int k = 0; view->answer && k < view->answer->line_count; k++) {
        const BridgeLine *b = view->answer->line[k].line;
        if (strcmp(b->unit, view->line->line->unit) == 0 &&
            (strncmp(b->name, "exterior", 8) == 0) == outer)
            return k;
    }
    return -1;
}

static void draw_girder(const Plan *p, int i, int count, double *free_px)
{
    Figure *f = p->plot.figure;
    const double spacing_m = value_of(p->view, "girders.spacing", p->width_m / count);
    const double off_m = (i - 0.5 * (count - 1)) * spacing_m;
    const double y = p->y_px + (p->width_m / 2 + off_m) * p->px_per_m;
    const int k = line_of(p->view, i, count);
    const bool seen = k >= 0 && &p->view->answer->line[k] == p->view->line;
    FigureItem *girder =
        figure_segment(f, seen ? FIGURE_NEED : FIGURE_TIE, (FigurePoint){p->plot.x.from_px, y},
                       (FigurePoint){p->plot.x.to_px, y});
    girder->title = k < 0 ? "girder line" : p->view->answer->line[k].line->name;
    if (k >= 0) girder->pick = arena_printf(f->arena, "line:%d", k);
    if (y < *free_px || k < 0) return;
    FigureItem *name = figure_text(f, seen ? FIGURE_STRONG : FIGURE_LABEL,
                                   (FigurePoint){p->plot.x.from_px - 5, y + 4}, FIGURE_END,
                                   i == 0 || i == count - 1 ? "exterior" : "interior");
    name->size = FIGURE_SMALL;
    name->pick = girder->pick;
    *free_px = y + LINE_LABEL;
}

static void draw_girders(const Plan *p)
{
    const int count = (int)value_of(p->view, "girders.count", 0);
    double free_px = 0;
    for (int i = 0; i < count; i++) draw_girder(p, i, count, &free_px);
}

static void draw_joints(const Plan *p)
{
    const BridgeLine *b = p->line->line;
    Figure *f = p->plot.figure;
    const int seen = figure_joint(p->view);
    const double bottom = p->y_px + p->width_m * p->px_per_m;
    for (int j = 0; j < b->joint_count; j++) {
        const double margin_Pa = thrust_margin_Pa(p->line, j, p->view->time, NULL);
        if (isnan(margin_Pa)) continue;
        const bool open = margin_Pa < -1e-4 * p->line->average_Pa;
        const double x = station_px(p, b->joint[j].station);
        figure_segment(f, open ? FIGURE_OPEN : FIGURE_JOINT,
                       (FigurePoint){x, p->y_px - (open ? 4 : 0)},
                       (FigurePoint){x, bottom + (open ? 4 : 0)})
            ->title =
            arena_printf(f->arena, "%s: %s", b->joint[j].mark, open ? "passes a limit" : "closed");
        if (j == seen) {
            figure_segment(f, FIGURE_SEEN, (FigurePoint){x, p->y_px - 6},
                           (FigurePoint){x, bottom + 6});
            figure_text(f, FIGURE_GOVERNS, (FigurePoint){x, p->y_px - 9}, FIGURE_MIDDLE,
                        b->joint[j].mark)
                ->size = FIGURE_SMALL;
        }
    }
}

/* Bearings: where the girders rest. */
static void draw_supports(const Plan *p)
{
    const StageModel *m = &p->line->line->model;
    const double bottom = p->y_px + p->width_m * p->px_per_m;
    for (int s = 0; s < m->support_count; s++) {
        const double x = station_px(p, m->support[s].station);
        const FigurePoint corner[] = {{x, bottom + 2}, {x - 5, bottom + 10}, {x + 5, bottom + 10}};
        figure_area(p->plot.figure, FIGURE_SUPPORT, corner, 3)->title = "bearings";
    }
}

static void draw_gap(const Plan *p)
{
    const StageModel *m = &p->line->line->model;
    for (int g = 0; g < m->gap_count; g++) {
        if (piece_gap(p->line, p->view->time, g) == GAP_CLOSED) continue;
        const double left = station_px(p, m->gap[g].left_station);
        const double right = station_px(p, m->gap[g].right_station);
        figure_rect(p->plot.figure, FIGURE_JACK, (FigurePoint){left, p->y_px}, right - left,
                    p->width_m * p->px_per_m)
            ->title = "jacking gap";
    }
}

static void plan_row(FigureTable *t, const Plan *p, int from, int to, const char *what, int joint)
{
    const StageModel *m = &p->line->line->model;
    const double per_m = plot_per_SI(p->view->units, DIM_LENGTH);
    figure_table_row(t, (const char *[]){arena_printf(t->arena, "%.3f", per_m * m->x_m[from]),
                                         arena_printf(t->arena, "%.3f", per_m * m->x_m[to]), what,
                                         joint < 0 ? "" : p->line->line->joint[joint].mark});
}

static FigureTable *plan_table(const Plan *p, Arena *arena)
{
    DeckPiece *piece;
    const int count = pieces_find(p->line, p->view->time, arena, &piece);
    const StageModel *m = &p->line->line->model;
    const char *unit = quantity_unit(p->view->units, DIM_LENGTH);
    FigureTable *t = figure_table_start(arena, "What lies along the deck", 4);
    const char *const head[] = {arena_printf(arena, "from [%s]", unit),
                                arena_printf(arena, "to [%s]", unit), "what", "joint nearest"};
    for (int c = 0; c < 4; c++) figure_table_column(t, c, c < 2, head[c]);
    for (int i = 0; i < count; i++)
        plan_row(t, p, piece[i].from, piece[i].to, piece[i].title, piece[i].joint);
    for (int g = 0; g < m->gap_count; g++)
        if (piece_deck(p->line, p->view->time, m->gap[g].left_station) < 0)
            plan_row(t, p, m->gap[g].left_station, m->gap[g].right_station, "jacking gap", -1);
    return t;
}

Figure *page_plan(const FigureView *view, Arena *arena)
{
    Figure *f = figure_start(arena, "plan", view->width_px, 0);
    const StageModel *m = &view->line->line->model;
    const double length_m = m->x_m[m->station_count - 1] - m->x_m[0];
    const char *unit = quantity_unit(view->units, DIM_LENGTH);
    Plan p = {.plot = {f,
                       plot_along(view->line, view->units, PAGE_LEFT, view->width_px - PAGE_RIGHT),
                       {0, 1, 0, 0, false}},
              .view = view,
              .line = view->line,
              .width_m = value_of(view, "deck.width", view->line->line->width_m),
              .y_px = TOP};
    p.px_per_m = (p.plot.x.to_px - p.plot.x.from_px) / length_m;
    if (p.width_m * p.px_per_m > MOST_HEIGHT) { /* as high as it may be, in the middle */
        p.px_per_m = MOST_HEIGHT / p.width_m;
        const double spare = p.plot.x.to_px - p.plot.x.from_px - length_m * p.px_per_m;
        p.plot.x.from_px += spare / 2;
        p.plot.x.to_px -= spare / 2;
    }
    const double bottom = p.y_px + p.width_m * p.px_per_m;
    f->title = arena_printf(arena, "Deck in plan, %s, %s", view->line->line->unit,
                            plot_time_words(view, arena));
    f->description =
        "To scale: panels between their joints, anchor panels, the gap, and the girder "
        "lines under them. A thick joint passes a limit of the rules that count.";
    figure_text(
        f, FIGURE_LABEL, (FigurePoint){4, 14}, FIGURE_START,
        plot_fit(arena,
                 arena_printf(arena, "plan, to scale: deck %s wide, %s",
                              figure_quantity(arena, p.width_m, unit), view->line->line->unit),
                 FIGURE_PLAIN, f->width_px - 8));
    draw_panels(&p);
    draw_gap(&p);
    draw_girders(&p);
    draw_joints(&p);
    draw_supports(&p);
    p.plot.y = (Axis){0, 1, bottom + 14, bottom + 11, false};
    plot_x_axis(&p.plot, arena_printf(arena, "station [%s]", unit));
    p.plot.y = (Axis){0, 1, bottom, TOP, false};
    plot_hits(&p.plot, view);
    f->height_px = bottom + 56;
    f->table = plan_table(&p, arena);
    return f;
}
