/* What must pass between two items of one kind: by every way of links from the end of the first to the start of the other, in
 * the air that dries fastest, however the people's hours lie. */
#ifndef TIMETABLE_BETWEEN_H
#define TIMETABLE_BETWEEN_H

#include "timetable/site.h"

/* Minutes; SITE_NEVER: other work lies between that only the person who did the first can do, so that no batch holds both. */
struct between {
    int from, to;
    int32_t wait;
};

struct betweens {
    struct between *items; /* by `from` */
    size_t count;
    const size_t *first; /* per operation: its first; first[site->count]: all */
    const int *order;    /* operations, each behind all that it waits for */
    const int
        *place; /* per operation: its place there; SITE_NONE: it waits for itself, or is left out mostly */
    size_t ordered;
};

/* Lives in `arena`. Where the work of it is too much for a large job some of what is between is left out. */
struct betweens between_make(struct arena *arena, const struct site *site);

/* How many of its kind must be done one after another before it, with a wait between, or (late) less than behind any other of its
 * kind: what may be done together has the same rank. */
void between_ranks(const struct betweens *betweens, bool late, int *rank);

#endif
