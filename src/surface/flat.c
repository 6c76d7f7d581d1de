/* Flat parts: two faces of one outline, and edges as high as the part is thick. */
#include "surface/flat.h"

#include "base/err.h"
#include "surface/outline.h"

#include <math.h>
#include <stdio.h>

/* A length rounded by its unit may miss the exact limit by this share. */
static const double tolerance = 1e-9;

static bool refuse_depth(const struct measuring *m, enum dimension work, const char *limit, double limit_m)
{
    char expected[ERR_EXPECTED_SIZE];
    snprintf(expected, sizeof expected, "at most %s: %s", length_format(limit_m, m->units).text, limit);
    return measuring_refuse(m, dimension_column(work), expected, "%s",
                            length_format(m->part->size_m[work], m->units).text);
}

bool flat_work(const struct measuring *m, struct outline *outline, struct flat *flat)
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

bool flat_areas(const struct measuring *m, struct outline *outline, double area_m2[REGION_COUNT])
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
