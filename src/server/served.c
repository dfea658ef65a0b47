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

static int64_t ns_of(struct timespec t) { return (int64_t)t.tv_sec * 1000000000 + t.tv_nsec; }

Print print_take(const char *path)
{
    struct stat s;
    if (stat(path, &s) != 0) return (Print){.there = false};
    return (Print){true,      (int64_t)s.st_dev, (int64_t)s.st_ino,
                   s.st_size, ns_of(s.st_mtim),  ns_of(s.st_ctim)};
}

static bool print_same(const Print *a, const Print *b)
{
    if (!a->there || !b->there) return a->there == b->there;
    return a->device == b->device && a->node == b->node && a->size == b->size &&
           a->written_ns == b->written_ns && a->changed_ns == b->changed_ns;
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

bool print_wait(Server *server, const char *path, const Print *print, double seconds)
{
    const struct timespec end = now_after(seconds);
    while (!past(end)) {
        if (pause_or_end(server)) return false;
        const Print next = print_take(path);
        if (!print_same(print, &next)) break;
    }
    return true;
}

double monotonic_s(void)
{
    const struct timespec t = now_after(0);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

Status served_wait(Server *server, const char *mark, double seconds, Arena *arena, FileState *state,
                   Error *err)
{
    const double end_s = monotonic_s() + seconds;
    const size_t level = arena_mark(arena);
    for (;;) {
        const Print print =
            print_take(server->path); /* before the text: what changes after is seen */
        TRY(served_read(server, arena, state, err));
        const double left_s = end_s - monotonic_s();
        if (strcmp(state->mark, mark) != 0 || left_s <= 0) return STATUS_OK;
        if (!print_wait(server, server->path, &print, left_s)) return STATUS_OK;
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
