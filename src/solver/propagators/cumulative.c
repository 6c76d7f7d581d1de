#include "solver/propagators/cumulative.h"

#include <assert.h>

#include "base/arena.h"

static void add_tasks(struct profiles *profiles, int resource, struct arena *arena)
{
    const struct network *net = profiles->model->net;
    struct profile *profile = &profiles->items[resource];
    size_t most = 0;
    for (size_t i = 0; i < net->use_count; i++)
        most += net->uses[i].resource == resource;
    profile->tasks = ARENA_ARRAY(arena, most, struct task);
    profile->begin = ARENA_ARRAY(arena, most, int32_t);
    profile->end = ARENA_ARRAY(arena, most, int32_t);
    profile->by_begin = ARENA_ARRAY(arena, most, int32_t);
    profile->by_end = ARENA_ARRAY(arena, most, int32_t);
    profile->segments = ARENA_ARRAY(arena, 2 * most + 1, struct segment);
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *use = &net->uses[i];
        if (use->resource != resource || use->amount == 0)
            continue;
        size_t k = profile->count++;
        profile->by_begin[k] = profile->by_end[k] = (int32_t)k;
        profile->tasks[k] = (struct task){
            use->operation, use->amount,
            use->until,     model_guard(profiles->model, net->operations[use->operation].presence),
            use->holder,    use->holder > 0 ? use->exclusive : NET_NEVER};
        profile->holders = profile->holders || use->holder > 0;
    }
}

/* Which profiles to look at again when a variable's bounds rise. */
static void index_variables(struct profiles *profiles, struct arena *arena)
{
    size_t most = profiles->count, count = 0;
    for (size_t r = 0; r < profiles->count; r++)
        most += 2 * profiles->items[r].count;
    struct net_index_pair *pairs = ARENA_ARRAY(arena, most, struct net_index_pair);
    for (size_t r = 0; r < profiles->count; r++) {
        const struct profile *profile = &profiles->items[r];
        if (profile->selector.bound >= 0)
            pairs[count++] = (struct net_index_pair){profile->selector.bound / 2, (int32_t)r};
        for (size_t k = 0; k < profile->count; k++) {
            pairs[count++] = (struct net_index_pair){profile->tasks[k].operation, (int32_t)r};
            if (profile->tasks[k].presence.bound >= 0)
                pairs[count++] = (struct net_index_pair){profile->tasks[k].presence.bound / 2, (int32_t)r};
        }
    }
    profiles->by_variable = net_index_make(arena, profiles->model->variables, pairs, count);
}

void profiles_init(struct profiles *profiles, const struct model *model, struct arena *arena)
{
    const struct network *net = model->net;
    size_t most = 0;
    *profiles = (struct profiles){.model = model, .count = net->resource_count};
    profiles->items = ARENA_ARRAY(arena, net->resource_count, struct profile);
    for (size_t r = 0; r < net->resource_count; r++) {
        profiles->items[r] = (struct profile){.capacity = net->resources[r].capacity,
                                              .selector = model_rule(model, net->resources[r].rule),
                                              .dirty = true,
                                              .overload_dirty = true};
        add_tasks(profiles, (int)r, arena);
        most = profiles->items[r].count > most ? profiles->items[r].count : most;
    }
    profiles->explanation = ARENA_ARRAY(arena, 3 * most + 8, struct literal);
    index_variables(profiles, arena);
}

void profiles_notify(struct profiles *profiles, int32_t bound)
{
    const struct net_index *index = &profiles->by_variable;
    for (int32_t i = index->from[bound / 2]; i < index->from[bound / 2 + 1]; i++)
        profiles->items[index->list[i]].dirty = profiles->items[index->list[i]].overload_dirty = true;
}

/* Keeps an order sorted that was sorted before its keys changed a little. */
static void sort(int32_t *order, size_t count, const int32_t *key)
{
    for (size_t i = 1; i < count; i++) {
        int32_t task = order[i];
        size_t at = i;
        for (; at > 0 && key[order[at - 1]] > key[task]; at--)
            order[at] = order[at - 1];
        order[at] = task;
    }
}

/* Compulsory parts of one holder made disjoint: each loses what those that begin before it cover. From the last one
 * to begin back, so that the others are still whole. */
static void part_holders(struct profile *profile)
{
    for (size_t i = profile->count; i-- > 0;) {
        int32_t k = profile->by_begin[i];
        for (size_t j = 0; j < i && profile->tasks[k].holder > 0 && profile->begin[k] < NET_NEVER; j++) {
            int32_t before = profile->by_begin[j];
            if (!same_holder(&profile->tasks[k], &profile->tasks[before]) ||
                profile->end[before] <= profile->begin[k])
                continue;
            bool covered = profile->end[before] >= profile->end[k];
            profile->begin[k] = covered ? NET_NEVER : profile->end[before];
            profile->end[k] = covered ? NET_NEVER : profile->end[k];
        }
    }
    sort(profile->by_begin, profile->count, profile->begin);
}

/* The compulsory parts, and the segments of their sum. */
static void build(struct profiles *profiles, struct profile *profile, const struct trail *trail)
{
    for (size_t k = 0; k < profile->count; k++) {
        const struct task *task = &profile->tasks[k];
        int32_t begin = trail_high(trail, task->operation);
        int32_t end = profile_until(profiles, task, trail_low(trail, task->operation));
        int32_t most = profiles->model->net->horizon + 1;
        end = end > most ? most : end;
        bool sure = begin < end && surely_holds(trail, task->presence);
        profile->begin[k] = sure ? begin : NET_NEVER;
        profile->end[k] = sure ? end : NET_NEVER;
    }
    sort(profile->by_begin, profile->count, profile->begin);
    if (profile->holders)
        part_holders(profile);
    sort(profile->by_end, profile->count, profile->end);
    size_t b = 0, e = 0, count = 0;
    int32_t height = 0;
    while (e < profile->count && profile->begin[profile->by_end[e]] < NET_NEVER) {
        int32_t next_begin = b < profile->count ? profile->begin[profile->by_begin[b]] : NET_NEVER;
        int32_t t = profile->end[profile->by_end[e]];
        t = next_begin < t ? next_begin : t;
        for (; b < profile->count && t < NET_NEVER && profile->begin[profile->by_begin[b]] == t; b++)
            height += profile->tasks[profile->by_begin[b]].amount;
        for (; e < profile->count && profile->begin[profile->by_end[e]] < NET_NEVER &&
               profile->end[profile->by_end[e]] == t;
             e++)
            height -= profile->tasks[profile->by_end[e]].amount;
        profile->segments[count++] = (struct segment){t, height};
    }
    profile->segment_count = count;
}

static struct profile *next_dirty(struct profiles *profiles, struct trail *trail)
{
    for (size_t r = 0; r < profiles->count; r++) {
        struct profile *profile = &profiles->items[r];
        if (!profile->dirty)
            continue;
        profile->dirty = false;
        trail->work += (int64_t)profile->count / 2;
        build(profiles, profile, trail);
        return profile;
    }
    return NULL;
}

/* Task k is `own`, or counts as one with it. */
static bool is_own(const struct profile *profile, size_t k, size_t own)
{
    return k == own || (own != SIZE_MAX && same_holder(&profile->tasks[k], &profile->tasks[own]));
}

static bool holds_at(const struct profile *profile, size_t k, int32_t t)
{
    return profile->begin[k] <= t && t < profile->end[k];
}

/* Explains that more than `spare` is held at moment t by others than `but`: the literals of as few compulsory parts
 * as suffice; returns their count. */
static size_t holders(struct profiles *profiles, const struct profile *profile, size_t but, int32_t t,
                      int32_t spare)
{
    int32_t total = -spare;
    size_t count = 0;
    for (size_t k = 0; k < profile->count; k++)
        if (!is_own(profile, k, but) && holds_at(profile, k, t))
            total += profile->tasks[k].amount;
    assert(total > 0);
    for (size_t k = 0; k < profile->count; k++) {
        const struct task *task = &profile->tasks[k];
        if (is_own(profile, k, but) || !holds_at(profile, k, t))
            continue;
        if (total - task->amount > 0) {
            total -= task->amount;
            continue;
        }
        int32_t low = net_map_first(profiles->model->net, task->until, t + 1);
        profiles->explanation[count++] = at_least(task->operation, low);
        profiles->explanation[count++] = at_most(task->operation, t);
        if (task->presence.bound >= 0)
            profiles->explanation[count++] = task->presence;
    }
    if (profile->selector.bound >= 0)
        profiles->explanation[count++] = profile->selector;
    return count;
}

static bool conclude(struct profiles *profiles, struct trail *trail, struct literal literal, size_t count)
{
    trail->work += trail_holds(trail, literal) ? 0 : (int64_t)count;
    return trail_infer(trail, literal, profiles->explanation, count);
}

static bool check_capacity(struct profiles *profiles, struct profile *profile, struct trail *trail)
{
    for (size_t i = 0; i < profile->segment_count; i++) {
        if (profile->segments[i].height <= profile->capacity)
            continue;
        int32_t next =
            i + 1 < profile->segment_count ? profile->segments[i + 1].from : profile->segments[i].from + 1;
        int32_t t = profile->segments[i].from + (next - profile->segments[i].from) / 2;
        size_t count = holders(profiles, profile, SIZE_MAX, t, profile->capacity);
        struct literal last = profiles->explanation[count - 1];
        return conclude(profiles, trail, literal_not(last), count - 1);
    }
    return true;
}

static int32_t segment_end(const struct profile *profile, size_t i)
{
    return i + 1 < profile->segment_count ? profile->segments[i + 1].from : NET_NEVER;
}

/* The first segment that ends after t; the last one has no end. */
static size_t segment_after(const struct profile *profile, int32_t t)
{
    size_t low = 0, high = profile->segment_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (segment_end(profile, middle) > t)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* The height of segment i without task k. */
static int32_t height_without(const struct profile *profile, size_t i, size_t k)
{
    int32_t from = profile->segments[i].from;
    bool own = holds_at(profile, k, from);
    for (size_t j = 0; !own && profile->tasks[k].holder > 0 && j < profile->count; j++)
        own = is_own(profile, j, k) && holds_at(profile, j, from);
    return profile->segments[i].height - (own ? profile->tasks[k].amount : 0);
}

/* The task would run at moment t with any start in first(t).. to t: it must start later. */
static bool raise_start(struct profiles *profiles, struct profile *profile, struct trail *trail, size_t k)
{
    const struct task *task = &profile->tasks[k];
    int32_t spare = profile->capacity - task->amount;
    int32_t low = trail_low(trail, task->operation);
    int32_t end = profile_until(profiles, task, low);
    for (size_t i = segment_after(profile, low);
         low < end && i < profile->segment_count && profile->segments[i].from < end;) {
        int32_t to = segment_end(profile, i);
        if (to <= low || height_without(profile, i, k) <= spare) {
            i++;
            continue;
        }
        int32_t t = (to < end ? to : end) - 1;
        size_t count = holders(profiles, profile, k, t, spare);
        profiles->explanation[count++] =
            at_least(task->operation, net_map_first(profiles->model->net, task->until, t + 1));
        if (task->presence.bound >= 0)
            profiles->explanation[count++] = task->presence;
        if (!conclude(profiles, trail, at_least(task->operation, t + 1), count))
            return false;
        low = t + 1;
        end = profile_until(profiles, task, low);
    }
    return true;
}

static bool lower_start(struct profiles *profiles, struct profile *profile, struct trail *trail, size_t k)
{
    const struct task *task = &profile->tasks[k];
    int32_t spare = profile->capacity - task->amount;
    int32_t high = trail_high(trail, task->operation);
    int32_t end = profile_until(profiles, task, high);
    size_t i = segment_after(profile, end - 1) + 1;
    while (i > 0 && high < end && i <= profile->segment_count && segment_end(profile, i - 1) > high) {
        int32_t from = profile->segments[i - 1].from;
        if (from >= end || height_without(profile, i - 1, k) <= spare) {
            i--;
            continue;
        }
        int32_t t = from > high ? from : high;
        size_t count = holders(profiles, profile, k, t, spare);
        profiles->explanation[count++] = at_most(task->operation, t);
        if (task->presence.bound >= 0)
            profiles->explanation[count++] = task->presence;
        high = net_map_last(profiles->model->net, task->until, t);
        if (!conclude(profiles, trail, at_most(task->operation, high), count))
            return false;
        end = profile_until(profiles, task, high);
    }
    return true;
}

/* An operation whose presence is open: where it surely does not fit, it is absent. */
static bool rule_out(struct profiles *profiles, struct profile *profile, struct trail *trail, size_t k)
{
    const struct task *task = &profile->tasks[k];
    int32_t begin = trail_high(trail, task->operation);
    int32_t end = profile_until(profiles, task, trail_low(trail, task->operation));
    for (size_t i = segment_after(profile, begin);
         begin < end && i < profile->segment_count && profile->segments[i].from < end; i++) {
        if (height_without(profile, i, k) + task->amount <= profile->capacity)
            continue;
        int32_t t = profile->segments[i].from > begin ? profile->segments[i].from : begin;
        size_t count = holders(profiles, profile, k, t, profile->capacity - task->amount);
        profiles->explanation[count++] =
            at_least(task->operation, net_map_first(profiles->model->net, task->until, t + 1));
        profiles->explanation[count++] = at_most(task->operation, t);
        return conclude(profiles, trail, literal_not(task->presence), count);
    }
    return true;
}

static bool filter(struct profiles *profiles, struct profile *profile, struct trail *trail)
{
    int32_t top = 0;
    for (size_t i = 0; i < profile->segment_count; i++)
        top = profile->segments[i].height > top ? profile->segments[i].height : top;
    for (size_t k = 0; k < profile->count; k++) {
        const struct task *task = &profile->tasks[k];
        if (top + task->amount <= profile->capacity || surely_fails(trail, task->presence))
            continue;
        trail->work += 2;
        if (!surely_holds(trail, task->presence)) {
            if (!rule_out(profiles, profile, trail, k))
                return false;
            continue;
        }
        int32_t low = trail_low(trail, task->operation), high = trail_high(trail, task->operation);
        if (low < high &&
            (!raise_start(profiles, profile, trail, k) || !lower_start(profiles, profile, trail, k)))
            return false;
    }
    return true;
}

bool cumulative_run(struct profiles *profiles, struct trail *trail, bool *idle)
{
    struct profile *profile = next_dirty(profiles, trail);
    *idle = !profile;
    if (!profile || !surely_holds(trail, profile->selector))
        return true;
    return check_capacity(profiles, profile, trail) && filter(profiles, profile, trail);
}
