#include "format/ical_write.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "format/ical_text.h"
#include "format/ical_value.h"
#include "format/ical_vtimezone.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

enum { PREFIX_MOST = 80 };

void ical_init(struct ical *calendar, struct arena *arena, const struct zone *zone, int64_t now_min)
{
    *calendar = (struct ical){.arena = arena, .zone = zone, .now_min = now_min};
}

/* The text, or its beginning, no character cut apart, and its hash. */
static const char *shortened(struct arena *arena, const char *text, size_t most)
{
    size_t end = most - 17;
    if (strlen(text) <= most)
        return text;
    while (end > 0 && ((unsigned char)text[end] & 0xC0) == 0x80)
        end--;
    return arena_textf(arena, "%.*s-%016" PRIx64, (int)end, text, text_hash(TEXT_HASH, text));
}

const char *ical_prefix(struct arena *arena, const char *name, const char *key)
{
    const char *slug = shortened(arena, text_slug(arena, name), PREFIX_MOST);
    return key[0] ? arena_textf(arena, "%s-%s/", slug, key) : arena_textf(arena, "%s/", slug);
}

const char *ical_uid(struct arena *arena, const char *prefix, const char *id)
{
    static const char host[] = "@coatwright";
    return arena_textf(
        arena, "%s%s",
        shortened(arena, arena_textf(arena, "%s%s", prefix, id), ICAL_UID_MOST - sizeof host + 1), host);
}

void ical_own(struct ical *calendar, const char *prefix)
{
    calendar->ours = arena_grow(calendar->arena, calendar->ours, calendar->own_count, &calendar->own_capacity,
                                sizeof *calendar->ours);
    calendar->ours[calendar->own_count++] = prefix;
}

struct ical_item *ical_add(struct ical *calendar, const char *uid, const char *summary, const char *category)
{
    calendar->items = arena_grow(calendar->arena, calendar->items, calendar->count, &calendar->capacity,
                                 sizeof *calendar->items);
    struct ical_item *item = &calendar->items[calendar->count++];
    *item = (struct ical_item){.uid = uid,
                               .summary = summary,
                               .category = category,
                               .description = "",
                               .from_min = INT64_MAX,
                               .to_min = INT64_MAX};
    return item;
}

void ical_alarm(const struct ical *calendar, struct ical_item *item, int64_t minute, const char *words)
{
    item->alarms = arena_grow(calendar->arena, item->alarms, item->alarm_count, &item->alarm_capacity,
                              sizeof *item->alarms);
    item->alarms[item->alarm_count++] = (struct ical_alarm){minute, words};
}

void ical_after(const struct ical *calendar, struct ical_item *item, const char *uid)
{
    item->after = arena_grow(calendar->arena, item->after, item->after_count, &item->after_capacity,
                             sizeof *item->after);
    item->after[item->after_count++] = uid;
}

enum { YEAR_MIN = 365 * DAY_MINUTES };

/* The value of a text property (RFC 5545, 3.3.11). What a calendar cannot hold, or what would turn the line around on a
 * screen, becomes a blank. */
static void add_text(struct buf *out, const char *name, const char *text)
{
    buf_addf(out, "%s:", name);
    while (*text) {
        const char *from = text;
        uint32_t c = text_next(&text);
        if (c == '\n')
            buf_add(out, "\\n");
        else if (c == '\\' || c == ';' || c == ',')
            buf_addf(out, "\\%c", (char)c);
        else if (text_is_control(c))
            buf_add_char(out, ' ');
        else
            buf_add_n(out, from, (size_t)(text - from));
    }
    buf_add(out, "\r\n");
}

static void add_line(struct buf *out, const char *name, const char *value)
{
    buf_addf(out, "%s:%s\r\n", name, value);
}

static const char *wall_stamp(struct arena *arena, struct wall wall)
{
    return arena_textf(arena, "%04d%02d%02dT%02d%02d00", wall.year, wall.month, wall.day, wall.hour,
                       wall.minute);
}

static const char *utc_stamp(struct arena *arena, int64_t minute)
{
    return arena_text(arena, ical_utc(minute).text);
}

static bool same_wall(struct wall a, struct wall b)
{
    return a.day == b.day && a.hour == b.hour && a.minute == b.minute;
}

/* In the hour that comes twice readers disagree: such a moment is given in UTC. */
static bool wall_is_ambiguous(const struct zone *zone, int64_t minute)
{
    int32_t before = zone_offset_at(zone, minute - DAY_MINUTES),
            after = zone_offset_at(zone, minute + DAY_MINUTES);
    int32_t shift = before > after ? before - after : after - before;
    if (shift == 0)
        return false;
    struct wall wall = zone_wall(zone, minute);
    return same_wall(wall, zone_wall(zone, minute + shift)) ||
           same_wall(wall, zone_wall(zone, minute - shift)) || zone_moment(zone, wall) != minute;
}

/* DTSTART, DTEND or DUE on the zone's wall; the day alone where the item is all day. */
static void add_moment(const struct ical *calendar, struct buf *out, const struct ical_item *item,
                       const char *name, int64_t minute)
{
    const struct zone *zone = calendar->zone;
    if (minute == INT64_MAX)
        return;
    struct wall wall = zone_wall(zone, minute);
    if (item->all_day)
        buf_addf(out, "%s;VALUE=DATE:%04d%02d%02d\r\n", name, wall.year, wall.month, wall.day);
    else if (ical_zone_is_utc(zone) || wall_is_ambiguous(zone, minute))
        add_line(out, name, utc_stamp(calendar->arena, minute));
    else
        buf_addf(out, "%s;TZID=%s:%s\r\n", name, zone->name, wall_stamp(calendar->arena, wall));
}

/* An alarm moves with its event: it is given as the minutes to the event's start, or to a to-do's end. */
static void add_alarm(struct buf *out, const struct ical_item *item, const struct ical_alarm *alarm)
{
    int64_t minutes = alarm->minute - (item->todo ? item->to_min : item->from_min);
    buf_add(out, "BEGIN:VALARM\r\nACTION:DISPLAY\r\n");
    buf_addf(out, "TRIGGER%s:%sPT%" PRId64 "M\r\n", item->todo ? ";RELATED=END" : "", minutes < 0 ? "-" : "",
             minutes < 0 ? -minutes : minutes);
    add_text(out, "DESCRIPTION", alarm->words);
    buf_add(out, "END:VALARM\r\n");
}

/* All that a new version of the item says, its stamps apart. */
static const char *essence_of(const struct ical *calendar, const struct ical_item *item)
{
    struct buf out;
    buf_init(&out, calendar->arena);
    add_text(&out, "UID", item->uid);
    add_text(&out, "SUMMARY", item->summary);
    add_text(&out, "CATEGORIES", item->category);
    if (item->description[0])
        add_text(&out, "DESCRIPTION", item->description);
    add_moment(calendar, &out, item, "DTSTART", item->from_min);
    add_moment(calendar, &out, item, item->todo ? "DUE" : "DTEND", item->to_min);
    if (item->transparent)
        add_line(&out, "TRANSP", "TRANSPARENT");
    for (size_t i = 0; i < item->after_count; i++)
        add_text(&out, "RELATED-TO;RELTYPE=DEPENDS-ON", item->after[i]);
    for (size_t i = 0; i < item->alarm_count; i++)
        add_alarm(&out, item, &item->alarms[i]);
    return out.text;
}

/* Which lines of an old component go into the new calendar. */
enum keep { KEEP_ALL, KEEP_ESSENCE, KEEP_CANCELLED };

/* In upper or lower case (RFC 5545, 2). */
static bool is_one_of(const char *name, const char *const *names)
{
    while (*names && !text_same(*names, name))
        names++;
    return *names != NULL;
}

static bool keeps(enum keep keep, const char *name, bool todo, bool in_alarm)
{
    static const char *const stamps[] = {"DTSTAMP", "SEQUENCE", "LAST-MODIFIED", NULL};
    static const char *const states[] = {"STATUS", "COMPLETED", "PERCENT-COMPLETE", NULL};
    if (keep == KEEP_ALL)
        return true;
    if (is_one_of(name, stamps) && !in_alarm)
        return false;
    if (keep == KEEP_CANCELLED)
        return !in_alarm && !text_same(name, "STATUS");
    return in_alarm || !todo || !is_one_of(name, states);
}

/* The lines of an old component, unfolded, without its first and last but with KEEP_ALL. */
static void add_old(const struct file_text *file, const struct ical_component *old, enum keep keep,
                    struct buf *out)
{
    struct buf line, name;
    int depth = 0;
    bool todo = strcmp(old->name, "VTODO") == 0;
    buf_init(&line, out->arena);
    buf_init(&name, out->arena);
    for (size_t at = old->at; at < old->end;) {
        at = ical_text_line(file, at, &line);
        name.length = 0;
        buf_add_n(&name, line.text, strcspn(line.text, ":;"));
        bool begins = text_same(name.text, "BEGIN"), ends = text_same(name.text, "END");
        depth += begins;
        bool edge = depth == 1 && (begins || ends), inner = depth > 1;
        depth -= ends;
        if (line.length && (keep == KEEP_ALL || !edge) && keeps(keep, name.text, todo, inner))
            buf_addf(out, "%s\r\n", line.text);
    }
}

static const char *value_of(const struct ical_component *component, const char *name)
{
    const struct ical_property *property = ical_property_find(component->properties, name);
    return property ? property->value : "";
}

/* SEQUENCE never falls and never wraps (RFC 5545, 3.8.7.4 has it a 32-bit integer). */
static int32_t next_sequence(const struct ical_component *old, bool changed)
{
    long sequence = strtol(value_of(old, "SEQUENCE"), NULL, 10);
    sequence = sequence < 0 ? 0 : sequence > INT32_MAX ? INT32_MAX : sequence;
    return (int32_t)(changed && sequence < INT32_MAX ? sequence + 1 : sequence);
}

static void add_stamps(struct buf *out, int32_t sequence, const char *modified)
{
    add_line(out, "DTSTAMP", modified);
    buf_addf(out, "SEQUENCE:%" PRId32 "\r\n", sequence);
    add_line(out, "LAST-MODIFIED", modified);
}

static void add_done(const struct ical_component *old, struct buf *out)
{
    static const char *const states[] = {"STATUS", "COMPLETED", "PERCENT-COMPLETE"};
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++)
        if (value_of(old, states[i])[0])
            add_line(out, states[i], value_of(old, states[i]));
}

static void add_item(const struct ical *calendar, const struct ical_item *item, const struct file_text *file,
                     const struct ical_component *old, struct buf *out)
{
    const char *kind = item->todo ? "VTODO" : "VEVENT", *essence = essence_of(calendar, item);
    const char *modified = utc_stamp(calendar->arena, calendar->now_min), *before = "";
    struct buf was;
    bool changed = true;
    buf_init(&was, calendar->arena);
    if (old) {
        struct ical_time time;
        const char *next;
        add_old(file, old, KEEP_ESSENCE, &was);
        changed = strcmp(was.text, essence) != 0;
        before = value_of(old, "LAST-MODIFIED");
        if (!changed && ical_time_read(before, &time, &next) && time.utc)
            modified = before;
    }
    add_line(out, "BEGIN", kind);
    buf_add(out, essence);
    add_stamps(out, old ? next_sequence(old, changed) : 0, modified);
    if (old && item->todo)
        add_done(old, out);
    add_line(out, "END", kind);
}

struct old {
    const struct ical_component *component;
};

/* The old calendar while the new one is written. */
struct merging {
    const struct ical *calendar;
    const struct file_text *file;
    const struct ical_component *old; /* its VCALENDAR; NULL: none */
    struct old *by_uid;
    size_t count;
};

/* A zone or a journal entry with a UID of ours was not written by us. */
static bool may_be_ours(const struct ical_component *component)
{
    return strcmp(component->name, "VEVENT") == 0 || strcmp(component->name, "VTODO") == 0;
}

static int by_uid(const void *a, const void *b)
{
    const struct ical_component *x = ((const struct old *)a)->component,
                                *y = ((const struct old *)b)->component;
    int order = strcmp(value_of(x, "UID"), value_of(y, "UID"));
    return order ? order : (x->at > y->at) - (x->at < y->at);
}

/* An escaped UID as it stands in the text. */
static const char *uid_text(struct arena *arena, const char *uid)
{
    struct buf out;
    buf_init(&out, arena);
    add_text(&out, "", uid);
    out.text[out.length - 2] = '\0';
    return out.text + 1;
}

static const struct ical_component *old_of(const struct merging *merging, const char *uid)
{
    const char *wanted = uid_text(merging->calendar->arena, uid);
    size_t low = 0, high = merging->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(value_of(merging->by_uid[middle].component, "UID"), wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    bool found = low < merging->count && strcmp(value_of(merging->by_uid[low].component, "UID"), wanted) == 0;
    return found ? merging->by_uid[low].component : NULL;
}

static bool is_ours(const struct ical *calendar, const struct ical_component *component)
{
    const char *uid = value_of(component, "UID");
    for (size_t i = 0; i < calendar->own_count && may_be_ours(component); i++) {
        const char *prefix = uid_text(calendar->arena, calendar->ours[i]);
        if (strncmp(uid, prefix, strlen(prefix)) == 0)
            return true;
    }
    return false;
}

/* What ended before now is a fact that no plan takes back: without an end, a moment or the day of its start. */
static bool is_over(const struct ical *calendar, const struct ical_component *component)
{
    const struct ical_property *end = ical_property_find(component->properties, "DTEND");
    if (!end)
        end = ical_property_find(component->properties, "DTSTART");
    struct ical_time time;
    const char *next, *zone = end ? ical_parameter(calendar->arena, end, "TZID") : NULL;
    if (!end || !ical_time_read(end->value, &time, &next))
        return false;
    if (time.date)
        return zone_moment_on(calendar->zone, time.day + 1, 0) <= calendar->now_min;
    if (!time.utc && !(zone && strcmp(zone, calendar->zone->name) == 0))
        return false;
    int64_t minute = time.utc ? time.day * DAY_MINUTES + time.minute
                              : zone_moment_on(calendar->zone, time.day, time.minute);
    return minute <= calendar->now_min;
}

/* What stood in the old calendar and is not ours, or is ours and gone. */
static void add_left(const struct merging *merging, const struct ical_component *component, struct buf *out)
{
    const struct ical *calendar = merging->calendar;
    const char *status = value_of(component, "STATUS");
    bool settled = text_same(status, "CANCELLED") || text_same(status, "COMPLETED");
    if (!is_ours(calendar, component) || settled || is_over(calendar, component)) {
        add_old(merging->file, component, KEEP_ALL, out);
        return;
    }
    add_line(out, "BEGIN", component->name);
    add_old(merging->file, component, KEEP_CANCELLED, out);
    add_stamps(out, next_sequence(component, true), utc_stamp(calendar->arena, calendar->now_min));
    add_line(out, "STATUS", "CANCELLED");
    add_line(out, "END", component->name);
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* Everything of the old calendar that no new item replaces, in its order; a zone of our own name is replaced, too. */
static void add_others(const struct merging *merging, bool zones, struct buf *out)
{
    const struct ical *calendar = merging->calendar;
    const char **uids = ARENA_ARRAY(calendar->arena, calendar->count, const char *);
    for (size_t i = 0; i < calendar->count; i++)
        uids[i] = uid_text(calendar->arena, calendar->items[i].uid);
    if (calendar->count > 1)
        qsort(uids, calendar->count, sizeof *uids, by_text);
    for (const struct ical_component *c = merging->old ? merging->old->children : NULL; c; c = c->next) {
        bool zone = strcmp(c->name, "VTIMEZONE") == 0;
        const char *uid = value_of(c, "UID");
        if (zone != zones || (zone && strcmp(value_of(c, "TZID"), calendar->zone->name) == 0))
            continue;
        if (!may_be_ours(c) || !calendar->count ||
            !bsearch(&uid, uids, calendar->count, sizeof *uids, by_text))
            add_left(merging, c, out);
    }
}

static void add_head(const struct merging *merging, struct buf *out)
{
    static const char *const written[] = {"VERSION", "PRODID", "METHOD", "CALSCALE", NULL};
    const struct ical_property *p = merging->old ? merging->old->properties : NULL;
    struct buf line;
    buf_init(&line, out->arena);
    buf_add(out, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Coatwright//Coatwright//EN\r\n");
    for (; p; p = p->next)
        if (!is_one_of(p->name, written)) {
            (void)ical_text_line(merging->file, p->at, &line);
            buf_addf(out, "%s\r\n", line.text);
        }
}

static bool read_previous(struct merging *merging, struct err_list *errors)
{
    struct arena *arena = merging->calendar->arena;
    struct reading reading = {.arena = arena, .errors = errors, .warnings = errors};
    const struct ical_component *read = ical_text_read(&reading, merging->file);
    size_t capacity = 0;
    if (!read)
        return false;
    if (read->next) {
        (void)text_wrong(errors, merging->file, read->next->at, "", "one calendar", "a second one");
        return false;
    }
    merging->old = read;
    for (const struct ical_component *c = read->children; c; c = c->next)
        if (may_be_ours(c) && value_of(c, "UID")[0]) {
            merging->by_uid =
                arena_grow(arena, merging->by_uid, merging->count, &capacity, sizeof *merging->by_uid);
            merging->by_uid[merging->count++].component = c;
        }
    if (merging->count > 1)
        qsort(merging->by_uid, merging->count, sizeof *merging->by_uid, by_uid);
    return true;
}

static void take(int64_t minute, int64_t span[2])
{
    if (minute == INT64_MAX)
        return;
    span[0] = minute < span[0] ? minute : span[0];
    span[1] = minute > span[1] ? minute : span[1];
}

static void add_zone(const struct ical *calendar, struct buf *out)
{
    int64_t span[2] = {calendar->now_min, calendar->now_min};
    for (size_t i = 0; i < calendar->count; i++) {
        take(calendar->items[i].from_min, span);
        take(calendar->items[i].to_min, span);
    }
    ical_zone_write(out, calendar->zone, span[0] - YEAR_MIN, span[1] + YEAR_MIN);
}

bool ical_write(const struct ical *calendar, const struct file_text *previous, struct buf *out,
                struct err_list *errors)
{
    struct merging merging = {.calendar = calendar, .file = previous};
    struct buf text;
    if (previous && !read_previous(&merging, errors))
        return false;
    buf_init(&text, calendar->arena);
    add_head(&merging, &text);
    add_zone(calendar, &text);
    add_others(&merging, true, &text);
    for (size_t i = 0; i < calendar->count; i++)
        add_item(calendar, &calendar->items[i], previous, old_of(&merging, calendar->items[i].uid), &text);
    add_others(&merging, false, &text);
    buf_add(&text, "END:VCALENDAR\r\n");
    ical_fold(text.text, out);
    return true;
}
