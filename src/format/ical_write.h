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

#include "format/file.h"
#include "format/ical_item.h"

struct buf;
struct err_list;

/* Appends the text, with CRLF line ends and folded lines. Of `previous` (NULL: none) everything stays that is not of our own
 * prefixes. Items that stand there unchanged keep their SEQUENCE and stamps, changed ones get the next number, a to-do that
 * was completed stays completed, and what is gone becomes cancelled unless it is over. False: the previous text is no calendar
 * that could be kept; the mistake was added. */
bool ical_write(const struct ical *calendar, const struct file_text *previous, struct buf *out,
                struct err_list *errors);

#endif
