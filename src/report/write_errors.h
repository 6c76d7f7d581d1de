/* JSON of mistakes, and of a check that found none. */
#ifndef REPORT_WRITE_ERRORS_H
#define REPORT_WRITE_ERRORS_H

#include "base/err.h"
#include "format/json_write.h"

void write_errors(struct json_write *w, const struct err_list *errors);

/* No errors, and the warnings with their places. */
void write_check(struct json_write *w, const struct err_list *warnings);

#endif
