/* The cautions of a job: each once, with the finishes that it is about, and the vapour of its largest coat. */
#ifndef PLAN_CAUTION_H
#define PLAN_CAUTION_H

#include "finish/vapour.h"
#include "timetable/operations.h"

enum plan_caution_kind {
    PLAN_CAUTION_FINISH, /* `finishes` have the caution `name` */
    PLAN_CAUTION_CUP,    /* `mass_g` of the first finish, which heats itself, in one mix */
    PLAN_CAUTION_VAPOUR, /* what the `coat` that frees the most gives off */
    PLAN_CAUTION_VOC,    /* `mass_g` of all coats, of `finishes`, each thinned by `thin` at the most */
    PLAN_CAUTION_DUST    /* wood is sanded */
};

struct plan_caution {
    enum plan_caution_kind kind;
    const char *name;
    bool sprayed; /* one of the finishes at least, here */
    const struct finish *const *finishes;
    const double *thin; /* litres to a litre of each */
    size_t finish_count;
    const struct operation *coat;
    struct vapour vapour;
    double mass_g;
};

#endif
