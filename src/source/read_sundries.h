/* The sundries of job/sundry_rule.h from files: rules/sundries.json below the shipped table, and below the shop's own. */
#ifndef SOURCE_READ_SUNDRIES_H
#define SOURCE_READ_SUNDRIES_H

#include "source/finish_table.h"
#include "format/place.h"
#include "job/sundry_rule.h"

/* The shipped lines, then the shop's own; an own line of the same name takes the place of the shipped one. Mistakes are
 * added, each at its place. */
struct sundry_rules sundry_rules_load(const struct reading *reading, const struct finish_folders *folders);

#endif
