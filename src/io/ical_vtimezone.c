#include "io/ical_parts.h"

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
    icalproperty *tzid = icalcomponent_get_first_property(zone, ICAL_TZID_PROPERTY);
    if (tzid)
        icalproperty_set_tzid(tzid, name);
    icalcomponent_add_component(scene->calendar, zone);
    return true;
}
