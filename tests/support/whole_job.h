/* Whole jobs as one text: the files of a job, each behind a line "@@ name", the first of them the job itself. They are tried
 * through the public functions only, and mutated by what they are made of: numbers, words, units, lines, values. */
#ifndef TESTS_WHOLE_JOB_H
#define TESTS_WHOLE_JOB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What became of one. */
struct whole_job {
    bool read, planned;
    int64_t reported; /* texts that were written */
};

/* Reads the bundle, plans it with little effort under a ceiling, writes every report and walks it. Aborts where something
 * does not hold that holds of every job: a failure has an error; errors can be told; steps are in order; what the steps
 * take is what is needed; JSON is well-formed. */
struct whole_job whole_job_try(const char *bundle, size_t size);

/* Changes a bundle of `size` bytes in place at one place, by the seed; its new size, at most `room`. */
size_t whole_job_mutate(char *bundle, size_t size, size_t room, uint64_t *seed);

#endif
