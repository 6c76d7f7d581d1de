/* Each shape's areas, region by region; inside this room. The public doors are in takeoff.h.
 *
 * A function of a shape fills in the areas of one part, nothing covered, in m2; false when it has added a mistake.
 * Its sizes were checked before: what the shape needs is above 0, what it does not know is not there. */
#ifndef SURFACE_SHAPE_H
#define SURFACE_SHAPE_H

#include "base/measure.h"
#include "job/job.h"

struct arena;
struct err_list;
struct outline;

/* A part being measured, and where its mistakes are reported. */
struct measuring {
    struct arena *arena; /* for scratch */
    const struct job *job;
    const struct part *part;
    enum unit_system units; /* in which mistakes are reported */
    struct err_list *errors;
};

struct measuring measuring_of(struct arena *arena, const struct job *job, const struct part *part,
                              struct err_list *errors);

/* Adds a mistake at a column of the part; returns false. */
bool measuring_refuse(const struct measuring *m, const char *column, const char *expected,
                      const char *found_format, ...) __attribute__((format(printf, 4, 5)));

/* All of a shape, with its worked edges and its grooves. */
bool shape_measure(const struct measuring *m, double area_m2[REGION_COUNT]);

bool board_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool triangle_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool polygon_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool disc_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool frame_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool round_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool taper_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool cone_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool turning_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool moulding_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool box_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool mesh_areas(const struct measuring *m, double area_m2[REGION_COUNT]);
bool plain_areas(const struct measuring *m, double area_m2[REGION_COUNT]);

/* Around a frustum, by its diameters and its height; of height 0 the flat ring of a shoulder. */
double frustum_area(double one_m, double other_m, double height_m);

/* A box by its outside. Outside: the full outer rectangle of every closed side (front and back length x height, left
 * and right width x height, top and bottom length x width). Inside: each closed side takes one thickness off the
 * measure across it, and shows the rectangle of what is left. Edges: in the plane of every open side the outer
 * rectangle less the inner one, which is the rim of the walls that end there; where two open sides meet there is
 * no wall, and so no rim. */
struct box_face {
    double width_m, height_m;
    double left_m, low_m;
};

struct box_face box_outer(const struct part *part, enum box_side side);
struct box_face box_inner(const struct part *part, enum box_side side);

/* Heron's formula in the form that stays exact for needles: W. Kahan, "Miscalculating area and angles of a needle-like
 * triangle" (2014). In the square of the sides' unit; 0 for sides that do not close, or only by a rounding error. */
double triangle_area(double a, double b, double c);

#endif
