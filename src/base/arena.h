/* Memory of one job: taken piece by piece, given back in one call, with a ceiling.
 *
 * arena_alloc never returns NULL. When the ceiling is reached (or the system has no more), control leaves
 * through the guard that arena_try set, as an error in a Lua call does: code between the guard and the
 * allocation needs no check and no clean-up. What the arena cannot free by itself (an open file, a parser) is lent to it
 * with arena_own and is released on both ways out.
 *
 *     if (!arena_try(arena, work, &call))
 *         ... ERR_MEMORY ...
 */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <setjmp.h>
#include <stdbool.h>
#include <stddef.h>

struct arena;

/* An empty arena that may hold `ceiling` bytes (0: no limit). NULL when even that cannot be had. */
struct arena *arena_make(size_t ceiling);

/* An empty arena for work inside `owner`, which is charged for what it takes: it may hold `ceiling` bytes (0: no limit
 * of its own), and never more than the owner has left. It escapes through the owner's guard and is released with it at
 * the latest (arena_free), earlier by arena_free_within, which gives the owner the bytes back. Never NULL: escapes like
 * arena_alloc. */
struct arena *arena_make_within(struct arena *owner, size_t ceiling);
void arena_free_within(struct arena *owner, struct arena *inner);

/* Runs `work` under a guard of its own. False: memory ended, in the arena or in one within it; `work` did not come to its
 * end, and what it lent to the arena or opened within it is released. What it took from the arena itself stays taken, so
 * that results which were complete at that moment may still be used: they must be reached through `call`. So a search may
 * end where its memory ends, and its best plan is kept. */
bool arena_try(struct arena *arena, void (*work)(void *call), void *call);

/* Releases what it owns, newest first, then all memory. Takes NULL. */
void arena_free(struct arena *arena);

/* Where to go when memory ends. Without a guard, running out is an assertion. */
void arena_guard(struct arena *arena, jmp_buf *escape);

/* Leaves as arena_alloc does when memory ends: after arena_try, where nothing is left to go on with. */
_Noreturn void arena_run_out(const struct arena *arena);

/* Zeroed storage for `count` items of `size` bytes, aligned for any type; count 0 gives a valid address. */
void *arena_alloc(struct arena *arena, size_t count, size_t size);

#define ARENA_NEW(arena, type) ((type *)arena_alloc((arena), 1, sizeof(type)))
#define ARENA_ARRAY(arena, count, type) ((type *)arena_alloc((arena), (count), sizeof(type)))

/* A longer copy of an array: *capacity doubles until it is over `count`. The old one stays until arena_free.
 * items = arena_grow(arena, items, count, &capacity, sizeof *items); items[count++] = ...; */
void *arena_grow(struct arena *arena, void *items, size_t count, size_t *capacity, size_t size);

/* Copies of text, terminated. */
char *arena_text(struct arena *arena, const char *text);
char *arena_text_n(struct arena *arena, const char *text, size_t length);
char *arena_textf(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Takes ownership of a foreign object until arena_disown or arena_free. `release` must not allocate here.
 * If the note of it cannot be stored, `object` is released before control escapes. */
void arena_own(struct arena *arena, void *object, void (*release)(void *object));

/* Gives it back to the caller without releasing it. */
void arena_disown(struct arena *arena, void *object);

/* Bytes held now, block heads and the arenas within it included: what the ceiling is compared with. */
size_t arena_used(const struct arena *arena);

#endif
