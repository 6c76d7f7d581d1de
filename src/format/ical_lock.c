#include "format/ical_lock.h"

#include "base/arena.h"

#include <pthread.h>
#include <stdlib.h>

enum { LIBICAL_BYTES = 4 << 20 }; /* a zone takes less than one MiB */

/* The one variable of the house outside any call, for a library that has some. */
static pthread_mutex_t libical = PTHREAD_MUTEX_INITIALIZER;

static void release(void *lock)
{
    (void)pthread_mutex_unlock(lock);
}

/* libical does not look at what malloc gave it: where there is not enough for all that it does, it is not called. */
static void see_memory(const struct arena *arena)
{
    void *room = malloc(LIBICAL_BYTES);
    if (!room)
        arena_run_out(arena);
    free(room);
}

void ical_lock(struct arena *arena)
{
    see_memory(arena);
    (void)pthread_mutex_lock(&libical);
    arena_own(arena, &libical, release);
}

void ical_unlock(struct arena *arena)
{
    arena_disown(arena, &libical);
    release(&libical);
}
