/* Every report as JSON. */
#ifndef REPORT_JSON_H
#define REPORT_JSON_H

#include "amount/buy.h"
#include "amount/cost.h"
#include "base/err.h"
#include "finish/finish.h"
#include "format/json_write.h"
#include "plan/chance.h"
#include "plan/day_card.h"
#include "plan/learned.h"
#include "plan/lone.h"
#include "plan/plan.h"
#include "report/busy.h"
#include "surface/takeoff.h"

void write_errors(struct json_write *w, const struct err_list *errors);

/* No errors, the warnings with their places, and what was read of calendars. */
void write_check(struct json_write *w, const struct err_list *warnings, const struct busy_report *busy);

void write_area(struct json_write *w, const char *key, const struct job *job,
                const struct surfaces *surfaces);

void write_buy(struct json_write *w, const char *key, const struct job *job,
               const struct purchases *purchases);

void write_mix(struct json_write *w, const char *key, const struct job *job, const struct mix_cards *cards);

/* A mix without a job: coat and moments are null, the minutes too unless an area was asked. */
void write_lone(struct json_write *w, const struct lone_mix *lone);

/* A mix of one of the job's coats. */
void write_card(struct json_write *w, const struct job *job, const struct mix_card *card);

void write_day(struct json_write *w, const struct day_card *card);

/* `chance` NULL: not asked for, and then not a member. */
void write_timetable(struct json_write *w, const char *key, const struct plan *plan,
                     const struct chance *chance);

void write_chance(struct json_write *w, const char *key, const struct timetable *timetable,
                  const struct chance *chance);

void write_plan(struct json_write *w, const struct plan *plan);

/* How many groups of figures stand on what; a group may be of several kinds. */
struct source_count {
    size_t groups, published, common_practice, from_memory;
};

/* A source is published when it names a year, for then it names a document. */
struct source_count sources_count(const struct finish *const *finishes, size_t count);

/* replaces[i]: the shipped finish whose place an own one takes; NULL: none. */
void write_finishes(struct json_write *w, const struct finish *const *finishes,
                    const struct finish *const *replaces, size_t count);

void write_learned(struct json_write *w, const struct learned *learned);

/* The woods that a part list may name. */
void write_woods(struct json_write *w);

/* `shipped` is what the shop's own file takes the place of: adds `overrides`, figure by figure. NULL: none. */
void write_finish(struct json_write *w, const struct finish *finish, const struct finish *shipped);

/* It reads back as the same finish under the id "my-..."; groups that the finish lacks are told of as well. */
void write_label(struct json_write *w, const struct finish *finish);

/* "by": its tools, the usual one first. */
void write_tools(struct json_write *w, const struct finish *finish);
/* "resists" and "cautions". */
void write_traits(struct json_write *w, const struct finish *finish);

/* Keys: job, currency, rate_per_hour, lines [piece (null: tasks), minutes, labour, materials, sum], total, bought,
 * surplus, planned (the same keys from lines on, without the log; null where there is none). Money that is not known is null. */
void write_cost(struct json_write *w, const struct quote *quote);

#endif
