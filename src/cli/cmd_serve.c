/* The page of a bridge file, on this machine. */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "clench/server.h"
#include "cli.h"

extern char **environ;

static const char file_usual[] = "bridge.yaml";

static Status port_read(const Request *request, int *port, Error *err)
{
    const char *const text = request->value[OPTION_PORT];
    *port = 0;
    if (!text) return STATUS_OK;
    const size_t length = strlen(text);
    const long number =
        length && length < 6 && strspn(text, "0123456789") == length ? strtol(text, NULL, 10) : -1;
    if (number < 0 || number > 65535)
        return error_set(err, STATUS_BAD_INPUT, "--port: '%.40s' is no port: 1 to 65535", text);
    *port = (int)number;
    return STATUS_OK;
}

/* The user's own browser, where somebody sits at a terminal with a screen around it. Whatever
 * becomes of it is not ours: the address stands on the terminal. */
static void browser_open(const char *address)
{
    if (!isatty(STDOUT_FILENO) || (!getenv("DISPLAY") && !getenv("WAYLAND_DISPLAY"))) return;
    posix_spawn_file_actions_t quiet;
    posix_spawnattr_t fresh;
    sigset_t none;
    pid_t child;
    sigemptyset(&none);
    posix_spawn_file_actions_init(&quiet);
    posix_spawnattr_init(&fresh);
    for (int fd = 0; fd < 3; fd++)
        posix_spawn_file_actions_addopen(&quiet, fd, "/dev/null", O_RDWR, 0);
    posix_spawnattr_setsigmask(&fresh, &none);
    posix_spawnattr_setflags(&fresh, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSID);
    char program[] = "xdg-open", *const word[] = {program, (char *)(size_t)address, NULL};
    (void)posix_spawnp(&child, program, &quiet, &fresh, word, environ);
    posix_spawnattr_destroy(&fresh);
    posix_spawn_file_actions_destroy(&quiet);
}

/* SIGINT and SIGTERM are waited for here; no thread is interrupted by them. */
static void ends_block(sigset_t *ends)
{
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN); /* a full quota is an error to tell, not an end */
    signal(SIGCHLD, SIG_IGN); /* a browser that ends leaves nothing behind */
    sigemptyset(ends);
    sigaddset(ends, SIGINT);
    sigaddset(ends, SIGTERM);
    sigaddset(ends, SIGHUP);
    pthread_sigmask(SIG_BLOCK, ends, NULL);
}

static Status address_say(const char *address, const char *file, bool far, Error *err)
{
    printf("%s\n", address);
    printf("shows %s to %s; Ctrl-C ends it\n", file,
           far ? "those who have a token" : "this machine alone");
    if (fflush(stdout) != 0)
        return error_set(err, STATUS_IO, "standard output cannot be written: %s", strerror(errno));
    return STATUS_OK;
}

Status cmd_serve(const Request *request, Error *err)
{
    Server *server;
    sigset_t ends;
    int seen;
    char address[300];
    ServerWish wish = {.path = request->file ? request->file : file_usual,
                       .listen = request->value[OPTION_LISTEN],
                       .name = request->value[OPTION_NAME],
                       .certificate = request->value[OPTION_CERTIFICATE],
                       .key = request->value[OPTION_KEY],
                       .tokens = request->value[OPTION_TOKENS]};
    TRY(port_read(request, &wish.port, err));
    ends_block(&ends);
    TRY(server_start(&wish, &server, err));
    server_address(server, address, sizeof address);
    const Status status = address_say(address, wish.path, wish.listen != NULL, err);
    if (status == STATUS_OK) {
        if (!request->given[OPTION_NO_BROWSER] && !wish.listen) browser_open(address);
        sigwait(&ends, &seen);
        /* what runs is waited for; who does not want to wait presses Ctrl-C again */
        pthread_sigmask(SIG_UNBLOCK, &ends, NULL);
    }
    server_stop(server);
    return status;
}
