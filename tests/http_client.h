/* A small HTTP client for tests, on a raw socket, so that a test decides about every byte. It gives up
 * after four minutes and talks to this machine alone. */
#ifndef CLENCH_TESTS_HTTP_CLIENT_H
#define CLENCH_TESTS_HTTP_CLIENT_H

#include "clench/base.h"

typedef struct HttpReply {
    int status;       /* 0: the connection ended without a reply */
    const char *head; /* status line and header fields */
    const char *body;
    size_t size;
} HttpReply;

/* -1 where nothing listens. */
int http_connect(int port);
bool http_write(int fd, const char *bytes, size_t size);
/* Until the other side ends; closes the socket. */
HttpReply http_read(int fd, Arena *arena);
/* One request on a connection of its own. `fields` are further header fields, each ending in \r\n; a
 * Host is added where they do not begin with one. */
HttpReply http_ask(int port, const char *request, const char *fields, const char *body,
                   Arena *arena);
/* The value of a header field, or NULL. */
const char *http_field(const HttpReply *reply, const char *name, Arena *arena);

#endif
