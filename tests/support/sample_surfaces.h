/* One piece with one schedule and surfaces written by hand, for the amounts. It points into itself: do not copy it. */
#ifndef TESTS_SAMPLE_SURFACES_H
#define TESTS_SAMPLE_SURFACES_H

#include "amount/coat.h"

enum { SAMPLE_PARTS = 4 };

struct sample_surfaces {
    struct finish finish;
    struct step step;
    struct schedule schedule;
    struct piece piece;
    struct part parts[SAMPLE_PARTS];
    struct surface items[SAMPLE_PARTS * REGION_COUNT];
    struct surfaces surfaces;
    struct job job;
    struct pass pass; /* SIDE_ALL */
    struct coat coat; /* the first, on bare wood */
};

/* No surfaces yet; the finish is a copy, laid by its usual tool. Shop and rates are the defaults. */
void sample_surfaces(struct sample_surfaces *s, struct finish finish);

/* A part of that shape and wood (NULL: not given), 1.2 m x 300 mm x 20 mm, qty 1; its index. */
size_t sample_add_part(struct sample_surfaces *s, enum shape shape, const char *wood);
/* A region of a part, scheduled, in the order of parts. */
void sample_add_surface(struct sample_surfaces *s, size_t part, enum region region, double area_m2);

#endif
