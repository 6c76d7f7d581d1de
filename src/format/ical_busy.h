/* Times at which nobody works, from another program's calendar (RFC 5545). Such a file is not trusted: what cannot be
 * understood is a mistake at its line, and no rule runs for long. */
#ifndef FORMAT_ICAL_BUSY_H
#define FORMAT_ICAL_BUSY_H

#include "base/moment.h"
#include "format/place.h"

/* The time that matters, and the shop's clock for moments without a zone and for whole days. */
struct busy_window {
    const struct zone *zone;
    int64_t from_min, to_min;
};

struct busy_time {
    int64_t from_min, to_min;
};

/* Of one file or of several, one after the other. */
struct busy_list {
    struct busy_time *items;
    size_t count, capacity;
    size_t events; /* that were read and keep somebody busy, in whatever year */
    int64_t steps; /* spent on rules, in all files */
};

/* Appends what meets the window. Every event counts but for transparent, cancelled and declined ones; repeating ones with
 * their exceptions; an event of whole days lasts from midnight to midnight; free-and-busy times count where they are not
 * free. False: mistakes were added. */
bool busy_read(const struct reading *reading, const struct file_text *file, const struct busy_window *window,
               struct busy_list *list);

/* Puts them in order and joins those that touch. */
void busy_join(struct busy_list *list);

/* Minutes of a list in order that lie between two moments. */
int64_t busy_minutes(const struct busy_list *list, int64_t from_min, int64_t to_min);

#endif
