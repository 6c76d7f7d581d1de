/* One finish for people: each group of figures beside its source. */
#ifndef REPORT_TABLE_FINISH_H
#define REPORT_TABLE_FINISH_H

#include "finish/finish.h"
#include "report/table.h"

/* `shipped` is what the shop's own file takes the place of: the two are told apart figure by figure. NULL: nothing. */
void table_finish(struct screen *screen, const struct finish *finish, const struct finish *shipped);

#endif
