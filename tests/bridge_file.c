#include "bridge_file.h"

#include <stdio.h>
#include <string.h>

void bridge_from_text(BridgeFile *file, const char *text)
{
    Node *root = NULL;
    memset(file, 0, sizeof *file);
    file->arena = arena_create((size_t)256 << 20);
    file->status = yaml_read(text, strlen(text), file->arena, &root, &file->found);
    if (file->status == STATUS_OK)
        file->status = bridge_read(root, file->arena, &file->bridge, &file->found);
}

void bridge_from_example(BridgeFile *file, const char *path)
{
    const char *bytes = NULL;
    size_t size = 0;
    Error err = {0};
    char line[1024];
    Arena *arena = arena_create((size_t)16 << 20);
    check_status(file_read(path, YAML_SIZE_MAX, arena, &bytes, &size, &err), STATUS_OK, &err);
    bridge_from_text(file, bytes);
    for (int i = 0; i < file->found.count; i++)
        print_error("%s\n", error_format(&file->found.item[i], path, line, sizeof line));
    assert_int_equal(file->status, STATUS_OK);
    arena_free(arena);
}

void bridge_close(BridgeFile *file) { arena_free(file->arena); }

char *bridge_small(const char *more, char *out, size_t out_size)
{
    snprintf(out, out_size,
             "spans:\n"
             "  - length: 94 ft\n"
             "girders:\n"
             "  count: 5\n"
             "  spacing: 8.5 ft\n"
             "  kind: pretensioned\n"
             "  shape: BT-54\n"
             "  strands:\n"
             "    - {count: 26, height: 4 in}\n"
             "climate:\n"
             "  humidity: 70 %%\n"
             "  gradient_zone: 2\n"
             "%s",
             more);
    return out;
}

char *bridge_replace(const char *text, const char *old, const char *fresh, char *out,
                     size_t out_size)
{
    const char *at = strstr(text, old);
    assert_non_null(at);
    snprintf(out, out_size, "%.*s%s%s", (int)(at - text), text, fresh, at + strlen(old));
    return out;
}
