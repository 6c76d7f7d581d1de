/* Groups of a job, each read into its place in the record. Inside this room. */
#ifndef SOURCE_READ_JOB_PARTS_H
#define SOURCE_READ_JOB_PARTS_H

#include "base/measure.h"
#include "source/finish_table.h"
#include "format/json.h"
#include "format/names.h"
#include "format/path.h"
#include "job/job.h"

/* A job while it is read. */
struct job_draft {
    const struct reading *reading;
    const char *shipped; /* folder of the shipped finishes, or NULL */
    struct json_at root;
    struct path_rule rule; /* for what the job file names */
    struct job *job;
    enum length_unit units;
    struct finish_table *finishes;
    struct names schedules, pieces, tasks;
    struct json_at busy;               /* the shop's calendars, read once start and delivery are known */
    struct path_rule busy_rule;        /* of the file that names them */
    bool schedules_known, parts_known; /* otherwise naming one that is missing is no second mistake */
};

/* The job's names, units, zone, currency, reserve and `deliver-at`. */
void job_read_head(struct job_draft *draft);
/* The shop, or the defaults. After the head. */
void job_read_shop(struct job_draft *draft);
/* `start` and `deliver`. After the shop. */
void job_read_dates(struct job_draft *draft);
/* The shop's busy times, after the dates. */
void job_read_busy(struct job_draft *draft);
/* A moment of a value; a date alone is that day's opening. */
bool job_read_moment(const struct job_draft *draft, struct json_at at, int64_t *minute);
/* The finishes that the job can name. */
void job_read_finishes(struct job_draft *draft);
/* The schedules, after the finishes. */
void job_read_schedules(struct job_draft *draft);
/* One step of a schedule. */
void job_read_step(const struct job_draft *draft, struct json_at at, struct step *step);
/* The part list and the pieces that it names. After the schedules. True without mistakes. */
bool job_read_parts(struct job_draft *draft);
/* `pieces` and `tasks`, after the parts and the shop. */
void job_read_pieces(struct job_draft *draft);
/* The tasks' names, which pieces may wait for; and all about them. By job_read_pieces. */
void job_read_task_names(struct job_draft *draft);
void job_read_tasks(struct job_draft *draft);
/* A list of what comes first: "case handle". How many. */
size_t job_read_after(const struct job_draft *draft, struct json_at list, const struct after **to);
/* A piece or a task by its name; and the mistake where there is none. */
bool job_name_find(const struct job_draft *draft, const char *name, struct after *after);
void job_refuse_name(const struct job_draft *draft, struct json_at at);
/* What stands on the shelf, after the finishes. */
void job_read_stock(struct job_draft *draft);

#endif
