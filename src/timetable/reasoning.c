#include "timetable/reasoning.h"

#include "base/arena.h"

void reasoning_add(struct reasoning *reasoning, struct reason reason)
{
    reasoning->items = arena_grow(reasoning->problem->arena, reasoning->items, reasoning->count,
                                  &reasoning->room, sizeof *reasoning->items);
    reasoning->items[reasoning->count++] = reason;
}

void reasoning_keep(struct reasoning *reasoning)
{
    reasoning->timetable->why = reasoning->items;
    reasoning->timetable->why_count = reasoning->count;
}

const struct operation *reasoning_operation(const struct reasoning *reasoning, int index)
{
    return &reasoning->problem->operations->items[index];
}

int64_t reasoning_moment(const struct reasoning *reasoning, int32_t slot)
{
    return slot >= NET_NEVER ? INT64_MAX : hours_moment(reasoning->problem->hours, slot);
}

static const struct net_lag *lag_of(const struct reasoning *reasoning, const struct net_link *link)
{
    return &reasoning->problem->net.lags[link->index];
}

/* The wait behind a lag of the network. */
static const struct link *link_of(const struct reasoning *reasoning, const struct net_link *link)
{
    const struct rule *rule = &reasoning->problem->rules[lag_of(reasoning, link)->rule];
    return &reasoning->problem->operations->links[rule->index];
}

static enum rule_kind resource_kind(const struct reasoning *reasoning, const struct net_link *link)
{
    return reasoning->problem->rules[reasoning->problem->net.resources[link->index].rule].kind;
}

static struct net_map use_until(const struct network *net, const struct net_link *link)
{
    for (size_t i = 0; i < net->use_count; i++)
        if (net->uses[i].operation == link->earlier && net->uses[i].resource == link->index)
            return net->uses[i].until;
    return net_after(0);
}

/* The slot in which what a link waits for is over; -1 where it is not the earlier one's to say. */
static int32_t over_at(const struct reasoning *reasoning, const struct net_link *link)
{
    const struct network *net = &reasoning->problem->net;
    if (link->kind == NET_LINK_RELEASE)
        return net->operations[link->operation].earliest;
    if (link->earlier < 0)
        return -1;
    int32_t start = reasoning->result->start[link->earlier];
    if (link->kind == NET_LINK_LAG)
        return lag_of(reasoning, link)->maximum ? -1 : net_map_at(net, lag_of(reasoning, link)->map, start);
    if (link->kind == NET_LINK_RESOURCE)
        return net_map_at(net, use_until(net, link), start);
    const struct net_disjunction *apart = &net->disjunctions[link->index];
    return net_map_at(net, apart->a == link->earlier ? apart->until_a : apart->until_b, start);
}

static enum wait_kind release_kind(const struct operation *operation)
{
    const struct job *job = operation->job;
    bool piece_comes = operation->piece >= 0 && job->pieces[operation->piece].ready_min > job->start_min;
    return piece_comes ? WAIT_PIECE : WAIT_JOB;
}

static enum wait_kind resource_wait(enum rule_kind kind)
{
    return kind == RULE_SPRAY   ? WAIT_SPRAY
           : kind == RULE_RACK  ? WAIT_RACK
           : kind == RULE_PIECE ? WAIT_ITS_TURN
                                : WAIT_PERSON;
}

/* What one link waited for; the calendar is told apart. */
static struct cause cause_of(const struct reasoning *reasoning, const struct net_link *link)
{
    struct cause cause = {.until_min = reasoning_moment(reasoning, over_at(reasoning, link))};
    if (link->earlier >= 0)
        cause.earlier = reasoning_operation(reasoning, link->earlier);
    if (link->kind == NET_LINK_RELEASE)
        cause.wait = release_kind(reasoning_operation(reasoning, link->operation));
    else if (link->kind == NET_LINK_DISJUNCTION)
        cause.wait = WAIT_DUST;
    else if (link->kind == NET_LINK_RESOURCE)
        cause.wait = resource_wait(resource_kind(reasoning, link));
    else if (link->kind == NET_LINK_LAG) {
        cause.wait = lag_of(reasoning, link)->maximum ? WAIT_WINDOW : WAIT_LINK;
        cause.link = link_of(reasoning, link);
    }
    return cause;
}

/* Why a step that could start at `from` otherwise has to wait for its start all the same. */
static void add_closed(const struct reasoning *reasoning, int operation, int32_t from, struct cause *cause)
{
    const struct hours *hours = reasoning->problem->hours;
    const struct open_stretch *stretch = from < 0 ? NULL : hours_at(hours, from);
    int32_t length = reasoning->problem->net.operations[operation].duration;
    if (!stretch || (from < stretch->from && stretch->from != reasoning->result->start[operation])) {
        cause->closed = CLOSED_EITHER;
    } else if (from < stretch->from) {
        cause->closed = CLOSED_SHOP;
    } else if (from + length > stretch->to) {
        cause->closed = CLOSED_SOON;
        cause->closes_min = hours_moment(hours, stretch->to);
    } else {
        cause->closed = CLOSED_AIR;
    }
}

struct cause reasoning_cause(const struct reasoning *reasoning, const struct net_link *links, size_t count)
{
    const struct net_link *last = &links[count - 1];
    struct cause cause = cause_of(reasoning, last);
    if (last->kind == NET_LINK_CALENDAR)
        add_closed(reasoning, last->operation, -1, &cause);
    else if (count > 1)
        add_closed(reasoning, last->operation, over_at(reasoning, last), &cause);
    return cause;
}

bool reasoning_follows(const struct reasoning *reasoning, const struct net_link *links, size_t count)
{
    const struct net_link *last = &links[count - 1];
    if (last->kind == NET_LINK_RESOURCE)
        return resource_kind(reasoning, last) == RULE_PEOPLE || resource_kind(reasoning, last) == RULE_PIECE;
    if (last->kind != NET_LINK_LAG || lag_of(reasoning, last)->maximum)
        return false;
    return link_of(reasoning, last)->kind == LINK_END && link_of(reasoning, last)->span_min == 0;
}
