/* What a draw needs to know of a plan. Used by chance*.c only. Times are slots since the
 * origin of the hours; items are the plan's steps in their order, then the scuffs that it left out. */
#ifndef PLAN_CHANCE_MODEL_H
#define PLAN_CHANCE_MODEL_H

#include "finish/drying.h"
#include "plan/chance_options.h"
#include "timetable/problem.h"
#include "timetable/timetable.h"

/* A state of a film or the end of its window; clock NULL: the end of the work itself. */
struct film_mark {
    const struct drying_clock *clock;
    int32_t needed_min;
};

/* Not before an earlier item: its end and so many slots, a state of its film, or the next day. */
struct hold {
    int from;
    int32_t span;
    bool next_day; /* of its start */
    struct film_mark film;
    enum finish_state state;
};

/* Not after an earlier item: so many slots after its end, or its film's window. */
struct limit {
    int from;
    int32_t span;
    struct film_mark film;
    int scuff; /* the item that makes good for it, -1: none */
};

struct item {
    const struct operation *operation;
    const int32_t *next; /* calendar: the first allowed start at or after a slot */
    int32_t earliest;    /* or the planned start, where the plan holds it back */
    int32_t planned;     /* start; NET_NONE: a scuff that the plan leaves out */
    int finish;          /* apply: which of the model's, else -1 */
    int room;            /* whose dust and wet films keep apart from it */
    struct hold leaves;  /* by which others keep away from its dust or its wet film */
    struct hold *holds;
    struct limit *limits;
    size_t hold_count, hold_room, limit_count, limit_room;
};

struct goal {
    int item;
    struct hold hold;
};

struct chance_model {
    struct arena *arena;
    const struct timetable *timetable;
    struct chance_options options;
    struct problem *problem;
    struct item *items;
    size_t count, planned; /* items, those of the plan */
    struct goal *goals;
    size_t goal_count;
    const struct finish **finishes;
    size_t finish_count;
    struct model_clock *clocks;
    size_t rooms;
    int32_t due, ready; /* slots: the delivery, the plan's ready moment */
};

/* Everything of the plan but the order of its work: chance_model.c. Then the order: chance_order.c. */
struct chance_model *chance_model_make(struct arena *arena, const struct timetable *timetable,
                                       struct chance_options options);
void chance_add_order(struct chance_model *model);
void chance_add_hold(struct chance_model *model, int item, struct hold hold);
struct film_mark chance_state(struct chance_model *model, const struct operation *apply,
                              enum finish_state state);

#endif
