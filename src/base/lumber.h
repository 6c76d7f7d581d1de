/* Lumber by its trade size -> what it measures when dressed. */
#ifndef BASE_LUMBER_H
#define BASE_LUMBER_H

#include "base/err.h"

struct lumber {
    double thickness_m;
    double width_m; /* 0: hardwood by thickness, the width is not said */
};

/* Dressed dry softwood `1x4`, `2 x 6`, `5/4x6` (PS 20); hardwood thickness `4/4`, `5/4 rough`, `8/4 surfaced`
 * (NHLA; without a word: surfaced two sides, since a part to be coated is planed). */
bool lumber_parse(const char *text, struct lumber *lumber, struct err *fault);

#endif
