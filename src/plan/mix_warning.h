/* What is wrong with a mix, of a plan or of a can alone: values, which a report says. */
#ifndef PLAN_MIX_WARNING_H
#define PLAN_MIX_WARNING_H

#include "amount/mix.h"

enum mix_warning_kind {
    MIX_WARNING_DEAD, /* its pot life ends before the induction, or before the gun is clean: `working_min` is not 0 */
    MIX_WARNING_PART,  /* one part takes `minutes`, longer than `working_min` */
    MIX_WARNING_SCALE, /* steps of `scale_g` cannot keep the ratio */
    MIX_WARNING_CUP, /* `mass_g` in one cup heats itself and lives `minutes`; in a shallow tray `pot_life_min` */
    MIX_WARNING_LITTLE, /* `mass_g` of `component` is too little to be weighed in steps of `scale_g` */
    MIX_WARNING_SPLIT /* `volume_l` in one pot lives `pot_life_min` and takes `minutes` by `tool`: `count` mixes */
};

/* What the kind does not need is 0. */
struct mix_warning {
    enum mix_warning_kind kind;
    const struct finish *finish;
    int coat;          /* 0: a mix alone, */
    const char *piece; /* and then NULL */
    double temperature_c, minutes, working_min, pot_life_min;
    double mass_g, scale_g, volume_l;
    int count;
    size_t component;
    enum tool tool;
};

/* Whether so much of it in one cup lives shorter than its pot life in a tray; then fills in the warning. */
bool mix_warns_of_cup(const struct finish *finish, const struct mix *mix, struct mix_warning *warning);

#endif
