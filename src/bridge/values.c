/* The list of values with their origin, and the bridge's units. */
#include <assert.h>
#include <stdarg.h>
#include <string.h>

#include "read.h"
#include "schema.h"

int bridge_value_count(const Bridge *bridge) { return bridge->value_count; }

const BridgeValue *bridge_value(const Bridge *bridge, int index)
{
    assert(index >= 0 && index < bridge->value_count);
    return &bridge->value[index].shown;
}

const BridgeValue *bridge_value_at(const Bridge *bridge, const char *path)
{
    for (int i = 0; i < bridge->value_count; i++)
        if (strcmp(bridge->value[i].shown.path, path) == 0) return &bridge->value[i].shown;
    return NULL;
}

UnitSystem bridge_units(const Bridge *bridge) { return (UnitSystem)bridge->units; }

const BridgeOdds *bridge_odds(const Bridge *bridge) { return &bridge->odds; }

Place bridge_place(const Bridge *bridge, const char *paths, char *first, size_t first_size)
{
    Place place = {0, 0};
    char path[128];
    int length = 0;
    const char *word;
    for (int i = 0; (word = choice_word(paths, i, &length)); i++) {
        snprintf(path, sizeof path, "%.*s", length, word);
        if (i == 0) snprintf(first, first_size, "%s", path);
        const BridgeValue *value = bridge_value_at(bridge, path);
        if (value && value->origin == ORIGIN_GIVEN) return value->place;
    }
    return place;
}

Status bridge_refuse(const Bridge *bridge, Error *err, const char *paths, const char *format, ...)
{
    char text[sizeof err->text], first[128];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    const Place place = bridge_place(bridge, paths, first, sizeof first);
    return error_at(err, STATUS_BAD_INPUT, place, place, first, "%s", text);
}
