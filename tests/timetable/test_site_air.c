/* Air, films and waits as a planner of batches sees them, in minutes from Monday 1 March 2027 00:00; an oil
 * of 5-35 C and at most 90 %, its times at 23 C and 50 %, twice as fast at 33 C, four times slower at 3 C (2
 * to the power of a tenth of the difference). The shop opens 08:00-17:00 daily. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/site.h"

enum { H = 60, D = 24 * 60 };

/* Reference air, too cold from 18:00, too hot from 20:00 until midnight. */
static const struct air_spell COLD_NIGHT[] = {{0, {23, 0.5}}, {18 * H, {3, 0.5}}, {20 * H, {40, 0.5}}};
/* Reference air, too cold from 20:00 until midnight; the same with a warm afternoon. */
static const struct air_spell COLD_EVENING[] = {{0, {23, 0.5}}, {20 * H, {3, 0.5}}};
static const struct air_spell WARM[] = {{0, {23, 0.5}}, {12 * H, {33, 0.5}}, {18 * H, {13, 0.5}}};

static void breathe(struct hand_work *work, const struct air_spell *spells, size_t count)
{
    work->panel.job.shop.air.daily = (struct air_day){.spells = spells, .spell_count = count};
}

static struct site *site_of(struct arena *arena, struct hand_work *work)
{
    return site_make(arena, &work->operations, march(1, 0, 0), 7 * D);
}

struct air_row {
    struct row row;
    struct air air;
    bool want_wet, want_dry; /* whether it does not suit while the coat is laid; while it dries */
};

/* The limits themselves suit. At 23 C a coat may be laid up to 83 % (dew point 19.96 C by the Magnus form),
 * not at 84 % (20.15 C): the surface must be 3 C warmer. */
static const struct air_row airs[] = {
    {ROW("reference"), {23, 0.5}, false, false}, {ROW("lowest"), {5, 0.5}, false, false},
    {ROW("too cold"), {4.9, 0.5}, true, true},   {ROW("highest"), {35, 0.5}, false, false},
    {ROW("too hot"), {35.1, 0.5}, true, true},   {ROW("driest"), {23, 0.3}, false, false},
    {ROW("too dry"), {23, 0.29}, true, true},    {ROW("dampest"), {23, 0.9}, true, false},
    {ROW("too damp"), {23, 0.91}, true, true},   {ROW("just dry"), {23, 0.83}, false, false},
    {ROW("dew"), {23, 0.84}, true, false},
};

static void air_suits(void **state)
{
    const struct air_row *r = *state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    work.panel.finish.air.driest = 0.3;
    const struct air_spell spell = {0, r->air};
    breathe(&work, &spell, 1);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct film *film = site_of(arena, &work)->rows[0].film;
    check_int(&r->row, (intmax_t)film->wet.count, r->want_wet);
    check_int(&r->row, (intmax_t)film->dry.count, r->want_dry);
    arena_free(arena);
}

/* Cold and heat that follow each other are one spell, 18:00 to midnight, every day, also for a film that lies
 * for eight weeks after the last day that is planned. */
static void spells_of_each_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    breathe(&work, COLD_NIGHT, 3);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct film *film = site_of(arena, &work)->rows[0].film;
    check_true(HERE, film->until_handle, "an oil hardens by reaction");
    for (int day = 0; day < 63; day++) {
        check_int(HERE, film->wet.items[day].from, day * D + 18 * H);
        check_int(HERE, film->wet.items[day].to, day * D + 24 * H);
        check_int(HERE, film->dry.items[day].to, day * D + 24 * H);
    }
    check_true(HERE, site_spell(&film->wet, 62 * D, 63 * D) != NULL, "in the last night of them");
    arena_free(arena);
}

struct drying_row {
    struct row row;
    enum finish_drying by;
    bool want;
};

/* Only what hardens by water or reaction is harmed by the air while it dries. */
static const struct drying_row dryings[] = {
    {ROW("reaction"), DRIES_BY_REACTION, true},    {ROW("water"), DRIES_BY_WATER, true},
    {ROW("oxidation"), DRIES_BY_OXIDATION, false}, {ROW("solvent"), DRIES_BY_SOLVENT, false},
    {ROW("moisture"), DRIES_BY_MOISTURE, false},   {ROW("nothing"), DRIES_BY_NOTHING, false},
};

static void suits_until_handle(void **state)
{
    const struct drying_row *r = *state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    work.panel.finish.dries_by = r->by;
    breathe(&work, COLD_NIGHT, 3);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct film *film = site_of(arena, &work)->rows[0].film;
    check_int(&r->row, film->until_handle, r->want);
    check_int(&r->row, film->dry.count > 0, r->want);
    check_true(&r->row, film->wet.count > 0, "all are harmed while they are laid");
    arena_free(arena);
}

static void the_spell_that_meets(void **state)
{
    (void)state;
    static const struct spell items[] = {{10, 20}, {30, 40}, {50, 60}};
    static const struct {
        int32_t from, to;
        int want;
    } rows[] = {{0, 10, -1}, {0, 11, 0},   {0, 100, 0}, {19, 20, 0}, {20, 30, -1}, {20, 31, 1},
                {39, 40, 1}, {40, 50, -1}, {40, 51, 2}, {59, 90, 2}, {60, 90, -1}};
    const struct spells spells = {items, 3}, none = {NULL, 0};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct spell *spell = site_spell(&spells, rows[i].from, rows[i].to);
        check_int(HERE, spell ? (intmax_t)(spell - items) : -1, rows[i].want);
    }
    check_true(HERE, !site_spell(&none, 0, 100), "none at all");
}

/* A film takes two hours until it can be handled, and rests from 20:00 to midnight. */
static void cold_evenings(struct hand_work *work)
{
    hand_work(work);
    breathe(work, COLD_EVENING, 2);
    panel_set_state(&work->panel, STATE_HANDLE, 120);
}

/* Of a film that needs 2 h, laid by 19:00: one hour by 20:00, then it rests in the cold until midnight, and
 * is there at 01:00. A window of 2 h does not rest: the other hour runs out by midnight, four times slower.
 */
static void films_rest_in_the_cold(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    cold_evenings(&work);
    panel_set_window(&work.panel, 60, 120);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site_state(site, 0, 10 * H, STATE_HANDLE), 12 * H);
    check_int(HERE, site_state(site, 0, 19 * H, STATE_HANDLE), D + H);
    check_int(HERE, site_state(site, 0, 6 * D + 19 * H, STATE_HANDLE),
              7 * D + H); /* beyond what is planned */
    check_int(HERE, site_window(site, 0, 10 * H), 12 * H);
    check_int(HERE, site_window(site, 0, 19 * H), D);
    panel_set_window(&work.panel, 60, SPAN_NEVER);
    check_int(HERE, site_window(site, 0, 19 * H), SITE_NEVER);
    arena_free(arena);
}

/* Asked again, or after another that is kept in the same place, a moment is what it was, and each state has its own. */
static void states_are_told_again(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    cold_evenings(&work);
    panel_set_state(&work.panel, STATE_RECOAT, 180);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct site *site = site_of(arena, &work);
    const int32_t late = 10 * H + STATES_RECALLED; /* 14:16 */
    for (int time = 0; time < 2; time++) {
        check_int(HERE, site_state(site, 0, 10 * H, STATE_HANDLE), 12 * H);
        check_int(HERE, site_state(site, 0, late, STATE_HANDLE), 16 * H + 20);
        check_int(HERE, site_state(site, 0, 10 * H, STATE_RECOAT), 13 * H);
    }
    check_int(HERE, site_state(site, 0, 10 * H + 1, STATE_HANDLE), 12 * H + 5);
    arena_free(arena);
}

/* A film in air that is always too cold is never there. */
static void never_there(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    breathe(&work, &COLD_EVENING[1], 1);
    panel_set_state(&work.panel, STATE_HANDLE, 120);
    hand_add(&work, 0, DO_APPLY, 60);
    panel_set_state(&work.panel, STATE_RECOAT, 600);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site_state(site, 0, 10 * H, STATE_HANDLE), SITE_NEVER);
    check_int(HERE, site_fastest(site, 0, STATE_RECOAT), SITE_NEVER);
    arena_free(arena);
}

/* After a coat 09:00-10:00 that may be coated again after 3 h and until 5 h, and is dust-free after 1. */
static void what_links_ask(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_window(&work.panel, 180, 300);
    panel_set_state(&work.panel, STATE_DUST_FREE, 60);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct site *site = site_of(arena, &work);
    static const struct {
        struct link link;
        int32_t want;
        bool limit;
    } rows[] = {{{.kind = LINK_END, .span_min = 25}, 10 * H + 25, false},
                {{.kind = LINK_STATE, .state = STATE_RECOAT}, 13 * H, false},
                {{.kind = LINK_STATE, .state = STATE_DUST_FREE}, 11 * H, false},
                {{.kind = LINK_WINDOW}, 15 * H, true},
                {{.kind = LINK_POLISH, .span_min = 20}, 10 * H + 20, true},
                {{.kind = LINK_DAY}, D, false}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        check_int(HERE, site_link(site, &rows[i].link, 9 * H, 10 * H), rows[i].want);
        check_int(HERE, site_link_is_limit(&rows[i].link), rows[i].limit);
    }
    const struct link day = {.kind = LINK_DAY};
    check_int(HERE, site_link(site, &day, 0, H), D); /* midnight is of the day that begins */
    check_int(HERE, site_link(site, &day, D - 5, D + 5), D);
    const struct finish_line end = {.span_min = 45},
                             there = {.is_state = true, .state = STATE_RECOAT, .span_min = 45};
    check_int(HERE, site_line(site, &end, 10 * H), 10 * H + 45);
    check_int(HERE, site_line(site, &there, 10 * H), 13 * H);
    arena_free(arena);
}

/* The warmest air, 33 C, is twice as fast: 2 h take one, less the minute that the clock's second of tolerance
 * may save. */
static void the_fastest_drying(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    breathe(&work, WARM, 3);
    panel_set_state(&work.panel, STATE_RECOAT, 120);
    panel_set_state(&work.panel, STATE_CURED, SPAN_NEVER);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct site *site = site_of(arena, &work);
    check_int(HERE, site_fastest(site, 1, STATE_RECOAT), 59);
    check_true(HERE,
               site_fastest(site, 1, STATE_RECOAT) <= site_state(site, 1, 12 * H, STATE_RECOAT) - 12 * H,
               "no film is faster");
    check_int(HERE, site_fastest(site, 1, STATE_DUST_FREE), 0);
    check_int(HERE, site_fastest(site, 1, STATE_CURED), SITE_NEVER);
    const struct link recoat = {.from = 1, .kind = LINK_STATE, .state = STATE_RECOAT},
                      end = {.kind = LINK_END, .span_min = 25}, window = {.kind = LINK_WINDOW},
                      polish = {.kind = LINK_POLISH, .span_min = 20};
    check_int(HERE, site_link_least(site, &recoat), 59);
    check_int(HERE, site_link_least(site, &end), 25);
    check_int(HERE, site_link_least(site, &window), 0);
    check_int(HERE, site_link_least(site, &polish), 0);
    arena_free(arena);
}

/* Hours of one person or of two on each day; the shortest time between anybody's work on one day and on
 * another. */
struct night_row {
    struct row row;
    int first[3], other[3]; /* from, to, on how many days of the week; 0: there is no other */
    int32_t want;
};

static const struct night_row nights[] = {
    {ROW("17:00 to 08:00"), {8, 17, 7}, {0}, 15 * H},
    {ROW("another comes sooner"), {8, 17, 7}, {6, 15, 7}, 13 * H},
    {ROW("another goes later"), {6, 15, 7}, {8, 17, 7}, 13 * H},
    {ROW("one day alone"), {8, 17, 1}, {0}, D},
    {ROW("until midnight"), {16, 24, 7}, {0}, 16 * H},
    {ROW("another begins at midnight"), {16, 24, 7}, {0, 8, 7}, 0},
    {ROW("beyond midnight"), {0, 24, 7}, {0}, 0},
    {ROW("another later on the day"), {8, 12, 7}, {14, 18, 7}, 14 * H},
};

static void night_is(void **state)
{
    const struct night_row *r = *state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    struct person people[2];
    struct stretch stretches[2];
    hand_work(&work);
    hand_add(&work, 0, DO_SAND, 60);
    for (int p = 0; p < 2; p++) {
        const int *hours = p ? r->other : r->first;
        people[p] = (struct person){.does = SKILLS_ALL};
        stretches[p] = (struct stretch){hours[0] * H, hours[1] * H};
        for (int day = 0; day < hours[2]; day++)
            people[p].hours[day] = (struct shop_day){&stretches[p], 1};
    }
    work.panel.job.shop.crew = people;
    work.panel.job.shop.people = r->other[1] > 0 ? 2 : 1;
    check_int(&r->row, site_of(arena, &work)->night, r->want);
    arena_free(arena);
}

/* On a later day: a night of 15 h lies between, unless the cloth may lie so long, when one batch may hold
 * both. */
static void a_day_between(void **state)
{
    (void)state;
    static const int32_t rests[] = {15 * H - 1, 15 * H, INT32_MAX}, want[] = {15 * H, 0, 15 * H};
    for (int i = 0; i < 3; i++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        work.panel.job.shop.rest_min[TOOL_CLOTH] = rests[i];
        hand_add(&work, 0, DO_APPLY, 60);
        const struct link day = {.kind = LINK_DAY};
        check_int(HERE, site_link_least(site_of(arena, &work), &day), want[i]);
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(airs, air_suits), CHECK_TEST(spells_of_each_day),
                     CHECK_ROWS(dryings, suits_until_handle), CHECK_TEST(the_spell_that_meets),
                     CHECK_TEST(films_rest_in_the_cold), CHECK_TEST(states_are_told_again),
                     CHECK_TEST(never_there), CHECK_TEST(what_links_ask), CHECK_TEST(the_fastest_drying),
                     CHECK_ROWS(nights, night_is), CHECK_TEST(a_day_between));
}
