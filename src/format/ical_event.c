#include "format/ical_event.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/ical_rule.h"
#include "format/words.h"

#include <stdlib.h>
#include <string.h>

/* Steps are days looked at and starts found: some seconds of them would take the patience of a user. */
enum { EVENT_LONGEST_MIN = 3660 * DAY_MINUTES, STEPS_MOST = 20000000, ZONE_PARTS_MOST = 3 };

static const struct zone utc = {"UTC", 0, NULL};

bool ical_refuse(const struct ical_reading *in, size_t at, const char *expected)
{
    (void)text_wrong(in->reading->errors, in->file, at, "", expected, ical_line(in->reading, in->file, at));
    return false;
}

static void warn(const struct ical_reading *in, size_t at, const char *sentence)
{
    text_warn(in->reading->warnings, in->file, at, "", sentence);
}

static bool refuse_value(const struct ical_reading *in, const struct ical_property *property)
{
    bool date = strspn(property->value, "0123456789") >= 8;
    return ical_refuse(in, property->at,
                       date ? "a date that exists"
                            : arena_textf(in->reading->arena, "a value that %s can have", property->name));
}

void ical_begin_calendar(struct ical_reading *in, const struct ical_component *calendar)
{
    const struct ical_property *method = ical_property_find(calendar->properties, "METHOD");
    in->calendar = calendar;
    in->cancelling = method && text_same(method->value, "CANCEL");
    names_init(&in->zone_names, in->reading->arena);
}

static const struct zone *own_zone(struct ical_reading *in, const char *name)
{
    int64_t left = STEPS_MOST - *in->steps, had = left;
    for (const struct ical_component *c = in->calendar->children; c; c = c->next) {
        const struct ical_property *id =
            strcmp(c->name, "VTIMEZONE") == 0 ? ical_property_find(c->properties, "TZID") : NULL;
        if (!id || strcmp(id->value, name) != 0)
            continue;
        const struct zone *zone = ical_zone_read(in->reading->arena, c, in->years, &left);
        *in->steps += had - left;
        return zone;
    }
    return NULL;
}

/* "/example.org/20230104/Europe/London" -> what the system may know: the last parts behind a maker's prefix. */
static const struct zone *system_zone(const struct ical_reading *in, const char *name, struct err *err)
{
    struct arena *arena = in->reading->arena;
    const struct zone *zone = zone_load(arena, name, in->years, err);
    const char *at = name + strlen(name);
    for (int parts = 0; name[0] == '/' && at > name && parts < ZONE_PARTS_MOST; at--)
        if (at[-1] == '/' && ++parts > 1 && !zone && err->code == ERR_NONE)
            zone = zone_load(arena, at, in->years, err);
    return zone;
}

/* The file of a zone is there and cannot be read: with the shop's clock in its stead the plan would be another. */
static void refuse_zone(const struct ical_reading *in, size_t at, const char *name, const struct err *fault)
{
    struct arena *arena = in->reading->arena;
    struct err *err = text_wrong(in->reading->errors, in->file, at, "", fault->expected,
                                 arena_textf(arena, "%s (%s)", words_quote(arena, name), fault->found));
    if (err)
        err->code = ERR_FILE;
}

/* The zone of that name: the calendar's own VTIMEZONE, else the system's; else the shop's, with a warning. */
static const struct zone *zone_named(struct ical_reading *in, const char *name, size_t at)
{
    struct arena *arena = in->reading->arena;
    size_t i;
    bool added;
    if (names_find(&in->zone_names, name, &i))
        return in->zones[i].zone;
    in->zones = arena_grow(arena, in->zones, in->zone_names.count, &in->zone_capacity, sizeof *in->zones);
    i = names_add(&in->zone_names, name, &added);
    struct err err = {.code = ERR_NONE};
    const struct zone *zone = own_zone(in, name);
    in->zones[i].zone = zone ? zone : system_zone(in, name, &err);
    if (!in->zones[i].zone) {
        in->zones[i].zone = in->shop_zone;
        if (err.code == ERR_FILE)
            refuse_zone(in, at, name, &err);
        else
            warn(in, at,
                 arena_textf(arena, "the time zone %s is not known: the shop's is taken",
                             words_quote(arena, name)));
    }
    return in->zones[i].zone;
}

/* The clock of a property's value; one that names none is on `zone`. */
static const struct zone *zone_of(struct ical_reading *in, const struct ical_property *property,
                                  struct ical_time time, const struct zone *zone)
{
    const char *name = time.utc || time.date ? NULL : ical_parameter(in->reading->arena, property, "TZID");
    if (time.utc)
        return &utc;
    return name && name[0] ? zone_named(in, name, property->at) : zone;
}

static int64_t moment(const struct zone *zone, struct ical_time time)
{
    return zone_moment_on(zone, time.day, time.minute);
}

/* The one value of a property as a moment. */
static bool read_moment(struct ical_reading *in, const struct ical_property *property,
                        const struct zone *zone, struct ical_time *time, int64_t *minute)
{
    const char *next;
    if (!ical_time_read(property->value, time, &next) || *next)
        return refuse_value(in, property);
    *minute = moment(zone_of(in, property, *time, zone), *time);
    return true;
}

static bool value_is(const struct ical_component *component, const char *name, const char *word)
{
    const struct ical_property *property = ical_property_find(component->properties, name);
    return property && text_same(property->value, word);
}

/* All who were asked have declined, or the one after whom the calendar is called. */
static bool declined(const struct ical_reading *in, const struct ical_component *component)
{
    const struct ical_property *owner = ical_property_find(in->calendar->properties, "X-WR-CALNAME");
    const struct ical_property *p = ical_property_find(component->properties, "ATTENDEE");
    bool all = p != NULL;
    for (; p; p = ical_property_find(p->next, "ATTENDEE")) {
        bool one = ical_parameter_is(in->reading->arena, p, "PARTSTAT", "DECLINED");
        const char *address =
            text_same_n(p->value, strlen(p->value) < 7 ? 0 : 7, "mailto:") ? p->value + 7 : p->value;
        if (one && owner && text_same(owner->value, address))
            return true;
        all &= one;
    }
    return all;
}

bool ical_blocks(const struct ical_reading *in, const struct ical_component *component)
{
    return !in->cancelling && !value_is(component, "TRANSP", "TRANSPARENT") &&
           !value_is(component, "STATUS", "CANCELLED") &&
           !value_is(component, "X-MICROSOFT-CDO-BUSYSTATUS", "FREE") && !declined(in, component);
}

static bool read_end(struct ical_reading *in, struct ical_event *event, const struct ical_property *property)
{
    struct ical_time end;
    int64_t minute;
    if (!read_moment(in, property, event->zone, &end, &minute))
        return false;
    if (event->start.date && end.date)
        event->span.days =
            end.day > event->start.day ? end.day - event->start.day : end.day == event->start.day;
    else
        event->span = (struct ical_span){0, minute + end.seconds - event->start_min};
    if (minute < event->start_min || minute - event->start_min > EVENT_LONGEST_MIN)
        return ical_refuse(in, property->at, "an end after the beginning, at most ten years later");
    return true;
}

/* By its end, whose length in minutes all occurrences have; by its duration, which counts days of the calendar; one day
 * for a date, nothing for a moment (RFC 5545, 3.6.1 and 3.8.5.3). */
static bool read_length(struct ical_reading *in, struct ical_event *event)
{
    const struct ical_property *first = event->component->properties;
    const struct ical_property *end = ical_property_find(first, "DTEND");
    const struct ical_property *duration = ical_property_find(first, "DURATION");
    const char *next;
    if (end && duration) {
        bool kept = end->at < duration->at;
        warn(in, kept ? duration->at : end->at,
             kept ? "DTEND stands before it: this DURATION is not counted"
                  : "DURATION stands before it: this DTEND is not counted");
        end = kept ? end : NULL;
    }
    event->span.days = event->start.date;
    if (end)
        return read_end(in, event, end);
    if (!duration)
        return true;
    if (!ical_span_read(duration->value, &event->span, &next) || *next)
        return ical_refuse(in, duration->at,
                           duration->value[0] == '-' ? "an end after the beginning, at most ten years later"
                                                     : "a value that DURATION can have");
    if (ical_longest(event) > EVENT_LONGEST_MIN)
        return ical_refuse(in, duration->at, "an end after the beginning, at most ten years later");
    return true;
}

/* Which occurrence of another event it replaces. */
static bool read_replaced(struct ical_reading *in, struct ical_event *event)
{
    const struct ical_property *p = ical_property_find(event->component->properties, "RECURRENCE-ID");
    struct ical_time time;
    if (!p)
        return true;
    event->change = true;
    event->future = ical_parameter_is(in->reading->arena, p, "RANGE", "THISANDFUTURE");
    if (!read_moment(in, p, event->zone, &time, &event->replaces_min))
        return false;
    if (time.date && !event->start.date)
        event->replaces_min = zone_moment_on(event->zone, time.day, event->start.minute);
    return true;
}

struct ical_event *ical_event_read(struct ical_reading *in, const struct ical_component *component)
{
    struct ical_event *event = ARENA_NEW(in->reading->arena, struct ical_event);
    const struct ical_property *start = ical_property_find(component->properties, "DTSTART");
    const struct ical_property *uid = ical_property_find(component->properties, "UID");
    const char *next;
    event->component = component;
    event->uid = uid ? uid->value : "";
    event->blocks = ical_blocks(in, component);
    if (!start || ical_property_find(start->next, "DTSTART")) {
        (void)ical_refuse(in, component->at, "an event with one DTSTART");
        return NULL;
    }
    if (!ical_time_read(start->value, &event->start, &next) || *next) {
        (void)refuse_value(in, start);
        return NULL;
    }
    event->zone = zone_of(in, start, event->start, in->shop_zone);
    event->start_min = moment(event->zone, event->start);
    return read_length(in, event) && read_replaced(in, event) ? event : NULL;
}

int64_t ical_longest(const struct ical_event *event)
{
    return (event->span.days + (event->span.days > 0)) * DAY_MINUTES + event->span.minutes;
}

int64_t ical_end_of(const struct ical_event *event, const struct ical_occurrence *occurrence)
{
    if (occurrence->to_min != INT64_MIN)
        return occurrence->to_min;
    if (event->span.days == 0)
        return occurrence->from_min + event->span.minutes;
    return zone_moment_on(event->zone, occurrence->wall.day + event->span.days, occurrence->wall.minute) +
           event->span.minutes;
}

struct ical_occurrence ical_moved(const struct ical_event *change, struct ical_occurrence occurrence)
{
    int now, before;
    int64_t day = zone_day(change->zone, occurrence.from_min, &now);
    int64_t replaced = zone_day(change->zone, change->replaces_min, &before);
    int64_t wall = (day + change->start.day - replaced) * DAY_MINUTES + now + change->start.minute - before;
    occurrence.wall.day = wall / DAY_MINUTES;
    occurrence.wall.minute = (int)(wall % DAY_MINUTES);
    occurrence.from_min = moment(change->zone, occurrence.wall);
    occurrence.to_min = INT64_MIN;
    return occurrence;
}

/* Starts that do not take place: by their moment, or every one of a day. */
struct exceptions {
    int64_t *moments, *days;
    size_t moment_count, moment_capacity, day_count, day_capacity;
};

static int by_number(const void *a, const void *b)
{
    const int64_t *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

static bool holds(const int64_t *numbers, size_t count, int64_t number)
{
    return count && bsearch(&number, numbers, count, sizeof number, by_number) != NULL;
}

static void put(struct arena *arena, int64_t **numbers, size_t *count, size_t *capacity, int64_t number)
{
    *numbers = arena_grow(arena, *numbers, *count, capacity, sizeof **numbers);
    (*numbers)[(*count)++] = number;
}

static bool read_exceptions(struct ical_reading *in, const struct ical_event *event, struct exceptions *out)
{
    const struct ical_property *p = ical_property_find(event->component->properties, "EXDATE");
    struct arena *arena = in->reading->arena;
    for (; p; p = ical_property_find(p->next, "EXDATE")) {
        const char *at = p->value;
        for (bool more = *at != '\0'; more; at++) {
            struct ical_time time;
            if (!ical_time_read(at, &time, &at) || *at == '/')
                return refuse_value(in, p);
            if (time.date || event->start.date)
                put(arena, &out->days, &out->day_count, &out->day_capacity, time.day);
            else
                put(arena, &out->moments, &out->moment_count, &out->moment_capacity,
                    moment(zone_of(in, p, time, event->zone), time));
            more = *at == ',';
        }
    }
    if (out->day_count > 1)
        qsort(out->days, out->day_count, sizeof *out->days, by_number);
    if (out->moment_count > 1)
        qsort(out->moments, out->moment_count, sizeof *out->moments, by_number);
    return true;
}

/* An event while its rules are followed. */
struct following {
    const struct ical_event *event;
    struct ical_window window;
    struct ical_sink sink;
    struct exceptions exceptions;
    int64_t until_min;
};

static bool tell(struct following *f, struct ical_occurrence occurrence)
{
    const struct exceptions *none = &f->exceptions;
    bool left_out = holds(none->moments, none->moment_count, occurrence.from_min) ||
                    holds(none->days, none->day_count, occurrence.wall.day);
    bool seen = occurrence.from_min >= f->window.from_min && occurrence.from_min <= f->window.to_min;
    return !seen || left_out || f->sink.take(f->sink.to, occurrence);
}

static bool take_start(void *to, struct ical_time start)
{
    struct following *f = to;
    struct ical_occurrence occurrence = {moment(f->event->zone, start), INT64_MIN, start};
    return occurrence.from_min <= f->until_min && tell(f, occurrence);
}

static int64_t until_of(const struct ical_event *event, const struct ical_rule *rule)
{
    struct ical_time until = rule->until;
    if (!rule->ends)
        return INT64_MAX;
    if (until.date || event->start.date)
        return zone_moment_on(event->zone, until.day + 1, 0) - 1;
    return moment(until.utc ? &utc : event->zone, until);
}

/* Only rules that reach the window are looked at at all. */
static bool follow(struct ical_reading *in, struct following *f, const struct ical_property *property)
{
    struct ical_rule rule;
    const char *expected;
    const struct zone *zone = f->event->zone;
    int64_t left = STEPS_MOST - *in->steps, had = left;
    if (!ical_rule_read(property->value, &rule, &expected))
        return ical_refuse(in, property->at, expected);
    f->until_min = until_of(f->event, &rule);
    if (f->until_min < f->window.from_min || f->event->start_min > f->window.to_min)
        return true;
    if (rule.frequency == ICAL_SECONDLY)
        return ical_refuse(in, property->at,
                           "a rule by minute, hour, day, week, month or year of the usual calendar");
    bool good =
        ical_rule_walk(&rule, f->event->start, zone_day(zone, f->window.from_min, NULL) - 1,
                       zone_day(zone, f->window.to_min, NULL) + 1, (struct ical_taker){f, take_start}, &left);
    *in->steps += had - left;
    return good || ical_refuse(in, property->at, "rules that are soon followed to the end of this job");
}

bool ical_period_read(struct ical_reading *in, const struct ical_property *property, const struct zone *zone,
                      const char **at, struct ical_occurrence *period)
{
    struct ical_time end;
    struct ical_span span;
    if (!ical_time_read(*at, &period->wall, at))
        return false;
    const struct zone *clock = zone_of(in, property, period->wall, zone);
    period->from_min = moment(clock, period->wall);
    period->to_min = INT64_MIN;
    if (**at != '/')
        return true;
    ++*at;
    if (ical_span_read(*at, &span, at))
        period->to_min = (span.days ? zone_moment_on(clock, period->wall.day + span.days, period->wall.minute)
                                    : period->from_min) +
                         span.minutes;
    else if (ical_time_read(*at, &end, at) && **at != '/')
        period->to_min = moment(zone_of(in, property, end, zone), end) + end.seconds;
    else
        return false;
    return period->to_min >= period->from_min && period->to_min - period->from_min <= EVENT_LONGEST_MIN;
}

/* RDATE: further starts, or periods with a length of their own. */
static bool add_dates(struct ical_reading *in, struct following *f)
{
    const struct ical_event *event = f->event;
    const struct ical_property *p = ical_property_find(event->component->properties, "RDATE");
    for (; p; p = ical_property_find(p->next, "RDATE")) {
        const char *at = p->value;
        for (bool more = *at != '\0'; more; at++) {
            struct ical_occurrence occurrence;
            int minute;
            if (!ical_period_read(in, p, event->zone, &at, &occurrence))
                return refuse_value(in, p);
            occurrence.wall.day = zone_day(event->zone, occurrence.from_min, &minute);
            occurrence.wall.minute = minute;
            if (!tell(f, occurrence))
                return true;
            more = *at == ',';
        }
    }
    return true;
}

bool ical_occurrences(struct ical_reading *in, const struct ical_event *event, struct ical_window window,
                      struct ical_sink sink)
{
    struct following f = {.event = event, .window = window, .sink = sink};
    if (!read_exceptions(in, event, &f.exceptions))
        return false;
    (void)tell(&f, (struct ical_occurrence){event->start_min, INT64_MIN, event->start});
    const struct ical_property *p = ical_property_find(event->component->properties, "RRULE");
    for (; p; p = ical_property_find(p->next, "RRULE"))
        if (!follow(in, &f, p))
            return false;
    return add_dates(in, &f);
}
