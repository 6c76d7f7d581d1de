/* Shares and moments of drawn plans against answers in closed form: one person, open 08:00-17:00 daily, air at
 * reference, 20,000 draws; a share agrees when it lies within three standard errors, sqrt(p (1 - p) / n) each. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "plan/chance.h"

#include <math.h>
#include <string.h>

enum { DRAWS = 20000 };

static const struct chance_spread none = {1, 1, false};

static struct chance_options options_of(struct chance_spread drying, struct chance_spread hands)
{
    return (struct chance_options){.seed = 7, .draws = DRAWS, .threads = 2, .drying = drying, .hands = hands};
}

static void check_share(const struct row *row, int32_t got, double want)
{
    double error = sqrt(want * (1 - want) / DRAWS);
    check_double(row, (double)got / DRAWS, want, 3 * error);
}

static void check_moment(const struct row *row, int64_t got, int64_t want, int64_t tolerance)
{
    if (got < want - tolerance || got > want + tolerance)
        check_int(row, got, want);
}

/* Coat 08:00-09:00, then 3 to 9 h until it may be handled, each as likely. Of the six hours the delivery at 13:30 leaves an
 * hour and a half: 1/4. Half are ready by 15:00, nine tenths by 17:24, on the grid 17:25. */
static void one_lag_drawn_evenly(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_state(&panel, STATE_HANDLE, 360);
    panel.job.deliver_min = march(1, 13, 30);
    const struct timetable *timetable = panel_dated(arena, &panel);
    const struct chance *chance =
        chance_make(arena, timetable, options_of((struct chance_spread){0.5, 1.5, true}, none));
    check_share(HERE, chance->on_time, 0.25);
    check_moment(HERE, chance->half_min, march(1, 15, 0), 10);
    check_moment(HERE, chance->nine_tenths_min, march(1, 17, 25), 10);
    check_true(HERE, chance->driver == timetable_find(timetable, "a/oil/1/apply"), "the only wait there is");
    check_int(HERE, chance->driver_state, STATE_HANDLE);
    check_double(HERE, chance->driver_share, 1, 1e-12);
    /* Late draws take 4.5 to 9 h, 6.75 h on the average: 45 min more than the table, up to a slot. */
    check_true(HERE, chance->driver_late && chance->driver_adds_min >= 43 && chance->driver_adds_min <= 50,
               "what it adds");
    arena_free(arena);
}

/* The same with half of the deviation common to the finish: the mean of two even draws is a triangle, of which a quarter
 * of the width holds 2 x (1/4)^2 = 1/8. */
static void a_shared_deviation(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_state(&panel, STATE_HANDLE, 360);
    panel.job.deliver_min = march(1, 13, 30);
    struct chance_options options = options_of((struct chance_spread){0.5, 1.5, true}, none);
    options.shared = 0.5;
    const struct chance *chance = chance_make(arena, panel_dated(arena, &panel), options);
    check_share(HERE, chance->on_time, 0.125);
    arena_free(arena);
}

/* Coat 1 08:00-09:00, 6 to 10 h until it may be coated again, coat 2 takes an hour: it is done by 17:00 where the lag is 7 h
 * or less, a quarter of all; else on Tuesday from 08:00 to 09:00. */
static void a_lag_against_closing_time(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 480, SPAN_NEVER);
    panel.job.deliver_min = march(1, 17, 0);
    const struct chance *chance = chance_make(arena, panel_dated(arena, &panel),
                                              options_of((struct chance_spread){0.75, 1.25, true}, none));
    check_share(HERE, chance->on_time, 0.25);
    check_moment(HERE, chance->half_min, march(2, 9, 0), 0);
    check_moment(HERE, chance->nine_tenths_min, march(2, 9, 0), 0);
    arena_free(arena);
}

/* Four hours of work, half to one and a half times as long, a symmetric triangle: done within three quarters with
 * 2 x (1/4)^2 = 1/8. */
static void hands_drawn_from_a_triangle(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 4);
    panel.job.deliver_min = march(1, 11, 0);
    const struct chance *chance = chance_make(arena, panel_dated(arena, &panel),
                                              options_of(none, (struct chance_spread){0.5, 1.5, false}));
    check_share(HERE, chance->on_time, 0.125);
    check_moment(HERE, chance->half_min, march(1, 12, 0), 5);
    check_true(HERE, chance->driver == NULL, "no wait adds anything");
    arena_free(arena);
}

/* The same four hours, to be done within four, where the shop has learned how long coats of this finish and tool take, give or
 * take 20 %: the logarithm of the minutes is normal with a deviation of 0.1 about that of the factor. So exp(0.1) times the planned
 * minutes is one deviation too long, and 0.1587 of the draws are in time; of exp(-0.1) times 0.8413 are, of 1 time half (the
 * normal distribution's table in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1). Nine tenths of these are done
 * 1.2816 deviations (from memory) later, after 240 x exp(0.12816) = 272.8 min, on the grid 12:35. */
static void hands_as_learned(void **state)
{
    static const double deviations[] = {1, 0, -1}, shares[] = {0.1587, 0.5, 0.8413};
    (void)state;
    for (size_t i = 0; i < 3; i++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        enum tool by = panel_add_step(&panel, 0, STEP_COAT)->by;
        panel_set_hours(&panel, 0, 4);
        panel.finish.tool_learned[by] =
            (struct tool_learned){.minutes_factor = exp(0.1 * deviations[i]), .minutes_tolerance = 0.2};
        panel.job.deliver_min = march(1, 12, 0);
        /* What is assumed of other work counts for nothing here. */
        const struct chance *chance = chance_make(arena, panel_dated(arena, &panel),
                                                  options_of(none, (struct chance_spread){0.2, 5, false}));
        /* Minutes are rounded: half of one is 0.5 x 0.4 / 24 of the draws, 0.4 being the density at its highest. */
        check_double(HERE, (double)chance->on_time / DRAWS, shares[i],
                     3 * sqrt(shares[i] * (1 - shares[i]) / DRAWS) + 0.0083);
        check_int(HERE, (intmax_t)chance->learned_count, 1);
        check_true(HERE, chance->learned && chance->learned[0].finish == &panel.finish, "the finish");
        check_int(HERE, chance->learned[0].tool, by);
        if (i == 1) {
            check_moment(HERE, chance->half_min, march(1, 12, 0), 5);
            check_moment(HERE, chance->nine_tenths_min, march(1, 12, 35), 5);
        }
        arena_free(arena);
    }
}

/* A is coated twice by cloth, then B by brush, and the shop has learned how long both take: each is told once, in the order of the
 * plan. */
static void each_finish_and_tool_is_told_once(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 1, STEP_COAT)->by = TOOL_BRUSH;
    panel.finish.tool_learned[TOOL_CLOTH] = panel.finish.tool_learned[TOOL_BRUSH] =
        (struct tool_learned){.minutes_factor = 1};
    const struct timetable *timetable = panel_dated(arena, &panel);
    const struct chance *chance = chance_make(arena, timetable, options_of(none, none));
    enum tool first = timetable->batches[0].first->of.step->by;
    check_int(HERE, (intmax_t)chance->learned_count, 2);
    check_int(HERE, chance->learned[0].tool, first);
    check_int(HERE, chance->learned[1].tool, first == TOOL_CLOTH ? TOOL_BRUSH : TOOL_CLOTH);
    arena_free(arena);
}

/* A learned factor without any tolerance is a certainty: half an hour late at 1.125 times, never at 1 time. */
static void hands_learned_exactly(void **state)
{
    (void)state;
    for (int slow = 0; slow < 2; slow++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        enum tool by = panel_add_step(&panel, 0, STEP_COAT)->by;
        panel_set_hours(&panel, 0, 4);
        panel.finish.tool_learned[by] = (struct tool_learned){.minutes_factor = slow ? 1.125 : 1};
        panel.job.deliver_min = march(1, 12, 0);
        const struct chance *chance = chance_make(arena, panel_dated(arena, &panel), options_of(none, none));
        check_int(HERE, chance->on_time, slow ? 0 : DRAWS);
        check_moment(HERE, chance->half_min, march(1, 12, slow ? 30 : 0), 0);
        arena_free(arena);
    }
}

/* Recoat 6 to 9 h at f = 1, f even between 1/2 and 3/2. Coat 2 starts on Monday where 09:00 + 6 f is not after 16:00, that is
 * f <= 7/6, two thirds of all. The others find the shop closed until 08:00, 23 h after coat 1, and the window of at most
 * 13.5 h over: a third is scuffed for or spoiled. */
static void windows_that_are_missed(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    for (int scuffs = 0; scuffs < 2; scuffs++) {
        struct panel panel;
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
        panel_set_window(&panel, 360, 540);
        panel.finish.refuses_late_recoat = !scuffs;
        panel.job.deliver_min = march(2, 17, 0);
        const struct timetable *timetable = panel_dated(arena, &panel);
        check_starts(HERE, timetable, "a/oil/2/apply", march(1, 15, 0));
        const struct chance *chance =
            chance_make(arena, timetable, options_of((struct chance_spread){0.5, 1.5, true}, none));
        check_share(HERE, scuffs ? chance->scuffed : chance->spoiled, 1.0 / 3);
        check_int(HERE, scuffs ? chance->spoiled : chance->scuffed, 0);
        check_int(HERE, chance->on_time, scuffs ? DRAWS : DRAWS - chance->spoiled);
        /* Scuff 08:00-09:00, coat 2 09:00-10:00 on Tuesday. */
        check_moment(HERE, chance->nine_tenths_min, march(2, scuffs ? 10 : 9, 0), 0);
    }
    arena_free(arena);
}

/* B dries twice as long as A: nothing but B's film makes it late. */
static void the_longest_wait_drives(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_add_step(&panel, 1, STEP_COAT)->coats = 2;
    panel_set_state(&panel, STATE_HANDLE, 1200);
    panel_set_window(&panel, 1200, SPAN_NEVER);
    const struct timetable *timetable = panel_dated(arena, &panel);
    panel.job.deliver_min = timetable->ready_min;
    struct chance_options options = chance_defaults();
    const struct chance *chance = chance_make(arena, panel_dated(arena, &panel), options);
    check_true(HERE, chance->driver && strncmp(chance->driver->operation->id, "b/", 2) == 0, "a coat of B");
    check_true(HERE, chance->driver_share > 0.9, "in nearly every late draw");
    arena_free(arena);
}

/* Coat 1 may be coated again after 20 h and coat 2 be handled after 2 h, both quick or slow alike: where it is late, the first
 * adds hours and the second minutes. */
static void the_longer_wait_drives_where_it_is_the_first(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_state(&panel, STATE_HANDLE, 120);
    panel_set_window(&panel, 1200, SPAN_NEVER);
    panel.job.deliver_min = panel_dated(arena, &panel)->ready_min;
    struct chance_options options = options_of((struct chance_spread){0.5, 1.5, true}, none);
    options.shared = 1;
    const struct timetable *timetable = panel_dated(arena, &panel);
    const struct chance *chance = chance_make(arena, timetable, options);
    check_true(HERE, chance->driver_late && chance->driver == timetable_find(timetable, "a/oil/1/apply"),
               "coat 1");
    check_int(HERE, chance->driver_state, STATE_RECOAT);
    arena_free(arena);
}

/* Coat 1 08:00-09:00 on Monday 1 March, 50 to 90 days until it may be coated again, each as likely, coat 2 takes an hour. It is done on
 * 30 April by 17:00 where it may begin until 16:00, after 60 days and 7 h: (60.2917 - 50) / 40 of all. */
static void months_between_coats(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 80 * 1440, SPAN_NEVER);
    panel.job.deliver_min = march(1 + 60, 17, 0);
    const struct chance *chance = chance_make(arena, panel_dated(arena, &panel),
                                              options_of((struct chance_spread){0.625, 1.125, true}, none));
    check_share(HERE, chance->on_time, (60 + 7.0 / 24 - 50) / 40);
    arena_free(arena);
}

/* Sanded twice and coated twice, three hours each, and one coat a day: all on Monday but for coat 2, on Tuesday. Hands half as slow
 * again sand until 17:00, lay coat 1 on Tuesday 08:00-12:30 and coat 2 not behind it, but on Wednesday until 12:30. */
static void one_coat_a_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_set_hours(&panel, 0, 3);
    panel_add_step(&panel, 0, STEP_SAND)->grit = 120;
    panel_add_step(&panel, 0, STEP_SAND)->grit = 180;
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel.finish.coats_a_day = 1;
    const struct timetable *timetable = panel_dated(arena, &panel);
    check_starts(HERE, timetable, "a/oil/1/apply", march(1, 14, 0));
    check_starts(HERE, timetable, "a/oil/2/apply", march(2, 8, 0));
    const struct chance *chance =
        chance_make(arena, timetable, options_of(none, (struct chance_spread){1.5, 1.5, true}));
    check_moment(HERE, chance->half_min, march(3, 12, 30), 0);
    arena_free(arena);
}

/* The rack has room for one of two. A is coated 08:00-09:00 and planned to be handled from 15:00, when B comes. All films take half as
 * long again, 9 h: A lies there until 18:00, so that B comes on Tuesday at 08:00 and is ready 9 h after 09:00. */
static void a_slow_film_keeps_its_place_on_the_rack(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_piece(&panel);
    for (size_t piece = 0; piece < 2; piece++) {
        panel_add_step(&panel, piece, STEP_COAT);
        panel.pieces[piece].rack_m2 = 0.6;
    }
    panel.job.shop.rack_m2 = 1;
    panel_set_state(&panel, STATE_HANDLE, 360);
    const struct timetable *timetable = panel_dated(arena, &panel);
    check_ready(HERE, timetable, march(1, 22, 0));
    struct chance_options options = options_of((struct chance_spread){1.5, 1.5, true}, none);
    options.draws = 3;
    check_moment(HERE, chance_make(arena, timetable, options)->half_min, march(2, 18, 0), 0);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(one_lag_drawn_evenly), CHECK_TEST(a_shared_deviation), CHECK_TEST(months_between_coats),
        CHECK_TEST(a_lag_against_closing_time), CHECK_TEST(hands_drawn_from_a_triangle),
        CHECK_TEST(hands_as_learned), CHECK_TEST(each_finish_and_tool_is_told_once),
        CHECK_TEST(hands_learned_exactly), CHECK_TEST(windows_that_are_missed), CHECK_TEST(one_coat_a_day),
        CHECK_TEST(the_longest_wait_drives), CHECK_TEST(the_longer_wait_drives_where_it_is_the_first),
        CHECK_TEST(a_slow_film_keeps_its_place_on_the_rack));
}
