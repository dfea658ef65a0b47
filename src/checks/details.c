/* Measures of pockets and connectors: spacing, pitch, edge, reach into the panel, cover, least area. */
#include "strength.h"
#include "table.h"

#include <math.h>

static void spacing(const CheckCase *with, CheckList *list)
{
    const KitLine *k = &with->shared->line[0];
    const PartSection *girder = line_girder(k, 0, NULL);
    const double depth_m = girder ? girder->top_m + girder->bottom_m : 0;
    Sheet s = sheet_start("Spacing of pockets", with->arena);
    value_give(&s, with, "s", "connectors.spacing", "in", "between pockets");
    value_give(&s, with, "s_c", "criteria.cluster_spacing", "in", "largest spacing");
    sheet_given_from(&s, "d_g", depth_m, "in", "depth of the girder", from_sections);
    const char *clause = with->shared->steel ? "AASHTO LRFD 6.10.10.1.2 (from memory)"
                                             : "AASHTO LRFD 5.7.4.5 (from memory)";
    sheet_formula(
        &s, "s_max",
        with->shared->steel ? "if(d_g >= 24 [in], s_c, min(s_c, 24 [in]))" : "min(s_c, d_g)", "in",
        with->shared->steel ? "24 in where the girder is shallow"
                            : "not more than the girder's depth",
        clause);
    /* a default against a default proves nothing: no ratio then */
    const bool given = value_is_given(with, "connectors.spacing");
    CheckRow *row = check_add(list, with, &s, "spacing of pockets", sheet_SI(&s, "s"),
                              value_known(&s, "s_max", given), DIM_LENGTH);
    check_place(row, "", "pockets", "as built", clause);
    check_needs(
        row, with, "connectors.spacing",
        text_in(with, "the spacing is not chosen: at most %s", sheet_SI(&s, "s_max"), "in", "mm"));
}

/* Distances that must not be smaller: the least one is the demand, what is there the capacity. */
static CheckRow *least(const CheckCase *with, CheckList *list, const Sheet *s, const char *name,
                       const char *clause)
{
    CheckRow *row =
        check_add(list, with, s, name, sheet_SI(s, "x_min"), sheet_SI(s, "x"), DIM_LENGTH);
    check_place(row, "", "pockets", "as built", clause);
    return row;
}

/* The same for a distance that is an input by itself: without a ratio where it is a default. */
static void least_given(const CheckCase *with, CheckList *list, const Sheet *s, const char *name,
                        const char *path, const char *clause)
{
    const double there_m = value_known(s, "x", value_is_given(with, path));
    CheckRow *row = check_add(list, with, s, name, sheet_SI(s, "x_min"), there_m, DIM_LENGTH);
    check_place(row, "", "pockets", "as built", clause);
    check_needs(row, with, path,
                text_in(with, "the rows of a pocket are not chosen: at least %s",
                        sheet_SI(s, "x_min"), "in", "mm"));
}

static void pitch(const CheckCase *with, CheckList *list)
{
    static const char clause[] = "AASHTO LRFD 6.10.10.1.2 (from memory)";
    Sheet s = sheet_start("Rows of studs in a pocket", with->arena);
    value_give(&s, with, "d", "connectors.diameter", "in", "diameter of a stud");
    value_give(&s, with, "x", "connectors.pitch", "in", "between rows");
    sheet_formula(&s, "x_min", "6 d", "in", "least distance along the girder", clause);
    least_given(with, list, &s, "distance of rows in a pocket", "connectors.pitch", clause);
}

static void gauge(const CheckCase *with, CheckList *list)
{
    static const char clause[] = "AASHTO LRFD 6.10.10.1.3 (from memory)";
    Sheet s = sheet_start("Studs of a row", with->arena);
    value_give(&s, with, "d", "connectors.diameter", "in", "diameter of a stud");
    value_give(&s, with, "x", "connectors.gauge", "in", "between studs of a row");
    sheet_formula(&s, "x_min", "4 d", "in", "least distance across the girder", clause);
    least_given(with, list, &s, "distance of studs in a row", "connectors.gauge", clause);
}

static void edge(const CheckCase *with, CheckList *list)
{
    static const char clause[] = "AASHTO LRFD 6.10.10.1.3 (from memory)";
    Sheet s = sheet_start("Studs beside the edge of the flange", with->arena);
    sheet_given_from(&s, "b_f", line_top_width_m(with), "in", "width of the top flange",
                     from_flange);
    value_give(&s, with, "n_w", "connectors.per_row", "", "studs of a row");
    value_give(&s, with, "g", "connectors.gauge", "in", "between them");
    value_give(&s, with, "d", "connectors.diameter", "in", "diameter of a stud");
    sheet_formula(&s, "x", "(b_f - (n_w - 1) g - d) / 2", "in", "clear to the edge", "closed form");
    sheet_formula(&s, "x_min", "1 [in]", "in", "least clear distance", clause);
    CheckRow *row = least(with, list, &s, "studs beside the edge of the flange", clause);
    check_needs(row, with, "connectors.per_row", "the rows of a pocket are not chosen");
}

static void give_haunch(Sheet *s, const CheckCase *with)
{
    if (isnan(kit_value(with, "connectors.haunch_most")))
        value_give(s, with, "h", "deck.haunch", "in", "haunch; the deepest one is not given");
    else
        value_give(s, with, "h", "connectors.haunch_most", "in", "deepest haunch");
}

/* Both with the deepest haunch for the reach, the nominal one for the cover. */
static void reach(const CheckCase *with, CheckList *list)
{
    static const char clause[] = "AASHTO LRFD 6.10.10.1.4 (from memory)";
    const double height_m = kit_value(with, "connectors.height");
    Sheet s = sheet_start("Reach of connectors into the panel", with->arena);
    give_haunch(&s, with);
    sheet_formula(&s, "x_min", "2 [in]", "in", "least reach above the panel's soffit", clause);
    sheet_formula(&s, "H_min", "h + x_min", "in", "height of connectors that is needed",
                  "closed form");
    if (isnan(height_m)) {
        CheckRow *row = check_add(list, with, &s, "reach of connectors into the panel",
                                  sheet_SI(&s, "x_min"), NAN, DIM_LENGTH);
        check_place(row, "", "deepest haunch", "as built", clause);
        check_needs(row, with, "connectors.height",
                    text_in(with, "at least %s above the girder top are needed",
                            sheet_SI(&s, "H_min"), "in", "mm"));
        return;
    }
    value_give(&s, with, "H", "connectors.height", "in", "height above the girder top");
    sheet_formula(&s, "x", "H - h", "in", "reach into the panel", "closed form");
    CheckRow *row = least(with, list, &s, "reach of connectors into the panel", clause);
    check_needs(row, with, "connectors.haunch_most", "the deepest haunch governs the reach");
}

static void cover(const CheckCase *with, CheckList *list)
{
    static const char clause[] = "AASHTO LRFD 6.10.10.1.4 (from memory)";
    if (isnan(kit_value(with, "connectors.height"))) return;
    Sheet s = sheet_start("Cover of connectors", with->arena);
    value_give(&s, with, "H", "connectors.height", "in", "height above the girder top");
    value_give(&s, with, "h", "deck.haunch", "in", "haunch");
    value_give(&s, with, "t", "deck.thickness", "in", "panel as cast");
    sheet_formula(&s, "x", "h + t - H", "in", "cover over the connector", "closed form");
    sheet_formula(&s, "x_min", "2 [in]", "in", "least cover", clause);
    least(with, list, &s, "cover of connectors", clause);
}

/* Bars alone: least area over the length that a pocket or an anchor panel's group stands for. The
 * standard's own exception (1.33 of the demand) is not used. */
typedef struct LeastArea {
    const char *name, *line, *where, *count_path, *length_path;
    double length_m;
} LeastArea;

static void least_area(const CheckCase *with, CheckList *list, const LeastArea *of)
{
    static const char clause[] = "AASHTO LRFD 5.7.4.2 (from memory)";
    Sheet s = sheet_start(of->name, with->arena);
    connect_give(&s, with, kit_value(with, "connectors.grout"), of->length_m, true);
    const double need = sheet_formula(&s, "n_req", "0.05 [ksi] A_cv / (f_y A_b)", "",
                                      "bars over that length", clause);
    value_chosen(&s, with, "n", of->count_path, need);
    sheet_formula(&s, "A_min", "0.05 [ksi] A_cv / f_y", "in^2", "least area", clause);
    sheet_formula(&s, "A_vf", "n A_b", "in^2", "area that is there", "closed form");
    CheckRow *row =
        check_add(list, with, &s, of->name, sheet_SI(&s, "A_min"), sheet_SI(&s, "A_vf"), DIM_AREA);
    check_place(row, of->line, of->where, "as built", clause);
    connect_needs(row, with, of->count_path, NULL, need);
    check_needs(row, with, of->length_path, "the area of the interface hangs on it");
}

static void least_areas(const CheckCase *with, CheckList *list)
{
    const LeastArea pocket = {"least area of bars across the interface",
                              "",
                              "pockets",
                              "connectors.per_cluster",
                              "connectors.spacing",
                              kit_value(with, "connectors.spacing")};
    least_area(with, list, &pocket);
    if (connect_is_given(with)) return;        /* no bars are chosen: the strength is a number */
    const KitLine *k = &with->shared->line[0]; /* anchor panels are alike on all lines */
    const LeastArea anchor = {"least area of bars at an anchor panel",
                              "",
                              "anchor panels",
                              "connectors.anchor_count",
                              "panels.anchor_length",
                              connect_group_m(with, k)};
    least_area(with, list, &anchor);
}

Status check_details(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    spacing(with, list);
    reach(with, list);
    cover(with, list);
    if (connect_bars(with))
        least_areas(with, list);
    else {
        pitch(with, list);
        gauge(with, list);
        edge(with, list);
    }
    return STATUS_OK;
}
