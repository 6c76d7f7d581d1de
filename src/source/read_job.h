/* A job file with everything that it names (contract, sections 2, 3 and 8) -> struct job. */
#ifndef SOURCE_READ_JOB_H
#define SOURCE_READ_JOB_H

#include "format/place.h"
#include "job/job.h"

struct job_source {
    const char *path;     /* "-" for standard input */
    const char *finishes; /* the folder of the shipped finishes; NULL: only the job's own */
    bool trust_paths;     /* what the job names may lie outside of its folder */
    struct texts *texts;  /* keeps what was read, so that later mistakes find their lines; NULL: not needed */
};

/* NULL when mistakes were added; all have their line and column. The job has been checked (job_check), and its parts can
 * be measured. Memory is the arena's; the texts live in it as well.
 *
 * A date alone is an opening for `start` and `ready` and a closing for `deliver`. On a closed day that is the next open
 * day's opening, and the last closing before. */
struct job *job_read(struct arena *arena, const struct job_source *source, struct err_list *errors,
                     struct err_list *warnings);

#endif
