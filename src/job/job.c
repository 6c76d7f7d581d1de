#include "job/job.h"

#include "base/arena.h"

#include <stdio.h>
#include <string.h>

const char *const step_names[STEP_KIND_COUNT] = {
    [STEP_SAND] = "sand", [STEP_SCUFF] = "scuff", [STEP_RAISE] = "raise",
    [STEP_MASK] = "mask", [STEP_COAT] = "coat",   [STEP_POLISH] = "polish",
    [STEP_RUB] = "rub",   [STEP_WAIT] = "wait",   [STEP_TASK] = "task",
};

const char *step_kind_name(enum step_kind kind)
{
    return step_names[kind];
}

const struct step *step_usual_between(struct arena *arena, const struct finish *finish, enum tool by)
{
    if (finish->between_grit == 0 || finish->tool_no_between[by])
        return NULL;
    struct step *between = ARENA_NEW(arena, struct step);
    between->kind = finish->between_scuff ? STEP_SCUFF : STEP_SAND;
    between->grit = finish->between_grit;
    return between;
}

const char *const laid_names[LAID_COUNT] = {
    [LAID_FLAT] = "flat", [LAID_STANDING] = "standing", [LAID_HUNG] = "hung"};

const char *const use_names[USE_COUNT] = {"water", "alcohol", "heat", "food", "outdoors", "child", "wear"};

/* A closing of the day itself lies behind the day's first moment, if only at the end of it. */
bool job_delivers_closed(const struct job *job, int64_t *day_min)
{
    *day_min = job->deliver_is_day ? zone_moment_on(job->zone, job->deliver_day, 0) : job->deliver_min;
    return job->deliver_min < *day_min;
}

int job_schedule_find(const struct job *job, const char *name)
{
    for (size_t i = 0; i < job->schedule_count; i++)
        if (strcmp(job->schedules[i].name, name) == 0)
            return (int)i;
    return -1;
}

const char *job_part_place(const struct job *job, const struct part *part, const char *column,
                           struct job_pointer *pointer)
{
    const char *above = job->parts_file ? "" : "/parts";
    snprintf(pointer->text, sizeof pointer->text, "%s/%zu/%s", above, part->row, column);
    return job->parts_file ? job->parts_file : job->file;
}

/* Appends with "~" as "~0" and "/" as "~1"; what does not fit is left out. */
static void append_escaped(struct job_pointer *pointer, const char *name)
{
    size_t used = strlen(pointer->text);
    for (; *name && used + 3 < sizeof pointer->text; name++) {
        if (*name == '~' || *name == '/') {
            pointer->text[used++] = '~';
            pointer->text[used++] = *name == '~' ? '0' : '1';
        } else {
            pointer->text[used++] = *name;
        }
    }
    pointer->text[used] = '\0';
}

struct job_pointer job_schedule_place(const struct schedule *schedule)
{
    struct job_pointer pointer = {"/schedules/"};
    append_escaped(&pointer, schedule->name);
    return pointer;
}

struct job_pointer job_step_place(const struct schedule *schedule, size_t step, const char *key)
{
    struct job_pointer pointer = job_schedule_place(schedule);
    size_t used = strlen(pointer.text);
    snprintf(pointer.text + used, sizeof pointer.text - used, "/%zu%s%s", step, key ? "/" : "",
             key ? key : "");
    return pointer;
}

size_t piece_parts(const struct job *job, size_t piece)
{
    size_t parts = 0;
    for (size_t i = 0; i < job->part_count; i++)
        if (job->parts[i].piece == piece)
            parts += (size_t)job->parts[i].qty;
    return parts;
}

int64_t job_aims_at_min(const struct job *job)
{
    int minute;
    int64_t day = zone_day(job->zone, job->deliver_min, &minute);
    for (int32_t n = job->to_spare_days; n > 0; n--) {
        int64_t closing;
        if (!shop_nearest_hours(&job->shop, job->zone, day - 1, true, &closing))
            break;
        day = zone_day(job->zone, closing - 1, NULL); /* it may be at midnight */
    }
    int64_t moment = job->to_spare_days > 0 ? zone_moment_on(job->zone, day, minute) : job->deliver_min;
    return moment - job->to_spare_min;
}
