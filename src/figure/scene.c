/* Elevation of a girder line at one moment, as it moves: what has been placed, jacked, closed and grouted
 * by then, the deck's force as a ribbon over it, and every joint marked that is open. */
#include "page.h"

#include <math.h>
#include <stddef.h>

#include "pieces.h"
#include "plot.h"

enum { HEAD = 40, RIBBON = 52, JOINTS = 38, MOVE = 24, HEIGHT = 44 };

typedef struct Scene {
    Plot plot;
    const FigureView *view;
    const LineAnswer *line;
    double px_per_m;        /* along the bridge */
    double heights_1;       /* heights are drawn so many times larger */
    double moves_1;         /* movements too, of the scale along the bridge */
    double ribbon_px;       /* base of the ribbon */
    double girder_px;       /* top of the girders before they move */
    double deck_px, gap_px; /* thickness of the deck, of the haunch */
} Scene;

static double station_px(const Scene *s, int station)
{
    const StageModel *m = &s->line->line->model;
    return s->plot.x.from_px + s->px_per_m * (m->x_m[station] - m->x_m[0]);
}

/* 1, 2 or 5 times a power of ten, not above. */
static double round_down(double value)
{
    const double decade = pow(10, floor(log10(value))), part = value / decade;
    return decade * (part >= 5 ? 5 : part >= 2 ? 2 : 1);
}

static double girder_top_px(const Scene *s, int station)
{
    const StageHistory *h = s->line->history;
    const size_t i =
        ((size_t)s->view->time * (size_t)h->model->station_count + (size_t)station) * 2;
    return s->girder_px - h->move[i].v_m * s->px_per_m * s->moves_1;
}

static double soffit_px(const Scene *s, int station)
{
    const StageHistory *h = s->line->history;
    const size_t i = (size_t)s->view->time * (size_t)h->model->station_count + (size_t)station;
    const double lift_px = fmax(0, h->link[i].lift_m) * s->px_per_m * s->moves_1;
    return girder_top_px(s, station) - s->gap_px - lift_px;
}

static double depth_px(const Scene *s, int part)
{
    const StageModel *m = &s->line->line->model;
    const PartSection *section = &m->section[m->part[part].section];
    return (section->top_m + section->bottom_m) * s->px_per_m * s->heights_1;
}

static double deepest_m(const LineAnswer *line)
{
    const StageModel *m = &line->line->model;
    double deepest = 0;
    for (int p = 0; p < m->part_count; p++) {
        const PartSection *section = &m->section[m->part[p].section];
        if (m->part[p].chain == CHAIN_GIRDER && section->inertia_m4 > 0)
            deepest = fmax(deepest, section->top_m + section->bottom_m);
    }
    return deepest;
}

/* Points of a band between two edges, over stations from..to. */
static FigureItem *band(const Scene *s, FigureRole role, int from, int to,
                        double (*edge)(const Scene *, int), double thick_px)
{
    Figure *f = s->plot.figure;
    const int n = to - from + 1;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, 2 * n);
    for (int i = 0; i < n; i++) {
        const double x = station_px(s, from + i), y = edge(s, from + i);
        point[i] = (FigurePoint){x, y};
        point[2 * n - 1 - i] = (FigurePoint){x, y + thick_px};
    }
    return figure_area(f, role, point, 2 * n);
}

static double deck_top_px(const Scene *s, int station)
{
    return soffit_px(s, station) - s->deck_px;
}

static void draw_girders(const Scene *s)
{
    const StageModel *m = &s->line->line->model;
    int from = 0;
    for (int e = 0; e < m->station_count - 1; e++) {
        const int part = piece_girder(s->line, s->view->time, e);
        const int next =
            e + 2 < m->station_count ? piece_girder(s->line, s->view->time, e + 1) : -1;
        if (part >= 0 && next >= 0 && m->part[part].section == m->part[next].section) continue;
        if (part >= 0)
            band(s, FIGURE_GIRDER, from, e + 1, girder_top_px, depth_px(s, part))->title =
                "girder line";
        from = e + 1;
    }
}

/* Ties and diaphragms where there is no girder: every level that lives. */
static void draw_ties(const Scene *s)
{
    const LineAnswer *line = s->line;
    const StageModel *m = &line->line->model;
    const unsigned char *alive =
        line->history->alive + (size_t)s->view->time * (size_t)m->part_count;
    for (int p = 0; p < m->part_count; p++) {
        const Part *part = &m->part[p];
        if (!alive[p] || part->chain != CHAIN_GIRDER || part->shear || part->compression_only ||
            m->section[part->section].inertia_m4 > 0 ||
            piece_girder(line, s->view->time, part->element) >= 0)
            continue;
        const int e = part->element;
        const double down_px = -part->from_height_m * s->px_per_m * s->heights_1;
        figure_segment(s->plot.figure, FIGURE_TIE,
                       (FigurePoint){station_px(s, e), girder_top_px(s, e) + down_px},
                       (FigurePoint){station_px(s, e + 1), girder_top_px(s, e + 1) + down_px})
            ->title = "tie between girders";
    }
}

static void draw_deck(const Scene *s)
{
    DeckPiece *piece;
    const int count = pieces_find(s->line, s->view->time, s->plot.figure->arena, &piece);
    for (int i = 0; i < count; i++)
        band(s, piece[i].role, piece[i].from, piece[i].to, deck_top_px, s->deck_px)->title =
            piece[i].title;
}

static const char *link_words(int state)
{
    static const char *const words[] = {"", "on shims, held by friction", "on shims, sliding",
                                        "lifted off the shims", "grouted to the girder"};
    return words[state <= LINK_BONDED ? state : 0];
}

/* Between girder and deck: one line a run of stations in one state. */
static void draw_links(const Scene *s)
{
    Figure *f = s->plot.figure;
    const int n = s->line->line->model.station_count;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, n);
    int count = 0;
    for (int i = 0; i < n; i++) {
        const int state = piece_link_state(s->line, s->view->time, i);
        const FigurePoint at = {station_px(s, i), (girder_top_px(s, i) + soffit_px(s, i)) / 2};
        point[count++] = at;
        if (i + 1 < n && piece_link_state(s->line, s->view->time, i + 1) == state) continue;
        const FigureRole role = state == LINK_BONDED ? FIGURE_BOND
                                : state == LINK_OPEN ? FIGURE_LIFT
                                                     : FIGURE_SHIM;
        if (state != LINK_NONE && count > 1)
            figure_lines(f, role, point, count)->title = link_words(state);
        point[0] = at;
        count = 1;
    }
}

/* Bearings that hold at that time: they stay where they are. */
static void draw_supports(const Scene *s, double y_px)
{
    const StageHistory *h = s->line->history;
    const StageModel *m = h->model;
    for (int k = 0; k < m->support_count; k++) {
        if (h->reaction_N[s->view->time * m->support_count + k] == 0) continue;
        const double x = station_px(s, m->support[k].station);
        const FigurePoint corner[] = {{x, y_px}, {x - 6, y_px + 10}, {x + 6, y_px + 10}};
        figure_area(s->plot.figure, FIGURE_SUPPORT, corner, 3)->title =
            arena_printf(s->plot.figure->arena, "bearing, %s upwards",
                         figure_quantity(s->plot.figure->arena,
                                         h->reaction_N[s->view->time * m->support_count + k],
                                         quantity_unit(s->view->units, DIM_FORCE)));
    }
}

/* ---- the gap ---- */

static void draw_arrow(Figure *f, double from, double to, double y)
{
    const double back = to > from ? -7 : 7;
    figure_segment(f, FIGURE_FORCE, (FigurePoint){from, y}, (FigurePoint){to + back, y});
    const FigurePoint head[] = {{to, y}, {to + back, y - 4.5}, {to + back, y + 4.5}};
    figure_area(f, FIGURE_FORCE, head, 3);
}

static const char *gap_words(const Scene *s, int g, GapStand stand)
{
    Arena *a = s->plot.figure->arena;
    const StageHistory *h = s->line->history;
    const double opening_m = h->gap_opening_m[s->view->time * h->model->gap_count + g];
    const char *force = figure_quantity(a, piece_gap_force_N(s->line, s->view->time, g),
                                        quantity_unit(s->view->units, DIM_FORCE));
    const char *moved = figure_quantity(a, opening_m, figure_move_unit(s->view->units));
    switch (stand) {
    case GAP_OPEN: return "gap open";
    case GAP_JACKED: return arena_printf(a, "jacks push %s, gap +%s", force, moved);
    case GAP_LOCKED: return arena_printf(a, "jacks locked at %s", force);
    case GAP_CLOSED: break;
    }
    return arena_printf(a, "closure carries %s", force);
}

static double clamp_px(const Scene *s, double x, const char *text)
{
    const double half = figure_text_width_px(text, FIGURE_PLAIN) / 2;
    return fmax(half + 2, fmin(s->plot.figure->width_px - half - 2, x));
}

/* The jacks' arrows push the faces apart; what the gap carries stands over it. */
static void draw_gaps(const Scene *s, double y_px)
{
    Figure *f = s->plot.figure;
    const StageModel *m = &s->line->line->model;
    for (int g = 0; g < m->gap_count; g++) {
        const GapStand stand = piece_gap(s->line, s->view->time, g);
        const int left = m->gap[g].left_station, right = m->gap[g].right_station;
        const double x_left = station_px(s, left), x_right = station_px(s, right);
        if (piece_deck(s->line, s->view->time, 0) < 0 && stand == GAP_OPEN) continue;
        const double mid = (soffit_px(s, left) + soffit_px(s, right) - s->deck_px) / 2;
        if (stand == GAP_JACKED || stand == GAP_LOCKED) {
            figure_rect(f, FIGURE_JACK, (FigurePoint){x_left, mid - 3}, x_right - x_left, 6)
                ->title = stand == GAP_LOCKED ? "jacks, locked" : "jacks";
            draw_arrow(f, x_left, x_left - 30, y_px + 8);
            draw_arrow(f, x_right, x_right + 30, y_px + 8);
        }
        const char *words = gap_words(s, g, stand);
        figure_text(f, FIGURE_STRONG,
                    (FigurePoint){clamp_px(s, (x_left + x_right) / 2, words), y_px - 1},
                    FIGURE_MIDDLE, words);
    }
}

/* ---- joints ---- */

static const char *joint_words(const Scene *s, int j, double margin_Pa)
{
    Arena *a = s->plot.figure->arena;
    return arena_printf(
        a, "%s: %s %s", s->line->line->joint[j].mark,
        figure_quantity(a, fabs(margin_Pa), quantity_unit(s->view->units, DIM_STRESS)),
        margin_Pa < 0 ? "beyond a limit" : "left to the nearest limit");
}

/* A tick at a closed joint, a wedge at an open one. */
static void draw_joint(const Scene *s, int j, double margin_Pa)
{
    Figure *f = s->plot.figure;
    const int station = s->line->line->joint[j].station;
    const double x = station_px(s, station), y = deck_top_px(s, station);
    FigureItem *item;
    if (margin_Pa < -1e-4 * s->line->average_Pa) {
        const FigurePoint wedge[] = {{x - 4.5, y - 3}, {x + 4.5, y - 3}, {x, y + s->deck_px}};
        item = figure_area(f, FIGURE_OPEN, wedge, 3);
    } else
        item = figure_segment(f, FIGURE_JOINT, (FigurePoint){x, y - 4}, (FigurePoint){x, y - 1});
    item->title = joint_words(s, j, margin_Pa);
}

/* Marks where there is room; the joint that is looked at always. */
static void draw_joints(const Scene *s)
{
    const BridgeLine *b = s->line->line;
    Figure *f = s->plot.figure;
    const int seen = figure_joint(s->view);
    double free_px = 0;
    for (int j = 0; j < b->joint_count; j++) {
        const double margin_Pa = thrust_margin_Pa(s->line, j, s->view->time, NULL);
        if (isnan(margin_Pa)) continue;
        draw_joint(s, j, margin_Pa);
        const double x = station_px(s, b->joint[j].station);
        const double half = figure_text_width_px(b->joint[j].mark, FIGURE_SMALL) / 2 + 3;
        const bool open = margin_Pa < -1e-4 * s->line->average_Pa;
        const double seen_px = seen < 0 ? -1000 : station_px(s, b->joint[seen].station);
        if (j != seen && (x - half < free_px || fabs(x - seen_px) < 2 * half)) continue;
        const FigurePoint at = {x, deck_top_px(s, b->joint[j].station) - 7};
        figure_text(f,
                    j == seen ? FIGURE_GOVERNS
                    : open    ? FIGURE_OPEN
                              : FIGURE_LABEL,
                    at, FIGURE_MIDDLE, b->joint[j].mark)
            ->size = FIGURE_SMALL;
        free_px = x + half;
    }
}

/* ---- the deck's force ---- */

static void draw_ribbon(const Scene *s, bool tension, double px_per_N)
{
    Figure *f = s->plot.figure;
    const StageModel *m = &s->line->line->model;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, 2 * m->station_count + 2);
    int count = 0;
    double most_N = 0;
    point[count++] = (FigurePoint){station_px(s, 0), s->ribbon_px};
    for (int e = 0; e < m->station_count - 1; e++) {
        const double here_N = stage_deck_compression_N(s->line->history, s->view->time, e, 1);
        const double force_N = tension ? fmin(here_N, 0) : fmax(here_N, 0);
        most_N = fmax(most_N, fabs(force_N));
        point[count++] = (FigurePoint){station_px(s, e), s->ribbon_px - px_per_N * force_N};
        point[count++] = (FigurePoint){station_px(s, e + 1), s->ribbon_px - px_per_N * force_N};
    }
    point[count++] = (FigurePoint){station_px(s, m->station_count - 1), s->ribbon_px};
    if (most_N * px_per_N < 0.3) return;
    figure_area(f, tension ? FIGURE_TENSION : FIGURE_COMPRESSION, point, count)->title =
        arena_printf(f->arena, "force of the deck: at most %s %s",
                     figure_quantity(f->arena, most_N, quantity_unit(s->view->units, DIM_FORCE)),
                     tension ? "tension" : "compression");
}

static void draw_force(const Scene *s)
{
    Figure *f = s->plot.figure;
    const double per_N = plot_per_SI(s->view->units, DIM_FORCE);
    const double top_N = fmax(1.15 * s->line->thrust_N, 1);
    double tick[8];
    const int count = figure_ticks(0, top_N * per_N, 3, tick);
    const double px_per_N = RIBBON / top_N;
    for (int i = 0; i < count; i++) {
        const double y = s->ribbon_px - px_per_N * tick[i] / per_N;
        figure_segment(f, i ? FIGURE_GRID : FIGURE_AXIS, (FigurePoint){s->plot.x.from_px, y},
                       (FigurePoint){s->plot.x.to_px, y});
        figure_text(f, FIGURE_LABEL, (FigurePoint){s->plot.x.from_px - 6, y + 4}, FIGURE_END,
                    i ? arena_printf(f->arena, "C %.6g", tick[i]) : "0");
    }
    draw_ribbon(s, false, px_per_N);
    draw_ribbon(s, true, px_per_N);
    figure_text(
        f, FIGURE_LABEL, (FigurePoint){4, s->ribbon_px - RIBBON - 8}, FIGURE_START,
        arena_printf(f->arena, "force of the deck [%s]", quantity_unit(s->view->units, DIM_FORCE)));
}

/* ---- the sheet ---- */

static FigureTable *scene_table(const Scene *s, Arena *arena)
{
    const StageHistory *h = s->line->history;
    const StageModel *m = h->model;
    const double per_m = plot_per_SI(s->view->units, DIM_LENGTH);
    const double per_N = plot_per_SI(s->view->units, DIM_FORCE);
    const double move_per_m = quantity_in(1, figure_move_unit(s->view->units));
    FigureTable *t = figure_table_start(arena, "The line at that moment, by stations", 5);
    const char *const head[] = {
        arena_printf(arena, "station [%s]", quantity_unit(s->view->units, DIM_LENGTH)),
        arena_printf(arena, "upward movement of the girder [%s]", figure_move_unit(s->view->units)),
        arena_printf(arena, "movement along the bridge [%s]", figure_move_unit(s->view->units)),
        arena_printf(arena, "compression of the deck, right of it [%s]",
                     quantity_unit(s->view->units, DIM_FORCE)),
        "deck to girder"};
    for (int c = 0; c < 5; c++) figure_table_column(t, c, c < 4, head[c]);
    for (int i = 0; i < m->station_count; i++) {
        const NodeMove *move =
            &h->move[((size_t)s->view->time * (size_t)m->station_count + (size_t)i) * 2];
        const double force_N =
            i + 1 < m->station_count ? stage_deck_compression_N(h, s->view->time, i, 1) : 0;
        figure_table_row(t,
                         (const char *[]){arena_printf(arena, "%.3f", per_m * m->x_m[i]),
                                          arena_printf(arena, "%.4f", move_per_m * move->v_m + 0.0),
                                          arena_printf(arena, "%.4f", move_per_m * move->u_m + 0.0),
                                          arena_printf(arena, "%.2f", per_N * force_N + 0.0),
                                          link_words(piece_link_state(s->line, s->view->time, i))});
    }
    return t;
}

static void draw_head(const Scene *s)
{
    Figure *f = s->plot.figure;
    const bool narrow = plot_narrow(f);
    const double room_px = narrow ? f->width_px - 8 : f->width_px - 330;
    figure_text(f, FIGURE_STRONG, (FigurePoint){4, 14}, FIGURE_START,
                plot_fit(f->arena, plot_time_words(s->view, f->arena), FIGURE_PLAIN, room_px));
    figure_text(f, FIGURE_LABEL, (FigurePoint){narrow ? 4 : f->width_px - 4, narrow ? 32 : 14},
                narrow ? FIGURE_START : FIGURE_END,
                arena_printf(f->arena, "heights \xC3\x97 %.3g, movements \xC3\x97 %.6g",
                             s->heights_1, s->moves_1));
}

static double draw_legend(const Scene *s, double top_px)
{
    static const LegendEntry entry[] = {
        {FIGURE_PANEL, true, "panel", 0},           {FIGURE_ANCHOR, true, "anchor panel", 0},
        {FIGURE_CLOSURE, true, "closure, fill", 0}, {FIGURE_PLACED, true, "placed", 0},
        {FIGURE_SHIM, false, "on shims", 0},        {FIGURE_LIFT, false, "lifted off", 0},
        {FIGURE_BOND, false, "grouted", 0},         {FIGURE_COMPRESSION, true, "compression", 0}};
    return plot_legend(s->plot.figure, 4, top_px, entry, 8);
}

static void set_scales(Scene *s, const FigureView *view)
{
    const StageModel *m = &view->line->line->model;
    const double length_m = m->x_m[m->station_count - 1] - m->x_m[0];
    s->px_per_m = (s->plot.x.to_px - s->plot.x.from_px) / length_m;
    s->heights_1 = fmax(1, floor(HEIGHT / (deepest_m(view->line) * s->px_per_m)));
    s->moves_1 = view->move_m > 0 ? round_down(MOVE / (view->move_m * s->px_per_m)) : 1;
    s->deck_px = fmax(5, m->deck_thickness_m * s->px_per_m * s->heights_1);
    s->gap_px = fmax(4, m->haunch_m * s->px_per_m * s->heights_1);
    s->ribbon_px = HEAD + (plot_narrow(s->plot.figure) ? 18 : 0) + RIBBON;
    s->girder_px = s->ribbon_px + JOINTS + MOVE + s->deck_px + s->gap_px;
}

Figure *page_bridge(const FigureView *view, Arena *arena)
{
    Figure *f = figure_start(arena, "bridge", view->width_px, 0);
    Scene s = {.plot = {f,
                        plot_along(view->line, view->units, PAGE_LEFT, view->width_px - PAGE_RIGHT),
                        {0, 1, 0, 0, false}},
               .view = view,
               .line = view->line};
    set_scales(&s, view);
    f->title = arena_printf(arena, "%s, %s", view->line->line->name, plot_time_words(view, arena));
    f->description = arena_printf(
        arena,
        "Elevation as it moves: lengths to scale, heights %.3g times, movements %.6g "
        "times. Over it the "
        "force of the deck. A wedge marks a joint that passes a limit of the rules that count.",
        s.heights_1, s.moves_1);
    const double bottom = s.girder_px + deepest_m(view->line) * s.px_per_m * s.heights_1 + MOVE;
    draw_head(&s);
    draw_force(&s);
    draw_girders(&s);
    draw_ties(&s);
    draw_links(&s);
    draw_deck(&s);
    draw_supports(&s, bottom - MOVE + 2);
    draw_joints(&s);
    draw_gaps(&s, s.ribbon_px + 19);
    s.plot.y = (Axis){0, 1, bottom + 4, bottom, false};
    plot_x_axis(&s.plot,
                arena_printf(arena, "station [%s]", quantity_unit(view->units, DIM_LENGTH)));
    s.plot.y = (Axis){0, 1, bottom, s.ribbon_px + 24, false};
    plot_hits(&s.plot, view);
    f->height_px = draw_legend(&s, bottom + 42) + 6;
    f->table = scene_table(&s, arena);
    return f;
}
