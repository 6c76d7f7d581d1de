/* A finish file to begin with, for the can in hand: the figures of the nearest finish of the table, and beside each
 * group, under `sources`, what to look for on the label. */
#ifndef REPORT_WRITE_LABEL_H
#define REPORT_WRITE_LABEL_H

#include "finish/finish.h"
#include "format/json_write.h"

/* It reads back as the same finish under the id "my-..."; groups that the finish lacks are told of as well. */
void write_label(struct json_write *w, const struct finish *finish);

#endif
