/* Round and drawn-out parts: one surface around, and two ends. */
#include "surface/shape.h"
#include "surface/sum.h"

#include <math.h>

#define PI 3.14159265358979323846

static double circle(double diameter)
{
    return PI / 4 * diameter * diameter;
}

double frustum_area(double one_m, double other_m, double height_m)
{
    return PI / 2 * (one_m + other_m) * hypot(height_m, (one_m - other_m) / 2);
}

bool round_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    double diameter = m->part->size_m[DIM_DIAMETER];
    area_m2[REGION_FACE] = PI * diameter * m->part->size_m[DIM_LENGTH];
    area_m2[REGION_ENDS] = 2 * circle(diameter);
    return true;
}

bool cone_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const double *size = m->part->size_m;
    area_m2[REGION_FACE] = frustum_area(size[DIM_DIAMETER], size[DIM_DIAMETER2], size[DIM_LENGTH]);
    area_m2[REGION_ENDS] = circle(size[DIM_DIAMETER]) + circle(size[DIM_DIAMETER2]);
    return true;
}

/* The length is that of the axis: the sides slope. */
bool taper_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const double *size = m->part->size_m;
    double one = size[DIM_WIDTH], other = size[DIM_WIDTH2];
    area_m2[REGION_FACE] = 2 * (one + other) * hypot(size[DIM_LENGTH], (one - other) / 2);
    area_m2[REGION_ENDS] = one * one + other * other;
    return true;
}

static bool profile_good(const struct measuring *m)
{
    const struct point *p = m->part->points;
    size_t count = m->part->point_count;
    if (count < 2)
        return measuring_refuse(m, "profile", "at least two points", "%zu", count);
    for (size_t i = 1; i < count; i++)
        if (p[i].x < p[i - 1].x)
            return measuring_refuse(m, "profile", "points in order along the axis", "%s after %s",
                                    length_format(p[i].x, m->units).text,
                                    length_format(p[i - 1].x, m->units).text);
    if (p[count - 1].x == p[0].x)
        return measuring_refuse(m, "profile", "a profile with a length", "all points at %s",
                                length_format(p[0].x, m->units).text);
    return true;
}

bool turning_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const struct point *p = m->part->points;
    size_t count = m->part->point_count;
    struct sum face = {0};
    if (!profile_good(m))
        return false;
    for (size_t i = 1; i < count; i++)
        sum_add(&face, frustum_area(p[i - 1].y, p[i].y, p[i].x - p[i - 1].x));
    area_m2[REGION_FACE] = sum_value(&face);
    area_m2[REGION_ENDS] = circle(p[0].y) + circle(p[count - 1].y);
    if (!(area_m2[REGION_FACE] > 0))
        return measuring_refuse(m, "profile", "a diameter above 0", "none");
    return true;
}

bool moulding_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    area_m2[REGION_FACE] = m->part->size_m[DIM_GIRTH] * m->part->size_m[DIM_LENGTH];
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
