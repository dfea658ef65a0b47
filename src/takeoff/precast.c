/* What the yard makes: panels, their concrete, holes and bars. */
#include <math.h>
#include <string.h>

#include "work.h"

/* ---- kinds of the run ---- */

typedef enum Which { BETWEEN, ANCHORS, ALL } Which;

static bool is_wanted(const PanelPiece *p, Which which)
{
    return which == ALL || p->anchor == (which == ANCHORS);
}

typedef void (*KindLine)(TakeoffWork *w, const PanelPiece *like, int count);

/* A line for each kind of which the run has some. */
static void each_kind(TakeoffWork *w, Which which, KindLine add)
{
    for (int k = 0; k < w->plan->kind_count; k++) {
        const PanelPiece *like = &w->plan->piece[w->plan->kind[k].like];
        const int count = is_wanted(like, which) ? work_pieces(w, k) : 0;
        if (count) add(w, like, count);
    }
}

static const char *kind_words(const TakeoffWork *w, const PanelPiece *like)
{
    return arena_printf(w->arena, "kind %s, as %s", w->plan->kind[like->kind].name, like->mark);
}

/* ---- panels ---- */

static void count_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    work_times(work_line(w, kind_words(w, like), "clench panels"), "panels", DIM_NONE, count);
}

static void add_panels(TakeoffWork *w) { each_kind(w, BETWEEN, count_line); }
static void add_anchors(TakeoffWork *w) { each_kind(w, ANCHORS, count_line); }

static bool is_rectangle(const PanelPiece *p)
{
    return p->shape.left_slope_1 == 0 && p->shape.right_slope_1 == 0;
}

/* Length by width where the panel is a rectangle, else the area of its outline. */
static TakeoffLine *area_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    const bool plain = is_rectangle(like);
    TakeoffLine *line = work_line(w, kind_words(w, like),
                                  plain ? "clench panels; deck.width" : "clench panels: outline");
    work_times(line, "panels", DIM_NONE, count);
    if (plain) {
        work_times(line, "length as cast", DIM_LENGTH, like->cast_m);
        work_times(line, "width", DIM_LENGTH, like->shape.to_z_m - like->shape.from_z_m);
    } else {
        work_times(line, "area", DIM_AREA, like->body.area_m2);
    }
    return line;
}

static void plan_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    area_line(w, like, count);
}

static void add_area(TakeoffWork *w) { each_kind(w, ALL, plan_line); }

/* ---- concrete ---- */

static void gross_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    TakeoffLine *line = area_line(w, like, count);
    work_times(line, like->shape.rise_1 != 0 ? "mean thickness" : "thickness", DIM_LENGTH,
               work_mean_thickness_m(like));
}

static double depth_m(const PanelPiece *p, const PanelHole *hole)
{
    const PanelShape *s = &p->shape;
    return fmin(hole->depth_m, s->edge_m + s->rise_1 * (s->half_m - fabs(hole->z_m)));
}

static bool same_size(const PanelPiece *p, int a, int b)
{
    const PanelHole *x = &p->hole[a], *y = &p->hole[b];
    return fabs(x->along_m - y->along_m) < 1e-9 && fabs(x->across_m - y->across_m) < 1e-9 &&
           fabs(depth_m(p, x) - depth_m(p, y)) < 1e-9;
}

/* Lines for holes of one size each, of all panels of the kind; sign -1: taken off. */
static void hole_lines(TakeoffWork *w, const PanelPiece *like, int count, bool blockouts, int sign)
{
    const int from = blockouts ? like->pocket_count : 0;
    const int to = blockouts ? like->hole_count : like->pocket_count;
    for (int i = from; i < to; i++) {
        int alike = 0, earlier = 0;
        for (int k = from; k < to; k++) {
            alike += same_size(like, i, k);
            earlier += k < i && same_size(like, i, k);
        }
        if (earlier) continue;
        TakeoffLine *line =
            work_line(w,
                      arena_printf(w->arena, "%s%s of %s", sign < 0 ? "less " : "",
                                   blockouts ? "blockouts" : "pockets", kind_words(w, like)),
                      blockouts ? "panels.blockouts" : work_from(w, "handling.pocket"));
        work_times(line, "panels", DIM_NONE, sign * count);
        work_times(line, "in each", DIM_NONE, alike);
        work_times(line, "along", DIM_LENGTH, like->hole[i].along_m);
        work_times(line, "across", DIM_LENGTH, like->hole[i].across_m);
        work_times(line, "depth", DIM_LENGTH, depth_m(like, &like->hole[i]));
    }
}

static void net_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    gross_line(w, like, count);
    hole_lines(w, like, count, false, -1);
    hole_lines(w, like, count, true, -1);
}

static void pocket_grout_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    hole_lines(w, like, count, false, 1);
}

static void add_gross(TakeoffWork *w) { each_kind(w, BETWEEN, gross_line); }
static void add_anchor_gross(TakeoffWork *w) { each_kind(w, ANCHORS, gross_line); }
static void add_net(TakeoffWork *w) { each_kind(w, BETWEEN, net_line); }
static void add_anchor_net(TakeoffWork *w) { each_kind(w, ANCHORS, net_line); }
static void add_pocket_grout(TakeoffWork *w) { each_kind(w, BETWEEN, pocket_grout_line); }
static void add_anchor_pocket_grout(TakeoffWork *w) { each_kind(w, ANCHORS, pocket_grout_line); }

/* ---- holes and lifting, by number ---- */

static void number_line(TakeoffWork *w, const PanelPiece *like, int count, int each)
{
    if (!each) return;
    TakeoffLine *line = work_line(w, kind_words(w, like), "clench panels");
    work_times(line, "panels", DIM_NONE, count);
    work_times(line, "in each", DIM_NONE, each);
}

static void pocket_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    number_line(w, like, count, like->pocket_count);
}

static void blockout_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    number_line(w, like, count, like->blockout_count);
}

static void lifting_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    number_line(w, like, count, 2 * work_count(w, "handling.points"));
}

static void add_pockets(TakeoffWork *w) { each_kind(w, ALL, pocket_line); }
static void add_blockouts(TakeoffWork *w) { each_kind(w, ALL, blockout_line); }

static void add_lifting(TakeoffWork *w)
{
    if (!work_count(w, "handling.points"))
        work_open(w,
                  "handling.points is not chosen: clench panels tells the number that is needed");
    else
        each_kind(w, ALL, lifting_line);
}

/* ---- bars ---- */

static void bar_weight(TakeoffWork *w, TakeoffLine *line, double length_m, double area_m2)
{
    work_times(line, "length", DIM_LENGTH, length_m);
    work_times(line, "area", DIM_AREA, area_m2);
    work_times_input(w, line, "weight of steel", TAKEOFF_STEEL_WEIGHT);
}

/* Both ends of a panel have a bar, none is farther from the next than the spacing. */
static void transverse_line(TakeoffWork *w, const PanelPiece *like, int count, const char *bar,
                            const char *spacing)
{
    const double spacing_m = work_value(w, spacing);
    TakeoffLine *line =
        work_line(w, kind_words(w, like),
                  arena_printf(w->arena, "%s; %s", work_from(w, bar), work_from(w, spacing)));
    work_times(line, "panels", DIM_NONE, count);
    work_times(line, "bars in each", DIM_NONE, ceil(like->cast_m / spacing_m - 1e-9) + 1);
    bar_weight(w, line, fmax(like->body.left_edge_m, like->body.right_edge_m), work_value(w, bar));
}

static void top_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    transverse_line(w, like, count, "panels.top_bar", "panels.top_bar_spacing");
}

static void bottom_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    transverse_line(w, like, count, "panels.bottom_bar", "panels.bottom_bar_spacing");
}

static void add_transverse(TakeoffWork *w, const char *bar, const char *spacing, KindLine add)
{
    if (!isfinite(work_value(w, bar)) || !isfinite(work_value(w, spacing))) {
        work_open(w, arena_printf(w->arena, "%s or %s is not given", bar, spacing));
        return;
    }
    work_name(w, work_bar_name(work_value(w, bar)));
    each_kind(w, ALL, add);
}

static void add_top_bars(TakeoffWork *w)
{
    add_transverse(w, "panels.top_bar", "panels.top_bar_spacing", top_line);
}

static void add_bottom_bars(TakeoffWork *w)
{
    add_transverse(w, "panels.bottom_bar", "panels.bottom_bar_spacing", bottom_line);
}

/* Steel of which the file has the area alone: that many times, so long. */
static void area_bars(TakeoffWork *w, const char *key, const char *of, double count,
                      double length_m)
{
    const double area_m2 = work_value(w, key);
    if (!isfinite(area_m2)) {
        work_open(w, arena_printf(w->arena, "%s is not given", key));
        return;
    }
    TakeoffLine *line = work_line(w, of, work_from(w, key));
    work_times(line, "places", DIM_NONE, count);
    bar_weight(w, line, length_m, area_m2);
}

static void add_anchor_bars(TakeoffWork *w)
{
    area_bars(w, "panels.anchor_bars", "both anchor panels, across the deck", 2,
              w->plan->deck_width_m / cos(w->plan->skew_rad));
}

static void add_edge_bars(TakeoffWork *w)
{
    area_bars(w, "panels.edge_bars", "both faces of the gap, across the deck", 2,
              w->plan->deck_width_m / cos(w->plan->skew_rad));
}

/* Behind one jack: each over its share of the width. */
static void jack_bars(TakeoffWork *w, const char *key, double length_m)
{
    const int jacks = work_count(w, "jacks.count");
    if (!jacks && isfinite(work_value(w, key)))
        work_open(w, "jacks.count is not chosen");
    else
        area_bars(w, key, "behind each jack, both faces of the gap", 2 * fmax(jacks, 1), length_m);
}

static void add_burst_bars(TakeoffWork *w)
{
    jack_bars(w, "panels.burst_bars",
              w->plan->deck_width_m / fmax(work_count(w, "jacks.count"), 1));
}

static void add_depth_bars(TakeoffWork *w)
{
    jack_bars(w, "panels.depth_bars", w->plan->thickness_m);
}

/* clang-format off */
#define VOLUME DIM_VOLUME, {"yd^3", "m^3"}
#define NUMBER DIM_NONE, {"", ""}
#define WEIGHT DIM_FORCE, {"kip", "kN"}
#define CONCRETE TAKEOFF_CONCRETE_WASTE, TAKEOFF_CONCRETE_WEIGHT
#define NEITHER  TAKEOFF_NO_INPUT, TAKEOFF_NO_INPUT
#define BARS_OF  TAKEOFF_BAR_WASTE, TAKEOFF_NO_INPUT
#define GROUT_OF TAKEOFF_GROUT_WASTE, TAKEOFF_GROUT_WEIGHT
const TakeoffRow takeoff_precast[] = {
    {TAKEOFF_PRECAST, "panels", "between anchor panels and gap", NUMBER, NEITHER, add_panels},
    {TAKEOFF_PRECAST, "anchor panels", "grouted to the girders before jacking", NUMBER, NEITHER, add_anchors},
    {TAKEOFF_PRECAST, "area of all panels", "in plan, holes not taken off", DIM_AREA, {"ft^2", "m^2"}, NEITHER, add_area},
    {TAKEOFF_PRECAST, "concrete of panels, solid", "as if without holes: for lifting and forms", VOLUME, TAKEOFF_NO_INPUT, TAKEOFF_CONCRETE_WEIGHT, add_gross},
    {TAKEOFF_PRECAST, "concrete of anchor panels, solid", "as if without holes: for lifting and forms", VOLUME, TAKEOFF_NO_INPUT, TAKEOFF_CONCRETE_WEIGHT, add_anchor_gross},
    {TAKEOFF_PRECAST, "concrete of panels", "pockets and blockouts taken off", VOLUME, CONCRETE, add_net},
    {TAKEOFF_PRECAST, "concrete of anchor panels", "pockets and blockouts taken off", VOLUME, CONCRETE, add_anchor_net},
    {TAKEOFF_PRECAST, "pockets", "for the connectors", NUMBER, NEITHER, add_pockets},
    {TAKEOFF_PRECAST, "blockouts", "drains, posts, manholes", NUMBER, NEITHER, add_blockouts},
    {TAKEOFF_PRECAST, "lifting points", "two rows across each panel", NUMBER, NEITHER, add_lifting},
    {TAKEOFF_BARS, "transverse top bars", "over girders and in the overhang", WEIGHT, BARS_OF, add_top_bars},
    {TAKEOFF_BARS, "transverse bottom bars", "between the girders", WEIGHT, BARS_OF, add_bottom_bars},
    {TAKEOFF_BARS, "bars across anchor panels", "tie the thrust between the girders", WEIGHT, BARS_OF, add_anchor_bars},
    {TAKEOFF_BARS, "bars along the gap's faces", "between the jacks, by their area alone", WEIGHT, BARS_OF, add_edge_bars},
    {TAKEOFF_BARS, "bars against bursting", "behind the jacks, by their area alone", WEIGHT, BARS_OF, add_burst_bars},
    {TAKEOFF_BARS, "bars through the depth", "behind the jacks, by their area alone", WEIGHT, BARS_OF, add_depth_bars},
    {TAKEOFF_GROUT, "grout of pockets", "after jacking", DIM_VOLUME, {"ft^3", "m^3"}, GROUT_OF, add_pocket_grout},
    {TAKEOFF_GROUT, "grout of anchor panels' pockets", "before jacking", DIM_VOLUME, {"ft^3", "m^3"}, GROUT_OF, add_anchor_pocket_grout},
};
/* clang-format on */
const int takeoff_precast_count = (int)(sizeof takeoff_precast / sizeof *takeoff_precast);
