#include "format/names.h"

#include "base/arena.h"
#include "base/text.h"

#include <stdint.h>
#include <string.h>

enum { FIRST_SLOTS = 32 };

void names_init(struct names *names, struct arena *arena)
{
    *names = (struct names){.arena = arena, .slot_count = FIRST_SLOTS};
    names->slots = ARENA_ARRAY(arena, FIRST_SLOTS, size_t);
}

/* The slot of a name, or the free one where it belongs; slot_count is a power of two. */
static size_t slot_of(const struct names *names, const char *name)
{
    uint64_t h = text_hash(TEXT_HASH, name);
    size_t mask = names->slot_count - 1, at = (size_t)(h ^ (h >> 32)) & mask;
    while (names->slots[at] && strcmp(names->items[names->slots[at] - 1], name) != 0)
        at = (at + 1) & mask;
    return at;
}

static void double_slots(struct names *names)
{
    names->slot_count *= 2;
    names->slots = ARENA_ARRAY(names->arena, names->slot_count, size_t);
    for (size_t i = 0; i < names->count; i++)
        names->slots[slot_of(names, names->items[i])] = i + 1;
}

size_t names_add(struct names *names, const char *name, bool *added)
{
    size_t slot = slot_of(names, name);
    *added = names->slots[slot] == 0;
    if (!*added)
        return names->slots[slot] - 1;
    names->items =
        arena_grow(names->arena, names->items, names->count, &names->capacity, sizeof *names->items);
    names->items[names->count++] = name;
    names->slots[slot] = names->count;
    if (names->count * 2 > names->slot_count)
        double_slots(names);
    return names->count - 1;
}

bool names_find(const struct names *names, const char *name, size_t *index)
{
    size_t slot = slot_of(names, name);
    if (names->slots[slot] == 0)
        return false;
    *index = names->slots[slot] - 1;
    return true;
}
