/* Everything a client sends that the server reads itself: head fields, path, query, JSON bodies. The
 * input is fields on lines of their own, then the body: method, path, Host, Origin, If-Match,
 * If-None-Match, Accept-Encoding, query value. */
#include <math.h>
#include <string.h>

#include "../src/server/server_data.h"
#include "fuzz.h"

static const Fence fence = {.port = 8347, .name = {"127.0.0.1", "localhost"}};

/* The line up to its break; NULL where it is empty: a field that was not sent. */
static const char *line_of(const char **at, const char *end, Arena *arena)
{
    const char *const from = *at, *stop = memchr(from, '\n', (size_t)(end - from));
    if (!stop) stop = end;
    *at = stop < end ? stop + 1 : end;
    return stop > from ? arena_printf(arena, "%.*s", (int)(stop - from), from) : NULL;
}

static void check_fence(const Call *call)
{
    Error err = {0};
    const int status = fence_check(call, &fence, &err);
    MUST_HOLD(status == 0 || (err.text[0] && (status == 403 || status == 421)));
    if (status != 0) return;
    MUST_HOLD(call->host && strstr(call->host, ":8347"));
    MUST_HOLD(!call->origin || !strncmp(call->origin, "http://", 7));
}

static void check_route(const Call *call)
{
    const char *tail = NULL, *allow = NULL;
    int status = 0;
    const Route *const route = route_find(call, &tail, &status, &allow);
    if (!route) {
        MUST_HOLD(status == 404 || (status == 405 && allow[0]));
    } else if (tail) {
        long id = 0;
        Error err = {0};
        MUST_HOLD(!strncmp(call->path, route->path, strlen(route->path)));
        MUST_HOLD((path_id(tail, &id, &err) == STATUS_OK) == (id > 0));
    } else {
        MUST_HOLD(!strcmp(route->path, call->path) || asset_find(call->path));
    }
}

static void check_fields(const Call *call)
{
    char mark[MARK_SIZE] = "";
    double value = NAN;
    Error err = {0};
    if (mark_read(call->match, mark)) {
        MUST_HOLD(mark[0] && strlen(mark) < MARK_SIZE);
        MUST_HOLD(mark_listed(call->match, mark));
    }
    (void)mark_listed(call->none_match, "0a1b2c3d4e5f");
    MUST_HOLD(!encoding_welcome(NULL, "br"));
    (void)encoding_welcome(call->encodings, "br");
    if (!call->wait) return;
    if (query_number("wait", call->wait, 0, 25, &value, &err) == STATUS_OK)
        MUST_HOLD(value >= 0 && value <= 25);
    else
        MUST_HOLD(isnan(value) && err.text[0]);
}

static void check_bodies(const Call *call)
{
    static const char *const key[] = {"text", "?note"};
    const char *value[2];
    Node *form = NULL;
    Error err = {0};
    if (body_texts(call, key, 2, value, &err) == STATUS_OK)
        MUST_HOLD(value[0] && body_text(value[0], strlen(value[0]), &err) == STATUS_OK);
    else
        MUST_HOLD(err.text[0]);
    if (body_map(call, &form, &err) != STATUS_OK) {
        MUST_HOLD(!form && err.text[0]);
        return;
    }
    MUST_HOLD(form->kind == NODE_MAP && form->count <= FORM_KEYS_MAX);
    for (const Node *n = form->first; n; n = n->next) MUST_HOLD(n->key && n->text);
    MUST_HOLD(body_text(call->body, call->size, &err) == STATUS_OK); /* JSON is UTF-8 */
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 65536) return 0;
    Arena *const arena = arena_create((size_t)64 << 20);
    const char *at = (const char *)bytes, *const end = at + size;
    Call call = {.arena = arena};
    const char **const field[] = {&call.method, &call.path,       &call.host,      &call.origin,
                                  &call.match,  &call.none_match, &call.encodings, &call.wait};
    for (size_t i = 0; i < sizeof field / sizeof *field; i++) *field[i] = line_of(&at, end, arena);
    if (!call.method) call.method = "GET";
    if (!call.path) call.path = "/";
    call.body = at;
    call.size = (size_t)(end - at);
    check_fence(&call);
    check_route(&call);
    check_fields(&call);
    check_bodies(&call);
    arena_free(arena);
    return 0;
}
