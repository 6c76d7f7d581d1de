#include "solver/propagators/energy.h"

#include <assert.h>

#include "base/arena.h"

/* The shortest length of a task over its window; 0: it may need nothing. */
static int32_t shortest(const struct energies *energies, const struct task *task, const struct trail *trail)
{
    const struct network *net = energies->profiles->model->net;
    int32_t low = trail_low(trail, task->operation), high = trail_high(trail, task->operation);
    int32_t length = net->horizon + 1;
    if (!task->until.table)
        high = low;
    for (int32_t t = low; t <= high; t++) {
        int32_t lasts = net_map_at(net, task->until, t) - t;
        length = lasts < length ? lasts : length;
    }
    length = length < task->own ? length : task->own;
    return length < 0 ? 0 : length;
}

/* Adds one to all slots from..to - 1, as differences. */
static void mark(int32_t *slots, int32_t from, int32_t to)
{
    slots[from]++;
    slots[to]--;
}

/* Slots in which a task could run with any of its allowed starts. */
static void mark_task(const struct energies *energies, const struct effort *effort, const struct task *task,
                      const struct trail *trail, int32_t *slots)
{
    const struct net_calendar *calendar = energies->profiles->model->edges.calendars[task->operation];
    int32_t low = trail_low(trail, task->operation), high = trail_high(trail, task->operation);
    if (!calendar)
        mark(slots, low, high + effort->length);
    for (int32_t t = low; calendar && t <= high; t = t < high ? calendar->next[t + 1] : high + 1)
        mark(slots, t, t + effort->length);
}

static void open_slots(struct energies *energies, struct energy *energy, const struct trail *trail,
                       struct arena *arena)
{
    int32_t longest = 0;
    for (size_t i = 0; i < energy->count; i++)
        longest = energy->efforts[i].length > longest ? energy->efforts[i].length : longest;
    energy->open_most = energies->profiles->model->net->horizon + longest;
    int32_t *open = ARENA_ARRAY(arena, (size_t)energy->open_most + 2, int32_t);
    for (size_t i = 0; i < energy->count; i++)
        mark_task(energies, &energy->efforts[i], &energy->profile->tasks[energy->efforts[i].task], trail,
                  open);
    int32_t running = 0, total = 0;
    for (int32_t t = 0; t <= energy->open_most; t++) {
        running += open[t];
        open[t] = total;
        total += running > 0;
    }
    energy->open = open;
}

void energies_init(struct energies *energies, struct profiles *profiles, const struct trail *trail,
                   struct arena *arena)
{
    size_t most = 0;
    *energies = (struct energies){.profiles = profiles, .count = profiles->count};
    energies->items = ARENA_ARRAY(arena, profiles->count, struct energy);
    for (size_t r = 0; r < profiles->count; r++) {
        struct energy *energy = &energies->items[r];
        struct profile *profile = &profiles->items[r];
        *energy = (struct energy){.profile = profile};
        energy->efforts = ARENA_ARRAY(arena, profile->count, struct effort);
        energy->now = ARENA_ARRAY(arena, profile->count, struct effort);
        for (size_t k = 0; k < profile->count; k++) {
            int32_t length = shortest(energies, &profile->tasks[k], trail);
            if (length > 0)
                energy->efforts[energy->count++] = (struct effort){.task = (int)k, .length = length};
        }
        open_slots(energies, energy, trail, arena);
        most = energy->count > most ? energy->count : most;
    }
    energies->why = ARENA_ARRAY(arena, 3 * most + 2, struct literal);
}

/* The first t with at least `count` open slots before it. */
static int32_t first_with(const struct energy *energy, int32_t count)
{
    int32_t low = 0, high = energy->open_most;
    while (low < high) {
        int32_t middle = (low + high) / 2;
        if (energy->open[middle] >= count)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* Those surely present with their windows, by falling first start. */
static size_t gather(const struct energy *energy, const struct trail *trail)
{
    size_t count = 0;
    for (size_t i = 0; i < energy->count; i++) {
        struct effort effort = energy->efforts[i];
        const struct task *task = &energy->profile->tasks[effort.task];
        if (!surely(trail, task->presence))
            continue;
        effort.first = energy->open[trail_low(trail, task->operation)];
        effort.last = energy->open[trail_high(trail, task->operation)];
        size_t at = count++;
        for (; at > 0 && energy->now[at - 1].first < effort.first; at--)
            energy->now[at] = energy->now[at - 1];
        energy->now[at] = effort;
    }
    return count;
}

/* What of a task that does not start before the window must lie before its end. */
static int32_t part_before(const struct effort *effort, int32_t end)
{
    int32_t part = end - effort->last;
    return part < 0 ? 0 : part < effort->length ? part : effort->length;
}

/* The parts before `end` of the first `count` tasks are too much for what is open since the last one's start. */
static bool clash(struct energies *energies, const struct energy *energy, struct trail *trail, size_t tasks,
                  int32_t end)
{
    int32_t begin = energy->now[tasks - 1].first;
    int64_t over = -(int64_t)energy->profile->capacity * (end - begin) - 1;
    size_t count = 0;
    for (size_t i = 0; i < tasks; i++)
        over +=
            (int64_t)energy->profile->tasks[energy->now[i].task].amount * part_before(&energy->now[i], end);
    assert(over >= 0);
    for (size_t i = 0; i < tasks; i++) {
        const struct task *task = &energy->profile->tasks[energy->now[i].task];
        int32_t part = part_before(&energy->now[i], end);
        int64_t spare = over / task->amount;
        int32_t needed = spare >= part ? 0 : part - (int32_t)spare;
        over -= (int64_t)(part - needed) * task->amount;
        if (needed == 0)
            continue;
        energies->why[count++] = at_least(task->operation, first_with(energy, begin));
        energies->why[count++] = at_most(task->operation, first_with(energy, end - needed + 1) - 1);
        if (task->presence.bound >= 0)
            energies->why[count++] = task->presence;
    }
    if (energy->profile->selector.bound >= 0)
        energies->why[count++] = energy->profile->selector;
    struct reason reason = {REASON_LIST, trail_keep(trail, energies->why, count - 1)};
    return trail_set(trail, literal_not(energies->why[count - 1]), reason);
}

static bool check(struct energies *energies, const struct energy *energy, struct trail *trail)
{
    size_t count = gather(energy, trail);
    trail->work += (int64_t)(count * count / 8);
    for (size_t b = 0; b < count; b++) {
        int32_t end = energy->now[b].last + energy->now[b].length;
        int64_t sum = 0;
        for (size_t i = 0; i < count; i++) {
            const struct effort *effort = &energy->now[i];
            if (effort->last >= end)
                continue;
            sum += (int64_t)energy->profile->tasks[effort->task].amount * part_before(effort, end);
            if (sum > (int64_t)energy->profile->capacity * (end - effort->first))
                return clash(energies, energy, trail, i + 1, end);
        }
    }
    return true;
}

bool energies_run(struct energies *energies, struct trail *trail)
{
    for (size_t r = 0; r < energies->count; r++) {
        struct energy *energy = &energies->items[r];
        if (!energy->profile->stirred || !surely(trail, energy->profile->selector))
            continue;
        energy->profile->stirred = false;
        if (!check(energies, energy, trail))
            return false;
    }
    return true;
}
