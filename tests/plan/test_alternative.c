/* Which other positions of a piece are tried at all: those that can change something, and that people can bring about. */
#include "check.h"
#include "late_desk.h"

#include "base/arena.h"
#include "plan/alternative.h"

#include <string.h>

struct position_row {
    struct row row;
    double shop_rack_m2, rack_m2; /* -1: no limit; not given */
    enum laid laid;
    int lift;
    bool two_sides;
    const char *want;
};

static const struct position_row positions[] = {
    {ROW("one side, room for all"), -1, -1, LAID_FLAT, 1, false, ""},
    {ROW("one side, on a rack"), 2, -1, LAID_FLAT, 1, false, "standing hung "},
    {ROW("one side, its place on the rack given"), 2, 0.5, LAID_FLAT, 1, false, ""},
    {ROW("one side, no place on the rack given"), 2, 0, LAID_FLAT, 1, false, ""},
    {ROW("two carry it"), 2, -1, LAID_FLAT, 2, false, "standing "},
    {ROW("standing already"), 2, -1, LAID_STANDING, 1, false, "hung "},
    {ROW("standing, and two carry it"), 2, -1, LAID_STANDING, 2, false, ""},
    {ROW("hung already"), 2, -1, LAID_HUNG, 1, false, ""},
    {ROW("two sides"), -1, -1, LAID_FLAT, 1, true, "standing hung points "},
    {ROW("two sides, and two carry it"), -1, -1, LAID_FLAT, 2, true, "standing points "},
};

/* None yet. */
static struct alternatives alternatives_of(struct desk *desk, const struct timetable *timetable)
{
    return (struct alternatives){.arena = desk->arena,
                                 .job = &desk->panel.job,
                                 .timetable = timetable,
                                 .operations = timetable->operations,
                                 .items = ARENA_ARRAY(desk->arena, ALTERNATIVES_MOST, struct alternative)};
}

static void is_tried(void **state)
{
    static const char *const words[POSITION_COUNT] = {"standing ", "hung ", "points "};
    const struct position_row *r = *state;
    struct desk *desk = desk_make();
    const char *got = "";
    desk_coat(desk, 0, 1);
    if (r->two_sides)
        panel_two_sides(&desk->panel, 0);
    desk->panel.job.shop.people = 2;
    desk->panel.job.shop.rack_m2 = r->shop_rack_m2;
    desk->panel.pieces[0].rack_m2 = r->rack_m2;
    desk->panel.pieces[0].laid = r->laid;
    desk->panel.pieces[0].lift = r->lift;
    struct alternatives all = alternatives_of(desk, panel_dated(desk->arena, &desk->panel));
    alternatives_add_pieces(&all);
    for (size_t i = 0; i < all.count; i++)
        if (all.items[i].change.kind == ALTERNATIVE_LAID)
            got = arena_textf(desk->arena, "%s%s", got, words[all.items[i].change.position]);
    check_text(&r->row, got, r->want);
    arena_free(desk->arena);
}

static void nothing_changed(struct panel *panel)
{
    (void)panel;
}
static void delivered_before_the_start(struct panel *panel)
{
    panel->job.deliver_min = panel->job.start_min - 1;
}
static void more_coats_than_it_bears(struct panel *panel)
{
    panel->steps[0][0].coats = panel->finish.coats_most + 1;
}

struct sound_row {
    struct row row;
    void (*change)(struct panel *panel);
    size_t more_bearable; /* warnings beside those of the job as it is */
    bool want;
};

static const struct sound_row sound[] = {
    {ROW("as it is"), nothing_changed, 0, true},
    {ROW("a mistake"), delivered_before_the_start, 0, false},
    {ROW("a warning that it had not"), more_coats_than_it_bears, 0, false},
    {ROW("as many warnings as it had"), more_coats_than_it_bears, 1, true},
};

/* There is work for a changed job only where it has no mistake, and is warned of no more than before. */
static void is_worth_planning(void **state)
{
    const struct sound_row *r = *state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 1);
    const struct operations *now = panel_dated(desk->arena, &desk->panel)->operations;
    size_t warnings = alternative_warnings(desk->arena, &desk->panel.job);
    r->change(&desk->panel);
    const struct operations *work =
        alternative_work(desk->arena, now, &desk->panel.job, warnings + r->more_bearable);
    check_int(&r->row, work != NULL, r->want);
    arena_free(desk->arena);
}

struct coats_row {
    struct row row;
    int coats, want;
};

/* Oil takes 2 coats as a rule, what dries faster 3, and at most 4. */
static const struct coats_row coats[] = {
    {ROW("as many as usual"), 2, 3},
    {ROW("fewer by choice"), 1, 1},
    {ROW("more by choice, and too many for the other"), 5, 4},
};

static void another_finish_takes(void **state)
{
    const struct coats_row *r = *state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, r->coats);
    desk_handled_after(desk, 360);
    struct finish quick = desk->panel.finish;
    quick.id = "quick-oil";
    quick.coats_usual = 3;
    quick.coats_most = 4;
    quick.first.after_min[STATE_HANDLE] = quick.later.after_min[STATE_HANDLE] = 60;
    const struct finish *const finishes[] = {&desk->panel.finish, &quick};
    desk->panel.job.finishes = finishes;
    desk->panel.job.finish_count = 2;
    struct alternatives all = alternatives_of(desk, panel_dated(desk->arena, &desk->panel));
    alternatives_add_finishes(&all);
    assert_int_equal(all.count, 1);
    check_int(&r->row, all.items[0].job.schedules[0].steps[0].coats, r->want);
    arena_free(desk->arena);
}

/* A plan that cannot be for its size alone: it would be as large with one more person, or with a day more. */
static void nothing_is_asked_of_what_is_too_large(void **state)
{
    (void)state;
    const struct reason too_many = {.kind = REASON_SIZE}, too_few = {.kind = REASON_PEOPLE};
    struct timetable timetable = {.status = TIMETABLE_IMPOSSIBLE, .why = &too_many, .why_count = 1};
    check_true(HERE, !alternative_wanted(&timetable), "no change helps");
    timetable.why = &too_few;
    check_true(HERE, alternative_wanted(&timetable), "a change may help");
}

/* Two parts of A and two of B, one coat each: one person lays A's, then B's, and both fix the ready moment. Of a plan of which A's coat
 * alone does, only A is tried in more lots. */
static void only_what_fixes_the_ready_moment_is_divided(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    panel_add_piece(&desk->panel);
    for (size_t i = 0; i < 2; i++) {
        desk_coat(desk, i, 1);
        desk->panel.parts[i].qty = 2;
        desk->panel.pieces[i].lots = 1;
    }
    struct timetable timetable = *panel_dated(desk->arena, &desk->panel);
    assert_int_equal(timetable.chain_count, 2);
    for (size_t count = 1; count <= 2; count++) {
        timetable.chain_count = count;
        struct alternatives all = alternatives_of(desk, &timetable);
        alternatives_add_pieces(&all);
        size_t lots = 0;
        for (size_t i = 0; i < all.count; i++)
            lots += all.items[i].change.kind == ALTERNATIVE_LOTS;
        check_int(HERE, (intmax_t)lots, (intmax_t)count);
    }
    arena_free(desk->arena);
}

/* A finish that takes as long as the other in every state is none that dries faster: there is nothing to gain. */
static void what_dries_as_fast_is_not_tried(void **state)
{
    (void)state;
    struct desk *desk = desk_make();
    desk_coat(desk, 0, 2);
    desk_handled_after(desk, 360);
    struct finish same = desk->panel.finish;
    same.id = "same-oil";
    const struct finish *const finishes[] = {&desk->panel.finish, &same};
    desk->panel.job.finishes = finishes;
    desk->panel.job.finish_count = 2;
    struct alternatives all = alternatives_of(desk, panel_dated(desk->arena, &desk->panel));
    alternatives_add_finishes(&all);
    check_int(HERE, (intmax_t)all.count, 0);
    arena_free(desk->arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_ROWS(positions, is_tried), CHECK_ROWS(sound, is_worth_planning),
        CHECK_ROWS(coats, another_finish_takes), CHECK_TEST(nothing_is_asked_of_what_is_too_large),
        CHECK_TEST(only_what_fixes_the_ready_moment_is_divided), CHECK_TEST(what_dries_as_fast_is_not_tried));
}
