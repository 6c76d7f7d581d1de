#include "solver/engine/shelf.h"

#include <assert.h>
#include <string.h>

#include "base/arena.h"

enum { SMALLEST = 6 };

void shelf_init(struct shelf *shelf, struct arena *arena)
{
    *shelf = (struct shelf){.arena = arena};
}

static int size_class(size_t bytes)
{
    int class = SMALLEST;
    while (((size_t)1 << class) < bytes)
        class ++;
    assert(class < SHELF_SIZES);
    return class;
}

void *shelf_take(struct shelf *shelf, size_t *bytes)
{
    int class = size_class(*bytes);
    *bytes = (size_t)1 << class;
    void *storage = shelf->spare[class];
    if (!storage)
        return arena_alloc(shelf->arena, 1, *bytes);
    memcpy(&shelf->spare[class], storage, sizeof storage);
    return storage;
}

void shelf_put(struct shelf *shelf, void *storage, size_t bytes)
{
    if (!storage)
        return;
    int class = size_class(bytes);
    memcpy(storage, &shelf->spare[class], sizeof storage);
    shelf->spare[class] = storage;
}

void *shelf_grow(struct shelf *shelf, void *items, size_t count, size_t *capacity, size_t size)
{
    if (count < *capacity)
        return items;
    size_t bytes = (count + 1) * size;
    void *longer = shelf_take(shelf, &bytes);
    if (count)
        memcpy(longer, items, count * size);
    shelf_put(shelf, items, *capacity * size);
    *capacity = bytes / size;
    return longer;
}
