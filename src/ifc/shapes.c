/* Places, outlines and solids. */
#include <math.h>

#include "model.h"

static int point3(Model *m, double x_m, double y_m, double z_m)
{
    return step_add(&m->step, "IFCCARTESIANPOINT((%s,%s,%s))", step_length(&m->step, x_m),
                    step_length(&m->step, y_m), step_length(&m->step, z_m));
}

static int direction(Model *m, double x_1, double y_1, double z_1)
{
    const Step *s = &m->step;
    return step_add(&m->step, "IFCDIRECTION((%s,%s,%s))", step_real(s, x_1), step_real(s, y_1),
                    step_real(s, z_1));
}

int shape_place(Model *m, int parent, ModelPlace p)
{
    const int at = point3(m, p.x_m, p.y_m, p.z_m), up = direction(m, 0, 0, 1);
    const int along = direction(m, cos(p.heading_rad), sin(p.heading_rad), 0);
    const int axes = step_add(&m->step, "IFCAXIS2PLACEMENT3D(#%d,#%d,#%d)", at, up, along);
    return step_add(&m->step, "IFCLOCALPLACEMENT(#%d,#%d)", parent, axes);
}

/* Closed: the first point again at the end. */
static int curve(Model *m, const Point2 *point, int count)
{
    Text list = text_start(m->step.arena);
    for (int i = 0; i <= count; i++)
        text_printf(&list, "%s(%s,%s)", i ? "," : "", step_length(&m->step, point[i % count].x_m),
                    step_length(&m->step, point[i % count].y_m));
    const int points = step_add(&m->step, "IFCCARTESIANPOINTLIST2D((%s),$)", list.bytes);
    return step_add(&m->step, "IFCINDEXEDPOLYCURVE(#%d,$,.F.)", points);
}

int shape_outline(Model *m, const Point2 *point, int count, const Point2 (*hole)[4], int holes)
{
    const int outer = curve(m, point, count);
    if (!holes) return step_add(&m->step, "IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,#%d)", outer);
    int *const inner = ARENA_NEW(m->step.arena, int, holes);
    for (int i = 0; i < holes; i++) inner[i] = curve(m, hole[i], 4);
    return step_add(&m->step, "IFCARBITRARYPROFILEDEFWITHVOIDS(.AREA.,$,#%d,%s)", outer,
                    step_list(&m->step, inner, holes));
}

static int extruded(Model *m, int profile, int axes, double height_m)
{
    const int up = direction(m, 0, 0, 1);
    return step_add(&m->step, "IFCEXTRUDEDAREASOLID(#%d,#%d,#%d,%s)", profile, axes, up,
                    step_length(&m->step, height_m));
}

int shape_prism(Model *m, int profile, double height_m)
{
    return extruded(m, profile, m->origin, height_m);
}

int shape_along(Model *m, int profile, double length_m)
{
    const int at = point3(m, 0, 0, 0), along = direction(m, 1, 0, 0), left = direction(m, 0, 1, 0);
    const int axes = step_add(&m->step, "IFCAXIS2PLACEMENT3D(#%d,#%d,#%d)", at, along, left);
    return extruded(m, profile, axes, length_m);
}

/* Cuts off what is above a plane through the ridge that falls to one side. The half space is where its
 * normal points to: agreement false. */
static int cut_above(Model *m, int solid, double ridge_m, double fall_1)
{
    const double size = hypot(fall_1, 1);
    const int at = point3(m, 0, 0, ridge_m), normal = direction(m, 0, fall_1 / size, 1 / size);
    const int along = direction(m, 1, 0, 0);
    const int axes = step_add(&m->step, "IFCAXIS2PLACEMENT3D(#%d,#%d,#%d)", at, normal, along);
    const int plane = step_add(&m->step, "IFCPLANE(#%d)", axes);
    const int half = step_add(&m->step, "IFCHALFSPACESOLID(#%d,.F.)", plane);
    return step_add(&m->step, "IFCBOOLEANCLIPPINGRESULT(.DIFFERENCE.,#%d,#%d)", solid, half);
}

int shape_clip_roof(Model *m, int solid, double ridge_m, double rise_1)
{
    return cut_above(m, cut_above(m, solid, ridge_m, rise_1), ridge_m, -rise_1);
}

static int product(Model *m, int context, const char *name, const char *type, int item)
{
    const int shape = step_add(&m->step, "IFCSHAPEREPRESENTATION(#%d,'%s','%s',(#%d))", context,
                               name, type, item);
    return step_add(&m->step, "IFCPRODUCTDEFINITIONSHAPE($,$,(#%d))", shape);
}

int shape_product(Model *m, int solid, bool clipped)
{
    return product(m, m->body, "Body", clipped ? "Clipping" : "SweptSolid", solid);
}

int shape_line(Model *m, const double (*point_m)[3], int count)
{
    int *const id = ARENA_NEW(m->step.arena, int, count);
    for (int i = 0; i < count; i++) id[i] = point3(m, point_m[i][0], point_m[i][1], point_m[i][2]);
    const int line = step_add(&m->step, "IFCPOLYLINE(%s)", step_list(&m->step, id, count));
    return product(m, m->axis, "Axis", "Curve3D", line);
}
