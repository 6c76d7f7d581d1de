#include "check.h"
#include "drawn.h"

#include "base/arena.h"
#include "base/text.h"
#include "report/text.h"

#include <string.h>

static const char *chart_of(struct arena *arena, const struct drawn *drawn)
{
    struct buf *out = ARENA_NEW(arena, struct buf);
    buf_init(out, arena);
    struct screen screen = {out, UNITS_METRIC, false, SCREEN_USUAL};
    show_chart(&screen, &drawn->timetable);
    return out->text;
}

/* Worked by hand: a day from 08:00 to 17:00 has 12 columns of 45 minutes. A step stands where it starts and wherever the
 * middle of a column is its own, drying likewise; Friday has no work, so that it is one column. */
static void a_week_of_two_pieces(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 2);
    drawn_step(d, DO_SAND, 0, drawn_at(1, 8, 0), 45);
    drawn_coat(d, 0, drawn_at(1, 8, 45), 60, drawn_at(1, 16, 45));
    drawn_step(d, DO_SAND, 1, drawn_at(1, 13, 15), 90);
    drawn_coat(d, 0, drawn_at(2, 8, 0), 60, drawn_at(2, 16, 0));
    drawn_coat(d, 1, drawn_at(2, 10, 15), 30, drawn_at(3, 7, 0));
    drawn_step(d, DO_POLISH, 1, drawn_at(2, 16, 15), 30)->schedule = 1;
    drawn_coat(d, 0, drawn_at(3, 9, 0), 45, drawn_at(4, 10, 0))->window_min = drawn_at(5, 9, 0);
    drawn_step(d, DO_TASK, -1, drawn_at(4, 10, 0), 60);
    check_text(HERE, chart_of(arena, d),
               "               Mon          Tue          Wed          Thu\n"
               "  Mar 2027     1            2            3            4\n"
               "  A           |s1----------|2---------- | 3----------|---         | |\n"
               "  B, oil      |       ss   |   1--------|            |            | |\n"
               "  B, wax      |            |           p|            |            | |\n"
               "  fit hinges  |            |            |            |  **        | |\n"
               "                                   ready Thu 4 Mar 11:00 ^\n"
               "                                          delivery Fri 5 Mar 12:00 ^\n"
               "\n"
               "  1 2 .. coats   s sand   p polish   * task   - drying\n"
               "  | | a day of work, opening to closing\n");
    arena_free(arena);
}

/* Days without work are one column each: two weekends, and a week of waiting with its Monday named. */
static void waiting_is_drawn_narrow(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 1);
    d->timetable.deliver_min = drawn_at(17, 12, 0);
    drawn_coat(d, 0, drawn_at(5, 8, 0), 45, drawn_at(8, 12, 0));
    drawn_coat(d, 0, drawn_at(8, 14, 0), 45, drawn_at(16, 8, 0));
    check_text(HERE, chart_of(arena, d),
               "            Mon  Fri             Mon                Mon\n"
               "  Mar 2027  1    5               8                  15\n"
               "  A        |    |1-----------|--|-----   2---|-------  |\n"
               "                                                     ^ ready Tue 16 Mar 08:00\n"
               "                            delivery Wed 17 Mar 12:00 ^\n"
               "\n"
               "  1 2 .. coats   - drying   | | a day of work, opening to closing\n");
    arena_free(arena);
}

/* Three weeks of work do not fit side by side; each block tells the moments that lie in it. */
static void long_jobs_are_cut_at_mondays(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 1);
    d->timetable.deliver_min = drawn_at(35, 12, 0);
    for (int day = 1; day <= 26; day++)
        if ((day - 1) % 7 < 5)
            drawn_coat(d, 0, drawn_at(day, 8, 0), 60, drawn_at(day, 12, 30));
    check_text(HERE, chart_of(arena, d),
               "            Mon  Tue  Wed  Thu  Fri     Mon  Tue  Wed  Thu  Fri\n"
               "  Mar 2027  1    2    3    4    5       8    9    10   11   12\n"
               "  A        |1-  |2-  |3-  |4-  |5-  |::|6-  |7-  |8-  |9-  |+-  |::|\n"
               "\n"
               "            Mon  Tue  Wed  Thu  Fri     Mon  Tue  Wed  Thu  Fri    Mon\n"
               "  Mar 2027  15   16   17   18   19      22   23   24   25   26     29\n"
               "  A        |+-  |+-  |+-  |+-  |+-  |::|+-  |+-  |+-  |+-  |+-  |::     ::|\n"
               "                                      ready Fri 26 Mar 12:30 ^\n"
               "                                                delivery Sun 4 Apr 12:00 ^\n"
               "\n"
               "  1 2 .. coats   - drying   : closed   | | a day of work, opening to closing\n");
    arena_free(arena);
}

/* What looks alike and is called alike takes one line; what looks alike only does not. */
static void pieces_done_alike_share_a_row(void **state)
{
    (void)state;
    static const char *const names[] = {"door 1", "door 2", "door 3", "top", "shelf"};
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 5);
    for (int i = 0; i < 5; i++) {
        d->pieces[i].name = names[i];
        drawn_coat(d, i, drawn_at(1, 8, 5 * i), 5, drawn_at(1, 12, 0));
    }
    const char *chart = chart_of(arena, d);
    check_true(HERE, strstr(chart, "  door 1..3 |1") != NULL, chart);
    check_true(HERE, strstr(chart, "  top       |1") != NULL, chart);
    check_true(HERE, strstr(chart, "  shelf     |1") != NULL, chart);
    arena_free(arena);
}

static void without_a_plan_nothing_is_drawn(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 1);
    check_text(HERE, chart_of(arena, d), "");
    drawn_coat(d, 0, drawn_at(1, 8, 0), 60, INT64_MAX);
    d->timetable.status = TIMETABLE_IMPOSSIBLE;
    d->timetable.ready_min = INT64_MAX;
    check_text(HERE, chart_of(arena, d), "");
    arena_free(arena);
}

/* Summer time begins in the night to the second day: the days keep their hours on the wall. */
static void clock_changes_move_no_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drawn *d = ARENA_NEW(arena, struct drawn);
    drawn_init(d, 1);
    struct zone_change changes[] = {{INT64_MIN, 0}, {drawn_at(2, 1, 0), 60}};
    struct zone zone = {"Test", 2, changes};
    d->job.zone = &zone;
    drawn_coat(d, 0, drawn_at(1, 8, 0), 45, drawn_at(1, 9, 0));
    drawn_coat(d, 0, drawn_at(2, 7, 0), 45, drawn_at(2, 8, 0));
    const char *chart = chart_of(arena, d);
    check_true(HERE, strstr(chart, "|1           |2           |") != NULL, chart);
    arena_free(arena);
}

/* Whatever the plan, no line is wider than the screen and none ends in a blank. */
static void charts_stay_within_the_width(void **state)
{
    (void)state;
    uint64_t seed = 21;
    for (int round = 0; round < 150; round++) {
        struct arena *arena = arena_make(0);
        struct drawn *d = ARENA_NEW(arena, struct drawn);
        drawn_init(d, (size_t)check_random_int(&seed, 1, DRAWN_PIECES));
        for (size_t i = 0; i < d->job.piece_count; i++)
            d->pieces[i].name = check_random_int(&seed, 0, 1)
                                    ? arena_textf(arena, "Tür %zu", i)
                                    : arena_textf(arena, "a very long name of a piece %zu", i);
        drawn_random(d, &seed, check_random_int(&seed, 1, 70));
        char *chart = arena_text(arena, chart_of(arena, d));
        check_true(HERE, *chart, "something is drawn");
        for (char *line = chart, *end; (end = strchr(line, '\n')); line = end + 1) {
            *end = '\0';
            check_true(HERE, text_width(line) <= SCREEN_USUAL, line);
            check_true(HERE, end == line || end[-1] != ' ', line);
        }
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(a_week_of_two_pieces), CHECK_TEST(waiting_is_drawn_narrow),
                     CHECK_TEST(long_jobs_are_cut_at_mondays), CHECK_TEST(pieces_done_alike_share_a_row),
                     CHECK_TEST(without_a_plan_nothing_is_drawn), CHECK_TEST(clock_changes_move_no_day),
                     CHECK_TEST(charts_stay_within_the_width));
}
