/* The arithmetic of a part, for whoever wants to check it with a pencil. */
#ifndef REPORT_EXPLAIN_H
#define REPORT_EXPLAIN_H

#include "base/measure.h"
#include "job/job.h"

struct buf;
struct err_list;

/* Adds lines of at most 80 columns for a person: each region's formula, the numbers in it in mm or in inches, what grooves add and what is covered, and what all qty together come to and get. False, and nothing added, when
 * the part's sizes are impossible: the mistakes are in `errors`. */
bool part_explain(struct buf *text, const struct job *job, const struct part *part, enum unit_system units,
                  struct err_list *errors);

#endif
