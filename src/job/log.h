/* What really happened on a job, entry by entry, as its log has them: steps that were done, coats that must be repeated, steps
 * that are left out, air that was measured, entries that are taken back. */
#ifndef JOB_LOG_H
#define JOB_LOG_H

#include "finish/air.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum log_kind { LOG_DONE, LOG_AGAIN, LOG_SKIP, LOG_AIR, LOG_UNDO, LOG_KIND_COUNT };

struct arena;

struct log_entry {
    int64_t number;      /* rising, from 1 */
    int64_t written_min; /* when it was recorded; INT64_MIN: not said */
    enum log_kind kind;
    const char *step;            /* done, again, skip: its id */
    int64_t began_min, done_min; /* done: began INT64_MIN where it is not said */
    double used_l;               /* done: litres that were taken; -1: not said */
    bool
        as_planned; /* done: began and done are the plan's, moved to when its batch or day was recorded: nobody measured them */
    int first, parts; /* done: these parts of the piece only, counted from 1; parts 0: all of its lot */
    const char *person, *note; /* done; NULL: not said */
    const char *batch;         /* done: the id of the batch that it was planned in; NULL: not said */
    const char *because;       /* again; NULL: not said */
    int grit;                  /* again: sanded before the coat; 0: not at all */
    int64_t undone;            /* undo: the number of the entry that it takes back */
    struct air air;            /* air: from began_min on */
    size_t at;                 /* where its line begins in the file */
};

struct log {
    const char *file; /* its name; NULL: there is none */
    const struct log_entry *entries;
    size_t count;
    int64_t last; /* the highest number in it */
    bool partial; /* some entry is of part of a lot alone */
    size_t whole; /* bytes up to the end of its last whole line */
};

/* Per entry, whether it holds: it is no undo, and no undo that holds takes it back. An undo may be undone. */
bool *log_holding(struct arena *arena, const struct log *log);

#endif
