/* A small job in two files, for tests that change it at one place and read it. */
#ifndef TESTS_JOB_TEXT_H
#define TESTS_JOB_TEXT_H

#include "source/job_file.h"
#include "reader.h"

enum job_text { NOTHING, JOB, PARTS };

/* Goes to the test's own folder, so that messages name plain files. The first thing to do in main. */
void job_text_begin(void);

/* The folder of the shipped finishes, seen from there. */
const char *job_text_finishes(struct reader *reader);

/* Writes both files, with `find` changed to `put` in one of them, and reads the job. */
struct job *job_text_read(struct reader *reader, enum job_text where, const char *find, const char *put);

/* Reads other texts as job.json, and as parts.csv. */
struct job *job_text_read_as(struct reader *reader, const char *job);
struct job *job_text_read_parts(struct reader *reader, const char *job, const char *parts);

extern const char job_text_job[], job_text_parts[];

#endif
