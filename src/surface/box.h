/* A box by its outside. Outside: the full outer rectangle of every closed side (front and back length x height, left
 * and right width x height, top and bottom length x width). Inside: each closed side takes one thickness off the
 * measure across it, and shows the rectangle of what is left. Edges: in the plane of every open side the outer
 * rectangle less the inner one, which is the rim of the walls that end there; where two open sides meet there is
 * no wall, and so no rim. */
#ifndef SURFACE_BOX_H
#define SURFACE_BOX_H

#include "job/part.h"

/* The rectangle that a side shows, and how far the inner one lies from the outer one's left and low edges. */
struct box_face {
    double width_m, height_m;
    double left_m, low_m;
};

struct box_face box_outer(const struct part *part, enum box_side side);
struct box_face box_inner(const struct part *part, enum box_side side);

#endif
