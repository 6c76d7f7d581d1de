/* What the shopping asks to be thought over, in sentences. */
#ifndef REPORT_BUY_WORDS_H
#define REPORT_BUY_WORDS_H

#include "base/measure.h"
#include "plan/plan.h"

/* "1 x 1 l + 1 x 250 ml", components named where there are several; "no pack" where nothing is bought. */
const char *packs_words(struct arena *arena, const struct purchase *purchase);

/* What is bought and on the shelf does not reach the high figure; with prices, what would and what it adds. NULL: it does. */
const char *high_words(struct arena *arena, const struct job *job, const struct purchase *purchase,
                       enum unit_system units);

/* The smaller reserve at which the packs would cost less. NULL: none down to half of it (less is no advice), or a colour,
 * whose reserve is not to be cut. */
const char *reserve_words(struct arena *arena, const struct job *job, const struct purchase *purchase);

/* What of a component is good as the job begins, and not counted since it is past its date by the finish's last coat.
 * NULL: nothing is. */
const char *shelf_words(struct arena *arena, const struct job *job, const struct purchase *purchase,
                        size_t component, enum unit_system units);

#endif
