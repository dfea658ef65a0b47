/* The one file that is served: read, watched, written. A change is never lost: what is written
 * replaces only the text that the writer has seen. */
#define _DEFAULT_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "clench/paper.h"
#include "clench/text.h"
#include "server_data.h"

static const long look_ns = 100000000; /* a change outside is seen within this time */

void mark_make(const char *text, size_t size, char mark[MARK_SIZE])
{
    char revision[PAPER_REVISION];
    paper_revision(text, size, revision);
    snprintf(mark, MARK_SIZE, "%s", revision);
}

Status served_read(const Server *server, Arena *arena, FileState *state, Error *err)
{
    struct stat about = {0};
    FileState found = {.text = ""};
    if (stat(server->path, &about) != 0 && errno == ENOENT) {
        snprintf(found.mark, sizeof found.mark, "%s", mark_new);
    } else if (S_ISFIFO(about.st_mode) || S_ISCHR(about.st_mode) || S_ISSOCK(about.st_mode)) {
        /* reading it could wait for ever, or never come to an end */
        return error_set(err, STATUS_IO, "\"%.200s\" is not a file", server->path);
    } else {
        TRY(file_read(server->path, YAML_SIZE_MAX, arena, &found.text, &found.size, err));
        if (!found.size) found.text = "";
        TRY(body_text(found.text, found.size, err));
        mark_make(found.text, found.size, found.mark);
    }
    *state = found;
    return STATUS_OK;
}

/* ---- watching ---- */

/* What a change of a file changes. */
typedef struct Print {
    bool there;
    dev_t device;
    ino_t node;
    off_t size;
    struct timespec written, changed;
} Print;

static bool time_same(struct timespec a, struct timespec b)
{
    return a.tv_sec == b.tv_sec && a.tv_nsec == b.tv_nsec;
}

static Print print_take(const Server *server)
{
    struct stat s;
    if (stat(server->path, &s) != 0) return (Print){.there = false};
    return (Print){true, s.st_dev, s.st_ino, s.st_size, s.st_mtim, s.st_ctim};
}

static bool print_same(const Print *a, const Print *b)
{
    if (!a->there || !b->there) return a->there == b->there;
    return a->device == b->device && a->node == b->node && a->size == b->size &&
           time_same(a->written, b->written) && time_same(a->changed, b->changed);
}

static struct timespec now_after(double seconds)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    const long long ns = t.tv_nsec + (long long)(seconds * 1e9);
    return (struct timespec){t.tv_sec + (time_t)(ns / 1000000000), (long)(ns % 1000000000)};
}

static bool past(struct timespec end)
{
    const struct timespec t = now_after(0);
    return t.tv_sec > end.tv_sec || (t.tv_sec == end.tv_sec && t.tv_nsec >= end.tv_nsec);
}

/* Until the next look; true where the server ends. */
static bool pause_or_end(Server *server)
{
    const struct timespec end = now_after((double)look_ns / 1e9);
    pthread_mutex_lock(&server->lock);
    while (!server->ending && !past(end))
        pthread_cond_timedwait(&server->changed, &server->lock, &end);
    const bool ending = server->ending;
    pthread_mutex_unlock(&server->lock);
    return ending;
}

Status served_wait(Server *server, const char *mark, double seconds, Arena *arena, FileState *state,
                   Error *err)
{
    const struct timespec end = now_after(seconds);
    const size_t level = arena_mark(arena);
    for (;;) {
        Print print = print_take(server); /* before the text: what changes after is seen next */
        TRY(served_read(server, arena, state, err));
        if (strcmp(state->mark, mark) != 0) return STATUS_OK;
        for (;;) {
            if (past(end) || pause_or_end(server)) return STATUS_OK;
            const Print next = print_take(server);
            if (!print_same(&print, &next)) break;
        }
        arena_reset(arena, level);
    }
}

/* ---- writing ---- */

/* Two servers of the same folder do not write at once; other programs do not know this lock, and
 * where a file system has none, the check of the mark still stands. -1: no lock. */
static int folder_lock(const Server *server)
{
    char folder[4096];
    const char *const slash = strrchr(server->path, '/');
    snprintf(folder, sizeof folder, "%.*s", slash ? (int)(slash - server->path) + 1 : 1,
             slash ? server->path : ".");
    const int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return -1;
    for (int i = 0; i < 20; i++) {
        if (flock(fd, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK) return fd;
        nanosleep(&(struct timespec){0, look_ns}, NULL);
    }
    return fd;
}

static Status exchange(const Server *server, const char *mark, const FileState *text, bool *same,
                       FileState *state, Arena *arena, Error *err)
{
    FileState found;
    TRY(served_read(server, arena, &found, err));
    if (strcmp(found.mark, mark) != 0) {
        *same = false;
        *state = found;
        return STATUS_OK;
    }
    TRY(file_write(server->path, text->text, text->size, err));
    *same = true;
    *state = *text;
    return STATUS_OK;
}

Status served_write(Server *server, const char *mark, const FileState *text, bool *same,
                    FileState *state, Arena *arena, Error *err)
{
    pthread_mutex_lock(&server->saving);
    const int fd = folder_lock(server);
    const Status status = exchange(server, mark, text, same, state, arena, err);
    if (fd >= 0) close(fd);
    pthread_mutex_unlock(&server->saving);
    return status;
}
