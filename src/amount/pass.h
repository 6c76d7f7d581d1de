/* Where the hand works in one go: a piece's schedule, on one side of a flat piece or all round. */
#ifndef AMOUNT_PASS_H
#define AMOUNT_PASS_H

#include "surface/takeoff.h"

enum side { SIDE_ALL, SIDE_BACK, SIDE_FACE };

struct pass {
    const struct job *job;
    const struct surfaces *surfaces;
    size_t piece, schedule;
    enum side side; /* SIDE_BACK: back only; SIDE_FACE: everything else; SIDE_ALL: all of the schedule */
};

/* The next surface of a pass, *i (0 at first) behind it; NULL: no more. Surfaces of one part follow each other. */
const struct surface *pass_next(const struct pass *pass, size_t *i);

/* m2 of a pass; the number of parts (qty counted) that it touches. */
double pass_area_m2(const struct pass *pass);
int pass_parts(const struct pass *pass);

/* True when a piece laid flat has something scheduled on its back and on its face. */
bool piece_has_two_sides(const struct job *job, const struct surfaces *surfaces, size_t piece);

/* Minutes at a rate (enum work) over one surface: A x work / (rate x ease). */
double surface_minutes(const struct job *job, const struct surface *surface, int work);
/* Minutes at a rate (enum work) over a whole pass. */
double pass_minutes(const struct pass *pass, int work);

#endif
