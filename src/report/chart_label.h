/* What stands before the rows of a chart: the piece, with its schedule where it has several; a run of pieces that are
 * done alike as "door 1..4". */
#ifndef REPORT_CHART_LABEL_H
#define REPORT_CHART_LABEL_H

#include "report/lanes.h"

struct chart_labels {
    const char **items; /* by lane */
    size_t width;       /* cells of the widest */
};

struct chart_labels chart_labels_make(struct arena *arena, const struct lanes *lanes);

/* Of the lanes first..last together; NULL: their names have nothing in common, or not enough room. */
const char *chart_label_run(struct arena *arena, const struct chart_labels *labels, size_t first,
                            size_t last);

/* The text, or what fits into so many cells with ".." behind. */
const char *chart_label_cut(struct arena *arena, const char *text, size_t width);

#endif
