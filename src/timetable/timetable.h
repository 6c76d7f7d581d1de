/* The dated plan: every step, when each piece reaches its states, how much time is to spare, and why not sooner. */
#ifndef TIMETABLE_TIMETABLE_H
#define TIMETABLE_TIMETABLE_H

#include "timetable/films.h"
#include "timetable/reason.h"

enum timetable_status { TIMETABLE_PLANNED, TIMETABLE_IMPOSSIBLE, TIMETABLE_UNKNOWN };

/* What is made least first. Lateness, then work, then the ready moment; the ready moment first; as the first, and then every
 * batch as late as those two allow. */
enum timetable_aim { AIM_LEAST_WORK, AIM_SOONEST, AIM_LATEST };

/* What a step waited for, with the moments between which it might start on account of it. */
struct waited {
    size_t step; /* index into steps */
    const struct link *link;
    int64_t min_until; /* INT64_MIN: no limit */
    int64_t max_until; /* INT64_MAX: no limit */
};

struct timetable_step {
    const struct operation *operation;
    int64_t start_min, end_min;
    int64_t dust_free_min; /* of an apply: INT64_MAX: never; of other work its end */
    int person;            /* from 1 */
    size_t batch;          /* index into batches */
    const struct waited *after;
    size_t after_count;
    int64_t
        float_min; /* its slack: how much later it may begin, the others following, before ready moves; -1: not known */
};

/* One mix of a batch. */
struct batch_mix {
    int64_t at_min;  /* mixing begins */
    int32_t seconds; /* of units that it serves */
};

/* Steps of one kind done one after another by one person with one set-up and one clean-up. */
struct timetable_batch {
    const char *id;                /* do/finish or grit/coat of its first step/number */
    const struct operation *first; /* what is done in it */
    int person, helper;            /* from 1; helper 0: nobody */
    int64_t start_min, end_min;    /* set-up begins; the person is free */
    int64_t work_from_min, work_until_min;
    int32_t set_up_min, clean_up_min, hands_on_min;
    int32_t
        pause_min; /* in which it rests, the rounding of its end included; of the whole batch, other jobs' steps too */
    const size_t *steps; /* in the order of work */
    size_t step_count;
    const struct batch_mix *mixes;
    size_t mix_count;
    int64_t float_min; /* its slack; -1: not known */
};

/* A film drying, from the end of its coat until what comes next may begin (or the delivery's state). */
struct drying_wait {
    size_t step; /* the apply */
    enum finish_state state;
    int64_t from_min, until_min; /* INT64_MAX: never */
    int64_t window_min;          /* the recoat window's end; INT64_MAX: none, or nothing follows */
    struct air_outside
        outside; /* the air leaves the finish's limits while it dries; 0 minutes: it does not */
};

struct piece_state {
    size_t piece;
    enum finish_state state;
    int64_t at_min; /* INT64_MAX: never */
};

struct timetable {
    const struct job *job;
    const struct operations *operations; /* there also where no plan was found */
    enum timetable_status status;
    int64_t start_min, ready_min, deliver_min; /* ready INT64_MAX: no plan */
    int64_t late_min, spare_min;
    enum timetable_aim aim;
    int64_t aim_min; /* deliver less the time to spare */
    int64_t hands_on_min, no_less_work_min;
    bool ready_proven, work_proven;
    bool ended; /* the search was ended: the best plan so far */
    int64_t no_earlier_than_min;
    const double *loss_share;        /* per operation: of what stays in the tool of its batch */
    struct timetable_batch *batches; /* by start, then person */
    size_t batch_count;
    struct timetable_step *steps; /* by start, then id */
    size_t step_count;
    struct drying_wait *waits; /* by step */
    size_t wait_count;
    struct piece_state *states; /* by piece, then state */
    size_t state_count;
    const size_t *chain; /* steps that fix the ready moment, in order */
    size_t chain_count;
    const struct reason *why;
    size_t why_count;
    int64_t effort, nodes;
};

struct observer;

struct timetable_options {
    int64_t effort; /* counted work of the solver; 0: the default */
    enum timetable_aim aim;
    struct observer *observer; /* NULL: nobody looks on */
};

/* A timetable of these operations in which nothing is dated yet. */
struct timetable *timetable_blank(struct arena *arena, const struct operations *operations);

/* The index of an operation's step; SIZE_MAX: it is left out. */
size_t timetable_step_of(const struct timetable *timetable, const struct operation *operation);

/* The step of an id; NULL: none. */
const struct timetable_step *timetable_find(const struct timetable *timetable, const char *id);

#endif
