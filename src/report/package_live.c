/* The package: live load and temperature at the joints, and the stresses that checks cite. */
#include <math.h>

#include "document.h"

static const JointLoad *load_of(const LineAnswer *line, const JointLoad *all, int joint)
{
    const int only = thrust_joint_side(line->line, joint);
    const JointLoad *const left = &all[(size_t)joint * 2], *const right = left + 1;
    if (only > 0 || (only == 0 && !left->there)) return right;
    return left;
}

static void live_table(Report *r, const LineAnswer *line, const JointLoad *all, const char *when)
{
    const UnitSystem units = r->source->units;
    const char *const x = quantity_unit(units, DIM_LENGTH);
    FigureTable *const t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "Live load at the joints, %s: lanes of this line and impact in, load factors "
                     "not in",
                     when),
        6);
    const char *const head[] = {"joint",
                                package_head(r, "x", x),
                                package_stress_head(r, "top, most"),
                                package_stress_head(r, "top, least"),
                                package_stress_head(r, "bottom, most"),
                                package_stress_head(r, "bottom, least")};
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int j = 0; j < line->line->joint_count; j++) {
        const Joint *const joint = &line->line->joint[j];
        const JointLoad *const load = load_of(line, all, j);
        if (!load->there) continue;
        figure_table_row(
            t, (const char *[]){joint->mark,
                                package_number(r, line->line->model.x_m[joint->station], x),
                                figure_stress_short(r->arena, load->live_top_max_Pa, units),
                                figure_stress_short(r->arena, load->live_top_min_Pa, units),
                                figure_stress_short(r->arena, load->live_bottom_max_Pa, units),
                                figure_stress_short(r->arena, load->live_bottom_min_Pa, units)});
    }
    document_table(r, t);
}

static void gradient_table(Report *r, const LineAnswer *line)
{
    const UnitSystem units = r->source->units;
    FigureTable *const t = figure_table_start(
        r->arena, "Temperature gradient at the joints, structure at the end of life", 5);
    const char *const head[] = {
        "joint", package_stress_head(r, "cold, top"), package_stress_head(r, "cold, bottom"),
        package_stress_head(r, "warm, top"), package_stress_head(r, "warm, bottom")};
    for (int c = 0; c < 5; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int j = 0; j < line->line->joint_count; j++) {
        const JointLoad *const load = load_of(line, line->end, j);
        if (!load->there) continue;
        figure_table_row(
            t, (const char *[]){line->line->joint[j].mark,
                                figure_stress_short(r->arena, load->cold_top_Pa, units),
                                figure_stress_short(r->arena, load->cold_bottom_Pa, units),
                                figure_stress_short(r->arena, load->warm_top_Pa, units),
                                figure_stress_short(r->arena, load->warm_bottom_Pa, units)});
    }
    document_table(r, t);
}

static void profile_table(Report *r, const BridgeLine *line)
{
    const bool us = r->source->units == UNITS_US;
    FigureTable *const t =
        figure_table_start(r->arena,
                           arena_printf(r->arena, "Temperature above the rest of the section; %s",
                                        line->warm.source ? line->warm.source : ""),
                           3);
    figure_table_column(t, 0, true, us ? "below the deck top [in]" : "below the deck top [m]");
    figure_table_column(t, 1, true, us ? "warm [°F]" : "warm [K]");
    figure_table_column(t, 2, true, us ? "cold [°F]" : "cold [K]");
    const char *const degree = us ? "delta_degF" : "K";
    for (int i = 0; i < line->warm.count && i < line->cold.count; i++)
        figure_table_row(t,
                         (const char *[]){package_number(r, line->warm.depth_m[i], us ? "in" : "m"),
                                          package_number(r, line->warm.rise_K[i], degree),
                                          package_number(r, line->cold.rise_K[i], degree)});
    document_table(r, t);
}

/* ---- workings that checks cite ---- */

static const char *number(const Report *r, double value_SI, const char *unit)
{
    char text[SHEET_NUMBER_MAX];
    const double value = quantity_in(value_SI, unit);
    return arena_text(r->arena, sheet_number(fabs(value) < 1e-9 ? 0 : value, SHEET_DIGITS, text));
}

enum { AXLE_COLUMNS = 9 };

/* Loads of the position and what one of them gives: the sums are those of the sheet below. */
static void axles_table(Report *r, const CheckWorking *w)
{
    const UnitSystem units = r->source->units;
    const char *const x = quantity_unit(units, DIM_LENGTH);
    const char *const force = quantity_unit(units, DIM_FORCE);
    const char *const moment = quantity_unit(units, DIM_MOMENT);
    const char *const head[AXLE_COLUMNS] = {"axle",
                                            package_head(r, "x", x),
                                            package_head(r, "P", force),
                                            "n [1]",
                                            package_head(r, "P n", force),
                                            package_head(r, "m", x),
                                            package_head(r, "P m", moment),
                                            package_head(r, "mS", x),
                                            package_head(r, "P mS", moment)};
    FigureTable *const t =
        figure_table_start(r->arena,
                           arena_printf(r->arena, "Where the axles stand: %s%s", w->live->vehicle,
                                        w->live->train ? ", two of them" : ""),
                           AXLE_COLUMNS);
    for (int c = 0; c < AXLE_COLUMNS; c++) figure_table_column(t, c, c > 0, head[c]);
    double sum_N[3] = {0};
    for (int i = 0; i < w->live->axle_count; i++) {
        const LiveAxle *const a = &w->live->axle[i];
        const double P_N = a->load_N, part_N[3] = {P_N * a->N_1, P_N * a->M_m, P_N * a->section_m};
        for (int k = 0; k < 3; k++) sum_N[k] += part_N[k];
        figure_table_row(t,
                         (const char *[]){arena_printf(r->arena, "%d", i + 1), number(r, a->x_m, x),
                                          number(r, P_N, force), number(r, a->N_1, ""),
                                          number(r, part_N[0], force), number(r, a->M_m, x),
                                          number(r, part_N[1], moment), number(r, a->section_m, x),
                                          number(r, part_N[2], moment)});
    }
    figure_table_row(t, (const char *[]){"sum", "", "", "", number(r, sum_N[0], force), "",
                                         number(r, sum_N[1], moment), "",
                                         number(r, sum_N[2], moment)});
    document_table(r, t);
}

/* The first one before it that has the same formulas; NULL: none. */
static const Sheet *first_like(const CheckList *checks, int index, const char **mark)
{
    for (int i = 0; i < index; i++)
        if (sheet_same_formulas(checks->working[i].sheet, checks->working[index].sheet)) {
            *mark = checks->working[i].mark;
            return checks->working[i].sheet;
        }
    return NULL;
}

static void workings_add(Report *r, const CheckList *checks)
{
    if (checks->working_count == 0) return;
    package_section(r, "Stresses of live load and gradient that the checks cite");
    document_add(
        r, REPORT_TEXT,
        "One lane each, impact in; the lanes of the line and the factors stand in the check. A "
        "newton at x brings n to the normal force and m to the moment of the part about its own "
        "centroid, and mS to the moment of girder and deck together: ordinates of influence lines "
        "of the structure of that day. Axles that do not add to the stress are left out; x is that "
        "of the unit.");
    for (int i = 0; i < checks->working_count; i++) {
        const CheckWorking *const w = &checks->working[i];
        const char *mark = NULL;
        const Sheet *const like = first_like(checks, i, &mark);
        package_section(r, w->title);
        r->last->folded = true;
        if (w->live && w->live->axle_count > 0) axles_table(r, w);
        if (like) document_add(r, REPORT_TEXT, arena_printf(r->arena, "Formulas as in %s.", mark));
        ReportBlock *const block = document_add(r, REPORT_SHEET, w->mark);
        block->sheet = w->sheet;
        block->like = like;
    }
}

void package_live(Report *r, const CheckList *checks)
{
    const LineAnswer *const line = document_line(r->source);
    const BridgeLine *const b = line->line;
    document_add(r, REPORT_HEADING, "Live load and temperature at the joints");
    document_add(
        r, REPORT_TEXT,
        arena_printf(r->arena,
                     "%s (%s), on influence lines of the structure of the day; %.3f lanes "
                     "on this line for moment, %.3f for shear; impact %.0f %% on vehicles.",
                     b->live.name, b->live.source, b->lanes_1, b->lanes_shear_1,
                     100 * b->live.impact_ratio));
    if (line->open) live_table(r, line, line->open, "structure at opening");
    if (line->end) live_table(r, line, line->end, "structure at the end of life");
    profile_table(r, b);
    if (line->end) gradient_table(r, line);
    workings_add(r, checks);
}
