#include "units.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <string.h>

/* Exact factors to newton, metre, day, kelvin: NIST SP 811 (2008), Appendix B.8, where bold face
 * marks exact factors: inch 2.54 E-02, foot 3.048 E-01, yard 9.144 E-01, mile 1.609 344 E+03, mil
 * 2.54 E-05, bar 1 E+05, degree Fahrenheit interval 5/9 K, minute 60 s, hour 3600 s, day 86 400 s.
 * The pound-force is 0.453 592 37 kg (pound avoirdupois) * 9.806 65 m/s^2 (standard acceleration
 * of free fall), both exact: 4.448 221 615 260 5 N; kip 1000 lbf; short ton-force 2000 lbf.
 * All from memory. yr is 365.25 d as ageing models use it (the Julian year), not SP 811's 365 d.
 * Money has one dimension and no rate: an input uses one currency throughout. */
typedef struct UnitRow {
    const char *name;
    signed char length, force, time, temperature, money; /* exponents */
    uint64_t num;
    uint32_t den;
    int ten;                /* factor num/den * 10^ten */
    const char *definition; /* instead of the factor, by rows without one */
} UnitRow;

/* clang-format off */
static const UnitRow rows[] = {
    {"m",   1,0,0,0,0, 1, 1, 0, NULL},        {"mm",  1,0,0,0,0, 1, 1, -3, NULL},
    {"cm",  1,0,0,0,0, 1, 1, -2, NULL},       {"km",  1,0,0,0,0, 1, 1, 3, NULL},
    {"in",  1,0,0,0,0, 254, 1, -4, NULL},     {"ft",  1,0,0,0,0, 3048, 1, -4, NULL},
    {"yd",  1,0,0,0,0, 9144, 1, -4, NULL},    {"mi",  1,0,0,0,0, 1609344, 1, -3, NULL},
    {"mil", 1,0,0,0,0, 254, 1, -7, NULL},
    {"N",   0,1,0,0,0, 1, 1, 0, NULL},        {"kN",  0,1,0,0,0, 1, 1, 3, NULL},
    {"MN",  0,1,0,0,0, 1, 1, 6, NULL},        {"lbf", 0,1,0,0,0, 44482216152605u, 1, -13, NULL},
    {"kip", 0,1,0,0,0, 44482216152605u, 1, -10, NULL},
    {"tonf", 0,1,0,0,0, 88964432305210u, 1, -10, NULL},
    {"psi", 0,0,0,0,0, 0, 0, 0, "lbf/in^2"},  {"ksi", 0,0,0,0,0, 0, 0, 0, "kip/in^2"},
    {"psf", 0,0,0,0,0, 0, 0, 0, "lbf/ft^2"},  {"ksf", 0,0,0,0,0, 0, 0, 0, "kip/ft^2"},
    {"pcf", 0,0,0,0,0, 0, 0, 0, "lbf/ft^3"},  {"kcf", 0,0,0,0,0, 0, 0, 0, "kip/ft^3"},
    {"plf", 0,0,0,0,0, 0, 0, 0, "lbf/ft"},    {"klf", 0,0,0,0,0, 0, 0, 0, "kip/ft"},
    {"pli", 0,0,0,0,0, 0, 0, 0, "lbf/in"},    {"kli", 0,0,0,0,0, 0, 0, 0, "kip/in"},
    {"Pa", -2,1,0,0,0, 1, 1, 0, NULL},        {"kPa", -2,1,0,0,0, 1, 1, 3, NULL},
    {"MPa", -2,1,0,0,0, 1, 1, 6, NULL},       {"GPa", -2,1,0,0,0, 1, 1, 9, NULL},
    {"bar", -2,1,0,0,0, 1, 1, 5, NULL},
    {"day", 0,0,1,0,0, 1, 1, 0, NULL},        {"d",   0,0,1,0,0, 1, 1, 0, NULL},
    {"h",   0,0,1,0,0, 1, 24, 0, NULL},       {"min", 0,0,1,0,0, 1, 1440, 0, NULL},
    {"s",   0,0,1,0,0, 1, 86400, 0, NULL},    {"week", 0,0,1,0,0, 7, 1, 0, NULL},
    {"yr",  0,0,1,0,0, 36525, 1, -2, NULL},
    {"K",   0,0,0,1,0, 1, 1, 0, NULL},
    {"delta_degC", 0,0,0,1,0, 1, 1, 0, NULL}, {"delta_degF", 0,0,0,1,0, 5, 9, 0, NULL},
    {"degC", 0,0,0,1,0, 1, 1, 0, NULL},       {"degF", 0,0,0,1,0, 5, 9, 0, NULL},
    {"USD", 0,0,0,0,1, 1, 1, 0, NULL},        {"EUR", 0,0,0,0,1, 1, 1, 0, NULL},
    {"%",   0,0,0,0,0, 1, 1, -2, NULL},       {"microstrain", 0,0,0,0,0, 1, 1, -6, NULL},
};

/* Names that people write and that are refused, with the reason and what to write. */
static const struct { const char *name, *reason, *instead; } refused[] = {
    {"lb",  "may be a mass or a force", "lbf"},  {"lbs", "may be a mass or a force", "lbf"},
    {"lbm", "is a mass; weights are forces here", "lbf"}, {"#", "may be a mass or a force", "lbf"},
    {"ton",  "may be short, long or metric: tonf is 2000 lbf, or write kN", "tonf"},
    {"tons", "may be short, long or metric: tonf is 2000 lbf, or write kN", "tonf"},
    {"t",     "is a mass; weights are forces here", "kN"},
    {"tonne", "is a mass; weights are forces here", "kN"},
    {"kg",    "is a mass; weights are forces here", "N"},
    {"g",     "is a mass; weights are forces here", "N"},
    {"kgf",   "is not read", "N"},
    {"mPa",   "is a thousandth of a pascal, surely not meant", "MPa"},
    {"month", "has no fixed length", "day"},     {"months", "has no fixed length", "day"},
    {"k",     "is not read", "kip"},             {"kips", "is not read", "kip"},
    {"inch",  "is not read", "in"},              {"inches", "is not read", "in"},
    {"\"",    "is not read", "in"},              {"'",    "is not read", "ft"},
    {"foot",  "is not read", "ft"},              {"feet", "is not read", "ft"},
    {"days",  "is not read", "day"},             {"weeks", "is not read", "week"},
    {"hr",    "is not read", "h"},               {"hour", "is not read", "h"},
    {"hours", "is not read", "h"},               {"sec", "is not read", "s"},
    {"y",     "is not read", "yr"},              {"year", "is not read", "yr"},
    {"years", "is not read", "yr"},              {"percent", "is not read", "%"},
    {"F",     "is not read", "degF"},            {"C", "is not read", "degC"},
    {"\xC2\xB0" "F", "is not read", "degF"},     {"\xC2\xB0" "C", "is not read", "degC"},
    {"$",     "is not read", "USD"},             {"\xE2\x82\xAC", "is not read", "EUR"},
};

static const struct { Dimension dimension; const char *called, *example; } dimensions[] = {
#define X(id, l, f, t, k, m, level, called, example) {{l, f, t, k, m, level}, called, example},
    DIMENSION_LIST(X)
#undef X
};

static const char *const shown[2][DIM_COUNT] = {
    [UNITS_US] = {"", "ft", "in^2", "yd^3", "in^4", "kip", "kip*ft", "psi", "kip/ft", "psf", "pcf",
                  "kip/in", "kip/in/ft", "day", "degF", "delta_degF", "1/delta_degF", "1/ft", "USD"},
    [UNITS_SI] = {"", "m", "m^2", "m^3", "m^4", "kN", "kN*m", "MPa", "kN/m", "kPa", "kN/m^3",
                  "kN/mm", "kN/mm/m", "day", "degC", "delta_degC", "1/delta_degC", "1/m", "EUR"},
};
/* clang-format on */

enum { ROWS = sizeof rows / sizeof *rows, REFUSED = sizeof refused / sizeof *refused };
enum { NAME_MAX_BYTES = 24, POWER_MAX = 4, POWERS_MAX = 8 };

Dimension dimension_get(DimensionId id)
{
    assert(id < DIM_COUNT);
    return dimensions[id].dimension;
}

const char *dimension_called(DimensionId id)
{
    assert(id < DIM_COUNT);
    return dimensions[id].called;
}

const char *dimension_example(DimensionId id)
{
    assert(id < DIM_COUNT);
    return dimensions[id].example;
}

const char *quantity_unit(UnitSystem system, DimensionId dimension)
{
    assert(system <= UNITS_SI && dimension < DIM_COUNT);
    return shown[system][dimension];
}

const char *quantity_shown_unit(UnitSystem system, DimensionId dimension, double size_SI)
{
    static const double steel_Pa = 6.894757e7, short_m = 1; /* 10 ksi, rounded up */
    const double size = fabs(size_SI);
    if (dimension == DIM_STRESS && system == UNITS_US) return size < steel_Pa ? "psi" : "ksi";
    if (dimension == DIM_LENGTH && size < short_m) return system == UNITS_US ? "in" : "mm";
    return quantity_unit(system, dimension);
}

/* ---- places and errors ---- */

static Place place_of(const char *text, size_t byte)
{
    int column = 1;
    for (size_t i = 0; i < byte; i++) column += ((unsigned char)text[i] & 0xC0) != 0x80;
    return (Place){1, column};
}

Status scan_error(const Scan *scan, size_t from, size_t to, const char *suggestion,
                  const char *format, ...)
{
    Error *err = scan->err;
    char text[sizeof err->text];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    error_at(err, STATUS_BAD_INPUT, place_of(scan->text, from), place_of(scan->text, to), "", "%s",
             text);
    if (!err) return STATUS_BAD_INPUT;
    snprintf(err->suggestion, sizeof err->suggestion, "%s", suggestion);
    snprintf(err->expected, sizeof err->expected, "%s such as %s", dimension_called(scan->wanted),
             dimension_example(scan->wanted));
    return STATUS_BAD_INPUT;
}

void scan_spaces(Scan *scan) { scan->at += strspn(scan->text + scan->at, " "); }

/* ---- names ---- */

static bool name_byte(char byte)
{
    const unsigned char c = (unsigned char)byte;
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c >= 0x80 ||
           (c && strchr("_%'\"$#", c));
}

bool unit_name_starts(const char *at) { return name_byte(*at); }

static size_t name_length(const char *at)
{
    size_t length = 0;
    while (name_byte(at[length])) length++;
    return length;
}

static char lower(char c) { return (char)(c >= 'A' && c <= 'Z' ? c + 32 : c); }

static bool same_but_case(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b)) a++, b++;
    return lower(*a) == lower(*b);
}

static const UnitRow *row_find(const char *name)
{
    for (int i = 0; i < ROWS; i++)
        if (strcmp(rows[i].name, name) == 0) return &rows[i];
    return NULL;
}

bool unit_name_known(const char *at)
{
    const size_t length = name_length(at);
    for (int i = 0; i < ROWS; i++)
        if (strlen(rows[i].name) == length && memcmp(rows[i].name, at, length) == 0) return true;
    return false;
}

static bool same_exponents(Dimension a, Dimension b)
{
    return a.length == b.length && a.force == b.force && a.time == b.time &&
           a.temperature == b.temperature && a.money == b.money;
}

/* The wanted dimension goes first: "psy" for a stress is psi, not psf. */
static const char *name_guess(const char *name, DimensionId wanted)
{
    const char *names[ROWS];
    int count = 0;
    for (int i = 0; i < ROWS; i++)
        if (same_but_case(rows[i].name, name)) return rows[i].name;
    for (int i = 0; i < ROWS; i++) {
        Unit unit;
        unit_get(rows[i].name, &unit);
        if (same_exponents(unit.dimension, dimension_get(wanted))) names[count++] = rows[i].name;
    }
    const char *guess = name_nearest(name, names, count);
    if (guess) return guess;
    for (count = 0; count < ROWS; count++) names[count] = rows[count].name;
    return name_nearest(name, names, count);
}

static Status name_refuse(const Scan *scan, size_t from, size_t to, const char *name)
{
    for (int i = 0; i < REFUSED; i++)
        if (strcmp(refused[i].name, name) == 0)
            return scan_error(scan, from, to, refused[i].instead, "the unit \"%s\" %s", name,
                              refused[i].reason);
    const char *guess = name_guess(name, scan->wanted);
    return scan_error(scan, from, to, guess ? guess : "", "the unit \"%s\" is unknown", name);
}

/* ---- products and quotients ---- */

static void unit_start(Unit *unit)
{
    exact_set(&unit->factor, 1, 1, 0);
    unit->dimension = (Dimension){.level = false};
    unit->zero = 0;
    unit->single = false;
}

/* unit *= base^power */
static void unit_apply(Unit *unit, const Unit *base, int power)
{
    for (int i = 0; i < (power < 0 ? -power : power); i++)
        (power < 0 ? exact_divide : exact_multiply)(&unit->factor, &base->factor);
    const Dimension b = base->dimension;
    Dimension *d = &unit->dimension;
    d->length = (signed char)(d->length + power * b.length);
    d->force = (signed char)(d->force + power * b.force);
    d->time = (signed char)(d->time + power * b.time);
    d->temperature = (signed char)(d->temperature + power * b.temperature);
    d->money = (signed char)(d->money + power * b.money);
}

static void unit_from_row(const UnitRow *row, Unit *unit)
{
    if (row->definition) {
        unit_get(row->definition, unit);
        return;
    }
    unit_start(unit);
    exact_set(&unit->factor, row->num, row->den, row->ten);
    unit->dimension =
        (Dimension){row->length, row->force, row->time, row->temperature, row->money, false};
    unit->dimension.level = row->temperature && strncmp(row->name, "delta_", 6) != 0;
    /* 0 degC is 273.15 K, 0 degF is 459.67 degrees Rankine: NIST SP 811 (2008), B.8. */
    unit->zero = strcmp(row->name, "degC") == 0   ? 27315
                 : strcmp(row->name, "degF") == 0 ? 45967
                                                  : 0;
}

/* "^2", "2", "^-1" or nothing, after a name. */
static Status power_scan(Scan *scan, size_t name_from, int *power)
{
    const char *const start = scan->text + scan->at, *at = start;
    bool negative = false;
    *power = 1;
    if (*at == '^') at++;
    if (at > start && *at == '-') negative = true, at++;
    const size_t digits = strspn(at, "0123456789");
    if (digits == 0 && at == start) return STATUS_OK;
    const size_t end = (size_t)(at - scan->text) + digits;
    *power = digits == 1 ? *at - '0' : 0;
    if (*power < 1 || *power > POWER_MAX)
        return scan_error(scan, name_from, end > name_from ? end : name_from + 1, "",
                          "a power of a unit is a whole number from 1 to %d", POWER_MAX);
    if (negative) *power = -*power;
    scan->at = end;
    return STATUS_OK;
}

/* One name with its power. */
static Status factor_scan(Scan *scan, Unit *base, int *power)
{
    const size_t from = scan->at, length = name_length(scan->text + from);
    char name[NAME_MAX_BYTES + 1];
    if (length == 0) {
        const bool end = scan->text[from] == 0;
        return scan_error(scan, from, from + !end, "", "a unit is missing %s",
                          from == 0 ? "here" : "after the \"*\" or \"/\"");
    }
    if (length > NAME_MAX_BYTES)
        return scan_error(scan, from, from + length, "", "this is no name of a unit");
    memcpy(name, scan->text + from, length);
    name[length] = 0;
    const UnitRow *row = row_find(name);
    if (!row) return name_refuse(scan, from, from + length, name);
    unit_from_row(row, base);
    base->single = true;
    scan->at += length;
    return power_scan(scan, from, power);
}

/* A level such as degF has no meaning in a product: 2 degF/ft would keep its zero. */
static Status level_refuse(const Scan *scan, size_t from, size_t to)
{
    char instead[32];
    snprintf(instead, sizeof instead, "delta_%.*s", (int)(to - from), scan->text + from);
    return scan_error(scan, from, to, instead,
                      "a temperature level cannot be multiplied or divided");
}

/* The operator before the next name: '*', '/' or 0 at the end of the unit. */
static char operator_scan(Scan *scan)
{
    const size_t back = scan->at;
    scan_spaces(scan);
    const char sign = scan->text[scan->at];
    if (sign != '*' && sign != '/') {
        scan->at = back;
        return 0;
    }
    scan->at++;
    scan_spaces(scan);
    return sign;
}

Status unit_scan(Scan *scan, Unit *unit)
{
    int count = 0, powers = 0;
    size_t level_from = 0, level_to = 0;
    char sign = '*';
    unit_start(unit);
    if (scan->text[scan->at] == '1') scan->at++; /* "1/ft" */
    if (scan->text[scan->at + strspn(scan->text + scan->at, " ")] == '/')
        sign = operator_scan(scan);
    for (; sign; sign = operator_scan(scan)) {
        Unit base;
        int power = 1;
        unit_start(&base);
        const size_t from = scan->at;
        TRY(factor_scan(scan, &base, &power));
        if (base.zero) level_from = from, level_to = from + name_length(scan->text + from);
        powers += power < 0 ? -power : power;
        if (powers > POWERS_MAX)
            return scan_error(scan, from, scan->at, "", "this unit has too many factors");
        const bool alone = count++ == 0 && sign == '*' && power == 1;
        unit_apply(unit, &base, sign == '/' ? -power : power);
        unit->single = alone;
        unit->zero = alone ? base.zero : 0;
        unit->dimension.level = alone && base.dimension.level;
    }
    if (level_to > 0 && !unit->single) return level_refuse(scan, level_from, level_to);
    return STATUS_OK;
}

void unit_get(const char *text, Unit *unit)
{
    Scan scan = {.text = text, .wanted = DIM_NONE};
    unit_start(unit);
    if (!text[0]) return;
    const Status status = unit_scan(&scan, unit);
    assert(status == STATUS_OK && text[scan.at] == 0);
    (void)status;
}

Status unit_read(const char *text, Dimension *dimension, double *size_SI, Error *err)
{
    Scan scan = {.text = text, .wanted = DIM_NONE, .err = err};
    Unit unit;
    unit_start(&unit);
    if (text[0]) TRY(unit_scan(&scan, &unit));
    if (text[scan.at])
        return scan_error(&scan, scan.at, strlen(text), "", "this is no part of a unit");
    *dimension = unit.dimension;
    if (exact_to_double(&unit.factor, size_SI)) return STATUS_OK;
    return scan_error(&scan, 0, scan.at, "", "this unit is too large");
}

bool unit_fits(const Unit *unit, DimensionId wanted)
{
    const Dimension d = dimension_get(wanted);
    if (!same_exponents(unit->dimension, d)) return false;
    return d.level ? unit->dimension.level : unit->zero == 0;
}
