/* The work on one piece: its schedules, the coats of a flat piece's two sides in rounds. */
#ifndef TIMETABLE_CHAIN_H
#define TIMETABLE_CHAIN_H

#include "timetable/emit.h"

/* Emits every operation of the piece, its `after` excepted. firsts[0..*first_count) are the operations with which its
 * independent rows begin; room for one per schedule and side. */
void chain_emit_piece(struct builder *builder, size_t piece, int *firsts, size_t *first_count);

#endif
