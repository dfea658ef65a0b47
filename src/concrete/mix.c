#include "model.h"

#include <assert.h>
#include <stddef.h>

static const struct {
    const char *name, *source;
} model_texts[TIME_MODEL_COUNT] = {
#define X(id, name, source) {name, source},
    TIME_MODEL_LIST(X)
#undef X
};

static const ModelRow *const model_rows[TIME_MODEL_COUNT] = {
    [TIME_ELASTIC] = &model_elastic,       [TIME_AASHTO2015] = &model_aashto2015,
    [TIME_AASHTO2005] = &model_aashto2005, [TIME_MC2010] = &model_mc2010,
    [TIME_EN1992] = &model_en1992,         [TIME_ACI209] = &model_aci209,
};

const char *time_model_name(TimeModel model)
{
    assert(model < TIME_MODEL_COUNT);
    return model_texts[model].name;
}

const char *time_model_source(TimeModel model)
{
    assert(model < TIME_MODEL_COUNT);
    return model_texts[model].source;
}

const ModelRow *model_row(const ConcreteMix *mix)
{
    assert(mix->model < TIME_MODEL_COUNT);
    return model_rows[mix->model];
}

ConcreteMix concrete_mix_default(TimeModel model)
{
    return (ConcreteMix){
        .model = model,
        .fc28_Pa = 6 * KSI_Pa,
        .weight_N_per_m3 = 150 * PCF_N_per_m3,
        .K1_1 = 1,
        .modulus_2005 = model == TIME_AASHTO2005, /* the formula of those editions */
        .humidity_ratio = 0.70,
        .volume_to_surface_m = 4 * IN_m,
        .strength_alpha_day = 4, /* ACI 209R-92, Table 2.2.1: moist cured, type I */
        .strength_beta_1 = 0.85,
        .cement = CEMENT_NORMAL,
        .cure_end_age_day = 7,
        .early_drying_1 = 1.2, /* AASHTO LRFD 5.4.2.3.3 */
        .creep_factor_1 = 1,
        .shrinkage_factor_1 = 1,
        .aci_creep_mix_1 = 1,
        .aci_shrinkage_mix_1 = 1,
    };
}

/* Measured modulus over the model's at 28 days: the whole compliance scales with it. */
static double measured_1(const ConcreteMix *mix, const ModelRow *row)
{
    return mix->modulus28_Pa > 0 ? mix->modulus28_Pa / row->modulus_Pa(mix, 28) : 1;
}

double concrete_strength_Pa(const ConcreteMix *mix, double age_day)
{
    assert(age_day > 0);
    return model_row(mix)->strength_Pa(mix, age_day);
}

double concrete_modulus_Pa(const ConcreteMix *mix, double age_day)
{
    assert(age_day > 0);
    const ModelRow *const row = model_row(mix);
    return measured_1(mix, row) * row->modulus_Pa(mix, age_day);
}

/* J(t, t') = 1/E(t') + phi/E_ref, E_ref = E(t') for AASHTO and ACI 209 */
double concrete_compliance_per_Pa(const ConcreteMix *mix, double age_day, double loaded_age_day)
{
    assert(loaded_age_day > 0 && age_day >= loaded_age_day);
    const ModelRow *const row = model_row(mix);
    const double E = row->modulus_Pa(mix, loaded_age_day);
    const double E_ref = row->creep_modulus_Pa ? row->creep_modulus_Pa(mix) : E;
    const double delay = age_day - loaded_age_day;
    double phi;
    row->creep_1(mix, loaded_age_day, &delay, 1, &phi);
    return (1 / E + mix->creep_factor_1 * phi / E_ref) / measured_1(mix, row);
}

double concrete_shrinkage_1(const ConcreteMix *mix, double age_day)
{
    assert(age_day > 0);
    return mix->shrinkage_factor_1 * model_row(mix)->shrinkage_1(mix, age_day);
}

double model_creep_scale_per_Pa(const ConcreteMix *mix, double loaded_age_day)
{
    const ModelRow *const row = model_row(mix);
    const double E_ref =
        row->creep_modulus_Pa ? row->creep_modulus_Pa(mix) : row->modulus_Pa(mix, loaded_age_day);
    return mix->creep_factor_1 / (E_ref * measured_1(mix, row));
}
