/* JSON of `mix`. Thinner comes last, as component "thinner". */
#ifndef REPORT_WRITE_MIX_H
#define REPORT_WRITE_MIX_H

#include "format/json_write.h"
#include "plan/lone.h"
#include "plan/plan.h"

void write_mix(struct json_write *w, const char *key, const struct job *job, const struct mix_cards *cards);

/* A mix without a job: coat and moments are null, the minutes too unless an area was asked. */
void write_lone(struct json_write *w, const struct lone_mix *lone);

#endif
