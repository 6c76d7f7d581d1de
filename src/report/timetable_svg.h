/* The timetable as a drawing: pieces against days, with hands-on work, drying, windows, closed hours, the ready moment and
 * the delivery. It reads in colour, by the colour-blind and in black and white: whatever differs in colour differs in
 * shape, hatching or words too. */
#ifndef REPORT_TIMETABLE_SVG_H
#define REPORT_TIMETABLE_SVG_H

#include "timetable/timetable.h"

struct buf;

/* Appends one SVG document. The timetable must be planned. */
void timetable_svg(struct buf *out, const struct timetable *timetable);

#endif
