/* A calendar as text (RFC 5545): events and to-dos of one zone, in the order in which they were added.
 *
 *     struct ical calendar;
 *     ical_init(&calendar, arena, zone, now_min);
 *     struct ical_item *item = ical_add(&calendar, "desk/top/1@shop", "top: coat 1", "apply");
 *     item->from_min = ...
 *     ical_alarm(&calendar, item, minute, "start by 14:00");
 *     ical_write(&calendar, &previous, &out)
 */
#ifndef FORMAT_ICAL_WRITE_H
#define FORMAT_ICAL_WRITE_H

#include "base/moment.h"
#include "format/file.h"

#include <stdbool.h>

struct arena;
struct buf;

struct ical_alarm {
    int64_t minute;
    const char *words;
};

/* Texts are borrowed until ical_write; control characters in them become blanks. */
struct ical_item {
    bool todo; /* something to be done by to_min rather than an event */
    bool transparent;
    const char *uid, *summary, *category;
    const char *description;  /* "": none */
    int64_t from_min, to_min; /* INT64_MAX: none */
    const char **after;       /* UIDs of what it waits for */
    size_t after_count, after_capacity;
    struct ical_alarm *alarms;
    size_t alarm_count, alarm_capacity;
};

struct ical {
    struct arena *arena;
    const struct zone *zone;
    int64_t now_min; /* DTSTAMP, and LAST-MODIFIED of what changed */
    struct ical_item *items;
    size_t count, capacity;
};

void ical_init(struct ical *calendar, struct arena *arena, const struct zone *zone, int64_t now_min);

/* A new item, to be filled in until the next one is added. */
struct ical_item *ical_add(struct ical *calendar, const char *uid, const char *summary, const char *category);
void ical_alarm(const struct ical *calendar, struct ical_item *item, int64_t minute, const char *words);
void ical_after(const struct ical *calendar, struct ical_item *item, const char *uid);

/* Appends the text, with CRLF line ends and folded lines. Items that stand in `previous` (NULL: none) unchanged keep their
 * SEQUENCE and LAST-MODIFIED, changed ones get the next number. False: the system does not know the zone. */
bool ical_write(const struct ical *calendar, const struct file_text *previous, struct buf *out);

#endif
