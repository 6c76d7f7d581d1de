/* Parts as rows of tables: the shorthand of the tests of shapes. */
#ifndef TESTS_SHAPE_ROWS_H
#define TESTS_SHAPE_ROWS_H

#include "check.h"
#include "job/job.h"

#define PI 3.14159265358979323846
#define ROOT2 1.41421356237309504880
#define ROOT3 1.73205080756887729353

#define LWT(l, w, t) [DIM_LENGTH] = (l), [DIM_WIDTH] = (w), [DIM_THICKNESS] = (t)
#define ABC(a, b, c, t) [DIM_A] = (a), [DIM_B] = (b), [DIM_C] = (c), [DIM_THICKNESS] = (t)
#define POINTS(table) .points = (table), .point_count = sizeof(table) / sizeof(table)[0]
#define GROOVES(table) .grooves = (table), .groove_count = sizeof(table) / sizeof(table)[0]

/* An L: 100 x 100 less 60 x 60. */
static const struct point l_shape[] = {{0, 0}, {0.1, 0}, {0.1, 0.04}, {0.04, 0.04}, {0.04, 0.1}, {0, 0.1}};
/* All sides 100 long. */
static const struct point kite[] = {{0, 0.06}, {0.08, 0}, {0.16, 0.06}, {0.08, 0.12}};
/* 100 of diameter 50, a shoulder down to 30, then a point 20 on. */
static const struct point stepped[] = {{0, 0.05}, {0.1, 0.05}, {0.1, 0.03}, {0.12, 0}};
static const struct groove two_grooves[] = {{2, 0.5, 0.012}, {1, 0.25, 0.02}};

struct area_row {
    struct row row;
    struct part part;
    double want_m2[REGION_COUNT];
};

/* Parts of every shape with their areas, worked by hand. */
extern const struct area_row area_rows[];
extern const size_t area_row_count;
#define AREA_ROWS(judge)                                                                                     \
    (struct check_set)                                                                                       \
    {                                                                                                        \
        "areas", judge, area_rows, area_row_count, sizeof area_rows[0]                                       \
    }

/* A job with a part list of its own, in millimetres. */
static const struct job list = {.file = "job.json", .parts_file = "parts.csv"};

#endif
