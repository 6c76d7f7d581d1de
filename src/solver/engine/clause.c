#include "solver/engine/clause.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"

enum { GOOD_LBD = 3, SMALLEST_STORAGE = 6 };

static const int64_t BUMP_MOST = (int64_t)1 << 50;

void clauses_init(struct clauses *clauses, struct arena *arena, size_t bounds)
{
    *clauses = (struct clauses){.arena = arena, .bound_count = bounds, .bump = 1 << 10};
    clauses->thresholds = ARENA_ARRAY(arena, bounds, struct thresholds);
}

/* The first threshold above `value`. */
static size_t above(const struct thresholds *thresholds, int32_t value)
{
    size_t low = 0, high = thresholds->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (thresholds->items[middle].value > value)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* Growing arrays whose outgrown storage is used again: an arena gives nothing back before its end, and lists of
 * watches grow and shrink all the time. Storage comes in sizes of powers of two. */
static int size_class(size_t bytes)
{
    int class = SMALLEST_STORAGE;
    while (((size_t)1 << class) < bytes)
        class ++;
    assert(class < STORAGE_SIZES);
    return class;
}

static void recycle(struct clauses *clauses, struct watches *list)
{
    if (list->items) {
        int class = size_class(list->capacity * sizeof *list->items);
        memcpy(list->items, &clauses->free_lists[class], sizeof(void *));
        clauses->free_lists[class] = list->items;
    }
    *list = (struct watches){0};
}

static void grow_list(struct clauses *clauses, struct watches *list)
{
    int class = size_class((list->count + 1) * sizeof *list->items);
    struct watches longer = {clauses->free_lists[class], list->count,
                             ((size_t)1 << class) / sizeof *list->items};
    if (longer.items)
        memcpy(&clauses->free_lists[class], longer.items, sizeof(void *));
    else
        longer.items = arena_alloc(clauses->arena, 1, (size_t)1 << class);
    if (list->count)
        memcpy(longer.items, list->items, list->count * sizeof *list->items);
    recycle(clauses, list);
    *list = longer;
}

static int32_t new_list(struct clauses *clauses)
{
    if (clauses->spare_count > 0)
        return clauses->spare[--clauses->spare_count];
    clauses->lists = arena_grow(clauses->arena, clauses->lists, clauses->list_count, &clauses->list_capacity,
                                sizeof *clauses->lists);
    clauses->lists[clauses->list_count] = (struct watches){0};
    return (int32_t)clauses->list_count++;
}

static struct watches *list_at(struct clauses *clauses, struct literal falls)
{
    struct thresholds *of = &clauses->thresholds[falls.bound];
    size_t at = above(of, falls.value - 1);
    if (at == of->count || of->items[at].value != falls.value) {
        of->items = arena_grow(clauses->arena, of->items, of->count, &of->capacity, sizeof *of->items);
        memmove(&of->items[at + 1], &of->items[at], (of->count - at) * sizeof *of->items);
        of->items[at] = (struct threshold){falls.value, new_list(clauses)};
        of->count++;
    }
    return &clauses->lists[of->items[at].list];
}

static void watch(struct clauses *clauses, struct literal literal, int32_t clause, struct literal other)
{
    struct watches *list = list_at(clauses, literal_not(literal));
    if (list->count == list->capacity)
        grow_list(clauses, list);
    list->items[list->count++] = (struct watch){clause, other};
}

static void watch_both(struct clauses *clauses, int32_t index)
{
    const struct literal *literals = &clauses->pool[clauses->items[index].at];
    watch(clauses, literals[0], index, literals[1]);
    watch(clauses, literals[1], index, literals[0]);
}

static void reserve_pool(struct clauses *clauses, size_t more)
{
    while (clauses->pool_size + more > clauses->pool_capacity) {
        struct literal *old = clauses->pool;
        size_t capacity = clauses->pool_capacity ? 2 * clauses->pool_capacity : 1024;
        clauses->pool = ARENA_ARRAY(clauses->arena, capacity, struct literal);
        if (clauses->pool_size)
            memcpy(clauses->pool, old, clauses->pool_size * sizeof *old);
        clauses->pool_capacity = capacity;
    }
}

int32_t clauses_add(struct clauses *clauses, const struct literal *literals, size_t size, int32_t lbd)
{
    assert(size >= 2);
    reserve_pool(clauses, size);
    clauses->items = arena_grow(clauses->arena, clauses->items, clauses->count, &clauses->capacity,
                                sizeof *clauses->items);
    int32_t index = (int32_t)clauses->count++;
    clauses->items[index] = (struct clause){(int32_t)clauses->pool_size, (int32_t)size, lbd, clauses->bump};
    memcpy(&clauses->pool[clauses->pool_size], literals, size * sizeof *literals);
    clauses->pool_size += size;
    watch_both(clauses, index);
    return index;
}

/* Puts a literal that may still hold into the second place; false: there is none. */
static bool find_watch(struct literal *literals, int32_t size, const struct trail *trail)
{
    for (int32_t i = 2; i < size; i++)
        if (!trail_fails(trail, literals[i])) {
            struct literal swap = literals[1];
            literals[1] = literals[i];
            literals[i] = swap;
            return true;
        }
    return false;
}

/* One clause whose literal `fell`. Sets *moved where the watch left; false on a conflict. */
static bool visit(struct clauses *clauses, struct trail *trail, struct watch *at, struct literal fell,
                  bool *moved)
{
    const struct clause *clause = &clauses->items[at->clause];
    struct literal *literals = &clauses->pool[clause->at];
    if (literals[0].bound == fell.bound) {
        literals[0] = literals[1];
        literals[1] = fell;
    }
    at->other = literals[0];
    if (trail_holds(trail, literals[0]))
        return true;
    trail->work += 1 + clause->size / 4;
    if (find_watch(literals, clause->size, trail)) {
        watch(clauses, literals[1], at->clause, literals[0]);
        *moved = true;
        return true;
    }
    return trail_set(trail, literals[0], (struct reason){REASON_CLAUSE, at->clause});
}

/* No watch is added to the list under way: a clause has no second literal on its bound. */
static bool fire(struct clauses *clauses, struct trail *trail, struct literal fell, int32_t index)
{
    size_t kept = 0, i = 0, count = clauses->lists[index].count;
    struct watch *items = clauses->lists[index].items;
    bool fine = true;
    trail->work += 1 + (int64_t)count / 8;
    for (; i < count && fine; i++) {
        struct watch at = items[i];
        bool moved = false;
        if (!trail_holds(trail, at.other))
            fine = visit(clauses, trail, &at, fell, &moved);
        if (!moved)
            items[kept++] = at;
    }
    if (kept < i)
        memmove(&items[kept], &items[i], (count - i) * sizeof *items);
    clauses->lists[index].count = kept + count - i;
    return fine;
}

bool clauses_wake(struct clauses *clauses, struct trail *trail, const struct trail_entry *entry)
{
    const struct thresholds *of = &clauses->thresholds[entry->bound];
    for (size_t i = above(of, entry->old); i < of->count && of->items[i].value <= entry->now; i++) {
        struct literal fell = {entry->bound ^ 1, 1 - of->items[i].value};
        if (!fire(clauses, trail, fell, of->items[i].list))
            return false;
    }
    return true;
}

void clauses_bump(struct clauses *clauses, int32_t index)
{
    clauses->items[index].activity += clauses->bump;
    clauses->bump += clauses->bump >> 9;
    if (clauses->bump < BUMP_MOST)
        return;
    for (size_t i = 0; i < clauses->count; i++)
        clauses->items[i].activity >>= 40;
    clauses->bump >>= 40;
}

static int by_activity(const void *left, const void *right)
{
    const int64_t *a = left, *b = right;
    return *a < *b ? -1 : *a > *b;
}

static int64_t median_activity(struct clauses *clauses)
{
    if (clauses->sorted_capacity < clauses->count) {
        clauses->sorted_capacity = 2 * clauses->count;
        clauses->sorted = ARENA_ARRAY(clauses->arena, clauses->sorted_capacity, int64_t);
    }
    int64_t *list = clauses->sorted;
    size_t count = 0;
    for (size_t i = 0; i < clauses->count; i++)
        if (clauses->items[i].lbd > GOOD_LBD)
            list[count++] = clauses->items[i].activity;
    qsort(list, count, sizeof *list, by_activity);
    return count ? list[count / 2] : 0;
}

static bool holds_for_good(const struct clauses *clauses, const struct clause *clause,
                           const struct trail *trail)
{
    for (int32_t i = 0; i < clause->size; i++)
        if (trail_holds(trail, clauses->pool[clause->at + i]))
            return true;
    return false;
}

static void drop_watches(struct clauses *clauses)
{
    for (size_t b = 0; b < clauses->bound_count; b++) {
        struct thresholds *of = &clauses->thresholds[b];
        for (size_t i = 0; i < of->count; i++) {
            struct watches *list = &clauses->lists[of->items[i].list];
            recycle(clauses, list);
            clauses->spare = arena_grow(clauses->arena, clauses->spare, clauses->spare_count,
                                        &clauses->spare_capacity, sizeof *clauses->spare);
            clauses->spare[clauses->spare_count++] = of->items[i].list;
        }
        of->count = 0;
    }
}

void clauses_reduce(struct clauses *clauses, const struct trail *trail)
{
    assert(trail->level == 0);
    int64_t least = median_activity(clauses);
    size_t kept = 0, size = 0;
    drop_watches(clauses);
    for (size_t i = 0; i < clauses->count; i++) {
        struct clause clause = clauses->items[i];
        if ((clause.lbd > GOOD_LBD && clause.activity < least) || holds_for_good(clauses, &clause, trail))
            continue;
        memmove(&clauses->pool[size], &clauses->pool[clause.at], (size_t)clause.size * sizeof *clauses->pool);
        clause.at = (int32_t)size;
        size += (size_t)clause.size;
        clauses->items[kept] = clause;
        watch_both(clauses, (int32_t)kept++);
    }
    clauses->count = kept;
    clauses->pool_size = size;
}
