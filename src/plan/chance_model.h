/* What a draw needs to know of a plan. Used by chance*.c only. Times are minutes since the origin of the site; items are the
 * plan's batches in their order. */
#ifndef PLAN_CHANCE_MODEL_H
#define PLAN_CHANCE_MODEL_H

#include "timetable/lay.h"
#include "timetable/timetable.h"

struct chance_options;

/* Not before something earlier: the end of a batch, or of a step and so many minutes, a state of its film, the next day. */
struct hold {
    int from;      /* item */
    int from_step; /* operation; SITE_NONE: the end of the batch */
    int to_step;   /* operation of the item that is held; SITE_NONE: its start */
    int32_t span;
    bool next_day; /* of its start */
    bool film;
    enum finish_state state;
};

/* Not after an earlier step: a link that is a limit. */
struct limit {
    int link;
    int32_t scuff; /* minutes of the work that makes good for it, dust settled; SITE_NONE: nothing does */
};

struct item {
    struct batch batch;
    const struct step *learned; /* of its coats, if the shop has learned their minutes; else NULL */
    const int32_t *next;        /* by slot of five minutes: the first allowed start at or after it */
    int32_t earliest;           /* or the planned start, where the plan holds it back */
    int32_t planned;
    struct hold *holds;
    struct limit *limits;
    size_t hold_count, hold_room, limit_count, limit_room;
};

struct chance_model {
    struct arena *arena;
    const struct timetable *timetable;
    const struct chance_options *options;
    const struct site *site;
    int32_t slots; /* of the horizon */
    struct item *items;
    size_t count;
    int *item_of;                          /* per operation; SITE_NONE: left out */
    const struct timetable_step **step_of; /* per operation; NULL: left out */
    struct hold *goals;
    size_t goal_count;
    int32_t due, ready; /* the delivery, the plan's ready moment */
};

/* Everything of the plan but the order of its work: chance_model.c. Then the order: chance_order.c. */
struct chance_model *chance_model_make(struct arena *arena, const struct timetable *timetable,
                                       const struct chance_options *options);
void chance_add_order(struct chance_model *model);
void chance_add_hold(struct chance_model *model, int item, struct hold hold);

#endif
