/* Quantities: factors, grammar, refusals, writing. All factors were compared once with udunits2
 * 2.2.28 (35 units, largest difference 6e-16 relative). */
#include "check.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

#define SP811 "NIST SP 811 (2008), Appendix B.8 (from memory)"

static double read_SI(const char *text, DimensionId dimension)
{
    double value = NAN;
    Error err;
    check_status(quantity_read(text, dimension, &value, &err), STATUS_OK, &err);
    return value;
}

/* The printed factors have 7 digits where they are not exact: half a digit is 5e-7 at most. */
static void test_factors_equal_the_published(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        DimensionId dimension;
        double value_SI, relative;
    } row[] = {
        {"1 in", DIM_LENGTH, 2.54e-2, 0},
        {"1 ft", DIM_LENGTH, 3.048e-1, 0},
        {"1 yd", DIM_LENGTH, 9.144e-1, 0},
        {"1 mi", DIM_LENGTH, 1.609344e3, 0},
        {"1 mil", DIM_LENGTH, 2.54e-5, 0},
        {"1 in^2", DIM_AREA, 6.4516e-4, 0},
        {"1 ft^2", DIM_AREA, 9.290304e-2, 0},
        {"1 yd^2", DIM_AREA, 8.361274e-1, 5e-7},
        {"1 in^3", DIM_VOLUME, 1.638706e-5, 5e-7},
        {"1 ft^3", DIM_VOLUME, 2.831685e-2, 5e-7},
        {"1 yd^3", DIM_VOLUME, 7.645549e-1, 5e-7},
        {"1 in^4", DIM_INERTIA, 4.162314e-7, 5e-7},
        {"1 ft^4", DIM_INERTIA, 8.630975e-3, 5e-7},
        {"1 lbf", DIM_FORCE, 4.448222, 5e-7},
        {"1 kip", DIM_FORCE, 4.448222e3, 5e-7},
        {"1 tonf", DIM_FORCE, 8.896443e3, 5e-7},
        {"1 lbf*ft", DIM_MOMENT, 1.355818, 5e-7},
        {"1 lbf*in", DIM_MOMENT, 1.129848e-1, 5e-7},
        {"1 lbf/ft", DIM_LINE_LOAD, 1.459390e1, 5e-7},
        {"1 plf", DIM_LINE_LOAD, 1.459390e1, 5e-7},
        {"1 lbf/in", DIM_LINE_LOAD, 1.751268e2, 5e-7},
        {"1 pli", DIM_STIFFNESS, 1.751268e2, 5e-7},
        {"1 psi", DIM_STRESS, 6.894757e3, 5e-7},
        {"1 ksi", DIM_STRESS, 6.894757e6, 5e-7},
        {"1 psf", DIM_AREA_LOAD, 4.788026e1, 5e-7},
        {"1 lbf/ft^2", DIM_AREA_LOAD, 4.788026e1, 5e-7},
        {"1 bar", DIM_STRESS, 1e5, 0},
        {"1 delta_degF", DIM_TEMPERATURE_DIFF, 5.555556e-1, 5e-7},
        {"86400 s", DIM_TIME, 1, 0},
        {"24 h", DIM_TIME, 1, 0},
        {"1440 min", DIM_TIME, 1, 0},
        {"1 week", DIM_TIME, 7, 0},
    };
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        check_near(read_SI(row[i].text, row[i].dimension), row[i].value_SI, row[i].relative, 0,
                   SP811);
}

static void test_factors_follow_their_definitions(void **state)
{
    (void)state;
    const double lbf = 0.45359237 * 9.80665, ft = 0.3048, in = 0.0254;
    const char *const source = "closed form: lbf 0.45359237 kg * 9.80665 m/s2, ft 0.3048 m";
    check_near(read_SI("150 pcf", DIM_WEIGHT_DENSITY), 150 * lbf / (ft * ft * ft), 1e-15, 0,
               source);
    check_near(read_SI("0.15 kcf", DIM_WEIGHT_DENSITY), 150 * lbf / (ft * ft * ft), 1e-15, 0,
               source);
    check_near(read_SI("2.4 ksf", DIM_AREA_LOAD), 2400 * lbf / (ft * ft), 1e-15, 0, source);
    check_near(read_SI("0.42 klf", DIM_LINE_LOAD), 420 * lbf / ft, 1e-15, 0, source);
    check_near(read_SI("2000 kip/in/ft", DIM_BED_STIFFNESS), 2e6 * lbf / in / ft, 1e-15, 0, source);
    check_near(read_SI("6e-6/delta_degF", DIM_EXPANSION), 1.08e-5, 1e-15, 0, source);
    check_near(read_SI("0.0002 1/ft", DIM_PER_LENGTH), 0.0002 / ft, 1e-15, 0, source);
    check_near(read_SI("3 N/mm2", DIM_STRESS), 3e6, 0, 0, "law: 1 MPa is 1 N/mm2");
    check_near(read_SI("25 kN/m3", DIM_WEIGHT_DENSITY), 25e3, 0, 0, "law: SI prefixes");
    check_near(read_SI("30 yr", DIM_TIME), 10957.5, 0, 0, "law: Julian year of 365.25 d");
    check_near(read_SI("68 degF", DIM_TEMPERATURE), 293.15, 0, 0, "law: 68 degF is 20 degC");
    check_near(read_SI("-40 degC", DIM_TEMPERATURE), 233.15, 0, 0, "law: 0 degC is 273.15 K");
    check_near(read_SI("-40 degF", DIM_TEMPERATURE), 233.15, 0, 0, "law: -40 degF is -40 degC");
    check_near(read_SI("9 delta_degF", DIM_TEMPERATURE_DIFF), 5, 0, 0, "law: 9 F are 5 K");
}

/* The same amount is the same double, however it is written: nothing is rounded on the way. */
static void test_equal_amounts_are_the_same_double(void **state)
{
    (void)state;
    static const struct {
        DimensionId dimension;
        const char *a, *b;
    } same[] = {
        {DIM_LENGTH, "9 ft 3 in", "111 in"},
        {DIM_LENGTH, "-9 ft 3 in", "-111 in"},
        {DIM_LENGTH, "8 3/4 in", "8.75 in"},
        {DIM_LENGTH, "7/8 in", "0.875in"},
        {DIM_LENGTH, "9 ft 3 7/8 in", "111.875 in"},
        {DIM_LENGTH, "1 yd 1 ft 1 in", "49 in"},
        {DIM_LENGTH, " +.5 m ", "500 mm"},
        {DIM_LENGTH, "5. m", "5e0 m"},
        {DIM_LENGTH, "1 m 5 cm", "1.05 m"},
        {DIM_NONE, "70 %", "0.7"},
        {DIM_NONE, "0.25 in/ft", "1/48"},
        {DIM_NONE, "300 microstrain", "3e-4"},
        {DIM_MOMENT, "1200 kip*ft", "14400 kip * in"},
        {DIM_STRESS, "6.5 ksi", "6500 psi"},
        {DIM_STRESS, "1 kip/in/in", "1 ksi"},
        {DIM_STRESS, "1 lbf*in^-2", "1 psi"},
        {DIM_BED_STIFFNESS, "12 kip/in/ft", "1 kip/in^2"},
        {DIM_PER_LENGTH, "0.2/ft", "0.2 1 / ft"},
        {DIM_INERTIA, "2 in4", "2 in^4"},
        {DIM_EXPANSION, "6e-6 1/delta_degF", "10.8E-6/K"},
        {DIM_MONEY, "1e3 USD", "1000 USD"},
        {DIM_TEMPERATURE, "68 degF", "293.15 K"},
        {DIM_FORCE, "1 tonf", "2 kip"},
    };
    for (size_t i = 0; i < sizeof same / sizeof *same; i++)
        assert_true(read_SI(same[i].a, same[i].dimension) == read_SI(same[i].b, same[i].dimension));
}

static void test_every_dimension_reads_its_example_and_units(void **state)
{
    (void)state;
    for (int id = 0; id < DIM_COUNT; id++) {
        const DimensionId d = (DimensionId)id;
        assert_true(read_SI(dimension_example(d), d) > 0);
        assert_true(dimension_called(d)[0]);
        for (int system = UNITS_US; system <= UNITS_SI; system++) {
            char text[64];
            quantity_write(301.25, quantity_unit((UnitSystem)system, d), text, sizeof text);
            assert_true(read_SI(text, d) == 301.25);
        }
    }
    assert_true(dimension_get(DIM_TEMPERATURE).level);
    assert_int_equal(dimension_get(DIM_BED_STIFFNESS).length, -2);
}

/* ---- refusals ---- */

typedef struct Refused {
    DimensionId dimension;
    const char *text;
    int from, to; /* columns */
    const char *says, *suggestion;
} Refused;

static void check_refused(const Refused *row, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double value = 4.75;
        Error err;
        const Status status = quantity_read(row[i].text, row[i].dimension, &value, &err);
        if (status != STATUS_BAD_INPUT || err.from.column != row[i].from ||
            err.to.column != row[i].to || !strstr(err.text, row[i].says) ||
            strcmp(err.suggestion, row[i].suggestion) != 0) {
            char line[1024];
            print_error("\"%s\": status %d, columns %d to %d: %s\n", row[i].text, (int)status,
                        err.from.column, err.to.column,
                        error_format(&err, NULL, line, sizeof line));
            fail();
        }
        assert_true(value == 4.75); /* outputs only on success */
        assert_int_equal(err.from.line, 1);
        assert_memory_equal(err.expected, dimension_called(row[i].dimension),
                            strlen(dimension_called(row[i].dimension)));
        check_status(quantity_read(row[i].text, row[i].dimension, &value, NULL), STATUS_BAD_INPUT,
                     &err);
    }
}

static void test_wrong_units_are_refused_with_what_to_write(void **state)
{
    (void)state;
    static const Refused row[] = {
        {DIM_STRESS, "12 psy", 4, 7, "unknown", "psi"},
        {DIM_STRESS, "5 Mpa", 3, 6, "unknown", "MPa"},
        {DIM_STRESS, "5 mPa", 3, 6, "thousandth", "MPa"},
        {DIM_STRESS, "6.5 PSI", 5, 8, "unknown", "psi"},
        {DIM_FORCE, "5 KN", 3, 5, "unknown", "kN"},
        {DIM_FORCE, "5 lb", 3, 5, "a mass or a force", "lbf"},
        {DIM_FORCE, "5 ton", 3, 6, "tonf is 2000 lbf, or write kN", "tonf"},
        {DIM_FORCE, "5 kg", 3, 5, "a mass", "N"},
        {DIM_FORCE, "400 kips", 5, 9, "not read", "kip"},
        {DIM_LENGTH, "9' 3\"", 2, 3, "not read", "ft"},
        {DIM_LENGTH,
         "3 \xC3\x9C"
         "m",
         3, 5, "unknown", ""},
        {DIM_LENGTH, "3 furlongs", 3, 11, "unknown", ""},
        {DIM_LENGTH, "54 kip", 4, 7, "gives a force", ""},
        {DIM_STRESS, "40 kip", 4, 7, "gives a force", ""},
        {DIM_FORCE, "5 mm^2", 3, 7, "gives an area", ""},
        {DIM_FORCE, "5 m^4*N", 3, 8, "not used here", ""},
        {DIM_LENGTH, "70 %", 4, 5, "gives a number", ""},
        {DIM_NONE, "3 in", 3, 5, "gives a length", ""},
        {DIM_TEMPERATURE, "15 delta_degF", 4, 14, "difference", "degF"},
        {DIM_TEMPERATURE_DIFF, "15 degF", 4, 8, "gives a temperature", "delta_degF"},
        {DIM_EXPANSION, "6e-6/degF", 6, 10, "level", "delta_degF"},
        {DIM_TEMPERATURE, "-460 degF", 1, 10, "absolute zero", ""},
        {DIM_MOMENT, "1200 kip-ft", 6, 12, "joined by", "kip*ft"},
        {DIM_MOMENT, "1200 kip ft", 6, 12, "joined by", "kip*ft"},
        {DIM_LENGTH, "3 m m", 3, 6, "joined by", "m*m"},
        {DIM_BED_STIFFNESS, "2 kip/(in*ft)", 7, 8, "missing", ""},
        {DIM_LENGTH, "2 m^9", 3, 6, "from 1 to 4", ""},
        {DIM_LENGTH, "2 m^0", 3, 6, "from 1 to 4", ""},
        {DIM_LENGTH, "2 m^", 3, 5, "from 1 to 4", ""},
        {DIM_LENGTH, "2 m12", 3, 6, "from 1 to 4", ""},
        {DIM_LENGTH, "3 mm/", 6, 6, "missing", ""},
        {DIM_LENGTH, "3 mm*/ft", 6, 7, "missing", ""},
        {DIM_LENGTH, "1 m*m*m*m*m*m*m*m*m", 19, 20, "too many", ""},
        {DIM_LENGTH, "3 aaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", 3, 33, "no name", ""},
    };
    check_refused(row, sizeof row / sizeof *row);
}

static void test_wrong_numbers_are_refused_with_what_to_write(void **state)
{
    (void)state;
    static const Refused row[] = {
        {DIM_LENGTH, "54", 1, 3, "no unit", "54 in"},
        {DIM_LENGTH, "0", 1, 2, "no unit", "0 in"},
        {DIM_EXPANSION, "6e-6", 1, 5, "no unit", "6e-6/delta_degF"},
        {DIM_LENGTH, "9 ft 3", 6, 7, "no unit", "3 in"},
        {DIM_LENGTH, "54 .5 in", 1, 3, "no unit", "54 in"},
        {DIM_LENGTH, "mm", 1, 3, "no number", ""},
        {DIM_LENGTH, "nan", 1, 4, "no number", ""},
        {DIM_LENGTH, "nan m", 1, 4, "no number", ""},
        {DIM_LENGTH, "-inf", 2, 5, "no number", ""},
        {DIM_LENGTH, "infinity m", 1, 9, "no number", ""},
        {DIM_LENGTH, "0x10 m", 2, 3, "unknown", ""},
        {DIM_LENGTH, "1e m", 2, 3, "unknown", ""},
        {DIM_LENGTH, "- - 3 m", 3, 4, "no number", ""},
        {DIM_LENGTH, "", 1, 1, "empty", ""},
        {DIM_LENGTH, "   ", 4, 4, "empty", ""},
        {DIM_LENGTH,
         "\xE2\x88\x92"
         "3 m",
         1, 3, "no number", ""}, /* U+2212, one character */
        {DIM_LENGTH, "1,5 m", 1, 4, "point", "1.5"},
        {DIM_STRESS, "1,500 psi", 1, 6, "point", ""}, /* 1500 or 1.5? nobody can tell */
        {DIM_STRESS, "1e308 MPa", 1, 10, "too large", ""},
        {DIM_STRESS, "-1e308 MPa", 1, 11, "too large", ""},
        {DIM_LENGTH, "1e9999999999999 m", 1, 16, "too large", ""},
        {DIM_LENGTH, "1.8e308 m", 1, 10, "too large", ""},
        {DIM_LENGTH, "1e-400 m", 1, 9, "too small", ""},
        {DIM_LENGTH, "1e-401 m", 1, 7, "too small", ""},
        {DIM_FORCE, "12345678901234567890123456789012345678901 N", 1, 42, "40 digits", ""},
        {DIM_LENGTH, "8 10/8 in", 3, 7, "fraction", ""},
        {DIM_LENGTH, "8 0/8 in", 3, 6, "fraction", ""},
        {DIM_LENGTH, "3/0 in", 1, 4, "fraction", ""},
        {DIM_LENGTH, "3/8.5 in", 1, 6, "fraction", ""},
        {DIM_LENGTH, "9 ft-3 in", 5, 6, "space", " "},
        {DIM_LENGTH, "9 ft 3 ft", 6, 10, "smaller unit", ""},
        {DIM_LENGTH, "3 in 9 ft", 6, 10, "smaller unit", ""},
        {DIM_LENGTH, "1 mi 1 yd 1 ft 1 in", 16, 17, "at most 3 parts", ""},
        {DIM_STRESS, "5 psi 3", 7, 8, "only a length", ""},
        {DIM_NONE, "1 2", 3, 4, "only a length", ""},
        {DIM_TEMPERATURE, "68 degF outside", 9, 16, "too much", ""},
        {DIM_LENGTH, "3 m)", 4, 5, "brackets", ""},
        {DIM_LENGTH, "3\tm", 2, 4, "too much", ""},
    };
    check_refused(row, sizeof row / sizeof *row);
    char longest[140];
    Error err;
    double value;
    memset(longest, ' ', sizeof longest - 1);
    longest[sizeof longest - 1] = 0;
    check_status(quantity_read(longest, DIM_LENGTH, &value, &err), STATUS_BAD_INPUT, &err);
    assert_non_null(strstr(err.text, "at most 120 characters"));
}

/* ---- exactness ---- */

/* Deterministic numbers: Marsaglia, Xorshift RNGs, J. Stat. Software 8(14), 2003 (from memory). */
static uint64_t next(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    return *seed ^= *seed << 17;
}

static double any_double(uint64_t *seed, int exponent_range)
{
    const double mantissa = (double)(next(seed) >> 11) * 0x1p-53 + 0.5;
    const int exponent = (int)(next(seed) % (unsigned)(2 * exponent_range)) - exponent_range;
    return (next(seed) & 1 ? -1 : 1) * ldexp(mantissa, exponent);
}

static void test_numbers_are_rounded_to_nearest(void **state)
{
    (void)state;
    uint64_t seed = 2385;
    for (int i = 0; i < 5000; i++) {
        char text[64];
        const unsigned long long digits = next(&seed) >> (next(&seed) % 60);
        const int power = (int)(next(&seed) % 640) - 340;
        snprintf(text, sizeof text, "%llu.%llue%d m", digits, (unsigned long long)next(&seed) >> 4,
                 power);
        const double expected = strtod(text, NULL); /* the C library rounds to nearest, too */
        double value = 0;
        if (quantity_read(text, DIM_LENGTH, &value, NULL) == STATUS_OK)
            assert_true(value == expected);
        else
            assert_true(expected == 0 || isinf(expected));
    }
    assert_true(read_SI("9007199254740993 m", DIM_LENGTH) == 9007199254740992.0); /* ties to even */
    assert_true(read_SI("9007199254740995 m", DIM_LENGTH) == 9007199254740996.0);
    assert_true(read_SI("2.2250738585072011e-308 m", DIM_LENGTH) < DBL_MIN);
    assert_true(read_SI("4.9406564584124654e-324 m", DIM_LENGTH) == 0x1p-1074);
    assert_true(read_SI("1.7976931348623157e308 m", DIM_LENGTH) == DBL_MAX);
}

static void test_written_reads_back_in_every_unit(void **state)
{
    (void)state;
    static const char *const unit[] = {
        "in",   "ft",   "lbf",   "kip/ft", "psi", "pcf", "kip*ft", "min",       "yr",        "%",
        "in^4", "1/ft", "kN/m3", "mil",    "bar", "USD", "K",      "kip/in/ft", "delta_degF"};
    uint64_t seed = 40217;
    for (size_t u = 0; u < sizeof unit / sizeof *unit; u++)
        for (int i = 0; i < 200; i++) {
            const double value = any_double(&seed, i % 2 ? 40 : 900);
            char text[80];
            double back = 0;
            quantity_write(value, unit[u], text, sizeof text);
            int found = 0;
            for (int id = 0; id < DIM_COUNT && !found; id++)
                found = id != DIM_TEMPERATURE &&
                        quantity_read(text, (DimensionId)id, &back, NULL) == STATUS_OK;
            assert_true(found && back == value);
        }
    for (int i = 0; i < 500; i++) { /* levels: 100 K to 612 K */
        char text[80];
        const double value = 100 + ldexp((double)(next(&seed) >> 11), -44);
        quantity_write(value, i % 2 ? "degF" : "degC", text, sizeof text);
        assert_true(read_SI(text, DIM_TEMPERATURE) == value);
    }
}

static void test_written_is_shortest(void **state)
{
    (void)state;
    static const char *const text[] = {"8.5 in",
                                       "111 in",
                                       "545894 in^4",
                                       "6.5 ksi",
                                       "0.0002 1/ft",
                                       "2000 kip/in/ft",
                                       "150 pcf",
                                       "28 day",
                                       "68 degF",
                                       "-40 degC",
                                       "0 ft",
                                       "0.42 kip/ft",
                                       "6e-6 1/delta_degF",
                                       "70 %",
                                       "1e15 m",
                                       "1e20 m",
                                       "2.385e-7 m",
                                       "123456789012345 mm",
                                       "-0.001 in",
                                       "1500 USD"};
    for (size_t i = 0; i < sizeof text / sizeof *text; i++) {
        char out[80];
        double value = NAN;
        int id = 0;
        while (id < DIM_COUNT && quantity_read(text[i], (DimensionId)id, &value, NULL)) id++;
        assert_true(id < DIM_COUNT);
        const char *const unit = strchr(text[i], ' ') + 1;
        assert_string_equal(quantity_write(value, unit, out, sizeof out), text[i]);
    }
    char out[80];
    assert_string_equal(quantity_write(0.3, "", out, sizeof out), "0.3");
}

static void test_quantity_in_inverts_reading(void **state)
{
    (void)state;
    const char *const law = "law: reading and showing are inverse";
    check_near(quantity_in(read_SI("8.5 in", DIM_LENGTH), "in"), 8.5, 2e-16, 0, law);
    check_near(quantity_in(read_SI("6.5 ksi", DIM_STRESS), "psi"), 6500, 2e-16, 0, law);
    check_near(quantity_in(293.15, "degF"), 68, 1e-15, 0, "law: 20 degC is 68 degF");
    check_near(quantity_in(0, "degF"), -459.67, 1e-15, 0, SP811);
    check_near(quantity_in(0.7, ""), 0.7, 0, 0, law);
    assert_true(isnan(quantity_in(NAN, "kip")));
    assert_true(isinf(quantity_in(-INFINITY, "kip")));
}

static void test_results_are_shown_in_one_unit_by_size(void **state)
{
    const double ksi_Pa = 6.894757293168e6; /* NIST SP 811 B.8 */
    (void)state;
    assert_string_equal(quantity_shown_unit(UNITS_US, DIM_STRESS, -9.9 * ksi_Pa), "psi");
    assert_string_equal(quantity_shown_unit(UNITS_US, DIM_STRESS, 10.1 * ksi_Pa), "ksi");
    assert_string_equal(quantity_shown_unit(UNITS_SI, DIM_STRESS, 10.1 * ksi_Pa), "MPa");
    assert_string_equal(quantity_shown_unit(UNITS_US, DIM_LENGTH, 0.9), "in");
    assert_string_equal(quantity_shown_unit(UNITS_US, DIM_LENGTH, 1.1), "ft");
    assert_string_equal(quantity_shown_unit(UNITS_SI, DIM_LENGTH, 0.9), "mm");
    assert_string_equal(quantity_shown_unit(UNITS_US, DIM_MOMENT, 1), "kip*ft");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_factors_equal_the_published),
        cmocka_unit_test(test_factors_follow_their_definitions),
        cmocka_unit_test(test_equal_amounts_are_the_same_double),
        cmocka_unit_test(test_every_dimension_reads_its_example_and_units),
        cmocka_unit_test(test_results_are_shown_in_one_unit_by_size),
        cmocka_unit_test(test_wrong_units_are_refused_with_what_to_write),
        cmocka_unit_test(test_wrong_numbers_are_refused_with_what_to_write),
        cmocka_unit_test(test_numbers_are_rounded_to_nearest),
        cmocka_unit_test(test_written_reads_back_in_every_unit),
        cmocka_unit_test(test_written_is_shortest),
        cmocka_unit_test(test_quantity_in_inverts_reading),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
