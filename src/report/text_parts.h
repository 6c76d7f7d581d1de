/* What several screens of text, and the printed sheet, share. Inside text_*.c and sheet*.c. */
#ifndef REPORT_TEXT_PARTS_H
#define REPORT_TEXT_PARTS_H

#include "amount/mix.h"
#include "plan/day_card.h"
#include "plan/plan.h"
#include "report/table.h"
#include "timetable/timetable.h"

/* A heading and one line each, the first `most` of them; nothing where there is no advice. Where all are told the change
 * stands below, in one line, however long: it is there to be copied. */
void show_advice(struct screen *screen, const struct plan *plan, size_t most);

void show_states(struct screen *screen, const struct timetable *timetable);
/* The same for a page: of many pieces only when the last is so far. */
void show_states_short(struct screen *screen, const struct timetable *timetable);

/* Which batches: those that start in [from_min, to_min), at most `most` of them; `whole`: with the moments and amounts of
 * their pieces, mixes and drying. */
struct batch_range {
    int64_t from_min, to_min;
    size_t most;
    bool whole;
};

/* Begins a table with the columns of batches; with several people a column names the person, and where `slack` the
 * last one says the slack of a batch. */
void table_batches_init(struct table *table, struct arena *arena, const struct job *job, bool slack);

/* Notes of when the films of a batch are so far, by state: "dry to recoat Tue 4 May 15:50 to 17:10, next coat before Wed 5 May
 * 08:00". */
void table_drying(struct table *table, const struct timetable *timetable,
                  const struct timetable_batch *batch);

/* Adds the batches of the range, each day a group, days without work one line; where `most` leaves some out, a note says
 * how many. */
void table_batches_add(struct table *table, const struct screen *screen, const struct plan *plan,
                       struct batch_range range);

/* A table for batches of a day card, and one of them as a group: its hours and work, as notes what must be true before, mixes and
 * cautions, as rows the pieces with when, what, how much and how long. To whoever is not `person` it is help. */
void table_day_init(struct table *table, struct arena *arena);
void table_day_batch(struct table *table, struct screen *screen, const struct day_card *card,
                     const struct day_batch *batch, int person);

/* When the piece, or the last of all (SIZE_MAX), reaches the state; INT64_MIN: it has no coat. */
int64_t piece_reaches(const struct timetable *timetable, size_t piece, enum finish_state state);

/* What a mix is for: "top, back; doors (lot 2 of 2), parts 1 to 7 of 12". */
const char *card_served(struct arena *arena, const struct mix_card *card);

/* "54.3 g" */
const char *pour_grams(struct arena *arena, double mass_g);
/* The component's name, or "thinner". */
const char *pour_name(const struct finish *finish, const struct pour *pour);
/* The pour of a rank, from 0. */
const struct pour *pour_at(const struct mix *mix, size_t rank);

/* "1 h 20 min", in whole minutes. */
const char *minutes_told(struct arena *arena, double minutes);
/* "let it stand 15 min, apply it within 3 h; pot life 4 h". */
const char *mix_life(struct arena *arena, const struct finish *finish, const struct mix *mix);

/* The largest first, with running totals for a scale that is not zeroed; the ladder around it; ratio, waste and the
 * smallest mix by scale and by tool, each with its remedy. */
void show_pours(struct screen *screen, const struct finish *finish, const struct mix *mix, enum tool by);

/* Ready when, how much to spare or how late; where there is no plan the reason. */
void show_verdict(struct screen *screen, const struct timetable *timetable);

/* What else is used up: a table under its own heading, nothing where there is none. */
void show_sundries(struct screen *screen, const struct sundries *sundries);

#endif
