/* What makes one version of a job into another, as JSON merge patches (RFC 7396) of the user's files. */
#ifndef SOURCE_JOB_PATCH_H
#define SOURCE_JOB_PATCH_H

#include "job/job.h"

extern const struct job_writer job_writer;

#endif
