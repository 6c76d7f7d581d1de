/* Who follows whom on each resource of a plan, worked by hand: units pass from those free for longest. And which
 * disjunctive pairs need an edge of their own beside that. */
#include "check.h"

#include <string.h>

#include "base/arena.h"
#include "base/buf.h"
#include "net_jobs.h"
#include "solver/improve/flow.h"
#include "solver/improve/pairs.h"
#include "solver/solve.h"

enum { OPERATIONS = 5, RESOURCES = 2, HORIZON = 40 };

/* An operation as it is placed; amount 0: there is none. */
struct use_row {
    int resource;
    int32_t amount, start, end;
    int holder;
};

struct flow_row {
    struct row row;
    int32_t capacity[RESOURCES];
    struct use_row uses[OPERATIONS];
    const char *want; /* "0>1": operation 1 follows 0; in the order of the starts */
};

static const struct flow_row flows[] = {
    {ROW("one after the other"), {1, 1}, {{0, 1, 0, 5, 0}, {0, 1, 5, 8, 0}}, "0>1 "},
    /* When 3 begins, at 10, what 1 had of the other resource has been free since 8. */
    {ROW("each resource by itself"),
     {1, 1},
     {{0, 1, 0, 5, 0}, {0, 1, 5, 8, 0}, {1, 1, 0, 10, 0}, {1, 1, 10, 15, 0}},
     "0>1 2>3 "},
    {ROW("of two the one that is free for longer"),
     {2, 1},
     {{0, 1, 0, 5, 0}, {0, 1, 0, 4, 0}, {0, 1, 6, 8, 0}},
     "1>2 "},
    {ROW("two serve one"), {2, 1}, {{0, 1, 0, 5, 0}, {0, 1, 0, 4, 0}, {0, 2, 6, 8, 0}}, "1>2 0>2 "},
    {ROW("one serves two"), {2, 1}, {{0, 2, 0, 5, 0}, {0, 1, 6, 8, 0}, {0, 1, 7, 9, 0}}, "0>1 0>2 "},
    {ROW("what was never used comes first"), {2, 1}, {{0, 1, 0, 5, 0}, {0, 1, 6, 8, 0}}, ""},
    /* 0 and 1 are of one thing, which lies there until 9: 1 comes no sooner than 0, and 2 follows both. */
    {ROW("one holder has its units once"),
     {1, 1},
     {{0, 1, 0, 6, 7}, {0, 1, 4, 9, 7}, {0, 1, 9, 12, 0}},
     "0>1 1>2 0>2 "},
};

static void who_follows_whom(void **state)
{
    const struct flow_row *r = *state;
    struct arena *arena = arena_make(0);
    struct network net;
    struct model model;
    struct schedule schedule;
    struct buf told;
    buf_init(&told, arena);
    network_init(&net, arena, HORIZON);
    for (int i = 0; i < RESOURCES; i++)
        net_add_resource(&net, (struct net_resource){r->capacity[i], NET_NONE});
    for (int i = 0; i < OPERATIONS && r->uses[i].amount > 0; i++) {
        const struct use_row *use = &r->uses[i];
        int32_t length = use->end - use->start;
        net_add_operation(&net, (struct net_operation){length, NET_NONE, 0, HORIZON, NET_ALWAYS});
        net_add_use(&net, (struct net_use){i, use->resource, use->amount, net_after(length), use->holder, 0});
    }
    model_init(&model, &net, arena, MODEL_MAXIMUM);
    schedule_init(&schedule, &net, arena, NULL);
    for (size_t i = 0; i < net.operation_count; i++)
        schedule_place(&schedule, (int)i, r->uses[i].start);
    flow_add(&model, &schedule, arena);
    for (size_t i = 0; i < model.edges.count; i++)
        buf_addf(&told, "%d>%d ", model.edges.items[i].from, model.edges.items[i].to);
    check_text(&r->row, told.text, r->want);
    arena_free(arena);
}

enum { PAIR_OPERATIONS = 4, PAIRS = 4, EDGES = 3 };

/* Until when one of two holds the other off, from its start; wait 0: there is no such pair, no such edge. */
struct wait {
    int from, to;
    int32_t wait;
};

struct pairs_row {
    struct row row;
    int32_t start[PAIR_OPERATIONS];
    struct wait lags[EDGES], pairs[PAIRS];
    int optional; /* the operation that need not be there; 0: all are */
    const char *want;
};

/* Operation 0 is a coat; nothing that it holds off begins before its time is over. */
static const struct pairs_row orders[] = {
    {ROW("the first of those that wait for each other speaks for all"),
     {0, 10, 20, 30},
     {{1, 2, 5}, {2, 3, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 8}},
     0,
     "0>1 "},
    {ROW("two that do not wait for each other"),
     {0, 10, 20, 30},
     {{1, 3, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 8}},
     0,
     "0>1 0>2 "},
    {ROW("what is given first is not what begins first"),
     {0, 30, 20, 10},
     {{3, 2, 5}, {2, 1, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 8}},
     0,
     "0>3 "},
    {ROW("the other way round, each by itself"),
     {30, 0, 10, 20},
     {{1, 2, 5}, {2, 3, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 8}},
     0,
     "1>0 2>0 3>0 "},
    {ROW("a longer time to be held off is not said by a shorter one"),
     {0, 10, 20, 30},
     {{1, 2, 5}, {2, 3, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 15}},
     0,
     "0>1 0>3 "},
    {ROW("one that may be absent speaks for none"),
     {0, 10, 20, 30},
     {{1, 2, 5}, {2, 3, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 8}},
     1,
     "0>1 0>2 "},
    {ROW("nor by way of one that may be absent"),
     {0, 10, 20, 30},
     {{1, 2, 5}, {2, 3, 5}},
     {{0, 1, 8}, {0, 2, 8}, {0, 3, 8}},
     2,
     "0>1 0>2 0>3 "},
    {ROW("at the same moment"),
     {0, 10, 10, 30},
     {{2, 3, 5}},
     {{0, 2, 8}, {0, 1, 8}, {0, 3, 8}},
     0,
     "0>1 0>2 "},
};

static void needs_an_edge(void **state)
{
    const struct pairs_row *r = *state;
    struct arena *arena = arena_make(0);
    struct network net;
    struct model model;
    struct buf told;
    buf_init(&told, arena);
    network_init(&net, arena, HORIZON);
    int flag = net_add_flag(&net);
    for (int i = 0; i < PAIR_OPERATIONS; i++)
        net_add_operation(&net, (struct net_operation){1, NET_NONE, 0, HORIZON,
                                                       i > 0 && i == r->optional ? (struct net_guard){flag, 0}
                                                                                 : NET_ALWAYS});
    for (int i = 0; i < EDGES && r->lags[i].wait > 0; i++)
        net_add_lag(&net, (struct net_lag){r->lags[i].from, r->lags[i].to, false, net_after(r->lags[i].wait),
                                           NET_ALWAYS, NET_NONE});
    for (int i = 0; i < PAIRS && r->pairs[i].wait > 0; i++)
        net_add_disjunction(&net,
                            (struct net_disjunction){r->pairs[i].from, r->pairs[i].to,
                                                     net_after(r->pairs[i].wait), net_after(1), NET_NONE});
    model_init(&model, &net, arena, MODEL_MAXIMUM);
    pairs_add_order(&model, net.disjunctions, net.disjunction_count, r->start, arena);
    for (size_t i = 0; i < model.edges.count; i++)
        if (model.edges.items[i].origin == EDGE_DISJUNCTION)
            buf_addf(&told, "%d>%d ", model.edges.items[i].from, model.edges.items[i].to);
    check_text(&r->row, told.text, r->want);
    arena_free(arena);
}

/* A first plan's order as edges of a model: every pair by itself, or those alone that do not follow from others. */
static size_t earliest(const struct network *net, const struct net_result *plan, bool every,
                       struct arena *arena, int32_t *low)
{
    struct model model;
    struct schedule schedule;
    struct trail trail;
    model_init(&model, net, arena, MODEL_MAXIMUM);
    schedule_fill(&schedule, net, arena, plan);
    flow_add_resources(&model, &schedule, arena);
    size_t before = model.edges.count;
    for (size_t i = 0; every && i < net->disjunction_count; i++)
        pairs_add_order(&model, &net->disjunctions[i], 1, plan->start, arena);
    if (!every)
        pairs_add_order(&model, net->disjunctions, net->disjunction_count, plan->start, arena);
    size_t added = model.edges.count - before;
    edges_index(&model.edges);
    check_true(HERE, model_start(&model, &trail, arena), "the plan itself keeps the order");
    for (int i = 0; i < model.value; i++)
        low[i] = trail_low(&trail, i);
    return added;
}

/* What is left out follows: every operation can start just as early under the edges that are left. */
static void says_the_same(void **state)
{
    (void)state;
    int dusty = 0;
    for (uint64_t seed = 1; seed <= 40; seed++) {
        struct arena *arena = arena_make(0);
        struct network net;
        struct net_result plan;
        net_jobs_make(&net, arena, 60, seed);
        net_solve(&net, (struct net_options){1}, &plan);
        int32_t *all = ARENA_ARRAY(arena, net.operation_count, int32_t);
        int32_t *few = ARENA_ARRAY(arena, net.operation_count, int32_t);
        size_t every = earliest(&net, &plan, true, arena, all);
        size_t kept = earliest(&net, &plan, false, arena, few);
        check_int(HERE, (intmax_t)every, (intmax_t)net.disjunction_count);
        check_true(HERE, memcmp(all, few, net.operation_count * sizeof *all) == 0, "the same first starts");
        dusty += every > 0;
        check_true(HERE, every == 0 || kept < every / 4, "most follow from others");
        arena_free(arena);
    }
    check_true(HERE, dusty > 10, "some have dust and wet coats in one room");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(flows, who_follows_whom), CHECK_ROWS(orders, needs_an_edge),
                     CHECK_TEST(says_the_same));
}
