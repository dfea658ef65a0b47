/* Who may do what, where the server is reached from elsewhere: tokens of readers and writers, and how often
 * each may ask. Of a token only its SHA-256 is kept. */
#define _DEFAULT_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <string.h>
#include <strings.h>
#include <sys/stat.h>
#include <unistd.h>

#include "server_data.h"

/* ---- files of secrets ---- */

enum { PRIVATE_MAX = 64 << 10 };

Status private_read(const char *path, const char *what, char **bytes, size_t *size, Arena *arena,
                    Error *err)
{
    struct stat about;
    const int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0)
        return error_set(err, STATUS_IO, "the %s \"%.200s\" cannot be read: %s", what, path,
                         strerror(errno));
    Status status = STATUS_OK;
    char *const read_to = arena_take(arena, PRIVATE_MAX + 1);
    ssize_t length = 0, more = 1;
    if (fstat(fd, &about) != 0 || !S_ISREG(about.st_mode))
        status = error_set(err, STATUS_IO, "the %s \"%.200s\" is not a file", what, path);
    else if (about.st_mode & (S_IRWXG | S_IRWXO))
        status = error_set(err, STATUS_BAD_INPUT,
                           "the %s \"%.200s\" is open to others than its owner: chmod 600 it", what,
                           path);
    while (status == STATUS_OK && more > 0 && length < PRIVATE_MAX) {
        more = read(fd, read_to + length, (size_t)(PRIVATE_MAX - length));
        length += more > 0 ? more : 0;
    }
    close(fd);
    TRY(status);
    if (more != 0)
        return error_set(err, STATUS_IO, "the %s \"%.200s\" cannot be read, or is too large", what,
                         path);
    *bytes = read_to;
    *size = (size_t)length;
    return STATUS_OK;
}

/* ---- tokens ---- */

static void token_hash(const char *text, size_t length, unsigned char digest[SHA256_SIZE])
{
    Sha256 sha = sha256_start();
    sha256_add(&sha, text, length);
    sha256_end(&sha, digest);
}

/* No early end: the time does not tell how much of it is right. */
static bool digest_same(const unsigned char *a, const unsigned char *b)
{
    unsigned char differs = 0;
    for (int i = 0; i < SHA256_SIZE; i++) differs = (unsigned char)(differs | (a[i] ^ b[i]));
    return differs == 0;
}

static Token *digest_find(Tokens *tokens, const unsigned char digest[SHA256_SIZE])
{
    Token *found = NULL;
    for (int i = 0; i < tokens->count; i++)
        if (digest_same(tokens->token[i].digest, digest)) found = &tokens->token[i];
    return found;
}

/* RFC 6750, 2.1: the letters of a bearer token. */
static const char token_letters[] =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~+/=";

/* What is wrong is told without the words of the line: they may be a secret. */
static Status token_line(const char *at, const char *end, int line, Tokens *tokens, Error *err)
{
    const Place place = {line, 1};
    Role role = ROLE_NONE;
    if (end - at > 7 && (at[6] == ' ' || at[6] == '\t')) {
        if (!strncmp(at, "reader", 6)) role = ROLE_READER;
        if (!strncmp(at, "writer", 6)) role = ROLE_WRITER;
    }
    if (role == ROLE_NONE)
        return error_at(err, STATUS_BAD_INPUT, place, place, "",
                        "a line is \"reader TOKEN\" or \"writer TOKEN\", \"#\" starts a remark");
    for (at += 6; at < end && (*at == ' ' || *at == '\t');) at++;
    const char *stop = at;
    while (stop < end && *stop && strchr(token_letters, *stop)) stop++;
    const size_t length = (size_t)(stop - at);
    while (stop < end && (*stop == ' ' || *stop == '\t' || *stop == '\r')) stop++;
    if (length < TOKEN_LEAST || length > TOKEN_MOST || (stop < end && *stop != '#'))
        return error_at(err, STATUS_BAD_INPUT, place, place, "",
                        "a token has %d to %d letters, digits or -._~+/=: openssl rand -hex 24",
                        (int)TOKEN_LEAST, (int)TOKEN_MOST);
    Token token = {.role = role};
    token_hash(at, length, token.digest);
    if (digest_find(tokens, token.digest))
        return error_at(err, STATUS_BAD_INPUT, place, place, "", "the token stands above already");
    if (tokens->count == TOKENS_MAX)
        return error_set(err, STATUS_TOO_LARGE, "more than %d tokens", (int)TOKENS_MAX);
    tokens->token[tokens->count++] = token;
    return STATUS_OK;
}

Status tokens_read(const char *bytes, size_t size, Tokens *tokens, Error *err)
{
    const char *at = bytes, *const end = bytes + size;
    *tokens = (Tokens){.count = 0};
    for (int line = 1; at < end; line++) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        if (!stop) stop = end;
        while (at < stop && (*at == ' ' || *at == '\t' || *at == '\r')) at++;
        if (at < stop && *at != '#') TRY(token_line(at, stop, line, tokens, err));
        at = stop < end ? stop + 1 : end;
    }
    if (tokens->count == 0)
        return error_set(err, STATUS_BAD_INPUT, "there is no token in it: writer TOKEN");
    return STATUS_OK;
}

Token *tokens_find(Tokens *tokens, const char *authorization)
{
    static const char scheme[] = "Bearer ";
    unsigned char digest[SHA256_SIZE];
    if (!authorization || strncasecmp(authorization, scheme, sizeof scheme - 1) != 0) return NULL;
    const char *const text = authorization + sizeof scheme - 1;
    token_hash(text, strlen(text), digest);
    return digest_find(tokens, digest);
}

/* ---- rates ---- */

/* A bucket that fills again with time; whole seconds to wait, 0: let in. */
int rate_take(Rate *rate, double cost_1, double now_s)
{
    if (rate->at_s == 0) rate->left_1 = RATE_BURST;
    rate->left_1 = fmin(RATE_BURST, rate->left_1 + (now_s - rate->at_s) * RATE_PER_S);
    rate->at_s = now_s;
    if (rate->left_1 >= 1) {
        rate->left_1 -= cost_1;
        return 0;
    }
    return (int)ceil((1 - rate->left_1) / RATE_PER_S);
}

/* Where there is no room the address that was quiet longest gives way. */
static Rate *rate_of(Rates *rates, const unsigned char who[ADDRESS_SIZE])
{
    int oldest = 0;
    for (int i = 0; i < rates->count; i++) {
        if (!memcmp(rates->of[i].who, who, ADDRESS_SIZE)) return &rates->of[i].rate;
        if (rates->of[i].rate.at_s < rates->of[oldest].rate.at_s) oldest = i;
    }
    if (rates->count < RATES_MAX) oldest = rates->count++;
    memset(&rates->of[oldest], 0, sizeof rates->of[oldest]);
    memcpy(rates->of[oldest].who, who, ADDRESS_SIZE);
    return &rates->of[oldest].rate;
}

int rates_take(Rates *rates, const unsigned char who[ADDRESS_SIZE], double cost_1, double now_s)
{
    return rate_take(rate_of(rates, who), cost_1, now_s);
}

/* ---- the gate ---- */

int gate_enter(Server *server, Call *call, Error *err)
{
    call->role = ROLE_WRITER;
    if (!server->far) return 0;
    const double now = monotonic_s();
    pthread_mutex_lock(&server->lock);
    Token *const token = tokens_find(&server->tokens, call->authorization);
    /* a wrong token costs more: guessing gets slow, a mistake does not shut out */
    const double cost = call->authorization && !token ? WRONG_TOKEN_COST : 1;
    int wait_s = rates_take(&server->rates, call->address, cost, now);
    if (token && wait_s == 0) wait_s = rate_take(&token->rate, 1, now);
    call->role = token ? token->role : ROLE_NONE;
    pthread_mutex_unlock(&server->lock);
    if (wait_s == 0) return 0;
    error_set(err, STATUS_BAD_INPUT, "too many requests: ask again in %d s", wait_s);
    call->retry_s = wait_s;
    return 429;
}

int gate_route(const Call *call, Role need, Error *err)
{
    if (call->role >= need) return 0;
    if (call->role == ROLE_NONE) {
        error_set(err, STATUS_BAD_INPUT,
                  "a token is needed: Authorization: Bearer TOKEN, one of those that this server "
                  "was given");
        return 401;
    }
    error_set(err, STATUS_BAD_INPUT, "this token reads; what is kept needs one of a writer");
    return 403;
}
