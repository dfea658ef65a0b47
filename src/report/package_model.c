/* The package: sections with their properties, and what concrete does with time. */
#include <math.h>
#include <string.h>

#include "document.h"

static const char *length_unit(const Report *r)
{
    return r->source->units == UNITS_US ? "in" : "m";
}

static const char *raised(const Report *r, int power)
{
    return arena_printf(r->arena, "%s^%d", length_unit(r), power);
}

/* Of the modulus: ksi or MPa. */
static const char *modulus_unit(const Report *r)
{
    return r->source->units == UNITS_US ? "ksi" : "MPa";
}

/* ---- sections ---- */

/* Where a section of one material lies: the first and the last element. */
static bool section_span(const StageModel *m, int section, int *material, int *from, int *to)
{
    *from = m->station_count;
    *to = -1;
    for (int p = 0; p < m->part_count; p++) {
        const Part *const part = &m->part[p];
        if (part->section != section) continue;
        if (part->element < *from) *from = part->element;
        if (part->element + 1 > *to) *to = part->element + 1;
        *material = part->material;
    }
    return *to >= 0;
}

static void section_row(const Report *r, FigureTable *t, const StageModel *m, int section)
{
    const PartSection *const s = &m->section[section];
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    int material = 0, from, to;
    if (!(s->inertia_m4 > 0) || !section_span(m, section, &material, &from, &to)) return;
    figure_table_row(t, (const char *[]){m->material[material].name,
                                         package_number(r, m->x_m[from], x),
                                         package_number(r, m->x_m[to], x),
                                         package_number(r, s->area_m2, raised(r, 2)),
                                         package_number(r, s->inertia_m4, raised(r, 4)),
                                         package_number(r, s->top_m, length_unit(r)),
                                         package_number(r, s->bottom_m, length_unit(r))});
}

/* Strands, bars and ties have an area alone; what they sum up to differs along the line. */
static void fibres_table(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    FigureTable *const t = figure_table_start(
        r->arena, "Fibres: strands, bars, ties and strips, over all elements of the line", 4);
    const char *const head[] = {"material", package_head(r, "least area", raised(r, 2)),
                                package_head(r, "largest area", raised(r, 2)), "elements"};
    for (int c = 0; c < 4; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int k = 0; k < m->material_count; k++) {
        double least_m2 = INFINITY, most_m2 = 0;
        int count = 0;
        for (int e = 0; e + 1 < m->station_count; e++) {
            double sum_m2 = 0;
            for (int p = 0; p < m->part_count; p++)
                if (m->part[p].element == e && m->part[p].material == k &&
                    !(m->section[m->part[p].section].inertia_m4 > 0))
                    sum_m2 += m->section[m->part[p].section].area_m2;
            if (!(sum_m2 > 0)) continue;
            least_m2 = fmin(least_m2, sum_m2);
            most_m2 = fmax(most_m2, sum_m2);
            count++;
        }
        if (count > 0)
            figure_table_row(t, (const char *[]){m->material[k].name,
                                                 package_number(r, least_m2, raised(r, 2)),
                                                 package_number(r, most_m2, raised(r, 2)),
                                                 arena_printf(r->arena, "%d", count)});
    }
    document_table(r, t);
}

static void sections_table(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    const char *const x = quantity_unit(r->source->units, DIM_LENGTH);
    FigureTable *const t =
        figure_table_start(r->arena,
                           arena_printf(r->arena, "Sections of %s, each about its own centroid",
                                        document_name(r, line)),
                           7);
    const char *const head[] = {"material",
                                package_head(r, "from x", x),
                                package_head(r, "to x", x),
                                package_head(r, "area", raised(r, 2)),
                                package_head(r, "inertia", raised(r, 4)),
                                package_head(r, "to top", length_unit(r)),
                                package_head(r, "to bottom", length_unit(r))};
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c > 0, head[c]);
    for (int s = 0; s < m->section_count; s++) section_row(r, t, m, s);
    document_table(r, t);
}

/* A beam of a chain in an element; NULL where there is none. */
static const Part *beam_of(const StageHistory *h, Chain chain, int element)
{
    const int part =
        h->beam[((size_t)chain * (size_t)h->model->station_count + (size_t)element) * STAGE_BEAMS];
    return part < 0 ? NULL : &h->model->part[part];
}

static double modulus_28_Pa(const Material *m)
{
    return m->kind == MATERIAL_CONCRETE ? concrete_modulus_Pa(&m->mix, 28) : m->E_Pa;
}

static void composite_given(Sheet *s, const Report *r, const StageModel *m, const Part *girder,
                            const Part *deck)
{
    const PartSection *const g = &m->section[girder->section], *const d =
                                                                   &m->section[deck->section];
    const char *const in = length_unit(r), *const in2 = raised(r, 2), *const in4 = raised(r, 4);
    const double apart_m =
        m->haunch_m + 0.5 * m->deck_thickness_m + deck->from_height_m - girder->from_height_m;
    sheet_given(s, "A_g", g->area_m2, in2, "girder, area");
    sheet_given(s, "I_g", g->inertia_m4, in4, "girder, second moment of area");
    sheet_given(s, "c_g", g->top_m, in, "girder, centroid to top fibre");
    sheet_given(s, "b_g", g->bottom_m, in, "girder, centroid to bottom fibre");
    sheet_given(s, "A_d", d->area_m2, in2, "deck of this line, area");
    sheet_given(s, "I_d", d->inertia_m4, in4, "deck, second moment of area");
    sheet_given(s, "c_d", d->top_m, in, "deck, centroid to top fibre");
    sheet_given(s, "e", apart_m, in, "between both centroids, haunch in");
    sheet_given(s, "E_g", modulus_28_Pa(&m->material[girder->material]), modulus_unit(r),
                "girder, modulus at 28 days");
    sheet_given(s, "E_d", modulus_28_Pa(&m->material[deck->material]), modulus_unit(r),
                "deck, modulus at 28 days");
}

static void composite_add(Report *r, const LineAnswer *line)
{
    const StageHistory *const h = line->history;
    const int joint = line->finish.joint;
    if (joint < 0) return;
    const int station = line->line->joint[joint].station;
    const int element = station > 0 ? station - 1 : 0;
    const Part *const girder = beam_of(h, CHAIN_GIRDER, element);
    const Part *const deck = beam_of(h, CHAIN_DECK, element);
    if (!girder || !deck) return;
    const char *const mark = line->line->joint[joint].mark, *const in = length_unit(r);
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = sheet_start(arena_printf(r->arena, "Composite section beside %s", mark), r->arena);
    const char *const steiner = "closed form: parallel axes";
    composite_given(s, r, h->model, girder, deck);
    sheet_formula(s, "n", "E_d / E_g", "", "modular ratio", "closed form");
    sheet_formula(s, "A_c", "A_g + n A_d", raised(r, 2), "area in girder material", "closed form");
    sheet_formula(s, "y", "n A_d e / A_c", in, "composite centroid above the girder's", steiner);
    sheet_formula(s, "I_c", "I_g + n I_d + A_g y^2 + n A_d (e - y)^2", raised(r, 4),
                  "second moment of area in girder material", steiner);
    sheet_formula(s, "S_b", "I_c / (b_g + y)", raised(r, 3), "modulus, bottom of the girder",
                  "closed form");
    sheet_formula(s, "S_t", "I_c / (n (e - y + c_d))", raised(r, 3),
                  "modulus, top of the deck, in deck material", "closed form");
    package_section(r, s->title);
    document_add(r, REPORT_SHEET, s->title)->sheet = s;
}

void package_sections(Report *r)
{
    const LineAnswer *const line = document_line(r->source);
    document_add(r, REPORT_HEADING, "Section properties");
    sections_table(r, line);
    fibres_table(r, line);
    composite_add(r, line);
}

/* ---- time functions ---- */

/* Day on which a part of this material first carries. */
static double birth_day(const StageModel *m, int material)
{
    double first_day = INFINITY;
    for (int e = 0; e < m->event_count; e++) {
        if (m->event[e].kind != EVENT_BIRTH) continue;
        for (int p = 0; p < m->part_count; p++)
            if (m->part[p].material == material && m->part[p].phase == m->event[e].phase &&
                m->event[e].day < first_day)
                first_day = m->event[e].day;
    }
    return first_day;
}

static void time_row(const Report *r, FigureTable *t, const Material *m, double day,
                     const char *moment, double loaded_day)
{
    const double age_day = day - m->cast_day, loaded_age_day = loaded_day - m->cast_day;
    const bool us = r->source->units == UNITS_US;
    const double unit_Pa = 1 / quantity_in(1, us ? "psi" : "MPa");
    if (age_day <= 0) return;
    const bool loaded = loaded_age_day > 0 && age_day >= loaded_age_day;
    const double J_per_Pa =
        loaded ? concrete_compliance_per_Pa(&m->mix, age_day, loaded_age_day) : (double)NAN;
    const double E_Pa = loaded ? concrete_modulus_Pa(&m->mix, loaded_age_day) : (double)NAN;
    figure_table_row(
        t,
        (const char *[]){
            moment, arena_printf(r->arena, age_day < 1000 ? "%.1f" : "%.0f", age_day),
            package_number(r, concrete_strength_Pa(&m->mix, age_day), modulus_unit(r)),
            package_number(r, concrete_modulus_Pa(&m->mix, age_day), modulus_unit(r)),
            arena_printf(r->arena, "%.0f", -1e6 * concrete_shrinkage_1(&m->mix, age_day) + 0.0),
            loaded ? arena_printf(r->arena, us ? "%.4f" : "%.2f", 1e6 * unit_Pa * J_per_Pa) : "-",
            loaded ? arena_printf(r->arena, "%.3f", fmax(J_per_Pa * E_Pa - 1, 0)) : "-"});
}

static void time_table(Report *r, const LineAnswer *line, int material)
{
    const StageModel *const model = line->history->model;
    const Material *const m = &model->material[material];
    const double jacked_day = line->history->day[line->jacked.time];
    const double loaded_day = fmax(jacked_day, birth_day(model, material));
    if (!isfinite(loaded_day)) return;
    FigureTable *const t = figure_table_start(
        r->arena,
        arena_printf(
            r->arena, "%s, cast on day %.4g, %s; J and \xCF\x86 for a stress put on at %.4g days",
            m->name, m->cast_day, time_model_source(m->mix.model), loaded_day - m->cast_day),
        7);
    const bool us = r->source->units == UNITS_US;
    const char *const head[] = {"moment",
                                "age [day]",
                                package_head(r, "f'c(t)", modulus_unit(r)),
                                package_head(r, "E(t)", modulus_unit(r)),
                                "shrinkage [10⁻⁶]",
                                us ? "J [10⁻⁶/psi]" : "J [10⁻⁶/MPa]",
                                "\xCF\x86 [1]"};
    for (int c = 0; c < 7; c++) figure_table_column(t, c, c > 0, head[c]);
    const StageHistory *const h = line->history;
    for (int time = 0; time < h->time_count; time++) {
        const Event *const event = h->event[time] < 0 ? NULL : &h->model->event[h->event[time]];
        if (event && event->name) time_row(r, t, m, h->day[time], figure_event(event), loaded_day);
    }
    document_table(r, t);
}

void package_time(Report *r)
{
    const LineAnswer *const line = document_line(r->source);
    const StageModel *const m = line->history->model;
    document_add(r, REPORT_HEADING, "Concrete with time");
    document_add(
        r, REPORT_TEXT,
        "J(t, t\xE2\x82\x80) is the strain at age t per unit of stress put on at age "
        "t\xE2\x82\x80, the elastic part in; \xCF\x86 = E(t\xE2\x82\x80) J(t, "
        "t\xE2\x82\x80) \xE2\x88\x92 1 is the creep coefficient. Shrinkage counts from the "
        "end of curing; shortening is positive here.");
    for (int k = 0; k < m->material_count; k++)
        if (m->material[k].kind == MATERIAL_CONCRETE) time_table(r, line, k);
}
