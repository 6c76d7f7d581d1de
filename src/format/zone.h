/* The clock of a place, from the system's zone files (RFC 8536, "The Time Zone Information Format (TZif)"). */
#ifndef FORMAT_ZONE_H
#define FORMAT_ZONE_H

#include "base/moment.h"

#include <stdbool.h>

struct arena;

struct zone_years {
    int first, last; /* 1970 or later */
};

/* The zone of that name ("Europe/London") with its changes from the beginning of the first year to the end of the last;
 * beyond them the nearest offset goes on. NULL: no such zone (ERR_NONE), or its file is there and cannot be read (ERR_FILE). A
 * name is letters, digits and `_ + - /`: it leads nowhere else. UTC needs no file. */
const struct zone *zone_load(struct arena *arena, const char *name, struct zone_years years, struct err *err);

/* The same of the bytes of such a file, of version 2 or later and without leap seconds. NULL: they are none. */
const struct zone *zone_parse(struct arena *arena, const char *name, const char *bytes, size_t length,
                              struct zone_years years);

/* The names that are known, for did-you-mean. */
const char **zone_names(struct arena *arena, size_t *count);

/* A table of changes while it is made, in the order of time. */
struct zone_table {
    struct arena *arena;
    struct zone *zone;
    struct zone_change *changes;
    size_t capacity;
};

/* A zone of that name, with the offset that holds from ever. */
void zone_begin(struct zone_table *table, struct arena *arena, const char *name, int32_t offset_min);
/* Appends a change; what does not change the offset is left out, and of two at one moment the later call holds. */
void zone_add(struct zone_table *table, int64_t from_min, int32_t offset_min);

#endif
