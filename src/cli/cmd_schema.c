#include "cli.h"

Status cmd_schema(const Request *request, Error *err)
{
    Arena *arena = arena_create((size_t)64 << 20);
    Text text = text_start(arena);
    if (request->given[OPTION_MARKDOWN])
        report_reference(&text);
    else
        bridge_schema_json(&text);
    if (text.length && text.bytes[text.length - 1] != '\n') text_add(&text, "\n");
    const Status status = output_print(&text, err);
    arena_free(arena);
    return status;
}
