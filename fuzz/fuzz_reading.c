/* Any bytes as a reading that a client sends give an error, or a record that reads back with the words sent. */
#include <string.h>

#include "../src/server/server_data.h"
#include "fuzz.h"

static JackPlan plan = {.step_count = 5, .gear = {.sets = 2, .count = 4}};

static void check_record(const BodyReading *reading, const char *body, Arena *arena)
{
    Node *root = NULL;
    MUST_HOLD(json_read(body, strlen(body), arena, &root, NULL) == STATUS_OK);
    MUST_HOLD(!strcmp(node_find(root, "time")->text, reading->words.time));
    MUST_HOLD(!strcmp(node_find(root, "step")->text, reading->words.step));
    MUST_HOLD(node_find(root, "pressure")->count == 2 && node_find(root, "move")->count == 3);
    MUST_HOLD(!reading->words.who || !strcmp(node_find(root, "who")->text, reading->words.who));
    MUST_HOLD(strlen(body) < 16384); /* what is kept is bounded, whatever is sent */
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 65536) return 0;
    Arena *const arena = arena_create((size_t)64 << 20);
    const SiteDay day = {.plan = &plan, .point_count = 3};
    const Call call = {.body = (const char *)bytes, .size = size, .arena = arena};
    BodyReading reading;
    const char *body = NULL;
    Error err = {0};
    if (body_reading(&call, &reading, &err) != STATUS_OK) {
        MUST_HOLD(err.text[0]);
    } else {
        MUST_HOLD(reading.id && reading.words.time && reading.words.step);
        MUST_HOLD(strncmp(reading.id, "verdict of ", 11) != 0);
        if (logbook_reading_body(&reading.words, &day, arena, &body, &err) == STATUS_OK)
            check_record(&reading, body, arena);
        else
            MUST_HOLD(!body && err.text[0]);
    }
    arena_free(arena);
    return 0;
}
