/* Reading the bridge file: every kind of error with its place, defaults, derived values, origins. */
#include "bridge_file.h"

#include <stdio.h>
#include <string.h>

/* The small file with one change must be refused at that place, for that key, with these words. */
static void check_refused_text(const char *text, int line, int column, const char *key,
                               const char *words, const char *suggestion)
{
    BridgeFile file;
    char shown[1024];
    bridge_from_text(&file, text);
    assert_int_equal(file.status, STATUS_BAD_INPUT);
    assert_null(file.bridge);
    for (int i = 0; i < file.found.count; i++) {
        const Error *err = &file.found.item[i];
        if (strcmp(err->key, key) != 0 || !strstr(err->text, words)) continue;
        assert_int_equal(err->from.line, line);
        assert_int_equal(err->from.column, column);
        assert_string_equal(err->suggestion, suggestion);
        bridge_close(&file);
        return;
    }
    for (int i = 0; i < file.found.count; i++)
        print_error("%s\n", error_format(&file.found.item[i], "file", shown, sizeof shown));
    fail_msg("no error for %s: %s", key, words);
}

static void check_refused(const char *old, const char *fresh, int line, int column, const char *key,
                          const char *words, const char *suggestion)
{
    char small[2048], text[4096];
    bridge_small("", small, sizeof small);
    check_refused_text(bridge_replace(small, old, fresh, text, sizeof text), line, column, key,
                       words, suggestion);
}

static void check_refused_more(const char *more, int line, int column, const char *key,
                               const char *words)
{
    char small[4096];
    check_refused_text(bridge_small(more, small, sizeof small), line, column, key, words, "");
}

static void test_unknown_key_names_the_nearest(void **state)
{
    (void)state;
    check_refused("  spacing: 8.5 ft", "  spaceing: 8.5 ft", 5, 3, "girders.spaceing",
                  "there is no key \"spaceing\" here", "spacing");
    check_refused("climate:", "klimate:", 10, 1, "klimate", "there is no key", "climate");
    check_refused("{count: 26,", "{cuont: 26,", 9, 8, "girders.strands[1].cuont", "there is no key",
                  "count");
}

static void test_missing_values_are_told_at_their_group(void **state)
{
    (void)state;
    check_refused("  spacing: 8.5 ft\n", "", 3, 1, "girders.spacing", "must be given",
                  "spacing: 8.5 in");
    check_refused("  kind: pretensioned\n", "", 3, 1, "girders.kind", "must be given",
                  "kind: plate girder");
    check_refused("spans:\n  - length: 94 ft\n", "", 1, 1, "spans", "a list with at least one", "");
    check_refused("climate:\n  humidity: 70 %\n  gradient_zone: 2\n", "", 1, 1, "climate",
                  "must be given", "");
    check_refused("length: 94 ft", "pier: continuous", 2, 5, "spans[1].length", "must be given",
                  "length: 8.5 in");
}

static void test_wrong_kinds_are_told(void **state)
{
    (void)state;
    check_refused("  count: 5", "  count: five", 4, 10, "girders.count", "not a whole number", "");
    check_refused("  count: 5", "  count: 5.0", 4, 10, "girders.count", "not a whole number", "");
    check_refused("  count: 5", "  count: [5]", 4, 10, "girders.count", "a single value", "");
    check_refused("pretensioned", "prestressed", 6, 9, "girders.kind", "none of the words", "");
    check_refused("spans:\n  - length: 94 ft\n", "spans: 94 ft\n", 1, 8, "spans", "a list", "");
    check_refused("climate:\n  humidity: 70 %\n  gradient_zone: 2\n", "climate: dry\n", 10, 10,
                  "climate", "a group of keys", "");
    check_refused("    - {count: 26, height: 4 in}", "    - 26", 9, 7, "girders.strands[1]",
                  "each item is a group", "");
    check_refused_text("- 94 ft\n", 1, 1, "", "a bridge file is a group of keys", "");
}

static void test_choice_offers_the_nearest_word(void **state)
{
    (void)state;
    char small[2048];
    bridge_small("panels:\n  joint: match cast epoxied\n", small, sizeof small);
    check_refused_text(small, 14, 10, "panels.joint", "none of the words", "match-cast epoxied");
    bridge_small("climate_: 1\n", small, sizeof small);
    check_refused_text(small, 13, 1, "climate_", "there is no key", "climate");
}

static void test_wrong_dimension_and_unit_are_told(void **state)
{
    (void)state;
    char small[2048];
    BridgeFile file;
    check_refused("length: 94 ft", "length: 94 kip", 2, 16, "spans[1].length", "", "");
    bridge_small("deck:\n  thickness: 8.5\n", small, sizeof small);
    bridge_from_text(&file, small);
    assert_int_equal(file.status, STATUS_BAD_INPUT);
    assert_int_equal(file.found.count, 1);
    assert_string_equal(file.found.item[0].key, "deck.thickness");
    assert_int_equal(file.found.item[0].from.line, 14);
    assert_true(strlen(file.found.item[0].suggestion) > 0); /* what to write instead */
    bridge_close(&file);
}

static void test_out_of_range_shows_the_range_in_the_units_shown(void **state)
{
    (void)state;
    check_refused("gradient_zone: 2", "gradient_zone: 5", 12, 18, "climate.gradient_zone",
                  "5 is out of range: 1 to 4", "");
    check_refused("humidity: 70 %", "humidity: 170 %", 11, 13, "climate.humidity",
                  "170 % is out of range: 0.2 to 1", "");
    check_refused_more("concrete:\n  panel: {strength: 3.9 ksi}\n", 14, 21,
                       "concrete.panel.strength", "3.9 ksi is out of range");
}

static void test_all_errors_come_in_one_pass_by_place(void **state)
{
    (void)state;
    BridgeFile file;
    bridge_from_text(&file, "spans:\n"
                            "  - length: 94 kip\n"
                            "  - lenght: 94 ft\n"
                            "girders: {count: 5, spacing: 8.5 ft, kind: pretensionned}\n"
                            "climate: {humidity: 70 %, gradient_zone: 9}\n"
                            "deck: {thicknes: 8 in}\n");
    assert_int_equal(file.status, STATUS_BAD_INPUT);
    const char *key[] = {"spans[1].length", "spans[2].lenght",       "spans[2].length",
                         "girders.kind",    "climate.gradient_zone", "deck.thicknes"};
    const int line[] = {2, 3, 3, 4, 5, 6};
    assert_int_equal(file.found.count, 6);
    for (int i = 0; i < 6; i++) {
        assert_string_equal(file.found.item[i].key, key[i]);
        assert_int_equal(file.found.item[i].from.line, line[i]);
    }
    bridge_close(&file);
}

static void test_days_out_of_order_are_told(void **state)
{
    (void)state;
    check_refused_more("days:\n  jacking: 120 day\n  lock: 119 day\n", 15, 9, "days.lock",
                       "day 119 is before days.jacking on day 120");
    check_refused_more("days:\n  phase_2_cast: 95 day\n  panels_set: 90 day\n", 15, 15,
                       "days.panels_set", "before days.phase_2_cast");
    check_refused_more("days:\n  closure_cast: 121 day\n  closure_active: 121 day\n", 15, 19,
                       "days.closure_active", "the same as days.closure_cast");
    check_refused_more("days:\n  opening: 200 day\n  inspections: [300 day, 250 day]\n", 15, 26,
                       "days.inspections[2]", "one after the other");
}

static void test_keys_that_belong_together_are_judged(void **state)
{
    (void)state;
    check_refused("shape: BT-54", "shape: BT-55", 7, 10, "girders.shape",
                  "is not known: is it \"BT-54\"?", "");
    check_refused("  shape: BT-54\n", "", 6, 9, "girders.shape", "give a standard shape", "");
    check_refused("kind: pretensioned", "kind: plate girder", 6, 9, "girders.plates",
                  "a steel girder needs its plates", "");
    check_refused("height: 4 in}", "height: 60 in}", 9, 27, "girders.strands[1].height",
                  "above the girder", "");
    check_refused("height: 4 in}", "height: 4 in, end_height: 40 in}", 9, 27,
                  "girders.strands[1].height", "need harped_at", "");
    check_refused("count: 26, height: 4 in}", "count: 40, height: 1 in}", 9, 27,
                  "girders.strands[1].height", "40 strands do not fit", "");
    check_refused_more("deck: {width: 30 ft}\n", 13, 15, "deck.width", "width is not that");
    check_refused_more("supports: [{kind: fixed bearing}]\n", 13, 19, "supports[1].kind",
                       "1 entries for 2 support lines");
    check_refused_more("live: {model: axles}\n", 13, 15, "live.axles", "give the axles");
    check_refused_more("runs: [{from_span: 1, to_span: 2}]\n", 13, 32, "runs[1].to_span",
                       "one of the 1 spans");
    check_refused_more("shims: {friction: 0.1, friction_least: 0.15}\n", 13, 40,
                       "shims.friction_least", "more than the most");
    check_refused_more("piers: {ties: [{below_top: 60 in, area: 9 in^2}]}\n", 13, 28,
                       "piers.ties[1].below_top", "below the girder");
    check_refused_more("piers: {ties: [{below_top: -12 in, area: 9 in^2}]}\n", 13, 28,
                       "piers.ties[1].below_top", "above the deck");
    check_refused_more("connectors: {width: 80 in}\n", 13, 21, "connectors.width",
                       "wider than the girder's top flange");
    check_refused_more("connectors: {anchor_length: 20 ft}\n", 13, 29, "connectors.anchor_length",
                       "more length than the anchor panel");
    check_refused_more("deck: {crossfall: 20 %}\n", 13, 19, "deck.crossfall",
                       "20 % is out of range: 0 to 0.12");
}

/* As-rolled steel has other constants of interface shear, and welded bars would need fatigue. */
static void test_bars_on_steel_girders_are_refused(void **state)
{
    (void)state;
    check_refused_text("spans:\n  - length: 94 ft\n"
                       "girders:\n  count: 5\n  spacing: 8.5 ft\n  kind: plate girder\n"
                       "  plates:\n    - {top_width: 16 in, top_thickness: 1 in, web_depth: 54 in, "
                       "web_thickness: 0.5 in, bottom_width: 18 in, bottom_thickness: 1.5 in}\n"
                       "climate:\n  humidity: 70 %\n  gradient_zone: 2\n"
                       "connectors:\n  kind: bars\n",
                       13, 9, "connectors.kind", "on concrete girders alone", "");
}

/* ---- values ---- */

static void check_value(const BridgeFile *file, const char *path, double expected, Origin origin,
                        const char *source)
{
    const BridgeValue *value = bridge_value_at(file->bridge, path);
    assert_non_null(value);
    check_near(value->value, expected, 1e-12, 0, source);
    assert_int_equal(value->origin, origin);
}

static void test_small_file_gets_every_default(void **state)
{
    (void)state;
    BridgeFile file;
    char small[2048];
    bridge_from_text(&file, bridge_small("", small, sizeof small));
    assert_int_equal(file.status, STATUS_OK);
    check_value(&file, "spans[1].length", 94 * 0.3048, ORIGIN_GIVEN, "law: 1 ft = 0.3048 m");
    check_value(&file, "deck.thickness", 8.5 * 0.0254, ORIGIN_DEFAULT, "schema table");
    check_value(&file, "girders.overhang", 0.4 * 8.5 * 0.3048, ORIGIN_DERIVED,
                "schema table: 0.4 of the spacing");
    check_value(&file, "girders.area", 659 * 0.0254 * 0.0254, ORIGIN_DERIVED,
                "PCI Bridge Design Manual, BT-54: 659 in^2 (from memory)");
    check_value(&file, "days.jacking", 110, ORIGIN_DERIVED, "schema table: 20+3+67+10+2+8");
    check_value(&file, "days.end", 110 + 0.1 + 0.1 + 1 + 2.8 + 0.2 + 1 + 2.8 + 12 + 10 + 10 + 27394,
                ORIGIN_DERIVED, "schema table");
    const BridgeValue *length = bridge_value_at(file.bridge, "spans[1].length");
    assert_int_equal(length->place.line, 2);
    assert_int_equal(length->place.column, 13);
    assert_string_equal(length->text, "94 ft");
    assert_string_equal(bridge_value_at(file.bridge, "spans[1].pier")->text, "link slab");
    assert_string_equal(bridge_value_at(file.bridge, "concrete.panel.time_model")->text,
                        "AASHTO 2015");
    assert_string_equal(bridge_value_at(file.bridge, "days.lock")->text, "110.1 day");
    assert_null(bridge_value_at(file.bridge, "no.such.key"));
    assert_int_equal(bridge_units(file.bridge), UNITS_US);
    bridge_close(&file);
}

static void test_derived_values_follow_what_is_given(void **state)
{
    (void)state;
    BridgeFile file;
    char small[2048];
    bridge_small("units: SI\ndays: {jacking: 150 day}\ndeck: {width: 42 ft}\n"
                 "concrete: {panel: {strength: 50 MPa}}\n",
                 small, sizeof small);
    bridge_from_text(&file, small);
    assert_int_equal(file.status, STATUS_OK);
    check_value(&file, "days.lock", 150.1, ORIGIN_DERIVED, "schema table: 0.1 day later");
    check_value(&file, "girders.overhang", 4 * 0.3048, ORIGIN_DERIVED, "closed form (42-34)/2");
    check_value(&file, "concrete.panel.strength_at_loading", 40e6, ORIGIN_DERIVED,
                "AASHTO LRFD 5.4.2.3.2 (from memory): 0.8 f'c");
    check_value(&file, "concrete.panel.mean_strength", 58e6, ORIGIN_DERIVED,
                "EN 1992-1-1:2004 table 3.1");
    assert_string_equal(bridge_value_at(file.bridge, "concrete.panel.strength_at_loading")->text,
                        "40 MPa");
    assert_int_equal(bridge_units(file.bridge), UNITS_SI);
    bridge_close(&file);
}

/* The table's defaults are read by every file; each row can be shown and found. */
static void test_schema_rows_are_complete(void **state)
{
    (void)state;
    for (int i = 0; i < bridge_schema_count(); i++) {
        const SchemaRow *row = bridge_schema_row(i);
        assert_true(strlen(row->help) >= 8);
        for (int k = 0; k < i; k++) assert_string_not_equal(row->path, bridge_schema_row(k)->path);
        if (row->kind == SCHEMA_QUANTITY) assert_true(row->least < row->most);
    }
}

static void print_schema(void)
{
    Arena *arena = arena_create((size_t)16 << 20);
    Text text = text_start(arena);
    bridge_schema_json(&text);
    fputs(text.bytes, stdout);
    arena_free(arena);
}

/* `test_bridge schema` prints the JSON Schema, for the check by a general validator. */
int main(int argc, char **argv)
{
    if (argc > 1 && strcmp(argv[1], "schema") == 0) {
        print_schema();
        return 0;
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_unknown_key_names_the_nearest),
        cmocka_unit_test(test_missing_values_are_told_at_their_group),
        cmocka_unit_test(test_wrong_kinds_are_told),
        cmocka_unit_test(test_choice_offers_the_nearest_word),
        cmocka_unit_test(test_wrong_dimension_and_unit_are_told),
        cmocka_unit_test(test_out_of_range_shows_the_range_in_the_units_shown),
        cmocka_unit_test(test_all_errors_come_in_one_pass_by_place),
        cmocka_unit_test(test_days_out_of_order_are_told),
        cmocka_unit_test(test_keys_that_belong_together_are_judged),
        cmocka_unit_test(test_bars_on_steel_girders_are_refused),
        cmocka_unit_test(test_small_file_gets_every_default),
        cmocka_unit_test(test_derived_values_follow_what_is_given),
        cmocka_unit_test(test_schema_rows_are_complete),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
