/* main of a fuzz target under a plain compiler: runs every file of the folders (or files) named on
 * the command line. An input that takes over 1 s of processor time ends the run with its name. */
#define _XOPEN_SOURCE 700
#include "fuzz.h"

#include <dirent.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

enum { LIMIT_S = 1, SIZE_MAX_BYTES = 8 << 20 };

static char current[4096]; /* for the handler, which may not format */

static void say(const char *text)
{
    const ssize_t written = write(STDERR_FILENO, text, strlen(text));
    (void)written;
}

static void over_limit(int number)
{
    (void)number;
    say("over 1 s: ");
    say(current);
    say("\n");
    _exit(1);
}

static void abort_named(int number)
{
    (void)number;
    say("input: ");
    say(current);
    say("\n");
    signal(SIGABRT, SIG_DFL);
}

static void timer_set(int seconds)
{
    const struct itimerval time = {.it_value = {.tv_sec = seconds}};
    setitimer(ITIMER_PROF, &time, NULL);
}

/* The bytes stand in a block of their very size, so that a sanitizer sees a read past the end. */
static int file_run(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) {
        perror(path);
        return 1;
    }
    uint8_t *room = malloc(SIZE_MAX_BYTES);
    const size_t size = room ? fread(room, 1, SIZE_MAX_BYTES, file) : 0;
    fclose(file);
    uint8_t *bytes = malloc(size ? size : 1);
    if (!room || !bytes) {
        fprintf(stderr, "%s: no memory\n", path);
        free(room);
        free(bytes);
        return 1;
    }
    memcpy(bytes, room, size);
    free(room);
    snprintf(current, sizeof current, "%s", path);
    timer_set(LIMIT_S);
    LLVMFuzzerTestOneInput(bytes, size);
    timer_set(0);
    free(bytes);
    return 0;
}

static int folder_run(const char *path, int *count)
{
    struct dirent **entry;
    int failed = 0;
    const int entries = scandir(path, &entry, NULL, alphasort);
    if (entries < 0) {
        perror(path);
        return 1;
    }
    for (int i = 0; i < entries; i++) {
        char name[4096];
        struct stat about;
        const int length = snprintf(name, sizeof name, "%s/%s", path, entry[i]->d_name);
        free(entry[i]);
        if (length < 0 || (size_t)length >= sizeof name || stat(name, &about) != 0) continue;
        if (!S_ISREG(about.st_mode)) continue;
        failed += file_run(name);
        ++*count;
    }
    free(entry);
    return failed;
}

int main(int argc, char **argv)
{
    int count = 0, failed = 0;
    signal(SIGPROF, over_limit);
    signal(SIGABRT, abort_named);
    LLVMFuzzerTestOneInput((const uint8_t *)"", 0);
    for (int i = 1; i < argc; i++) {
        struct stat about;
        if (stat(argv[i], &about) == 0 && S_ISREG(about.st_mode)) {
            failed += file_run(argv[i]);
            count++;
        } else
            failed += folder_run(argv[i], &count);
    }
    printf("%d inputs replayed, %d unreadable\n", count, failed);
    return failed > 0 || count == 0;
}
