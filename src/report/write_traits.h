/* Members that a finish has in its own file and in the report on it alike. */
#ifndef REPORT_WRITE_TRAITS_H
#define REPORT_WRITE_TRAITS_H

#include "finish/finish.h"
#include "format/json_write.h"

/* "by": its tools, the usual one first. */
void write_tools(struct json_write *w, const struct finish *finish);
/* "resists" and "cautions". */
void write_traits(struct json_write *w, const struct finish *finish);

#endif
