/* One event of a foreign calendar: its clock, its length, its occurrences. */
#ifndef FORMAT_ICAL_EVENT_H
#define FORMAT_ICAL_EVENT_H

#include "format/ical_text.h"
#include "format/ical_value.h"
#include "format/ical_vtimezone.h"
#include "format/names.h"

struct ical_clock {
    const struct zone *zone;
};

/* A file while it is read. */
struct ical_reading {
    const struct reading *reading;
    const struct file_text *file;
    const struct zone *shop_zone; /* of whole days, and of moments that name no zone */
    struct zone_years years;
    int64_t *steps; /* spent on rules so far */

    const struct ical_component *calendar; /* the one at hand */
    bool cancelling;                       /* it takes its events back */
    struct names zone_names;               /* zones used so far: what each is */
    struct ical_clock *zones;
    size_t zone_capacity;
};

struct ical_event {
    const struct ical_component *component;
    const char *uid;
    bool blocks;             /* it keeps somebody from work */
    bool change, future;     /* it replaces one occurrence of another event; and all later ones, too */
    int64_t replaces_min;    /* which */
    const struct zone *zone; /* of its start */
    struct ical_time start;
    int64_t start_min;
    struct ical_span span; /* days of the calendar, then minutes */
};

/* A time that an event takes; to_min INT64_MIN: as long as the event is. */
struct ical_occurrence {
    int64_t from_min, to_min;
    struct ical_time wall; /* in the event's zone */
};

struct ical_window {
    int64_t from_min, to_min;
};

/* Who takes the occurrences, in any order, some of them twice; false: no more are wanted. */
struct ical_sink {
    void *to;
    bool (*take)(void *to, struct ical_occurrence occurrence);
};

/* Turns to a calendar of the file, whose zones are its own. */
void ical_begin_calendar(struct ical_reading *in, const struct ical_component *calendar);

/* Whether an event keeps somebody from work: it is neither transparent, nor cancelled, nor declined. */
bool ical_blocks(const struct ical_reading *in, const struct ical_component *component);

/* NULL: a mistake was added. */
struct ical_event *ical_event_read(struct ical_reading *in, const struct ical_component *component);

/* The most minutes that an occurrence may last. */
int64_t ical_longest(const struct ical_event *event);
int64_t ical_end_of(const struct ical_event *event, const struct ical_occurrence *occurrence);

/* The occurrences that begin within a window, exceptions left out. False: a mistake was added. */
bool ical_occurrences(struct ical_reading *in, const struct ical_event *event, struct ical_window window,
                      struct ical_sink sink);

/* An occurrence as it is after a change of one before it and of all later ones: moved by as much on the wall. */
struct ical_occurrence ical_moved(const struct ical_event *change, struct ical_occurrence occurrence);

/* A period at *at, "20270303T090000Z/PT3H", up to a comma or the end; `zone` where it names none. */
bool ical_period_read(struct ical_reading *in, const struct ical_property *property, const struct zone *zone,
                      const char **at, struct ical_occurrence *period);

/* Adds a mistake at a line of the file; false. */
bool ical_refuse(const struct ical_reading *in, size_t at, const char *expected);

#endif
