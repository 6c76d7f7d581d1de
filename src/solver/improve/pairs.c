#include "solver/improve/pairs.h"

#include <stdlib.h>
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

struct placed {
    int32_t start;
    int operation;
};

static int by_start(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    if (a->start != b->start)
        return a->start < b->start ? -1 : 1;
    return a->operation < b->operation ? -1 : a->operation > b->operation;
}

/* An edge between operations that holds whatever is decided, by which `to` starts no sooner than `from`. */
static bool keeps_behind(const struct model *model, const struct edge *edge)
{
    return !edge->maximum && edge->guard_count == 0 && !edge->map.table &&
           edge->map.offset + edge->shift >= 0 && edge->from < model->value && edge->to < model->value;
}

/* Per operation those that are sure not to start before it, and it itself. From the last to start back: an edge
 * leads to one that starts later, or at the same moment and is then left out if it was not gathered yet. */
static struct sets find_later(const struct model *model, const int32_t *start, struct arena *arena)
{
    size_t operations = (size_t)model->value, edge_count = model->edges.count, count = 0;
    struct sets later = {.words = (operations + WORD_BITS - 1) / WORD_BITS};
    struct placed *order = ARENA_ARRAY(arena, operations, struct placed);
    struct net_index_pair *leading = ARENA_ARRAY(arena, edge_count, struct net_index_pair);
    for (size_t e = 0; e < edge_count; e++)
        if (keeps_behind(model, &model->edges.items[e]))
            leading[count++] = (struct net_index_pair){model->edges.items[e].from, (int32_t)e};
    struct net_index from = net_index_make(arena, operations, leading, count);
    later.bits = ARENA_ARRAY(arena, operations * later.words, uint64_t);
    for (size_t i = 0; i < operations; i++)
        order[i] = (struct placed){start[i], (int)i};
    qsort(order, operations, sizeof *order, by_start);
    for (size_t i = operations; i-- > 0;) {
        int operation = order[i].operation;
        set_add(set_of(&later, operation), operation);
        for (int32_t k = from.from[operation]; k < from.from[operation + 1]; k++)
            set_join(set_of(&later, operation), set_of(&later, model->edges.items[from.list[k]].to),
                     later.words);
    }
    return later;
}

/* A pair in the order of the plan: `second` starts at or after until(start of `first`). */
struct ordered {
    int first, second;
    int32_t second_start;
    struct net_map until;
};

static int by_first(const void *left, const void *right)
{
    const struct ordered *a = left, *b = right;
    if (a->first != b->first)
        return a->first < b->first ? -1 : 1;
    return by_start(&(struct placed){a->second_start, a->second},
                    &(struct placed){b->second_start, b->second});
}

static struct ordered *order_pairs(const struct network *net, const struct net_disjunction *pairs,
                                   size_t count, const int32_t *start, struct arena *arena)
{
    struct ordered *ordered = ARENA_ARRAY(arena, count, struct ordered);
    for (size_t i = 0; i < count; i++) {
        const struct net_disjunction *pair = &pairs[i];
        bool a_first = net_first_of_pair(net, pair, start);
        int second = a_first ? pair->b : pair->a;
        ordered[i] = (struct ordered){a_first ? pair->a : pair->b, second, start[second],
                                      a_first ? pair->until_a : pair->until_b};
    }
    qsort(ordered, count, sizeof *ordered, by_first);
    return ordered;
}

static bool same_map(struct net_map a, struct net_map b)
{
    return a.table == b.table && a.offset == b.offset;
}

void pairs_add_order(struct model *model, const struct net_disjunction *pairs, size_t count,
                     const int32_t *start, struct arena *arena)
{
    if (count == 0)
        return;
    const struct network *net = model->net;
    struct sets later = find_later(model, start, arena);
    const struct ordered *ordered = order_pairs(net, pairs, count, start, arena);
    uint64_t *follow = ARENA_ARRAY(arena, later.words, uint64_t); /* those that need no edge any more */
    for (size_t i = 0; i < count; i++) {
        const struct ordered *o = &ordered[i];
        if (i == 0 || o->first != ordered[i - 1].first || !same_map(o->until, ordered[i - 1].until))
            memset(follow, 0, later.words * sizeof *follow);
        if (set_has(follow, o->second))
            continue;
        model_add_edge(
            model,
            (struct edge){.from = o->first, .to = o->second, .map = o->until, .origin = EDGE_DISJUNCTION});
        if (net_certain(net, o->first) && net_certain(net, o->second))
            set_join(follow, set_of(&later, o->second), later.words);
    }
}
