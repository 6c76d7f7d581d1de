/* Lots: parts of a piece that go through every step together, and the room that they take while they dry. */
#ifndef TIMETABLE_LOT_H
#define TIMETABLE_LOT_H

#include "timetable/emit.h"

struct arena;

/* The parts of lot `number` (from 1) of so many: neighbours, of as nearly equal minutes as whole parts allow. */
struct part_run lot_run(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                        size_t piece, int number, int lots);

/* m2 that the parts of a run of a piece take on the rack; surfaces_footprint_m2(). */
double lot_rack_m2(const struct job *job, const struct surfaces *surfaces, size_t piece, struct part_run run);

/* Per piece: as it says, else one, and more where the rack or the longest day demand it, never more than its parts. */
int *lots_least(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                struct shop_limits limits);

/* Raises the lots of pieces with more parts that say nothing to `most`; false where there is none. */
bool lots_raise(struct arena *arena, const struct job *job, const int *least, int most, int *lots);

#endif
