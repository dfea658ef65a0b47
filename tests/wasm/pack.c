/* wasm_pack FILE OUT: a bridge file as the packed tree that the engine's door takes. */
#include <stdlib.h>

#include "clench/text.h"

static Status pack(const char *from, const char *to, Arena *arena, Error *err)
{
    const char *bytes;
    size_t size;
    Node *root;
    Diagnostics *list = ARENA_NEW(arena, Diagnostics, 1);
    TRY(file_read(from, YAML_SIZE_MAX, arena, &bytes, &size, err));
    const Status status = yaml_read(bytes, size, arena, &root, list);
    if (status != STATUS_OK) {
        *err = list->item[0];
        return status;
    }
    const size_t length = node_pack_size(root);
    char *packed = arena_take(arena, length);
    node_pack(root, packed);
    return file_write(to, packed, length, err);
}

int main(int count, char **word)
{
    if (count != 3) return 2;
    Arena *arena = arena_create((size_t)256 << 20);
    Error err;
    char text[1024];
    const Status status = pack(word[1], word[2], arena, &err);
    if (status != STATUS_OK)
        fprintf(stderr, "%s\n", error_format(&err, word[1], text, sizeof text));
    arena_free(arena);
    return status_exit_code(status);
}
