/* Each shape's areas, region by region; inside this room. The public doors are in takeoff.h.
 *
 * A function of a shape fills in the areas of one part, nothing covered, in m2; false when it has added a mistake.
 * Its sizes were checked before: what the shape needs is above 0, what it does not know is not there. */
#ifndef SURFACE_SHAPE_H
#define SURFACE_SHAPE_H

#include "base/measure.h"
#include "job/part.h"

struct arena;
struct err_list;
struct outline;

/* A part being measured, and where its mistakes are told. */
struct measuring {
    struct arena *arena;
    const struct part *part;
    const char *file;
    const char *prefix; /* of the pointer, before "/<row>/<column>" */
    enum unit_system units;
    struct err_list *errors;
};

/* Adds a mistake at a column of the part; returns false. */
bool measuring_refuse(const struct measuring *m, const char *column, const char *expected,
                      const char *found_format, ...) __attribute__((format(printf, 4, 5)));

/* The column that a dimension was read from. */
const char *dimension_column(enum dimension dimension);

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

#endif
