/* Outlines given by their corners. */
#ifndef SURFACE_POLYGON_H
#define SURFACE_POLYGON_H

#include "job/part.h"
#include "surface/outline.h"

struct arena;

enum { POLYGON_MOST = 10000 }; /* corners */

/* Why points are no outline. Sides are numbered from 1, each from the corner of its number to the next. */
enum polygon_fault {
    POLYGON_GOOD,
    POLYGON_FEW,   /* fewer than three corners */
    POLYGON_MANY,  /* more than POLYGON_MOST */
    POLYGON_SAME,  /* side `first` has no length */
    POLYGON_SPIKE, /* at corner `first` the outline turns back on itself */
    POLYGON_CROSS  /* sides `first` and `second` cross or touch; others may as well */
};

struct polygon_check {
    enum polygon_fault fault;
    size_t first, second;
};

/* The corners without a last one that only repeats the first. */
size_t polygon_corners(const struct point *points, size_t count);

/* The arena is for scratch. */
struct polygon_check polygon_check(struct arena *arena, const struct point *points, size_t count);

/* By the shoelace; positive when the corners run counter-clockwise. Exact but for the differences to the first
 * corner and one rounding. */
double polygon_signed_area(const struct point *points, size_t count);

/* Whether no corner re-enters; corners along a side do not. The corners are good. */
bool polygon_convex(const struct point *points, size_t count);

/* Of corners that polygon_check found good, in either direction; the sides stand in the arena. */
struct outline polygon_outline(struct arena *arena, const struct point *points, size_t count);

#endif
