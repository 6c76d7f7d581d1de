#include "job/part.h"

#include "base/text.h"

const char *const region_names[REGION_COUNT] = {
    [REGION_FACE] = "face", [REGION_BACK] = "back",     [REGION_EDGES] = "edges",
    [REGION_ENDS] = "ends", [REGION_INSIDE] = "inside", [REGION_OUTSIDE] = "outside",
};

enum {
    FACE = 1 << REGION_FACE,
    BACK = 1 << REGION_BACK,
    EDGES = 1 << REGION_EDGES,
    ENDS = 1 << REGION_ENDS,
    INSIDE = 1 << REGION_INSIDE,
    OUTSIDE = 1 << REGION_OUTSIDE,
};

static const struct {
    const char *name;
    unsigned regions;
} shapes[SHAPE_COUNT] = {
    [SHAPE_BOARD] = {"board", FACE | BACK | EDGES | ENDS},
    [SHAPE_TRIANGLE] = {"triangle", FACE | BACK | EDGES},
    [SHAPE_POLYGON] = {"polygon", FACE | BACK | EDGES},
    [SHAPE_DISC] = {"disc", FACE | BACK | EDGES},
    [SHAPE_ROUND] = {"round", FACE | ENDS},
    [SHAPE_TAPER] = {"taper", FACE | ENDS},
    [SHAPE_CONE] = {"cone", FACE | ENDS},
    [SHAPE_TURNING] = {"turning", FACE | ENDS},
    [SHAPE_MOULDING] = {"moulding", FACE},
    [SHAPE_FRAME] = {"frame", FACE | BACK | EDGES},
    [SHAPE_BOX] = {"box", OUTSIDE | INSIDE | EDGES},
    [SHAPE_MESH] = {"mesh", FACE},
    [SHAPE_AREA] = {"area", FACE | BACK | EDGES | ENDS | INSIDE | OUTSIDE},
};

/* By the columns of the part list; the three sides of a triangle stand in one. */
static const char *const dimension_names[DIM_COUNT] = {
    [DIM_LENGTH] = "length",
    [DIM_WIDTH] = "width",
    [DIM_THICKNESS] = "thickness",
    [DIM_HEIGHT] = "height",
    [DIM_DIAMETER] = "diameter",
    [DIM_DIAMETER2] = "diameter2",
    [DIM_HOLE] = "hole",
    [DIM_WIDTH2] = "width2",
    [DIM_MEMBER] = "member",
    [DIM_GIRTH] = "girth",
    [DIM_BASE] = "base",
    [DIM_SIDE] = "side",
    [DIM_A] = "sides",
    [DIM_B] = "sides",
    [DIM_C] = "sides",
    [DIM_CHAMFER] = "chamfer",
    [DIM_ROUNDOVER] = "roundover",
};

const char *region_name(enum region region)
{
    return region_names[region];
}

bool region_find(const char *word, enum region *region)
{
    for (int i = 0; i < REGION_COUNT; i++)
        if (text_same(region_names[i], word)) {
            *region = (enum region)i;
            return true;
        }
    return false;
}

bool region_is_rim(enum region region)
{
    return region == REGION_EDGES || region == REGION_ENDS;
}

const struct wood *part_wood_at(const struct part *part, enum region region)
{
    return part->core && region_is_rim(region) ? part->core : part->wood;
}

const char *shape_name(enum shape shape)
{
    return shapes[shape].name;
}

bool shape_find(const char *word, enum shape *shape)
{
    for (int i = 0; i < SHAPE_COUNT; i++)
        if (text_same(shapes[i].name, word)) {
            *shape = (enum shape)i;
            return true;
        }
    return false;
}

const char *dimension_name(enum dimension dimension)
{
    return dimension_names[dimension];
}

unsigned shape_regions(enum shape shape)
{
    return shapes[shape].regions;
}

static const double large_face_m2 = 0.1; /* common practice, from memory */

bool part_has_large_faces(const struct part *part)
{
    return part->shape == SHAPE_BOARD && part->schedule[REGION_FACE] >= 0 &&
           part->schedule[REGION_BACK] >= 0 &&
           part->size_m[DIM_LENGTH] * part->size_m[DIM_WIDTH] > large_face_m2;
}
