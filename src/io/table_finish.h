/* One finish for people: each group of figures beside its source. */
#ifndef IO_TABLE_FINISH_H
#define IO_TABLE_FINISH_H

#include "finish/finish.h"
#include "io/table.h"

/* `shipped` is what the shop's own file takes the place of: the two are told apart figure by figure. NULL: nothing. */
void table_finish(struct screen *screen, const struct finish *finish, const struct finish *shipped);

#endif
