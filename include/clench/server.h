/* server: the page of one bridge file and its answers, over HTTP on this machine alone, or over HTTPS for
 * those who have a token. Routes, JSON in and out, the fence around them; it calls the engine and computes
 * nothing itself.
 *
 * The fence: bound to 127.0.0.1, else behind TLS and tokens; Host and Origin must name this server; a request
 * is at most SERVER_BODY_MAX bytes behind bounded heads; a client that is slow is cut; nothing but the given
 * file, its revisions and its site logs is ever opened. docs/server.md lists the routes. */
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
    SERVER_REVISIONS_SHOWN_MAX = 1000,
    SERVER_RECORDS_SHOWN_MAX = 1000, /* of a site log in one answer */
    SERVER_SITE_MAX = 64 << 20,      /* bytes of a site log */
    SERVER_EXPORT_MAX = 10000,       /* readings of a site log as CSV */
    SERVER_OF_ONE_MAX = 16           /* connections of one address, reached from elsewhere */
};

typedef struct Server Server;

typedef struct ServerWish {
    const char *path;
    int port;
    /* An address of this machine, to be reached from elsewhere; NULL: 127.0.0.1, and the rest is NULL too. */
    const char *listen;
    const char *name;              /* in the certificate; NULL: the address */
    const char *certificate, *key; /* files, PEM */
    const char *tokens;            /* file */
} ServerWish;

/* Serves the bridge file, which may not exist yet, until server_stop. Revisions go to `path`.revisions.db
 * beside it, site logs to `path`.site.db. port 0: SERVER_PORT, or, for this machine alone, a free one where
 * that is taken; another port is taken or refused. Errors: IO, BAD_INPUT. */
MUST_USE Status server_start(const ServerWish *wish, Server **server, Error *err);
int server_port(const Server *server);
/* "http://127.0.0.1:8347/" */
void server_address(const Server *server, char *out, size_t out_size);
/* Clients that wait for a change or for a run are told at once; runs at work are waited for. NULL is
 * allowed. */
void server_stop(Server *server);

#endif
