/* The least work of small jobs, worked by hand: every unit, and set-up, mixes and clean-up of as many
 * batches as no plan can do without. Each bound is compared with the best of all plans too. Sanding is set
 * up for 10 min and cleaned up for 5, a coat for 20 and 10. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

enum { SANDED = 15, COATED = 30, MIXED = 5 };

static void begin(struct work_list *list)
{
    work_begin(list);
    work_set_up(list, WORK_SAND, 10, 5);
    work_set_up(list, TOOL_CLOTH, 20, 10);
}

/* Minutes: of the bound, and of the best plan. */
static void check_best(const struct row *row, const struct site *site, int64_t want, int64_t want_best)
{
    check_int(row, bounds_of(site).work, want * 60);
    struct score best = work_best(site).work;
    check_true(row, best.whole, "some plan does it");
    check_int(row, best.work, want_best * 60);
}

/* The bound is what the best plan takes. */
static void check_work(const struct row *row, const struct site *site, int64_t want)
{
    check_best(row, site, want, want);
}

static void checked(const struct row *row, struct work_list *list, int64_t want)
{
    check_work(row, work_site(list, 14), want);
    work_end(list);
}

/* The rack has room for so many pieces. */
static const struct site *rack_site(struct work_list *list, int32_t pieces)
{
    struct site *site = work_site(list, 14);
    site->rack = pieces;
    for (size_t i = 0; i < site->count; i++)
        site->rows[i].rack = 1;
    return site;
}

static void one_batch_of_a_kind(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    for (int i = 0; i < 3; i++) {
        work_add(&list, DO_SAND, 2, 1800);
        work_row(&list);
    }
    checked(HERE, &list, 180 + SANDED);
    begin(&list);
    work_add(&list, DO_SAND, 1, 3600);
    int fine = work_add(&list, DO_SAND, 1, 3600);
    list.items[fine].grit = 240;
    int coat = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, fine, coat, 0);
    checked(HERE, &list, 180 + 2 * SANDED + COATED);
    begin(&list);
    work_add(&list, DO_SAND, 0, 0);
    check_int(HERE, bounds_of(work_site(&list, 14)).work, 0);
    work_end(&list);
}

/* Two units of so many seconds in what a stretch or a day holds beside set-up and clean-up. */
struct day_row {
    struct row row;
    enum doing doing;
    int rest_min; /* of the cloth, over a break of an hour; -1: there is no break */
    int32_t seconds;
    int batches;
};

static const struct day_row days[] = {
    {ROW("a day of 9 h less 15 min"), DO_SAND, -1, 525 * 30, 1},
    {ROW("a second more each"), DO_SAND, -1, 525 * 30 + 60, 2},
    {ROW("two stretches of 4 h less 15 min"), DO_SAND, 0, 225 * 60, 1},
    {ROW("the cloth lies over the break"), DO_APPLY, 60, 210 * 60, 1},
    {ROW("the cloth may not lie so long"), DO_APPLY, 59, 105 * 60, 1},
    {ROW("a stretch is too short for both"), DO_APPLY, 59, 106 * 60, 2},
};

static void days_hold(void **state)
{
    const struct day_row *r = *state;
    struct work_list list;
    begin(&list);
    if (r->rest_min >= 0) {
        work_hours(&list, 8, 12, 13, 17);
        list.panel.job.shop.rest_min[TOOL_CLOTH] = r->rest_min;
    }
    work_add(&list, r->doing, 1, r->seconds);
    work_row(&list);
    work_add(&list, r->doing, 1, r->seconds);
    int64_t each = r->doing == DO_SAND ? SANDED : COATED;
    checked(&r->row, &list, 2 * (int64_t)r->seconds / 60 + r->batches * each);
}

/* Two coats of a piece, an hour each, with a wait between; so many other pieces are coated for an hour
 * each. A batch does not stand still but for a break from 12:00 to 13:00 before which the next unit has no
 * room. */
struct wait_row {
    struct row row;
    int others;
    bool breaks;
    int32_t wait_min;
    int batches;
};

static const struct wait_row waits[] = {
    {ROW("no wait"), 0, false, 0, 1},
    {ROW("a minute"), 0, false, 1, 2},
    {ROW("an hour that another piece fills"), 1, false, 60, 1},
    {ROW("a minute more"), 1, false, 61, 2},
    {ROW("two hours that two others fill"), 2, false, 120, 1},
    {ROW("a minute more than two fill"), 2, false, 121, 2},
    {ROW("a day"), 2, false, 24 * 60, 2},
    {ROW("an hour of break"), 0, true, 60, 1},
    {ROW("before it 55 min are left, too few for a unit"), 0, true, 115, 1},
    {ROW("an hour is left: the unit would be done in it"), 0, true, 116, 2},
    {ROW("another piece and the break"), 1, true, 175, 1},
    {ROW("more than both and what is left"), 1, true, 176, 2},
};

static void waits_part(void **state)
{
    const struct wait_row *r = *state;
    struct work_list list;
    begin(&list);
    if (r->breaks)
        work_hours(&list, 8, 12, 13, 17);
    int first = work_add(&list, DO_APPLY, 1, 3600), second = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, first, second, r->wait_min);
    for (int i = 0; i < r->others; i++) {
        work_row(&list);
        work_add(&list, DO_APPLY, 1, 3600);
    }
    checked(&r->row, &list, 120 + r->others * 60 + r->batches * COATED);
}

/* The coats of a piece are an hour apart, which another piece of two coats of half an hour fills; a minute more it does not. */
static void two_coats_fill_an_hour(void **state)
{
    (void)state;
    for (int32_t wait = 60; wait <= 61; wait++) {
        struct work_list list;
        begin(&list);
        work_add_two(&list, DO_APPLY, DO_APPLY, 3600, wait);
        work_row(&list);
        work_add_two(&list, DO_APPLY, DO_APPLY, 1800, 0);
        checked(HERE, &list, 180 + (wait == 60 ? 1 : 2) * COATED);
    }
}

/* One piece is sanded with 120 and then 180, the other the other way round. Who is alone does one of these
 * grits twice; two people could change pieces after an hour, which the bound has to allow though no plan
 * is made so. */
static void one_batch_parts_another(void **state)
{
    (void)state;
    for (int people = 1; people <= 2; people++) {
        struct work_list list;
        begin(&list);
        list.panel.job.shop.people = people;
        for (int row = 0; row < 2; row++) {
            int first = work_add(&list, DO_SAND, 1, 3600), second = work_add(&list, DO_SAND, 1, 3600);
            list.items[first].grit = row == 0 ? 120 : 180;
            list.items[second].grit = row == 0 ? 180 : 120;
            work_link(&list, first, second, 0);
            work_row(&list);
        }
        check_best(HERE, work_site(&list, 14), 240 + (people == 1 ? 3 : 2) * SANDED, 240 + 3 * SANDED);
        work_end(&list);
    }
}

/* One piece is sanded and then coated, the other the other way round: the sanding is set up twice, which
 * costs less than a second set-up of the coat. */
static void the_cheaper_kind_is_parted(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_add_two(&list, DO_SAND, DO_APPLY, 3600, 0);
    work_row(&list);
    work_add_two(&list, DO_APPLY, DO_SAND, 3600, 0);
    checked(HERE, &list, 240 + 2 * SANDED + COATED);
}

/* A piece is coated so often, for half a minute each, and in the middle there is a wait of 10 min. The coats before and behind it would
 * fill that, but cannot lie between: two batches. Of more pairs of coats than can be looked at in good time none is: the bound has one. */
static void a_wait_in_a_long_row(void **state)
{
    static const struct {
        int coats, batches;
    } rows[] = {{40, 2}, {64, 2}, {280, 1}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct work_list list;
        begin(&list);
        for (int n = 0; n < rows[i].coats; n++) {
            work_add(&list, DO_APPLY, 1, 30);
            if (n > 0)
                work_link(&list, n - 1, n, n == rows[i].coats / 2 ? 10 : 0);
        }
        check_int(HERE, bounds_of(work_site(&list, 14)).work,
                  rows[i].coats * 30 + rows[i].batches * COATED * 60);
        work_end(&list);
    }
}

/* The plan looks one day ahead, in which there is one break: two coats may lie on both sides of it. */
static void one_break_is_one(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    work_add_two(&list, DO_APPLY, DO_APPLY, 3600, 60);
    check_work(HERE, work_site(&list, 1), 120 + COATED);
    work_end(&list);
}

/* Off from 12:00 to 13:00. Coats of an hour with a wait, and another piece that is turned for 4 min and coated for 5. A first coat that
 * ends at 10:55, as batches begin on five minutes of the clock, leaves 56 min behind these: too few for the second, which begins 125 min
 * behind the first. One that ends five minutes sooner leaves room for it. */
static void a_turn_leaves_less_before_the_break(void **state)
{
    (void)state;
    for (int32_t wait = 125; wait <= 126; wait++) {
        struct work_list list;
        begin(&list);
        work_hours(&list, 8, 12, 13, 17);
        work_add_two(&list, DO_APPLY, DO_APPLY, 3600, wait);
        work_row(&list);
        int turn = work_add(&list, DO_FLIP, 1, 240), coat = work_add(&list, DO_APPLY, 1, 300);
        work_link(&list, turn, coat, 0);
        checked(HERE, &list, 129 + (wait == 125 ? 1 : 2) * COATED);
    }
}

/* Open from 08:00 to 09:00 and from 10:00 to 11:00. The rack holds one of two pieces, and a coat lies on it for five hours: two batches.
 * A mix, laid within an hour, is spent when the break is over, and an hour has room for one and 35 min of units behind a set-up: coats of
 * 25 and 50 min take three mixes. One batch would do both with two, 80 min beside set-up, clean-up and mixes. */
static void each_batch_has_its_own_mixes(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_hours(&list, 8, 9, 10, 11);
    list.panel.job.shop.rest_min[TOOL_CLOTH] = 60;
    panel_set_state(&list.panel, STATE_HANDLE, 300);
    work_add(&list, DO_APPLY, 5, 300);
    work_row(&list);
    work_add(&list, DO_APPLY, 10, 300);
    work_mixed(&list, 60, 120);
    check_work(HERE, rack_site(&list, 1), 75 + 2 * COATED + 3 * MIXED);
    work_end(&list);
}

/* A rack that holds one piece: two pieces of two coats each, of which each lies there for five hours, are
 * four batches. */
static void each_coat_lies_by_itself(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    panel_set_state(&list.panel, STATE_HANDLE, 300);
    for (int i = 0; i < 2; i++) {
        if (i > 0)
            work_row(&list);
        work_add_two(&list, DO_APPLY, DO_APPLY, 1800, 900);
    }
    check_work(HERE, rack_site(&list, 1), 120 + 4 * COATED);
    work_end(&list);
}

/* Two people, off from 12:00 to 13:00. A piece is coated for an hour, sanded by the other, and coated
 * again in units of so many minutes: in one batch, the bound allows, if less than a unit is left before
 * noon, on five minutes of the clock, and the sanding is done in it; the search divides such batches. */
struct other_row {
    struct row row;
    int32_t wait, sand, unit; /* minutes; the wait is before the sanding */
    int batches;
};

static const struct other_row others[] = {
    {ROW("done in what is left"), 0, 30, 60, 1},
    {ROW("a unit fits behind it"), 0, 30, 20, 2},
    {ROW("a quarter of an hour is left"), 0, 15, 20, 1},
    {ROW("on the clock no 16 min are left, but 20"), 0, 16, 20, 2},
    {ROW("a wait of 10 min comes before"), 10, 5, 20, 1},
    {ROW("a wait of 15 min comes before"), 15, 5, 20, 2},
};

static void others_work_between(void **state)
{
    const struct other_row *r = *state;
    struct work_list list;
    begin(&list);
    list.panel.job.shop.people = 2;
    work_hours(&list, 8, 12, 13, 17);
    int first = work_add(&list, DO_APPLY, 1, 3600), sand = work_add(&list, DO_SAND, 1, r->sand * 60),
        second = work_add(&list, DO_APPLY, 60 / r->unit, r->unit * 60);
    work_link(&list, first, sand, r->wait);
    work_link(&list, sand, second, 0);
    int64_t work = 120 + r->sand + SANDED;
    check_best(&r->row, work_site(&list, 14), work + r->batches * COATED, work + 2 * COATED);
    work_end(&list);
}

/* A mix stands for 10 min, is laid within 90 and lives for 4 h; each coat of an hour has its own. The
 * first ends at 11:00: a mix and a unit, 65 min, have no room before noon. Behind the break another is
 * mixed, and stands: the second coat begins at 13:15, in the same batch. */
static void a_mix_stands_behind_the_break(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    list.panel.finish.induction_min = 10;
    work_add_two(&list, DO_APPLY, DO_APPLY, 3600, 135);
    work_mixed(&list, 90, 240);
    check_best(HERE, work_site(&list, 14), 120 + COATED + 10 + 2 * MIXED, 120 + COATED + 2 * (10 + MIXED));
    work_end(&list);
}

/* Off from 12:00 to 13:00, and a mix is laid within 30 min and dead after 40: none lives over the break. Coats of 90 and of 105 min take 7
 * mixes and with set-up and clean-up 4 h 20 min: more than a morning or an afternoon has. Two batches, of 3 and of 4 mixes. */
static void no_mix_lives_over_the_break(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_hours(&list, 8, 12, 13, 17);
    work_add(&list, DO_APPLY, 6, 900);
    work_row(&list);
    work_add(&list, DO_APPLY, 7, 900);
    work_mixed(&list, 30, 40);
    checked(HERE, &list, 195 + 2 * COATED + 7 * MIXED);
}

/* Off from 10:00 to 10:15 and from 12:00 to 13:00. The first coat ends at 09:20, 40 min before a break,
 * too few for the other piece's 45; that is done at 11:00, an hour before a break, too little for the
 * second coat's 65: it begins 3 h 40 min behind the first. */
static void over_two_breaks(void **state)
{
    (void)state;
    static const struct stretch stretches[] = {{480, 600}, {615, 720}, {780, 1020}};
    struct work_list list;
    begin(&list);
    for (int day = 0; day < 7; day++)
        list.panel.job.shop.hours[day] = (struct shop_day){stretches, 3};
    int first = work_add(&list, DO_APPLY, 1, 1800), second = work_add(&list, DO_APPLY, 1, 65 * 60);
    work_link(&list, first, second, 220);
    work_row(&list);
    work_add(&list, DO_APPLY, 1, 45 * 60);
    checked(HERE, &list, 140 + COATED);
}

/* Off from 12:00 to 13:00. Coats of an hour with a wait, and another piece in two units of 250 s: batches
 * and breaks begin on five minutes of the clock, so that of a unit's hour 3300, 3350 or 3400 s are left at
 * the most: with both units between, and the rounding of both moments, 126 min are a second too many. */
static void what_may_be_left_on_the_clock(void **state)
{
    (void)state;
    for (int32_t wait = 125; wait <= 126; wait++) {
        struct work_list list;
        begin(&list);
        work_hours(&list, 8, 12, 13, 17);
        work_add_two(&list, DO_APPLY, DO_APPLY, 3600, wait);
        work_row(&list);
        work_add(&list, DO_APPLY, 2, 250);
        const struct site *site = work_site(&list, 14);
        check_int(HERE, bounds_of(site).work, 120 * 60 + 500 + (wait == 125 ? 1 : 2) * COATED * 60);
        work_end(&list);
    }
}

/* A piece is coated, sanded and coated again: who is alone puts the cloth away in between, whoever waits
 * no longer. */
static void other_work_lies_between(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    int first = work_add(&list, DO_APPLY, 1, 3600), sand = work_add(&list, DO_SAND, 1, 1800),
        second = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, first, sand, 0);
    work_link(&list, sand, second, 0);
    work_row(&list);
    work_add(&list, DO_APPLY, 1, 3600);
    checked(HERE, &list, 210 + SANDED + 2 * COATED);
}

/* Pieces lie wet for so long, on a rack that holds two of them; where the last hangs elsewhere, one and a half. */
struct rack_row {
    struct row row;
    int32_t handle_min;
    int coats[4]; /* minutes of each; 0: no such piece */
    bool hangs;
    int batches;
};

static const struct rack_row racks[] = {
    {ROW("dry at once"), 0, {60, 60, 60}, false, 1},
    {ROW("off the rack when the third is coated"), 50, {60, 60, 60}, false, 1},
    /* The first is off when two hours of coats are done at the latest, whatever is between them. */
    {ROW("two hours and the minute by which a moment is rounded"), 122, {60, 60, 60}, false, 2},
    {ROW("longer than a batch of all"), 300, {60, 60, 60}, false, 2},
    /* A short one, a long one, the other long one when the first is off, the other short one. */
    {ROW("off while a longer one is coated, though two short ones fill it"), 30, {10, 10, 60, 60}, false, 1},
    /* The second of the two that lie is begun when 70 min of the others are done at the latest. */
    {ROW("longer than one and what hangs take"), 80, {60, 60, 10}, true, 2},
};

static void racks_hold(void **state)
{
    const struct rack_row *r = *state;
    struct work_list list;
    int32_t coats = 0;
    begin(&list);
    panel_set_state(&list.panel, STATE_HANDLE, r->handle_min);
    for (int i = 0; i < 4 && r->coats[i] > 0; i++) {
        if (i > 0)
            work_row(&list);
        work_add(&list, DO_APPLY, 1, r->coats[i] * 60);
        coats += r->coats[i];
    }
    const struct site *site = rack_site(&list, r->hangs ? 3 : 2);
    for (size_t i = 0; r->hangs && i < site->count; i++)
        site->rows[i].rack = i + 1 < site->count ? 2 : 0;
    check_work(&r->row, site, coats + r->batches * COATED);
    work_end(&list);
}

/* A mix is laid within 60 min and takes 5. */
struct mix_row {
    struct row row;
    int units;
    int32_t seconds;
    int working, mixes;
};

static const struct mix_row mixes[] = {
    {ROW("one of an hour"), 1, 3600, 60, 1},   {ROW("a little more"), 1, 3660, 60, 2},
    {ROW("three of 20 min"), 3, 1200, 60, 1},  {ROW("four of 20 min"), 4, 1200, 60, 2},
    {ROW("each has its own"), 3, 2400, 60, 3}, {ROW("one for all that never sets"), 3, 3600, SITE_NEVER, 1},
};

static void mixes_are(void **state)
{
    const struct mix_row *r = *state;
    struct work_list list;
    begin(&list);
    work_add(&list, DO_APPLY, r->units, r->seconds);
    work_mixed(&list, r->working, r->working);
    checked(&r->row, &list, (int64_t)r->units * r->seconds / 60 + COATED + (int64_t)r->mixes * MIXED);
}

/* One piece must be through by 11:00, the other comes at noon: two batches, where any time serves one. */
static void in_time_takes_more(void **state)
{
    (void)state;
    struct work_list list;
    begin(&list);
    work_line(&list, work_add(&list, DO_APPLY, 1, 3600), 360);
    work_row(&list);
    list.pieces[1].ready_min = march(1, 12, 0);
    work_line(&list, work_add(&list, DO_APPLY, 1, 3600), 0);
    const struct site *site = work_site(&list, 14);
    int32_t by = work_at(0, 17, 0);
    check_int(HERE, bounds_work(site, &by), (120 + 2 * COATED) * 60);
    by = work_at(1, 17, 0);
    check_int(HERE, bounds_work(site, &by), (120 + COATED) * 60);
    check_work(HERE, site, 120 + COATED);
    work_end(&list);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(one_batch_of_a_kind), CHECK_ROWS(days, days_hold), CHECK_ROWS(waits, waits_part),
        CHECK_TEST(two_coats_fill_an_hour), CHECK_TEST(one_batch_parts_another),
        CHECK_TEST(the_cheaper_kind_is_parted), CHECK_TEST(a_wait_in_a_long_row),
        CHECK_TEST(one_break_is_one), CHECK_ROWS(others, others_work_between),
        CHECK_TEST(a_mix_stands_behind_the_break), CHECK_TEST(no_mix_lives_over_the_break),
        CHECK_TEST(over_two_breaks), CHECK_TEST(what_may_be_left_on_the_clock),
        CHECK_TEST(a_turn_leaves_less_before_the_break), CHECK_TEST(each_batch_has_its_own_mixes),
        CHECK_TEST(each_coat_lies_by_itself), CHECK_TEST(other_work_lies_between),
        CHECK_ROWS(racks, racks_hold), CHECK_ROWS(mixes, mixes_are), CHECK_TEST(in_time_takes_more));
}
