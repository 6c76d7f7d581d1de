/* Names -> indices, for lists that may be long: a hash table. */
#ifndef FORMAT_NAMES_H
#define FORMAT_NAMES_H

#include <stdbool.h>
#include <stddef.h>

struct arena;

struct names {
    struct arena *arena;
    const char **items; /* in the order added; borrowed */
    size_t count, capacity;
    size_t *slots; /* index + 1, 0 is free */
    size_t slot_count;
};

void names_init(struct names *names, struct arena *arena);

/* The index of a name; *added tells whether it is new. The text must live as long as the table. */
size_t names_add(struct names *names, const char *name, bool *added);

/* False: not there. */
bool names_find(const struct names *names, const char *name, size_t *index);

#endif
