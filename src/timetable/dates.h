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

#endif
