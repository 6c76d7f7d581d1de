/* The clock of a place: from the system's zone files by way of libical, or as a calendar describes it. */
#ifndef FORMAT_ICAL_ZONE_H
#define FORMAT_ICAL_ZONE_H

#include "base/moment.h"
#include "format/ical_text.h"

struct zone_years {
    int first, last;
};

/* The zone of that name ("Europe/London") with its changes from the beginning of the first year to the end of the last;
 * beyond them the nearest offset goes on. NULL: no such zone, or its file cannot be read. A name is letters, digits and
 * `_ + - /`: it leads nowhere else. */
const struct zone *zone_load(struct arena *arena, const char *name, struct zone_years years);

/* The names that are known, for did-you-mean; borrowed from libical. */
const char **zone_names(struct arena *arena, size_t *count);

/* The zone that a VTIMEZONE describes (RFC 5545, section 3.6.5). NULL: it cannot be understood, or not in the number of
 * steps that are left. */
const struct zone *ical_zone_read(struct arena *arena, const struct ical_component *component,
                                  struct zone_years years, int64_t *steps);

#endif
