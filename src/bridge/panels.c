/* The panels of a bridge one by one: marks, shapes, pockets, kinds. docs/theory/panels.md. */
#include "panels.h"

#include <math.h>
#include <string.h>

#include "model.h"

static const double same_m = 1e-4; /* kinds: sizes nearer than this are one */

double panels_skew_rad(const Bridge *b) { return b->deck.skew_degrees * acos(-1) / 180; }

/* ---- where a panel lies ---- */

/* A panel across the whole deck: number from 0, the gap left out. */
typedef struct PanelPlace {
    const Unit *unit;
    int run, number, last;
    double from_m, to_m;         /* of the unit */
    int left_joint, right_joint; /* of the unit; -1: its end */
} PanelPlace;

static PanelPlace place_of(const Unit *unit, int run, int number)
{
    PanelPlace p = {.unit = unit, .run = run, .number = number};
    p.last = unit->left_panels + unit->right_panels + 1;
    const bool behind = number > unit->left_panels;
    p.left_joint = number == 0 ? -1 : number - 1 + behind;
    p.right_joint = number == p.last ? -1 : number + behind;
    p.from_m = p.left_joint < 0 ? 0 : layout_joint_m(unit, p.left_joint);
    p.to_m = p.right_joint < 0 ? unit->length_m : layout_joint_m(unit, p.right_joint);
    return p;
}

static bool at_gap(const Unit *unit, int joint)
{
    return joint == unit->left_panels || joint == unit->left_panels + 1;
}

/* A joint between two panels; not an end, not a face of the gap. */
static bool inner(const Unit *unit, int joint) { return joint >= 0 && !at_gap(unit, joint); }

static const char *joint_words(const PanelWork *w, const PanelPlace *p, int joint)
{
    if (joint < 0) return "end";
    if (at_gap(p->unit, joint)) return "gap";
    return arena_printf(w->arena, "R%d-J%02d", p->run + 1, joint + 1);
}

/* ---- shape ---- */

/* Skewed as far as the file says, then turned by half of the panel's angle on the curve. */
static double slope_1(const PanelWork *w, int joint, double turn_rad)
{
    const Bridge *b = w->bridge;
    const bool skewed = joint < 0 || b->panels.skew == PANEL_SKEW_ALL;
    return tan((skewed ? panels_skew_rad(b) : 0) + turn_rad);
}

static PanelShape shape_of(const PanelWork *w, const PanelPlace *p, int across)
{
    const Bridge *b = w->bridge;
    const double half_m = b->deck.width_m / 2, strip_m = w->plan->strip_m / 2;
    const double narrow_m = b->panels.joint == PANEL_JOINT_NARROW_CAST ? b->panels.joint_m / 2 : 0;
    double turn_rad = 0;
    if (!isnan(b->deck.plan_radius_m))
        turn_rad =
            (b->deck.curve == 0 ? 1 : -1) * (p->to_m - p->from_m) / 2 / b->deck.plan_radius_m;
    PanelShape s = {.left_m = inner(p->unit, p->left_joint) ? narrow_m : 0,
                    .right_m =
                        p->to_m - p->from_m - (inner(p->unit, p->right_joint) ? narrow_m : 0),
                    .left_slope_1 = slope_1(w, p->left_joint, turn_rad),
                    .right_slope_1 = slope_1(w, p->right_joint, -turn_rad),
                    .from_z_m = -half_m,
                    .to_z_m = half_m,
                    .edge_m = b->deck.thickness_m,
                    .half_m = half_m,
                    .rise_1 = layout_rise_1(b)};
    if (strip_m > 0 && across == 0) s.to_z_m = -strip_m;
    if (strip_m > 0 && across == 1) s.from_z_m = strip_m;
    return s;
}

static double edge_at(const PanelShape *s, double z_m, bool right)
{
    return right ? s->right_m + z_m * s->right_slope_1 : s->left_m + z_m * s->left_slope_1;
}

/* ---- holes ---- */

static int pockets_of(const PanelWork *w, const PanelShape *s, PanelHole *hole)
{
    const Bridge *b = w->bridge;
    const GirderData *g = &b->girders;
    const int rows = panel_pocket_rows(s->right_m - s->left_m, b->connectors.spacing_m);
    int count = 0;
    for (int k = 0; k < g->count; k++) {
        const double z_m = (k - (g->count - 1) / 2.0) * g->spacing_m;
        if (z_m < s->from_z_m || z_m > s->to_z_m) continue;
        const double left_m = edge_at(s, z_m, false), right_m = edge_at(s, z_m, true);
        for (int i = 0; i < rows; i++)
            hole[count++] = (PanelHole){.x_m = left_m + (i + 0.5) * (right_m - left_m) / rows,
                                        .z_m = z_m,
                                        .along_m = b->handling.pocket_m,
                                        .across_m = b->handling.pocket_m,
                                        .depth_m = INFINITY};
    }
    return count;
}

/* Those whose middle lies in the panel. */
static int blockouts_of(const PanelWork *w, const PanelPiece *p, PanelHole *hole)
{
    const BlockoutData *data = w->bridge->panels.blockouts.item;
    int count = 0;
    for (int i = 0; i < w->bridge->panels.blockouts.count; i++) {
        const double x_m = data[i].at_m - p->from_m, z_m = data[i].across_m;
        if (z_m < p->shape.from_z_m || z_m > p->shape.to_z_m) continue;
        if (x_m < edge_at(&p->shape, z_m, false) || x_m > edge_at(&p->shape, z_m, true)) continue;
        hole[count++] =
            (PanelHole){.x_m = x_m,
                        .z_m = z_m,
                        .along_m = data[i].along_m,
                        .across_m = data[i].wide_m,
                        .depth_m = isnan(data[i].deep_m) ? (double)INFINITY : data[i].deep_m};
    }
    return count;
}

/* ---- pieces ---- */

static void piece_fill(const PanelWork *w, const PanelPlace *place, int across, PanelPiece *p)
{
    const Bridge *b = w->bridge;
    const bool two = w->plan->strip_m > 0;
    p->mark = arena_printf(w->arena, "R%d-%02d%s", place->run + 1, place->number + 1,
                           !two          ? ""
                           : across == 0 ? "L"
                                         : "R");
    p->run = place->run;
    p->number = place->number + 1;
    p->anchor = place->number == 0 || place->number == place->last;
    p->from_m = place->unit->start_m + place->from_m;
    p->to_m = place->unit->start_m + place->to_m;
    p->left_joint = joint_words(w, place, place->left_joint);
    p->right_joint = joint_words(w, place, place->right_joint);
    p->shape = shape_of(w, place, across);
    p->cast_m = p->shape.right_m - p->shape.left_m;
    const int rows = panel_pocket_rows(p->cast_m, b->connectors.spacing_m);
    PanelHole *hole =
        ARENA_NEW(w->arena, PanelHole, rows * b->girders.count + b->panels.blockouts.count);
    p->pocket_count = pockets_of(w, &p->shape, hole);
    p->blockout_count = blockouts_of(w, p, hole + p->pocket_count);
    p->hole_count = p->pocket_count + p->blockout_count;
    p->hole = hole;
    p->body = panel_body(&p->shape, hole, p->hole_count);
    p->gross_N = b->deck.density_N_per_m3 * p->body.gross_m3;
    p->weight_N = b->deck.density_N_per_m3 * p->body.net_m3;
}

/* One side of the gap: first all pieces at the left edge of the deck, then those at the right. */
static void add_side(PanelWork *w, int u, int first, int last)
{
    const int across = w->plan->strip_m > 0 ? 2 : 1;
    for (int a = 0; a < across; a++) {
        w->line[w->line_count++] = (PanelLine){w->plan->piece_count, last - first + 1};
        for (int n = first; n <= last; n++) {
            const PanelPlace place = place_of(&w->unit[u], u, n);
            w->phase[w->plan->piece_count] = w->bridge->panels.phases == 2 ? n % 2 : 0;
            piece_fill(w, &place, a, &w->piece[w->plan->piece_count++]);
        }
    }
}

static void add_runs(PanelWork *w)
{
    PanelRun *run = ARENA_NEW(w->arena, PanelRun, w->unit_count);
    for (int u = 0; u < w->unit_count; u++) {
        const Unit *unit = &w->unit[u];
        run[u] = (PanelRun){.name = arena_printf(w->arena, "R%d", u + 1),
                            .unit = unit->name,
                            .start_m = unit->start_m,
                            .length_m = unit->length_m,
                            .gap_from_m = unit->start_m + unit->gap_from_m,
                            .gap_to_m = unit->start_m + unit->gap_to_m,
                            .first = w->plan->piece_count};
        add_side(w, u, 0, unit->left_panels);
        add_side(w, u, unit->left_panels + 1, unit->left_panels + unit->right_panels + 1);
        run[u].count = w->plan->piece_count - run[u].first;
    }
    w->plan->run = run;
    w->plan->run_count = w->unit_count;
}

static void make_room(PanelWork *w)
{
    const int across = w->plan->strip_m > 0 ? 2 : 1;
    int count = 0;
    for (int u = 0; u < w->unit_count; u++)
        count += across * (w->unit[u].left_panels + w->unit[u].right_panels + 2);
    w->piece = ARENA_NEW(w->arena, PanelPiece, count);
    w->phase = ARENA_NEW(w->arena, int, count);
    w->line = ARENA_NEW(w->arena, PanelLine, 2 * across * w->unit_count);
    w->plan->piece = w->piece;
}

/* ---- kinds: panels that come out of the same forms, turned round if need be ---- */

static bool near(double a, double b) { return fabs(a - b) < same_m; }

static bool same_blockouts(const PanelPiece *p, const PanelPiece *q, bool turned)
{
    const double sum_m = p->shape.left_m + q->shape.right_m;
    for (int i = 0; i < p->blockout_count; i++) {
        const PanelHole *a = &p->hole[p->pocket_count + i];
        bool found = false;
        for (int k = 0; k < q->blockout_count && !found; k++) {
            const PanelHole *c = &q->hole[q->pocket_count + k];
            const double x_m = turned ? sum_m - c->x_m : c->x_m + p->shape.left_m - q->shape.left_m;
            found = near(a->x_m, x_m) && near(a->z_m, turned ? -c->z_m : c->z_m) &&
                    near(a->along_m, c->along_m) && near(a->across_m, c->across_m) &&
                    (a->depth_m == c->depth_m || near(a->depth_m, c->depth_m));
        }
        if (!found) return false;
    }
    return p->blockout_count == q->blockout_count;
}

static bool is(const char *a, const char *b) { return strcmp(a, b) == 0; }

/* An anchor panel and one that the jacks bear on have bars of their own. */
static bool same_ends(const PanelPiece *p, const PanelPiece *q, bool turned)
{
    const char *left = turned ? q->right_joint : q->left_joint;
    const char *right = turned ? q->left_joint : q->right_joint;
    return is(p->left_joint, "gap") == is(left, "gap") &&
           is(p->right_joint, "gap") == is(right, "gap") &&
           is(p->left_joint, "end") == is(left, "end") &&
           is(p->right_joint, "end") == is(right, "end");
}

static bool same_kind(const PanelPiece *p, const PanelPiece *q, bool turned)
{
    const PanelShape *a = &p->shape, *c = &q->shape;
    if (!near(p->cast_m, q->cast_m) || !same_ends(p, q, turned)) return false;
    /* slopes over the width of the deck */
    if (!near((turned ? c->right_slope_1 : c->left_slope_1) * a->half_m,
              a->left_slope_1 * a->half_m))
        return false;
    if (!near((turned ? c->left_slope_1 : c->right_slope_1) * a->half_m,
              a->right_slope_1 * a->half_m))
        return false;
    if (!near(turned ? -c->to_z_m : c->from_z_m, a->from_z_m) ||
        !near(turned ? -c->from_z_m : c->to_z_m, a->to_z_m))
        return false;
    return same_blockouts(p, q, turned);
}

static const char *kind_name(const PanelWork *w, int index)
{
    if (index < 26) return arena_printf(w->arena, "%c", 'A' + index);
    return arena_printf(w->arena, "%c%c", 'A' + index / 26 - 1, 'A' + index % 26);
}

static void add_kinds(PanelWork *w)
{
    PanelPlan *plan = w->plan;
    PanelKind *kind = ARENA_NEW(w->arena, PanelKind, plan->piece_count);
    for (int i = 0; i < plan->piece_count; i++) {
        int k = 0;
        for (; k < plan->kind_count; k++) {
            const PanelPiece *like = &w->piece[kind[k].like];
            if (same_kind(like, &w->piece[i], false) || same_kind(like, &w->piece[i], true)) break;
        }
        if (k == plan->kind_count) kind[plan->kind_count++] = (PanelKind){kind_name(w, k), i, 0};
        kind[k].count++;
        w->piece[i].kind = k;
        w->piece[i].turned = !same_kind(&w->piece[kind[k].like], &w->piece[i], false);
    }
    plan->kind = kind;
}

/* ---- what each choice would come to ---- */

static Status add_option(PanelWork *w, PanelChoice choice, Error *err)
{
    const PanelRule rule = layout_rule(w->bridge, choice);
    const int count = 2 * w->unit_count;
    const PanelStretch *stretch = layout_stretches(w->unit, w->unit_count, choice, w->arena);
    PanelSplit *split = ARENA_NEW(w->arena, PanelSplit, count);
    TRY(panel_split(stretch, count, &rule, w->arena, split, err));
    PanelOption *o = &w->plan->option[choice];
    *o = (PanelOption){
        .choice = choice, .kinds = panel_split_kinds(split, count), .shortest_m = INFINITY};
    for (int i = 0; i < count; i++) {
        o->panels += split[i].count;
        o->too_near += split[i].over_m < -1e-9;
        for (int k = 0; k < split[i].count; k++) {
            o->shortest_m = fmin(o->shortest_m, split[i].length_m[k]);
            o->longest_m = fmax(o->longest_m, split[i].length_m[k]);
        }
    }
    return STATUS_OK;
}

static void add_limits(PanelWork *w)
{
    const LayoutLimits limits = layout_limits(w->bridge);
    PanelPlan *plan = w->plan;
    plan->longest_allowed_m = limits.longest_m;
    plan->longest_by = "panels.longest";
    if (limits.longest_m == limits.truck_m) plan->longest_by = "handling.truck";
    if (limits.longest_m == limits.truck_width_m) plan->longest_by = "handling.truck_width";
    if (limits.longest_m == limits.crane_m) plan->longest_by = "handling.crane";
}

static void add_sums(PanelPlan *plan)
{
    for (int i = 0; i < plan->piece_count; i++) {
        const PanelPiece *p = &plan->piece[i];
        plan->net_m3 += p->body.net_m3;
        plan->gross_m3 += p->body.gross_m3;
        plan->weight_N += p->weight_N;
        plan->pockets += p->pocket_count;
        plan->match_joints += strncmp(p->left_joint, "R", 1) == 0;
    }
}

Status bridge_panels(const Bridge *bridge, Arena *arena, const PanelPlan **plan, Error *err)
{
    PanelPlan *made = ARENA_NEW(arena, PanelPlan, 1);
    PanelWork w = {.bridge = bridge, .arena = arena, .plan = made};
    TRY(layout_all(bridge, arena, &w.unit, &w.unit_count, err));
    made->chosen = (PanelChoice)bridge->panels.layout;
    made->thickness_m = bridge->deck.thickness_m;
    made->deck_width_m = bridge->deck.width_m;
    made->skew_rad = panels_skew_rad(bridge);
    if (bridge->panels.crown == PANEL_CROWN_CLOSURE) made->strip_m = bridge->panels.strip_m;
    make_room(&w);
    add_runs(&w);
    add_kinds(&w);
    for (int c = 0; c < PANEL_CHOICE_COUNT; c++) TRY(add_option(&w, (PanelChoice)c, err));
    add_limits(&w);
    add_sums(made);
    TRY(panels_add_yard(&w, err));
    panels_add_closing(&w);
    panels_add_remarks(&w);
    *plan = made;
    return STATUS_OK;
}
