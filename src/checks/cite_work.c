/* Workings of what live load and gradients do, each once for all rows that cite it. */
#include "cite.h"
#include "values.h"

static void write_section(Sheet *s, const KitUnits *u, double area_m2, double inertia_m4,
                          double y_m)
{
    sheet_given_from(s, "A", area_m2, u->area, "area of the part", from_sections);
    sheet_given_from(s, "I", inertia_m4, u->inertia, "its second moment of area", from_sections);
    sheet_given_from(s, "y", y_m, u->length, "fibre below its centroid (above: negative)",
                     from_sections);
}

/* Girder and deck as one section: what a reader's own influence line of moments gives. */
static void write_whole(Sheet *s, const KitUnits *u, const LiveWorking *w, const char *sum)
{
    if (!(w->whole_inertia_m4 > 0)) return;
    double axles_Nm = 0;
    for (int i = 0; i < w->axle_count; i++) axles_Nm += w->axle[i].load_N * w->axle[i].section_m;
    sheet_given_from(s, "V_S", axles_Nm, u->moment, "sum of P m_S over the axles", "table above");
    sheet_given_from(s, "L_S", w->lane_section_m2, u->area,
                     "area of the line of m_S, loaded lengths", "influence line");
    sheet_formula(s, "M_S", sum, u->moment, "moment of girder and deck together",
                  "law: statics, from the reactions");
    sheet_given_from(s, "n", w->modular_1, "", "modulus of the part over the girder's, that day",
                     "moduli of that day");
    sheet_given_from(s, "I_S", w->whole_inertia_m4, u->inertia,
                     "girder and deck as one section, in girder material, strands apart",
                     "section properties, moduli of that day");
    sheet_given_from(s, "y_S", w->whole_y_m, u->length, "fibre below the common centroid",
                     "section properties, moduli of that day");
    sheet_formula(
        s, "f_S", "n M_S y_S / I_S", u->stress,
        "for comparison: one plane section. The rest is slip between girder and deck, and "
        "normal force that bearings or ties hold",
        "closed form");
}

static void write_factors(Sheet *s, const KitUnits *u, const LiveWorking *w)
{
    sheet_given_from(s, "w", w->lane_N_per_m, u->line_load, "lane load", "live load model");
    sheet_given_from(s, "k_v", w->vehicle_1, "",
                     w->train ? "1 + impact, times the factor of two trucks" : "1 + impact",
                     "live load model");
    sheet_given_from(s, "k_w", w->lane_1, "", "on the lane load: no impact", "live load model");
}

static const char *loaded(const CheckCase *with, const LiveWorking *w)
{
    const char *unit = quantity_unit(bridge_units(with->bridge), DIM_LENGTH);
    return arena_printf(with->arena, "%.2f %s of the line carry the lane load",
                        quantity_in(w->lane_length_m, unit), unit);
}

void cite_write_live(const CheckCase *with, const LiveWorking *w, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    double N_N = 0, M_Nm = 0;
    for (int i = 0; i < w->axle_count; i++) {
        N_N += w->axle[i].load_N * w->axle[i].N_1;
        M_Nm += w->axle[i].load_N * w->axle[i].M_m;
    }
    sheet_given_from(s, "V_N", N_N, u->force, "sum of P n over the axles", "table above");
    sheet_given_from(s, "V_M", M_Nm, u->moment, "sum of P m over the axles", "table above");
    sheet_given_from(s, "L_N", w->lane_N_m, u->length, "area of the line of n, loaded lengths",
                     loaded(with, w));
    sheet_given_from(s, "L_M", w->lane_M_m2, u->area, "area of the line of m, loaded lengths",
                     "influence line");
    write_factors(s, u, w);
    sheet_formula(s, "N", "k_v V_N + k_w w L_N", u->force, "axial force of the part, one lane",
                  "law: superposition");
    sheet_formula(s, "M", "k_v V_M + k_w w L_M", u->moment, "its moment about its own centroid",
                  "law: superposition");
    write_section(s, u, w->area_m2, w->inertia_m4, w->y_m);
    sheet_formula(s, "f", "N / A + M y / I", u->stress, "of one lane, impact in",
                  "closed form: plane section");
    write_whole(s, u, w, "k_v V_S + k_w w L_S");
}

void cite_write_effect(const CheckCase *with, const LiveWorking *w, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const bool moment = w->kind == LIVE_MOMENT;
    double axles = 0; /* unit: N, N m */
    for (int i = 0; i < w->axle_count; i++) axles += w->axle[i].load_N * w->axle[i].ordinate;
    sheet_given_from(s, "V_i", axles, moment ? u->moment : u->force, "sum of P i over the axles",
                     "table above");
    sheet_given_from(s, "L_i", w->lane_area, moment ? u->area : u->length,
                     "area of the line of i, loaded lengths", loaded(with, w));
    write_factors(s, u, w);
    sheet_formula(s, "e", "k_v V_i + k_w w L_i", moment ? u->moment : u->force,
                  "of one lane, impact in", "law: superposition");
}

/* Sums over the layers, which stand in the table above. */
static void write_mean(Sheet *s, const GradientWorking *w, const char *rise, const char *slope,
                       bool US)
{
    static const char fit[] = "closed form: least squares over depth and width";
    if (!w->widths) {
        sheet_given_from(s, "T_m", w->mean_K, rise, "mean rise over the part",
                         "profile at its centroid: no widths are known");
        sheet_given(s, "T_k", 0, slope, "growth downwards: likewise none");
        return;
    }
    double sum = 0, moment = 0; /* unit: K m2, K m3 */
    for (int i = 0; i < w->layer_count; i++) {
        sum += w->layer[i].sum_K_m2;
        moment += w->layer[i].moment_K_m3;
    }
    sheet_given_from(s, "S_0", sum, US ? "in^2*delta_degF" : "m^2*delta_degC",
                     "sum of the layers' integrals of b T", "table above");
    sheet_given_from(s, "S_1", moment, US ? "in^3*delta_degF" : "m^3*delta_degC",
                     "sum of the layers' integrals of b T y", "table above");
    sheet_formula(s, "T_m", "S_0 / A", rise, "mean rise over the part", fit);
    sheet_formula(s, "T_k", "S_1 / I", slope, "growth downwards of the plane that fits", fit);
}

void cite_write_gradient(const CheckCase *with, const GradientWorking *w, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const bool US = bridge_units(with->bridge) == UNITS_US;
    const char *rise = US ? "delta_degF" : "delta_degC";
    const char *slope = US ? "delta_degF/in" : "delta_degC/m";
    sheet_given_from(s, "E", w->E_Pa, u->stress, "modulus of the part that day", from_time);
    sheet_given_from(s, "alpha", w->expansion_per_K, US ? "1/delta_degF" : "1/delta_degC",
                     "expansion", "bridge file or default: expansion");
    sheet_given_from(s, "T_y", w->rise_K, rise, "rise at the fibre", "profile, table above");
    write_section(s, u, w->area_m2, w->inertia_m4, w->y_m);
    write_mean(s, w, rise, slope, US);
    sheet_formula(s, "f_0", "-E alpha T_y", u->stress, "fibre held fast", "closed form");
    sheet_formula(s, "f_s", "f_0 + E alpha T_m + E alpha T_k y", u->stress,
                  "the part free to lengthen and to bend: in balance with itself", "closed form");
    sheet_given_from(s, "N_T", w->N_N, u->force, "what the other parts and the supports hold",
                     "structure of that day, warmed over its depth");
    sheet_given_from(s, "M_T", w->M_Nm, u->moment, "its moment about the part's centroid",
                     "structure of that day, warmed over its depth");
    sheet_formula(s, "f", "f_s + N_T / A + M_T y / I", u->stress, "of the gradient",
                  "closed form: plane section");
}
