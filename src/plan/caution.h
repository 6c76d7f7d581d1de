/* The cautions of a job: each once, with the finishes that it is about, and the most vapour that is in the air at once. */
#ifndef PLAN_CAUTION_H
#define PLAN_CAUTION_H

#include "finish/caution.h"
#include "finish/vapour.h"
#include "timetable/operations.h"

enum plan_caution_kind {
    PLAN_CAUTION_FINISH,    /* `finishes` have the caution `name` */
    PLAN_CAUTION_BREATHING, /* whoever lays `finishes` breathes through `breathing` */
    PLAN_CAUTION_VAPOUR,    /* what `coats` that are wet at once give off */
    PLAN_CAUTION_VOC,       /* `mass_g` of all coats, of `finishes`, each thinned by `thin` at the most */
    PLAN_CAUTION_DUST,      /* wood is sanded; with `supplied_air` no other respirator is named */
    PLAN_CAUTION_SELF_HEATING, /* the sanding dust of `finishes` heats up by itself, `sprayed` their overspray too */
    PLAN_CAUTION_ONE_BOOTH, /* `lacquers` are sprayed beside `finishes`, whose residue must not lie with theirs */
    PLAN_CAUTION_STRIPPING /* an old finish is taken off */
};

struct plan_caution {
    enum plan_caution_kind kind;
    const char *name;
    bool sprayed; /* one of the finishes at least, here */
    bool supplied_air;
    enum breathing breathing;
    enum country country; /* whose limits of VOC hold */
    const struct finish *const *finishes, *const *lacquers;
    const double *thin; /* litres to a litre of each */
    size_t finish_count, lacquer_count;
    const struct operation *const *coats; /* of other jobs in the shop, too */
    size_t coat_count;
    const struct vapour *vapours; /* a sum for each solvent */
    size_t vapour_count;
    double mass_g;
};

#endif
