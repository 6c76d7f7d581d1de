/* The worked problems of the solver's page with breaks, nights and weekends, to the minute: each was confirmed by two other
 * programs when the page was written. Monday to Friday 08:00-12:00 and 13:00-17:00, one person; 1 March 2027 is a Monday. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "report/sentences.h"

#include <string.h>

static void weekdays_with_noon(struct panel *panel)
{
    panel->stretches[0] = (struct stretch){8 * 60, 12 * 60};
    panel->stretches[1] = (struct stretch){13 * 60, 17 * 60};
    for (int day = 0; day < 7; day++)
        panel->job.shop.hours[day] = (struct shop_day){panel->stretches, day < 5 ? 2 : 0};
}

static void solver_break(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    weekdays_with_noon(&panel);
    panel.job.start_min = march(1, 11, 30);
    panel.job.shop.rate_m2_per_h[TOOL_CLOTH] = 2;
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT);
    panel.job.deliver_at = STATE_CURED;
    panel_set_state(&panel, STATE_CURED, 24 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/0/sand-180", march(1, 13, 0));
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 14, 0));
    check_ready(HERE, timetable, march(2, 14, 30));
    arena_free(arena);
}

static void solver_nights(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    weekdays_with_noon(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_set_hours(&panel, 0, 0.5);
    panel.job.deliver_at = STATE_CURED;
    panel_set_state(&panel, STATE_RECOAT, 4 * 60);
    panel_set_state(&panel, STATE_CURED, 48 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    check_starts(HERE, timetable, "a/oil/2/apply", march(1, 13, 0));
    check_starts(HERE, timetable, "a/oil/3/apply", march(2, 8, 0));
    check_ready(HERE, timetable, march(4, 8, 30));
    arena_free(arena);
}

static void solver_weekend(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    weekdays_with_noon(&panel);
    panel.job.start_min = march(5, 13, 0);
    panel.finish.refuses_late_recoat = true;
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.job.deliver_at = STATE_CURED;
    panel_set_window(&panel, 4 * 60, 24 * 60);
    panel_set_state(&panel, STATE_CURED, 12 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(8, 8, 0));
    check_starts(HERE, timetable, "a/oil/2/apply", march(8, 13, 0));
    check_ready(HERE, timetable, march(9, 2, 0));
    arena_free(arena);
}

/* The page's deadline of Friday 17:00 is missed by 16 h 30; coat 2 is told as the reason, people and dust are not. */
static void solver_late(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    weekdays_with_noon(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_set_hours(&panel, 0, 0.5);
    panel.job.deliver_at = STATE_CURED;
    panel.job.deliver_min = march(5, 17, 0);
    panel_set_state(&panel, STATE_RECOAT, 24 * 60);
    panel_set_state(&panel, STATE_CURED, 72 * 60);
    struct timetable *timetable = panel_dated(arena, &panel);
    check_ready(HERE, timetable, march(6, 9, 30));
    check_int(HERE, timetable->late_min, 16 * 60 + 30);
    check_int(HERE, (intmax_t)timetable->chain_count, 3);
    bool told = false;
    for (size_t i = 0; i < timetable->why_count; i++)
        told =
            told ||
            strcmp(reason_words(arena, timetable, &timetable->why[i], UNITS_METRIC),

                   "coat 3 of Oil on A (Wed 3 Mar 09:00) waits until coat 2 of Oil on A is dry to recoat") ==
                0;
    check_true(HERE, told, "coat 3 waits for coat 2");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(solver_break), CHECK_TEST(solver_nights), CHECK_TEST(solver_weekend),
                     CHECK_TEST(solver_late));
}
