/* What one step waited for. */
#include "timetable/telling.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"

#include <string.h>

static const struct net_lag *lag_of(const struct telling *telling, const struct net_link *link)
{
    return &telling->problem->net.lags[link->index];
}

/* The wait behind a lag of the network. */
static const struct link *link_of(const struct telling *telling, const struct net_link *link)
{
    const struct rule *rule = &telling->problem->rules[lag_of(telling, link)->rule];
    return &telling->problem->operations->links[rule->index];
}

static enum rule_kind resource_kind(const struct telling *telling, const struct net_link *link)
{
    return telling->problem->rules[telling->problem->net.resources[link->index].rule].kind;
}

static struct net_map use_until(const struct network *net, const struct net_link *link)
{
    for (size_t i = 0; i < net->use_count; i++)
        if (net->uses[i].operation == link->earlier && net->uses[i].resource == link->index)
            return net->uses[i].until;
    return net_after(0);
}

/* The slot in which what a link waits for is over; -1 where it is not the earlier one's to say. */
static int32_t over_at(const struct telling *telling, const struct net_link *link)
{
    const struct network *net = &telling->problem->net;
    if (link->kind == NET_LINK_RELEASE)
        return net->operations[link->operation].earliest;
    if (link->earlier < 0)
        return -1;
    int32_t start = telling->result->start[link->earlier];
    if (link->kind == NET_LINK_LAG)
        return lag_of(telling, link)->maximum ? -1 : net_map_at(net, lag_of(telling, link)->map, start);
    if (link->kind == NET_LINK_RESOURCE)
        return net_map_at(net, use_until(net, link), start);
    const struct net_disjunction *apart = &net->disjunctions[link->index];
    return net_map_at(net, apart->a == link->earlier ? apart->until_a : apart->until_b, start);
}

static const char *lag_words(const struct telling *telling, const struct net_link *link)
{
    struct arena *arena = telling->problem->arena;
    const struct link *lag = link_of(telling, link);
    const char *earlier = telling_name(telling, telling_operation(telling, link->earlier));
    if (lag_of(telling, link)->maximum)
        return arena_textf(arena, "%s, which follows, must come within its window", earlier);
    int32_t until = over_at(telling, link);
    const char *moment = until >= NET_NEVER ? "never" : telling_when(telling, until);
    if (lag->kind == LINK_STATE)
        return arena_textf(arena, "%s is not %s until %s", earlier, lag->what, moment);
    if (lag->kind == LINK_DAY)
        return arena_textf(arena, "the finish takes no more coats that day (%s)", earlier);
    if (lag->span_min > 0)
        return arena_textf(arena, "%s after %s until %s",
                           strcmp(lag->what, "dust settled") == 0 ? "dust settles" : "the schedule waits",
                           earlier, moment);
    return arena_textf(arena, "%s lasts until %s", earlier, moment);
}

/* The moment is told where the step stands later than that. */
static const char *release_words(const struct telling *telling, const struct net_link *link)
{
    struct arena *arena = telling->problem->arena;
    const struct operation *operation = telling_operation(telling, link->operation);
    const struct job *job = operation->job;
    int32_t from = over_at(telling, link);
    bool waits = from < telling->result->start[link->operation];
    if (operation->piece >= 0 && job->pieces[operation->piece].ready_min > job->start_min) {
        const char *piece = job->pieces[operation->piece].name;
        return waits ? arena_textf(arena, "%s is there on %s", piece, telling_when(telling, from))
                     : arena_textf(arena, "%s is not there earlier", piece);
    }
    return waits ? arena_textf(arena, "the job begins on %s", telling_when(telling, from))
                 : "the job begins then";
}

static const char *words_of(const struct telling *telling, const struct net_link *link)
{
    struct arena *arena = telling->problem->arena;
    if (link->kind == NET_LINK_RELEASE)
        return release_words(telling, link);
    if (link->kind == NET_LINK_LAG)
        return lag_words(telling, link);
    const char *earlier = telling_name(telling, telling_operation(telling, link->earlier));
    if (link->kind == NET_LINK_DISJUNCTION)
        return arena_textf(arena, "%s shares the room: dust and wet films stay apart", earlier);
    switch (resource_kind(telling, link)) {
    case RULE_SPRAY:
        return arena_textf(arena, "%s holds the spray place", earlier);
    case RULE_RACK:
        return arena_textf(arena, "%s holds the rack", earlier);
    case RULE_PIECE:
        return arena_textf(arena, "%s comes first: one person at a time works on a piece", earlier);
    default:
        return arena_textf(arena, "%s comes first: no hand is free", earlier);
    }
}

/* Why a step that could start at `from` otherwise has to wait for its start all the same. */
static const char *closed_words(const struct telling *telling, int operation, int32_t from)
{
    struct arena *arena = telling->problem->arena;
    const struct hours *hours = telling->problem->hours;
    const struct open_stretch *stretch = from < 0 ? NULL : hours_at(hours, from);
    int32_t length = telling->problem->net.operations[operation].duration;
    if (!stretch || (from < stretch->from && stretch->from != telling->result->start[operation]))
        return "neither the hours nor the air allow it earlier";
    if (from < stretch->from)
        return "the shop is closed until then";
    if (from + length > stretch->to)
        return arena_textf(arena, "its %s do not fit in before the shop closes at %s",
                           span_format(telling_operation(telling, operation)->minutes).text,
                           moment_format(hours->zone, hours_moment(hours, stretch->to), MOMENT_TIME).text);
    return "the air does not suit it earlier";
}

const char *telling_wait(struct telling *telling, const struct net_link *links, size_t count)
{
    const struct net_link *last = &links[count - 1];
    if (last->kind == NET_LINK_CALENDAR)
        return closed_words(telling, last->operation, -1);
    if (count == 1)
        return words_of(telling, last);
    return arena_textf(telling->problem->arena, "%s, and %s", words_of(telling, last),
                       closed_words(telling, last->operation, over_at(telling, last)));
}

bool telling_follows(const struct telling *telling, const struct net_link *links, size_t count)
{
    const struct net_link *last = &links[count - 1];
    if (last->kind == NET_LINK_RESOURCE)
        return resource_kind(telling, last) == RULE_PEOPLE || resource_kind(telling, last) == RULE_PIECE;
    if (last->kind != NET_LINK_LAG || lag_of(telling, last)->maximum)
        return false;
    return link_of(telling, last)->kind == LINK_END && link_of(telling, last)->span_min == 0;
}
