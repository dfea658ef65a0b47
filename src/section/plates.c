/* Welded plate girders, boxes and tubs. */
#include "clench/section.h"

#include <math.h>

static Status check_plates(const PlateGirder *p, Error *err)
{
    const struct {
        double value;
        const char *key, *what;
    } size[] = {
        {p->top_width_m, "top_width", "width of the top flange"},
        {p->top_thickness_m, "top_thickness", "thickness of the top flange"},
        {p->web_depth_m, "web_depth", "depth of the web"},
        {p->web_thickness_m, "web_thickness", "thickness of the web"},
        {p->bottom_width_m, "bottom_width", "width of the bottom flange"},
        {p->bottom_thickness_m, "bottom_thickness", "thickness of the bottom flange"},
    };
    for (size_t i = 0; i < sizeof size / sizeof size[0]; i++)
        if (!(size[i].value > 0) || !isfinite(size[i].value))
            return error_at(err, STATUS_BAD_INPUT, (Place){0}, (Place){0}, size[i].key,
                            "the %s must be more than zero", size[i].what);
    if (p->web_count != 1 && p->web_count != 2)
        return error_set(err, STATUS_BAD_INPUT, "a plate girder has 1 web, a box or tub 2, not %d",
                         p->web_count);
    if (!(p->web_slope_1 >= 0) || !isfinite(p->web_slope_1) ||
        (p->web_count == 1 && p->web_slope_1 != 0))
        return error_set(err, STATUS_BAD_INPUT,
                         "the slope of the webs is 0 or more, and 0 for a single web");
    return STATUS_OK;
}

Status section_from_plates(const PlateGirder *plates, BeamSection *section, Error *err)
{
    TRY(check_plates(plates, err));
    const double webs = plates->web_count;
    /* A horizontal cut through a plate inclined s:1 is t*sqrt(1 + s^2) long (closed form). */
    const double web = webs * plates->web_thickness_m * hypot(1, plates->web_slope_1);
    const double top = webs * plates->top_width_m;
    if (top < web || plates->bottom_width_m < web)
        return error_set(err, STATUS_BAD_INPUT, "a flange is narrower than its web is thick");
    const double y1 = plates->top_thickness_m, y2 = y1 + plates->web_depth_m;
    const double y3 = y2 + plates->bottom_thickness_m;
    const double bottom = plates->bottom_width_m;
    const WidthProfile profile = {6, {0, y1, y1, y2, y2, y3}, {top, top, web, web, bottom, bottom}};
    BeamSection made;
    TRY(section_from_profile(&profile, &made, err));
    made.perimeter_m = 0; /* steel does not dry */
    *section = made;
    return STATUS_OK;
}
