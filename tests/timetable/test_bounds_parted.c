/* The least work where one batch of a kind parts others, by what waits for it or by dust, or is set up for what asks for the most, worked by
 * hand. Sanding is set up for 10 min and cleaned up for 5, a coat for 20 and 10. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

enum { SANDED = 15, COATED = 30 };

static void begin(struct work_list *list)
{
    work_begin(list);
    work_set_up(list, WORK_SAND, 10, 5);
    work_set_up(list, TOOL_CLOTH, 20, 10);
}

/* Sanding before a coat, between a coat and a polish, and behind a polish: one batch each of coats and of
 * polishing, of 30 min, part the sanding into three of 15. Two batches of either would save one of sanding
 * only. */
static void two_batches_part_a_third_kind(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_set_up(&list, WORK_POLISH, 25, 5);
    work_add_two(&list, DO_SAND, DO_APPLY, 1200, 0);
    work_row(&list);
    int coat = work_add(&list, DO_APPLY, 1, 1200), sand = work_add(&list, DO_SAND, 1, 1200),
        polish = work_add(&list, DO_POLISH, 1, 1200);
    work_link(&list, coat, sand, 0);
    work_link(&list, sand, polish, 0);
    work_row(&list);
    work_add_two(&list, DO_POLISH, DO_SAND, 1200, 0);
    check_int(HERE, bounds_of(work_site(&list, 14)).work, (140 + 3 * SANDED + 30 + COATED) * 60);
    work_end(&list);
}

/* A is sanded and then coated. B is coated, coated again on the next day, and then sanded. Sanding both at once would have three batches of
 * coats; A's coat goes with the first of B's, and the sanding is set up twice. */
static void a_batch_parts_what_a_wait_parts_already(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_add_two(&list, DO_SAND, DO_APPLY, 3600, 0);
    work_row(&list);
    int first = work_add(&list, DO_APPLY, 1, 3600), second = work_add(&list, DO_APPLY, 1, 3600),
        sand = work_add(&list, DO_SAND, 1, 3600);
    work_link(&list, first, second, 24 * 60);
    work_link(&list, second, sand, 0);
    const struct site *site = work_site(&list, 14);
    check_int(HERE, bounds_of(site).work, (5 * 60 + 2 * SANDED + 2 * COATED) * 60);
    check_int(HERE, work_best(site).work.work, (5 * 60 + 2 * SANDED + 2 * COATED) * 60);
    work_end(&list);
}

/* A is coated twice, five hours apart, and behind that scuffed only where something is late. B has two tasks, is scuffed together with C and
 * then coated with A's second coat. The scuffing of both, set up for 40 min, waits for nothing of A: coats take two batches, not three. */
static void what_may_be_left_out_parts_nothing(void **state)
{
    (void)state;
    static const enum doing of_a[] = {DO_APPLY, DO_APPLY, DO_SCUFF};
    static const enum doing of_b[] = {DO_TASK, DO_TASK, DO_SCUFF, DO_APPLY};
    static const int32_t spans[] = {300, 0};
    struct work_list list;
    begin(&list);
    work_set_up(&list, WORK_SCUFF, 40, 0);
    for (int i = 0, last = 0; i < 3; i++) {
        int item = work_add(&list, of_a[i], 1, 600);
        list.items[item].late_scuff = of_a[i] == DO_SCUFF;
        if (i > 0)
            work_link(&list, last, item, spans[i - 1]);
        last = item;
    }
    work_row(&list);
    for (int i = 0, last = 0; i < 4; i++) {
        int item = work_add(&list, of_b[i], 1, 600);
        if (i > 0)
            work_link(&list, last, item, 0);
        last = item;
    }
    work_row(&list);
    work_add(&list, DO_SCUFF, 1, 600);
    check_int(HERE, bounds_of(work_site(&list, 14)).work, (7 * 10 + 2 * COATED + 40) * 60);
    work_end(&list);
}

/* Two people, four panels, each sanded for 15 min and coated for 10, in one room in which dust settles for
 * 30 min. Sanded by both the panels are done at 08:40, and coated from 09:10 by both until 09:30, or by one
 * until 09:50. Sanded by one they are done at 09:10, and coated from 09:40 by both until 10:00, or by one
 * until 10:20. Sanding is set up for 10 min and never cleaned up after. */
static void dust_settles_before_any_coat(void **state)
{
    static const struct {
        int32_t by;
        int64_t want;
    } rows[] = {
        {580, 2 * 10 + 2 * COATED}, {590, 2 * 10 + COATED}, {600, 2 * 10 + COATED}, {620, 10 + COATED}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct work_list list;
        begin(&list);
        work_set_up(&list, WORK_SAND, 10, 0);
        list.panel.job.shop.people = 2;
        list.panel.job.shop.settle_min = 30;
        panel_set_state(&list.panel, STATE_DUST_FREE, 60);
        for (int n = 0; n < 4; n++) {
            int sanded = work_add(&list, DO_SAND, 1, 900), coated = work_add(&list, DO_APPLY, 1, 600);
            list.items[sanded].dusty = true;
            work_link(&list, sanded, coated, 30);
            work_line(&list, coated, 0);
            work_row(&list);
        }
        check_int(HERE, bounds_work(work_site(&list, 14), &rows[i].by), (100 + rows[i].want) * 60);
        work_end(&list);
    }
}

/* One person, dust settles for an hour. Two pieces are sanded for half an hour each, at the soonest from 08:10 to 09:10, and coated; A
 * is coated for half an hour too, and must be through by 10:40. In one batch of all coats A begins by 10:10, and the dust of both
 * must have settled: the sanding is done first of all, clean at 09:15. Rubbing and polishing, set up for 20 min and done in 10, must both
 * be over by 10:00: behind the sanding there is room for one of them, and for less where it takes two batches. So A is coated by itself.
 * With more time for A, or for the others, one batch of each kind may do. */
static void dust_of_one_keeps_off_the_other(void **state)
{
    static const struct {
        int32_t coated_by, rubbed_by, want;
    } rows[] = {{640, 600, SANDED + COATED}, {1020, 600, SANDED}, {640, 1020, SANDED}};
    static const enum doing later[] = {DO_RUB, DO_RUB, DO_POLISH, DO_POLISH};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct work_list list;
        int32_t by = 1020;
        begin(&list);
        work_set_up(&list, WORK_RUB, 20, 0);
        work_set_up(&list, WORK_POLISH, 20, 0);
        list.panel.job.shop.settle_min = 60;
        panel_set_state(&list.panel, STATE_DUST_FREE, 60);
        work_line(&list, work_add(&list, DO_APPLY, 1, 1800), by - rows[i].coated_by);
        for (int n = 0; n < 2; n++) {
            work_row(&list);
            int sanded = work_add(&list, DO_SAND, 1, 1800), coated = work_add(&list, DO_APPLY, 1, 900);
            list.items[sanded].dusty = true;
            work_link(&list, sanded, coated, 0);
            work_line(&list, coated, 0);
        }
        for (int n = 0; n < 4; n++) {
            work_row(&list);
            work_line(&list, work_add(&list, later[n], 1, 300), by - rows[i].rubbed_by);
        }
        check_int(HERE, bounds_work(work_site(&list, 14), &by), (140 + rows[i].want + COATED + 2 * 20) * 60);
        work_end(&list);
    }
}

/* A coat of 10 min on one side, there from 11:00 on and to be done by 11:10; an hour to turn the piece, for which there is no room before
 * the break from 12:00 to 13:00; and the other side from 14:00. One batch does both, set up from 10:40 on: it stands idle for as long
 * as a turn takes that does not fit before a break. */
static void no_room_for_a_turn_before_the_break(void **state)
{
    (void)state;
    struct work_list list;
    int32_t by = 1020;
    begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    int first = work_add(&list, DO_APPLY, 1, 600), turn = work_add(&list, DO_FLIP, 1, 3600),
        other = work_add(&list, DO_APPLY, 1, 600);
    list.pieces[0].ready_min = march(1, 11, 0);
    work_link(&list, first, turn, 0);
    work_link(&list, turn, other, 0);
    work_line(&list, first, by - 670);
    work_line(&list, other, 0);
    const struct site *site = work_site(&list, 7);
    check_int(HERE, work_best(site).work.work, (2 * 10 + 60 + COATED) * 60);
    check_int(HERE, bounds_work(site, &by), (2 * 10 + 60 + COATED) * 60);
    work_end(&list);
}

/* A coat of 8 min 24 s, 50 min until the piece can be turned in six parts, and the other side, off from 12:00 to 13:00. Batches are set up
 * on five minutes of the clock, so that behind the coat 96 s are left before the break: where a part is turned in 60 s a batch cannot wait
 * for the break, as it stands idle only where there is no room for more; where it takes 100 s, it can. */
static void no_break_for_a_turn_that_would_fit(void **state)
{
    static const struct {
        int32_t part_s;
        int batches;
    } rows[] = {{60, 2}, {100, 1}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct work_list list;
        begin(&list);
        work_hours(&list, 8, 12, 13, 17);
        int first = work_add(&list, DO_APPLY, 1, 504), turn = work_add(&list, DO_FLIP, 6, rows[i].part_s),
            other = work_add(&list, DO_APPLY, 1, 600);
        work_link(&list, first, turn, 50);
        work_link(&list, turn, other, 0);
        const struct site *site = work_site(&list, 7);
        int64_t want = 504 + 6 * rows[i].part_s + 600 + rows[i].batches * COATED * 60;
        check_int(HERE, work_best(site).work.work, want);
        check_int(HERE, bounds_of(site).work, want);
        work_end(&list);
    }
}

/* What is sanded and what is scuffed with one grit share batches, set up and cleaned up as the one asks that asks for the most: scuffing for
 * 12 and 20 min. Two of the first piece are five hours apart, and another piece is scuffed with either. */
struct grit_row {
    struct row row;
    enum doing first, second;
    int64_t around; /* minutes of both batches */
};

static const struct grit_row grits[] = {
    {ROW("both are scuffed"), DO_SCUFF, DO_SCUFF, 2 * 32},
    {ROW("one is sanded"), DO_SAND, DO_SCUFF, SANDED + 32},
    {ROW("both are sanded"), DO_SAND, DO_SAND, SANDED + 32},
};

static void one_grit_is_set_up_for_the_most(void **state)
{
    const struct grit_row *r = *state;
    struct work_list list;
    begin(&list);
    work_set_up(&list, WORK_SCUFF, 12, 20);
    work_add_two(&list, r->first, r->second, 3600, 300);
    work_row(&list);
    work_add(&list, DO_SCUFF, 1, 3600);
    const struct site *site = work_site(&list, 14);
    check_int(&r->row, bounds_of(site).work, (180 + r->around) * 60);
    check_int(&r->row, work_best(site).work.work, (180 + r->around) * 60);
    work_end(&list);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(two_batches_part_a_third_kind), CHECK_TEST(a_batch_parts_what_a_wait_parts_already),
        CHECK_TEST(what_may_be_left_out_parts_nothing), CHECK_TEST(dust_settles_before_any_coat),
        CHECK_TEST(dust_of_one_keeps_off_the_other), CHECK_TEST(no_room_for_a_turn_before_the_break),
        CHECK_TEST(no_break_for_a_turn_that_would_fit), CHECK_ROWS(grits, one_grit_is_set_up_for_the_most));
}
