/* The draw of a life. */
#include <math.h>

#include "clench/odds.h"

static const char *const key[ODDS_COUNT] = {
#define X(id, name) [ODDS_##id] = (name),
    ODDS_LIST(X)
#undef X
};

static const char *const name[ODDS_COUNT] = {
    [ODDS_CREEP_DECK] = "creep of the deck",
    [ODDS_CREEP_GIRDER] = "creep of the girders",
    [ODDS_SHRINKAGE_DECK] = "shrinkage of the deck",
    [ODDS_SHRINKAGE_GIRDER] = "shrinkage of the girders",
    [ODDS_MODULUS_DECK] = "modulus of the deck",
    [ODDS_MODULUS_GIRDER] = "modulus of the girders",
    [ODDS_FRICTION] = "friction at the shims",
    [ODDS_FORCE] = "force of the jacks",
    [ODDS_WEIGHT_DECK] = "weight of the panels",
    [ODDS_WEIGHT_LATER] = "weight of what comes later",
    [ODDS_LIVE] = "live load",
    [ODDS_GRADIENT] = "temperature gradient",
    [ODDS_DRYING] = "dryness of the air",
    [ODDS_AGE] = "age of the panels",
};

const char *odds_name(OddsId id) { return name[id]; }
const char *odds_key(OddsId id) { return key[id]; }

/* Alike in the logarithm of the time since jacking. */
static void set_days(OddsStudy *study)
{
    const LineAnswer *line = &study->design->line[0];
    const double *day = line->history->day;
    const double jacked = day[line->moments.jacked], end = day[line->moments.end] - jacked;
    const double open = fmax(day[line->moments.opening] - jacked, 1e-3 * end);
    for (int k = 0; k < ODDS_TIMES; k++)
        study->after_day[k] = open * pow(end / open, (double)k / (ODDS_TIMES - 1));
}

Status odds_study(const Bridge *bridge, const ThrustAnswer *design, const OddsWish *wish,
                  OddsStudy *study, Error *err)
{
    if (wish->lives < 20 || wish->lives > ODDS_LIVES_MAX)
        return error_set(err, STATUS_BAD_INPUT, "%u lives: 20 to %d", wish->lives, ODDS_LIVES_MAX);
    OddsStudy out = {.odds = bridge_odds(bridge),
                     .design = design,
                     .settings = stage_settings_default(),
                     .thrust_N = wish->thrust_N > 0 ? wish->thrust_N : design->thrust_N,
                     .lives = wish->lives,
                     .seed = wish->seed,
                     .sample = wish->sample};
    if (!(out.thrust_N > 0))
        return error_set(err, STATUS_BAD_INPUT, "there is no thrust to judge: give one");
    for (int k = 0; k < design->line_count; k++)
        out.joint_count += design->line[k].line->joint_count;
    set_days(&out);
    *study = out;
    return STATUS_OK;
}

/* All inputs are independent. Formulas err alike for both concretes of a bridge, but shrinkage of deck and of
 * girders act against each other on the need: taken together they would make it look surer. */
double odds_normal_1(const OddsStudy *study, uint32_t life, OddsId id)
{
    return normal_quantile(sample_share(study->sample, life, study->lives, (int)id, study->seed));
}

/* Logarithm normal with that mean and standard deviation. */
double odds_factor_1(const OddsStudy *study, uint32_t life, OddsId id)
{
    const OddsLaw law = study->odds->law[id];
    if (law.spread_1 <= 0) return law.mean_1;
    const double variance = log1p(law.spread_1 * law.spread_1);
    return law.mean_1 * exp(sqrt(variance) * odds_normal_1(study, life, id) - 0.5 * variance);
}
