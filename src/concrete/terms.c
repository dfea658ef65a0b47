#include "model.h"

#include <assert.h>

#include "terms_table.h" /* concrete_term_day, sample_day, sample_weight */

void concrete_creep_terms(const ConcreteMix *mix, double loaded_age_day,
                          double term_per_Pa[CONCRETE_TERMS])
{
    assert(loaded_age_day > 0);
    double creep[TERM_SAMPLES];
    model_row(mix)->creep_1(mix, loaded_age_day, sample_day, TERM_SAMPLES, creep);
    const double scale = model_creep_scale_per_Pa(mix, loaded_age_day);
    for (int m = 0; m < CONCRETE_TERMS; m++) {
        double sum = 0;
        for (int k = 0; k < TERM_SAMPLES; k++) sum += sample_weight[m][k] * creep[k];
        term_per_Pa[m] = scale * sum;
    }
}
