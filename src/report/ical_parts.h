/* Pieces of a calendar shared by the ical_ files. libical is known to them only. */
#ifndef REPORT_ICAL_PARTS_H
#define REPORT_ICAL_PARTS_H

#include "plan/plan.h"

#include <libical/ical.h>

struct ical_scene {
    struct arena *arena;
    const struct plan *plan;
    int64_t now_min;
    const char *job_slug;
    bool several; /* among the plans of other jobs */
    icalcomponent *calendar;
};

/* Text that may stand in a property: control characters become blanks. */
const char *ical_clean(struct arena *arena, const char *text);
struct icaltimetype ical_utc(int64_t minute);
/* DTSTART, DTEND or DUE on the zone's wall; in UTC where a clock change makes the wall ambiguous. */
void ical_add_moment(const struct ical_scene *scene, icalcomponent *to, icalproperty *property,
                     int64_t minute);

/* One event per hands-on step, one per drying wait, the to-do of the shopping. */
void ical_add_steps(const struct ical_scene *scene);
void ical_add_waits(const struct ical_scene *scene);
void ical_add_shopping(const struct ical_scene *scene);

const char *ical_step_uid(const struct ical_scene *scene, const struct operation *operation,
                          const char *more);
/* A component with UID, DTSTAMP, SUMMARY, CATEGORIES and DESCRIPTION, already in the calendar. */
icalcomponent *ical_add_component(const struct ical_scene *scene, icalcomponent_kind kind, const char *uid,
                                  const char *summary, const char *category, const char *description);

/* VTIMEZONE from the builtin zone, cut to the span; false: no such zone. */
bool ical_add_zone(const struct ical_scene *scene, int64_t from_min, int64_t to_min);

/* SEQUENCE and LAST-MODIFIED of every event and to-do, by what stood in the previous file. */
void ical_number(const struct ical_scene *scene, icalcomponent *previous);

#endif
