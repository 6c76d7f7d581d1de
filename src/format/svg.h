/* Drawings as SVG 1.1 that any browser, printer or office program shows: looks are attributes of the shapes themselves
 * (no style sheet, no script, no font file), so that they also stand in a page which forbids inline styles.
 *
 * Lengths are pixels, y grows downwards. A `look` is a string of attributes written by the caller, such as
 * `fill="#333" stroke="none"`; it goes out as it is. Every other text is escaped. */
#ifndef FORMAT_SVG_H
#define FORMAT_SVG_H

#include "base/buf.h"

struct svg_box {
    double x, y, width, height;
};

/* The root element: its size, a white ground and `title`, which a reader for the blind speaks. */
void svg_begin(struct buf *out, double width, double height, const char *title);
void svg_end(struct buf *out);

/* A pattern for fills, `url(#id)`: `lines` over `ground` at 45 degrees, level or upright, or dots. */
enum svg_hatch { SVG_HATCH_RISING, SVG_HATCH_FALLING, SVG_HATCH_DOTS, SVG_HATCH_LEVEL, SVG_HATCH_UPRIGHT };
struct svg_pattern {
    const char *id;
    enum svg_hatch hatch;
    const char *ground, *ink; /* colours */
    double step, weight;      /* between lines, and of a line or a dot */
};
void svg_pattern(struct buf *out, struct svg_pattern pattern);

/* `tip` (also below) is shown while the pointer rests on it; NULL: none. */
void svg_rect(struct buf *out, struct svg_box box, const char *look, const char *tip);
/* From one corner of the box to the other. */
void svg_line(struct buf *out, struct svg_box box, const char *look);
/* `data` as in the d attribute of a path; svg_number and letters make it. */
void svg_path(struct buf *out, const char *data, const char *look, const char *tip);
void svg_text(struct buf *out, double x, double y, const char *look, const char *text);

/* A number with at most two decimals; an escaped text. */
void svg_number(struct buf *out, double number);
void svg_escape(struct buf *out, const char *text);

/* About how wide a text is in a sans-serif face of that size, rather too much than too little; and the text, or as much
 * of it as fits with "..." behind. */
double svg_text_width(const char *text, double size);
const char *svg_fitted(struct arena *arena, const char *text, double size, double width);

#endif
