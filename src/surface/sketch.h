/* What a part looks like when its regions are laid out side by side: outlines to scale, in metres, y downwards.
 *
 * Flat parts: face (with the strip of a worked edge around it), back, and their edges cut into strips. Round parts:
 * their side view, and the ends. Tapers: their four sides. Boxes: every side from outside, from inside, and the rims.
 * Mouldings: unrolled. What has no outline (a mesh, a given area) is a square of its area. The side view of something
 * round is smaller than its surface, and the face of an outline with re-entrant corners is drawn without its strip;
 * all else has the area that it stands for. */
#ifndef SURFACE_SKETCH_H
#define SURFACE_SKETCH_H

#include "job/job.h"
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

struct arena;

/* Of a part that was measured without a mistake. */
struct sketch sketch_make(struct arena *arena, const struct job *job, const struct part *part);

#endif
