/* The worked problems of the method (section 7) and of the solver's page, to the minute: worked by hand, and confirmed by
 * two other programs when the pages were written. Shop open 08:00-17:00 daily, one person, air at reference, unless said
 * otherwise. 1 March 2027 is a Monday. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/moment.h"
#include "timetable/planning.h"

#include <string.h>

static struct timetable *dated(struct arena *arena, struct panel *panel)
{
    struct err_list errors = {0};
    const struct operations *operations = timetable_operations(arena, &panel->job, &panel->surfaces, &errors);
    check_int(HERE, (intmax_t)errors.count, 0);
    return timetable_make(arena, operations, (struct timetable_options){0});
}

static void starts(const struct row *row, const struct timetable *timetable, const char *id, int64_t want)
{
    const struct timetable_step *step = timetable_find(timetable, id);
    check_true(row, step != NULL, id);
    check_text(row, moment_format(timetable->job->zone, step->start_min, MOMENT_PLAIN).text,
               moment_format(timetable->job->zone, want, MOMENT_PLAIN).text);
}

static void ready(const struct row *row, const struct timetable *timetable, int64_t want)
{
    check_int(row, timetable->status, TIMETABLE_PLANNED);
    check_text(row, moment_format(timetable->job->zone, timetable->ready_min, MOMENT_PLAIN).text,
               moment_format(timetable->job->zone, want, MOMENT_PLAIN).text);
}

static void set_state(struct panel *panel, enum finish_state state, int32_t minutes)
{
    panel->finish.first.after_min[state] = panel->finish.later.after_min[state] = minutes;
}

static void problem_1_one_coat(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    set_state(&panel, STATE_HANDLE, 6 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    ready(HERE, timetable, march(1, 15, 0));
    check_true(HERE, timetable->proven, "the longest path shows it");
    arena_free(arena);
}

static void problem_2_two_coats(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    set_state(&panel, STATE_RECOAT, 10 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    starts(HERE, timetable, "a/oil/2/apply", march(2, 8, 0));
    arena_free(arena);
}

static void set_window(struct panel *panel, int32_t least_min, int32_t most_min)
{
    set_state(panel, STATE_RECOAT, least_min);
    set_state(panel, STATE_SAND, least_min);
    panel->finish.first.recoat_last_min = panel->finish.later.recoat_last_min = most_min;
}

static void problem_3_window(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.refuses_late_recoat = true;
    set_window(&panel, 10 * 60, 20 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 11, 0));
    starts(HERE, timetable, "a/oil/2/apply", march(2, 8, 0));
    arena_free(arena);
}

static void problem_3_window_refused(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.refuses_late_recoat = true;
    set_window(&panel, 10 * 60, 14 * 60);
    struct timetable *timetable = dated(arena, &panel);
    check_int(HERE, timetable->status, TIMETABLE_IMPOSSIBLE);
    check_true(HERE, timetable->step_count == 0 && timetable->why_count > 0, "no steps, a reason");
    arena_free(arena);
}

static void problem_3_window_scuffed(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    set_window(&panel, 10 * 60, 14 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    starts(HERE, timetable, "a/oil/1/scuff-320", march(2, 8, 0));
    starts(HERE, timetable, "a/oil/2/apply", march(2, 9, 0));
    arena_free(arena);
}

static void problem_4_polish(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel.finish.has_polish = true;
    panel.finish.polish = (struct span_range){10, 20};
    panel.job.shop.rate_m2_per_h[WORK_POLISH] = 4;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    starts(HERE, timetable, "a/oil/1/polish", march(1, 9, 10));
    starts(HERE, timetable, "b/oil-b/1/apply", march(1, 9, 25));
    arena_free(arena);
}

static void problem_5_two_sides(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel_set_hours(&panel, 0, 0.5);
    set_state(&panel, STATE_HANDLE, 4 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1b/apply", march(1, 8, 0));
    starts(HERE, timetable, "a/oil/1b/flip", march(1, 12, 30));
    starts(HERE, timetable, "a/oil/1f/apply", march(1, 12, 35));
    arena_free(arena);
}

/* Contract, section 8: two coats: back, flip, face, flip, back, flip, face: 3 flips. */
static void two_coats_three_flips(void **state)
{
    (void)state;
    static const char *const want[] = {
        "a/oil/0/sand-180",  "a/oil/1b/apply", "a/oil/1b/flip", "a/oil/1f/apply",    "a/oil/1f/flip",
        "a/oil/1b/sand-320", "a/oil/2b/apply", "a/oil/2b/flip", "a/oil/1f/sand-320", "a/oil/2f/apply"};
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.between_grit = 320;
    panel_two_sides(&panel, 0);
    panel_set_hours(&panel, 0, 0.5);
    struct timetable *timetable = dated(arena, &panel);
    check_int(HERE, (intmax_t)timetable->step_count, 10);
    for (size_t i = 0; i < 10; i++)
        check_text(HERE, timetable->steps[i].operation->id, want[i]);
    arena_free(arena);
}

static void problem_6_dust(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_SAND);
    panel_set_hours(&panel, 0, 0.5);
    set_state(&panel, STATE_DUST_FREE, 2 * 60);
    set_state(&panel, STATE_HANDLE, 6 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    starts(HERE, timetable, "b/oil-b/0/sand-180", march(1, 10, 30));
    ready(HERE, timetable, march(1, 14, 30));
    arena_free(arena);
}

static void problem_7_night(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel.spells[0] = (struct air_spell){8 * 60, {23, 0.5}};
    panel.spells[1] = (struct air_spell){18 * 60, {13, 0.5}};
    panel.job.shop.air.daily.spell_count = 2;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 2);
    set_state(&panel, STATE_HANDLE, 12 * 60);
    struct timetable *timetable = dated(arena, &panel);
    ready(HERE, timetable, march(2, 2, 0));
    arena_free(arena);
}

static void problem_8_rack(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel.job.shop.rack_m2 = 1;
    panel.pieces[0].rack_m2 = panel.pieces[1].rack_m2 = 0.6;
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT);
    set_state(&panel, STATE_HANDLE, 6 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "b/oil-b/1/apply", march(1, 15, 0));
    ready(HERE, timetable, march(1, 22, 0));
    arena_free(arena);
}

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
    set_state(&panel, STATE_CURED, 24 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/0/sand-180", march(1, 13, 0));
    starts(HERE, timetable, "a/oil/1/apply", march(1, 14, 0));
    ready(HERE, timetable, march(2, 14, 30));
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
    set_state(&panel, STATE_RECOAT, 4 * 60);
    set_state(&panel, STATE_CURED, 48 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(1, 8, 0));
    starts(HERE, timetable, "a/oil/2/apply", march(1, 13, 0));
    starts(HERE, timetable, "a/oil/3/apply", march(2, 8, 0));
    ready(HERE, timetable, march(4, 8, 30));
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
    set_window(&panel, 4 * 60, 24 * 60);
    set_state(&panel, STATE_CURED, 12 * 60);
    struct timetable *timetable = dated(arena, &panel);
    starts(HERE, timetable, "a/oil/1/apply", march(8, 8, 0));
    starts(HERE, timetable, "a/oil/2/apply", march(8, 13, 0));
    ready(HERE, timetable, march(9, 2, 0));
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
    set_state(&panel, STATE_RECOAT, 24 * 60);
    set_state(&panel, STATE_CURED, 72 * 60);
    struct timetable *timetable = dated(arena, &panel);
    ready(HERE, timetable, march(6, 9, 30));
    check_int(HERE, timetable->late_min, 16 * 60 + 30);
    check_int(HERE, (intmax_t)timetable->chain_count, 3);
    bool told = false;
    for (size_t i = 0; i < timetable->why_count; i++)
        told = told || strcmp(timetable->why[i],
                              "coat 3 on A cannot start before Wed 3 Mar 09:00: coat 2 on A is not "
                              "dry to recoat until Wed 3 Mar 09:00") == 0;
    check_true(HERE, told, "coat 3 waits for coat 2");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(problem_1_one_coat), CHECK_TEST(problem_2_two_coats),
                     CHECK_TEST(problem_3_window), CHECK_TEST(problem_3_window_refused),
                     CHECK_TEST(problem_3_window_scuffed), CHECK_TEST(problem_4_polish),
                     CHECK_TEST(problem_5_two_sides), CHECK_TEST(two_coats_three_flips),
                     CHECK_TEST(problem_6_dust), CHECK_TEST(problem_7_night), CHECK_TEST(problem_8_rack),
                     CHECK_TEST(solver_break), CHECK_TEST(solver_nights), CHECK_TEST(solver_weekend),
                     CHECK_TEST(solver_late));
}
