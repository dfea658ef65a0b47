/* The map of registers, their decoding, and the line against a device that the test makes with the library's
 * server functions: it answers, refuses, is silent, hangs up and comes back. */
#define _GNU_SOURCE
#include "clench/transducer.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#include "check.h"
#include "clench/text.h"

static JackPlan plan = {.step_count = 5, .gear = {.sets = 2, .count = 4}};

static Status map_of(const char *text, Arena *arena, TransducerMap *map, Diagnostics *list)
{
    Node *root;
    const SiteDay day = {.plan = &plan, .point_count = 3};
    *list = (Diagnostics){.count = 0};
    TRY(yaml_read(text, strlen(text), arena, &root, list));
    return transducer_map(root, &day, arena, map, list);
}

static const char good[] =
    "station: 7\nevery: 2 s\nsilence: 0.3 s\n"
    "pressure 1: {register: 0, type: float, words: big, unit: psi}\n"
    "pressure 2: {register: 2, type: float, words: little, unit: psi}\n"
    "move 1: {register: 4, type: int16, scale: 0.01, unit: mm}\n"
    "move 3: {register: 5, type: uint16, scale: 0.001, offset: -2, unit: in, kind: input}\n"
    "deck: {register: 6, type: int16, scale: 0.1, unit: degC, least: -10 degC, most: 60 degC}\n";

static void test_a_map_is_read(void **state)
{
    (void)state;
    Arena *const arena = arena_create((size_t)16 << 20);
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    TransducerMap map = {.count = 0};
    assert_int_equal(map_of(good, arena, &map, list), STATUS_OK);
    assert_int_equal(map.count, 5);
    assert_int_equal(map.station, 7);
    check_near(map.every_day * 86400, 2, 1e-12, 0, "closed form: 86400 s a day");
    assert_true(map.value[1].little && !map.value[0].little && map.value[3].input);
    check_near(map.value[4].most, 333.15, 1e-12, 0, "closed form: 60 degC");
    arena_free(arena);
}

static void test_maps_that_are_wrong_are_told_at_their_place(void **state)
{
    (void)state;
    static const char *const bad[][2] = {
        {"pressure 3: {register: 0, type: int16, unit: psi}", "none of pressure N"}, /* two sets */
        {"pressure 0: {register: 0, type: int16, unit: psi}", "none of pressure N"},
        {"presure 1: {register: 0, type: int16, unit: psi}", "none of pressure N"},
        {"move 4: {register: 0, type: int16, unit: mm}", "none of pressure N"},
        {"pressure 1: {register: 65536, type: int16, unit: psi}", "is no address"},
        {"pressure 1: {register: -1, type: int16, unit: psi}", "is no address"},
        {"pressure 1: {register: 0, type: int32, unit: psi}", "is none of int16"},
        {"pressure 1: {register: 0, type: int16, unit: in}", "is no unit"},
        {"pressure 1: {register: 0, type: int16}", "needs register, type and unit"},
        {"pressure 1: {type: int16, unit: psi}", "needs register, type and unit"},
        {"pressure 1: {register: 0, unit: psi}", "needs register, type and unit"},
        {"pressure 1: {register: 0, type: float, unit: psi}", "words: big"},
        {"pressure 1: {register: 65535, type: float, words: big, unit: psi}", "two registers"},
        {"pressure 1: {register: 0, type: int16, unit: psi, scale: 0}", "other than 0"},
        {"pressure 1: {register: 0, type: int16, unit: psi, least: 3 in}", "the same"},
        {"pressure 1: {register: 0, type: int16, unit: psi, least: 9 ksi, most: 1 ksi}",
         "not below"},
        {"pressure 1: {register: 0, type: int16, unit: psi, sale: 2}", "none of register"},
        {"pressure 1: 4", "is no map"},
        {"every: 0 s", "from 1 s to 1 h"},
        {"silence: 2 h", "from 0.1 s to 60 s"},
        {"parity: X", "none of N, E, O"},
        {"station: 248", "1 to 247"},
        {"every: 2 s", "names no value"},
        {"[a, b]", "is not a map"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        Arena *const arena = arena_create((size_t)16 << 20);
        Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
        TransducerMap map;
        assert_int_equal(map_of(bad[i][0], arena, &map, list), STATUS_BAD_INPUT);
        if (list->count != 1 || !strstr(list->item[0].text, bad[i][1]))
            print_error("%s: %d, %s\n", bad[i][0], list->count, list->item[0].text);
        assert_int_equal(list->count, 1);
        assert_non_null(strstr(list->item[0].text, bad[i][1]));
        assert_int_equal(list->item[0].from.line, 1);
        arena_free(arena);
    }
}

/* IEEE 754-2008, 3.4: sign, 8 bits of exponent biased by 127, 23 of fraction. */
static void test_registers_become_numbers(void **state)
{
    (void)state;
    static const char source[] = "closed form: IEEE 754 binary32; two's complement";
    static const struct {
        TransducerType type;
        bool little;
        uint16_t word[2];
        double number;
    } known[] = {{TRANSDUCER_FLOAT, false, {0x3F80, 0x0000}, 1},
                 {TRANSDUCER_FLOAT, true, {0x0000, 0x3F80}, 1},
                 {TRANSDUCER_FLOAT, false, {0xC2ED, 0x4000}, -118.625},
                 {TRANSDUCER_FLOAT, true, {0x4000, 0xC2ED}, -118.625},
                 {TRANSDUCER_FLOAT, false, {0x4000, 0xC2ED}, 2.0 + 0xC2ED / 4194304.0},
                 {TRANSDUCER_INT16, false, {0xFFFE, 0x1234}, -2},
                 {TRANSDUCER_INT16, false, {0x8000, 0}, -32768},
                 {TRANSDUCER_INT16, false, {0x7FFF, 0}, 32767},
                 {TRANSDUCER_UINT16, false, {0xFFFE, 0}, 65534}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        const TransducerValue v = {.type = known[i].type, .little = known[i].little, .scale = 1};
        check_near(transducer_decode(&v, known[i].word), known[i].number, 0, 0, source);
        const TransducerValue scaled = {
            .type = known[i].type, .little = known[i].little, .scale = 0.25, .offset = -3};
        check_near(transducer_decode(&scaled, known[i].word), 0.25 * known[i].number - 3, 0, 0,
                   source);
    }
    static const uint16_t none[][2] = {{0x7FC0, 0}, {0x7F80, 0}, {0xFF80, 0}, {0xFFFF, 0xFFFF}};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        const TransducerValue v = {.type = TRANSDUCER_FLOAT, .scale = 1};
        assert_true(isnan(transducer_decode(&v, none[i])));
    }
}

static void test_what_cannot_be_is_left_out_and_told(void **state)
{
    (void)state;
    Arena *const arena = arena_create((size_t)16 << 20);
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    TransducerMap map = {.count = 0};
    assert_int_equal(map_of(good, arena, &map, list), STATUS_OK);
    const double number[] = {2153.4, 1e30, NAN, 0.125, 61};
    LogbookWords words = {.remark = "valves shut"};
    transducer_words(&map, number, arena, &words);
    assert_string_equal(words.pressure[0], "2153.4 psi");
    assert_string_equal(words.pressure[1], "-");
    assert_string_equal(words.move[0], "-");
    assert_string_equal(words.move[2], "0.125 in");
    assert_string_equal(words.deck, "-"); /* beyond the 60 degC of the map */
    assert_string_equal(words.remark,
                        "valves shut; pressure 2 left out: 1e+30 psi cannot be; move 1 "
                        "not read; deck left out: 61 degC cannot be");
    arena_free(arena);
}

#ifdef CLENCH_MODBUS
#include <modbus.h>

/* ---- a device ---- */

typedef enum DeviceDoes { ANSWERS, IS_SILENT, HANGS_UP, IS_LATE } DeviceDoes;

typedef struct Device {
    int port, listening;
    modbus_t *line;
    modbus_mapping_t *registers;
    volatile DeviceDoes does;
    volatile int calls, asked;
    pthread_t thread;
} Device;

static void device_serve(Device *d)
{
    uint8_t asked[MODBUS_TCP_MAX_ADU_LENGTH];
    for (;;) {
        const int size = modbus_receive(d->line, asked);
        if (size < 0 || d->does == HANGS_UP) return;
        d->asked++;
        if (d->does == IS_LATE) usleep(500000);
        if (d->does != IS_SILENT) (void)modbus_reply(d->line, asked, size, d->registers);
    }
}

static void *device_run(void *closure)
{
    Device *const d = closure;
    while (modbus_tcp_accept(d->line, &d->listening) >= 0) {
        d->calls++;
        device_serve(d);
        close(modbus_get_socket(d->line));
    }
    return NULL;
}

static Device *device_make(void)
{
    Device *const d = calloc(1, sizeof *d);
    assert_non_null(d);
    for (d->port = 15020 + getpid() % 20000; d->port < 60000; d->port++) {
        d->line = modbus_new_tcp("127.0.0.1", d->port);
        d->listening = modbus_tcp_listen(d->line, 1);
        if (d->listening >= 0) break;
        modbus_free(d->line);
    }
    d->registers = modbus_mapping_new(0, 0, 8, 8);
    assert_non_null(d->registers);
    assert_int_equal(pthread_create(&d->thread, NULL, device_run, d), 0);
    return d;
}

static void device_end(Device *d)
{
    shutdown(d->listening, SHUT_RDWR); /* nothing is accepted any more */
    pthread_join(d->thread, NULL);
    close(d->listening);
    modbus_mapping_free(d->registers);
    modbus_free(d->line);
    free(d);
}

/* 4250.5 psi (0x4584D400) big, 4180.25 psi (0x4582A200) little, 12.34 mm, 3.210 - 2 in, 21.5 degC. */
static void registers_set(Device *d)
{
    static const uint16_t holding[] = {0x4584, 0xD400, 0xA200, 0x4582, 1234, 0, 215, 0};
    memcpy(d->registers->tab_registers, holding, sizeof holding);
    d->registers->tab_input_registers[5] = 3210;
}

static Transducer *device_open(const Device *d, const char *text, Arena *arena)
{
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    TransducerMap *const map = ARENA_NEW(arena, TransducerMap, 1);
    Transducer *made = NULL;
    Error err = {0};
    assert_int_equal(map_of(text, arena, map, list), STATUS_OK);
    check_status(
        transducer_open(arena_printf(arena, "tcp:127.0.0.1:%d", d->port), map, &made, &err),
        STATUS_OK, &err);
    return made;
}

static void test_a_device_is_read(void **state)
{
    (void)state;
    Arena *const arena = arena_create((size_t)16 << 20);
    Device *const d = device_make();
    registers_set(d);
    Transducer *const t = device_open(d, good, arena);
    double number[TRANSDUCER_VALUES];
    Error err = {0};
    static const double expected[] = {4250.5, 4180.25, 12.34, 1.21, 21.5};
    for (int round = 0; round < 3; round++) {
        check_status(transducer_read(t, number, &err), STATUS_OK, &err);
        for (int i = 0; i < 5; i++)
            check_near(number[i], expected[i], 1e-12, 0, "closed form: the registers set");
    }
    assert_int_equal(d->calls, 1); /* one connection for all */
    transducer_close(t);
    device_end(d);
    arena_free(arena);
}

static void test_a_register_that_is_not_there_is_not_read(void **state)
{
    (void)state;
    Arena *const arena = arena_create((size_t)16 << 20);
    Device *const d = device_make();
    registers_set(d);
    Transducer *const t =
        device_open(d,
                    "pressure 1: {register: 0, type: float, words: big, unit: psi}\n"
                    "move 1: {register: 900, type: int16, unit: mm}\n"
                    "deck: {register: 6, type: int16, scale: 0.1, unit: degC}\n",
                    arena);
    double number[TRANSDUCER_VALUES];
    Error err = {0};
    check_status(transducer_read(t, number, &err), STATUS_OK, &err);
    check_near(number[0], 4250.5, 0, 0, "closed form: the registers set");
    assert_true(isnan(number[1]));
    check_near(number[2], 21.5, 1e-12, 0, "closed form: the registers set");
    transducer_close(t);
    device_end(d);
    arena_free(arena);
}

/* Silent: given up within the time; then it answers, on a new connection, and no late answer of before is
 * taken for the new one. */
static void test_a_silent_device_is_given_up_and_found_again(void **state)
{
    (void)state;
    Arena *const arena = arena_create((size_t)16 << 20);
    Device *const d = device_make();
    registers_set(d);
    Transducer *const t = device_open(d, good, arena);
    double number[TRANSDUCER_VALUES];
    Error err = {0};
    static const DeviceDoes fault[] = {IS_SILENT, HANGS_UP, IS_LATE};
    for (int i = 0; i < 3; i++) {
        d->does = ANSWERS;
        d->registers->tab_registers[0] = 0x4584;
        check_status(transducer_read(t, number, &err), STATUS_OK, &err);
        d->does = fault[i];
        check_status(transducer_read(t, number, &err), STATUS_IO, &err);
        assert_non_null(strstr(err.text, "does not answer"));
        d->does = ANSWERS;
        d->registers->tab_registers[0] = 0x4504; /* half of it */
        const int calls = d->calls;
        Status status = STATUS_IO;
        for (int try = 0; status != STATUS_OK && try < 10; try++)
            status = transducer_read(t, number, &err);
        assert_int_equal(status, STATUS_OK);
        check_near(number[0], 4250.5 / 2, 1e-12, 0, "closed form: exponent one less");
        assert_true(d->calls > calls);
    }
    transducer_close(t);
    device_end(d);
    arena_free(arena);
}

static void test_lines_that_cannot_be_are_told(void **state)
{
    (void)state;
    Arena *const arena = arena_create((size_t)16 << 20);
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    TransducerMap map;
    Transducer *t = NULL;
    double number[TRANSDUCER_VALUES];
    Error err = {0};
    assert_int_equal(map_of(good, arena, &map, list), STATUS_OK);
    static const char *const bad[] = {"",          "tcp:", "tcp:host", "tcp::502",
                                      "tcp:host:", "rtu:", "udp:a:1"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        check_status(transducer_open(bad[i], &map, &t, &err), STATUS_BAD_INPUT, &err);
    check_status(transducer_open("tcp:127.0.0.1:9", &map, &t, &err), STATUS_OK, &err);
    check_status(transducer_read(t, number, &err), STATUS_IO, &err);
    assert_non_null(strstr(err.text, "cannot be reached"));
    transducer_close(t);
    check_status(transducer_open("rtu:/dev/none", &map, &t, &err), STATUS_OK, &err);
    check_status(transducer_read(t, number, &err), STATUS_IO, &err);
    transducer_close(t);
    arena_free(arena);
}
#else
static void test_a_build_without_the_line_says_so(void **state)
{
    (void)state;
    Transducer *t = NULL;
    Error err = {0};
    const TransducerMap map = {.count = 1};
    check_status(transducer_open("tcp:127.0.0.1:502", &map, &t, &err), STATUS_IO, &err);
    assert_non_null(strstr(err.text, "no Modbus"));
}
#endif

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_map_is_read),
        cmocka_unit_test(test_maps_that_are_wrong_are_told_at_their_place),
        cmocka_unit_test(test_registers_become_numbers),
        cmocka_unit_test(test_what_cannot_be_is_left_out_and_told),
#ifdef CLENCH_MODBUS
        cmocka_unit_test(test_a_device_is_read),
        cmocka_unit_test(test_a_register_that_is_not_there_is_not_read),
        cmocka_unit_test(test_a_silent_device_is_given_up_and_found_again),
        cmocka_unit_test(test_lines_that_cannot_be_are_told),
#else
        cmocka_unit_test(test_a_build_without_the_line_says_so),
#endif
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
