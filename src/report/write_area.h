/* JSON of `area`: surfaces in the order of the part list. */
#ifndef REPORT_WRITE_AREA_H
#define REPORT_WRITE_AREA_H

#include "format/json_write.h"
#include "surface/takeoff.h"

void write_area(struct json_write *w, const char *key, const struct job *job,
                const struct surfaces *surfaces);

#endif
