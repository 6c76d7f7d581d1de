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

/* Below: laying figures out in rows, for the files of this module. */

struct pen {
    struct arena *arena;
    const struct part *part;
    double area_m2[REGION_COUNT];
    struct sketch sketch;
    size_t capacity;
    double x_m, y_m, row_m; /* where the next figure goes; how high its row is */
    double gap_m;
};

/* Copies a figure given with y upwards, anywhere, to the next place in the row. Sizes of 0 draw nothing. */
void pen_figure(struct pen *pen, enum region region, struct sketch_ring outline, struct sketch_ring hole);
void pen_rectangle(struct pen *pen, enum region region, double width_m, double height_m);
void pen_circle(struct pen *pen, enum region region, double diameter_m);
/* Figures inside one another: each ring is the outline of one and the hole of the one before, so that there is a
 * ring more than figures. */
void pen_nested(struct pen *pen, const struct sketch_ring *rings, const enum region *regions, size_t figures);
void pen_next_row(struct pen *pen);
/* `length_m` of a strip, cut into equal pieces about `most_m` long (12 at most), each in a row of its own. */
void pen_strip(struct pen *pen, enum region region, double length_m, double width_m, double most_m);

struct sketch_ring ring_circle(struct arena *arena, double diameter_m);
struct sketch_ring ring_rectangle(struct arena *arena, double width_m, double height_m);

void sketch_board(struct pen *pen);
void sketch_triangle(struct pen *pen);
void sketch_polygon(struct pen *pen);
void sketch_disc(struct pen *pen);
void sketch_frame(struct pen *pen);
void sketch_box(struct pen *pen);

#endif
