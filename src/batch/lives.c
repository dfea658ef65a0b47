/* The lives of a study, shared among threads by their index. */
#define _GNU_SOURCE
#include <errno.h>
#include <pthread.h>
#include <sched.h>
#include <stdatomic.h>
#include <string.h>
#include <time.h>

#include "clench/batch.h"

static const size_t arena_bytes = (size_t)2 << 30; /* a bound; memory is taken as it is used */

typedef struct Batch {
    const OddsStudy *study;
    OddsLife *life;
    float *open_day;
    atomic_uint next, done;
    atomic_bool stop;
    pthread_mutex_t lock;
    pthread_cond_t told; /* a thread has ended */
    int running;
} Batch;

int batch_processors(void)
{
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) != 0) return 1;
    const int count = CPU_COUNT(&set);
    return count < 1 ? 1 : count > BATCH_THREADS_MAX ? BATCH_THREADS_MAX : count;
}

static void *work(void *with)
{
    Batch *b = with;
    Arena *arena = arena_create(arena_bytes), *scratch = arena_create(arena_bytes);
    while (!atomic_load(&b->stop)) {
        const uint32_t index = atomic_fetch_add(&b->next, 1);
        if (index >= b->study->lives) break;
        odds_life(b->study, index, arena, scratch, &b->life[index],
                  b->open_day + (size_t)index * (size_t)b->study->joint_count);
        atomic_fetch_add(&b->done, 1);
    }
    arena_free(arena);
    arena_free(scratch);
    pthread_mutex_lock(&b->lock);
    b->running--;
    pthread_cond_signal(&b->told);
    pthread_mutex_unlock(&b->lock);
    return NULL;
}

static void tell(Batch *b, const BatchWish *wish)
{
    if (wish->progress && wish->progress(wish->with, atomic_load(&b->done), b->study->lives))
        atomic_store(&b->stop, true);
}

/* Until the last thread ends, with a word now and then. */
static void watch(Batch *b, const BatchWish *wish)
{
    pthread_mutex_lock(&b->lock);
    while (b->running > 0) {
        struct timespec until;
        clock_gettime(CLOCK_REALTIME, &until);
        until.tv_nsec += 250000000;
        until.tv_sec += until.tv_nsec / 1000000000;
        until.tv_nsec %= 1000000000;
        pthread_cond_timedwait(&b->told, &b->lock, &until);
        pthread_mutex_unlock(&b->lock);
        tell(b, wish);
        pthread_mutex_lock(&b->lock);
    }
    pthread_mutex_unlock(&b->lock);
}

Status batch_lives(const OddsStudy *study, const BatchWish *wish, OddsLife *life, float *open_day,
                   bool *stopped, Error *err)
{
    Batch b = {.study = study, .life = life, .open_day = open_day};
    pthread_t thread[BATCH_THREADS_MAX];
    int count = wish->threads > 0 ? wish->threads : batch_processors(), started = 0;
    if (count > BATCH_THREADS_MAX) count = BATCH_THREADS_MAX;
    pthread_mutex_init(&b.lock, NULL);
    pthread_cond_init(&b.told, NULL);
    pthread_mutex_lock(&b.lock);
    while (started < count && pthread_create(&thread[started], NULL, work, &b) == 0) started++;
    b.running = started;
    pthread_mutex_unlock(&b.lock);
    if (started > 0) watch(&b, wish);
    for (int i = 0; i < started; i++) pthread_join(thread[i], NULL);
    pthread_cond_destroy(&b.told);
    pthread_mutex_destroy(&b.lock);
    *stopped = atomic_load(&b.done) < study->lives;
    return started > 0 ? STATUS_OK : error_set(err, STATUS_IO, "no thread can be started");
}
