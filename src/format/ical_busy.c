#include "format/ical_busy.h"

#include "base/arena.h"
#include "format/ical_when.h"

#include <stdlib.h>
#include <string.h>

enum { SECONDS = 60, EVENT_LONGEST_MIN = 3660 * DAY_MINUTES, BUSY_MOST = 100000 };

/* An occurrence of a repeating event that another event of the same UID replaces. */
struct replaced {
    const char *uid;
    int64_t minute;
};

struct busy_reading {
    struct ical_reading in;
    const struct busy_window *window;
    struct busy_list *list;
    struct replaced *replaced;
    size_t replaced_count, replaced_capacity;
};

static void release(void *calendar)
{
    icalcomponent_free(calendar);
}

static const char *uid_of(icalcomponent *event)
{
    const char *uid = icalcomponent_get_uid(event);
    return uid ? uid : "";
}

/* Does it keep anybody from work? */
static bool blocks(icalcomponent *event)
{
    icalproperty *transparent = icalcomponent_get_first_property(event, ICAL_TRANSP_PROPERTY);
    if (transparent && icalproperty_get_transp(transparent) != ICAL_TRANSP_OPAQUE &&
        icalproperty_get_transp(transparent) != ICAL_TRANSP_OPAQUENOCONFLICT)
        return false;
    return icalcomponent_get_status(event) != ICAL_STATUS_CANCELLED;
}

/* libical drops what it cannot read: each line must have become at least one property. */
static bool whole(const struct ical_reading *in, icalcomponent *event, const struct ical_event *at)
{
    static const icalproperty_kind kinds[WHEN_COUNT] = {
        ICAL_DTSTART_PROPERTY, ICAL_DTEND_PROPERTY,  ICAL_DURATION_PROPERTY,     ICAL_RRULE_PROPERTY,
        ICAL_RDATE_PROPERTY,   ICAL_EXDATE_PROPERTY, ICAL_RECURRENCEID_PROPERTY,
    };
    for (int i = 0; i < WHEN_COUNT; i++)
        if ((size_t)icalcomponent_count_properties(event, kinds[i]) < at->lines[i])
            return ical_refuse(
                in, at->first[i],
                arena_textf(in->reading->arena, "a value that %s can have", ical_when_name(i)));
    if (at->lines[WHEN_DTSTART] != 1)
        return ical_refuse(in, at->at, "an event with one DTSTART");
    return true;
}

static bool end_of(struct busy_reading *b, icalcomponent *event, const struct ical_event *at, int64_t *minute)
{
    icalproperty *p = icalcomponent_get_first_property(event, ICAL_DTEND_PROPERTY);
    return ical_moment(&b->in, icalproperty_get_dtend(p), ical_clock_of(&b->in, p), minute) ||
           ical_refuse(&b->in, at->first[WHEN_DTEND], "a date that exists");
}

/* Minutes from the event's start to its end: by its end, its duration, one day for a date, nothing for a moment. */
static bool length_of(struct busy_reading *b, icalcomponent *event, const struct ical_event *at,
                      int64_t *minutes)
{
    icalproperty *p = icalcomponent_get_first_property(event, ICAL_DTSTART_PROPERTY);
    icalproperty *duration = icalcomponent_get_first_property(event, ICAL_DURATION_PROPERTY);
    struct icaltimetype start = icalproperty_get_dtstart(p);
    int64_t from, to;
    size_t line = at->lines[WHEN_DTEND] ? at->first[WHEN_DTEND] : at->first[WHEN_DURATION];
    if (!ical_moment(&b->in, start, ical_clock_of(&b->in, p), &from))
        return ical_refuse(&b->in, at->first[WHEN_DTSTART], "a date that exists");
    to = start.is_date ? from + DAY_MINUTES : from;
    if (duration)
        to = from + (icaldurationtype_as_int(icalproperty_get_duration(duration)) + SECONDS - 1) / SECONDS;
    if (at->lines[WHEN_DTEND] && !end_of(b, event, at, &to))
        return false;
    *minutes = to - from;
    if (to < from || to - from > EVENT_LONGEST_MIN)
        return ical_refuse(&b->in, line, "an end after the beginning, at most ten years later");
    return true;
}

static int by_minute(const void *a, const void *b)
{
    const struct replaced *x = a, *y = b;
    return (x->minute > y->minute) - (x->minute < y->minute);
}

static bool is_replaced(const struct busy_reading *b, icalcomponent *event, int64_t minute)
{
    size_t low = 0, high = b->replaced_count;
    if (icalcomponent_get_first_property(event, ICAL_RECURRENCEID_PROPERTY))
        return false;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (b->replaced[middle].minute < minute)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < b->replaced_count && b->replaced[low].minute == minute; low++)
        if (strcmp(b->replaced[low].uid, uid_of(event)) == 0)
            return true;
    return false;
}

static bool add_busy(struct busy_reading *b, const struct ical_event *at, int64_t from, int64_t to)
{
    struct busy_list *list = b->list;
    if (to <= b->window->from_min || from >= b->window->to_min || to <= from)
        return true;
    if (list->count == BUSY_MOST)
        return ical_refuse(&b->in, at->at, "at most 100000 busy times");
    list->items =
        arena_grow(b->in.reading->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    list->items[list->count++] = (struct busy_time){from, to};
    return true;
}

/* Whole days end at midnight, however long the nights were; other events are as long as the first. */
static int64_t occurrence_end(const struct busy_reading *b, bool whole_days, int64_t from, int64_t length)
{
    if (!whole_days)
        return from + length;
    int64_t days = (length + DAY_MINUTES / 2) / DAY_MINUTES;
    return zone_moment_on(b->window->zone, zone_day(b->window->zone, from, NULL) + days, 0);
}

static bool read_event(struct busy_reading *b, icalcomponent *event, const struct ical_event *at)
{
    int64_t *starts, length = 0;
    size_t count;
    if (!blocks(event))
        return true;
    if (!length_of(b, event, at, &length))
        return false;
    struct ical_span span = {b->window->from_min - length - DAY_MINUTES, b->window->to_min};
    bool whole_days = icalcomponent_get_dtstart(event).is_date;
    if (!ical_starts(&b->in, event, at, span, &starts, &count))
        return false;
    for (size_t i = 0; i < count; i++)
        if (!is_replaced(b, event, starts[i]) &&
            !add_busy(b, at, starts[i], occurrence_end(b, whole_days, starts[i], length)))
            return false;
    return true;
}

static bool note_replaced(struct busy_reading *b, icalcomponent *event, const struct ical_event *at)
{
    icalproperty *p = icalcomponent_get_first_property(event, ICAL_RECURRENCEID_PROPERTY);
    int64_t minute;
    if (!p)
        return true;
    if (icalproperty_get_first_parameter(p, ICAL_RANGE_PARAMETER))
        return ical_refuse(&b->in, at->first[WHEN_RECURRENCE_ID],
                           "a change of one occurrence, not of a range");
    if (!ical_moment(&b->in, icalproperty_get_recurrenceid(p), ical_clock_of(&b->in, p), &minute))
        return ical_refuse(&b->in, at->first[WHEN_RECURRENCE_ID], "a date that exists");
    b->replaced = arena_grow(b->in.reading->arena, b->replaced, b->replaced_count, &b->replaced_capacity,
                             sizeof *b->replaced);
    b->replaced[b->replaced_count++] = (struct replaced){uid_of(event), minute};
    return true;
}

/* Every event of a calendar by the same function, which goes on after a mistake; `at` follows. */
static void each_event(struct busy_reading *b, icalcomponent *calendar, const struct ical_event **at,
                       bool (*take)(struct busy_reading *, icalcomponent *, const struct ical_event *))
{
    b->in.calendar = calendar;
    names_init(&b->in.zone_names, b->in.reading->arena);
    for (icalcomponent *event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT); event;
         event = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT))
        (void)take(b, event, (*at)++);
}

static bool check_event(struct busy_reading *b, icalcomponent *event, const struct ical_event *at)
{
    return whole(&b->in, event, at) && note_replaced(b, event, at);
}

static void each_calendar(struct busy_reading *b, icalcomponent *root, const struct ical_scan *scan,
                          bool (*take)(struct busy_reading *, icalcomponent *, const struct ical_event *))
{
    const struct ical_event *at = scan->events;
    if (icalcomponent_isa(root) == ICAL_VCALENDAR_COMPONENT) {
        each_event(b, root, &at, take);
        return;
    }
    for (icalcomponent *c = icalcomponent_get_first_component(root, ICAL_VCALENDAR_COMPONENT); c;
         c = icalcomponent_get_next_component(root, ICAL_VCALENDAR_COMPONENT))
        each_event(b, c, &at, take);
}

static size_t count_events(icalcomponent *root)
{
    size_t count = 0;
    if (icalcomponent_isa(root) == ICAL_VCALENDAR_COMPONENT)
        return (size_t)icalcomponent_count_components(root, ICAL_VEVENT_COMPONENT);
    for (icalcomponent *c = icalcomponent_get_first_component(root, ICAL_VCALENDAR_COMPONENT); c;
         c = icalcomponent_get_next_component(root, ICAL_VCALENDAR_COMPONENT))
        count += (size_t)icalcomponent_count_components(c, ICAL_VEVENT_COMPONENT);
    return count;
}

bool busy_read(const struct reading *reading, const struct file_text *file, const struct busy_window *window,
               struct busy_list *list)
{
    struct ical_scan scan;
    size_t before = reading_mistakes(reading);
    struct busy_reading b = {
        .in = {.reading = reading, .file = file, .shop_zone = window->zone}, .window = window, .list = list};
    b.in.years = (struct zone_years){zone_wall(window->zone, window->from_min).year - 1,
                                     zone_wall(window->zone, window->to_min).year + 1};
    if (!ical_scan(reading, file, &scan))
        return false;
    icalerror_set_errors_are_fatal(0);
    icalcomponent *root = icalparser_parse_string(file->text);
    if (!root)
        return ical_refuse(&b.in, 0, "a calendar that can be read");
    arena_own(reading->arena, root, release);
    if (count_events(root) != scan.count)
        return ical_refuse(&b.in, 0, "a calendar whose events can all be read");
    each_calendar(&b, root, &scan, check_event);
    if (b.replaced_count > 1)
        qsort(b.replaced, b.replaced_count, sizeof *b.replaced, by_minute);
    if (reading_mistakes(reading) == before)
        each_calendar(&b, root, &scan, read_event);
    return reading_mistakes(reading) == before;
}

static int by_begin(const void *a, const void *b)
{
    const struct busy_time *x = a, *y = b;
    if (x->from_min != y->from_min)
        return x->from_min < y->from_min ? -1 : 1;
    return (x->to_min > y->to_min) - (x->to_min < y->to_min);
}

void busy_join(struct busy_list *list)
{
    size_t kept = 0;
    if (list->count > 1)
        qsort(list->items, list->count, sizeof *list->items, by_begin);
    for (size_t i = 0; i < list->count; i++) {
        struct busy_time *last = kept ? &list->items[kept - 1] : NULL;
        if (last && list->items[i].from_min <= last->to_min)
            last->to_min = list->items[i].to_min > last->to_min ? list->items[i].to_min : last->to_min;
        else
            list->items[kept++] = list->items[i];
    }
    list->count = kept;
}
