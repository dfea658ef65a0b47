/* STEP text: numbers of entities, strings, reals, GlobalIds. */
#include "step.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

int step_add(Step *step, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    const int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    char *const room = arena_take(step->arena, (size_t)length + 1);
    vsnprintf(room, (size_t)length + 1, format, again);
    va_end(again);
    text_printf(step->text, "#%d=", ++step->last);
    text_addn(step->text, room, (size_t)length);
    text_add(step->text, ";\n");
    return step->last;
}

/* Length of a well-formed sequence of UTF-8, 0 of another byte; its code point. */
static int code_point(const unsigned char *at, uint32_t *code)
{
    static const unsigned char lead[] = {0, 0, 0xC0, 0xE0, 0xF0};
    int length = *at < 0x80 ? 1 : *at >= 0xF0 ? 4 : *at >= 0xE0 ? 3 : *at >= 0xC2 ? 2 : 0;
    *code = length == 1 ? *at : (uint32_t)(*at - lead[length]);
    for (int i = 1; i < length; i++) {
        if ((at[i] & 0xC0) != 0x80) return 0;
        *code = *code << 6 | (at[i] & 0x3FU);
    }
    return *code > 0x10FFFF ? 0 : length;
}

/* ISO 10303-21, clause 6.4.3 (from memory): \X2\ and \X4\ with hexadecimal code points; ' and \ doubled. */
const char *step_text(const Step *step, const char *words)
{
    if (!words) return "$";
    Text text = text_start(step->arena);
    text_add(&text, "'");
    for (const unsigned char *at = (const unsigned char *)words; *at;) {
        uint32_t code;
        const int length = code_point(at, &code);
        if (length == 1 && (code == '\'' || code == '\\'))
            text_printf(&text, "%c%c", (char)code, (char)code);
        else if (length == 1 && code >= 0x20 && code < 0x7F)
            text_printf(&text, "%c", (char)code);
        else if (length <= 1)
            text_add(&text, length == 1 ? " " : "?");
        else if (code < 0x10000)
            text_printf(&text, "\\X2\\%04X\\X0\\", (unsigned)code);
        else
            text_printf(&text, "\\X4\\%08X\\X0\\", (unsigned)code);
        at += length ? length : 1;
    }
    text_add(&text, "'");
    return text.bytes;
}

/* A real has a point: "1.", "2.5E-05". Twelve digits: a bridge in micrometres. */
const char *step_real(const Step *step, double value)
{
    char digits[40], *at = digits;
    if (fabs(value) < 1e-12) value = 0; /* no -1E-17 of a rotation */
    snprintf(digits, sizeof digits, "%.12g", value);
    const char *const power = strchr(digits, 'e');
    const int mantissa = power ? (int)(power - digits) : (int)strlen(digits);
    return arena_printf(step->arena, "%.*s%s%s%s", mantissa, at,
                        memchr(digits, '.', (size_t)mantissa) ? "" : ".", power ? "E" : "",
                        power ? power + 1 : "");
}

const char *step_unit(const Step *step, DimensionId dimension)
{
    const bool us = step->settings->units == UNITS_US;
    switch (dimension) {
    case DIM_LENGTH: return us ? "ft" : "m";
    case DIM_AREA: return us ? "ft^2" : "m^2";
    case DIM_VOLUME: return us ? "ft^3" : "m^3";
    case DIM_FORCE: return us ? "kip" : "kN";
    case DIM_STRESS: return us ? "ksi" : "MPa";
    default: return "";
    }
}

double step_in(const Step *step, double value_SI, DimensionId dimension)
{
    const char *unit = step_unit(step, dimension);
    return *unit ? quantity_in(value_SI, unit) : value_SI;
}

const char *step_length(const Step *step, double length_m)
{
    return step_real(step, step_in(step, length_m, DIM_LENGTH));
}

const char *step_list(const Step *step, const int *id, int count)
{
    Text text = text_start(step->arena);
    for (int i = 0; i < count; i++) text_printf(&text, "%s#%d", i ? "," : "(", id[i]);
    text_add(&text, ")");
    return text.bytes;
}

/* 128 bits as 22 digits of base 64, the first of two bits: IfcGloballyUniqueId. */
const char *step_id(const Step *step, const char *kind, const char *mark)
{
    static const char digit[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";
    unsigned char hash[SHA256_SIZE];
    char id[25] = "'";
    Sha256 sha = sha256_start();
    const char *const piece[] = {step->settings->revision, kind, mark};
    for (int i = 0; i < 3; i++) sha256_add(&sha, piece[i], strlen(piece[i]) + 1);
    sha256_end(&sha, hash);
    for (int i = 0; i < 22; i++) {
        /* digit i has the bits 6 i - 4 to 6 i + 1 of the hash, counted from its front */
        unsigned value = 0;
        for (int k = 6 * i - 4; k < 6 * i + 2; k++)
            value = value << 1 | (k < 0 ? 0U : (unsigned)hash[k / 8] >> (7 - k % 8) & 1U);
        id[i + 1] = digit[value];
    }
    id[23] = '\'';
    return arena_text(step->arena, id);
}
