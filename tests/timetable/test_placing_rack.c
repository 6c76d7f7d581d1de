/* What lies on the rack when a batch starts. */
#include "floor.h"

/* The rack has room for 10. Item 0 lies there from 500 to 900, item 1 from 520 to 800, with so much room
 * each. */
struct rack_row {
    struct row row;
    int32_t room[FLOOR_ITEMS];
    int lots[FLOOR_ITEMS];
    int32_t from, to; /* item 2 */
    bool good;
    int other;
    int32_t until, again;
};

static const struct rack_row racks[] = {
    {ROW("just full"), {6, 0, 4, 0}, {0, 1, 2, 3}, 400, 950, true, 0, 0, 0},
    {ROW("too full"), {6, 0, 5, 0}, {0, 1, 2, 3}, 400, 950, false, 0, 950, FLOOR_START + 450},
    {ROW("room as the other leaves"), {6, 0, 5, 0}, {0, 1, 2, 3}, 400, 500, true, 0, 0, 0},
    {ROW("a minute before"), {6, 0, 5, 0}, {0, 1, 2, 3}, 400, 501, false, 0, 501, FLOOR_START + 5},
    {ROW("it leaves as the other comes"), {6, 0, 5, 0}, {0, 1, 2, 3}, 900, 950, true, 0, 0, 0},
    /* later by 950 - 899, less 20 of pauses: 31 */
    {ROW("the other comes a minute before"),
     {6, 0, 5, 0},
     {0, 1, 2, 3},
     899,
     950,
     false,
     0,
     950,
     FLOOR_START + 35},
    {ROW("a lot lies there once"), {6, 0, 6, 0}, {0, 1, 0, 3}, 400, 950, true, 0, 0, 0},
    {ROW("two of a lot, one after the other"), {6, 6, 4, 0}, {0, 0, 2, 3}, 400, 950, true, 0, 0, 0},
    {ROW("the second is too much"), {4, 4, 5, 0}, {0, 1, 2, 3}, 400, 620, false, 0, 620, FLOOR_START + 100},
};

static void has_room_on_the_rack(void **state)
{
    const struct rack_row *r = *state;
    struct floor f;
    floor_init(&f);
    floor_work(&f, 0, 500, 520);
    floor_work(&f, 1, 520, 540);
    floor_film(&f, 0, 900, 560);
    floor_film(&f, 1, 800, 580);
    floor_place(&f, 2, r->from, r->from + 20);
    floor_film(&f, 2, r->to, r->from + 30);
    for (int i = 0; i < FLOOR_ITEMS; i++) {
        f.rows[i].rack = r->room[i];
        f.rows[i].lot = r->lots[i];
    }
    f.placed[0].lies = placing_lies(&f.draft, &f.placed[0].batch);
    check_int(&r->row, f.placed[0].lies.from, r->from);
    check_int(&r->row, f.placed[0].lies.to, r->to);
    check_int(&r->row, rule_rack(&f.placing), r->good);
    if (!r->good)
        check_refused(&r->row, &f, HINDERED_BY_RACK, r->other, r->until, r->again);
    f.site.rack = -1;
    check_true(&r->row, rule_rack(&f.placing), "a rack without end");
}

/* A piece laid before lies there with 6 until 560; item 0 takes 5 from 500, and must wait for 60; or both
 * are one lot. */
static void what_lay_there_before(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.site.lying_count = 1;
    f.lying = (struct lying){.lot = FLOOR_ITEMS, .handle = 560, .rack = 6};
    f.placing.batch.count = 1;
    floor_work(&f, 0, 500, 520);
    floor_film(&f, 0, 900, 560);
    f.rows[0].rack = 5;
    check_true(HERE, !rule_rack(&f.placing), "there is no room");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, 560, FLOOR_START + 60);
    f.lying.handle = 500;
    check_true(HERE, rule_rack(&f.placing), "it leaves as this comes");
    f.lying.handle = 560;
    f.lying.rack = 0;
    check_true(HERE, rule_rack(&f.placing), "it takes no room");
    f.lying.rack = 6;
    f.lying.lot = 0;
    check_true(HERE, rule_rack(&f.placing), "it is the same lot");
}

/* Two of the batch with 6 each: the second comes at 520, and the first leaves at 540. No pause comes between until noon, and it may
 * leave sooner at another hour of the day: not before the second would come at 540, 20 minutes later. Had there to be more than the
 * 20 minutes of all pauses no start does, and the batch breaks at the second. */
static void too_much_in_one_batch(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    floor_work(&f, 0, 500, 520);
    floor_work(&f, 1, 520, 540);
    floor_film(&f, 0, 540, 525);
    floor_film(&f, 1, 800, 580);
    f.rows[0].rack = f.rows[1].rack = 6;
    f.tried.laid.broke_at = 2;
    check_true(HERE, !rule_rack(&f.placing), "there is no room for both");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, SITE_NEVER, FLOOR_START + 20);
    check_int(HERE, (intmax_t)f.tried.laid.broke_at, 1);
    f.handle[0] = 541;
    check_true(HERE, !rule_rack(&f.placing), "there is no room for both");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, SITE_NEVER, SITE_NEVER);
    f.handle[0] = 520;
    check_true(HERE, rule_rack(&f.placing), "one leaves as the other comes");
}

/* Of three the first leaves as the third comes; it is the second that leaves 21 minutes later, which no
 * pause is. */
static void who_has_left_is_not_waited_for(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.placing.batch.count = 3;
    const int32_t from[] = {500, 515, 520}, to[] = {520, 541, 900}, room[] = {4, 6, 6};
    for (int i = 0; i < 3; i++) {
        floor_work(&f, i, from[i], from[i] + 5);
        floor_film(&f, i, to[i], from[i] + 5);
        f.rows[i].rack = room[i];
    }
    check_true(HERE, !rule_rack(&f.placing), "there is no room for two");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, SITE_NEVER, SITE_NEVER);
    check_int(HERE, (intmax_t)f.tried.laid.broke_at, 2);
}

/* What was placed first lies there longest, 5 from 400 on; of the batch 6 come at 500 and leave at 510, 1
 * comes at 520. */
static void for_a_short_time(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    floor_work(&f, 0, 500, 505);
    floor_film(&f, 0, 510, 505);
    floor_work(&f, 1, 520, 525);
    floor_film(&f, 1, 800, 525);
    floor_place(&f, 2, 400, 420);
    floor_film(&f, 2, 950, 430);
    f.rows[0].rack = 6;
    f.rows[1].rack = 1;
    f.rows[2].rack = 5;
    f.placed[0].lies = placing_lies(&f.draft, &f.placed[0].batch);
    check_true(HERE, !rule_rack(&f.placing), "there is no room for ten minutes");
    check_refused(HERE, &f, HINDERED_BY_RACK, 0, 950, FLOOR_START + 450);
}

/* What lies on no rack is not waited for: of one batch item 2 leaves at 950, item 3, which takes no room,
 * at 600. */
static void who_takes_no_room(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.placing.batch.count = 1;
    floor_work(&f, 0, 500, 520);
    floor_film(&f, 0, 900, 560);
    floor_place(&f, 2, 400, 420);
    floor_film(&f, 2, 950, 430);
    floor_work(&f, 3, 420, 440);
    floor_film(&f, 3, 600, 450);
    f.batch_of[3] = 0;
    f.placed[0].batch.count = 2;
    f.rows[0].rack = f.rows[2].rack = 6;
    f.placed[0].lies = placing_lies(&f.draft, &f.placed[0].batch);
    check_int(HERE, f.placed[0].lies.to, 950);
    check_true(HERE, !rule_rack(&f.placing), "there is no room");
    check_refused(HERE, &f, HINDERED_BY_RACK, 0, 950, FLOOR_START + 450);
    f.rows[0].rack = 0;
    check_int(HERE, placing_lies(&f.draft, &f.placing.batch).to, 0);
    check_true(HERE, rule_rack(&f.placing), "it needs none");
}

/* Two that come and leave together, in whichever order they were placed: the one of the lower number is named. */
static void of_two_alike_the_lower_number(void **state)
{
    (void)state;
    for (int lower_first = 0; lower_first < 2; lower_first++) {
        struct floor f;
        floor_init(&f);
        f.placing.batch.count = 1;
        floor_work(&f, 0, 500, 520);
        floor_film(&f, 0, 900, 560);
        f.rows[0].rack = 6;
        for (int k = 0; k < 2; k++) {
            int item = lower_first ? 2 + k : 3 - k;
            floor_place(&f, item, 400, 420);
            floor_film(&f, item, 950, 430);
            f.rows[item].rack = 5;
            f.placed[k].lies = placing_lies(&f.draft, &f.placed[k].batch);
        }
        check_true(HERE, !rule_rack(&f.placing), "there is no room");
        check_refused(HERE, &f, HINDERED_BY_RACK, lower_first ? 0 : 1, 950, FLOOR_START + 450);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(racks, has_room_on_the_rack), CHECK_TEST(what_lay_there_before),
                     CHECK_TEST(too_much_in_one_batch), CHECK_TEST(who_has_left_is_not_waited_for),
                     CHECK_TEST(for_a_short_time), CHECK_TEST(who_takes_no_room),
                     CHECK_TEST(of_two_alike_the_lower_number));
}
