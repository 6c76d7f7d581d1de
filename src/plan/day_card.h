/* The day card: what is done on one day of a plan, or of jobs planned together, by everyone or by one person. A batch belongs
 * to the day on which it starts. */
#ifndef PLAN_DAY_CARD_H
#define PLAN_DAY_CARD_H

#include "plan/plan.h"

/* One job's share of a batch: where several jobs are done with one set-up each has a share. */
struct day_share {
    const struct plan *plan;
    const struct timetable_batch *batch;
};

/* A step of a batch: of whose plan, and its index into the timetable. */
struct day_step {
    const struct plan *plan;
    size_t step;
};

/* What must be true before a batch begins: of all that its steps wait for in one and the same way, the last to be over. What is
 * waited for is planned, or was done already. */
struct day_need {
    const struct plan *plan;
    const struct operation *earlier; /* what is waited for */
    const struct timetable_step *step;
    const struct link *link;
    int64_t until_min;
};

/* A caution of the plan, of this batch's finish alone. */
struct day_caution {
    const struct plan *plan;
    struct plan_caution caution;
};

struct day_batch {
    struct day_share *shares; /* in the order of the plans */
    size_t share_count;
    struct day_step *steps; /* in the order of work */
    size_t step_count;
    struct day_need *needs;
    size_t need_count;
    struct day_caution *cautions;
    size_t caution_count, caution_room;
};

struct day_card {
    const struct plan *const *plans;
    size_t plan_count;
    int64_t day;               /* days since 1970, on the jobs' wall */
    int person;                /* from 1; 0: everyone */
    struct day_batch *batches; /* by start, then person */
    size_t count;
    struct day_batch *next; /* of each person of the card the first batch of a later day, by start */
    size_t next_count;
};

/* The plans are those of one shop and zone, and outlive the card. */
struct day_card *day_card_make(struct arena *arena, const struct plan *const *plans, size_t count,
                               int64_t day, int person);

/* The main batch of a card's batch: of the first share. */
const struct timetable_batch *day_batch_main(const struct day_batch *batch);

#endif
