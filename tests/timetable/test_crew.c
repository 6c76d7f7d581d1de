/* When each person works, in minutes from Monday 1 March 2027 00:00; every number is read off the clock by
 * hand. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "timetable/crew.h"

#include <string.h>

enum { H = 60, D = 24 * 60, WEEK = 7 * D };

static const struct zone UTC = {"UTC", 0, NULL};
/* Ten hours before Greenwich: what is Monday morning there is Sunday evening in UTC. */
static const struct zone_change EAST[] = {{INT64_MIN, 600}};
static const struct zone BRISBANE = {"Australia/Brisbane", 1, EAST};

static const struct stretch PLAIN[] = {{8 * H, 12 * H}, {13 * H, 17 * H}};
static const struct stretch THREE[] = {{8 * H, 10 * H}, {10 * H + 20, 12 * H}, {13 * H, 18 * H}};
static const struct stretch MORNING[] = {{7 * H, 11 * H}};
static const struct stretch SHIFTED[] = {{9 * H, 12 * H}, {13 * H, 17 * H}};
static const struct stretch LONGER[] = {{8 * H, 12 * H}, {13 * H, 17 * H + 30}};

#define OPEN(stretches)                                                                                      \
    {                                                                                                        \
        stretches, sizeof(stretches) / sizeof(stretches)[0]                                                  \
    }
#define DAY_OF(stretches) ((struct shop_day)OPEN(stretches))

/* Open on so many days from Monday on. */
static struct person person_of(struct shop_day day, int days)
{
    struct person person = {.does = SKILLS_ALL};
    for (int i = 0; i < days; i++)
        person.hours[i] = day;
    return person;
}

static struct crew *crew_of(struct arena *arena, const struct person *people, int count)
{
    struct shop shop = {.people = count, .crew = people};
    return crew_make(arena, &shop, &UTC, march(1, 0, 0), WEEK);
}

/* Those who are only counted are all like the first, with every skill and no name. */
static void who_is_counted_is_like_the_first(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct shop shop = {.people = 3};
    for (int day = 0; day < 5; day++)
        shop.hours[day] = DAY_OF(PLAIN);
    const struct crew *crew = crew_make(arena, &shop, &UTC, march(1, 0, 0), WEEK);
    check_int(HERE, crew->count, 3);
    check_int(HERE, crew->longest_duty, 4 * H);
    check_int(HERE, crew->horizon, WEEK);
    check_int(HERE, crew->origin_min, march(1, 0, 0));
    for (int i = 0; i < 3; i++) {
        const struct worker *worker = &crew->workers[i];
        check_int(HERE, worker->alike, 0);
        check_int(HERE, worker->does, SKILLS_ALL);
        check_true(HERE, !worker->name, "no name");
        check_int(HERE, (intmax_t)worker->duty_count, 10);
        check_int(HERE, worker->duties[3].from, D + 13 * H);
        check_int(HERE, worker->duties[3].to, D + 17 * H);
        check_int(HERE, worker->duties[3].day, 1);
    }
    arena_free(arena);
}

struct week_row {
    struct row row;
    struct shop_day days[4]; /* from Monday on */
    int32_t gaps_most, breaks_most, gap_least, night_least;
};

/* THREE has breaks of 20 and 60 min, PLAIN and SHIFTED one of 60, MORNING none: 80 min and two breaks on a day at the most, 20 min the
 * least, whichever day comes first. */
static const struct week_row weeks[] = {
    /* Mon 18:00 - Tue 08:00 is 14 h, Tue 17:00 - Wed 07:00 is 14 h, Wed 11:00 - Thu 08:00 is 21 h */
    {ROW("the first nights are the shortest"),
     {OPEN(THREE), OPEN(PLAIN), OPEN(MORNING), OPEN(PLAIN)},
     80,
     2,
     20,
     14 * H},
    /* Mon 17:00 - Tue 07:00 is 14 h, Tue 11:00 - Wed 08:00 21 h, Wed 18:00 - Thu 09:00 15 h */
    {ROW("nights that grow longer"),
     {OPEN(PLAIN), OPEN(MORNING), OPEN(THREE), OPEN(SHIFTED)},
     80,
     2,
     20,
     14 * H},
    /* Mon 11:00 - Tue 09:00 is 22 h, Tue 17:00 - Wed 08:00 15 h, Wed 18:00 - Thu 07:00 13 h */
    {ROW("nights that grow shorter"),
     {OPEN(MORNING), OPEN(SHIFTED), OPEN(THREE), OPEN(MORNING)},
     80,
     2,
     20,
     13 * H},
};

static void breaks_and_nights(void **state)
{
    const struct week_row *r = *state;
    struct arena *arena = arena_make(0);
    struct person person = {.does = SKILLS_ALL};
    memcpy(person.hours, r->days, sizeof r->days);
    const struct worker *worker = crew_of(arena, &person, 1)->workers;
    check_int(&r->row, worker->gaps_most, r->gaps_most);
    check_int(&r->row, worker->breaks_most, r->breaks_most);
    check_int(&r->row, worker->gap_least, r->gap_least);
    check_int(&r->row, worker->night_least, r->night_least);
    arena_free(arena);
}

/* One stretch on one day of the week: no break, no night within it. */
static void one_day_has_no_night(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct person person = person_of(DAY_OF(MORNING), 1);
    const struct worker *worker = crew_of(arena, &person, 1)->workers;
    check_int(HERE, (intmax_t)worker->duty_count, 1);
    check_int(HERE, worker->gaps_most, 0);
    check_int(HERE, worker->breaks_most, 0);
    check_int(HERE, worker->gap_least, INT32_MAX);
    check_int(HERE, worker->night_least, INT32_MAX);
    arena_free(arena);
}

static void who_never_works_has_no_duty(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct person person = {.does = SKILLS_ALL};
    const struct crew *crew = crew_of(arena, &person, 1);
    check_int(HERE, (intmax_t)crew->workers->duty_count, 0);
    check_int(HERE, crew->longest_duty, 0);
    check_int(HERE, (intmax_t)crew_duty_at(crew->workers, 0), 0);
    arena_free(arena);
}

/* Alike are those with the same skills and hours to the minute; the first of them stands for all. */
static void who_is_alike(void **state)
{
    (void)state;
    enum { PEOPLE = 9 };
    static const int want[PEOPLE] = {0, 1, 2, 3, 0, 5, 3, 7, 8};
    struct arena *arena = arena_make(0);
    struct person people[PEOPLE];
    for (int i = 0; i < PEOPLE; i++)
        people[i] = person_of(DAY_OF(PLAIN), 5);
    people[1].does = SKILLS_ALL & ~(1u << TOOL_HVLP);
    people[2] = person_of(DAY_OF(PLAIN), 4);
    people[3] = person_of(DAY_OF(SHIFTED), 5);
    people[5] = person_of(DAY_OF(LONGER), 5);
    people[6] = person_of(DAY_OF(SHIFTED), 5);
    people[7].hours[0] = DAY_OF(SHIFTED); /* only the first day differs, or the last */
    people[8].hours[4] = DAY_OF(LONGER);
    const struct crew *crew = crew_of(arena, people, PEOPLE);
    for (int i = 0; i < PEOPLE; i++)
        check_int(HERE, crew->workers[i].alike, want[i]);
    arena_free(arena);
}

/* The longest stretch is anybody's, whoever comes first. */
static void the_longest_stretch_is_anybodys(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct person people[] = {person_of(DAY_OF(MORNING), 5), person_of(DAY_OF(THREE), 5),
                              person_of(DAY_OF(PLAIN), 5)};
    check_int(HERE, crew_of(arena, people, 3)->longest_duty, 5 * H);
    arena_free(arena);
}

/* Each has days off and busy times of their own: Tuesday off, Monday busy from 09:00 to 10:00. */
static void own_days_off(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    const struct day_range off = {date_days((struct date){2027, 3, 2}), date_days((struct date){2027, 3, 2})};
    const struct busy busy = {march(1, 9, 0), march(1, 10, 0)};
    struct person people[] = {person_of(DAY_OF(PLAIN), 2), person_of(DAY_OF(PLAIN), 2)};
    people[0].name = "Ann";
    people[0].closed = &off;
    people[0].busy = &busy;
    people[0].closed_count = people[0].busy_count = 1;
    const struct crew *crew = crew_of(arena, people, 2);
    check_text(HERE, crew->workers[0].name, "Ann");
    check_int(HERE, (intmax_t)crew->workers[0].duty_count, 3);
    check_int(HERE, crew->workers[0].duties[0].to, 9 * H);
    check_int(HERE, (intmax_t)crew->workers[1].duty_count, 4);
    check_int(HERE, crew->workers[1].duties[0].to, 12 * H);
    arena_free(arena);
}

/* Days are the wall's: at ten hours east, Monday 08:00 is Sunday 22:00 UTC, and yet of the day of the origin,
 * Monday 00:00. */
static void days_are_those_on_the_wall(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct shop shop = {.people = 1};
    for (int day = 0; day < 5; day++)
        shop.hours[day] = DAY_OF(PLAIN);
    const struct crew *crew = crew_make(arena, &shop, &BRISBANE, march(1, 0, 0) - 10 * H, WEEK);
    check_int(HERE, crew->workers->duties[0].from, 8 * H);
    check_int(HERE, crew->workers->duties[0].day, 0);
    check_int(HERE, crew->workers->duties[1].day, 0);
    check_int(HERE, crew->workers->duties[2].day, 1);
    check_int(HERE, crew->workers->duties[9].day, 4);
    arena_free(arena);
}

/* 08:00-12:00 and 13:00-17:00: a stretch is the next one until the minute at which it ends. */
static void the_next_duty(void **state)
{
    (void)state;
    static const struct {
        int32_t minute;
        size_t want;
    } rows[] = {{0, 0},          {8 * H, 0},  {12 * H - 1, 0}, {12 * H, 1},     {13 * H, 1},
                {17 * H - 1, 1}, {17 * H, 2}, {D + 12 * H, 3}, {D + 17 * H, 4}, {6 * D, 4}};
    struct arena *arena = arena_make(0);
    struct person person = person_of(DAY_OF(PLAIN), 2);
    const struct worker *worker = crew_of(arena, &person, 1)->workers;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        check_int(HERE, (intmax_t)crew_duty_at(worker, rows[i].minute), (intmax_t)rows[i].want);
    arena_free(arena);
}

/* One of the skills asked for is enough; who asks for none takes anybody. */
static void who_can_do_it(void **state)
{
    (void)state;
    const struct worker sander = {.does = 1u << WORK_SAND}, nobody = {0};
    check_true(HERE, worker_can(&sander, 1u << WORK_SAND | 1u << WORK_SCUFF), "one of two");
    check_true(HERE, !worker_can(&sander, 1u << WORK_SCUFF), "not that one");
    check_true(HERE, worker_can(&nobody, 0), "no skill is asked for");
    check_true(HERE, !worker_can(&nobody, 1u << WORK_SAND), "no skill at all");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(who_is_counted_is_like_the_first), CHECK_ROWS(weeks, breaks_and_nights),
                     CHECK_TEST(one_day_has_no_night), CHECK_TEST(who_never_works_has_no_duty),
                     CHECK_TEST(who_is_alike), CHECK_TEST(the_longest_stretch_is_anybodys),
                     CHECK_TEST(own_days_off), CHECK_TEST(days_are_those_on_the_wall),
                     CHECK_TEST(the_next_duty), CHECK_TEST(who_can_do_it));
}
