/* Closure cast round the jacks: strength and stress when these are released. */
#include "table.h"
#include "values.h"

#include <math.h>
#include <string.h>

static const Material *closure_material(const KitLine *k)
{
    for (int i = 0; i < k->model->material_count; i++)
        if (strcmp(k->model->material[i].name, "closure") == 0) return &k->model->material[i];
    return NULL;
}

/* Largest compression of the closure's fibres in the gap right after release. */
static double stress_Pa(const KitLine *k, int time)
{
    const Gap *gap = &k->model->gap[0];
    double most = 0;
    for (int i = gap->left_station; i <= gap->right_station; i++)
        for (int side = -1; side <= 1; side += 2) {
            FibreStress stress;
            if ((i == gap->left_station && side < 0) || (i == gap->right_station && side > 0))
                continue;
            if (stage_stress(k->history, time, CHAIN_DECK, i, side, &stress))
                most = fmax(most, -fmin(stress.top_Pa, stress.bottom_Pa));
        }
    return most;
}

static void strength(const CheckCase *with, const KitLine *k, double age_day, double strength_Pa,
                     CheckList *list)
{
    Sheet s = sheet_start("Strength of the closure at release", with->arena);
    sheet_given_from(&s, "t_r", age_day, "day", "age of the closure at release",
                     "days.release less days.closure_cast");
    sheet_given_from(&s, "f'ct", strength_Pa, "ksi", "its strength then",
                     time_model_source(closure_material(k)->mix.model));
    value_give(&s, with, "f'cr", "closure.release_strength", "ksi", "strength that is asked for");
    CheckRow *row = check_add(list, with, &s, "strength of the closure at release",
                              sheet_SI(&s, "f'cr"), sheet_SI(&s, "f'ct"), DIM_STRESS);
    check_place(row, "", "gap", k->line->released, "common practice, no source");
    check_needs(row, with, "concrete.closure.strength_alpha",
                "strength of a few hours or days: measure it on cylinders");
}

static void stress(const CheckCase *with, const KitLine *k, int time, double strength_Pa,
                   CheckList *list)
{
    Sheet s = kit_sheet(with, k, "Stress of the closure at release");
    sheet_given_from(&s, "f_c", stress_Pa(k, time), "ksi", "largest compression in the closure",
                     "stages, jacks released");
    sheet_given_from(&s, "f'ct", strength_Pa, "ksi", "strength of the closure then", from_time);
    value_give(&s, with, "k_c", "criteria.closure", "", "share of the strength");
    sheet_formula(&s, "f_r", "k_c f'ct", "ksi", "allowed", "common practice, no source");
    CheckRow *row = check_add(list, with, &s, "stress of the closure at release",
                              sheet_SI(&s, "f_c"), sheet_SI(&s, "f_r"), DIM_STRESS);
    check_place(row, k->name, "gap", k->line->released,
                "AASHTO LRFD 5.9.2.3.2a (from memory), by analogy");
    check_needs(row, with, "closure.fraction", "the share of the width decides the stress");
}

Status check_closure(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        const Material *closure = closure_material(k);
        const int time = stage_time_named(k->history, k->line->released);
        if (!closure || time < 0 || k->model->gap_count == 0) continue;
        const double age_day = k->history->day[time] - closure->cast_day;
        const double strength_Pa = concrete_strength_Pa(&closure->mix, age_day);
        if (i == 0) strength(with, k, age_day, strength_Pa, list);
        stress(with, k, time, strength_Pa, list);
    }
    return STATUS_OK;
}
