/* What would help where a plan is late or impossible: every alternative is a changed copy of the job, planned like the
 * job itself, and given with the change to the user's file that makes it. */
#ifndef PLAN_ADVICE_H
#define PLAN_ADVICE_H

#include "base/moment.h"
#include "timetable/timetable.h"

struct arena;

/* A JSON merge patch (RFC 7396), and the file that it is for: the job's or its shop's, as an error would name it. */
struct advice_change {
    const char *file, *patch;
};

struct advice {
    const char *words; /* "one more person" */
    int64_t ready_min; /* when the job would be ready */
    int64_t gain_min;  /* so much sooner; 0 where there is no plan without it */
    int64_t late_min;  /* 0: in time */
    bool at_latest;    /* it would be ready then or sooner: the search ended before it was known */
    const struct advice_change *changes; /* the one that helps, then those that hold deliveries (promise.h) */
    size_t change_count;
};

struct advice_list {
    const struct advice *items; /* the largest gain first */
    size_t count;
};

/* Empty where the timetable is in time. Each alternative is planned with little effort; where that proves nothing, the
 * most promising ones again with the effort of `options`, as a run on the changed file would, as long as a fixed sum
 * of counted work lasts. So what is not `at_latest` is exactly what that run gives. */
struct advice_list advice_make(struct arena *arena, const struct timetable *timetable,
                               struct timetable_options options);

/* "ready Thu 4 Mar 12:00, 1 d 4 h sooner, in time". */
const char *advice_effect(struct arena *arena, const struct advice *advice, const struct zone *zone,
                          enum moment_style style);
/* One sentence with words, effect and, for each change, the file and, in backquotes, the patch. */
const char *advice_sentence(struct arena *arena, const struct advice *advice, const struct zone *zone);

#endif
