/* What a finish can do to the hand, the lungs and the shop, in sentences with their sources. None of it replaces the data
 * sheet: whoever prints a caution adds caution_rider. */
#ifndef REPORT_CAUTIONS_H
#define REPORT_CAUTIONS_H

#include "plan/caution.h"

struct caution {
    const char *name;   /* as in the finish files: "oily-rags" */
    const char *text;   /* a sentence without its full stop */
    const char *source; /* document, place, year; or "common practice, from memory" */
};

/* NULL: unknown. */
const struct caution *caution_find(const char *name);

/* "the data sheet and local rules decide" */
const char *caution_rider(void);

/* A caution of a plan: a sentence without its full stop and rider. */
const char *plan_caution_words(struct arena *arena, const struct plan_caution *caution);

#endif
