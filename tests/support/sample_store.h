/* A two-part finish 3:1 with packs and kits, in a job with a shelf. It points into itself: do not copy it. */
#ifndef TESTS_SAMPLE_STORE_H
#define TESTS_SAMPLE_STORE_H

#include "amount/buy.h"

struct sample_store {
    struct pack oil[3], hardener[2];
    double contents[2][2];
    struct kit kits[2];
    struct component components[2];
    struct finish finish;
    struct stock stock[3];
    struct job job;
    struct need need;
};

enum { LAST_DAY = 20000 };

/* Oil in 375 ml, 1 l, 2.75 l, hardener in 125 ml, 1 l, which keeps 90 d once opened; a set of 500 ml that is not yet
 * offered; a need of 1 l with a tenth in reserve, the last coat on LAST_DAY. */
void sample_store(struct sample_store *s);

#endif
