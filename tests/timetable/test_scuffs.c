/* Ways over what lies between two steps, and the late scuffs that no plan can do without; in minutes, added
 * up by hand. At the oil's reference air a film takes what its table says, less the minute that the clock's
 * second of tolerance may save. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/site.h"

enum { H = 60, D = 24 * 60 };

static struct site *site_of(struct arena *arena, struct hand_work *work)
{
    return site_make(arena, &work->operations, march(1, 0, 0), 7 * D);
}

struct way_row {
    struct row row;
    int from, to;
    int32_t want;
};

/* 0 sand 30 -> 20 -> 1 coat 60 -> 600 -> 2 coat 50, which also follows 0 after 5; 3 has only a limit; 5
 * follows 4, which may be left out, and 2 after 7; 2 also follows 1 after 3, which is less than 600. */
static const struct way_row ways[] = {
    {ROW("one link"), 0, 1, 20},
    {ROW("the longer of two"), 0, 2, 20 + 60 + 599},
    {ROW("from the middle"), 1, 2, 599},
    {ROW("only a limit"), 2, 3, SITE_NONE},
    {ROW("over a limit"), 0, 3, SITE_NONE},
    {ROW("may be left out"), 2, 4, SITE_NONE},
    {ROW("beside what may be left out"), 2, 5, 7},
    {ROW("all the way"), 0, 5, 20 + 60 + 599 + 50 + 7},
    {ROW("no way"), 3, 5, SITE_NONE},
    {ROW("to itself"), 2, 2, 0},
};

static void way_is(void **state)
{
    const struct way_row *r = *state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_state(&work.panel, STATE_RECOAT, 600);
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 50);
    hand_add(&work, 0, DO_POLISH, 10);
    hand_add(&work, 0, DO_SCUFF, 30)->late_scuff = true;
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 1, 2, LINK_STATE, 0)->state = STATE_RECOAT;
    hand_link(&work, 0, 2, LINK_END, 5);
    hand_link(&work, 0, 1, LINK_END, 20);
    hand_link(&work, 2, 3, LINK_POLISH, 90);
    hand_link(&work, 2, 4, LINK_END, 200);
    hand_link(&work, 4, 5, LINK_END, 0);
    hand_link(&work, 2, 5, LINK_END, 7);
    hand_link(&work, 1, 2, LINK_END, 3);
    int32_t at[HAND_ITEMS];
    for (int i = 0; i < HAND_ITEMS; i++)
        at[i] = SITE_NONE;
    check_int(&r->row, site_way(site_of(arena, &work), r->from, r->to, at), r->want);
    arena_free(arena);
}

struct scuff_row {
    struct row row;
    int32_t window,
        span;        /* of the first coat; from its end to the sanding (30 min) that the next waits for */
    bool cold, want; /* whether the evenings are cold; whether the scuff may be left out */
};

/* The next coat is span + 30 min behind the first at the least. A window of 300 min lasts up to 305 of the
 * clock, which has steps of five; at 3 C it runs four times slower (2 to the power of -20/10), so up to 1205.
 */
static const struct scuff_row scuffs[] = {
    {ROW("just in time"), 300, 275, false, true},
    {ROW("a minute too late"), 300, 276, false, false},
    {ROW("no end"), SPAN_NEVER, 9000, false, true},
    {ROW("just in time in the cold"), 300, 1175, true, true},
    {ROW("too late even so"), 300, 1176, true, false},
};

static void may_be_left_out(void **state)
{
    const struct scuff_row *r = *state;
    static const struct air_spell cold[] = {{0, {23, 0.5}}, {20 * H, {3, 0.5}}};
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_window(&work.panel, 60, r->window);
    if (r->cold)
        work.panel.job.shop.air.daily = (struct air_day){.spells = cold, .spell_count = 2};
    hand_add(&work, 0, DO_SCUFF, 30);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_SCUFF, 30)->late_scuff = true;
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 1, 4, LINK_WINDOW, 0)->unless = 2;
    hand_link(&work, 1, 3, LINK_END, r->span);
    hand_link(&work, 3, 4, LINK_END, 0);
    const struct site *site = site_of(arena, &work);
    check_int(&r->row, site->rows[2].optional, r->want);
    check_true(&r->row, !site->rows[0].optional && !site->rows[3].optional,
               "only a late scuff may be left out");
    arena_free(arena);
}

/* A window that nothing lifts, or that is of a coat named later, says nothing of any scuff; nor does a wait
 * that names one. */
static void windows_of_no_scuff(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_window(&work.panel, 60, 300);
    hand_add(&work, 0, DO_SCUFF, 30)->late_scuff = true;
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 1, 2, LINK_END, 9000);
    hand_link(&work, 1, 2, LINK_WINDOW, 0);
    hand_link(&work, 2, 1, LINK_WINDOW, 0)->unless = 0;
    hand_link(&work, 1, 2, LINK_END, 0)->unless = 0;
    check_true(HERE, site_of(arena, &work)->rows[0].optional, "it may be left out");
    arena_free(arena);
}

/* The scuff is named first of all, and cannot be left out: more than 305 min must pass. */
static void whatever_its_number(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_window(&work.panel, 60, 300);
    hand_add(&work, 0, DO_SCUFF, 30)->late_scuff = true;
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 1, 2, LINK_WINDOW, 0)->unless = 0;
    hand_link(&work, 1, 2, LINK_END, 306);
    check_true(HERE, !site_of(arena, &work)->rows[0].optional, "it must be done");
    arena_free(arena);
}

/* What hardens by moisture has no end of its window where the air holds none. */
static void in_dry_air_the_window_has_no_end(void **state)
{
    (void)state;
    static const struct air_spell dry = {0, {23, 0}};
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_window(&work.panel, 60, 300);
    work.panel.finish.dries_by = DRIES_BY_MOISTURE;
    work.panel.job.shop.air.daily = (struct air_day){.spells = &dry, .spell_count = 1};
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_SCUFF, 30)->late_scuff = true;
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 0, 2, LINK_WINDOW, 0)->unless = 1;
    hand_link(&work, 0, 2, LINK_END, 9000);
    check_true(HERE, site_of(arena, &work)->rows[1].optional, "it may be left out");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(ways, way_is), CHECK_ROWS(scuffs, may_be_left_out),
                     CHECK_TEST(windows_of_no_scuff), CHECK_TEST(whatever_its_number),
                     CHECK_TEST(in_dry_air_the_window_has_no_end));
}
