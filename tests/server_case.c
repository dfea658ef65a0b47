#define _XOPEN_SOURCE 700
#include "server_case.h"

#include <dirent.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "clench/text.h"

int server_case_setup(void **state)
{
    ServerCase *const c = calloc(1, sizeof *c);
    Error err = {0};
    if (!c) return -1;
    *state = c;
    c->arena = arena_create((size_t)512 << 20);
    strcpy(c->folder, "/tmp/clench-test-XXXXXX");
    if (!mkdtemp(c->folder)) return -1;
    snprintf(c->file, sizeof c->file, "%s/deck.yaml", c->folder);
    if (server_start(&(ServerWish){.path = c->file}, &c->server, &err) != STATUS_OK) {
        print_error("%s\n", err.text);
        return -1;
    }
    c->port = server_port(c->server);
    return 0;
}

static void folder_remove(const char *folder)
{
    char path[512];
    DIR *const dir = opendir(folder);
    if (!dir) return;
    for (const struct dirent *entry; (entry = readdir(dir));) {
        if (entry->d_name[0] == '.') continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        unlink(path);
    }
    closedir(dir);
    rmdir(folder);
}

int server_case_teardown(void **state)
{
    ServerCase *const c = *state;
    server_stop(c->server);
    folder_remove(c->folder);
    arena_free(c->arena);
    free(c);
    return 0;
}

const char *example_text(const char *path, Arena *arena)
{
    const char *bytes = NULL;
    size_t size;
    Error err = {0};
    check_status(file_read(path, YAML_SIZE_MAX, arena, &bytes, &size, &err), STATUS_OK, &err);
    return bytes;
}

void case_file_write(const ServerCase *c, const char *text)
{
    Error err = {0};
    check_status(file_write(c->file, text, strlen(text), &err), STATUS_OK, &err);
}

HttpReply case_ask(const ServerCase *c, const char *request, const char *fields, const char *body)
{
    return http_ask(c->port, request, fields, body, c->arena);
}

const char *json_of(Arena *arena, const char *text, const char *key, const char *value)
{
    Text out = text_start(arena);
    Json json = json_start(&out);
    json_open_map(&json, NULL);
    json_text(&json, "text", text);
    if (key) json_text(&json, key, value);
    json_close_map(&json);
    return out.bytes;
}

void check_has_at(const char *text, const char *part, const char *file, int line)
{
    if (strstr(text, part)) return;
    print_error("%s:%d: '%s' is not in '%.400s'\n", file, line, part, text);
    _fail(file, line);
}

const char *text_of(const HttpReply *r, const char *key, Arena *arena)
{
    json_t *const root = json_loadb(r->body, r->size, 0, NULL);
    if (!root) print_error("no JSON: %s\n", r->body);
    assert_non_null(root);
    const char *const found = json_string_value(json_object_get(root, key));
    const char *const text = arena_text(arena, found ? found : "");
    json_decref(root);
    return text;
}

int error_number(const HttpReply *r, const char *key)
{
    json_t *const root = json_loadb(r->body, r->size, 0, NULL);
    assert_non_null(root);
    const json_t *const first = json_array_get(json_object_get(root, "errors"), 0);
    assert_non_null(first);
    const int number = (int)json_integer_value(json_object_get(first, key));
    json_decref(root);
    return number;
}

const char *file_mark(const ServerCase *c)
{
    const HttpReply r = case_ask(c, "GET /api/file", "", NULL);
    assert_int_equal(r.status, 200);
    return text_of(&r, "mark", c->arena);
}
