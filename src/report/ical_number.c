/* SEQUENCE and LAST-MODIFIED say what changed since the file that is replaced. */
#include "report/ical_parts.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

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

static void number_one(const struct ical_scene *scene, icalcomponent *component, icalcomponent *old)
{
    int sequence = 0;
    struct icaltimetype modified = ical_utc(scene->now_min);
    if (old) {
        bool same = strcmp(essence(scene->arena, component), essence(scene->arena, old)) == 0;
        sequence = icalcomponent_get_sequence(old) + (same ? 0 : 1);
        struct icaltimetype before = last_modified(old);
        if (same && !icaltime_is_null_time(before))
            modified = before;
    }
    icalcomponent_add_property(component, icalproperty_new_sequence(sequence));
    icalcomponent_add_property(component, icalproperty_new_lastmodified(modified));
}

void ical_number(const struct ical_scene *scene, icalcomponent *previous)
{
    icalcompiter at = icalcomponent_begin_component(scene->calendar, ICAL_ANY_COMPONENT);
    for (icalcomponent *component; (component = icalcompiter_deref(&at)); icalcompiter_next(&at)) {
        const char *uid = icalcomponent_get_uid(component);
        if (uid)
            number_one(scene, component, find(previous, uid));
    }
}
