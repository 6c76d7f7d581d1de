/* What the log says was done, taken out of the work that is to be planned: what is left waits for the real moments, and its
 * films dry in the air as it was. */
#ifndef TIMETABLE_FACTS_H
#define TIMETABLE_FACTS_H

#include "timetable/operations.h"

struct arena;

/* Whether an entry of the log names an operation: its id, or that of the whole piece, or parts that hold its own. */
bool log_names(const struct log_entry *entry, const struct operation *operation);

/* What the log asks to leave out or to repeat, as far as that holds. */
size_t facts_asked(struct arena *arena, const struct log *log, const struct log_entry ***asked);

/* The operations that are still to be done, with the facts beside them; the same where the log names none of them.
 *
 * A fact is never refused. Work that was not recorded though later work of its row was is passed over. What a film that was
 * laid asks of the next step becomes that step's earliest and latest start; of two limits the tighter. */
const struct operations *facts_settle(struct arena *arena, const struct operations *all);

/* Where all work is done in one room, the dust of what was done settles before any coat, whichever of the joined jobs it is of. */
void facts_settle_dust(struct operations *left);

/* Whether two were done with one set-up, or one filling of the tool: recorded of one batch, and of one kind. */
bool facts_are_one_batch(const struct fact *a, const struct fact *b);

/* Minutes that it took, without the breaks of the shop in between, as somebody measured them; 0: nobody did. */
int64_t fact_measured_min(struct arena *arena, const struct fact *fact);

/* Where the parts of a piece were not all done together: the numbers of parts after which it is divided, rising, each above 0
 * and below `parts`. */
size_t facts_cuts(struct arena *arena, const struct job *job, size_t piece, size_t parts, size_t **cuts);

#endif
