#include "report/ical_parts.h"

#include <string.h>

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

bool ical_add_zone(const struct ical_scene *scene, int64_t from_min, int64_t to_min)
{
    const char *name = scene->plan->job->zone->name;
    if (scene->plan->job->zone->count == 0 || strcmp(name, "UTC") == 0)
        return true;
    icaltimezone *builtin = icaltimezone_get_builtin_timezone(name);
    if (!builtin)
        return false;
    icalcomponent *zone = icalcomponent_new_clone(icaltimezone_get_component(builtin));
    icaltimezone_truncate_vtimezone(zone, ical_utc(from_min), ical_utc(to_min), 0);
    remove_unwanted(zone);
    icalcomponent *child = icalcomponent_get_first_component(zone, ICAL_ANY_COMPONENT);
    for (; child; child = icalcomponent_get_next_component(zone, ICAL_ANY_COMPONENT))
        make_onsets_local(child);
    icalproperty *tzid = icalcomponent_get_first_property(zone, ICAL_TZID_PROPERTY);
    if (tzid)
        icalproperty_set_tzid(tzid, name);
    icalcomponent_add_component(scene->calendar, zone);
    return true;
}
