/* The row of calls: part list to surfaces, coats, timetable, mixes and purchases. Nothing later changes anything
 * earlier. */
#ifndef PLAN_PLAN_H
#define PLAN_PLAN_H

#include "amount/buy.h"
#include "amount/cost.h"
#include "amount/mix.h"
#include "amount/sundry.h"
#include "plan/advice.h"
#include "plan/caution.h"
#include "timetable/planning.h"

/* Parts of a coat that a mix is laid on: from one to another, from 1, of so many of its lot. */
struct mix_serves {
    const struct operation *coat;
    int from_part, to_part, parts;
};

/* One mix as it is to be made for a coat in the timetable. */
struct mix_card {
    const struct finish *finish;
    int coat;                        /* coat number of its (first) step */
    int of_finish;                   /* counted by the finish */
    const struct mix_serves *serves; /* in the order of work */
    size_t serves_count;
    int number, of;  /* this mix of so many for the coat */
    double volume_l; /* asked: finish and thinner */
    enum tool by;
    const struct mix *mix;
    double apply_min; /* minutes of the units that it serves */
    int64_t mixed_at_min;
    int64_t apply_by_min;      /* end of the working time; INT64_MAX: no pot life */
    int64_t pot_life_ends_min; /* INT64_MAX: it has none */
    const char *step_id;       /* the (first) apply that it serves */
};

struct mix_cards {
    struct mix_card *items; /* by mixed_at, then step id, then number */
    size_t count;
    struct mix_warning *warnings;
    size_t warning_count;
    bool impossible; /* a mix cannot be made as asked */
};

struct plan_options {
    struct timetable_options timetable;
    int64_t now_min;
    bool advice; /* say what would help where it is late or impossible: costs a plan for each alternative */
};

struct plan {
    const struct job *job;
    const struct surfaces *surfaces;
    const struct operations *operations;
    const struct timetable *timetable;
    struct advice_list advice; /* empty where it was not asked for, or the plan is in time */
    const struct mix_cards *mixes;
    const struct purchases *purchases;
    const struct sundries *sundries; /* estimates */
    const struct plan_caution *cautions;
    size_t caution_count;
};

/* Steps that an earlier plan had done by now and that no entry of the log names. */
struct unrecorded {
    size_t count;
    int64_t until_min; /* the end of the last */
};

/* NULL when something was added to `errors`; the missed delivery is no error. */
struct plan *plan_make(struct arena *arena, const struct job *job, struct plan_options options,
                       struct err_list *errors);

/* Several jobs that share a shop, which each must describe alike; a plan each, in their order. NULL when something was
 * added to any job's own list of errors. */
struct plan **plan_several(struct arena *arena, const struct job *const *jobs, size_t count,
                           struct plan_options options, struct err_list *const *errors);

/* Whether none that a mix serves before is on the same piece. */
bool mix_serves_new_piece(const struct mix_card *card, size_t serves);

/* The single arrows behind the timetable. Without a dated plan the day of the last coat is the delivery's, and cards have
 * no moment (INT64_MAX). */
struct mix_cards *mix_cards_make(struct arena *arena, const struct timetable *timetable);
struct purchases *plan_purchases(struct arena *arena, const struct timetable *timetable);
/* What the whole job takes, what was laid already too. */
struct purchases *plan_purchases_in_all(struct arena *arena, const struct timetable *timetable);

struct sundries *plan_sundries(struct arena *arena, const struct timetable *timetable,
                               const struct mix_cards *mixes);

/* Whether somebody must breathe supplied air. */
bool plan_asks_for_supplied_air(const struct plan *plan);

/* The cautions of a plan that belong to the hours of one batch: of its finish alone. Where supplied air is asked for on that
 * day no other respirator is named. */
struct plan_caution *batch_cautions(struct arena *arena, const struct plan *plan,
                                    const struct timetable_batch *batch, bool supplied_air, size_t *count);

/* Whether an old finish is taken off: a task by its words. */
bool task_strips(const struct operation *task);

/* Fills in the cautions of a plan whose operations and mixes stand. A sprayed finish with isocyanates needs supplied air:
 * it is not among those whose vapour or mist a respirator keeps off. `shop` are the timetables of all jobs that share it. */
void plan_add_cautions(struct arena *arena, struct plan *plan, struct timetable *const *shop, size_t count);

/* The most fresh air that is asked for at once by coats of which one at least is the job's own: those of a batch are counted
 * together, and with them those of every batch begun before their films are free of dust, in all timetables of the shop.
 * Shares of limits add up (29 CFR 1910.1000(d)(2)(i), mixtures). Without a plan all that may go into one batch counts as one.
 * No coats: nothing gives off a vapour with a limit. */
struct plan_caution plan_fresh_air(struct arena *arena, const struct timetable *own,
                                   struct timetable *const *shop, size_t count);

/* Litres of one apply: what it lays, and its share of what stays in the tool of its batch. */
struct litres plan_litres(const struct timetable *timetable, size_t apply);

/* Litres that a coat took which was laid already: as recorded, else as planned. */
double fact_litres(const struct fact *fact);

/* Minutes of every hands-on step and litres of every coat as planned; without a timetable those of all operations but
 * late scuffs. What was done costs what it took. Thinner and sundries have no price here. `purchases` give the prices. */
struct costs *plan_costs(struct arena *arena, const struct plan *plan, const struct purchases *purchases);

/* What a job costs, as it became with what was recorded of it, and as it was planned without. */
struct quote {
    const struct plan *plan;
    const struct purchases *purchases; /* in all, of what was laid already too */
    const struct costs *costs;
    const struct plan *first_plan; /* NULL: nothing was recorded, or it was not planned */
    const struct costs *first_costs;
};

struct quote plan_quote(struct arena *arena, const struct plan *plan, const struct plan *first_plan);

/* The plans of jobs that share a shop as they were before anything was recorded. NULL: none has a log, or no plan is found
 * without. */
struct plan **plan_without_logs(struct arena *arena, const struct job *const *jobs, size_t count,
                                struct plan_options options);

#endif
