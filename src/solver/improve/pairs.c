#include "solver/improve/pairs.h"

#include <string.h>

#include "base/arena.h"

enum { WORD_BITS = 64 };

/* A set of operations: one bit each. */
struct sets {
    uint64_t *bits; /* per operation a row of words */
    size_t words;
};

static uint64_t *set_of(const struct sets *sets, int operation)
{
    return &sets->bits[(size_t)operation * sets->words];
}

static void set_add(uint64_t *set, int operation)
{
    set[operation / WORD_BITS] |= UINT64_C(1) << operation % WORD_BITS;
}

static bool set_has(const uint64_t *set, int operation)
{
    return set[operation / WORD_BITS] >> operation % WORD_BITS & 1;
}

static void set_join(uint64_t *set, const uint64_t *other, size_t words)
{
    for (size_t w = 0; w < words; w++)
        set[w] |= other[w];
}

/* An edge between operations that holds whatever is decided, by which `to` starts no sooner than `from`. */
static bool keeps_behind(const struct model *model, const struct edge *edge)
{
    return !edge->maximum && edge->guard_count == 0 && !edge->map.table &&
           edge->map.offset + edge->shift >= 0 && edge->from < model->value && edge->to < model->value;
}

/* Per operation those that are sure not to start before it, and it itself. From the last to start back: an edge
 * leads to one that starts later, or at the same moment and is then left out if it was not gathered yet. */
static struct sets find_later(const struct model *model, const int *order, struct arena *arena)
{
    size_t operations = (size_t)model->value, edge_count = model->edges.count, count = 0;
    struct sets later = {.words = (operations + WORD_BITS - 1) / WORD_BITS};
    struct net_index_pair *leading = ARENA_ARRAY(arena, edge_count, struct net_index_pair);
    for (size_t e = 0; e < edge_count; e++)
        if (keeps_behind(model, &model->edges.items[e]))
            leading[count++] = (struct net_index_pair){model->edges.items[e].from, (int32_t)e};
    struct net_index from = net_index_make(arena, operations, leading, count);
    later.bits = ARENA_ARRAY(arena, operations * later.words, uint64_t);
    for (size_t i = operations; i-- > 0;) {
        int operation = order[i];
        set_add(set_of(&later, operation), operation);
        for (int32_t k = from.from[operation]; k < from.from[operation + 1]; k++)
            set_join(set_of(&later, operation), set_of(&later, model->edges.items[from.list[k]].to),
                     later.words);
    }
    return later;
}

/* The edges by the operation that they lead from, then by the start of the one that they lead to. */
static struct net_index index_edges(const struct edge *edges, size_t count, const int *order,
                                    size_t operations, struct arena *arena)
{
    struct net_index_pair *pairs = ARENA_ARRAY(arena, count, struct net_index_pair);
    size_t sorted = 0;
    for (size_t i = 0; i < count; i++)
        pairs[i] = (struct net_index_pair){edges[i].to, (int32_t)i};
    struct net_index to = net_index_make(arena, operations, pairs, count);
    for (size_t i = 0; i < operations; i++)
        for (int32_t k = to.from[order[i]]; k < to.from[order[i] + 1]; k++)
            pairs[sorted++] = (struct net_index_pair){edges[to.list[k]].from, to.list[k]};
    return net_index_make(arena, operations, pairs, count);
}

static bool same_source(const struct edge *a, const struct edge *b)
{
    return a->from == b->from && a->map.table == b->map.table && a->map.offset == b->map.offset;
}

void pairs_add_order(struct model *model, const struct net_disjunction *pairs, size_t count,
                     const int32_t *start, struct arena *arena)
{
    if (count == 0)
        return;
    const struct network *net = model->net;
    struct edge *edges = ARENA_ARRAY(arena, count, struct edge);
    int *order = ARENA_ARRAY(arena, net->operation_count, int);
    for (size_t i = 0; i < count; i++)
        edges[i] = model_pair_edge(&pairs[i], !net_first_of_pair(net, &pairs[i], start));
    net_by_start(start, net->operation_count, order);
    struct sets later = find_later(model, order, arena);
    struct net_index from = index_edges(edges, count, order, net->operation_count, arena);
    uint64_t *follow = ARENA_ARRAY(arena, later.words, uint64_t); /* those that need no edge any more */
    for (size_t i = 0; i < count; i++) {
        const struct edge *edge = &edges[from.list[i]];
        if (i == 0 || !same_source(edge, &edges[from.list[i - 1]]))
            memset(follow, 0, later.words * sizeof *follow);
        if (set_has(follow, edge->to))
            continue;
        model_add_edge(model, *edge);
        if (net_certain(net, edge->from) && net_certain(net, edge->to))
            set_join(follow, set_of(&later, edge->to), later.words);
    }
}
