/* Events and to-dos on their way into a calendar, and their ids. */
#ifndef FORMAT_ICAL_ITEM_H
#define FORMAT_ICAL_ITEM_H

#include "base/moment.h"

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

#endif
