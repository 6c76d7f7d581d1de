/* Timetables made by hand for the tests of pictures: no solver, no drying, only what is put in. Open on weekdays from
 * 08:00 to 12:00 and from 13:00 to 17:00, begun on Monday 1 March 2027 08:00 in UTC. It points into itself: do not copy
 * it. */
#ifndef TESTS_DRAWN_H
#define TESTS_DRAWN_H

#include "timetable/timetable.h"

enum { DRAWN_PIECES = 64, DRAWN_STEPS = 1024, DRAWN_BATCHES = 8, DRAWN_BATCH_STEPS = 8 };

struct drawn {
    struct finish finish;
    struct step coat;
    struct schedule schedules[2];
    struct piece pieces[DRAWN_PIECES];
    struct task task;
    struct stretch stretches[2];
    struct job job;
    struct operation operations[DRAWN_STEPS];
    struct timetable_step steps[DRAWN_STEPS];
    struct drying_wait waits[DRAWN_STEPS];
    size_t chain[DRAWN_STEPS];
    struct timetable_batch batches[DRAWN_BATCHES];
    size_t batch_steps[DRAWN_BATCHES][DRAWN_BATCH_STEPS];
    struct timetable timetable;
};

/* Pieces "A", "B", ... as many as asked for; schedules "oil" (0) and "wax" (1); a task "fit hinges". */
void drawn_init(struct drawn *drawn, size_t pieces);

/* Minutes of a day of March 2027 (32: 1 April). */
int64_t drawn_at(int day, int hour, int minute);

/* A step of `minutes`; steps must be added by rising start. Piece -1: the task. */
struct operation *drawn_step(struct drawn *drawn, enum doing doing, int piece, int64_t start, int minutes);

/* A coat that dries until a moment; window INT64_MAX: none. */
struct drying_wait *drawn_coat(struct drawn *drawn, int piece, int64_t start, int minutes, int64_t dry);

/* A batch of so many steps that are there, from set-up to clean-up, by person 1. */
void drawn_batch(struct drawn *drawn, const size_t *steps, size_t count, int64_t start, int64_t end);

/* Random work on every piece from the first day on, so many days long; all in order. */
void drawn_random(struct drawn *drawn, uint64_t *seed, int days);

#endif
