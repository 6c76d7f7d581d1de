/* A box taken apart: its closed sides from outside, the same from inside, and the rims of the open ones. */
#include "surface/box.h"
#include "surface/sketch_pen.h"

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
