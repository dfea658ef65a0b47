/* Panels with their holes, joints, gaps, closures and barriers. */
#include <math.h>
#include <string.h>

#include "model.h"

/* ---- values as the schema writes them ---- */

static const char *label(const Model *m, const char *words)
{
    return arena_printf(m->step.arena, "IFCLABEL(%s)", step_text(&m->step, words));
}

static const char *measure(const Model *m, const char *type, double value_SI, DimensionId dimension)
{
    return arena_printf(m->step.arena, "%s(%s)", type,
                        step_real(&m->step, step_in(&m->step, value_SI, dimension)));
}

static const char *length(const Model *m, double length_m)
{
    return measure(m, "IFCLENGTHMEASURE", length_m, DIM_LENGTH);
}

static const char *real(const Model *m, double value)
{
    return measure(m, "IFCREAL", value, DIM_NONE);
}

static const char *whole(const Model *m, int value)
{
    return arena_printf(m->step.arena, "IFCINTEGER(%d)", value);
}

/* ---- shapes: x of a panel is along, y to the left: minus z of PanelShape ---- */

static Point2 corner(const PanelShape *s, double z_m, bool right)
{
    return (Point2){right ? s->right_m + z_m * s->right_slope_1 : s->left_m + z_m * s->left_slope_1,
                    -z_m};
}

/* Counter-clockwise from above. */
static void outline(const PanelShape *s, Point2 point[4])
{
    point[0] = corner(s, s->to_z_m, false);
    point[1] = corner(s, s->to_z_m, true);
    point[2] = corner(s, s->from_z_m, true);
    point[3] = corner(s, s->from_z_m, false);
}

static void hole_outline(const PanelHole *hole, Point2 point[4])
{
    for (int i = 0; i < 4; i++)
        point[i] = (Point2){hole->x_m + (i == 1 || i == 2 ? 0.5 : -0.5) * hole->along_m,
                            -hole->z_m + (i >= 2 ? 0.5 : -0.5) * hole->across_m};
}

static double ridge_m(const PanelShape *s) { return s->edge_m + s->rise_1 * s->half_m; }

/* Body of a panel over its soffit; `hole`s go through. */
static int body(Model *m, const PanelShape *s, const Point2 (*hole)[4], int holes)
{
    Point2 point[4];
    outline(s, point);
    const int solid = shape_prism(m, shape_outline(m, point, 4, hole, holes), ridge_m(s));
    if (s->rise_1 == 0) return shape_product(m, solid, false);
    return shape_product(m, shape_clip_roof(m, solid, ridge_m(s), s->rise_1), true);
}

/* ---- panels ---- */

/* A panel stands on the middle of its arc, turned as the bridge is there. */
static ModelPlace piece_place(const Model *m, double from_m, double to_m)
{
    const double half_m = (to_m - from_m) / 2;
    ModelPlace p = model_place(m, (from_m + to_m) / 2, 0, -m->thickness_m);
    p.x_m -= half_m * cos(p.heading_rad);
    p.y_m -= half_m * sin(p.heading_rad);
    return p;
}

static bool crosses_another(const PanelPiece *p, int which)
{
    const PanelHole *a = &p->hole[which];
    for (int i = 0; i < p->hole_count; i++) {
        const PanelHole *b = &p->hole[i];
        if (i != which && fabs(a->x_m - b->x_m) < (a->along_m + b->along_m) / 2 + 1e-6 &&
            fabs(a->z_m - b->z_m) < (a->across_m + b->across_m) / 2 + 1e-6)
            return true;
    }
    return false;
}

/* Through and inside all round: a hole of the outline. Others are cut out of the body. */
static bool is_inside(const PanelPiece *p, int which)
{
    return isinf(p->hole[which].depth_m) && panel_holds(&p->shape, &p->hole[which], 1e-3) &&
           !crosses_another(p, which);
}

/* Cut from above the top down to the hole's depth, or below the soffit. */
static void opening_write(Model *m, const PanelPiece *p, int which, int element, int place)
{
    Step *s = &m->step;
    const PanelHole *hole = &p->hole[which];
    const double over_m = 0.05, top_m = ridge_m(&p->shape);
    const double here_m = p->shape.edge_m + p->shape.rise_1 * (p->shape.half_m - fabs(hole->z_m));
    const double low_m = isinf(hole->depth_m) ? -over_m : here_m - hole->depth_m;
    const char *mark = arena_printf(s->arena, "%s hole %d", p->mark, which + 1);
    Point2 point[4];
    hole_outline(hole, point);
    const int solid = shape_prism(m, shape_outline(m, point, 4, NULL, 0), top_m + over_m - low_m);
    const int shape = shape_product(m, solid, false);
    const int at = shape_place(m, place, (ModelPlace){0, 0, low_m, 0});
    const int opening =
        step_add(s, "IFCOPENINGELEMENT(%s,$,%s,$,%s,#%d,#%d,$,.%s.)", step_id(s, "opening", mark),
                 step_text(s, mark), step_text(s, which < p->pocket_count ? "pocket" : "blockout"),
                 at, shape, isinf(hole->depth_m) ? "OPENING" : "RECESS");
    step_add(s, "IFCRELVOIDSELEMENT(%s,$,$,$,#%d,#%d)", step_id(s, "voids", mark), element,
             opening);
    m->summary->openings++;
}

static void quantities_write(Model *m, const PanelPiece *p, int element)
{
    Step *s = &m->step;
    const int id[] = {
        step_add(s, "IFCQUANTITYVOLUME('NetVolume','pockets and blockouts taken off',$,%s,$)",
                 step_real(s, step_in(s, p->body.net_m3, DIM_VOLUME))),
        step_add(s, "IFCQUANTITYVOLUME('GrossVolume','without any hole',$,%s,$)",
                 step_real(s, step_in(s, p->body.gross_m3, DIM_VOLUME))),
        step_add(s, "IFCQUANTITYAREA('GrossArea','in plan, without any hole',$,%s,$)",
                 step_real(s, step_in(s, p->body.area_m2, DIM_AREA)))};
    const int all = step_add(s, "IFCELEMENTQUANTITY(%s,$,'Clench_Quantities',$,'clench panels',%s)",
                             step_id(s, "quantities", p->mark), step_list(s, id, 3));
    step_add(s, "IFCRELDEFINESBYPROPERTIES(%s,$,$,$,(#%d),#%d)",
             step_id(s, "has quantities", p->mark), element, all);
}

static void values_write(Model *m, const PanelPiece *p, int element)
{
    const char *const property[][2] = {
        {"Mark", label(m, p->mark)},
        {"Kind", label(m, m->plan->kind[p->kind].name)},
        {"TurnedRound", p->turned ? "IFCBOOLEAN(.T.)" : "IFCBOOLEAN(.F.)"},
        {"Run", label(m, m->plan->run[p->run].name)},
        {"PlaceInRun", whole(m, p->number)},
        {"AnchorPanel", p->anchor ? "IFCBOOLEAN(.T.)" : "IFCBOOLEAN(.F.)"},
        {"LeftJoint", label(m, p->left_joint)},
        {"RightJoint", label(m, p->right_joint)},
        {"StationFrom", length(m, p->from_m)},
        {"StationTo", length(m, p->to_m)},
        {"WeightAsLifted", measure(m, "IFCFORCEMEASURE", p->weight_N, DIM_FORCE)},
        {"WeightSolid", measure(m, "IFCFORCEMEASURE", p->gross_N, DIM_FORCE)},
        {"Strength28Days",
         measure(m, "IFCPRESSUREMEASURE", model_value(m, "concrete.panel.strength"), DIM_STRESS)},
        {"CastingPhase", whole(m, p->cast.phase + 1)},
        {"CastingBed", whole(m, p->cast.bed + 1)},
        {"CastOnDay", real(m, p->cast.cast_day)},
        {"OffBedOnDay", real(m, p->cast.strip_day)},
        {"SetOnDay", real(m, p->cast.set_day)}};
    model_properties(m, element, p->mark, "Clench_Panel", property,
                     (int)(sizeof property / sizeof *property));
}

static int panel_write(Model *m, const PanelPiece *p, int parent)
{
    Step *s = &m->step;
    Point2(*hole)[4] = arena_take(s->arena, sizeof *hole * (size_t)(p->hole_count + 1));
    int holes = 0;
    for (int i = 0; i < p->hole_count; i++)
        if (is_inside(p, i)) hole_outline(&p->hole[i], hole[holes++]);
    const int place = shape_place(m, parent, piece_place(m, p->from_m, p->to_m));
    const int shape = body(m, &p->shape, (const Point2(*)[4])hole, holes);
    const int panel = step_add(
        s, "IFCSLAB(%s,$,%s,%s,%s,#%d,#%d,%s,.USERDEFINED.)", step_id(s, "panel", p->mark),
        step_text(s, p->mark),
        step_text(s, arena_printf(s->arena, "kind %s", m->plan->kind[p->kind].name)),
        p->anchor ? "'anchor panel'" : "'precast deck panel'", place, shape, step_text(s, p->mark));
    for (int i = 0; i < p->hole_count; i++)
        if (!is_inside(p, i)) opening_write(m, p, i, panel, place);
    quantities_write(m, p, panel);
    values_write(m, p, panel);
    members_add(m, &m->panel_material, panel);
    m->summary->panels++;
    return panel;
}

/* ---- joints ---- */

static bool is_joint(const PanelPiece *p) { return strncmp(p->left_joint, "R", 1) == 0; }

/* A narrow cast joint has a body, a glued one its line on the deck's top. */
static int joint_shape(Model *m, const PanelPiece *right, double width_m)
{
    const PanelShape *s = &right->shape;
    if (width_m > 0) {
        PanelShape gap = *s;
        gap.left_m = s->left_m - width_m;
        gap.right_m = s->left_m;
        gap.right_slope_1 = s->left_slope_1;
        return body(m, &gap, NULL, 0);
    }
    double point[3][3];
    int count = 0;
    for (int i = 0; i < 3; i++) {
        const double z_m = i == 0 ? s->from_z_m : i == 1 ? 0 : s->to_z_m;
        if (i == 1 && (s->rise_1 == 0 || s->from_z_m >= 0 || s->to_z_m <= 0)) continue;
        point[count][0] = corner(s, z_m, false).x_m;
        point[count][1] = -z_m;
        point[count++][2] = s->edge_m + s->rise_1 * (s->half_m - fabs(z_m));
    }
    return shape_line(m, (const double(*)[3])point, count);
}

static int joint_write(Model *m, const PanelPiece *right, int parent, int left_id, int right_id)
{
    Step *s = &m->step;
    const bool glued = m->plan->glued;
    const double width_m = glued ? 0 : model_value(m, "panels.joint_width");
    const char *side = right->mark + strlen(right->mark) - 1;
    const char *mark =
        arena_printf(s->arena, "%s%s", right->left_joint, *side == 'L' || *side == 'R' ? side : "");
    const double thick_m = right->body.gross_m3 / right->body.area_m2;
    const int place = shape_place(m, parent, piece_place(m, right->from_m, right->to_m));
    const int shape = joint_shape(m, right, width_m);
    const int joint =
        step_add(s, "IFCFASTENER(%s,$,%s,$,%s,#%d,#%d,%s,.%s.)", step_id(s, "joint", mark),
                 step_text(s, mark), glued ? "'glued joint'" : "'narrow cast joint'", place, shape,
                 step_text(s, mark), glued ? "GLUE" : "MORTAR");
    const char *const property[][2] = {
        {"Mark", label(m, mark)},
        {"Station", length(m, right->from_m)},
        {"AlongTheJoint", length(m, right->body.left_edge_m)},
        {"Width", length(m, width_m)},
        {"Face", measure(m, "IFCAREAMEASURE", right->body.left_edge_m * thick_m, DIM_AREA)}};
    model_properties(m, joint, mark, "Clench_Joint", property, 5);
    step_add(s, "IFCRELCONNECTSWITHREALIZINGELEMENTS(%s,$,$,$,$,#%d,#%d,(#%d),'joint')",
             step_id(s, "connects", mark), left_id, right_id, joint);
    m->summary->joints++;
    return joint;
}

/* ---- gap and longitudinal closure ---- */

static int cast_slab(Model *m, const char *mark, const char *what, const PanelShape *shape,
                     int place)
{
    Step *s = &m->step;
    const int solid = body(m, shape, NULL, 0);
    const int slab =
        step_add(s, "IFCSLAB(%s,$,%s,$,%s,#%d,#%d,%s,.USERDEFINED.)", step_id(s, "cast", mark),
                 step_text(s, mark), step_text(s, what), place, solid, step_text(s, mark));
    members_add(m, &m->cast_material, slab);
    return slab;
}

static int gap_write(Model *m, const PanelRun *run, int parent)
{
    const double half_m = m->plan->deck_width_m / 2, width_m = run->gap_to_m - run->gap_from_m;
    const double turn_rad = m->radius_m != 0 ? -width_m / 2 / m->radius_m : 0;
    const PanelShape shape = {.left_m = 0,
                              .right_m = width_m,
                              .left_slope_1 = tan(m->skew_all_rad + turn_rad),
                              .right_slope_1 = tan(m->skew_all_rad - turn_rad),
                              .from_z_m = -half_m,
                              .to_z_m = half_m,
                              .edge_m = m->thickness_m,
                              .half_m = half_m,
                              .rise_1 = m->plan->piece[run->first].shape.rise_1};
    const char *mark = arena_printf(m->step.arena, "%s-gap", run->name);
    const int place = shape_place(m, parent, piece_place(m, run->gap_from_m, run->gap_to_m));
    const int slab = cast_slab(m, mark, "closure and fill", &shape, place);
    const char *const property[][2] = {
        {"Mark", label(m, mark)},
        {"StationFrom", length(m, run->gap_from_m)},
        {"StationTo", length(m, run->gap_to_m)},
        {"ShareCastRoundTheJacks", real(m, model_value(m, "closure.fraction"))},
        {"Jacks", whole(m, (int)lround(model_value(m, "jacks.count")))},
        {"ClosureCastOnDay", real(m, model_value(m, "days.closure_cast"))},
        {"FillCastOnDay", real(m, model_value(m, "days.fill_cast"))},
        {"Strength28Days", measure(m, "IFCPRESSUREMEASURE",
                                   model_value(m, "concrete.closure.strength"), DIM_STRESS)}};
    model_properties(m, slab, mark, "Clench_Closure", property,
                     (int)(sizeof property / sizeof *property));
    m->summary->gaps++;
    return slab;
}

/* Between two panels side by side, as long as they are. */
static int strip_write(Model *m, const PanelPiece *p, int parent)
{
    PanelShape shape = p->shape;
    shape.from_z_m = -m->plan->strip_m / 2;
    shape.to_z_m = m->plan->strip_m / 2;
    const char *mark = arena_printf(m->step.arena, "%.*sC", (int)strlen(p->mark) - 1, p->mark);
    m->summary->strips++;
    return cast_slab(m, mark, "longitudinal closure", &shape,
                     shape_place(m, parent, piece_place(m, p->from_m, p->to_m)));
}

/* ---- runs ---- */

static void run_write(Model *m, const PanelRun *run)
{
    Step *s = &m->step;
    Members part = {0};
    const int place = shape_place(m, m->deck_place, (ModelPlace){0, 0, 0, 0});
    const int assembly =
        step_add(s, "IFCELEMENTASSEMBLY(%s,$,%s,%s,'run of panels',#%d,$,%s,.SITE.,.DECK.)",
                 step_id(s, "run", run->name), step_text(s, run->name), step_text(s, run->unit),
                 place, step_text(s, run->name));
    int left = 0;
    for (int i = 0; i < run->count; i++) {
        const PanelPiece *p = &m->plan->piece[run->first + i];
        const int panel = panel_write(m, p, place);
        members_add(m, &part, panel);
        /* pieces of one row follow each other, so that the one before is the left neighbour */
        if (is_joint(p)) members_add(m, &part, joint_write(m, p, place, left, panel));
        if (m->plan->strip_m > 0 && p->shape.from_z_m < 0)
            members_add(m, &part, strip_write(m, p, place));
        left = panel;
    }
    members_add(m, &part, gap_write(m, run, place));
    model_aggregate(m, run->name, assembly, &part);
    members_add(m, &m->on_deck, assembly);
}

/* A block of the file's width and weight: its true outline is not in the file. */
static void barrier_write(Model *m, const PanelRun *run, int side)
{
    Step *s = &m->step;
    const double width_m = model_value(m, "loads.barrier_width"),
                 load = model_value(m, "loads.barrier");
    const double height_m = load / width_m / model_value(m, "deck.density");
    const double left_m = -side * (m->plan->deck_width_m - width_m) / 2;
    const double shift_m = -left_m * tan(m->plan->skew_rad);
    const char *mark =
        arena_printf(s->arena, "%s-barrier %s", run->name, side < 0 ? "left" : "right");
    const Point2 point[4] = {
        {width_m / 2, 0}, {width_m / 2, height_m}, {-width_m / 2, height_m}, {-width_m / 2, 0}};
    const int place =
        shape_place(m, m->deck_place, model_place(m, run->start_m + shift_m, left_m, 0));
    const int solid = shape_along(m, shape_outline(m, point, 4, NULL, 0), run->length_m);
    const int shape = shape_product(m, solid, false);
    const int wall =
        step_add(s,
                 "IFCWALL(%s,$,%s,'a block of the right width and weight: its outline is not in "
                 "the bridge file','barrier',#%d,#%d,%s,.PARAPET.)",
                 step_id(s, "barrier", mark), step_text(s, mark), place, shape, step_text(s, mark));
    members_add(m, &m->on_deck, wall);
    m->summary->barriers++;
}

void deck_write(Model *m)
{
    for (int r = 0; r < m->plan->run_count; r++) {
        run_write(m, &m->plan->run[r]);
        const bool barriers =
            model_value(m, "loads.barrier") > 0 && model_value(m, "loads.barrier_width") > 0;
        if (!barriers || m->radius_m != 0) continue;
        barrier_write(m, &m->plan->run[r], -1);
        barrier_write(m, &m->plan->run[r], 1);
    }
}
