/* Faces and backs as they are, the edges as strips below them. */
#include "surface/sketch.h"

#include "base/arena.h"
#include "surface/polygon.h"

#include <math.h>

#define PI 3.14159265358979323846

enum { CORNERS_DRAWN = 360 };

static const struct sketch_ring none = {NULL, 0};

static double depth_of(const struct part *part)
{
    return fmax(part->size_m[DIM_CHAMFER], part->size_m[DIM_ROUNDOVER]);
}

/* Keeps of a ring what lies left of a-b, a depth away from it (Sutherland and Hodgman, 1974). */
static struct sketch_ring cut(struct sketch_ring ring, struct point *kept, struct point a, struct point b,
                              double depth)
{
    double length = hypot(b.x - a.x, b.y - a.y), nx = (a.y - b.y) / length, ny = (b.x - a.x) / length;
    size_t count = 0;
    for (size_t i = 0; i < ring.count; i++) {
        struct point p = ring.points[i], q = ring.points[(i + 1) % ring.count];
        double dp = (p.x - a.x) * nx + (p.y - a.y) * ny - depth,
               dq = (q.x - a.x) * nx + (q.y - a.y) * ny - depth;
        if (dp >= 0)
            kept[count++] = p;
        if ((dp < 0) != (dq < 0))
            kept[count++] =
                (struct point){p.x + (q.x - p.x) * dp / (dp - dq), p.y + (q.y - p.y) * dp / (dp - dq)};
    }
    return (struct sketch_ring){kept, count};
}

/* Of a convex outline; empty where nothing is left. Each cut adds one corner at most, rounding errors another. */
static struct sketch_ring inset(struct arena *arena, struct sketch_ring outline, double depth)
{
    bool left = polygon_signed_area(outline.points, outline.count) > 0;
    struct point *room[2] = {ARENA_ARRAY(arena, 3 * outline.count + 2, struct point),
                             ARENA_ARRAY(arena, 3 * outline.count + 2, struct point)};
    struct sketch_ring ring = outline;
    for (size_t i = 0; i < outline.count; i++) {
        struct point a = outline.points[i], b = outline.points[(i + 1) % outline.count];
        ring = left ? cut(ring, room[i % 2], a, b, depth) : cut(ring, room[i % 2], b, a, depth);
    }
    return ring;
}

static struct sketch_ring mirrored(struct arena *arena, struct sketch_ring ring)
{
    struct sketch_ring copy = {ARENA_ARRAY(arena, ring.count, struct point), ring.count};
    for (size_t i = 0; i < ring.count; i++)
        copy.points[i] = (struct point){-ring.points[i].x, ring.points[i].y};
    return copy;
}

static double width_of(struct sketch_ring ring)
{
    double left = INFINITY, right = -INFINITY;
    for (size_t i = 0; i < ring.count; i++) {
        left = fmin(left, ring.points[i].x);
        right = fmax(right, ring.points[i].x);
    }
    return right - left;
}

/* Face and back of an outline. */
static void faces(struct pen *pen, struct sketch_ring outline)
{
    static const enum region regions[] = {REGION_EDGES, REGION_FACE};
    double depth = depth_of(pen->part);
    if (depth > 0 && polygon_convex(outline.points, outline.count)) {
        struct sketch_ring rings[] = {outline, inset(pen->arena, outline, depth), none};
        pen_nested(pen, rings, regions, rings[1].count > 0 ? 2 : 1);
    } else
        pen_figure(pen, REGION_FACE, outline, none);
    pen_figure(pen, REGION_BACK, mirrored(pen->arena, outline), none);
}

static void outlined(struct pen *pen, struct sketch_ring outline)
{
    double perimeter = 0, thick = pen->part->size_m[DIM_THICKNESS];
    for (size_t i = 0; i < outline.count; i++) {
        struct point p = outline.points[i], q = outline.points[(i + 1) % outline.count];
        perimeter += hypot(q.x - p.x, q.y - p.y);
    }
    faces(pen, outline);
    pen_strip(pen, REGION_EDGES, perimeter, thick - depth_of(pen->part), width_of(outline));
}

void sketch_board(struct pen *pen)
{
    const double *size = pen->part->size_m;
    double rest = size[DIM_THICKNESS] - depth_of(pen->part);
    faces(pen, ring_rectangle(pen->arena, size[DIM_LENGTH], size[DIM_WIDTH]));
    for (int i = 0; i < 2; i++) {
        pen_next_row(pen);
        pen_rectangle(pen, REGION_EDGES, size[DIM_LENGTH], rest);
        pen_rectangle(pen, REGION_ENDS, size[DIM_WIDTH], rest);
    }
}

/* On its longest side, or its base. */
void sketch_triangle(struct pen *pen)
{
    const double *size = pen->part->size_m;
    double a = size[DIM_A], b = size[DIM_B], c = size[DIM_C], longest = fmax(a, fmax(b, c));
    struct sketch_ring ring = {ARENA_ARRAY(pen->arena, 3, struct point), 3};
    if (longest == 0) {
        ring.points[1].x = size[DIM_BASE];
        ring.points[2] = (struct point){size[DIM_BASE] / 2, size[DIM_HEIGHT]};
    } else {
        double left = longest == a ? b : a, height = 2 * pen->area_m2[REGION_BACK] / longest;
        ring.points[1].x = longest;
        ring.points[2] = (struct point){sqrt(fmax(left * left - height * height, 0)), height};
    }
    outlined(pen, ring);
}

static struct sketch_ring regular(struct arena *arena, int corners, double side)
{
    struct sketch_ring ring = {ARENA_ARRAY(arena, (size_t)corners, struct point), (size_t)corners};
    double radius = side / (2 * sin(PI / corners));
    /* The lowest side lies flat. */
    for (int i = 0; i < corners; i++) {
        double angle = PI / corners + 2 * PI * i / corners - PI / 2;
        ring.points[i] = (struct point){radius * cos(angle), radius * sin(angle)};
    }
    return ring;
}

void sketch_polygon(struct pen *pen)
{
    const struct part *part = pen->part;
    struct sketch_ring ring;
    if (part->point_count == 0) {
        /* More corners than that look like a circle. */
        double corners = fmin(part->corners, CORNERS_DRAWN);
        outlined(pen, regular(pen->arena, (int)corners, part->size_m[DIM_SIDE] * part->corners / corners));
        return;
    }
    ring.count = polygon_corners(part->points, part->point_count);
    ring.points = ARENA_ARRAY(pen->arena, ring.count, struct point);
    for (size_t i = 0; i < ring.count; i++)
        ring.points[i] = part->points[i];
    outlined(pen, ring);
}

static struct sketch_ring circle(struct pen *pen, double diameter_m)
{
    return diameter_m > 0 ? ring_circle(pen->arena, diameter_m) : none;
}

void sketch_disc(struct pen *pen)
{
    static const enum region worked[] = {REGION_EDGES, REGION_FACE, REGION_EDGES};
    const double *size = pen->part->size_m;
    double outer = size[DIM_DIAMETER], hole = size[DIM_HOLE], depth = depth_of(pen->part);
    struct sketch_ring rings[] = {circle(pen, outer), circle(pen, outer - 2 * depth),
                                  circle(pen, hole > 0 ? hole + 2 * depth : 0), circle(pen, hole)};
    if (depth > 0)
        pen_nested(pen, rings, worked, hole > 0 ? 3 : rings[1].count > 0 ? 2 : 1);
    else
        pen_figure(pen, REGION_FACE, rings[0], rings[3]);
    pen_figure(pen, REGION_BACK, rings[0], rings[3]);
    pen_strip(pen, REGION_EDGES, PI * (outer + hole), size[DIM_THICKNESS] - depth, outer);
}

void sketch_frame(struct pen *pen)
{
    const double *size = pen->part->size_m;
    double length = size[DIM_LENGTH], width = size[DIM_WIDTH], member = size[DIM_MEMBER];
    struct sketch_ring outer = ring_rectangle(pen->arena, length, width);
    struct sketch_ring opening = ring_rectangle(pen->arena, length - 2 * member, width - 2 * member);
    for (size_t i = 0; i < opening.count; i++) {
        opening.points[i].x += member;
        opening.points[i].y += member;
    }
    pen_figure(pen, REGION_FACE, outer, opening);
    pen_figure(pen, REGION_BACK, outer, opening);
    pen_strip(pen, REGION_EDGES, 4 * (length + width - 2 * member), size[DIM_THICKNESS], length);
}
