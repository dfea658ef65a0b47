/* Private to server: a call without any HTTP library in it, the table of routes, the file served. */
#ifndef CLENCH_SERVER_DATA_H
#define CLENCH_SERVER_DATA_H

#include <pthread.h>

#include "clench/logbook.h"
#include "clench/paper.h"
#include "clench/server.h"

/* ---- a call and its reply ---- */

/* What one may do: nothing but the page's own files; read and compute; change what is kept. */
typedef enum Role { ROLE_NONE, ROLE_READER, ROLE_WRITER } Role;

enum { ADDRESS_SIZE = 16 };

/* What of a request is looked at. Texts that were not sent are NULL; all live as long as the call. */
typedef struct Call {
    const char *method, *path;
    const char *host, *origin, *site; /* Host, Origin, Sec-Fetch-Site */
    const char *match, *none_match;   /* If-Match, If-None-Match */
    const char *encodings;            /* Accept-Encoding */
    const char *authorization;
    const char *thrust, *wait, *after, *unit, *calendar; /* thrust_N, wait ... of the query */
    const char *tail; /* of the path, where the route ends in an id */
    const char *body;
    size_t size;
    Arena *arena;                        /* of this call: all that it makes is gone with it */
    unsigned char address[ADDRESS_SIZE]; /* of the client; IPv6: its network, /64 */
    int connection;                      /* its socket; 0: none */
    Role role;                           /* once it is in */
    int retry_s;                         /* with 429 */
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
    int retry_s;          /* with 429 */
} Reply;

/* ---- the file served ---- */

enum { MARK_SIZE = 16 };
static const char mark_new[] = "new"; /* of a file that does not exist yet */

typedef struct FileState {
    const char *text;
    size_t size;
    char mark[MARK_SIZE];
} FileState;

/* ---- who may come in ---- */

/* Host and Origin that name this server; an empty name is none. */
enum { FENCE_NAME = 256 };
typedef struct Fence {
    bool secure; /* https */
    int port;
    char name[2][FENCE_NAME];
} Fence;

/* How often one may ask: a bucket. */
enum { RATE_BURST = 300, RATE_PER_S = 30, WRONG_TOKEN_COST = 10, RATES_MAX = 512 };
typedef struct Rate {
    double left_1, at_s;
} Rate;
typedef struct Rates {
    int count;
    struct {
        unsigned char who[ADDRESS_SIZE];
        Rate rate;
    } of[RATES_MAX];
} Rates;

enum { TOKENS_MAX = 64, TOKEN_LEAST = 32, TOKEN_MOST = 128 };
typedef struct Token {
    Role role;
    unsigned char digest[SHA256_SIZE];
    Rate rate;
} Token;
typedef struct Tokens {
    int count;
    Token token[TOKENS_MAX];
} Tokens;

struct Server {
    char path[4096], name[256], revisions[4096];
    char epoch[32]; /* SOURCE_DATE_EPOCH, else empty */
    bool far;       /* reached from elsewhere: with TLS and tokens */
    Fence fence;
    Tokens tokens;
    Rates rates;
    pthread_mutex_t lock;    /* of rates and of all below */
    pthread_cond_t changed;  /* an engine run ended, or the server ends */
    pthread_mutex_t saving;  /* one writer of the file */
    pthread_mutex_t drawing; /* one package */
    pthread_mutex_t siting;  /* one who adds to a site log */
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
/* What a change of a file changes. */
typedef struct Print {
    bool there;
    int64_t device, node, size, written_ns, changed_ns;
} Print;
Print print_take(const char *path);
/* Until the file has another print, or `seconds` later; false: the server ends. */
bool print_wait(Server *server, const char *path, const Print *print, double seconds);
double monotonic_s(void);
void mark_make(const char *text, size_t size, char mark[MARK_SIZE]);

/* ---- readers of what a client sends (fuzzed) ---- */

/* Text without a NUL, in UTF-8, of at most the size of a bridge file. */
MUST_USE Status body_text(const char *body, size_t size, Error *err);
/* A JSON object of texts alone with exactly the named keys; at most `count`; an optional key begins
 * with '?'. value[i] is NULL where it was not sent. */
MUST_USE Status body_texts(const Call *call, const char *const *name, int count, const char **value,
                           Error *err);
/* A reading of the site log; what its words say is for the log to judge. `job`: NULL where none is meant. */
typedef struct BodyReading {
    const char *id, *job;
    LogbookWords words;
} BodyReading;
MUST_USE Status body_reading(const Call *call, BodyReading *reading, Error *err);
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
int fence_check(const Call *call, const Fence *fence, Error *err);
bool name_good(const char *name); /* of a machine: letters, digits, points, hyphens */
int gate_enter(Server *server, Call *call, Error *err); /* sets call->role */
int gate_route(const Call *call, Role need, Error *err);
/* A file of secrets, of its owner alone. `what` it is, for the sentence. Errors: IO, BAD_INPUT. */
MUST_USE Status private_read(const char *path, const char *what, char **bytes, size_t *size,
                             Arena *arena, Error *err);
MUST_USE Status tokens_read(const char *bytes, size_t size, Tokens *tokens, Error *err);
/* Of an Authorization header, which may be NULL. */
Token *tokens_find(Tokens *tokens, const char *authorization);
/* 0: let in, and charged; else whole seconds to wait. */
int rate_take(Rate *rate, double cost_1, double now_s);
int rates_take(Rates *rates, const unsigned char who[ADDRESS_SIZE], double cost_1, double now_s);

typedef Status (*RouteRun)(Server *server, const Call *call, Reply *reply, Error *err);
typedef struct Route {
    const char *method, *path; /* a path that ends in / goes on with an id */
    RouteRun run;
    Role need;
} Route;
extern const Route server_route[];
extern const int server_route_count;
/* The route, or NULL and the HTTP status: 404, or 405 with the methods in `allow`. */
const Route *route_find(const Call *call, const char **tail, int *status, const char **allow);
/* Fence and route alone, before a body is taken in: true, or the reply of a refusal. */
bool call_admit(Server *server, Call *call, const Route **route, Reply *reply);
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

/* ---- engine runs (answers.c) ---- */

typedef struct Run {
    Arena *result, *scratch;
    ReportSource source;
    const char *text; /* of the bridge file */
    size_t size;
    const void *with; /* of who asked for the run */
} Run;
typedef Status (*RunUse)(Server *server, const Call *call, Run *run, Reply *reply, Error *err);
/* Waits for its turn, reads run->text, finds the thrust and hands over; fills text, size and with itself. */
MUST_USE Status run_use(Server *server, const Call *call, Run *run, RunUse use, Reply *reply,
                        Error *err);
/* The same without a bridge file: a turn and memory. */
MUST_USE Status run_plain(Server *server, const Call *call, Run *run, RunUse use, Reply *reply,
                          Error *err);

/* One document is drawn at a time. */
MUST_USE Status paper_draw(Server *server, const Report *report, const PaperSettings *settings,
                           Text *pdf, Error *err);

Status answer_tree(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_package(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_first(Server *server, const Call *call, Reply *reply, Error *err);
Status picture_style(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_set(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_thrust(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_checks(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_site(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_site_open(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_reading(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_strike(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_site_record(Server *server, const Call *call, Reply *reply, Error *err);
Status answer_site_export(Server *server, const Call *call, Reply *reply, Error *err);

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

/* Fills server->fence.port. */
MUST_USE Status wire_start(Server *server, const ServerWish *wish, Error *err);
void wire_stop(Server *server);
bool client_gone(const Call *call); /* it does not wait for an answer any more */
/* Of an address of this machine: false where it is none. `any`: it stands for all of them. */
bool address_read(const char *text, bool *six, bool *any);

#endif
