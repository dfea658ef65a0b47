/* Any bytes as a map of registers give errors, or a map whose words make a reading, whatever the registers hold. */
#include <string.h>

#include "clench/text.h"
#include "clench/transducer.h"
#include "fuzz.h"

static JackPlan plan = {.step_count = 5, .gear = {.sets = 2, .count = 4}};

static void check_map(const TransducerMap *map, const SiteDay *day, Arena *arena)
{
    static const uint16_t held[][2] = {{0, 0},      {1, 2},           {0x7FFF, 0xFFFF},
                                       {0x8000, 0}, {0x7F7F, 0xFFFF}, {0x4584, 0xD400}};
    MUST_HOLD(map->count >= 1 && map->count <= TRANSDUCER_VALUES);
    MUST_HOLD(map->every_day > 0 && map->silence_day > 0);
    for (size_t i = 0; i < sizeof held / sizeof *held; i++) {
        double number[TRANSDUCER_VALUES];
        const char *body = NULL;
        Error err = {0};
        LogbookWords words = {.time = "2031-05-04T09:00:00Z", .step = "1"};
        for (int v = 0; v < map->count; v++) number[v] = transducer_decode(&map->value[v], held[i]);
        transducer_words(map, number, arena, &words);
        /* never more than the longest remark that a log takes */
        MUST_HOLD(logbook_reading_body(&words, day, arena, &body, &err) == STATUS_OK);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 16384) return 0;
    Arena *const arena = arena_create((size_t)256 << 20);
    const SiteDay day = {.plan = &plan, .point_count = 3};
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    TransducerMap map = {.count = -1};
    Node *root;
    if (yaml_read((const char *)bytes, size, arena, &root, list) == STATUS_OK) {
        if (transducer_map(root, &day, arena, &map, list) == STATUS_OK)
            check_map(&map, &day, arena);
        else
            MUST_HOLD(map.count == -1 && list->count > 0 && list->item[0].text[0]);
    }
    arena_free(arena);
    return 0;
}
