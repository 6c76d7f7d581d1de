/* Every report as people read it on a terminal. */
#ifndef REPORT_TEXT_H
#define REPORT_TEXT_H

#include "base/err.h"
#include "finish/finish.h"
#include "job/job.h"
#include "amount/cost.h"
#include "plan/chance.h"
#include "plan/day_card.h"
#include "plan/learned.h"
#include "plan/lone.h"
#include "plan/plan.h"
#include "report/table.h"
#include "surface/takeoff.h"
#include "timetable/timetable.h"

/* The woods that a part list may name: grain, traits, other names. */
void show_woods(struct screen *screen);

/* Both end with how many rows, parts and m2 were read: a decimal point too few shows in them. */
void show_check(struct screen *screen, const struct job *job, const struct surfaces *surfaces,
                const struct err_list *warnings, int64_t now_min);

void show_area(struct screen *screen, const struct job *job, const struct surfaces *surfaces);

/* "oil 1.64 m2, varnish 1.28 m2, together 2.92 m2; ...": by schedule, for the page of a plan. */
void show_area_short(struct screen *screen, const struct job *job, const struct surfaces *surfaces);

void show_buy(struct screen *screen, const struct plan *plan);

/* The lines of what to buy alone, for the page of a plan. */
void show_buy_short(struct screen *screen, const struct plan *plan);

/* Where the shopping may run short, needs one lot, or lacks a price. */
void show_buy_risks(struct screen *screen, const struct plan *plan);

/* When a finish is first laid; INT64_MAX without a timetable. */
int64_t finish_first_min(const struct timetable *timetable, const struct finish *finish);

void show_explain(struct screen *screen, const struct plan *plan, const struct purchase *purchase);

void show_mix(struct screen *screen, const struct plan *plan);

/* One line a mix: when, what, how much of each, apply by; of more than `most` only how many there are. */
void show_mix_short(struct screen *screen, const struct plan *plan, size_t most);

void show_lone(struct screen *screen, const struct lone_mix *lone);

/* Prints nothing where there is no plan. */
void show_chart(struct screen *screen, const struct timetable *timetable);

void show_timetable(struct screen *screen, const struct plan *plan);

/* One row a job, the first delivery first. Nothing where there is no timetable. */
void show_together(struct screen *screen, const struct plan *const *plans, size_t count);

void show_chance(struct screen *screen, const struct timetable *timetable, const struct chance *chance);

/* `now_min` decides which days are shown; the warnings of the reading are told among what was assumed. */
void show_plan(struct screen *screen, const struct plan *plan, int64_t now_min,
               const struct err_list *warnings, const struct unrecorded *unrecorded);

/* Batch by batch, for each person of the card; what must be true before each, what to take care of, and what is next. */
void show_day(struct screen *screen, const struct day_card *card);

/* Coverage, minutes and loss of each finish and tool, the table's and the shop's; what became of the files. */
void show_learned(struct screen *screen, const struct learned *learned);

void show_finishes(struct screen *screen, const struct finish *const *finishes, size_t count);

/* "38 groups of figures: 5 name a published source, ...". */
void show_source_count(struct screen *screen, const struct finish *const *finishes, size_t count);

/* `shipped` is what the shop's own file takes the place of: the two are told apart figure by figure. NULL: nothing. */
void show_finish(struct screen *screen, const struct finish *finish, const struct finish *shipped);

void show_cost(struct screen *screen, const struct quote *quote);

/* The arithmetic of a part, for whoever wants to check it with a pencil: each region's formula, the numbers in it in mm or
 * in inches, what grooves add and what is covered, and what all qty together come to and get. False, and nothing added,
 * when the part's sizes are impossible: the mistakes are in `errors`. */
bool show_part(struct screen *screen, const struct job *job, const struct part *part,
               struct err_list *errors);

#endif
