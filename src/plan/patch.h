/* Parts of a job as the JSON that its file would hold: what a merge patch (RFC 7396) has to spell out. */
#ifndef PLAN_PATCH_H
#define PLAN_PATCH_H

#include "base/buf.h"
#include "job/job.h"

/* A JSON string with its quotes (RFC 8259). */
void patch_string(struct buf *out, const char *text);
/* The whole list of steps of a schedule, every key that the reader would set written out. */
void patch_steps(struct buf *out, const struct schedule *schedule);
/* The whole list of the air, dated entries too. */
void patch_air(struct buf *out, const struct air_year *air);
/* {"mon": ["08:00-12:00", ...], ...} of the days given as bits, Monday first. */
void patch_hours(struct buf *out, const struct shop *shop, unsigned days);

#endif
