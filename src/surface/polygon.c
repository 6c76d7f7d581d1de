#include "surface/polygon.h"

#include "base/arena.h"
#include "surface/sum.h"

#include <float.h>
#include <math.h>

#define PI 3.14159265358979323846

size_t polygon_corners(const struct point *points, size_t count)
{
    bool closed = count > 1 && points[0].x == points[count - 1].x && points[0].y == points[count - 1].y;
    return closed ? count - 1 : count;
}

static struct point minus(struct point a, struct point b)
{
    return (struct point){a.x - b.x, a.y - b.y};
}

/* The side after the corner i. */
static struct point side_of(const struct point *points, size_t count, size_t i)
{
    return minus(points[(i + 1) % count], points[i]);
}

/* In -pi..pi, positive to the left. */
static double turn_at(const struct point *points, size_t count, size_t i)
{
    struct point in = side_of(points, count, (i + count - 1) % count), out = side_of(points, count, i);
    return atan2(in.x * out.y - in.y * out.x, in.x * out.x + in.y * out.y);
}

/* 1: c lies left of a-b, -1: right, 0: on the line but for rounding errors. */
static int side_of_line(struct point a, struct point b, struct point c)
{
    struct point ab = minus(b, a), ac = minus(c, a);
    double left = ab.x * ac.y, right = ab.y * ac.x;
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

/* Neighbours share a corner; that they do not fold back is checked by the turn. */
static struct polygon_check crossing(const struct point *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 2; k < count; k++)
            if (!(i == 0 && k == count - 1) && sides_meet(points, count, i, k))
                return (struct polygon_check){POLYGON_CROSS, i + 1, k + 1};
    return (struct polygon_check){POLYGON_GOOD, 0, 0};
}

struct polygon_check polygon_check(const struct point *points, size_t count)
{
    count = polygon_corners(points, count);
    if (count < 3)
        return (struct polygon_check){POLYGON_FEW, count, 0};
    if (count > POLYGON_MOST)
        return (struct polygon_check){POLYGON_MANY, count, 0};
    for (size_t i = 0; i < count; i++) {
        struct point side = side_of(points, count, i);
        if (side.x == 0 && side.y == 0)
            return (struct polygon_check){POLYGON_SAME, i + 1, 0};
    }
    for (size_t i = 0; i < count; i++)
        if (fabs(turn_at(points, count, i)) > PI - 1e-12)
            return (struct polygon_check){POLYGON_SPIKE, i + 1, 0};
    return crossing(points, count);
}

static void add_product(struct sum *sum, double a, double b)
{
    double product = a * b;
    sum_add(sum, product);
    sum_add(sum, fma(a, b, -product));
}

double polygon_signed_area(const struct point *points, size_t count)
{
    struct sum twice = {0};
    count = polygon_corners(points, count);
    for (size_t i = 2; i < count; i++) {
        struct point a = minus(points[i - 1], points[0]), b = minus(points[i], points[0]);
        add_product(&twice, a.x, b.y);
        add_product(&twice, -a.y, b.x);
    }
    return sum_value(&twice) / 2;
}

bool polygon_convex(const struct point *points, size_t count)
{
    double direction = polygon_signed_area(points, count) < 0 ? -1 : 1;
    count = polygon_corners(points, count);
    for (size_t i = 0; i < count; i++)
        if (direction * turn_at(points, count, i) < -1e-9)
            return false;
    return true;
}

struct outline polygon_outline(struct arena *arena, const struct point *points, size_t count)
{
    count = polygon_corners(points, count);
    double area = polygon_signed_area(points, count), direction = area < 0 ? -1 : 1;
    double *side = ARENA_ARRAY(arena, count, double), *turn = ARENA_ARRAY(arena, count, double);
    for (size_t i = 0; i < count; i++) {
        /* Backwards where the corners run clockwise, so that the turns are those of walking the other way. */
        size_t k = direction > 0 ? i : count - 1 - i;
        struct point s = side_of(points, count, k);
        side[i] = hypot(s.x, s.y);
        turn[i] = direction * turn_at(points, count, direction > 0 ? k : (k + 1) % count);
    }
    bool convex = polygon_convex(points, count);
    return convex ? outline_convex(fabs(area), count, side, turn)
                  : outline_other(fabs(area), count, side, turn);
}
