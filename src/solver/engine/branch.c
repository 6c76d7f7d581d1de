#include "solver/engine/branch.h"

#include <string.h>

#include "base/arena.h"

static const int64_t BUMP_MOST = (int64_t)1 << 50;

enum { BUMP_FIRST = 1 << 12, SLOTS_FIRST = 1024, FORGET = 24 };

static void clear_slots(struct branch *branch, size_t count)
{
    if (count > branch->slot_count) {
        branch->slots = ARENA_ARRAY(branch->arena, count, int32_t);
        branch->slot_count = count;
    }
    for (size_t i = 0; i < branch->slot_count; i++)
        branch->slots[i] = -1;
}

void branch_init(struct branch *branch, struct arena *arena)
{
    *branch = (struct branch){.arena = arena, .bump = BUMP_FIRST};
    clear_slots(branch, SLOTS_FIRST);
}

static bool before(const struct branch *branch, int32_t a, int32_t b)
{
    const struct atom *left = &branch->atoms[a], *right = &branch->atoms[b];
    return left->activity != right->activity ? left->activity > right->activity : a < b;
}

static void put(struct branch *branch, size_t place, int32_t atom)
{
    branch->heap[place] = atom;
    branch->atoms[atom].place = (int32_t)place;
}

static void rise(struct branch *branch, size_t place)
{
    int32_t atom = branch->heap[place];
    for (; place > 0 && before(branch, atom, branch->heap[(place - 1) / 2]); place = (place - 1) / 2)
        put(branch, place, branch->heap[(place - 1) / 2]);
    put(branch, place, atom);
}

static void sink(struct branch *branch, size_t place)
{
    int32_t atom = branch->heap[place];
    for (size_t child; (child = 2 * place + 1) < branch->heap_count; place = child) {
        if (child + 1 < branch->heap_count && before(branch, branch->heap[child + 1], branch->heap[child]))
            child++;
        if (!before(branch, branch->heap[child], atom))
            break;
        put(branch, place, branch->heap[child]);
    }
    put(branch, place, atom);
}

static void insert(struct branch *branch, int32_t atom)
{
    if (branch->atoms[atom].place >= 0)
        return;
    branch->heap = arena_grow(branch->arena, branch->heap, branch->heap_count, &branch->heap_capacity,
                              sizeof *branch->heap);
    branch->heap[branch->heap_count++] = atom;
    rise(branch, branch->heap_count - 1);
}

static int32_t remove_first(struct branch *branch)
{
    int32_t atom = branch->heap[0];
    branch->atoms[atom].place = -1;
    int32_t last = branch->heap[--branch->heap_count];
    if (branch->heap_count > 0) {
        put(branch, 0, last);
        sink(branch, 0);
    }
    return atom;
}

static size_t slot_of(const struct branch *branch, int32_t variable, int32_t value)
{
    uint64_t hash = ((uint64_t)(uint32_t)variable << 32 | (uint32_t)value) * 0x9E3779B97F4A7C15u;
    return (size_t)(hash >> 32) & (branch->slot_count - 1);
}

static void hash_in(struct branch *branch, int32_t index)
{
    struct atom *atom = &branch->atoms[index];
    size_t slot = slot_of(branch, atom->variable, atom->value);
    atom->next = branch->slots[slot];
    branch->slots[slot] = index;
}

static int32_t add_atom(struct branch *branch, int32_t variable, int32_t value)
{
    branch->atoms =
        arena_grow(branch->arena, branch->atoms, branch->count, &branch->capacity, sizeof *branch->atoms);
    int32_t index = (int32_t)branch->count++;
    branch->atoms[index] = (struct atom){variable, value, 0, -1, -1};
    if (branch->count > branch->slot_count) {
        clear_slots(branch, 4 * branch->slot_count);
        for (int32_t i = 0; i < index; i++)
            hash_in(branch, i);
    }
    hash_in(branch, index);
    return index;
}

static int32_t find_atom(const struct branch *branch, int32_t variable, int32_t value)
{
    int32_t at = branch->slots[slot_of(branch, variable, value)];
    while (at >= 0 && (branch->atoms[at].variable != variable || branch->atoms[at].value != value))
        at = branch->atoms[at].next;
    return at;
}

void branch_bump(struct branch *branch, struct literal literal)
{
    int32_t variable = literal.bound / 2;
    int32_t value = literal.bound % 2 ? 1 - literal.value : literal.value;
    int32_t atom = find_atom(branch, variable, value);
    bool new = atom < 0;
    if (new)
        atom = add_atom(branch, variable, value);
    branch->atoms[atom].activity += branch->bump;
    if (new)
        insert(branch, atom);
    else if (branch->atoms[atom].place >= 0)
        rise(branch, (size_t)branch->atoms[atom].place);
}

void branch_decay(struct branch *branch)
{
    branch->bump += branch->bump >> 4;
    if (branch->bump < BUMP_MOST)
        return;
    for (size_t i = 0; i < branch->count; i++)
        branch->atoms[i].activity >>= 36;
    branch->bump >>= 36;
    for (size_t i = branch->heap_count / 2 + 1; i-- > 0;) /* dividing may tie what was in order */
        if (i < branch->heap_count)
            sink(branch, i);
}

bool branch_next(struct branch *branch, const struct trail *trail, struct literal *literal)
{
    while (branch->heap_count > 0) {
        int32_t index = remove_first(branch);
        const struct atom *atom = &branch->atoms[index];
        bool open = trail_low(trail, atom->variable) < atom->value &&
                    atom->value <= trail_high(trail, atom->variable);
        branch->removed = arena_grow(branch->arena, branch->removed, branch->removed_count,
                                     &branch->removed_capacity, sizeof *branch->removed);
        branch->removed[branch->removed_count++] = (struct removed){index, (int32_t)trail->level + open};
        *literal = at_least(atom->variable, atom->value);
        if (open)
            return true;
    }
    return false;
}

void branch_backjump(struct branch *branch, size_t level)
{
    while (branch->removed_count > 0 && branch->removed[branch->removed_count - 1].level > (int32_t)level)
        insert(branch, branch->removed[--branch->removed_count].atom);
}

void branch_reduce(struct branch *branch, const struct trail *trail)
{
    size_t kept = 0;
    for (size_t i = 0; i < branch->count; i++) {
        struct atom atom = branch->atoms[i];
        bool open =
            trail_low(trail, atom.variable) < atom.value && atom.value <= trail_high(trail, atom.variable);
        if (!open || atom.activity < branch->bump >> FORGET)
            continue;
        atom.place = -1;
        branch->atoms[kept++] = atom;
    }
    branch->count = kept;
    branch->heap_count = branch->removed_count = 0;
    clear_slots(branch, branch->slot_count);
    for (size_t i = 0; i < kept; i++) {
        hash_in(branch, (int32_t)i);
        insert(branch, (int32_t)i);
    }
}
