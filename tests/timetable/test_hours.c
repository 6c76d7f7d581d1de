/* Working hours in slots. The expected values are worked by hand from the calendar of 2027 (1 March 2027 is a Monday: ISO
 * 8601 calendar arithmetic). */
#include "check.h"

#include "base/arena.h"
#include "timetable/hours.h"

static const struct stretch PLAIN[] = {{8 * 60, 12 * 60}, {13 * 60, 17 * 60}};
static const struct stretch TOUCHING[] = {{8 * 60, 12 * 60}, {12 * 60, 17 * 60 + 3}};

/* Europe/London in 2027: summer time from 28 March 01:00 UTC. */
static const struct zone_change LONDON_CHANGES[] = {{INT64_MIN, 0}, {30103260, 60}};
static const struct zone LONDON = {"Europe/London", 2, LONDON_CHANGES};
static const struct zone UTC = {"UTC", 0, NULL};

static int64_t moment_on(int year, int month, int day, int hour, int minute)
{
    return date_days((struct date){year, month, day}) * DAY_MINUTES + hour * 60 + minute;
}

static struct shop weekdays(const struct stretch *stretches, size_t count)
{
    struct shop shop = {0};
    for (int day = 0; day < 5; day++)
        shop.hours[day] = (struct shop_day){stretches, count};
    return shop;
}

static void a_week(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct shop shop = weekdays(PLAIN, 2);
    int64_t monday = moment_on(2027, 3, 1, 0, 0);
    struct hours *hours = hours_make(arena, &shop, &UTC, monday, 7 * 288);
    check_int(HERE, (intmax_t)hours->count, 10);
    check_int(HERE, hours->longest, 48);
    check_int(HERE, hours->stretches[0].from, 96);
    check_int(HERE, hours->stretches[9].to, 4 * 288 + 17 * 12);
    arena_free(arena);
}

static void touching_stretches_are_one(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct shop shop = weekdays(TOUCHING, 2);
    struct hours *hours = hours_make(arena, &shop, &UTC, moment_on(2027, 3, 1, 0, 0), 288);
    check_int(HERE, (intmax_t)hours->count, 1);
    check_int(HERE, hours->stretches[0].to, 17 * 12); /* 17:03 closes at 17:00 */
    arena_free(arena);
}

static void closed_and_busy(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct shop shop = weekdays(PLAIN, 2);
    struct day_range closed = {date_days((struct date){2027, 3, 2}), date_days((struct date){2027, 3, 3})};
    struct busy busy[] = {{moment_on(2027, 3, 1, 14, 2), moment_on(2027, 3, 1, 15, 58)},
                          {moment_on(2027, 3, 1, 9, 0), moment_on(2027, 3, 1, 9, 30)}};
    shop.closed = &closed;
    shop.closed_count = 1;
    shop.busy = busy;
    shop.busy_count = 2;
    struct hours *hours = hours_make(arena, &shop, &UTC, moment_on(2027, 3, 1, 0, 0), 4 * 288);
    check_int(HERE, (intmax_t)hours->count, 6);
    check_int(HERE, hours->stretches[0].to, 9 * 12);
    check_int(HERE, hours->stretches[1].from, 9 * 12 + 6);
    check_int(HERE, hours->stretches[2].to, 14 * 12);   /* 14:02 down */
    check_int(HERE, hours->stretches[3].from, 16 * 12); /* 15:58 up */
    check_int(HERE, hours->stretches[4].from, 3 * 288 + 96);
    arena_free(arena);
}

/* Working hours are the wall's: on the Monday after the change 08:00 comes an hour of real time sooner. */
static void summer_time(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct shop shop = weekdays(PLAIN, 2);
    int64_t friday = moment_on(2027, 3, 26, 8, 0);
    check_int(HERE, LONDON_CHANGES[1].from_min, moment_on(2027, 3, 28, 1, 0));
    struct hours *hours = hours_make(arena, &shop, &LONDON, friday, 4 * 288);
    check_int(HERE, hours->stretches[0].from, 0);
    check_int(HERE, hours->stretches[2].from, 3 * 288 - 12);
    check_int(HERE, hours_moment(hours, hours->stretches[2].from), moment_on(2027, 3, 29, 7, 0));
    arena_free(arena);
}

static void slots_and_moments(void **state)
{
    (void)state;
    struct hours hours = {.origin_min = 1000};
    check_int(HERE, hours_slot_up(&hours, 1001), 1);
    check_int(HERE, hours_slot_down(&hours, 1004), 0);
    check_int(HERE, hours_slot_down(&hours, 999), -1);
    check_int(HERE, hours_slot_up(&hours, 996), 0);
    check_int(HERE, hours_slot_up(&hours, 995), -1);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_week), CHECK_TEST(touching_stretches_are_one), CHECK_TEST(closed_and_busy),
                     CHECK_TEST(summer_time), CHECK_TEST(slots_and_moments));
}
