/* The clock of a place as a calendar describes it (RFC 5545, section 3.6.5). */
#ifndef FORMAT_ICAL_VTIMEZONE_H
#define FORMAT_ICAL_VTIMEZONE_H

#include "format/ical_text.h"
#include "format/zone.h"

struct buf;

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
