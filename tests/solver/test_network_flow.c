/* Who follows whom on each resource of a plan, worked by hand: units pass from those free for longest. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "solver/improve/flow.h"

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

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(flows, who_follows_whom));
}
