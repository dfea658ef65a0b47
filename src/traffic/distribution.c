/* Lanes that one girder line carries: AASHTO LRFD 4.6.2.2. Equations and ranges from memory; they
 * reproduce the printed factors of FHWA NHI-04-041. */
#include "clench/traffic.h"
#include "lanes.h"

#include <math.h>
#include <string.h>

/* In the standard's units. */
typedef struct Terms {
    double S, L;   /* ft */
    double ts, Kg; /* in, in^4 */
    double ratio;  /* Kg/(12 L ts^3) */
    double de;     /* ft */
    double skew_deg, tan_skew;
    int Nb;
} Terms;

static Terms terms_of(const Distribution *in)
{
    const double inch = 1 / quantity_in(1, "in"), ft = 1 / quantity_in(1, "ft");
    Terms t = {
        .S = in->spacing_m / ft,
        .L = in->span_m / ft,
        .ts = in->deck_thickness_m / inch,
        .Kg = in->stiffness_Kg_m4 / (inch * inch * inch * inch),
        .de = (in->overhang_m - in->barrier_width_m) / ft,
        .skew_deg = fabs(in->skew_rad) * 180 / acos(-1),
        .tan_skew = tan(fabs(in->skew_rad)),
        .Nb = in->girder_count,
    };
    t.ratio = t.Kg / (12 * t.L * t.ts * t.ts * t.ts);
    return t;
}

static Status check_input(const Distribution *in, Error *err)
{
    const bool box = in->kind == CROSS_STEEL_BOX;
    const struct {
        double value;
        const char *what;
    } positive[] = {{in->span_m, "span"},
                    {in->spacing_m, "girder spacing"},
                    {in->deck_thickness_m, "thickness of the deck"},
                    {box ? 1 : in->stiffness_Kg_m4, "stiffness Kg"},
                    {in->roadway_m, "width of the roadway"}};
    for (size_t i = 0; i < sizeof positive / sizeof positive[0]; i++)
        if (!(positive[i].value > 0) || !isfinite(positive[i].value))
            return error_set(err, STATUS_BAD_INPUT,
                             "live load distribution: the %s must be more than zero",
                             positive[i].what);
    if (in->girder_count < 2)
        return error_set(err, STATUS_BAD_INPUT, "live load distribution needs two girders or more");
    if (!(in->overhang_m >= 0 && in->barrier_width_m >= 0 && fabs(in->skew_rad) < 1.5))
        return error_set(
            err, STATUS_BAD_INPUT,
            "live load distribution: overhang and barrier must not be negative, and the "
            "skew less than 86 degrees");
    const double clear =
        (in->girder_count - 1) * in->spacing_m + 2 * (in->overhang_m - in->barrier_width_m);
    if (in->roadway_m > clear * (1 + 1e-6))
        return error_set(err, STATUS_BAD_INPUT,
                         "a roadway of %.2f m does not fit between barriers %.2f m apart",
                         in->roadway_m, clear);
    return STATUS_OK;
}

/* ---- ranges of applicability, in words ---- */

static void remark_range(DistributionFactors *out, double value, double least, double most,
                         const char *what)
{
    if (value >= least * (1 - 1e-9) - 1e-9 && value <= most * (1 + 1e-9)) return;
    const size_t used = strlen(out->remark);
    snprintf(out->remark + used, sizeof out->remark - used, "%s%s outside %g to %g",
             used > 0 ? "; " : "", what, least, most);
    out->in_range = false;
}

/* AASHTO LRFD tables 4.6.2.2.2b-1, -2d-1, -2e-1, -3a-1, -3b-1, -3c-1, types (a) and (k). */
static void remark_girders(const Terms *t, DistributionFactors *out)
{
    remark_range(out, t->S, 3.5, 16, "girder spacing in ft");
    remark_range(out, t->ts, 4.5, 12, "deck thickness in in");
    remark_range(out, t->L, 20, 240, "span in ft");
    remark_range(out, t->Kg, 10e3, 7e6, "Kg in in^4");
    remark_range(out, t->de, -1, 5.5, "de in ft");
    remark_range(out, t->skew_deg, 0, 60, "skew in degrees");
    remark_range(out, t->Nb, 3, 1e3, "number of girders");
}

/* ---- I-girders and bulb-tees ---- */

static void interior_moment(const Terms *t, DistributionFactors *out) /* table 4.6.2.2.2b-1 */
{
    const double stiff = pow(t->ratio, 0.1);
    const double one = 0.06 + pow(t->S / 14, 0.4) * pow(t->S / t->L, 0.3) * stiff;
    const double many = 0.075 + pow(t->S / 9.5, 0.6) * pow(t->S / t->L, 0.2) * stiff;
    out->interior_moment_one_1 = one;
    out->interior_moment_many_1 = out->lane_count > 1 ? many : 0;
}

static void interior_shear(const Terms *t, DistributionFactors *out) /* table 4.6.2.2.3a-1 */
{
    out->interior_shear_one_1 = 0.36 + t->S / 25;
    out->interior_shear_many_1 =
        out->lane_count > 1 ? 0.2 + t->S / 12 - (t->S / 35) * (t->S / 35) : 0;
}

/* Three girders or fewer, two lanes or more: the lesser of formula and lever rule for moment, the
 * lever rule for shear; one lane likewise (same tables and -2d-1, -3b-1, row Nb = 3). */
static void few_girders(const Deck *deck, DistributionFactors *out)
{
    const double one = lanes_lever_interior(deck, 1), all = lanes_lever_interior(deck, 99);
    out->interior_moment_one_1 = fmin(out->interior_moment_one_1, one);
    out->interior_shear_one_1 = one;
    if (out->lane_count < 2) return;
    const double exterior = lanes_lever_exterior(deck, 99);
    out->interior_moment_many_1 = fmin(out->interior_moment_many_1, all);
    out->interior_shear_many_1 = all;
    out->exterior_formula_1 = fmin(out->exterior_formula_1, exterior);
    out->exterior_shear_formula_1 = exterior;
}

static void exterior_formulas(const Terms *t, DistributionFactors *out)
{
    out->exterior_formula_1 = (0.77 + t->de / 9.1) * out->interior_moment_many_1;    /* 2d-1 */
    out->exterior_shear_formula_1 = (0.6 + t->de / 10) * out->interior_shear_many_1; /* 3b-1 */
}

/* Moment: table 4.6.2.2.2e-1, c1 zero below 30 degrees, 60 degrees at most. Shear at the obtuse
 * corner: table 4.6.2.2.3c-1. */
static void skew_factors(const Terms *t, DistributionFactors *out)
{
    const double tan60 = sqrt(3.0);
    const double c1 = t->skew_deg < 30 - 1e-9 ? 0 : 0.25 * pow(t->ratio, 0.25) * sqrt(t->S / t->L);
    out->skew_moment_1 = 1 - c1 * pow(fmin(t->tan_skew, tan60), 1.5);
    out->skew_shear_1 = 1 + 0.20 * pow(1 / t->ratio, 0.3) * t->tan_skew;
}

static void girders(const Distribution *in, const Terms *t, const Deck *deck,
                    DistributionFactors *out)
{
    remark_girders(t, out);
    interior_moment(t, out);
    interior_shear(t, out);
    exterior_formulas(t, out);
    if (t->Nb <= 3) few_girders(deck, out);
    skew_factors(t, out);
    out->exterior_lever_1 = lanes_lever_exterior(deck, 1); /* -2d-1, -3b-1, one lane */
    out->exterior_rigid_1 = in->without_diaphragms ? 0 : lanes_rigid_exterior(deck);
    const double m = out->skew_moment_1, v = out->skew_shear_1;
    out->interior_moment_1 = m * fmax(out->interior_moment_one_1, out->interior_moment_many_1);
    out->interior_shear_1 = v * fmax(out->interior_shear_one_1, out->interior_shear_many_1);
    const double statics = fmax(out->exterior_lever_1, out->exterior_rigid_1);
    out->exterior_moment_1 = fmax(statics, m * out->exterior_formula_1);
    out->exterior_shear_1 = v * fmax(statics, out->exterior_shear_formula_1);
}

/* ---- steel boxes and tubs: table 4.6.2.2.2b-1, types (b) and (c), any number of lanes; shear alike
 * (4.6.2.2.3a), exterior alike ---- */

static void boxes(const Terms *t, DistributionFactors *out)
{
    const double NL = out->lane_count, Nb = t->Nb;
    remark_range(out, NL / Nb, 0.5, 1.5, "lanes over boxes");
    remark_range(out, t->skew_deg, 0, 0, "skew in degrees"); /* 6.11.2.3: no skewed supports */
    const double g = 0.05 + 0.85 * NL / Nb + 0.425 / NL;
    const double one = 0.05 + 0.85 / Nb + 0.425; /* the same of one lane */
    out->interior_moment_1 = out->exterior_moment_1 = g;
    out->interior_shear_1 = out->exterior_shear_1 = g;
    out->interior_moment_one_1 = out->interior_shear_one_1 = one;
    out->interior_moment_many_1 = out->interior_shear_many_1 = g;
    out->exterior_formula_1 = out->exterior_shear_formula_1 = g;
    out->skew_moment_1 = out->skew_shear_1 = 1;
}

Status traffic_distribution(const Distribution *in, DistributionFactors *out, Error *err)
{
    TRY(check_input(in, err));
    const Terms t = terms_of(in);
    Deck deck = {.girder_count = t.Nb, .spacing_ft = t.S, .curb_ft = t.de};
    lanes_count(quantity_in(in->roadway_m, "ft"), &deck.lane_count, &deck.lane_ft);
    DistributionFactors made = {.in_range = true, .lane_count = deck.lane_count};
    if (in->kind == CROSS_STEEL_BOX)
        boxes(&t, &made);
    else
        girders(in, &t, &deck, &made);
    *out = made;
    return STATUS_OK;
}
