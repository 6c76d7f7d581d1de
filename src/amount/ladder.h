/* For the hand that pours: when a little more or less of the largest component stands in the cup than was asked, how
 * much of the others belongs to it. */
#ifndef AMOUNT_LADDER_H
#define AMOUNT_LADDER_H

#include "amount/mix.h"

enum { LADDER_RUNGS = 5 };

struct rung {
    bool asked;    /* the mix itself, as weighed */
    double *grams; /* by pour of the mix, multiples of the scale's step */
};

/* Rungs about 2 % apart around the mix, in whole steps of the scale; those whose rounding would break the tolerance
 * are left out. Returns their number; 0 where nothing is poured together. */
size_t ladder_make(struct arena *arena, const struct finish *finish, const struct mix *mix,
                   struct rung rungs[LADDER_RUNGS]);

/* The pour that goes into the cup first. */
const struct pour *mix_first_pour(const struct mix *mix);

#endif
