#include "solver/propagators/capacity.h"

#include <assert.h>

/* Task k is `own`, or counts as one with it. */
static bool is_own(const struct profile *profile, size_t k, size_t own)
{
    return k == own || (own != SIZE_MAX && same_holder(&profile->tasks[k], &profile->tasks[own]));
}

static bool holds_at(const struct profile *profile, size_t k, int32_t t)
{
    return profile->begin[k] <= t && t < profile->end[k];
}

/* Literals: sure holders at moment t, but for `but`, until more than `spare` is held. Returns the count. */
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
        profiles->why[count++] = at_least(task->operation, low);
        profiles->why[count++] = at_most(task->operation, t);
        if (task->presence.bound >= 0)
            profiles->why[count++] = task->presence;
    }
    if (profile->selector.bound >= 0)
        profiles->why[count++] = profile->selector;
    return count;
}

static bool conclude(struct profiles *profiles, struct trail *trail, struct literal literal, size_t count)
{
    if (trail_holds(trail, literal))
        return true;
    int32_t list = trail_keep(trail, profiles->why, count);
    trail->work += (int64_t)count;
    return trail_set(trail, literal, (struct reason){REASON_LIST, list});
}

static bool too_much(struct profiles *profiles, struct profile *profile, struct trail *trail)
{
    for (size_t i = 0; i < profile->step_count; i++) {
        if (profile->steps[i].height <= profile->capacity)
            continue;
        int32_t next = i + 1 < profile->step_count ? profile->steps[i + 1].from : profile->steps[i].from + 1;
        int32_t t = profile->steps[i].from + (next - profile->steps[i].from) / 2;
        size_t count = holders(profiles, profile, SIZE_MAX, t, profile->capacity);
        struct literal last = profiles->why[count - 1];
        return conclude(profiles, trail, literal_not(last), count - 1);
    }
    return true;
}

static int32_t step_end(const struct profile *profile, size_t i)
{
    return i + 1 < profile->step_count ? profile->steps[i + 1].from : NET_NEVER;
}

/* The first step that reaches beyond t; the last one reaches for ever. */
static size_t step_after(const struct profile *profile, int32_t t)
{
    size_t low = 0, high = profile->step_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (step_end(profile, middle) > t)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* What the others hold surely on step i. */
static int32_t others(const struct profile *profile, size_t i, size_t k)
{
    int32_t from = profile->steps[i].from;
    bool own = holds_at(profile, k, from);
    for (size_t j = 0; !own && profile->tasks[k].holder > 0 && j < profile->count; j++)
        own = is_own(profile, j, k) && holds_at(profile, j, from);
    return profile->steps[i].height - (own ? profile->tasks[k].amount : 0);
}

/* The task would run at moment t with any start in first(t).. to t: it must start later. */
static bool push_up(struct profiles *profiles, struct profile *profile, struct trail *trail, size_t k)
{
    const struct task *task = &profile->tasks[k];
    int32_t room = profile->capacity - task->amount;
    int32_t low = trail_low(trail, task->operation);
    int32_t end = profile_until(profiles, task, low);
    for (size_t i = step_after(profile, low);
         low < end && i < profile->step_count && profile->steps[i].from < end;) {
        int32_t to = step_end(profile, i);
        if (to <= low || others(profile, i, k) <= room) {
            i++;
            continue;
        }
        int32_t t = (to < end ? to : end) - 1;
        size_t count = holders(profiles, profile, k, t, room);
        profiles->why[count++] =
            at_least(task->operation, net_map_first(profiles->model->net, task->until, t + 1));
        if (task->presence.bound >= 0)
            profiles->why[count++] = task->presence;
        if (!conclude(profiles, trail, at_least(task->operation, t + 1), count))
            return false;
        low = t + 1;
        end = profile_until(profiles, task, low);
    }
    return true;
}

static bool push_down(struct profiles *profiles, struct profile *profile, struct trail *trail, size_t k)
{
    const struct task *task = &profile->tasks[k];
    int32_t room = profile->capacity - task->amount;
    int32_t high = trail_high(trail, task->operation);
    int32_t end = profile_until(profiles, task, high);
    size_t i = step_after(profile, end - 1) + 1;
    while (i > 0 && high < end && i <= profile->step_count && step_end(profile, i - 1) > high) {
        int32_t from = profile->steps[i - 1].from;
        if (from >= end || others(profile, i - 1, k) <= room) {
            i--;
            continue;
        }
        int32_t t = from > high ? from : high;
        size_t count = holders(profiles, profile, k, t, room);
        profiles->why[count++] = at_most(task->operation, t);
        if (task->presence.bound >= 0)
            profiles->why[count++] = task->presence;
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
    for (size_t i = step_after(profile, begin);
         begin < end && i < profile->step_count && profile->steps[i].from < end; i++) {
        if (step_end(profile, i) <= begin || others(profile, i, k) + task->amount <= profile->capacity)
            continue;
        int32_t t = profile->steps[i].from > begin ? profile->steps[i].from : begin;
        size_t count = holders(profiles, profile, k, t, profile->capacity - task->amount);
        profiles->why[count++] =
            at_least(task->operation, net_map_first(profiles->model->net, task->until, t + 1));
        profiles->why[count++] = at_most(task->operation, t);
        return conclude(profiles, trail, literal_not(task->presence), count);
    }
    return true;
}

static bool filter(struct profiles *profiles, struct profile *profile, struct trail *trail)
{
    int32_t top = 0;
    for (size_t i = 0; i < profile->step_count; i++)
        top = profile->steps[i].height > top ? profile->steps[i].height : top;
    for (size_t k = 0; k < profile->count; k++) {
        const struct task *task = &profile->tasks[k];
        if (top + task->amount <= profile->capacity || never(trail, task->presence))
            continue;
        trail->work += 2;
        if (!surely(trail, task->presence)) {
            if (!rule_out(profiles, profile, trail, k))
                return false;
            continue;
        }
        int32_t low = trail_low(trail, task->operation), high = trail_high(trail, task->operation);
        if (low < high && (!push_up(profiles, profile, trail, k) || !push_down(profiles, profile, trail, k)))
            return false;
    }
    return true;
}

bool capacity_run(struct profiles *profiles, struct trail *trail, bool *idle)
{
    struct profile *profile = profiles_next(profiles, trail);
    *idle = !profile;
    if (!profile || !surely(trail, profile->selector))
        return true;
    return too_much(profiles, profile, trail) && filter(profiles, profile, trail);
}
