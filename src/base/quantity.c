/* Grammar, spaces allowed between the parts:
 *   quantity = [sign] part {part}                several parts for lengths only, ever smaller units
 *   part     = number [unit]
 *   number   = digits [. digits] [e [sign] digits] | digits / digits | digits digits / digits
 *   unit     = [1 /] factor {(* | /) factor}     a / b / c is a/(b*c)
 *   factor   = name [[^] power]                  power 1 to 4, ^-1 too */
#include "units.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { TEXT_MAX = 120, PARTS_MAX = 3, NUMBER_TEXT = 48 };

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static size_t digits_at(const char *text) { return strspn(text, "0123456789"); }

/* ---- numbers ---- */

typedef struct NumberRead {
    Exact value;
    size_t from, to;
} NumberRead;

static void digits_append(Exact *value, const char *text, size_t count, int *significant)
{
    for (size_t i = 0; i < count; i++) {
        if (*significant <= EXACT_DIGITS_MAX) exact_append_digit(value, text[i] - '0');
        if (*significant > 0 || text[i] != '0') ++*significant;
    }
}

/* e-6 behind the digits; an e without digits belongs to the unit. */
static int exponent_scan(Scan *scan)
{
    const char *at = scan->text + scan->at;
    if (*at != 'e' && *at != 'E') return 0;
    const bool negative = *++at == '-';
    if (*at == '-' || *at == '+') at++;
    if (!is_digit(*at)) return 0;
    int exponent = 0;
    for (; is_digit(*at); at++)
        if (exponent <= 10 * EXACT_TEN_MAX) exponent = 10 * exponent + (*at - '0');
    scan->at = (size_t)(at - scan->text);
    return negative ? -exponent : exponent;
}

static Status comma_refuse(const Scan *scan, size_t from)
{
    const char *const text = scan->text;
    char instead[NUMBER_TEXT] = "";
    const size_t after = digits_at(text + scan->at + 1), to = scan->at + 1 + after;
    if (after > 0 && after != 3 && text[to] != ',' && to - from < sizeof instead) {
        memcpy(instead, text + from, to - from);
        instead[scan->at - from] = '.';
    }
    return scan_error(scan, from, to, instead,
                      "the decimal sign is a point, and thousands are not separated");
}

/* Refuses what does not start a number: words, nan, inf, nothing. */
static Status number_missing(const Scan *scan)
{
    const size_t from = scan->at, length = strcspn(scan->text + from, " ");
    if (length == 0 && from == strspn(scan->text, " "))
        return scan_error(scan, from, from, "", "the value is empty");
    return scan_error(scan, from, from + length, "", "\"%.*s\" is no number",
                      (int)(length < NUMBER_TEXT ? length : NUMBER_TEXT), scan->text + from);
}

static Status decimal_scan(Scan *scan, Exact *value, bool *whole)
{
    const size_t from = scan->at;
    int significant = 0;
    size_t count = digits_at(scan->text + from), decimals = 0;
    exact_set(value, 0, 1, 0);
    digits_append(value, scan->text + from, count, &significant);
    scan->at += count;
    *whole = scan->text[scan->at] != '.';
    if (!*whole) {
        decimals = digits_at(scan->text + scan->at + 1);
        digits_append(value, scan->text + scan->at + 1, decimals, &significant);
        scan->at += 1 + decimals;
    }
    if (count + decimals == 0) {
        scan->at = from;
        return number_missing(scan);
    }
    const size_t mantissa_to = scan->at;
    const int exponent = exponent_scan(scan);
    *whole = *whole && scan->at == mantissa_to;
    if (significant > EXACT_DIGITS_MAX)
        return scan_error(scan, from, scan->at, "", "a number has at most %d digits",
                          EXACT_DIGITS_MAX);
    if (significant > 0 && (exponent > EXACT_TEN_MAX || exponent < -EXACT_TEN_MAX))
        return scan_error(scan, from, scan->at, "", "the number is too %s",
                          exponent > 0 ? "large" : "small");
    value->ten = significant > 0 ? exponent - (int)decimals : 0;
    return STATUS_OK;
}

/* "7/8" and the second half of "8 3/4"; `value` holds the whole number read so far. */
static Status fraction_scan(Scan *scan, size_t from, Exact *value)
{
    enum { FRACTION_DIGITS = 4 }; /* 1/1000 is finer than any rule */
    const bool mixed = scan->text[scan->at] == ' ';
    Exact above, below;
    bool whole;
    const size_t start = mixed ? scan->at + strspn(scan->text + scan->at, " ") : from;
    scan->at = start;
    TRY(decimal_scan(scan, &above, &whole));
    const size_t above_length = scan->at - start;
    scan->at++; /* the stroke */
    const size_t below_from = scan->at;
    TRY(decimal_scan(scan, &below, &whole));
    if (!whole || above_length > FRACTION_DIGITS || scan->at - below_from > FRACTION_DIGITS ||
        exact_is_zero(&below) || exact_is_zero(&above) ||
        (mixed && above.num.word[0] >= below.num.word[0]))
        return scan_error(scan, start, scan->at, "", "this fraction cannot be read");
    exact_divide(&above, &below);
    if (mixed)
        exact_add(value, &above);
    else
        exact_copy(value, &above);
    return STATUS_OK;
}

/* Digits and a stroke before digits: a fraction; a stroke before a name is a unit. */
static bool fraction_starts(const char *at)
{
    const size_t digits = digits_at(at);
    return digits > 0 && at[digits] == '/' && is_digit(at[digits + 1]);
}

static Status number_scan(Scan *scan, NumberRead *number)
{
    bool whole;
    number->from = scan->at;
    TRY(decimal_scan(scan, &number->value, &whole));
    const char *const after = scan->text + scan->at;
    if (*after == ',') return comma_refuse(scan, number->from);
    const bool simple = whole && fraction_starts(scan->text + number->from);
    const bool mixed = whole && *after == ' ' && fraction_starts(after + strspn(after, " "));
    if (simple || mixed) TRY(fraction_scan(scan, number->from, &number->value));
    number->to = scan->at;
    return STATUS_OK;
}

/* ---- units behind numbers ---- */

/* `54` for a length: "54 in", with the unit of the dimension's example. */
static Status bare_refuse(const Scan *scan, const NumberRead *number, const char *example)
{
    char instead[NUMBER_TEXT + 24] = "";
    const size_t length = number->to - number->from;
    if (length < NUMBER_TEXT)
        snprintf(instead, sizeof instead, "%.*s%s", (int)length, scan->text + number->from,
                 example + strspn(example, "0123456789.e-"));
    return scan_error(scan, number->from, number->to, instead, "the number has no unit");
}

/* What a unit measures, for the sentence that refuses it. */
static const char *unit_called(const Unit *unit)
{
    if (unit->zero) return dimension_called(DIM_TEMPERATURE);
    for (int id = 0; id < DIM_COUNT; id++)
        if (id != DIM_TEMPERATURE && unit_fits(unit, (DimensionId)id))
            return dimension_called((DimensionId)id);
    return "a quantity that is not used here";
}

static Status dimension_refuse(const Scan *scan, const Unit *unit, size_t from)
{
    const char *const name = scan->text + from;
    const int length = (int)(scan->at - from);
    char instead[NUMBER_TEXT] = "";
    if (scan->wanted == DIM_TEMPERATURE_DIFF && unit->zero)
        snprintf(instead, sizeof instead, "delta_%.*s", length, name);
    if (scan->wanted == DIM_TEMPERATURE && strncmp(name, "delta_", 6) == 0 && unit->single)
        snprintf(instead, sizeof instead, "%.*s", length - 6, name + 6);
    return scan_error(scan, from, scan->at, instead, "\"%.*s\" gives %s", length, name,
                      unit_called(unit));
}

static bool unit_starts(const char *at)
{
    if (*at == '1' && at[1 + strspn(at + 1, " ")] == '/') return true;
    return *at == '/' || unit_name_starts(at);
}

/* "kip-ft" and "kip ft", where scan->at stands behind "kip" or its spaces. */
static bool product_starts(const Scan *scan)
{
    const char *const at = scan->text + scan->at;
    const char *const name = at + strspn(at, " ");
    return unit_name_known(*name == '-' || *name == '.' ? name + 1 : name);
}

static Status product_refuse(const Scan *scan, size_t unit_from)
{
    const char *const text = scan->text;
    char instead[2 * NUMBER_TEXT];
    size_t unit_to = scan->at, from = scan->at;
    while (unit_to > unit_from && text[unit_to - 1] == ' ') unit_to--;
    from += strspn(text + from, " -.");
    const size_t to = from + strcspn(text + from, " ");
    snprintf(instead, sizeof instead, "%.*s*%.*s", (int)(unit_to - unit_from), text + unit_from,
             (int)(to - from), text + from);
    return scan_error(scan, unit_from, to, instead, "factors of a unit are joined by \"*\"");
}

/* Something stands behind the value. */
static Status rest_refuse(const Scan *scan, size_t unit_from)
{
    const char *const rest = scan->text + scan->at;
    const size_t length = strcspn(rest, " "), from = scan->at;
    if (unit_name_starts(scan->text + unit_from) && product_starts(scan))
        return product_refuse(scan, unit_from);
    if (*rest == '(' || *rest == ')')
        return scan_error(scan, from, from + 1, "",
                          "a unit has no brackets: kip/(in*ft) is written kip/in/ft");
    if (*rest == '-' && is_digit(rest[1]))
        return scan_error(scan, from, from + 1, " ", "parts of a value are joined by a space");
    return scan_error(scan, from, from + length, "", "\"%.*s\" is too much here",
                      (int)(length < NUMBER_TEXT ? length : NUMBER_TEXT), rest);
}

/* The unit behind a number; none is right for pure numbers alone. */
static Status number_unit(Scan *scan, const NumberRead *number, Unit *unit, int part)
{
    unit_get("", unit);
    scan_spaces(scan);
    const size_t from = scan->at;
    if (unit_starts(scan->text + from)) {
        TRY(unit_scan(scan, unit));
        if (unit_fits(unit, scan->wanted)) return STATUS_OK;
        return product_starts(scan) ? product_refuse(scan, from)
                                    : dimension_refuse(scan, unit, from);
    }
    if (scan->wanted == DIM_NONE) return STATUS_OK;
    const char next = scan->text[from];
    if (next && !is_digit(next) && next != '.') return rest_refuse(scan, from);
    return bare_refuse(scan, number, part > 0 ? " in" : dimension_example(scan->wanted));
}

/* ---- the whole value ---- */

/* To SI: (number + zero) * factor. */
static void to_SI(Exact *value, const Unit *unit)
{
    if (unit->zero) {
        Exact zero;
        exact_set(&zero, (uint64_t)unit->zero, 100, 0);
        exact_add(value, &zero);
    }
    exact_multiply(value, &unit->factor);
}

static double factor_of(const Unit *unit)
{
    double factor = 0;
    const bool finite = exact_to_double(&unit->factor, &factor);
    assert(finite);
    (void)finite;
    return factor;
}

/* One part of "9 ft 3 in" is added to the sum. */
static Status part_scan(Scan *scan, int part, bool negative, Exact *sum, double *smallest)
{
    NumberRead number;
    Unit unit;
    const size_t part_from = scan->at;
    TRY(number_scan(scan, &number));
    if (part > 0 && (scan->wanted != DIM_LENGTH || part >= PARTS_MAX))
        return scan_error(scan, part_from, number.to, "",
                          part >= PARTS_MAX ? "a length has at most %d parts"
                                            : "only a length can have parts (at most %d)",
                          PARTS_MAX);
    scan_spaces(scan);
    const size_t unit_from = scan->at;
    TRY(number_unit(scan, &number, &unit, part));
    const double factor = factor_of(&unit);
    if (part > 0 && factor >= *smallest)
        return scan_error(scan, part_from, scan->at, "",
                          "each part of a length has a smaller unit than the part before");
    *smallest = factor;
    number.value.negative = negative;
    to_SI(&number.value, &unit);
    if (part == 0)
        exact_copy(sum, &number.value);
    else
        exact_add(sum, &number.value);
    scan_spaces(scan);
    const char next = scan->text[scan->at];
    return next == 0 || is_digit(next) || next == '.' ? STATUS_OK : rest_refuse(scan, unit_from);
}

Status quantity_read(const char *text, DimensionId dimension, double *value_SI, Error *err)
{
    Scan scan = {.text = text, .wanted = dimension, .err = err};
    Exact sum;
    double smallest = 0, value = 0;
    const size_t length = strlen(text);
    if (length > TEXT_MAX)
        return scan_error(&scan, 0, length, "", "a value has at most %d characters", TEXT_MAX);
    scan_spaces(&scan);
    const size_t from = scan.at;
    const bool negative = text[scan.at] == '-';
    if (negative || text[scan.at] == '+') scan.at++;
    scan_spaces(&scan);
    for (int part = 0; part == 0 || text[scan.at]; part++)
        TRY(part_scan(&scan, part, negative, &sum, &smallest));
    if (!exact_to_double(&sum, &value))
        return scan_error(&scan, from, scan.at, "", "the value is too large");
    if (value == 0 && !exact_is_zero(&sum))
        return scan_error(&scan, from, scan.at, "", "the value is too small");
    if (dimension == DIM_TEMPERATURE && value < 0)
        return scan_error(&scan, from, scan.at, "", "the temperature is below absolute zero");
    *value_SI = value;
    return STATUS_OK;
}

/* ---- writing ---- */

static void from_SI(double value_SI, const Unit *unit, Exact *value)
{
    exact_set_double(value, value_SI);
    exact_divide(value, &unit->factor);
    if (!unit->zero) return;
    Exact zero;
    exact_set(&zero, (uint64_t)unit->zero, 100, 0);
    zero.negative = true;
    exact_add(value, &zero);
}

double quantity_in(double value_SI, const char *unit)
{
    Unit u;
    Exact value;
    double out = value_SI;
    unit_get(unit, &u);
    if (!isfinite(value_SI)) return value_SI;
    from_SI(value_SI, &u, &value);
    if (!exact_to_double(&value, &out)) return value_SI > 0 ? HUGE_VAL : -HUGE_VAL;
    return out;
}

static bool reads_back(double value_SI, const Unit *unit, bool negative, uint64_t digits, int power)
{
    Exact trial;
    double back = 0;
    exact_set(&trial, digits, 1, power);
    trial.negative = negative;
    to_SI(&trial, unit);
    return exact_to_double(&trial, &back) && back == value_SI;
}

/* The fewest leading digits of digits * 10^power that read back. */
static void digits_shorten(double value_SI, const Unit *unit, bool negative, uint64_t *digits,
                           int *power)
{
    uint64_t place = 1;
    int cut = 0; /* place is 10^cut */
    for (; *digits / 10 >= place; cut++) place *= 10;
    for (; cut > 0; cut--, place /= 10) {
        const uint64_t rounded = (*digits + place / 2) / place;
        if (!reads_back(value_SI, unit, negative, rounded, *power + cut)) continue;
        *digits = rounded;
        *power += cut;
        return;
    }
}

/* digits * 10^power: with a point where it is short, else with an exponent. */
static void number_write(bool negative, uint64_t digits, int power, char *out, size_t out_size)
{
    char all[24];
    const char *const sign = negative ? "-" : "";
    for (; digits > 0 && digits % 10 == 0; digits /= 10) power++;
    const int count = snprintf(all, sizeof all, "%llu", (unsigned long long)digits);
    const int point = count + power; /* digits before the point */
    if (digits == 0)
        snprintf(out, out_size, "0");
    else if (point > 15 || point < -4)
        snprintf(out, out_size, "%s%c%s%se%d", sign, all[0], count > 1 ? "." : "", all + 1,
                 point - 1);
    else if (point <= 0)
        snprintf(out, out_size, "%s0.%.*s%s", sign, -point, "0000", all);
    else if (power >= 0)
        snprintf(out, out_size, "%s%s%.*s", sign, all, power, "00000000000000");
    else
        snprintf(out, out_size, "%s%.*s.%s", sign, point, all, all + point);
}

char *quantity_write(double value_SI, const char *unit, char *out, size_t out_size)
{
    Unit u;
    Exact value;
    uint64_t digits = 0;
    int power = 0;
    char number[NUMBER_TEXT];
    assert(isfinite(value_SI) && out_size > 0);
    unit_get(unit, &u);
    from_SI(value_SI, &u, &value);
    if (!exact_is_zero(&value)) {
        power = exact_digits(&value, &digits);
        digits_shorten(value_SI, &u, value.negative, &digits, &power);
    }
    number_write(value.negative, digits, power, number, sizeof number);
    snprintf(out, out_size, "%s%s%s", number, unit[0] ? " " : "", unit);
    return out;
}
