/* What a finish can do to the hand, the lungs and the shop, by the names of the finish files; a report has the sentences. */
#ifndef FINISH_CAUTION_H
#define FINISH_CAUTION_H

#include "finish/finish.h"

enum { CAUTION_COUNT = 14 };

/* "oily-rags", "vapour", ... in the order in which they are said. */
extern const char *const caution_names[CAUTION_COUNT];
bool caution_known(const char *name);

/* Whether a finish has the caution of that name. */
bool finish_warns_of(const struct finish *finish, const char *name);

#endif
