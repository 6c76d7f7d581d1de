/* A box by its outside. Outside: the full outer rectangle of every closed side (front and back length x height, left
 * and right width x height, top and bottom length x width). Inside: each closed side takes one thickness off the
 * measure across it, and shows the rectangle of what is left. Edges: in the plane of every open side the outer
 * rectangle less the inner one, which is the rim of the walls that end there; where two open sides meet there is
 * no wall, and so no rim. */
#include "surface/shape.h"

struct extent {
    double length, width, height;
};

static double rectangle(struct extent e, enum box_side side)
{
    if (side == BOX_FRONT || side == BOX_BACK)
        return e.length * e.height;
    if (side == BOX_LEFT || side == BOX_RIGHT)
        return e.width * e.height;
    return e.length * e.width;
}

static int closed(unsigned open, unsigned one, unsigned other)
{
    return !(open & one) + !(open & other);
}

bool box_areas(const struct measuring *m, double area_m2[REGION_COUNT])
{
    const double *size = m->part->size_m;
    unsigned open = m->part->open;
    double thick = size[DIM_THICKNESS];
    struct extent outer = {size[DIM_LENGTH], size[DIM_WIDTH], size[DIM_HEIGHT]};
    struct extent inner = {outer.length - thick * closed(open, BOX_LEFT, BOX_RIGHT),
                           outer.width - thick * closed(open, BOX_FRONT, BOX_BACK),
                           outer.height - thick * closed(open, BOX_TOP, BOX_BOTTOM)};
    if (!(inner.length > 0) || !(inner.width > 0) || !(inner.height > 0))
        return measuring_refuse(m, "thickness", "walls that leave room inside", "%s",
                                length_format(thick, m->units).text);
    for (unsigned side = BOX_FRONT; side <= BOX_BOTTOM; side <<= 1) {
        double out = rectangle(outer, side), in = rectangle(inner, side);
        if (open & side) {
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
