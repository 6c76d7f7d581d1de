/* From parts to surfaces: which region of which part gets which schedule, in m2. */
#ifndef SURFACE_TAKEOFF_H
#define SURFACE_TAKEOFF_H

#include "job/job.h"

struct arena;
struct err_list;

/* One region of one row of the part list, for all its qty together, covered area taken off. */
struct surface {
    size_t part; /* index into job->parts */
    enum region region;
    int schedule; /* SCHEDULE_NONE and SCHEDULE_BARE: stays bare */
    double area_m2;
};

struct surfaces {
    const struct surface *items; /* in file order, then by region */
    size_t count;
    double *by_schedule_m2; /* per job schedule */
    double finished_m2, bare_m2;
};

/* Areas of the regions of one part (one piece of it, nothing covered), in m2; regions the shape lacks are 0.
 * Impossible sizes are added to `errors` at the part's columns, and false returned. The arena is for scratch. */
bool part_areas(struct arena *arena, const struct job *job, const struct part *part,
                double area_m2[REGION_COUNT], struct err_list *errors);

/* The whole take-off; NULL when something was added to `errors`. Sums are compensated: the order of rows does not
 * change the printed digits. */
struct surfaces *surfaces_make(struct arena *arena, const struct job *job, struct err_list *errors);

#endif
