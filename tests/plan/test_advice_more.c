/* An earlier start, more lots, another position, a helper beside people with names, and --soonest; worked by hand in the shop
 * of test_advice.c. */
#include "check.h"
#include "late_desk.h"

#include "base/arena.h"
#include "base/observer.h"

enum { FIRST_LOOK = 300000 }; /* units of effort, where none is given */

/* Coated for an hour from Tuesday 08:00, handled 6 h later, at 15:00; due at 12:00. */
static struct desk *due_on_tuesday(int64_t now_min)
{
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    desk_handled_after(desk, 360);
    desk->panel.job.start_min = march(2, 8, 0);
    desk->panel.job.deliver_min = march(2, 12, 0);
    desk->now_min = now_min;
    return desk;
}

/* On Monday from 10:05, the next 5 minutes of the clock: until 11:05 and 17:05. */
static void a_start_at_once(void **state)
{
    (void)state;
    check_told(HERE, due_on_tuesday(march(1, 10, 2)),
               "begun 2027-03-01 10:05: ready 2027-03-01 17:05, 21 h 55 min sooner, in time; in test.json: "
               "`{\"start\": \"2027-03-01 10:05\"}`\n");
}

/* A day earlier is enough, though a month would be possible. */
static void a_start_a_day_earlier(void **state)
{
    (void)state;
    check_told(HERE, due_on_tuesday(march(-30, 8, 0)),
               "begun 2027-03-01 08:00: ready 2027-03-01 15:00, 1 d sooner, in time; in test.json: "
               "`{\"start\": \"2027-03-01 08:00\"}`\n");
}

/* Coated on Friday until 09:00 and handled three days later, on Monday, a working day late in a shop that is closed at weekends.
 * From Thursday it is Sunday; three working days before that is Monday, and Thursday at 09:00 is in time. */
static void a_start_before_the_weekend(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    desk_handled_after(desk, 3 * 1440);
    desk->panel.job.start_min = march(12, 8, 0);
    desk->panel.job.deliver_min = march(12, 12, 0);
    desk->panel.job.shop.hours[5].count = desk->panel.job.shop.hours[6].count = 0;
    desk->now_min = march(-30, 8, 0);
    check_told(HERE, desk,
               "begun 2027-03-08 08:00: ready 2027-03-11 09:00, 4 d sooner, in time; in test.json: "
               "`{\"start\": \"2027-03-08 08:00\"}`\n");
}

/* After closing on Monday it is the start that it has; and none lies in the past. */
static void no_start_before_now(void **state)
{
    (void)state;
    check_told(HERE, due_on_tuesday(march(1, 17, 0)), "");
    check_told(HERE, due_on_tuesday(march(2, 9, 0)), "");
}

/* Two parts of 2 h, two coats, an hour between them. Both in one lot: 08:00-12:00, then 13:00-17:00. One after the other:
 * 08:00-10:00, 10:00-12:00, 12:00-14:00, 14:00-16:00. */
static void one_more_lot(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    desk_coat(desk, 0, 1);
    panel_set_hours(&desk->panel, 0, 4);
    panel_set_window(&desk->panel, 60, SPAN_NEVER);
    desk->panel.parts[0].qty = 2;
    desk->panel.finish.air.highest_c = 24;
    desk->panel.pieces[0].lots = 1;
    check_told(
        HERE, desk,
        "\"A\" in 2 lots: ready 2027-03-01 16:00, 1 h sooner; in test.json: `{\"pieces\": [{\"piece\": "
        "\"A\", \"lots\": 2}]}`\n");
}

/* Face 08:00-09:00, dry to handle at 12:00, turned in a minute, back from 12:05 until 13:05, ready at 16:05. Standing or hung both by
 * 10:00, ready at 13:00; on points turned at 09:00, both by 10:05, ready at 13:05. */
static void another_position(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    panel_two_sides(&desk->panel, 0);
    panel_set_hours(&desk->panel, 0, 1);
    desk->panel.pieces[0].laid_given = true;
    desk_handled_after(desk, 180);
    check_told(HERE, desk,
               "\"A\" standing: ready 2027-03-01 13:00, 3 h 5 min sooner, 1 min less work; in test.json: "
               "`{\"pieces\": [{\"piece\": \"A\", \"laid\": \"standing\"}]}`\n"
               "\"A\" hung: ready 2027-03-01 13:00, 3 h 5 min sooner, 1 min less work; in test.json: "
               "`{\"pieces\": [{\"piece\": \"A\", \"laid\": \"hung\"}]}`\n"
               "\"A\" turned wet, on points: ready 2027-03-01 13:05, 3 h sooner; in test.json: `{\"pieces\": "
               "[{\"piece\": \"A\", \"laid\": \"flat\", \"flip\": \"now\"}]}`\n");
}

/* On 1 m2 of rack the second of two pieces that lie flat on 1 m2 each follows the first: 08:00-09:00, 15:00-16:00, ready at 22:00. With the one
 * hung, or both upright on their narrow sides, both are coated by 10:00. */
static void a_piece_hung(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    panel_add_piece(&desk->panel);
    desk_coat(desk, 0, 1);
    desk_coat(desk, 1, 1);
    desk_handled_after(desk, 360);
    desk->panel.job.shop.rack_m2 = 1;
    for (size_t i = 0; i < 2; i++) {
        desk->panel.pieces[i].laid = LAID_FLAT;
        desk->panel.pieces[i].laid_given = true;
    }
    check_told(
        HERE, desk,
        "\"A\" hung: ready 2027-03-01 16:00, 6 h sooner; in test.json: `{\"pieces\": [{\"piece\": \"A\", "
        "\"laid\": \"hung\"}, {\"piece\": \"B\", \"laid\": \"flat\"}]}`\n"
        "every flat piece standing: ready 2027-03-01 16:00, 6 h sooner; in test.json: `{\"pieces\": "
        "[{\"piece\": \"A\", \"laid\": \"standing\"}, {\"piece\": \"B\", \"laid\": \"standing\"}]}`\n"
        "a rack of 2.00 m² instead of 1.00 m²: ready 2027-03-01 16:00, 6 h sooner; in test.json: "
        "`{\"shop\": {\"rack\": \"2 m2\"}}`\n");
}

/* As with one more of two who are only counted. */
static void a_helper_beside_named_people(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    static const char *const calendars[] = {"ann.ics"};
    struct person ann = shop_person(&desk->panel.job.shop, 0);
    ann.name = "Ann";
    ann.does = 1 << TOOL_CLOTH;
    ann.calendars = calendars;
    ann.calendar_count = 1;
    desk->panel.job.shop.crew = &ann;
    panel_add_piece(&desk->panel);
    desk_coat(desk, 0, 1);
    desk_coat(desk, 1, 1);
    panel_set_hours(&desk->panel, 0, 4);
    panel_set_hours(&desk->panel, 1, 4);
    check_told(HERE, desk,
               "one more person: ready 2027-03-01 12:00, 4 h sooner; in test.json: `{\"shop\": {\"people\": "
               "[{\"person\": \"Ann\", \"does\": [\"cloth\"], \"busy\": [\"ann.ics\"]}, {\"person\": "
               "\"helper\"}]}}`\n");
}

/* A is there, B comes on Wednesday at 08:00; each takes 20 min, set-up and clean-up 10, handled after 6 h. Together: work of
 * 60 min, ready at 14:50, but less than a day before Thursday 14:00. Apart: 80 min, ready at 14:30. */
static void soonest_where_little_is_to_spare(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    panel_add_piece(&desk->panel);
    desk_coat(desk, 0, 1);
    desk_coat(desk, 1, 1);
    panel_set_hours(&desk->panel, 0, 1.0 / 3);
    panel_set_hours(&desk->panel, 1, 1.0 / 3);
    desk_handled_after(desk, 360);
    desk->panel.job.shop.set_up_min[TOOL_CLOTH] = desk->panel.job.shop.clean_up_min[TOOL_CLOTH] = 10;
    desk->panel.pieces[1].ready_min = march(3, 8, 0);
    desk->panel.job.deliver_min = march(4, 14, 0);
    desk->panel.job.to_spare_days = 1;
    check_told(HERE, desk,
               "planned with --soonest: ready 2027-03-03 14:30, 20 min sooner, in time, 20 min more work\n");
}

/* The most effort that one search was given; ends the advice once that is more than a first look takes. */
static bool see_second_look(void *with, const struct observer *observer)
{
    int64_t *most = with;
    *most = observer->effort > *most ? observer->effort : *most;
    return *most <= FIRST_LOOK;
}

/* Three pieces of six parts, sanded and coated twice: what would help is looked at with little effort at first, and where that proves nothing
 * once more as a run on the changed file would plan it. Whoever chose next to no effort gets the first look alone. */
static void what_is_open_is_looked_at_again(void **state)
{
    (void)state;
    for (int64_t effort = 0; effort < 2; effort++) {
        struct desk *desk = desk_make();
        int64_t most = 0;
        struct observer observer = {.look = see_second_look, .with = &most};
        for (size_t i = 0; i < PANEL_PIECES; i++) {
            if (i > 0)
                panel_add_piece(&desk->panel);
            panel_add_step(&desk->panel, i, STEP_SAND);
            desk_coat(desk, i, 2);
            desk->panel.parts[i].qty = 6;
            panel_set_hours(&desk->panel, i, (double)i + 1);
        }
        panel_set_window(&desk->panel, 60, SPAN_NEVER);
        desk->panel.job.shop.set_up_min[WORK_SAND] = 15;
        desk->panel.job.shop.set_up_min[TOOL_CLOTH] = desk->panel.job.shop.clean_up_min[TOOL_CLOTH] = 10;
        const struct operations *work = panel_dated(desk->arena, &desk->panel)->operations;
        const struct timetable *now =
            timetable_make(desk->arena, work, (struct timetable_options){.effort = 1});
        (void)advice_make(desk->arena, now,
                          (struct timetable_options){.effort = effort, .observer = &observer}, desk->now_min);
        check_int(HERE, most > FIRST_LOOK, effort == 0);
        arena_free(desk->arena);
    }
}

/* A and B are alike, each of two parts and coated twice, five hours a coat: a coat less gains the same with either, and is told of A
 * first. The first look, with a sixtieth of the effort, sees that gain only with B. */
static void equal_gains_in_the_order_of_the_file(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    panel_add_piece(&desk->panel);
    for (size_t i = 0; i < 2; i++) {
        desk_coat(desk, i, 2);
        panel_set_hours(&desk->panel, i, 5);
        desk->panel.parts[i].qty = 2;
    }
    panel_set_window(&desk->panel, 240, SPAN_NEVER);
    desk_handled_after(desk, 240);
    desk->panel.job.shop.set_up_min[TOOL_CLOTH] = desk->panel.job.shop.clean_up_min[TOOL_CLOTH] = 10;
    struct advice_list list = advice_make(desk->arena, panel_dated(desk->arena, &desk->panel),
                                          (struct timetable_options){.effort = 30000}, desk->now_min);
    check_int(HERE, (intmax_t)list.count, 3);
    check_int(HERE, list.items[0].change.kind, ALTERNATIVE_PEOPLE);
    check_text(HERE, list.items[1].change.schedule, "oil");
    check_text(HERE, list.items[2].change.schedule, "oil-b");
    check_int(HERE, list.items[1].gain_min, list.items[2].gain_min);
    arena_free(desk->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(what_is_open_is_looked_at_again),
                     CHECK_TEST(equal_gains_in_the_order_of_the_file), CHECK_TEST(a_start_at_once),
                     CHECK_TEST(a_start_a_day_earlier), CHECK_TEST(a_start_before_the_weekend),
                     CHECK_TEST(no_start_before_now), CHECK_TEST(one_more_lot), CHECK_TEST(another_position),
                     CHECK_TEST(a_piece_hung), CHECK_TEST(a_helper_beside_named_people),
                     CHECK_TEST(soonest_where_little_is_to_spare));
}
