/* The package: what concrete does with time. */
#include <math.h>

#include "document.h"

/* Of the modulus: ksi or MPa. */
static const char *modulus_unit(const Report *r)
{
    return r->source->units == UNITS_US ? "ksi" : "MPa";
}

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

/* ---- one row of the tables worked out ---- */

static bool is_worked_out(const Material *m)
{
    return m->mix.model == TIME_AASHTO2015 || m->mix.model == TIME_AASHTO2005 ||
           m->mix.model == TIME_EN1992;
}

static const char clause[] = "AASHTO LRFD 5.4.2.3 (from memory)";

/* The modulus at the strength f: by formula, or from the measured one at 28 days. */
static void write_modulus(Sheet *s, const ConcreteMix *mix, const char *symbol, const char *f,
                          const char *words)
{
    const char *const from = "AASHTO LRFD 5.4.2.4 (from memory)";
    const char *const power = mix->modulus_2005 ? "0.5" : "0.33";
    if (mix->modulus28_Pa > 0)
        sheet_empirical(s, symbol, arena_printf(s->arena, "E_28 (%s / f_28)^%s", f, power), "ksi",
                        words, from);
    else
        sheet_empirical(s, symbol,
                        arena_printf(s->arena,
                                     mix->modulus_2005 ? "33000 K_1 w_c^1.5 %s^0.5"
                                                       : "120000 K_1 w_c^2 %s^0.33",
                                     f),
                        "ksi", words, from);
}

static void write_strength(Sheet *s, const ConcreteMix *mix)
{
    static const char growth[] = "ACI 209R-92 2.2.1 (from memory)", file[] = "inputs, defaults";
    sheet_given_from(s, "f'c", mix->fc28_Pa, "ksi", "strength at 28 days", file);
    sheet_given_from(s, "alpha", mix->strength_alpha_day, "day", "growth of strength", file);
    sheet_given_from(s, "beta", mix->strength_beta_1, "", "likewise", file);
    sheet_formula(s, "f_t", "t f'c / (alpha + beta t)", "ksi", "strength then", growth);
    sheet_formula(s, "f_i", "t_i f'c / (alpha + beta t_i)", "ksi", "strength when loaded", growth);
    if (mix->modulus28_Pa > 0) {
        sheet_given_from(s, "E_28", mix->modulus28_Pa, "ksi", "measured at 28 days", file);
        sheet_formula(s, "f_28", "28 [day] f'c / (alpha + beta 28 [day])", "ksi",
                      "strength at 28 days by that growth", growth);
    } else {
        sheet_given_from(s, "w_c", mix->weight_N_per_m3, "kcf", "weight", file);
        sheet_given_from(s, "K_1", mix->K1_1, "", "aggregate", file);
    }
    write_modulus(s, mix, "E_t", "f_t", "modulus then");
    write_modulus(s, mix, "E_i", "f_i", "modulus when loaded");
}

static void write_factors(Sheet *s, const ConcreteMix *mix)
{
    static const char file[] = "inputs, defaults";
    const double first_Pa = mix->fci_Pa > 0 ? mix->fci_Pa : 0.8 * mix->fc28_Pa;
    sheet_given_from(s, "f'ci", first_Pa, "ksi", "strength at first loading; 0.8 f'c if open",
                     file);
    sheet_given_from(s, "v", mix->volume_to_surface_m, "in", "volume over surface", file);
    sheet_given_from(s, "H", 100 * mix->humidity_ratio, "", "humidity, per cent", file);
    sheet_empirical(s, "k_s", "max(1.45 - 0.13 v, 1)", "", "size", clause);
    sheet_empirical(s, "k_f", "5 / (1 + f'ci)", "", "strength", clause);
    sheet_empirical(s, "c_t",
                    mix->model == TIME_AASHTO2015
                        ? "12 (100 - 4 * min(f'ci, 15)) / (min(f'ci, 15) + 20)"
                        : "61 - 4 * min(f'ci, 15)",
                    "day", "half time", clause);
}

static void write_creep(Sheet *s, const ConcreteMix *mix)
{
    static const char file[] = "inputs, defaults";
    sheet_given_from(s, "m_c", mix->creep_factor_1, "", "measured creep over the formula's", file);
    sheet_empirical(s, "k_hc", "1.56 - 0.008 H", "", "humidity, creep", clause);
    sheet_empirical(s, "phi", "1.9 m_c k_s k_hc k_f t_i^-0.118 (t - t_i) / (c_t + t - t_i)", "",
                    "creep coefficient", clause);
    sheet_formula(s, "J", "(1 + phi) / E_i", "1/ksi", "strain by a unit stress", clause);
    if (!(sheet_value(s, "t") > sheet_value(s, "t_e"))) return;
    const bool early = mix->cure_end_age_day < 5;
    sheet_given_from(s, "m_s", mix->shrinkage_factor_1, "", "measured shrinkage, likewise", file);
    if (early) sheet_given_from(s, "k_e", mix->early_drying_1, "", "drying before 5 days", file);
    sheet_empirical(s, "k_hs", "2 - 0.014 H", "", "humidity, shrinkage", clause);
    sheet_empirical(s, "e_sh",
                    early ? "0.48e-3 * m_s k_e k_s k_hs k_f (t - t_e) / (c_t + t - t_e)"
                          : "0.48e-3 * m_s k_s k_hs k_f (t - t_e) / (c_t + t - t_e)",
                    "", "shrinkage since the end of curing, shortening", clause);
}

/* The last row of its table. */
static Sheet *time_sheet(const Report *r, const LineAnswer *line, int material)
{
    const StageHistory *const h = line->history;
    const Material *const m = &h->model->material[material];
    const double loaded_day =
        fmax(h->day[line->jacked.time], birth_day(h->model, material)) - m->cast_day;
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = sheet_start(arena_printf(r->arena, "%s at the end of life", m->name), r->arena);
    if (!isfinite(loaded_day) || !(loaded_day > 0)) return NULL;
    sheet_given_from(s, "t", h->day[h->time_count - 1] - m->cast_day, "day", "age", "calendar");
    sheet_given_from(s, "t_i", loaded_day, "day", "age when the stress is put on", "calendar");
    sheet_given_from(s, "t_e", m->mix.cure_end_age_day, "day", "end of curing", "inputs, defaults");
    if (m->mix.model == TIME_EN1992) {
        package_time_en(s, &m->mix);
        return s;
    }
    write_strength(s, &m->mix);
    write_factors(s, &m->mix);
    write_creep(s, &m->mix);
    return s;
}

static void time_sheets(Report *r, const LineAnswer *line)
{
    const StageModel *const m = line->history->model;
    const Sheet *first = NULL;
    for (int k = 0; k < m->material_count; k++) {
        if (m->material[k].kind != MATERIAL_CONCRETE) continue;
        if (!is_worked_out(&m->material[k])) {
            document_add(r, REPORT_TEXT,
                         arena_printf(r->arena, "%s: the formulas of %s are not worked out here.",
                                      m->material[k].name,
                                      time_model_source(m->material[k].mix.model)));
            continue;
        }
        Sheet *const s = time_sheet(r, line, k);
        if (!s) continue;
        const Sheet *const like = first && sheet_same_formulas(first, s) ? first : NULL;
        package_section(r, s->title);
        if (like)
            document_add(r, REPORT_TEXT, arena_printf(r->arena, "Formulas as in %s.", like->title));
        ReportBlock *const block = document_add(r, REPORT_SHEET, s->title);
        block->sheet = s;
        block->like = like;
        if (!first) first = s;
    }
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
    time_sheets(r, line);
}
