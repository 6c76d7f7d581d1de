/* Invented finishes that pass their own check, for tests to change one figure of. */
#ifndef TESTS_SAMPLE_H
#define TESTS_SAMPLE_H

#include "finish/finish.h"

/* One component; oxidation; brush and cloth; first 12, later 16 m2/l; times at 23 C 50 %. */
struct finish sample_varnish(void);

/* Two components 4:1 by volume, 1.20 and 0.95 kg/l; reaction; pot life 4 h at 21 C 50 %, tolerance 5 %; hvlp, brush. */
struct finish sample_two_part(void);

/* The two-part finish with other components: count 2 or 3, by volume. Points into itself: do not copy it. */
struct sample_recipe {
    struct component components[3];
    struct finish finish;
};

void sample_recipe(struct sample_recipe *r, size_t count, const double *parts, const double *densities);

#endif
