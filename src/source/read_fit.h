/* The rules of finish/fit.h from files: rules/fit.json below the shipped table, and below the shop's own folder. */
#ifndef SOURCE_READ_FIT_H
#define SOURCE_READ_FIT_H

#include "finish/fit.h"
#include "source/finish_table.h"
#include "format/place.h"

/* The shipped rules, then the shop's own; an own rule of the same name takes the place of the shipped one. A folder
 * (NULL: none) without such a file has no rules. Mistakes are added, each at its place. `table` may be NULL: names of
 * finishes are not looked up then. */
struct fit_rules fit_rules_load(const struct reading *reading, const struct finish_folders *folders,
                                const struct finish_table *table);

#endif
