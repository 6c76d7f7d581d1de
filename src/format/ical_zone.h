/* The clock of a place, from the system's zone files by way of libical. */
#ifndef FORMAT_ICAL_ZONE_H
#define FORMAT_ICAL_ZONE_H

#include "base/moment.h"

struct arena;

struct zone_years {
    int first, last;
};

/* The zone of that name ("Europe/London") with its changes from the beginning of the first year to the end of the last;
 * beyond them the nearest offset goes on. NULL: no such zone, or its file cannot be read. A name is letters, digits and
 * `_ + - /`: it leads nowhere else. */
const struct zone *zone_load(struct arena *arena, const char *name, struct zone_years years);

/* The names that are known, for did-you-mean. */
const char **zone_names(struct arena *arena, size_t *count);

#endif
