/* A mix without a job, for the can on the bench: so many litres, enough for an area, or the most that is in a can. */
#ifndef PLAN_LONE_H
#define PLAN_LONE_H

#include "amount/coat.h"
#include "amount/mix.h"

enum lone_by { LONE_VOLUME, LONE_AREA, LONE_HAVE };

struct lone_want {
    const struct finish *finish; /* or the recipe of a cut */
    const struct shop *shop;
    enum lone_by by;
    double amount;    /* l of mix (finish and thinner), m2, or g of a component */
    size_t component; /* LONE_HAVE: which */
    enum tool tool;
    const struct wood *wood; /* NULL: closed grain */
    bool later;              /* on a film; else on bare wood */
    double thin, scale_g, temperature_c;
    double cut_lb, from_lb; /* of shellac; 0: no recipe, of flakes */
};

enum { LONE_MIXES_MOST = 100, LONE_WARNINGS_MOST = 4 };

struct lone_mix {
    struct lone_want want;
    int count;              /* mixes of this size, one after the other: as few as can be laid */
    const struct mix *mix;  /* each */
    struct litre_term term; /* LONE_AREA: the arithmetic; its surface is NULL */
    double loss_l;          /* LONE_AREA: what stays in the tool */
    double laying_min;      /* of one mix: of a volume those of the area that it covers */
    struct mix_warning warnings[LONE_WARNINGS_MOST];
    size_t warning_count;
    bool sound; /* it can be weighed, and used before it is dead */
};

/* NULL: it takes more than LONE_MIXES_MOST mixes. What is asked must be above 0, and hold a step of the scale. */
struct lone_mix *lone_mix_make(struct arena *arena, const struct lone_want *want);

/* The largest volume up to `most_l` that one pot can hold and still be laid while it lives. */
double lone_largest_l(const struct lone_want *want, double most_l);

#endif
