/* A job without mistakes: what is worth a look all the same. */
#ifndef REPORT_TABLE_CHECK_H
#define REPORT_TABLE_CHECK_H

#include "base/err.h"
#include "report/table.h"
#include "job/job.h"

void table_check(struct screen *screen, const struct job *job, const struct err_list *warnings);

#endif
