/* The card for the hand that pours: what goes into the cup in which order, and what is so about it. */
#ifndef REPORT_TABLE_POUR_H
#define REPORT_TABLE_POUR_H

#include "amount/mix.h"
#include "report/table.h"

/* "54.3 g" */
const char *pour_grams(struct arena *arena, double mass_g);
/* The component's name, or "thinner". */
const char *pour_name(const struct finish *finish, const struct pour *pour);
/* The pour of a rank, from 0. */
const struct pour *pour_at(const struct mix *mix, size_t rank);

/* "1 h 20 min", in whole minutes. */
const char *minutes_told(struct arena *arena, double minutes);
/* "let it stand 15 min, lay it within 3 h; the pot is dead after 4 h". */
const char *mix_life(struct arena *arena, const struct finish *finish, const struct mix *mix);

/* The largest first, with running totals for a scale that is not zeroed; the ladder around it; ratio, waste and the
 * smallest mix by scale and by tool, each with its remedy. */
void table_pours(struct screen *screen, const struct finish *finish, const struct mix *mix, enum tool by);

#endif
