/* A draft of batches as dated steps: who does what when, what each step waited for, when each piece reaches its states. */
#ifndef TIMETABLE_DATES_H
#define TIMETABLE_DATES_H

#include "timetable/draft.h"
#include "timetable/timetable.h"

/* A draft, and which of its operations are the timetable's: those from `first` on are the timetable's own in their order. */
struct dated {
    struct draft *draft;
    size_t first;
};

/* Fills batches, steps, waits, states, ready, late and spare of a timetable whose job, operations and moments stand. */
void dates_fill(struct dated dated, struct timetable *timetable);

/* Seconds are worked and whole minutes are told, which add up: those of each placed batch, of one person, to those of all hands.
 * Where two are there each minute counts twice, and is rounded up. */
int64_t *dates_minutes(struct arena *arena, const struct draft *draft);

/* Of a batch's minutes those of one job, by number: set-up, mixing and clean-up are shared after the time of the units. */
int64_t dates_share(struct arena *arena, const struct site *site, const struct batch *batch, int64_t minutes,
                    int job);

#endif
