/* Drying as tables over slots: when the film of a coat that ends in a slot reaches a state. One table serves every coat of
 * a finish, whatever its length. */
#ifndef TIMETABLE_FILMS_H
#define TIMETABLE_FILMS_H

#include "finish/drying.h"
#include "timetable/hours.h"
#include "timetable/operations.h"

struct film_table {
    const struct finish *finish;
    enum drying_kind kind;
    bool last;
    int32_t needed_min;
    int32_t *slots; /* by the slot in which the coat ends */
    struct film_table *next;
};

struct films {
    struct arena *arena;
    const struct shop *shop;
    const struct hours *hours;
    int32_t longest; /* slots of the longest operation: tables reach so far beyond the horizon */
    struct film_table *tables;
};

void films_init(struct films *films, struct arena *arena, const struct shop *shop, const struct hours *hours,
                int32_t longest);

/* By the slot in which the coat ends, 0..horizon + longest; DRYING_NEVER_SLOT: never. */
const int32_t *films_state(struct films *films, const struct operation *apply, enum finish_state state);
/* The last slot in which its recoat window is open. */
const int32_t *films_window(struct films *films, const struct operation *apply);

/* Starts at which the air suits the coat: within the finish's limits and 3 C above the dew point (ISO 8502-4, as
 * reported) for the whole application, and until `handle` for what dries by water or reaction. allowed[0..horizon]. */
void films_allowed(struct films *films, const struct operation *apply, bool *allowed);

/* When the air is outside a finish's limits: the first time, and for how long in all. */
struct air_outside {
    int64_t from_min, until_min; /* INT64_MAX: never */
    int64_t minutes;
};

/* Of a film that dries from..until; of one that never does, in its first eight weeks. */
struct air_outside films_outside(const struct films *films, const struct finish *finish, int64_t from_min,
                                 int64_t until_min);

#endif
