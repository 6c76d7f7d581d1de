/* Areas of triangles in space, added up; where they come from is another room's affair. */
#ifndef SURFACE_MESH_H
#define SURFACE_MESH_H

#include "surface/sum.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { MESH_BLOCK = 256 };

/* Begin with `struct mesh_total total = {0}`. A block of triangles is added up plainly (relative error below 1e-14),
 * the blocks exactly. */
struct mesh_total {
    struct sum area; /* in the square of the corners' unit */
    uint64_t triangles, degenerate, nonfinite;
};

/* The corners of a triangle, one after the other. Triangles whose corners lie on one line have no area and are counted as degenerate; those with a corner that is
 * not a number, or too far away to be squared, as non-finite. Both are counted in `triangles` too. */
void mesh_add(struct mesh_total *total, const double corners[9]);

/* Many: nine machine floats each, the next triangle `stride` bytes on, at any address. */
void mesh_add_floats(struct mesh_total *total, const unsigned char *corners, size_t stride, size_t count);

/* A flat or skew polygon, walked corner by corner. Its area is that of its fan of triangles; where the fan folds back
 * (re-entrant corners) and the polygon is flat to 1e-6, that of the vector sum (the shoelace in space). Counted as
 * corners - 2 triangles. */
struct mesh_polygon {
    size_t corners;
    double first[3], last[3];
    double normal[3], sum[3]; /* of the first triangle with an area; of all */
    double fan, along;        /* twice the areas: plain, and seen along `normal` */
    bool folds;               /* a triangle lies the other way round */
};

void mesh_polygon_corner(struct mesh_polygon *polygon, const double corner[3]);
void mesh_add_polygon(struct mesh_total *total, const struct mesh_polygon *polygon);

double mesh_area(const struct mesh_total *total);

#endif
