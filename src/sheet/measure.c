#include "sheet_data.h"

#include <math.h>
#include <string.h>

enum { NAME_BYTES = 24 };

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

/* One name, "kip": its dimension is the one that reads it. */
static bool name_measure(const char *name, Measure *measure)
{
    char text[NAME_BYTES + 4];
    double value_SI;
    snprintf(text, sizeof text, "1 %s", name);
    for (int id = 0; id < DIM_COUNT; id++) {
        if (quantity_read(text, (DimensionId)id, &value_SI, NULL) != STATUS_OK) continue;
        *measure = of_dimension(dimension_get((DimensionId)id));
        measure->size = 1 / (quantity_in(1, name) - quantity_in(0, name));
        return true;
    }
    return false;
}

static Status unit_refuse(const char *unit, Error *err)
{
    return error_set(err, STATUS_BAD_INPUT, "the unit \"%.40s\" is unknown", unit);
}

/* "in^2" of "kip*in^2/ft", or "m3"; *at is moved behind it. */
static bool factor_read(const char **at, Measure *measure, double *power)
{
    char name[NAME_BYTES];
    const size_t length = strcspn(*at, "*/^0123456789- ");
    *power = 1;
    *measure = measure_none();
    if (length == 0 || length >= sizeof name) return false;
    memcpy(name, *at, length);
    name[length] = 0;
    *at += length;
    if (!name_measure(name, measure)) return false;
    if (**at == '^')
        ++*at;
    else if (**at < '0' || **at > '9')
        return true;
    if (**at < '1' || **at > '4') return false; /* as base reads units */
    *power = *(*at)++ - '0';
    return true;
}

Status measure_read(const char *unit, Measure *measure, Error *err)
{
    Measure product = measure_none(), factor;
    double power, sign = 1;
    const char *at = unit;
    if (strncmp(unit, "1/", 2) == 0) at += 2, sign = -1;
    while (*at) {
        if (!factor_read(&at, &factor, &power)) return unit_refuse(unit, err);
        product = measure_multiply(product, factor, sign * power);
        if (*at == 0) break;
        if ((*at != '*' && *at != '/') || at[1] == 0) return unit_refuse(unit, err);
        sign = *at++ == '/' ? -1 : 1; /* a/b/c is a/(b*c) */
    }
    *measure = product;
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
