/* Any bytes as rows of a logger give errors, or readings that read back, each with an id of its own. */
#include <string.h>

#include "clench/logbook.h"
#include "fuzz.h"

static JackPlan plan = {.step_count = 5, .gear = {.sets = 2, .count = 4}};

static void check_rows(const LogbookRows *rows, Arena *arena)
{
    for (int i = 0; i < rows->count; i++) {
        Node *root = NULL;
        const char *const body = rows->record[i].body;
        MUST_HOLD(json_read(body, strlen(body), arena, &root, NULL) == STATUS_OK);
        MUST_HOLD(node_find(root, "time") && node_find(root, "pressure")->count == 2);
        MUST_HOLD(rows->line[i] >= 2 && (i == 0 || rows->line[i] >= rows->line[i - 1]));
        MUST_HOLD(strlen(rows->record[i].id) == 36 && !rows->record[i].repeated);
        MUST_HOLD(i == 0 || strcmp(rows->record[i].id, rows->record[i - 1].id) != 0);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    Arena *arena = arena_create((size_t)512 << 20);
    const SiteDay day = {.plan = &plan, .point_count = 3};
    const LogbookWords fixed = {.step = "1"};
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    LogbookRows rows = {.count = -1};
    const LogbookSource source = {(const char *)bytes, size, NULL, &fixed, "now", &day};
    if (logbook_import(&source, arena, &rows, list) == STATUS_OK) {
        MUST_HOLD(list->count == 0);
        check_rows(&rows, arena);
    } else {
        MUST_HOLD(rows.count == -1 && list->count > 0 && list->item[0].text[0]);
        for (int i = 0; i < list->count; i++)
            MUST_HOLD(list->item[i].from.line >= 0 && list->item[i].from.column >= 0);
    }
    arena_free(arena);
    return 0;
}
