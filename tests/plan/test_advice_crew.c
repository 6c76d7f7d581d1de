/* Advice to a crew with names, to a shop that thinks in Fahrenheit, about days with air of their own, and about a start two
 * days earlier; worked by hand in the shop of test_advice.c. */
#include "check.h"
#include "late_desk.h"

#include "base/arena.h"

/* Somebody with a name who does everything in the hours of the shop. */
static struct person somebody(const struct desk *desk, const char *name)
{
    struct person person = shop_person(&desk->panel.job.shop, 0);
    person.name = name;
    return person;
}

/* The name that a helper would have is taken. */
static void two_helpers(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    struct person helper = somebody(desk, "helper");
    desk->panel.job.shop.crew = &helper;
    panel_add_piece(&desk->panel);
    desk_coat(desk, 0, 1);
    desk_coat(desk, 1, 1);
    panel_set_hours(&desk->panel, 0, 4);
    panel_set_hours(&desk->panel, 1, 4);
    check_told(HERE, desk,
               "one more person: ready 2027-03-01 12:00, 4 h sooner; in test.json: `{\"shop\": {\"people\": "
               "[{\"person\": \"helper\"}, {\"person\": \"helper 2\"}]}}`\n");
}

/* So are its name and the next, in whatever order they stand. Two of the three pieces are coated until 12:00 and the third until
 * 16:00; three people are done at 12:00. */
static void a_third_helper(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    struct person helpers[] = {somebody(desk, "helper 2"), somebody(desk, "helper")};
    desk->panel.job.shop.crew = helpers;
    desk->panel.job.shop.people = 2;
    panel_add_piece(&desk->panel);
    panel_add_piece(&desk->panel);
    for (size_t piece = 0; piece < 3; piece++) {
        desk_coat(desk, piece, 1);
        panel_set_hours(&desk->panel, piece, 4);
    }
    check_told(HERE, desk,
               "one more person: ready 2027-03-01 12:00, 4 h sooner; in test.json: `{\"shop\": {\"people\": "
               "[{\"person\": \"helper 2\"}, {\"person\": \"helper\"}, {\"person\": \"helper 3\"}]}}`\n");
}

/* 5 h of sanding and 5 of coating on Monday and Tuesday, as in a_longer_evening. */
static struct desk *ten_hours(void)
{
    struct desk *desk = desk_make();
    panel_add_step(&desk->panel, 0, STEP_SAND);
    panel_set_hours(&desk->panel, 0, 5);
    desk_coat(desk, 0, 1);
    for (int day = 0; day < 7; day++)
        desk->panel.job.shop.hours[day].count = day < 2 ? 1 : 0;
    return desk;
}

/* Who keeps the shop's hours stays longer with it; who has hours of their own goes home. */
static void whose_evening_it_is(void **state)
{
    (void)state;
    struct desk *desk = ten_hours();
    struct person ann = somebody(desk, "Ann");
    desk->panel.job.shop.crew = &ann;
    check_told(HERE, desk,
               "an hour more every evening: ready 2027-03-01 18:00, 19 h sooner; in test.json: `{\"shop\": "
               "{\"hours\": {\"mon\": [\"08:00-18:00\"], \"tue\": [\"08:00-18:00\"]}}}`\n");
    desk = ten_hours();
    ann = somebody(desk, "Ann");
    ann.hours_own = true;
    desk->panel.job.shop.crew = &ann;
    check_told(HERE, desk, "");
}

/* Until midnight there is no longer evening, and in two rooms no other one for sanding. */
static void nothing_more_to_have(void **state)
{
    (void)state;
    struct desk *desk = ten_hours();
    desk->panel.stretches[0] = (struct stretch){15 * 60, DAY_MINUTES};
    desk->panel.job.shop.dust_separate = true;
    desk->panel.job.start_min = desk->now_min = march(1, 15, 0);
    check_told(HERE, desk, "");
}

/* Half an hour before midnight is as long as an evening can become: 14:00 to 23:30, then to 24:00. Sanded until 19:00, coated until
 * midnight instead of from 14:00 to 19:00 of the next day. */
static void an_evening_until_midnight(void **state)
{
    (void)state;
    struct desk *desk = ten_hours();
    desk->panel.stretches[0] = (struct stretch){14 * 60, DAY_MINUTES - 30};
    desk->panel.job.start_min = desk->now_min = march(1, 14, 0);
    desk->panel.job.deliver_min = march(1, 23, 0);
    check_told(HERE, desk,
               "an hour more every evening: ready 2027-03-02 00:00, 19 h sooner; in test.json: `{\"shop\": "
               "{\"hours\": {\"mon\": [\"14:00-24:00\"], \"tue\": [\"14:00-24:00\"]}}}`\n");
}

/* 12 h at reference from 10:00: 22:00. 5 °F are 2.78 °C; 12 h at 2^0.278 are 9 h 54 min: 19:54, in steps of 5 min 19:55. 50 % at
 * 23 °C, 73.4 °F, are 42.3 % at 78.4 °F (es by the Magnus form: 28.05 and 33.15 hPa). */
static void warmer_by_fahrenheit(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    panel_set_hours(&desk->panel, 0, 2);
    desk_handled_after(desk, 720);
    desk->panel.finish.air.highest_c = 35;
    desk->panel.job.inches = true;
    check_told(
        HERE, desk,
        "2.8 °C warmer air: ready 2027-03-01 19:55, 2 h 5 min sooner; in test.json: `{\"shop\": {\"air\": "
        "[{\"from\": \"00:00\", \"temperature\": \"78.4 F\", \"humidity\": \"43 %\"}]}}`\n");
}

/* The air of a day of its own is warmed like that of the others: 12 h at 2^0.3 are 9 h 45 min. */
static void a_day_of_its_own_air(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    struct air_day day = {.day = zone_day(desk->panel.job.zone, march(1, 0, 0), NULL),
                          .spells = desk->panel.spells,
                          .spell_count = 1};
    desk_coat(desk, 0, 1);
    panel_set_hours(&desk->panel, 0, 2);
    desk_handled_after(desk, 720);
    desk->panel.finish.air.highest_c = 35;
    desk->panel.job.shop.air.dated = &day;
    desk->panel.job.shop.air.dated_count = 1;
    check_told(
        HERE, desk,
        "3 °C warmer air: ready 2027-03-01 19:45, 2 h 15 min sooner; in test.json: `{\"shop\": {\"air\": "
        "[{\"from\": \"00:00\", \"temperature\": \"26 C\", \"humidity\": \"42 %\"}, {\"on\": \"2027-03-01\", "
        "\"from\": \"00:00\", \"temperature\": \"26 C\", \"humidity\": \"42 %\"}]}}`\n");
}

/* Coated on Tuesday until 09:00, handled three days later, on Friday at 09:00; due on Wednesday at 12:00. Begun on Sunday it is ready
 * in time; begun on Monday it is not, and three days more help nobody. */
static void a_start_two_days_earlier(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    desk_handled_after(desk, 3 * 1440);
    desk->panel.job.start_min = march(2, 8, 0);
    desk->panel.job.deliver_min = march(3, 12, 0);
    desk->now_min = march(-30, 8, 0);
    check_told(HERE, desk,
               "begun 2027-02-28 08:00: ready 2027-03-03 09:00, 2 d sooner, in time; in test.json: "
               "`{\"start\": \"2027-02-28 08:00\"}`\n");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(two_helpers), CHECK_TEST(a_third_helper), CHECK_TEST(whose_evening_it_is),
                     CHECK_TEST(nothing_more_to_have), CHECK_TEST(an_evening_until_midnight),
                     CHECK_TEST(warmer_by_fahrenheit), CHECK_TEST(a_day_of_its_own_air),
                     CHECK_TEST(a_start_two_days_earlier));
}
