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
    pthread_condattr_init(&clock);
    pthread_condattr_setclock(&clock, CLOCK_MONOTONIC);
    pthread_cond_init(&server->changed, &clock);
    pthread_condattr_destroy(&clock);
}

static void server_free(Server *server)
{
    pthread_cond_destroy(&server->changed);
    pthread_mutex_destroy(&server->drawing);
    pthread_mutex_destroy(&server->saving);
    pthread_mutex_destroy(&server->lock);
    free(server);
}

Status server_start(const char *path, int port, Server **server, Error *err)
{
    Server *const s = calloc(1, sizeof *s);
    if (!s) return error_set(err, STATUS_IO, "no memory left");
    const char *const epoch = getenv("SOURCE_DATE_EPOCH");
    locks_make(s);
    snprintf(s->epoch, sizeof s->epoch, "%s", epoch ? epoch : "");
    Status status = names_set(s, path, err);
    if (status == STATUS_OK) status = wire_start(s, port, err);
    if (status == STATUS_OK)
        *server = s;
    else
        server_free(s);
    return status;
}

int server_port(const Server *server) { return server->port; }

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
