#include "psplib.h"

#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "check.h"

enum { MOST_ACTIVITIES = 1000, MOST_RESOURCES = 16, HORIZON_MOST = 30000 };

struct reading {
    struct network *net;
    FILE *file;
    int activities, resources;
    int32_t times, horizon;
    int32_t *duration; /* per activity */
    int (*link)[3];    /* from, to, lag; NET_NEVER: the duration of `from` */
    int32_t (*amount)[MOST_RESOURCES];
    size_t links, room;
    struct arena *arena;
};

static bool number(struct reading *r, int *value)
{
    return fscanf(r->file, " %d", value) == 1;
}

static bool bracketed(struct reading *r, int *value)
{
    return fscanf(r->file, " [%d]", value) == 1;
}

static bool skip_to(struct reading *r, const char *word)
{
    char line[400];
    while (fgets(line, sizeof line, r->file))
        if (strstr(line, word))
            return true;
    return false;
}

static void add_link(struct reading *r, int from, int to, int lag)
{
    r->link = arena_grow(r->arena, r->link, r->links, &r->room, sizeof *r->link);
    r->link[r->links][0] = from;
    r->link[r->links][1] = to;
    r->link[r->links++][2] = lag;
}

static bool sized(struct reading *r)
{
    if (r->activities < 1 || r->activities > MOST_ACTIVITIES || r->resources < 0 ||
        r->resources > MOST_RESOURCES)
        return false;
    r->duration = ARENA_ARRAY(r->arena, (size_t)r->activities, int32_t);
    r->amount = arena_alloc(r->arena, (size_t)r->activities, sizeof *r->amount);
    return true;
}

/* One row "number modes successors..."; `base` is the number of the first activity. */
static bool read_successors(struct reading *r, int activity, int base, bool with_lags)
{
    int self, modes, count, to;
    size_t first = r->links;
    if (!number(r, &self) || !number(r, &modes) || !number(r, &count) || self != activity + base || count < 0)
        return false;
    for (int i = 0; i < count; i++) {
        if (!number(r, &to) || to < base || to >= base + r->activities)
            return false;
        add_link(r, activity, to - base, NET_NEVER);
    }
    for (int i = 0; with_lags && i < count; i++)
        if (!bracketed(r, &r->link[first + (size_t)i][2]))
            return false;
    return true;
}

static bool read_requests(struct reading *r, int activity, int base)
{
    int self, mode;
    if (!number(r, &self) || !number(r, &mode) || !number(r, &r->duration[activity]) ||
        self != activity + base)
        return false;
    for (int k = 0; k < r->resources; k++)
        if (!number(r, &r->amount[activity][k]))
            return false;
    return true;
}

static bool read_rows(struct reading *r, int base, bool with_lags)
{
    for (int i = 0; i < r->activities; i++)
        if (!read_successors(r, i, base, with_lags))
            return false;
    if (!with_lags && (!skip_to(r, "REQUESTS") || !skip_to(r, "---")))
        return false;
    for (int i = 0; i < r->activities; i++)
        if (!read_requests(r, i, base))
            return false;
    return with_lags || (skip_to(r, "RESOURCEAVAILABILITIES") && skip_to(r, "R"));
}

static bool read_head(struct reading *r, bool with_lags)
{
    if (!with_lags)
        return skip_to(r, "projects") &&
               fscanf(r->file, " jobs (incl. supersource/sink ): %d", &r->activities) == 1 &&
               skip_to(r, "RESOURCES") && fscanf(r->file, " - renewable : %d", &r->resources) == 1 &&
               skip_to(r, "PRECEDENCE") && skip_to(r, "jobnr") && sized(r);
    int inner, doubly, nonrenewable;
    if (!number(r, &inner) || !number(r, &r->resources) || !number(r, &nonrenewable) || !number(r, &doubly))
        return false;
    r->activities = inner + 2;
    return sized(r);
}

/* No left-shifted plan is longer than every duration or lag in a row. */
static int32_t horizon_of(const struct reading *r)
{
    int64_t sum = 0;
    for (int i = 0; i < r->activities; i++) {
        int32_t most = r->duration[i];
        for (size_t k = 0; k < r->links; k++)
            if (r->link[k][0] == i && r->link[k][2] != NET_NEVER && r->link[k][2] > most)
                most = r->link[k][2];
        sum += most;
    }
    return sum * r->times > HORIZON_MOST ? HORIZON_MOST : (int32_t)sum * r->times;
}

static void build(struct reading *r, const int *capacity)
{
    struct network *net = r->net;
    network_init(net, r->arena, horizon_of(r));
    for (int k = 0; k < r->resources; k++)
        net_add_resource(net, (struct net_resource){capacity[k], NET_NONE});
    for (int i = 0; i < r->activities; i++) {
        int32_t duration = r->duration[i] * r->times;
        net_add_operation(net, (struct net_operation){duration, NET_NONE, 0, net->horizon, NET_ALWAYS});
        for (int k = 0; k < r->resources; k++)
            if (r->amount[i][k] > 0)
                net_add_use(net, (struct net_use){i, k, r->amount[i][k], net_after(duration), 0, 0});
    }
    for (size_t k = 0; k < r->links; k++) {
        int from = r->link[k][0], lag = r->link[k][2] == NET_NEVER ? r->duration[from] : r->link[k][2];
        net_add_lag(net, (struct net_lag){.from = from,
                                          .to = r->link[k][1],
                                          .map = net_after(lag * r->times),
                                          .guard = NET_ALWAYS,
                                          .rule = (int)k});
    }
    net_add_goal(net, (struct net_goal){r->activities - 1, net_after(0), 0});
}

bool psplib_read(struct network *net, struct arena *arena, FILE *file, bool with_lags, int32_t times)
{
    struct reading r = {.net = net, .arena = arena, .file = file, .times = times};
    int capacity[MOST_RESOURCES];
    if (!read_head(&r, with_lags) || !read_rows(&r, with_lags ? 0 : 1, with_lags))
        return false;
    for (int k = 0; k < r.resources; k++)
        if (!number(&r, &capacity[k]))
            return false;
    build(&r, capacity);
    return true;
}

void psplib_renumber(const struct network *from, struct network *into, struct arena *arena, uint64_t *seed)
{
    size_t count = from->operation_count;
    int *new = ARENA_ARRAY(arena, count, int), *old = ARENA_ARRAY(arena, count, int);
    for (size_t i = 0; i < count; i++) {
        size_t at = (size_t)check_random_int(seed, 0, (int)i);
        old[i] = old[at];
        old[at] = (int)i;
    }
    network_init(into, arena, from->horizon);
    for (size_t i = 0; i < count; i++) {
        new[old[i]] = (int)i;
        net_add_operation(into, from->operations[old[i]]);
    }
    for (size_t r = from->resource_count; r-- > 0;)
        net_add_resource(into, from->resources[r]);
    for (size_t i = from->use_count; i-- > 0;) {
        struct net_use use = from->uses[i];
        use.operation = new[use.operation];
        use.resource = (int)from->resource_count - 1 - use.resource;
        net_add_use(into, use);
    }
    for (size_t i = from->lag_count; i-- > 0;) {
        struct net_lag lag = from->lags[i];
        lag.from = new[lag.from];
        lag.to = new[lag.to];
        net_add_lag(into, lag);
    }
    struct net_goal goal = from->goals[0];
    goal.operation = new[goal.operation];
    net_add_goal(into, goal);
}
