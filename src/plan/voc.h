/* What the coats of a job give off, against the limits of paints and varnishes. */
#ifndef PLAN_VOC_H
#define PLAN_VOC_H

#include "plan/plan.h"

/* One sentence without its rider: each finish as used (thinned at its most) against EU 2004/42 and 40 CFR 59, and the
 * grams of all coats. NULL: nothing gives off any. */
const char *voc_words(struct arena *arena, const struct operations *operations);

/* Grams of VOC of all coats, thinner counted; finishes whose VOC is not known count for nothing. */
double voc_total_g(const struct operations *operations);

#endif
