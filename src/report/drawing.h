/* Reports as drawings (SVG). */
#ifndef REPORT_DRAWING_H
#define REPORT_DRAWING_H

#include "base/measure.h"
#include "surface/takeoff.h"
#include "timetable/timetable.h"

struct buf;

enum { AREA_SVG_MOST = 400 }; /* parts drawn; of the rest only the number is told */

/* Appends one SVG document. */
void area_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces,
              enum unit_system units);

/* Appends one SVG document. The timetable must be planned. */
void timetable_svg(struct buf *out, const struct timetable *timetable);

#endif
