/* What a finish can do to the hand, the lungs and the shop: sentences with their sources. None of it replaces the data
 * sheet: whoever prints a caution adds caution_rider. */
#ifndef FINISH_CAUTION_H
#define FINISH_CAUTION_H

#include "finish/finish.h"

struct caution {
    const char *word;   /* as in the finish files: "oily-rags" */
    const char *text;   /* a sentence without its full stop */
    const char *source; /* document, place, year; or "common practice, from memory" */
};

/* NULL: unknown. */
const struct caution *caution_find(const char *word);
const struct caution *caution_table(size_t *count);

/* Whether a finish has the caution of that word. */
bool finish_warns_of(const struct finish *finish, const char *word);

/* "the data sheet and local rules decide" */
const char *caution_rider(void);

#endif
