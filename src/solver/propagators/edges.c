#include "solver/propagators/edges.h"

#include <assert.h>

#include "base/arena.h"

void edges_init(struct edges *edges, const struct network *net, struct arena *arena, size_t variables)
{
    *edges = (struct edges){.net = net, .arena = arena, .variables = variables};
    edges->calendars = ARENA_ARRAY(arena, variables, const struct net_calendar *);
    for (size_t i = 0; i < net->operation_count; i++)
        if (net->operations[i].calendar != NET_NONE)
            edges->calendars[i] = &net->calendars[net->operations[i].calendar];
}

static bool guards_contradict(const struct edge *edge)
{
    for (int i = 0; i < edge->guard_count; i++)
        for (int k = 0; k < i; k++)
            if (edge->guards[i].bound == (edge->guards[k].bound ^ 1))
                return true;
    return false;
}

void edges_add(struct edges *edges, struct edge edge)
{
    if (guards_contradict(&edge))
        return;
    edges->items =
        arena_grow(edges->arena, edges->items, edges->count, &edges->capacity, sizeof *edges->items);
    edges->items[edges->count++] = edge;
}

static void make_arcs(struct edges *edges, size_t e)
{
    const struct edge *edge = &edges->items[e];
    int side = edge->maximum;
    bool table = edge->map.table;
    int32_t step = edge->map.offset + edge->shift, weight = edge->maximum ? -step : step;
    edges->arcs[2 * e] = (struct arc){2 * edge->from + side, 2 * edge->to + side, weight, table};
    edges->arcs[2 * e + 1] =
        (struct arc){2 * edge->to + (side ^ 1), 2 * edge->from + (side ^ 1), weight, table};
}

static void index_arcs(struct edges *edges)
{
    struct net_index_pair *pairs = ARENA_ARRAY(edges->arena, 2 * edges->count, struct net_index_pair);
    for (size_t a = 0; a < 2 * edges->count; a++)
        pairs[a] = (struct net_index_pair){edges->arcs[a].source, (int32_t)a};
    edges->by_source = net_index_make(edges->arena, 2 * edges->variables, pairs, 2 * edges->count);
}

static void index_guards(struct edges *edges)
{
    struct net_index_pair *pairs =
        ARENA_ARRAY(edges->arena, EDGE_GUARDS * edges->count, struct net_index_pair);
    size_t count = 0;
    for (size_t e = 0; e < edges->count; e++)
        for (int g = 0; g < edges->items[e].guard_count; g++)
            pairs[count++] = (struct net_index_pair){edges->items[e].guards[g].bound, (int32_t)e};
    edges->by_guard = net_index_make(edges->arena, 2 * edges->variables, pairs, count);
}

void edges_index(struct edges *edges)
{
    edges->arcs = ARENA_ARRAY(edges->arena, 2 * edges->count, struct arc);
    for (size_t e = 0; e < edges->count; e++)
        make_arcs(edges, e);
    index_arcs(edges);
    index_guards(edges);
}

static int32_t plus(int32_t a, int32_t b)
{
    int64_t sum = (int64_t)a + b;
    return sum > NET_NEVER ? NET_NEVER : sum < -NET_NEVER ? -NET_NEVER : (int32_t)sum;
}

/* map(t) + shift over all integers: before 0 as at 0, beyond the horizon never. */
static int32_t image(const struct edges *edges, const struct edge *edge, int32_t t)
{
    return plus(net_map_at(edges->net, edge->map, t < 0 ? 0 : t), edge->shift);
}

static int32_t last_below(const struct edges *edges, const struct edge *edge, int32_t value)
{
    return net_map_last(edges->net, edge->map, plus(value, -edge->shift));
}

static int32_t first_above(const struct edges *edges, const struct edge *edge, int32_t value)
{
    return net_map_first(edges->net, edge->map, plus(value, -edge->shift));
}

/* What the target bound becomes when the source bound is `source`. */
static int32_t arc_value(const struct edges *edges, int32_t a, int32_t source)
{
    const struct arc *arc = &edges->arcs[a];
    const struct edge *edge = &edges->items[a / 2];
    if (!arc->table)
        return plus(source, arc->weight);
    if (!edge->maximum)
        return a % 2 == 0 ? image(edges, edge, source) : -last_below(edges, edge, -source);
    return a % 2 == 0 ? -image(edges, edge, -source) : first_above(edges, edge, source);
}

/* The least source bound for which the target bound becomes at least `value`. */
static int32_t arc_needs(const struct edges *edges, int32_t a, int32_t value)
{
    const struct arc *arc = &edges->arcs[a];
    const struct edge *edge = &edges->items[a / 2];
    if (!arc->table)
        return plus(value, -arc->weight);
    if (!edge->maximum)
        return a % 2 == 0 ? first_above(edges, edge, value) : 1 - image(edges, edge, 1 - value);
    return a % 2 == 0 ? -last_below(edges, edge, -value) : 1 + image(edges, edge, value - 1);
}

/* Index of the only guard that does not hold yet; -1: all hold; -2: one is false or two are open. */
static int open_guard(const struct edge *edge, const struct trail *trail)
{
    int open = -1;
    for (int g = 0; g < edge->guard_count; g++) {
        if (trail_holds(trail, edge->guards[g]))
            continue;
        if (open >= 0 || trail_fails(trail, edge->guards[g]))
            return -2;
        open = g;
    }
    return open;
}

static bool run_arc(const struct edges *edges, struct trail *trail, int32_t a)
{
    const struct arc *arc = &edges->arcs[a];
    const struct edge *edge = &edges->items[a / 2];
    trail->work++;
    struct literal literal = {arc->target, 0};
    if (!arc->table) {
        literal.value = plus(trail->now[arc->source], arc->weight);
        if (trail_holds(trail, literal))
            return true;
    }
    int open = edge->guard_count ? open_guard(edge, trail) : -1;
    if (open == -2)
        return true;
    if (arc->table)
        literal.value = arc_value(edges, a, trail->now[arc->source]);
    if (open == -1)
        return trail_set(trail, literal, (struct reason){REASON_ARC, a});
    if (trail_fails(trail, literal))
        return trail_set(trail, literal_not(edge->guards[open]), (struct reason){REASON_GUARD, a});
    return true;
}

static bool run_calendar(const struct edges *edges, struct trail *trail, int32_t bound)
{
    const struct net_calendar *calendar = edges->calendars[bound / 2];
    if (!calendar)
        return true;
    int32_t at = trail->now[bound];
    int32_t to = bound % 2 == 0 ? calendar->next[at] : -calendar->previous[-at];
    return to == at || trail_set(trail, (struct literal){bound, to}, (struct reason){REASON_CALENDAR, 0});
}

bool edges_wake(const struct edges *edges, struct trail *trail, int32_t bound)
{
    if (!run_calendar(edges, trail, bound))
        return false;
    const struct net_index *arcs = &edges->by_source, *guards = &edges->by_guard;
    for (int32_t i = arcs->from[bound]; i < arcs->from[bound + 1]; i++)
        if (!run_arc(edges, trail, arcs->list[i]))
            return false;
    for (int32_t i = guards->from[bound]; i < guards->from[bound + 1]; i++)
        for (int side = 0; side < 2; side++)
            if (!run_arc(edges, trail, 2 * guards->list[i] + side))
                return false;
    return true;
}

bool edges_start(const struct edges *edges, struct trail *trail)
{
    for (size_t b = 0; b < 2 * edges->variables; b++)
        if (!run_calendar(edges, trail, (int32_t)b))
            return false;
    for (size_t a = 0; a < 2 * edges->count; a++)
        if (!run_arc(edges, trail, (int32_t)a))
            return false;
    return true;
}

bool edges_run(const struct edges *edges, struct trail *trail, size_t head)
{
    while (head < trail->count) {
        const struct trail_entry *entry = &trail->entries[head++];
        bool newest = trail->now[entry->bound] == entry->now; /* else a later entry wakes the same arcs */
        if (newest && !edges_wake(edges, trail, entry->bound))
            return false;
    }
    return true;
}

static size_t add_guards(const struct edge *edge, struct literal but, struct literal *into)
{
    size_t count = 0;
    for (int g = 0; g < edge->guard_count; g++)
        if (edge->guards[g].bound != (but.bound ^ 1))
            into[count++] = edge->guards[g];
    return count;
}

static struct literal before_hole(const struct edges *edges, struct literal literal)
{
    const struct net_calendar *calendar = edges->calendars[literal.bound / 2];
    if (literal.bound % 2 == 0)
        return (struct literal){literal.bound, calendar->previous[literal.value - 1] + 1};
    return (struct literal){literal.bound, 1 - calendar->next[1 - literal.value]};
}

size_t edges_explain(const struct edges *edges, const struct trail *trail, struct literal literal,
                     struct reason reason, int32_t entry, struct literal *into)
{
    if (reason.kind == REASON_CALENDAR) {
        into[0] = before_hole(edges, literal);
        return 1;
    }
    const struct arc *arc = &edges->arcs[reason.index];
    const struct edge *edge = &edges->items[reason.index / 2];
    if (reason.kind == REASON_ARC) {
        size_t count = add_guards(edge, (struct literal){-1, 0}, into);
        into[count] = (struct literal){arc->source, arc_needs(edges, reason.index, literal.value)};
        return count + 1;
    }
    assert(reason.kind == REASON_GUARD);
    size_t count = add_guards(edge, literal, into);
    int32_t other = trail_value_before(trail, arc->target ^ 1, entry);
    into[count] = (struct literal){arc->target ^ 1, other};
    into[count + 1] = (struct literal){arc->source, arc_needs(edges, reason.index, 1 - other)};
    return count + 2;
}
