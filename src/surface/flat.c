/* Flat parts: two faces of one outline, and edges as high as the part is thick. */
#include "surface/shape.h"

#include "base/err.h"
#include "surface/outline.h"
#include "surface/polygon.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

/* A length rounded by its unit may miss the exact limit by this share. */
static const double tolerance = 1e-9;

static bool refuse_depth(const struct measuring *m, enum dimension work, const char *limit, double limit_m)
{
    char expected[ERR_EXPECTED_SIZE];
    snprintf(expected, sizeof expected, "at most %s: %s", length_format(limit_m, m->units).text, limit);
    return measuring_refuse(m, dimension_name(work), expected, "%s",
                            length_format(m->part->size_m[work], m->units).text);
}

struct flat {
    double face_m2, strip_m2;
    double rest_m; /* height of the edge below the strip */
};

/* What the part's chamfer or roundover makes of the face; false when it is too deep. Uses up the outline. */
static bool flat_work(const struct measuring *m, struct outline *outline, struct flat *flat)
{
    const double *size = m->part->size_m;
    enum dimension by = size[DIM_CHAMFER] > 0 ? DIM_CHAMFER : DIM_ROUNDOVER;
    double depth = size[by], thick = size[DIM_THICKNESS];
    *flat = (struct flat){.face_m2 = outline->area_m2, .rest_m = thick};
    if (depth == 0)
        return true;
    if (by == DIM_CHAMFER && size[DIM_ROUNDOVER] > 0)
        return measuring_refuse(m, "roundover", "either a chamfer or a roundover", "both");
    if (depth > thick * (1 + tolerance))
        return refuse_depth(m, by, "the thickness", thick);
    struct strip strip = outline_work(outline, by == DIM_CHAMFER ? EDGE_CHAMFER : EDGE_ROUNDOVER, depth);
    if (strip.depth_m < depth * (1 - tolerance))
        return refuse_depth(m, by, "there the face is used up", strip.depth_m);
    *flat = (struct flat){strip.face_m2, strip.strip_m2, fmax(thick - depth, 0)};
    return true;
}

/* Face, back and edges of a flat part without ends. */
static bool flat_areas(const struct measuring *m, struct outline *outline, double area_m2[REGION_COUNT])
{
    double back = outline->area_m2, perimeter = outline->perimeter_m;
    struct flat flat;
    if (!flat_work(m, outline, &flat))
        return false;
    area_m2[REGION_FACE] = flat.face_m2;
    area_m2[REGION_BACK] = back;
    area_m2[REGION_EDGES] = perimeter * flat.rest_m + flat.strip_m2;
    return true;
}

bool board_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const double *size = m->part->size_m;
    double length = size[DIM_LENGTH], width = size[DIM_WIDTH];
    struct outline outline = outline_rectangle(length, width);
    struct flat flat;
    if (!flat_work(m, &outline, &flat))
        return false;
    area_m2[REGION_FACE] = flat.face_m2;
    area_m2[REGION_BACK] = length * width;
    area_m2[REGION_EDGES] = 2 * length * flat.rest_m + flat.strip_m2;
    area_m2[REGION_ENDS] = 2 * width * flat.rest_m;
    return true;
}

static bool refuse_points(const struct measuring *m, struct polygon_check check)
{
    switch (check.fault) {
    case POLYGON_FEW:
        return measuring_refuse(m, "points", "at least three corners", "%zu", check.first);
    case POLYGON_MANY:
        return measuring_refuse(m, "points", "at most 10000 corners", "%zu", check.first);
    case POLYGON_SAME:
        return measuring_refuse(m, "points", "corners in different places", "corner %zu twice", check.first);
    case POLYGON_SPIKE:
        return measuring_refuse(m, "points", "an outline that encloses a face",
                                "one that turns back on itself at corner %zu", check.first);
    default:
        return measuring_refuse(m, "points", "an outline that neither crosses nor touches itself",
                                "sides %zu and %zu that meet (each counted from the corner of its number)",
                                check.first, check.second);
    }
}

static bool by_points(const struct measuring *m, struct outline *outline)
{
    const struct part *part = m->part;
    struct polygon_check check = polygon_check(m->arena, part->points, part->point_count);
    if (check.fault != POLYGON_GOOD)
        return refuse_points(m, check);
    *outline = polygon_outline(m->arena, part->points, part->point_count);
    return true;
}

static bool by_corners(const struct measuring *m, struct outline *outline)
{
    double side = m->part->size_m[DIM_SIDE];
    if (m->part->corners == 0 && side == 0)
        return measuring_refuse(m, "points", "points, or corners and side", "none");
    if (m->part->corners < 3)
        return measuring_refuse(m, "corners", "at least three corners", "%d", m->part->corners);
    if (!(side > 0))
        return measuring_refuse(m, "side", "a length above 0", "none");
    *outline = outline_regular(m->part->corners, side);
    return true;
}

bool polygon_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    struct outline outline = {0};
    bool points = m->part->point_count > 0;
    if (points && (m->part->corners > 0 || m->part->size_m[DIM_SIDE] > 0))
        return measuring_refuse(m, m->part->corners > 0 ? "corners" : "side",
                                "either points, or corners and side", "both");
    if (!(points ? by_points(m, &outline) : by_corners(m, &outline)))
        return false;
    return flat_areas(m, &outline, area_m2);
}

bool disc_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    double diameter = m->part->size_m[DIM_DIAMETER], hole = m->part->size_m[DIM_HOLE];
    if (hole >= diameter)
        return measuring_refuse(m, "hole", "a hole smaller than the disc", "%s",
                                length_format(hole, m->units).text);
    struct outline outline = outline_circle(diameter, hole);
    return flat_areas(m, &outline, area_m2);
}

bool frame_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const double *size = m->part->size_m;
    double length = size[DIM_LENGTH], width = size[DIM_WIDTH], member = size[DIM_MEMBER];
    if (2 * member >= fmin(length, width))
        return measuring_refuse(m, "member", "a member narrower than half the frame", "%s",
                                length_format(member, m->units).text);
    double run = length + width - 2 * member; /* half the middle line of the members */
    area_m2[REGION_FACE] = area_m2[REGION_BACK] = 2 * member * run;
    area_m2[REGION_EDGES] = 4 * run * size[DIM_THICKNESS];
    return true;
}

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
