/* Reads scheduling problems as networks: PSPLIB single mode (.sm) and RCPSP/max (.SCH). The formats are described by
 * R. Kolisch, A. Sprecher, PSPLIB, EJOR 96 (1997), and C. Schwindt, ProGen/max (1998). */
#ifndef TESTS_PSPLIB_H
#define TESTS_PSPLIB_H

#include <stdbool.h>
#include <stdio.h>

#include "solver/network.h"

/* The problem with all times multiplied; its goal is the start of the last activity. False: not such a file. */
bool psplib_read(struct network *net, struct arena *arena, FILE *file, bool with_lags, int32_t times);

/* The same problem with its operations in another order (seeded). */
void psplib_renumber(const struct network *from, struct network *into, struct arena *arena, uint64_t *seed);

#endif
