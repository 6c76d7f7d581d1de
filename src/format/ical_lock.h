/* libical keeps its time zones for all threads alike and makes them when they are first asked for: so only one thread at a
 * time is in it. */
#ifndef FORMAT_ICAL_LOCK_H
#define FORMAT_ICAL_LOCK_H

struct arena;

/* Waits until no other thread is in libical; the system must have memory for it, or that of the arena has ended. Where memory ends before ical_unlock, the lock is given back with what the
 * arena was lent (arena_try). Not twice. */
void ical_lock(struct arena *arena);
void ical_unlock(struct arena *arena);

#endif
