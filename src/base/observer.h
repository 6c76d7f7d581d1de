/* Somebody who looks on while long work runs, and may end it. The work asks at counted steps, so that it asks at the same
 * places on every machine; once ended, it stays ended, and whoever does the work gives the best that he has. */
#ifndef BASE_OBSERVER_H
#define BASE_OBSERVER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What the work is at: said by whoever drives several searches. */
enum observed_stage { OBSERVE_PLAN, OBSERVE_ADVICE };

struct observer {
    bool (*look)(void *with, const struct observer *observer); /* false: end it */
    void *with;
    enum observed_stage stage;
    int64_t part, parts;  /* of the stage, where it is several searches; parts 0: one */
    int64_t done, effort; /* counted work of the search at hand, of so much at most */
    bool ended;
};

/* Whether to end the work, at so much of it; asks. NULL: nobody looks on. */
static inline bool observer_ask(struct observer *observer, int64_t done, int64_t effort)
{
    if (!observer || observer->ended)
        return observer != NULL;
    observer->done = done;
    observer->effort = effort;
    observer->ended = !observer->look(observer->with, observer);
    return observer->ended;
}

static inline bool observer_ended(const struct observer *observer)
{
    return observer && observer->ended;
}

/* Says that one of several parts of a stage begins. */
static inline void observer_part(struct observer *observer, enum observed_stage stage, size_t part,
                                 size_t parts)
{
    if (!observer)
        return;
    observer->stage = stage;
    observer->part = (int64_t)part;
    observer->parts = (int64_t)parts;
}

#endif
