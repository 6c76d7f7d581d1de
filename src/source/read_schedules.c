#include "source/read_job_parts.h"

#include "base/arena.h"

#include <string.h>

static void read_schedule(struct job_draft *draft, struct json_at list, struct schedule *schedule)
{
    struct arena *arena = draft->reading->arena;
    if (!json_is_list(list) || json_size(list) == 0) {
        json_refuse(list, "a list of at least one step");
        return;
    }
    struct step *steps = ARENA_ARRAY(arena, json_size(list), struct step);
    for (struct json_at item = json_first(list); item.node; item = json_next(item))
        job_read_step(draft, item, &steps[schedule->step_count++]);
    schedule->steps = steps;
}

/* A name stands in part lists, where "-" means bare and blanks at its ends are lost. */
static void check_name(struct json_at member)
{
    const char *name = json_name(member);
    size_t length = strlen(name);
    if (length == 0 || strcmp(name, "-") == 0 || name[0] == ' ' || name[length - 1] == ' ')
        json_refuse_key(member, "a name that a part list can say", NULL, 0);
}

void job_read_schedules(struct job_draft *draft)
{
    struct json_at at = json_member(draft->root, "schedules");
    struct job *job = draft->job;
    struct arena *arena = draft->reading->arena;
    bool added;
    if (!json_is_object(at) || json_size(at) == 0) {
        json_refuse(at, "at least one finishing schedule, as an object in braces");
        return;
    }
    struct schedule *schedules = ARENA_ARRAY(arena, json_size(at), struct schedule);
    for (struct json_at member = json_first(at); member.node; member = json_next(member)) {
        struct schedule *schedule = &schedules[job->schedule_count++];
        schedule->name = arena_text(arena, json_name(member));
        names_add(&draft->schedules, schedule->name, &added);
        check_name(member);
        read_schedule(draft, member, schedule);
    }
    job->schedules = schedules;
    draft->schedules_known = true;
}
