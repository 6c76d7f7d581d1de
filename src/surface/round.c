/* Round and drawn-out parts: one surface around, and two ends. */
#include "surface/shape.h"

#define PI 3.14159265358979323846

bool round_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    double diameter = m->part->size_m[DIM_DIAMETER];
    area_m2[REGION_FACE] = PI * diameter * m->part->size_m[DIM_LENGTH];
    area_m2[REGION_ENDS] = PI / 2 * diameter * diameter;
    return true;
}

bool mesh_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    if (!(m->part->mesh_area_m2 > 0))
        return measuring_refuse(m, "file", "a mesh with an area", "none");
    area_m2[REGION_FACE] = m->part->mesh_area_m2;
    return true;
}

bool plain_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    if (!(m->part->area_m2 > 0))
        return measuring_refuse(m, "area", "an area above 0", "none");
    area_m2[m->part->area_region] = m->part->area_m2;
    return true;
}
