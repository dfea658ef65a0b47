/* Flanges of steel girders in compression: AASHTO LRFD 6.10.8.2 and 6.11.8.2 (from memory). */
#include "steel.h"
#include "values.h"

#include <assert.h>
#include <math.h>

static const char list[] = "girders.plates";

static double web_slope(const CheckCase *with)
{
    return with->shared->tub ? kit_value(with, "girders.web_slope") : 0;
}

static void read_plates(const CheckCase *with, int i, Plates *p)
{
    p->top_width_m = kit_value_in(with, list, i, "top_width");
    p->top_m = kit_value_in(with, list, i, "top_thickness");
    p->web_depth_m = kit_value_in(with, list, i, "web_depth");
    p->web_m = kit_value_in(with, list, i, "web_thickness");
    p->bottom_width_m = kit_value_in(with, list, i, "bottom_width");
    p->bottom_m = kit_value_in(with, list, i, "bottom_thickness");
    p->web_count = with->shared->tub ? 2 : 1;
    p->along_1 = hypot(1, web_slope(with));
}

static bool section_of(const CheckCase *with, const Plates *p, BeamSection *section)
{
    const PlateGirder plates = {.top_width_m = p->top_width_m,
                                .top_thickness_m = p->top_m,
                                .web_depth_m = p->web_depth_m,
                                .web_thickness_m = p->web_m,
                                .bottom_width_m = p->bottom_width_m,
                                .bottom_thickness_m = p->bottom_m,
                                .web_count = p->web_count,
                                .web_slope_1 = web_slope(with)};
    return section_from_plates(&plates, section, NULL) == STATUS_OK;
}

Plates steel_plates(const CheckCase *with, const KitLine *k, int station, int side)
{
    const int part = kit_girder_part(k, k->bonded, station, side);
    assert(part >= 0);
    const PartSection *of = &k->model->section[k->model->part[part].section];
    const int count = kit_list_count(with, list, "web_depth");
    Plates p = {0};
    for (int i = 1; i <= count; i++) {
        BeamSection section;
        read_plates(with, i, &p);
        if (!section_of(with, &p, &section)) continue;
        p.area_m2 = section.area_m2;
        p.inertia_m4 = section.inertia_m4;
        p.above_soffit_m = section.centroid_m;
        p.depth_m = section.depth_m;
        if (fabs(section.area_m2 / of->area_m2 - 1) < 1e-9 &&
            fabs(section.inertia_m4 / of->inertia_m4 - 1) < 1e-9)
            return p;
    }
    assert(false); /* the model's girder is one of the file's pieces */
    return p;
}

/* Along an inclined web: AASHTO LRFD 6.11.2.1 and 6.10.1.9 (from memory). */
double steel_web_compression_m(const Plates *p, double top_Pa, double bottom_Pa)
{
    if (top_Pa >= 0 && bottom_Pa >= 0) return 0;
    if (top_Pa <= 0 && bottom_Pa <= 0) return p->web_depth_m * p->along_1;
    const double pressed_Pa = -fmin(top_Pa, bottom_Pa);
    const double flange_m = top_Pa < bottom_Pa ? p->top_m : p->bottom_m;
    const double depth_m = p->depth_m * pressed_Pa / fabs(top_Pa - bottom_Pa);
    return fmin(fmax(0, depth_m - flange_m), p->web_depth_m) * p->along_1;
}

/* ---- the sheet ---- */

static const char local_source[] = "AASHTO LRFD 6.10.8.2.2 (from memory)";
static const char lateral_source[] = "AASHTO LRFD 6.10.8.2.3 (from memory)";
static const char web_source[] = "AASHTO LRFD 6.10.1.10.2 (from memory)";
static const char box_source[] = "AASHTO LRFD 6.11.8.2.2 (from memory), without shear";

/* R_b = 1 - a_wc/(1200 + 300 a_wc) (2 D_c/t_w - l_rw) <= 1. */
static void write_web(Sheet *s, const char *length, const Plates *p, bool top, double Dc_m)
{
    sheet_given_from(s, "D_c", Dc_m, length, "depth of the web in compression",
                     "straight between the stresses of both flanges");
    sheet_given_from(s, "t_w", p->web_m, length, "thickness of a web", "girders.plates");
    sheet_formula(s, "l_rw", "5.7 sqrt(E / F_y)", "", "slenderness limit of the web", web_source);
    sheet_formula(s, "r_A",
                  p->web_count > 1 && !top ? "4 * D_c t_w / (b_f t_f)" : "2 * D_c t_w / (b_f t_f)",
                  "", "webs in compression over flange, a_wc", web_source);
    sheet_formula(s, "R_b", "min(1, 1 - r_A / (1200 + 300 * r_A) * max(0, 2 * D_c / t_w - l_rw))",
                  "", "load shedding of the web", web_source);
}

static void write_flange(const CheckCase *with, Sheet *s, const Plates *p, bool top)
{
    const KitUnits *u = &with->shared->unit;
    sheet_given_from(s, "b_f", top ? p->top_width_m : p->bottom_width_m, u->length,
                     "width of the flange in compression", "girders.plates");
    sheet_given_from(s, "t_f", top ? p->top_m : p->bottom_m, u->length, "its thickness",
                     "girders.plates");
    value_give(s, with, "F_y", "girders.steel_yield", u->stress, "yield stress");
    value_give(s, with, "E", "girders.steel_modulus", u->stress, "modulus of steel");
    sheet_formula(s, "F_yr", "0.7 F_y", u->stress, "onset of yielding with residual stress",
                  local_source);
}

static void write_local(const CheckCase *with, Sheet *s)
{
    sheet_formula(s, "l_f", "b_f / (2 * t_f)", "", "slenderness of the flange", local_source);
    sheet_formula(s, "l_pf", "0.38 sqrt(E / F_y)", "", "limit of compact flanges", local_source);
    sheet_formula(s, "l_rf", "0.56 sqrt(E / F_yr)", "", "limit of noncompact flanges",
                  local_source);
    sheet_formula(s, "F_loc",
                  "R_b F_y if(l_f <= l_pf, 1, 1 - (1 - F_yr / F_y) * (l_f - l_pf) / (l_rf - l_pf))",
                  with->shared->unit.stress, "local buckling of the flange", local_source);
}

static void write_lateral(const CheckCase *with, Sheet *s, double unbraced_m)
{
    const char *length = with->shared->unit.length, *stress = with->shared->unit.stress;
    sheet_given_from(s, "L_b", unbraced_m, length, "unbraced length", "girders.unbraced");
    sheet_formula(s, "r_t", "b_f / sqrt(12 * (1 + D_c t_w / (3 * b_f t_f)))", length,
                  "radius of gyration of the flange", lateral_source);
    sheet_formula(s, "L_p", "r_t sqrt(E / F_y)", length, "limit of the plastic range",
                  lateral_source);
    sheet_formula(s, "L_r", "3.141593 r_t sqrt(E / F_yr)", length, "limit of the inelastic range",
                  lateral_source);
    sheet_formula(s, "F_el", "9.869604 * R_b E / (L_b / r_t)^2", stress,
                  "elastic buckling, moment gradient C_b = 1", lateral_source);
    sheet_formula(s, "F_ltb",
                  "if(L_b <= L_p, R_b F_y, if(L_b <= L_r, R_b F_y (1 - (1 - F_yr / F_y) * "
                  "(L_b - L_p) / (L_r - L_p)), min(F_el, R_b F_y)))",
                  stress, "lateral torsional buckling", lateral_source);
    sheet_formula(s, "F_nc", "min(F_loc, F_ltb)", stress, "nominal resistance of the flange",
                  "AASHTO LRFD 6.10.8.2.1 (from memory)");
}

/* Bottom plate of a tub between its webs, plate coefficient 4. */
static void write_box(const CheckCase *with, Sheet *s)
{
    const char *stress = with->shared->unit.stress;
    sheet_formula(s, "l_f", "b_f / t_f", "", "slenderness of the plate between the webs",
                  box_source);
    sheet_formula(s, "l_p", "0.57 sqrt(4 * E / F_y)", "", "limit of full yield", box_source);
    sheet_formula(s, "l_r", "0.95 sqrt(4 * E / F_yr)", "", "limit of the inelastic range",
                  box_source);
    sheet_formula(s, "F_nc",
                  "if(l_f <= l_p, R_b F_y, if(l_f <= l_r, R_b F_y (1 - 0.3 (l_f - l_p) / "
                  "(l_r - l_p)), 3.6 E R_b / l_f^2))",
                  stress, "nominal resistance of the plate", box_source);
}

void steel_needs_yield(const CheckCase *with, CheckRow *row)
{
    check_needs(row, with, "girders.steel_yield", "the grade of the steel is not given");
}

void steel_compression(const CheckCase *with, Sheet *s, const Plates *p, bool top, double Dc_m)
{
    const double unbraced_m = kit_value(with, "girders.unbraced");
    write_flange(with, s, p, top);
    write_web(s, with->shared->unit.length, p, top, Dc_m);
    if (with->shared->tub && !top) {
        write_box(with, s);
        return;
    }
    write_local(with, s);
    if (isnan(unbraced_m))
        sheet_formula(s, "F_nc", "F_loc", with->shared->unit.stress,
                      "nominal resistance without lateral buckling: the bracing is not given",
                      local_source);
    else
        write_lateral(with, s, unbraced_m);
}
