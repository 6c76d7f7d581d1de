/* The steps of a timetable as lines of a table: when, what, which piece, how much, how long. */
#ifndef REPORT_TABLE_STEP_H
#define REPORT_TABLE_STEP_H

#include "report/table.h"
#include "plan/plan.h"

/* Which steps: those that start in [from_min, to_min), at most `most` of them, and whether it is said of each coat
 * until when it dries. */
struct step_range {
    int64_t from_min, to_min;
    size_t most;
    bool drying;
};

/* Begins a table with the columns of step lines; with several people a column names the hand, and where `slips` the last
 * one tells how long a step may slip. */
void table_steps_init(struct table *table, struct arena *arena, const struct job *job, bool slips);

/* The moment before which a step must begin because something ends by itself; INT64_MAX: nothing does, or only in some
 * weeks, which nobody has to watch. */
int64_t step_must_begin(const struct timetable_step *step);

/* Adds the steps of the range, each day a group; where `most` leaves some out, a note says how many. */
void table_steps_add(struct table *table, const struct screen *screen, const struct plan *plan,
                     struct step_range range);

#endif
