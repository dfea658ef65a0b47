#define _DEFAULT_SOURCE
#include "clench/server.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "clench/paper.h"
#include "server_data.h"

static Status names_set(Server *server, const char *path, Error *err)
{
    const char *const slash = strrchr(path, '/'), *const name = slash ? slash + 1 : path;
    const int whole = snprintf(server->path, sizeof server->path, "%s", path);
    const int own = snprintf(server->name, sizeof server->name, "%s", name);
    const int kept = snprintf(server->revisions, sizeof server->revisions, "%s.revisions.db", path);
    if (own == 0 || !strcmp(path, "-"))
        return error_set(err, STATUS_BAD_INPUT, "\"%.100s\" is no file that a page can save to",
                         path);
    if (whole >= (int)sizeof server->path || own >= (int)sizeof server->name ||
        kept >= (int)sizeof server->revisions)
        return error_set(err, STATUS_BAD_INPUT, "the name of the file is too long");
    return STATUS_OK;
}

static void locks_make(Server *server)
{
    pthread_condattr_t clock;
    pthread_mutex_init(&server->lock, NULL);
    pthread_mutex_init(&server->saving, NULL);
    pthread_mutex_init(&server->drawing, NULL);
    pthread_mutex_init(&server->siting, NULL);
    pthread_condattr_init(&clock);
    pthread_condattr_setclock(&clock, CLOCK_MONOTONIC);
    pthread_cond_init(&server->changed, &clock);
    pthread_condattr_destroy(&clock);
}

static void server_free(Server *server)
{
    pthread_cond_destroy(&server->changed);
    pthread_mutex_destroy(&server->siting);
    pthread_mutex_destroy(&server->drawing);
    pthread_mutex_destroy(&server->saving);
    pthread_mutex_destroy(&server->lock);
    free(server);
}

/* ---- reached from elsewhere ---- */

static Status wish_check(const ServerWish *wish, bool *any, bool *six, Error *err)
{
    if (!wish->certificate || !wish->key || !wish->tokens)
        return error_set(err, STATUS_BAD_INPUT,
                         "--listen needs --certificate, --key and --tokens: what is reached from "
                         "elsewhere is encrypted, and only for those who have a token");
    if (!address_read(wish->listen, six, any))
        return error_set(err, STATUS_BAD_INPUT, "--listen: '%.60s' is no address: 192.168.1.20",
                         wish->listen);
    if (wish->name && !name_good(wish->name))
        return error_set(err, STATUS_BAD_INPUT, "--name: '%.60s' is no name: site.example",
                         wish->name);
    if (*any && !wish->name)
        return error_set(err, STATUS_BAD_INPUT,
                         "--listen %s hears on all addresses: --name says which one clients use",
                         wish->listen);
    return STATUS_OK;
}

static Status tokens_load(Server *server, const char *path, Error *err)
{
    Arena *const arena = arena_create(1 << 20);
    char *bytes, said[sizeof err->text];
    size_t size;
    Status status = private_read(path, "file of tokens", &bytes, &size, arena, err);
    if (status == STATUS_OK) {
        status = tokens_read(bytes, size, &server->tokens, err);
        explicit_bzero(bytes, size);
        if (status != STATUS_OK) {
            snprintf(said, sizeof said, "%s", err->text);
            if (err->from.line)
                error_set(err, status, "%.200s:%d: %.150s", path, err->from.line, said);
            else
                error_set(err, status, "%.200s: %.150s", path, said);
        }
    }
    arena_free(arena);
    return status;
}

static Status far_set(Server *server, const ServerWish *wish, Error *err)
{
    bool any = false, six = false;
    Fence *const fence = &server->fence;
    TRY(wish_check(wish, &any, &six, err));
    server->far = fence->secure = true;
    int names = 0;
    if (wish->name) snprintf(fence->name[names++], FENCE_NAME, "%s", wish->name);
    if (!any) snprintf(fence->name[names], FENCE_NAME, six ? "[%s]" : "%s", wish->listen);
    return tokens_load(server, wish->tokens, err);
}

static Status reach_set(Server *server, const ServerWish *wish, Error *err)
{
    if (wish->listen) return far_set(server, wish, err);
    if (wish->name || wish->certificate || wish->key || wish->tokens)
        return error_set(err, STATUS_BAD_INPUT,
                         "--name, --certificate, --key and --tokens go with --listen ADDRESS");
    snprintf(server->fence.name[0], FENCE_NAME, "127.0.0.1");
    snprintf(server->fence.name[1], FENCE_NAME, "localhost");
    return STATUS_OK;
}

Status server_start(const ServerWish *wish, Server **server, Error *err)
{
    Server *const s = calloc(1, sizeof *s);
    if (!s) return error_set(err, STATUS_IO, "no memory left");
    const char *const epoch = getenv("SOURCE_DATE_EPOCH");
    locks_make(s);
    snprintf(s->epoch, sizeof s->epoch, "%s", epoch ? epoch : "");
    Status status = names_set(s, wish->path, err);
    if (status == STATUS_OK) status = reach_set(s, wish, err);
    if (status == STATUS_OK) status = wire_start(s, wish, err);
    if (status == STATUS_OK)
        *server = s;
    else
        server_free(s);
    return status;
}

int server_port(const Server *server) { return server->fence.port; }

void server_address(const Server *server, char *out, size_t out_size)
{
    const Fence *const fence = &server->fence;
    snprintf(out, out_size, "%s://%s:%d/", fence->secure ? "https" : "http", fence->name[0],
             fence->port);
}

void server_stop(Server *server)
{
    if (!server) return;
    pthread_mutex_lock(&server->lock);
    server->ending = true;
    pthread_cond_broadcast(&server->changed);
    pthread_mutex_unlock(&server->lock);
    wire_stop(server);
    paper_close();
    server_free(server);
}
