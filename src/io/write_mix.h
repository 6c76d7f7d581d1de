/* JSON of `mix`. Thinner comes last, as component "thinner". */
#ifndef IO_WRITE_MIX_H
#define IO_WRITE_MIX_H

#include "io/json_write.h"
#include "plan/plan.h"

void write_mix(struct json_write *w, const char *key, const struct job *job, const struct mix_cards *cards);

/* A mix without a job: coat, minutes and moments are null. */
void write_mix_alone(struct json_write *w, const struct finish *finish, const struct mix *mix,
                     const char *const *warnings, size_t warning_count);

#endif
