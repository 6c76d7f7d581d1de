/* Ways to change a job so that it is ready sooner: each a copy of the job with one change, and that change as a merge
 * patch. Nothing is planned here. */
#ifndef PLAN_ALTERNATIVE_H
#define PLAN_ALTERNATIVE_H

#include "timetable/operations.h"

struct arena;

/* Alternatives of one kind come from the least change to the greatest: a greater one is worth naming only where it
 * gains more. */
enum alternative_kind {
    ALTERNATIVE_PEOPLE,
    ALTERNATIVE_SPRAY,
    ALTERNATIVE_DUST,
    ALTERNATIVE_RACK,
    ALTERNATIVE_EVENING,
    ALTERNATIVE_SATURDAY,
    ALTERNATIVE_AIR,
    ALTERNATIVE_DELIVERY,
    ALTERNATIVE_COATS,
    ALTERNATIVE_FINISH,
};

/* Words, change and what the copy points to live in the arena; the rest is the job's. */
struct alternative {
    enum alternative_kind kind;
    const char *words;
    struct job job;
    bool in_shop; /* the patch is for the shop's file where there is one */
    const char *change;
};

enum { ALTERNATIVES_MOST = 40 };

struct alternatives {
    struct arena *arena;
    const struct job *job;
    const struct operations *operations; /* as the job's plan has them */
    struct alternative *items;
    size_t count;
};

/* All that can be thought of, ALTERNATIVES_MOST at most. */
void alternatives_init(struct alternatives *all, struct arena *arena, const struct operations *operations);

/* What a job that can be planned is warned of. */
size_t alternative_warnings(struct arena *arena, const struct job *job);

/* The work of a job as it was changed: no alternative touches a part, so the take-off of `now` stands. NULL: the changed
 * job has a mistake, or more warnings than it had. */
const struct operations *alternative_work(struct arena *arena, const struct operations *now,
                                          const struct job *changed, size_t warnings_now);

/* The parts of alternatives_init. */
void alternatives_add_shop(struct alternatives *all);
void alternatives_add_air(struct alternatives *all);
void alternatives_add_delivery(struct alternatives *all);
void alternatives_add_coats(struct alternatives *all);
void alternatives_add_finishes(struct alternatives *all);

/* Adds one; left out where there are too many. A change of the shop is given as its file would hold it. */
void alternatives_add_job(struct alternatives *all, enum alternative_kind kind, const char *words,
                          const struct job *job, const char *change);
void alternatives_add_to_shop(struct alternatives *all, enum alternative_kind kind, const char *words,
                              const struct shop *shop, const char *change);

#endif
