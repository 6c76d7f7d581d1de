/* Memory of the JSON library. It lets a part of a text go where memory ends, and says nothing; so whoever it works for leaves there. */
#include "page/page.h"

#include "base/arena.h"

#include <jansson.h>
#include <stdlib.h>

/* The arena of what this thread is doing. */
static struct arena **arena_here(void)
{
    static _Thread_local struct arena *arena;
    return &arena;
}

static void *allocate(size_t size)
{
    void *at = malloc(size);
    if (!at && *arena_here())
        arena_run_out(*arena_here());
    return at;
}

void json_memory_begin(void)
{
    json_set_alloc_funcs(allocate, free);
}

void json_memory_for(struct arena *arena)
{
    *arena_here() = arena;
}
