#include "solver/model/rules.h"

#include <stdlib.h>

#include "base/arena.h"

static int by_number(const void *left, const void *right)
{
    const int *a = left, *b = right;
    return *a < *b ? -1 : *a > *b;
}

int *net_rules(const struct network *net, struct arena *arena, size_t *count)
{
    int *rules = ARENA_ARRAY(arena, net->lag_count + net->apart_count + net->resource_count, int);
    size_t all = 0, kept = 0;
    for (size_t i = 0; i < net->lag_count; i++)
        rules[all++] = net->lags[i].rule;
    for (size_t i = 0; i < net->apart_count; i++)
        rules[all++] = net->aparts[i].rule;
    for (size_t i = 0; i < net->resource_count; i++)
        rules[all++] = net->resources[i].rule;
    qsort(rules, all, sizeof *rules, by_number);
    for (size_t i = 0; i < all; i++)
        if (rules[i] != NET_NONE && (kept == 0 || rules[kept - 1] != rules[i]))
            rules[kept++] = rules[i];
    *count = kept;
    return rules;
}
