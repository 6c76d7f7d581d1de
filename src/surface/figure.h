/* Outlines laid out in a drawing, in metres, y downwards. */
#ifndef SURFACE_FIGURE_H
#define SURFACE_FIGURE_H

#include "job/part.h"

struct sketch_ring {
    struct point *points;
    size_t count;
};

/* An outline, and in it a hole where its count is not 0. */
struct sketch_figure {
    enum region region;
    struct sketch_ring outline, hole;
};

struct sketch {
    struct sketch_figure *figures;
    size_t count;
    double width_m, height_m; /* all of them lie in 0..width, 0..height */
    bool stands_for;          /* a square that stands for an area */
};

#endif
