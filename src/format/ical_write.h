/* A calendar as text (RFC 5545): events and to-dos of one zone, in the order in which they were added, put into the calendar
 * that stands there already.
 *
 *     struct ical calendar;
 *     ical_init(&calendar, arena, zone, now_min);
 *     const char *ours = ical_prefix(arena, "Writing desk", key);
 *     ical_own(&calendar, ours);
 *     struct ical_item *item = ical_add(&calendar, ical_uid(arena, ours, "top/1/apply"), "top: coat 1", "apply");
 *     item->from_min = ...
 *     ical_alarm(&calendar, item, minute, "start by 14:00");
 *     ical_write(&calendar, &previous, &out, errors)
 */
#ifndef FORMAT_ICAL_WRITE_H
#define FORMAT_ICAL_WRITE_H

#include "base/moment.h"
#include "format/file.h"

#include <stdbool.h>

struct arena;

enum { ICAL_UID_MOST = 255 }; /* octets: what servers take (RFC 7986, section 5.3) */

struct ical_alarm {
    int64_t minute;
    const char *words;
};

/* Texts are borrowed until ical_write; control characters in them become blanks. */
struct ical_item {
    bool todo; /* something to be done by to_min rather than an event */
    bool transparent;
    bool all_day; /* on the day of from_min, or done by the end of that of to_min */
    const char *uid, *summary, *category;
    const char *description;  /* "": none */
    int64_t from_min, to_min; /* INT64_MAX: none; an event without an end is a moment */
    const char **after;       /* UIDs of what it waits for */
    size_t after_count, after_capacity;
    struct ical_alarm *alarms;
    size_t alarm_count, alarm_capacity;
};

struct ical {
    struct arena *arena;
    const struct zone *zone;
    int64_t now_min;   /* the stamp of what is new or changed */
    const char **ours; /* what the UIDs of these items, old ones too, begin with */
    size_t own_count, own_capacity;
    struct ical_item *items;
    size_t count, capacity;
};

void ical_init(struct ical *calendar, struct arena *arena, const struct zone *zone, int64_t now_min);

/* What the UIDs of one source of items begin with: its name, as far as an id can hold it, and a key that tells it from others
 * of that name ("": none). */
const char *ical_prefix(struct arena *arena, const char *name, const char *key);
/* A UID of at most ICAL_UID_MOST octets; of a longer text its beginning and its hash. */
const char *ical_uid(struct arena *arena, const char *prefix, const char *id);
void ical_own(struct ical *calendar, const char *prefix);

/* A new item, to be filled in until the next one is added. */
struct ical_item *ical_add(struct ical *calendar, const char *uid, const char *summary, const char *category);
void ical_alarm(const struct ical *calendar, struct ical_item *item, int64_t minute, const char *words);
void ical_after(const struct ical *calendar, struct ical_item *item, const char *uid);

struct buf;
struct err_list;

/* Appends the text, with CRLF line ends and folded lines. Of `previous` (NULL: none) everything stays that is not of our own
 * prefixes. Items that stand there unchanged keep their SEQUENCE and stamps, changed ones get the next number, a to-do that
 * was completed stays completed, and what is gone becomes cancelled unless it is over. False: the previous text is no calendar
 * that could be kept; the mistake was added. */
bool ical_write(const struct ical *calendar, const struct file_text *previous, struct buf *out,
                struct err_list *errors);

#endif
