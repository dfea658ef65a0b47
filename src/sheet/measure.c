#include "sheet_data.h"

#include <math.h>
#include <string.h>

Measure measure_none(void) { return (Measure){.size = 1}; }

/* a * b^power */
Measure measure_multiply(Measure a, Measure b, double power)
{
    for (int i = 0; i < MEASURE_KINDS; i++) a.exponent_1[i] += power * b.exponent_1[i];
    a.size *= pow(b.size, power);
    a.any = a.any || b.any;
    return a;
}

static bool same_exponents(Measure a, Measure b)
{
    for (int i = 0; i < MEASURE_KINDS; i++)
        if (fabs(a.exponent_1[i] - b.exponent_1[i]) > 1e-9) return false;
    return true;
}

bool measure_same(Measure a, Measure b)
{
    if (a.any || b.any) return true;
    return same_exponents(a, b) && fabs(a.size / b.size - 1) < 1e-9;
}

bool measure_pure(Measure m) { return measure_same(m, measure_none()); }

static Measure of_dimension(Dimension d)
{
    return (Measure){.exponent_1 = {d.length, d.force, d.time, d.temperature, d.money}, .size = 1};
}

static Status unit_refuse(const char *unit, Error *err)
{
    return error_set(err, STATUS_BAD_INPUT, "the unit \"%.40s\" is unknown", unit);
}

Status measure_read(const char *unit, Measure *measure, Error *err)
{
    Dimension dimension;
    double size_SI;
    if (unit_read(unit, &dimension, &size_SI, NULL) != STATUS_OK) return unit_refuse(unit, err);
    *measure = of_dimension(dimension);
    measure->size = size_SI;
    return STATUS_OK;
}

static void dimension_words(Measure m, char *out, size_t out_size)
{
    static const char *const kind[MEASURE_KINDS] = {"length", "force", "time", "temperature",
                                                    "money"};
    size_t used = 0;
    for (int id = 0; id < DIM_COUNT; id++)
        if (same_exponents(m, of_dimension(dimension_get((DimensionId)id)))) {
            snprintf(out, out_size, "%s", dimension_called((DimensionId)id));
            return;
        }
    out[0] = 0;
    for (int i = 0; i < MEASURE_KINDS; i++)
        if (m.exponent_1[i] != 0 && used < out_size)
            used += (size_t)snprintf(out + used, out_size - used, "%s%s^%g", used ? " " : "",
                                     kind[i], m.exponent_1[i]);
}

void measure_describe(Measure given, Measure wanted, char *out, size_t out_size)
{
    char words[96];
    dimension_words(given, words, sizeof words);
    if (same_exponents(given, wanted))
        snprintf(out, out_size, "%s in another unit, %.6g times as large", words,
                 given.size / wanted.size);
    else
        snprintf(out, out_size, "%s", words);
}
