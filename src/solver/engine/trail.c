#include "solver/engine/trail.h"

#include <assert.h>
#include <string.h>

#include "base/arena.h"

void trail_init(struct trail *trail, struct arena *arena, size_t variables)
{
    *trail = (struct trail){.arena = arena, .bound_count = 2 * variables};
    trail->now = ARENA_ARRAY(arena, trail->bound_count, int32_t);
    trail->newest = ARENA_ARRAY(arena, trail->bound_count, int32_t);
    for (size_t b = 0; b < trail->bound_count; b++)
        trail->newest[b] = -1;
}

void trail_domain(struct trail *trail, int variable, int32_t low, int32_t high)
{
    assert(trail->count == 0 && low <= high);
    trail->now[2 * variable] = low;
    trail->now[2 * variable + 1] = -high;
}

bool trail_set(struct trail *trail, struct literal literal, struct reason reason)
{
    int32_t old = trail->now[literal.bound];
    if (old >= literal.value)
        return true;
    if (trail_fails(trail, literal)) {
        trail->conflict = literal;
        trail->conflict_reason = reason;
        return false;
    }
    trail->entries =
        arena_grow(trail->arena, trail->entries, trail->count, &trail->capacity, sizeof *trail->entries);
    trail->entries[trail->count] = (struct trail_entry){
        literal.bound, old, literal.value, trail->newest[literal.bound], (int32_t)trail->level, reason};
    trail->newest[literal.bound] = (int32_t)trail->count++;
    trail->now[literal.bound] = literal.value;
    return true;
}

static int32_t store(struct trail *trail, const struct literal *literals, size_t count)
{
    while (trail->list_size + count + 1 > trail->list_capacity)
        trail->lists = arena_grow(trail->arena, trail->lists, trail->list_capacity, &trail->list_capacity,
                                  sizeof *trail->lists);
    size_t at = trail->list_size;
    trail->lists[at] = (struct literal){(int32_t)count, 0};
    if (count)
        memcpy(&trail->lists[at + 1], literals, count * sizeof *literals);
    trail->list_size += count + 1;
    return (int32_t)at;
}

bool trail_infer(struct trail *trail, struct literal literal, const struct literal *explanation, size_t count)
{
    if (trail_holds(trail, literal))
        return true;
    return trail_set(trail, literal, (struct reason){REASON_LIST, store(trail, explanation, count)});
}

bool trail_decide(struct trail *trail, struct literal literal)
{
    return trail_set(trail, literal, (struct reason){REASON_DECISION, 0});
}

void trail_push_level(struct trail *trail)
{
    trail->marks =
        arena_grow(trail->arena, trail->marks, trail->level, &trail->mark_capacity, sizeof *trail->marks);
    trail->marks[trail->level++] = (struct trail_mark){trail->count, trail->list_size};
}

void trail_backjump(struct trail *trail, size_t level)
{
    if (level >= trail->level)
        return;
    size_t keep = trail->marks[level].count;
    while (trail->count > keep) {
        const struct trail_entry *entry = &trail->entries[--trail->count];
        trail->now[entry->bound] = entry->old;
        trail->newest[entry->bound] = entry->previous;
    }
    trail->list_size = trail->marks[level].list_size;
    trail->level = level;
}

int32_t trail_find(const struct trail *trail, struct literal literal)
{
    int32_t at = trail->newest[literal.bound];
    assert(trail_holds(trail, literal));
    while (at >= 0 && trail->entries[at].old >= literal.value)
        at = trail->entries[at].previous;
    return at;
}

int32_t trail_value_before(const struct trail *trail, int32_t bound, int32_t entry)
{
    int32_t at = trail->newest[bound], value = trail->now[bound];
    while (at >= entry) {
        value = trail->entries[at].old;
        at = trail->entries[at].previous;
    }
    return value;
}
