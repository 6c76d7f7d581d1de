/* A job, its shop, its part list and a finish of its own that use every key, for tests that change one value of them. */
#ifndef TESTS_FULL_JOB_H
#define TESTS_FULL_JOB_H

#include "reader.h"

struct job;

/* The job and its finish, as they stand in tests/source/full/. */
const char *full_job_text(struct reader *reader);
const char *full_job_finish(struct reader *reader);

/* Goes to the test's own folder and puts there what the job names. The first thing to do in main. */
void full_job_begin(void);

/* Reads the job from texts like those two, without the shipped finishes; NULL where the reader was told of mistakes. */
struct job *full_job_read(struct reader *reader, const char *job, const char *finish);

#endif
