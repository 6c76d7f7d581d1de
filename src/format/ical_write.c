#include "format/ical_write.h"

#include "base/arena.h"
#include "format/ical_lock.h"
#include "base/buf.h"
#include "format/ical_text.h"

#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>

enum { YEAR_MIN = 365 * DAY_MINUTES };

void ical_init(struct ical *calendar, struct arena *arena, const struct zone *zone, int64_t now_min)
{
    *calendar = (struct ical){.arena = arena, .zone = zone, .now_min = now_min};
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

/* Text that may stand in a property: control characters become blanks. */
static const char *clean(struct arena *arena, const char *text)
{
    char *plain = arena_text(arena, text);
    for (char *at = plain; *at; at++)
        if (((unsigned char)*at < 0x20 && *at != '\n') || *at == 0x7F)
            *at = ' ';
    return plain;
}

static struct icaltimetype utc(int64_t minute)
{
    return icaltime_from_timet_with_zone((time_t)(minute * 60), 0, icaltimezone_get_utc_timezone());
}

static bool same_wall(struct wall a, struct wall b)
{
    return a.day == b.day && a.hour == b.hour && a.minute == b.minute;
}

/* In the hour that comes twice libical and RFC 5545 disagree: such a moment is told in UTC. */
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

/* DTSTART, DTEND or DUE on the zone's wall; in UTC where a clock change makes the wall ambiguous. */
static void add_moment(const struct ical *calendar, icalcomponent *to, icalproperty_kind kind, int64_t minute)
{
    const struct zone *zone = calendar->zone;
    if (minute == INT64_MAX)
        return;
    icalproperty *property = icalproperty_new(kind);
    struct icaltimetype time = utc(minute);
    if (!wall_is_ambiguous(zone, minute)) {
        struct wall wall = zone_wall(zone, minute);
        time = icaltime_null_time();
        time.year = wall.year;
        time.month = wall.month;
        time.day = wall.day;
        time.hour = wall.hour;
        time.minute = wall.minute;
        icalproperty_add_parameter(property, icalparameter_new_tzid(zone->name));
    }
    icalproperty_set_value(property, icalvalue_new_datetime(time));
    icalcomponent_add_property(to, property);
}

static void add_alarm(const struct ical *calendar, icalcomponent *event, const struct ical_alarm *at)
{
    icalcomponent *alarm = icalcomponent_new(ICAL_VALARM_COMPONENT);
    icalcomponent_add_component(event, alarm);
    icalcomponent_add_property(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
    struct icaltriggertype trigger = {utc(at->minute), icaldurationtype_null_duration()};
    icalproperty *property = icalproperty_new_trigger(trigger);
    icalproperty_add_parameter(property, icalparameter_new_value(ICAL_VALUE_DATETIME));
    icalcomponent_add_property(alarm, property);
    icalcomponent_add_property(alarm, icalproperty_new_description(clean(calendar->arena, at->words)));
}

static void add_item(const struct ical *calendar, icalcomponent *root, const struct ical_item *item)
{
    struct arena *arena = calendar->arena;
    icalcomponent *component = icalcomponent_new(item->todo ? ICAL_VTODO_COMPONENT : ICAL_VEVENT_COMPONENT);
    icalcomponent_add_component(root, component);
    icalcomponent_add_property(component, icalproperty_new_uid(clean(arena, item->uid)));
    icalcomponent_add_property(component, icalproperty_new_dtstamp(utc(calendar->now_min)));
    icalcomponent_add_property(component, icalproperty_new_summary(clean(arena, item->summary)));
    icalcomponent_add_property(component, icalproperty_new_categories(item->category));
    if (item->description[0])
        icalcomponent_add_property(component, icalproperty_new_description(clean(arena, item->description)));
    add_moment(calendar, component, ICAL_DTSTART_PROPERTY, item->from_min);
    add_moment(calendar, component, item->todo ? ICAL_DUE_PROPERTY : ICAL_DTEND_PROPERTY, item->to_min);
    if (item->transparent)
        icalcomponent_add_property(component, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
    for (size_t i = 0; i < item->after_count; i++)
        icalcomponent_add_property(component, icalproperty_new_relatedto(clean(arena, item->after[i])));
    for (size_t i = 0; i < item->alarm_count; i++)
        add_alarm(calendar, component, &item->alarms[i]);
}

static bool unwanted(icalproperty *property)
{
    icalproperty_kind kind = icalproperty_isa(property);
    if (kind == ICAL_TZUNTIL_PROPERTY)
        return true;
    const char *name = icalproperty_get_x_name(property);
    return kind == ICAL_X_PROPERTY && name && strcmp(name, "X-LIC-LOCATION") == 0;
}

/* The next property is taken before one is removed: the iterator stands on it. */
static void remove_unwanted(icalcomponent *zone)
{
    icalproperty *next = NULL;
    for (icalproperty *at = icalcomponent_get_first_property(zone, ICAL_ANY_PROPERTY); at; at = next) {
        next = icalcomponent_get_next_property(zone, ICAL_ANY_PROPERTY);
        if (unwanted(at)) {
            icalcomponent_remove_property(zone, at);
            icalproperty_free(at);
        }
    }
}

/* libical writes onsets in UTC; RFC 5545, 3.6.5 wants them local, by the offset that held before them. */
static void make_onsets_local(icalcomponent *observance)
{
    icalproperty *before = icalcomponent_get_first_property(observance, ICAL_TZOFFSETFROM_PROPERTY);
    icalproperty *at = icalcomponent_get_first_property(observance, ICAL_RDATE_PROPERTY);
    for (; before && at; at = icalcomponent_get_next_property(observance, ICAL_RDATE_PROPERTY)) {
        struct icaldatetimeperiodtype onset = icalproperty_get_rdate(at);
        if (!icaltime_is_utc(onset.time))
            continue;
        time_t local = icaltime_as_timet(onset.time) + icalproperty_get_tzoffsetfrom(before);
        onset.time = icaltime_from_timet_with_zone(local, 0, NULL);
        icalproperty_set_rdate(at, onset);
    }
}

/* VTIMEZONE from the builtin zone, cut to the span; false: no such zone. */
static bool add_zone(const struct ical *calendar, icalcomponent *root, int64_t from_min, int64_t to_min)
{
    const char *name = calendar->zone->name;
    if (calendar->zone->count == 0 || strcmp(name, "UTC") == 0)
        return true;
    icaltimezone *builtin = icaltimezone_get_builtin_timezone(name);
    if (!builtin)
        return false;
    icalcomponent *zone = icalcomponent_new_clone(icaltimezone_get_component(builtin));
    icaltimezone_truncate_vtimezone(zone, utc(from_min), utc(to_min), 0);
    remove_unwanted(zone);
    icalcomponent *child = icalcomponent_get_first_component(zone, ICAL_ANY_COMPONENT);
    for (; child; child = icalcomponent_get_next_component(zone, ICAL_ANY_COMPONENT))
        make_onsets_local(child);
    icalproperty *tzid = icalcomponent_get_first_property(zone, ICAL_TZID_PROPERTY);
    if (tzid)
        icalproperty_set_tzid(tzid, name);
    icalcomponent_add_component(root, zone);
    return true;
}

static bool counts_as_change(icalproperty_kind kind)
{
    return kind != ICAL_DTSTAMP_PROPERTY && kind != ICAL_SEQUENCE_PROPERTY &&
           kind != ICAL_LASTMODIFIED_PROPERTY;
}

/* The component's text without its stamps, for comparison. */
static const char *essence(struct arena *arena, icalcomponent *component)
{
    icalcomponent *bare = icalcomponent_new_clone(component);
    icalproperty *next = NULL;
    for (icalproperty *at = icalcomponent_get_first_property(bare, ICAL_ANY_PROPERTY); at; at = next) {
        next = icalcomponent_get_next_property(bare, ICAL_ANY_PROPERTY);
        if (!counts_as_change(icalproperty_isa(at))) {
            icalcomponent_remove_property(bare, at);
            icalproperty_free(at);
        }
    }
    char *text = icalcomponent_as_ical_string_r(bare);
    icalcomponent_free(bare);
    arena_own(arena, text, free);
    return text;
}

static icalcomponent *find(icalcomponent *calendar, const char *uid)
{
    if (!calendar || icalcomponent_isa(calendar) != ICAL_VCALENDAR_COMPONENT)
        return NULL;
    icalcompiter at = icalcomponent_begin_component(calendar, ICAL_ANY_COMPONENT);
    for (icalcomponent *component; (component = icalcompiter_deref(&at)); icalcompiter_next(&at)) {
        const char *other = icalcomponent_get_uid(component);
        if (other && strcmp(other, uid) == 0)
            return component;
    }
    return NULL;
}

static struct icaltimetype last_modified(icalcomponent *component)
{
    icalproperty *property = icalcomponent_get_first_property(component, ICAL_LASTMODIFIED_PROPERTY);
    return property ? icalproperty_get_lastmodified(property) : icaltime_null_time();
}

static void number_one(const struct ical *calendar, icalcomponent *component, icalcomponent *old)
{
    int sequence = 0;
    struct icaltimetype modified = utc(calendar->now_min);
    if (old) {
        bool same = strcmp(essence(calendar->arena, component), essence(calendar->arena, old)) == 0;
        sequence = icalcomponent_get_sequence(old) + (same ? 0 : 1);
        struct icaltimetype before = last_modified(old);
        if (same && !icaltime_is_null_time(before))
            modified = before;
    }
    icalcomponent_add_property(component, icalproperty_new_sequence(sequence));
    icalcomponent_add_property(component, icalproperty_new_lastmodified(modified));
}

/* SEQUENCE and LAST-MODIFIED say what changed since the file that is replaced. */
static void number(const struct ical *calendar, icalcomponent *root, icalcomponent *previous)
{
    icalcompiter at = icalcomponent_begin_component(root, ICAL_ANY_COMPONENT);
    for (icalcomponent *component; (component = icalcompiter_deref(&at)); icalcompiter_next(&at)) {
        const char *uid = icalcomponent_get_uid(component);
        if (uid)
            number_one(calendar, component, find(previous, uid));
    }
}

static void release_component(void *component)
{
    icalcomponent_free(component);
}

static icalcomponent *read_previous(struct arena *arena, const struct file_text *previous)
{
    icalcomponent *root = previous ? icalparser_parse_string(previous->text) : NULL;
    if (root)
        arena_own(arena, root, release_component);
    return root;
}

static void take(int64_t minute, int64_t span[2])
{
    if (minute == INT64_MAX)
        return;
    span[0] = minute < span[0] ? minute : span[0];
    span[1] = minute > span[1] ? minute : span[1];
}

static void span_of(const struct ical *calendar, int64_t span[2])
{
    span[0] = INT64_MAX;
    span[1] = INT64_MIN;
    for (size_t i = 0; i < calendar->count; i++) {
        take(calendar->items[i].from_min, span);
        take(calendar->items[i].to_min, span);
    }
    if (span[0] > span[1])
        span[0] = span[1] = calendar->now_min;
}

static void print(struct arena *arena, icalcomponent *calendar, struct buf *out)
{
    char *text = icalcomponent_as_ical_string_r(calendar);
    arena_own(arena, text, free);
    ical_fold(text, out);
    arena_disown(arena, text);
    free(text);
}

static bool write_locked(const struct ical *calendar, const struct file_text *previous, struct buf *out)
{
    int64_t span[2];
    icaltimezone_set_builtin_tzdata(0);
    icalcomponent *root = icalcomponent_new(ICAL_VCALENDAR_COMPONENT);
    arena_own(calendar->arena, root, release_component);
    span_of(calendar, span);
    if (!add_zone(calendar, root, span[0] - YEAR_MIN, span[1] + YEAR_MIN))
        return false;
    icalcomponent *old = read_previous(calendar->arena, previous);
    icalcomponent_add_property(root, icalproperty_new_version("2.0"));
    icalcomponent_add_property(root, icalproperty_new_prodid("-//Coatwright//Coatwright//EN"));
    for (size_t i = 0; i < calendar->count; i++)
        add_item(calendar, root, &calendar->items[i]);
    number(calendar, root, old);
    print(calendar->arena, root, out);
    return true;
}

bool ical_write(const struct ical *calendar, const struct file_text *previous, struct buf *out)
{
    ical_lock(calendar->arena);
    bool written = write_locked(calendar, previous, out);
    ical_unlock(calendar->arena);
    return written;
}
