/* What one thread writes while it draws, and the placing of steps on it. Used by chance*.c only. */
#ifndef PLAN_CHANCE_DESK_H
#define PLAN_CHANCE_DESK_H

#include "plan/chance_model.h"

/* The latest ends of dusty or of wet times, of one row and of all others. */
struct latest {
    int chain, item, other_item;
    int32_t until, other_until;
};

/* How often, and with how many slots more than planned, a film's drying was what the ready moment hung on. */
struct tally {
    int64_t late_count, late_adds, slow_count, slow_adds;
};

/* What one thread writes while it draws. */
struct desk {
    int32_t *start, *end;      /* per item; start NET_NONE: not placed */
    double *film, *hands;      /* factors per item */
    double *common;            /* per finish */
    const struct hold **cause; /* per item: what fixed its start, NULL: nothing before it */
    struct latest *dust, *wet; /* per room */
    bool missed, ruined;       /* in this draw: a window, one that must not be */
    int32_t on_time, scuffed, spoiled, late, slow; /* draws */
    struct tally *tally;                           /* per item and state */
};

struct desk *chance_desk_make(struct arena *arena, const struct chance_model *model);
/* Nothing is placed, nothing was missed. */
void chance_desk_clear(const struct chance_model *model, struct desk *desk);

/* The factors of a draw: chance_random.c. */
void chance_draw_factors(const struct chance_model *model, struct desk *desk, int32_t draw);

/* When an item may begin, and the hold that says so; NULL: nothing before it. From here on: chance_place.c. */
struct ready {
    int32_t slot;
    const struct hold *cause;
};
struct ready chance_ready(const struct chance_model *model, const struct desk *desk, int index,
                          int32_t not_before);
/* The first allowed start from a slot on; NET_NEVER: none within the time looked at. */
int32_t chance_allowed(const struct chance_model *model, int item, int32_t slot);
/* Places an item at its first allowed start; false: there is none. */
bool chance_place_at(const struct chance_model *model, struct desk *desk, int index, struct ready ready);
/* Places an item of the plan, with the scuff that a missed window asks for. */
bool chance_place(const struct chance_model *model, struct desk *desk, int index);

int32_t chance_hold_until(const struct chance_model *model, const struct desk *desk, const struct hold *hold);
/* When a film that began to dry in a slot comes to a mark. */
int32_t chance_film_at(const struct chance_model *model, struct film_mark film, double factor, int32_t from);

/* Draws first..end - 1: their ready slots (NET_NEVER: beyond the time looked at) and what the desk counts. Allocates
 * nothing. chance_draw.c. */
void chance_draw_range(const struct chance_model *model, struct desk *desk, int32_t first, int32_t end,
                       int32_t *ready);
/* One pass without any deviation; holds back what the plan holds back. */
void chance_settle_floors(struct chance_model *model, struct desk *desk);

#endif
