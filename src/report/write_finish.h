/* JSON of one finish: every figure in base units, and its sources. */
#ifndef REPORT_WRITE_FINISH_H
#define REPORT_WRITE_FINISH_H

#include "finish/finish.h"
#include "format/json_write.h"

/* `shipped` is what the shop's own file takes the place of: adds `overrides`, figure by figure. NULL: none. */
void write_finish(struct json_write *w, const struct finish *finish, const struct finish *shipped);

#endif
