/* The formulas of each shape; inside this room. */
#ifndef REPORT_EXPLAIN_SHAPE_H
#define REPORT_EXPLAIN_SHAPE_H

#include "report/formula.h"
#include "surface/shape.h"

/* A part, its regions as measured (nothing covered, no grooves), and the names of its sizes set in `formula`. */
struct explaining {
    const struct measuring *m;
    const double *area_m2;
    struct formula *formula;
};

/* Adds a line for a region. */
void explain_region(const struct explaining *e, enum region region, const char *pattern);

void explain_board(const struct explaining *e);
void explain_triangle(const struct explaining *e);
void explain_polygon(const struct explaining *e);
void explain_disc(const struct explaining *e);
void explain_turning(const struct explaining *e);
void explain_box(const struct explaining *e);

#endif
