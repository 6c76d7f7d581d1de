/* The cards of an area drawing: parts that are alike stand on one. Inside drawing_*.c. */
#ifndef REPORT_DRAWING_CARDS_H
#define REPORT_DRAWING_CARDS_H

#include "surface/sketch.h"
#include "surface/takeoff.h"

enum { CARDS_MOST = 400 }; /* of the rest only the number of parts is said */

/* What a region of all parts of a card gets. */
struct card_region {
    bool there;
    int schedule;
    double area_m2;
};

struct card {
    const struct part *part; /* the first of those that are alike */
    const char *piece;       /* "top", "base door 1 to 7", "top and 3 more" */
    size_t parts;            /* rows of the part list */
    int qty;
    struct card_region regions[REGION_COUNT];
    struct sketch sketch;
    double unit_per_m; /* of the drawing, 96 units to the inch */
    double ratio;      /* 1 to so many */
};

struct cards {
    struct card *items;
    size_t count;
    size_t left_out; /* parts */
};

/* In the order of the part list. Parts are alike that share name or the beginning of it, shape, sizes, wood, and what every
 * region of each one gets. Cards of one piece have one scale, the largest at which each fits into `width` and `height`; what
 * that leaves too small to see has one of its own. */
struct cards cards_make(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                        double width, double height);

#endif
