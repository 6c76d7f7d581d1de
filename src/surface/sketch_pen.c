#include "surface/sketch_pen.h"

#include "base/arena.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

enum { CIRCLE_CORNERS = 72, STRIPS_MOST = 12 };

struct extent {
    double left, right, low, high;
};

static struct extent extent_of(struct sketch_ring ring)
{
    struct extent e = {INFINITY, -INFINITY, INFINITY, -INFINITY};
    for (size_t i = 0; i < ring.count; i++) {
        e.left = fmin(e.left, ring.points[i].x);
        e.right = fmax(e.right, ring.points[i].x);
        e.low = fmin(e.low, ring.points[i].y);
        e.high = fmax(e.high, ring.points[i].y);
    }
    return e;
}

/* The extent's upper left corner comes to the pen, y turns downwards. */
static struct sketch_ring moved(const struct pen *pen, struct sketch_ring ring, const struct extent *e)
{
    struct sketch_ring copy = {ARENA_ARRAY(pen->arena, ring.count, struct point), ring.count};
    for (size_t i = 0; i < ring.count; i++)
        copy.points[i] =
            (struct point){pen->x_m + ring.points[i].x - e->left, pen->y_m + e->high - ring.points[i].y};
    return copy;
}

static void add_at_pen(struct pen *pen, enum region region, struct sketch_ring outline,
                       struct sketch_ring hole, const struct extent *e)
{
    struct sketch *s = &pen->sketch;
    s->figures = arena_grow(pen->arena, s->figures, s->count, &pen->capacity, sizeof *s->figures);
    s->figures[s->count++] = (struct sketch_figure){region, moved(pen, outline, e), moved(pen, hole, e)};
    s->width_m = fmax(s->width_m, pen->x_m + e->right - e->left);
    s->height_m = fmax(s->height_m, pen->y_m + e->high - e->low);
}

static void advance(struct pen *pen, const struct extent *e)
{
    pen->x_m += e->right - e->left + pen->gap_m;
    pen->row_m = fmax(pen->row_m, e->high - e->low);
}

void pen_figure(struct pen *pen, enum region region, struct sketch_ring outline, struct sketch_ring hole)
{
    struct extent e = extent_of(outline);
    add_at_pen(pen, region, outline, hole, &e);
    advance(pen, &e);
}

void pen_nested(struct pen *pen, const struct sketch_ring *rings, const enum region *regions, size_t figures)
{
    struct extent e = extent_of(rings[0]);
    for (size_t i = 0; i < figures; i++)
        add_at_pen(pen, regions[i], rings[i], rings[i + 1], &e);
    advance(pen, &e);
}

void pen_next_row(struct pen *pen)
{
    if (pen->row_m > 0)
        pen->y_m += pen->row_m + pen->gap_m;
    pen->x_m = pen->row_m = 0;
}

struct sketch_ring ring_rectangle(struct arena *arena, double width_m, double height_m)
{
    struct sketch_ring ring = {ARENA_ARRAY(arena, 4, struct point), 4};
    ring.points[1].x = ring.points[2].x = width_m;
    ring.points[2].y = ring.points[3].y = height_m;
    return ring;
}

struct sketch_ring ring_circle(struct arena *arena, double diameter_m)
{
    struct sketch_ring ring = {ARENA_ARRAY(arena, CIRCLE_CORNERS, struct point), CIRCLE_CORNERS};
    for (size_t i = 0; i < CIRCLE_CORNERS; i++) {
        double angle = 2 * PI * (double)i / CIRCLE_CORNERS;
        ring.points[i] = (struct point){diameter_m / 2 * cos(angle), diameter_m / 2 * sin(angle)};
    }
    return ring;
}

void pen_rectangle(struct pen *pen, enum region region, double width_m, double height_m)
{
    const struct sketch_ring none = {NULL, 0};
    if (width_m > 0 && height_m > 0)
        pen_figure(pen, region, ring_rectangle(pen->arena, width_m, height_m), none);
}

void pen_circle(struct pen *pen, enum region region, double diameter_m)
{
    const struct sketch_ring none = {NULL, 0};
    if (diameter_m > 0)
        pen_figure(pen, region, ring_circle(pen->arena, diameter_m), none);
}

void pen_strip(struct pen *pen, enum region region, double length_m, double width_m, double most_m)
{
    int pieces = (int)fmin(ceil(length_m / most_m - 1e-9), STRIPS_MOST);
    for (int i = 0; i < pieces; i++) {
        pen_next_row(pen);
        pen_rectangle(pen, region, length_m / pieces, width_m);
    }
}
