#include "surface/shape.h"

#include "base/err.h"
#include "surface/sum.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

enum { MOST_NEEDS = 4 };

struct shape_rule {
    bool (*areas)(const struct measuring *m, double area_m2[REGION_COUNT]);
    size_t need_count;
    enum dimension needs[MOST_NEEDS];
    unsigned may; /* further dimensions, as bits */
};

#define BIT(dimension) (1u << (dimension))
#define WORKED (BIT(DIM_CHAMFER) | BIT(DIM_ROUNDOVER))
#define SIDES (BIT(DIM_A) | BIT(DIM_B) | BIT(DIM_C))

static const struct shape_rule rules[SHAPE_COUNT] = {
    [SHAPE_BOARD] = {board_areas, 3, {DIM_LENGTH, DIM_WIDTH, DIM_THICKNESS}, WORKED},
    [SHAPE_TRIANGLE] = {triangle_areas, 1, {DIM_THICKNESS}, SIDES | BIT(DIM_BASE) | BIT(DIM_HEIGHT) | WORKED},
    [SHAPE_POLYGON] = {polygon_areas, 1, {DIM_THICKNESS}, BIT(DIM_SIDE) | WORKED},
    [SHAPE_DISC] = {disc_areas, 2, {DIM_DIAMETER, DIM_THICKNESS}, BIT(DIM_HOLE) | WORKED},
    [SHAPE_ROUND] = {round_areas, 2, {DIM_DIAMETER, DIM_LENGTH}, 0},
    [SHAPE_TAPER] = {taper_areas, 2, {DIM_WIDTH, DIM_LENGTH}, BIT(DIM_WIDTH2)},
    [SHAPE_CONE] = {cone_areas, 2, {DIM_DIAMETER, DIM_LENGTH}, BIT(DIM_DIAMETER2)},
    [SHAPE_TURNING] = {turning_areas, 0, {0}, 0},
    [SHAPE_MOULDING] = {moulding_areas, 2, {DIM_GIRTH, DIM_LENGTH}, 0},
    [SHAPE_FRAME] = {frame_areas, 4, {DIM_LENGTH, DIM_WIDTH, DIM_MEMBER, DIM_THICKNESS}, 0},
    [SHAPE_BOX] = {box_areas, 4, {DIM_LENGTH, DIM_WIDTH, DIM_HEIGHT, DIM_THICKNESS}, 0},
    [SHAPE_MESH] = {mesh_areas, 0, {0}, 0},
    [SHAPE_AREA] = {plain_areas, 0, {0}, 0},
};

struct measuring measuring_of(struct arena *arena, const struct job *job, const struct part *part,
                              struct err_list *errors)
{
    return (struct measuring){arena, job, part, job->inches ? UNITS_US : UNITS_METRIC, errors};
}

bool measuring_refuse(const struct measuring *m, const char *column, const char *expected,
                      const char *found_format, ...)
{
    struct job_pointer pointer;
    char found[ERR_FOUND_SIZE];
    va_list arguments;
    va_start(arguments, found_format);
    vsnprintf(found, sizeof found, found_format, arguments);
    va_end(arguments);
    const char *file = job_part_place(m->job, m->part, column, &pointer);
    err_add(m->errors, ERR_INPUT, file, pointer.text, expected, found);
    return false;
}

/* What the shape needs is there, and nothing that it does not know. */
static bool dimensions_fit(const struct measuring *m, const struct shape_rule *rule)
{
    unsigned known = rule->may;
    bool good = true;
    for (size_t i = 0; i < rule->need_count; i++) {
        enum dimension need = rule->needs[i];
        known |= BIT(need);
        if (!(m->part->size_m[need] > 0))
            good = measuring_refuse(m, dimension_name(need), "a length above 0", "none");
    }
    if (m->part->corners != 0 && m->part->shape != SHAPE_POLYGON)
        good = measuring_refuse(m, "corners", "no corners: only a polygon has them", "%d", m->part->corners);
    for (enum dimension d = 0; d < DIM_COUNT; d++) {
        char expected[ERR_EXPECTED_SIZE];
        if (m->part->size_m[d] == 0 || (known & BIT(d)))
            continue;
        snprintf(expected, sizeof expected, "no %s: the shape %s has none", dimension_name(d),
                 shape_name(m->part->shape));
        good = measuring_refuse(m, dimension_name(d), expected, "%s",
                                length_format(m->part->size_m[d], m->units).text);
    }
    return good;
}

static bool add_grooves(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const struct part *part = m->part;
    if (part->groove_count > 0 && !(shape_regions(part->shape) & (1u << REGION_FACE)))
        return measuring_refuse(m, "grooves", "none: the shape has no face", "%zu", part->groove_count);
    for (size_t i = 0; i < part->groove_count; i++) {
        const struct groove *groove = &part->grooves[i];
        area_m2[REGION_FACE] += groove->count * groove->length_m * groove->girth_m;
    }
    return true;
}

bool shape_measure(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const struct shape_rule *rule = &rules[m->part->shape];
    for (enum region r = 0; r < REGION_COUNT; r++)
        area_m2[r] = 0;
    return dimensions_fit(m, rule) && rule->areas(m, area_m2) && add_grooves(m, area_m2);
}

/* Round and drawn-out parts: one surface around, and two ends. */

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

/* The walls at the low and the high end of a measure. */
struct across {
    enum dimension measure;
    unsigned low, high;
};

static const struct across length = {DIM_LENGTH, BOX_LEFT, BOX_RIGHT};
static const struct across width = {DIM_WIDTH, BOX_FRONT, BOX_BACK};
static const struct across height = {DIM_HEIGHT, BOX_BOTTOM, BOX_TOP};

/* What runs along a side, and what up. */
static const struct across *along(enum box_side side)
{
    return side == BOX_LEFT || side == BOX_RIGHT ? &width : &length;
}

static const struct across *up(enum box_side side)
{
    return side == BOX_TOP || side == BOX_BOTTOM ? &width : &height;
}

struct box_face box_outer(const struct part *part, enum box_side side)
{
    return (struct box_face){part->size_m[along(side)->measure], part->size_m[up(side)->measure], 0, 0};
}

static double wall(const struct part *part, unsigned side)
{
    return part->open & side ? 0 : part->size_m[DIM_THICKNESS];
}

static double between(const struct part *part, const struct across *a)
{
    return part->size_m[a->measure] - (wall(part, a->low) + wall(part, a->high));
}

struct box_face box_inner(const struct part *part, enum box_side side)
{
    const struct across *a = along(side), *u = up(side);
    return (struct box_face){between(part, a), between(part, u), wall(part, a->low), wall(part, u->low)};
}

bool box_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const struct part *part = m->part;
    if (!(between(part, &length) > 0) || !(between(part, &width) > 0) || !(between(part, &height) > 0))
        return measuring_refuse(m, "thickness", "walls that leave room inside", "%s",
                                length_format(part->size_m[DIM_THICKNESS], m->units).text);
    for (unsigned side = BOX_FRONT; side <= BOX_BOTTOM; side <<= 1) {
        struct box_face outer = box_outer(part, side), inner = box_inner(part, side);
        double out = outer.width_m * outer.height_m, in = inner.width_m * inner.height_m;
        if (part->open & side) {
            area_m2[REGION_EDGES] += out - in;
            continue;
        }
        area_m2[REGION_OUTSIDE] += out;
        area_m2[REGION_INSIDE] += in;
    }
    if (area_m2[REGION_OUTSIDE] == 0)
        return measuring_refuse(m, "open", "at least one closed side", "six open ones");
    return true;
}
