#include "format/ical_when.h"

#include "base/arena.h"
#include "format/words.h"

#include <string.h>

enum { OBSERVANCES_MOST = 300, SECONDS = 60 };

bool ical_refuse(const struct ical_reading *in, size_t at, const char *expected)
{
    (void)text_wrong(in->reading->errors, in->file, at, "", expected, ical_line(in->reading, in->file, at));
    return false;
}

/* A zone of the file is used only when libical can expand it soon: a rule by the second would fill the memory. */
static bool sound_rules(icalcomponent *zone)
{
    int count = 0;
    for (icalcomponent *c = icalcomponent_get_first_component(zone, ICAL_ANY_COMPONENT); c;
         c = icalcomponent_get_next_component(zone, ICAL_ANY_COMPONENT)) {
        icalproperty *rule = icalcomponent_get_first_property(c, ICAL_RRULE_PROPERTY);
        if (++count > OBSERVANCES_MOST)
            return false;
        for (; rule; rule = icalcomponent_get_next_property(c, ICAL_RRULE_PROPERTY)) {
            struct icalrecurrencetype r = icalproperty_get_rrule(rule);
            if (r.freq != ICAL_YEARLY_RECURRENCE || r.rscale)
                return false;
        }
        if (icalcomponent_count_properties(c, ICAL_RDATE_PROPERTY) > OBSERVANCES_MOST)
            return false;
    }
    return count > 0;
}

static icalcomponent *own_zone(const struct ical_reading *in, const char *name)
{
    for (icalcomponent *c = icalcomponent_get_first_component(in->calendar, ICAL_VTIMEZONE_COMPONENT); c;
         c = icalcomponent_get_next_component(in->calendar, ICAL_VTIMEZONE_COMPONENT)) {
        icalproperty *id = icalcomponent_get_first_property(c, ICAL_TZID_PROPERTY);
        const char *text = id ? icalproperty_get_tzid(id) : NULL;
        if (text && strcmp(text, name) == 0)
            return c;
    }
    return NULL;
}

/* "/example.org/20230104/Europe/London" -> what the system may know: the last two parts, or the last three. */
static const char *system_name(const char *name)
{
    const char *at = name + strlen(name);
    for (int slashes = 0; name[0] == '/' && at > name; at--)
        if (at[-1] == '/' && ++slashes == 2)
            return at;
    return name;
}

static struct ical_clock make_clock(const struct ical_reading *in, const char *name)
{
    icalcomponent *own = own_zone(in, name);
    struct ical_clock clock = {NULL, NULL};
    if (own && sound_rules(own))
        clock.ical = icalcomponent_get_timezone(in->calendar, name);
    if (clock.ical)
        return clock;
    const char *known = system_name(name);
    clock.zone = zone_load(in->reading->arena, known, in->years);
    clock.ical = clock.zone ? icaltimezone_get_builtin_timezone(known) : NULL;
    return clock;
}

struct ical_clock ical_clock_of(struct ical_reading *in, icalproperty *property)
{
    icalparameter *parameter = icalproperty_get_first_parameter(property, ICAL_TZID_PARAMETER);
    const char *name = parameter ? icalparameter_get_tzid(parameter) : NULL;
    struct arena *arena = in->reading->arena;
    bool added;
    if (!name || !*name)
        return (struct ical_clock){NULL, NULL};
    size_t i;
    if (names_find(&in->zone_names, name, &i))
        return in->clocks[i];
    in->clocks = arena_grow(arena, in->clocks, in->zone_names.count, &in->clock_capacity, sizeof *in->clocks);
    i = names_add(&in->zone_names, arena_text(arena, name), &added);
    in->clocks[i] = make_clock(in, name);
    if (!in->clocks[i].ical)
        text_warn(in->reading->warnings, in->file, 0, "",
                  arena_textf(arena, "the time zone %s is not known: the shop's is taken",
                              words_quote(arena, name)));
    return in->clocks[i];
}

/* libical calls month 13 and 30 February valid. */
static bool exists(struct icaltimetype time)
{
    struct icaltimetype same = icaltime_normalize(time);
    return !icaltime_is_null_time(time) && time.year >= 1900 && time.year <= 2500 && same.year == time.year &&
           same.month == time.month && same.day == time.day && same.hour == time.hour &&
           same.minute == time.minute;
}

bool ical_moment(const struct ical_reading *in, struct icaltimetype time, struct ical_clock clock,
                 int64_t *minute)
{
    const struct zone *zone = clock.zone ? clock.zone : in->shop_zone;
    if (!exists(time))
        return false;
    int64_t days = date_days((struct date){time.year, time.month, time.day});
    int of_day = time.is_date ? 0 : time.hour * 60 + time.minute;
    if (time.is_date)
        *minute = zone_moment_on(in->shop_zone, days, 0);
    else if (icaltime_is_utc(time))
        *minute = days * DAY_MINUTES + of_day;
    else if (clock.ical && !clock.zone)
        *minute = (int64_t)(icaltime_as_timet_with_zone(time, clock.ical) / SECONDS);
    else
        *minute = zone_moment_on(zone, days, of_day);
    return true;
}
