#define _XOPEN_SOURCE 700
#include "clench/text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static Status io_error(Error *err, const char *verb, const char *path)
{
    return error_set(err, STATUS_IO, "\"%.200s\" cannot be %s: %s", path, verb, strerror(errno));
}

/* ---- reading ---- */

static Status too_large(Error *err, const char *path, size_t limit)
{
    return error_set(err, STATUS_TOO_LARGE, "\"%.200s\" has more than %zu bytes", path, limit);
}

/* Reads to the end of what may be a pipe: its size is known only then. */
static Status descriptor_read(int fd, const char *path, size_t limit, Text *text, Error *err)
{
    char piece[1 << 14];
    for (;;) {
        const ssize_t count = read(fd, piece, sizeof piece);
        if (count == 0) return STATUS_OK;
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return io_error(err, "read", path);
        if ((size_t)count > limit - text->length) return too_large(err, path, limit);
        text_addn(text, piece, (size_t)count);
    }
}

Status file_read(const char *path, size_t limit, Arena *arena, const char **bytes, size_t *size,
                 Error *err)
{
    const int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (fd < 0) return io_error(err, "opened", path);
    Text text = text_start(arena);
    struct stat about;
    Status status;
    if (fstat(fd, &about) != 0)
        status = io_error(err, "read", path);
    else if (S_ISDIR(about.st_mode))
        status = error_set(err, STATUS_IO, "\"%.200s\" is a directory", path);
    else if (S_ISREG(about.st_mode) && about.st_size > 0 && (size_t)about.st_size > limit)
        status = too_large(err, path, limit);
    else
        status = descriptor_read(fd, path, limit, &text, err);
    close(fd);
    if (status != STATUS_OK) return status;
    *bytes = text.bytes;
    *size = text.length;
    return STATUS_OK;
}

/* ---- writing ---- */

static bool write_all(int fd, const char *bytes, size_t size)
{
    while (size > 0) {
        const ssize_t count = write(fd, bytes, size);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return false;
        bytes += count;
        size -= (size_t)count;
    }
    return true;
}

/* A pipe or device: it cannot be replaced, and must not be. */
static Status device_write(const char *path, const char *bytes, size_t size, Error *err)
{
    const int fd = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (fd < 0) return io_error(err, "opened", path);
    const bool good = write_all(fd, bytes, size);
    const Status status = good ? STATUS_OK : io_error(err, "written", path);
    close(fd);
    return status;
}

enum { TEMPORARY_TRIES = 100 };

/* A new file beside `path`, never one that exists; its name goes to `name`. */
static int temporary_open(const char *path, char *name, size_t name_size)
{
    int fd = -1;
    for (int i = 0; i < TEMPORARY_TRIES && fd < 0; i++) {
        const int length = snprintf(name, name_size, "%s.%ld-%d.tmp", path, (long)getpid(), i);
        if (length < 0 || (size_t)length >= name_size) {
            errno = ENAMETOOLONG;
            return -1;
        }
        fd = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (fd < 0 && errno != EEXIST) return -1;
    }
    return fd;
}

/* After a power cut the new name must be there, not only the new bytes; where a file system
 * cannot promise it, nothing is lost by not being told. */
static void directory_sync(const char *path)
{
    char folder[4096];
    const char *const slash = strrchr(path, '/');
    const int length = slash ? (int)(slash - path) + 1 : 1;
    const int written = snprintf(folder, sizeof folder, "%.*s", length, slash ? path : ".");
    if (written < 0 || (size_t)written >= sizeof folder) return;
    const int fd = open(folder, O_RDONLY | O_CLOEXEC);
    if (fd < 0) return;
    (void)fsync(fd);
    close(fd);
}

/* `mode` is that of the file replaced, 0 where there is none. */
static Status replace(const char *path, mode_t mode, const char *bytes, size_t size, Error *err)
{
    char name[4096];
    const int fd = temporary_open(path, name, sizeof name);
    if (fd < 0) return io_error(err, "written", path);
    bool good = (mode == 0 || fchmod(fd, mode & 07777) == 0) && write_all(fd, bytes, size) &&
                fsync(fd) == 0;
    int fault = errno;
    if (close(fd) != 0 && good) good = false, fault = errno;
    if (good && rename(name, path) != 0) good = false, fault = errno;
    if (!good) {
        unlink(name);
        errno = fault;
        return io_error(err, "written", path);
    }
    directory_sync(path);
    return STATUS_OK;
}

Status file_write(const char *path, const char *bytes, size_t size, Error *err)
{
    struct stat about;
    if (stat(path, &about) != 0) return replace(path, 0, bytes, size, err);
    if (S_ISDIR(about.st_mode)) return error_set(err, STATUS_IO, "\"%.200s\" is a directory", path);
    if (!S_ISREG(about.st_mode)) return device_write(path, bytes, size, err);
    char *const real = realpath(path, NULL); /* through links */
    if (!real) return io_error(err, "written", path);
    const Status status = replace(real, about.st_mode, bytes, size, err);
    free(real);
    return status;
}

/* ---- folders ---- */

static Status one_directory(const char *path, Error *err)
{
    struct stat about;
    if (mkdir(path, 0777) == 0) return STATUS_OK;
    const int fault = errno;
    if (stat(path, &about) == 0 && S_ISDIR(about.st_mode)) return STATUS_OK;
    errno = fault;
    return io_error(err, "made", path);
}

Status directory_make(const char *path, Error *err)
{
    char part[4096];
    const size_t length = strlen(path);
    if (length == 0 || length >= sizeof part)
        return error_set(err, STATUS_IO, "\"%.200s\" is no name of a folder", path);
    memcpy(part, path, length + 1);
    for (size_t i = 1; i < length; i++) {
        if (part[i] != '/') continue;
        part[i] = 0;
        TRY(one_directory(part, err));
        part[i] = '/';
    }
    return one_directory(part, err);
}
