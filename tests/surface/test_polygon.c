#include "check.h"
#include "shape_rows.h"

#include "base/arena.h"
#include "surface/polygon.h"

#include <float.h>
#include <math.h>

struct fault_row {
    struct row row;
    struct point points[8];
    size_t count;
    enum polygon_fault fault;
    size_t first, second;
};

static const struct fault_row faults[] = {
    {ROW("square"), {{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 4, POLYGON_GOOD, 0, 0},
    {ROW("square, clockwise"), {{0, 0}, {0, 1}, {1, 1}, {1, 0}}, 4, POLYGON_GOOD, 0, 0},
    {ROW("square, first corner again"), {{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}, 5, POLYGON_GOOD, 0, 0},
    {ROW("square, corners along its sides"),
     {{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 1}},
     6,
     POLYGON_GOOD,
     0,
     0},
    {ROW("bow tie"), {{0, 0}, {1, 1}, {1, 0}, {0, 1}}, 4, POLYGON_CROSS, 1, 3},
    {ROW("pentagram"), {{0, 3}, {2, -3}, {-3, 1}, {3, 1}, {-2, -3}}, 5, POLYGON_CROSS, 2, 4},
    {ROW("a corner on another side"), {{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}, 5, POLYGON_CROSS, 1, 4},
    {ROW("a spike that touches a side from below"),
     {{-5, 2}, {5, 2}, {5, 4}, {-6, 4}, {-6, -1}, {0.5, -1}, {2, 2}, {0, 0}},
     8,
     POLYGON_CROSS,
     1,
     7},
    {ROW("two corners in one place"),
     {{0, 0}, {2, 2}, {4, 0}, {4, 4}, {2, 2}, {0, 4}},
     6,
     POLYGON_CROSS,
     1,
     5},
    {ROW("a slit"), {{0, 0}, {4, 0}, {4, 2}, {2, 2}, {4, 2}, {4, 4}, {0, 4}}, 7, POLYGON_SPIKE, 4, 0},
    {ROW("a narrow notch is fine"),
     {{0, 0}, {4, 0}, {4, 2}, {2, 2}, {4, 2.001}, {4, 4}, {0, 4}},
     7,
     POLYGON_GOOD,
     0,
     0},
    {ROW("side without length"), {{0, 0}, {1, 0}, {1, 0}, {0, 1}}, 4, POLYGON_SAME, 2, 0},
    {ROW("all on a line"), {{0, 0}, {1, 1}, {2, 2}}, 3, POLYGON_SPIKE, 1, 0},
    {ROW("two corners"), {{0, 0}, {1, 1}}, 2, POLYGON_FEW, 2, 0},
    {ROW("no corner"), {{0, 0}}, 0, POLYGON_FEW, 0, 0},
};

static struct polygon_check check_of(const struct point *points, size_t count)
{
    struct arena *arena = arena_make(0);
    struct polygon_check check = polygon_check(arena, points, count);
    arena_free(arena);
    return check;
}

static void fault_is(void **state)
{
    const struct fault_row *r = *state;
    struct polygon_check got = check_of(r->points, r->count);
    check_int(&r->row, got.fault, r->fault);
    check_int(&r->row, (intmax_t)got.first, (intmax_t)r->first);
    check_int(&r->row, (intmax_t)got.second, (intmax_t)r->second);
}

static void too_many_corners(void **state)
{
    (void)state;
    static struct point points[POLYGON_MOST + 1];
    for (int i = 0; i <= POLYGON_MOST; i++)
        points[i] =
            (struct point){cos(2 * PI * i / (POLYGON_MOST + 1)), sin(2 * PI * i / (POLYGON_MOST + 1))};
    check_int(HERE, check_of(points, POLYGON_MOST + 1).fault, POLYGON_MANY);
}

/* A corner on another side is found however the outline is turned, where its place is rounded. */
static void touching_is_found_at_any_angle(void **state)
{
    (void)state;
    uint64_t seed = 8;
    for (int round = 0; round < 500; round++) {
        double angle = 2 * PI * check_random_unit(&seed), c = cos(angle), s = sin(angle);
        double along = 1 + 2 * check_random_unit(&seed);
        const struct point flat[] = {{0, 0}, {4, 0}, {4, 4}, {along, 0}, {0, 4}};
        struct point turned[5];
        for (int i = 0; i < 5; i++)
            turned[i] = (struct point){c * flat[i].x - s * flat[i].y, s * flat[i].x + c * flat[i].y};
        check_int(HERE, check_of(turned, 5).fault, POLYGON_CROSS);
    }
}

/* Between parallel sides everything is used up at half their distance, at the same time but for rounding errors. */
static void parallel_sides_end_in_a_ridge(void **state)
{
    (void)state;
    uint64_t seed = 6;
    for (int round = 0; round < 500; round++) {
        double angle = 2 * PI * check_random_unit(&seed), c = cos(angle), s = sin(angle);
        double lean = 2 * check_random_unit(&seed) - 1, other = 2 * check_random_unit(&seed) - 1;
        const struct point flat[] = {{0, 0}, {6, 0}, {6 + lean, 1}, {other, 1}};
        struct point turned[4];
        for (int i = 0; i < 4; i++)
            turned[i] = (struct point){c * flat[i].x - s * flat[i].y, s * flat[i].x + c * flat[i].y};
        struct arena *arena = arena_make(0);
        struct outline outline = polygon_outline(arena, turned, 4);
        double area = outline.area_m2;
        struct strip strip = outline_work(&outline, EDGE_CHAMFER, 0.8);
        check_double(HERE, strip.depth_m, 0.5, 1e-12);
        check_double(HERE, strip.face_m2, 0, 0);
        check_double(HERE, strip.strip_m2, ROOT2 * area, 1e-12);
        arena_free(arena);
    }
}

/* With ever more corners the formulas of regular polygons become those of the circle. */
static void regular_polygons_become_circles(void **state)
{
    (void)state;
    struct outline circle = outline_circle(1 / PI, 0), regular = outline_regular(100000, 1e-5);
    check_double(HERE, regular.area_m2, circle.area_m2, 1e-9);
    check_double(HERE, regular.perimeter_m, circle.perimeter_m, 1e-14);
    check_double(HERE, regular.bend, circle.bend, 1e-8);
    check_double(HERE, regular.end_m, circle.end_m, 1e-9);
    struct strip one = outline_work(&circle, EDGE_ROUNDOVER, 0.1),
                 other = outline_work(&regular, EDGE_ROUNDOVER, 0.1);
    check_double(HERE, other.strip_m2, one.strip_m2, 1e-9);
    check_double(HERE, other.face_m2, one.face_m2, 1e-9);
}

/* A small outline far from the origin keeps its digits: the plain shoelace would lose ten. */
static void far_from_the_origin(void **state)
{
    (void)state;
    double far = 1048576, s = 1.0 / 1024;
    struct point points[] = {{far, far}, {far + s, far}, {far + s, far + 3 * s}, {far, far + 3 * s}};
    check_double(HERE, polygon_signed_area(points, 4) / (3 * s * s), 1, 1e-15);
}

/* A convex outline: corners at growing angles on an ellipse. */
static size_t some_convex(struct point *points, uint64_t *seed)
{
    size_t count = (size_t)check_random_int(seed, 3, 12);
    double step[12], whole = 0, angle = 0, wide = 0.2 + check_random_unit(seed);
    for (size_t i = 0; i < count; i++)
        whole += step[i] = 0.15 + check_random_unit(seed);
    for (size_t i = 0; i < count; i++) {
        points[i] = (struct point){wide * cos(angle), sin(angle)};
        angle += 2 * PI * step[i] / whole;
    }
    return count;
}

struct clipped {
    double area, perimeter;
};

/* The inset outline by cutting with the half plane of every side in turn (Sutherland and Hodgman, 1974). */
static struct clipped clip(const struct point *points, size_t count, double depth)
{
    struct point in[64], out[64];
    size_t n = count;
    for (size_t i = 0; i < count; i++)
        in[i] = points[i];
    for (size_t side = 0; side < count; side++) {
        struct point a = points[side], b = points[(side + 1) % count];
        double length = hypot(b.x - a.x, b.y - a.y), nx = -(b.y - a.y) / length, ny = (b.x - a.x) / length;
        size_t kept = 0;
        for (size_t i = 0; i < n; i++) {
            struct point p = in[i], q = in[(i + 1) % n];
            double dp = (p.x - a.x) * nx + (p.y - a.y) * ny - depth,
                   dq = (q.x - a.x) * nx + (q.y - a.y) * ny - depth;
            if (dp >= 0)
                out[kept++] = p;
            if ((dp < 0) != (dq < 0))
                out[kept++] =
                    (struct point){p.x + (q.x - p.x) * dp / (dp - dq), p.y + (q.y - p.y) * dp / (dp - dq)};
        }
        n = kept;
        for (size_t i = 0; i < n; i++)
            in[i] = out[i];
    }
    struct clipped c = {0, 0};
    for (size_t i = 0; i < n; i++) {
        struct point p = in[i], q = in[(i + 1) % n];
        c.area += (p.x * q.y - q.x * p.y) / 2;
        c.perimeter += hypot(q.x - p.x, q.y - p.y);
    }
    return c;
}

/* The quarter round summed over its arc, by the midpoint rule. */
static double rounded(const struct point *points, size_t count, double radius)
{
    enum { PIECES = 2000 };
    double strip = 0, piece = PI / 2 / PIECES;
    for (int i = 0; i < PIECES; i++)
        strip += clip(points, count, radius * (1 - cos((i + 0.5) * piece))).perimeter * radius * piece;
    return strip;
}

/* Chamfers of convex outlines are their inset polygon, also beyond the depth at which sides are used up. */
static void chamfers_are_exact(void **state)
{
    (void)state;
    uint64_t seed = 3;
    int beyond = 0;
    for (int round = 0; round < 400; round++) {
        struct point points[12];
        size_t count = some_convex(points, &seed);
        double depth = 0.5 * check_random_unit(&seed);
        struct arena *arena = arena_make(0);
        struct outline outline = polygon_outline(arena, points, count);
        assert_true(outline.convex);
        struct clipped want = clip(points, count, depth);
        double area = outline.area_m2;
        struct strip got = outline_work(&outline, EDGE_CHAMFER, depth);
        beyond += got.depth_m == depth && outline.count < count;
        check_true(HERE, (got.depth_m < depth) == (want.area <= 0), "used up where nothing is left");
        check_double(HERE, got.face_m2, want.area, 1e-12);
        check_double(HERE, got.strip_m2, sqrt(2) * (area - want.area), 1e-12);
        arena_free(arena);
    }
    check_true(HERE, beyond > 50, "sides were used up on the way");
}

static void roundovers_are_exact(void **state)
{
    (void)state;
    uint64_t seed = 4;
    for (int round = 0; round < 40; round++) {
        struct point points[12];
        size_t count = some_convex(points, &seed);
        double depth = 0.3 * check_random_unit(&seed) + 0.01;
        struct clipped want = clip(points, count, depth);
        struct arena *arena = arena_make(0);
        struct outline outline = polygon_outline(arena, points, count);
        struct strip got = outline_work(&outline, EDGE_ROUNDOVER, depth);
        if (want.area > 0) {
            check_double(HERE, got.face_m2, want.area, 1e-12);
            check_double(HERE, got.strip_m2, rounded(points, count, depth), 1e-6);
        }
        arena_free(arena);
    }
}

/* Walking the other way round, or starting elsewhere, changes nothing. */
static void direction_does_not_matter(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct point back[6];
    for (int i = 0; i < 6; i++)
        back[i] = l_shape[(9 - i) % 6];
    struct outline one = polygon_outline(arena, l_shape, 6), other = polygon_outline(arena, back, 6);
    check_double(HERE, polygon_signed_area(back, 6), -polygon_signed_area(l_shape, 6), 1e-16);
    check_true(HERE, !one.convex && !other.convex, "not convex");
    check_double(HERE, other.area_m2, one.area_m2, 1e-16);
    check_double(HERE, other.perimeter_m, one.perimeter_m, 1e-15);
    check_double(HERE, other.bend, one.bend, 1e-14);
    arena_free(arena);
}

/* The check as it stands in no sweep: every side against every other one, in the product's own terms of "on the line". */
static int side_of_line(struct point a, struct point b, struct point c)
{
    double left = (b.x - a.x) * (c.y - a.y), right = (b.y - a.y) * (c.x - a.x);
    double room = 4 * DBL_EPSILON * (fabs(left) + fabs(right));
    return left - right > room ? 1 : left - right < -room ? -1 : 0;
}

static bool ranges_meet(double a, double b, double c, double d)
{
    return fmax(a, b) >= fmin(c, d) && fmax(c, d) >= fmin(a, b);
}

static bool sides_meet(const struct point *points, size_t count, size_t i, size_t k)
{
    struct point a = points[i], b = points[(i + 1) % count], c = points[k], d = points[(k + 1) % count];
    return ranges_meet(a.x, b.x, c.x, d.x) && ranges_meet(a.y, b.y, c.y, d.y) &&
           side_of_line(a, b, c) * side_of_line(a, b, d) <= 0 &&
           side_of_line(c, d, a) * side_of_line(c, d, b) <= 0;
}

static bool any_sides_meet(const struct point *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 2; k < count; k++)
            if (!(i == 0 && k == count - 1) && sides_meet(points, count, i, k))
                return true;
    return false;
}

enum { DRAWN_MOST = 40 };

static struct point anywhere(uint64_t *seed)
{
    double x = check_random_unit(seed), y = check_random_unit(seed);
    return (struct point){x, y};
}

static struct point on_grid(int grid, uint64_t *seed)
{
    int x = check_random_int(seed, 0, grid), y = check_random_int(seed, 0, grid);
    return (struct point){x, y};
}

/* Corners on a small grid touch in every way that there is; around a centre they make stars that do not cross; anywhere
 * they cross nearly always; a comb has many sides above each other. Some are turned, so that their places are rounded. */
static size_t some_outline(struct point *points, uint64_t *seed)
{
    size_t count = (size_t)check_random_int(seed, 3, DRAWN_MOST);
    int kind = (int)check_random_int(seed, 0, 4), grid = (int)check_random_int(seed, 2, 8);
    double turn = check_random_int(seed, 0, 1) ? 2 * PI * check_random_unit(seed) : 0;
    for (size_t i = 0; i < count; i++) {
        double angle = 2 * PI * (double)i / (double)count, far = 0.1 + check_random_unit(seed);
        struct point p = {far * cos(angle), far * sin(angle)};
        if (kind == 1 || (kind == 4 && check_random_int(seed, 0, 9) == 0))
            p = anywhere(seed);
        else if (kind == 2)
            p = on_grid(grid, seed);
        else if (kind == 3)
            p = (struct point){(double)(i % 2), i + 1 < count ? (double)i : -far};
        points[i] = (struct point){cos(turn) * p.x - sin(turn) * p.y, sin(turn) * p.x + cos(turn) * p.y};
    }
    return count;
}

static void the_sweep_finds_what_is_there(void **state)
{
    (void)state;
    uint64_t seed = 20;
    int good = 0, crossed = 0;
    for (int round = 0; round < 20000; round++) {
        struct point points[DRAWN_MOST];
        size_t count = some_outline(points, &seed);
        struct polygon_check check = check_of(points, count);
        if (check.fault != POLYGON_GOOD && check.fault != POLYGON_CROSS)
            continue;
        bool meets = any_sides_meet(points, polygon_corners(points, count));
        check_true(HERE, (check.fault == POLYGON_CROSS) == meets, meets ? "found to meet" : "found sound");
        if (meets)
            check_true(HERE,
                       sides_meet(points, polygon_corners(points, count), check.first - 1, check.second - 1),
                       "the sides that are named meet");
        good += !meets;
        crossed += meets;
    }
    check_true(HERE, good > 3000 && crossed > 3000, "of both kinds many");
}

/* A star of as many corners as an outline may have, sound and with two of them exchanged. */
static void a_large_star(void **state)
{
    (void)state;
    static struct point points[POLYGON_MOST];
    uint64_t seed = 3;
    for (int i = 0; i < POLYGON_MOST; i++) {
        double angle = 2 * PI * i / POLYGON_MOST, far = 0.5 + check_random_unit(&seed);
        points[i] = (struct point){far * cos(angle), far * sin(angle)};
    }
    check_int(HERE, check_of(points, POLYGON_MOST).fault, POLYGON_GOOD);
    struct point kept = points[4000];
    points[4000] = points[4002];
    points[4002] = kept;
    check_int(HERE, check_of(points, POLYGON_MOST).fault, POLYGON_CROSS);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(faults, fault_is), CHECK_TEST(too_many_corners),
                     CHECK_TEST(far_from_the_origin), CHECK_TEST(the_sweep_finds_what_is_there),
                     CHECK_TEST(a_large_star), CHECK_TEST(regular_polygons_become_circles),
                     CHECK_TEST(touching_is_found_at_any_angle), CHECK_TEST(parallel_sides_end_in_a_ridge),
                     CHECK_TEST(chamfers_are_exact), CHECK_TEST(roundovers_are_exact),
                     CHECK_TEST(direction_does_not_matter));
}
