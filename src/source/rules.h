/* Rules as data: what may go over what (finish/fit.h), and what is used up beside finish (job/sundry_rule.h), from
 * rules/fit.json and rules/sundries.json below the shipped table and below the shop's own folder. */
#ifndef SOURCE_RULES_H
#define SOURCE_RULES_H

#include "finish/fit.h"
#include "format/place.h"
#include "job/sundry_rule.h"
#include "source/finish_table.h"

/* The shipped ones, then the shop's own; an own one of the same name takes the place of the shipped one. A folder (NULL:
 * none) without such a file has none. Mistakes are added, each at its place. `table` may be NULL: names of finishes are not
 * looked up then. */
struct fit_rules fit_rules_load(const struct reading *reading, const struct finish_folders *folders,
                                const struct finish_table *table);
struct sundry_rules sundry_rules_load(const struct reading *reading, const struct finish_folders *folders);

#endif
