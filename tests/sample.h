/* Invented finishes that pass their own check, for tests to change one figure of. */
#ifndef TESTS_SAMPLE_H
#define TESTS_SAMPLE_H

#include "finish/finish.h"

/* One component; oxidation; brush and cloth; first 12, later 16 m2/l; times at 23 C 50 %. */
struct finish sample_varnish(void);

/* Two components 4:1 by volume, 1.20 and 0.95 kg/l; reaction; pot life 4 h at 21 C 50 %, tolerance 5 %; hvlp, brush. */
struct finish sample_two_part(void);

#endif
