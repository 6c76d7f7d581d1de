#include "surface/polygon.h"

#include "base/arena.h"
#include "surface/sum.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

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

/* The sweep of Shamos and Hoey ("Geometric intersection problems", 17th Symposium on Foundations of Computer Science,
 * 1976): a line moves over the outline from left to right and keeps the sides that it cuts in their order from below. Sides
 * that meet are neighbours in that order before they do, so that only neighbours are compared. The order is a
 * treap (Seidel and Aragon 1996) whose priorities are drawn from the sides' numbers. Points of one x come in the order of
 * their y, as if the line leaned a little. */
enum { NONE = -1 };

struct sweep {
    const struct point *points;
    size_t count;
    int32_t *above, *below, *parent; /* of each side in the treap; NONE: nothing */
    int32_t root;
    size_t first, second; /* the sides that meet, once two were found */
    bool met;
};

/* An end of a side; `begins` of the two that the line reaches first. */
struct sweep_event {
    struct point at;
    int32_t side;
    bool begins;
};

static bool lies_left(struct point a, struct point b)
{
    return a.x < b.x || (a.x == b.x && a.y < b.y);
}

/* Sides begin before others end, so that those which only touch are in the order together. */
static int by_place(const void *a, const void *b)
{
    const struct sweep_event *x = a, *y = b;
    if (lies_left(x->at, y->at) || lies_left(y->at, x->at))
        return lies_left(x->at, y->at) ? -1 : 1;
    if (x->begins != y->begins)
        return x->begins ? -1 : 1;
    return (x->side > y->side) - (x->side < y->side);
}

static struct point end_of(const struct sweep *sweep, int32_t side, bool left)
{
    struct point a = sweep->points[side], b = sweep->points[((size_t)side + 1) % sweep->count];
    return lies_left(a, b) == left ? a : b;
}

static bool neighbours(const struct sweep *sweep, int32_t a, int32_t b)
{
    size_t apart = (size_t)(a > b ? a - b : b - a);
    return apart == 1 || apart == sweep->count - 1;
}

/* Neighbours along the outline share a corner; that they do not fold back is checked by the turn. */
static void hold_together(struct sweep *sweep, int32_t a, int32_t b)
{
    if (a == NONE || b == NONE || sweep->met || neighbours(sweep, a, b))
        return;
    if (!sides_meet(sweep->points, sweep->count, (size_t)a, (size_t)b))
        return;
    sweep->met = true;
    sweep->first = (size_t)(a < b ? a : b);
    sweep->second = (size_t)(a < b ? b : a);
}

/* Whether the side that begins here lies above another one: 1, below: -1. On it: the two meet, unless they are neighbours,
 * which the other end tells apart. */
static int place_beside(struct sweep *sweep, int32_t side, int32_t other)
{
    struct point left = end_of(sweep, other, true), right = end_of(sweep, other, false);
    int place = side_of_line(left, right, end_of(sweep, side, true));
    if (place == 0 && !neighbours(sweep, side, other))
        hold_together(sweep, side, other);
    return place != 0 ? place : side_of_line(left, right, end_of(sweep, side, false));
}

/* Murmur's last step: numbers that follow each other become priorities that do not. */
static uint32_t priority(int32_t side)
{
    uint32_t h = (uint32_t)side + 1;
    h = (h ^ (h >> 16)) * UINT32_C(0x85EBCA6B);
    h = (h ^ (h >> 13)) * UINT32_C(0xC2B2AE35);
    return h ^ (h >> 16);
}

/* Puts `child` where `node` hangs. */
static void replace(struct sweep *sweep, int32_t node, int32_t child)
{
    int32_t parent = sweep->parent[node];
    if (parent == NONE)
        sweep->root = child;
    else if (sweep->above[parent] == node)
        sweep->above[parent] = child;
    else
        sweep->below[parent] = child;
    if (child != NONE)
        sweep->parent[child] = parent;
}

/* Turns `child` up over its parent; the order stays. */
static void turn_up(struct sweep *sweep, int32_t child)
{
    int32_t parent = sweep->parent[child];
    bool is_above = sweep->above[parent] == child;
    int32_t *up = is_above ? sweep->above : sweep->below, *inner = is_above ? sweep->below : sweep->above;
    int32_t moved = inner[child];
    replace(sweep, parent, child);
    inner[child] = parent;
    sweep->parent[parent] = child;
    up[parent] = moved;
    if (moved != NONE)
        sweep->parent[moved] = parent;
}

/* The next side of the order, upwards or downwards; NONE at its end. */
static int32_t next_side(const struct sweep *sweep, int32_t side, bool upwards)
{
    const int32_t *there = upwards ? sweep->above : sweep->below,
                  *back = upwards ? sweep->below : sweep->above;
    if (there[side] != NONE) {
        for (side = there[side]; back[side] != NONE;)
            side = back[side];
        return side;
    }
    while (sweep->parent[side] != NONE && there[sweep->parent[side]] == side)
        side = sweep->parent[side];
    return sweep->parent[side];
}

static void begin_side(struct sweep *sweep, int32_t side)
{
    int32_t at = sweep->root, parent = NONE;
    int place = 0;
    for (; at != NONE && !sweep->met; at = place < 0 ? sweep->below[at] : sweep->above[at]) {
        parent = at;
        place = place_beside(sweep, side, at);
    }
    sweep->above[side] = sweep->below[side] = NONE;
    sweep->parent[side] = parent;
    if (parent == NONE)
        sweep->root = side;
    else
        *(place < 0 ? &sweep->below[parent] : &sweep->above[parent]) = side;
    while (sweep->parent[side] != NONE && priority(sweep->parent[side]) < priority(side))
        turn_up(sweep, side);
    hold_together(sweep, side, next_side(sweep, side, true));
    hold_together(sweep, side, next_side(sweep, side, false));
}

static void end_side(struct sweep *sweep, int32_t side)
{
    hold_together(sweep, next_side(sweep, side, true), next_side(sweep, side, false));
    while (sweep->above[side] != NONE && sweep->below[side] != NONE) {
        int32_t above = sweep->above[side], below = sweep->below[side];
        turn_up(sweep, priority(above) > priority(below) ? above : below);
    }
    replace(sweep, side, sweep->above[side] != NONE ? sweep->above[side] : sweep->below[side]);
}

static struct polygon_check crossing(struct arena *arena, const struct point *points, size_t count)
{
    struct sweep sweep = {points,
                          count,
                          ARENA_ARRAY(arena, count, int32_t),
                          ARENA_ARRAY(arena, count, int32_t),
                          ARENA_ARRAY(arena, count, int32_t),
                          NONE,
                          0,
                          0,
                          false};
    struct sweep_event *events = ARENA_ARRAY(arena, 2 * count, struct sweep_event);
    for (size_t i = 0; i < count; i++) {
        events[2 * i] = (struct sweep_event){end_of(&sweep, (int32_t)i, true), (int32_t)i, true};
        events[2 * i + 1] = (struct sweep_event){end_of(&sweep, (int32_t)i, false), (int32_t)i, false};
    }
    qsort(events, 2 * count, sizeof *events, by_place);
    for (size_t i = 0; i < 2 * count && !sweep.met; i++)
        if (events[i].begins)
            begin_side(&sweep, events[i].side);
        else
            end_side(&sweep, events[i].side);
    if (!sweep.met)
        return (struct polygon_check){POLYGON_GOOD, 0, 0};
    return (struct polygon_check){POLYGON_CROSS, sweep.first + 1, sweep.second + 1};
}

struct polygon_check polygon_check(struct arena *arena, const struct point *points, size_t count)
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
    return crossing(arena, points, count);
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
