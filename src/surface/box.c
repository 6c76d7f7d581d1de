#include "surface/box.h"

#include "surface/shape.h"

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
