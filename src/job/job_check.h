/* The parts of job_check; nobody else needs them. */
#ifndef JOB_JOB_CHECK_H
#define JOB_JOB_CHECK_H

#include "base/err.h"
#include "job/job.h"

/* Adds each circle once, named from its first member in the order of the file. */
void job_check_circles(struct arena *arena, const struct job *job, struct err_list *errors);

/* Warnings about boards, woods and how pieces are laid. */
void job_check_parts(struct arena *arena, const struct job *job, struct err_list *warnings);

/* What the rules of job->fit speak against: once for a rule and a coat, naming the first part of those that it hits. */
void job_check_fit(struct arena *arena, const struct job *job, struct err_list *warnings);

#endif
