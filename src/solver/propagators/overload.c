#include "solver/propagators/overload.h"

#include <assert.h>

#include "base/arena.h"

/* The shortest length of a task over its window; 0: it may need nothing. */
static int32_t shortest(const struct overloads *overloads, const struct task *task, const struct trail *trail)
{
    const struct network *net = overloads->profiles->model->net;
    int32_t low = trail_low(trail, task->operation), high = trail_high(trail, task->operation);
    int32_t length = net->horizon + 1;
    if (!task->until.table)
        high = low;
    for (int32_t t = low; t <= high; t = net_next_start(net, net->operations[task->operation].calendar, t)) {
        int32_t lasts = net_map_at(net, task->until, t) - t;
        length = lasts < length ? lasts : length;
    }
    length = length < task->exclusive ? length : task->exclusive;
    return length < 0 ? 0 : length;
}

/* Adds one to all slots from..to - 1, as differences. */
static void mark(int32_t *slots, int32_t from, int32_t to)
{
    slots[from]++;
    slots[to]--;
}

/* Slots in which a task could run with any of its allowed starts. */
static void mark_task(const struct overloads *overloads, const struct overload_task *overload_task,
                      const struct task *task, const struct trail *trail, int32_t *slots)
{
    const struct net_calendar *calendar = overloads->profiles->model->edges.calendars[task->operation];
    int32_t low = trail_low(trail, task->operation), high = trail_high(trail, task->operation);
    if (!calendar)
        mark(slots, low, high + overload_task->length);
    for (int32_t t = low; calendar && t <= high; t = t < high ? calendar->next[t + 1] : high + 1)
        mark(slots, t, t + overload_task->length);
}

static void open_slots(struct overloads *overloads, struct overload *overload, const struct trail *trail,
                       struct arena *arena)
{
    int32_t longest = 0;
    for (size_t i = 0; i < overload->count; i++)
        longest = overload->tasks[i].length > longest ? overload->tasks[i].length : longest;
    overload->open_most = overloads->profiles->model->net->horizon + longest;
    int32_t *open = ARENA_ARRAY(arena, (size_t)overload->open_most + 2, int32_t);
    for (size_t i = 0; i < overload->count; i++)
        mark_task(overloads, &overload->tasks[i], &overload->profile->tasks[overload->tasks[i].task], trail,
                  open);
    int32_t running = 0, total = 0;
    for (int32_t t = 0; t <= overload->open_most; t++) {
        running += open[t];
        open[t] = total;
        total += running > 0;
    }
    overload->open = open;
}

void overloads_init(struct overloads *overloads, struct profiles *profiles, const struct trail *trail,
                    struct arena *arena)
{
    size_t most = 0;
    *overloads = (struct overloads){.profiles = profiles, .count = profiles->count};
    overloads->items = ARENA_ARRAY(arena, profiles->count, struct overload);
    for (size_t r = 0; r < profiles->count; r++) {
        struct overload *overload = &overloads->items[r];
        struct profile *profile = &profiles->items[r];
        *overload = (struct overload){.profile = profile};
        overload->tasks = ARENA_ARRAY(arena, profile->count, struct overload_task);
        overload->now = ARENA_ARRAY(arena, profile->count, struct overload_task);
        for (size_t k = 0; k < profile->count; k++) {
            int32_t length = shortest(overloads, &profile->tasks[k], trail);
            if (length > 0)
                overload->tasks[overload->count++] = (struct overload_task){.task = (int)k, .length = length};
        }
        open_slots(overloads, overload, trail, arena);
        most = overload->count > most ? overload->count : most;
    }
    overloads->explanation = ARENA_ARRAY(arena, 3 * most + 2, struct literal);
}

/* The first t with at least `count` open slots before it. */
static int32_t first_with(const struct overload *overload, int32_t count)
{
    int32_t low = 0, high = overload->open_most;
    while (low < high) {
        int32_t middle = (low + high) / 2;
        if (overload->open[middle] >= count)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* Those surely present with their windows, by falling first start. */
static size_t gather(const struct overload *overload, const struct trail *trail)
{
    size_t count = 0;
    for (size_t i = 0; i < overload->count; i++) {
        struct overload_task overload_task = overload->tasks[i];
        const struct task *task = &overload->profile->tasks[overload_task.task];
        if (!surely_holds(trail, task->presence))
            continue;
        overload_task.first = overload->open[trail_low(trail, task->operation)];
        overload_task.last = overload->open[trail_high(trail, task->operation)];
        size_t at = count++;
        for (; at > 0 && overload->now[at - 1].first < overload_task.first; at--)
            overload->now[at] = overload->now[at - 1];
        overload->now[at] = overload_task;
    }
    return count;
}

/* What of a task that does not start before the window must lie before its end. */
static int32_t part_before(const struct overload_task *overload_task, int32_t end)
{
    int32_t part = end - overload_task->last;
    return part < 0 ? 0 : part < overload_task->length ? part : overload_task->length;
}

/* The parts before `end` of the first `count` tasks are too much for what is open since the last one's start. */
static bool explain_overload(struct overloads *overloads, const struct overload *overload,
                             struct trail *trail, size_t tasks, int32_t end)
{
    int32_t begin = overload->now[tasks - 1].first;
    int64_t over = -(int64_t)overload->profile->capacity * (end - begin) - 1;
    size_t count = 0;
    for (size_t i = 0; i < tasks; i++)
        over += (int64_t)overload->profile->tasks[overload->now[i].task].amount *
                part_before(&overload->now[i], end);
    assert(over >= 0);
    for (size_t i = 0; i < tasks; i++) {
        const struct task *task = &overload->profile->tasks[overload->now[i].task];
        int32_t part = part_before(&overload->now[i], end);
        int64_t spare = over / task->amount;
        int32_t needed = spare >= part ? 0 : part - (int32_t)spare;
        over -= (int64_t)(part - needed) * task->amount;
        if (needed == 0)
            continue;
        overloads->explanation[count++] = at_least(task->operation, first_with(overload, begin));
        overloads->explanation[count++] =
            at_most(task->operation, first_with(overload, end - needed + 1) - 1);
        if (task->presence.bound >= 0)
            overloads->explanation[count++] = task->presence;
    }
    if (overload->profile->selector.bound >= 0)
        overloads->explanation[count++] = overload->profile->selector;
    assert(count > 0);
    return trail_infer(trail, literal_not(overloads->explanation[count - 1]), overloads->explanation,
                       count - 1);
}

static bool check(struct overloads *overloads, const struct overload *overload, struct trail *trail)
{
    size_t count = gather(overload, trail);
    trail->work += (int64_t)(count * count / 8);
    for (size_t b = 0; b < count; b++) {
        int32_t end = overload->now[b].last + overload->now[b].length;
        int64_t sum = 0;
        for (size_t i = 0; i < count; i++) {
            const struct overload_task *overload_task = &overload->now[i];
            if (overload_task->last >= end)
                continue;
            sum += (int64_t)overload->profile->tasks[overload_task->task].amount *
                   part_before(overload_task, end);
            if (sum > (int64_t)overload->profile->capacity * (end - overload_task->first))
                return explain_overload(overloads, overload, trail, i + 1, end);
        }
    }
    return true;
}

bool overloads_run(struct overloads *overloads, struct trail *trail)
{
    for (size_t r = 0; r < overloads->count; r++) {
        struct overload *overload = &overloads->items[r];
        if (!overload->profile->overload_dirty || !surely_holds(trail, overload->profile->selector))
            continue;
        overload->profile->overload_dirty = false;
        if (!check(overloads, overload, trail))
            return false;
    }
    return true;
}
