/* Rules of a start by themselves: a batch of items 0 and 1 that is tried, items 2 and 3 that are placed,
 * each in a batch of its own, all of lots of their own. What they take is given, in minutes since
 * midnight; the day is 08:00 to 12:00 and 13:00 to 17:00. It points into itself: do not copy it. */
#ifndef TESTS_FLOOR_H
#define TESTS_FLOOR_H

#include "check.h"
#include "timetable/placing.h"

enum { FLOOR_ITEMS = 4, FLOOR_PEOPLE = 3, FLOOR_OTHERS = 2, FLOOR_START = 480, FLOOR_PAUSES = 20 };

struct floor {
    struct worker workers[FLOOR_PEOPLE];
    struct crew crew;
    struct shop shop;
    struct kind kinds[2]; /* of the batch that is tried, of the others */
    struct operation operations[FLOOR_ITEMS];
    struct task_row rows[FLOOR_ITEMS];
    struct lying lying;
    struct site site;
    int32_t start[FLOOR_ITEMS], end[FLOOR_ITEMS], handle[FLOOR_ITEMS], clear[FLOOR_ITEMS],
        lies_until[FLOOR_ITEMS + 1];
    int batch_of[FLOOR_ITEMS], items[FLOOR_ITEMS];
    struct lies lies[FLOOR_ITEMS + 1];
    struct draft_scratch scratch;
    struct placed placed[FLOOR_OTHERS], tried;
    struct draft draft;
    struct placing placing;
};

/* A batch of person 0 from 08:00 to 10:00, of 30 minutes at the least, that pauses may lengthen by 20; one
 * spray place, a rack of 10, dust that settles in 30. */
void floor_init(struct floor *f);
/* Work of an item. */
void floor_work(struct floor *f, int item, int32_t start, int32_t end);
/* Places another batch of one item, its person from 1 on. */
void floor_place(struct floor *f, int item, int32_t start, int32_t end);
/* Lays a film. */
void floor_film(struct floor *f, int item, int32_t handle, int32_t clear);
void check_refused(const struct row *row, const struct floor *f, enum hindrance kind, int other,
                   int32_t until, int32_t again);

#endif
