/* Sentences about a mix that its card and the mix without a job share. */
#ifndef PLAN_MIX_WORDS_H
#define PLAN_MIX_WORDS_H

#include "amount/mix.h"

/* What a dead pot leaves no time for: "its induction ends", "the gun is clean". */
const char *mix_too_late(const struct finish *finish, double temperature_c);

/* What heats itself lives shorter in one large cup than its pot life says; NULL: nothing to say. */
const char *mix_cup_warning(struct arena *arena, const struct finish *finish, const struct mix *mix);

#endif
