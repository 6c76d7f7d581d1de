/* What a surface is to the hand and to the finish: how fast it goes, how much it drinks, how much of a spray lands. */
#ifndef AMOUNT_FACTORS_H
#define AMOUNT_FACTORS_H

#include "job/job.h"

/* How a surface comes to the hand. Sticks: boards under 60 mm wide, frames, tapers, mouldings, edges, ends. */
enum handling { HANDLING_FLAT, HANDLING_STICK, HANDLING_ROUND, HANDLING_INSIDE, HANDLING_MESH };

enum handling surface_handling(const struct part *part, enum region region);

/* Share of a rate that such a surface allows: flat 1. */
double handling_ease(enum handling handling);

/* Drink of a coat relative to its coverage: coat `number` (1..) on this surface. The first takes wood x region; the
 * second 1.4 on end grain and MDF edges; then 1. Plywood and MDF have edges all round: their ends are edges. */
double surface_absorb(const struct part *part, enum region region, const struct finish *finish, int number);

/* Share of what leaves the tool that lands: spraying halves on sticks and rounds, where most of the fan misses. */
double surface_transfer(const struct shop *shop, enum tool tool, enum handling handling);

#endif
