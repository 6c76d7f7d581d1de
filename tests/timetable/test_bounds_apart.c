/* The least work where no batch can hold two items, or one holds both though they are far apart, worked by hand. A coat is set up for
 * 20 min and cleaned up for 10. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

enum { COATED = 30, MIXED = 5 };

static void begin(struct work_list *list)
{
    work_begin(list);
    work_set_up(list, TOOL_CLOTH, 20, 10);
}

/* A must be through on Monday by 11:00, B comes on Tuesday at noon: two batches. C is coated on Monday from 09:00 on, and again a day
 * later: it goes with both, wherever it stands in the list. */
static void who_comes_late_parts_nothing_before(void **state)
{
    (void)state;
    struct work_list list;
    int32_t by = work_at(1, 17, 0);
    begin(&list);
    work_line(&list, work_add(&list, DO_APPLY, 1, 3600), 30 * 60);
    work_row(&list);
    list.pieces[1].ready_min = march(2, 12, 0);
    work_line(&list, work_add(&list, DO_APPLY, 1, 3600), 0);
    work_row(&list);
    list.pieces[2].ready_min = march(1, 9, 0);
    work_add_two(&list, DO_APPLY, DO_APPLY, 3600, 24 * 60);
    work_line(&list, 3, 0);
    const struct site *site = work_site(&list, 14);
    check_int(HERE, bounds_work(site, &by), (4 * 60 + 2 * COATED) * 60);
    check_int(HERE, work_best(site).work.work, (4 * 60 + 2 * COATED) * 60);
    work_end(&list);
}

/* Off from 10:50 to 10:55 and from 15:50 to 15:55; a mix is laid within 260 min and lives for 300. The first coat of A ends at 06:26; of
 * B's units of 26 min nine are done by 10:20, when the mix has no time left for another: a mix and a unit, 31 min, have no room before the
 * break. So it is with ten more at 15:20. The last of B is done from 16:00 to 16:26, and A's second coat begins 10 h behind the first, in
 * the same batch. */
static void two_breaks_have_no_room_for_a_mix(void **state)
{
    (void)state;
    static const struct stretch stretches[] = {{360, 650}, {655, 950}, {955, 1020}};
    struct work_list list;
    begin(&list);
    for (int day = 0; day < 7; day++)
        list.panel.job.shop.hours[day] = (struct shop_day){stretches, 3};
    list.panel.job.start_min = march(1, 6, 0);
    work_add_two(&list, DO_APPLY, DO_APPLY, 60, 600);
    work_row(&list);
    work_add(&list, DO_APPLY, 20, 26 * 60);
    work_mixed(&list, 260, 300);
    const struct site *site = work_site(&list, 14);
    check_int(HERE, bounds_of(site).work, (2 + 20 * 26 + COATED + 3 * MIXED) * 60);
    check_int(HERE, work_best(site).work.work, (2 + 20 * 26 + COATED + 3 * MIXED) * 60);
    work_end(&list);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(who_comes_late_parts_nothing_before),
                     CHECK_TEST(two_breaks_have_no_room_for_a_mix));
}
