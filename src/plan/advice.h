/* What would help where a plan is late or impossible: every alternative is a changed copy of the job, planned like the
 * job itself, and given with the change to the user's files that makes it. */
#ifndef PLAN_ADVICE_H
#define PLAN_ADVICE_H

#include "plan/alternative.h"
#include "timetable/timetable.h"

struct arena;

/* A change of the user's files: what `changed` says otherwise than `job`, in the job's own file or in that of its shop. */
struct advice_change {
    const struct job *job, *changed;
    bool in_shop;
    const char *const *files; /* as an error would name them: each needs the change */
    size_t file_count;
};

/* A job that a change makes later. */
struct advice_harm {
    const struct job *job;
    int64_t late_min;
};

struct advice {
    struct change change;
    const struct job *of; /* another job, which is changed; NULL: this one, or the shop */
    const struct advice_harm *harms;
    size_t harm_count;
    const struct job *changed; /* this job as it would be */
    int64_t ready_min;         /* when the job would be ready */
    int64_t gain_min;          /* so much sooner; 0 where there is no plan without it */
    int64_t late_min;          /* 0: in time */
    int64_t more_work_min;     /* minutes of all hands; below 0: less. 0 where it is not known */
    bool at_latest;            /* it would be ready then or sooner: the search ended before it was known */
    const struct advice_change
        *changes; /* the one that helps, then those that hold deliveries (promise.h); none where it
                                            is an option that helps */
    size_t change_count;
};

struct advice_list {
    const struct advice *items; /* the largest gain first */
    size_t count;
};

/* Empty where the timetable is in time with as much to spare as was asked for. Each alternative is planned with little effort; where that proves nothing, the
 * most promising ones again with the effort of `options`, as a run on the changed file would, as long as a fixed sum
 * of counted work lasts. So what is not `at_latest` is exactly what that run gives. */
struct advice_list advice_make(struct arena *arena, const struct timetable *timetable,
                               struct timetable_options options, int64_t now_min);

/* Jobs that share a shop: each alternative is planned with all jobs in view, and given to every job that is late with what it
 * gains that one, and whom it makes later. A list for each of the timetables that timetable_several gave; empty for a job in time with enough to spare. Changes of the shop are for all
 * jobs, and where its description stands in several files all of them are named; other changes are of the late jobs alone.
 * Only what was planned as a run on the changed files would plan it is given. */
struct advice_list *advice_several(struct arena *arena, struct timetable *const *timetables, size_t count,
                                   struct timetable_options options, int64_t now_min);

#endif
