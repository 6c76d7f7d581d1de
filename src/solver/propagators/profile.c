#include "solver/propagators/profile.h"

#include <assert.h>

#include "base/arena.h"

static void add_tasks(struct profiles *profiles, int resource, struct arena *arena)
{
    const struct network *net = profiles->model->net;
    struct profile *profile = &profiles->items[resource];
    size_t room = 0;
    for (size_t i = 0; i < net->use_count; i++)
        room += net->uses[i].resource == resource;
    profile->tasks = ARENA_ARRAY(arena, room, struct task);
    profile->begin = ARENA_ARRAY(arena, room, int32_t);
    profile->end = ARENA_ARRAY(arena, room, int32_t);
    profile->by_begin = ARENA_ARRAY(arena, room, int32_t);
    profile->by_end = ARENA_ARRAY(arena, room, int32_t);
    profile->steps = ARENA_ARRAY(arena, 2 * room + 1, struct step);
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *use = &net->uses[i];
        if (use->resource != resource || use->amount == 0)
            continue;
        size_t k = profile->count++;
        profile->by_begin[k] = profile->by_end[k] = (int32_t)k;
        profile->tasks[k] = (struct task){
            use->operation, use->amount,
            use->until,     model_guard(profiles->model, net->operations[use->operation].presence),
            use->holder,    use->holder > 0 ? use->own : NET_NEVER};
        profile->holders = profile->holders || use->holder > 0;
    }
}

/* Which profile to look at again when a variable's bounds rise. */
struct touch {
    int variable, profile;
};

static size_t list_touches(const struct profiles *profiles, struct touch *touches)
{
    size_t count = 0;
    for (size_t r = 0; r < profiles->count; r++) {
        const struct profile *profile = &profiles->items[r];
        if (profile->selector.bound >= 0)
            touches[count++] = (struct touch){profile->selector.bound / 2, (int)r};
        for (size_t k = 0; k < profile->count; k++) {
            touches[count++] = (struct touch){profile->tasks[k].operation, (int)r};
            if (profile->tasks[k].presence.bound >= 0)
                touches[count++] = (struct touch){profile->tasks[k].presence.bound / 2, (int)r};
        }
    }
    return count;
}

static void index_touch(struct profiles *profiles, struct arena *arena)
{
    size_t variables = profiles->model->variables, most = profiles->count;
    for (size_t r = 0; r < profiles->count; r++)
        most += 2 * profiles->items[r].count;
    struct touch *touches = ARENA_ARRAY(arena, most, struct touch);
    size_t count = list_touches(profiles, touches);
    profiles->touch_from = ARENA_ARRAY(arena, variables + 1, int32_t);
    profiles->touch_list = ARENA_ARRAY(arena, count, int32_t);
    for (size_t i = 0; i < count; i++)
        profiles->touch_from[touches[i].variable]++;
    for (size_t v = 0; v < variables; v++)
        profiles->touch_from[v + 1] += profiles->touch_from[v];
    for (size_t i = count; i-- > 0;)
        profiles->touch_list[--profiles->touch_from[touches[i].variable]] = touches[i].profile;
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
                                              .stirred = true};
        add_tasks(profiles, (int)r, arena);
        most = profiles->items[r].count > most ? profiles->items[r].count : most;
    }
    profiles->why = ARENA_ARRAY(arena, 3 * most + 8, struct literal);
    index_touch(profiles, arena);
}

void profiles_touch(struct profiles *profiles, int32_t bound)
{
    int32_t variable = bound / 2;
    for (int32_t i = profiles->touch_from[variable]; i < profiles->touch_from[variable + 1]; i++) {
        profiles->items[profiles->touch_list[i]].dirty = true;
        profiles->items[profiles->touch_list[i]].stirred = true;
    }
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

/* Sure parts of one holder made disjoint: each loses what those that begin before it cover. From the last one to
 * begin back, so that the others are still whole. */
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

/* The sure parts, and the steps of their sum. */
static void build(struct profiles *profiles, struct profile *profile, const struct trail *trail)
{
    for (size_t k = 0; k < profile->count; k++) {
        const struct task *task = &profile->tasks[k];
        int32_t begin = trail_high(trail, task->operation);
        int32_t end = profile_until(profiles, task, trail_low(trail, task->operation));
        int32_t most = profiles->model->net->horizon + 1;
        end = end > most ? most : end;
        bool sure = begin < end && surely(trail, task->presence);
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
        profile->steps[count++] = (struct step){t, height};
    }
    profile->step_count = count;
}

struct profile *profiles_next(struct profiles *profiles, struct trail *trail)
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
