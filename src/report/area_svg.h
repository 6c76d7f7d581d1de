/* The parts of a job drawn to scale, each region tinted and hatched by its schedule and labelled with its area, so that
 * a wrong number is seen at a glance. It reads in colour, by the colour-blind and in black and white: schedules differ in
 * hatching as well as in colour, and every region is named in words. */
#ifndef REPORT_AREA_SVG_H
#define REPORT_AREA_SVG_H

#include "base/measure.h"
#include "surface/takeoff.h"

struct buf;

enum { AREA_SVG_MOST = 400 }; /* parts drawn; of the rest only the number is told */

/* Appends one SVG document. */
void area_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces,
              enum unit_system units);

#endif
