/* The least work where windows of time keep operations apart, or a kind takes more batches than any two of its items ask for, worked by hand.
 * A coat is set up for 20 min and cleaned up for 10, polishing for 25 and 5. The shop is open from 08:00 to 17:00. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

enum { COATED = 30, POLISHED = 30, CLOSING = 17 * 60 };

static void begin(struct work_list *list)
{
    work_begin(list);
    work_set_up(list, TOOL_CLOTH, 20, 10);
    work_set_up(list, WORK_POLISH, 25, 5);
}

/* A coat and the polishing behind it, half an hour each, and when at the latest; the coat. */
static int add_polished(struct work_list *list, int32_t coated_by, bool within_an_hour)
{
    int coat = work_add(list, DO_APPLY, 1, 1800), polish = work_add(list, DO_POLISH, 1, 1800);
    work_link(list, coat, polish, 0);
    work_line(list, coat, CLOSING - coated_by);
    work_line(list, polish, 0);
    if (within_an_hour)
        work_link(list, coat, polish, 60)->kind = LINK_POLISH;
    return coat;
}

static void check_least(const struct row *row, struct work_list *list, int32_t by, int64_t want_min)
{
    check_int(row, bounds_work(work_site(list, 7), &by), want_min * 60);
    work_end(list);
}

/* A must be coated by 10:00, B is there from 14:00 on. Polished within an hour A is done by 11:30, before B can be; at any time both are
 * polished from 15:25 to 16:25. */
static void the_later_one_is_done_soon(void **state)
{
    (void)state;
    for (int soon = 0; soon <= 1; soon++) {
        struct work_list list;
        begin(&list);
        add_polished(&list, 600, soon == 1);
        work_row(&list);
        list.pieces[1].ready_min = march(1, 14, 0);
        add_polished(&list, CLOSING, false);
        check_least(HERE, &list, CLOSING, 120 + 2 * COATED + (1 + soon) * POLISHED);
    }
}

/* A must be coated by 10:00. B is polished behind a task that cannot be before 14:00: within an hour of its coat it is coated no sooner
 * than from 12:56 on. */
static void the_earlier_one_is_done_late(void **state)
{
    (void)state;
    for (int soon = 0; soon <= 1; soon++) {
        struct work_list list;
        begin(&list);
        add_polished(&list, 600, false);
        work_row(&list);
        int coat = add_polished(&list, CLOSING, soon == 1);
        work_row(&list);
        list.pieces[2].ready_min = march(1, 14, 0);
        work_link(&list, work_add(&list, DO_TASK, 1, 60), coat + 1, 0);
        check_least(HERE, &list, CLOSING, 121 + (1 + soon) * COATED + POLISHED);
    }
}

/* A late scuff, which is done where the window is missed, lifts it: then nothing keeps the two together. */
static void what_lifts_a_window(void **state)
{
    (void)state;
    for (int lifted = 0; lifted <= 1; lifted++) {
        struct work_list list;
        begin(&list);
        int coat = add_polished(&list, 600, false);
        struct link *window = work_link(&list, coat, coat + 1, 60);
        window->kind = LINK_POLISH;
        if (lifted) {
            int scuff = work_add(&list, DO_SCUFF, 1, 60);
            list.items[scuff].late_scuff = true;
            window->unless = scuff;
        }
        work_row(&list);
        list.pieces[1].ready_min = march(1, 14, 0);
        add_polished(&list, CLOSING, false);
        check_least(HERE, &list, CLOSING, 120 + 2 * COATED + (2 - lifted) * POLISHED);
    }
}

/* Four people and coats of half an hour, all done by 09:30: whoever sets up at 08:00 is through with two at 09:20, and any two may go
 * together, but not three. */
static void as_many_as_are_done_in_time(void **state)
{
    static const int rows[][2] = {{1, 1}, {2, 1}, {3, 2}, {4, 2}, {5, 3}, {6, 3}, {7, 4}, {8, 4}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct work_list list;
        begin(&list);
        list.panel.job.shop.people = 4;
        for (int n = 0; n < rows[i][0]; n++) {
            work_line(&list, work_add(&list, DO_APPLY, 1, 1800), 0);
            work_row(&list);
        }
        check_least(HERE, &list, 570, rows[i][0] * 30 + (int64_t)rows[i][1] * COATED);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(the_later_one_is_done_soon), CHECK_TEST(the_earlier_one_is_done_late),
                     CHECK_TEST(what_lifts_a_window), CHECK_TEST(as_many_as_are_done_in_time));
}
