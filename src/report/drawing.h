/* Reports as drawings (SVG). */
#ifndef REPORT_DRAWING_H
#define REPORT_DRAWING_H

#include "base/measure.h"
#include "surface/takeoff.h"
#include "timetable/timetable.h"

struct buf;

enum drawing_paper { PAPER_A4, PAPER_LETTER };

/* Upright, in units of 1/96 inch. */
struct drawing_page {
    double width, height;
};
struct drawing_page drawing_page(enum drawing_paper paper);

/* Appends one SVG document: pages below one another, on each two columns of parts drawn to scale, those that are alike
 * once. Each region is tinted and hatched by its schedule and named in words with its area, so that a wrong number is seen
 * at a glance, in colour, by the colour-blind and in black and white. */
void area_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces, enum unit_system units,
              enum drawing_paper paper);

/* Appends one SVG document. The timetable must be planned. */
void timetable_svg(struct buf *out, const struct timetable *timetable);

/* The same for a page that holds several drawings: each card and each band of days is a drawing of its own, so that none is cut
 * where paper ends. The patterns that they are filled with come once, before all of them. */
void drawing_patterns(struct buf *out);
void area_cards_svg(struct buf *out, const struct job *job, const struct surfaces *surfaces,
                    enum unit_system units, enum drawing_paper paper);
void timetable_bands_svg(struct buf *out, const struct timetable *timetable);

#endif
