/* Growing arrays whose outgrown storage is used again: an arena gives nothing back before its end, and lists of
 * watches grow and shrink all the time. Storage comes in sizes of powers of two; what is put back waits by size. */
#ifndef SOLVER_ENGINE_SHELF_H
#define SOLVER_ENGINE_SHELF_H

#include <stddef.h>

struct arena;

enum { SHELF_SIZES = 48 };

struct shelf {
    struct arena *arena;
    void *spare[SHELF_SIZES]; /* each holds the address of the next of its size */
};

void shelf_init(struct shelf *shelf, struct arena *arena);

/* Storage of at least `bytes`; *bytes becomes what it really has. */
void *shelf_take(struct shelf *shelf, size_t *bytes);
/* `bytes` as shelf_take set it. Takes NULL. */
void shelf_put(struct shelf *shelf, void *storage, size_t bytes);

/* As arena_grow, but the old storage goes back to the shelf. */
void *shelf_grow(struct shelf *shelf, void *items, size_t count, size_t *capacity, size_t size);

#endif
