/* `log`: what was done of a job already; beside the job where it does not say. */
#include "source/job_draft.h"

#include "base/arena.h"
#include "source/log_file.h"

#include <string.h>

/* "desk.json" -> "desk.log" beside it. */
static const char *usual_log(struct arena *arena, const char *job)
{
    size_t length = strlen(job) - (path_ends(job, ".json") ? strlen(".json") : 0);
    return arena_textf(arena, "%.*s.log", (int)length, job);
}

/* Air that was measured goes over the shop's own. */
static void take_measured(struct arena *arena, struct job *job)
{
    const bool *holding = log_holding(arena, &job->log);
    struct air_measured *measured = NULL;
    size_t count = 0, room = 0;
    for (size_t i = 0; i < job->log.count; i++) {
        const struct log_entry *entry = &job->log.entries[i];
        if (!holding[i] || entry->kind != LOG_AIR)
            continue;
        measured = arena_grow(arena, measured, count, &room, sizeof *measured);
        measured[count++] = (struct air_measured){.at_min = entry->began_min, .air = entry->air};
    }
    air_sort_measured(measured, count);
    job->shop.air.measured = measured;
    job->shop.air.measured_count = count;
}

/* A log that is not there yet is an empty one. */
void job_read_log(struct field_in in)
{
    struct job_draft *draft = (struct job_draft *)in.context;
    const struct reading *reading = draft->reading;
    const char *path = usual_log(reading->arena, draft->rule.from);
    struct file_text file;
    struct err err;
    if (in.at.node && !named_path(in.at, draft->rule, &path))
        return;
    draft->job->log.file = path;
    if ((!in.at.node && strcmp(draft->rule.from, "-") == 0) || reading_missing(reading, path))
        return;
    if (reading_load(reading, &draft->rule, path, &file, &err)) {
        draft->job->log = log_read(reading, &file, draft->job->zone);
        take_measured(reading->arena, draft->job);
    } else
        err_add(reading->errors, ERR_FILE, path, "", err.expected, err.found);
}
