/* Private to server: a call without any HTTP library in it, the table of routes, the file served. */
#ifndef CLENCH_SERVER_DATA_H
#define CLENCH_SERVER_DATA_H

#include <pthread.h>

#include "clench/server.h"

/* ---- a call and its reply ---- */

/* What of a request is looked at. Texts that were not sent are NULL; all live as long as the call. */
typedef struct Call {
    const char *method, *path;
    const char *host, *origin, *site; /* Host, Origin, Sec-Fetch-Site */
    const char *match, *none_match;   /* If-Match, If-None-Match */
    const char *encodings;            /* Accept-Encoding */
    const char *thrust, *wait;        /* thrust_N and wait of the query */
    const char *tail;                 /* of the path, where the route ends in an id */
    const char *body;
    size_t size;
    Arena *arena; /* of this call: all that it makes is gone with it */
} Call;

typedef struct Reply {
    int status;
    const char *type;
    const char *bytes;
    size_t size;
    bool fixed;           /* the bytes stay for ever: an asset */
    const char *mark;     /* ETag; NULL: none */
    const char *encoding; /* Content-Encoding */
    const char *save_as;  /* the file's name where it is to be saved */
    const char *allow;    /* with 405 */
} Reply;

/* ---- the file served ---- */

enum { MARK_SIZE = 16 };
static const char mark_new[] = "new"; /* of a file that does not exist yet */

typedef struct FileState {
    const char *text;
    size_t size;
    char mark[MARK_SIZE];
} FileState;

struct Server {
    char path[4096], name[256], revisions[4096];
    char epoch[32]; /* SOURCE_DATE_EPOCH, else empty */
    int port;
    pthread_mutex_t lock;    /* of all below */
    pthread_cond_t changed;  /* an engine run ended, or the server ends */
    pthread_mutex_t saving;  /* one writer of the file */
    pthread_mutex_t drawing; /* one package */
    int runs;
    bool ending;
    struct Wire *wire; /* of wire.c */
};

MUST_USE Status served_read(const Server *server, Arena *arena, FileState *state, Error *err);
/* Returns once the mark differs from `mark`, after `seconds`, or when the server ends. */
MUST_USE Status served_wait(Server *server, const char *mark, double seconds, Arena *arena,
                            FileState *state, Error *err);
/* Writes where the file still has `mark`; else *same is false and state what it has. */
MUST_USE Status served_write(Server *server, const char *mark, const FileState *text, bool *same,
                             FileState *state, Arena *arena, Error *err);
void mark_make(const char *text, size_t size, char mark[MARK_SIZE]);

/* ---- readers of what a client sends (fuzzed) ---- */

/* Text without a NUL, in UTF-8, of at most the size of a bridge file. */
MUST_USE Status body_text(const char *body, size_t size, Error *err);
/* A JSON object of texts alone with exactly the named keys; at most `count`; an optional key begins
 * with '?'. value[i] is NULL where it was not sent. */
MUST_USE Status body_texts(const Call *call, const char *const *name, int count, const char **value,
                           Error *err);
/* A JSON object of at most FORM_KEYS_MAX texts alone as a map; its places are the JSON's own: none. */
enum { FORM_KEYS_MAX = 32 };
MUST_USE Status body_map(const Call *call, Node **map, Error *err);
MUST_USE Status query_number(const char *name, const char *text, double least, double most,
                             double *value, Error *err); /* unit: as the query says */
/* A whole number from 1 on. */
MUST_USE Status path_id(const char *text, long *id, Error *err);
/* Of an Accept-Encoding header, which may be NULL: whether a coding ("br") is welcome. */
bool encoding_welcome(const char *header, const char *coding);
/* Whether one mark of an If-Match or If-None-Match header is `mark`. "*" is any. */
bool mark_listed(const char *header, const char *mark);
/* The single mark of an If-Match header without its quotes; false where it is none. */
bool mark_read(const char *header, char mark[MARK_SIZE]);

/* ---- the fence and the routes ---- */

/* 0, or the HTTP status of the refusal with its sentence. */
int fence_check(const Call *call, int port, Error *err);

typedef Status (*RouteRun)(Server *server, const Call *call, Reply *reply, Error *err);
typedef struct Route {
    const char *method, *path; /* a path that ends in / goes on with an id */
    RouteRun run;
} Route;
extern const Route server_route[];
extern const int server_route_count;
/* The route, or NULL and the HTTP status: 404, or 405 with the methods in `allow`. */
const Route *route_find(const Call *call, const char **tail, int *status, const char **allow);
/* Fence and route alone, before a body is taken in: true, or the reply of a refusal. */
bool call_admit(const Server *server, Call *call, const Route **route, Reply *reply);
void call_answer(Server *server, const Call *call, const Route *route, Reply *reply);

/* ---- replies ---- */

/* {"errors": ...}: those of the list, or the one. */
void reply_errors(const Call *call, int status, const Diagnostics *list, const Error *err,
                  Reply *reply);
void error_write(Json *json, const Error *err);
void reply_text(Reply *reply, const char *type, const Text *text);
/* The bytes of a reply compressed, where the client can read that. */
void reply_pack(const Call *call, Reply *reply);
/* 304 without a body where the client has the reply's mark already. */
void reply_unchanged(const Call *call, Reply *reply);
/* 400, 422 or 500. */
int reply_status(Status status);

Status answer_tree(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_package(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_first(Server *server, const Call *call, Reply *reply, Error *err);
Status picture_style(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_set(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_thrust(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_checks(Server *server, const Call *call, Reply *reply, Error *err);

/* ---- assets ---- */

typedef struct Asset {
    const char *path, *type;
    const char *plain, *plain_end, *gzip, *gzip_end, *brotli, *brotli_end;
} Asset;
extern const Asset server_asset[];
extern const int server_asset_count; /* 0 in a build without the page */
/* The asset of a path, or NULL. */
const Asset *asset_find(const char *path);
void asset_reply(const Asset *asset, const Call *call, Reply *reply);

/* ---- the wire: the HTTP library and the watchdog (wire.c) ---- */

MUST_USE Status wire_start(Server *server, int port, Error *err);
void wire_stop(Server *server);

#endif
