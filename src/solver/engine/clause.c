#include "solver/engine/clause.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"

enum { GOOD_LBD = 2, SMALLEST_STORAGE = 6, HEAD = 2 };

static const int64_t BUMP_MOST = (int64_t)1 << 50;

void clauses_init(struct clauses *clauses, struct atoms *atoms, struct arena *arena)
{
    *clauses = (struct clauses){.arena = arena, .atoms = atoms, .bump = 1 << 10};
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
        int class = size_class((size_t)list->capacity * sizeof *list->items);
        memcpy(list->items, &clauses->free_lists[class], sizeof(void *));
        clauses->free_lists[class] = list->items;
    }
    *list = (struct watches){0};
}

static void grow_list(struct clauses *clauses, struct watches *list)
{
    int class = size_class((size_t)(list->count + 1) * sizeof *list->items);
    struct watches longer = {clauses->free_lists[class], list->count,
                             (int32_t)(((size_t)1 << class) / sizeof *list->items)};
    if (longer.items)
        memcpy(&clauses->free_lists[class], longer.items, sizeof(void *));
    else
        longer.items = arena_alloc(clauses->arena, 1, (size_t)1 << class);
    if (list->count)
        memcpy(longer.items, list->items, (size_t)list->count * sizeof *list->items);
    recycle(clauses, list);
    *list = longer;
}

/* A literal falls when the bound against it rises: "at least" watches the atom's upper side, "at most" its lower one. */
static void watch(struct clauses *clauses, int32_t atom, struct watch watch, int32_t bound)
{
    struct watches *list = &clauses->atoms->items[atom].watches[bound % 2 == 0];
    if (list->count == list->capacity)
        grow_list(clauses, list);
    list->items[list->count++] = watch;
}

static void watch_both(struct clauses *clauses, int32_t at)
{
    const struct literal *literals = &clauses->pool[at];
    const int32_t *atoms = &clauses->pool_atoms[at];
    watch(clauses, atoms[0], (struct watch){at, literals[1]}, literals[0].bound);
    watch(clauses, atoms[1], (struct watch){at, literals[0]}, literals[1].bound);
}

static void reserve_pool(struct clauses *clauses, size_t more)
{
    while (clauses->pool_size + more > clauses->pool_capacity) {
        struct literal *old = clauses->pool;
        int32_t *old_atoms = clauses->pool_atoms;
        size_t capacity = clauses->pool_capacity ? 2 * clauses->pool_capacity : 1024;
        clauses->pool = ARENA_ARRAY(clauses->arena, capacity, struct literal);
        clauses->pool_atoms = ARENA_ARRAY(clauses->arena, capacity, int32_t);
        if (clauses->pool_size) {
            memcpy(clauses->pool, old, clauses->pool_size * sizeof *old);
            memcpy(clauses->pool_atoms, old_atoms, clauses->pool_size * sizeof *old_atoms);
        }
        clauses->pool_capacity = capacity;
    }
}

/* Writes a clause at the end of the pool, where it may stand already; its atoms are found by the caller. */
static int32_t store(struct clauses *clauses, const struct literal *literals, const int32_t *atoms,
                     size_t size, size_t index)
{
    int32_t at = (int32_t)clauses->pool_size + HEAD;
    memmove(&clauses->pool[at], literals, size * sizeof *literals);
    memmove(&clauses->pool_atoms[at], atoms, size * sizeof *atoms);
    clauses->pool[at - 2] = (struct literal){2, 0};
    clauses->pool[at - 1] = (struct literal){(int32_t)size, (int32_t)index};
    clauses->pool_size += size + HEAD;
    watch_both(clauses, at);
    return at;
}

int32_t clauses_add(struct clauses *clauses, const struct literal *literals, size_t size, int32_t lbd)
{
    assert(size >= 2);
    reserve_pool(clauses, size + HEAD);
    clauses->items = arena_grow(clauses->arena, clauses->items, clauses->count, &clauses->capacity,
                                sizeof *clauses->items);
    int32_t *atoms = &clauses->pool_atoms[clauses->pool_size + HEAD];
    for (size_t i = 0; i < size; i++)
        atoms[i] = atoms_of(clauses->atoms, literals[i]);
    int32_t at = store(clauses, literals, atoms, size, clauses->count);
    clauses->items[clauses->count++] = (struct clause){at, lbd, clauses->bump};
    return at;
}

/* The place of a literal that may still hold, but for the watched ones; -1: there is none. The search goes on from
 * where it ended the last time. */
static int32_t find_watch(struct clauses *clauses, int32_t at, int32_t size, const struct trail *trail)
{
    const struct literal *literals = &clauses->pool[at];
    int32_t *start = &clauses->pool[at - 2].bound;
    for (int32_t i = *start; i < size; i++)
        if (!trail_fails(trail, literals[i]))
            return *start = i;
    for (int32_t i = 2; i < *start; i++)
        if (!trail_fails(trail, literals[i]))
            return *start = i;
    return -1;
}

static inline void swap(struct clauses *clauses, int32_t a, int32_t b)
{
    struct literal literal = clauses->pool[a];
    int32_t atom = clauses->pool_atoms[a];
    clauses->pool[a] = clauses->pool[b];
    clauses->pool_atoms[a] = clauses->pool_atoms[b];
    clauses->pool[b] = literal;
    clauses->pool_atoms[b] = atom;
}

/* One clause whose literal on bound `fell` fell. Sets *moved where the watch left; false on a conflict. */
static bool visit(struct clauses *clauses, struct trail *trail, struct watch *at, int32_t fell, bool *moved)
{
    int32_t size = clauses->pool[at->clause - 1].bound;
    struct literal *literals = &clauses->pool[at->clause];
    if (literals[0].bound == fell)
        swap(clauses, at->clause, at->clause + 1);
    at->blocker = literals[0];
    if (trail_holds(trail, literals[0]))
        return true;
    trail->work += 1 + size / 4;
    int32_t place = find_watch(clauses, at->clause, size, trail);
    if (place < 0)
        return trail_set(trail, literals[0], (struct reason){REASON_CLAUSE, at->clause});
    swap(clauses, at->clause + 1, at->clause + place);
    watch(clauses, clauses->pool_atoms[at->clause + 1], *at, literals[1].bound);
    *moved = true;
    return true;
}

/* No watch is added to the list under way: a clause has no second literal on its bound. */
static bool fire(struct clauses *clauses, struct trail *trail, struct watches *list, int32_t fell)
{
    int32_t kept = 0, i = 0, count = list->count;
    struct watch *items = list->items;
    bool fine = true;
    trail->work += 1 + count / 8;
    for (; i < count && fine; i++) {
        struct watch at = items[i];
        bool moved = false;
        if (!trail_holds(trail, at.blocker))
            fine = visit(clauses, trail, &at, fell, &moved);
        if (!moved)
            items[kept++] = at;
    }
    if (kept < i)
        memmove(&items[kept], &items[i], (size_t)(count - i) * sizeof *items);
    list->count = kept + count - i;
    return fine;
}

static bool wake_atom(struct clauses *clauses, struct trail *trail, int32_t atom, int32_t bound)
{
    struct watches *list = &clauses->atoms->items[atom].watches[bound % 2];
    return list->count == 0 || fire(clauses, trail, list, bound ^ 1);
}

bool clauses_wake(struct clauses *clauses, struct trail *trail, const struct trail_entry *entry)
{
    const struct atom_list *list = &clauses->atoms->lists[entry->bound / 2];
    if (entry->bound % 2 == 0) {
        for (size_t i = atoms_above(list, entry->old); i < list->count && list->items[i].value <= entry->now;
             i++)
            if (!wake_atom(clauses, trail, list->items[i].atom, entry->bound))
                return false;
        return true;
    }
    for (size_t i = atoms_above(list, -entry->old); i-- > 0 && list->items[i].value > -entry->now;)
        if (!wake_atom(clauses, trail, list->items[i].atom, entry->bound))
            return false;
    return true;
}

void clauses_bump(struct clauses *clauses, int32_t clause)
{
    struct clause *bumped = &clauses->items[clauses->pool[clause - 1].value];
    bumped->activity += clauses->bump;
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
        clauses->sorted_capacity = clauses->capacity;
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

static bool holds_for_good(const struct clauses *clauses, int32_t clause, const struct trail *trail)
{
    int32_t size;
    const struct literal *literals = clauses_literals(clauses, clause, &size);
    for (int32_t i = 0; i < size; i++)
        if (trail_holds(trail, literals[i]))
            return true;
    return false;
}

/* The new numbers of a clause's atoms. */
static void renumber(struct clauses *clauses, int32_t clause, int32_t size)
{
    for (int32_t i = clause; i < clause + size; i++) {
        int32_t kept = clauses->atoms->renumbered[clauses->pool_atoms[i]];
        clauses->pool_atoms[i] = kept >= 0 ? kept : atoms_of(clauses->atoms, clauses->pool[i]);
    }
}

void clauses_reduce(struct clauses *clauses, const struct trail *trail)
{
    assert(trail->level == 0);
    int64_t least = median_activity(clauses);
    size_t kept = 0;
    for (size_t i = 0; i < clauses->atoms->count; i++)
        for (int side = 0; side < 2; side++)
            recycle(clauses, &clauses->atoms->items[i].watches[side]);
    atoms_reduce(clauses->atoms, trail);
    clauses->pool_size = 0;
    for (size_t i = 0; i < clauses->count; i++) {
        struct clause clause = clauses->items[i];
        if ((clause.lbd > GOOD_LBD && clause.activity < least) || holds_for_good(clauses, clause.at, trail))
            continue;
        int32_t size;
        const struct literal *literals = clauses_literals(clauses, clause.at, &size);
        renumber(clauses, clause.at, size);
        clause.at = store(clauses, literals, &clauses->pool_atoms[clause.at], (size_t)size, kept);
        clauses->items[kept++] = clause;
    }
    clauses->count = kept;
}
