#include "check.h"
#include "shape_rows.h"

#include "base/arena.h"
#include "base/err.h"
#include "surface/polygon.h"
#include "surface/takeoff.h"
#include "surface/shape.h"

#include <math.h>

__extension__ typedef unsigned __int128 wide;

/* Heron over the integers: 16 area^2 = (a+b+c)(b+c-a)(c+a-b)(a+b-c) is exact below 2^124 for sides below 2^30, and
 * only the root is rounded. */
static double exact_area(int64_t a, int64_t b, int64_t c)
{
    wide square = (wide)(a + b + c) * (wide)(b + c - a) * (wide)(c + a - b) * (wide)(a + b - c);
    return (double)(sqrtl((long double)square) / 4);
}

/* Needles: two long sides, and a third that exceeds their difference by as little as 1 in 2^29. */
static void needles_agree_with_exact_arithmetic(void **state)
{
    (void)state;
    uint64_t seed = 29;
    for (int i = 0; i < 2000; i++) {
        int64_t a = check_random_int(&seed, 1 << 28, (1 << 29) - 1),
                b = a - check_random_int(&seed, 0, 1 << (i % 28));
        int64_t c = a - b + check_random_int(&seed, 1, 1 << (i % 7));
        double want = exact_area(a, b, c), unit = ldexp(1, -30);
        check_double(HERE, triangle_area((double)a, (double)b, (double)c) / want, 1, 1e-14);
        check_double(HERE, triangle_area((double)c, (double)a, (double)b) / want, 1, 1e-14);
        check_double(
            HERE, triangle_area((double)b * unit, (double)c * unit, (double)a * unit) / (want * unit * unit),
            1, 1e-14);
    }
}

struct close_row {
    struct row row;
    double side[3], want;
};

static const struct close_row closing[] = {
    {ROW("right angle"), {3, 4, 5}, 6},
    {ROW("equal sides"), {2, 2, 2}, 1.7320508075688772},
    {ROW("5 5 6"), {5, 6, 5}, 12},
    {ROW("one side too long"), {1, 2, 3.5}, 0},
    {ROW("flat"), {1, 2, 3}, 0},
    {ROW("flat but for rounding"), {0.1, 0.2, 0.30000000000000004}, 0},
    {ROW("no side"), {0, 0, 0}, 0},
    {ROW("a side of no length"), {1, 1, 0}, 0},
    {ROW("a needle as thin as a rounding"), {0x1p40, 0x1p40, 0x1p-10}, 0},
    {ROW("one twice as thick"), {0x1p40, 0x1p40, 0x1p-9}, 0x1p30},
};

static void closes(void **state)
{
    const struct close_row *r = *state;
    check_double(&r->row, triangle_area(r->side[0], r->side[1], r->side[2]), r->want, 1e-15);
}

/* By its sides and by its corners. Sides that were rounded move the square of the area by as much, so that a needle
 * itself may lose digits: the squares are compared. */
static void heron_agrees_with_coordinates(void **state)
{
    (void)state;
    uint64_t seed = 11;
    for (int i = 0; i < 1000; i++) {
        struct point p[3];
        double side[3];
        for (int k = 0; k < 3; k++) {
            double x = check_random_unit(&seed), y = check_random_unit(&seed);
            p[k] = (struct point){x, y};
        }
        for (int k = 0; k < 3; k++)
            side[k] = hypot(p[(k + 1) % 3].x - p[k].x, p[(k + 1) % 3].y - p[k].y);
        double got = triangle_area(side[0], side[1], side[2]), want = polygon_signed_area(p, 3);
        check_double(HERE, got * got, want * want, 1e-15);
    }
}

/* With the inscribed radius r a bevel t deep leaves the share (1 - t/r)^2 of the face. */
static void full_bevel_has_its_closed_form(void **state)
{
    (void)state;
    uint64_t seed = 12;
    for (int i = 0; i < 500; i++) {
        double a = 0.2 + check_random_unit(&seed), b = 0.2 + check_random_unit(&seed);
        double c = fabs(a - b) + (a + b - fabs(a - b)) * (0.05 + 0.9 * check_random_unit(&seed));
        double area = triangle_area(a, b, c), inscribed = 2 * area / (a + b + c);
        double t = inscribed * check_random_unit(&seed), share = (1 - t / inscribed) * (1 - t / inscribed);
        struct part part = {.shape = SHAPE_TRIANGLE, .size_m = {ABC(a, b, c, t), [DIM_CHAMFER] = t}};
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        double got[REGION_COUNT];
        assert_true(part_areas(arena, &list, &part, got, &errors));
        check_double(HERE, got[REGION_FACE], area * share, 1e-15);
        check_double(HERE, got[REGION_EDGES], sqrt(2) * area * (1 - share), 1e-15);
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(needles_agree_with_exact_arithmetic), CHECK_ROWS(closing, closes),
                     CHECK_TEST(heron_agrees_with_coordinates), CHECK_TEST(full_bevel_has_its_closed_form));
}
