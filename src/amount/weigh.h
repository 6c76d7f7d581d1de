/* Which steps of the scale come nearest to a ratio. Knows masses and tolerance, not what they are for. */
#ifndef AMOUNT_WEIGH_H
#define AMOUNT_WEIGH_H

#include "finish/finish.h"

struct arena;

struct weighing {
    const double *steps; /* of each component, whole numbers */
    double exact_l;      /* the volume to which the exact masses belong: asked, or raised */
    double made_l;       /* as weighed */
    double error; /* share, component to first component, the largest; infinite: nothing of the first */
    bool within, raised;
};

/* For `litres` of mixed finish, without thinner. */
struct weighing weigh(struct arena *arena, const struct finish *finish, double litres, double scale_g);

#endif
