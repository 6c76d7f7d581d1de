/* Drying as tables over slots of five minutes from Monday 1 March 2027 00:00, worked by hand: an oil of 5-35
 * C, at reference air by day. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/films.h"

enum { H = 60, D = 24 * 60, HOUR = 12, SLOTS = 288, LONGEST = 12 };

/* Too cold from 20:00 until midnight; too damp to be laid in, not to dry in, at that time; too cold and then
 * too hot; for two minutes. */
static const struct air_spell COLD[] = {{0, {23, 0.5}}, {20 * H, {3, 0.5}}};
static const struct air_spell DAMP[] = {{0, {23, 0.5}}, {20 * H, {23, 0.84}}};
static const struct air_spell TWICE[] = {
    {0, {23, 0.5}}, {18 * H, {3, 0.5}}, {20 * H, {40, 0.5}}, {22 * H, {23, 0.5}}};
static const struct air_spell BRIEF[] = {{0, {23, 0.5}}, {20 * H + 2, {3, 0.5}}, {20 * H + 4, {23, 0.5}}};

struct table {
    struct hand_work work;
    struct hours hours;
    struct films films;
    struct arena *arena;
    struct operation *coat;
};

/* A coat of an hour that is dry to handle after two, with a window of two. */
static struct table *table_make(const struct air_spell *spells, size_t count)
{
    struct arena *arena = arena_make(0);
    struct table *table = ARENA_NEW(arena, struct table);
    table->arena = arena;
    hand_work(&table->work);
    struct job *job = &table->work.panel.job;
    job->shop.air.daily = (struct air_day){.spells = spells, .spell_count = count};
    panel_set_window(&table->work.panel, 60, 120);
    panel_set_state(&table->work.panel, STATE_HANDLE, 120);
    table->coat = hand_add(&table->work, 0, DO_APPLY, 60);
    table->hours = (struct hours){.zone = job->zone, .origin_min = march(1, 0, 0), .slots = SLOTS};
    films_init(&table->films, arena, &job->shop, &table->hours, LONGEST);
    return table;
}

/* Laid by 19:00 it has one of its two hours by 20:00, rests until midnight and is there at 01:00; the window
 * does not rest, but runs four times slower: its other hour ends at midnight. Tables go on for the longest
 * operation behind the horizon. */
static void tables(void **state)
{
    (void)state;
    struct table *table = table_make(COLD, 2);
    const int32_t *handle = films_state(&table->films, table->coat, STATE_HANDLE);
    const int32_t *window = films_window(&table->films, table->coat);
    const int32_t *recoat = films_state(&table->films, table->coat, STATE_RECOAT);
    panel_set_state(&table->work.panel, STATE_WRAP, D);
    const int32_t *wrap = films_state(&table->films, table->coat, STATE_WRAP);
    check_int(HERE, handle[10 * HOUR], 12 * HOUR);
    check_int(HERE, handle[19 * HOUR], 25 * HOUR);
    check_int(HERE, handle[SLOTS + LONGEST], SLOTS + LONGEST + 2 * HOUR);
    check_int(HERE, wrap[25 * HOUR],
              25 * HOUR + 28 * HOUR); /* a day, and the four hours of the next evening */
    check_int(HERE, window[10 * HOUR], 12 * HOUR);
    check_int(HERE, window[19 * HOUR], 24 * HOUR);
    check_int(HERE, recoat[10 * HOUR], 11 * HOUR);
    check_true(HERE, films_state(&table->films, table->coat, STATE_HANDLE) == handle,
               "one table for one need");
    check_true(HERE, films_window(&table->films, table->coat) == window, "one window");
    arena_free(table->arena);
}

/* Tables of another finish, of the window on its own clock and of a water-borne film that cures are kept
 * apart, though all take 2 h. At 13 C a water-borne film cures in twice the time; its water leaves by the
 * air's deficit, 7.49 of 14.04 hPa (Magnus), in 1.87 times. */
static void tables_are_kept_apart(void **state)
{
    (void)state;
    static const struct air_spell cool = {0, {13, 0.5}};
    struct table *table = table_make(&cool, 1);
    struct finish other = table->work.panel.finish;
    other.at_c = 13;
    panel_set_state(&table->work.panel, STATE_CURED, 120);
    table->work.panel.finish.dries_by = DRIES_BY_WATER;
    check_int(HERE, films_state(&table->films, table->coat, STATE_CURED)[0], 4 * HOUR);
    check_int(HERE, films_state(&table->films, table->coat, STATE_HANDLE)[0], (225 + 4) / 5);
    struct step step = table->work.panel.steps[0][0];
    step.finish = &other;
    struct operation coat = *table->coat;
    coat.of.step = &step;
    check_int(HERE, films_state(&table->films, &coat, STATE_HANDLE)[0], 2 * HOUR);
    arena_free(table->arena);
}

/* The state is reached in the slot that begins at or after it, the window ends in the one before: 122 min
 * are 24.4 slots. */
static void waits_round_up_and_windows_down(void **state)
{
    (void)state;
    struct table *table = table_make(COLD, 1);
    panel_set_window(&table->work.panel, 122, 122);
    check_int(HERE, films_state(&table->films, table->coat, STATE_RECOAT)[0], 25);
    check_int(HERE, films_window(&table->films, table->coat)[0], 24);
    arena_free(table->arena);
}

struct allowed_row {
    struct row row;
    const struct air_spell *spells;
    size_t count;
    enum finish_drying by;
    int32_t last, next; /* the last start before the bad air, the first behind it; in slots */
};

/* A coat of an hour that needs two more while the air must suit, where it dries by water or reaction. */
static const struct allowed_row allowed_rows[] = {
    {ROW("dry by the cold"), COLD, 2, DRIES_BY_REACTION, 17 * HOUR, 24 * HOUR},
    {ROW("laid by the cold"), COLD, 2, DRIES_BY_SOLVENT, 19 * HOUR, 24 * HOUR},
    {ROW("laid by the damp"), DAMP, 2, DRIES_BY_REACTION, 19 * HOUR, 24 * HOUR},
    {ROW("two minutes spoil a slot"), BRIEF, 3, DRIES_BY_SOLVENT, 19 * HOUR, 20 * HOUR + 1},
};

static void allowed_are(void **state)
{
    const struct allowed_row *r = *state;
    struct table *table = table_make(r->spells, r->count);
    table->work.panel.finish.dries_by = r->by;
    table->hours.slots = 2 * SLOTS;
    bool *allowed = ARENA_ARRAY(table->arena, 2 * SLOTS + 1, bool);
    films_allowed(&table->films, table->coat, allowed);
    for (int32_t s = 0; s < 2 * SLOTS; s++)
        check_int(&r->row, allowed[s], s % SLOTS <= r->last || s % SLOTS >= r->next);
    if (r->by == DRIES_BY_SOLVENT)
        check_true(&r->row, allowed[2 * SLOTS], "the horizon is a start, too");
    arena_free(table->arena);
}

/* Too cold from 00:30 to 01:00: an hour's coat begins at 01:00 at the soonest. */
static void not_at_once(void **state)
{
    (void)state;
    static const struct air_spell early[] = {{0, {23, 0.5}}, {30, {3, 0.5}}, {H, {23, 0.5}}};
    struct table *table = table_make(early, 3);
    bool *allowed = ARENA_ARRAY(table->arena, SLOTS + 1, bool);
    films_allowed(&table->films, table->coat, allowed);
    for (int32_t s = 0; s < 2 * HOUR; s++)
        check_int(HERE, allowed[s], s >= HOUR);
    arena_free(table->arena);
}

struct air_row {
    struct row row;
    struct air air;
    bool want_laid, want_dries;
};

/* The limits themselves suit: 5-35 C, 30-90 %. A coat needs wood 3 C above the dew point: at 23 C up to 83 %
 * (19.96 C by the Magnus form), not at 84 % (20.15 C). */
static const struct air_row airs[] = {
    {ROW("reference"), {23, 0.5}, true, true},   {ROW("lowest"), {5, 0.5}, true, true},
    {ROW("too cold"), {4.9, 0.5}, false, false}, {ROW("highest"), {35, 0.5}, true, true},
    {ROW("too hot"), {35.1, 0.5}, false, false}, {ROW("driest"), {23, 0.3}, true, true},
    {ROW("too dry"), {23, 0.29}, false, false},  {ROW("dampest"), {23, 0.9}, false, true},
    {ROW("too damp"), {23, 0.91}, false, false}, {ROW("just dry"), {23, 0.83}, true, true},
    {ROW("dew"), {23, 0.84}, false, true},
};

static void air_suits(void **state)
{
    const struct air_row *r = *state;
    const struct air_spell spell = {0, r->air};
    struct table *table = table_make(&spell, 1);
    table->work.panel.finish.air.driest = 0.3;
    table->work.panel.finish.dries_by = DRIES_BY_OXIDATION;
    bool *allowed = ARENA_ARRAY(table->arena, SLOTS + 1, bool);
    films_allowed(&table->films, table->coat, allowed);
    check_int(&r->row, allowed[0], r->want_laid);
    struct air_outside outside =
        films_outside(&table->films, &table->work.panel.finish, march(1, 8, 0), march(1, 9, 0));
    check_int(&r->row, outside.minutes, r->want_dries ? 0 : 60);
    check_int(&r->row, outside.from_min, r->want_dries ? INT64_MAX : march(1, 8, 0));
    check_int(&r->row, outside.until_min, r->want_dries ? INT64_MAX : march(1, 9, 0));
    arena_free(table->arena);
}

/* Minutes from the Monday's midnight. */
struct outside_row {
    struct row row;
    const struct air_spell *spells;
    size_t count;
    int from, until;
    int want_from, want_until, want_minutes;
};

/* The first time outside is told, whatever spells it is made of, and the minutes of all times. */
static const struct outside_row outsides[] = {
    {ROW("cut off by the end"), COLD, 2, 10 * H, 22 * H, 20 * H, 22 * H, 2 * H},
    {ROW("begins outside"), COLD, 2, 21 * H, D + 5 * H, 21 * H, D, 3 * H},
    {ROW("cold, then hot"), TWICE, 4, 10 * H, D, 18 * H, 22 * H, 4 * H},
    {ROW("two evenings"), TWICE, 4, 10 * H, D + 19 * H, 18 * H, 22 * H, 5 * H},
    {ROW("until it begins"), COLD, 2, 10 * H, 20 * H, 0, 0, 0},
};

static void outside_is(void **state)
{
    const struct outside_row *r = *state;
    struct table *table = table_make(r->spells, r->count);
    int64_t monday = march(1, 0, 0);
    struct air_outside outside =
        films_outside(&table->films, &table->work.panel.finish, monday + r->from, monday + r->until);
    check_int(&r->row, outside.minutes, r->want_minutes);
    check_int(&r->row, outside.from_min, r->want_minutes > 0 ? monday + r->want_from : INT64_MAX);
    check_int(&r->row, outside.until_min, r->want_minutes > 0 ? monday + r->want_until : INT64_MAX);
    arena_free(table->arena);
}

/* A film that is never there is watched for eight weeks: 56 evenings of four hours. */
static void a_film_that_is_never_there(void **state)
{
    (void)state;
    struct table *table = table_make(COLD, 2);
    struct air_outside outside =
        films_outside(&table->films, &table->work.panel.finish, march(1, 10, 0), INT64_MAX);
    check_int(HERE, outside.minutes, 56 * 4 * H);
    check_int(HERE, outside.until_min, march(2, 0, 0));
    arena_free(table->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(tables), CHECK_TEST(tables_are_kept_apart),
                     CHECK_TEST(waits_round_up_and_windows_down), CHECK_ROWS(allowed_rows, allowed_are),
                     CHECK_TEST(not_at_once), CHECK_ROWS(airs, air_suits), CHECK_ROWS(outsides, outside_is),
                     CHECK_TEST(a_film_that_is_never_there));
}
