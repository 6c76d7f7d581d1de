/* Work put together by hand for the tests of bounds: rows of operations in whole seconds, what waits for
 * what, and the site of it. The shop and its finish are those of the panel: one person, daily 08:00-17:00,
 * no set-up, no clean-up, air at reference. Minutes are told from midnight of Monday 1 March 2027, on
 * which the job starts at 08:00. It points into itself: do not copy it. */
#ifndef TESTS_WORK_LIST_H
#define TESTS_WORK_LIST_H

#include "panel.h"

#include "timetable/batching.h"

enum { WORK_ITEMS = 280, WORK_UNITS = 24, WORK_LINKS = 280 };

struct work_list {
    struct arena *arena;
    struct panel panel;
    struct step coat;                /* by which coats are laid unless a test says otherwise */
    struct piece pieces[WORK_ITEMS]; /* one a row */
    struct operation items[WORK_ITEMS];
    int32_t ends_s[WORK_ITEMS][WORK_UNITS];
    struct link links[WORK_LINKS];
    struct finish_line lines[WORK_ITEMS];
    struct operations operations;
    int rows;
};

/* Minute of a day (0: Monday) on the clock. */
static inline int32_t work_at(int day, int hour, int minute)
{
    return day * DAY_MINUTES + hour * 60 + minute;
}

/* No work yet; work_end frees its arena. */
void work_begin(struct work_list *list);
void work_end(struct work_list *list);
/* What is added from here on is of another piece. */
void work_row(struct work_list *list);
/* An operation of so many equal units; its number. */
int work_add(struct work_list *list, enum doing doing, int units, int32_t seconds_each);
/* The later one waits for the end of the earlier one and so many minutes. */
struct link *work_link(struct work_list *list, int from, int to, int32_t span_min);
/* One operation of one unit, and another that waits so many minutes for it. */
void work_add_two(struct work_list *list, enum doing first, enum doing second, int32_t seconds, int32_t wait);
/* The job is ready so many minutes behind its end. */
struct finish_line *work_line(struct work_list *list, int item, int32_t span_min);
/* Set-up and clean-up of a tool or a work, of two-part finishes too. */
void work_set_up(struct work_list *list, int work, int set_up_min, int clean_up_min);
/* The coats are of two components; a mix of them is laid within so many minutes and lives so long. */
void work_mixed(struct work_list *list, int working_min, int pot_life_min);
/* The shop is open daily in these two stretches of hours. */
void work_hours(struct work_list *list, int from, int to, int again_from, int until);
/* As it looks that many days ahead; call it when all is added. */
struct site *work_site(struct work_list *list, int days);

/* The best of all plans that place the work in any order, in any batches, by anybody: of few operations
 * only. Whole: there is one. */
struct work_best {
    struct score work, soon; /* with the least work; soonest */
};

struct work_best work_best(const struct site *site);

#endif
