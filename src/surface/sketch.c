/* A box taken apart: its closed sides from outside, the same from inside, and the rims of the open ones. */
#include "surface/sketch.h"

#include "base/arena.h"
#include "base/err.h"
#include "surface/shape.h"

#include <math.h>
#include <string.h>

static void walls(struct pen *pen, enum region region,
                  struct box_face (*seen)(const struct part *, enum box_side))
{
    for (unsigned side = BOX_FRONT; side <= BOX_BOTTOM; side <<= 1) {
        struct box_face face = seen(pen->part, side);
        if (!(pen->part->open & side))
            pen_rectangle(pen, region, face.width_m, face.height_m);
    }
    pen_next_row(pen);
}

/* The outer rectangle of an open side, and in it the inner one, off the walls that are there. */
static void rim(struct pen *pen, enum box_side side)
{
    struct box_face outer = box_outer(pen->part, side), inner = box_inner(pen->part, side);
    struct sketch_ring ring = ring_rectangle(pen->arena, outer.width_m, outer.height_m);
    struct sketch_ring hole = ring_rectangle(pen->arena, inner.width_m, inner.height_m);
    for (size_t i = 0; i < hole.count; i++) {
        hole.points[i].x += inner.left_m;
        hole.points[i].y += inner.low_m;
    }
    if (outer.width_m > inner.width_m || outer.height_m > inner.height_m)
        pen_figure(pen, REGION_EDGES, ring, hole);
}

void sketch_box(struct pen *pen)
{
    walls(pen, REGION_OUTSIDE, box_outer);
    walls(pen, REGION_INSIDE, box_inner);
    for (unsigned side = BOX_FRONT; side <= BOX_BOTTOM; side <<= 1)
        if (pen->part->open & side)
            rim(pen, side);
}

static const struct sketch_ring none = {NULL, 0};

static void ends_of(struct pen *pen, double one_m, double other_m)
{
    pen_circle(pen, REGION_ENDS, one_m);
    pen_circle(pen, REGION_ENDS, other_m);
}

static void sketch_round(struct pen *pen)
{
    const double *size = pen->part->size_m;
    pen_rectangle(pen, REGION_FACE, size[DIM_LENGTH], size[DIM_DIAMETER]);
    ends_of(pen, size[DIM_DIAMETER], size[DIM_DIAMETER]);
}

/* The side view of points along an axis. */
static void profile(struct pen *pen, const struct point *points, size_t count)
{
    struct sketch_ring ring = {ARENA_ARRAY(pen->arena, 2 * count, struct point), 2 * count};
    for (size_t i = 0; i < count; i++) {
        ring.points[i] = (struct point){points[i].x, points[i].y / 2};
        ring.points[2 * count - 1 - i] = (struct point){points[i].x, -points[i].y / 2};
    }
    pen_figure(pen, REGION_FACE, ring, none);
}

static void sketch_cone(struct pen *pen)
{
    const double *size = pen->part->size_m;
    struct point points[] = {{0, size[DIM_DIAMETER]}, {size[DIM_LENGTH], size[DIM_DIAMETER2]}};
    profile(pen, points, 2);
    ends_of(pen, size[DIM_DIAMETER], size[DIM_DIAMETER2]);
}

static void sketch_turning(struct pen *pen)
{
    const struct part *part = pen->part;
    profile(pen, part->points, part->point_count);
    ends_of(pen, part->points[0].y, part->points[part->point_count - 1].y);
}

static void sketch_taper(struct pen *pen)
{
    const double *size = pen->part->size_m;
    double one = size[DIM_WIDTH], other = size[DIM_WIDTH2];
    struct point side[] = {{0, one}, {hypot(size[DIM_LENGTH], (one - other) / 2), other}};
    for (int i = 0; i < 4; i++) {
        profile(pen, side, 2);
        pen_next_row(pen);
    }
    pen_rectangle(pen, REGION_ENDS, one, one);
    pen_rectangle(pen, REGION_ENDS, other, other);
}

static void sketch_moulding(struct pen *pen)
{
    pen_rectangle(pen, REGION_FACE, pen->part->size_m[DIM_LENGTH], pen->part->size_m[DIM_GIRTH]);
}

static void sketch_square(struct pen *pen)
{
    for (enum region r = 0; r < REGION_COUNT; r++)
        pen_rectangle(pen, r, sqrt(pen->area_m2[r]), sqrt(pen->area_m2[r]));
    pen->sketch.stands_for = true;
}

static void (*const sketchers[SHAPE_COUNT])(struct pen *pen) = {
    [SHAPE_BOARD] = sketch_board, [SHAPE_TRIANGLE] = sketch_triangle, [SHAPE_POLYGON] = sketch_polygon,
    [SHAPE_DISC] = sketch_disc,   [SHAPE_ROUND] = sketch_round,       [SHAPE_TAPER] = sketch_taper,
    [SHAPE_CONE] = sketch_cone,   [SHAPE_TURNING] = sketch_turning,   [SHAPE_MOULDING] = sketch_moulding,
    [SHAPE_FRAME] = sketch_frame, [SHAPE_BOX] = sketch_box,           [SHAPE_MESH] = sketch_square,
    [SHAPE_AREA] = sketch_square,
};

/* A twentieth of the largest size keeps figures apart. */
static double gap_of(const struct part *part)
{
    double most = 0;
    for (enum dimension d = 0; d < DIM_COUNT; d++)
        most = fmax(most, part->size_m[d]);
    for (size_t i = 1; i < part->point_count; i++)
        most =
            fmax(most, hypot(part->points[i].x - part->points[0].x, part->points[i].y - part->points[0].y));
    return most / 20;
}

struct sketch sketch_make(struct arena *arena, const struct job *job, const struct part *part)
{
    struct err_list errors = {0};
    struct measuring m = measuring_of(arena, job, part, &errors);
    struct pen pen = {.arena = arena, .part = part, .gap_m = gap_of(part)};
    if (shape_measure(&m, pen.area_m2))
        sketchers[part->shape](&pen);
    return pen.sketch;
}

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
    if (width_m > 0 && height_m > 0)
        pen_figure(pen, region, ring_rectangle(pen->arena, width_m, height_m), none);
}

void pen_circle(struct pen *pen, enum region region, double diameter_m)
{
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
