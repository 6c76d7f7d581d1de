#include "surface/triangle.h"

#include "surface/flat.h"
#include "surface/outline.h"

#include <float.h>
#include <math.h>

double triangle_area(double a, double b, double c)
{
    double high = fmax(a, fmax(b, c)), low = fmin(a, fmin(b, c));
    double middle = fmax(fmin(a, b), fmin(fmax(a, b), c));
    double gap = low - (high - middle);
    if (!(gap > 4 * DBL_EPSILON * high))
        return 0;
    return sqrt((high + (middle + low)) * gap * (low + (high - middle)) * (high + (middle - low))) / 4;
}

static bool by_sides(const struct measuring *m, struct outline *outline)
{
    const double *size = m->part->size_m;
    double a = size[DIM_A], b = size[DIM_B], c = size[DIM_C], area = triangle_area(a, b, c);
    if (!(area > 0))
        return measuring_refuse(m, "sides", "three sides that close: each shorter than the others together",
                                "%s %s %s", length_format(a, m->units).text, length_format(b, m->units).text,
                                length_format(c, m->units).text);
    *outline = outline_triangle(area, a + b + c);
    return true;
}

static bool by_base(const struct measuring *m, struct outline *outline)
{
    double base = m->part->size_m[DIM_BASE], height = m->part->size_m[DIM_HEIGHT];
    if (!(base > 0) || !(height > 0))
        return measuring_refuse(m, base > 0 ? "height" : "base", "three sides, or base and height", "none");
    *outline = outline_triangle(base * height / 2, base + 2 * hypot(base / 2, height));
    return true;
}

bool triangle_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const double *size = m->part->size_m;
    bool sides = size[DIM_A] > 0 || size[DIM_B] > 0 || size[DIM_C] > 0;
    struct outline outline = {0};
    if (sides && (size[DIM_BASE] > 0 || size[DIM_HEIGHT] > 0))
        return measuring_refuse(m, size[DIM_BASE] > 0 ? "base" : "height",
                                "either three sides, or base and height", "both");
    if (!(sides ? by_sides(m, &outline) : by_base(m, &outline)))
        return false;
    return flat_areas(m, &outline, area_m2);
}
