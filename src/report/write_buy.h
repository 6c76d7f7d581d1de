/* JSON of `buy`. `reserve` is a share, prices are of one pack. A kit stands in the list of each component that it
 * holds, its price with the first one, so that counts times prices add up to the cost. */
#ifndef REPORT_WRITE_BUY_H
#define REPORT_WRITE_BUY_H

#include "amount/buy.h"
#include "format/json_write.h"

void write_buy(struct json_write *w, const char *key, const struct job *job,
               const struct purchases *purchases);

#endif
