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
    bool patch;        /* of the region that stands before it, which counts the area too */
    size_t first_part; /* parts of the piece in earlier rows, qty counted */
};

struct surfaces {
    const struct surface *items; /* in file order, then by region */
    size_t count;
    size_t *first,
        *next; /* per piece and per item: the piece's next one, `count` behind the last; may be left out */
    double *by_schedule_m2;      /* per job schedule */
    double finished_m2, bare_m2; /* a patch is part of its region */
};

/* Areas of the regions of one part (one piece of it, nothing covered), in m2; regions the shape lacks are 0.
 * Impossible sizes are added to `errors` at the part's columns, and false returned. The arena is for scratch. */
bool part_areas(struct arena *arena, const struct job *job, const struct part *part,
                double area_m2[REGION_COUNT], struct err_list *errors);

/* One flat part of the row: its face by its thickness by the density of the wood, that of the core under a veneer, in kg; 0 for
 * a shape without face or thickness. The arena is for scratch. */
double part_mass_kg(struct arena *arena, const struct job *job, const struct part *part,
                    struct err_list *errors);

/* The whole take-off; NULL when something was added to `errors`. Sums are compensated: the order of rows does not
 * change the printed digits. */
struct surfaces *surfaces_make(struct arena *arena, const struct job *job, struct err_list *errors);
/* The take-off that came with the job; made now where none did. */
const struct surfaces *surfaces_of(struct arena *arena, const struct job *job, struct err_list *errors);

/* A walk over the surfaces of one piece in file order: the first, and the one behind items[i]. Thousands of pieces are
 * walked in the time of their parts. Without `next` every surface comes by, the piece's own among them. */
size_t surfaces_first(const struct surfaces *surfaces, size_t piece);
size_t surfaces_next(const struct surfaces *surfaces, size_t i);

/* Sizes that are possible and yet look wrong: a lost decimal point, exchanged columns, another unit.
 * Adds warnings at the parts' columns, one per kind of doubt: for the first such part, and how many more there are.
 * Limits are common practice, from memory: no part of furniture is over 6 m; a list whose parts are nearly all under
 * 150 mm, and no board 2.5 mm thick, was meant in inches; a list in inches with half of its parts over 6 m, in mm.
 * Also reported: a chamfer or roundover that is only approximated, around an outline with re-entrant corners. */
void takeoff_doubts(const struct job *job, struct err_list *warnings);
/* "in" or "mm", where nearly the whole list looks as if it were meant in that; NULL: not so. */
const char *units_meant(const struct job *job);

/* What the parts of a piece from number `from` to before `to` cover of the rack: their share of what is given for it, or
 * of each part flat the largest region, standing the smallest upright projection (a shape without three extents as if
 * flat), hung nothing. */
double surfaces_footprint_m2(const struct surfaces *surfaces, const struct job *job, size_t piece,
                             size_t from, size_t to);

#endif
