#include "network/solve.h"

#include <string.h>

#include "base/arena.h"
#include "network/insert.h"
#include "network/shift.h"

enum { SCRATCH_BYTES = 1 << 29, ATTEMPTS = 40 };

struct solving {
    const struct network *net;
    struct arena *arena;
    struct net_result *result;
    uint64_t seed;
};

/* Splitmix64: the same numbers everywhere. */
static uint32_t draw(struct solving *s, uint32_t below)
{
    uint64_t z = s->seed += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (uint32_t)((z ^ (z >> 31)) % below);
}

static void keep_plan(struct solving *s, const int32_t *start, const unsigned char *flag)
{
    struct net_result *result = s->result;
    int32_t value = net_value(s->net, start, flag);
    if (result->status == NET_PLANNED && value >= result->value)
        return;
    if (!result->start) {
        result->start = ARENA_ARRAY(s->net->arena, s->net->operation_count, int32_t);
        result->flag = ARENA_ARRAY(s->net->arena, (size_t)s->net->flag_count, unsigned char);
    }
    memcpy(result->start, start, s->net->operation_count * sizeof *start);
    memcpy(result->flag, flag, (size_t)s->net->flag_count);
    result->value = value;
    result->status = NET_PLANNED;
}

/* Every attempt after the first shuffles the keys by up to a share of their spread, and puts first what could not
 * be placed in the attempt before. */
static void shuffle(struct solving *s, struct insertion *in, int attempt, bool failed)
{
    size_t count = s->net->operation_count;
    int32_t low = INT32_MAX, high = 0;
    for (size_t i = 0; i < count; i++) {
        low = in->key[i] < low ? in->key[i] : low;
        high = in->key[i] > high ? in->key[i] : high;
    }
    uint32_t spread = count ? (uint32_t)(high - low) / 8 * (uint32_t)(1 + attempt % 4) + 2 : 1;
    for (size_t i = 0; i < count; i++)
        in->shift[i] = (int32_t)draw(s, spread);
    if (failed)
        in->key[in->stuck] -= (int32_t)spread / 2 + 1;
}

static void insert_plans(struct solving *s, struct insertion *in, int attempts)
{
    size_t patience = 4 * s->net->operation_count + 20;
    for (int attempt = 0; attempt < attempts; attempt++) {
        bool planned = insertion_run(in, patience);
        if (planned)
            keep_plan(s, in->usage.start, in->flag);
        if (s->result->status == NET_PLANNED && (s->result->value == s->result->bound))
            return;
        shuffle(s, in, attempt, !planned);
    }
}

void net_solve(const struct network *net, struct net_options options, struct net_result *result)
{
    *result = (struct net_result){.status = NET_UNKNOWN};
    struct solving s = {.net = net, .result = result};
    s.arena = arena_make_within(net->arena, SCRATCH_BYTES);
    struct model model;
    struct insertion in;
    model_init(&model, net, s.arena, MODEL_MAXIMUM);
    edges_index(&model.edges);
    if (insertion_init(&in, &model, s.arena)) {
        result->bound = trail_low(&in.trail, model.value);
        insert_plans(&s, &in, options.effort == 1 ? 1 : ATTEMPTS);
        result->effort = in.trail.work + in.usage.work;
    } else {
        result->status = NET_IMPOSSIBLE;
    }
    arena_free_within(net->arena, s.arena);
    net_left_shift(net, result);
    result->proven = result->status == NET_PLANNED && result->value == result->bound;
}
