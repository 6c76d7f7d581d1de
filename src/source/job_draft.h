/* A job while it is read, and its groups. Inside this room. */
#ifndef SOURCE_JOB_DRAFT_H
#define SOURCE_JOB_DRAFT_H

#include "base/measure.h"
#include "format/names.h"
#include "format/path.h"
#include "job/job.h"
#include "source/field.h"
#include "source/finish_table.h"

struct job_draft {
    const struct reading *reading;
    const char *shipped; /* folder of the shipped finishes, or NULL */
    struct json_at root;
    struct path_rule rule; /* for what the job file names */
    struct job *job;
    enum length_unit units;
    struct finish_table *finishes;
    struct names schedules, pieces, tasks;
    struct json_at people, busy; /* the shop's calendars, read once start and delivery are known */
    struct json_at shop_prices;  /* the shop's price list, read once the finishes are known */
    struct path_rule busy_rule;  /* of the file that names both */
    bool fetching;               /* calendars on a server are named, not read */
    int all, inside;   /* schedules of regions for which no part says one, insides of boxes; SCHEDULE_NONE */
    struct names alls; /* pieces that say one for all of their parts ... */
    const int *all_of; /* ... and which */
    bool schedules_known, parts_known; /* otherwise naming one that is missing is no second mistake */
    bool measurable;                   /* the parts hold no mistake */
};

/* The path of a file that a value names, as far as the rule lets it lead; and its contents as well. Mistakes are told
 * where the name stands. */
bool named_path(struct json_at at, struct path_rule rule, const char **path);
bool named_load(struct json_at at, struct path_rule rule, struct file_text *file);

/* Whether a value of `busy` is the address of a calendar on a server; then the file beside the one that names it into which
 * fetch-busy puts its times. False: a mistake was added. */
bool busy_is_address(struct json_at at);
bool busy_path(struct json_at at, struct path_rule rule, const char **path);

/* A moment of a value; a date alone is that day's opening. */
bool job_read_moment(const struct job_draft *draft, struct json_at at, int64_t *minute);

/* The schedule that a value names; SCHEDULE_NONE where it is none of the job's, which is reported. */
int job_schedule_at(const struct job_draft *draft, struct json_at at);

/* The values of a job's keys, in the order in which they need each other; a list or an object of what is not there is
 * empty. `record` is the job, `context` its draft. */
void job_read_schedules(struct field_in in);
void job_write_schedules(struct field_out out);
bool job_same_schedules(const void *a, const void *b);
void job_read_parts(struct field_in in);
/* The tasks' names, which pieces may wait for; then the pieces, and all about the tasks. */
void job_read_task_names(struct field_in in);
void job_read_pieces(struct field_in in);
void job_write_pieces(struct field_out out);
bool job_same_pieces(const void *a, const void *b);
/* The shop's prices, then the job's own, which go over them; behind the finishes and before what holds on to one. */
void job_read_prices(struct field_in in);
void job_read_stock(struct field_in from);
void job_read_log(struct field_in in);

/* A job that no workshop does is reported at its largest part, before any work is laid out. */
void job_check_size(const struct job *job, struct err_list *errors);

/* The times at which the calendars of the shop and of its people keep them from work. */
void job_read_calendars(struct job_draft *draft);

#endif
