/* server: the page of one bridge file and its answers, over HTTP on this machine alone. Routes,
 * JSON in and out, the fence around them; it calls the engine and computes nothing itself.
 *
 * The fence: bound to 127.0.0.1; Host and Origin must name this server; a request is at most
 * SERVER_BODY_MAX bytes behind bounded heads; a client that is slow is cut; nothing but the given
 * file and its revisions is ever opened. docs/server.md lists the routes. */
#ifndef CLENCH_SERVER_H
#define CLENCH_SERVER_H

#include "clench/base.h"

enum {
    SERVER_PORT = 8347,        /* tried first where no port is asked for */
    SERVER_BODY_MAX = 5 << 20, /* a bridge file of 4 MiB as a JSON string */
    SERVER_CONNECTIONS_MAX = 32,
    SERVER_ENGINE_RUNS_MAX = 2, /* at once; further ones wait */
    SERVER_WAIT_MAX_S = 25,     /* of a client that waits for a change of the file */
    SERVER_IDLE_S = 10,         /* without a byte: cut */
    SERVER_REQUEST_S = 20,      /* for a whole request, however the bytes come: cut */
    SERVER_REVISIONS_SHOWN_MAX = 1000
};

typedef struct Server Server;

/* Serves the bridge file `path`, which may not exist yet, until server_stop. Revisions go to
 * `path`.revisions.db beside it. port 0: SERVER_PORT, or a free one where that is taken; another
 * port is taken or refused. Errors: IO. */
MUST_USE Status server_start(const char *path, int port, Server **server, Error *err);
int server_port(const Server *server);
/* Clients that wait for a change or for a run are told at once; runs at work are waited for. NULL is
 * allowed. */
void server_stop(Server *server);

#endif
