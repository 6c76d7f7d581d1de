#include "solver/engine/atoms.h"

#include <string.h>

#include "base/arena.h"

static const int64_t BUMP_MOST = (int64_t)1 << 50;

enum { BUMP_FIRST = 1 << 12, FORGET = 24 };

void atoms_init(struct atoms *atoms, struct arena *arena, size_t variables)
{
    *atoms = (struct atoms){.arena = arena, .variables = variables, .bump = BUMP_FIRST};
    atoms->lists = ARENA_ARRAY(arena, variables, struct atom_list);
}

static bool before(const struct atoms *atoms, int32_t a, int32_t b)
{
    const struct atom *left = &atoms->items[a], *right = &atoms->items[b];
    return left->activity != right->activity ? left->activity > right->activity : a < b;
}

static void put(struct atoms *atoms, size_t place, int32_t atom)
{
    atoms->heap[place] = atom;
    atoms->items[atom].place = (int32_t)place;
}

static void rise(struct atoms *atoms, size_t place)
{
    int32_t atom = atoms->heap[place];
    for (; place > 0 && before(atoms, atom, atoms->heap[(place - 1) / 2]); place = (place - 1) / 2)
        put(atoms, place, atoms->heap[(place - 1) / 2]);
    put(atoms, place, atom);
}

static void sink(struct atoms *atoms, size_t place)
{
    int32_t atom = atoms->heap[place];
    for (size_t child; (child = 2 * place + 1) < atoms->heap_count; place = child) {
        if (child + 1 < atoms->heap_count && before(atoms, atoms->heap[child + 1], atoms->heap[child]))
            child++;
        if (!before(atoms, atoms->heap[child], atom))
            break;
        put(atoms, place, atoms->heap[child]);
    }
    put(atoms, place, atom);
}

static void insert(struct atoms *atoms, int32_t atom)
{
    if (atoms->items[atom].place >= 0)
        return;
    atoms->heap =
        arena_grow(atoms->arena, atoms->heap, atoms->heap_count, &atoms->heap_capacity, sizeof *atoms->heap);
    atoms->heap[atoms->heap_count++] = atom;
    rise(atoms, atoms->heap_count - 1);
}

static int32_t remove_first(struct atoms *atoms)
{
    int32_t atom = atoms->heap[0], last = atoms->heap[--atoms->heap_count];
    atoms->items[atom].place = -1;
    if (atoms->heap_count > 0) {
        put(atoms, 0, last);
        sink(atoms, 0);
    }
    return atom;
}

size_t atoms_above(const struct atom_list *list, int32_t value)
{
    size_t low = 0, high = list->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (list->items[middle].value > value)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

static void enlist(struct atoms *atoms, size_t place, int32_t index)
{
    const struct atom *atom = &atoms->items[index];
    struct atom_list *list = &atoms->lists[atom->variable];
    list->items = arena_grow(atoms->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    memmove(&list->items[place + 1], &list->items[place], (list->count - place) * sizeof *list->items);
    list->items[place] = (struct atom_at){atom->value, index};
    list->count++;
}

int32_t atoms_of(struct atoms *atoms, struct literal literal)
{
    int32_t variable = literal.bound / 2, value = literal.bound % 2 ? 1 - literal.value : literal.value;
    const struct atom_list *list = &atoms->lists[variable];
    size_t place = atoms_above(list, value - 1);
    if (place < list->count && list->items[place].value == value)
        return list->items[place].atom;
    atoms->items =
        arena_grow(atoms->arena, atoms->items, atoms->count, &atoms->capacity, sizeof *atoms->items);
    atoms->items[atoms->count] = (struct atom){.variable = variable, .value = value, .place = -1};
    enlist(atoms, place, (int32_t)atoms->count);
    return (int32_t)atoms->count++;
}

void atoms_bump(struct atoms *atoms, struct literal literal)
{
    int32_t index = atoms_of(atoms, literal);
    struct atom *atom = &atoms->items[index];
    bool first = atom->activity == 0;
    atom->activity += atoms->bump;
    if (first)
        insert(atoms, index);
    if (atom->place >= 0)
        rise(atoms, (size_t)atom->place);
}

void atoms_decay(struct atoms *atoms)
{
    atoms->bump += atoms->bump >> 4;
    if (atoms->bump < BUMP_MOST)
        return;
    for (size_t i = 0; i < atoms->count; i++)
        atoms->items[i].activity >>= 36;
    atoms->bump >>= 36;
    for (size_t i = atoms->heap_count / 2 + 1; i-- > 0;) /* dividing may tie what was in order */
        if (i < atoms->heap_count)
            sink(atoms, i);
}

static bool is_open(const struct trail *trail, const struct atom *atom)
{
    return trail_low(trail, atom->variable) < atom->value && atom->value <= trail_high(trail, atom->variable);
}

bool atoms_next(struct atoms *atoms, const struct trail *trail, struct literal *literal)
{
    while (atoms->heap_count > 0) {
        int32_t index = remove_first(atoms);
        const struct atom *atom = &atoms->items[index];
        bool open = is_open(trail, atom);
        atoms->removed = arena_grow(atoms->arena, atoms->removed, atoms->removed_count,
                                    &atoms->removed_capacity, sizeof *atoms->removed);
        atoms->removed[atoms->removed_count++] = (struct removed){index, (int32_t)trail->level + open};
        *literal = at_least(atom->variable, atom->value);
        if (open)
            return true;
    }
    return false;
}

void atoms_backjump(struct atoms *atoms, size_t level)
{
    while (atoms->removed_count > 0 && atoms->removed[atoms->removed_count - 1].level > (int32_t)level)
        insert(atoms, atoms->removed[--atoms->removed_count].atom);
}

void atoms_reduce(struct atoms *atoms, const struct trail *trail)
{
    size_t kept = 0;
    if (atoms->renumbered_capacity < atoms->count) {
        atoms->renumbered_capacity = 2 * atoms->count;
        atoms->renumbered = ARENA_ARRAY(atoms->arena, atoms->renumbered_capacity, int32_t);
    }
    for (size_t v = 0; v < atoms->variables; v++)
        atoms->lists[v].count = 0;
    atoms->heap_count = atoms->removed_count = 0;
    for (size_t i = 0; i < atoms->count; i++) {
        struct atom atom = atoms->items[i];
        atoms->renumbered[i] = -1;
        if (!is_open(trail, &atom) || atom.activity < atoms->bump >> FORGET || atom.activity == 0)
            continue;
        atom.place = -1;
        atoms->items[kept] = atom;
        enlist(atoms, atoms_above(&atoms->lists[atom.variable], atom.value), (int32_t)kept);
        atoms->renumbered[i] = (int32_t)kept;
        insert(atoms, (int32_t)kept++);
    }
    atoms->count = kept;
}
