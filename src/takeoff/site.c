/* What is made, put or used on the bridge: closure, haunches, joints, connectors, seats, jacks. */
#include <math.h>
#include <string.h>

#include "work.h"

static bool is_tub(const TakeoffWork *w) { return !strcmp(work_text(w, "girders.kind"), "tub"); }

static double rise_1(const TakeoffWork *w) { return w->plan->piece[0].shape.rise_1; }

/* Over the whole width; a thickened crown adds half of its rise. */
static double mean_deck_m(const TakeoffWork *w)
{
    return w->plan->thickness_m + rise_1(w) * w->plan->deck_width_m / 4;
}

static double gap_m(const TakeoffWork *w)
{
    return work_run(w)->gap_to_m - work_run(w)->gap_from_m;
}

/* ---- cast on the bridge ---- */

static void gap_part(TakeoffWork *w, const char *what, double share_1)
{
    TakeoffLine *line = work_line(w, what,
                                  arena_printf(w->arena, "%s; %s", work_from(w, "closure.fraction"),
                                               work_from(w, "panels.gap")));
    work_times(line, "share of the gap", DIM_NONE, share_1);
    work_times(line, "gap", DIM_LENGTH, gap_m(w));
    work_times(line, "width", DIM_LENGTH, w->plan->deck_width_m);
    work_times(line, rise_1(w) != 0 ? "mean thickness" : "thickness", DIM_LENGTH, mean_deck_m(w));
}

static void add_closure(TakeoffWork *w)
{
    gap_part(w, "the gap round the jacks; their own room not taken off",
             work_value(w, "closure.fraction"));
}

static void add_fill(TakeoffWork *w)
{
    const double rest_1 = 1 - work_value(w, "closure.fraction");
    if (rest_1 > 0) gap_part(w, "the rest of the gap", rest_1);
}

static void add_strip(TakeoffWork *w)
{
    if (w->plan->strip_m <= 0) return;
    TakeoffLine *line =
        work_line(w, "along the run, the gap left out", work_from(w, "panels.strip"));
    work_times(line, "length", DIM_LENGTH, work_run(w)->length_m - gap_m(w));
    work_times(line, "strip", DIM_LENGTH, w->plan->strip_m);
    work_times(line, "thickness", DIM_LENGTH, w->plan->thickness_m);
}

/* ---- joints ---- */

static bool is_joint(const PanelPiece *p) { return strncmp(p->left_joint, "R", 1) == 0; }

typedef void (*JointLine)(TakeoffWork *w, const PanelPiece *like, int count);

static bool same_face(const PanelPiece *a, const PanelPiece *b)
{
    return is_joint(a) && is_joint(b) && fabs(a->body.left_edge_m - b->body.left_edge_m) < 1e-9 &&
           fabs(work_mean_thickness_m(a) - work_mean_thickness_m(b)) < 1e-9;
}

/* A line for joints of one size: those at the left of the pieces of the run. */
static void each_joint(TakeoffWork *w, JointLine add)
{
    const PanelRun *run = work_run(w);
    const PanelPiece *piece = &w->plan->piece[run->first];
    for (int i = 0; i < run->count; i++) {
        int alike = 0, earlier = 0;
        for (int k = 0; k < run->count; k++) {
            alike += same_face(&piece[i], &piece[k]);
            earlier += k < i && same_face(&piece[i], &piece[k]);
        }
        if (alike && !earlier) add(w, &piece[i], alike);
    }
}

static TakeoffLine *face_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    TakeoffLine *line =
        work_line(w, arena_printf(w->arena, "as %s", like->left_joint), "clench panels");
    work_times(line, "joints", DIM_NONE, count);
    work_times(line, "along the joint", DIM_LENGTH, like->body.left_edge_m);
    return line;
}

static void area_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    work_times(face_line(w, like, count), "thickness", DIM_LENGTH, work_mean_thickness_m(like));
}

static void glue_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    TakeoffLine *line = face_line(w, like, count);
    line->from = work_from(w, "closing.film");
    work_times(line, "thickness", DIM_LENGTH, work_mean_thickness_m(like));
    work_times(line, "film", DIM_LENGTH, w->plan->joint.film_m);
}

static void mortar_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    TakeoffLine *line = face_line(w, like, count);
    line->from = work_from(w, "panels.joint_width");
    work_times(line, "thickness", DIM_LENGTH, work_mean_thickness_m(like));
    /* the width is measured along the bridge */
    work_times(line, "square to the face", DIM_LENGTH,
               work_value(w, "panels.joint_width") / hypot(1, like->shape.left_slope_1));
}

static void form_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    face_line(w, like, count)->from = "one below each joint";
}

static void pull_line(TakeoffWork *w, const PanelPiece *like, int count)
{
    TakeoffLine *line = work_line(w, arena_printf(w->arena, "as %s", like->left_joint),
                                  "clench panels: closing of joints");
    work_times(line, "joints", DIM_NONE, count);
    work_times(line, "at each", DIM_NONE, w->plan->closing.pieces);
}

static void add_joints(TakeoffWork *w) { each_joint(w, area_line); }

static void add_glue(TakeoffWork *w)
{
    if (w->plan->glued) each_joint(w, glue_line);
}

static void add_mortar(TakeoffWork *w)
{
    if (!w->plan->glued && work_value(w, "panels.joint_width") > 0) each_joint(w, mortar_line);
}

static void add_joint_forms(TakeoffWork *w)
{
    if (!w->plan->glued) each_joint(w, form_line);
}

static void add_pulls(TakeoffWork *w)
{
    if (!w->plan->glued) return;
    work_name(w, w->plan->pullers ? "chain pullers" : "bolts");
    each_joint(w, pull_line);
}

/* ---- haunches ---- */

static double overlap_m(double a_from_m, double a_to_m, double b_from_m, double b_to_m)
{
    return fmax(fmin(a_to_m, b_to_m) - fmax(a_from_m, b_from_m), 0);
}

/* Stretches of one haunch width between two stations. */
static void haunch_lines(TakeoffWork *w, const char *what, double from_m, double to_m)
{
    for (int i = 0; i < w->girder_count; i++) {
        const double length_m = overlap_m(from_m, to_m, w->girder[i].from_m, w->girder[i].to_m);
        if (length_m < 1e-9) continue;
        TakeoffLine *line = work_line(
            w, what,
            arena_printf(w->arena, "%s; width of the girder's top", work_from(w, "deck.haunch")));
        work_times(line, "girders", DIM_NONE, work_count(w, "girders.count"));
        work_times(line, "length", DIM_LENGTH, length_m);
        work_times(line, "width", DIM_LENGTH, w->girder[i].haunch_m);
        work_times(line, "nominal height", DIM_LENGTH, work_value(w, "deck.haunch"));
    }
}

/* The two anchor panels of the run, in `from` and `to`. */
static void anchors_of(const TakeoffWork *w, double from_m[2], double to_m[2])
{
    const PanelRun *run = work_run(w);
    const PanelPiece *piece = &w->plan->piece[run->first];
    from_m[0] = run->start_m;
    to_m[1] = run->start_m + run->length_m;
    to_m[0] = from_m[0];
    from_m[1] = to_m[1];
    for (int i = 0; i < run->count; i++) {
        if (!piece[i].anchor) continue;
        if (piece[i].from_m < run->gap_from_m)
            to_m[0] = piece[i].to_m;
        else
            from_m[1] = piece[i].from_m;
    }
}

static void add_haunches(TakeoffWork *w)
{
    double from_m[2], to_m[2];
    anchors_of(w, from_m, to_m);
    if (work_value(w, "deck.haunch") > 0)
        haunch_lines(w, "between the anchor panels, the gap too", to_m[0], from_m[1]);
}

static void add_anchor_haunches(TakeoffWork *w)
{
    double from_m[2], to_m[2];
    if (!(work_value(w, "deck.haunch") > 0)) return;
    anchors_of(w, from_m, to_m);
    for (int i = 0; i < 2; i++)
        haunch_lines(w, i ? "right anchor panel" : "left anchor panel", from_m[i], to_m[i]);
}

static void add_dams(TakeoffWork *w)
{
    const int edges = (is_tub(w) ? 4 : 2) * work_count(w, "girders.count");
    if (!(work_value(w, "deck.haunch") > 0)) return;
    TakeoffLine *line = work_line(w, "both edges of every haunch", "length of the run");
    work_times(line, "edges", DIM_NONE, edges);
    work_times(line, "length", DIM_LENGTH, work_run(w)->length_m);
    /* the widest: a dam is cut to fit */
    double width_m = 0;
    for (int i = 0; i < w->girder_count; i++) width_m = fmax(width_m, w->girder[i].haunch_m);
    line = work_line(w, "across, at both ends of each anchor panel", "width of the girder's top");
    work_times(line, "ends", DIM_NONE, 4 * work_count(w, "girders.count"));
    work_times(line, "width", DIM_LENGTH, width_m);
}

/* ---- seats ---- */

static int girders_under(const TakeoffWork *w, const PanelPiece *p)
{
    int under = 0;
    const int count = work_count(w, "girders.count");
    for (int k = 0; k < count; k++) {
        const double z_m = (k - (count - 1) / 2.0) * work_value(w, "girders.spacing");
        under += z_m >= p->shape.from_z_m && z_m <= p->shape.to_z_m;
    }
    return under;
}

/* Every panel on shims of its own, at both edges at least. */
static void add_shims(TakeoffWork *w)
{
    for (int k = 0; k < w->plan->kind_count; k++) {
        const PanelPiece *like = &w->plan->piece[w->plan->kind[k].like];
        const int count = work_pieces(w, k);
        if (!count) continue;
        TakeoffLine *line = work_line(w, arena_printf(w->arena, "kind %s", w->plan->kind[k].name),
                                      work_from(w, "shims.spacing"));
        work_times(line, "panels", DIM_NONE, count);
        work_times(line, "girders", DIM_NONE, girders_under(w, like));
        work_times(line, "rows", DIM_NONE,
                   fmax(ceil(like->cast_m / work_value(w, "shims.spacing") - 1e-6), 1) + 1);
    }
}

/* ---- connectors ---- */

static void name_connector(TakeoffWork *w)
{
    const double height_m = work_value(w, "connectors.height");
    work_name(w,
              arena_printf(w->arena, "%s of %s%s%s", work_text(w, "connectors.kind"),
                           work_text(w, "connectors.diameter"), isfinite(height_m) ? ", high " : "",
                           isfinite(height_m) ? work_text(w, "connectors.height") : ""));
}

static void add_connectors(TakeoffWork *w)
{
    const PanelRun *run = work_run(w);
    const int each = work_count(w, "connectors.per_cluster");
    int pockets = 0;
    name_connector(w);
    if (!each) {
        work_open(
            w,
            "connectors.per_cluster is not chosen: clench checks tells the number that is needed");
        return;
    }
    for (int i = 0; i < run->count; i++) {
        const PanelPiece *p = &w->plan->piece[run->first + i];
        if (!p->anchor) pockets += p->pocket_count;
    }
    TakeoffLine *line = work_line(w, "pockets of all panels but the anchors",
                                  work_from(w, "connectors.per_cluster"));
    work_times(line, "pockets", DIM_NONE, pockets);
    work_times(line, "in each", DIM_NONE, each);
}

static void add_anchor_connectors(TakeoffWork *w)
{
    const int each = work_count(w, "connectors.anchor_count");
    name_connector(w);
    if (!each) {
        work_open(
            w,
            "connectors.anchor_count is not chosen: clench checks tells the number that is needed");
        return;
    }
    TakeoffLine *line = work_line(w, "both anchor panels", work_from(w, "connectors.anchor_count"));
    work_times(line, "anchor panels", DIM_NONE, 2);
    work_times(line, "girders", DIM_NONE, work_count(w, "girders.count"));
    work_times(line, "on each", DIM_NONE, each);
}

/* ---- jacking ---- */

static TakeoffLine *jack_line(TakeoffWork *w)
{
    const int count = work_count(w, "jacks.count");
    if (!count) {
        work_open(w, "jacks.count is not chosen: clench jacking proposes a size and a number");
        return NULL;
    }
    TakeoffLine *line = work_line(w, "in the gap", work_from(w, "jacks.count"));
    work_times(line, "jacks", DIM_NONE, count);
    return line;
}

static void add_jacks(TakeoffWork *w)
{
    if (strcmp(work_text(w, "jacks.size"), "own") != 0) work_name(w, work_text(w, "jacks.size"));
    jack_line(w);
}

static void add_plates(TakeoffWork *w)
{
    work_name(w, arena_printf(w->arena, "%s by %s", work_text(w, "jacks.plate_width"),
                              work_text(w, "jacks.plate_height")));
    TakeoffLine *line = jack_line(w);
    if (line) work_times(line, "on each", DIM_NONE, 2);
}

static void add_gap_forms(TakeoffWork *w)
{
    TakeoffLine *line =
        work_line(w, "soffit, the girders' tops not taken off", work_from(w, "panels.gap"));
    work_times(line, "gap", DIM_LENGTH, gap_m(w));
    work_times(line, "width", DIM_LENGTH, w->plan->deck_width_m);
    line = work_line(w, "both edges of the deck", work_from(w, "panels.gap"));
    work_times(line, "edges", DIM_NONE, 2);
    work_times(line, "gap", DIM_LENGTH, gap_m(w));
    work_times(line, "thickness", DIM_LENGTH, w->plan->thickness_m);
    if (w->plan->strip_m <= 0) return;
    line = work_line(w, "below the longitudinal closure", work_from(w, "panels.strip"));
    work_times(line, "length", DIM_LENGTH, work_run(w)->length_m - gap_m(w));
    work_times(line, "strip", DIM_LENGTH, w->plan->strip_m);
}

/* ---- on the deck, and girders ---- */

static void add_barriers(TakeoffWork *w)
{
    if (!(work_value(w, "loads.barrier") > 0)) return;
    TakeoffLine *line = work_line(w, "both edges", "length of the run");
    work_times(line, "edges", DIM_NONE, 2);
    work_times(line, "length", DIM_LENGTH, work_run(w)->length_m);
}

static void add_overlay(TakeoffWork *w)
{
    if (!(work_value(w, "loads.overlay") > 0)) return;
    TakeoffLine *line = work_line(w, "between the barriers", work_from(w, "loads.barrier_width"));
    work_times(line, "length", DIM_LENGTH, work_run(w)->length_m);
    work_times(line, "width", DIM_LENGTH,
               w->plan->deck_width_m - 2 * work_value(w, "loads.barrier_width"));
}

static void girder_lines(TakeoffWork *w, bool weight)
{
    const PanelRun *run = work_run(w);
    for (int i = 0; i < w->girder_count; i++) {
        const BridgeGirder *g = &w->girder[i];
        const double length_m =
            overlap_m(run->start_m, run->start_m + run->length_m, g->from_m, g->to_m);
        if (length_m < 1e-9) continue;
        TakeoffLine *line = work_line(w, arena_printf(w->arena, "section %d", i + 1), "girders");
        work_times(line, "girders", DIM_NONE, work_count(w, "girders.count"));
        work_times(line, "length", DIM_LENGTH, length_m);
        if (weight)
            work_times(line, is_tub(w) || g->plate.web_count ? "plates with details" : "weight",
                       DIM_LINE_LOAD, g->weight_N_per_m);
    }
}

static void add_girders(TakeoffWork *w) { girder_lines(w, false); }
static void add_girder_weight(TakeoffWork *w) { girder_lines(w, true); }

/* clang-format off */
#define NUMBER   DIM_NONE, {"", ""}
#define LENGTH   DIM_LENGTH, {"ft", "m"}
#define AREA     DIM_AREA, {"ft^2", "m^2"}
#define VOLUME   DIM_VOLUME, {"yd^3", "m^3"}
#define SMALL    DIM_VOLUME, {"ft^3", "m^3"}
#define CONCRETE TAKEOFF_CONCRETE_WASTE, TAKEOFF_CONCRETE_WEIGHT
#define GROUT_OF TAKEOFF_GROUT_WASTE, TAKEOFF_GROUT_WEIGHT
#define STRIPS   TAKEOFF_STRIP_WASTE, TAKEOFF_NO_INPUT
#define NEITHER  TAKEOFF_NO_INPUT, TAKEOFF_NO_INPUT
const TakeoffRow takeoff_site[] = {
    {TAKEOFF_GROUT, "grout of haunches", "after jacking", SMALL, GROUT_OF, add_haunches},
    {TAKEOFF_GROUT, "grout of anchor panels' haunches", "before jacking", SMALL, GROUT_OF, add_anchor_haunches},
    {TAKEOFF_CAST, "closure concrete", "before the jacks are released", VOLUME, CONCRETE, add_closure},
    {TAKEOFF_CAST, "fill of the gap", "after the jacks are taken out", VOLUME, CONCRETE, add_fill},
    {TAKEOFF_CAST, "longitudinal closure", "between panels side by side", VOLUME, CONCRETE, add_strip},
    {TAKEOFF_JOINTS, "faces of joints", "area pressed, of one side of each joint", AREA, NEITHER, add_joints},
    {TAKEOFF_JOINTS, "glue", "film of both faces together", SMALL, TAKEOFF_GLUE_WASTE, TAKEOFF_NO_INPUT, add_glue},
    {TAKEOFF_JOINTS, "grout of narrow joints", "before jacking", SMALL, GROUT_OF, add_mortar},
    {TAKEOFF_JOINTS, "strips below narrow joints", "foam or form, until the grout is hard", LENGTH, STRIPS, add_joint_forms},
    {TAKEOFF_JOINTS, "pulls that close joints", "uses, not pieces: they go from joint to joint", NUMBER, NEITHER, add_pulls},
    {TAKEOFF_CONNECTORS, "connectors", "in pockets", NUMBER, NEITHER, add_connectors},
    {TAKEOFF_CONNECTORS, "connectors of anchor panels", "carry the thrust", NUMBER, NEITHER, add_anchor_connectors},
    {TAKEOFF_SEATS, "seats", "shims or levelling devices, each panel on its own; fewer where two panels share one", NUMBER, NEITHER, add_shims},
    {TAKEOFF_SEATS, "dams of haunches", "foam, angle or strip, of the haunch's height", LENGTH, STRIPS, add_dams},
    {TAKEOFF_JACKING, "jacks", "in all gaps at once; fewer where they go from gap to gap", NUMBER, NEITHER, add_jacks},
    {TAKEOFF_JACKING, "bearing plates of jacks", "one at each end", NUMBER, NEITHER, add_plates},
    {TAKEOFF_JACKING, "forms of gap and closure", "soffit and edges", AREA, STRIPS, add_gap_forms},
    {TAKEOFF_DECK, "barriers", "along both edges", LENGTH, TAKEOFF_NO_INPUT, TAKEOFF_BARRIER_WEIGHT, add_barriers},
    {TAKEOFF_DECK, "overlay", "between the barriers", AREA, TAKEOFF_NO_INPUT, TAKEOFF_OVERLAY_WEIGHT, add_overlay},
    {TAKEOFF_GIRDERS, "girders", "length of all lines, end gaps at tied piers not taken off", LENGTH, NEITHER, add_girders},
    {TAKEOFF_GIRDERS, "weight of girders", "as in the model", DIM_FORCE, {"kip", "kN"}, NEITHER, add_girder_weight},
};
/* clang-format on */
const int takeoff_site_count = (int)(sizeof takeoff_site / sizeof *takeoff_site);
