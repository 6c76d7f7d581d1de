/* The units of a coat, one after the other: what of it is laid, and on how many parts, until the end of each. */
#include "check.h"
#include "sample.h"
#include "sample_surfaces.h"

#include "amount/units.h"
#include "base/arena.h"

static void add_boards(struct sample_surfaces *s, int qty, double area_m2)
{
    size_t part = sample_add_part(s, SHAPE_BOARD, "maple");
    s->parts[part].qty = qty;
    sample_add_surface(s, part, REGION_FACE, area_m2);
}

/* Three boards in one row of the list and one in another, 1 m2 each: a quarter of the coat on each. */
static void each_part_has_its_share(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_surfaces s;
    sample_surfaces(&s, sample_varnish());
    s.step.by = TOOL_BRUSH;
    add_boards(&s, 3, 3);
    add_boards(&s, 1, 1);
    struct units units = units_of_coat(arena, &s.pass, &s.coat, 20);
    assert_int_equal(units.count, 4);
    for (int i = 0; i < 4; i++) {
        check_double(HERE, units.laid[i], 0.25 * (i + 1), 1e-12);
        check_int(HERE, units.parts[i], i + 1);
    }
    arena_free(arena);
}

struct wiped_row {
    struct row row;
    int parts;
    double each_m2;
    int want_units, want_sections;
};

/* By pad at 12 m2/h, wiped at 8 m2/h within 15 min: 2 m2 at once. */
static const struct wiped_row wiped[] = {
    {ROW("two in one section"), 2, 1, 1, 1},
    {ROW("two that are too much for one"), 2, 1.5, 2, 2},
    {ROW("three, two at a time"), 3, 1, 2, 2},
    {ROW("one in two sections"), 1, 4, 1, 2},
};

static void is_wiped_in_sections(void **state)
{
    const struct wiped_row *r = *state;
    struct arena *arena = arena_make(0);
    struct sample_surfaces s;
    struct finish oil = sample_varnish();
    oil.has_wipe_off = true;
    oil.wipe_off = (struct span_range){5, 15};
    oil.at_c = 20;
    sample_surfaces(&s, oil);
    s.step.by = TOOL_PAD;
    add_boards(&s, r->parts, r->parts * r->each_m2);
    struct units units = units_of_coat(arena, &s.pass, &s.coat, 20);
    check_true(&r->row, units.possible, "possible");
    check_int(&r->row, (intmax_t)units.count, r->want_units);
    check_int(&r->row, units.sections, r->want_sections);
    check_int(&r->row, units.parts[units.count - 1], r->parts);
    arena_free(arena);
}

struct span_row {
    struct row row;
    double once_min;
    int32_t each_min;
    int32_t want_seconds, want_longest_s;
};

/* On three parts. */
static const struct span_row spans[] = {
    {ROW("what is done once takes longer"), 10, 2, 16 * 60, 10 * 60},
    {ROW("a part takes longer"), 2, 10, 32 * 60, 10 * 60},
    {ROW("nothing is done once"), 0, 10, 30 * 60, 10 * 60},
};

static void the_longest_is_one_unit(void **state)
{
    const struct span_row *r = *state;
    struct arena *arena = arena_make(0);
    struct units units = units_of_span(arena, r->once_min, r->each_min, 3);
    check_int(&r->row, units.seconds, r->want_seconds);
    check_int(&r->row, units.longest_s, r->want_longest_s);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(each_part_has_its_share), CHECK_ROWS(wiped, is_wiped_in_sections),
                     CHECK_ROWS(spans, the_longest_is_one_unit));
}
