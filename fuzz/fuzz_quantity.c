/* The first byte chooses the dimension, the rest is the text. What is read is finite and survives
 * being written in the units of both systems; what is refused has a place inside the text. */
#include "clench/base.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

static int characters(const char *text)
{
    int count = 0;
    for (; *text; text++) count += ((unsigned char)*text & 0xC0) != 0x80;
    return count;
}

static void check_error(const char *text, const Error *err)
{
    MUST_HOLD(err->status == STATUS_BAD_INPUT && err->text[0] && err->expected[0]);
    MUST_HOLD(err->from.line == 1 && err->to.line == 1);
    MUST_HOLD(err->from.column >= 1 && err->from.column <= err->to.column);
    MUST_HOLD(err->to.column <= characters(text) + 1);
    char line[1024];
    error_format(err, "fuzz", line, sizeof line);
    for (const char *at = line; *at; at++) MUST_HOLD((unsigned char)*at >= 0x20);
}

static void check_written(double value_SI, DimensionId dimension, const char *unit)
{
    char text[128];
    double back_SI;
    quantity_write(value_SI, unit, text, sizeof text);
    MUST_HOLD(quantity_read(text, dimension, &back_SI, NULL) == STATUS_OK);
    MUST_HOLD(back_SI == value_SI);
}

/* A value near the largest double can be infinite in a smaller unit; a temperature near 0 K needs
 * more digits than a text has. */
static bool writable(double value_SI, DimensionId dimension, const char *unit)
{
    if (dimension == DIM_TEMPERATURE && value_SI < 100) return false;
    const double shown = fabs(quantity_in(value_SI, unit));
    return shown < 1e300 && (value_SI == 0 || shown > 1e-300);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    char text[256];
    double value_SI = -7.25;
    Error err;
    if (size < 1 || size > sizeof text) return 0;
    const DimensionId dimension = (DimensionId)(bytes[0] % DIM_COUNT);
    memcpy(text, bytes + 1, size - 1);
    text[size - 1] = 0;
    if (quantity_read(text, dimension, &value_SI, &err) != STATUS_OK) {
        MUST_HOLD(value_SI == -7.25); /* outputs only on success */
        check_error(text, &err);
        return 0;
    }
    MUST_HOLD(isfinite(value_SI));
    for (int system = UNITS_US; system <= UNITS_SI; system++) {
        const char *const unit = quantity_unit((UnitSystem)system, dimension);
        if (writable(value_SI, dimension, unit)) check_written(value_SI, dimension, unit);
    }
    return 0;
}
