#include "report/ical_write.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "base/text.h"
#include "format/ical_fold.h"
#include "report/ical_parts.h"

#include <stdlib.h>
#include <string.h>

enum { YEAR_MIN = 365 * DAY_MINUTES };

const char *ical_clean(struct arena *arena, const char *text)
{
    char *clean = arena_text(arena, text);
    for (char *at = clean; *at; at++)
        if (((unsigned char)*at < 0x20 && *at != '\n') || *at == 0x7F)
            *at = ' ';
    return clean;
}

struct icaltimetype ical_utc(int64_t minute)
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

void ical_add_moment(const struct ical_scene *scene, icalcomponent *to, icalproperty *property,
                     int64_t minute)
{
    const struct zone *zone = scene->plan->job->zone;
    struct icaltimetype time = ical_utc(minute);
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

const char *ical_step_uid(const struct ical_scene *scene, const struct operation *operation, const char *more)
{
    return arena_textf(scene->arena, "%s/%s%s@coatwright", scene->job_slug, operation->id, more);
}

icalcomponent *ical_add_component(const struct ical_scene *scene, icalcomponent_kind kind, const char *uid,
                                  const char *summary, const char *category, const char *description)
{
    struct arena *arena = scene->arena;
    icalcomponent *component = icalcomponent_new(kind);
    icalcomponent_add_component(scene->calendar, component);
    icalcomponent_add_property(component, icalproperty_new_uid(ical_clean(arena, uid)));
    icalcomponent_add_property(component, icalproperty_new_dtstamp(ical_utc(scene->now_min)));
    icalcomponent_add_property(component, icalproperty_new_summary(ical_clean(arena, summary)));
    icalcomponent_add_property(component, icalproperty_new_categories(category));
    if (description[0])
        icalcomponent_add_property(component, icalproperty_new_description(ical_clean(arena, description)));
    return component;
}

static void release_component(void *component)
{
    icalcomponent_free(component);
}

static icalcomponent *read_previous(struct arena *arena, struct ical_options options)
{
    if (!options.previous)
        return NULL;
    char *copy = arena_text_n(arena, options.previous, options.previous_length);
    icalcomponent *previous = icalparser_parse_string(copy);
    if (previous)
        arena_own(arena, previous, release_component);
    return previous;
}

static void span_of(const struct plan *plan, int64_t span[2])
{
    const struct timetable *timetable = plan->timetable;
    span[0] = timetable->start_min < span[0] ? timetable->start_min : span[0];
    span[1] = timetable->deliver_min > span[1] ? timetable->deliver_min : span[1];
    for (size_t i = 0; i < timetable->step_count; i++)
        span[1] = timetable->steps[i].end_min > span[1] ? timetable->steps[i].end_min : span[1];
    for (size_t i = 0; i < timetable->wait_count; i++)
        if (timetable->waits[i].until_min != INT64_MAX && timetable->waits[i].until_min > span[1])
            span[1] = timetable->waits[i].until_min;
}

static void add_plan(struct ical_scene scene, const struct plan *plan)
{
    scene.plan = plan;
    scene.job_slug = text_slug(scene.arena, plan->job->name);
    ical_add_steps(&scene);
    ical_add_waits(&scene);
    ical_add_shopping(&scene);
}

static bool names_differ(struct arena *arena, const struct plan *const *plans, size_t count,
                         struct err_list *errors)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++) {
            const struct job *job = plans[i]->job, *other = plans[k]->job;
            if (strcmp(text_slug(arena, job->name), text_slug(arena, other->name)) != 0)
                continue;
            err_add(errors, ERR_INPUT, job->file, "/job",
                    arena_textf(arena, "another name than in %s: jobs of one calendar are known by it",
                                other->file),
                    job->name);
            return false;
        }
    return true;
}

static void print(struct arena *arena, icalcomponent *calendar, struct buf *out)
{
    char *text = icalcomponent_as_ical_string_r(calendar);
    arena_own(arena, text, free);
    ical_fold(text, out);
    arena_disown(arena, text);
    free(text);
}

static bool add_zone(const struct ical_scene *scene, const struct plan *const *plans, size_t count,
                     struct err_list *errors)
{
    int64_t span[2] = {INT64_MAX, INT64_MIN};
    for (size_t i = 0; i < count; i++)
        span_of(plans[i], span);
    if (ical_add_zone(scene, span[0] - YEAR_MIN, span[1] + YEAR_MIN))
        return true;
    err_add(errors, ERR_INPUT, plans[0]->job->file, "/zone", "a time zone that this system knows",
            plans[0]->job->zone->name);
    return false;
}

bool ical_write(struct arena *arena, const struct plan *const *plans, size_t count,
                struct ical_options options, struct buf *out, struct err_list *errors)
{
    icaltimezone_set_builtin_tzdata(0);
    struct ical_scene scene = {.arena = arena,
                               .plan = plans[0],
                               .now_min = options.now_min,
                               .several = count > 1,
                               .calendar = icalcomponent_new(ICAL_VCALENDAR_COMPONENT)};
    arena_own(arena, scene.calendar, release_component);
    if (!names_differ(arena, plans, count, errors) || !add_zone(&scene, plans, count, errors))
        return false;
    icalcomponent *previous = read_previous(arena, options);
    icalcomponent_add_property(scene.calendar, icalproperty_new_version("2.0"));
    icalcomponent_add_property(scene.calendar, icalproperty_new_prodid("-//Coatwright//Coatwright//EN"));
    for (size_t i = 0; i < count; i++)
        add_plan(scene, plans[i]);
    ical_number(&scene, previous);
    print(arena, scene.calendar, out);
    return true;
}
