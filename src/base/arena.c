#include "clench/base.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Under the address sanitizer what is not taken is poisoned, with a red zone after each piece. */
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ARENA_POISON
#endif
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(ARENA_POISON)
#include <sanitizer/asan_interface.h>
enum { RED_ZONE = 16 };
#else
#define ASAN_POISON_MEMORY_REGION(address, size)   ((void)(address), (void)(size))
#define ASAN_UNPOISON_MEMORY_REGION(address, size) ((void)(address), (void)(size))
enum { RED_ZONE = 0 };
#endif

enum { ALIGNMENT = 16, CHUNK_SMALLEST = 1 << 16, CHUNK_DOUBLING_END = 1 << 24 };

/* Chunks are a stack; a mark is the count of bytes taken below it, over all chunks. */
typedef struct Chunk Chunk;
struct Chunk {
    Chunk *below;
    size_t start; /* bytes taken in the chunks below */
    size_t used, room;
    char *bytes; /* aligned, behind this header */
};

struct Arena {
    Chunk *top, *spare; /* one emptied chunk is kept: a step that marks and resets stays cheap */
    size_t limit, peak;
};

/* The two ways in which memory ends the process; readers bound models so that they do not occur. */
_Noreturn static void memory_over(const char *reason, size_t bytes)
{
    fprintf(stderr, "clench: %s (%zu bytes)\n", reason, bytes);
    abort();
}

static void *memory_take(size_t bytes)
{
    void *memory = malloc(bytes);
    if (!memory) memory_over("no memory left", bytes);
    return memory;
}

Arena *arena_create(size_t limit_bytes)
{
    Arena *arena = memory_take(sizeof *arena);
    *arena = (Arena){.limit = limit_bytes};
    return arena;
}

static void chunk_free(Chunk *chunk)
{
    if (!chunk) return;
    ASAN_UNPOISON_MEMORY_REGION(chunk->bytes, chunk->room);
    free(chunk);
}

void arena_free(Arena *arena)
{
    if (!arena) return;
    while (arena->top) {
        Chunk *below = arena->top->below;
        chunk_free(arena->top);
        arena->top = below;
    }
    chunk_free(arena->spare);
    free(arena);
}

static Chunk *chunk_new(const Chunk *below, size_t bytes)
{
    size_t room = below ? below->room : CHUNK_SMALLEST / 2;
    if (room < CHUNK_DOUBLING_END) room *= 2;
    if (room < bytes) room = bytes;
    if (room > SIZE_MAX - sizeof(Chunk) - ALIGNMENT) memory_over("no memory left", bytes);
    Chunk *chunk = memory_take(sizeof(Chunk) + ALIGNMENT + room);
    const uintptr_t after = (uintptr_t)(chunk + 1);
    *chunk = (Chunk){.room = room,
                     .bytes = (char *)(chunk + 1) + (ALIGNMENT - after % ALIGNMENT) % ALIGNMENT};
    ASAN_POISON_MEMORY_REGION(chunk->bytes, chunk->room);
    return chunk;
}

static void chunk_push(Arena *arena, size_t bytes)
{
    const size_t start = arena_used(arena);
    Chunk *chunk = arena->spare;
    if (chunk && chunk->room >= bytes)
        arena->spare = NULL;
    else
        chunk = chunk_new(arena->top, bytes);
    chunk->start = start;
    chunk->used = 0;
    chunk->below = arena->top;
    arena->top = chunk;
}

void *arena_take(Arena *arena, size_t bytes)
{
    if (bytes > SIZE_MAX / 2) memory_over("a size overflows", bytes);
    const size_t whole = (bytes + RED_ZONE + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    const size_t used = arena_used(arena);
    if (used > arena->limit || whole > arena->limit - used)
        memory_over("the memory limit of this run is reached", arena->limit);
    if (!arena->top || arena->top->room - arena->top->used < whole) chunk_push(arena, whole);
    Chunk *top = arena->top;
    char *taken = top->bytes + top->used;
    top->used += whole;
    if (used + whole > arena->peak) arena->peak = used + whole;
    ASAN_UNPOISON_MEMORY_REGION(taken, bytes);
    return memset(taken, 0, bytes);
}

size_t arena_used(const Arena *arena)
{
    return arena->top ? arena->top->start + arena->top->used : 0;
}

size_t arena_room(const Arena *arena)
{
    const size_t used = arena_used(arena);
    return used < arena->limit ? arena->limit - used : 0;
}

size_t arena_peak(const Arena *arena) { return arena->peak; }

size_t arena_mark(const Arena *arena) { return arena_used(arena); }

static void chunk_pop(Arena *arena)
{
    Chunk *gone = arena->top;
    arena->top = gone->below;
    ASAN_POISON_MEMORY_REGION(gone->bytes, gone->room);
    Chunk *smaller = gone;
    if (!arena->spare || arena->spare->room < gone->room) {
        smaller = arena->spare;
        arena->spare = gone;
    }
    chunk_free(smaller);
}

void arena_reset(Arena *arena, size_t mark)
{
    assert(mark <= arena_used(arena));
    while (arena->top && arena->top->start > mark) chunk_pop(arena);
    if (!arena->top) return;
    arena->top->used = mark - arena->top->start;
    ASAN_POISON_MEMORY_REGION(arena->top->bytes + arena->top->used,
                              arena->top->room - arena->top->used);
}

char *arena_text(Arena *arena, const char *text) { return arena_textn(arena, text, strlen(text)); }

char *arena_textn(Arena *arena, const char *text, size_t length)
{
    char *copy = arena_take(arena, length + 1);
    if (length > 0) memcpy(copy, text, length);
    return copy;
}

char *arena_printf(Arena *arena, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    const int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    assert(length >= 0);
    char *out = arena_take(arena, (size_t)length + 1);
    vsnprintf(out, (size_t)length + 1, format, again);
    va_end(again);
    return out;
}
