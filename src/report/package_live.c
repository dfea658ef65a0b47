/* The package: live load and temperature at the joints, and the stresses that checks cite. */
#include <math.h>
#include <string.h>

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

enum { AXLE_COLUMNS = 9, LAYER_COLUMNS = 9 };

/* What a newton at an axle brings. */
typedef struct Brings {
    double value; /* unit: none, or m */
    const char *head, *product, *unit, *sum_unit;
} Brings;

static int brings_of(const Report *r, const LiveWorking *w, const LiveAxle *a, Brings out[3])
{
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    const char *const force = quantity_unit(r->source->units, DIM_FORCE);
    const char *const moment = quantity_unit(r->source->units, DIM_MOMENT);
    if (!w->fibre) {
        const bool arm = w->kind == LIVE_MOMENT;
        out[0] = (Brings){a->ordinate, "i", "P i", arm ? x : "1", arm ? moment : force};
        return 1;
    }
    out[0] = (Brings){a->N_1, "n", "P n", "1", force};
    out[1] = (Brings){a->M_m, "m", "P m", x, moment};
    out[2] = (Brings){a->section_m, "mS", "P mS", x, moment};
    return 3;
}

static const char *in_unit(const Report *r, double value, const char *unit)
{
    return number(r, value, strcmp(unit, "1") == 0 ? "" : unit);
}

/* Loads of the position and what one of them gives: the sums are those of the sheet below. */
static void axles_table(Report *r, const CheckWorking *w)
{
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    const char *const force = quantity_unit(r->source->units, DIM_FORCE);
    Brings b[3];
    const int kinds = brings_of(r, w->live, &w->live->axle[0], b);
    FigureTable *const t =
        figure_table_start(r->arena,
                           arena_printf(r->arena, "Where the axles stand: %s%s", w->live->vehicle,
                                        w->live->train ? ", two of them" : ""),
                           3 + 2 * kinds);
    const char *cell[AXLE_COLUMNS] = {"axle", package_head(r, "x", x), package_head(r, "P", force)};
    for (int k = 0; k < kinds; k++) {
        cell[3 + 2 * k] = package_head(r, b[k].head, b[k].unit);
        cell[4 + 2 * k] = package_head(r, b[k].product, b[k].sum_unit);
    }
    for (int c = 0; c < 3 + 2 * kinds; c++) figure_table_column(t, c, c > 0, cell[c]);
    double sum[3] = {0};
    for (int i = 0; i < w->live->axle_count; i++) {
        const LiveAxle *const a = &w->live->axle[i];
        brings_of(r, w->live, a, b);
        cell[0] = arena_printf(r->arena, "%d", i + 1);
        cell[1] = number(r, a->x_m, x);
        cell[2] = number(r, a->load_N, force);
        for (int k = 0; k < kinds; k++) {
            sum[k] += a->load_N * b[k].value;
            cell[3 + 2 * k] = in_unit(r, b[k].value, b[k].unit);
            cell[4 + 2 * k] = number(r, a->load_N * b[k].value, b[k].sum_unit);
        }
        figure_table_row(t, cell);
    }
    cell[0] = "sum";
    cell[1] = cell[2] = "";
    for (int k = 0; k < kinds; k++) {
        cell[3 + 2 * k] = "";
        cell[4 + 2 * k] = number(r, sum[k], b[k].sum_unit);
    }
    figure_table_row(t, cell);
    document_table(r, t);
}

/* Pieces of the part's depth with their integrals: the sums are those of the sheet below. */
static void layers_table(Report *r, const GradientWorking *w)
{
    const bool us = r->source->units == UNITS_US;
    const char *const in = us ? "in" : "m", *const rise = us ? "delta_degF" : "delta_degC";
    const char *const sum = us ? "in^2*delta_degF" : "m^2*delta_degC";
    const char *const moment = us ? "in^3*delta_degF" : "m^3*delta_degC";
    const char *const unit[LAYER_COLUMNS] = {"", in, in, in, in, rise, rise, sum, moment};
    static const char *const name[LAYER_COLUMNS] = {"layer", "y",  "h",    "B1",   "B2",
                                                    "T1",    "T2", "∫ bT", "∫ bTy"};
    FigureTable *const t = figure_table_start(
        r->arena,
        "Layers of the part that are warmer or colder, y of their top below its centroid, widths "
        "and rises at their top (1) and bottom (2)",
        LAYER_COLUMNS);
    for (int c = 0; c < LAYER_COLUMNS; c++)
        figure_table_column(t, c, c > 0, c ? package_head(r, name[c], unit[c]) : name[c]);
    const char *cell[LAYER_COLUMNS] = {NULL};
    double total[2] = {0, 0}; /* unit: K m2, K m3 */
    for (int i = 0; i < w->layer_count; i++) {
        const WarmLayer *const l = &w->layer[i];
        const double value[LAYER_COLUMNS] = {
            0,        l->y_m,      l->height_m, l->top_width_m, l->bottom_width_m,
            l->top_K, l->bottom_K, l->sum_K_m2, l->moment_K_m3};
        cell[0] = arena_printf(r->arena, "%d", i + 1);
        for (int c = 1; c < LAYER_COLUMNS; c++) cell[c] = number(r, value[c], unit[c]);
        total[0] += l->sum_K_m2;
        total[1] += l->moment_K_m3;
        figure_table_row(t, cell);
    }
    cell[0] = "sum";
    for (int c = 1; c < 7; c++) cell[c] = "";
    cell[7] = number(r, total[0], sum);
    cell[8] = number(r, total[1], moment);
    figure_table_row(t, cell);
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
    package_section(r, "Effects of live load and gradient that the checks cite");
    document_add(
        r, REPORT_TEXT,
        "One lane each, impact in; the lanes of the line and the factors stand in the check. Of a "
        "stress a newton at x brings n to the normal force and m to the moment of the part about "
        "its own centroid, and mS to the moment of girder and deck together; of another effect it "
        "brings i: ordinates of influence lines of the structure of that day. Axles that do not "
        "add to the effect are left out; x is that of the unit.");
    document_add(
        r, REPORT_TEXT,
        "Of a gradient: a layer has the integrals h (2 B1 T1 + B1 T2 + B2 T1 + 2 B2 T2) / 6 of b T "
        "and, of b T y, y times that plus h² (B1 T1 + B1 T2 + B2 T1 + 3 B2 T2) / 12.");
    for (int i = 0; i < checks->working_count; i++) {
        const CheckWorking *const w = &checks->working[i];
        const char *mark = NULL;
        const Sheet *const like = first_like(checks, i, &mark);
        package_section(r, w->title);
        r->last->folded = true;
        if (w->live && w->live->axle_count > 0) axles_table(r, w);
        if (w->gradient && w->gradient->layer_count > 0) layers_table(r, w->gradient);
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
