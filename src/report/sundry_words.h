/* Sundries in words, for the shopping list in all its forms. */
#ifndef REPORT_SUNDRY_WORDS_H
#define REPORT_SUNDRY_WORDS_H

#include "report/table.h"
#include "plan/plan.h"

/* "abrasive disc 150 mm, grit 180"; "thinner, mineral spirits". */
const char *sundry_name(struct arena *arena, const struct sundry *sundry);
/* "3 x", "120 ml", "2 pairs". */
const char *sundry_amount(struct arena *arena, const struct sundry *sundry, enum unit_system units);
/* Whether it is counted in millilitres, and not in pieces. */
bool sundry_is_liquid(const struct sundry *sundry);

/* A table of them under its own heading; nothing where there are none. */
void table_sundries(struct screen *screen, const struct sundries *sundries);
/* All in one sentence, for the page of a plan. */
void table_sundries_short(struct screen *screen, const struct sundries *sundries);

#endif
