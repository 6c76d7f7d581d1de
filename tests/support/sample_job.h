/* A small sound job of our own invention for tests to spoil or to measure: a top and a case with one schedule each, a
 * leg that uses the case's, and a task. It points into itself: do not copy it. */
#ifndef TESTS_SAMPLE_JOB_H
#define TESTS_SAMPLE_JOB_H

#include "job/job.h"

struct sample_job {
    struct finish finish;
    struct step top_steps[3], case_steps[2];
    struct schedule schedules[2];
    struct after after[4];
    size_t before[2];
    struct piece pieces[3];
    struct task tasks[1];
    struct part parts[3];
    struct job job;
};

/* Pieces 0 "top" (second in the file), 1 "case" (first), 2 "leg" (no entry); schedules "top" (sand 180, 3 coats by cloth,
 * wait cured) and "case/inside" (2 coats by brush, rub); an oak board 1.2 m x 150 mm x 20 mm each, its face scheduled. */
void sample_job(struct sample_job *b);

#endif
