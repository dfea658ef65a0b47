/* Routes that ask the engine. It has no state of its own: each call brings its memory, and a few run
 * at once so that their memory is bounded together. */
#include <float.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "clench/paper.h"
#include "clench/text.h"
#include "server_data.h"

static const size_t run_bytes = (size_t)1 << 30;

/* Waits for its turn; who still waits when the server ends gets none, and who gave up waiting is not
 * computed for: of many questions of one page the last one is answered. */
static Status run_start(Server *server, const Call *call, bool *gone, Error *err)
{
    bool waited = false;
    pthread_mutex_lock(&server->lock);
    while (!server->ending && server->runs >= SERVER_ENGINE_RUNS_MAX) {
        waited = true;
        pthread_cond_wait(&server->changed, &server->lock);
    }
    const bool ending = server->ending;
    *gone = !ending && waited && client_gone(call);
    if (!ending && !*gone) server->runs++;
    if (*gone) pthread_cond_broadcast(&server->changed); /* the next one's turn */
    pthread_mutex_unlock(&server->lock);
    return ending ? error_set(err, STATUS_IO, "the server was ended") : STATUS_OK;
}

static void run_end(Server *server)
{
    pthread_mutex_lock(&server->lock);
    server->runs--;
    pthread_cond_broadcast(&server->changed);
    pthread_mutex_unlock(&server->lock);
}

/* ---- the tree ---- */

/* Syntax, then the schema, so that every error that needs no run is told at its place. */
static bool tree_read(const Call *call, Arena *arena, Node **root, Diagnostics *list)
{
    const Bridge *bridge;
    return yaml_read(call->size ? call->body : "", call->size, arena, root, list) == STATUS_OK &&
           bridge_read(*root, arena, &bridge, list) == STATUS_OK;
}

Status answer_tree(Server *server, const Call *call, Reply *reply, Error *err)
{
    Node *root;
    (void)server;
    Diagnostics *const list = ARENA_NEW(call->arena, Diagnostics, 1);
    if (!tree_read(call, call->arena, &root, list)) {
        reply_errors(call, 400, list, err, reply);
        return STATUS_OK;
    }
    const size_t size = node_pack_size(root);
    if (size > NODE_PACK_MAX)
        return error_set(err, STATUS_TOO_LARGE, "the file has too many values for the page");
    char *const bytes = arena_take(call->arena, size);
    node_pack(root, bytes);
    *reply =
        (Reply){.status = 200, .type = "application/octet-stream", .bytes = bytes, .size = size};
    return STATUS_OK;
}

/* ---- the answer ---- */

static Status run_find(Server *server, const Call *call, Run *run, Diagnostics *list, Error *err)
{
    Node *root;
    double thrust_N = 0;
    if (call->thrust) TRY(query_number("thrust_N", call->thrust, 1, 1e12, &thrust_N, err));
    TRY(yaml_read(run->size ? run->text : "", run->size, run->result, &root, list));
    TRY(report_find(root, thrust_N, run->result, run->scratch, &run->source, list, err));
    run->source.file = server->name;
    return STATUS_OK;
}

Status run_plain(Server *server, const Call *call, Run *run, RunUse use, Reply *reply, Error *err)
{
    bool gone;
    TRY(run_start(server, call, &gone, err));
    if (gone) {
        error_set(err, STATUS_IO, "nobody waited for the answer");
        reply_errors(call, 503, NULL, err, reply);
        return STATUS_OK;
    }
    run->result = arena_create(run_bytes);
    run->scratch = arena_create(run_bytes);
    const Status status = use(server, call, run, reply, err);
    arena_free(run->result);
    arena_free(run->scratch);
    run_end(server);
    return status;
}

/* What run_use hands on. */
typedef struct Found {
    RunUse use;
    const void *with;
} Found;

static Status found_hand(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    const Found *const found = run->with;
    run->with = found->with;
    return found->use(server, call, run, reply, err);
}

static Status found_use(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    Diagnostics *const list = ARENA_NEW(call->arena, Diagnostics, 1);
    Status status = run_find(server, call, run, list, err);
    if (status == STATUS_OK)
        status = found_hand(server, call, run, reply, err);
    else if (list->count > 0)
        reply_errors(call, reply_status(list->item[0].status), list, err, reply);
    return list->count > 0 ? STATUS_OK : status; /* told */
}

Status run_use(Server *server, const Call *call, Run *run, RunUse use, Reply *reply, Error *err)
{
    const Found found = {use, run->with};
    run->with = &found;
    const Status status = run_plain(server, call, run, found_use, reply, err);
    run->with = found.with;
    return status;
}

static Status body_use(Server *server, const Call *call, RunUse use, Reply *reply, Error *err)
{
    Run run = {.text = call->body, .size = call->size};
    return run_use(server, call, &run, use, reply, err);
}

static Status thrust_use(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    (void)server;
    (void)err;
    Text text = text_start(call->arena);
    report_thrust_json(&run->source, &text);
    reply_text(reply, "application/json", &text);
    return STATUS_OK;
}

static Status checks_use(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    (void)server;
    const ReportSource *source = &run->source;
    const CheckCase with = {
        .bridge = source->bridge, .answer = source->answer, .arena = run->result};
    const CheckList *list;
    TRY(checks_run(&with, &list, err));
    Text text = text_start(call->arena);
    report_checks_json(source, list, &text);
    reply_text(reply, "application/json", &text);
    return STATUS_OK;
}

Status answer_checks(Server *server, const Call *call, Reply *reply, Error *err)
{
    return body_use(server, call, checks_use, reply, err);
}

Status answer_thrust(Server *server, const Call *call, Reply *reply, Error *err)
{
    return body_use(server, call, thrust_use, reply, err);
}

/* The libraries below keep their fonts in common. */
Status paper_draw(Server *server, const Report *report, const PaperSettings *settings, Text *pdf,
                  Error *err)
{
    pthread_mutex_lock(&server->drawing);
    const Status status = paper_pdf(report, settings, pdf, err);
    pthread_mutex_unlock(&server->drawing);
    return status;
}

/* "causeway.yaml" gives "causeway.pdf"; what a header cannot hold becomes a line. */
static const char *package_name(const Server *server, Arena *arena)
{
    const char *const point = strrchr(server->name, '.');
    const size_t length =
        point > server->name ? (size_t)(point - server->name) : strlen(server->name);
    char *const name = arena_printf(arena, "%.*s.pdf", (int)length, server->name);
    for (char *c = name; *c; c++)
        if (*c < ' ' || *c > '~' || strchr("\"\\%", *c)) *c = '_';
    return name;
}

static Status package_use(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    char date[PAPER_DATE];
    PaperPackage package;
    TRY(paper_date(server->epoch[0] ? server->epoch : NULL, date, err));
    const PaperInput input = {call->size ? call->body : "", call->size, date};
    TRY(paper_package(&run->source, &input, run->result, run->scratch, &package, err));
    Text pdf = text_start(call->arena);
    TRY(paper_draw(server, package.report, &package.settings, &pdf, err));
    reply_text(reply, "application/pdf", &pdf);
    reply->save_as = package_name(server, call->arena);
    return STATUS_OK;
}

Status answer_package(Server *server, const Call *call, Reply *reply, Error *err)
{
    return body_use(server, call, package_use, reply, err);
}

/* ---- texts made and changed ---- */

static void text_reply(const Call *call, const char *made, Reply *reply)
{
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_text(&json, "text", made);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
}

Status answer_set(Server *server, const Call *call, Reply *reply, Error *err)
{
    static const char *const key[] = {"text", "path", "value"};
    const char *value[3];
    (void)server;
    TRY(body_texts(call, key, 3, value, err));
    Text changed = text_start(call->arena);
    TRY(yaml_set(value[0], strlen(value[0]), value[1], value[2], &changed, err));
    text_reply(call, changed.bytes, reply);
    return STATUS_OK;
}

/* What may stand in the form is for the engine to say: here it only becomes a map of texts. */
Status answer_first(Server *server, const Call *call, Reply *reply, Error *err)
{
    Node *form;
    (void)server;
    Diagnostics *const list = ARENA_NEW(call->arena, Diagnostics, 1);
    TRY(body_map(call, &form, err));
    Text text = text_start(call->arena);
    if (bridge_first(form, &text, list) == STATUS_OK)
        text_reply(call, text.bytes, reply);
    else
        reply_errors(call, 400, list, err, reply);
    return STATUS_OK;
}

Status picture_style(Server *server, const Call *call, Reply *reply, Error *err)
{
    char mark[MARK_SIZE];
    (void)server;
    (void)err;
    Text text = text_start(call->arena);
    report_picture_style(&text);
    mark_make(text.bytes, text.length, mark);
    reply_text(reply, "text/css; charset=utf-8", &text);
    reply->mark = arena_text(call->arena, mark);
    reply_pack(call, reply);
    reply_unchanged(call, reply);
    return STATUS_OK;
}
