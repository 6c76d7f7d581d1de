/* Drying in changing air: rates by what a finish dries by, and moments reached, to the minute. */
#include "check.h"
#include "sample.h"

#include "base/arena.h"
#include "base/moment.h"
#include "finish/drying.h"

#include <math.h>
#include <stdlib.h>

struct rate_row {
    struct row row;
    enum finish_drying by;
    enum drying_kind kind;
    struct air air;
    int32_t want; /* millionths, to 2 of them */
};

/* Reference 23 C 50 %, lowest 10 C. By hand from the rules of the method (sources in drying.c). */
static const struct rate_row rates[] = {
    {ROW("reaction at reference"), DRIES_BY_REACTION, DRYING_FILM, {23, 0.5}, 1000000},
    {ROW("reaction 10 C colder"), DRIES_BY_REACTION, DRYING_FILM, {13, 0.5}, 500000},
    {ROW("reaction 5 C warmer: root of 2"), DRIES_BY_REACTION, DRYING_FILM, {28, 0.5}, 1414214},
    {ROW("oxidation 10 C warmer"), DRIES_BY_OXIDATION, DRYING_FILM, {33, 0.75}, 2000000},
    {ROW("oxidation, damp: x 0.7"), DRIES_BY_OXIDATION, DRYING_FILM, {23, 0.76}, 700000},
    {ROW("solvent 12 C warmer"), DRIES_BY_SOLVENT, DRYING_FILM, {35, 0.5}, 2000000},
    {ROW("solvent 12 C colder"), DRIES_BY_SOLVENT, DRYING_FILM, {11, 0.5}, 500000},
    {ROW("solvent, damp: no matter"), DRIES_BY_SOLVENT, DRYING_FILM, {23, 0.9}, 1000000},
    {ROW("water at reference"), DRIES_BY_WATER, DRYING_FILM, {23, 0.5}, 1000000},
    {ROW("water, 70 %: six tenths of the deficit"), DRIES_BY_WATER, DRYING_FILM, {23, 0.7}, 600000},
    {ROW("water, dry: at most 1.5"), DRIES_BY_WATER, DRYING_FILM, {23, 0.2}, 1500000},
    {ROW("water, saturated: never"), DRIES_BY_WATER, DRYING_FILM, {23, 1.0}, 0},
    {ROW("water cures by reaction"), DRIES_BY_WATER, DRYING_CURE, {13, 1.0}, 500000},
    {ROW("moisture, half the humidity"), DRIES_BY_MOISTURE, DRYING_FILM, {23, 0.25}, 500000},
    {ROW("moisture, dry: never"), DRIES_BY_MOISTURE, DRYING_FILM, {23, 0}, 0},
    {ROW("below the lowest temperature: stops"), DRIES_BY_OXIDATION, DRYING_FILM, {9.9, 0.5}, 0},
    {ROW("water cure stops there too"), DRIES_BY_WATER, DRYING_CURE, {9.9, 0.5}, 0},
    {ROW("at the lowest temperature: still goes"), DRIES_BY_REACTION, DRYING_FILM, {13, 0.5}, 500000},
    {ROW("the end of a window runs on below it: 2^-1.5"),
     DRIES_BY_OXIDATION,
     DRYING_WINDOW,
     {8, 0.5},
     353553},
    {ROW("... no slower than a quarter"), DRIES_BY_OXIDATION, DRYING_WINDOW, {-5, 0.5}, 250000},
    {ROW("... of solvents too"), DRIES_BY_SOLVENT, DRYING_WINDOW, {-5, 0.5}, 250000},
    {ROW("... and of water"), DRIES_BY_WATER, DRYING_WINDOW, {5, 0.9}, 287175},
    {ROW("above it as the film"), DRIES_BY_WATER, DRYING_WINDOW, {23, 0.7}, 600000},
    {ROW("what does not dry waits by the clock"), DRIES_BY_NOTHING, DRYING_FILM, {2, 1.0}, 1000000},
};

/* From 10 to 30 C and 20 to 90 %. At 20 C the dew point is 17 C at 82.9 %: by WMO-No. 8, annex 4.B, the vapour pressures are 19.333 and
 * 23.326 hPa. */
struct laid_row {
    struct row row;
    struct air air;
    bool bears, laid;
};

static const struct laid_row laids[] = {
    {ROW("as usual"), {20, 0.5}, true, true},
    {ROW("the coldest"), {10, 0.5}, true, true},
    {ROW("colder"), {9.9, 0.5}, false, false},
    {ROW("the warmest"), {30, 0.5}, true, true},
    {ROW("warmer"), {30.1, 0.5}, false, false},
    {ROW("the driest"), {20, 0.2}, true, true},
    {ROW("drier"), {20, 0.19}, false, false},
    {ROW("just 3 C above the dew point"), {20, 0.828}, true, true},
    {ROW("not quite"), {20, 0.83}, true, false},
    {ROW("damper than it bears"), {20, 0.91}, false, false},
};

static void air_is_borne(void **state)
{
    const struct laid_row *r = *state;
    struct finish finish = sample_varnish();
    finish.air.lowest_c = 10;
    finish.air.highest_c = 30;
    finish.air.driest = 0.2;
    finish.air.dampest = 0.9;
    check_true(&r->row, drying_bears(&finish, r->air) == r->bears, "a film may be there");
    check_true(&r->row, drying_may_be_laid(&finish, r->air) == r->laid, "it may be laid");
}

static void what_needs_its_air(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    for (int by = 0; by <= DRIES_BY_NOTHING; by++) {
        finish.dries_by = (enum finish_drying)by;
        check_true(HERE, drying_needs_air(&finish) == (by == DRIES_BY_WATER || by == DRIES_BY_REACTION),
                   "by water and by reaction");
    }
}

static void rate_is(void **state)
{
    const struct rate_row *r = *state;
    struct finish finish = sample_varnish();
    finish.dries_by = r->by;
    int32_t got = drying_rate(&finish, r->kind, r->air);
    check_true(&r->row, labs((long)got - r->want) <= 2, "within two millionths");
}

/* Saturation 23.37 hPa at 20 C, 28.09 hPa at 23 C (psychrometric tables, from memory): 23.37 x 0.4 / (28.09 x 0.5). */
static void water_against_a_table(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    finish.dries_by = DRIES_BY_WATER;
    check_double(HERE, drying_rate(&finish, DRYING_FILM, (struct air){20, 0.6}) / 1e6, 0.6656, 2e-3);
}

static void which_states_cure(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    check_true(HERE, drying_kind(&finish, STATE_CURED) == DRYING_FILM, "oxidation has one clock");
    finish.dries_by = DRIES_BY_WATER;
    check_true(HERE, drying_kind(&finish, STATE_SAND) == DRYING_FILM, "sand dries by water");
    check_true(HERE, drying_kind(&finish, STATE_WRAP) == DRYING_CURE, "wrap cures");
    check_true(HERE, drying_kind(&finish, STATE_LIGHT_USE) == DRYING_CURE, "light use cures");
}

struct pot_row {
    struct row row;
    int32_t pot_life_min;
    double temperature_c, want_min;
};

/* UFGS-09971, 3.7.1.3: epoxy 4 h, polyurethane 2 h at 21 C; halves per 10 C rise, doubles per 10 C drop. */
static const struct pot_row pots[] = {
    {ROW("epoxy at 21 C"), 240, 21, 240},       {ROW("epoxy at 31 C"), 240, 31, 120},
    {ROW("epoxy at 11 C"), 240, 11, 480},       {ROW("epoxy at 26 C: 2.83 h"), 240, 26, 169.70562748477},
    {ROW("polyurethane at 31 C"), 120, 31, 60}, {ROW("none given"), SPAN_NEVER, 31, INFINITY},
};

static void pot_life_is(void **state)
{
    const struct pot_row *r = *state;
    struct finish finish = sample_two_part();
    finish.pot_life_min = r->pot_life_min;
    finish.induction_min = 0;
    check_double(&r->row, finish_pot_life_min(&finish, r->temperature_c, 0), r->want_min, 1e-12);
    check_double(&r->row, finish_working_min(&finish, r->temperature_c, 0), 0.9 * r->want_min, 1e-12);
}

static void induction_shortens_the_work(void **state)
{
    (void)state;
    struct finish finish = sample_two_part();
    finish.induction_min = 20;
    check_double(HERE, finish_working_min(&finish, 21, 0), 198, 1e-12); /* (240 - 20) x 0.9 */
    check_double(HERE, finish_working_min(&finish, 71, 0), 0, 0); /* 7.5 min: dead before it may be laid */
}

/* Activation energy 64 kJ/mol, R = 8.314 J/mol K: exp(64000 / 8.314 x (1/293.15 - 1/303.15)) = 2.378, some 2.4. */
static void an_epoxy_is_faster(void **state)
{
    (void)state;
    struct finish epoxy = sample_two_part(); /* 240 min at 21 C */
    epoxy.family = "epoxy";
    check_double(HERE, finish_haste(&epoxy, 31), exp(64000 / 8.314 * (1 / 293.15 - 1 / 303.15)), 0.01);
    check_double(HERE, finish_pot_life_min(&epoxy, 31, 0), 100, 1e-12);
    check_double(HERE, finish_pot_life_min(&epoxy, 11, 0), 576, 1e-12);
    check_int(HERE, drying_rate(&epoxy, DRYING_FILM, (struct air){31, 0.5}), 2400000);
}

/* Twice the mass halves it (common practice, from memory); below the pot mass nothing changes. */
static void a_large_pot_lives_shorter(void **state)
{
    (void)state;
    struct finish epoxy = sample_two_part();
    check_double(HERE, finish_pot_life_min(&epoxy, 21, 5000), 240, 1e-12);
    epoxy.pot_mass_g = 500;
    check_double(HERE, finish_pot_life_min(&epoxy, 21, 500), 240, 1e-12);
    check_double(HERE, finish_pot_life_min(&epoxy, 21, 100), 240, 1e-12);
    check_double(HERE, finish_pot_life_min(&epoxy, 21, 1000), 120, 1e-12);
    check_double(HERE, finish_pot_life_min(&epoxy, 31, 2000), 30, 1e-12);
    check_double(HERE, finish_working_min(&epoxy, 21, 1000), 108, 1e-12);
}

static const struct zone utc = {"UTC", 0, NULL};
static const struct air_spell day_and_night[] = {{8 * 60, {23, 0.5}}, {18 * 60, {13, 0.5}}};
static const struct air_year nights = {{0, day_and_night, 2}, NULL, 0, false, NULL, 0};

enum { DAY = 1440 };

static struct drying_clock *reaction_clock(struct arena *arena)
{
    struct finish finish = sample_varnish();
    finish.dries_by = DRIES_BY_REACTION;
    return drying_clock_make(arena, &finish, DRYING_FILM, &nights, &utc, (struct drying_span){0, 60 * DAY});
}

struct reach_row {
    struct row row;
    int start_min, needed_min;
    bool last;
    int64_t want;
};

/* 23 C from 08:00 to 18:00, 13 C at night: half speed. All by hand. */
static const struct reach_row reached[] = {
    /* method, section 7, problem 7 */
    {ROW("night: 8 h by 18:00, the other 4 h take 8 h: 02:00"), 10 * 60, 720, false, DAY + 2 * 60},
    {ROW("within the day"), 10 * 60, 240, false, 14 * 60},
    {ROW("to the end of the day"), 10 * 60, 480, false, 18 * 60},
    {ROW("a minute more is two at night, rounded up"), 10 * 60, 481, false, 18 * 60 + 5},
    {ROW("over a whole night: 7 h of it, then the day"), 18 * 60, 421, false, DAY + 8 * 60 + 5},
    {ROW("nothing is needed"), 10 * 60, 0, false, 10 * 60},
    {ROW("nothing is needed, off the grid"), 10 * 60 + 1, 0, false, 10 * 60 + 5},
    {ROW("three days: 17 h of progress a day"), 8 * 60, 3 * 17 * 60, false, 3 * DAY + 8 * 60},
    {ROW("does not end"), 8 * 60, SPAN_NEVER, false, INT64_MAX},
    {ROW("a window's end rounds down"), 10 * 60, 481, true, 18 * 60},
    {ROW("a window's end on the grid"), 10 * 60, 720, true, DAY + 2 * 60},
    {ROW("a window that closes two minutes later"), 10 * 60, 721, true, DAY + 2 * 60},
    {ROW("no window"), 10 * 60, SPAN_NEVER, true, INT64_MAX},
};

static void moment_is(void **state)
{
    const struct reach_row *r = *state;
    struct arena *arena = arena_make(0);
    struct drying_clock *clock = reaction_clock(arena);
    int64_t got = r->last ? drying_last(clock, 0, r->start_min, r->needed_min)
                          : drying_reach(clock, 0, r->start_min, r->needed_min);
    arena_free(arena);
    check_int(&r->row, got, r->want);
}

/* 10 C above for all time: 3 h 7 min at reference take 93.5 min; one second too late for the grid is forgiven. */
static void a_second_is_forgiven(void **state)
{
    (void)state;
    static const int64_t from[] = {0}, progress[] = {0};
    int32_t rate[] = {2000000};
    struct drying_clock clock = {1, from, rate, progress, NULL, 0};
    check_int(HERE, drying_reach(&clock, 0, 0, 187), 95);
    rate[0] = 999800; /* 60 min take 60.012: 0.72 s over */
    check_int(HERE, drying_reach(&clock, 0, 0, 60), 60);
    rate[0] = 999700; /* 1.08 s over */
    check_int(HERE, drying_reach(&clock, 0, 0, 60), 65);
    rate[0] = 1000200; /* a window of 60 min ends 0.72 s early: down is down */
    check_int(HERE, drying_last(&clock, 0, 0, 60), 55);
}

/* Out of a workshop: an oil that may be recoated 20 min to 1 h after the coat, in a shed that falls from 20 C to 6 C at
 * 17:00, below its 8 C. The window stood open all night, for 19 hours, while the film rested; it runs on at 2^-1.4 = 0.379:
 * laid at 16:45, 15 min by 17:00, the other 45 take 118.8: it closes at 18:58. The same for 4 to 6 h over a night at 8 C:
 * laid at 12:00, 5 h by 17:00, the other hour takes 137.8 min at 2^-1.2: 19:17. */
static void a_window_closes_at_night(void **state)
{
    (void)state;
    static const struct air_spell shed[] = {{7 * 60, {20, 0.5}}, {17 * 60, {6, 0.5}}},
                                  cold[] = {{7 * 60, {20, 0.5}}, {17 * 60, {8, 0.5}}};
    static const struct air_year in_shed = {{0, shed, 2}, NULL, 0, false, NULL, 0},
                                 in_cold = {{0, cold, 2}, NULL, 0, false, NULL, 0};
    struct arena *arena = arena_make(0);
    struct finish oil = sample_varnish();
    struct drying_span span = {0, 9 * DAY};
    oil.at_c = 20;
    oil.air.lowest_c = 8;
    struct drying_clock *window = drying_clock_make(arena, &oil, DRYING_WINDOW, &in_shed, &utc, span);
    check_int(HERE, drying_last(window, 0, DAY + 16 * 60 + 45, 60), DAY + 18 * 60 + 55);
    struct drying_clock *film = drying_clock_make(arena, &oil, DRYING_FILM, &in_shed, &utc, span);
    check_int(HERE, drying_reach(film, 0, DAY + 16 * 60 + 45, 20), 2 * DAY + 7 * 60 + 5);
    oil.air.lowest_c = 10;
    window = drying_clock_make(arena, &oil, DRYING_WINDOW, &in_cold, &utc, span);
    check_int(HERE, drying_last(window, 0, DAY + 12 * 60, 360), DAY + 19 * 60 + 15);
    arena_free(arena);
}

static void stopped_clocks(void **state)
{
    (void)state;
    static const int64_t from[] = {0, 100, 200, 300}, progress[] = {0, 100000000, 100000000, 150000000};
    static const int32_t rate[] = {1000000, 0, 500000, 0};
    struct drying_clock clock = {4, from, rate, progress, NULL, 0};
    check_int(HERE, drying_reach(&clock, 0, 0, 100), 100);
    check_int(HERE, drying_reach(&clock, 0, 0, 101), 205); /* 202, after the pause */
    check_int(HERE, drying_reach(&clock, 0, 150, 50), 300);
    check_int(HERE, drying_reach(&clock, 0, 150, 51), INT64_MAX);
    check_int(HERE, drying_last(&clock, 0, 0, 100), 200); /* open through the pause */
    check_int(HERE, drying_last(&clock, 0, 0, 150), INT64_MAX);
    check_int(HERE, drying_reach(&clock, 3, 0, 101), 203); /* a grid of its own */
}

static void plain_clock_is_the_clock(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drying_clock *clock = drying_clock_plain(arena, 1000);
    check_int(HERE, drying_reach(clock, 1000, 1015, 62), 1080);
    check_int(HERE, drying_last(clock, 1000, 1015, 62), 1075);
    check_int(HERE, drying_progress(clock, 1007), 7 * (int64_t)DRYING_UNIT);
    arena_free(arena);
}

static struct drying_clock *random_clock(struct arena *arena, uint64_t *seed)
{
    size_t count = (size_t)check_random_int(seed, 1, 8);
    int64_t *from = ARENA_ARRAY(arena, count, int64_t), *progress = ARENA_ARRAY(arena, count, int64_t);
    int32_t *rate = ARENA_ARRAY(arena, count, int32_t);
    for (size_t i = 0; i < count; i++) {
        from[i] = i == 0 ? 0 : from[i - 1] + check_random_int(seed, 1, 90);
        rate[i] = check_random_int(seed, 0, 3) == 0 ? 0 : check_random_int(seed, 1, 3000000);
        progress[i] = i == 0 ? 0 : progress[i - 1] + rate[i - 1] * (from[i] - from[i - 1]);
    }
    struct drying_clock *clock = ARENA_NEW(arena, struct drying_clock);
    *clock = (struct drying_clock){count, from, rate, progress, NULL, 0};
    return clock;
}

/* The definition, minute by minute: progress one second after t, in sixtieths. */
static int64_t slow_reach(const struct drying_clock *clock, int64_t start, int32_t needed, bool last)
{
    int64_t target = drying_progress(clock, start) + (int64_t)needed * DRYING_UNIT, found = INT64_MAX;
    for (int64_t t = 0; t < 200000; t += DRYING_SLOT_MIN) {
        int64_t second = drying_progress(clock, t + 1) - drying_progress(clock, t);
        bool there = 60 * drying_progress(clock, t) + second >= 60 * target && t >= start;
        if (!last && there)
            return t;
        if (last && drying_progress(clock, t) > target)
            return found;
        found = t;
    }
    return INT64_MAX;
}

static void agrees_with_the_definition(void **state)
{
    (void)state;
    uint64_t seed = 20270301;
    for (int trial = 0; trial < 400; trial++) {
        uint64_t was = seed;
        struct arena *arena = arena_make(0);
        struct drying_clock *clock = random_clock(arena, &seed);
        int32_t needed = check_random_int(&seed, 0, 300), after = check_random_int(&seed, 0, 30);
        bool last = check_random_int(&seed, 0, 1) == 1;
        int32_t table[61];
        drying_table(clock, 0, after, (struct drying_need){needed, last, 60}, table);
        for (int s = 0; s <= 60; s++) {
            int64_t start = 5 * s + after, want = slow_reach(clock, start, needed, last);
            int64_t got = last ? drying_last(clock, 0, start, needed) : drying_reach(clock, 0, start, needed);
            int32_t slot = want == INT64_MAX ? DRYING_NEVER_SLOT : (int32_t)(want / 5);
            if (got != want || table[s] != slot)
                fail_msg("seed %ju, slot %d: got %jd and %d, want %jd", (uintmax_t)was, s, (intmax_t)got,
                         table[s], (intmax_t)want);
        }
        arena_free(arena);
    }
}

/* Working hours are wall-clock, drying runs through real minutes: the wall falls back at 01:00 UTC, and the night of
 * 14 wall hours is 15 real ones. */
static void clock_change_lengthens_the_night(void **state)
{
    (void)state;
    static const struct zone_change changes[] = {{INT64_MIN, 60}, {1 * DAY + 60, 0}};
    static const struct zone zone = {"Test", 2, changes};
    struct arena *arena = arena_make(0);
    struct finish finish = sample_varnish();
    finish.dries_by = DRIES_BY_REACTION;
    struct drying_clock *clock =
        drying_clock_make(arena, &finish, DRYING_FILM, &nights, &zone, (struct drying_span){0, 10 * DAY});
    /* 18:00 of the wall is 17:00 UTC; 15 h of night at half speed are 7 h 30, then half an hour of day. */
    check_int(HERE, drying_reach(clock, 0, 17 * 60, 480), DAY + 8 * 60 + 30);
    arena_free(arena);
}

static void later_starts_never_end_earlier(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct drying_clock *clock = reaction_clock(arena);
    int32_t table[2001];
    drying_table(clock, 0, 30, (struct drying_need){.needed_min = 1000, .slots = 2000}, table);
    for (int s = 1; s <= 2000; s++)
        check_true(HERE, table[s] >= table[s - 1], "monotone");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_ROWS(rates, rate_is), CHECK_ROWS(laids, air_is_borne), CHECK_TEST(what_needs_its_air),
        CHECK_TEST(water_against_a_table), CHECK_TEST(which_states_cure), CHECK_ROWS(pots, pot_life_is),
        CHECK_TEST(induction_shortens_the_work), CHECK_TEST(an_epoxy_is_faster),
        CHECK_TEST(a_large_pot_lives_shorter), CHECK_TEST(a_window_closes_at_night),
        CHECK_ROWS(reached, moment_is), CHECK_TEST(a_second_is_forgiven), CHECK_TEST(stopped_clocks),
        CHECK_TEST(plain_clock_is_the_clock), CHECK_TEST(agrees_with_the_definition),
        CHECK_TEST(clock_change_lengthens_the_night), CHECK_TEST(later_starts_never_end_earlier));
}
