/* Where the hand works in one go: a piece's schedule, on one side of a flat piece or all round; and what each of its
 * surfaces is to the hand and to the finish: how fast it goes, how much it absorbs, how much of a spray lands. */
#ifndef AMOUNT_PASS_H
#define AMOUNT_PASS_H

#include "surface/takeoff.h"

enum side { SIDE_ALL, SIDE_BACK, SIDE_FACE };

/* Parts of a piece by number: those of its rows in the order of the part list, each row's quantity one by one. */
struct part_run {
    size_t from, to; /* to 0: all of them */
};

struct pass {
    const struct job *job;
    const struct surfaces *surfaces;
    size_t piece, schedule;
    enum side side; /* SIDE_BACK: back only; SIDE_FACE: everything else; SIDE_ALL: all of the schedule */
    struct part_run lot;
    bool patch; /* the piece's patch alone; else all but that */
};

/* The next surface of a pass, *i (0 at first) behind it; NULL: no more. Surfaces of one part follow each other. */
const struct surface *pass_next(const struct pass *pass, size_t *i);

/* How many parts of the surface's row are in the pass: 1 to the row's quantity. */
int pass_row_parts(const struct pass *pass, const struct surface *surface);
/* m2 of one surface that are in the pass. */
double pass_surface_m2(const struct pass *pass, const struct surface *surface);

/* m2 of a pass; the number of parts (qty counted) that it touches. */
double pass_area_m2(const struct pass *pass);
int pass_parts(const struct pass *pass);

/* True when a piece laid flat has something scheduled on its back and on its face. */
bool piece_has_two_sides(const struct job *job, const struct surfaces *surfaces, size_t piece);

/* Minutes at a rate (enum work) over one surface of one part: A x work / (rate x ease). */
double surface_minutes(const struct job *job, const struct surface *surface, int work);
/* Minutes at a rate (enum work) over a whole pass. */
double pass_minutes(const struct pass *pass, int work);

/* How a surface comes to the hand. Sticks: boards under 60 mm wide, tapers, mouldings, edges, ends. */
enum form { FORM_FLAT, FORM_STICK, FORM_ROUND, FORM_SPINDLE, FORM_INSIDE, FORM_MESH };

enum form surface_form(const struct part *part, enum region region);

/* Share of a rate that such a surface allows: flat 1. */
double form_ease(enum form form);

/* Absorption of a coat relative to its coverage: coat `number` (1..) on this surface. The first takes wood x region; the
 * second 1.4 on end grain and MDF edges; then 1. Plywood and MDF have edges all round: their ends are edges. */
double surface_absorb(const struct part *part, enum region region, const struct finish *finish, int number);

/* Share of what leaves the tool that lands: spraying halves on sticks and rounds, where most of the fan misses. */
double surface_transfer(const struct shop *shop, enum tool tool, enum form form);

#endif
