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

/* The names that are known, for did-you-mean. */
const char **zone_names(struct arena *arena, size_t *count);

/* The zone that a VTIMEZONE describes (RFC 5545, section 3.6.5). NULL: it cannot be understood, or not in the number of
 * steps that are left. */
const struct zone *ical_zone_read(struct arena *arena, const struct ical_component *component,
                                  struct zone_years years, int64_t *steps);

/* Whether the zone is UTC itself, which needs no description. */
bool ical_zone_is_utc(const struct zone *zone);

/* Appends a zone as a VTIMEZONE for the moments between two: changes that come back every year as rules, each other one by
 * itself, for with lists of dates some readers are an hour off. UTC gives nothing. */
void ical_zone_write(struct buf *out, const struct zone *zone, int64_t from_min, int64_t to_min);

#endif
