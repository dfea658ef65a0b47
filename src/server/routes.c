/* The routes, one row each, and how a call is answered. */
#define _DEFAULT_SOURCE
#include <string.h>
#include <time.h>

#include "clench/store.h"
#include "clench/text.h"
#include "server_data.h"

/* ---- the bridge file ---- */

static void state_reply(const Server *server, const Call *call, const FileState *state,
                        Reply *reply)
{
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_text(&json, "name", server->name);
    json_text(&json, "text", state->text);
    json_text(&json, "mark", state->mark);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
    reply->mark = arena_text(call->arena, state->mark);
}

static Status file_get(Server *server, const Call *call, Reply *reply, Error *err)
{
    FileState state;
    double wait_s = 0;
    char mark[MARK_SIZE];
    if (call->wait) TRY(query_number("wait", call->wait, 0, SERVER_WAIT_MAX_S, &wait_s, err));
    if (wait_s > 0 && mark_read(call->none_match, mark))
        TRY(served_wait(server, mark, wait_s, call->arena, &state, err));
    else
        TRY(served_read(server, call->arena, &state, err));
    state_reply(server, call, &state, reply);
    reply_unchanged(call, reply);
    return STATUS_OK;
}

/* 412: what the file holds now, with a sentence; the writer decides. */
static void changed_reply(const Call *call, const FileState *state, Reply *reply)
{
    Error err = {0};
    error_set(&err, STATUS_BAD_INPUT, "the file was changed by another program since it was read");
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_text(&json, "text", state->text);
    json_text(&json, "mark", state->mark);
    json_open_list(&json, "errors");
    error_write(&json, &err);
    json_close_list(&json);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
    reply->status = 412;
    reply->mark = arena_text(call->arena, state->mark);
}

static Status file_put(Server *server, const Call *call, Reply *reply, Error *err)
{
    char mark[MARK_SIZE];
    bool same;
    FileState text = {.text = call->size ? call->body : "", .size = call->size}, state;
    if (!mark_read(call->match, mark)) {
        error_set(err, STATUS_BAD_INPUT, "If-Match must name the mark of the text that was read");
        reply_errors(call, 428, NULL, err, reply);
        return STATUS_OK;
    }
    TRY(body_text(text.text, text.size, err));
    mark_make(text.text, text.size, text.mark);
    TRY(served_write(server, mark, &text, &same, &state, call->arena, err));
    if (!same) {
        changed_reply(call, &state, reply);
        return STATUS_OK;
    }
    Text out = text_start(call->arena);
    Json json = json_start(&out);
    json_open_map(&json, NULL);
    json_text(&json, "mark", state.mark);
    json_close_map(&json);
    reply_text(reply, "application/json", &out);
    reply->mark = arena_text(call->arena, state.mark);
    return STATUS_OK;
}

/* ---- revisions ---- */

static void revision_write(Json *json, const StoreRevision *r)
{
    json_open_map(json, NULL);
    json_int(json, "id", r->id);
    json_text(json, "when", r->when);
    json_text(json, "note", r->note);
    json_text(json, "mark", r->mark);
    if (r->text) json_text(json, "text", r->text);
    json_close_map(json);
}

static Status revisions_list(Server *server, const Call *call, Reply *reply, Error *err)
{
    Store *store;
    const StoreRevision *list = NULL;
    int count = 0;
    TRY(store_open(server->revisions, false, &store, err));
    Status status = STATUS_OK;
    if (store)
        status = store_list(store, SERVER_REVISIONS_SHOWN_MAX, call->arena, &list, &count, err);
    store_close(store);
    TRY(status);
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_open_list(&json, "revisions");
    for (int i = 0; i < count; i++) revision_write(&json, &list[i]);
    json_close_list(&json);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
    return STATUS_OK;
}

static Status revision_add(Server *server, const Call *call, Reply *reply, Error *err)
{
    static const char *const key[] = {"text", "?note"};
    const char *value[2];
    char when[32], mark[MARK_SIZE];
    struct tm utc;
    long id = 0;
    const time_t now = time(NULL);
    TRY(body_texts(call, key, 2, value, err));
    if (!gmtime_r(&now, &utc) || strftime(when, sizeof when, "%Y-%m-%dT%H:%M:%SZ", &utc) == 0)
        return error_set(err, STATUS_IO, "this machine's clock is set to no time");
    mark_make(value[0], strlen(value[0]), mark);
    const StoreRevision revision = {
        .when = when, .note = value[1] ? value[1] : "", .mark = mark, .text = value[0]};
    Store *store;
    TRY(store_open(server->revisions, true, &store, err));
    const Status status = store_add(store, &revision, &id, err);
    store_close(store);
    TRY(status);
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_int(&json, "id", id);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
    return STATUS_OK;
}

static Status revision_get(Server *server, const Call *call, Reply *reply, Error *err)
{
    Store *store;
    StoreRevision revision = {0};
    long id;
    TRY(path_id(call->tail, &id, err));
    TRY(store_open(server->revisions, false, &store, err));
    Status status = error_set(err, STATUS_BAD_INPUT, "there is no revision %ld", id);
    if (store) status = store_find(store, id, call->arena, &revision, err);
    store_close(store);
    if (status == STATUS_BAD_INPUT) {
        reply_errors(call, 404, NULL, err, reply);
        return STATUS_OK;
    }
    TRY(status);
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    revision_write(&json, &revision);
    reply_text(reply, "application/json", &text);
    return STATUS_OK;
}

/* ---- the table ---- */

/* clang-format off */
const Route server_route[] = {
    {"GET",  "/api/file",          file_get,       ROLE_READER},
    {"PUT",  "/api/file",          file_put,       ROLE_WRITER},
    {"POST", "/api/tree",          answer_tree,    ROLE_READER},
    {"POST", "/api/answer",        answer_thrust,  ROLE_READER},
    {"POST", "/api/checks",        answer_checks,  ROLE_READER},
    {"POST", "/api/package",       answer_package, ROLE_READER},
    {"POST", "/api/set",           answer_set,     ROLE_READER},
    {"POST", "/api/first",         answer_first,   ROLE_READER},
    {"GET",  "/picture.css",       picture_style,  ROLE_NONE},
    {"GET",  "/api/revisions",     revisions_list, ROLE_READER},
    {"POST", "/api/revisions",     revision_add,   ROLE_WRITER},
    {"GET",  "/api/revisions/",    revision_get,   ROLE_READER},
    {"GET",  "/api/site",          answer_site,       ROLE_READER},
    {"POST", "/api/site/open",     answer_site_open,     ROLE_WRITER},
    {"POST", "/api/site/readings", answer_reading,   ROLE_WRITER},
    {"POST", "/api/site/strikes",  answer_strike,    ROLE_WRITER},
    {"GET",  "/api/site/export",   answer_site_export,    ROLE_READER},
    {"GET",  "/api/site/record",   answer_site_record,    ROLE_READER},
};
/* clang-format on */
const int server_route_count = (int)(sizeof server_route / sizeof *server_route);

static Status asset_get(Server *server, const Call *call, Reply *reply, Error *err)
{
    (void)server;
    (void)err;
    const Asset *const asset = asset_find(call->path);
    if (asset) {
        asset_reply(asset, call, reply);
        return STATUS_OK;
    }
    static const char none[] = "This build of clench has no page; its routes below /api work.\n";
    *reply = (Reply){.status = 200,
                     .type = "text/plain; charset=utf-8",
                     .bytes = none,
                     .size = sizeof none - 1,
                     .fixed = true};
    return STATUS_OK;
}
static const Route asset_route = {"GET", "/", asset_get, ROLE_NONE};

/* HEAD is a GET whose body stays here. */
static bool method_fits(const char *route, const char *method)
{
    return !strcmp(route, method) || (!strcmp(route, "GET") && !strcmp(method, "HEAD"));
}

static bool path_fits(const char *route, const char *path, const char **tail)
{
    const size_t length = strlen(route);
    if (route[length - 1] != '/') return !strcmp(route, path);
    if (strncmp(route, path, length) != 0) return false;
    *tail = path + length;
    return true;
}

const Route *route_find(const Call *call, const char **tail, int *status, const char **allow)
{
    bool get = false, put = false, post = false;
    *tail = NULL;
    if (asset_find(call->path) || !strcmp(call->path, "/")) {
        if (method_fits("GET", call->method)) return &asset_route;
        get = true;
    }
    for (int i = 0; i < server_route_count; i++) {
        const Route *const r = &server_route[i];
        if (!path_fits(r->path, call->path, tail)) continue;
        if (method_fits(r->method, call->method)) return r;
        get = get || !strcmp(r->method, "GET");
        put = put || !strcmp(r->method, "PUT");
        post = post || !strcmp(r->method, "POST");
    }
    *status = get || put || post ? 405 : 404;
    *allow = put ? "GET, HEAD, PUT" : get && post ? "GET, HEAD, POST" : get ? "GET, HEAD" : "POST";
    return NULL;
}

/* 0, or the status of the refusal. A path is looked up for those alone who may see it. */
static int route_admit(const Call *call, const Route **route, const char **tail, const char **allow,
                       Error *err)
{
    int status = 0;
    const Route *const found = route_find(call, tail, &status, allow);
    const int refused = gate_route(call, found ? found->need : ROLE_READER, err);
    if (refused) return refused;
    *route = found;
    if (found) return 0;
    if (status == 404)
        error_set(err, STATUS_BAD_INPUT, "there is nothing at \"%.100s\"", call->path);
    else
        error_set(err, STATUS_BAD_INPUT, "\"%.100s\" takes %s alone", call->path, *allow);
    return status;
}

bool call_admit(Server *server, Call *call, const Route **route, Reply *reply)
{
    Error err = {0};
    const char *allow = NULL;
    int status = gate_enter(server, call, &err);
    if (status == 0) status = fence_check(call, &server->fence, &err);
    if (status == 0) status = route_admit(call, route, &call->tail, &allow, &err);
    if (status == 0) return true;
    reply_errors(call, status, NULL, &err, reply);
    if (status == 405) reply->allow = allow;
    reply->retry_s = call->retry_s;
    return false;
}

void call_answer(Server *server, const Call *call, const Route *route, Reply *reply)
{
    Error err = {0};
    const Status status = route->run(server, call, reply, &err);
    if (status != STATUS_OK) reply_errors(call, reply_status(status), NULL, &err, reply);
}
