#include "surface/shape.h"

#include "base/err.h"

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
