/* What is told of the minutes of work. Seconds are worked, whole minutes are told, and all of them add up: those of the batches to
 * those of all hands, those of the jobs in a batch to those of the batch. */
#ifndef TIMETABLE_TOLD_H
#define TIMETABLE_TOLD_H

#include "timetable/draft.h"

/* Minutes of each placed batch, of one person. Where two are there each minute counts twice, and is rounded up. */
int64_t *told_minutes(struct arena *arena, const struct draft *draft);

/* Of a batch's minutes those of one job, by number: its set-up, mixing and clean-up are shared after the time of the units. */
int64_t told_share(struct arena *arena, const struct site *site, const struct batch *batch, int64_t minutes,
                   int job);

#endif
