/* The wire: libmicrohttpd takes bytes in and out, one thread a connection; this file bounds what a
 * client may take of memory and time. The library's timeout ends a connection that is silent; a
 * client that sends a byte now and then is ended by the watchdog here. */
#define _GNU_SOURCE
#include <arpa/inet.h>
#include <errno.h>
#include <microhttpd.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <time.h>

#include "clench/text.h"
#include "server_data.h"

enum { HEAD_BYTES_MAX = 32 << 10, SLOTS = SERVER_CONNECTIONS_MAX + 8, WATCH_MS = 250 };
static const size_t call_bytes = (size_t)192 << 20;

/* A connection; `due_ms` 0: nothing is due, the server itself is at work. */
typedef struct Slot {
    bool used;
    int fd;
    long long due_ms;
} Slot;

typedef struct Wire {
    struct MHD_Daemon *daemon;
    pthread_t watchdog;
    pthread_mutex_t lock; /* of the slots: a socket is not closed while it is looked at */
    pthread_cond_t ending;
    bool end;
    bool started;
    char said[200]; /* by the library, of a start that failed */
    Slot slot[SLOTS];
} Wire;

static long long now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (long long)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

/* ---- the watchdog ---- */

static void *watch(void *closure)
{
    Wire *const wire = closure;
    pthread_mutex_lock(&wire->lock);
    while (!wire->end) {
        const long long now = now_ms(), next = now + WATCH_MS;
        for (int i = 0; i < SLOTS; i++) {
            Slot *const slot = &wire->slot[i];
            if (!slot->used || slot->due_ms == 0 || now < slot->due_ms) continue;
            shutdown(slot->fd, SHUT_RDWR);
            slot->due_ms = 0;
        }
        const struct timespec end = {(time_t)(next / 1000), (long)(next % 1000) * 1000000};
        pthread_cond_timedwait(&wire->ending, &wire->lock, &end);
    }
    pthread_mutex_unlock(&wire->lock);
    return NULL;
}

static void due_set(Wire *wire, Slot *slot, int seconds)
{
    if (!slot) return;
    pthread_mutex_lock(&wire->lock);
    slot->due_ms = seconds ? now_ms() + seconds * 1000LL : 0;
    pthread_mutex_unlock(&wire->lock);
}

static void connection_notify(void *closure, struct MHD_Connection *connection, void **context,
                              enum MHD_ConnectionNotificationCode code)
{
    Wire *const wire = closure;
    pthread_mutex_lock(&wire->lock);
    if (code == MHD_CONNECTION_NOTIFY_STARTED) {
        const int fd =
            MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
        Slot *slot = wire->slot;
        while (slot < wire->slot + SLOTS && slot->used) slot++;
        *context = NULL;
        if (slot < wire->slot + SLOTS) {
            *slot = (Slot){true, fd, now_ms() + SERVER_REQUEST_S * 1000LL};
            *context = slot;
        } else {
            shutdown(fd, SHUT_RDWR); /* more than the library should let in */
        }
    } else if (*context) {
        ((Slot *)*context)->used = false;
    }
    pthread_mutex_unlock(&wire->lock);
}

/* ---- one request ---- */

typedef struct Request {
    Arena *arena;
    Call call;
    const Route *route;
    Text body;
    size_t dropped; /* bytes of a body that is too large */
} Request;

static const char *header(struct MHD_Connection *c, const char *name)
{
    return MHD_lookup_connection_value(c, MHD_HEADER_KIND, name);
}

static const char *argument(struct MHD_Connection *c, const char *name)
{
    return MHD_lookup_connection_value(c, MHD_GET_ARGUMENT_KIND, name);
}

/* IPv4 as IPv6 has it (RFC 4291, 2.5.5.2); of IPv6 the network, since one client has many addresses of it. */
static void address_fill(struct MHD_Connection *c, unsigned char address[ADDRESS_SIZE])
{
    const struct sockaddr *const who =
        MHD_get_connection_info(c, MHD_CONNECTION_INFO_CLIENT_ADDRESS)->client_addr;
    if (who && who->sa_family == AF_INET) {
        address[10] = address[11] = 0xFF;
        memcpy(address + 12, &((const struct sockaddr_in *)(const void *)who)->sin_addr, 4);
    } else if (who && who->sa_family == AF_INET6) {
        memcpy(address, &((const struct sockaddr_in6 *)(const void *)who)->sin6_addr, 8);
    }
}

/* It closed its side: whatever is still on the way, nobody reads an answer. */
bool client_gone(const Call *call)
{
    struct pollfd look = {.fd = call->connection, .events = POLLRDHUP};
    return call->connection > 0 && poll(&look, 1, 0) > 0;
}

static void call_fill(struct MHD_Connection *c, const char *method, const char *url, Request *r)
{
    r->arena = arena_create(call_bytes);
    r->body = text_start(r->arena);
    r->call = (Call){.method = arena_text(r->arena, method),
                     .path = arena_text(r->arena, url),
                     .host = header(c, "Host"),
                     .origin = header(c, "Origin"),
                     .site = header(c, "Sec-Fetch-Site"),
                     .match = header(c, "If-Match"),
                     .none_match = header(c, "If-None-Match"),
                     .encodings = header(c, "Accept-Encoding"),
                     .authorization = header(c, "Authorization"),
                     .thrust = argument(c, "thrust_N"),
                     .wait = argument(c, "wait"),
                     .after = argument(c, "after"),
                     .unit = argument(c, "unit"),
                     .calendar = argument(c, "calendar"),
                     .connection =
                         MHD_get_connection_info(c, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd,
                     .arena = r->arena};
    address_fill(c, r->call.address);
}

static void headers_add(struct MHD_Response *response, const Reply *reply, Arena *arena)
{
    /* CodeMirror and the pictures style through the object model, which this policy lets pass */
    static const char *const always[][2] = {
        {"Content-Security-Policy",
         "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; "
         "style-src 'self'; connect-src 'self'; img-src 'self' blob: data:; base-uri 'none'; "
         "form-action 'none'; frame-ancestors 'none'"},
        {"X-Content-Type-Options", "nosniff"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
        {"Vary", "Accept-Encoding"},
    };
    for (size_t i = 0; i < sizeof always / sizeof *always; i++)
        MHD_add_response_header(response, always[i][0], always[i][1]);
    /* an asset is asked for again with its mark; nothing else is kept */
    MHD_add_response_header(response, "Cache-Control", reply->fixed ? "no-cache" : "no-store");
    MHD_add_response_header(response, "Content-Type", reply->type);
    if (reply->mark)
        MHD_add_response_header(response, "ETag", arena_printf(arena, "\"%s\"", reply->mark));
    if (reply->encoding) MHD_add_response_header(response, "Content-Encoding", reply->encoding);
    if (reply->retry_s)
        MHD_add_response_header(response, "Retry-After", arena_printf(arena, "%d", reply->retry_s));
    if (reply->status == 401) MHD_add_response_header(response, "WWW-Authenticate", "Bearer");
    if (reply->allow) MHD_add_response_header(response, "Allow", reply->allow);
    if (reply->save_as)
        MHD_add_response_header(response, "Content-Disposition",
                                arena_printf(arena, "attachment; filename=\"%s\"", reply->save_as));
}

static enum MHD_Result reply_send(struct MHD_Connection *c, const Reply *reply, Arena *arena,
                                  bool close)
{
    struct MHD_Response *const response = MHD_create_response_from_buffer(
        reply->size, (void *)(size_t)reply->bytes,
        reply->fixed ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_COPY);
    if (!response) return MHD_NO;
    headers_add(response, reply, arena);
    if (close) MHD_add_response_header(response, "Connection", "close");
    const enum MHD_Result result = MHD_queue_response(c, (unsigned)reply->status, response);
    MHD_destroy_response(response);
    return result;
}

static enum MHD_Result too_large_send(struct MHD_Connection *c, Request *r)
{
    Reply reply;
    Error err = {0};
    error_set(&err, STATUS_TOO_LARGE, "a request has at most %d bytes", (int)SERVER_BODY_MAX);
    reply_errors(&r->call, 413, NULL, &err, &reply);
    return reply_send(c, &reply, r->arena, true);
}

/* The head is there: who may not come in hears so before a byte of its body is taken. */
static enum MHD_Result request_start(Server *server, struct MHD_Connection *c, Request *r)
{
    Reply reply;
    if (!call_admit(server, &r->call, &r->route, &reply))
        return reply_send(c, &reply, r->arena, true);
    const char *const length = header(c, "Content-Length");
    /* a little too much is read to its end, so that the client hears the answer */
    if (length && strtoull(length, NULL, 10) > 2ull * SERVER_BODY_MAX) return too_large_send(c, r);
    return MHD_YES;
}

static enum MHD_Result body_take(Request *r, const char *bytes, size_t *size)
{
    if (r->dropped == 0 && *size <= SERVER_BODY_MAX - r->body.length)
        text_addn(&r->body, bytes, *size);
    else
        r->dropped += *size;
    *size = 0;
    return r->dropped > SERVER_BODY_MAX ? MHD_NO : MHD_YES; /* it does not stop: cut */
}

static enum MHD_Result request_end(Server *server, struct MHD_Connection *c, Slot *slot, Request *r)
{
    if (r->dropped) return too_large_send(c, r);
    Reply reply = {0};
    r->call.body = r->body.bytes;
    r->call.size = r->body.length;
    /* our own time is not the client's */
    due_set(server->wire, slot, 0);
    MHD_set_connection_option(c, MHD_CONNECTION_OPTION_TIMEOUT, 0u);
    call_answer(server, &r->call, r->route, &reply);
    MHD_set_connection_option(c, MHD_CONNECTION_OPTION_TIMEOUT, (unsigned)SERVER_IDLE_S);
    due_set(server->wire, slot, SERVER_REQUEST_S);
    return reply_send(c, &reply, r->arena, false);
}

/* The form of this function is the library's. NOLINTNEXTLINE(readability-function-size) */
static enum MHD_Result request_take(void *closure, struct MHD_Connection *c, const char *url,
                                    const char *method, const char *version, const char *bytes,
                                    size_t *size, void **context)
{
    Server *const server = closure;
    (void)version;
    Request *r = *context;
    Slot *const slot =
        MHD_get_connection_info(c, MHD_CONNECTION_INFO_SOCKET_CONTEXT)->socket_context;
    if (!r) {
        r = calloc(1, sizeof *r);
        if (!r) return MHD_NO;
        *context = r;
        call_fill(c, method, url, r);
        return request_start(server, c, r);
    }
    if (*size > 0) return body_take(r, bytes, size);
    return request_end(server, c, slot, r);
}

static void request_done(void *closure, struct MHD_Connection *c, void **context,
                         enum MHD_RequestTerminationCode code)
{
    (void)code;
    Server *const server = closure;
    Request *const r = *context;
    due_set(server->wire,
            MHD_get_connection_info(c, MHD_CONNECTION_INFO_SOCKET_CONTEXT)->socket_context,
            SERVER_REQUEST_S);
    if (r) arena_free(r->arena);
    free(r);
    *context = NULL;
}

/* ---- start and stop ---- */

/* What the library says while it starts is the reason where it does not; later nothing is noted. */
static void log_take(void *closure, const char *format, va_list words)
{
    Wire *const wire = closure;
    if (wire->started || wire->said[0]) return;
    vsnprintf(wire->said, sizeof wire->said, format, words);
    wire->said[strcspn(wire->said, "\n")] = 0;
}

typedef union Address {
    struct sockaddr any;
    struct sockaddr_in four;
    struct sockaddr_in6 six;
} Address;

static bool address_take(const char *text, int port, Address *a)
{
    memset(a, 0, sizeof *a);
    if (inet_pton(AF_INET, text, &a->four.sin_addr) == 1) {
        a->four.sin_family = AF_INET;
        a->four.sin_port = htons((uint16_t)port);
        return true;
    }
    if (inet_pton(AF_INET6, text, &a->six.sin6_addr) != 1) return false;
    a->six.sin6_family = AF_INET6;
    a->six.sin6_port = htons((uint16_t)port);
    return true;
}

bool address_read(const char *text, bool *six, bool *any)
{
    Address a;
    if (!address_take(text, 0, &a)) return false;
    *six = a.any.sa_family == AF_INET6;
    *any = *six ? IN6_IS_ADDR_UNSPECIFIED(&a.six.sin6_addr) : a.four.sin_addr.s_addr == 0;
    return true;
}

/* Certificate and key as texts; both NULL: no TLS. */
typedef struct Secret {
    const char *certificate;
    char *key;
} Secret;

/* port 0 lets the system choose. */
static struct MHD_Daemon *daemon_start(Server *server, const char *address, int port,
                                       const Secret *secret)
{
    Wire *const wire = server->wire;
    Address own;
    unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_THREAD_PER_CONNECTION |
                     MHD_USE_POLL | MHD_USE_ERROR_LOG;
    (void)address_take(address, port, &own);
    if (own.any.sa_family == AF_INET6) flags |= MHD_USE_IPv6;
    struct MHD_OptionItem tls[] = {
        {MHD_OPTION_HTTPS_MEM_KEY, 0, secret->key},
        {MHD_OPTION_HTTPS_MEM_CERT, 0, (void *)(size_t)secret->certificate},
        {MHD_OPTION_HTTPS_PRIORITIES, 0,
         (void *)(size_t) "SECURE128:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2"},
        {MHD_OPTION_PER_IP_CONNECTION_LIMIT, SERVER_OF_ONE_MAX, NULL},
        {MHD_OPTION_END, 0, NULL}};
    if (secret->key)
        flags |= MHD_USE_TLS;
    else
        tls[0] = tls[4];
    return MHD_start_daemon(
        flags, (uint16_t)port, NULL, NULL, request_take, server, MHD_OPTION_EXTERNAL_LOGGER,
        log_take, wire, MHD_OPTION_SOCK_ADDR, &own.any, MHD_OPTION_CONNECTION_LIMIT,
        (unsigned)SERVER_CONNECTIONS_MAX, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SERVER_IDLE_S,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)HEAD_BYTES_MAX, MHD_OPTION_NOTIFY_COMPLETED,
        request_done, server, MHD_OPTION_NOTIFY_CONNECTION, connection_notify, wire,
        MHD_OPTION_ARRAY, tls, MHD_OPTION_END);
}

static void wire_free(Server *server)
{
    Wire *const wire = server->wire;
    pthread_cond_destroy(&wire->ending);
    pthread_mutex_destroy(&wire->lock);
    free(wire);
    server->wire = NULL;
}

static void wire_make(Server *server, Wire *wire)
{
    server->wire = wire;
    pthread_condattr_t clock;
    pthread_mutex_init(&wire->lock, NULL);
    pthread_condattr_init(&clock);
    pthread_condattr_setclock(&clock, CLOCK_MONOTONIC);
    pthread_cond_init(&wire->ending, &clock);
    pthread_condattr_destroy(&clock);
}

static Status secret_read(const ServerWish *wish, Arena *arena, Secret *secret, Error *err)
{
    enum { CERTIFICATES_MAX = 1 << 20 };
    size_t size;
    *secret = (Secret){NULL, NULL};
    if (!wish->listen) return STATUS_OK;
    if (MHD_is_feature_supported(MHD_FEATURE_TLS) != MHD_YES)
        return error_set(err, STATUS_IO, "the HTTP library of this machine was built without TLS");
    TRY(file_read(wish->certificate, CERTIFICATES_MAX, arena, &secret->certificate, &size, err));
    TRY(private_read(wish->key, "key", &secret->key, &size, arena, err));
    if (!secret->certificate || !size)
        return error_set(err, STATUS_BAD_INPUT, "the certificate or the key is empty");
    return STATUS_OK;
}

static Status daemon_refuse(const Server *server, const ServerWish *wish, int port, int fault,
                            Error *err)
{
    if (!server->far)
        return error_set(err, STATUS_IO, "port %d of this machine cannot be used: %s", port,
                         strerror(fault));
    return error_set(err, STATUS_IO,
                     "%.60s, port %d cannot be served with \"%.80s\" and \"%.80s\": %.100s",
                     wish->listen, port, wish->certificate, wish->key,
                     server->wire->said[0] ? server->wire->said : strerror(fault));
}

static Status listen_start(Server *server, const ServerWish *wish, const Secret *secret, Error *err)
{
    Wire *const wire = server->wire;
    const char *const address = wish->listen ? wish->listen : "127.0.0.1";
    const int port = wish->port || !wish->listen ? wish->port : SERVER_PORT;
    wire->daemon = daemon_start(server, address, port ? port : SERVER_PORT, secret);
    if (!wire->daemon && !port) wire->daemon = daemon_start(server, address, 0, secret);
    if (!wire->daemon) return daemon_refuse(server, wish, port, errno, err);
    wire->started = true;
    server->fence.port = MHD_get_daemon_info(wire->daemon, MHD_DAEMON_INFO_BIND_PORT)->port;
    return STATUS_OK;
}

Status wire_start(Server *server, const ServerWish *wish, Error *err)
{
    Wire *const wire = calloc(1, sizeof *wire);
    if (!wire) return error_set(err, STATUS_IO, "no memory left");
    Arena *const arena = arena_create(4 << 20);
    Secret secret;
    wire_make(server, wire);
    Status status = secret_read(wish, arena, &secret, err);
    if (status == STATUS_OK) status = listen_start(server, wish, &secret, err);
    if (secret.key) explicit_bzero(secret.key, strlen(secret.key)); /* the library has its own */
    arena_free(arena);
    if (status == STATUS_OK && pthread_create(&wire->watchdog, NULL, watch, wire) != 0) {
        MHD_stop_daemon(wire->daemon);
        status = error_set(err, STATUS_IO, "no thread can be started");
    }
    if (status != STATUS_OK) wire_free(server);
    return status;
}

void wire_stop(Server *server)
{
    Wire *const wire = server->wire;
    MHD_stop_daemon(wire->daemon);
    pthread_mutex_lock(&wire->lock);
    wire->end = true;
    pthread_cond_signal(&wire->ending);
    pthread_mutex_unlock(&wire->lock);
    pthread_join(wire->watchdog, NULL);
    wire_free(server);
}
