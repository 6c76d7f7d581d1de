#include "format/ical_lock.h"

#include "base/arena.h"

#include <pthread.h>

/* The one variable of the house outside any call, for a library that has some. */
static pthread_mutex_t libical = PTHREAD_MUTEX_INITIALIZER;

static void release(void *lock)
{
    (void)pthread_mutex_unlock(lock);
}

void ical_lock(struct arena *arena)
{
    (void)pthread_mutex_lock(&libical);
    arena_own(arena, &libical, release);
}

void ical_unlock(struct arena *arena)
{
    arena_disown(arena, &libical);
    release(&libical);
}
