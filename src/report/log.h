/* What was recorded of a job, and what follows from it, as text and as JSON. */
#ifndef REPORT_LOG_H
#define REPORT_LOG_H

#include "format/json_write.h"
#include "job/job.h"
#include "report/table.h"
#include "timetable/timetable.h"

/* The log, entry by entry; what was taken back is marked. */
void show_log(struct screen *screen, const struct job *job);
/* "log": entries as they stand in the file, with `holds`. */
void write_log(struct json_write *w, const struct job *job);

/* "Done: 12 steps until Tue 2 Mar 15:00" and what they broke, before what is left to be done. Nothing without a log. */
void show_done(struct screen *screen, const struct timetable *timetable);
/* "done": what was done, by its beginning, with what it broke; and "passed_over". */
void write_done(struct json_write *w, const struct timetable *timetable);

/* What was done together, by the batch in which it was planned, else by itself. */
struct done_batch {
    const char *id; /* the batch's, else the step's */
    const struct fact *first;
    const char *pieces; /* "case, legs" */
    int64_t from_min, to_min;
    int64_t
        wrap_min; /* when its pieces are safe to wrap, where it was their last coat; INT64_MAX: it was not */
    int64_t window_min; /* the first end of a recoat window of a film that is to be coated; INT64_MAX: none */
};

/* By the first of their facts. */
struct done_batch *done_batches(struct arena *arena, const struct timetable *timetable, size_t *count);

/* What a fact broke, as a sentence without its full stop, one at a time from number 0 on; NULL: no more. */
const char *fact_broke(struct arena *arena, const struct operations *operations, const struct fact *fact,
                       int number);

#endif
