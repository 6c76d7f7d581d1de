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
    const struct timetable *timetable = panel_dated(desk->arena, &desk->panel);
    struct alternatives all = {.arena = desk->arena,
                               .job = &desk->panel.job,
                               .timetable = timetable,
                               .operations = timetable->operations,
                               .items = ARENA_ARRAY(desk->arena, ALTERNATIVES_MOST, struct alternative)};
    alternatives_add_pieces(&all);
    for (size_t i = 0; i < all.count; i++)
        if (all.items[i].change.kind == ALTERNATIVE_LAID)
            got = arena_textf(desk->arena, "%s%s", got, words[all.items[i].change.position]);
    check_text(&r->row, got, r->want);
    arena_free(desk->arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(positions, is_tried));
}
