/* Sizes that are possible and yet look wrong: a lost decimal point, exchanged columns, another unit. */
#ifndef SURFACE_DOUBT_H
#define SURFACE_DOUBT_H

#include "job/job.h"

struct err_list;

/* Adds warnings at the parts' columns, one per kind of doubt: for the first such part, and how many more there are.
 * Limits are common practice, from memory: no part of furniture is over 6 m; a list whose parts are nearly all under
 * 150 mm, and no board 2.5 mm thick, was meant in inches; a list in inches with half of its parts over 6 m, in mm.
 * Also told: a chamfer or roundover that is only approximated, around an outline with re-entrant corners. */
void takeoff_doubts(const struct job *job, struct err_list *warnings);

#endif
