/* Items by key: those of key k are list[from[k]] .. list[from[k + 1] - 1], in the order in which they were given. */
#ifndef SOLVER_MODEL_INDEX_H
#define SOLVER_MODEL_INDEX_H

#include <stddef.h>
#include <stdint.h>

struct arena;

struct index_pair {
    int32_t key, item;
};

struct index {
    int32_t *from, *list;
};

struct index index_make(struct arena *arena, size_t keys, const struct index_pair *pairs, size_t count);

#endif
