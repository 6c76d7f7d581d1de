#include "solver/model/index.h"

#include "base/arena.h"

struct index index_make(struct arena *arena, size_t keys, const struct index_pair *pairs, size_t count)
{
    struct index index = {ARENA_ARRAY(arena, keys + 1, int32_t), ARENA_ARRAY(arena, count, int32_t)};
    for (size_t i = 0; i < count; i++)
        index.from[pairs[i].key]++;
    for (size_t k = 0; k < keys; k++)
        index.from[k + 1] += index.from[k];
    for (size_t i = count; i-- > 0;)
        index.list[--index.from[pairs[i].key]] = pairs[i].item;
    return index;
}
