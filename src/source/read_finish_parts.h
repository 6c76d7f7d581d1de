/* Groups of a finish file, each read into its place in the record. Inside this room. */
#ifndef SOURCE_READ_FINISH_PARTS_H
#define SOURCE_READ_FINISH_PARTS_H

#include "finish/finish.h"
#include "format/json.h"

/* components, kits, mix-by, ratio-tolerance, induction, pot-life. */
void finish_read_components(struct json_at file, int currency_digits, struct finish *finish);

/* coverage, solids, voc; after the components, whose density a coverage by mass needs. */
void finish_read_amounts(struct json_at file, struct finish *finish);

/* times, later-times, wipe-off, polish, late-recoat, between, air. */
void finish_read_times(struct json_at file, struct finish *finish);

#endif
