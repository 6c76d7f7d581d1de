/* What flat shapes share. */
#ifndef SURFACE_FLAT_H
#define SURFACE_FLAT_H

#include "surface/shape.h"

struct flat {
    double face_m2, strip_m2;
    double rest_m; /* height of the edge below the strip */
};

/* What the part's chamfer or roundover makes of the face; false when it is too deep. Uses up the outline. */
bool flat_work(const struct measuring *m, struct outline *outline, struct flat *flat);

/* Face, back and edges of a flat part without ends. */
bool flat_areas(const struct measuring *m, struct outline *outline, double area_m2[REGION_COUNT]);

#endif
