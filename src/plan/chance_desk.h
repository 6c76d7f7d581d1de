/* What one thread writes while it draws, and the placing of batches on it. Used by chance*.c only. */
#ifndef PLAN_CHANCE_DESK_H
#define PLAN_CHANCE_DESK_H

#include "plan/chance_model.h"

/* How often, and with how many minutes more than planned, a film's drying was what the ready moment hung on. */
struct tally {
    int64_t late_count, late_adds, slow_count, slow_adds;
};

/* What one thread writes while it draws. */
struct desk {
    int32_t *start, *end;           /* per item */
    int32_t *step_start, *step_end; /* per operation */
    double *film;                   /* factor per operation, of its drying */
    double *hands;                  /* factor per item: a batch is quick or slow as a whole */
    double *common;                 /* per finish */
    const struct hold **cause;      /* per item: what fixed its start, NULL: nothing before it */
    bool missed, ruined;            /* in this draw: a window, one that must not be */
    int32_t on_time, scuffed, spoiled, late, slow; /* draws */
    struct tally *tally;                           /* per operation and state */
};

struct desk *chance_desk_make(struct arena *arena, const struct chance_model *model);

/* The factors of a draw: chance_random.c. */
void chance_draw_factors(const struct chance_model *model, struct desk *desk, int32_t draw);

/* The first allowed start from a minute on; SITE_NEVER: none within the time looked at. From here on: chance_place.c. */
int32_t chance_allowed(const struct chance_model *model, int item, int32_t minute);
/* Places an item of the plan, later by the scuff that a missed window asks for; false: there is no start. */
bool chance_place(const struct chance_model *model, struct desk *desk, int index);

int32_t chance_hold_until(const struct chance_model *model, const struct desk *desk, const struct hold *hold);
/* When the film of a hold comes to its state, were its drying so many times the table's. */
int32_t chance_film_at(const struct chance_model *model, const struct desk *desk, const struct hold *hold,
                       double factor);

/* Draws first..end - 1: their ready minutes (SITE_NEVER: beyond the time looked at) and what the desk counts. Allocates
 * nothing. chance_draw.c. */
void chance_draw_range(const struct chance_model *model, struct desk *desk, int32_t first, int32_t end,
                       int32_t *ready);
/* One pass without any deviation; holds back what the plan holds back. */
void chance_settle_floors(struct chance_model *model, struct desk *desk);

#endif
